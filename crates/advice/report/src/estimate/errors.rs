//! How far a value may be off: the method, the last printed digit, the samples behind a mean.
//!
//! **What.** One standard deviation for each way in which a water is measured: `data/methods.toml`. Nobody prints it on
//! a report, so it is on the wide side of what a sound analysis shows.
//!
//! **Equation.** s² = (share x)² + floor² + step²/12 + sd²/n. Step: the last printed digit, an even error over it.
//! From a range over n samples: sd = (highest - lowest)/d2(n), d2 the range that n draws from a normal have on average.
//!
//! **Symbols.** x the value; sd from day to day; n samples.
//!
//! **Range.** Values well above the detection limit; below it there is a bound and no value.
//!
//! **Source.** Shares and floors: beside each in `data/methods.toml`. d2: table of control charts, from memory, checked below against its
//! integral.
//!
//! **Checked by** `tests/published_waters.rs`, `tests/twin_experiment.rs`, and the integral below.

use knowledge::{MethodError, book};

use super::Quantity;

/// By whom or what a value was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// A water company or a laboratory.
    Laboratory,
    /// A kit of drops: the colour turns at a drop.
    Drops,
    /// A kit whose colour is held against a card, or a strip.
    Colours,
    /// A pen.
    Meter,
}

/// Charge that an analysis does not count, as a share of the cations.
pub(super) fn uncounted_charge() -> f64 {
    book().methods.analysis.uncounted_charge.value
}

/// Samples behind a range that tells no number.
pub(super) fn samples_untold() -> u32 {
    book().methods.analysis.samples_untold.value
}

impl Origin {
    /// Its key in `data/methods.toml`.
    pub fn key(self) -> &'static str {
        match self {
            Origin::Laboratory => "laboratory",
            Origin::Drops => "drops",
            Origin::Colours => "colours",
            Origin::Meter => "meter",
        }
    }

    /// The method of this key of `data/methods.toml`.
    pub(super) fn of(key: &str) -> Option<Origin> {
        [Origin::Laboratory, Origin::Drops, Origin::Colours, Origin::Meter].into_iter().find(|o| o.key() == key)
    }

    /// Standard deviation of a value of this origin with this last printed digit, in the value's unit.
    pub fn sd(self, of: Quantity, value: f64, step: f64) -> f64 {
        let Some(method) = book().methods.method.get(self.key()) else { return f64::NAN };
        let MethodError { share, floor, .. } = match of {
            Quantity::Ion(_) => &method.ion,
            Quantity::Hardness | Quantity::Alkalinity => &method.hardness,
            _ => &method.conductivity,
        };
        let rounding = step / 12_f64.sqrt();
        // A printed 0 has an error too; a thousandth of the unit keeps it a number.
        (share * value).hypot(*floor).hypot(rounding).max(1e-3)
    }
}

/// d2(n) at n samples.
#[rustfmt::skip]
const RANGE_OF_DRAWS: [(u32, f64); 16] = [
    (2, 1.128), (3, 1.693), (4, 2.059), (5, 2.326), (6, 2.534), (7, 2.704), (8, 2.847), (9, 2.970), (10, 3.078), (12, 3.258),
    (15, 3.472), (20, 3.735), (25, 3.931), (50, 4.498), (100, 5.015), (1000, 6.483),
];

/// How wide n draws from a normal spread on average, in its standard deviations; 2 samples at least.
pub(super) fn range_of_draws(samples: u32) -> f64 {
    let n = f64::from(samples.max(2)).ln();
    let after = RANGE_OF_DRAWS.iter().position(|(k, _)| f64::from(*k).ln() >= n).unwrap_or(RANGE_OF_DRAWS.len() - 1);
    let ((k0, d0), (k1, d1)) = (RANGE_OF_DRAWS[after.max(1) - 1], RANGE_OF_DRAWS[after.max(1)]);
    let (x0, x1) = (f64::from(k0).ln(), f64::from(k1).ln());
    d0 + (d1 - d0) * ((n - x0) / (x1 - x0)).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// d2(n) = ∫ 1 - F^n - (1 - F)^n dx with F the normal's distribution, summed here from its density.
    #[test]
    fn the_range_of_draws_is_its_integral() {
        let step = 1e-3;
        for samples in [2, 3, 4, 7, 10, 11, 13, 18, 30, 52, 75, 100, 365, 1000] {
            let (mut f, mut sum, n) = (0.0_f64, 0.0, f64::from(samples));
            for k in -8000..8000 {
                let x = (f64::from(k) + 0.5) * step;
                let half = 0.5 * step * (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
                f += half;
                sum += step * (1.0 - f.powf(n) - (1.0 - f).max(0.0).powf(n));
                f += half;
            }
            // The table's own digits are within 0.001; between its rows a straight line in ln n is within 1 %.
            assert!((range_of_draws(samples) / sum - 1.0).abs() < 0.01, "{samples}: {sum}");
        }
    }
}
