//! A line of the log as texts by name: what a form sends, what a command is told, what a row of a table holds.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use knowledge::book;
use quantity::{Fault, Faults, Mass, Place, Units, Volume, canonical, parse_number};

pub use crate::settled::settled;
use crate::value::{self, exact};
use crate::when::when;
use crate::{Entry, Reading, Sure, What};

/// Texts by name; a missing name is an empty text.
pub type Texts = BTreeMap<String, String>;

/// The names, in the order of the columns of a table.
pub const NAMES: [&str; 11] =
    ["at", "kind", "what", "amount", "unit", "error", "kit", "sure", "counted", "price", "note"];

/// The kinds of entries, each with what it is called.
pub const KINDS: [(&str, &str); 12] = [
    ("test", "a reading"),
    ("dose", "a dose"),
    ("change", "a change of water"),
    ("top_up", "water topped up"),
    ("food", "food"),
    ("trim", "plants cut"),
    ("sight", "something seen"),
    ("animals", "animals"),
    ("bought", "something bought"),
    ("photo", "a photograph"),
    ("done", "another act"),
    ("words", "words"),
];

/// Who may be counted.
pub const WHO: [&str; 4] = ["fish", "shrimps", "snails", "others"];

/// Longest name of something, characters.
const NAME: usize = 200;
/// Longest note, characters.
const NOTE: usize = 10_000;

/// Read an entry. Bare numbers are in the keeper's units; where no moment is written it is now.
///
/// # Errors
/// All faults, each with the name of the text it stands in ([`NAMES`]) as its field.
pub fn read(texts: &Texts, now: &ZonedDateTime, units: &Units) -> Result<Entry, Faults> {
    let reader = Reader { texts, units };
    let mut faults = Faults::new();
    let at = faults.note(reader.at("at", when(reader.text("at"), now)));
    let note = faults.note(reader.at("note", reader.words("note", NOTE)));
    let what = match reader.what() {
        Ok(what) => Some(what),
        Err(others) => {
            faults.0.extend(others.0);
            None
        }
    };
    match (at, what, note) {
        (Some(at), Some(what), Some(note)) if faults.0.is_empty() => Ok(Entry { at, what, note }),
        _ => Err(faults),
    }
}

struct Reader<'a> {
    texts: &'a Texts,
    units: &'a Units,
}

