//! From words on lines to cells in columns: for text that was laid out with spaces, and for pages.

use crate::dates::{is_ordinal, is_year};
use crate::glued;
use crate::grid::{Cell, Grid, Row};
use crate::heading::{self, tells};
use crate::lexicon::lexicon;
use crate::table::names_one;
use crate::titles;

/// A run of text on a line, from `x0` to `x1` in any unit.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Piece {
    pub x0: f64,
    pub x1: f64,
    pub text: String,
    /// Its words, where their places are known better than by counting letters.
    pub words: Vec<Word>,
}

/// A word of a piece.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Word {
    pub x0: f64,
    pub x1: f64,
    pub text: String,
}

impl Piece {
    /// The piece of these words.
    fn of(words: &[Word]) -> Option<Piece> {
        let text = words.iter().map(|w| w.text.as_str()).collect::<Vec<_>>().join(" ");
        Some(Piece { x0: words.first()?.x0, x1: words.last()?.x1, text, words: words.to_vec() })
    }

    /// Cut before each word that begins a cell, told from the word before it.
    pub fn cut_where(self, begins: impl Fn(&Word, &Word) -> bool) -> Vec<Piece> {
        let pairs = self.words.windows(2).enumerate();
        let at = pairs.filter(|(_, w)| matches!(w, [a, b] if begins(a, b))).map(|(i, _)| i + 1);
        let ends: Vec<usize> = std::iter::once(0).chain(at).chain([self.words.len()]).collect();
        if ends.len() <= 2 || is_label(&self.text) {
            return vec![self];
        }
        ends.windows(2).filter_map(|e| Piece::of(self.words.get(*e.first()?..*e.get(1)?)?)).collect()
    }
}

/// "Sample no: 24-03318" is one; "Calcium: 45" is a row.
fn is_label(text: &str) -> bool {
    // "EN 12502: 2004" is the name of a standard.
    let standard = text.split_once(':').is_some_and(|(label, behind)| {
        label.ends_with(|c: char| c.is_ascii_digit()) && behind.split_whitespace().next().is_some_and(is_year)
    });
    !standard && tells(std::iter::once(text)) && !text.split_once(':').is_some_and(|(label, _)| names_one(label))
}

/// A line of pieces, left to right.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Line {
    /// Counted from 1.
    pub number: u32,
    pub pieces: Vec<Piece>,
}

/// A gap of so many spaces between words may part two cells.
const WIDE: f64 = 1.3;
/// Most lines of a heading.
const LINES: usize = 4;
/// Lines looked at to find the columns of a table.
const LOOKED_AT: usize = 400;

/// Where tables begin: a new one with each heading.
pub(crate) fn starts(lines: &[Line]) -> Vec<usize> {
    let headings: Vec<usize> = (0..lines.len()).filter(|&i| lines.get(i).is_some_and(is_heading)).collect();
    let mut starts: Vec<usize> = vec![0];
    for &at in &headings {
        // A heading goes on over lines without a number.
        let last = headings.iter().rev().find(|&&h| h < at);
        let goes_on =
            |from: usize| at - from <= LINES && !lines.get(from..at).unwrap_or_default().iter().any(has_number);
        if last.is_some_and(|&h| h + 1 == at || goes_on(h)) {
            continue;
        }
        // Lines of a heading that stand above the one with the telling words.
        let mut top = at;
        let own = |l: &Line| !has_number(l) && !tells(l.pieces.iter().map(|p| p.text.as_str()));
        let above = |l: &Line| l.pieces.len() > 1 && own(l) || lines.get(at).is_some_and(|h| heads_one(l, h));
        while top > 0 && at - top < 3 && lines.get(top - 1).is_some_and(above) {
            top -= 1;
        }
        starts.push(top);
    }
    starts.sort_unstable();
    starts.dedup();
    starts
}

