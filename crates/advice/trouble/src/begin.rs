//! The changes with which a plan begins, and how the logbook knows how far they are (harm rules 6 and 8).
//!
//! **What.** A plan that moves the water further than animals bear at once begins with smaller changes, or with a growing part of the salts.
//! Which of them is next, a test tells, or what was poured since by the log; they are through when a test says that the usual change moves
//! the tank no further than a day's limit, or when as much was poured as they come to.
//!
//! **Equation.** x |Y_new - Y_read| <= limit; Π (1 - l ÷ V) <= (1 - s)^n over the logged changes with this new water. Where the salts grow, the
//! walk of the plan (`recipe::Walk`) with the reading and each logged change in it, of part f = (κ - κ_plain) ÷ (κ_new - κ_plain).
//!
//! **Symbols.** x share of the usual change, s and n share and number of the smaller ones, Y conductivity, alkalinity or hardness, l litres
//! of a change, V true litres, κ conductivity of the new water, f part of the salts.
//!
//! **Range.** A change counts where its note names the conductivity of its new water. Where all of the salts go into each, only such water
//! counts: after another plan it does not.
//!
//! **Source.** `data/harm.toml` rule 6, common practice; mixing by volume.
//!
//! **Checked by** `crates/advice/care/tests/harm_begin.rs`, `tests/harm_most.rs`.

use knowledge::book;
use quantity::{HardnessUnit, Measure, round_significant};
use recipe::{Begin, BeginReading, BeginStep, Plan};

use crate::case::Case;

/// What stands before the conductivity in the note of a change.
const POURED: &str = "new water ";
const HOURS_A_DAY: f64 = 24.0;

/// The change that is next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextChange<'a> {
    /// The changes with which the plan begins.
    pub begin: &'a Begin,
    /// Share of the tank, 0 to 1.
    pub share: f64,
    /// Part of the plan's salts in a litre of its new water, 0 to 1.
    pub part: f64,
    /// How many are left, it with them; `None`: a test tells.
    pub left: Option<usize>,
    /// It is on the days of the plan's own changes: nothing hurries.
    pub on_usual_days: bool,
}

/// The note of a change whose new water has a part of the salts, 0 to 1: which water was poured.
pub fn begin_note(begin: &Begin, part: f64) -> String {
    let [plain, new] = [begin.plain_us_per_cm, begin.new_us_per_cm];
    match new > 0.0 {
        true => format!("{POURED}{} µS/cm", round_significant(plain + part * (new - plain), 4)),
        false => String::new(),
    }
}

/// µS/cm in the note of a change.
pub fn poured_us(note: &str) -> Option<f64> {
    note.split_once(POURED)?.1.split_whitespace().next()?.parse().ok()
}

/// The part of the salts in such water, 0 to 1; `None`: it is none of this beginning.
pub fn part_poured(begin: &Begin, us: f64) -> Option<f64> {
    let alike = book().harm.limit.conductivity_step_percent.value() / 100.0;
    let (plain, new) = (begin.plain_us_per_cm, begin.new_us_per_cm);
    if begin.steps.is_empty() {
        return ((us / new - 1.0).abs() <= alike).then_some(1.0);
    }
    let part = (us - plain) / (new - plain);
    (-alike..=1.0 + alike).contains(&part).then_some(part.clamp(0.0, 1.0))
}

/// The plan's beginning, as long as by what was heard of the log it is not through.
pub fn begins<'a>(case: &Case<'a>) -> Option<NextChange<'a>> {
    let begin = case.plan.begin.as_ref().filter(|_| case.tank.animals.any())?;
    let read = read(begin, case);
    if !begin.steps.is_empty() {
        return grows(begin, case, read);
    }
    let through = read.is_some_and(|(value, _)| is_there(begin, case.plan, value)) || is_poured(begin, case);
    (!through).then_some(NextChange { begin, share: begin.share, part: 1.0, left: None, on_usual_days: false })
}

/// The next one with a growing part of the salts: the walk with what was read and poured, in the order of the log.
fn grows<'a>(begin: &'a Begin, case: &Case, read: Option<(f64, f64)>) -> Option<NextChange<'a>> {
    let litres = case.tank.geometry.true_l.value;
    let poured = case.told.poured().iter().filter_map(|&(ago_h, us, l)| {
        let step = BeginStep { share: (l / litres).clamp(0.0, 1.0), part: part_poured(begin, us)? };
        Some((ago_h, Heard::Poured(step)))
    });
    let read = read.map(|(value, ago_h)| (ago_h, Heard::Read(value)));
    // What was read of alkalinity says whether it is gone, whatever else is read.
    let alkalinity = case.told.stood("alkalinity").filter(|(_, ago_h)| *ago_h <= hours(begin));
    let alkalinity = alkalinity.filter(|_| begin.reading != BeginReading::Alkalinity);
    let alkalinity = alkalinity.map(|(meq, ago_h)| (ago_h, Heard::Alkalinity(meq)));
    let mut heard: Vec<(f64, Heard)> = poured.chain(read).chain(alkalinity).collect();
    heard.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut walk = begin.walk.clone();
    for (_, heard) in heard {
        match heard {
            Heard::Poured(step) => walk.pour(step),
            Heard::Read(value) => walk.read(begin.reading, value),
            Heard::Alkalinity(meq) => walk.found(BeginReading::Alkalinity, meq),
        }
    }
    let BeginStep { share, part } = walk.next()?;
    let left = begin.changes.map(|_| walk.steps().len());
    Some(NextChange { begin, share, part, left, on_usual_days: share >= case.plan.change.share })
}

/// What the log says of the way.
enum Heard {
    Poured(BeginStep),
    /// The reading that tells how far the tank is.
    Read(f64),
    /// meq/L.
    Alkalinity(f64),
}

/// Hours for which a reading tells: what runs out again is tested before each change; what stays is read once.
fn hours(begin: &Begin) -> f64 {
    let number = &book().routine.number;
    HOURS_A_DAY * if begin.changes.is_none() { number.alarm_days.value } else { number.unchanged_days.value }
}

/// The last reading of what tells, and hours ago.
fn read(begin: &Begin, case: &Case) -> Option<(f64, f64)> {
    let key = match begin.reading {
        BeginReading::Conductivity => "conductivity",
        BeginReading::Alkalinity => "alkalinity",
        BeginReading::Hardness => "hardness",
    };
    case.told.stood(key).filter(|(_, ago_h)| *ago_h <= hours(begin))
}

/// A test says that the tank is there.
fn is_there(begin: &Begin, plan: &Plan, value: f64) -> bool {
    let limit = &book().harm.limit;
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
    let poured = case.told.poured().iter().filter(|(_, us, _)| part_poured(begin, *us).is_some());
    let left: f64 = poured.map(|(_, _, l)| 1.0 - (l / litres).clamp(0.0, 1.0)).product();
    left <= (1.0 - begin.share).powi(changes.min(10_000) as i32) * (1.0 + 1e-6)
}
