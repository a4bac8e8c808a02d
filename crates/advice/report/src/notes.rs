//! Lines of notes and sentences: "GH 9 °dH", "Nitrate: 20 ppm", "The average pH was 7.5, with a low of 7.1."

use crate::cell::{Number, numbers};
use crate::dates::is_year;
use crate::fold::{self, tidy};
use crate::found::Found;
use crate::grid::{Grid, Row};
use crate::lexicon::lexicon;
use crate::means::says_mean;
use crate::named::{Name, Named};
use crate::roles::sentence_end;
use crate::row::{name_in, noted};
use crate::table::{Habits, name_of};
use crate::values::{MOST_NUMBERS, Value, asked, of_numbers, unseen};
use crate::{Unit, ask, unit_find};

/// Words beside the name from which on a line is a sentence on something else.
const SENTENCE: usize = 4;
/// A longer text, in characters, is no note.
const LONGEST: usize = 1200;
/// Lines shorter than this are not broken by the width of a page.
const BROKEN: usize = 50;

/// Read the first filled cell of a row as a note; the rest of the row goes with it.
pub(crate) fn read(grid: &Grid, row: &Row, from: usize, habits: Habits, found: &mut Found) {
    let own = tidy(row.text(from));
    if own.chars().count() > LONGEST {
        return;
    }
    let text = match continued(grid, row, from) {
        Some(next) => format!("{own} {next}"),
        None => own.into_owned(),
    };
    let text = without_leaders(&text);
    let mut text = &*text;
    while is_legend(text) {
        let Some((_, rest)) = text.split_once(". ") else { return };
        text = rest;
    }
    let chars: Vec<char> = text.chars().collect();
    let all = numbers(text, habits.decimal);
    // "The average hardness of your water in 2024 was:" gives none itself.
    let years =
        || all.iter().all(|n| is_year(&chars.get(n.start..n.end).unwrap_or_default().iter().collect::<String>()));
    if all.len() > MOST_NUMBERS || text.trim_end().ends_with(':') && years() {
        return;
    }
    let place = grid.place(row, Some(from));
    let crowded = grid.width() > 1 && row.cells.iter().filter(|c| !c.text.trim().is_empty()).count() > 2;
    let parts = match all.first() {
        None => vec![(0, chars.len())],
        Some(first) if names_follow(&chars, first, all.get(1)) => value_first(&chars, &all),
        Some(_) => parts(&chars, &all),
    };
    let notes = found.footnotes.clone();
    let (unit, mean) = of_line(&chars, all.first());
    let habits = Habits { all_in: unit.or(habits.all_in), mean: mean || habits.mean, ..habits };
    for (start, end) in parts {
        let part: String = chars.get(start..end).unwrap_or_default().iter().collect();
        let Some((name, head, values)) = note(part.trim(), habits) else { continue };
        for value in &values {
            let mut raw = noted(&name, head.trim().trim_end_matches(':'), value, &place, habits, &notes);
            if crowded {
                ask::doubt(&mut raw.reading, format!("Is \"{}\" the result?", place.text));
            }
            found.push(raw);
        }
    }
}

/// "LQ : limite de quantification (fer 10 µg/L)", "BG = Bestimmungsgrenze": what a word of the table stands for.
fn is_legend(text: &str) -> bool {
    use knowledge::ReportColumn::{Count, Failing, Limit, Lod, Uncertainty};
    let Some((word, _)) = text.split_once([':', '=']) else { return false };
    let role = lexicon()
        .column(word)
        .is_some_and(|(role, exact)| exact && matches!(role, Count | Failing | Limit | Lod | Uncertainty));
    let named = || matches!(name_of(word), Named::Determinand(_));
    (role || lexicon().is_not_detected(word.trim())) && !named()
}

/// "Mean composition (mg/l): Ca 58, Mg 11": the unit before the colon is that of all values behind it; and whether they are
/// means.
fn of_line(chars: &[char], first: Option<&Number>) -> (Option<Unit>, bool) {
    let head: String = chars.get(..first.map_or(0, |n| n.start)).unwrap_or_default().iter().collect();
    let names = |text: &str| matches!(name_of(text), Named::Determinand(_));
    let Some((before, _)) = head.rsplit_once(':').filter(|(before, name)| !names(before) && names(name)) else {
        return (None, false);
    };
    let mut units = unit_find::all(before).into_iter().filter(|f| f.scale == 1.0 && f.unit.is_mass());
    let unit = units.next().filter(|_| units.next().is_none()).map(|f| f.unit);
    (unit, says_mean(before))
}

/// "Sodium.......12.1": the dots lead to the value.
fn without_leaders(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("...") {
        let (before, dots) = rest.split_at(at);
        out.push_str(before);
        out.push(' ');
        rest = dots.trim_start_matches('.');
    }
    out.push_str(rest);
    out
}

