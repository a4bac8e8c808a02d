//! Molar masses, mg per g, solubility of hydrates and bottles, against sums by hand and handbook values.

use knowledge::{Product, book};
use quantity::Ion::{self, *};

fn product(key: &str) -> &'static Product {
    book().product(key).unwrap_or_else(|| panic!("{key}"))
}

/// mg of ion per g of pure salt, by hand from the abridged atomic weights (source key `iupac_2022`), to the digit
/// in which they are written: half of it is the tolerance.
#[test]
fn mg_per_g_by_hand() {
    let table: &[(&str, &[(Ion, f64)])] = &[
        ("potassium_nitrate", &[(Potassium, 386.7), (Nitrate, 613.3)]),
        ("calcium_nitrate", &[(Calcium, 169.7), (Nitrate, 525.1)]),
        ("calcium_nitrate_double", &[(Calcium, 185.4), (Nitrate, 631.2), (Ammonium, 16.7)]),
        ("magnesium_nitrate", &[(Magnesium, 94.8), (Nitrate, 483.6)]),
        ("sodium_nitrate", &[(Sodium, 270.5), (Nitrate, 729.5)]),
        ("ammonium_nitrate", &[(Ammonium, 225.4), (Nitrate, 774.6)]),
        ("ammonium_chloride", &[(Ammonium, 337.2), (Chloride, 662.8)]),
        ("ammonium_sulfate", &[(Ammonium, 273.0), (Sulfate, 727.0)]),
        ("monoammonium_phosphate", &[(Ammonium, 156.8), (Phosphate, 825.6)]),
        ("diammonium_phosphate", &[(Ammonium, 273.2), (Phosphate, 719.2)]),
        ("potassium_sulfate", &[(Potassium, 448.8), (Sulfate, 551.2)]),
        ("potassium_chloride", &[(Potassium, 524.5), (Chloride, 475.5)]),
        ("potassium_dihydrogen_phosphate", &[(Potassium, 287.3), (Phosphate, 697.9)]),
        ("dipotassium_hydrogen_phosphate", &[(Potassium, 449.0), (Phosphate, 545.3)]),
        ("magnesium_sulfate_heptahydrate", &[(Magnesium, 98.6), (Sulfate, 389.7)]),
        ("magnesium_sulfate_anhydrous", &[(Magnesium, 201.9), (Sulfate, 798.1)]),
        ("magnesium_chloride_hexahydrate", &[(Magnesium, 119.6), (Chloride, 348.8)]),
        ("calcium_sulfate_dihydrate", &[(Calcium, 232.8), (Sulfate, 557.9)]),
        ("calcium_chloride_dihydrate", &[(Calcium, 272.6), (Chloride, 482.3)]),
        ("calcium_carbonate", &[(Calcium, 400.4)]),
        ("sodium_bicarbonate", &[(Sodium, 273.7)]),
        ("potassium_bicarbonate", &[(Potassium, 390.5)]),
        ("potassium_carbonate", &[(Potassium, 565.8)]),
    ];
    for (key, ions) in table {
        for (ion, expected) in *ions {
            let got = product(key).mg_per_g(*ion);
            assert!((got - expected).abs() <= 0.05, "{key} {ion:?}: {got} against {expected}");
        }
        assert_eq!(product(key).ions().count(), ions.len(), "{key} brings what the table does not name");
    }
}

