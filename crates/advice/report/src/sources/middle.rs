//! Cells of two lines beside cells of one that stands at their middle, as print of pages of the web sets them.

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
const OFF: f64 = 0.2;

/// Lines with one between them at half the usual way are the two lines of its own cells.
pub(crate) fn joined(lines: Vec<Printed>) -> Vec<Printed> {
    let mut out: Vec<Printed> = Vec::with_capacity(lines.len());
    let mut rest = lines.into_iter().peekable();
    while let Some(mut line) = rest.next() {
        // The line at hand is the middle of the one before it and the one after it.
        let around = matches!((out.last(), rest.peek()), (Some(upper), Some(lower)) if are_one(upper, &line, lower));
        if around && let (Some(upper), Some(lower)) = (out.pop(), rest.next()) {
            line.pieces.extend(cells(upper.pieces, lower.pieces));
            line.pieces.sort_by(|a, b| a.x0.total_cmp(&b.x0));
        }
        out.push(line);
    }
    out
}

/// So many pieces without a value are a heading.
const HEADING: usize = 3;

fn are_one(upper: &Printed, middle: &Printed, lower: &Printed) -> bool {
    let (above, below) = (middle.y - upper.y, lower.y - middle.y);
    let size = middle.size.min(upper.size).min(lower.size);
    let near = above + below <= LEADING * size && (above - below).abs() <= OFF * (above + below);
    // A line with a value is a row of its own.
    let value =
        |line: &Printed| line.pieces.iter().any(|p| p.text.starts_with(|c: char| c.is_ascii_digit() || c == '<'));
    let clear = |p: &Piece| middle.pieces.iter().all(|m| !meet(m, p));
    let beside = |p: &Piece, other: &Printed| other.pieces.iter().any(|o| meet(o, p));
    near && (value(middle) || middle.pieces.len() >= HEADING)
        && !value(upper)
        && !value(lower)
        && upper.pieces.iter().all(|p| clear(p) && beside(p, lower))
        && lower.pieces.iter().all(|p| clear(p) && beside(p, upper))
}

/// Whether two pieces stand over each other.
fn meet(a: &Piece, b: &Piece) -> bool {
    a.x1.min(b.x1) > a.x0.max(b.x0)
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
