//! "Lower my hard tap to pH 6.5": refused with the carbon dioxide that it would free, and two honest ways.

use crate::common;

use crate::common::{exact, tank};
use quantity::Ion;
use recipe::{Refused, plan};
use water::{Conserved, Totals, blend, pco2_atm_of_room, solve};

const HARD: &str = include_str!("../../../../examples/hard-tap-ph-wish.toml");

fn wished(refused: &[Refused]) -> &Refused {
    refused.iter().find(|r| r.wish.starts_with("pH")).expect("the wish for a pH is refused")
}

/// The first number in front of some words.
fn before(text: &str, words: &str) -> f64 {
    let head = text.split(words).next().expect("a head");
    head.split_whitespace().last().expect("a number").parse().unwrap_or_else(|_| panic!("{words} in {text}"))
}

#[test]
fn carbon_dioxide_freed_is_a_millimole_for_each_milliequivalent() {
    let mut tank = tank();
    tank.wish.ph = Some(6.5);
    let plan = plan(&tank);
    let refused = wished(&plan.refused);
    // At pH 6.5 nearly all alkalinity is bicarbonate: [HCO3] = K1 CO2 ÷ [H]. 1,000 ppm at 24 °C are 0.034 mmol/L of CO2,
    // pK1 6.357 (Plummer & Busenberg 1982): 0.034 × 10^(6.5 - 6.357) = 0.047 meq/L stay, less than 0.1 with activities.
    // (2.80 - 0.05) × 44.009 = 121 mg/L.
    let freed = before(&refused.why, " mg/L of carbon dioxide");
    assert!((freed - (2.80 - 0.05) * 44.009).abs() < 2.0, "{freed}");
    assert!(refused.why.contains("under 30 mg/L") && refused.why.contains("50 to 60"));
    assert_eq!(refused.ways.len(), 2);
    assert!(refused.ways[0].starts_with("Blend") && refused.ways[1].starts_with("Leave it be"));
    // No product that is acid is anywhere in the plan.
    assert!(plan.doses.iter().all(|d| !d.product.contains("acid")));
}

#[test]
fn the_blend_that_is_offered_has_that_ph_once_aired() {
    let mut tank = tank();
    tank.low = Some(common::water("rain", &[(Ion::Calcium, 0.8), (Ion::Sodium, 0.8), (Ion::Chloride, 1.4)], 0.03));
    tank.wish.ph = Some(7.4);
    let plan = plan(&tank);
    let way = &wished(&plan.refused).ways[0];
    let share = before(way, " % of rain") / 100.0;
    let conserved = |w: &setup::SourceWater| Conserved {
        totals: Totals::from_mg_per_l(&Ion::MAJOR.map(|ion| w.mg_per_l(ion).value)),
        alkalinity_eq_per_kg: w.alkalinity_meq_per_l.value / 1000.0,
        dic_mol_per_kg: 0.0,
        temperature_c: 24.0,
    };
    let mixed = blend(&[(1.0 - share, conserved(&tank.tap)), (share, conserved(tank.low.as_ref().expect("rain")))]);
    let ph = solve(&mixed.open_to(pco2_atm_of_room(1000.0, 24.0))).expect("solved").ph;
    assert!((ph - 7.4).abs() < 0.02, "the share is printed to a tenth of a per cent: {ph}");
}

#[test]
fn where_no_share_reaches_it_that_is_said() {
    let mut tank = tank();
    tank.low = Some(common::water("a hard spring", &[(Ion::Calcium, 40.0)], 2.0));
    tank.wish.ph = Some(6.5);
    assert!(wished(&plan(&tank).refused).ways[0].contains("no share of it reaches 6.5"));
}

#[test]
fn a_wish_within_reach_is_no_refusal_and_a_higher_one_is_alkalinity() {
    let mut tank = tank();
    tank.wish.ph = Some(8.2);
    let met = plan(&tank);
    let said = |plan: &recipe::Plan| {
        plan.left_out.iter().find(|n| n.about == "pH").map(|n| n.text.clone()).unwrap_or_default()
    };
    assert!(met.refused.is_empty() && said(&met).contains("meets your wish for pH 8.2"), "{}", said(&met));
    // Within the range but not near: answered too, with what would hold it.
    tank.room_co2_ppm = common::ranged(300.0, 1000.0, 1500.0);
    tank.wish.ph = Some(8.6);
    let within = plan(&tank);
    assert!(within.refused.is_empty() && said(&within).contains("Should it stand lower"), "{}", said(&within));
    assert!(
        said(&within).ends_with("test ammonia before and after."),
        "what raises pH frees ammonia: {}",
        said(&within)
    );
    tank.room_co2_ppm = common::ranged(600.0, 1000.0, 1500.0);
    tank.wish.ph = Some(8.2);
    tank.tap.alkalinity_meq_per_l = exact(0.5);
    tank.tap.ions.insert(Ion::Chloride, exact(103.0));
    let plan = plan(&tank);
    let refused = wished(&plan.refused);
    assert!(refused.ways[0].starts_with("Wish for alkalinity instead"), "{refused:?}");
}

#[test]
fn the_example_with_rain_at_hand() {
    let tank = setup::Setup::read("hard-tap-ph-wish.toml", HARD).expect("reads").tank().expect("a tank");
    let plan = plan(&tank);
    let refused = wished(&plan.refused);
    assert_eq!(refused.wish, "pH 6.5");
    assert!(
        refused.ways[0].contains("rain water") && refused.ways[0].contains("next to no buffer"),
        "{:?}",
        refused.ways
    );
}
