//! What a table takes for results, held against itself once more: columns of limits or of what a method can see, and rows
//! whose lowest, mean and highest value are out of order, are asked about.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use knowledge::book;
use quantity::Comparator;

use crate::found::{Found, Raw};
use crate::reading::Statistic;
use crate::{Reading, Unit, ask};

/// So many determinands with the number of a limit make a column suspect, where they are more than half of it; one less
/// where they are all of it.
const LIMITS: usize = 4;
/// So many rows with round numbers that no result beside them goes under.
const SEEN: usize = 5;
/// So many numbers beyond the ends of any tap make a column suspect, where they are more than half of it.
const BEYOND: usize = 3;
/// So many plain results outside their rows' lowest and highest make a column suspect, where they are more than half of it.
const OUTSIDE: usize = 2;
/// So many determinands more than once make rows of several waters.
const AGAIN: usize = 3;
/// Printed numbers that differ by less than this share are the same.
const SAME: f64 = 1e-3;

/// Ask about what cannot be results.
pub(crate) fn cast(found: &mut Found) {
    let columns = columns(&found.raw);
    let mut asked: Vec<(usize, String)> = Vec::new();
    for places in columns.values() {
        let column: Vec<&Raw> = places.iter().filter_map(|&i| found.raw.get(i)).collect();
        let heading = column.first().and_then(|r| r.series.as_ref()).map_or("", |(_, heading)| heading);
        let named = if heading.is_empty() { "a column without a heading".to_owned() } else { format!("\"{heading}\"") };
        let beyond = column.iter().filter(|r| !ask::plausible(&r.reading)).count();
        if beyond >= BEYOND && beyond * 2 > column.len() {
            let text = format!("Does {named} hold results? Most of its numbers are ones that no tap has.");
            asked.extend(places.iter().map(|&i| (i, text.clone())));
        } else if are_limits(&column, column.first().is_some_and(|r| found.of_limits.contains(&r.table))) {
            let text = format!("Does {named} hold results? Its numbers are those that are allowed.");
            asked.extend(places.iter().map(|&i| (i, text.clone())));
        } else if are_seen(&column, &found.raw, &columns) {
            let text = format!("Does {named} hold results? Its numbers look like the least that a method can see.");
            asked.extend(places.iter().map(|&i| (i, text.clone())));
        }
    }
    asked.extend(out_of_order(&found.raw));
    asked.extend(outside(&found.raw));
    asked.extend(again(&found.raw, &columns));
    asked.extend(capped(&found.raw));
    for (at, text) in asked {
        found.raw.get_mut(at).into_iter().for_each(|raw| ask::doubt(&mut raw.reading, text.clone()));
    }
}

type Columns = BTreeMap<(usize, usize), Vec<usize>>;

/// Places of the values of each column of each table.
fn columns(raw: &[Raw]) -> Columns {
    let mut out = Columns::new();
    for (i, r) in raw.iter().enumerate() {
        if let Some((column, _)) = &r.series {
            out.entry((r.table, *column)).or_default().push(i);
        }
    }
    out
}

/// The number as a limit would be printed: mg/L, µS/cm, or as it is.
fn printed(reading: &Reading) -> Option<f64> {
    let value = reading.value.filter(|_| reading.comparator == Comparator::Equal)?;
    Some(match reading.unit {
        Some(Unit::UgPerL) => value * 1e-3,
        Some(Unit::MsPerM) => value * 10.0,
        _ => value,
    })
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME * b.abs()
}

/// Whether most numbers are those of limits; `titled`: a title says that they are, and one will do.
fn are_limits(column: &[&Raw], titled: bool) -> bool {
    let limits = &book().limits.printed.of;
    let known: BTreeSet<&str> =
        column.iter().map(|r| r.reading.determinand.as_str()).filter(|d| limits.contains_key(*d)).collect();
    let is_limit = |r: &&&Raw| is_printed(&r.reading);
    let hits: BTreeSet<&str> = column.iter().filter(is_limit).map(|r| r.reading.determinand.as_str()).collect();
    let least = if titled { 1 } else { LIMITS };
    hits.len() >= least && hits.len() * 2 > known.len() || hits.len() + 1 >= LIMITS && hits.len() == known.len()
}

/// One digit and zeros: 0.05, 2, 10.
fn is_round(value: f64) -> bool {
    let digits = value / 10_f64.powf(value.log10().floor());
    value > 0.0 && same(digits, digits.round())
}