/// Cut lines into tables.
pub(crate) fn grids(lines: &[Line]) -> Vec<Grid> {
    let starts = starts(lines);
    let ends = starts.iter().skip(1).copied().chain([lines.len()]);
    let title = |from: usize| {
        let above = from.checked_sub(1).and_then(|i| lines.get(i)).filter(|l| l.pieces.len() == 1);
        above.and_then(|l| l.pieces.first()).map(|p| p.text.clone()).unwrap_or_default()
    };
    let cut = starts.iter().zip(ends).filter_map(|(&from, to)| Some((from, lines.get(from..to)?)));
    let place = |from: usize| {
        let above = lines.get(from.saturating_sub(titles::LINES)..from).unwrap_or_default();
        titles::above(above.iter().flat_map(|l| l.pieces.iter().map(|p| p.text.as_str()).collect::<Vec<_>>()))
    };
    cut.map(|(from, lines)| Grid { title: title(from), place: place(from), ..grid(lines) }).collect()
}

pub(crate) fn is_heading(line: &Line) -> bool {
    if line.pieces.len() < 2 {
        return false;
    }
    let texts = || line.pieces.iter().map(|p| p.text.as_str());
    if !has_number(line) && (heading::of_units(texts()) || heading::of_determinands(texts())) {
        return true;
    }
    // "Total chlorine  MRDLG MRDL = 4 = 4  1.18": a row that repeats what its limits are called.
    let named = line.pieces.first().is_some_and(|p| names_one(&p.text));
    let number = |p: &Piece| is_decimal(&p.text) || is_whole(&p.text);
    if named && line.pieces.iter().skip(1).any(number) {
        return false;
    }
    // "Aluminium (Al)  n.b.  mg/l  0,01  0,20": whatever its words are, it is a row of values.
    let headed = line.pieces.first().is_some_and(|p| matches!(lexicon().column(&p.text), Some((_, true))));
    if !headed && line.pieces.iter().skip(1).any(|p| heading::is_decimal(&p.text)) {
        return false;
    }
    let telling = line.pieces.iter().filter(|p| !lexicon().is_not_detected(&p.text));
    let roles: Vec<bool> = telling.filter_map(|p| lexicon().column(&p.text)).map(|(_, exact)| exact).collect();
    // "Sample point: Well 3", "Date: 19/09/2024" head no columns.
    let labels = || tells(texts()) && !texts().all(|t| t.trim_end().ends_with(':'));
    roles.len() >= 2 && roles.iter().any(|exact| *exact) && !labels()
}

/// A number with decimals, which no heading has.
fn is_decimal(text: &str) -> bool {
    let whole = text.split_whitespace().next().unwrap_or("").trim_start_matches('<');
    whole.contains(['.', ',']) && whole.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',')
}

/// A whole number that is no year.
fn is_whole(text: &str) -> bool {
    let text = text.trim_start_matches(['<', ' ']);
    !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()) && !is_year(text)
}

/// "90% of test" over "levels were less than": the first line of a heading of one column, set above those of the others.
fn heads_one(line: &Line, heading: &Line) -> bool {
    let [piece] = &line.pieces[..] else { return false };
    let beyond = heading.pieces.first().is_some_and(|first| piece.x0 > first.x1);
    let words = piece.text.split_whitespace().count();
    beyond && words <= 4 && (lexicon().column(&piece.text).is_some() || piece.text.contains('%'))
}

/// "95th percentile", "1e kwartaal" and "2024" are of a heading.
fn has_number(line: &Line) -> bool {
    let number = |t: &str| t.starts_with(|c: char| c.is_ascii_digit() || c == '<') && !is_ordinal(t) && !is_year(t);
    line.pieces.iter().any(|p| number(p.text.trim_start()))
}

/// Lines that all have as many pieces as their heading: where the places of those make fewer columns, or more, their order
/// tells.
fn in_order(lines: &[Line], columns: usize) -> Option<Grid> {
    let mut several = lines.iter().filter(|l| l.pieces.len() > 1);
    let head = several.next().filter(|l| is_heading(l))?;
    let width = head.pieces.len();
    let rows = several.clone().count();
    if width < TABLE || width == columns || rows < LEAST_NUMBERS || several.any(|l| l.pieces.len() != width) {
        return None;
    }
    let cells = |l: &Line| {
        let mut cells: Vec<Cell> = l.pieces.iter().map(|p| Cell::new(&p.text)).collect();
        cells.resize(width, Cell::default());
        Row { line: l.number, cells }
    };
    Some(Grid { rows: lines.iter().map(cells).collect(), ..Grid::default() })
}

