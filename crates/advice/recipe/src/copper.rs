//! Copper with shrimps, snails and their kin: everything that brings it is added up.
//!
//! What: highest level = new water's copper and the pipes' at their high ends + what the doses come to just before a change if no plant took
//! any, D n ÷ x. Asked above the one limit, refused above the other (harm rule 4): a dose, and a change with such water.
//! Low-mineral water never stood in the pipes: of them the share of the tap counts.
//! Symbols: D mg/L a day; n days from change to change; x share changed.
//! Range: without changes nothing takes copper away: any dose of it is then refused.
//! Source: CCME and arithmetic in `data/harm.toml`.
//! Checked by: `tests/harm_water.rs`.

use quantity::{Ion, Kind, Known};
use setup::SourceWater;

use crate::desk::{Desk, source, why};
use crate::plan::{Dose, Into, Note, Refused};

/// What is said of copper.
#[derive(Clone, Debug, Default)]
pub(crate) struct Copper {
    /// Sentences beside the dose.
    pub notes: Vec<Note>,
    /// Doses that were refused, by product.
    pub refused: Vec<Refused>,
}

/// mg/L of copper a day that a dose brings; a label that does not say counts as the worst that is sold.
pub(crate) fn a_day(desk: &Desk, dose: &Dose) -> f64 {
    let told = dose.brings.iter().filter(|(ion, _)| *ion == Ion::Copper).map(|(_, mg)| *mg).sum::<f64>();
    let Some(product) = desk.product(&dose.product) else { return told };
    if product.mg_per_g(Ion::Copper) <= 0.0 || dose.into == Into::NewWater {
        return told;
    }
    let share = desk.tank.at_hand.trace_copper.high;
    dose.amount * share * 1000.0 / desk.tank.geometry.true_l.value
}

/// Why no water is changed with invertebrates: what was measured in tap and pipes is above the refusal, and the share of
/// low-mineral water that would bring it under, s = (tap + pipes - limit) ÷ (tap + pipes - low). What nobody measured does not
/// stop a change: it is told (`unmeasured`). Nor does a second water that may be worse stop a tap that is not.
pub(crate) fn stops_change(desk: &Desk) -> Option<String> {
    let (pen, tank, limit) = (&desk.pen, desk.tank, &desk.book.harm.limit);
    let tap = tank.tap.mg_per_l(Ion::Copper);
    if !tank.animals.invertebrates() || tap.kind == Kind::Assumed {
        return None;
    }
    let second = tank.low.as_ref().map(|low| low.mg_per_l(Ion::Copper));
    let low = second.map_or(0.0, |low| low.high);
    let pipes = Some(tank.pipes_copper_mg_per_l).filter(|pipes| pipes.kind != Kind::Assumed).map_or(0.0, |k| k.high);
    let alone = tap.high + pipes;
    // Where the keeper left the share open, the choice takes copper down as far as it goes before any other wish.
    let brings = match (second, tank.low_share) {
        (None, _) => alone,
        (Some(low), None) => alone.min(low.high),
        (Some(low), Some(share)) => (1.0 - share) * alone + share * low.high,
    };
    let refuse = limit.copper_refuse_mg_per_l.value();
    if brings <= refuse {
        return None;
    }
    let thinned = |most: f64| {
        let share = (alone - most) / (alone - low);
        (alone > low && share <= 1.0).then(|| {
            format!(
                "{} % of low-mineral water in it bring it under {} mg/L",
                pen.n((100.0 * share - 1e-9).ceil(), 3),
                pen.n(most, 1)
            )
        })
    };
    let ways: Vec<String> = [refuse, limit.copper_ask_mg_per_l.value()].into_iter().filter_map(thinned).collect();
    let way = match &tank.low {
        _ if !ways.is_empty() => format!("{}.", crate::say::list(&ways)),
        Some(water) if low > refuse => format!(
            "Your {} may hold up to {} mg/L itself and does not take it out: have that measured, or fetch water elsewhere.",
            water.name,
            pen.n(low, 2)
        ),
        _ => "Fetch water elsewhere.".to_owned(),
    };
    Some(format!(
        "No change with this water, and no topping up: tap and pipes bring up to {} mg/L of copper, and above {} I refuse it with shrimps or snails. {way} \
         Tell me of such water, and I plan the change with it.",
        pen.n(brings, 2),
        pen.n(refuse, 1)
    ))
}

/// mg/L of copper that a dose of a tank’s plan brings in a day.
pub fn copper_a_day_mg_per_l(tank: &setup::Tank, dose: &Dose) -> f64 {
    a_day(&Desk::new(tank), dose)
}

