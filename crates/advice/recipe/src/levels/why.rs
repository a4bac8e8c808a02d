//! Why a level is what it is: the closed form with the keeper's own figures in it.

use quantity::number::Digits;
use quantity::{Kind, Why};
use setup::Tank;

use super::{Cycle, Settles};
use crate::plan::Level;

/// Why the level of an ion (or alkalinity) stands where it does right before a change. `cycle` is the one that the level
/// was worked out from, at the best estimate ([`super::cycle`] or [`super::alkalinity_cycle`]).
pub fn why(tank: &Tank, level: &Level, cycle: &Cycle) -> Why {
    let unit = if level.ion.is_some() { "mg/L" } else { "meq/L" };
    let name = level.ion.map_or("alkalinity", |ion| ion.name());
    let n = |value: f64| tank.units.number(value, Digits::Significant(3));
    let (dose, fall) = (cycle.dose_per_day, cycle.fall_per_day());
    let gain = f64::from(cycle.days()) * (dose - fall);
    let share = 100.0 * cycle.change_share;
    let days = cycle.days();
    let unfloored = if cycle.changes() { cycle.tap + gain / cycle.change_share } else { cycle.tap + gain };
    let mut sum = match cycle.settles() {
        Settles::At(_) => format!(
            "{} {unit} + {days} days × ({} - {}) {unit} a day ÷ {} = {} {unit}",
            n(cycle.tap),
            n(dose),
            n(fall),
            n(cycle.change_share),
            n(unfloored)
        ),
        Settles::Drifts(by) => format!(
            "{} {unit} + {days} days × ({} - {}) {unit} a day = {} {unit}; no change of water: it goes on by {} {unit} a day",
            n(cycle.tap),
            n(dose),
            n(fall),
            n(unfloored),
            n(by)
        ),
    };
    if cycle.floor && unfloored < 0.0 {
        sum.push_str(", so 0: it runs out");
    }
    Why {
        key: level.why.clone(),
        question: format!("why {} {unit} of {name} before a change?", n(level.before_change.value)),
        sum,
        words: words(name, cycle, share, level),
        sources: Vec::new(),
        kind: level.before_change.kind.weaker(Kind::WorkedOut),
    }
}

fn words(name: &str, cycle: &Cycle, share: f64, level: &Level) -> String {
    let change = format!(
        "What the new water brings ({name}), plus what each cycle adds or takes, divided by the share that a change renews \
         ({share:.0} %): each change takes that share of the difference away, until as much goes as comes."
    );
    let mut text = if cycle.changes() {
        change
    } else {
        "Without changes nothing settles: it goes on rising or falling by the difference each day.".to_owned()
    };
    if level.ion.is_none() {
        text.push_str(
            " What eats alkalinity is the nitrogen of the food on its way to nitrate. Plants that take nitrate give some \
             back; that is not counted, so the level is likely higher than this.",
        );
    }
    text
}
