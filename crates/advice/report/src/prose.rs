//! Sentences that go on in the next line of print, or in the next column of the page, put together before they are read.

use crate::fold::words;
use crate::grid::glued;
use crate::layout::{Line, Piece};
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::roles::sentence_end;
use crate::table::name_of;

/// So many lines side by side make columns of prose.
const LEAST: usize = 4;
/// Words of a line of prose, on average, in a column.
const WORDS: usize = 4;
/// Words of the line that begins two of them, on each side.
const FEWEST: usize = 3;
/// A line begins so near to the edge of its column, points: the first of a paragraph stands further in.
const INDENT: f64 = 24.0;
/// A shorter line, in characters, ends its sentence, and so does one that is shorter by this share than the longest.
const SHORT: usize = 28;
const SHORTER: f64 = 0.6;
/// A longer text, in characters, is no sentence.
const LONGEST: usize = 1000;

/// The lines of a page with columns of prose one below the other, as they are read.
pub(crate) fn in_order(lines: Vec<Line>) -> Vec<Line> {
    let columns = |at: usize| {
        let from = lines.get(at..)?;
        let x = gutter(from)?;
        let run = from.get(..run(from, x))?;
        (is_prose(run, x, false) && is_prose(run, x, true)).then_some((run, x))
    };
    let mut out: Vec<Line> = Vec::new();
    let (mut at, mut told) = (0, 0);
    while at < lines.len() {
        let Some((run, x)) = columns(at) else {
            at += 1;
            continue;
        };
        out.extend(lines.get(told..at).unwrap_or_default().iter().cloned());
        out.extend(side(run, x, false).into_iter().map(whole));
        let right = side(run, x, true);
        let count = right.len();
        let right = in_order(right);
        // There may be a third one.
        let one = right.len() == count;
        out.extend(right.into_iter().map(|line| if one { whole(line) } else { line }));
        at += run.len();
        told = at;
    }
    if told == 0 {
        return lines;
    }
    out.extend(lines.into_iter().skip(told));
    out.into_iter().zip(1_u32..).map(|(line, number)| Line { number, ..line }).collect()
}

/// Where the second column begins, if the first of these lines has two of prose.
fn gutter(lines: &[Line]) -> Option<f64> {
    let [left, right, ..] = &lines.first()?.pieces[..] else { return None };
    let words = |p: &Piece| p.text.split_whitespace().take(FEWEST).count() == FEWEST;
    if !words(left) || !words(right) {
        return None;
    }
    let second = |l: &Line| l.pieces.get(1).map(|p| p.x0);
    let near = lines.iter().take(2 * LEAST).filter_map(second).filter(|x| (x - right.x0).abs() <= INDENT);
    near.min_by(f64::total_cmp)
}

/// How many lines keep to both sides of `x`.
fn run(lines: &[Line], x: f64) -> usize {
    let keeps = |l: &&Line| l.pieces.iter().all(|p| p.x1 < x || p.x0 >= x - 0.5);
    lines.iter().take_while(keeps).count()
}

/// The pieces of a line on one side.
fn on(line: &Line, x: f64, right: bool) -> impl Iterator<Item = &Piece> {
    line.pieces.iter().filter(move |p| (p.x0 >= x - 0.5) == right)
}

/// One side as lines of their own.
fn side(lines: &[Line], x: f64, right: bool) -> Vec<Line> {
    let own = |l: &Line| Line { number: l.number, pieces: on(l, x, right).cloned().collect() };
    lines.iter().map(own).filter(|l| !l.pieces.is_empty()).collect()
}

/// Whether one side of these lines is prose.
fn is_prose(lines: &[Line], x: f64, right: bool) -> bool {
    let first = || lines.iter().filter_map(|l| on(l, x, right).next());
    let texts = || lines.iter().flat_map(|l| on(l, x, right)).map(|p| p.text.as_str());
    let edge = first().map(|p| p.x0).fold(f64::MAX, f64::min);
    let flush = first().filter(|p| p.x0 - edge <= INDENT).count();
    let numbers = texts().filter(|t| t.starts_with(|c: char| c.is_ascii_digit() || c == '<')).count();
    let said: usize = texts().map(|t| t.split_whitespace().count()).sum();
    let count = first().count();
    count >= LEAST && said >= WORDS * texts().count() && numbers * 3 <= count && flush * 4 >= count * 3
}

/// A line of a column in one piece: the space behind a full stop may be as wide as that between cells.
fn whole(line: Line) -> Line {
    let text = line.pieces.iter().map(|p| p.text.as_str()).collect::<Vec<_>>().join(" ");
    if line.pieces.len() > 1 { of(&line, text) } else { line }
}

