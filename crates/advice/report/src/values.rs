//! The values of one cell: a number, a range, two numbers in two units, "not detected".

use std::rc::Rc;

use quantity::Comparator;

use crate::cell::{Content, Decimal, Number, numbers, read};
use crate::fold::{tidy, words};
use crate::lexicon::lexicon;
use crate::reading::Limit;
use crate::recent::{Recent, recall};
use crate::roles::{Piece, Role, limit_behind, pieces};
use crate::table::Habits;
use crate::unit_find::Found;
use crate::{Statistic, Unit};

/// One value of a cell.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Value {
    /// Where it says so itself: the ends of a range, an average.
    pub statistic: Option<Statistic>,
    pub comparator: Comparator,
    /// None: not detected.
    pub value: Option<f64>,
    pub unit: Option<Found>,
    /// Words behind it: a basis may be among them.
    pub around: String,
    /// What is allowed, where the same text says it.
    pub limit: Option<Limit>,
    pub question: Option<String>,
}

/// Numbers that one cell or one sentence may hold.
pub(crate) const MOST_NUMBERS: usize = 30;

/// The values of a cell; empty where it holds none.
pub(crate) fn values(text: &str, habits: Habits) -> Vec<Value> {
    thread_local! {
        static KEPT: Recent<Rc<[Value]>> = const { Recent::new() };
    }
    let sign = match habits.decimal {
        Decimal::Point => ".",
        Decimal::Comma => ",",
        Decimal::Unknown => "?",
    };
    recall(&KEPT, &[sign, text].concat(), || values_of(text, habits).into()).to_vec()
}

