//! xlsx (ECMA-376): shared strings, formats, sheets in the order of the workbook.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::format::{self, Shown};
use super::xml::{Step, Tag, walk};
use super::{Parts, Sheet, damaged};
use crate::Refusal;
use crate::recent::kept;

/// What cells refer to.
#[derive(Default)]
struct Shared {
    strings: Vec<Rc<str>>,
    /// Format of each style.
    formats: Vec<String>,
}

/// The sheets that are shown.
pub(super) fn sheets(parts: &mut Parts<'_>) -> Result<Vec<Sheet>, Refusal> {
    let workbook = parts.text("xl/workbook.xml")?.ok_or_else(|| damaged("it has no workbook"))?;
    let relations = parts.text("xl/_rels/workbook.xml.rels")?.unwrap_or_default();
    let mut targets: BTreeMap<String, String> = BTreeMap::new();
    walk(&relations, |step| {
        if let Step::Open("Relationship", tag) = step
            && let (Some(id), Some(target)) = (tag.get("Id"), tag.get("Target"))
        {
            targets.insert(id.into_owned(), target.into_owned());
        }
        Ok(())
    })?;
    let mut names: Vec<(String, String)> = Vec::new();
    walk(&workbook, |step| {
        if let Step::Open("sheet", tag) = step
            && tag.get("state").is_none_or(|s| s == "visible")
            && let (Some(name), Some(id)) = (tag.get("name"), tag.get("id"))
        {
            names.push((name.into_owned(), id.into_owned()));
        }
        Ok(())
    })?;
    let shared = Shared {
        strings: strings(&parts.text("xl/sharedStrings.xml")?.unwrap_or_default())?
            .iter()
            .map(|t| squeezed(t))
            .collect(),
        formats: formats(&parts.text("xl/styles.xml")?.unwrap_or_default())?,
    };
    let mut out = Vec::new();
    for (name, id) in names.into_iter().take(200) {
        let Some(target) = targets.get(&id) else { continue };
        let path = target.strip_prefix('/').map_or_else(|| format!("xl/{target}"), str::to_owned);
        if let Some(text) = parts.text(&path)? {
            out.push(sheet(name, &text, &shared)?);
        }
    }
    Ok(out)
}

/// The shared strings; raised runs are footnote marks and are dropped.
fn strings(text: &str) -> Result<Vec<String>, Refusal> {
    let mut out: Vec<String> = Vec::new();
    let (mut in_text, mut raised, mut phonetic) = (false, false, false);
    walk(text, |step| {
        match step {
            Step::Open("si", _) => out.push(String::new()),
            Step::Open("r", _) => raised = false,
            Step::Open("vertAlign", tag) => raised = tag.get("val").as_deref() == Some("superscript"),
            Step::Open("rPh", _) => phonetic = true,
            Step::Close("rPh") => phonetic = false,
            Step::Close("r") => raised = false,
            Step::Open("t", _) => in_text = true,
            Step::Close("t") => in_text = false,
            Step::Text(piece) if in_text && !raised && !phonetic => {
                if let Some(last) = out.last_mut() {
                    last.push_str(piece);
                }
            }
            _ => {}
        }
        Ok(())
    })?;
    Ok(out)
}

/// The format of each style, in its order.
fn formats(text: &str) -> Result<Vec<String>, Refusal> {
    let mut own: BTreeMap<u32, String> = BTreeMap::new();
    let mut out = Vec::new();
    let mut in_styles = false;
    walk(text, |step| {
        match step {
            Step::Open("numFmt", tag) => {
                if let (Some(id), Some(code)) =
                    (tag.get("numFmtId").and_then(|i| i.parse().ok()), tag.get("formatCode"))
                {
                    own.insert(id, code.into_owned());
                }
            }
            Step::Open("cellXfs", _) => in_styles = true,
            Step::Close("cellXfs") => in_styles = false,
            Step::Open("xf", tag) if in_styles => {
                let id = tag.get("numFmtId").and_then(|i| i.parse().ok()).unwrap_or(0);
                out.push(own.get(&id).cloned().unwrap_or_else(|| format::built_in(id).to_owned()));
            }
            _ => {}
        }
        Ok(())
    })?;
    Ok(out)
}

/// What the value of a cell is.
#[derive(Clone, Copy, Default)]
enum Kind {
    #[default]
    Number,
    Shared,
    Text,
    Day,
    Nothing,
}

