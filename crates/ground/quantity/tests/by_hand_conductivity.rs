//! Conductivity from 20 to 25 °C against the norm's factor and the limiting conductivities of single ions.

use quantity::conductivity::{FACTOR_25_FROM_20, at_20_from_25, at_25_from_20, parse_conductivity};
use quantity::{Explain, Kind};

/// EN 27888 (source key `en_27888`, from memory): κ25 = 1.116 κ20.
#[test]
fn factor_of_the_norm() {
    assert_eq!(at_25_from_20(500.0).value, 558.0);
    assert_eq!(at_20_from_25(558.0).value, 500.0);
    let read = parse_conductivity("500 µS/cm @20 °C").unwrap().at_25().unwrap();
    assert_eq!((read.value, read.kind), (558.0, Kind::WorkedOut));
    let why = parse_conductivity("500 µS/cm @20 °C").unwrap().explain();
    assert_eq!(why.sum, "500 µS/cm at 20 °C × 1.116 = 558 µS/cm at 25 °C");
}

/// Limiting molar conductivities as a T² + b T + c, T in °C: McCleskey et al. 2012 (source key `mccleskey_2012`,
/// magnitudes from a public copy, signs from memory). Each ion's ratio of 25 to 20 °C lies inside the range that is carried,
/// and the lowest makes its lower end.
#[test]
fn single_ions_lie_inside_the_range() {
    let ions = [
        ("Na", 0.003763, 0.8770, 26.23),
        ("K", 0.003046, 1.261, 40.70),
        ("Ca", 0.009645, 1.984, 62.28),
        ("Mg", 0.01068, 1.695, 57.16),
        ("Cl", 0.003817, 1.337, 40.99),
        ("SO4", 0.01037, 2.838, 82.37),
        ("HCO3", 0.000614, 0.9048, 21.14),
        ("NO3", 0.001925, 1.214, 39.90),
    ];
    let (low, _, high) = FACTOR_25_FROM_20;
    let ratios = ions.map(|(_, a, b, c)| {
        let at = |t: f64| (a * t + b) * t + c;
        at(25.0) / at(20.0)
    });
    for ((name, ..), ratio) in ions.iter().zip(ratios) {
        assert!((low..=high).contains(&ratio), "{name}: {ratio}");
    }
    let least = ratios.into_iter().fold(f64::MAX, f64::min);
    assert!(least - low < 0.01, "{least}");
}

/// The second opinion makes the upper end: diffusion coefficients D (1e-9 m²/s, 25 °C) and their temperature terms d (K) of
/// PHREEQC's database (source key `parkhurst_appelo_2013`), conductivity ~ Σ z² m D exp(d/T) / viscosity, viscosity 1.0016 and
/// 0.8900 mPa s. A water of calcium bicarbonate comes out highest of these four.
#[test]
fn whole_waters_by_another_equation_lie_inside_the_range() {
    let (na, ca, cl, hco3, no3) =
        ((1.0, 1.33, 75.0), (4.0, 0.792, 34.0), (1.0, 2.033, 216.0), (1.0, 1.18, -190.0), (1.0, 1.9, 104.0));
    let waters = [[(1.0, ca), (2.0, hco3)], [(1.0, na), (1.0, cl)], [(1.0, na), (1.0, hco3)], [(1.0, ca), (2.0, no3)]];
    let (low, _, high) = FACTOR_25_FROM_20;
    let ratios = waters.map(|water| {
        let at = |kelvin: f64, viscosity: f64| -> f64 {
            water.iter().map(|(m, (z2, d25, d))| m * z2 * d25 * (d / kelvin).exp() / viscosity).sum()
        };
        at(298.15, 0.8900) / at(293.15, 1.0016)
    });
    assert!(ratios.iter().all(|r| (low..=high).contains(r)), "{ratios:?}");
    assert!(high - ratios[0] < 0.01, "{ratios:?}");
}

#[test]
fn without_a_reference_both_are_possible() {
    let read = parse_conductivity("500 µS/cm").unwrap().at_25().unwrap();
    assert_eq!((read.low, read.high, read.kind), (500.0, 565.0, Kind::Assumed));
    assert!(parse_conductivity("500 µS/cm at 18 °C").unwrap().at_25().is_err());
}
