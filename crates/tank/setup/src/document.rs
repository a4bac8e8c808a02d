//! The file as a flat list of fields, each with what stands there and where; nothing is understood yet.
//!
//! All that can be wrong with a file before its values are read is found here: broken TOML, unknown names, a table
//! where a value belongs. Everything is noted, so that one run shows all faults.

use std::collections::BTreeMap;
use std::ops::Range;

use quantity::{Fault, Faults, Place};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::field::{PARTS, field_of, is_section};
use crate::names::nearest;

/// What stands behind a name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Value {
    /// Text in quotes.
    Text(String),
    /// A bare number, as written.
    Number(String),
    /// `true` or `false`.
    YesNo(bool),
    /// A list of texts.
    List(Vec<(String, Range<usize>)>),
}

impl Value {
    /// As the keeper wrote it, without quotes.
    pub(crate) fn written(&self) -> String {
        match self {
            Value::Text(text) | Value::Number(text) => text.clone(),
            Value::YesNo(yes) => yes.to_string(),
            Value::List(names) => names.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(", "),
        }
    }
}

/// One field of the file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Entry {
    pub(crate) value: Value,
    /// Bytes of the value in the text.
    pub(crate) span: Range<usize>,
    /// Bytes of the name in the text.
    pub(crate) key: Range<usize>,
}

/// The file, flat: path to entry.
#[derive(Clone, Debug)]
pub(crate) struct Document<'t> {
    pub(crate) file: &'t str,
    pub(crate) text: &'t str,
    pub(crate) entries: BTreeMap<String, Entry>,
    /// Where a value with its range stands as a whole: bytes of its name and of `{ ... }`.
    pub(crate) ranges: BTreeMap<String, (Range<usize>, Range<usize>)>,
    /// How many `[[own]]` there are.
    pub(crate) own: usize,
}

/// A setup is a page of text; more than this is another file by mistake.
const MAX_BYTES: usize = 256 * 1024;

/// How many misspelt names get a suggestion.
const MOST_GUESSES: usize = 20;

