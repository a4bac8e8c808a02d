//! Litres from a salt, held against equivalent conductivities of single salts. Judge: a handbook (`crc_conductivity`, from
//! memory): NaCl 123.68, KNO3 141.8 S cm²/eq at 0.001 eq/L and 25 °C.

use crate::common::{tank, value};
use measure::Name;

#[test]
fn a_thousandth_mole_in_nearly_pure_water() {
    // Soft water of 5 µS/cm: the salt is almost alone, as in the handbook.
    for (salt, g_per_mol, lambda) in [("kitchen_salt", 58.44, 123.68), ("potassium_nitrate", 101.10, 141.8)] {
        // 0.001 mol/L in 100 L; the assay of 0.99 is weighed on top.
        let grams = 0.001 * g_per_mol * 100.0 / 0.99;
        let typed = [
            ("salt", salt.to_owned()),
            ("grams", format!("{grams:.4}")),
            ("before", "5".to_owned()),
            ("after", format!("{:.2}", 5.0 + lambda)),
        ];
        let typed: Vec<(&str, &str)> = typed.iter().map(|(key, text)| (*key, text.as_str())).collect();
        let litres = value(Name::Litres, &tank(""), &typed);
        // 2 %: what the equation of conductivity misses of single salts in dilute water.
        assert!((litres.value / 100.0 - 1.0).abs() < 0.02, "{salt}: {litres:?}");
        assert!(litres.low < 100.0 && litres.high > 100.0, "{salt}: {litres:?}");
    }
}

/// In ordinary water a salt brings less than alone, by what its ions lose in the crowd: NaCl at an ionic strength near 0.005
/// has 120.6 (handbook, from memory). 1.8 g in 100 L are 18 mg/L or 0.308 meq/L: 0.308 × 120.6 = 37.1 µS/cm.
#[test]
fn kitchen_salt_in_tap_water() {
    let typed = [("salt", "kitchen_salt"), ("grams", "1.818"), ("before", "400"), ("after", "437.1")];
    let litres = value(Name::Litres, &tank(""), &typed);
    assert!((litres.value / 100.0 - 1.0).abs() < 0.03, "{litres:?}");
}
