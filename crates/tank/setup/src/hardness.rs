//! Hardness as one number: calcium and magnesium that are two parts of a sum move against each other.
//!
//! What: the hardness of a water with its range. Where it was told exactly and only its split is assumed, the more there
//! is of calcium the less there is of magnesium, and the sum has no range at all.
//!
//! Equation: H = 2 Ca/M_Ca + 2 Mg/M_Mg. The two are parts of one sum where lowest calcium with highest magnesium, highest
//! calcium with lowest magnesium and the best estimates make the same H; then that H is exact. Else each has its own range,
//! and the ends of H are the sums of their ends.
//!
//! Symbols: H meq/L; Ca, Mg mg/L; M molar masses.
//!
//! Range: ends that agree within 1e-6 of H, far below what a test kit tells; two independent ranges do so only by chance.
//! Salts and mixing with an exact water shift both ends alike, so the rule holds for what is made of the water too.
//!
//! Source: definition of hardness; the rule for its range is our own.
//!
//! Checked by: `tests/by_hand_balance.rs`, `tests/identities.rs`.

use quantity::{Ion, Known};

use crate::SourceWater;
use crate::balance::equivalents;

/// Share of the sum within which sums of opposite ends count as one.
const SAME: f64 = 1e-6;

impl SourceWater {
    /// meq/L of calcium and magnesium together, with the range of the sum.
    pub fn hardness_meq_per_l(&self) -> Known<f64> {
        let [ca, mg] = self.parts();
        let (value, kind) = (ca.value + mg.value, ca.kind.weaker(mg.kind));
        if self.is_split() {
            return Known::exact(value, kind);
        }
        Known::ranged(ca.low + mg.low, value, ca.high + mg.high, kind)
    }

    /// Calcium and magnesium, meq/L.
    fn parts(&self) -> [Known<f64>; 2] {
        let meq = |ion: Ion| self.mg_per_l(ion).map(|mg_per_l| mg_per_l * equivalents(ion) / ion.molar_mass());
        [Ion::Calcium, Ion::Magnesium].map(meq)
    }

    /// Calcium and magnesium are two parts of a sum that is known exactly.
    pub(crate) fn is_split(&self) -> bool {
        let [ca, mg] = self.parts();
        let sum = ca.value + mg.value;
        let same = |other: f64| (other - sum).abs() <= SAME * sum;
        ca.high > ca.low && mg.high > mg.low && same(ca.low + mg.high) && same(ca.high + mg.low)
    }
}
