//! One field of the file rewritten; every other byte of meaning stays, comments too.

use std::ops::Range;

use quantity::{Fault, Faults};
use toml_edit::{DocumentMut, InlineTable, Item, Table, TableLike, Value as Edited};

use crate::document::{Document, Entry, Value};
use crate::field::{HOW, PARTS, field_of, whole};
use crate::names::nearest;
use crate::takes::Takes;

/// The text with one field rewritten.
///
/// # Errors
/// There is no such field.
pub(crate) fn with(document: &Document<'_>, path: &str, text: &str) -> Result<String, Fault> {
    let Some(field) = field_of(path) else {
        let fault = Fault::new(format!("there is no field `{path}`")).at(quantity::Place::field(path));
        return Err(match nearest(path) {
            Some(near) => fault.hint(format!("did you mean `{near}`?")),
            None => fault.hint("docs/setup-file.md lists all fields"),
        });
    };
    let text = text.trim();
    let how = format!("{}.{HOW}", whole(path));
    if path != how && !text.is_empty() && document.entries.contains_key(&how) {
        // Whoever writes a number has it from somewhere: it is no longer the one that was worked out.
        let Ok(mut edited) = document.text.parse::<DocumentMut>() else { return Ok(document.text.to_owned()) };
        take_out(edited.as_table_mut(), &how.split('.').collect::<Vec<_>>());
        let measured = edited.to_string();
        return with(&Document::read(document.file, &measured, &mut Faults::new()), path, text);
    }
    let path = target(document, path, text);
    if let Some(entry) = document.entries.get(&path) {
        return Ok(if text.is_empty() {
            without(document, &path, &entry.key, &entry.span)
        } else {
            replaced(document, entry, field.takes, text)
        });
    }
    if let Some((key, span)) = document.ranges.get(&path) {
        return Ok(match text {
            "" => without(document, &path, key, span),
            _ if is_inline(document, span) => {
                spliced(document.text, span.clone(), &literal(field.takes, text, &Value::Text(String::new())))
            }
            _ => return inserted(document, &path, field.takes, text),
        });
    }
    if text.is_empty() {
        return Ok(document.text.to_owned());
    }
    if let Some((whole, end)) = path.rsplit_once('.').filter(|(_, end)| PARTS.contains(end))
        && let Some(entry) = document.entries.get(whole)
    {
        // A plain value becomes the mean of a range.
        let old = document.text.get(entry.span.clone()).unwrap_or_default();
        let range = format!("{{ mean = {old}, {end} = {} }}", literal(field.takes, text, &entry.value));
        return Ok(spliced(document.text, entry.span.clone(), &range));
    }
    inserted(document, &path, field.takes, text)
}

/// Where the edit goes: the mean of a value that has a range, unless a whole range is written or the value is taken out.
fn target(document: &Document<'_>, path: &str, text: &str) -> String {
    let mean = format!("{path}.mean");
    let a_range = text.contains(" to ") || text.is_empty();
    if document.entries.contains_key(&mean) && !a_range { mean } else { path.to_owned() }
}

fn spliced(text: &str, span: Range<usize>, new: &str) -> String {
    let (head, tail) = (text.get(..span.start).unwrap_or_default(), text.get(span.end..).unwrap_or_default());
    format!("{head}{new}{tail}")
}

fn replaced(document: &Document<'_>, entry: &Entry, takes: Takes, text: &str) -> String {
    spliced(document.text, entry.span.clone(), &literal(takes, text, &entry.value))
}

/// The value as TOML: bare where it is a bare number or yes or no, a list where one belongs, else in quotes.
fn literal(takes: Takes, text: &str, before: &Value) -> String {
    let bare_number = text.parse::<f64>().is_ok_and(f64::is_finite)
        && text.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b'-');
    let well_formed = bare_number && text.parse::<toml::Value>().is_ok();
    match takes {
        Takes::SomeOf(_) => {
            let names = text.split(',').map(str::trim).filter(|name| !name.is_empty());
            let list: Vec<String> = names.map(|name| Edited::from(name).to_string()).collect();
            format!("[{}]", list.join(", "))
        }
        Takes::YesNo if matches!(text, "true" | "false") => text.to_owned(),
        Takes::Count | Takes::Bare | Takes::Money if well_formed && !matches!(before, Value::Text(_)) => {
            text.to_owned()
        }
        _ => Edited::from(text).to_string(),
    }
}

