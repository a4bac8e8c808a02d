//! The choice on tanks so plain that a sum by hand gives the dose, and each limit of harm where it binds.

use crate::common;
use crate::tanks;

use std::collections::BTreeMap;

use crate::common::{exact, tank, water};
use crate::tanks::{a_day, left_out, near, plain};
use quantity::Ion;
use recipe::{Choice, Into, Reason, Subject, choose, choose_at, levels};
use setup::{Animals, Feeding, OwnProduct, Tank};

/// Judge: by hand. Right after a change a = D 7 (1 - 0.25) / 0.25 = 21 D must be 10, so D = 10 / 21 mg/L; in 100 L that is
/// 47.62 mg of nitrate; a gram of 99 % potassium nitrate holds 0.99 × 62.004 / 101.102 = 0.607149 g of it: 78.43 mg.
#[test]
fn grams_of_nitrate() {
    let mut tank = plain(&[(Ion::Nitrate, (10.0, 16.0))]);
    tank.at_hand.products = vec!["potassium_nitrate".to_owned()];
    let choice = choose(&tank);
    assert_eq!(choice.doses.len(), 1);
    let dose = &choice.doses[0];
    assert_eq!((dose.product.as_str(), dose.into, dose.owned), ("potassium_nitrate", Into::Bottle, true));
    near(dose.amount, 0.078_430_6);
    near(a_day(&choice, Ion::Nitrate), 10.0 / 21.0);
    near(a_day(&choice, Ion::Potassium), 10.0 / 21.0 * 39.098 / 62.004);
    let why = &choice.whys[0];
    assert_eq!(why.key, "dose-potassium_nitrate");
    assert_eq!(why.sum, "0.476 mg/L of nitrate a day × 100 L ÷ 607 mg of it in a g = 0.0784 g a day");
    assert!(choice.unmet.is_empty() && choice.ramp.is_empty());
}

/// Judge: by hand. What is owned goes first, though it costs more; without anything owned the cheaper one.
#[test]
fn owned_first_then_cost() {
    let mut tank = plain(&[(Ion::Nitrate, (10.0, 16.0))]);
    tank.at_hand.products = vec!["sodium_nitrate".to_owned()];
    assert_eq!(choose(&tank).doses[0].product, "sodium_nitrate");
    tank.at_hand.products.clear();
    tank.prices.insert("potassium_nitrate".to_owned(), 100_000.0);
    assert_ne!(choose(&tank).doses[0].product, "potassium_nitrate");
}

/// Judge: by hand. One product that brings both is better than two.
#[test]
fn few_products() {
    let choice = choose(&plain(&[(Ion::Nitrate, (10.0, 16.0)), (Ion::Potassium, (5.0, 12.0))]));
    assert_eq!(choice.doses.iter().map(|dose| dose.product.as_str()).collect::<Vec<_>>(), ["potassium_nitrate"]);
}

/// Judge: by hand. 0.06 g a bottle is under five steps of 0.1 g for any chelate but the poorest, whose 0.12 g is too; on a
/// scale of 0.01 g it is enough.
#[test]
fn doses_that_can_be_weighed() {
    // Between 21 D and 28 D: 0.02 to 0.03 mg/L of iron. In 100 L for 60 days 5.7 to 6.4 mg of iron: 44 to 49 mg of the
    // chelate with 13 %, 95 to 107 mg of that with 6 %.
    let mut tank = plain(&[(Ion::Iron, (0.02, 0.03))]);
    for key in ["iron_edta", "iron_eddha"] {
        tank.prices.insert(key.to_owned(), 900.0);
    }
    tank.at_hand.scale_g = exact(0.019);
    // Five steps are 95 mg.
    assert_eq!(choose(&tank).doses[0].product, "iron_eddha");
    tank.at_hand.scale_g = exact(0.001);
    assert_ne!(choose(&tank).doses[0].product, "iron_eddha");
}

/// Judge: by hand. Tap 40, 0.6 a day taken, half changed a week: 40 - 4.2 / 0.5 = 31.6 before and 35.8 after a change; a
/// share x with 40 - 4.2 (1 - x) / x = 16 is 4.2 / 28.2.
#[test]
fn a_tap_rich_in_nitrate_wants_a_smaller_change() {
    let choice = choose(&tanks::much_nitrate());
    assert_eq!(a_day(&choice, Ion::Nitrate), 0.0);
    let reasons = left_out(&choice, &Subject::Ion(Ion::Nitrate));
    let [Reason::TapCovers { settles, exceeds: true, smaller_share: Some(share), .. }] = reasons[..] else {
        panic!("{reasons:?}")
    };
    near(settles.0, 31.6);
    near(settles.1, 35.8);
    near(*share, 4.2 / 28.2);
    assert!(choice.unmet.iter().all(|unmet| unmet.ion != Some(Ion::Nitrate)), "left out, not unmet");
}

