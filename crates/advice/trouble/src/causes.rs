//! Which causes the logbook, the setup and the hour speak for, the likeliest first, and why.
//!
//! What: rows of `data/troubles.toml` for which something speaks. Order: weight of the row, less the longer ago it was (half of it at
//! the end of its time). Nothing that speaks for no cause says that it is not the cause.
//! Source: common practice. Checked by: `tests/causes.rs`.

use jiff::ZonedDateTime;
use knowledge::{CauseKey, TroubleCause};
use logbook::{Entry, Kept, What};
use quantity::{Digits, format_number};

use crate::carbon_dioxide::{CarbonRead, reading_harms};
use crate::case::Case;
use crate::told::{ago_words, hours_ago};
use crate::toxic::toxic;

/// A cause that something speaks for.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Cause {
    /// What speaks for it.
    pub key: CauseKey,
    /// In plain words.
    pub title: String,
    /// Why it stands here.
    pub because: String,
    /// What to do about it.
    pub check: String,
    /// The larger, the likelier.
    pub weight: f64,
}

const DAY_H: f64 = 24.0;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// What speaks for a cause: how long ago, and in words.
type Evidence = (f64, String);

/// The causes for which something speaks.
pub fn causes(case: &Case, log: &[Kept], now: &ZonedDateTime) -> Vec<Cause> {
    let recent: Vec<(f64, &Entry)> =
        log.iter().map(|kept| (hours_ago(kept, now), &kept.entry)).filter(|(ago, _)| *ago >= 0.0).collect();
    let one = |row: &TroubleCause| {
        let (ago, because) = evidence(case, row, &recent, now)?;
        let read = row.key == CauseKey::CarbonDioxide && today(case).is_some();
        let weight = row.weight_read.filter(|_| read).unwrap_or(row.weight) * (1.0 - 0.5 * ago / row.within_h);
        Some(Cause { key: row.key, title: row.title.clone(), because, check: row.check.clone(), weight })
    };
    let mut all: Vec<Cause> = case.book().troubles.cause.iter().filter_map(one).collect();
    all.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    all
}

fn evidence(case: &Case, row: &TroubleCause, recent: &[(f64, &Entry)], now: &ZonedDateTime) -> Option<Evidence> {
    let (pen, numbers) = (case.pen(), case.numbers());
    let within: Vec<(f64, &Entry)> = recent.iter().copied().filter(|(ago, _)| *ago <= row.within_h).collect();
    let latest = |say: &dyn Fn(&What) -> Option<String>| {
        let said = within.iter().filter_map(|(ago, entry)| Some((*ago, say(&entry.what)?)));
        said.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(ago, words)| (ago, format!("{words} {}.", ago_words(ago))))
    };
    match row.key {
        // An older reading that harms counts until the next, and a fresh cause goes before it.
        CauseKey::Ammonia => ammonia(case).map(|(ago, because)| (ago.min(row.within_h), because)),
        CauseKey::Change => latest(&|what| match what {
            What::Change { litres } => Some(format!("You changed {}", pen.litres(*litres))),
            _ => None,
        }),
        CauseKey::Warm => {
            let (read, usual) = (case.told.get("temperature")?, case.tank.temperature_c.value);
            let over = read - usual;
            (over >= row.least.unwrap_or(0.0)).then(|| {
                let from = case.told.from("temperature");
                (
                    case.told.ago_h("temperature").min(row.within_h),
                    format!(
                        "{} ({from}), {} over your usual {}.",
                        pen.celsius(read),
                        pen.kelvin(over),
                        pen.celsius(usual)
                    ),
                )
            })
        }
        CauseKey::CarbonDioxide => {
            if let Some(read) = today(case) {
                return Some((0.0, format!("{}; above {} fish are in stress.", read.much, n(read.most_mg_per_l))));
            }
            let given = case.tank.co2_given_mg_per_l?;
            between(now, numbers.light_from_hour.value, numbers.light_to_hour.value).then(|| {
                (
                    0.0,
                    format!("You give carbon dioxide by day, up to {} mg/L, and it is {}.", n(given.high), clock(now)),
                )
            })
        }
        CauseKey::Dose => dose(case, row, &within),
        CauseKey::Food => food(case, row, &within),
        CauseKey::Sponge => latest(&|what| match what {
            What::Done { act } if act == "sponge" => Some("You washed the filter".to_owned()),
            _ => None,
        }),
        CauseKey::Newcomer => latest(&|what| match what {
            What::Animals { change, who, .. } if *change > 0 => Some(format!("{change} {who} came in")),
            _ => None,
        }),
        CauseKey::Dawn => {
            let dawns = between(now, numbers.dawn_from_hour.value, numbers.dawn_to_hour.value);
            dawns.then(|| (0.0, format!("It is {}.", clock(now))))
        }
    }
}