impl<'t> Document<'t> {
    /// Read the text into fields; what is wrong goes into `faults`, what can be read is still there.
    pub(crate) fn read(file: &'t str, text: &'t str, faults: &mut Faults) -> Document<'t> {
        let mut document = Document { file, text, entries: BTreeMap::new(), ranges: BTreeMap::new(), own: 0 };
        if text.len() > MAX_BYTES {
            let fault = Fault::new(format!("this file holds {} bytes, too many for a setup", text.len()))
                .at(Place { file: Some(file.to_owned()), ..Place::default() })
                .expected(format!("at most {MAX_BYTES} bytes"))
                .hint("is it another file?");
            faults.push(fault);
            return document;
        }
        let (table, errors) = DeTable::parse_recoverable(text);
        if errors.is_empty() {
            document.section("", table.get_ref(), faults);
            return document;
        }
        for error in errors {
            let place = Place::in_text(file, text, error.span().unwrap_or(0..0));
            let fault = Fault::new(format!("this is no TOML: {}", error.message()))
                .at(place)
                .hint("a line reads `name = value`; text stands in quotes, each quote has its partner");
            faults.push(fault);
        }
        document
    }

    /// The place of a field: its value if it stands in the file, else only its name.
    pub(crate) fn place(&self, path: &str) -> Place {
        match self.entries.get(path) {
            Some(entry) => Place::in_text(self.file, self.text, entry.span.clone()).named(path),
            None => Place { file: Some(self.file.to_owned()), ..Place::field(path) },
        }
    }

    fn section(&mut self, section: &str, table: &DeTable<'_>, faults: &mut Faults) {
        for (key, value) in table {
            let path =
                if section.is_empty() { key.get_ref().to_string() } else { format!("{section}.{}", key.get_ref()) };
            self.entry(path, key.span(), value, faults);
        }
    }

    fn entry(&mut self, path: String, key: Range<usize>, value: &Spanned<DeValue<'_>>, faults: &mut Faults) {
        let place = || Place::in_text(self.file, self.text, value.span()).named(&path);
        let fault = match (value.get_ref(), field_of(&path)) {
            (DeValue::Array(list), None) if path == "own" => return self.own_list(key, list, faults),
            (DeValue::Table(table), None) if is_section(&path) && path != "own" => {
                return self.section(&path, table, faults);
            }
            (DeValue::Table(table), Some(field)) if field.takes.ranged() && field_is_whole(&path) => {
                self.ends(&path, table, faults);
                self.ranges.insert(path, (key, value.span()));
                return;
            }
            (value_there, Some(field)) => match plain(value_there) {
                Some(plain) => {
                    self.entries.insert(path, Entry { value: plain, span: value.span(), key });
                    return;
                }
                None => Fault::new(format!("{} can't be {}", field.label, kind_of(value_there)))
                    .expected(field.takes.expected())
                    .hint(format!("for instance {} = \"{}\"", last(&path), field.example)),
            },
            (_, None) if path == "own" => Fault::new("`own` is a list of your own liquids and powders")
                .expected("[[own]] in double brackets, once for each"),
            (_, None) if is_section(&path) => Fault::new(format!("`{path}` is a heading, not a value"))
                .expected(format!("[{path}] on a line of its own, its values below")),
            (_, None) => return faults.push(self.unknown(&path, key, faults.0.len())),
        };
        faults.push(fault.at(place()));
    }

    /// `{ min = ..., mean = ..., max = ..., how = ... }`
    fn ends(&mut self, path: &str, table: &DeTable<'_>, faults: &mut Faults) {
        for (key, value) in table {
            let end = key.get_ref().as_ref();
            let path = format!("{path}.{end}");
            if PARTS.contains(&end) {
                self.entry(path, key.span(), value, faults);
            } else {
                let place = Place::in_text(self.file, self.text, key.span()).named(path);
                faults.push(
                    Fault::new(format!("`{end}` is no part of a range")).at(place).expected("min, mean, max or how"),
                );
            }
        }
    }

    fn own_list(&mut self, key: Range<usize>, list: &[Spanned<DeValue<'_>>], faults: &mut Faults) {
        for value in list {
            self.own += 1;
            let path = format!("own.{}", self.own);
            match value.get_ref() {
                DeValue::Table(table) => self.section(&path, table, faults),
                _ => {
                    let place = Place::in_text(self.file, self.text, key.clone()).named(path);
                    let fault = Fault::new("`own` is a list of your own liquids and powders").at(place);
                    faults.push(fault.expected("[[own]] in double brackets, once for each"));
                }
            }
        }
    }

    fn unknown(&self, path: &str, key: Range<usize>, faults_before: usize) -> Fault {
        let fault =
            Fault::new(format!("there is no field `{path}`")).at(Place::in_text(self.file, self.text, key).named(path));
        // A file with many unknown names is no misspelt setup, and looking for neighbours takes its time.
        let near = if faults_before < MOST_GUESSES { nearest(path) } else { None };
        match near {
            Some(near) => fault.hint(format!("did you mean `{near}`?")),
            None => fault.hint("docs/setup-file.md lists all fields"),
        }
    }
}

/// Whether the path is a field itself and not a part of its range.
fn field_is_whole(path: &str) -> bool {
    !PARTS.contains(&last(path))
}

/// The last name of a path.
pub(crate) fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

/// A value without a table in it; `None` for a table, a date, a list of anything but texts.
fn plain(value: &DeValue<'_>) -> Option<Value> {
    Some(match value {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(number) if number.radix() == 10 => Value::Number(number.as_str().to_owned()),
        DeValue::Float(number) => Value::Number(number.as_str().to_owned()),
        DeValue::Boolean(yes) => Value::YesNo(*yes),
        DeValue::Array(list) => {
            let name = |item: &Spanned<DeValue<'_>>| Some((item.get_ref().as_str()?.to_owned(), item.span()));
            Value::List(list.iter().map(name).collect::<Option<Vec<_>>>()?)
        }
        _ => return None,
    })
}

fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::Table(_) => "a table",
        DeValue::Array(_) => "a list like this",
        DeValue::Datetime(_) => "a date",
        _ => "a number like this",
    }
}
