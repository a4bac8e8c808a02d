//! Packs that outlast a tank, and stocks that must last for several portions, by hand.

use recipe::{Answer, Plan, Purchase, portion, to_share};
use setup::{Setup, Tank};

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

fn planned() -> (Tank, Plan) {
    match Setup::read("tank.toml", HOUSEHOLD).and_then(|setup| recipe::answer(&setup)) {
        Ok(Answer::Settled { tank, plan }) => (*tank, *plan),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_pack_of_centuries_is_shared() {
    let (_, mut plan) = planned();
    let of = |days: Option<f64>, purchase: &Purchase| Purchase { lasts_days: days, owned: false, ..purchase.clone() };
    let one = plan.shopping.first().cloned().unwrap_or_else(|| panic!("something is bought"));
    // 3,300 years are over 10 (`data/recipe.toml`): 10 × 365.25 days are shown, and that it lasts longer.
    assert_eq!(of(Some(3300.0 * 365.25), &one).lasts(), Some((3652.5, true)));
    assert_eq!(of(Some(3652.5), &one).lasts(), Some((3652.5, false)));
    assert_eq!(of(None, &one).lasts(), None);
    plan.shopping = vec![of(Some(3000.0), &one)];
    assert_eq!(to_share(&plan), None);
    plan.shopping = vec![of(Some(4000.0), &one)];
    let says = to_share(&plan).unwrap_or_else(|| panic!());
    assert!(says.to_lowercase().contains(&one.name.to_lowercase()) && says.contains("share one"), "{says}");
    // Who owns it needs none.
    plan.shopping = vec![Purchase { owned: true, ..of(Some(4000.0), &one) }];
    assert_eq!(to_share(&plan), None);
}

#[test]
fn a_stock_is_made_for_all_its_portions() {
    let (tank, _) = planned();
    let product = knowledge::book().product("potassium_nitrate").unwrap_or_else(|| panic!());
    let amounts = |times: f64| {
        // A tenth of what the scale can weigh at the least goes by way of a stock.
        let least = recipe::Tools::at_hand(&tank).least_g;
        let says = portion(&tank, product, "it", 0.1 * least, times).unwrap_or_else(|| panic!("too coarse"));
        let numbers: Vec<f64> = says.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        // "8 mL from 1 g of it in 100 mL of boiled, cooled water": taken, grams, mL.
        <[f64; 3]>::try_from(numbers).unwrap_or_else(|all| panic!("{says}: {all:?}"))
    };
    let [take, grams, ml] = amounts(1.0);
    for times in [2.0, 5.0, 30.0] {
        let [again, more, larger] = amounts(times);
        assert_eq!(take, again);
        assert!(times * take <= larger + 1e-9, "{times} × {take} mL of {larger} mL");
        // As strong as one portion's.
        assert!((more / larger - grams / ml).abs() < 1e-9, "{more} g in {larger} mL");
    }
}
