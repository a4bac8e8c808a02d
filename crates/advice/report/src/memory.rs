//! The layout of a report, and what is remembered of its corrections for the next one.
//!
//! # What
//! Two reports have one layout where most of their rows have the same names, units and statistics. What the keeper said of
//! a row of the older one then holds for the same row of the newer one: what it is, its unit, what it is counted as, that
//! it is none. Never a number: that is the new report's own.
//! # Equation
//! Shared rows / rows of both ≥ 0.5, assumed. A correction is carried only where the newer row was read exactly as the
//! older one was, so that a report that now prints its basis is believed.
//! # Range
//! Rows that nobody understood are carried where both hold exactly one number.
//! # Source
//! Share of the union (Jaccard, textbook, from memory).
//! # Checked by
//! `tests/corrections.rs`.

use std::collections::BTreeSet;

use crate::correction::{Change, Correction, Number, Spot};
use crate::filed::Filed;
use crate::reading::{Counted, Reading};
use crate::{Report, fold};

/// Share of the rows of both that both have; assumed.
const ALIKE: f64 = 0.5;

/// The rows of a report without their numbers.
pub fn layout(report: &Report) -> BTreeSet<String> {
    let rows = report.unknown_rows.iter().map(|row| nameless(&row.text));
    report.readings.iter().map(row).chain(rows).collect()
}

/// Whether two reports have one layout.
pub fn is_alike(one: &Report, other: &Report) -> bool {
    let (one, other) = (layout(one), layout(other));
    let shared = one.intersection(&other).count() as f64;
    shared > 0.0 && shared >= ALIKE * one.union(&other).count() as f64
}

/// A row's name, unit and statistic.
fn row(reading: &Reading) -> String {
    format!("{}|{}|{:?}", fold::words(&reading.as_written).join(" "), reading.unit_text, reading.statistic)
}

/// A row's words without its numbers.
fn nameless(text: &str) -> String {
    let is_word = |word: &String| word.chars().any(char::is_alphabetic);
    fold::words(text).into_iter().filter(is_word).collect::<Vec<_>>().join(" ")
}

/// The numbers of a row.
fn numbers(text: &str) -> Vec<f64> {
    let sign = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let words = text.split(|c: char| c.is_whitespace()).filter(|word| word.chars().all(sign));
    words.filter_map(|word| quantity::parse_number(word).ok()).collect()
}

/// The corrections of an earlier report that hold for this one.
pub(crate) fn carried(earlier: &Filed, now: &Filed, name: &str) -> Vec<Correction> {
    if !is_alike(&earlier.report, &now.report) {
        return Vec::new();
    }
    let mut all = Vec::new();
    for correction in &earlier.corrections {
        match correction.at {
            Spot::Reading(at) => {
                let Some(old) = earlier.report.readings.get(at) else { continue };
                let same = now.report.readings.iter().enumerate().filter(|(_, new)| row(new) == row(old));
                let change =
                    same.filter_map(|(i, new)| Some((Spot::Reading(i), of_reading(&correction.change, old, new)?)));
                all.extend(change.map(|(at, change)| with(correction, at, change, name)));
            }
            Spot::Row(at) => {
                let Some(old) = earlier.report.unknown_rows.get(at) else { continue };
                for (i, new) in now.report.unknown_rows.iter().enumerate() {
                    if nameless(&new.text) == nameless(&old.text)
                        && let Some(change) = of_row(&correction.change, &old.text, &new.text)
                    {
                        all.push(with(correction, Spot::Row(i), change, name));
                    }
                }
            }
        }
    }
    all
}

fn with(correction: &Correction, at: Spot, change: Change, name: &str) -> Correction {
    Correction { at, typed: correction.typed.clone(), change, remembered: Some(name.to_owned()) }
}

/// What a correction of one reading means for the same row of the next report; none where it was about its number.
fn of_reading(change: &Change, old: &Reading, new: &Reading) -> Option<Change> {
    let alike = old.determinand == new.determinand && old.unit == new.unit && old.counted == new.counted;
    match change {
        Change::Means(meant) if alike => {
            let only_number = meant.determinand == old.determinand
                && meant.unit == old.unit
                && meant.counted == old.counted
                && meant.statistic == old.statistic;
            let mut meant = meant.clone();
            meant.number = None;
            (!only_number).then_some(Change::Means(meant))
        }
        Change::LeftOut if alike => Some(Change::LeftOut),
        // Asked in the same words, it has the same answer; a question on a number names the number.
        Change::AsRead if alike && old.question == new.question && new.question.is_some() => Some(Change::AsRead),
        _ => None,
    }
}

fn of_row(change: &Change, old: &str, new: &str) -> Option<Change> {
    match (change, numbers(old).as_slice(), numbers(new).as_slice()) {
        (Change::Means(meant), [_], [number]) => {
            let mut meant = meant.clone();
            let read = meant.number.as_ref()?;
            if read.value.is_none() || matches!(meant.counted, Counted::Open(_)) {
                return None;
            }
            meant.number = Some(Number { value: Some(*number), ..read.clone() });
            Some(Change::Means(meant))
        }
        (Change::LeftOut, ..) => Some(Change::LeftOut),
        _ => None,
    }
}