/// The text without one entry. Comments on lines of their own stay.
fn without(document: &Document<'_>, path: &str, key: &Range<usize>, span: &Range<usize>) -> String {
    let text = document.text;
    let line = text[..key.start].rfind('\n').map_or(0, |at| at + 1);
    let alone = text[line..key.start].trim().is_empty();
    let end = text[span.end..].find('\n').map_or(text.len(), |at| span.end + at + 1);
    let rest = text[span.end..end].trim_start();
    let whole = document.entries.contains_key(path) || is_inline(document, span);
    if whole && alone && (rest.is_empty() || rest.starts_with('#')) {
        return spliced(text, line..end, "");
    }
    // Inside `{ ... }` or behind a dotted name the commas and names are TOML's own business.
    let Ok(mut edited) = text.parse::<DocumentMut>() else { return text.to_owned() };
    let parts: Vec<&str> = path.split('.').collect();
    take_out(edited.as_table_mut(), &parts);
    edited.to_string()
}

/// Whether the range is written in braces, and not as `nitrate.min = ...` or under a heading.
fn is_inline(document: &Document<'_>, span: &Range<usize>) -> bool {
    document.text.get(span.clone()).is_some_and(|text| text.starts_with('{') && text.ends_with('}'))
}

fn take_out(table: &mut dyn TableLike, parts: &[&str]) {
    match parts {
        [] => {}
        [name] => {
            table.remove(name);
        }
        ["own", number, rest @ ..] => {
            let at = number.parse::<usize>().unwrap_or(0).wrapping_sub(1);
            if let Some(own) = table.get_mut("own").and_then(|item| own_table(item, at)) {
                take_out(own, rest);
            }
        }
        [name, rest @ ..] => {
            if let Some(inner) = table.get_mut(name).and_then(Item::as_table_like_mut) {
                take_out(inner, rest);
            }
        }
    }
}

/// One of the `[[own]]` tables, or of a list of inline ones.
fn own_table(item: &mut Item, at: usize) -> Option<&mut dyn TableLike> {
    if item.is_array_of_tables() {
        let table = item.as_array_of_tables_mut()?.get_mut(at)?;
        return Some(table as &mut dyn TableLike);
    }
    let table = item.as_array_mut()?.get_mut(at)?.as_inline_table_mut()?;
    Some(table as &mut dyn TableLike)
}

/// The text with a new entry, in its section if that is there already.
fn inserted(document: &Document<'_>, path: &str, takes: Takes, text: &str) -> Result<String, Fault> {
    let no_place = || {
        Fault::new(format!("there is no place for `{path}` in this file"))
            .at(quantity::Place::field(path))
            .hint("your own liquids are numbered from 1, in the order of the file")
    };
    let mut edited = document.text.parse::<DocumentMut>().map_err(|_| no_place())?;
    let value: Edited = literal(takes, text, &Value::Number(String::new())).parse().map_err(|_| no_place())?;
    let parts: Vec<&str> = path.split('.').collect();
    let added = put_in(edited.as_table_mut(), &parts, value);
    if added { Ok(edited.to_string()) } else { Err(no_place()) }
}

fn put_in(table: &mut dyn TableLike, parts: &[&str], value: Edited) -> bool {
    match parts {
        [] => false,
        [name] => {
            table.insert(name, Item::Value(value));
            true
        }
        ["own", number, rest @ ..] => {
            let Some(at) = number.parse::<usize>().ok().and_then(|n| n.checked_sub(1)) else { return false };
            let own = table.entry("own").or_insert_with(|| Item::ArrayOfTables(toml_edit::ArrayOfTables::new()));
            if let Some(tables) = own.as_array_of_tables_mut().filter(|tables| tables.len() == at) {
                tables.push(Table::new());
            }
            own_table(own, at).is_some_and(|own| put_in(own, rest, value))
        }
        [name, rest @ ..] => {
            // A range is written on one line; a section has a heading.
            let inline = rest.len() == 1 && PARTS.contains(&rest[0]);
            let new = || {
                if inline { Item::Value(Edited::InlineTable(InlineTable::new())) } else { Item::Table(Table::new()) }
            };
            let inner = table.entry(name).or_insert_with(new);
            inner.as_table_like_mut().is_some_and(|inner| put_in(inner, rest, value))
        }
    }
}
