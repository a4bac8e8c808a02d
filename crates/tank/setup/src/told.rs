//! What the file says, understood field by field: numbers in the units in which they are kept, words, lists, questions.

use std::collections::BTreeMap;

use quantity::concentration::Reading;
use quantity::number::{Digits, canonical, format_number, parse_number};
use quantity::{Fault, Faults, Ion, Kind, Known};

use crate::document::{Document, Entry, Value};
use crate::field::{Field, HOW, PARTS, field_of, whole};
use crate::names::closest;
use crate::takes::Takes;
use crate::value::{Meaning, amount, bare, label_factor, solid_volume_l, with_number};
use crate::{Question, Reply, bounds};

/// Everything that the file says.
#[derive(Clone, Debug, Default)]
pub(crate) struct Told {
    /// Numbers by field, in the field's kept unit.
    pub(crate) numbers: BTreeMap<String, Known<f64>>,
    /// Words and choices by field.
    pub(crate) words: BTreeMap<String, String>,
    /// Lists of names by field.
    pub(crate) names: BTreeMap<String, Vec<String>>,
    /// Yes or no by field.
    pub(crate) flags: BTreeMap<String, bool>,
    /// How many `[[own]]` there are.
    pub(crate) own: usize,
    /// What must be asked first.
    pub(crate) questions: Vec<Question>,
    /// What is far from usual.
    pub(crate) unusual: Vec<(String, String)>,
}

impl Told {
    /// Understand every field of the document; what can't be understood is noted in `faults`.
    pub(crate) fn read(document: &Document<'_>, faults: &mut Faults) -> Told {
        let mut told = Told { own: document.own, ..Told::default() };
        let mut done = String::new();
        for path in document.entries.keys() {
            let whole = whole(path);
            let Some(field) = field_of(whole).filter(|_| whole != done) else { continue };
            whole.clone_into(&mut done);
            if let Err(fault) = told.field(document, field, whole) {
                faults.push(mended(fault, field, document, whole));
            }
        }
        told
    }

    fn field(&mut self, document: &Document<'_>, field: &Field, path: &str) -> Result<(), Fault> {
        let Some(entry) = document.entries.get(path) else { return self.ends(document, field, path) };
        let written = entry.value.written();
        match field.takes {
            Takes::Words => {
                self.words.insert(path.to_owned(), words(&entry.value, path)?);
            }
            Takes::Choice(_) | Takes::OneOf(_) => {
                let choices = field.takes.choices();
                self.words.insert(path.to_owned(), choice(&written, &choices)?);
            }
            Takes::SomeOf(_) => {
                let names = self.list(document, field, path, entry)?;
                self.names.insert(path.to_owned(), names);
            }
            Takes::YesNo => {
                self.flags.insert(path.to_owned(), yes_no(&entry.value)?);
            }
            _ if matches!(entry.value, Value::YesNo(_) | Value::List(_)) => {
                return Err(Fault::new(format!("`{written}` is no amount")));
            }
            Takes::Count => {
                let count = bare(&written)?;
                if count.fract() != 0.0 {
                    return Err(Fault::new(format!("`{written}` is no whole number")));
                }
                self.number(field, path, Known::exact(count, Kind::Measured), &written)?;
            }
            // A bare number where a unit belongs would be read in one unit or another by chance; so it is not read.
            takes => match amount(takes, &written)? {
                Meaning::Number(number) => {
                    if let Some(way) = counted(takes, &written) {
                        self.words.insert(format!("{path}.as"), way.to_owned());
                    }
                    self.number(field, path, number, &written)?;
                }
                Meaning::Open(readings) => {
                    let holds = |text: &str| amount(takes, text).and_then(|meaning| taken(field, &meaning, text));
                    let question = possible(question(field, path, &written, &readings), holds)?;
                    self.questions.push(question);
                }
            },
        }
        Ok(())
    }

