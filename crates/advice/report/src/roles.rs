//! What each number of a text is there for: a result, what is allowed, what can be seen, something beside it.

use knowledge::{ReportColumn, ReportWord};

use crate::cell::Number;
use crate::dates::is_year;
use crate::fold::words;
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::name_of;
use crate::unit_find::{self, Found};
use crate::unit_of::may_be_one;
use crate::{Statistic, Unit};

/// What a number is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// A result; which one, where the words say so.
    Result(Option<Statistic>),
    /// What is allowed or advised.
    Limit,
    /// What the method can see.
    Lod,
    /// The temperature it refers to, an uncertainty, a count, a year, a footnote.
    Aside,
    /// Nobody can say.
    Unclear,
}

/// A number with the text around it.
pub(crate) struct Piece<'a> {
    pub number: &'a Number,
    /// From the number before it.
    pub before: String,
    /// Up to the next number.
    pub behind: String,
    pub unit: Option<Found>,
    pub role: Role,
}

/// The numbers of a text with their roles.
pub(crate) fn pieces<'a>(chars: &[char], numbers: &'a [Number]) -> Vec<Piece<'a>> {
    let cut = |from: usize, to: usize| chars.get(from..to).unwrap_or_default().iter().collect::<String>();
    let mut out: Vec<Piece<'a>> = Vec::new();
    for (i, number) in numbers.iter().enumerate() {
        let from = i.checked_sub(1).and_then(|b| numbers.get(b)).map_or(0, |n| n.end);
        let behind = cut(number.end, numbers.get(i + 1).map_or(chars.len(), |n| n.start));
        let before = cut(from, number.start);
        let unit = unit_behind(&behind);
        out.push(Piece { number, before, behind, unit, role: Role::Unclear });
    }
    let (labels, in_units) = (labels_behind(&out), in_units(chars, numbers));
    for i in 0..out.len() {
        let label = labels.get(i).copied();
        let of_unit = in_units.get(i) == Some(&true);
        let role = if of_unit { Role::Aside } else { label.unwrap_or_else(|| role(chars, &mut out, i)) };
        out.get_mut(i).into_iter().for_each(|p| p.role = role);
    }
    out
}

/// "10 (min) 14 (max)", "12 avg": where every number has its word behind it, those words count.
fn labels_behind(all: &[Piece<'_>]) -> Vec<Role> {
    let label = |p: &Piece<'_>| {
        let word = bare(&p.behind);
        match lexicon().column(word.trim_matches([' ', '(', ')', '.', ',', ';', '[', ']'])) {
            Some((role, true)) => of_column(role).filter(|t| matches!(t, Told::Result(Some(_)))),
            _ => None,
        }
    };
    let before = all.first().is_some_and(|p| said(&p.before).is_some());
    let labels: Option<Vec<Role>> =
        all.iter().map(|p| Some(if let Told::Result(s) = label(p)? { Role::Result(s) } else { return None })).collect();
    labels.filter(|_| !before).unwrap_or_default()
}

/// The unit behind a number: a bare C is one there.
pub(crate) fn unit_behind(around: &str) -> Option<Found> {
    let found = unit_find::find(&format!("1{around}"))?;
    Some(Found { start: found.start.checked_sub(1)?, end: found.end.checked_sub(1)?, ..found })
}

/// The unit right behind a number, with nothing but spaces between.
fn own_unit<'a>(piece: &'a Piece<'_>) -> Option<&'a Found> {
    let right = |f: &&Found| piece.behind.chars().take(f.start).all(|c| c == ' ');
    piece.unit.as_ref().filter(right)
}

