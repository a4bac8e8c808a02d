//! One row of a table, or one line of notes, to readings.

use std::rc::Rc;

use knowledge::{ReportColumn, book};
use quantity::Comparator;

use crate::cell::{Content, read as read_cell};
use crate::columns::Column;
use crate::count::decide;
use crate::footnotes::{self, Footnotes};
use crate::found::{Found, Raw};
use crate::grid::{Grid, Row};
use crate::least::Least;
use crate::named::{Name, Named};
use crate::parted::{result_and_limit, told};
use crate::reading::{Limit, Reading, Statistic};
use crate::recent::kept;
use crate::table::{Habits, name_of, own_name};
use crate::told::{HARDNESS, Held, in_name, in_ntu, is_limit, named_by, of_highest, of_row, of_statistic};
use crate::unit_find::{self, Found as FoundUnit};
use crate::unit_of::{fits, is_of_scale, of_row_or_name, printed_unit, unit_doubt, unit_for};
use crate::values::{Value, values};
use crate::{Place, Unit, UnknownRow, ask, least, lexicon, notes};

/// What a row says beside its values.
#[derive(Clone)]
pub(crate) struct Told<'a> {
    pub name: &'a Name,
    pub as_written: String,
    pub unit: Option<FoundUnit>,
    /// The unit of its name, where it has one of its own, too.
    pub also: Option<FoundUnit>,
    /// The unit of its limit, where it has none of its own.
    pub of_limit: Option<FoundUnit>,
    pub unit_text: String,
    pub limit: Option<Limit>,
    lod: Option<f64>,
    samples: Option<u32>,
    failing: Option<u32>,
    group: Rc<str>,
    date: Rc<str>,
    /// The unit of all values that have none of their own.
    all_in: Option<Unit>,
}

impl Told<'_> {
    /// Of a name alone.
    fn of(name: &Name) -> Told<'_> {
        let (group, date) = (kept(""), kept(""));
        let (as_written, unit_text) = (String::new(), String::new());
        let (unit, also, of_limit) = (None, None, None);
        let (limit, lod, samples, failing, all_in) = (None, None, None, None, None);
        Told { name, as_written, unit, also, of_limit, unit_text, limit, lod, samples, failing, group, date, all_in }
    }
}

/// Read one row under these columns.
pub(crate) fn read(grid: &Grid, row: &Row, columns: &[Column], from: usize, habits: Habits, found: &mut Found) {
    let text = own_name(row.text(from));
    let with = |role: ReportColumn| cell_of(row, columns, from, role);
    let units = units(row, columns, from);
    let unit_cell = units.as_str();
    let symbol = with(ReportColumn::Symbol).filter(|s| s.chars().any(char::is_alphabetic)).unwrap_or("");
    let held = held(row, columns, from, unit_cell, habits);
    let any = held.iter().any(|(.., v)| !v.is_empty());
    let role = told(row, columns, from);
    if any && role.is_some_and(|role| Column { role: Some(role), ..Column::default() }.statistic().is_none()) {
        return found.unknown.push(unknown(grid, row));
    }
    let held = of_row(of_highest(held, text), role);
    let in_ntu = held.iter().flat_map(|h| &h.2).any(in_ntu);
    let name = match named_by(text, any, in_ntu) {
        Named::Apart if !any && behind_value_apart(text) => return notes::read(grid, row, from, habits, found),
        Named::Apart => return,
        // "Sodium (max. allowed)" has no result, "Nitrate (maximum 40 mg/l)" has one.
        Named::Determinand(name) if any && is_limit(&name) => match first_number(text, habits) {
            Some(_) => Name { strange: Rc::new([]), ..name },
            None => return found.unknown.push(unknown(grid, row)),
        },
        Named::Determinand(name) => of_statistic(name, &found.ranged),
        Named::Unknown => {
            if any && !text.is_empty() {
                return found.unknown.push(unknown(grid, row));
            }
            return notes::read(grid, row, from, habits, found);
        }
    };
    if !any {
        return notes::read(grid, row, from, habits, found);
    }
    let number = |role| with(role).and_then(|t| first_number(t, habits));
    let whole = |role| number(role).filter(|n: &f64| n.fract() == 0.0 && (0.0..1e6).contains(n)).map(|n| n as u32);
    let beside = columns.iter().enumerate().find_map(|(i, c)| result_and_limit(c, row.text(from + i)).1);
    let limit_text = with(ReportColumn::Limit).filter(|t| !t.is_empty()).or(beside);
    let told = Told {
        as_written: text.to_owned(),
        unit: of_row_or_name(name.key, unit_cell, text, columns),
        also: unit_for(name.key, text).filter(|_| unit_for(name.key, unit_cell).is_some()),
        of_limit: limit_text.and_then(|t| unit_for(name.key, t)).filter(|_| unit_cell.is_empty()),
        unit_text: format!("{unit_cell} {symbol}"),
        limit: limit_text.map(|t| limit(t, habits)),
        lod: lod(row, columns, from, habits, found.least),
        samples: whole(ReportColumn::Count),
        failing: whole(ReportColumn::Failing),
        group: kept(with(ReportColumn::Place).unwrap_or("")),
        date: kept(with(ReportColumn::Date).unwrap_or("")),
        all_in: habits.all_in,
        name: &name,
    };
    for (at, column, mut values) in held {
        values.retain(|value| !value.unit.as_ref().is_some_and(|u| is_of_scale(name.key, u.unit)));
        push(grid, row, (at, column, values), &told, found);
    }
}