    /// `{ min = ..., mean = ..., max = ... }`, each possibly without the unit that another has.
    fn ends(&mut self, document: &Document<'_>, field: &Field, path: &str) -> Result<(), Fault> {
        let kind = how(document, path)?;
        let texts = ENDS.map(|end| document.entries.get(&format!("{path}.{end}")).map(|entry| entry.value.written()));
        let typed = texts.iter().flatten().find(|text| has_unit(text)).or(texts.iter().flatten().next());
        let typed = typed.cloned().unwrap_or_default();
        match ends_of(field, &texts, kind)? {
            Ends::Nothing => Ok(()),
            Ends::Number(number) => self.number(field, path, number, &typed),
            Ends::Open { at, whole, readings } => {
                // The field's own name stands for the mean; without one the end itself is asked.
                let end = ENDS.get(at).copied().unwrap_or_default();
                let asked = if end == "mean" { path.to_owned() } else { format!("{path}.{end}") };
                let holds = |text: &str| {
                    let mut texts = texts.clone();
                    texts.iter_mut().skip(at).take(1).for_each(|end| *end = Some(text.to_owned()));
                    match ends_of(field, &texts, kind)? {
                        Ends::Number(number) => taken(field, &Meaning::Number(number), text),
                        Ends::Open { .. } | Ends::Nothing => Ok(()),
                    }
                };
                let question = possible(question(field, &asked, &whole, &readings), holds)?;
                self.questions.push(question);
                Ok(())
            }
        }
    }

    fn number(&mut self, field: &Field, path: &str, number: Known<f64>, typed: &str) -> Result<(), Fault> {
        for value in [number.low, number.value, number.high] {
            // What a tap may hold says nothing of what may be wished; `check` asks about wishes.
            if let Some(sentence) = bounds::judge(field, value, typed)?.filter(|_| !path.starts_with("feeding.bands."))
            {
                self.unusual.retain(|(about, _)| about != path);
                self.unusual.push((path.to_owned(), sentence));
            }
        }
        self.numbers.insert(path.to_owned(), number);
        Ok(())
    }

    fn list(
        &mut self,
        document: &Document<'_>,
        field: &Field,
        path: &str,
        entry: &Entry,
    ) -> Result<Vec<String>, Fault> {
        let choices = field.takes.choices();
        let Value::List(names) = &entry.value else {
            // A single name needs no brackets; several in one text are parted by commas.
            let text = entry.value.written();
            let names = text.split(',').map(str::trim).filter(|name| !name.is_empty());
            return names.map(|name| choice(name, &choices)).collect();
        };
        let mut found = Vec::new();
        for (name, span) in names {
            match choice(name, &choices) {
                Ok(name) => found.push(name),
                Err(fault) => {
                    let place = quantity::Place::in_text(document.file, document.text, span.clone()).named(path);
                    return Err(fault.at(place));
                }
            }
        }
        Ok(found)
    }
}

/// Whether a reply to a question would be taken.
fn taken(field: &Field, meaning: &Meaning, typed: &str) -> Result<(), Fault> {
    let Meaning::Number(number) = meaning else { return Err(Fault::new(format!("`{typed}` is still open"))) };
    [number.low, number.value, number.high]
        .into_iter()
        .try_for_each(|value| bounds::judge(field, value, typed).map(drop))
}

/// The names of a range's ends, in the order in which they are asked.
const ENDS: [&str; 3] = ["mean", "max", "min"];

/// What the ends of a range come to.
enum Ends {
    /// No end is there.
    Nothing,
    /// One value with its range.
    Number(Known<f64>),
    /// The end at this place has no basis and needs one.
    Open { at: usize, whole: String, readings: Vec<Reading> },
}

fn has_unit(text: &str) -> bool {
    parse_number(text.trim()).is_err()
}