/// Judge: by hand. Sixteen German degrees brought to five by pure water: 5 / 16 of tap.
#[test]
fn blending_by_hand() {
    let mut tank = plain(&[]);
    let meq_per_degree = 10.0 * 2.0 / 56.077;
    let calcium = 16.0 * meq_per_degree * 40.078 / 2.0;
    tank.tap = water("hard", &[(Ion::Calcium, calcium), (Ion::Chloride, 16.0 * meq_per_degree * 35.45)], 3.0);
    tank.low = Some(water("pure", &[], 0.0));
    tank.low_share = None;
    tank.wish.hardness_meq_per_l = Some((4.0 * meq_per_degree, 5.0 * meq_per_degree));
    let choice = choose(&tank);
    near(choice.low_share, 11.0 / 16.0);
    assert!(choice.doses.is_empty() && choice.unmet.is_empty());
    // Eleven degrees away, a degree a day: the first change of a quarter may bring four of them.
    assert!(choice.ramp.first().is_some_and(|first| *first <= 4.0 / 11.0 + 1e-9), "{:?}", choice.ramp);
    // Without such water it is said what would mend it, with the same share.
    tank.low = None;
    let unmet = &choose(&tank).unmet[0];
    assert!(unmet.text.contains("69 % low-mineral water"), "{}", unmet.text);
}

/// Judge: the rule. The first changes move alkalinity, hardness and conductivity of a tank on tap water no further than a day may.
#[test]
fn bigger_corrections_come_as_steps() {
    let mut tank = tanks::soft_raised();
    tank.habits.change_share = exact(0.5);
    let choice = choose(&tank);
    let alkalinity: f64 = 0.3; // of the tap
    let added: f64 = choice
        .doses
        .iter()
        .filter(|dose| dose.into == Into::NewWater && dose.product == "sodium_bicarbonate")
        .map(|dose| 1000.0 * dose.amount * 0.99 / 84.006)
        .sum();
    assert!(added > 1.0, "{added}");
    let (mut level, mut moved) = (alkalinity, 0.0f64);
    for share in choice.ramp.iter().chain(std::iter::repeat_n(&1.0, 20)) {
        let step = 0.5 * (alkalinity + share * added - level);
        moved = moved.max(step);
        level += step;
    }
    assert!(moved <= 0.36 + 1e-9, "{moved}");
    // Fails without the steps: the whole of it at once is more.
    assert!(0.5 * added > 0.36);
    assert!(choose(&Tank { animals: Animals::default(), ..tank }).ramp.is_empty(), "nobody lives in it");
}

/// Judge: the rule. Each ceiling of a day binds, and what it leaves short is said.
#[test]
fn ceilings_of_a_day() {
    for (ion, band, ceiling) in [
        (Ion::Nitrate, (300.0, 500.0), 10.0),
        (Ion::Potassium, (300.0, 500.0), 10.0),
        (Ion::Phosphate, (30.0, 60.0), 1.0),
        (Ion::Iron, (6.0, 10.0), 0.2),
    ] {
        // Salty water, so that conductivity does not bind first.
        // What comes along may: it has limits of its own.
        let mut bands =
            [Ion::Sodium, Ion::Potassium, Ion::Chloride, Ion::Sulfate, Ion::Nitrate].map(|ion| (ion, (0.0, 9e9)));
        bands.iter_mut().filter(|(other, _)| *other == ion).for_each(|own| own.1 = band);
        let mut tank = plain(&bands);
        tank.wish.bands.insert(ion, band);
        tank.tap = water(
            "salty",
            &[(Ion::Calcium, 150.0), (Ion::Sodium, 150.0), (Ion::Chloride, 240.0), (Ion::Sulfate, 240.0)],
            3.0,
        );
        let choice = choose(&tank);
        near(a_day(&choice, ion), ceiling);
        assert_eq!(choice.unmet.iter().map(|unmet| unmet.ion).collect::<Vec<_>>(), [Some(ion)]);
        // The smallest volume that the tank may have counts.
        tank.geometry.true_l = common::ranged(80.0, 100.0, 110.0);
        near(a_day(&choose(&tank), ion), 0.8 * ceiling);
    }
}

