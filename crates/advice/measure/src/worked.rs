//! What the readings come to, and the way into the setup.

use quantity::{Digits, Faults, Known, Why, format_number};
use setup::Setup;

/// A number that was measured.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Value {
    /// The field of the setup that takes it; `None`: it is told and goes nowhere.
    pub field: Option<String>,
    /// What it is.
    pub label: String,
    /// Its unit, as the field reads it.
    pub unit: String,
    /// The value, and the range that holds it in 90 of 100 cases if the errors are what they are said to be.
    pub known: Known<f64>,
    /// Formula with figures.
    pub why: Why,
}

/// Yes or no.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Flag {
    /// The field of the setup that takes it.
    pub field: String,
    /// What it is.
    pub label: String,
    /// Yes or no.
    pub yes: bool,
}

/// What the readings come to.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Worked {
    /// Numbers.
    pub values: Vec<Value>,
    /// Yes or no.
    pub flags: Vec<Flag>,
    /// What is said of them, cautions first.
    pub says: Vec<String>,
}

impl Worked {
    /// One number.
    pub(crate) fn one(value: Value, says: Vec<String>) -> Worked {
        Worked { values: vec![value], flags: Vec::new(), says }
    }

    /// Whether there is something to write.
    pub fn writes(&self) -> bool {
        !self.flags.is_empty() || self.values.iter().any(|value| value.field.is_some())
    }

    /// Fields of the setup with the text of each, ends of the range behind the value.
    pub fn texts(&self) -> Vec<(String, String)> {
        let n = |value: f64| format_number(value, Digits::Significant(4));
        let mut texts = Vec::new();
        for Value { field, unit, known, .. } in &self.values {
            let Some(field) = field else { continue };
            texts.push((field.clone(), format!("{} {unit}", n(known.value))));
            if known.low != known.high {
                texts.push((format!("{field}.min"), format!("{} {unit}", n(known.low))));
                texts.push((format!("{field}.max"), format!("{} {unit}", n(known.high))));
            }
        }
        texts.extend(self.flags.iter().map(|flag| (flag.field.clone(), flag.yes.to_string())));
        texts
    }

    /// The setup with all of it written as measured.
    ///
    /// # Errors
    /// A value that its field does not accept: the old setup stays.
    pub fn take(&self, setup: &Setup) -> Result<Setup, Faults> {
        let mut next = setup.clone();
        // What stood there goes first: its range need not hold the new value.
        for field in self.values.iter().filter_map(|value| value.field.as_deref()) {
            next = next.with(field, "")?;
        }
        for (field, text) in self.texts() {
            next = next.with(&field, &text)?;
        }
        Ok(next)
    }
}