/// Why a tank's own tap is neither changed nor topped up with: its measured copper, with shrimps or snails. `None`: nothing stops it.
pub fn copper_stops(tank: &setup::Tank) -> Option<String> {
    stops_change(&Desk::new(tank))
}

/// mg/L that a daily dose comes to just before a change if no plant took any.
fn comes_to(desk: &Desk, a_day: f64) -> f64 {
    let (share, days) = (desk.tank.habits.change_share.value, f64::from(desk.tank.habits.every_days));
    match a_day {
        d if d <= 0.0 => 0.0,
        d if share * days > 0.0 => d * days / share,
        _ => f64::INFINITY,
    }
}

/// Keep out what brings too much copper, and say what it comes to. No invertebrates: nothing to say.
pub(crate) fn watch(desk: &Desk, new_water: &SourceWater, low_share: f64, doses: &mut Vec<Dose>) -> Copper {
    if !desk.tank.animals.invertebrates() {
        return Copper::default();
    }
    let water = new_water.mg_per_l(Ion::Copper);
    let pipes = desk.tank.pipes_copper_mg_per_l.map(|mg| (1.0 - low_share) * mg);
    let refused = refuse(desk, water.high + pipes.high, doses);
    Copper { notes: vec![adds_up(desk, water, pipes, doses)], refused }
}

/// Doses that would lift copper over the limit are taken out. `before`: mg/L of new water and pipes, upper ends.
fn refuse(desk: &Desk, before: f64, doses: &mut Vec<Dose>) -> Vec<Refused> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let mut refused = Vec::new();
    doses.retain(|dose| {
        let adds = comes_to(desk, a_day(desk, dose));
        let too_much = adds > 0.0 && before + adds > limit.copper_refuse_mg_per_l.value();
        if too_much {
            refused.push(Refused {
                wish: crate::say::capital(&dose.name),
                why: format!(
                    "It would bring copper to {} mg/L: {} from tap and pipes and {} from the dose. {} {}",
                    pen.n(before + adds, 2),
                    pen.n(before, 2),
                    pen.n(adds, 2),
                    limit.copper_refuse_mg_per_l.say,
                    limit.copper_unknown_percent.say
                ),
                ways: vec![desk.book.harm.rule.iron_alone.say.clone()],
            });
        }
        !too_much
    });
    refused
}

/// What a dose that stays piles up to, each in a sentence; where none brings copper, that it is well so.
fn piles_up(desk: &Desk, doses: &[Dose]) -> String {
    let (pen, habits) = (&desk.pen, &desk.tank.habits);
    let one = |dose: &Dose| {
        let a_day = a_day(desk, dose);
        (a_day > 0.0).then(|| {
            format!(
                "Your {} brings up to {} mg/L of it a day: × {} days ÷ {} = {} mg/L that pile up before a change. It is used up because you have it; \
                 iron chelate alone brings none, so buy that next.",
                dose.name,
                pen.n(a_day, 2),
                habits.every_days,
                pen.share(habits.change_share.value),
                pen.n(comes_to(desk, a_day), 2)
            )
        })
    };
    let all: Vec<String> = doses.iter().filter_map(one).collect();
    if all.is_empty() { desk.book.harm.rule.iron_alone.say.clone() } else { all.join(" ") }
}

/// The sum and what it means.
fn adds_up(desk: &Desk, water: Known<f64>, pipes: Known<f64>, doses: &[Dose]) -> Note {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let dosed: f64 = doses.iter().map(|dose| comes_to(desk, a_day(desk, dose))).sum();
    let sum = water.high + pipes.high + dosed;
    let key = desk.why(why(
        "copper",
        format!("why {} mg/L of copper?", pen.n(sum, 2)),
        format!(
            "{} new water + {} pipes + {} bottles = {} mg/L",
            pen.n(water.high, 3),
            pen.n(pipes.high, 3),
            pen.n(dosed, 3),
            pen.n(sum, 3)
        ),
        format!(
            "The upper ends count: new water {}, pipes {}. {} {}",
            water.kind.words(),
            pipes.kind.words(),
            limit.copper_ask_mg_per_l.say,
            limit.copper_refuse_mg_per_l.say
        ),
        &[source(&limit.copper_ask_mg_per_l), source(&limit.copper_refuse_mg_per_l)],
        water.kind.weaker(pipes.kind).weaker(Kind::WorkedOut),
    ));
    let tap = desk.tank.tap.mg_per_l(Ion::Copper);
    let told = if tap.kind == Kind::Assumed { unmeasured(desk, sum, tap) } else { measured(desk, sum, water, pipes) };
    Note {
        about: "copper".to_owned(),
        text: format!("Copper, the harm that shrimps and snails know first: {told} {}", piles_up(desk, doses)),
        key: Some(key),
    }
}