/// Judge: the rule, and a sum by hand. A tenth of the conductivity of next to pure water is next to nothing, with animals.
#[test]
fn conductivity_of_a_day() {
    let mut tank = plain(&[(Ion::Nitrate, (10.0, 16.0))]);
    tank.tap = water("thin", &[(Ion::Calcium, 1.0), (Ion::Chloride, 1.773)], 0.0);
    tank.habits.every_days = 0;
    tank.growth.uptake_mg_per_l_day.insert(Ion::Nitrate, exact(0.5));
    // 0.04990 meq/L of calcium and 0.05001 of chloride: 2.969 + 3.816 = 6.785 µS/cm, a tenth of it is 0.6785. Sodium
    // nitrate moves it least: (50.1 + 71.4) / 62.004 = 1.9596 µS/cm for a mg/L of nitrate. So 0.3463 mg/L a day, not 0.5.
    let choice = choose(&tank);
    assert_eq!(choice.doses[0].product, "sodium_nitrate");
    assert!((a_day(&choice, Ion::Nitrate) - 0.3463).abs() < 1e-4, "{}", a_day(&choice, Ion::Nitrate));
    assert_eq!(choice.unmet.len(), 1);
    tank.animals = Animals::default();
    near(a_day(&choose(&tank), Ion::Nitrate), 0.5);
}

/// Judge: the rule. Chloride and sulfate come along up to what is usual in a tap, and no further.
#[test]
fn what_comes_along_has_its_limit() {
    let mut tank = plain(&[]);
    tank.tap = water("soft", &[(Ion::Calcium, 8.0), (Ion::Chloride, 14.0)], 0.0);
    tank.wish.hardness_meq_per_l = Some((18.0, 20.0));
    let choice = choose(&tank);
    assert_eq!(choice.unmet.len(), 1);
    for ion in [Ion::Chloride, Ion::Sulfate] {
        let added: f64 =
            choice.doses.iter().flat_map(|dose| &dose.brings).filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum();
        let there = tank.tap.mg_per_l(ion).value + added;
        assert!(there <= 250.0 * (1.0 + 1e-6), "{ion:?} {there}");
    }
}

/// Judge: the rule, and a sum by hand: 0.04 mg/L of iron from a mix with 7 % iron and 1.5 % copper brings 0.0086 of copper.
#[test]
fn copper_with_shrimps() {
    let mut tank = tank();
    tank.at_hand.products = vec!["trace_mix".to_owned()];
    assert!(choose(&tank).doses.iter().any(|dose| dose.product == "trace_mix"), "fish alone");
    tank.animals.shrimps = 3;
    let choice = choose(&tank);
    assert!(choice.doses.iter().all(|dose| dose.product != "trace_mix"));
    let reasons = left_out(&choice, &Subject::Product("trace_mix".to_owned()));
    let [Reason::Copper { tap, adds, limit }] = reasons[..] else { panic!("{reasons:?}") };
    near(*tap, 0.002); // tap and pipes
    near(*adds, 0.04 * 1.5 / 7.0);
    near(*limit, 0.004);
    // A label that says next to none lets it in, and the dose brings what that label says: 0.5 mg in a gram.
    tank.at_hand.trace_copper = exact(0.0005);
    let choice = choose(&tank);
    let dose = choice.doses.iter().find(|dose| dose.product == "trace_mix").expect("it is let in");
    near(a_day(&choice, Ion::Copper), dose.amount * 0.5 / 100.0);
    // Where a label told that it is too much, nothing is said of labels that don't.
    let left = |copper| {
        tank.at_hand.trace_copper = copper;
        recipe::plan(&tank).left_out.iter().find(|note| note.about == "trace_mix").map(|note| note.text.clone())
    };
    let mut left = left;
    let assumed = quantity::Known::exact(0.015, quantity::Kind::Assumed);
    let say = &knowledge::book().harm.limit.copper_unknown_percent.say;
    assert!(left(assumed).is_some_and(|text| text.contains(say)));
    assert!(left(exact(0.015)).is_some_and(|text| !text.contains(say)));
}

/// Judge: the rule. Low-mineral water takes copper of the tap below its limit before any other wish.
#[test]
fn copper_of_the_tap_is_blended_down_for_shrimps() {
    let mut tank = plain(&[]);
    tank.animals.shrimps = 3;
    tank.tap.ions.insert(Ion::Copper, exact(0.007));
    tank.low = Some(water("pure", &[], 0.0));
    tank.low_share = None;
    // (0.007 + 0.001 of the pipes, which pure water never passed) (1 - s) = 0.004
    near(choose(&tank).low_share, 0.5);
    // What the pipes may add is a guess: it calls for none.
    tank.pipes_copper_mg_per_l = quantity::Known::ranged(0.0, 0.0, 0.09, quantity::Kind::Assumed);
    near(choose(&tank).low_share, 3.0 / 7.0);
    tank.animals = Animals { fish: 5, ..Animals::default() };
    assert_eq!(choose(&tank).low_share, 0.0);
}

