//! Lines of notes: "GH 9 °dH", "Nitrate: 20 ppm", "NO2 <0.05 mg/l (drops)".

use crate::cell::numbers;
use crate::fold::tidy;
use crate::found::Found;
use crate::grid::{Grid, Row};
use crate::lexicon::lexicon;
use crate::row::{name_in, noted, unit_for};
use crate::table::Habits;
use crate::values::values;
use crate::{ask, unit_find};

/// Words beside the name from which on a line is a sentence, not a note.
const SENTENCE: usize = 4;

/// Read the first filled cell of a row as a note; the rest of the row goes with it.
pub(crate) fn read(grid: &Grid, row: &Row, from: usize, habits: Habits, found: &mut Found) {
    let text = tidy(row.text(from));
    if text.chars().count() > 200 {
        return;
    }
    let chars: Vec<char> = text.chars().collect();
    let cut = |a: usize, b: usize| chars.get(a..b).unwrap_or_default().iter().collect::<String>();
    // "at 25 °C" belongs to the name of a conductivity or a pH.
    let Some(split) = numbers(&text, habits.decimal).into_iter().find(|n| !is_reference(&chars, n.start, n.end)) else {
        return;
    };
    let (head, tail) = (cut(0, split.start), cut(split.start, chars.len()));
    let Some(mut value) = values(&tail, habits).into_iter().next() else { return };
    let behind = words_behind(&tail, &value.around);
    let (Some(first), whole) = (name_in(&head), name_in(&format!("{head} {behind}"))) else { return };
    // "Cl2 0.1 mg/l free": what stands behind the value may say more of the name.
    let name = match whole {
        Some(whole) if whole.strange.len() <= first.strange.len() => whole,
        _ => first,
    };
    if name.strange.len() >= SENTENCE || is_limit(&head) {
        return;
    }
    if values(&tail, habits).len() > 1 && value.statistic.is_none() {
        value.question = Some(format!("Which value does \"{}\" give?", text.trim()));
    }
    let place = grid.place(row, Some(from));
    let all = values(&tail, habits);
    let ranged = all.iter().filter(|v| v.statistic.is_some()).count() == 2 && all.len() == 2;
    // "17.5 °dH (3.12 mmol/l)": each in its own unit.
    let two = all.len() == 2 && all.iter().all(|v| v.question.is_none() && unit_for(name.key, &v.around).is_some());
    let taken = if ranged || two { all } else { vec![value] };
    for value in &taken {
        let mut raw = noted(&name, head.trim().trim_end_matches(':'), value, &place);
        if grid.width() > 1 && row.cells.iter().filter(|c| !c.text.trim().is_empty()).count() > 2 {
            ask::doubt(&mut raw.reading, format!("Is \"{}\" the result?", place.text));
        }
        found.push(raw);
    }
}

/// A line on limits is none on results.
fn is_limit(text: &str) -> bool {
    matches!(lexicon().column(text), Some((knowledge::ReportColumn::Limit, _)))
}

/// "20 °C" behind "at", "bei", "à": the temperature that a value refers to.
fn is_reference(chars: &[char], start: usize, end: usize) -> bool {
    let head: String = chars.get(..start).unwrap_or_default().iter().collect();
    let tail: String = chars.get(start..).unwrap_or_default().iter().collect();
    let degrees = unit_find::find(&tail).is_some_and(|f| f.unit == crate::Unit::Celsius && f.start <= end - start + 1);
    degrees && name_in(&head).is_some_and(|n| n.key == "conductivity" || n.key == "ph")
}

/// The words behind value and unit.
fn words_behind(tail: &str, around: &str) -> String {
    let unit = unit_find::find(around);
    let chars: Vec<char> = around.chars().collect();
    match unit {
        Some(unit) => chars.get(unit.end..).unwrap_or_default().iter().collect(),
        None if around.len() < tail.len() => around.to_owned(),
        None => String::new(),
    }
}
