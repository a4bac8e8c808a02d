//! Tables whose cells are parted by one space, as copied from a viewer: the heading tells how many cells a line has.

use crate::dates::is_date;
use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::name_of;
use crate::unit_find;

use knowledge::ReportColumn;

/// Lines that are looked at for the first heading.
const LOOKED_AT: usize = 400;
/// Most words of one heading.
const LONGEST: usize = 4;
/// Most words of a line of them.
const WIDEST: usize = 24;

/// The grid of a text with such a heading; none where there is none. Each further heading holds for what stands under it.
pub(crate) fn grid(text: &str) -> Option<Grid> {
    text.lines().take(LOOKED_AT).find_map(heading)?;
    let mut roles: Vec<ReportColumn> = Vec::new();
    let mut rows: Vec<Row> = Vec::new();
    for (line, number) in text.lines().zip(1_u32..).take(super::MOST_ROWS) {
        let row = match heading(line) {
            Some(head) => {
                roles = head.iter().map(|(role, _)| *role).collect();
                head.into_iter().map(|(_, text)| Cell::new(text)).collect()
            }
            None => {
                let cut = || cells(line, &roles).or_else(|| in_turn(line, &roles));
                let limits = |row: &Vec<Cell>| names_limits_alone(row, &roles);
                cut().filter(limits).unwrap_or_else(|| vec![Cell::new(uncut(line, &roles))])
            }
        };
        rows.push(Row { line: number, cells: row });
    }
    rows.retain(|r| r.cells.iter().any(|c| !c.text.is_empty()));
    Some(Grid { rows, ..Grid::default() })
}

/// Headings of columns side by side, the first that of the names.
fn heading(line: &str) -> Option<Vec<(ReportColumn, String)>> {
    if line.trim().contains("  ") || line.contains('\t') {
        return None;
    }
    let words: Vec<&str> = line.split_whitespace().take(WIDEST + 1).collect();
    let mut out: Vec<(ReportColumn, String)> = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let longest = LONGEST.min(words.len() - at);
        let (n, role, text) = (1..=longest).rev().find_map(|n| one(words.get(at..at + n)?).map(|(r, t)| (n, r, t)))?;
        if out.is_empty() && role != ReportColumn::Name {
            return None;
        }
        match out.last_mut() {
            // "Result" and "Value" side by side are one.
            Some((last, said)) if *last == ReportColumn::Value && role == *last => *said = format!("{said} {text}"),
            _ => out.push((role, text)),
        }
        at += n;
    }
    (out.len() >= 3 && words.len() <= WIDEST).then_some(out)
}

/// "MAC 10" stands under the limit, or the line is not what its heading tells.
fn names_limits_alone(row: &[Cell], roles: &[ReportColumn]) -> bool {
    let named = |text: &str| text.split_once(' ').is_some_and(|(name, value)| is_limit(name) && is_value(value));
    row.iter().zip(roles).skip(1).all(|(cell, role)| *role == ReportColumn::Limit || !named(&cell.text))
}

/// A line that was not cut. With a value for each column, "82 107 93" is three numbers, none of them thousands.
fn uncut(line: &str, roles: &[ReportColumn]) -> String {
    let line = line.trim();
    let columns = roles.iter().filter(|r| !matches!(r, ReportColumn::Name | ReportColumn::Unit)).count();
    let words: Vec<&str> = line.split_whitespace().collect();
    if columns == 0 || words.iter().filter(|w| is_value(w)).count() != columns {
        return line.to_owned();
    }
    let digits = |w: &str| w.starts_with(|c: char| c.is_ascii_digit()) && is_value(w);
    let next = words.iter().skip(1).map(Some).chain([None]);
    let parted = words.iter().zip(next).map(|(word, next)| {
        let sign = if digits(word) && next.is_some_and(|n| digits(n)) { ";" } else { "" };
        format!("{word}{sign}")
    });
    parted.collect::<Vec<_>>().join(" ")
}