impl Kind {
    fn of(word: Option<&str>) -> Kind {
        match word {
            Some("s") => Kind::Shared,
            Some("str" | "inlineStr") => Kind::Text,
            Some("b" | "e") => Kind::Nothing,
            Some("d") => Kind::Day,
            _ => Kind::Number,
        }
    }
}

/// The cell that is being read.
#[derive(Default)]
struct Open {
    at: (u32, u32),
    kind: Kind,
    style: usize,
    value: String,
    raised: bool,
    takes: bool,
}

fn sheet(name: String, text: &str, shared: &Shared) -> Result<Sheet, Refusal> {
    let mut out = Sheet { name, ..Sheet::default() };
    let (mut row, mut column) = (0_u32, 0_u32);
    let mut cell = Open::default();
    walk(text, |step| {
        match step {
            Step::Open("row", tag) => {
                row = tag.get("r").and_then(|r| r.parse::<u32>().ok()).map_or(row + 1, |r| r.max(1));
                column = 0;
                if is_true(&tag, "hidden") {
                    out.hidden_rows.insert(row - 1);
                }
            }
            Step::Open("col", tag) if is_true(&tag, "hidden") => {
                let end = |name: &str| tag.get(name).and_then(|n| n.parse::<u32>().ok()).and_then(|n| n.checked_sub(1));
                out.hidden_columns.extend(end("min").zip(end("max")));
            }
            Step::Open("c", tag) => {
                let at = tag.get("r").and_then(|r| place(&r)).unwrap_or((row.saturating_sub(1), column));
                column = at.1 + 1;
                let style = tag.get("s").and_then(|s| s.parse().ok()).unwrap_or(0);
                cell.value.clear();
                let value = std::mem::take(&mut cell.value);
                cell = Open { at, kind: Kind::of(tag.get("t").as_deref()), style, value, ..Open::default() };
            }
            Step::Open("v" | "t", _) => cell.takes = true,
            Step::Close("v" | "t") => cell.takes = false,
            Step::Open("vertAlign", tag) => cell.raised = tag.get("val").as_deref() == Some("superscript"),
            Step::Close("r") => cell.raised = false,
            Step::Text(piece) if cell.takes && !cell.raised => cell.value.push_str(piece),
            Step::Close("c") => {
                out.put(cell.at, shown(&cell, shared))?;
            }
            Step::Open("mergeCell", tag) => {
                if let Some(area) = tag.get("ref").and_then(|r| area(&r)) {
                    out.merged.push(area);
                }
            }
            _ => {}
        }
        Ok(())
    })?;
    Ok(out)
}

fn is_true(tag: &Tag<'_>, name: &str) -> bool {
    tag.get(name).is_some_and(|v| v == "1" || v == "true")
}

fn squeezed(text: &str) -> Rc<str> {
    kept(&text.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn shown(cell: &Open, shared: &Shared) -> Shown {
    match cell.kind {
        Kind::Shared => {
            let at = cell.value.trim().parse::<usize>().ok();
            let text = at.and_then(|i| shared.strings.get(i)).cloned();
            text.map_or_else(Shown::default, |text| Shown { text, ..Shown::default() })
        }
        Kind::Text => Shown::words(squeezed(&cell.value)),
        Kind::Nothing => Shown::default(),
        Kind::Day => {
            let day: String = cell.value.chars().take(10).collect();
            Shown { day: Some(day.clone()), ..Shown::words(day) }
        }
        Kind::Number => match cell.value.trim().parse::<f64>() {
            Ok(value) if value.is_finite() => {
                format::shown(value, shared.formats.get(cell.style).map_or("", String::as_str))
            }
            _ => Shown::default(),
        },
    }
}

/// `C14` as row and column from 0.
fn place(text: &str) -> Option<(u32, u32)> {
    let (letters, row) = text.split_at(text.bytes().take_while(u8::is_ascii_alphabetic).count());
    let row: u32 = row.parse().ok()?;
    if letters.is_empty() || letters.len() > 3 {
        return None;
    }
    let column = letters.bytes().fold(0_u32, |n, b| n * 26 + u32::from(b.to_ascii_uppercase() - b'A') + 1);
    Some((row.checked_sub(1)?, column - 1))
}

/// `D3:F3`.
fn area(text: &str) -> Option<[(u32, u32); 2]> {
    let (first, last) = text.split_once(':')?;
    Some([place(first)?, place(last)?])
}