fn role(chars: &[char], all: &mut [Piece<'_>], i: usize) -> Role {
    let (earlier, rest) = all.split_at_mut(i);
    let Some((piece, later)) = rest.split_first() else { return Role::Unclear };
    let result = |p: &&mut Piece<'_>| matches!(p.role, Role::Result(_));
    let first = earlier.iter_mut().find(result).map(|p| p.unit.clone());
    if is_aside(chars, piece, i, first.as_ref()) {
        return Role::Aside;
    }
    if let Some(role) = earlier.last_mut().and_then(|last| goes_on(last, piece)) {
        return role;
    }
    let told = said(&piece.before);
    if told == Some(Told::Limit) || first.is_some() && later.is_empty() && limit_behind(&piece.behind) {
        return Role::Limit;
    }
    if warns(chars, piece.number) {
        return Role::Aside;
    }
    match told {
        Some(Told::Lod) => return Role::Lod,
        Some(Told::Aside) => return Role::Aside,
        Some(Told::Result(statistic)) => return Role::Result(statistic),
        _ => {}
    }
    // "12 (< 50)": what a value is to be under.
    let below = piece.number.comparator == quantity::Comparator::Below && piece.before.trim_end().ends_with('(');
    let plain = |p: &Piece<'_>| p.role == Role::Result(None) && p.number.comparator == quantity::Comparator::Equal;
    let alike = |a: &Found| piece.unit.as_ref().is_none_or(|b| a.unit == b.unit);
    let ranged = later.first().is_some_and(|next| is_to(&next.before));
    if below && !ranged && earlier.last().is_some_and(|p| plain(p) && p.unit.as_ref().is_none_or(alike)) {
        return Role::Limit;
    }
    if first.is_none() {
        // "LOD 120 12": two numbers side by side, and one word for them.
        let bare =
            |last: &&mut Piece<'_>| matches!(last.role, Role::Limit | Role::Lod) && piece.before.trim().is_empty();
        earlier.last_mut().filter(bare).into_iter().for_each(|last| last.role = Role::Unclear);
        return Role::Result(None);
    }
    if sentence_end(&piece.before).is_some() {
        return Role::Aside;
    }
    // "8.4 (7.9 - 8.9)"
    let bare = bare(&piece.before);
    let opens = bare.trim_end().ends_with(['(', '[']) && words(&bare).iter().all(known);
    if opens && later.first().is_some_and(|next| is_to(&next.before)) {
        return Role::Result(None);
    }
    again(earlier, piece)
}

/// What says nothing of the value: its uncertainty, the temperature it refers to, how many, when, a footnote, a share.
fn is_aside(chars: &[char], piece: &Piece<'_>, i: usize, first: Option<&Option<Found>>) -> bool {
    let before = piece.before.trim_end();
    let number = piece.number;
    let shown: String = chars.get(number.start..number.end).unwrap_or_default().iter().collect();
    let celsius = |f: &Found| f.unit == Unit::Celsius;
    // "25 graden" behind another value
    let degrees = words(&piece.behind).first().is_some_and(|w| unit_find::is_word_of_celsius(w));
    let counted = words(&piece.behind).into_iter().next().filter(|w| w.chars().count() > 2);
    let count = own_unit(piece).is_none()
        && counted.is_some_and(|w| matches!(lexicon().column(&w), Some((ReportColumn::Count, true))));
    piece.behind.trim_start().starts_with('%')
        || is_share(&piece.behind)
        || before.ends_with('±')
        || before.ends_with("+/-")
        || before.ends_with("+-")
        || ["n=", "n ="].iter().any(|n| before.to_lowercase().ends_with(n))
        || count
        || i > 0 && is_footnote(chars, number)
        || degrees && own_unit(piece).is_none() && first.is_some_and(|u| u.as_ref().is_some_and(|u| !celsius(u)))
        || own_unit(piece).is_some_and(celsius) && first.is_some_and(|u| !u.as_ref().is_some_and(celsius))
        || i > 0 && is_year(&shown) && own_unit(piece).is_none()
}

/// "25 percent", "25 per cent" behind a number.
fn is_share(behind: &str) -> bool {
    let first: Vec<String> = words(behind).into_iter().take(2).collect();
    let told = behind.starts_with([' ', '-']) && behind.trim_start_matches([' ', '-']).starts_with(char::is_alphabetic);
    told && (first.first().is_some_and(|w| lexicon().is(ReportWord::Percent, w))
        || lexicon().is(ReportWord::Percent, &first.concat()))
}

/// "Levels above 10 ppm are a health risk for infants": a level that is not the water's.
fn warns(chars: &[char], number: &Number) -> bool {
    let cut = |from: usize, to: usize| chars.get(from..to).unwrap_or_default().iter().collect::<String>();
    let before = cut(0, number.start);
    let before = before.chars().skip(sentence_end(&before).unwrap_or(0)).collect::<String>();
    let is = |kind: ReportWord, text: &str| words(text).iter().any(|w| lexicon().is(kind, w));
    let above = before.rsplit([',', ';', ':']).next().is_some_and(|clause| is(ReportWord::Above, clause));
    let behind = cut(number.end, chars.len());
    above && (is(ReportWord::Warns, &before) || is(ReportWord::Warns, behind.split(". ").next().unwrap_or("")))
}

/// "12 - 18", "between 7.1 and 8.2", "6.5 to 8.5" behind a limit.
fn goes_on(last: &mut Piece<'_>, piece: &Piece<'_>) -> Option<Role> {
    let both = lexicon().ends_with_between(&words(&last.before)) && lexicon().is_and(bare(&piece.before).trim());
    if !is_to(&piece.before) && !both {
        return None;
    }
    match last.role {
        Role::Limit => Some(Role::Limit),
        Role::Result(None) if last.number.value <= piece.number.value => {
            last.role = Role::Result(Some(Statistic::Min));
            Some(Role::Result(Some(Statistic::Max)))
        }
        Role::Aside => Some(Role::Aside),
        _ => Some(Role::Unclear),
    }
}

/// The same result in another unit, or counted otherwise.
fn again(earlier: &[Piece<'_>], piece: &Piece<'_>) -> Role {
    let joins = |w: &String| known(w) || lexicon().is_in_basis(w) || lexicon().is(ReportWord::Equals, w);
    let Some(unit) = own_unit(piece).filter(|_| words(&bare(&piece.before)).iter().all(joins)) else {
        return Role::Unclear;
    };
    let bases = |p: &Piece<'_>| {
        let stems = crate::fold::stems(&p.behind);
        let formula = stems.iter().find(|w| lexicon().is(ReportWord::Formula, w)).cloned();
        formula.or_else(|| lexicon().bases(&stems).first().map(|b| (*b).to_lowercase()))
    };
    let results = || earlier.iter().filter(|p| matches!(p.role, Role::Result(_)));
    let one =
        |p: &Piece<'_>| p.unit.as_ref().is_none_or(|u| may_be_one((u, p.number.value), (unit, piece.number.value)));
    if !results().any(one) {
        return Role::Unclear;
    }
    let mut same = None;
    for other in results() {
        let Some(theirs) = other.unit.as_ref() else { return Role::Unclear };
        let (a, b) = (other.number.value * in_milligrams(theirs), piece.number.value * in_milligrams(unit));
        if (a / b - 1.0).abs() < 0.01 {
            return Role::Aside;
        }
        let told_apart = bases(piece).zip(bases(other)).is_some_and(|(a, b)| a != b);
        let same_kind = theirs.unit == unit.unit || theirs.unit.is_mass() && unit.unit.is_mass();
        if same_kind && !told_apart {
            return Role::Unclear;
        }
        same = Some(other.role);
    }
    match same {
        Some(Role::Result(Some(Statistic::Min | Statistic::Max))) | None => Role::Result(None),
        Some(role) => role,
    }
}

/// Words beside a number that change nothing, or say how it is counted.
fn known(w: &String) -> bool {
    lexicon().is_beside(w)
        || w.chars().count() == 1
        || lexicon().is(ReportWord::Formula, w)
        || !lexicon().bases(std::slice::from_ref(w)).is_empty()
}

/// What one of a unit is in its own kind's unit: µg/L beside mg/L are one kind.
fn in_milligrams(found: &Found) -> f64 {
    if found.unit == Unit::UgPerL { found.scale * 1e-3 } else { found.scale }
}

/// What the words before a number say of it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Told {
    Limit,
    Lod,
    Aside,
    Result(Option<Statistic>),
}