/// What the sum means where the tap's copper is known.
fn measured(desk: &Desk, sum: f64, water: Known<f64>, pipes: Known<f64>) -> String {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let (ask, refuse) = (limit.copper_ask_mg_per_l.value(), limit.copper_refuse_mg_per_l.value());
    let (asks, refuses) = (pen.n(ask, 1), pen.n(refuse, 1));
    let verdict = if stops_change(desk).is_some() {
        format!(
            "That is above {refuses} mg/L, so no change is planned with this water; what would thin it stands with the change"
        )
    } else if sum > refuse {
        format!(
            "That is above {refuses} mg/L: have it measured at your own tap before the next change, or thin it with low-mineral water; I add none"
        )
    } else if sum > ask {
        format!(
            "That is above {asks} mg/L, where I ask: do your shrimps and snails do well on this tap? Above {refuses} I refuse"
        )
    } else {
        format!("I ask above {asks} mg/L and refuse above {refuses}")
    };
    // A guess about the pipes is told apart from what was read of the works.
    let parts = if pipes.kind == Kind::Assumed && pipes.high > 0.0 {
        format!(
            "the figure for your water is up to {} mg/L; your pipes may add up to {} after standing (assumed), which makes up to {} with the bottles.",
            pen.n(water.high, 2),
            pen.n(pipes.high, 2),
            pen.n(sum, 2)
        )
    } else {
        format!("tap, pipes and bottles together bring up to {} mg/L.", pen.n(sum, 2))
    };
    format!(
        "{parts} {verdict}. A report's copper is often that of the works: pipes add to it, most of all when the water stood."
    )
}

/// What to do where nobody measured it: the bad end counts for what I add, and is no verdict on the tank.
fn unmeasured(desk: &Desk, sum: f64, water: Known<f64>) -> String {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    format!(
        "nobody has measured it in your tap. Taps hold {} to {} mg/L; I count on the upper end, {} with the pipes, and so refuse every \
         product that brings more. Ask your supplier for copper at homes like yours, or have a laboratory measure the first draw of the \
         morning and one after running; no kit for the home measures so little. Until then watch: shrimps and snails that have lived \
         well on this tap for months speak for it, and new ones wait for the number. I ask above {} mg/L and refuse above {}.",
        pen.n(water.low, 1),
        pen.n(water.high, 1),
        pen.n(sum, 2),
        pen.n(limit.copper_ask_mg_per_l.value(), 1),
        pen.n(limit.copper_refuse_mg_per_l.value(), 1)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::common::{exact, tank};

    /// 0.01 g a day of a mix with 1.5 % of copper into 100 L: 0.0015 mg/L a day; × 7 ÷ 0.25 = 0.042 mg/L before a change.
    #[test]
    fn rule_4_a_trace_mix_is_refused_by_its_copper() {
        let mut tank = tank();
        tank.animals.shrimps = 5;
        let dose = Dose {
            product: "trace_mix".to_owned(),
            name: "dry trace mix".to_owned(),
            into: Into::Bottle,
            amount: 0.01,
            owned: true,
            brings: vec![(Ion::Iron, 0.007)],
        };
        let run = |tank: &setup::Tank| {
            let desk = Desk::new(tank);
            let mut doses = vec![dose.clone()];
            let copper = watch(&desk, &tank.tap, 0.0, &mut doses);
            (doses.len(), copper.refused.first().map(|r| r.why.clone()))
        };
        let (left, why) = run(&tank);
        assert_eq!(left, 0);
        assert!(
            why.is_some_and(|why| why.contains("0.044 mg/L") && why.contains("0.042 from the dose")),
            "0.042 + 0.001 + 0.001"
        );
        // A label that says 0.1 % stays: 0.0028 + 0.002 = 0.0048 mg/L.
        tank.at_hand.trace_copper = exact(0.001);
        assert_eq!(run(&tank).0, 1);
        // Never changed, it only gathers: refused however little it is.
        tank.habits.every_days = 0;
        assert_eq!(run(&tank).0, 0);
        // Fish alone: no matter of this rule.
        tank.animals.shrimps = 0;
        assert_eq!(run(&tank).0, 1);
    }
}