/// The ends, in the order of [`ENDS`], each possibly without the unit that another has.
fn ends_of(field: &Field, texts: &[Option<String>; 3], kind: Kind) -> Result<Ends, Fault> {
    let model = texts.iter().flatten().find(|text| has_unit(text));
    let mut values = [None; 3];
    for (at, (value, text)) in values.iter_mut().zip(texts).enumerate() {
        let Some(text) = text else { continue };
        let whole = match model {
            Some(model) if !has_unit(text) => with_number(model, text.trim()),
            _ => text.clone(),
        };
        match amount(field.takes, &whole)? {
            // Of "<0.1" the upper end counts for the most, the lower one for the least.
            Meaning::Number(number) => {
                *value = Some(match ENDS.get(at) {
                    Some(&"max") => number.high,
                    Some(&"min") => number.low,
                    _ => number.value,
                });
            }
            Meaning::Open(readings) => return Ok(Ends::Open { at, whole, readings }),
        }
    }
    let [mean, max, min] = values;
    let middle = || Some(canonical(0.5 * (min? + max?)));
    let Some(value) = mean.or_else(middle).or(max).or(min) else { return Ok(Ends::Nothing) };
    let (low, high) = (min.unwrap_or(value), max.unwrap_or(value));
    if low > value || value > high {
        let fault = Fault::new("min, mean and max are out of order").expected("min ≤ mean ≤ max");
        return Err(fault.hint("write the whole range anew, such as \"8 to 21 mg/L NO3\", or mend min and max too"));
    }
    Ok(Ends::Number(Known::ranged(low, value, high, kind)))
}

/// The question with the replies that would be taken: one that could not be would leave a setup that nobody can read. It
/// is named, for it says something of the number.
///
/// # Errors
/// Not one of them would be taken: why the first would not.
fn possible(mut question: Question, taken: impl Fn(&str) -> Result<(), Fault>) -> Result<Question, Fault> {
    let mut first = None;
    let mut never = Vec::new();
    question.replies.retain(|reply| match taken(&reply.text) {
        Ok(()) => true,
        Err(fault) => {
            never.push(format!("{} it can't be: that would be {}.", reply.label, reply.means));
            first.get_or_insert(fault);
            false
        }
    });
    match first {
        Some(fault) if question.replies.is_empty() => Err(fault),
        _ => {
            never.insert(0, question.ask);
            question.ask = never.join(" ");
            Ok(question)
        }
    }
}

/// How well a value with its range is known; measured where nothing else is said.
fn how(document: &Document<'_>, path: &str) -> Result<Kind, Fault> {
    let path = format!("{path}.{HOW}");
    let Some(entry) = document.entries.get(&path) else { return Ok(Kind::Measured) };
    let kinds = [("measured", Kind::Measured), ("worked_out", Kind::WorkedOut), ("assumed", Kind::Assumed)];
    let word = choice(&entry.value.written(), &kinds.map(|(word, _)| word.to_owned()));
    let word = word.map_err(|fault| fault.at(document.place(&path)))?;
    Ok(kinds.into_iter().find(|(known, _)| *known == word).map_or(Kind::Measured, |(_, kind)| kind))
}

/// What a number alone does not say: that rock was given as a volume, that a label counts by mass or in percent.
fn counted(takes: Takes, written: &str) -> Option<&'static str> {
    match takes {
        Takes::MassOrVolume => solid_volume_l(written).map(|_| "volume"),
        Takes::Label(_) if written.contains('%') => Some("percent"),
        Takes::Label(_) if written.to_lowercase().contains("kg") => Some("mass"),
        _ => None,
    }
}

/// A fault with all that is known of its field: place, expectation, example.
fn mended(mut fault: Fault, field: &Field, document: &Document<'_>, path: &str) -> Fault {
    if *fault.place == quantity::Place::default() {
        let first = || PARTS.iter().map(|end| format!("{path}.{end}")).find(|end| document.entries.contains_key(end));
        let at = if document.entries.contains_key(path) { path.to_owned() } else { first().unwrap_or(path.to_owned()) };
        fault = fault.at(document.place(&at));
    }
    fault.expected = fault.expected.or_else(|| Some(field.takes.expected()));
    let bare = matches!(field.takes, Takes::Count | Takes::Bare | Takes::Money | Takes::YesNo);
    let quote = if bare { "" } else { "\"" };
    fault.hint = fault.hint.or_else(|| Some(format!("for instance {quote}{}{quote}", field.example)));
    fault
}

