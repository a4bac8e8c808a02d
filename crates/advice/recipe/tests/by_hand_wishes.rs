//! The keeper's own wishes and products: a wish goes before the table, and what is passed over says why; each by hand.

use crate::common::{exact, tank, water};
use crate::tanks::{a_day, left_out, near, plain};
use quantity::Ion;
use recipe::{Into, Reason, Subject, choose, choose_at, levels};
use setup::OwnProduct;

/// Judge: by hand. Nine German degrees in a water of one: the table's 40 mg/L of calcium and 12 of magnesium are 1.996 +
/// 0.987 meq/L, 8.4 degrees, and stop it short of 8.5: they follow the keeper's own wish. Too little is never mended by thinner
/// water.
#[test]
fn a_keepers_own_wish_goes_before_the_tables_bands() {
    let mut tank = tank();
    let meq_per_degree = 10.0 * 2.0 / 56.077;
    tank.tap = water("soft", &[(Ion::Calcium, 7.1), (Ion::Sodium, 76.0), (Ion::Chloride, 59.0)], 2.0);
    tank.wish.hardness_meq_per_l = Some((8.5 * meq_per_degree, 10.0 * meq_per_degree));
    let choice = choose(&tank);
    assert!(choice.unmet.is_empty(), "{:?}", choice.unmet);
    let lowest = |ion: Ion| {
        let new_water = choice.doses.iter().filter(|dose| dose.into == Into::NewWater);
        let added: f64 = new_water.flat_map(|dose| &dose.brings).filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum();
        levels::level(&tank, ion, a_day(&choice, ion), added, 0.0).lowest
    };
    let meq = lowest(Ion::Calcium) / 20.039 + lowest(Ion::Magnesium) / 12.1525;
    assert!(meq >= 8.49 * meq_per_degree, "{meq}");
    // Twenty degrees pass a limit of harm, and thinner water is no remedy.
    tank.wish.hardness_meq_per_l = Some((18.0, 20.0));
    let unmet = choose(&tank).unmet;
    assert!(unmet.iter().all(|unmet| !unmet.text.contains("low-mineral")), "{unmet:?}");
}

/// Judge: the rule. Where harm limits the change, a bigger one is not advised.
#[test]
fn no_bigger_change_where_harm_limits_it() {
    let mut tank = plain(&[(Ion::Nitrate, (1.0, 15.0))]);
    tank.growth.uptake_mg_per_l_day.insert(Ion::Nitrate, exact(-1.0));
    let text =
        |may: bool| choose_at(&tank, None, may).unmet.first().map(|unmet| unmet.text.clone()).unwrap_or_default();
    assert!(text(true).contains("A bigger change would hold it"), "{}", text(true));
    assert!(text(false).contains("not for this water"), "{}", text(false));
}

/// Judge: by hand, as above: 10 / 21 mg/L of nitrate a day; a liquid with as much phosphate as nitrate brings as much phosphate: 28 D =
/// 13.33 mg/L after the first dose, over 2. One with calcium alone: none is short. One with a little potassium beside what a bought
/// salt brings anyway: it spares nothing.
#[test]
fn what_is_owned_and_idle_says_why() {
    let mut tank = plain(&[(Ion::Nitrate, (10.0, 16.0)), (Ion::Phosphate, (0.0, 2.0)), (Ion::Calcium, (15.0, 60.0))]);
    let own = |name: &str, mg: &[(Ion, f64)]| OwnProduct {
        name: name.to_owned(),
        ions_mg: mg.iter().copied().collect(),
        liquid: true,
    };
    tank.at_hand.own =
        vec![own("both", &[(Ion::Nitrate, 20.0), (Ion::Phosphate, 20.0)]), own("lime", &[(Ion::Calcium, 20.0)])];
    let choice = choose(&tank);
    let reasons = left_out(&choice, &Subject::Product("both".to_owned()));
    let [Reason::TooMuchAlong { needed, ion: Ion::Phosphate, comes_to, most }] = reasons[..] else {
        panic!("{reasons:?}")
    };
    assert_eq!(needed, "nitrate");
    near(*comes_to, 10.0 / 21.0 * 28.0);
    near(*most, 2.0);
    assert_eq!(left_out(&choice, &Subject::Product("lime".to_owned())), [&Reason::NotLacking]);
    let notes = recipe::plan(&tank).left_out;
    assert!(notes.iter().any(|note| note.about == "both" && note.text.contains("13")), "{notes:?}");
    assert!(
        notes.iter().any(|note| note.text.starts_with("Lime (owned): nothing that it brings is short")),
        "{notes:?}"
    );
    // Two salts for nitrate: one of them spares nothing.
    tank.at_hand.products = vec!["potassium_nitrate".to_owned(), "sodium_nitrate".to_owned()];
    let choice = choose(&tank);
    let idle = choice.left_out.iter().filter(|left| left.reason == Reason::SparesNothing).count();
    assert_eq!(idle, 1, "{:?}", choice.left_out);
}