/// The lines with those of one sentence put together, each where it begins.
pub(crate) fn sentences(lines: Vec<Line>) -> Vec<Line> {
    let mut out: Vec<Line> = Vec::with_capacity(lines.len());
    let mut rest = lines.into_iter().peekable();
    let mut longest = 0;
    while let Some(line) = rest.next() {
        let Some(text) = text_of(&line) else {
            out.push(line);
            longest = 0;
            continue;
        };
        longest = longest.max(text.chars().count());
        if !rest.peek().is_some_and(|next| goes_on(&line, next, longest, text)) {
            out.push(line);
            continue;
        }
        let (mut held, mut start, mut last) = (text.to_owned(), line.clone(), line);
        while let Some(next) = rest.peek().filter(|n| goes_on(&last, n, longest, &held)) {
            let more = text_of(next).unwrap_or_default();
            longest = longest.max(more.chars().count());
            let whole = glued(&held, more);
            // What ends in this line is told of where it begins.
            match sentence_end(&whole) {
                Some(end) => {
                    out.push(of(&start, whole.chars().take(end).collect::<String>().trim_end().to_owned()));
                    held = whole.chars().skip(end).collect();
                    start = next.clone();
                }
                None => held = whole,
            }
            last = next.clone();
            rest.next();
        }
        out.push(if last.number == start.number && text_of(&start) == Some(&held) { start } else { of(&start, held) });
    }
    out
}

/// The text of a line of one piece.
fn text_of(line: &Line) -> Option<&str> {
    match &line.pieces[..] {
        [piece] => Some(&piece.text),
        _ => None,
    }
}

fn of(line: &Line, text: String) -> Line {
    let (x0, x1) = line.pieces.first().map_or((0.0, 0.0), |p| (p.x0, p.x1));
    Line { number: line.number, pieces: vec![Piece { x0, x1, text, words: Vec::new() }] }
}

/// Whether the sentence of a line goes on in the next one.
fn goes_on(line: &Line, next: &Line, longest: usize, held: &str) -> bool {
    let (Some(text), Some(more)) = (text_of(line), text_of(next)) else { return false };
    let length = text.chars().count();
    let short = length < SHORT || (length as f64) < SHORTER * longest as f64;
    let ends = text.trim_end().ends_with(['.', ':', ';', '!', '?']);
    if short || ends || next.number != line.number + 1 || held.chars().count() > LONGEST {
        return false;
    }
    let joint = words(text).pop().filter(|w| text.ends_with(char::is_alphabetic) && lexicon().is_beside(w));
    let hangs = text.ends_with([',', '-', '\u{ad}', '\u{2010}']) || joint.as_ref().is_some_and(|w| w.len() <= JOINT);
    let small = more.starts_with(|c: char| c.is_lowercase() || c.is_ascii_digit() || c == '(');
    let head: String = more.chars().take_while(|c| !c.is_ascii_digit() && *c != ':').collect();
    // "Nitrate: 12 mg/l" below another one is a line of its own.
    let listed = !matches!(name_of(&head), Named::Unknown) || more.contains(':');
    hangs || (small || joint.is_some()) && !listed
}

/// A word so short, in letters, that a line ends with asks for more: "and", "der", "the".
const JOINT: usize = 3;

#[cfg(test)]
mod tests {
    use super::*;

    fn line(number: u32, pieces: &[(f64, &str)]) -> Line {
        let piece = |&(x0, text): &(f64, &str)| Piece {
            x0,
            x1: x0 + 5.0 * text.chars().count() as f64,
            text: text.to_owned(),
            words: Vec::new(),
        };
        Line { number, pieces: pieces.iter().map(piece).collect() }
    }

    fn texts(lines: &[Line]) -> Vec<&str> {
        lines.iter().flat_map(|l| &l.pieces).map(|p| p.text.as_str()).collect()
    }

    #[test]
    fn two_columns_are_read_one_after_the_other() {
        let left = [
            "Das Wasser kommt aus drei Quellen und",
            "hat im Mittel eine Gesamthärte von 13 °dH,",
            "der Nitratgehalt ist niedrig. Magne-",
            "sium wird mit 9 mg/l gefunden. Der pH-",
        ];
        let right = [
            "Wert liegt zwischen 7,4 und 7,7. Die",
            "Leitfähigkeit beträgt bei 25 °C im Mittel",
            "480 µS/cm. Eisen ist nicht zu finden.",
            "Das Wasser wird nicht gechlort und kalt.",
        ];
        let page = left.iter().zip(right).zip(1..).map(|((l, r), n)| line(n, &[(50.0, l), (320.0, r)])).collect();
        let read = sentences(in_order(page));
        assert_eq!(
            texts(&read),
            [
                "Das Wasser kommt aus drei Quellen und hat im Mittel eine Gesamthärte von 13 °dH, der Nitratgehalt ist niedrig.",
                "Magnesium wird mit 9 mg/l gefunden.",
                "Der pH-Wert liegt zwischen 7,4 und 7,7.",
                "Die Leitfähigkeit beträgt bei 25 °C im Mittel 480 µS/cm.",
                "Eisen ist nicht zu finden.",
                "Das Wasser wird nicht gechlort und kalt."
            ]
        );
    }

    #[test]
    fn a_table_stays_as_it_is() {
        let rows = [
            ("Nitrate as NO3 in mg/l", "12.0"),
            ("Chloride as Cl in mg/l", "18.3"),
            ("Sodium as Na in mg/l", "9.1"),
            ("Calcium as Ca in mg/l", "44"),
        ];
        let page: Vec<Line> = rows.iter().zip(1..).map(|((a, b), n)| line(n, &[(50.0, a), (320.0, b)])).collect();
        assert_eq!(sentences(in_order(page.clone())), page);
    }
}
