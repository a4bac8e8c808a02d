//! A level on its way from one water to another, with what a day bears of it (harm rule 6).

use knowledge::{Limit, book};
use quantity::{HardnessUnit, Ion, Kind, Known, Measure, Why};
use recipe::hardness_meq;
use recipe::say::Pen;
use setup::SourceWater;

use super::Step;
use crate::start_words::{source, why};

/// One level at one end of the waters' ranges.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    /// What it is.
    pub what: &'static str,
    /// In the tank.
    pub now: f64,
    /// In the new water.
    pub new: f64,
    /// Most in a day; `None`: a tenth of what it is.
    most: Option<f64>,
    /// Unit of all three.
    unit: &'static str,
    /// The limit's row.
    row: &'static Limit,
}

/// What keeps the changes of an old tank small.
pub(super) const OLD: &str = "an old tank";

impl Way {
    /// The largest share of a change that a day bears.
    pub fn share_most(&self) -> f64 {
        let most = self.most.unwrap_or(self.row.value() / 100.0 * self.now);
        most / (self.new - self.now).abs().max(f64::MIN_POSITIVE)
    }
}

/// Every level at both ends of its range and in the middle; the conductivities at their best estimate; nutrients where they rise.
pub(super) fn ways(now: &SourceWater, new: &SourceWater, (from_us, to_us): (f64, f64)) -> Vec<Way> {
    let limit = &book().harm.limit;
    let three = |what, unit, row: &'static Limit, factor: f64, a: Known<f64>, b: Known<f64>| {
        let most = Some(factor * row.value());
        [(a.low, b.low), (a.value, b.value), (a.high, b.high)].map(|(now, new)| Way { what, now, new, most, unit, row })
    };
    let (alkalinity, hardness) = (&limit.alkalinity_step_meq_per_l, &limit.hardness_step_dh);
    let mut ways =
        three("alkalinity", "meq/L", alkalinity, 1.0, now.alkalinity_meq_per_l, new.alkalinity_meq_per_l).to_vec();
    let degree = HardnessUnit::German.meq_per_unit(Measure::Hardness);
    ways.extend(three("hardness", "meq/L", hardness, degree, hardness_meq(now), hardness_meq(new)));
    if from_us > 0.0 && to_us > 0.0 {
        let (now, new) = (from_us, to_us);
        let row = &limit.conductivity_step_percent;
        ways.push(Way { what: "conductivity", now, new, most: None, unit: "µS/cm", row });
    }
    let nutrients = [
        (Ion::Nitrate, &limit.nitrate_step_mg_per_l),
        (Ion::Potassium, &limit.potassium_step_mg_per_l),
        (Ion::Phosphate, &limit.phosphate_step_mg_per_l),
        (Ion::Iron, &limit.iron_step_mg_per_l),
    ];
    let rising = nutrients
        .into_iter()
        .flat_map(|(ion, row)| three(ion.name(), "mg/L", row, 1.0, now.mg_per_l(ion), new.mg_per_l(ion)));
    ways.extend(rising.filter(|way| way.new > way.now));
    ways
}

/// What binds on the first day; `None`: nothing does.
pub(super) fn binds(ways: &[Way], enough: f64, tenth: Option<f64>) -> Option<Way> {
    let worst = *ways.iter().min_by(|a, b| a.share_most().total_cmp(&b.share_most()))?;
    match tenth {
        Some(tenth) if tenth < worst.share_most().min(enough) => Some(Way { what: OLD, ..worst }),
        _ => (worst.share_most() < enough).then_some(worst),
    }
}

/// Why the first change is so large.
pub(super) fn why_first(pen: &Pen, step: &Step, way: Way) -> Why {
    let old = &book().harm.limit.old_tank_change_percent;
    let share = pen.share(step.share);
    let most = match way.most {
        Some(most) => format!("{} {}", pen.n(most, 2), way.unit),
        None => format!("{} % × {}", pen.n(way.row.value(), 2), pen.n(way.now, 3)),
    };
    let (sum, row) = if way.what == OLD {
        (format!("{} %", pen.n(old.value(), 2)), old)
    } else {
        (format!("{most} ÷ |{} − {}| {} = {share}", pen.n(way.new, 3), pen.n(way.now, 3), way.unit), way.row)
    };
    let words = format!(
        "{} Where the waters have a range, both lower ends and both upper ends are counted too, and the larger distance decides. One water \
         may stand high while the other stands low, and then they lie further apart: a test of both before the first change tells.",
        row.say
    );
    why("moving", format!("why {share} at first?"), sum, words, &[source(row)], Kind::CommonPractice)
}
