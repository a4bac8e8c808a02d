//! The texts that people and reports write, and what is read from them. Expected values are the written ones times factors
//! of molar masses (source key `iupac_2022`), which `by_hand_basis.rs` holds against published factors.

use quantity::Ion::{self, *};
use quantity::basis::Basis::{self, *};
use quantity::concentration::{Comparator, parse_concentration, possible_readings};
use quantity::conductivity::parse_conductivity;
use quantity::hardness::{parse_alkalinity, parse_hardness};

/// Equal to the 12 figures that are kept (half a unit of the last is at most 5e-12).
fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 5.1e-12 * b.abs()
}

/// mg/L of the ion that the text gives, unrounded, with its basis.
fn read(text: &str, ion: Ion) -> (f64, Basis) {
    let r = parse_concentration(text, ion).unwrap_or_else(|fault| panic!("{text}: {fault}"));
    (r.mol_per_l * 1e3 * ion.molar_mass(), r.basis)
}

/// mg of NO3 that hold a mg of N.
const N_TO_NO3: f64 = 62.004 / 14.007;

const CONCENTRATIONS: &[(&str, Ion, f64, Basis)] = &[
    ("12.5 mg/l NO3", Nitrate, 12.5, AsIon),
    ("12,5 mg/L NO₃⁻", Nitrate, 12.5, AsIon),
    ("NO3 12.5 mg/L", Nitrate, 12.5, AsIon),
    ("NO3: 12.5 mg/L", Nitrate, 12.5, AsIon),
    ("NO3 - 12.5 mg/L", Nitrate, 12.5, AsIon),
    ("12.5 mg/L as NO3", Nitrate, 12.5, AsIon),
    ("12.5 mg NO3/L", Nitrate, 12.5, AsIon),
    ("12.5 mg NO3-/L", Nitrate, 12.5, AsIon),
    ("12.5 mg NO3·L⁻¹", Nitrate, 12.5, AsIon),
    ("12.5 mg L-1 NO3", Nitrate, 12.5, AsIon),
    ("nitrate (as NO3) 12.5 mg/L", Nitrate, 12.5, AsIon),
    ("nitrate as NO3 (mg/L) 12.5", Nitrate, 12.5, AsIon),
    ("12.5 mg/L NO3-N", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("NO3-N 12.5 mg/L", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("12.5 mg/L N-NO3", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("12.5 mg/L Nitrate-Nitrogen", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("NO3N 12.5 mg/L", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("nitrate nitrogen 12.5 mg/L", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("nitrate-N 12.5 ppm", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("12.5 mg N/L NO3", Nitrate, 12.5 * N_TO_NO3, AsElement),
    ("2.8 mg N/l", Nitrate, 2.8 * N_TO_NO3, AsElement),
    ("NO3 as N: 2.8 mg/L", Nitrate, 2.8 * N_TO_NO3, AsElement),
    ("0.5 mg/L NH4", Ammonium, 0.5, AsIon),
    ("0.5 mg/L NH3", Ammonium, 0.5 * 18.039 / 17.031, AsAmmonia),
    ("0.5 mg/L TAN", Ammonium, 0.5 * 18.039 / 14.007, AsElement),
    ("250 µg/L P", Phosphate, 0.25 * 94.970 / 30.974, AsElement),
    ("250 μg/l PO4-P", Phosphate, 0.25 * 94.970 / 30.974, AsElement),
    ("1 mg/L P2O5", Phosphate, 2.0 * 94.970 / 141.943, AsOxide),
    ("1 mmol/L P2O5", Phosphate, 2.0 * 94.970, AsOxide),
    ("0.8 mmol/l Ca", Calcium, 0.8 * 40.078, AsIon),
    ("0.8 mM Ca2+", Calcium, 0.8 * 40.078, AsIon),
    ("0.8 mol/m3", Calcium, 0.8 * 40.078, AsIon),
    ("800 µmol/L Ca++", Calcium, 0.8 * 40.078, AsIon),
    ("1.6 meq/L", Calcium, 0.8 * 40.078, AsCharge),
    ("1.6 mval/l Ca²⁺", Calcium, 0.8 * 40.078, AsCharge),
    ("100 mg/L CaCO3", Calcium, 100.0 * 40.078 / 100.086, AsCaCO3),
    ("100 mg/L Mg as CaCO3", Magnesium, 100.0 * 24.305 / 100.086, AsCaCO3),
    ("10 mg/L CaO", Calcium, 10.0 * 40.078 / 56.077, AsOxide),
    ("1 °dH", Calcium, 10.0 * 40.078 / 56.077, AsCharge),
    ("4 mg/L Mg", Magnesium, 4.0, AsIon),
    ("4 Mg/L", Magnesium, 4.0, AsIon),
    ("4 MG/L", Magnesium, 4.0, AsIon),
    ("45 mg/L SO4 2-", Sulfate, 45.0, AsIon),
    ("45 mg/L SO4²⁻", Sulfate, 45.0, AsIon),
    ("45 mg/L sulphate", Sulfate, 45.0, AsIon),
    ("15 mg/L S", Sulfate, 15.0 * 96.056 / 32.06, AsElement),
    ("10 mg/L K2O", Potassium, 10.0 * 2.0 * 39.098 / 94.195, AsOxide),
    ("12 ppm", Sodium, 12.0, AsIon),
    ("12 mg/kg", Sodium, 12.0, AsIon),
    ("12 g/m³ Na", Sodium, 12.0, AsIon),
    ("0.05", Iron, 0.05, AsIon),
    ("250 ug/l Cu", Copper, 0.25, AsIon),
    ("20 ppb", Copper, 0.02, AsIon),
    ("1e-3 g/L Fe", Iron, 1.0, AsIon),
    ("3 × 10⁻⁴ g/L", Iron, 0.3, AsIon),
];

#[test]
fn concentrations() {
    for &(text, ion, mg, basis) in CONCENTRATIONS {
        let (found, found_basis) = read(text, ion);
        assert!(close(found, mg), "{text}: {found} for {mg}");
        assert_eq!(found_basis, basis, "{text}");
    }
}

#[test]
fn ranges_and_bounds() {
    let ends = |text: &str, ion: Ion| {
        let r = parse_concentration(text, ion).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        let k = r.known_mg_per_l(quantity::Kind::Measured);
        (r.comparator, k.low, k.value, k.high)
    };
    use Comparator::*;
    for text in [
        "10 to 25 mg/L NO3",
        "10-25 mg/L NO3",
        "10 – 25 mg/L NO3",
        "NO3 10…25 mg/L",
        "10 mg/L to 25 mg/L NO3",
        "between 10 and 25 mg/L NO3",
        "17.5 ± 7.5 mg/L NO3",
        "17.5 +/- 7.5 mg/L NO3",
        "10 bis 25 mg/l NO3",
    ] {
        assert_eq!(ends(text, Nitrate), (Equal, 10.0, 17.5, 25.0), "{text}");
    }
    assert_eq!(ends("10-25", Sodium), (Equal, 10.0, 17.5, 25.0));
    assert_eq!(ends("10 – 25", Sodium), (Equal, 10.0, 17.5, 25.0));
    for text in ["<0.05 mg PO4/l", "< 0,05 mg/L PO4", "PO4 <0.05 mg/L", "PO4: ≤ 0.05 mg/L", "below 0.05 mg/L PO4"] {
        assert_eq!(ends(text, Phosphate), (Below, 0.0, 0.025, 0.05), "{text}");
    }
    assert_eq!(ends(">50 mg/L NO3", Nitrate), (Above, 50.0, 50.0, f64::INFINITY));
    for text in ["~10 mg/L NO3", "about 10 mg/L NO3", "ca. 10 mg/L NO3", "approx. 10 mg/L NO3"] {
        assert_eq!(ends(text, Nitrate), (About, 10.0, 10.0, 10.0), "{text}");
    }
}

#[test]
fn what_is_asked_or_refused() {
    for (text, ion) in [
        ("28 mg/L", Nitrate),
        ("28", Nitrate),
        ("12 ppm nitrate", Nitrate),
        ("0.5 mg/L ammonia", Ammonium),
        ("0.05", Phosphate),
        ("12 mg/L SO4", Nitrate),
        ("12 mg/L P", Nitrate),
        ("12 mg N/L as NO3", Nitrate),
        ("-5 mg/L NO3", Nitrate),
        ("NO3 -5 mg/L", Nitrate),
        ("<-5 mg/L NO3", Nitrate),
        ("25 to 10 mg/L NO3", Nitrate),
        ("10 12 mg/L NO3", Nitrate),
        ("1,234 mg/L NO3", Nitrate),
        ("12 mg NO3", Nitrate),
        ("12 mg/L P-P2O5", Phosphate),
        ("12.5 milli", Nitrate),
        ("12 mg/gal NO3", Nitrate),
        ("12 mg/L 3 meq/L NO3", Nitrate),
        ("12 mg/L meq/L NO3", Nitrate),
        ("1.6 meq/L", Phosphate),
        ("1.6 meq/L", Iron),
        ("1 °dH", Sodium),
        ("3 °dKH", Calcium),
        ("GH 7", Calcium),
        ("12 bananas", Sodium),
        ("", Sodium),
        ("mg/L", Sodium),
        ("n.d.", Sodium),
        ("10-", Sodium),
        ("10--20", Sodium),
        ("10 mg/L to 25 meq/L Na", Sodium),
        ("12 mg/L HCO3", Nitrate),
    ] {
        let fault = parse_concentration(text, ion).expect_err(text);
        assert!(fault.expected.is_some(), "{text}: {fault}");
    }
}

#[test]
fn the_question_names_what_each_basis_would_mean() {
    let fault = parse_concentration("28 mg/L", Nitrate).unwrap_err().to_string();
    assert_eq!(
        fault,
        "error: `28 mg/L` does not say how the nitrate is counted\n  \
         expected: a basis: as NO3: 28 mg/L NO3; as N: 124 mg/L NO3\n  \
         hint: write `28 mg/L as NO3` or `28 mg/L as N`; the report, the kit's leaflet or the supplier says which"
    );
    let readings = possible_readings("28 mg/L", Nitrate).unwrap();
    for (reading, text) in readings.iter().zip(["28 mg/L as NO3", "28 mg/L as N"]) {
        let told = parse_concentration(text, Nitrate).unwrap();
        assert_eq!((reading.mol_per_l, reading.basis), (told.mol_per_l, told.basis));
    }
    assert_eq!(possible_readings("28 mg/L NO3", Nitrate).unwrap().len(), 1);
    assert_eq!(possible_readings("0.05 mg/L", Phosphate).unwrap().len(), 3);
}

const GERMAN: f64 = 20.0 / 56.077;

const HARDNESSES: &[(&str, f64)] = &[
    ("7,2 °dH", 7.2 * GERMAN),
    ("7.2 ° dH", 7.2 * GERMAN),
    ("7.2º dH", 7.2 * GERMAN),
    ("7.2 dGH", 7.2 * GERMAN),
    ("GH 7.2", 7.2 * GERMAN),
    ("GH: 7.2 °dH", 7.2 * GERMAN),
    ("7.2 german degrees", 7.2 * GERMAN),
    ("10 to 14 °dH", 12.0 * GERMAN),
    ("120 mg/L CaCO3", 240.0 / 100.086),
    ("120 mg/L as CaCO3", 240.0 / 100.086),
    ("120 ppm CaCO3", 240.0 / 100.086),
    ("total hardness 120 mg CaCO3/L", 240.0 / 100.086),
    ("10 mg/L CaO", GERMAN),
    ("1.2 mmol/L", 2.4),
    ("1.2 mol/m3", 2.4),
    ("2.4 meq/L", 2.4),
    ("12 °fH", 240.0 / 100.086),
    ("12 °f", 240.0 / 100.086),
    ("TH 12", 240.0 / 100.086),
    ("7 gpg", 7.0 * 2.0 * 64.79891 / 3.785411784 / 100.086),
    ("7 grains per US gallon", 7.0 * 2.0 * 64.79891 / 3.785411784 / 100.086),
    ("7 grains per imperial gallon", 7.0 * 2.0 * 64.79891 / 4.54609 / 100.086),
    ("7 °e", 7.0 * 2.0 * 64.79891 / 4.54609 / 100.086),
    ("7 °Clark", 7.0 * 2.0 * 64.79891 / 4.54609 / 100.086),
];

const ALKALINITIES: &[(&str, f64)] = &[
    ("3 dKH", 3.0 * GERMAN),
    ("3 °dKH", 3.0 * GERMAN),
    ("3 °dH", 3.0 * GERMAN),
    ("KH 3", 3.0 * GERMAN),
    ("3 KH", 3.0 * GERMAN),
    ("2,4 mmol/l", 2.4),
    ("KS4,3 2,4 mmol/l", 2.4),
    ("2.4 meq/L", 2.4),
    ("1.2 mmol/L CaCO3", 2.4),
    ("2.4 mmol/L HCO3", 2.4),
    ("146 mg/L HCO3", 146.0 / 61.016),
    ("120 mg/L CaCO3", 240.0 / 100.086),
    ("alkalinity 120 mg/L as CaCO3", 240.0 / 100.086),
    ("-0.05 meq/L", -0.05),
];

#[test]
fn hardness_and_alkalinity() {
    for &(text, meq) in HARDNESSES {
        let r = parse_hardness(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert!(close(r.meq_per_l, meq), "{text}: {} for {meq}", r.meq_per_l);
    }
    for &(text, meq) in ALKALINITIES {
        let r = parse_alkalinity(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert!(close(r.meq_per_l, meq), "{text}: {} for {meq}", r.meq_per_l);
    }
    for text in [
        "7",
        "7 °",
        "120 mg/L",
        "120 ppm",
        "3 dKH",
        "KH 3",
        "146 mg/L HCO3",
        "40 mg/L Ca",
        "-3 °dH",
        "7 °dH 12 °fH",
        "7 °dH mg/L",
        "x",
        "",
    ] {
        assert!(parse_hardness(text).expect_err(text).expected.is_some(), "{text}");
    }
    for text in ["3", "120 mg/L", "GH 7", "7 dGH", "1,234 °dH", "3 bananas"] {
        let fault = parse_alkalinity(text).expect_err(text);
        assert!(fault.expected.is_some(), "{text}");
    }
    let asked = parse_alkalinity("120 ppm").unwrap_err().expected.unwrap();
    assert_eq!(asked, "a unit: 120 mg/L CaCO3 = 2.4 meq/L; 120 mg/L HCO3 = 1.97 meq/L");
}

#[test]
fn conductivities() {
    for (text, value, reference) in [
        ("350 µS/cm @20 °C", 350.0, Some(20.0)),
        ("350 uS/cm at 25 C", 350.0, Some(25.0)),
        ("350 μS/cm (25°C)", 350.0, Some(25.0)),
        ("350 µS/cm bei 20°C", 350.0, Some(20.0)),
        ("350 µS/cm @ 25", 350.0, Some(25.0)),
        ("EC at 25 °C: 350 µS/cm", 350.0, Some(25.0)),
        ("350 µS cm⁻¹", 350.0, None),
        ("350 µS·cm⁻¹", 350.0, None),
        ("0.35 mS/cm", 350.0, None),
        ("35 mS/m", 350.0, None),
        ("300 to 400 µS/cm at 20 °C", 350.0, Some(20.0)),
        ("350 microsiemens per cm", 350.0, None),
    ] {
        let r = parse_conductivity(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
        assert!(close(r.us_per_cm, value), "{text}: {}", r.us_per_cm);
        assert_eq!(r.reference_temperature_c, reference, "{text}");
    }
    for text in [
        "350",
        "350 ppm",
        "350 mg/L",
        "-3 µS/cm",
        "350 µS",
        "350 µS/cm at 77 °F",
        "350 µS/cm at 200 °C",
        "350 µS/ft",
        "",
        "25 °C",
    ] {
        assert!(parse_conductivity(text).expect_err(text).expected.is_some(), "{text}");
    }
}
