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
//! **Checked by** `crates/advice/care/tests/harm_begin.rs`, `tests/harm_most.rs`.

use knowledge::book;
use quantity::{HardnessUnit, Measure};
use recipe::{Begin, BeginReading, Plan};

use crate::case::Case;

/// What stands before the conductivity in the note of a change.
const POURED: &str = "new water ";
const HOURS_A_DAY: f64 = 24.0;

/// The note of a change: which water was poured.
pub fn begin_note(begin: &Begin) -> String {
    match begin.new_us_per_cm > 0.0 {
        true => format!("{POURED}{:.0} µS/cm", begin.new_us_per_cm),
        false => String::new(),
    }
}

/// µS/cm in the note of a change.
pub fn poured_us(note: &str) -> Option<f64> {
    note.split_once(POURED)?.1.split_whitespace().next()?.parse().ok()
}

/// The plan's beginning, as long as by what was heard of the log it is not through.
pub fn begins<'a>(case: &Case<'a>) -> Option<&'a Begin> {
    let begin = case.plan.begin.as_ref()?;
    let smaller = begin.share < case.plan.change.share && case.tank.animals.any();
    (smaller && !is_read(begin, case.plan, case) && !is_poured(begin, case)).then_some(begin)
}

/// A test says that the tank is there.
fn is_read(begin: &Begin, plan: &Plan, case: &Case) -> bool {
    let (limit, number) = (&book().harm.limit, &book().routine.number);
    let key = match begin.reading {
        BeginReading::Conductivity => "conductivity",
        BeginReading::Alkalinity => "alkalinity",
        BeginReading::Hardness => "hardness",
    };
    // What runs out again is tested before each change; what stays is read once.
    let days = if begin.changes.is_none() { number.alarm_days.value } else { number.unchanged_days.value };
    let Some((value, ago_h)) = case.told.stood(key) else { return false };
    if ago_h > HOURS_A_DAY * days {
        return false;
    }
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
fn is_poured(begin: &Begin, case: &Case) -> bool {
    let (Some(changes), litres) = (begin.changes, case.tank.geometry.true_l.value) else { return false };
    let alike = book().harm.limit.conductivity_step_percent.value() / 100.0;
    let this = |us: f64| (us / begin.new_us_per_cm - 1.0).abs() <= alike;
    let poured = case.told.poured().iter().filter(|(us, _)| this(*us));
    let left: f64 = poured.map(|(_, l)| 1.0 - (l / litres).clamp(0.0, 1.0)).product();
    left <= (1.0 - begin.share).powi(changes.min(10_000) as i32) * (1.0 + 1e-6)
}
