//! From glyphs on a page to lines of pieces.

use std::rc::Rc;

use super::accents;
use super::middle::{self, Printed};
use crate::layout::{Line, Piece, Word};

/// A glyph: where its baseline starts and ends, its height, its text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Glyph {
    pub x0: f64,
    pub x1: f64,
    pub y: f64,
    pub size: f64,
    pub text: Letters,
}

/// The text of a glyph: nearly always one letter.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Letters {
    One(char),
    More(Rc<str>),
}

impl Letters {
    pub fn of(text: &str) -> Letters {
        let mut chars = text.chars();
        match (chars.next(), chars.next()) {
            (Some(only), None) => Letters::One(only),
            _ => Letters::More(text.into()),
        }
    }

    fn is_blank(&self) -> bool {
        match self {
            Letters::One(c) => c.is_whitespace(),
            Letters::More(text) => text.trim().is_empty(),
        }
    }

    fn put(&self, to: &mut String) {
        match self {
            Letters::One(c) => to.push(*c),
            Letters::More(text) => to.push_str(text),
        }
    }

    fn text(&self) -> String {
        let mut out = String::new();
        self.put(&mut out);
        out
    }
}

impl Glyph {
    fn word(&self) -> Word {
        Word { x0: self.x0, x1: self.x1, text: self.text.text() }
    }
}

/// Glyphs smaller than this share of their line are raised or lowered.
const SMALL: f64 = 0.85;
/// A gap of so many heights is a space; and parts two cells.
const SPACE: f64 = 0.15;
const CELL: f64 = 0.8;

/// The lines of a page from top to bottom, each cut into pieces at wide gaps.
pub(crate) fn lines(glyphs: Vec<Glyph>) -> Vec<Line> {
    let mut glyphs = accents::settled(glyphs);
    glyphs.retain(|g| g.size > 0.5 && !g.text.is_blank());
    let typical = typical_size(&glyphs);
    let (small, mut main): (Vec<Glyph>, Vec<Glyph>) = glyphs.into_iter().partition(|g| g.size < SMALL * typical);
    main.sort_by(|a, b| a.y.total_cmp(&b.y));
    let mut rows: Vec<(f64, f64, Vec<Glyph>)> = Vec::new();
    for glyph in main {
        match rows.last_mut().filter(|(y, size, _)| glyph.y - *y <= 0.35 * size.min(glyph.size)) {
            Some((_, size, row)) => {
                *size = size.max(glyph.size);
                row.push(glyph);
            }
            None => rows.push((glyph.y, glyph.size, vec![glyph])),
        }
    }
    let mut rows = with_lowered(rows);
    attach(small, &mut rows);
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    let printed = rows.into_iter().map(|(y, size, row)| Printed { y, size, pieces: pieces(row, y) });
    let lines = middle::joined(printed.collect());
    lines.into_iter().zip(1_u32..).map(|(line, number)| Line { number, pieces: line.pieces }).collect()
}

/// Digits set lower than the letter before them, though hardly smaller ("PO4"), belong to its line.
fn with_lowered(rows: Vec<(f64, f64, Vec<Glyph>)>) -> Vec<(f64, f64, Vec<Glyph>)> {
    let mut out: Vec<(f64, f64, Vec<Glyph>)> = Vec::with_capacity(rows.len());
    for (y, size, row) in rows {
        let letter = |g: &Glyph| matches!(g.text, Letters::One(c) if c.is_alphabetic());
        let digit = |g: &Glyph| matches!(g.text, Letters::One(c) if c.is_ascii_digit());
        let above = out.last_mut().filter(|(line, line_size, glyphs)| {
            let behind = |g: &Glyph| {
                glyphs.iter().any(|l| letter(l) && g.size < l.size && (g.x0 - l.x1).abs() <= LOWERED * line_size)
            };
            y - line <= 0.55 * line_size && row.iter().all(|g| digit(g) && behind(g))
        });
        match above {
            Some((.., glyphs)) => glyphs.extend(row),
            None => out.push((y, size, row)),
        }
    }
    out
}

/// A lowered digit stands so near to its letter, in heights.
const LOWERED: f64 = 0.1;