/// The words nearest to the number count; a limit among them goes first.
fn said(before: &str) -> Option<Told> {
    let from = sentence_end(before).unwrap_or(0);
    let bare = bare(&before.chars().skip(from).collect::<String>());
    // What a bracket closes belongs to the number before it.
    let bare =
        bare.split_once([')', ']']).filter(|(inside, _)| !inside.contains(['(', '['])).map_or(&*bare, |(_, b)| b);
    bare.split([',', ';', '(', ')', '[', ']', ':']).rev().find_map(of_clause)
}

fn of_clause(clause: &str) -> Option<Told> {
    let all: Vec<&str> = clause.split_whitespace().collect();
    let whole = lexicon().column(clause).map(|(role, _)| role);
    match whole? {
        ReportColumn::Limit => return Some(Told::Limit),
        ReportColumn::Lod => return Some(Told::Lod),
        ReportColumn::Uncertainty | ReportColumn::Failing | ReportColumn::Count => return Some(Told::Aside),
        _ => {}
    }
    let windows = |longest: usize| {
        let len = all.len();
        let ends = (1..=len).rev().take(12);
        ends.flat_map(move |end| (1..=longest.min(end)).rev().map(move |n| (end - n, end)))
    };
    let column = |(from, to): (usize, usize)| lexicon().column(&all.get(from..to).unwrap_or_default().join(" "));
    if windows(3).any(|w| matches!(column(w), Some((ReportColumn::Limit, true)))) {
        return Some(Told::Limit);
    }
    let own = |w: &(usize, usize)| !(w.1 - w.0 == 1 && is_in_name(&all, w.0));
    windows(3).filter(own).filter_map(column).find_map(|(role, exact)| of_column(role).filter(|_| exact))
}