/// Carbon dioxide that harms by the readings of today: an older one is no cause of this hour's breath.
fn today(case: &Case) -> Option<CarbonRead> {
    reading_harms(case).filter(|read| read.anew.is_none())
}

/// Whether the hour on the wall lies from one hour on and before another.
fn between(now: &ZonedDateTime, from_hour: f64, to_hour: f64) -> bool {
    (from_hour..to_hour).contains(&f64::from(now.hour()))
}

fn clock(now: &ZonedDateTime) -> String {
    format!("{}:{:02}", now.hour(), now.minute())
}

/// Ammonia or nitrite over its limit, by the last reading.
fn ammonia(case: &Case) -> Option<Evidence> {
    if let Some(total) = case.told.get("ammonia")
        && let Some(toxic) = toxic(case, total).filter(|toxic| toxic.harms())
    {
        let from = case.told.from("ammonia");
        let harm = n(toxic.harm_from_mg_n_per_l.low);
        return Some((
            case.told.ago_h("ammonia"),
            format!("Ammonia {} mg/L as N ({from}); here harm starts at {harm}.", n(total)),
        ));
    }
    let nitrite = case.told.get("nitrite")?;
    let least = case.book().troubles.nitrite.first().map_or(0.0, |row| row.long_mg_n_per_l);
    let because = || format!("Nitrite {} mg/L as N ({}).", n(nitrite), case.told.from("nitrite"));
    (nitrite >= least).then(|| (case.told.ago_h("nitrite"), because()))
}

/// The largest sum over a day that ends with one of the entries, and how long ago that was.
fn most_in_a_day(amounts: &[(f64, f64)]) -> Option<(f64, f64)> {
    let ending_at = |end: f64| {
        let day = amounts.iter().filter(|(ago, _)| *ago >= end && *ago < end + DAY_H);
        (end, day.map(|(_, amount)| amount).sum::<f64>())
    };
    amounts.iter().map(|(ago, _)| ending_at(*ago)).max_by(|a, b| a.1.total_cmp(&b.1))
}

fn dose(case: &Case, row: &TroubleCause, within: &[(f64, &Entry)]) -> Option<Evidence> {
    let over = case.plan.bottles.iter().filter_map(|bottle| {
        let amounts: Vec<(f64, f64)> =
            within.iter().filter_map(|(ago, entry)| Some((*ago, entry.what.dose_of(&bottle.name)?))).collect();
        // What the last day had, as the overdose itself counts it; only where that is no more than usual, an earlier day.
        let last = case.told.dosed_ml(&bottle.name);
        let latest = amounts.iter().map(|(ago, _)| *ago).reduce(f64::min)?;
        let over = last >= row.least.unwrap_or(1.0) * bottle.daily_ml;
        let (ago, ml) = if over { (latest, last) } else { most_in_a_day(&amounts)? };
        let times = ml / bottle.daily_ml;
        let words =
            format!("{} mL of {} in a day, {} times the usual, {}.", n(ml), bottle.name, n(times), ago_words(ago));
        (times >= row.least.unwrap_or(1.0)).then_some((times, (ago, words)))
    });
    over.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, evidence)| evidence)
}

fn food(case: &Case, row: &TroubleCause, within: &[(f64, &Entry)]) -> Option<Evidence> {
    let usual = Some(case.tank.keeping.food_g_per_day.value).filter(|grams| *grams > 0.0)?;
    let amounts: Vec<(f64, f64)> = within
        .iter()
        .filter_map(|(ago, entry)| match &entry.what {
            What::Food { grams } => Some((*ago, *grams)),
            _ => None,
        })
        .collect();
    let (ago, grams) = most_in_a_day(&amounts)?;
    let times = grams / usual;
    (times >= row.least.unwrap_or(1.0))
        .then(|| (ago, format!("{} g of food in a day, {} times the usual, {}.", n(grams), n(times), ago_words(ago))))
}