/// Judge: the rule. Nothing that brings ammonium, with animals; nor carbonate, which raises pH at once.
#[test]
fn never_with_animals() {
    let mut tank = tanks::soft_raised();
    tank.at_hand.products = vec!["calcium_nitrate_double".to_owned(), "potassium_carbonate".to_owned()];
    let ions_mg = BTreeMap::from([(Ion::Nitrate, 40.0), (Ion::Ammonium, 5.0)]);
    tank.at_hand.own = vec![OwnProduct { name: "my liquid".to_owned(), ions_mg, liquid: true }];
    let choice = choose(&tank);
    for key in ["calcium_nitrate_double", "potassium_carbonate", "my liquid"] {
        assert!(choice.doses.iter().all(|dose| dose.product != key), "{key}");
        let reasons = left_out(&choice, &Subject::Product(key.to_owned()));
        assert!(matches!(reasons[..], [Reason::NeverWithAnimals { .. } | Reason::RaisesPh]), "{key} {reasons:?}");
    }
    tank.animals = Animals::default();
    assert!(choose(&tank).doses.iter().any(|dose| dose.owned), "an empty tank may use them");
}

/// Judge: the wish. A soil tank gets no dose; a tank that is never changed gets what is taken.
#[test]
fn soil_and_never_changed() {
    let choice = choose(&Tank { feeding: Feeding::None, ..tank() });
    assert!(choice.doses.is_empty() && choice.unmet.is_empty());
    assert_eq!(left_out(&choice, &Subject::Feeding), [&Reason::SoilTank]);
    let mut never = tank();
    never.habits.every_days = 0;
    let choice = choose(&never);
    assert_eq!(left_out(&choice, &Subject::Feeding), [&Reason::NeverChanged]);
    let taken = levels::net_uptake(&never, Ion::Nitrate);
    let given = a_day(&choice, Ion::Nitrate);
    assert!(given >= taken.low * 0.999_999 && given <= taken.high * 1.000_001, "{given}");
}

/// Judge: the table of chelates. Where the tank's pH is known, a chelate that lets go there is not taken.
#[test]
fn chelates_by_ph() {
    let tank = plain(&[(Ion::Iron, (0.04, 0.1))]);
    let holds = |choice: &Choice| {
        knowledge::book().product(&choice.doses[0].product).and_then(|p| Some(p.holds_to_ph.as_ref()?.value))
    };
    for ph in [6.0, 6.8, 7.4, 8.2] {
        let choice = choose_at(&tank, Some(ph), true);
        assert!(holds(&choice).is_none_or(|to| to >= ph), "{ph}: {:?}", choice.doses);
    }
}

/// Judge: by rule. What is owned comes first: an owned chelate is not replaced by one to buy.
#[test]
fn an_owned_chelate_stays() {
    let mut tank = plain(&[(Ion::Iron, (0.04, 0.1))]);
    tank.at_hand.products = vec!["iron_dtpa".to_owned()];
    assert_eq!(choose_at(&tank, Some(8.2), true).doses[0].product, "iron_dtpa");
}

/// Judge: by rule. A level that is only feared too high, since nobody measured the tap's, asks for a measurement and not for
/// other water.
#[test]
fn what_nobody_measured_is_to_be_measured() {
    let mut tank = plain(&[(Ion::Iron, (0.04, 0.1))]);
    let feared = quantity::Known::ranged(0.0, 0.02, 0.2, quantity::Kind::Assumed);
    tank.tap.ions.insert(Ion::Iron, feared);
    let unmet = choose(&tank).unmet;
    assert!(unmet[0].text.contains("Nobody measured iron"), "{unmet:?}");
    // The lower edge of the band is where the tap may do without a product; none is ruled out that is weighed all the same.
    assert!(unmet[0].text.contains("brings 0.04 mg/L or more may need no product"), "{unmet:?}");
    tank.tap.ions.insert(Ion::Iron, quantity::Known { kind: quantity::Kind::Measured, ..feared });
    assert!(!choose(&tank).unmet[0].text.contains("Nobody measured"));
}

/// Judge: itself. The same water typed in another unit differs in the sixteenth figure, and the recipe in none.
#[test]
fn the_last_figure_of_a_unit_does_not_matter() {
    for (name, tank) in tanks::invented() {
        let mut other = tank.clone();
        for known in other.tap.ions.values_mut() {
            *known = known.map(|mg| mg * (1.0 + f64::EPSILON));
        }
        other.tap.alkalinity_meq_per_l = tank.tap.alkalinity_meq_per_l.map(|meq| meq * (1.0 - f64::EPSILON));
        assert_eq!(choose(&tank).doses, choose(&other).doses, "{name}");
    }
}