/// Names stay short enough for a heading, and money is a code of three letters (ISO 4217, source key `iso_4217`).
fn words(value: &Value, path: &str) -> Result<String, Fault> {
    let Value::Text(text) = value else {
        return Err(Fault::new(format!("`{}` is no text", value.written())));
    };
    let text = text.trim();
    if text.chars().count() > 120 || text.chars().any(char::is_control) {
        return Err(
            Fault::new("this text is too long or holds line breaks").expected("at most 120 characters on one line")
        );
    }
    if path == "tank.currency" {
        let code = text.to_uppercase();
        let is_code = code.len() == 3 && code.bytes().all(|byte| byte.is_ascii_uppercase());
        return is_code.then_some(code).ok_or_else(|| {
            Fault::new(format!("`{text}` is no code of a currency")).expected("three letters, such as EUR, GBP, USD")
        });
    }
    Ok(text.to_owned())
}

/// One of the choices, however it is spelt.
fn choice(written: &str, choices: &[String]) -> Result<String, Fault> {
    let tidy = written.trim().to_lowercase().replace([' ', '-'], "_");
    if choices.contains(&tidy) {
        return Ok(tidy);
    }
    let fault = Fault::new(format!("`{written}` is not known here")).expected(format!("one of {}", choices.join(", ")));
    Err(match closest(&tidy, choices.iter().map(String::as_str)) {
        Some(near) => fault.hint(format!("did you mean \"{near}\"?")),
        None => fault,
    })
}

fn yes_no(value: &Value) -> Result<bool, Fault> {
    match (value, value.written().trim().to_lowercase().as_str()) {
        (Value::YesNo(yes), _) => Ok(*yes),
        (Value::Text(_), "yes" | "true") => Ok(true),
        (Value::Text(_), "no" | "false") => Ok(false),
        (_, other) => Err(Fault::new(format!("`{other}` is neither yes nor no"))),
    }
}

/// The question that settles how an amount is counted, with what each reply means in figures.
fn question(field: &Field, path: &str, written: &str, readings: &[Reading]) -> Question {
    let reply = |reading: &Reading| {
        let ion = reading.ion;
        let formula = reading.basis.formula(ion).unwrap_or_default();
        let number = |mg: f64| format_number(mg, Digits::Significant(3));
        let means = match (field.takes, label_factor(written)) {
            // A percent of the ion is a hundredth of a gram in a gram.
            (Takes::Label(_), Some(_)) => format!("{} % {}", number(reading.mg_per_l() / 1e4), ion.formula()),
            (Takes::Label(_), None) => format!("{} mg/mL {}", number(reading.mg_per_l() / 1e3), ion.formula()),
            _ => format!("{} mg/L of {} ({})", number(reading.mg_per_l()), ion.name(), ion.formula()),
        };
        let unit = if reading.unit_assumed { " mg/L" } else { "" };
        let text = match field.takes {
            // "a day" must stay at the end.
            Takes::Uptake(_) => format!("{}{unit} as {formula} a day", crate::value::without_day(written)),
            _ => format!("{}{unit} as {formula}", written.trim()),
        };
        Reply { key: formula.to_lowercase(), label: format!("As {formula}"), means, text }
    };
    let other = |ion: Ion| match ion {
        Ion::Potassium | Ion::Calcium | Ion::Magnesium => "the oxide",
        _ => "the element",
    };
    let ion = readings.first().map_or(Ion::Nitrate, |reading| reading.ion);
    let look = match field.takes {
        Takes::Label(_) => {
            "Look at the label: the formula behind the number says it; if none stands there, ask its maker."
        }
        Takes::Uptake(_) => "Look at the leaflet of the test by which you worked it out.",
        _ if path.starts_with("feeding.") => "Look at the leaflet of the test by which you will follow it.",
        _ => "Look at the report's heading or the test kit's leaflet.",
    };
    Question {
        field: path.to_owned(),
        written: written.to_owned(),
        ask: format!(
            "How is {} counted: as {} itself or as {}? \"{}\" does not say. {look}",
            field.label,
            ion.formula(),
            other(ion),
            written.trim()
        ),
        replies: readings.iter().map(reply).collect(),
    }
}
