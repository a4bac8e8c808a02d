//! ods (OpenDocument 1.2): the texts that the cells show.

use std::collections::BTreeSet;

use super::format::{Shown, unmistakable};
use super::xml::{Step, Tag, walk};
use super::{Parts, Sheet, damaged};
use crate::Refusal;

/// Repeated rows and columns with something in them; more than these are formatting.
const MOST_REPEATED: u32 = 200;

/// Where the walk is.
#[derive(Default)]
struct Walk {
    out: Vec<Sheet>,
    row: u32,
    column: u32,
    rows: u32,
    cell: Option<Open>,
    paragraphs: u32,
    /// Depth inside notes, whose text is no cell's.
    notes: u32,
    /// The style that is being read, and those whose sheets are not shown.
    style: String,
    hidden: BTreeSet<String>,
    is_hidden: bool,
    /// The next column that is declared.
    declared: u32,
}

/// The cell that is being read.
#[derive(Default)]
struct Open {
    text: String,
    value: Option<f64>,
    day: Option<String>,
    repeated: u32,
    spans: (u32, u32),
}

/// The sheets.
pub(super) fn sheets(parts: &mut Parts<'_>) -> Result<Vec<Sheet>, Refusal> {
    let text = parts.text("content.xml")?.ok_or_else(|| damaged("it has no content"))?;
    let mut at = Walk::default();
    walk(&text, |step| at.step(step))?;
    Ok(at.out)
}

/// Whether rows or columns are hidden by hand or by a filter.
fn is_hidden(tag: &Tag<'_>) -> bool {
    matches!(tag.get("visibility").as_deref(), Some("collapse" | "filter"))
}

fn number(tag: &Tag<'_>, name: &str) -> u32 {
    tag.get(name).and_then(|n| n.parse().ok()).unwrap_or(1)
}

impl Walk {
    fn step(&mut self, step: Step<'_>) -> Result<(), Refusal> {
        match step {
            Step::Open("table", tag) => {
                self.out.push(Sheet { name: tag.get("name").unwrap_or_default().into_owned(), ..Sheet::default() });
                (self.row, self.column, self.declared) = (0, 0, 0);
                self.is_hidden = tag.get("style-name").is_some_and(|s| self.hidden.contains(&*s));
            }
            Step::Close("table") if self.is_hidden => {
                self.out.pop();
            }
            Step::Open("style", tag) => self.style = tag.get("name").unwrap_or_default().into_owned(),
            Step::Open("table-properties", tag) if tag.get("display").as_deref() == Some("false") => {
                self.hidden.insert(self.style.clone());
            }
            Step::Open("table-column", tag) => {
                let next = self.declared.saturating_add(number(&tag, "number-columns-repeated"));
                if let Some(sheet) = self.out.last_mut().filter(|_| is_hidden(&tag)) {
                    sheet.hidden_columns.push((self.declared, next.saturating_sub(1)));
                }
                self.declared = next;
            }
            Step::Open("table-row", tag) => {
                self.column = 0;
                self.rows = number(&tag, "number-rows-repeated");
                if let Some(sheet) = self.out.last_mut().filter(|_| is_hidden(&tag)) {
                    sheet
                        .hidden_rows
                        .extend((self.row..self.row.saturating_add(self.rows)).take(MOST_REPEATED as usize));
                }
            }
            Step::Close("table-row") => self.row = self.row.saturating_add(self.rows),
            Step::Open("table-cell" | "covered-table-cell", tag) => {
                let numeric = matches!(tag.get("value-type").as_deref(), Some("float" | "percentage" | "currency"));
                self.cell = Some(Open {
                    text: String::new(),
                    day: tag.get("date-value").map(|d| d.chars().take(10).collect()),
                    value: tag.get("value").filter(|_| numeric).and_then(|v| v.parse().ok()),
                    repeated: number(&tag, "number-columns-repeated"),
                    spans: (number(&tag, "number-rows-spanned"), number(&tag, "number-columns-spanned")),
                });
                self.paragraphs = 0;
            }
            Step::Close("table-cell" | "covered-table-cell") => self.close()?,
            Step::Open("annotation", _) => self.notes += 1,
            Step::Close("annotation") => self.notes = self.notes.saturating_sub(1),
            Step::Open("p", _) if self.notes == 0 => {
                self.paragraphs += 1;
                self.add(if self.paragraphs > 1 { " " } else { "" });
            }
            Step::Open("s" | "tab" | "line-break", _) => self.add(" "),
            Step::Text(piece) if self.paragraphs > 0 => self.add(piece),
            _ => {}
        }
        Ok(())
    }

    fn add(&mut self, text: &str) {
        if let Some(cell) = self.cell.as_mut().filter(|_| self.notes == 0) {
            cell.text.push_str(text);
        }
    }

    fn close(&mut self) -> Result<(), Refusal> {
        let Some(cell) = self.cell.take() else { return Ok(()) };
        let shown = shown(&cell);
        let first = (self.row, self.column);
        if let Some(sheet) = self.out.last_mut().filter(|_| !shown.text.is_empty()) {
            for r in 0..self.rows.min(MOST_REPEATED) {
                for c in 0..cell.repeated.min(MOST_REPEATED) {
                    sheet.put((first.0.saturating_add(r), first.1.saturating_add(c)), shown.clone())?;
                }
            }
            if cell.spans != (1, 1) {
                let last = (first.0.saturating_add(cell.spans.0 - 1), first.1.saturating_add(cell.spans.1 - 1));
                sheet.merged.push([first, last]);
            }
        }
        self.column = self.column.saturating_add(cell.repeated);
        Ok(())
    }
}

/// The text that a cell shows. A number whose digits are those of its value is written with a decimal point, so that its
/// language does not matter.
fn shown(cell: &Open) -> Shown {
    let text = cell.text.split_whitespace().collect::<Vec<_>>().join(" ");
    let Some(value) = cell.value else { return Shown { day: cell.day.clone(), ..Shown::words(text) } };
    if text.is_empty() {
        return Shown::number(unmistakable(format!("{}", quantity::canonical(value))));
    }
    let digits = |t: &str| t.chars().filter(char::is_ascii_digit).collect::<String>();
    let plain =
        text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '\'' | '-' | '\u{a0}' | '\u{202f}'));
    let own = digits(&text);
    let decimals = (0..=10_usize).find(|&k| digits(&format!("{value:.k$}")) == own);
    match decimals.filter(|_| plain) {
        Some(k) => Shown::number(unmistakable(format!("{value:.k$}"))),
        None => Shown::words(text),
    }
}
