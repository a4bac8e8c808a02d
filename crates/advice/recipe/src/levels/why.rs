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
    let share = 100.0 * cycle.change_share;
    let days = cycle.days();
    let (gain, parts) = (cycle.dose_per_day - cycle.fall_per_day(), parts(cycle, level.ion.is_some(), &n));
    let all = f64::from(days) * gain;
    let unfloored = if cycle.changes() { cycle.tap + all / cycle.change_share } else { cycle.tap + all };
    let mut sum = match cycle.settles() {
        Settles::At(_) => format!(
            "{} {unit} + {days} days × ({parts}) {unit} a day ÷ {} = {} {unit}",
            n(cycle.tap),
            n(cycle.change_share),
            n(unfloored)
        ),
        Settles::Drifts(by) => format!(
            "{} {unit} + {days} days × ({parts}) {unit} a day = {} {unit}; no change of water: it goes on by {} {unit} a day",
            n(cycle.tap),
            n(unfloored),
            n(by)
        ),
    };
    if cycle.floor && unfloored < 0.0 {
        sum.push_str(", so 0: it runs out");
    }
    Why {
        key: level.why.clone(),
        question: match level.unchanged_days {
            None => format!("why {} {unit} of {name} before a change?", n(level.before_change.value)),
            Some(days) => format!("why {} {unit} of {name} after {days} days?", n(level.before_change.value)),
        },
        sum,
        words: words(name, cycle, share, level),
        sources: Vec::new(),
        kind: level.before_change.kind.weaker(Kind::WorkedOut),
    }
}

/// What comes and what goes each day, in the order of the sum: "0.4 dosed + 0.1 by topping up - 0.2 taken".
fn parts(cycle: &Cycle, ion: bool, n: &impl Fn(f64) -> String) -> String {
    let taken = cycle.uptake_per_day;
    let goes = match taken < 0.0 {
        _ if !ion => ("-", "eaten"),
        true => ("+", "from food, net of what is taken"),
        false => ("-", "taken, net of food"),
    };
    let gained = match cycle.top_up_per_day {
        0.0 => String::new(),
        gained => format!(" + {} by topping up", n(gained)),
    };
    format!("{} dosed{gained} {} {} {}", n(cycle.dose_per_day), goes.0, n(taken.abs()), goes.1)
}

fn words(name: &str, cycle: &Cycle, share: f64, level: &Level) -> String {
    let change = format!(
        "What the new water brings ({name}), plus what each cycle adds or takes, divided by the share that a change renews \
         ({share:.0} %): each change takes that share of the difference away, until as much goes as comes."
    );
    let mut text = if cycle.changes() {
        change
    } else {
        format!(
            "Without changes nothing settles: it goes on rising or falling by the difference each day, {}. Topping up adds what the water \
             that tops up holds × litres evaporated ÷ litres of the tank. What the ground gives and takes, and lime that falls out, are \
             in no sum: the older the water, the more a test tells.",
            if level.unchanged_days == Some(Cycle::DRIFT_DAYS) {
                "here over four weeks from a fill"
            } else {
                "here since water was changed last"
            }
        )
    };
    if level.ion.is_none() {
        text.push_str(
            " What eats alkalinity is the nitrogen of the food on its way to nitrate. Plants that take nitrate give some \
             back; that is not counted, so the level is likely higher than this.",
        );
    }
    text
}
