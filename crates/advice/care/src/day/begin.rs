//! The smaller changes with which a plan begins, and how the logbook knows that they are through (harm rules 6 and 8).
//!
//! **What.** A plan that moves the water further than animals bear at once begins with smaller changes. They are through when a test says
//! that the usual change moves the tank no further than a day's limit, or when what was poured by the log has brought the tank so far.
//!
//! **Equation.** x |Y_new - Y_read| <= limit; or Π (1 - l ÷ V) <= (1 - s)^n over the logged changes with this new water.
//!
//! **Symbols.** x share of the usual change, s and n share and number of the smaller ones, Y conductivity, alkalinity or hardness, l litres
//! of a change, V true litres.
//!
//! **Range.** A change counts where its note names the conductivity of this new water, within a day's limit: after another plan it does not.
//!
//! **Source.** `data/harm.toml` rule 6, common practice; mixing by volume.
//!
//! **Checked by** `tests/harm_begin.rs`.

use knowledge::book;
use logbook::{Sure, What};
use quantity::{HardnessUnit, Measure};
use recipe::{Begin, BeginReading, Plan};
use setup::Tank;

use crate::due::days_between;
use crate::log::Past;

/// What stands before the conductivity in the note of a change.
const POURED: &str = "new water ";

/// The note of a change: which water was poured.
pub(crate) fn note(begin: &Begin) -> String {
    match begin.new_us_per_cm > 0.0 {
        true => format!("{POURED}{:.0} µS/cm", begin.new_us_per_cm),
        false => String::new(),
    }
}

/// µS/cm in the note of a change.
fn poured_us(note: &str) -> Option<f64> {
    note.split_once(POURED)?.1.split_whitespace().next()?.parse().ok()
}

/// The plan's beginning, as long as it is not through.
pub(crate) fn begins<'a>(tank: &Tank, plan: &'a Plan, past: &Past) -> Option<&'a Begin> {
    let begin = plan.begin.as_ref()?;
    let smaller = begin.share < plan.change.share && tank.animals.any();
    (smaller && !is_read(begin, plan, past) && !is_poured(begin, tank, past)).then_some(begin)
}

/// A test says that the tank is there.
fn is_read(begin: &Begin, plan: &Plan, past: &Past) -> bool {
    let (limit, number) = (&book().harm.limit, &book().routine.number);
    let key = match begin.reading {
        BeginReading::Conductivity => "conductivity",
        BeginReading::Alkalinity => "alkalinity",
        BeginReading::Hardness => "hardness",
    };
    // What runs out again is tested before each change; what stays is read once.
    let days = if begin.changes.is_none() { number.alarm_days.value } else { number.unchanged_days.value };
    let fresh = past.entries().rev().take_while(|(date, _)| days_between(*date, past.today()) as f64 <= days);
    let read = fresh.filter_map(|(_, kept)| match &kept.entry.what {
        What::Test(reading) if reading.of == key && reading.sure != Sure::NotSure && !reading.below => {
            Some(reading.value)
        }
        _ => None,
    });
    let Some(value) = { read }.next() else { return false };
    if begin.changes.is_none() {
        return value >= limit.alkalinity_floor_meq_per_l.value();
    }
    let moves = plan.change.share * (begin.new_water - value).abs();
    let most = match begin.reading {
        BeginReading::Conductivity => limit.conductivity_step_percent.value() / 100.0 * value,
        BeginReading::Alkalinity => limit.alkalinity_step_meq_per_l.value(),
        BeginReading::Hardness => HardnessUnit::German.to_meq_per_l(limit.hardness_step_dh.value(), Measure::Hardness),
    };
    moves <= most
}

/// So much of this water was poured that the tank is there.
fn is_poured(begin: &Begin, tank: &Tank, past: &Past) -> bool {
    let (Some(changes), litres) = (begin.changes, tank.geometry.true_l.value) else { return false };
    let alike = book().harm.limit.conductivity_step_percent.value() / 100.0;
    let this = |us: f64| (us / begin.new_us_per_cm - 1.0).abs() <= alike;
    let left: f64 = past
        .entries()
        .filter_map(|(_, kept)| match kept.entry.what {
            What::Change { litres: l } if poured_us(&kept.entry.note).is_some_and(this) => Some(l),
            _ => None,
        })
        .map(|l| 1.0 - (l / litres).clamp(0.0, 1.0))
        .product();
    left <= (1.0 - begin.share).powi(changes.min(10_000) as i32) * (1.0 + 1e-6)
}