fn values_of(text: &str, habits: Habits) -> Vec<Value> {
    match read(text, habits.decimal) {
        Content::NotDetected => vec![not_seen(None, None, String::new(), None)],
        // So many numbers are a list, or a table that lost its columns.
        Content::Numbers(numbers) if numbers.len() > MOST_NUMBERS => Vec::new(),
        Content::Numbers(numbers) => {
            let tidied = tidy(text);
            from_unseen(&tidied, habits)
                .or_else(|| unseen(&tidied, habits).map(|value| vec![value]))
                .unwrap_or_else(|| of_cell(&tidied, &numbers))
        }
        Content::Words => unseen(&tidy(text), habits).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn not_seen(limit: Option<f64>, unit: Option<Found>, around: String, allowed: Option<Limit>) -> Value {
    let below = Comparator::Below;
    Value { statistic: None, comparator: below, value: limit, unit, around, limit: allowed, question: None }
}

/// "Not detected (limit of detection 0.02)", "n.n. (< 0,02 mg/l)".
pub(crate) fn unseen(tidied: &str, habits: Habits) -> Option<Value> {
    let start = tidied.trim_start();
    if !start.starts_with(|c: char| c.is_alphabetic() || c == '<') {
        return None;
    }
    let rest = after_mark(start)?;
    let (chars, numbers): (Vec<char>, _) = (rest.chars().collect(), numbers(rest, habits.decimal));
    let all = pieces(&chars, &numbers);
    let seen = |p: &&Piece<'_>| {
        let bracket = p.before.trim().is_empty() || matches!(p.before.trim(), "(" | "[");
        p.role == Role::Lod
            || p.role == Role::Result(None)
                && (bracket
                    || p.number.comparator == Comparator::Below
                    || words(&p.before).iter().all(|w| lexicon().is_beside(w)))
    };
    let lod: Vec<&Piece<'_>> = all.iter().filter(seen).collect();
    let others = all.iter().any(|p| matches!(p.role, Role::Result(_) | Role::Unclear) && !seen(&p));
    if others
        || lod.len() > 1
        || numbers.is_empty() && !words(rest).is_empty() && !rest.trim_start().starts_with(['(', ',', ';', '*'])
    {
        return None;
    }
    let lod = lod.first();
    let around = lod.map_or_else(|| rest.to_owned(), |p| p.behind.clone());
    Some(not_seen(lod.map(|p| p.number.value), lod.and_then(|p| p.unit.clone()), around, limit(&all)))
}

/// What stands behind the longest mark for "too little to be seen" that a text begins with.
fn after_mark(text: &str) -> Option<&str> {
    if !lexicon().may_begin_not_detected(text) {
        return None;
    }
    let mut ends: Vec<usize> =
        text.char_indices().filter(|(_, c)| c.is_whitespace() || *c == '(').map(|(i, _)| i).take(7).collect();
    ends.push(text.len());
    ends.into_iter().rev().find_map(|end| {
        let (mark, rest) = text.split_at_checked(end)?;
        let mark = mark.trim().trim_end_matches([',', ';', ':', '(']);
        (lexicon().is_not_detected(mark) && !lexicon().is_no_value(mark)).then_some(rest)
    })
}

/// "ND - 40": from too little to be seen up to a number.
fn from_unseen(tidied: &str, habits: Habits) -> Option<Vec<Value>> {
    if !tidied.starts_with(|c: char| c.is_alphabetic() || c == '<') {
        return None;
    }
    let (low, high) = tidied
        .split_once(" - ")
        .or_else(|| {
            let to = tidied.split_whitespace().find(|w| lexicon().is_to(w))?;
            tidied.split_once(&format!(" {to} "))
        })
        .or_else(|| tidied.split_once('-'))?;
    let mut low = values(low, habits).pop().filter(|v| v.value.is_none())?;
    let mut high = values(high, habits).pop().filter(|v| v.value.is_some() && v.statistic.is_none())?;
    low.statistic = Some(Statistic::Min);
    high.statistic = Some(Statistic::Max);
    low.unit.clone_from(&high.unit);
    Some(vec![low, high])
}

/// The values of a cell of a table.
fn of_cell(tidied: &str, numbers: &[Number]) -> Vec<Value> {
    let chars: Vec<char> = tidied.chars().collect();
    // A number and nothing else.
    if let [Number { comparator, value, or: None, start: 0, end }] = numbers
        && *end == chars.len()
    {
        let (comparator, value, around) = (*comparator, Some(*value), String::new());
        return vec![Value { statistic: None, comparator, value, unit: None, around, limit: None, question: None }];
    }
    let mut out = of_numbers(&chars, numbers);
    let before: String = chars.get(..numbers.first().map_or(0, |n| n.start)).unwrap_or_default().iter().collect();
    let known = |w: &String| lexicon().is_beside(w) || lexicon().in_headings(w) || lexicon().is_between(w);
    let strange = words(&before).into_iter().find(|w| !known(w) && w.chars().any(char::is_alphabetic));
    if let Some(word) = strange.filter(|w| !lexicon().ends_with_below(&words(&before)) && w.len() > 1) {
        let all = out.iter_mut().filter(|v| v.question.is_none());
        all.for_each(|v| {
            v.question = Some(format!("Is \"{}\" the result? \"{word}\" is not understood.", tidied.trim()))
        });
    }
    // "up to 10", "50 allowed"
    let all = words(&before);
    let up_to = all.last().is_some_and(|w| w.chars().count() > 2 && lexicon().is_to(w))
        || all.len() > 1 && lexicon().is_to(&all.get(all.len() - 2..).unwrap_or_default().join(" "));
    let behind = out.first().filter(|_| numbers.len() == 1).map_or("", |v| v.around.as_str());
    if up_to && numbers.len() == 1 || limit_behind(behind) {
        let ask = || Some(format!("Is \"{}\" found, or allowed?", tidied.trim()));
        out.iter_mut().filter(|v| v.question.is_none()).for_each(|v| v.question = ask());
    }
    asked(out, tidied)
}

/// "Maximum 12" alone may be the highest allowed, and so may the ends of "7.4 (min 6.5, max 9.5)".
pub(crate) fn asked(mut values: Vec<Value>, text: &str) -> Vec<Value> {
    let one = |s: Statistic| values.iter().find(|v| v.statistic == Some(s)).and_then(|v| v.value);
    let plain = values.iter().find(|v| !matches!(v.statistic, Some(Statistic::Min | Statistic::Max)));
    let (low, high) = (one(Statistic::Min), one(Statistic::Max));
    let Some(high) = high else { return values };
    let far = plain.and_then(|v| v.value).is_some_and(|v| high > FAR * v);
    let of_ph = plain.is_some() && low == Some(6.5) && [8.5, 9.0, 9.2, 9.5].contains(&high);
    if low.is_some() && !far && !of_ph {
        return values;
    }
    let ends = |v: &&mut Value| matches!(v.statistic, Some(Statistic::Min | Statistic::Max)) && v.question.is_none();
    for value in values.iter_mut().filter(ends) {
        value.question = Some(format!("Is \"{}\" found, or allowed?", text.trim()));
    }
    values
}

/// A highest value so many times the mean is asked about; common practice, no source.
const FAR: f64 = 5.0;

/// The results among the numbers of a text.
pub(crate) fn of_numbers(chars: &[char], numbers: &[Number]) -> Vec<Value> {
    let all = pieces(chars, numbers);
    let cut = |from: usize, to: usize| chars.get(from..to).unwrap_or_default().iter().collect::<String>();
    let limit = limit(&all);
    let unclear = all.iter().any(|p| p.role == Role::Unclear);
    let mut out: Vec<Value> = Vec::new();
    for (i, piece) in all.iter().enumerate() {
        let Role::Result(statistic) = piece.role else { continue };
        let number = piece.number;
        // "425 µS/cm (25 °C)": what stands beside the value goes with it.
        let aside = all.iter().skip(i + 1).take_while(|p| p.role == Role::Aside).last();
        let around =
            aside.map_or_else(|| piece.behind.clone(), |a| format!("{}{}", cut(number.end, a.number.end), a.behind));
        let shown = cut(number.start, number.end);
        let meant = number.or.map(|or| format!("Is {shown} meant as {} or as {or}?", number.value));
        let which = || format!("Which value does \"{}\" give?", chars.iter().collect::<String>().trim());
        let question = if unclear { Some(which()) } else { meant };
        let (value, comparator) = (Some(number.value), number.comparator);
        out.push(Value {
            statistic,
            comparator,
            value,
            unit: piece.unit.clone(),
            around,
            limit: limit.clone(),
            question,
        });
    }
    share_units(&mut out);
    out
}

/// The unit of a range stands behind its upper end, that of "0.1 to 1.3, on average 0.6 mg/l" behind the last.
fn share_units(all: &mut [Value]) {
    for i in (0..all.len()).rev() {
        let next = all.get(i + 1).map(|v| (v.unit.clone(), v.around.clone()));
        let Some(value) = all.get_mut(i) else { continue };
        let Some((unit, around)) = next.filter(|(unit, _)| unit.is_some()) else { continue };
        let low = value.statistic == Some(Statistic::Min);
        if value.statistic.is_some()
            && (value.unit.is_none() || low && value.unit.as_ref().map(|u| u.unit) == unit.as_ref().map(|u| u.unit))
        {
            value.unit = unit;
            value.around = around;
        }
    }
    let last = all.iter().rev().find_map(|v| v.unit.clone());
    all.iter_mut().filter(|v| v.unit.is_none() && v.statistic.is_some()).for_each(|v| v.unit.clone_from(&last));
}

/// What is allowed, in mg/L where its unit says so; a range has no number.
pub(crate) fn limit(all: &[Piece<'_>]) -> Option<Limit> {
    let said: Vec<&Piece<'_>> = all.iter().filter(|p| p.role == Role::Limit).collect();
    let first = said.first()?;
    let unit = said.iter().find_map(|p| p.unit.as_ref());
    let numbers: Vec<String> = said.iter().map(|p| p.number.value.to_string()).collect();
    let text = format!("{}{}", numbers.join(" - "), unit.map_or(String::new(), |u| format!(" {}", u.text.trim())));
    let mg = unit.is_none_or(|u| u.unit == Unit::MgPerL && u.scale == 1.0);
    Some(Limit { text, value: Some(first.number.value).filter(|_| said.len() == 1 && mg) })
}
