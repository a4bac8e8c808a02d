//! Cells that stand so close on a page that they look like one: cut where the other lines of the table say so.

use crate::layout::{Line, Piece, Word};

/// Edges nearer than this are one, points.
const SAME_EDGE: f64 = 0.8;
/// Lines around a line whose edges count.
const AROUND: usize = 12;
/// So many of them make an edge.
const LEAST: usize = 3;
/// So many make one of words behind wide gaps, where they are two lines of three.
const MANY: usize = 4;
/// Such a gap is wider than the space between words by this factor.
const STRONG: f64 = 1.25;
/// A gap between cells is wider than the space between words by this factor at least.
const WIDER: f64 = 1.08;

/// Cut pieces of a page: numbers side by side, and words that begin where other lines begin a cell.
pub(crate) fn cut(lines: &mut [Line]) {
    for line in lines.iter_mut() {
        line.pieces = line.pieces.drain(..).flat_map(numbers_apart).collect();
    }
    let space = space(lines);
    let edges: Vec<Vec<f64>> = lines.iter().map(|l| l.pieces.iter().map(|p| p.x0).collect()).collect();
    let strong: Vec<Vec<f64>> =
        lines.iter().map(|l| l.pieces.iter().flat_map(|p| starts(p, STRONG * space)).collect()).collect();
    for (at, line) in lines.iter_mut().enumerate() {
        let near = edges.get(at.saturating_sub(AROUND)..edges.len().min(at + AROUND + 1)).unwrap_or_default();
        let near: Vec<&[f64]> = near.iter().filter(|e| e.len() > 1).map(Vec::as_slice).collect();
        let is_edge = |x: f64| near.iter().filter(|e| e.iter().any(|y| (y - x).abs() < SAME_EDGE)).count() >= LEAST;
        let rows = strong.get(at.saturating_sub(AROUND)..strong.len().min(at + AROUND + 1)).unwrap_or_default();
        let rows: Vec<&[f64]> = rows.iter().filter(|e| e.len() > 2).map(Vec::as_slice).collect();
        // Cells that are glued in every line: most lines have a wide gap before the same place.
        let many = |x: f64| {
            let here = rows.iter().filter(|e| e.iter().any(|y| (y - x).abs() < SAME_EDGE)).count();
            here >= MANY && here * 3 >= rows.len() * 2
        };
        let several = strong.get(at).is_some_and(|s| s.len() > 2);
        let begins = |before: &Word, word: &Word| {
            let gap = word.x0 - before.x1;
            gap >= WIDER * space && is_edge(word.x0) || several && gap >= STRONG * space && many(word.x0)
        };
        line.pieces = line.pieces.drain(..).flat_map(|p| p.cut_where(begins)).collect();
    }
}

/// Where pieces begin, and words behind a wide gap.
fn starts(piece: &Piece, wide: f64) -> Vec<f64> {
    let words = piece.words.windows(2).filter_map(|w| match w {
        [a, b] if b.x0 - a.x1 >= wide => Some(b.x0),
        _ => None,
    });
    std::iter::once(piece.x0).chain(words).collect()
}

/// The space between words: a quarter of the gaps are narrower. The wider half may be cells side by side.
pub(crate) fn space(lines: &[Line]) -> f64 {
    let gaps = lines.iter().flat_map(|l| &l.pieces).flat_map(|p| p.words.windows(2));
    let mut gaps: Vec<f64> = gaps.filter_map(|w| Some(w.get(1)?.x0 - w.first()?.x1)).collect();
    gaps.sort_by(f64::total_cmp);
    gaps.get(gaps.len() / 4).copied().unwrap_or(0.0)
}

/// "8.05 8.11 7.98" is three cells; "1 234" is one, and so is "6.5 - 9.5".
fn numbers_apart(piece: Piece) -> Vec<Piece> {
    let is_number = |w: &Word| {
        let text = w.text.trim_start_matches(['<', '>', '≤', '≥']);
        text.starts_with(|c: char| c.is_ascii_digit())
            && text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\''))
    };
    let in_groups = piece.words.iter().skip(1).all(|w| w.text.chars().take_while(char::is_ascii_digit).count() == 3)
        && piece.words.first().is_some_and(|w| w.text.chars().count() <= 3);
    match piece.words.len() > 1 && piece.words.iter().all(is_number) && !in_groups {
        true => piece.cut_where(|_, _| true),
        false => vec![piece],
    }
}
