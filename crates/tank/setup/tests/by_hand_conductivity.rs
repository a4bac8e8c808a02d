//! A measured conductivity against the ions that nobody reported: by the rule of Standard Methods 1030 E
//! (`standard_methods_1030`), measured and calculated within a tenth, and by limiting conductivities.

use quantity::Ion;
use setup::{Setup, Tank, open_charge_meq_per_l};

const SOFT: &str = "[tap]\nhardness = \"1.2 °dH\"\nalkalinity = \"0.4 °dH\"\nph = 6.3\nnitrate = \"1 mg/L NO3\"\n\
                    phosphate = \"0.02 mg/L PO4\"\n";

fn tank(text: &str) -> Tank {
    Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}")).tank().unwrap()
}

/// µS/cm by limiting equivalent conductivities (handbook values, from memory): Na 50.1, K 73.5, Ca 59.5, Mg 53.0,
/// Cl 76.3, SO4 80.0, NO3 71.4, HCO3 44.5; at some 60 µS/cm the ions lose 3 to 4 % of that to one another.
fn by_hand(tank: &Tank) -> f64 {
    let of = |ion: Ion, lambda: f64| {
        lambda * tank.tap.mg_per_l(ion).value * f64::from(ion.charge().abs()) / ion.molar_mass()
    };
    let ions = [
        (Ion::Sodium, 50.1),
        (Ion::Potassium, 73.5),
        (Ion::Calcium, 59.5),
        (Ion::Magnesium, 53.0),
        (Ion::Chloride, 76.3),
        (Ion::Sulfate, 80.0),
        (Ion::Nitrate, 71.4),
    ];
    ions.iter().map(|(ion, lambda)| of(*ion, *lambda)).sum::<f64>() + 44.5 * tank.tap.alkalinity_meq_per_l.value
}

#[test]
fn a_little_that_conducts_leaves_little_for_what_nobody_reported() {
    let free = tank(SOFT);
    assert!(by_hand(&free) > 120.0, "assumed ions alone conduct far more: {}", by_hand(&free));
    let told = tank(&format!("{SOFT}conductivity = \"60 µS/cm at 25 °C\"\n"));
    let conducts = by_hand(&told);
    // A tenth either way, and the 4 % that the limiting values are too high.
    assert!((54.0..=66.0 * 1.04).contains(&conducts), "{conducts}");
    assert!(open_charge_meq_per_l(&told.tap.ions, told.tap.alkalinity_meq_per_l.value).abs() < 1e-6);
    for ion in [Ion::Sodium, Ion::Chloride, Ion::Sulfate] {
        let (before, now) = (free.tap.mg_per_l(ion), told.tap.mg_per_l(ion));
        // 66 µS/cm of sodium sulfate, the salt of least conductivity here: 66 ÷ 130.1 = 0.51 meq/L at the very most.
        assert!(
            now.high < before.high && now.high * f64::from(ion.charge().abs()) / ion.molar_mass() < 0.51,
            "{now:?}"
        );
        assert!(now.low <= now.value && now.value <= now.high);
    }
    assert!(told.assumed.iter().any(|a| a.field == "tap.chloride" && a.sentence.contains("conductivity")));
    assert_eq!(told.tap.mg_per_l(Ion::Nitrate).value, 1.0, "what was told stays");
    assert!(told.unusual.is_empty(), "{:?}", told.unusual);
}

#[test]
fn much_that_conducts_asks_for_more_of_them() {
    let told = tank(&format!("{SOFT}conductivity = \"250 µS/cm at 25 °C\"\n"));
    assert!((225.0..=275.0 * 1.06).contains(&by_hand(&told)), "{}", by_hand(&told));
}

#[test]
fn a_conductivity_that_agrees_moves_nothing_and_one_that_cannot_be_is_asked_about() {
    let free = tank(SOFT);
    let agrees = format!("{SOFT}conductivity = \"{:.0} µS/cm at 25 °C\"\n", 0.96 * by_hand(&free));
    assert_eq!(tank(&agrees).tap.ions, free.tap.ions);
    // 0.428 meq/L of hardness alone: 0.428 × 57 = 24 µS/cm, and its anions as much again.
    let told = tank(&format!("{SOFT}conductivity = \"20 µS/cm at 25 °C\"\n"));
    let asked = |tank: &Tank| tank.unusual.iter().any(|(field, _)| field == "tap.conductivity");
    assert!(asked(&told), "{:?}", told.unusual);
}
