//! Cells of several lines beside cells of one that stands at their middle or their top, as print of pages of the web sets
//! them: told by the way between lines, which is shorter within a row than between rows.

use crate::dates::{is_date, is_ordinal, is_year};
use crate::grid::glued;
use crate::layout::{Piece, Word};

/// A line of print: its baseline, its height, its pieces from left to right.
pub(crate) struct Printed {
    pub y: f64,
    pub size: f64,
    pub pieces: Vec<Piece>,
}

/// Two lines of one cell stand this many heights apart at most, and so half of it from the line between them.
const LEADING: f64 = 1.6;
/// How far from the middle that line may stand, as a share of the way between the two.
const OFF: f64 = 0.25;

/// Lines with one between them at half the usual way are the two lines of its own cells.
pub(crate) fn joined(lines: Vec<Printed>) -> Vec<Printed> {
    let mut out: Vec<Printed> = Vec::with_capacity(lines.len());
    let mut rest = lines.into_iter().peekable();
    while let Some(mut line) = rest.next() {
        // The line at hand is the middle of the one before it and the one after it.
        let around = matches!((out.last(), rest.peek()), (Some(upper), Some(lower)) if are_one(upper, &line, lower));
        if around && let (Some(upper), Some(lower)) = (out.pop(), rest.next()) {
            line.pieces.extend(cells(each(upper.pieces, &lower.pieces), lower.pieces));
            line.pieces.sort_by(|a, b| a.x0.total_cmp(&b.x0));
        }
        out.push(line);
    }
    gathered(out)
}

/// Lines of one row are nearer than this share of the way between rows.
const WITHIN: f64 = 0.85;
/// So many ways between rows make one usual.
const ROWS: usize = 4;

/// Lines without a value, nearer to the row above or below than rows are to each other, go on in its cells.
fn gathered(lines: Vec<Printed>) -> Vec<Printed> {
    let is_row = |l: &Printed| l.pieces.len() >= HEADING && has_value(l);
    let mut ways: Vec<f64> = lines
        .windows(2)
        .filter_map(|w| match w {
            [a, b] if is_row(a) && is_row(b) => Some(b.y - a.y),
            _ => None,
        })
        .collect();
    ways.sort_by(f64::total_cmp);
    let Some(way) = ways.get(ways.len() / 2).copied().filter(|_| ways.len() >= ROWS) else { return lines };
    let goes_on = |part: &Printed, row: &Printed| {
        let word = |p: &&Piece| !p.text.starts_with(|c: char| c.is_ascii_digit() || c == '<');
        // What stands over several cells of the row is a sentence.
        let over = |p: &Piece| row.pieces.iter().filter(|r| meet(r, p)).count();
        let under = |p: &Piece| row.pieces.iter().filter(word).any(|r| meet(r, p)) && over(p) == 1;
        is_row(row) && !has_value(part) && (part.y - row.y).abs() <= WITHIN * way && part.pieces.iter().all(under)
    };
    let mut out: Vec<Printed> = Vec::with_capacity(lines.len());
    for mut line in lines {
        match out.last_mut() {
            Some(row) if goes_on(&line, row) => {
                row.pieces = cells(std::mem::take(&mut row.pieces), line.pieces);
                continue;
            }
            Some(part) if goes_on(part, &line) => {
                line.pieces = cells(std::mem::take(&mut part.pieces), line.pieces);
                line.pieces.sort_by(|a, b| a.x0.total_cmp(&b.x0));
                out.pop();
            }
            _ => {}
        }
        out.push(line);
    }
    out
}

/// "25 °C" may be the end of a name; a date heads a column.
fn has_value(line: &Printed) -> bool {
    let value = |t: &str| {
        t.starts_with(|c: char| c.is_ascii_digit() || c == '<')
            && !t.ends_with(['C', ')'])
            && !is_date(t)
            && !is_year(t)
            && !is_ordinal(t)
    };
    line.pieces.iter().any(|p| value(&p.text))
}

/// Most words of a heading of two lines.
const FEW: usize = 5;
/// So many pieces without a value are a heading.
const HEADING: usize = 3;

fn are_one(upper: &Printed, middle: &Printed, lower: &Printed) -> bool {
    let (above, below) = (middle.y - upper.y, lower.y - middle.y);
    let size = middle.size.min(upper.size).min(lower.size);
    let near = above + below <= LEADING * size && (above - below).abs() <= OFF * (above + below);
    // A line with a value is a row of its own.
    let value = has_value;
    // Headings that look like one are cut later, by the columns under them.
    let few = |p: &Piece| p.words.len() <= FEW;
    let clear = |p: &Piece| middle.pieces.iter().all(|m| !meet(m, p));
    let beside = |p: &Piece, other: &Printed| other.pieces.iter().any(|o| meet(o, p));
    near && (value(middle) || middle.pieces.len() >= HEADING && upper.pieces.iter().chain(&lower.pieces).all(few))
        && !value(upper)
        && !value(lower)
        && upper.pieces.iter().all(|p| clear(p) && beside(p, lower))
        && lower.pieces.iter().all(|p| clear(p) && beside(p, upper))
}

/// Whether two pieces stand over each other.
fn meet(a: &Piece, b: &Piece) -> bool {
    a.x1.min(b.x1) > a.x0.max(b.x0)
}

/// The upper pieces; one that stands over several lower ones heads each of them.
fn each(upper: Vec<Piece>, lower: &[Piece]) -> Vec<Piece> {
    let heads = |over: Piece| {
        let under: Vec<&Piece> = lower.iter().filter(|p| meet(&over, p)).collect();
        if under.len() < 2 {
            return vec![over];
        }
        let one = |p: &&Piece| {
            let words = vec![Word { x0: p.x0, x1: p.x1, text: over.text.clone() }];
            Piece { x0: p.x0, x1: p.x1, text: over.text.clone(), words }
        };
        under.iter().map(one).collect()
    };
    upper.into_iter().flat_map(heads).collect()
}

/// Each upper piece with the lower ones under it, as one.
fn cells(upper: Vec<Piece>, lower: Vec<Piece>) -> Vec<Piece> {
    let mut out = upper;
    for piece in lower {
        match out.iter_mut().find(|o| meet(o, &piece)) {
            Some(over) => {
                let text = glued(&over.text, &piece.text);
                let (x0, x1) = (over.x0.min(piece.x0), over.x1.max(piece.x1));
                *over = Piece { x0, x1, text: text.clone(), words: vec![Word { x0, x1, text }] };
            }
            None => out.push(piece),
        }
    }
    out
}