/// The cell with this role: where two columns have the same one, that which is filled speaks.
fn cell_of<'a>(row: &'a Row, columns: &[Column], from: usize, role: ReportColumn) -> Option<&'a str> {
    let mut all = columns.iter().enumerate().filter(|(_, c)| c.role == Some(role)).map(|(i, _)| row.text(from + i));
    let first = all.next()?;
    let none = lexicon::lexicon().is_no_value(first) || first.is_empty();
    Some(if none { all.find(|t| !t.is_empty()).unwrap_or(first) } else { first })
}

/// The values of the columns that hold results.
fn held<'a>(row: &Row, columns: &'a [Column], from: usize, unit_cell: &str, habits: Habits) -> Vec<Held<'a>> {
    let results = columns.iter().enumerate().filter(|(_, c)| c.statistic().is_some());
    let text = |i: usize| in_two_units(signed(row, columns, from, i), unit_cell);
    results.map(|(i, c)| (from + i, c, values(&text(i), habits))).collect()
}

/// What the method can see: by the column of it that the result ("<MDL") or the report names, where there are several.
fn lod(row: &Row, columns: &[Column], from: usize, habits: Habits, told: Option<Least>) -> Option<f64> {
    let all = || columns.iter().enumerate();
    let results = all().filter(|(_, c)| c.statistic().is_some());
    let under = results.map(|(i, _)| row.text(from + i)).find_map(Least::of);
    let seen = all().filter(|(_, c)| c.role == Some(ReportColumn::Lod));
    let seen = seen.filter_map(|(i, c)| Some((c.heading.as_str(), first_number(row.text(from + i), habits)?)));
    least::counts(seen, under.or(told))
}

/// The cells of the columns of units: "expressed as" beside "unit" both say how it is counted.
fn units(row: &Row, columns: &[Column], from: usize) -> String {
    let all = columns.iter().enumerate().filter(|(_, c)| c.role == Some(ReportColumn::Unit));
    let texts = all.map(|(i, _)| row.text(from + i)).filter(|t| !t.is_empty() && !lexicon::lexicon().is_no_value(t));
    texts.collect::<Vec<_>>().join(" ")
}

/// "Total hardness: 16.3 °dH (hardness class hard)": only what stands behind the value is no determinand.
fn behind_value_apart(text: &str) -> bool {
    let value = text.find(|c: char| c.is_ascii_digit()).and_then(|at| text.get(..at));
    value.is_some_and(|before| matches!(name_of(before), Named::Determinand(_)))
}

/// The text of a cell, with the sign that stands in a column of its own: the one before it, else the only one.
fn signed(row: &Row, columns: &[Column], from: usize, at: usize) -> String {
    let signs = || columns.iter().enumerate().filter(|(_, c)| c.role == Some(ReportColumn::Comparator));
    let before = signs().map(|(i, _)| i).find(|i| i + 1 == at);
    let only = || signs().map(|(i, _)| i).next().filter(|_| signs().count() == 1);
    let sign = before.or_else(only).map_or("", |i| row.text(from + i));
    let is_sign = !sign.is_empty() && sign.chars().all(|c| matches!(c, '<' | '>' | '=' | '~' | '≤' | '≥'));
    let text = columns.get(at).map_or("", |c| result_and_limit(c, row.text(from + at)).0);
    if is_sign && text.starts_with(|c: char| c.is_ascii_digit()) { format!("{sign}{text}") } else { text.to_owned() }
}

