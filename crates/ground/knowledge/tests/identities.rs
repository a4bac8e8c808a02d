//! Each salt's formula and its ions are written down apart; charge and mass must bring them together.

use knowledge::{Salt, book};
use quantity::Ion;

/// Salts with a part that is no ion of the list: urea, and thiosulfate's anion.
const APART: [&str; 2] = ["urea", "sodium_thiosulfate"];

fn salts() -> impl Iterator<Item = (&'static str, &'static Salt)> {
    book().products.iter().filter_map(|(key, product)| Some((key.as_str(), product.salt()?)))
}

/// mol of hydrate water in the formula.
fn hydrate_water(formula: &str) -> f64 {
    let counts = formula.split('·').filter_map(|part| part.strip_suffix("H2O"));
    counts.map(|count| count.parse().unwrap_or(1.0)).sum()
}

/// Charge of the ions with phosphate as PO4 3- and all inorganic carbon as CO3 2-; protons make up the rest.
fn protons(salt: &Salt) -> f64 {
    let ions: f64 = salt.ions.iter().map(|(ion, mol)| mol * f64::from(ion.charge())).sum();
    2.0 * salt.dic_mol_per_mol - ions
}

/// Mass: ions + carbonate + protons + hydrate water = formula. To 1e-9, the rounding of the sums.
#[test]
fn the_parts_weigh_what_the_formula_weighs() {
    for (key, salt) in salts().filter(|(key, _)| !APART.contains(key)) {
        let protons = protons(salt);
        assert!(protons >= 0.0 && protons.fract() == 0.0, "{key}: {protons} protons");
        let ions: f64 = salt.ions.iter().map(|(ion, mol)| mol * ion.molar_mass()).sum();
        let carbonate = salt.dic_mol_per_mol * 60.008;
        let sum = ions + carbonate + 1.008 * protons + hydrate_water(&salt.formula) * 18.015;
        assert!((sum - salt.molar_mass_g_per_mol).abs() < 1e-9, "{key}: {sum} against {}", salt.molar_mass_g_per_mol);
    }
}

/// Alkalinity = Na + K + 2 Ca + 2 Mg + all ammonia - Cl - 2 SO4 - NO3 - all phosphate (electroneutrality with the
/// definition of Dickson 1981, source key `dickson_1981`).
#[test]
fn alkalinity_is_what_electroneutrality_leaves() {
    for (key, salt) in salts().filter(|(key, _)| !APART.contains(key)) {
        let strong = |ion: Ion| if ion == Ion::Phosphate { -1.0 } else { f64::from(ion.charge()) };
        let left: f64 = salt.ions.iter().map(|(ion, mol)| mol * strong(*ion)).sum();
        assert_eq!(left, salt.alkalinity_eq_per_mol, "{key}");
    }
}

/// Thiosulfate: 2 Na, S2O3, 5 water; its anion's two charges are the sodium's.
#[test]
fn thiosulfate_by_itself() {
    let (_, salt) = salts().find(|(key, _)| *key == "sodium_thiosulfate").unwrap();
    let anion = 2.0 * 32.06 + 3.0 * 15.999;
    let sum = 2.0 * Ion::Sodium.molar_mass() + anion + 5.0 * 18.015;
    assert!((sum - salt.molar_mass_g_per_mol).abs() < 1e-9);
}
