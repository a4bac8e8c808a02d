//! Tanks, logs and moments for the tests of a day.

use care::Day;
use jiff::ZonedDateTime;
use jiff::civil::date;
use jiff::tz::TimeZone;
use logbook::{Entry, Kept, What};
use recipe::{Answer, Plan};
use setup::{Setup, Tank};

/// Settled tank and plan of a setup.
pub fn planned(text: &str) -> (Tank, Plan) {
    match recipe::answer(&Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}"))).unwrap() {
        Answer::Settled { tank, plan } => (*tank, *plan),
        Answer::Open { question, .. } => panic!("{question:?}"),
    }
}

/// The invented household: 12 fish, 20 shrimps, 40 % a week, one bottle.
pub const HOUSEHOLD: &str = include_str!("../../../../../examples/household/tank.toml");
/// The soil tank of the examples: 20 % every 14 days by its keeper's own word.
pub const SOIL: &str = include_str!("../../../../../examples/soil-tank.toml");

/// The household without a line that begins so.
pub fn without(text: &str, line: &str) -> String {
    let kept: Vec<&str> = text.lines().filter(|l| !l.trim_start().starts_with(line)).collect();
    kept.join("\n")
}

/// A day of June 2026 at an hour, in one zone. The 13th is a Saturday.
pub fn june(day: i8, hour: i8) -> ZonedDateTime {
    date(2026, 6, day).at(hour, 0, 0, 0).to_zoned_datetime(TimeZone::get("Europe/London").unwrap()).unwrap()
}

/// A log.
pub fn log(entries: Vec<(ZonedDateTime, What)>) -> Vec<Kept> {
    noted(entries.into_iter().map(|(at, what)| (at, what, "")).collect())
}

/// A log with notes.
pub fn noted(entries: Vec<(ZonedDateTime, What, &str)>) -> Vec<Kept> {
    let kept = |(n, (at, what, note)): (usize, (ZonedDateTime, What, &str))| Kept {
        id: n as u64 + 1,
        entry: Entry { at, what, note: note.to_owned() },
    };
    entries.into_iter().enumerate().map(kept).collect()
}

/// A dose of the household's bottle.
pub fn dose(ml: f64) -> What {
    What::Dose { bottle: "Bottle one".to_owned(), ml }
}

/// Every sentence of a day.
pub fn sentences(day: &Day) -> Vec<String> {
    let along = day.change.iter().flat_map(|sheet| &sheet.along);
    let acts = day.today.iter().chain(day.week.iter().flat_map(|later| &later.acts)).chain(along);
    let mut all: Vec<String> = acts.flat_map(|act| act.says.iter().cloned().chain([act.name.clone()])).collect();
    if let Some(sheet) = &day.change {
        all.extend(sheet.first.iter().cloned().chain(sheet.stop.clone()));
        all.extend(sheet.steps.iter().flat_map(|step| step.minds.iter().cloned().chain([step.say.clone()])));
    }
    all.extend(day.top_up.iter().map(|settles| settles.says.clone()));
    all.extend(day.supplies.iter().map(|supply| supply.says.clone()));
    all
}
