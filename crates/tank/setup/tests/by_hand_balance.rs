//! Charges of the household's tap by hand (Standard Methods 1030 E, `standard_methods_1030`), hardness split, and what
//! closes the charge where ions are missing.

use quantity::{Ion, Kind};
use setup::{Setup, SourceWater, Tank, charge_balance_percent, open_charge_meq_per_l};

fn tank(file: &str) -> Tank {
    Setup::read("tank.toml", file).unwrap_or_else(|faults| panic!("{faults}")).tank().unwrap()
}

fn percent(water: &SourceWater) -> f64 {
    charge_balance_percent(&water.ions, water.alkalinity_meq_per_l.value).unwrap()
}

#[test]
fn the_household_balances_within_two_percent() {
    let tap = tank(include_str!("../../../../examples/household/tank.toml")).tap;
    // Cations: Ca 48 × 2 ÷ 40.078 = 2.395, Mg 6 × 2 ÷ 24.305 = 0.494, Na 22 ÷ 22.990 = 0.957, K 3 ÷ 39.098 = 0.077,
    // NH4 half of 0.05 ÷ 18.039 = 0.001: 3.924.
    // Anions: alkalinity 5.9 × 20 ÷ 56.077 = 2.104, Cl 30 ÷ 35.45 = 0.846, SO4 32 × 2 ÷ 96.056 = 0.666,
    // NO3 14 ÷ 62.004 = 0.226, P 0.8 ÷ 30.974 = 0.026: 3.868. 100 × 0.0557 ÷ 7.7925 = 0.715 %.
    assert!((percent(&tap) - 0.715).abs() < 0.01, "{}", percent(&tap));
    assert!(percent(&tap).abs() < 2.0);
}

#[test]
fn the_other_examples_balance_too() {
    for file in [
        include_str!("../../../../examples/soft-water.toml"),
        include_str!("../../../../examples/hard-tap-ph-wish.toml"),
        include_str!("../../../../examples/same-water-degrees.toml"),
        include_str!("../../../../examples/soil-tank.toml"),
    ] {
        let tank = tank(file);
        assert!(percent(&tank.tap).abs() < 2.0, "{}: {} %", tank.name, percent(&tank.tap));
        assert_eq!(tank.questions, []);
        assert_eq!(tank.unusual, []);
    }
}

#[test]
fn a_missing_ion_closes_the_charge_and_says_so() {
    // Everything but sodium: 2.395 + 0.494 + 0.077 - (2.104 + 0.846 + 0.666 + 0.226 + 0.026) leaves 0.902 meq/L = 20.7 mg/L.
    let household = include_str!("../../../../examples/household/tank.toml");
    let without: String =
        household.lines().filter(|line| !line.starts_with("sodium")).map(|line| format!("{line}\n")).collect();
    let tank = tank(&without);
    assert!((tank.tap.mg_per_l(Ion::Sodium).value - 20.7).abs() < 0.1, "{:?}", tank.tap.mg_per_l(Ion::Sodium));
    assert_eq!(tank.tap.mg_per_l(Ion::Sodium).kind, Kind::Assumed);
    let charge = open_charge_meq_per_l(&tank.tap.ions, tank.tap.alkalinity_meq_per_l.value);
    assert!(charge.abs() < 1e-9, "{charge}");
    let sodium = tank.assumed.iter().find(|assumption| assumption.field == "tap.sodium").unwrap();
    assert!(sodium.sentence.contains("charges balance"), "{}", sodium.sentence);
}

