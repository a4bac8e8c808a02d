//! Text with a delimiter: semicolons, tabs, commas, bars.

use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;

/// The grid of a text with a delimiter; none where there is none.
pub(crate) fn grid(text: &str) -> Option<Grid> {
    let delimiter = delimiter(text)?;
    let text = text.trim_start_matches('\u{feff}');
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(delimiter).from_reader(text.as_bytes());
    let mut rows = Vec::new();
    let mut record = csv::StringRecord::new();
    for _ in 0..super::MOST_ROWS {
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => break,
            Err(_) => continue,
        }
        let line = record.position().map_or(1, |p| line(text.as_bytes(), p));
        let cells: Vec<Cell> = record.iter().map(|c| Cell::new(c.trim())).collect();
        if cells.iter().any(|c| !c.text.is_empty()) {
            rows.push(Row { line, cells });
        }
    }
    Some(Grid { rows, ..Grid::default() })
}

/// The line of a record: it is told from where the one before ended, whose own end of line or blank ones may follow.
fn line(text: &[u8], position: &csv::Position) -> u32 {
    let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let ends = text.get(from..).unwrap_or_default().iter().take_while(|c| matches!(c, b'\r' | b'\n'));
    u32::try_from(position.line()).unwrap_or(u32::MAX).saturating_add(ends.filter(|c| **c == b'\n').count() as u32)
}

/// The sign that parts the lines into the same number of cells most often.
fn delimiter(text: &str) -> Option<u8> {
    let lines: Vec<&str> = text.lines().filter(|l| !l.trim().is_empty()).take(400).collect();
    let share = |sign: char, least: usize| {
        let counts: Vec<usize> = lines.iter().map(|l| outside_quotes(l, sign)).collect();
        let most = mode(&counts, least)?;
        let same = counts.iter().filter(|c| **c == most).count();
        Some((same as f64 / lines.len().max(1) as f64, most))
    };
    if let Some((shared, _)) = share('\t', 1)
        && shared >= 0.3
    {
        return Some(b'\t');
    }
    if let Some((shared, _)) = share(';', 1)
        && shared >= 0.4
    {
        return Some(b';');
    }
    // A comma is also a decimal sign and a mark of sentences: it must part nearly every line alike.
    let bars = share('|', 2).filter(|(shared, _)| *shared >= 0.5).map(|_| b'|');
    let heading = |sign: char| {
        let told = |l: &&str| l.split(sign).filter(|c| matches!(lexicon().column(c), Some((_, true)))).count() >= 2;
        lines.iter().take(20).any(told)
    };
    // Text laid out with spaces has its commas in the numbers.
    let spaced = lines.iter().filter(|l| l.trim().contains("   ")).count() * 2 > lines.len();
    let apart = spaced || sentences(&lines);
    bars.or_else(|| share(',', 2).filter(|(shared, _)| *shared >= 0.5 && !apart).map(|_| b','))
        .or_else(|| share(',', 1).filter(|(shared, _)| *shared >= 0.5 && !apart && heading(',')).map(|_| b','))
}

/// Lines of many words, whose commas stand in numbers or before a space.
fn sentences(lines: &[&str]) -> bool {
    let wordy = lines.iter().filter(|l| l.split_whitespace().count() >= 6).count();
    let (mut all, mut plain) = (0, 0);
    for line in lines {
        let chars: Vec<char> = line.chars().collect();
        for at in (0..chars.len()).filter(|&i| chars.get(i) == Some(&',')) {
            let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
            all += 1;
            let decimal = at > 0 && digit(at - 1) && digit(at + 1);
            plain += usize::from(!decimal && chars.get(at + 1).is_none_or(|c| !c.is_whitespace()));
        }
    }
    wordy * 2 > lines.len() && plain * 3 < all
}

fn outside_quotes(line: &str, sign: char) -> usize {
    let mut quoted = false;
    line.chars()
        .filter(|&c| {
            quoted ^= c == '"';
            c == sign && !quoted
        })
        .count()
}

/// The commonest count of at least `least`.
fn mode(counts: &[usize], least: usize) -> Option<usize> {
    let mut tally = std::collections::BTreeMap::new();
    for count in counts.iter().filter(|c| **c >= least) {
        *tally.entry(*count).or_insert(0_usize) += 1;
    }
    tally.into_iter().max_by_key(|(_, n)| *n).map(|(count, _)| count)
}