/// The height that most glyphs have, in steps of half a point.
fn typical_size(glyphs: &[Glyph]) -> f64 {
    let mut tally = std::collections::BTreeMap::new();
    for glyph in glyphs {
        *tally.entry((glyph.size * 2.0).round() as u64).or_insert(0_usize) += 1;
    }
    tally.into_iter().max_by_key(|(_, n)| *n).map_or(10.0, |(size, _)| size as f64 / 2.0)
}

/// Small glyphs belong to the line whose glyphs they touch; else they make lines of their own.
fn attach(mut small: Vec<Glyph>, rows: &mut Vec<(f64, f64, Vec<Glyph>)>) {
    small.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x0.total_cmp(&b.x0)));
    let mut own: Vec<(f64, f64, Vec<Glyph>)> = Vec::new();
    let mut left: Vec<Glyph> = Vec::new();
    for glyph in small {
        // Rows are in order: only those around its height can be near.
        let from = rows.partition_point(|(y, size, _)| *y < glyph.y - size);
        let at = (from..rows.len().min(from + 4)).find(|&i| rows.get(i).is_some_and(|row| touches(&glyph, row)));
        match at.and_then(|i| rows.get_mut(i)) {
            Some((.., row)) => row.push(glyph),
            None => left.push(glyph),
        }
    }
    // The 3 of CaCO3 in a line of small print is smaller still.
    let typical = typical_size(&left);
    let (tiny, left): (Vec<Glyph>, Vec<Glyph>) = left.into_iter().partition(|g| g.size < SMALL * typical);
    let (tiny, left) = if left.is_empty() { (left, tiny) } else { (tiny, left) };
    for glyph in left {
        match own.last_mut().filter(|(y, size, _)| glyph.y - *y <= 0.35 * size.min(glyph.size)) {
            Some((.., row)) => row.push(glyph),
            None => own.push((glyph.y, glyph.size, vec![glyph])),
        }
    }
    if !tiny.is_empty() {
        attach(tiny, &mut own);
    }
    rows.extend(own);
}

/// Whether a small glyph stands beside one of a line.
fn touches(glyph: &Glyph, (y, size, row): &(f64, f64, Vec<Glyph>)) -> bool {
    let beside = |g: &Glyph| glyph.x0 - g.x1 <= 0.5 * size && g.x0 - glyph.x1 <= 0.5 * size;
    (glyph.y - y).abs() <= 0.55 * size && row.iter().any(beside)
}

/// A line cut at its wide gaps; raised marks are dropped.
fn pieces(mut row: Vec<Glyph>, y: f64) -> Vec<Piece> {
    row.sort_by(|a, b| a.x0.total_cmp(&b.x0));
    // A sign from another font may be drawn in a larger square.
    let height = typical_size(&row);
    let mut out: Vec<Piece> = Vec::new();
    let mut last: Option<Glyph> = None;
    for glyph in row {
        let raised = glyph.size < SMALL * height && glyph.y < y - 0.15 * height;
        let text_so_far = out.last().map_or("", |p| p.text.as_str());
        let unit = || ["/m", "dm", "cm", "l", "L", "-"].iter().any(|u| text_so_far.ends_with(u));
        if raised && glyph.text != Letters::One('°') && !unit() {
            continue;
        }
        // Bold print is sometimes the same glyph twice.
        let twice =
            |l: &Glyph| l.text == glyph.text && (glyph.x0 - l.x0).abs() < 0.1 * height && (glyph.y - l.y).abs() < 1.0;
        if last.as_ref().is_some_and(twice) {
            continue;
        }
        let gap = last.as_ref().map_or(f64::MAX, |l| glyph.x0 - l.x1);
        match out.last_mut().filter(|_| gap <= CELL * height) {
            Some(piece) => {
                match piece.words.last_mut().filter(|_| gap <= SPACE * height) {
                    Some(word) => {
                        glyph.text.put(&mut word.text);
                        word.x1 = word.x1.max(glyph.x1);
                    }
                    None => {
                        piece.text.push(' ');
                        piece.words.push(glyph.word());
                    }
                }
                glyph.text.put(&mut piece.text);
                piece.x1 = piece.x1.max(glyph.x1);
            }
            None => {
                let words = vec![glyph.word()];
                out.push(Piece { x0: glyph.x0, x1: glyph.x1, text: glyph.text.text(), words });
            }
        }
        last = Some(glyph);
    }
    out
}
