//! A tank of round figures from a setup text, and what a trouble works out of it.

use jiff::ZonedDateTime;
use logbook::{Entry, Kept, What};
use recipe::Answer;
use setup::Setup;
use trouble::{Case, Outcome, Sum, Told, Worked, outcomes, worked};

/// Many fish, carbon dioxide, a hard tap whose ammonia and kind of chlorine nobody told: by itself it keeps a change to some 9 %.
pub const HEAVY: &str = r#"
[tank]
country = "eu"
temperature = "26 °C"
co2 = "20 mg/L"
[glass]
inner_length = "120 cm"
inner_width = "40 cm"
inner_height = "50 cm"
thickness = "10 mm"
[tap]
calcium = "120 mg/L"
magnesium = "15 mg/L"
alkalinity = "17 °dH"
nitrate = "40 to 50 mg/L NO3"
ph = 7.3
total_chlorine = "0.3 mg/L"
temperature = "7 to 14 °C"
[light]
energy = "high"
[feeding]
wish = "plenty"
[animals]
fish = 70
start_test_passed = true
[habits]
change = "60 %"
every = "7 days"
"#;

/// 100 cm x 50 cm, 40 cm of water without ground: 200 L; a middling hard tap without chlorine, salts by the bottle.
pub const TANK: &str = r#"
[tank]
temperature = "25 °C"
country = "eu"
[glass]
inner_length = "100 cm"
inner_width = "50 cm"
inner_height = "45 cm"
fill_below_rim = "5 cm"
thickness = "10 mm"
[ground]
kind = "gravel"
depth_front = "0 cm"
depth_back = "0 cm"
[tap]
ph = "7.4"
temperature = "12 °C"
disinfectant = "none"
alkalinity = "2.8 meq/L"
sodium = "15 mg/L"
potassium = "2 mg/L"
calcium = "60 mg/L"
magnesium = "8 mg/L"
chloride = "22 mg/L"
sulfate = "35 mg/L"
nitrate = "12 mg/L NO3"
phosphate = "0.3 mg/L PO4"
[animals]
fish = 20
start_test_passed = true
"#;

/// Now: a Tuesday afternoon.
pub fn now() -> ZonedDateTime {
    jiff::civil::date(2026, 6, 9).at(15, 0, 0, 0).in_tz("UTC").unwrap()
}

/// The answer for the tank with some fields rewritten.
pub fn answer(fields: &[(&str, &str)]) -> Answer {
    answer_of(TANK, fields)
}

/// The answer for another tank with some fields rewritten.
pub fn answer_of(text: &str, fields: &[(&str, &str)]) -> Answer {
    let mut setup = Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}"));
    for (field, text) in fields {
        setup = setup.with(field, text).unwrap_or_else(|faults| panic!("{faults}"));
    }
    recipe::answer(&setup).unwrap()
}

/// What was read.
pub fn told(readings: &[(&str, &str)]) -> Told {
    let mut told = Told::default();
    for (key, text) in readings {
        told.take(key, text).unwrap_or_else(|fault| panic!("{fault}"));
    }
    told
}

/// What a trouble makes of the tank.
pub fn work(trouble: &str, fields: &[(&str, &str)], readings: &[(&str, &str)]) -> Worked {
    with_log(trouble, fields, readings, &[])
}

/// The same with a logbook: hours ago, and what.
pub fn with_log(trouble: &str, fields: &[(&str, &str)], readings: &[(&str, &str)], log: &[(f64, What)]) -> Worked {
    work_of(TANK, trouble, fields, readings, log)
}

/// The same of another tank.
pub fn work_of(
    text: &str,
    trouble: &str,
    fields: &[(&str, &str)],
    readings: &[(&str, &str)],
    log: &[(f64, What)],
) -> Worked {
    let answer = answer_of(text, fields);
    let mut told = told(readings);
    let log: Vec<Kept> = log.iter().zip(1..).map(|((ago, what), id)| kept(id, *ago, what.clone())).collect();
    told.hear(&log, &now());
    let all = outcomes(&answer);
    let case: Case = all.first().map(|outcome: &Outcome| outcome.case(&told)).unwrap();
    worked(trouble, &case, &log, &now())
}

/// A reading of the log, in the unit of its row.
pub fn read(of: &str, value: f64) -> What {
    let sure = logbook::Sure::Plain;
    What::Test(logbook::Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure })
}

/// A line of the log.
pub fn kept(id: u64, hours_ago: f64, what: What) -> Kept {
    let at = now().checked_sub(jiff::SignedDuration::from_secs((hours_ago * 3600.0) as i64)).unwrap();
    Kept { id, entry: Entry { at, what, note: String::new() } }
}

/// The sum of a key; it must be there.
pub fn sum<'a>(worked: &'a Worked, key: &str) -> &'a Sum {
    worked.sums.iter().find(|sum| sum.key == key).unwrap_or_else(|| panic!("no {key}: {worked:#?}"))
}

/// All that a sum says.
pub fn words(sum: &Sum) -> String {
    format!("{} {} {} {}", sum.head, sum.says.join(" "), sum.why.sum, sum.why.words)
}

/// A figure of a sum.
pub fn figure(sum: &Sum, name: &str) -> f64 {
    *sum.figures.get(name).unwrap_or_else(|| panic!("no {name}: {:?}", sum.figures))
}

/// Within.
pub fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}
