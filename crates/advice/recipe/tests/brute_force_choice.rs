//! The choice over random tanks, judged from outside the rows that made it: levels by `levels::level` (which has judges of its
//! own), limits of harm by adding up the doses, fewest products by trying every smaller set.

use crate::common;
use crate::tanks;

use knowledge::book;
use quantity::{Ion, Known};
use recipe::levels::{self, Cycle};
use recipe::programme::minimise;
use recipe::{Choice, Into, Reason, Subject, choose, programme_of};
use setup::Tank;

fn brought(choice: &Choice, ion: Ion, into: Into) -> f64 {
    let doses = choice.doses.iter().filter(|dose| dose.into == into);
    doses.flat_map(|dose| &dose.brings).filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum()
}

/// The cycle at one end of the tap's range, uptake at its best estimate.
fn at(tank: &Tank, choice: &Choice, ion: Ion, end: fn(Known<f64>) -> f64) -> Cycle {
    let best = levels::cycle(
        tank,
        ion,
        brought(choice, ion, Into::Bottle),
        brought(choice, ion, Into::NewWater),
        choice.low_share,
    );
    let tap = end(tank.tap.mg_per_l(ion));
    let low = tank.low.as_ref().map_or(tap, |low| end(low.mg_per_l(ion)));
    let water = (1.0 - choice.low_share) * tap + choice.low_share * low + brought(choice, ion, Into::NewWater);
    Cycle { tap: water, top_up_per_day: end(levels::top_up_per_day(tank, ion)), ..best }
}

/// Judge: `levels::Cycle`. Where nothing is said to be unmet, the bands hold from the tap's lowest to its highest.
#[test]
fn bands_hold_over_the_taps_range_unless_it_says_not() {
    let mut held = 0;
    for seed in 0..60 {
        let tank = tanks::random(seed);
        let choice = choose(&tank);
        for (ion, (low, high)) in levels::bands(&tank) {
            let told = choice.unmet.iter().any(|unmet| unmet.ion == Some(ion))
                || choice.left_out.iter().any(|left| matches!(left, recipe::LeftOut { subject: Subject::Ion(i), reason: Reason::TapCovers { exceeds: true, .. } } if *i == ion));
            if told || tank.habits.every_days == 0 {
                continue;
            }
            let (poor, rich) =
                (at(&tank, &choice, ion, |k| k.low).swing(), at(&tank, &choice, ion, |k| k.high).swing());
            let alone =
                Cycle { dose_per_day: 0.0, tap: tank.tap.mg_per_l(ion).high, ..at(&tank, &choice, ion, |k| k.high) };
            assert!(poor.lowest >= low * (1.0 - 2e-5), "{seed} {ion:?}: {} under {low}", poor.lowest);
            let top = high.max(alone.swing().highest);
            assert!(rich.highest <= top * (1.0 + 2e-5) + 1e-9, "{seed} {ion:?}: {} over {top}", rich.highest);
            held += 1;
        }
    }
    assert!(held > 80, "only {held} bands were judged");
}

/// Judge: adding up. No dose passes a ceiling of a day, brings ammonium to animals, or copper over its limit.
#[test]
fn no_dose_passes_a_limit_of_harm() {
    let limit = &book().harm.limit;
    for seed in 0..60 {
        let tank = tanks::random(seed);
        let choice = choose(&tank);
        let smaller = tank.geometry.true_l.value / tank.geometry.true_l.low;
        let changed = tank.habits.change_share.value;
        for (ion, most) in [
            (Ion::Nitrate, limit.nitrate_step_mg_per_l.value()),
            (Ion::Potassium, limit.potassium_step_mg_per_l.value()),
            (Ion::Phosphate, limit.phosphate_step_mg_per_l.value()),
            (Ion::Iron, limit.iron_step_mg_per_l.value()),
        ] {
            let day = smaller * brought(&choice, ion, Into::Bottle) + changed * brought(&choice, ion, Into::NewWater);
            assert!(day <= most + 1e-5, "{seed} {ion:?} {day}");
        }
        if tank.animals.any() {
            assert_eq!(
                brought(&choice, Ion::Ammonium, Into::Bottle) + brought(&choice, Ion::Ammonium, Into::NewWater),
                0.0
            );
            let forbidden =
                |dose: &&recipe::Dose| book().product(&dose.product).is_some_and(|p| p.never_with_animals.is_some());
            assert!(!choice.doses.iter().any(|dose| forbidden(&dose)), "{seed}");
        }
        if tank.animals.invertebrates() && tank.habits.every_days > 0 {
            let mix: f64 = choice.doses.iter().filter(|dose| dose.product == "trace_mix").map(|dose| dose.amount).sum();
            let a_day = 1000.0 * mix * tank.at_hand.trace_copper.high / tank.geometry.true_l.value;
            let comes_to = a_day * f64::from(tank.habits.every_days) / changed;
            let there = tank.tap.mg_per_l(Ion::Copper).high + tank.pipes_copper_mg_per_l.high;
            assert!(a_day == 0.0 || there + comes_to <= limit.copper_ask_mg_per_l.value() + 1e-7, "{seed}");
        }
        assert!((0.0..=1.0).contains(&choice.low_share) && choice.doses.iter().all(|dose| dose.amount > 0.0));
    }
}

