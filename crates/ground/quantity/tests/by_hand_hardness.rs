//! Hardness and alkalinity against definitions and printed worked examples, each to the digits that its source prints.

use quantity::Ion::{Calcium, Magnesium};
use quantity::concentration::mol_per_l;
use quantity::hardness::{
    GRAIN_MG, HardnessUnit as U, Measure, US_GALLON_L, hardness_meq_per_l, parse_alkalinity, parse_hardness,
};
use quantity::{Explain, round_significant};

fn in_unit(text: &str, unit: U) -> f64 {
    unit.from_meq_per_l(parse_hardness(text).map_or(f64::NAN, |r| r.meq_per_l), Measure::Hardness)
}

/// DIN 38409-6 (source key `din_38409_6`, from memory): 1 °dH is 10 mg CaO in a litre, 0.1783 mmol/L; 1 mmol/L is 5.608 °dH.
/// The table of degrees that goes with it: 1 °dH = 1.785 °fH = 1.253 °e = 17.85 mg/L CaCO3; 1 °fH = 0.5603 °dH.
#[test]
fn german_degrees() {
    assert_eq!(round_significant(in_unit("1 °dH", U::Mmol), 4), 0.1783);
    assert_eq!(round_significant(in_unit("1 mmol/L", U::German), 4), 5.608);
    assert_eq!(round_significant(in_unit("1 °dH", U::French), 4), 1.785);
    assert_eq!(round_significant(in_unit("1 °dH", U::English), 3), 1.25);
    assert_eq!(round_significant(in_unit("1 °dH", U::Caco3), 4), 17.85);
    assert_eq!(round_significant(in_unit("1 °fH", U::German), 4), 0.5603);
    let why = parse_hardness("7,2 °dH").unwrap().explain();
    assert_eq!(why.sum, "7.2 °dH × 0.35665 = 2.57 meq/L");
    assert_eq!(in_unit("10 mg/L CaO", U::German), 1.0);
    assert_eq!(in_unit("10 mg/L CaCO3", U::French), 1.0);
}

/// NIST Handbook 44, appendix C (source key `nist_hb44`, from memory): 7000 grains to the pound of 453.59237 g, 231 cubic
/// inches of 2.54 cm to the US gallon. Grains per gallon are printed as 17.1 mg/L, English degrees as 14.25 mg/L
/// (14.3 in older tables).
#[test]
fn grains_and_gallons() {
    assert!((GRAIN_MG - 453_592.37 / 7000.0).abs() < 1e-12);
    assert!((US_GALLON_L - 231.0 * 2.54f64.powi(3) / 1000.0).abs() < 1e-12);
    assert_eq!(round_significant(in_unit("1 gpg", U::Caco3), 3), 17.1);
    assert_eq!(round_significant(in_unit("1 °Clark", U::Caco3), 4), 14.25);
}

/// Standard Methods 2340 B (source key `sm_2340`, from memory): hardness = 2.497 Ca + 4.118 Mg, mg/L. For 80 mg/L Ca and
/// 12 mg/L Mg that is 249.18; the factors are printed to four figures, so 5e-4 / 2.497 = 2e-4 is allowed.
#[test]
fn hardness_from_calcium_and_magnesium() {
    let meq = hardness_meq_per_l(mol_per_l(80.0, Calcium), mol_per_l(12.0, Magnesium));
    let found = U::Caco3.from_meq_per_l(meq, Measure::Hardness);
    assert!((found / (2.497 * 80.0 + 4.118 * 12.0) - 1.0).abs() < 2e-4, "{found}");
}

/// Standard Methods 2320 B (source key `sm_2320`, from memory): alkalinity = A N 50000 / V, mg/L CaCO3. 12.4 mL of 0.02 N acid
/// for 100 mL give 124 mg/L, by definition 2.48 meq/L. The method's 50000 stands for 50043: 0.086 %, allowed 0.1 %.
#[test]
fn alkalinity_by_titration() {
    let meq_per_l = 12.4 * 0.02 / 100.0 * 1000.0;
    let read = parse_alkalinity("124 mg/L CaCO3").unwrap().meq_per_l;
    assert!((read / meq_per_l - 1.0).abs() < 1e-3, "{read} for {meq_per_l}");
}

/// The acid capacity in mmol/L is the alkalinity in meq/L (DIN 38409-7, source key `din_38409_7`, from memory), while a
/// hardness in mmol/L has two charges a mole. In German degrees 1 mmol/L of acid capacity is printed as 2.8 °dKH.
#[test]
fn a_millimole_is_two_things() {
    assert_eq!(parse_alkalinity("2,4 mmol/L").unwrap().meq_per_l, 2.4);
    assert_eq!(parse_hardness("2,4 mmol/L").unwrap().meq_per_l, 4.8);
    let dkh = U::German.from_meq_per_l(parse_alkalinity("1 mmol/L").unwrap().meq_per_l, Measure::Alkalinity);
    assert_eq!(round_significant(dkh, 2), 2.8);
}