/// "8.1 (1.45)" under "°dH (mmol/l)": each number with its own unit.
fn in_two_units(text: String, unit_cell: &str) -> String {
    let parts = |t: &str| -> Option<[String; 2]> {
        let (first, second) = t.split_once('(').or_else(|| t.split_once(" / "))?;
        Some([first.trim().to_owned(), second.trim().trim_end_matches(')').trim().to_owned()])
    };
    let number =
        |t: &String| t.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '<' | ' ')) && !t.is_empty();
    let is_unit = |t: &String| unit_find::find(t).is_some() && !unit_find::without(t).contains(char::is_alphanumeric);
    match (parts(&text), parts(unit_cell)) {
        (Some([a, b]), Some([u, v])) if [&a, &b].into_iter().all(number) && [&u, &v].into_iter().all(is_unit) => {
            format!("{a} {u} ({b} {v})")
        }
        _ => text,
    }
}

/// The values of one cell, as readings.
fn push(grid: &Grid, row: &Row, (at, column, values): (usize, &Column, Vec<Value>), told: &Told, found: &mut Found) {
    let place = grid.place(row, Some(at));
    let alone = column.statistic() == Some(Statistic::Single);
    let notes = found.footnotes.clone();
    let ranged = values.iter().any(|v| v.statistic.is_some());
    for value in values {
        // "Not seen" is no range.
        if column.role == Some(ReportColumn::Range) && value.value.is_none() && value.statistic.is_none() {
            continue;
        }
        let mut raw = reading(told, column, &value, &place, &notes);
        if ranged && !alone && column.role != Some(ReportColumn::Range) && value.statistic.is_some() {
            raw.reading.statistic = value.statistic.unwrap_or(raw.reading.statistic);
            // A range under "average" is a range; under "maximum" nobody knows.
            if column.role != Some(ReportColumn::Mean) {
                ask::doubt(
                    &mut raw.reading,
                    format!("\"{}\" stands under \"{}\". What is it?", row.text(at), column.heading),
                );
            }
        }
        raw.series = Some((at, kept(&column.heading)));
        found.push(raw);
    }
}

/// A row that nobody understood.
fn unknown(grid: &Grid, row: &Row) -> UnknownRow {
    let source = grid.place(row, None);
    UnknownRow { text: source.text.clone(), source }
}

fn first_number(text: &str, habits: Habits) -> Option<f64> {
    match read_cell(text, habits.decimal) {
        Content::Numbers(n) => n.first().map(|n| n.value),
        _ => None,
    }
}

fn limit(text: &str, habits: Habits) -> Limit {
    let value = match read_cell(text, habits.decimal) {
        Content::Numbers(n) if n.len() == 1 => n.first().filter(|n| n.comparator != Comparator::Above).map(|n| n.value),
        _ => None,
    };
    Limit { text: text.to_owned(), value }
}

/// A row of one sample under a heading of determinands, with the rows of their units and limits.
pub(crate) fn across(
    grid: &Grid,
    [head, units, limits]: [Option<&Row>; 3],
    data: &Row,
    column: &Column,
    habits: Habits,
    found: &mut Found,
) {
    let at = |row: Option<&Row>, c: usize| row.map_or("", |r| r.text(c)).to_owned();
    let notes = found.footnotes.clone();
    let of_hardness = matches!(name_of(&grid.title), Named::Determinand(n) if n.key == "hardness_total");
    for (c, cell) in head.into_iter().flat_map(|h| &h.cells).enumerate() {
        let name = match name_of(&cell.text) {
            Named::Determinand(name) => name,
            // "French degrees" beside other columns: of hardness.
            _ if unit_find::is_degree(&cell.text) => match name_of(HARDNESS) {
                Named::Determinand(name) => name,
                _ => continue,
            },
            _ => continue,
        };
        let unit_cell = at(units, c);
        let limit_cell = at(limits, c);
        let told = Told {
            as_written: cell.text.trim().to_owned(),
            unit: unit_for(name.key, &unit_cell).or_else(|| unit_for(name.key, &cell.text)),
            unit_text: unit_cell,
            limit: Some(limit_cell).filter(|t| !t.is_empty()).map(|t| limit(&t, habits)),
            all_in: habits.all_in,
            ..Told::of(&name)
        };
        let place = grid.place(data, Some(c));
        let sign = c.checked_sub(1).map(|b| data.text(b)).filter(|t| matches!(*t, "<" | ">")).unwrap_or("");
        values(&format!("{sign}{}", data.text(c)), habits).iter().for_each(|value| {
            let mut raw = reading(&told, column, value, &place, &notes);
            // "°dH" alone heads the total hardness where the title speaks of it; else it may be another one.
            if unit_find::is_degree(&cell.text) && !unit_find::is_hardness(&cell.text) && !of_hardness {
                ask::doubt(&mut raw.reading, format!("Is \"{}\" the total hardness?", cell.text.trim()));
            }
            found.push(Raw { series: Some((data.line as usize, kept(data.text(0)))), ..raw });
        });
    }
}

