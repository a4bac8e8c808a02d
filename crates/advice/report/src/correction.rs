//! What the keeper says of a reading: how it is counted, what it really is, that it is none.
//!
//! A correction is a text as a person writes one, `28 mg/L NO3`, `<0.05`, `sulfate 32 mg/L`, read by the same reader as
//! a report. It changes what was read and leaves where it was read.

use knowledge::book;
use quantity::{Comparator, Fault, parse_number};

use crate::reading::{Basis, Counted, Reading, Statistic};
use crate::{Place, Unit, ask, read_text};

/// What a correction is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Spot {
    /// A reading, by its place in [`crate::Report::readings`].
    Reading(usize),
    /// A row that nobody understood, by its place in [`crate::Report::unknown_rows`].
    Row(usize),
}

/// A number, or the bound that stands in its place.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Number {
    /// See [`Reading::value`].
    pub value: Option<f64>,
    /// See [`Reading::comparator`].
    pub comparator: Comparator,
    /// See [`Reading::detection_limit`].
    pub detection_limit: Option<f64>,
}

impl Number {
    pub(crate) fn of(reading: &Reading) -> Number {
        Number { value: reading.value, comparator: reading.comparator, detection_limit: reading.detection_limit }
    }
}

/// What a reading really is.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Meant {
    /// Key of `data/determinands.toml`.
    pub determinand: String,
    /// See [`Reading::unit`].
    pub unit: Option<Unit>,
    /// What it is counted as; never open.
    pub counted: Counted,
    /// See [`Reading::statistic`].
    pub statistic: Statistic,
    /// The number; none: the one that was read.
    pub number: Option<Number>,
}

/// What is done with a reading.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// It means this.
    Means(Meant),
    /// It was read rightly, whatever was asked.
    AsRead,
    /// It is no value of this water.
    LeftOut,
    /// The keeper does not know: it stays open, and the next question may come.
    Unknown,
}

/// One correction.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Correction {
    /// What it is about.
    pub at: Spot,
    /// As the keeper wrote it.
    pub typed: String,
    /// What follows.
    pub change: Change,
    /// The report from which it was remembered; none where the keeper made it here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub remembered: Option<String>,
}

impl Meant {
    /// The reading as it is meant.
    pub(crate) fn put_on(&self, reading: &mut Reading, because: String) {
        reading.determinand.clone_from(&self.determinand);
        reading.unit = self.unit;
        self.unit.map_or("", Unit::name).clone_into(&mut reading.unit_text);
        reading.counted.clone_from(&self.counted);
        reading.statistic = self.statistic;
        if let Some(number) = &self.number {
            reading.value = number.value;
            reading.comparator = number.comparator;
            reading.detection_limit = number.detection_limit;
        }
        reading.question = None;
        reading.confidence = 1.0;
        reading.because = Some(because);
    }
}

/// Understand a text as a person writes one, in place of `reading`; the empty text leaves it out.
///
/// # Errors
/// A text in which no value is found, or whose value would have to be asked about again.
pub(crate) fn understand(reading: &Reading, typed: &str) -> Result<Change, Fault> {
    let typed = typed.trim();
    if typed.is_empty() || typed == "-" {
        return Ok(Change::LeftOut);
    }
    let (statistic, text) = statistic(typed).unwrap_or((reading.statistic, typed));
    let same = |number: Number| {
        Change::Means(Meant {
            determinand: reading.determinand.clone(),
            unit: reading.unit,
            counted: reading.counted.clone(),
            statistic,
            number: Some(number),
        })
    };
    // A bare number is only another number.
    if reading.is_settled()
        && let Some(number) = bare(text)
    {
        return Ok(same(number));
    }
    let found = value(&reading.determinand, text)?;
    if let Some(question) = &found.question {
        return Err(Fault::new(format!("`{typed}` leaves it open: {question}"))
            .expected("a number with its unit and what it is counted as")
            .hint(format!("for instance \"{}\"", example(&found))));
    }
    let number = Some(Number::of(&found));
    let Reading { determinand, unit, counted, .. } = found;
    Ok(Change::Means(Meant { determinand, unit, counted, statistic, number }))
}