#[test]
fn what_is_known_is_never_moved_for_the_charge() {
    // Sodium missing and the rest far out of balance: sodium goes to the end of its range and no further.
    let tank = tank(
        "[tap]\ncalcium = \"10 mg/L\"\nmagnesium = \"1 mg/L\"\nalkalinity = \"4 meq/L\"\nchloride = \"150 mg/L\"\n",
    );
    for (ion, mg) in [(Ion::Calcium, 10.0), (Ion::Magnesium, 1.0), (Ion::Chloride, 150.0)] {
        assert_eq!(tank.tap.mg_per_l(ion).value, mg);
        assert_eq!(tank.tap.mg_per_l(ion).kind, Kind::Measured);
    }
    assert_eq!(tank.tap.alkalinity_meq_per_l.value, 4.0);
    let sodium = tank.tap.mg_per_l(Ion::Sodium);
    assert_eq!(sodium.value, sodium.high);
}

#[test]
fn hardness_gives_the_missing_half() {
    // 8 °dH = 8 × 20 ÷ 56.077 = 2.853 meq/L; calcium 44 mg/L = 2.196; the rest, 0.658 meq/L, is 7.99 mg/L of magnesium.
    let tank = tank("[tap]\nhardness = \"8 °dH\"\ncalcium = \"44 mg/L\"\n");
    assert!((tank.tap.mg_per_l(Ion::Magnesium).value - 7.99).abs() < 0.01);
    assert_eq!(tank.tap.mg_per_l(Ion::Magnesium).kind, Kind::WorkedOut);
}

#[test]
fn hardness_alone_is_split_and_keeps_its_sum() {
    let tank = tank("[tap]\nhardness = \"8 °dH\"\nalkalinity = \"5 °dH\"\n");
    let meq = |ion: Ion| tank.tap.mg_per_l(ion).value * 2.0 / ion.molar_mass();
    assert!((meq(Ion::Calcium) + meq(Ion::Magnesium) - 8.0 * 20.0 / 56.077).abs() < 1e-9);
    assert_eq!(tank.tap.mg_per_l(Ion::Calcium).kind, Kind::Assumed);
    assert!(tank.assumed.iter().any(|assumption| assumption.field == "tap.magnesium"));
}

#[test]
fn an_analysis_that_cannot_be_is_asked_about() {
    let household = include_str!("../../../../examples/household/tank.toml");
    // Sulfate ten times too large: 320 × 2 ÷ 96.056 = 6.66 meq/L against 3.9 of cations.
    let tank = tank(&household.replace("sulfate = \"32 mg/L\"", "sulfate = \"320 mg/L\""));
    assert!(
        tank.unusual.iter().any(|(field, sentence)| field == "tap" && sentence.contains("balance")),
        "{:?}",
        tank.unusual
    );
}

#[test]
fn an_exact_hardness_stays_exact_while_its_split_has_a_range() {
    // 1.2 °dH = 1.2 × 20 ÷ 56.077 = 0.42798 meq/L, however it is split.
    let water = tank("[tap]\nhardness = \"1.2 °dH\"\nalkalinity = \"0.4 °dH\"\n").tap;
    assert!(water.mg_per_l(Ion::Calcium).low < water.mg_per_l(Ion::Calcium).high, "the split is assumed");
    let hardness = water.hardness_meq_per_l();
    for end in [hardness.low, hardness.value, hardness.high] {
        assert!((end - 1.2 * 20.0 / 56.077).abs() < 1e-5, "{hardness:?}");
    }
    for draw in setup::draws(&water, 500, 3) {
        let meq = |ion: Ion| draw.mg_per_l(ion) * 2.0 / ion.molar_mass();
        // 1e-6: the shares are rounded to 12 figures.
        assert!((meq(Ion::Calcium) + meq(Ion::Magnesium) - hardness.value).abs() < 1e-6, "{draw:?}");
    }
    // With both told in ranges, the sum has one: 40 × 2 ÷ 40.078 + 4 × 2 ÷ 24.305 = 2.325 to 2.495 + 0.494 = 2.989.
    let told = tank("[tap]\ncalcium = \"40 to 50 mg/L\"\nmagnesium = \"4 to 6 mg/L\"\n").tap.hardness_meq_per_l();
    assert!((told.low - 2.325).abs() < 1e-3 && (told.high - 2.989).abs() < 1e-3, "{told:?}");
}
