//! A softener in the house: sodium in place of calcium and magnesium.
//!
//! **What.** The works' water is hard, a kit at the tap says soft, and nothing else has changed.
//!
//! **Equation.** Ion exchange moves equivalents: Na(tap) = Na(works) + H(works) - H(tap), meq/L; alkalinity and
//! anions stay.
//!
//! **Range.** Hardness at the tap under half of the works' and apart by more than both errors; alkalinity, where
//! both know it, within their errors (water that was demineralised loses its alkalinity too).
//!
//! **Source.** Textbook (cation exchange on resin, from memory).
//!
//! Of one water alone, without that of the works: what is behind the softener is soft, is buffered as hard water is, and
//! its sodium makes up for what is gone. Alkalinity without calcium or magnesium beside it stands for what was there.
//!
//! **Checked by** `tests/by_hand_estimate.rs`, `tests/by_hand_softened.rs`.

use quantity::{Digits, Ion, Kind, Known};
use setup::Tank;

use super::state::meq_per_mg;
use super::usual::{TO_90, Usual};
use super::water_known::estimate;
use super::{Evidence, Item, Quantity};

/// Under this share of the hardness that was there.
const UNDER: f64 = 0.5;

/// Of one water: mg/L of sodium at least that stands in place of calcium and magnesium; `None`: it does not look softened.
/// `hardness` and `alkalinity` in meq/L, `sodium` in mg/L, all of them told, with their ranges.
pub fn exchanged(hardness: Known<f64>, alkalinity: Known<f64>, sodium: Known<f64>) -> Option<f64> {
    let gone = alkalinity.low - hardness.high;
    let soft = hardness.high < UNDER * alkalinity.low;
    (soft && meq_per_mg(Ion::Sodium) * sodium.high >= gone).then(|| gone / meq_per_mg(Ion::Sodium))
}

/// What is said of a tap that looks as if it came through a softener; nothing where it does not, or too little was told.
/// `hardness` in meq/L.
pub fn through_a_softener(tank: &Tank, hardness: Known<f64>) -> String {
    let (alkalinity, sodium) = (tank.tap.alkalinity_meq_per_l, tank.tap.mg_per_l(Ion::Sodium));
    if [alkalinity.kind, sodium.kind].contains(&Kind::Assumed) {
        return String::new();
    }
    exchanged(hardness, alkalinity, sodium).map_or_else(String::new, |mg| {
        format!(
            " Yet it is buffered as hard water is, and its sodium makes up for what is missing: so looks water behind a \
             softener, which puts sodium in place of calcium and magnesium, here about {} mg/L. For the tank take the water \
             before the softener, if there is a tap for it: plants, snails and shrimps lack calcium and magnesium in this, \
             and its sodium feeds nobody and gathers where water is only topped up.",
            tank.units.number(mg, Digits::Significant(2))
        )
    })
}

/// What a softener does to the works' water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Softened {
    /// The water of the tap, for [`estimate`].
    pub evidence: Evidence,
    /// mg/L of sodium that it adds.
    pub sodium_mg_per_l: f64,
    /// In a sentence.
    pub text: String,
}

/// Whether what was measured at the tap is the works' water through a softener.
pub fn softened(works: &Evidence, tap: &Evidence, usual: &Usual) -> Option<Softened> {
    let known = estimate(works, usual)?;
    let at_tap = tap.value(Quantity::Hardness)?;
    let gone = known.hardness.known.value - at_tap.value;
    let reach = (known.hardness.known.value - known.hardness.known.low).hypot(TO_90 * at_tap.sd);
    if at_tap.value > UNDER * known.hardness.known.value || gone < 2.0 * reach {
        return None;
    }
    if let Some(alkalinity) = tap.value(Quantity::Alkalinity) {
        let of_works = known.alkalinity.known;
        let reach = (of_works.high - of_works.low).hypot(2.0 * TO_90 * alkalinity.sd);
        if (of_works.value - alkalinity.value).abs() > reach {
            return None;
        }
    }
    let sodium = known.ions.get(&Ion::Sodium)?.known;
    let added = gone / meq_per_mg(Ion::Sodium);
    let sd = ((sodium.high - sodium.low) / 2.0).hypot(reach / meq_per_mg(Ion::Sodium)) / TO_90;
    let mut item = at_tap.clone();
    item.of = Quantity::Ion(Ion::Sodium);
    (item.value, item.sd, item.spread) = (sodium.value + added, sd, None);
    item.as_written = "sodium behind the softener".to_owned();
    let replaced = |item: &&Item| {
        let hard = [Quantity::Hardness, Quantity::Ion(Ion::Calcium), Quantity::Ion(Ion::Magnesium)];
        // Exchanged for sodium the ions carry another conductivity.
        !hard.contains(&item.of) && item.of != Quantity::Ion(Ion::Sodium) && !item.of.is_conductivity()
    };
    let mut evidence = tap.clone();
    evidence.items.retain(|item| item.of != Quantity::Ion(Ion::Sodium));
    let told: Vec<Quantity> = evidence.items.iter().map(|item| item.of).collect();
    evidence.items.extend(works.items.iter().filter(replaced).filter(|item| !told.contains(&item.of)).cloned());
    evidence.items.push(item);
    let text = format!(
        "The works' water is hard and your tap's is soft: a softener in the house gives about {} mg/L of sodium in \
         place of calcium and magnesium. For the tank take the water before the softener, if there is a tap for it.",
        quantity::round_significant(added, 2)
    );
    Some(Softened { evidence, sodium_mg_per_l: added, text })
}