/// Round numbers, each at or below every result beside it, or that of a "<" beside it.
fn are_seen(column: &[&Raw], all: &[Raw], columns: &Columns) -> bool {
    let values: Vec<(&Raw, f64)> = column.iter().filter_map(|r| Some((*r, r.reading.value?))).collect();
    let single = column.iter().all(|r| matches!(r.reading.statistic, Statistic::Single | Statistic::Mean));
    let round = values.iter().filter(|(_, v)| is_round(*v)).count();
    if !single || values.len() < SEEN || values.len() < column.len() || round < values.len() {
        return false;
    }
    let Some((first, _)) = values.first() else { return false };
    let mut beside: BTreeMap<Option<u32>, Vec<&Reading>> = BTreeMap::new();
    for raw in columns.range((first.table, 0)..(first.table + 1, 0)).flat_map(|(_, places)| places) {
        let other = all.get(*raw).filter(|o| o.series != first.series);
        other.into_iter().for_each(|o| beside.entry(o.reading.place.line).or_default().push(&o.reading));
    }
    let mut under = 0;
    for (raw, value) in &values {
        let others = beside.get(&raw.reading.place.line).map_or(&[][..], Vec::as_slice);
        let of_it = others.iter().filter(|o| o.determinand == raw.reading.determinand && o.unit == raw.reading.unit);
        for other in of_it {
            match (other.value, other.detection_limit) {
                (Some(v), _) if v < *value => return false,
                (None, Some(limit)) if !same(limit, *value) => return false,
                _ => under += 1,
            }
        }
    }
    under >= SEEN
}

/// Highest values that may be the highest allowed: of rows without a lowest one, where they are far above the means or are
/// printed as limits; and with the lowest ones of the same table, where few rows have one, as only pH has a lower limit.
fn capped(raw: &[Raw]) -> Vec<(usize, String)> {
    let text = "Is this the highest found, or the highest allowed?";
    let (mut far, mut ends): (Tables, Tables) = (Tables::new(), Tables::new());
    let mut asked = Vec::new();
    for ((table, ..), places) in rows(raw) {
        let all = || places.iter().filter_map(|&i| Some((i, raw.get(i)?)));
        let of = |s: Statistic| all().find(|(_, r)| r.reading.statistic == s);
        let middle = of(Statistic::Mean).or(of(Statistic::Median)).or(of(Statistic::Single));
        let (low, high) = (of(Statistic::Min), of(Statistic::Max));
        let (Some((at, high)), Some((_, middle))) = (high, middle) else { continue };
        let (rare, own) = ends.entry(table).or_default();
        *rare += usize::from(low.is_none());
        own.extend(low.map(|(i, _)| i).into_iter().chain([at]));
        if low.is_some() {
            continue;
        }
        let (out, own) = far.entry(table).or_default();
        let value = middle.reading.value.or(middle.reading.detection_limit);
        *out += usize::from(high.reading.value.zip(value).is_some_and(|(h, v)| h > FAR * v));
        own.push(at);
        if is_printed(&high.reading) {
            asked.push((at, text.to_owned()));
        }
    }
    let suspect = far.into_values().filter(|(out, own)| *out >= OUTSIDE && out * 2 > own.len());
    asked.extend(suspect.flat_map(|(_, own)| own).map(|i| (i, text.to_owned())));
    // A lowest value in some rows only.
    let sparse = ends.into_values().filter(|(rare, own)| *rare >= OUTSIDE && rare * 3 > own.len());
    let lowest = |i: &usize| raw.get(*i).is_some_and(|r| r.reading.statistic == Statistic::Min);
    for (_, own) in sparse.filter(|(_, own)| own.iter().any(lowest)) {
        asked.extend(own.into_iter().map(|i| (i, "Is this found, or allowed?".to_owned())));
    }
    asked
}

/// What is counted in each table, with the places that it concerns.
type Tables = BTreeMap<usize, (usize, Vec<usize>)>;

/// A highest value so many times the mean is asked about; common practice, no source.
const FAR: f64 = 5.0;

/// Whether a number is one that acts print as a limit of it.
fn is_printed(reading: &Reading) -> bool {
    let all = book().limits.printed.of.get(&reading.determinand).map_or(&[][..], Vec::as_slice);
    printed(reading).is_some_and(|v| all.iter().any(|l| same(v, *l)))
}

/// Columns that give several determinands more than once, each time another value: rows of several waters, unnamed.
fn again(raw: &[Raw], columns: &Columns) -> Vec<(usize, String)> {
    let mut out = Vec::new();
    // Notes and sentences, too: they have no columns.
    let notes: Vec<usize> = (0..raw.len()).filter(|&i| raw.get(i).is_some_and(|r| r.series.is_none())).collect();
    for places in columns.values().chain(std::iter::once(&notes)) {
        let mut seen: BTreeMap<_, Vec<f64>> = BTreeMap::new();
        for r in places.iter().filter_map(|&i| raw.get(i)) {
            let (unit, statistic) = (r.reading.unit.map(Unit::name), r.reading.statistic);
            let counted = r.reading.counted.basis();
            let key = (&r.reading.determinand, unit, statistic, counted, &r.group, &r.date);
            seen.entry(key).or_default().extend(r.reading.value);
        }
        let other = |v: &&Vec<f64>| v.first().is_some_and(|first| v.iter().any(|x| !same(*x, *first)));
        if seen.values().filter(other).count() >= AGAIN {
            out.extend(places.iter().map(|&i| (i, TWICE.to_owned())));
        }
    }
    out.extend(twice(raw));
    out
}