/// Words that head one column; "minimum maximum" and "parameter units" head two.
fn one(words: &[&str]) -> Option<(ReportColumn, String)> {
    let exact = |text: &str| lexicon().column(text).filter(|(_, exact)| *exact).map(|(role, _)| role);
    let text = words.join(" ");
    let role = exact(&text)?;
    let two = match role {
        ReportColumn::Range => words.iter().all(|w| exact(w).is_some()),
        ReportColumn::Name => words.last().is_some_and(|w| exact(w) == Some(ReportColumn::Unit)),
        _ => false,
    };
    (words.len() == 1 || !two).then_some((role, text))
}

/// The cells of a line: name, values, unit, and as many words behind as the heading has columns. A line with fewer cannot
/// be told apart, for nobody sees which cell is empty.
fn cells(line: &str, roles: &[ReportColumn]) -> Option<Vec<Cell>> {
    let words = words(line);
    match roles.iter().position(|r| *r == ReportColumn::Unit)? {
        1 => unit_before(&words, roles),
        unit_at => unit_between(&words, roles, unit_at),
    }
}

/// Name, unit, then values alone; but a limit may be a word.
fn unit_before(words: &[String], roles: &[ReportColumn]) -> Option<Vec<Cell>> {
    let split = words.len().checked_sub(roles.len() - 2).filter(|s| *s > 0)?;
    let (head, values) = words.split_at_checked(split)?;
    let head = head.join(" ");
    let all = unit_find::all(&head);
    let unit = all.iter().rfind(|f| f.unit != crate::Unit::Celsius).or(all.last());
    let behind: String = head.chars().skip(unit.map_or(0, |u| u.start)).collect();
    let word_for_limit = |at: usize| unit.is_some() && roles.get(at + 2) == Some(&ReportColumn::Limit);
    let fits = |(at, word): (usize, &String)| is_value(word) || word_for_limit(at);
    if !values.iter().enumerate().all(fits) || behind.split_whitespace().any(is_value) && unit.is_some() {
        return None;
    }
    let mut out = match unit {
        Some(unit) => vec![Cell::new(head.chars().take(unit.start).collect::<String>().trim()), Cell::new(behind)],
        None if head.ends_with(" -") => vec![Cell::new(head.trim_end_matches(" -")), Cell::default()],
        // A dash among the values may be the unit's.
        None if words.iter().any(|w| w == "-") => return None,
        None => vec![Cell::new(head), Cell::default()],
    };
    out.extend(values.iter().map(Cell::new));
    Some(out)
}

/// Name, values, unit, then values alone.
fn unit_between(words: &[String], roles: &[ReportColumn], unit_at: usize) -> Option<Vec<Cell>> {
    let plain: Vec<bool> = words.iter().map(|w| is_value(w)).collect();
    let (before, behind) = (unit_at - 1, roles.len() - unit_at - 1);
    let celsius = |w: Option<&String>| w.is_some_and(|w| matches!(w.as_str(), "°C" | "ºC" | "°" | "º"));
    // "at 20 °C", "to pH 4.3": numbers of the name.
    let of_name =
        |i: usize| celsius(words.get(i + 1)) || i.checked_sub(1).and_then(|b| words.get(b)).is_some_and(|w| w == "pH");
    let at = |from: usize| {
        let values = plain.get(from..from + before)?.iter().all(|v| *v);
        let name = plain.iter().take(from).enumerate().all(|(i, v)| !v || of_name(i));
        let unit = plain.iter().skip(from + before).take_while(|v| !**v).count();
        let rest = words.len().checked_sub(from + before + unit)?;
        let plain_rest = plain.iter().skip(from + before + unit).all(|v| *v);
        // Only a limit may lack.
        let whole = rest == behind || rest == 0 && behind == 1;
        let text = |from: usize, to: usize| words.get(from..to).map(|w| w.join(" "));
        let told = is_told(&text(0, from)?, &text(from + before, from + before + unit)?);
        (from > 0 && values && name && unit > 0 && plain_rest && whole && told).then_some((from, unit))
    };
    let mut all = (1..words.len()).filter_map(at);
    let (from, unit) = all.next().filter(|_| all.next().is_none())?;
    let cell = |from: usize, to: usize| Cell::new(words.get(from..to).unwrap_or_default().join(" "));
    let end = from + before + unit;
    let mut out = vec![cell(0, from)];
    out.extend((from..from + before).map(|i| cell(i, i + 1)));
    out.push(cell(from + before, end));
    out.extend((end..words.len()).map(|i| cell(i, i + 1)));
    Some(out)
}