fn grid(lines: &[Line]) -> Grid {
    let columns = column_edges(lines);
    if let Some(grid) = in_order(lines, columns.len()) {
        return grid;
    }
    let space = glued::space(lines);
    let wide = WIDE * space;
    // A wide gap between words of two columns parts two cells, though it is narrower than most.
    let begins = |before: &Word, word: &Word| {
        let column = |w: &Word| alone(&columns, w);
        word.x0 - before.x1 >= wide && matches!((column(before), column(word)), (Some(a), Some(b)) if a != b)
    };
    let rows = lines
        .iter()
        .map(|line| {
            let mut cells = vec![Cell::default(); columns.len().max(1)];
            let cut = line.pieces.iter().flat_map(|p| p.clone().cut_where(begins));
            for piece in cut.flat_map(|p| over_columns(p, &columns, wide)) {
                let at = nearest(&columns, &piece).unwrap_or(0);
                if let Some(cell) = cells.get_mut(at) {
                    cell.append(&piece.text);
                }
            }
            Row { line: line.number, cells }
        })
        .collect();
    Grid { rows, wrapped: true, ..Grid::default() }
}

/// A heading over several columns that is one for each of them: cut at its wide gaps, where the parts stand over other
/// columns.
fn over_columns(piece: Piece, columns: &[(f64, f64)], wide: f64) -> Vec<Piece> {
    let covered = columns.iter().filter(|&&(x0, x1)| overlap(x0, x1, &piece) > 0.0).count();
    let number = piece.text.starts_with(|c: char| c.is_ascii_digit() || c == '<');
    if covered < 2 || wide <= 0.0 || number || piece.text.chars().count() > LONGEST_HEADING {
        return vec![piece];
    }
    // A word right where a column begins is the first of its cell, however narrow the gap.
    let edge = |word: &Word| columns.iter().skip(1).any(|&(x0, _)| (word.x0 - x0).abs() < EDGE);
    let parts = piece.clone().cut_where(|before, word| word.x0 - before.x1 >= wide || edge(word));
    let at: Vec<Option<usize>> = parts.iter().map(|p| over(columns, p)).collect();
    // All in other columns, from left to right.
    let apart = at.windows(2).all(|w| matches!(w, [Some(a), Some(b)] if a < b));
    if apart { parts } else { vec![piece] }
}

/// A word that begins so near to a column's edge begins at it, points.
const EDGE: f64 = 0.5;
/// A heading longer than this is a sentence.
const LONGEST_HEADING: usize = 120;

/// The column whose middle is nearest to that of a piece.
fn over(columns: &[(f64, f64)], piece: &Piece) -> Option<usize> {
    let middle = |x0: f64, x1: f64| (x0 + x1) / 2.0;
    let way = |i: &usize| {
        columns.get(*i).map_or(f64::MAX, |&(x0, x1)| match overlap(x0, x1, piece) > 0.0 {
            true => (middle(x0, x1) - middle(piece.x0, piece.x1)).abs() * 0.5,
            false => (middle(x0, x1) - middle(piece.x0, piece.x1)).abs(),
        })
    };
    (0..columns.len()).min_by(|a, b| way(a).total_cmp(&way(b)))
}

/// Where the columns of a table begin and end.
pub(crate) fn column_edges(lines: &[Line]) -> Vec<(f64, f64)> {
    under_headings(columns(lines), lines)
}