/// The next line, where a sentence goes on in it.
fn continued<'a>(grid: &'a Grid, row: &Row, from: usize) -> Option<&'a str> {
    let text = row.text(from);
    let ends = text.ends_with(['.', ':', ';', '!', '?']) || text.chars().count() < BROKEN;
    if ends || row.cells.iter().filter(|c| !c.text.trim().is_empty()).count() > 1 {
        return None;
    }
    let at = grid.rows.binary_search_by(|r| r.line.cmp(&row.line)).ok()?;
    let next = grid.rows.get(at + 1).filter(|r| r.line == row.line + 1)?;
    let alone = next.cells.iter().filter(|c| !c.text.trim().is_empty()).count() == 1;
    let more = next.text(from);
    let begins = more.starts_with(|c: char| c.is_lowercase() || c.is_ascii_digit() || c == '(');
    let head: String = more.chars().take_while(|c| !c.is_ascii_digit()).collect();
    (alone && begins && matches!(name_of(&head), Named::Unknown) && more.chars().count() < LONGEST).then_some(more)
}

/// Where the parts of a text begin and end that speak of one determinand each.
fn parts(chars: &[char], all: &[Number]) -> Vec<(usize, usize)> {
    let cut = |a: usize, b: usize| chars.get(a..b).unwrap_or_default().iter().collect::<String>();
    let mut starts: Vec<usize> = Vec::new();
    let mut key = None;
    let mut from = 0;
    for number in all {
        let between = cut(from, number.start);
        let begin = from + boundary(&between, from == 0);
        let text = cut(begin, number.start);
        let of_basis = || !starts.is_empty() && lexicon().bases(&fold::stems(&text)).contains(&"CaCO3");
        let named = match name_of(&text) {
            // "153 ppm as calcium carbonate equals 9.0 grains" names no calcium.
            Named::Determinand(name) if name.key == "calcium" && of_basis() => None,
            Named::Apart if of_basis() => None,
            Named::Determinand(name) => Some(Some(name.key)),
            Named::Apart => Some(None),
            Named::Unknown => None,
        };
        // "as NO3" behind a value names no other one; the same name in the next sentence gives another value.
        let next = begin > from && sentence_end(&between).is_some();
        if let Some(named) = named.filter(|n| starts.is_empty() || *n != key || next) {
            starts.push(begin);
            key = named;
        }
        from = number.end;
    }
    if starts.is_empty() {
        starts.push(0);
    }
    let ends = starts.iter().skip(1).copied().chain([chars.len()]).collect::<Vec<_>>();
    starts.into_iter().zip(ends).collect()
}

/// "21.3 mg/l of sodium and 12 mg/l of magnesium": no name before the first number, one behind it.
fn names_follow(chars: &[char], first: &Number, next: Option<&Number>) -> bool {
    let cut = |a: usize, b: usize| chars.get(a..b).unwrap_or_default().iter().collect::<String>();
    let head = cut(0, first.start);
    let head: String = head.chars().skip(boundary(&head, true)).collect();
    let behind = cut(first.end, next.map_or(chars.len(), |n| n.start));
    let own = unit_find::find(&format!("1{behind}")).filter(|f| f.start <= 2).map(|f| f.end - 1);
    let named = |text: &str| matches!(name_of(text), Named::Determinand(_) | Named::Apart);
    own.is_some_and(|end| !named(&head) && named(&behind.chars().skip(end).collect::<String>()))
}

/// The parts where each value stands before its name.
fn value_first(chars: &[char], all: &[Number]) -> Vec<(usize, usize)> {
    let starts = all.iter().map(|n| n.start).enumerate().map(|(i, start)| if i == 0 { 0 } else { start });
    let ends = all.iter().skip(1).map(|n| n.start).chain([chars.len()]);
    starts.zip(ends).collect()
}

/// Where in the text between two numbers what follows begins: at the last sentence, behind the first comma, behind the unit.
fn boundary(between: &str, is_first: bool) -> usize {
    if let Some(end) = sentence_end(between) {
        return end;
    }
    if is_first {
        // "Composition in mg/L : Calcium"
        let behind = between.rsplit_once(": ").filter(|(before, name)| {
            let told = lexicon().column(before).is_some_and(|(role, _)| role == knowledge::ReportColumn::Limit);
            !told && matches!(name_of(before), Named::Unknown) && matches!(name_of(name), Named::Determinand(_))
        });
        return behind.map_or(0, |(before, _)| before.chars().count() + 2);
    }
    let unit = unit_find::find(&format!("1{between}")).filter(|f| f.start <= 2).map_or(0, |f| f.end - 1);
    let open = between.chars().skip(unit).position(|c| matches!(c, ',' | ';' | '|' | '/'));
    open.map_or(unit, |at| unit + at + 1)
}