const TWICE: &str = "The report gives this more than once. Which row is your water?";

/// One name twice in a column, or one determinand twice in notes, each time another value.
fn twice(raw: &[Raw]) -> Vec<(usize, String)> {
    let mut seen: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (i, r) in raw.iter().enumerate().filter(|(_, r)| r.reading.value.is_some()) {
        let (unit, statistic) = (r.reading.unit.map(Unit::name), r.reading.statistic);
        let counted = r.reading.counted.basis();
        let named = r.series.as_ref().map(|(column, _)| (r.table, *column, r.reading.as_written.as_str()));
        let sample = (&r.group, &r.date);
        seen.entry((named, &r.reading.determinand, unit, statistic, counted, sample)).or_default().push(i);
    }
    let value = |i: &usize| raw.get(*i).and_then(|r| r.reading.value).unwrap_or(0.0);
    let differ =
        |all: &Vec<usize>| all.iter().any(|i| (value(i) - value(all.first().unwrap_or(i))).abs() > ROUNDED * value(i));
    let found = seen.into_values().filter(|all| all.len() > 1 && differ(all));
    found.flatten().map(|i| (i, TWICE.to_owned())).collect()
}

/// Values that are told twice, rounded in one place, differ by less than this share.
const ROUNDED: f64 = 0.05;

/// Columns of plain results most of which lie under the lowest or over the highest of their rows: they are something else.
fn outside(raw: &[Raw]) -> Vec<(usize, String)> {
    let mut columns: BTreeMap<(usize, usize), (usize, Vec<usize>)> = BTreeMap::new();
    for places in rows(raw).values() {
        let all = || places.iter().filter_map(|&i| Some((i, raw.get(i)?)));
        let end = |s: Statistic| {
            let mut own = all().filter(|(_, r)| r.reading.statistic == s);
            own.next().filter(|_| own.next().is_none()).and_then(|(_, r)| r.reading.value)
        };
        let (Some(low), Some(high)) = (end(Statistic::Min), end(Statistic::Max)) else { continue };
        for (i, r) in all().filter(|(_, r)| r.reading.statistic == Statistic::Single) {
            let Some((column, _)) = &r.series else { continue };
            let (out, own) = columns.entry((r.table, *column)).or_default();
            *out += usize::from(r.reading.value.is_some_and(|v| v < low * (1.0 - SAME) || v > high * (1.0 + SAME)));
            own.push(i);
        }
    }
    let suspect = columns.into_values().filter(|(out, own)| *out >= OUTSIDE && out * 2 > own.len());
    let text = "Is this a result? In most rows it lies outside the lowest and the highest.";
    suspect.flat_map(|(_, own)| own).map(|i| (i, text.to_owned())).collect()
}

/// The values of each row that are of one determinand, unit and sample.
fn rows(raw: &[Raw]) -> BTreeMap<Key<'_>, Vec<usize>> {
    let mut out: BTreeMap<Key<'_>, Vec<usize>> = BTreeMap::new();
    for (i, r) in raw.iter().enumerate().filter(|(_, r)| r.series.is_some()) {
        let unit = r.reading.unit.map(Unit::name);
        out.entry((r.table, r.reading.place.line, &r.reading.determinand, &r.group, &r.date, unit))
            .or_default()
            .push(i);
    }
    out
}

/// Table, line, determinand, group, date, unit.
type Key<'a> = (usize, Option<u32>, &'a str, &'a Rc<str>, &'a Rc<str>, Option<&'static str>);

/// Rows whose lowest value is above the mean or the highest, or whose mean is above the highest.
fn out_of_order(raw: &[Raw]) -> Vec<(usize, String)> {
    let mut out = Vec::new();
    for places in rows(raw).into_values() {
        let of = |s: Statistic| {
            let mut all = places.iter().filter_map(|&i| raw.get(i)).filter(|r| r.reading.statistic == s);
            all.next().filter(|_| all.next().is_none())
        };
        let value = |s| of(s).and_then(|r| r.reading.value.or(r.reading.detection_limit));
        let (low, high) = (value(Statistic::Min), value(Statistic::Max));
        let mean = value(Statistic::Mean).or(value(Statistic::Median));
        // A mean may count what lies below detection as half of it.
        let sunk = of(Statistic::Min).is_some_and(|r| r.reading.value.is_none());
        let above = |a: Option<f64>, b: Option<f64>| matches!((a, b), (Some(a), Some(b)) if a > b * (1.0 + SAME));
        if above(low, high) || above(mean, high) || above(low, mean) && !sunk {
            let text = "Which of these is the lowest, the mean and the highest? As they stand they are out of order.";
            out.extend(places.iter().map(|&i| (i, text.to_owned())));
        }
    }
    out
}