/// Judge: itself, run again; and a tank of twice the litres.
#[test]
fn the_same_tank_has_the_same_recipe_and_twice_the_litres_twice_the_grams() {
    for seed in 0..15 {
        let mut tank = tanks::random(seed);
        // Whether a dose can be weighed hangs on the litres: here everything can.
        tank.at_hand.scale_g = common::exact(1e-9);
        tank.at_hand.syringe_ml = common::exact(1e-9);
        // A packet costs the same whatever the litres: here all are owned, and only what is used up costs.
        tank.at_hand.products = book().products.keys().cloned().collect();
        let mut twice = tank.clone();
        twice.geometry.true_l = tank.geometry.true_l.map(|l| 2.0 * l);
        twice.habits.top_up_l_per_day = tank.habits.top_up_l_per_day.map(|l| 2.0 * l);
        let (one, two) = (choose(&tank), choose(&twice));
        assert_eq!(one, choose(&tank));
        assert_eq!(one.doses.len(), two.doses.len(), "{seed}");
        for (a, b) in one.doses.iter().zip(&two.doses) {
            let times = if a.into == Into::Bottle { 2.0 } else { 1.0 };
            assert_eq!(a.product, b.product, "{seed}");
            // A stage is held to 1e-7 of its value, and a row to the solver's 1e-7: doses follow within some parts in a million.
            assert!(
                (b.amount - times * a.amount).abs() <= 1e-5 * b.amount,
                "{seed} {} {} {}",
                a.product,
                a.amount,
                b.amount
            );
        }
    }
}

/// Judge: every set with one product fewer, each a linear programme without any yes-or-no. None of them works.
#[test]
fn no_smaller_set_of_products_works() {
    for (name, tank) in [("middling tap", common::tank()), ("much nitrate", tanks::much_nitrate())] {
        let (programme, stages) = programme_of(&tank).unwrap();
        let fewest = stages.iter().find(|stage| stage.name == "fewest products").unwrap();
        let found = minimise(&programme, &fewest.costs, None, 100_000).unwrap();
        assert!(found.proved);
        let products: Vec<usize> = fewest.costs.iter().map(|&(column, _)| column).collect();
        let smaller = found.objective.round() as usize - 1;
        let mut tried = 0;
        for set in subsets(&products, smaller) {
            let mut linear = programme.clone();
            for column in &mut linear.columns {
                column.whole = false;
            }
            for &product in &products {
                let on = f64::from(u8::from(set.contains(&product)));
                linear.columns[product].lower = on;
                linear.columns[product].upper = on;
            }
            // A row that says "at least one of these" holds for whole numbers only by what it was made from: leave it out.
            linear.rows.retain(|row| !row.name.ends_with(", covered"));
            assert!(minimise(&linear, &[], None, 1).is_err(), "{name}: {set:?} would do");
            tried += 1;
        }
        assert!(tried >= 15, "{name}: {tried} sets of {smaller}");
    }
}

fn subsets(of: &[usize], size: usize) -> Vec<Vec<usize>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for (i, &first) in of.iter().enumerate() {
        all.extend(subsets(&of[i + 1..], size - 1).into_iter().map(|mut rest| {
            rest.push(first);
            rest
        }));
    }
    all
}

/// Work is counted, not timed: the invented tanks take 11 to 296 nodes. Regression only.
#[test]
fn the_search_stays_short() {
    for (name, tank) in tanks::invented() {
        let choice = choose(&tank);
        assert!(choice.proof.nodes < 600, "{name}: {} nodes", choice.proof.nodes);
        assert!(choice.proof.stages.iter().all(|(_, proved)| *proved), "{name}: {:?}", choice.proof.stages);
    }
}