/// The columns: runs of the line that pieces cover, over all lines with enough pieces.
fn columns(lines: &[Line]) -> Vec<(f64, f64)> {
    let with = |n: usize| lines.iter().filter(|l| l.pieces.len() >= n).take(LOOKED_AT).collect::<Vec<_>>();
    let telling = match with(3) {
        three if three.len() >= 2 => three,
        _ => with(2),
    };
    let mut covers: Vec<(f64, f64)> = Vec::new();
    for line in &telling {
        let single = line.pieces.iter().filter(|p| !bridges(p, &telling));
        covers.extend(single.map(|p| (p.x0, p.x1)));
    }
    covers.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out: Vec<(f64, f64)> = Vec::new();
    for (x0, x1) in covers {
        match out.last_mut() {
            Some(last) if x0 < last.1 => last.1 = last.1.max(x1),
            _ => out.push((x0, x1)),
        }
    }
    out
}

/// A column of numbers without a heading, right beside a heading without a column: the heading stands in the middle of
/// its cell, the numbers at its edge.
fn under_headings(columns: Vec<(f64, f64)>, lines: &[Line]) -> Vec<(f64, f64)> {
    // How many words and how many numbers stand in a column.
    let held = |&(x0, x1): &(f64, f64)| {
        let pieces = lines.iter().filter(|l| l.pieces.len() >= TABLE).take(LOOKED_AT).flat_map(|l| &l.pieces);
        let own = |p: &&Piece| columns.iter().filter(|c| overlap(c.0, c.1, p) > 0.0).count() == 1;
        let here = pieces.filter(|p| overlap(x0, x1, p) > 0.0).filter(own);
        let number = |p: &&Piece| p.text.starts_with(|c: char| c.is_ascii_digit() || c == '<');
        let (numbers, words): (Vec<&Piece>, Vec<&Piece>) = here.partition(number);
        (words.len(), numbers.len())
    };
    let near = |a: (f64, f64), b: (f64, f64), heading: (f64, f64)| b.0 - a.1 <= heading.1 - heading.0;
    let mut out: Vec<((f64, f64), (usize, usize))> = Vec::new();
    for column in columns.iter().copied() {
        let here = held(&column);
        let bare = |(words, numbers): (usize, usize)| words == 0 && numbers >= LEAST_NUMBERS;
        let head = |(words, numbers): (usize, usize)| numbers == 0 && (1..=2).contains(&words);
        match out.last_mut() {
            Some((last, held))
                if bare(*held) && head(here) && near(*last, column, column)
                    || head(*held) && bare(here) && near(*last, column, *last) =>
            {
                *last = (last.0, column.1);
                *held = (held.0 + here.0, held.1 + here.1);
            }
            _ => out.push((column, here)),
        }
    }
    out.into_iter().map(|(column, _)| column).collect()
}

/// A line of a table has so many pieces.
const TABLE: usize = 3;
/// So many numbers make a column of them.
const LEAST_NUMBERS: usize = 2;

/// Whether a piece stands over two pieces of some other line: a heading over several columns, or a sentence.
fn bridges(piece: &Piece, lines: &[&Line]) -> bool {
    lines.iter().any(|line| line.pieces.iter().filter(|p| overlap(p.x0, p.x1, piece) > 0.0).count() >= 2)
}

fn overlap(x0: f64, x1: f64, piece: &Piece) -> f64 {
    piece.x1.min(x1) - piece.x0.max(x0)
}

/// The only column that a word stands in.
fn alone(columns: &[(f64, f64)], word: &Word) -> Option<usize> {
    let reaches = |&(x0, x1): &(f64, f64)| word.x1.min(x1) - word.x0.max(x0) > 0.0;
    let mut all = (0..columns.len()).filter(|&i| columns.get(i).is_some_and(reaches));
    all.next().filter(|_| all.next().is_none())
}

/// The column that a piece covers most, else the nearest.
fn nearest(columns: &[(f64, f64)], piece: &Piece) -> Option<usize> {
    let reach = |&(x0, x1): &(f64, f64)| overlap(x0, x1, piece);
    // A piece over several columns belongs to the first.
    let first = columns.iter().position(|c| reach(c) > 0.0);
    let covered = columns.iter().filter(|c| reach(c) > 0.0).count();
    if covered > 1 {
        return first;
    }
    (0..columns.len()).max_by(|&a, &b| {
        let r = |i: usize| columns.get(i).map_or(f64::MIN, reach);
        r(a).total_cmp(&r(b))
    })
}
