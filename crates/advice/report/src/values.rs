//! The values of one cell: a number, a range, two numbers in two units, "not detected".

use quantity::Comparator;

use crate::Statistic;
use crate::cell::{Content, Number, read};
use crate::fold::{tidy, words};
use crate::lexicon::lexicon;
use crate::table::Habits;
use crate::unit_find::{self, Found};

/// One value of a cell.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Value {
    /// Where it says so itself: the ends of a range.
    pub statistic: Option<Statistic>,
    pub comparator: Comparator,
    /// None: not detected.
    pub value: Option<f64>,
    pub unit: Option<Found>,
    /// Words behind it: a basis may be among them.
    pub around: String,
    pub question: Option<String>,
}

/// The values of a cell; empty where it holds none.
pub(crate) fn values(text: &str, habits: Habits) -> Vec<Value> {
    match read(text, habits.decimal) {
        Content::NotDetected => vec![Value {
            statistic: None,
            comparator: Comparator::Below,
            value: None,
            unit: None,
            around: String::new(),
            question: None,
        }],
        Content::Numbers(numbers) => match from_unseen(text, habits) {
            Some(range) => range,
            None => of_numbers(&tidy(text), &numbers),
        },
        _ => Vec::new(),
    }
}

/// "ND - 40": from too little to be seen up to a number.
fn from_unseen(text: &str, habits: Habits) -> Option<Vec<Value>> {
    let tidied = tidy(text);
    let (low, high) =
        tidied.split_once(" - ").or_else(|| tidied.split_once(" to ")).or_else(|| tidied.split_once('-'))?;
    let mut low = values(low, habits).pop().filter(|v| v.value.is_none())?;
    let mut high = values(high, habits).pop().filter(|v| v.value.is_some() && v.statistic.is_none())?;
    low.statistic = Some(Statistic::Min);
    high.statistic = Some(Statistic::Max);
    low.unit.clone_from(&high.unit);
    Some(vec![low, high])
}

fn of_numbers(tidied: &str, numbers: &[Number]) -> Vec<Value> {
    let chars: Vec<char> = tidied.chars().collect();
    let cut = |from: usize, to: usize| chars.get(from..to).unwrap_or_default().iter().collect::<String>();
    let numbers: Vec<&Number> = numbers.iter().filter(|n| !in_a_unit(&chars, n) && !is_share(&chars, n)).collect();
    let end_of = |i: usize| numbers.get(i + 1).map_or(chars.len(), |n| n.start);
    let behind = |i: usize| numbers.get(i).map(|n| cut(n.end, end_of(i))).unwrap_or_default();
    let before = numbers.first().map(|n| cut(0, n.start)).unwrap_or_default();
    let kept = numbers.iter().position(|n| is_footnote(&chars, n, n.start)).unwrap_or(numbers.len());
    let value = |i: usize, statistic: Option<Statistic>| -> Option<Value> {
        let number = numbers.get(i)?;
        let around = behind(i);
        let question =
            number.or.map(|or| format!("Is {} meant as {} or as {or}?", cut(number.start, number.end), number.value));
        Some(Value {
            statistic,
            comparator: number.comparator,
            value: Some(number.value),
            unit: unit_behind(&around),
            around,
            question,
        })
    };
    let mut out: Vec<Value> = match kept {
        0 => return Vec::new(),
        1 => value(0, None).into_iter().collect(),
        2 if is_to(&behind(0)) => ends(value(0, Some(Statistic::Min)), value(1, Some(Statistic::Max))),
        2 if behind(0).trim().starts_with(['±']) || behind(0).contains("+/-") => value(0, None).into_iter().collect(),
        3 if behind(0).trim() == "(" && is_to(&behind(1)) => {
            let mut three: Vec<Value> = value(0, None).into_iter().collect();
            three.extend(ends(value(1, Some(Statistic::Min)), value(2, Some(Statistic::Max))));
            three
        }
        n if (0..n).all(|i| unit_find::find(&behind(i)).is_some()) => (0..n).filter_map(|i| value(i, None)).collect(),
        _ => {
            let mut first: Vec<Value> = value(0, None).into_iter().collect();
            first.iter_mut().for_each(|v| v.question = Some(format!("Which value does \"{}\" give?", tidied.trim())));
            first
        }
    };
    let strange = words(&before).into_iter().find(|w| !lexicon().is_beside(w) && w.chars().any(char::is_alphabetic));
    if let Some(word) = strange.filter(|w| !lexicon().ends_with_below(&words(&before)) && w.len() > 1) {
        let all = out.iter_mut().filter(|v| v.question.is_none());
        all.for_each(|v| {
            v.question = Some(format!("Is \"{}\" the result? \"{word}\" is not understood.", tidied.trim()))
        });
    }
    out
}

/// The unit behind a number: a bare C is one there.
fn unit_behind(around: &str) -> Option<Found> {
    let found = unit_find::find(&format!("1{around}"))?;
    Some(Found { start: found.start.checked_sub(1)?, end: found.end.checked_sub(1)?, ..found })
}

/// The unit of a range stands behind its upper end.
fn ends(low: Option<Value>, high: Option<Value>) -> Vec<Value> {
    match (low, high) {
        (Some(mut low), Some(high)) => {
            low.unit = high.unit.clone().or(low.unit);
            low.around = high.around.clone();
            vec![low, high]
        }
        _ => Vec::new(),
    }
}

fn is_to(between: &str) -> bool {
    let bare: String = match unit_find::find(between) {
        Some(found) => {
            between.chars().enumerate().filter(|(i, _)| *i < found.start || *i >= found.end).map(|(_, c)| c).collect()
        }
        None => between.to_owned(),
    };
    let text = bare.trim();
    let dash = !text.is_empty()
        && text.chars().all(|c| matches!(c, '-' | '.' | '…' | '/' | '÷'))
        && text != "."
        && text != "/";
    dash || lexicon().is_to(text)
}

/// The 1 of "l-1", the 3 of "m3".
fn in_a_unit(chars: &[char], number: &Number) -> bool {
    let text: String = chars.iter().collect();
    unit_find::all(&text).iter().any(|f| f.start <= number.start && number.end <= f.end)
}

/// "12 %" is a share, and no value of any determinand.
fn is_share(chars: &[char], number: &Number) -> bool {
    chars.iter().skip(number.end).find(|c| **c != ' ') == Some(&'%')
}

/// "(1)", "1)": a mark behind the value.
fn is_footnote(chars: &[char], number: &Number, at: usize) -> bool {
    let closes = chars.get(number.end) == Some(&')');
    let digits = number.end - at == 1;
    let opened = at.checked_sub(1).and_then(|i| chars.get(i)).is_some_and(|c| matches!(c, '(' | ' '));
    at > 0 && closes && digits && opened && number.comparator == Comparator::Equal
}