/// The value of a text that may begin with its name.
fn value(determinand: &str, text: &str) -> Result<Reading, Fault> {
    let named = text.chars().next().is_some_and(|c| c.is_alphabetic()) && !text.to_lowercase().starts_with("n.");
    let name = book().determinands.get(determinand).map_or(determinand, |row| row.name.as_str());
    let line = if named { text.to_owned() } else { format!("{name} {text}") };
    let none = || {
        Fault::new(format!("I find no value in `{text}`"))
            .expected("a number with its unit and what it is counted as, its name in front if it is another substance")
            .hint("for instance \"24.4 mg/L NO3\", \"<0.05 mg/L\", \"sulfate 32 mg/L\"; nothing at all leaves the row out")
    };
    let found = read_text(&line).readings;
    found.into_iter().next().ok_or_else(none)
}

/// A number without a unit, or a bound without one.
fn bare(text: &str) -> Option<Number> {
    let below = text.strip_prefix('<').map(str::trim);
    let number = parse_number(below.unwrap_or(text)).ok().filter(|n| n.is_finite())?;
    Some(match below {
        Some(_) => Number { value: None, comparator: Comparator::Below, detection_limit: Some(number) },
        None => Number { value: Some(number), comparator: Comparator::Equal, detection_limit: None },
    })
}

/// The word in front that says which number of its samples it is.
fn statistic(text: &str) -> Option<(Statistic, &str)> {
    let (word, rest) = text.split_once(' ')?;
    let statistic = match word.to_lowercase().as_str() {
        "min" | "minimum" | "least" => Statistic::Min,
        "mean" | "average" => Statistic::Mean,
        "median" => Statistic::Median,
        "max" | "maximum" | "most" => Statistic::Max,
        "single" => Statistic::Single,
        _ => return None,
    };
    Some((statistic, rest.trim()))
}

/// How a value may be written so that nothing is left open.
fn example(reading: &Reading) -> String {
    let number = reading.value.or(reading.detection_limit).unwrap_or(10.0);
    let unit = reading.unit.map_or("mg/L", Unit::name);
    match &reading.counted {
        Counted::Open(bases) => {
            let first = bases.first().map(|basis| ask::choice(&reading.determinand, *basis)).unwrap_or_default();
            format!("{number} {unit} {first}")
        }
        _ => format!("{number} {unit}"),
    }
}

/// A reading as a person would write it: `24.4 mg/L as NO3`, `<0.05 mg/L`, `not detected`.
pub fn written(reading: &Reading) -> String {
    let number = match (reading.is_below_detection(), reading.value, reading.detection_limit) {
        (true, _, Some(limit)) => format!("<{limit}"),
        (true, ..) => return "not detected".to_owned(),
        (false, Some(value), _) if reading.comparator == Comparator::Above => format!(">{value}"),
        (false, Some(value), _) => value.to_string(),
        _ => String::new(),
    };
    let unit = reading.unit.filter(|unit| *unit != Unit::Ph).map_or("", Unit::name);
    let basis = match (reading.counted.basis(), reading.unit) {
        (Some(basis), Some(unit)) if unit.is_mass() || is_reference(basis) => {
            format!(" {}", ask::choice(&reading.determinand, basis))
        }
        _ => String::new(),
    };
    format!("{number} {unit}{basis}").trim().to_owned()
}

fn is_reference(basis: Basis) -> bool {
    matches!(basis, Basis::At20C | Basis::At25C)
}

/// The reading that a row which nobody understood becomes; none where the text leaves it out.
///
/// # Errors
/// As [`understand`].
pub(crate) fn of_row(place: &Place, typed: &str) -> Result<Change, Fault> {
    let blank = blank(place);
    let text = typed.trim();
    if !text.is_empty() && !text.chars().next().is_some_and(char::is_alphabetic) {
        return Err(Fault::new(format!("`{text}` does not say of what it is"))
            .expected("the name of the substance, then its value")
            .hint("for instance \"nitrate 24.4 mg/L NO3\""));
    }
    understand(&blank, text)
}

/// A reading of nothing, at a place.
pub(crate) fn blank(place: &Place) -> Reading {
    Reading {
        determinand: String::new(),
        as_written: place.text.chars().take(60).collect(),
        statistic: Statistic::Single,
        value: None,
        comparator: Comparator::Equal,
        detection_limit: None,
        unit: None,
        unit_text: String::new(),
        counted: Counted::Open(Vec::new()),
        sample: None,
        place: place.clone(),
        samples: None,
        failing: None,
        limit: None,
        confidence: 1.0,
        question: None,
        because: None,
    }
}