/// One line of notes: name, value, unit.
pub(crate) fn noted(
    name: &Name,
    as_written: &str,
    value: &Value,
    place: &Place,
    habits: Habits,
    notes: &Footnotes,
) -> Raw {
    let role = Some(if habits.mean { ReportColumn::Mean } else { ReportColumn::Value });
    let column = Column { role, ..Column::default() };
    let told = Told {
        as_written: as_written.to_owned(),
        unit: unit_for(name.key, as_written),
        all_in: habits.all_in,
        ..Told::of(name)
    };
    reading(&told, &column, value, place, notes)
}

fn reading(told: &Told<'_>, column: &Column, value: &Value, place: &Place, notes: &Footnotes) -> Raw {
    let key = told.name.key;
    let notes = notes.to(&[&told.as_written, &told.unit_text, &column.heading, &value.around]);
    let (unit, in_cell_is_known) = printed_unit(told, column, value, &notes);
    let (scale, unit_text) = unit.as_ref().map_or((1.0, String::new()), |f| (f.scale, f.text.trim().to_owned()));
    // The 20 of a date is no temperature.
    let told_by = |h: &str| lexicon::lexicon().column(h).is_none() && column.date.is_empty();
    let heading = if told_by(&column.heading) { column.heading.as_str() } else { "" };
    let inside = unit.as_ref().map_or("", |f| &*f.inside);
    let noted: Vec<&str> = notes.iter().map(|note| footnotes::basis(note)).collect();
    let around = format!("{} {inside} {} {heading} {}", told.unit_text, value.around, noted.join(" "));
    let is_ph = key == "ph";
    let all_in = told.all_in.filter(|u| book().determinands.get(key).is_some_and(|d| fits(&d.kind, *u)));
    let mut printed = unit.map(|f| f.unit).or(is_ph.then_some(Unit::Ph)).or(all_in);
    let mut number = value.value.map(|v| if scale == 1.0 { v } else { quantity::canonical(v * scale) });
    if key == "temperature" && printed == Some(Unit::FrenchDegree) {
        number = number.map(|f| quantity::canonical((f - 32.0) / 1.8));
        printed = Some(Unit::Celsius);
    }
    let footnoted = notes.iter().find_map(|note| footnotes::allowed(note));
    let allowed = told.limit.as_ref().or(value.limit.as_ref()).or(footnoted.as_ref());
    let limit_mg =
        allowed.and_then(|l| l.value).map(|l| if printed == Some(Unit::UgPerL) { l * 1e-3 } else { l * scale });
    let of_name = in_name(told.name).filter(|_| column.statistic() == Some(Statistic::Single));
    let decided = decide(told.name, printed, &around, limit_mg);
    let below = value.comparator == Comparator::Below;
    let mut reading = Reading {
        determinand: key.to_owned(),
        as_written: told.as_written.clone(),
        statistic: value.statistic.or(of_name).or(column.statistic()).unwrap_or(Statistic::Single),
        value: number.filter(|_| !below),
        comparator: value.comparator,
        detection_limit: if below { number.or(told.lod) } else { None },
        unit: printed,
        unit_text,
        counted: decided.counted,
        sample: None,
        place: place.clone(),
        samples: told.samples,
        failing: told.failing,
        limit: allowed.cloned(),
        confidence: 1.0,
        question: None,
        because: decided.because,
    };
    let doubts = [value.question.clone(), column.doubt.clone(), unit_doubt(told, column, value, in_cell_is_known)];
    doubts.into_iter().flatten().for_each(|d| ask::doubt(&mut reading, d));
    ask::about(&mut reading, told.name);
    let pick = |a: &str, b: &Rc<str>| if a.is_empty() { b.clone() } else { kept(a) };
    Raw {
        reading,
        group: pick(&column.group, &told.group),
        date: pick(&column.date, &told.date),
        table: 0,
        series: None,
    }
}

/// What a text without its values names, for notes.
pub(crate) fn name_in(text: &str) -> Option<Name> {
    match name_of(text) {
        Named::Determinand(name) => Some(name),
        _ => None,
    }
}