/// "Low Well has a sodium content of 10 mg/l": a short word that begins the name of a place.
fn is_in_name(words: &[&str], at: usize) -> bool {
    let capital = |w: &&&str| w.starts_with(char::is_uppercase) && w.chars().all(char::is_alphabetic);
    let pair = words.get(at).zip(words.get(at + 1)).filter(|(a, b)| capital(a) && capital(b) && a.chars().count() <= 4);
    pair.is_some_and(|(_, next)| {
        let role = lexicon().column(next).map(|(role, _)| role);
        matches!(role, None | Some(ReportColumn::Place)) && matches!(name_of(next), Named::Unknown)
    })
}

fn of_column(role: ReportColumn) -> Option<Told> {
    Some(Told::Result(match role {
        ReportColumn::Min => Some(Statistic::Min),
        ReportColumn::Mean => Some(Statistic::Mean),
        ReportColumn::Median => Some(Statistic::Median),
        ReportColumn::Max => Some(Statistic::Max),
        ReportColumn::P95 => Some(Statistic::P95),
        ReportColumn::P90 => Some(Statistic::P90),
        ReportColumn::P10 => Some(Statistic::P10),
        ReportColumn::P5 => Some(Statistic::P5),
        ReportColumn::Range | ReportColumn::Value => None,
        _ => return None,
    }))
}

/// "250 allowed", with nothing between.
pub(crate) fn limit_behind(behind: &str) -> bool {
    let bare = bare(behind);
    let clause = bare.split([',', ';', '(']).next().unwrap_or("");
    matches!(lexicon().column(clause), Some((ReportColumn::Limit, _)))
}

/// The text without its units.
fn bare(text: &str) -> String {
    if text.chars().any(char::is_alphanumeric) {
        unit_find::without(&format!("1{text}")).chars().skip(1).collect()
    } else {
        text.to_owned()
    }
}

/// Behind the last full stop that ends a sentence, in characters.
pub(crate) fn sentence_end(text: &str) -> Option<usize> {
    let chars: Vec<char> = text.chars().collect();
    (1..chars.len())
        .rev()
        .find(|&i| {
            let stop = matches!(chars.get(i), Some('.' | '!' | '?'));
            let next =
                chars.get(i + 1) == Some(&' ') && chars.get(i + 2).is_some_and(|c| c.is_uppercase() || *c == '¿');
            let word = chars.get(..i).unwrap_or_default().iter().rev().take_while(|c| c.is_alphabetic()).count();
            let unit = i.checked_sub(word + 1).and_then(|b| chars.get(b)).is_some_and(|c| matches!(c, '/' | '°'));
            stop && next && (word == 0 || word > 3 || unit)
        })
        .map(|i| i + 2)
}

/// Whether a text between two numbers makes them a range.
pub(crate) fn is_to(between: &str) -> bool {
    let bare = bare(between);
    let text = bare.trim();
    let dash = !text.is_empty()
        && text.chars().all(|c| matches!(c, '-' | '.' | '…' | '/' | '÷'))
        && text != "."
        && text != "/";
    dash || lexicon().is_to(text)
}

/// Which numbers are part of a unit: the 1 of "l-1", the 3 of "m3".
fn in_units(chars: &[char], numbers: &[Number]) -> Vec<bool> {
    let units = unit_find::all(&chars.iter().collect::<String>());
    numbers.iter().map(|n| units.iter().any(|f| f.start <= n.start && n.end <= f.end)).collect()
}

/// "(1)", "1)": a mark behind the value.
fn is_footnote(chars: &[char], number: &Number) -> bool {
    let closes = chars.get(number.end) == Some(&')');
    let digits = number.end - number.start == 1;
    let opened = number.start.checked_sub(1).and_then(|i| chars.get(i)).is_some_and(|c| matches!(c, '(' | ' '));
    closes && digits && opened && number.comparator == quantity::Comparator::Equal
}
