//! What the tests share: a tank with its plan, a log, a day.

use jiff::ZonedDateTime;
use logbook::{Entry, Kept, Reading, Sure, What};
use recipe::Plan;
use setup::{Setup, Tank};
use signs::{Cause, Finding};

/// A middling tap, ten fish, 100 L, told so that nothing in it is assumed that a test leans on.
pub const HUNDRED: &str = "[glass]\ninner_length = \"100 cm\"\ninner_width = \"40 cm\"\ninner_height = \"27 cm\"\n\
     thickness = \"6 mm\"\nfill_below_rim = \"2 cm\"\n[ground]\ndepth_front = \"0 cm\"\ndepth_back = \"0 cm\"\n[tap]\n\
     calcium = \"60 mg/L\"\nmagnesium = \"8 mg/L\"\nsodium = \"15 mg/L\"\npotassium = \"2 mg/L\"\nalkalinity = \"8 °dH\"\n\
     chloride = \"25 mg/L\"\nsulfate = \"30 mg/L\"\nnitrate = \"NITRATE mg/L NO3\"\nphosphate = \"0.1 mg/L PO4\"\nph = 7.6\n\
     copper = \"0.001 mg/L\"\ndisinfectant = \"none\"\n[animals]\nfish = 10\nstart_test_passed = true\n\
     [food]\nper_day = \"0.3 g a day\"\n[habits]\nchange = \"40 %\"\nevery = \"7 days\"\n";

/// A tank whose tap holds so much nitrate, with some more lines.
pub fn tank(nitrate: f64, more: &str) -> (Tank, Plan) {
    of(&HUNDRED.replace("NITRATE", &nitrate.to_string()), more)
}

/// A tank from its text.
pub fn of(text: &str, more: &str) -> (Tank, Plan) {
    let setup = Setup::read("tank.toml", &format!("{text}{more}")).unwrap_or_else(|faults| panic!("{faults}"));
    let tank = setup.tank().unwrap();
    assert!(tank.questions.is_empty(), "{:?}", tank.questions);
    let plan = recipe::plan(&tank);
    (tank, plan)
}

/// A day in June.
pub fn now() -> ZonedDateTime {
    jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap()
}

/// An entry some days ago.
pub fn entry(id: u64, days_ago: i64, what: What) -> Kept {
    use jiff::ToSpan;
    Kept { id, entry: Entry { at: now().checked_sub(days_ago.days()).unwrap(), what, note: String::new() } }
}

/// A reading with its kit's own error left to the table.
pub fn read(of: &str, value: f64) -> Reading {
    Reading { of: of.to_owned(), value, below: false, error: Some(0.0), kit: None, sure: Sure::Plain }
}

/// What is seen and read just now, with an empty log.
pub fn seen((tank, plan): &(Tank, Plan), sights: &[&str], readings: &[Reading]) -> Vec<Finding> {
    signs::judge_seen(tank, plan, &[], &now(), sights, readings)
}

/// A cause of a finding.
pub fn cause<'f>(finding: &'f Finding, key: &str) -> &'f Cause {
    finding.causes.iter().find(|cause| cause.key == key).unwrap_or_else(|| panic!("{key} in {finding:#?}"))
}

/// All words that a finding says.
pub fn words(finding: &Finding) -> String {
    let change = finding.change.as_ref().map_or("", |change| change.text.as_str());
    format!("{} {} {change} {}", finding.name, finding.says, finding.unknown)
}
