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
/// A line begins so near to the edge of its column, points: the first of a paragraph stands further in.
const INDENT: f64 = 24.0;
/// A shorter line, in characters, ends its sentence, and so does one that is shorter by this share than the longest.
const SHORT: usize = 28;
const SHORTER: f64 = 0.6;
/// A longer text, in characters, is no sentence.
const LONGEST: usize = 1000;

/// The lines of a page with columns of prose one below the other, as they are read.
pub(crate) fn in_order(lines: Vec<Line>) -> Vec<Line> {
    let mut out: Vec<Line> = Vec::with_capacity(lines.len());
    let mut at = 0;
    while let Some(line) = lines.get(at) {
        let run = gutter(&lines, at).and_then(|x| Some((x, run(lines.get(at..)?, x))));
        match run.and_then(|(x, n)| columns(lines.get(at..at + n)?, x).map(|c| (n, c))) {
            Some((n, [left, right])) => {
                out.extend(left.into_iter().map(whole));
                let columns = in_order(right.clone());
                // There may be a third one.
                let one = columns.len() == right.len();
                out.extend(columns.into_iter().map(|line| if one { whole(line) } else { line }));
                at += n;
            }
            None => {
                out.push(line.clone());
                at += 1;
            }
        }
    }
    out.into_iter().zip(1_u32..).map(|(line, number)| Line { number, ..line }).collect()
}

/// Where the second column begins, if it does in these lines.
fn gutter(lines: &[Line], at: usize) -> Option<f64> {
    let second = |l: &Line| l.pieces.get(1).map(|p| p.x0);
    let first = second(lines.get(at)?)?;
    let near = lines.iter().skip(at).take(2 * LEAST).filter_map(second).filter(|x| (x - first).abs() <= INDENT);
    near.min_by(f64::total_cmp)
}

/// How many lines keep to both sides of `x`.
fn run(lines: &[Line], x: f64) -> usize {
    let keeps = |l: &&Line| l.pieces.iter().all(|p| p.x1 < x || p.x0 >= x - 0.5);
    lines.iter().take_while(keeps).count()
}

/// The two sides as lines of their own, where both are prose.
fn columns(lines: &[Line], x: f64) -> Option<[Vec<Line>; 2]> {
    let side = |right: bool| -> Vec<Line> {
        let own = |l: &Line| {
            let mut pieces = l.pieces.iter().filter(|p| (p.x0 >= x - 0.5) == right).cloned().peekable();
            pieces.peek().is_some().then(|| Line { number: l.number, pieces: pieces.collect() })
        };
        lines.iter().filter_map(own).collect()
    };
    let prose = |side: &[Line]| {
        let texts = || side.iter().flat_map(|l| &l.pieces).map(|p| p.text.as_str());
        let edge = side.iter().filter_map(|l| l.pieces.first()).map(|p| p.x0).fold(f64::MAX, f64::min);
        let flush = side.iter().filter(|l| l.pieces.first().is_some_and(|p| p.x0 - edge <= INDENT)).count();
        let numbers = texts().filter(|t| t.starts_with(|c: char| c.is_ascii_digit() || c == '<')).count();
        let said: usize = texts().map(|t| t.split_whitespace().count()).sum();
        side.len() >= LEAST
            && said >= WORDS * texts().count()
            && numbers * 3 <= side.len()
            && flush * 4 >= side.len() * 3
    };
    let both = [side(false), side(true)];
    both.iter().all(|s| prose(s)).then_some(both)
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
        let Some(mut held) = text_of(&line).map(str::to_owned) else {
            out.push(line);
            longest = 0;
            continue;
        };
        let (mut start, mut last) = (line.clone(), line);
        longest = longest.max(held.chars().count());
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