impl Reader<'_> {
    /// Without the space round it: of what is no name and no note.
    fn text(&self, name: &str) -> &str {
        self.raw(name).trim()
    }

    fn raw(&self, name: &str) -> &str {
        self.texts.get(name).map_or("", String::as_str)
    }

    fn at<T>(&self, name: &str, read: Result<T, Fault>) -> Result<T, Fault> {
        read.map_err(|fault| {
            let place = fault.place.clone().named(name);
            fault.at(place)
        })
    }

    fn words(&self, name: &str, most: usize) -> Result<String, Fault> {
        let text = self.raw(name);
        if text.chars().count() > most {
            return Err(Fault::new("this text is too long").expected(format!("at most {most} characters")));
        }
        Ok(text.to_owned())
    }

    /// A name that must be there.
    fn name(&self, name: &str, expected: &str) -> Result<String, Fault> {
        let missing = || Fault::new("something is missing here").expected(expected);
        let read =
            self.words(name, NAME).and_then(|text| if text.trim().is_empty() { Err(missing()) } else { Ok(text) });
        self.at(name, read)
    }

    /// What is written as an amount, with its unit behind it.
    fn amount(&self) -> String {
        format!("{} {}", self.text("amount"), self.text("unit")).trim().to_owned()
    }

    /// An amount of a kind, in its unit; a bare number is in `bare`.
    fn amount_of(&self, kind: &str, read: impl Fn(&str) -> Result<f64, Fault>) -> Result<f64, Fault> {
        let text = self.amount();
        let Some(row) = book().amounts.get(kind) else { return Err(Fault::new("this kind has no amount")) };
        let value = match exact(&row.is.unit, &text) {
            Some(number) => Ok(number),
            None if text.is_empty() => {
                Err(Fault::new("how much is missing").expected(format!("an amount, for instance 5 {}", row.is.unit)))
            }
            None => read(&text),
        };
        self.at("amount", value.and_then(|value| row.is.judge(&row.name, value).map(|_| value)))
    }

    fn litres(&self, kind: &str) -> Result<f64, Fault> {
        self.amount_of(kind, |text| Volume::parse_in(text, self.units).map(|volume| canonical(volume.in_litres())))
    }

    fn grams(&self, kind: &str) -> Result<f64, Fault> {
        self.amount_of(kind, |text| Mass::parse_in(text, self.units).map(|mass| canonical(mass.in_grams())))
    }

    fn millilitres(&self, kind: &str) -> Result<f64, Fault> {
        // Doses are drawn up in millilitres, whatever the tank is counted in.
        let millilitres = |text: &str| match parse_number(text) {
            Ok(number) => Ok(number),
            Err(_) => Volume::parse(text).map(|volume| canonical(volume.in_millilitres())),
        };
        self.amount_of(kind, millilitres)
    }

    fn what(&self) -> Result<What, Faults> {
        let kind = self.text("kind");
        Ok(match kind {
            "test" => return self.test().map(What::Test),
            "dose" => {
                let mut faults = Faults::new();
                let bottle = faults.note(self.name("what", "the name of the bottle, for instance Bottle one"));
                let ml = faults.note(self.millilitres(kind));
                let what = bottle.zip(ml).map(|(bottle, ml)| What::Dose { bottle, ml });
                return what.ok_or(faults);
            }
            "change" => What::Change { litres: self.litres(kind)? },
            "top_up" => What::TopUp { litres: self.litres(kind)? },
            "food" => What::Food { grams: self.grams(kind)? },
            "trim" if self.text("amount").is_empty() => What::Trim { wet_grams: None },
            "trim" => What::Trim { wet_grams: Some(self.grams(kind)?) },
            "sight" => What::Sight { sight: self.at("what", self.sight())? },
            "animals" => return self.animals(),
            "bought" => return self.bought(),
            "photo" => What::Photo { file: self.name("what", "the name of a file, for instance front.jpg")? },
            "done" => What::Done { act: self.name("what", "what was done, for instance glass")? },
            "words" if self.text("note").is_empty() => {
                let fault = Fault::new("there is nothing to write").expected("a word of what you saw or did");
                return Err(fault.at(Place::field("note")).into());
            }
            "words" => What::Words,
            other => {
                let kinds: Vec<&str> = KINDS.iter().map(|(kind, _)| *kind).collect();
                let fault = Fault::new(format!("`{other}` is no kind of entry"))
                    .expected(format!("one of {}", kinds.join(", ")))
                    .at(Place::field("kind"));
                return Err(fault.into());
            }
        })
    }

    fn test(&self) -> Result<Reading, Faults> {
        let of = self.text("what");
        let rows = &book().readings;
        let named = || rows.iter().find(|(_, row)| row.name.eq_ignore_ascii_case(of));
        let Some((of, row)) = rows.get_key_value(of).or_else(named) else {
            let keys: Vec<&str> = rows.keys().map(String::as_str).collect();
            let missing = if of.is_empty() {
                "what was read is missing".to_owned()
            } else {
                format!("`{of}` is nothing that can be read here")
            };
            return Err(Fault::new(missing)
                .expected(format!("one of {}", keys.join(", ")))
                .at(Place::field("what"))
                .into());
        };
        let mut faults = Faults::new();
        let missing = || Fault::new("the number is missing").expected("what the test or the instrument shows");
        let text = self.amount();
        let value = if self.text("amount").is_empty() { Err(missing()) } else { value::read(row, &text, self.units) };
        let value = faults.note(self.at("amount", value));
        let error = match self.text("error") {
            "" => Some(None),
            text => faults.note(self.at("error", value::read_error(row, text, self.units).map(Some))),
        };
        let sure = faults.note(self.at("sure", self.sure()));
        let kit = faults.note(self.at("kit", self.words("kit", NAME)));
        match (value, error, sure, kit) {
            (Some(value), Some(error), Some(sure), Some(kit)) => Ok(Reading {
                of: of.clone(),
                value: value.value,
                below: value.below,
                error: error.or(value.error),
                kit: Some(kit).filter(|kit| !kit.is_empty()),
                sure: if value.about && sure == Sure::Plain { Sure::About } else { sure },
            }),
            _ => Err(faults),
        }
    }

    fn sure(&self) -> Result<Sure, Fault> {
        match self.text("sure") {
            "" | "plain" => Ok(Sure::Plain),
            "about" => Ok(Sure::About),
            "not_sure" | "not sure" => Ok(Sure::NotSure),
            other => {
                Err(Fault::new(format!("`{other}` does not say how sure you are"))
                    .expected("nothing, about, or not_sure"))
            }
        }
    }

    fn sight(&self) -> Result<String, Fault> {
        let text = self.text("what");
        let sights = &book().sights;
        let named = || sights.iter().find(|(_, sight)| sight.name.eq_ignore_ascii_case(text));
        match sights.get_key_value(text).or_else(named) {
            Some((key, _)) => Ok(key.clone()),
            None => {
                let keys: Vec<&str> = sights.keys().map(String::as_str).collect();
                let missing = if text.is_empty() {
                    "what was seen is missing".to_owned()
                } else {
                    format!("`{text}` is no sight that I know")
                };
                Err(Fault::new(missing)
                    .expected(format!("one of {}", keys.join(", ")))
                    .hint("what I have no word for goes into a note: kind words"))
            }
        }
    }

    fn animals(&self) -> Result<What, Faults> {
        let mut faults = Faults::new();
        let who =
            match self.text("what") {
                who if WHO.contains(&who) => Ok(who.to_owned()),
                other => Err(Fault::new(format!("`{other}` is nobody that I count"))
                    .expected(format!("one of {}", WHO.join(", ")))),
            };
        let who = faults.note(self.at("what", who));
        let (more, head) = (self.text("amount"), self.text("counted"));
        if more.is_empty() && head.is_empty() {
            let fault = Fault::new("how many is missing")
                .expected("how many more (or fewer: -1), or how many were counted")
                .at(Place::field("amount"));
            faults.push(fault);
        }
        let number = |text: &str| Fault::new(format!("`{text}` is no number of animals"));
        let change = match more {
            "" => Some(0),
            more => faults.note(
                self.at(
                    "amount",
                    more.trim_start_matches('+')
                        .parse::<i32>()
                        .map_err(|_| number(more).expected("a whole number: 3 more, -1 for one fewer")),
                ),
            ),
        };
        let counted = match head {
            "" => Some(None),
            head => faults.note(self.at(
                "counted",
                head.parse::<u32>().map(Some).map_err(|_| number(head).expected("a whole number, 0 or more")),
            )),
        };
        match (who, change, counted) {
            (Some(who), Some(change), Some(counted)) if faults.0.is_empty() => {
                Ok(What::Animals { who, change, counted })
            }
            _ => Err(faults),
        }
    }

    fn bought(&self) -> Result<What, Faults> {
        let mut faults = Faults::new();
        let what = faults.note(self.name("what", "what was bought, in your own words"));
        let read = |text: &str| {
            let grams = || Mass::parse(text).map(|mass| canonical(mass.in_grams()));
            parse_number(text)
                .or_else(|_| grams())
                .or_else(|fault| Volume::parse(text).map(|v| canonical(v.in_millilitres())).map_err(|_| fault))
        };
        let amount = match self.text("amount").is_empty() {
            true => Some(None),
            false => faults.note(self.amount_of("bought", read).map(Some)),
        };
        let price = match self.text("price") {
            "" => Some(None),
            text => faults.note(self.at("price", hundredths(text).map(Some))),
        };
        match (what, amount, price) {
            (Some(what), Some(amount), Some(price_minor)) => Ok(What::Bought { what, amount, price_minor }),
            _ => Err(faults),
        }
    }
}