/// Molar masses in g/mol as the CRC Handbook prints them, from memory of it. Its older weights of sulfur (32.065, here
/// 32.06) and hydrogen (1.00794, here 1.008) make at most 0.012 in a salt of two sulfurs and ten hydrogens.
#[test]
fn molar_masses_of_the_handbook() {
    for (key, expected) in [
        ("potassium_nitrate", 101.103),
        ("potassium_sulfate", 174.259),
        ("potassium_chloride", 74.551),
        ("potassium_dihydrogen_phosphate", 136.085),
        ("magnesium_sulfate_heptahydrate", 246.474),
        ("calcium_sulfate_dihydrate", 172.171),
        ("calcium_chloride_dihydrate", 147.014),
        ("calcium_carbonate", 100.087),
        ("sodium_bicarbonate", 84.007),
        ("potassium_bicarbonate", 100.115),
        ("potassium_carbonate", 138.206),
        ("ammonium_chloride", 53.492),
        ("urea", 60.055),
        ("sodium_thiosulfate", 248.184),
    ] {
        let got = product(key).salt().unwrap().molar_mass_g_per_mol;
        assert!((got - expected).abs() < 0.015, "{key}: {got} against {expected}");
    }
}

/// meq of alkalinity per g, by hand: equivalents ÷ molar mass (source key `iupac_2022`).
#[test]
fn alkalinity_per_g_by_hand() {
    for (key, expected) in [
        ("calcium_carbonate", 19.98),
        ("sodium_bicarbonate", 11.90),
        ("potassium_bicarbonate", 9.99),
        ("potassium_carbonate", 14.47),
        ("potassium_nitrate", 0.0),
        ("potassium_dihydrogen_phosphate", 0.0),
    ] {
        let got = product(key).alkalinity_meq_per_g();
        assert!((got - expected).abs() <= 0.005, "{key}: {got}");
    }
}

/// Grams in a litre of saturated solution at 20 °C: mass per cent and density of the CRC Handbook's tables of aqueous
/// solutions, from memory: KCl 25.5 % and 1.174, KNO3 24.0 % and 1.163, NaHCO3 8.8 % and 1.064, MgSO4 25.1 % (51.4 % as
/// heptahydrate) and 1.281 g/mL. Ours must err low, and by no more than a fifth, which the coarse litre takes.
#[test]
fn a_saturated_litre_errs_low() {
    for (key, per_cent, density) in [
        ("potassium_chloride", 25.5, 1.174),
        ("potassium_nitrate", 24.0, 1.163),
        ("sodium_bicarbonate", 8.8, 1.064),
        ("magnesium_sulfate_heptahydrate", 51.4, 1.281),
    ] {
        let real = 10.0 * per_cent * density;
        let ours = product(key).solubility_g_per_l(20.0, 1.4).unwrap();
        assert!(ours <= real && ours >= 0.8 * real, "{key}: {ours} against {real}");
    }
}

/// By hand: 33.5 g MgSO4 in 100 g of water at 20 °C; share in the heptahydrate 120.361 / 246.466 = 0.48835, so
/// h = 33.5 × 100 / (48.835 - 0.51165 × 33.5) = 105.7 g per 100 g of water; litre: 1000 × 105.7 / (100.60 + 75.5) = 600 g.
#[test]
fn the_hydrate_is_what_is_weighed() {
    let got = product("magnesium_sulfate_heptahydrate").solubility_g_per_l(20.0, 1.4).unwrap();
    assert!((got - 600.3).abs() < 1.0, "{got}");
}

/// Colder rooms dissolve less, and 70 % of that is used.
#[test]
fn the_coldest_room_counts() {
    let salt = product("potassium_nitrate");
    let (cold, warm) =
        (book().stock_limit_g_per_l(salt, 5.0).unwrap(), book().stock_limit_g_per_l(salt, 20.0).unwrap());
    // Halves from 20 to 5 °C: 31.6 to 17.1 g per 100 g of water.
    assert!(cold / warm > 0.5 && cold / warm < 0.65, "{cold} {warm}");
    let all = salt.solubility_g_per_l(5.0, book().defaults.crystal_density_g_per_ml.value).unwrap();
    assert!((cold / all - 0.7).abs() < 1e-12);
    // A litre with no salt in it that could be weighed into a bottle: gypsum, at 2.4 g.
    let gypsum = product("calcium_sulfate_dihydrate").solubility_g_per_l(10.0, 1.4).unwrap();
    assert!(gypsum > 2.2 && gypsum < 2.5, "{gypsum}");
}
