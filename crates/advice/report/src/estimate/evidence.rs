//! What is known of a water: values with their errors, from a report, a kit, or nowhere.

use quantity::{Comparator, Digits, Ion, format_number};

use super::errors::Origin;

/// What a value is about, and its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// mg/L of the ion
    Ion(Ion),
    /// Calcium and magnesium together, meq/L
    Hardness,
    /// Acid taken up to pH 4.3, meq/L
    Alkalinity,
    /// µS/cm at 25 °C
    Conductivity,
    /// µS/cm at 20 °C
    Conductivity20,
    /// µS/cm, reference temperature not told
    ConductivityUntold,
}

impl Quantity {
    /// Name in a sentence.
    pub fn name(self) -> &'static str {
        match self {
            Quantity::Ion(ion) => ion.name(),
            Quantity::Hardness => "hardness",
            Quantity::Alkalinity => "alkalinity",
            _ => "conductivity",
        }
    }

    /// Unit as printed.
    pub fn unit(self) -> &'static str {
        match self {
            Quantity::Ion(_) => "mg/L",
            Quantity::Hardness | Quantity::Alkalinity => "meq/L",
            Quantity::Conductivity => "µS/cm at 25 °C",
            Quantity::Conductivity20 => "µS/cm at 20 °C",
            Quantity::ConductivityUntold => "µS/cm",
        }
    }

    /// Whether it is a conductivity.
    pub fn is_conductivity(self) -> bool {
        matches!(self, Quantity::Conductivity | Quantity::Conductivity20 | Quantity::ConductivityUntold)
    }
}

/// One way in which a printed number may be meant.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Meaning {
    /// In a sentence: `as N`.
    pub words: String,
    /// What the number is about if it is meant so.
    pub of: Quantity,
    /// What the number comes to if it is meant so, in the unit of `of`.
    pub value: f64,
}

/// How a value moves from sample to sample.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Spread {
    /// Standard deviation from one day to another, in the unit of the value.
    pub sd: f64,
    /// Number of samples behind it.
    pub samples: u32,
}

/// One value that is known.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Item {
    /// What it is about.
    pub of: Quantity,
    /// In the unit of [`Item::of`]; a bound where the comparator says so.
    pub value: f64,
    /// [`Comparator::Below`], [`Comparator::Above`]: the value is a bound.
    pub comparator: Comparator,
    /// Standard deviation of the method, of rounding and of the mean over its samples, in the same unit.
    pub sd: f64,
    /// From sample to sample, where there are several.
    pub spread: Option<Spread>,
    /// As somebody wrote it, for sentences.
    pub as_written: String,
    /// In a sentence, how it is counted: `as NO3`; empty where there is nothing to tell.
    pub counted: String,
    /// How else the printed number might have been meant.
    pub otherwise: Vec<Meaning>,
    /// False: the basis is open, nothing is computed on the value.
    pub settled: bool,
}

fn number(value: f64) -> String {
    format_number(value, Digits::Significant(4))
}

impl Item {
    /// A value of a method of this origin, with nothing else to say about it. `step` is the last printed digit's.
    pub fn new(of: Quantity, value: f64, step: f64, origin: Origin) -> Item {
        Item {
            of,
            value,
            comparator: Comparator::Equal,
            sd: origin.sd(of, value, step),
            spread: None,
            as_written: format!("{} {} {}", of.name(), number(value), of.unit()),
            counted: String::new(),
            otherwise: Vec::new(),
            settled: true,
        }
    }

    /// A bound: not above what the method can see.
    pub fn below(of: Quantity, limit: f64, origin: Origin) -> Item {
        let as_written = format!("{} <{} {}", of.name(), number(limit), of.unit());
        Item { comparator: Comparator::Below, as_written, ..Item::new(of, limit, 0.0, origin) }
    }

    /// Whether it is a number that a water can have, with an error.
    pub(super) fn is_sound(&self) -> bool {
        let least = if self.of == Quantity::Alkalinity { f64::NEG_INFINITY } else { 0.0 };
        self.value.is_finite() && self.value >= least && self.sd.is_finite() && self.sd > 0.0
    }

    /// The same printed number, meant otherwise.
    pub(super) fn meant(&self, meaning: &Meaning) -> Item {
        let scale = if self.value == 0.0 { 1.0 } else { meaning.value / self.value };
        Item {
            of: meaning.of,
            value: meaning.value,
            sd: self.sd * scale,
            spread: self.spread.map(|spread| Spread { sd: spread.sd * scale, ..spread }),
            counted: meaning.words.clone(),
            otherwise: Vec::new(),
            settled: true,
            ..self.clone()
        }
    }
}

/// What is known of one water. Empty: nothing is.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Evidence {
    /// Name of the zone, works, tap or date.
    pub name: Option<String>,
    /// `YYYY-MM-DD`
    pub date: Option<String>,
    /// The values.
    pub items: Vec<Item>,
    /// pH, where known; it moves conductivity a little.
    pub ph: Option<f64>,
    /// What could not be used, and why.
    pub left_out: Vec<String>,
}

impl Evidence {
    /// Of these values.
    pub fn of(items: Vec<Item>) -> Evidence {
        Evidence { items, ..Evidence::default() }
    }

    /// The values that may be computed with: sound, settled or, for conductivity, carried as a range.
    pub(super) fn usable(&self) -> impl Iterator<Item = (usize, &Item)> {
        let usable = |item: &Item| item.is_sound() && (item.settled || item.of.is_conductivity());
        self.items.iter().enumerate().filter(move |(_, item)| usable(item))
    }

    /// The first usable value of a quantity that is no bound.
    pub fn value(&self, of: Quantity) -> Option<&Item> {
        self.usable().map(|(_, item)| item).find(|item| {
            (item.of == of || (of.is_conductivity() && item.of.is_conductivity()))
                && item.comparator != Comparator::Below
        })
    }
}
