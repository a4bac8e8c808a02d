//! Factors between bases against published ones, each to the digits that its source prints.

use quantity::Ion::{self, *};
use quantity::basis::Basis::{self, *};
use quantity::basis::convert;
use quantity::concentration::{explain_conversion, parse_concentration};
use quantity::round_significant;

/// Regulation (EC) 2003/2003, article 6(4), prints the factors from oxide to element on labels (source key
/// `eu_2003_2003`, from memory): three decimals.
#[test]
fn label_oxides() {
    for (ion, factor) in
        [(Phosphate, 0.436), (Potassium, 0.830), (Calcium, 0.715), (Magnesium, 0.603), (Sulfate, 0.400)]
    {
        let element = if matches!(ion, Phosphate | Sulfate) { AsElement } else { AsIon };
        let found = convert(1.0, ion, AsOxide, element).unwrap();
        // SO3 x 0.400 is printed for 0.4005: half a unit of the third decimal, and a hair for that tie.
        assert!((found - factor).abs() < 0.0006, "{ion:?}: {found} for {factor}");
    }
}

/// Canada's guideline for nitrate prints 13 mg/L NO3 as 3.0 mg/L N and 550 as 124 (source key `ccme_2012`, from memory).
#[test]
fn nitrate_of_a_guideline() {
    let n = |mg| convert(mg, Nitrate, AsIon, AsElement).unwrap();
    assert!((n(13.0) - 3.0).abs() < 0.1, "two figures of 13");
    assert_eq!(round_significant(n(550.0), 3), 124.0);
}

/// Factors as handbooks of water analysis print them, four figures (from memory; no page).
#[test]
fn handbook_factors() {
    let cases: [(Ion, Basis, Basis, f64); 7] = [
        (Nitrate, AsElement, AsIon, 4.427),
        (Nitrite, AsElement, AsIon, 3.284),
        (Ammonium, AsElement, AsIon, 1.288),
        (Ammonium, AsElement, AsAmmonia, 1.216),
        (Phosphate, AsElement, AsIon, 3.066),
        (Phosphate, AsElement, AsOxide, 2.291),
        (Calcium, AsIon, AsCaCO3, 2.497),
    ];
    for (ion, from, to, factor) in cases {
        assert_eq!(round_significant(convert(1.0, ion, from, to).unwrap(), 4), factor, "{ion:?} {from:?} {to:?}");
    }
}

/// Worked by hand: 12 × 14.007 ÷ 62.004 = 2.711; 0.05 × 94.970 ÷ 30.974 = 0.1533; 1.6 ÷ 2 × 40.078 = 32.06.
#[test]
fn the_sum_in_words() {
    let words = |text, ion| explain_conversion(&parse_concentration(text, ion).unwrap());
    assert_eq!(words("12 mg/L NO3", Nitrate), "12 mg/L NO3 = 2.71 mg/L N");
    assert_eq!(words("<0.05 mg P/l", Phosphate), "<0.05 mg/L P = <0.153 mg/L PO4");
    assert_eq!(words("1.6 meq/L", Calcium), "1.6 meq/L Ca = 32.1 mg/L Ca");
    assert_eq!(words("10 to 25 mg/L NO3", Nitrate), "10 to 25 mg/L NO3 = 2.26 to 5.65 mg/L N");
    assert_eq!(words("23 mg/L", Sodium), "23 mg/L Na = 1 mmol/L Na");
}

#[test]
fn a_basis_that_does_not_exist() {
    assert_eq!(convert(1.0, Sodium, AsIon, AsElement), None);
    assert_eq!(convert(1.0, Nitrate, AsCaCO3, AsIon), None);
    assert_eq!(convert(1.0, Calcium, AsCharge, AsIon), None);
}
