//! Water itself: density, permittivity, viscosity, and the Debye-Hückel constants A and B that follow.
//!
//! **Equation.** Density on the saturation line (Wagner & Pruss 2002, equation 2.6); permittivity ε by Bradley & Pitzer
//! (1979); with e² = 1.671008e-3 cm K/(ε T): B = √(8 π N_A e² ρ / 1000), A = B e² / (2 ln 10). Viscosity
//! µ = 280.68 t^-1.9 + 511.45 t^-7.7 + 61.131 t^-19.6 + 0.45903 t^-40 µPa s, t = T/300 K (IAPWS 2011).
//!
//! **Symbols.** T K; ρ g/cm³; A (kg/mol)^½; B (kg/mol)^½/Å.
//!
//! **Range.** 0 to 100 °C at 1 atm; used for 0 to 35.
//!
//! **Source.** `wagner_pruss_2002`, `bradley_pitzer_1979`, `iapws_2011`; arrangement of A and B as in PHREEQC, `phreeqc_386`.
//!
//! **Checked by** the table of PHREEQC 3.8.6 in the test below.

/// Pressure at which everything here is taken, bar (1 atm).
const PRESSURE_BAR: f64 = 1.013_25;
/// Molecules per mole.
const AVOGADRO: f64 = 6.022_14e23;

/// What the activity and conductivity models ask of the solvent.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Solvent {
    /// A in log10 γ = -A z² √I ..., (kg/mol)^½.
    pub(crate) a: f64,
    /// B, (kg/mol)^½ per Å.
    pub(crate) b_per_angstrom: f64,
}

/// g/cm³ at T in K.
pub(crate) fn density_g_per_cm3(t: f64) -> f64 {
    let theta = (1.0 - t / 647.096).cbrt();
    let theta2 = theta * theta;
    let theta5 = theta2 * theta2 * theta;
    let theta16 = theta5 * theta5 * theta5 * theta;
    let theta43 = theta16 * theta16 * theta5 * theta5 * theta;
    let theta110 = theta43 * theta43 * theta16 * theta5 * theta2 * theta;
    0.322
        * (1.0 + 1.992_740_64 * theta + 1.099_653_42 * theta2
            - 0.510_839_303 * theta5
            - 1.754_934_79 * theta16
            - 45.517_035_2 * theta43
            - 6.746_944_5e5 * theta110)
}

/// Relative permittivity at T in K.
pub(crate) fn permittivity(t: f64) -> f64 {
    let at_1000_bar = 342.79 * ((-5.0866e-3 + 9.469e-7 * t) * t).exp();
    let c = -2.0525 + 3115.9 / (t - 182.89);
    let b = -8032.5 + 4.2142e6 / t + 2.1417 * t;
    at_1000_bar + c * ((b + PRESSURE_BAR) / (b + 1000.0)).ln()
}

/// Viscosity in mPa s, from ln(T/300 K).
pub(crate) fn viscosity_mpa_s(ln_t_over_300: f64) -> f64 {
    let power = |n: f64| crate::exponential::exp(-n * ln_t_over_300);
    1e-3 * (280.68 * power(1.9) + 511.45 * power(7.7) + 61.131 * power(19.6) + 0.459_03 * power(40.0))
}

impl Solvent {
    /// At T in K.
    pub(crate) fn at(t: f64) -> Self {
        let e2 = 1.671_008e-3 / (permittivity(t) * t);
        let b = (8.0 * std::f64::consts::PI * AVOGADRO * e2 * density_g_per_cm3(t) / 1000.0).sqrt();
        Solvent { a: b * e2 / (2.0 * std::f64::consts::LN_10), b_per_angstrom: b * 1e-8 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// °C, A, B, permittivity, density, viscosity as PHREEQC 3.8.6 prints them (`phreeqc_386`).
    const TABLE: [[f64; 6]; 8] = [
        [0.0, 0.49083, 0.32462, 87.8564, 0.99984, 1.7918],
        [5.0, 0.49424, 0.32538, 85.8836, 0.99996, 1.5182],
        [10.0, 0.49786, 0.32615, 83.9499, 0.99970, 1.3059],
        [15.0, 0.50170, 0.32692, 82.0555, 0.99910, 1.1376],
        [20.0, 0.50576, 0.32770, 80.2004, 0.99820, 1.0016],
        [25.0, 0.51002, 0.32849, 78.3844, 0.99704, 0.8900],
        [30.0, 0.51451, 0.32930, 76.6073, 0.99564, 0.7972],
        [35.0, 0.51920, 0.33012, 74.8685, 0.99403, 0.7191],
    ];

    #[test]
    fn agrees_with_the_table_of_the_reference() {
        for [celsius, a, b, eps, rho, viscosity] in TABLE {
            let t = celsius + 273.15;
            let s = Solvent::at(t);
            // The saturation line is below 1 atm: 5e-5 relative; half a digit of the printed table beside it.
            for (got, printed, half_digit) in [
                (s.a, a, 5e-6),
                (s.b_per_angstrom, b, 5e-6),
                (permittivity(t), eps, 5e-5),
                (density_g_per_cm3(t), rho, 5e-6),
            ] {
                assert!((got - printed).abs() < half_digit + 6e-5 * printed, "{celsius} {got} {printed}");
            }
            // Another correlation of the same measurements: 0.1 %.
            let got = viscosity_mpa_s((t / 300.0).ln());
            assert!((got / viscosity - 1.0).abs() < 1e-3, "{celsius} {got} {viscosity}");
        }
    }
}
