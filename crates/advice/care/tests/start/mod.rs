//! Tanks, logs and sentences for the tests of starts, absences and moves.

use jiff::{ToSpan, ZonedDateTime};
use logbook::{Entry, Kept, Reading, Sure, What};
use recipe::{Answer, Note, Plan};
use setup::{Setup, Tank};

/// A tank, settled: its text, its values, its plan.
pub struct Settled {
    pub setup: Setup,
    pub tank: Tank,
    pub plan: Plan,
}

/// What follows from a setup file without open questions.
pub fn settled(text: &str) -> Settled {
    let setup = Setup::read("test.toml", text).unwrap_or_else(|faults| panic!("{faults}"));
    match recipe::answer(&setup).unwrap_or_else(|faults| panic!("{faults}")) {
        Answer::Settled { tank, plan } => Settled { setup, tank: *tank, plan: *plan },
        Answer::Open { question, .. } => panic!("open: {}", question.ask),
    }
}

/// Glass of 100 × 50 cm and 40 cm of water with gravel of 5 cm and no stones.
macro_rules! glass {
    () => {
        r#"
[tank]
country = "eu"
[glass]
inner_length = "100 cm"
inner_width = "50 cm"
inner_height = "43 cm"
fill_below_rim = "3 cm"
[ground]
kind = "gravel"
depth_front = "5 cm"
depth_back = "5 cm"
porosity = "40 %"
"#
    };
}

/// The glass alone.
pub const GLASS: &str = glass!();

/// The same with a tap of round figures; nobody lives in it.
pub const EMPTY: &str = concat!(
    glass!(),
    r#"[tap]
calcium = "60 mg/L"
magnesium = "8 mg/L"
sodium = "15 mg/L"
potassium = "2 mg/L"
alkalinity = "2.8 meq/L"
chloride = "22 mg/L"
sulfate = "35 mg/L"
nitrate = "12 mg/L NO3"
ph = 7.5
temperature = "12 °C"
disinfectant = "none"
[habits]
change = "25 %"
every = "7 days"
"#
);

/// The same with something more in the file.
pub fn with(more: &str) -> String {
    format!("{EMPTY}\n{more}\n")
}

/// The invented household.
pub const HOUSEHOLD: &str = include_str!("../../../../../examples/household/tank.toml");
/// The soil tank.
pub const SOIL: &str = include_str!("../../../../../examples/soil-tank.toml");
/// The soft tap.
pub const SOFT: &str = include_str!("../../../../../examples/soft-water.toml");

/// A moment so many hours after noon of Monday, 1 June 2026.
pub fn at(hours: i64) -> ZonedDateTime {
    let noon: ZonedDateTime = "2026-06-01T12:00:00+02:00[Europe/Berlin]".parse().expect("a moment");
    noon.checked_add(hours.hours()).expect("in range")
}

/// An entry of the log.
pub fn kept(hours: i64, what: What) -> Kept {
    Kept { id: 1, entry: Entry { at: at(hours), what, note: String::new() } }
}

/// An act.
pub fn done(hours: i64, act: &str) -> Kept {
    kept(hours, What::Done { act: act.to_owned() })
}

/// A reading.
pub fn read(hours: i64, of: &str, value: f64, below: bool) -> Kept {
    let reading = Reading { of: of.to_owned(), value, below, error: None, kit: None, sure: Sure::Plain };
    kept(hours, What::Test(reading))
}

/// An absence by an empty log.
pub fn away(tank: &Tank, plan: &Plan, ask: care::away::Ask) -> care::away::Away {
    care::away::away(tank, plan, ask, &[], &crate::days::june(20, 8))
}

/// All texts of some notes, one after the other.
pub fn texts(notes: &[Note]) -> String {
    notes.iter().map(|note| format!("{}: {}\n", note.about, note.text)).collect()
}

/// The text of the note with this head.
pub fn under<'a>(notes: &'a [Note], about: &str) -> &'a str {
    notes.iter().find(|note| note.about == about).map_or("", |note| note.text.as_str())
}

/// A tank of 185 L at a tap with so much calcium bicarbonate (meq/L) beside a little salt, half of it changed a week and so many litres a day
/// topped up; fed and eaten nothing.
pub fn bicarbonate_tap(meq: f64, more: &str, top_up: &str) -> String {
    format!(
        r#"{GLASS}[tap]
calcium = "{} mg/L"
magnesium = "0 mg/L"
sodium = "23 mg/L"
potassium = "0 mg/L"
chloride = "35.5 mg/L"
sulfate = "0 mg/L"
nitrate = "0 mg/L NO3"
phosphate = "0 mg/L P"
ammonium = "0 mg/L NH4"
iron = "0 mg/L"
copper = "0 mg/L"
alkalinity = "{meq} meq/L"
ph = 7.6
temperature = "12 °C"
disinfectant = "none"
[feeding]
wish = "none"
[food]
per_day = "0 g a day"
[animals]
fish = 6
start_test_passed = true
{more}
[habits]
change = "50 %"
every = "7 days"
top_up = "{top_up} L a day"
"#,
        meq * 20.04
    )
}