/// The cells of a line that has one for each column, told by what each column holds: a date, a number, a unit, a limit.
fn in_turn(line: &str, roles: &[ReportColumn]) -> Option<Vec<Cell>> {
    let words = words(line);
    let text = |from: usize, to: usize| words.get(from..to).map(|w| w.join(" "));
    let starts = |role: ReportColumn, word: &str| match role {
        ReportColumn::Date => is_date(word),
        _ => is_value(word),
    };
    let name = (1..words.len()).find(|&i| words.get(i).is_some_and(|w| roles.get(1).is_some_and(|r| starts(*r, w))))?;
    let (mut out, mut at) = (vec![Cell::new(text(0, name)?)], name);
    for (i, role) in roles.iter().enumerate().skip(1) {
        let left = roles.len() - i - 1;
        let word = words.get(at)?;
        let end = match role {
            // A unit ends where the next number begins.
            ReportColumn::Unit => (at + 1..words.len())
                .find(|&e| words.get(e).is_some_and(|w| is_value(w)))
                .unwrap_or(words.len().saturating_sub(left)),
            ReportColumn::Other | ReportColumn::Failing if left == 0 => words.len(),
            ReportColumn::Other | ReportColumn::Failing | ReportColumn::Symbol => at + 1,
            role => starts(*role, word).then_some(at + 1)?,
        };
        out.push(Cell::new(text(at, end.max(at + 1))?));
        at = end.max(at + 1);
    }
    let unit = roles.iter().position(|r| *r == ReportColumn::Unit).and_then(|i| out.get(i));
    let told = |u: &Cell| !is_value(&u.text) && out.first().is_some_and(|name| is_told(&name.text, &u.text));
    (at == words.len() && unit.is_none_or(told)).then_some(out)
}

/// "Page 1 of 2" has neither a known name nor a unit.
fn is_told(name: &str, unit: &str) -> bool {
    unit_find::find(unit).is_some() || !matches!(name_of(name), Named::Unknown)
}

/// The words of a line; a comparator belongs to its number, and "6.5 to 9.5" is one.
fn words(line: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        let number = |w: &String| w.starts_with(|c: char| c.is_ascii_digit());
        let range = match out.as_slice() {
            [.., low, to] => {
                number(low) && to.chars().any(char::is_alphabetic) && lexicon().is_to(to) && is_value(word)
            }
            _ => false,
        };
        if range && let (Some(to), Some(low)) = (out.pop(), out.last_mut()) {
            *low = format!("{low} {to} {word}");
            continue;
        }
        // "93 MAC 10": the name of a limit belongs to it.
        let limit = matches!(out.as_slice(), [.., value, name] if is_value(value) && is_limit(name)) && is_value(word);
        if limit && let Some(name) = out.last_mut() {
            *name = format!("{name} {word}");
            continue;
        }
        match out.last_mut().filter(|w| matches!(w.as_str(), "<" | ">" | "≤" | "≥")) {
            Some(sign) => sign.push_str(word),
            None => out.push(word.to_owned()),
        }
    }
    out
}

/// "MAC", "AO": capitals that stand for a limit.
fn is_limit(word: &str) -> bool {
    let capitals = word.len() > 1 && word.chars().all(|c| c.is_ascii_uppercase());
    capitals && lexicon().column(word).is_some_and(|(role, exact)| exact && role == ReportColumn::Limit)
}

/// A number, a range, "not seen", or a dash.
fn is_value(word: &str) -> bool {
    let number = |w: &str| {
        let digits = w.trim_start_matches(['<', '>', '≤', '≥', '=']).starts_with(|c: char| c.is_ascii_digit());
        digits && !w.chars().any(char::is_alphabetic)
    };
    // "6,5 a 9,5" was put together.
    let range = matches!(word.split(' ').collect::<Vec<_>>()[..], [low, _, high] if number(low) && number(high));
    let limit = word.split_once(' ').is_some_and(|(name, value)| is_limit(name) && number(value));
    number(word) || range || limit || lexicon().is_not_detected(word) || matches!(word, "-" | "–" | "—")
}