/// One part: its name, the words before its value, and its values.
fn note(part: &str, habits: Habits) -> Option<(Name, String, Vec<Value>)> {
    let chars: Vec<char> = part.chars().collect();
    let cut = |a: usize, b: usize| chars.get(a..b).unwrap_or_default().iter().collect::<String>();
    if let Some(read) = not_seen(part, habits) {
        return Some(read);
    }
    let mut all = numbers(part, habits.decimal);
    let first = (0..all.len()).find(|&i| !is_of_name(&chars, &all, i))?;
    all.drain(..first);
    let values = of_numbers(&chars, &all);
    let head = cut(0, all.first()?.start);
    let result = values.first()?;
    // "Nitrate (limit 50 mg/l): 12": what stands before the result.
    let until = all.iter().find(|n| Some(n.value) == result.value).map_or(head.clone(), |n| cut(0, n.start));
    let behind = words_behind(&result.around, all.len());
    let named = name_in(&head).or_else(|| name_in(&until)).or_else(|| {
        let of_it = name_in(&behind)?;
        let strange = fold::stems(&head).into_iter().filter(|w| !lexicon().is_beside(w) && w.chars().count() > 1);
        Some(Name { strange: of_it.strange.iter().cloned().chain(strange).collect(), ..of_it })
    })?;
    let several = values.len() > 1;
    let name = match name_in(&format!("{head} {behind}")) {
        // "5.2 mg/l as N (23 mg/l as NO3)": each value has its own basis behind it.
        Some(whole) if several && whole.strange.len() <= named.strange.len() => Name { beside: named.beside, ..whole },
        Some(whole) if whole.strange.len() <= named.strange.len() => whole,
        _ => named,
    };
    let name = plainly(name);
    let mut values = asked(values, part);
    // "We add fluoride" in brackets behind the value makes no doubt of it.
    let clause = values.last().map_or("", |v| v.around.split(['(', ',', ';']).next().unwrap_or(""));
    let clause = clause.split_once(". ").map_or(clause, |(before, _)| before);
    // "1 °dH = 17.8 mg/l of hardness" explains, too.
    let legend = several && values.iter().any(|v| v.value == Some(1.0));
    if legend || lexicon().explains(&format!("{head} {clause}")) {
        let asks = || Some(format!("Is \"{}\" about your water?", part.trim()));
        values.iter_mut().for_each(|v| v.question = asks());
    }
    (name.strange.len() < SENTENCE).then_some((name, head, values))
}

/// The name without the words that tell what the number is: "average", "between", "limit".
fn plainly(name: Name) -> Name {
    let known = |w: &String| lexicon().in_headings(w) || lexicon().is_between(w);
    let strange: Vec<String> = name.strange.iter().filter(|w| !known(w)).cloned().collect();
    Name { strange: strange.into(), ..name }
}

/// "Iron: not detected", "Nitrit n.n."
fn not_seen(part: &str, habits: Habits) -> Option<(Name, String, Vec<Value>)> {
    let marks = part.char_indices().filter(|(_, c)| c.is_whitespace() || matches!(c, ':' | '='));
    let (head, value) = marks.take(40).find_map(|(at, c)| {
        let (head, tail) = part.split_at_checked(at)?;
        Some((head, unseen(tail.get(c.len_utf8()..)?, habits)?))
    })?;
    let name = name_in(head).map(plainly).filter(|n| n.strange.is_empty())?;
    Some((name, head.to_owned(), vec![value]))
}

/// "25 °C" behind "at" belongs to the name of a conductivity or a pH, and 4,3 to that of an acid capacity to pH 4,3.
fn is_of_name(chars: &[char], all: &[Number], i: usize) -> bool {
    let Some(number) = all.get(i) else { return false };
    let cut = |a: usize, b: usize| chars.get(a..b).unwrap_or_default().iter().collect::<String>();
    let (head, tail) = (cut(0, number.start), cut(number.start, chars.len()));
    let celsius = unit_find::find(&tail)
        .is_some_and(|f| f.unit == crate::Unit::Celsius && f.start <= number.end - number.start + 1);
    let of_temperature = || name_in(&head).is_some_and(|n| n.key == "conductivity" || n.key == "ph");
    if celsius && of_temperature() {
        return true;
    }
    let Some(next) = all.get(i + 1) else { return false };
    let shown = cut(number.start, number.end);
    if is_year(&shown) && tail.chars().nth(shown.len()) == Some(':') {
        return true;
    }
    let ends_with_ph = fold::words(&head).last().is_some_and(|w| w == "ph");
    ends_with_ph
        && name_in(&head).is_none_or(|n| n.key != "ph")
        && !matches!(name_of(&cut(0, next.start)), Named::Unknown)
}

/// The words behind value and unit, which may say more of the name: "Cl2 0.1 mg/l free".
fn words_behind(around: &str, numbers: usize) -> String {
    let chars: Vec<char> = around.chars().collect();
    match unit_find::find(around) {
        Some(unit) => chars.get(unit.end..).unwrap_or_default().iter().collect(),
        None if numbers > 1 => around.to_owned(),
        None => String::new(),
    }
}
