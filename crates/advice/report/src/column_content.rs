//! What a column holds, told by what stands in it: units, signs, years, codes, the numbers of the rows, places.

use std::collections::BTreeSet;

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::columns::Column;
use crate::dates::is_year;
use crate::fold::stems;
use crate::grid::Row;
use crate::lexicon::lexicon;
use crate::numbered::{are_running, is_class};
use crate::unit_find;

/// Units stand in a column of units, and signs in one of signs, whatever its heading; and results under the name of a
/// place ("Tap", "Wasserwerk") that might have headed a column of places.
pub(crate) fn by_content(column: &mut Column, data: &[&Row], from: usize, at: usize) {
    let filled: Vec<&str> = data.iter().map(|r| r.text(at)).filter(|t| !t.is_empty()).collect();
    let numbers = |t: &str| matches!(cell::read(t, Decimal::Unknown), Content::Numbers(_));
    let most = |fits: &dyn Fn(&str) -> bool| filled.iter().filter(|t| fits(t)).count() * 2 > filled.len();
    let begins = |t: &str| numbers(t) && t.starts_with(|c: char| c.is_ascii_digit() || c == '<');
    if column.role.is_none() && !filled.is_empty() && filled.iter().all(|t| is_sign(t)) {
        column.role = Some(ReportColumn::Comparator);
    } else if column.role == Some(ReportColumn::Unit) && most(&begins) && heads_result(&column.heading) {
        // "Result Unit" over "12.8 °C": two columns that stand so close that they are one.
        column.role = Some(ReportColumn::Value);
    } else if filled.len() >= 2
        && !matches!(column.role, Some(ReportColumn::Limit))
        && most(&|t| unit_find::find(t).is_some() && !numbers(t))
    {
        column.role = Some(ReportColumn::Unit);
    } else if column.role == Some(ReportColumn::Date) && filled.iter().all(|t| is_year(t)) && once(data, from) {
        // The year in which each substance was last looked for parts no samples.
        column.role = Some(ReportColumn::Other);
    } else if column.role.is_none() && (are_running(&filled) || is_class(&column.heading))
        || are_codes(column, &filled)
        || !filled.is_empty() && column.date.is_empty() && are_years(column, &filled)
    {
        column.role = Some(ReportColumn::Other);
    } else if column.role == Some(ReportColumn::Place)
        && most(&numbers)
        && filled.iter().any(|t| numbers(t) && t.contains(['.', ',', '<']))
    {
        column.role = None;
        column.group.clone_from(&column.heading);
    }
}

/// "≤" under a heading for limits, and its number beside it under none: both are of the limit.
pub(crate) fn signs_of_limits(out: &mut [Column], data: &[&Row], from: usize) {
    for i in 1..out.len().saturating_sub(1) {
        let (signs, numbers) =
            data.iter().map(|r| r.text(from + i)).filter(|t| !t.is_empty()).fold((0, 0), |(s, n), t| {
                (s + usize::from(is_sign(t)), n + usize::from(t.starts_with(|c: char| c.is_ascii_digit())))
            });
        let limit = out.get(i).is_some_and(|c| c.role == Some(ReportColumn::Limit));
        if let Some(next) = out.get_mut(i + 1).filter(|c| limit && signs > 1 && signs > numbers && c.heading.is_empty())
        {
            next.role = Some(ReportColumn::Limit);
        }
    }
}

/// Whether a word of a heading is one for results.
fn heads_result(heading: &str) -> bool {
    heading.split_whitespace().any(|w| matches!(lexicon().column(w), Some((ReportColumn::Value, true))))
}

/// Whether each row has a name of its own.
fn once(data: &[&Row], from: usize) -> bool {
    let names: std::collections::BTreeSet<&str> = data.iter().map(|r| r.text(from)).collect();
    names.len() == data.len()
}

/// "3500-Ca", "2540 C", "PNT-01": what the method is called, where some of its names have letters and none a decimal.
fn are_codes(column: &Column, filled: &[&str]) -> bool {
    let digits = |t: &str| t.chars().filter(char::is_ascii_digit).count() >= 2;
    let lettered = |t: &&&str| digits(t) && t.chars().any(char::is_alphabetic) && unit_find::find(t).is_none();
    let whole = |t: &&str| !t.contains([',', '<', '±']) && !cell::read(t, Decimal::Point).eq(&Content::NotDetected);
    let decimal = |t: &&str| t.parse::<f64>().is_ok_and(|v| v.fract() != 0.0 || v < 100.0);
    let lettered = filled.iter().filter(lettered).count();
    // The numbers of samples come again and again.
    let distinct = filled.iter().collect::<BTreeSet<_>>().len();
    column.role.is_none()
        && distinct * 3 >= filled.len()
        && lettered >= 3
        && lettered * 2 >= filled.len()
        && filled.iter().all(|t| whole(t) && !decimal(t))
}

/// The year of each row, under whatever heading but a year's.
fn are_years(column: &Column, filled: &[&str]) -> bool {
    matches!(column.role, None | Some(ReportColumn::Place))
        && !is_year(&column.heading)
        && filled.iter().all(|t| is_year(t))
}

fn is_sign(text: &str) -> bool {
    matches!(text, "<" | ">" | "=" | "≤" | "≥" | "<=" | ">=")
}

/// Words beside names that come again and again, no name twice beside the same words: the places of the rows.
pub(crate) fn is_place(data: &[&Row], name: usize, at: usize) -> bool {
    let words = |t: &str| matches!(cell::read(t, Decimal::Unknown), Content::Words) && unit_find::find(t).is_none();
    let (mut names, mut places, mut both) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    data.iter().all(|r| words(r.text(at)) && both.insert((r.text(at), r.text(name))))
        && data.iter().all(|r| names.insert(r.text(name)) | places.insert(r.text(at)) | true)
        && (2..).contains(&places.len())
        && names.len() * 2 <= data.len()
        && places.len() * 2 <= data.len()
}

/// How many cells of a column hold a value.
pub(crate) fn values(data: &[&Row], at: usize) -> usize {
    let value = |t: &str| matches!(cell::read(t, Decimal::Unknown), Content::Numbers(_) | Content::NotDetected);
    data.iter().filter(|r| value(r.text(at)) && !is_address(r.text(at))).count()
}

/// "12 Mill Terrace": a number before words that are no unit and say nothing of a value.
fn is_address(text: &str) -> bool {
    let strange = |w: &&str| {
        w.chars().count() > 2 && w.chars().all(char::is_alphabetic) && !lexicon().is_beside(&stems(w).concat())
    };
    let told = unit_find::find(text).is_some() || lexicon().column(text).is_some();
    text.starts_with(|c: char| c.is_ascii_digit())
        && !told
        && text.split_whitespace().skip(1).filter(strange).count() >= 2
}