/// A price, in hundredths of the keeper's currency.
fn hundredths(text: &str) -> Result<f64, Fault> {
    let price = parse_number(text)?;
    if price < 0.0 {
        return Err(Fault::new(format!("`{text}` is no price")).expected("a sum of money, 0 or more"));
    }
    Ok(canonical(100.0 * price))
}

/// An entry as texts that [`read`] takes back exactly, numbers in the units in which the log keeps them.
pub fn write(entry: &Entry) -> BTreeMap<&'static str, String> {
    let mut texts = BTreeMap::new();
    let mut put = |name: &'static str, text: String| {
        if !text.is_empty() {
            texts.insert(name, text);
        }
    };
    put("at", entry.at.to_string());
    put("kind", entry.what.kind().to_owned());
    put("what", entry.what.subject().to_owned());
    put("note", entry.note.clone());
    let unit = |kind: &str| book().amounts.get(kind).map_or_else(String::new, |row| row.is.unit.clone());
    let amount = match &entry.what {
        What::Test(reading) => {
            let row = book().readings.get(&reading.of);
            put("unit", row.map_or_else(String::new, |row| row.is.unit.clone()));
            put(
                "error",
                reading.error.map_or_else(String::new, |error| match row {
                    Some(row) if !row.is.unit.is_empty() => format!("{error} {}", row.is.unit),
                    _ => error.to_string(),
                }),
            );
            put("kit", reading.kit.clone().unwrap_or_default());
            put("sure", sure_word(reading.sure).to_owned());
            Some(format!("{}{}", if reading.below { "<" } else { "" }, reading.value))
        }
        What::Dose { ml, .. } => Some(ml.to_string()),
        What::Change { litres } | What::TopUp { litres } => Some(litres.to_string()),
        What::Food { grams } => Some(grams.to_string()),
        What::Trim { wet_grams } => wet_grams.map(|grams| grams.to_string()),
        What::Animals { change, counted, .. } => {
            put("counted", counted.map_or_else(String::new, |n| n.to_string()));
            Some(change.to_string())
        }
        What::Bought { amount, price_minor, .. } => {
            put("price", price_minor.map_or_else(String::new, |price| canonical(price / 100.0).to_string()));
            amount.map(|amount| amount.to_string())
        }
        What::Sight { .. } | What::Photo { .. } | What::Done { .. } | What::Words => None,
    };
    if let Some(amount) = amount {
        put("amount", amount);
        if matches!(entry.what.kind(), "dose" | "change" | "top_up" | "food" | "trim") {
            put("unit", unit(entry.what.kind()));
        }
    }
    texts
}

fn sure_word(sure: Sure) -> &'static str {
    match sure {
        Sure::Plain => "",
        Sure::About => "about",
        Sure::NotSure => "not_sure",
    }
}
