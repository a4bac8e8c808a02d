//! Bytes to text, and text to grids: columns are laid out with spaces.

use std::borrow::Cow;

use encoding_rs::{Encoding, MACINTOSH, UTF_16BE, UTF_16LE, WINDOWS_1252};

use crate::grid::Grid;
use crate::layout::{self, Line, Piece};
use crate::prose;

/// Bytes as text: a byte-order mark goes first, then UTF-8 if it is sound, then what a page of the web names, then
/// windows-1252 or what a Mac wrote, which have every letter of the five languages.
pub(crate) fn decode(bytes: &[u8]) -> Cow<'_, str> {
    if let Some((encoding, mark)) = Encoding::for_bom(bytes) {
        return encoding.decode_without_bom_handling(bytes.get(mark..).unwrap_or_default()).0;
    }
    if let Some(encoding) = utf16_without_mark(bytes) {
        return encoding.decode_without_bom_handling(bytes).0;
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Cow::Borrowed(text);
    }
    let encoding = named_in(bytes).unwrap_or_else(|| western(bytes));
    encoding.decode_without_bom_handling(bytes).0
}

/// Windows-1252 or the Mac's own: the one that makes more small letters of the five languages from the bytes.
fn western(bytes: &[u8]) -> &'static Encoding {
    let head = bytes.get(..bytes.len().min(LOOKED_AT)).unwrap_or_default();
    let letters = |encoding: &'static Encoding| {
        let text = encoding.decode_without_bom_handling(head).0;
        text.chars().filter(|c| "àáâäçèéêëìíîïñòóôöùúûüßœÿ".contains(*c)).count()
    };
    if letters(MACINTOSH) > letters(WINDOWS_1252) { MACINTOSH } else { WINDOWS_1252 }
}

/// Bytes that tell in what a text is written.
const LOOKED_AT: usize = 100_000;

/// One sign at the end of each line, where they end as a Mac ended them long ago.
pub(crate) fn with_line_ends(text: &str) -> Cow<'_, str> {
    if text.contains('\r') && !text.contains('\n') { text.replace('\r', "\n").into() } else { text.into() }
}

/// The encoding that a page of the web names in its head.
fn named_in(bytes: &[u8]) -> Option<&'static Encoding> {
    let head = String::from_utf8_lossy(bytes.get(..bytes.len().min(2048))?).to_lowercase();
    let (_, rest) = head.split_once("charset=")?;
    let label: String =
        rest.trim_start_matches(['"', '\'']).chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
    Encoding::for_label(label.as_bytes()).filter(|e| *e != encoding_rs::UTF_8)
}

/// Whether bytes are text in UTF-16.
pub(crate) fn is_utf16(bytes: &[u8]) -> bool {
    matches!(Encoding::for_bom(bytes), Some((e, _)) if e == UTF_16LE || e == UTF_16BE)
        || utf16_without_mark(bytes).is_some()
}

/// Every other byte of Latin text in UTF-16 is zero.
fn utf16_without_mark(bytes: &[u8]) -> Option<&'static Encoding> {
    let head = bytes.get(..bytes.len().min(2000))?;
    let zeros = |from: usize| head.iter().skip(from).step_by(2).filter(|b| **b == 0).count();
    let half = head.len() / 2;
    match (zeros(0), zeros(1)) {
        (even, odd) if half > 4 && odd * 10 > half * 7 && even * 10 < half => Some(UTF_16LE),
        (even, odd) if half > 4 && even * 10 > half * 7 && odd * 10 < half => Some(UTF_16BE),
        _ => None,
    }
}

/// The tables of a text.
pub(crate) fn grids(text: &str) -> Vec<Grid> {
    let lines: Vec<Line> = text
        .lines()
        .zip(1..)
        .take(super::MOST_ROWS)
        .map(|(line, number)| Line { number, pieces: pieces(line) })
        .filter(|line| !line.pieces.is_empty())
        .collect();
    layout::grids(&prose::sentences(lines))
}

/// Runs of text parted by two spaces and more; lines drawn with signs are no text.
fn pieces(line: &str) -> Vec<Piece> {
    let chars: Vec<char> = line.chars().map(|c| if c == '\u{a0}' { ' ' } else { c }).take(4000).collect();
    let mut out: Vec<Piece> = Vec::new();
    let (mut start, mut text, mut spaces) = (0, String::new(), 0);
    for (i, &c) in chars.iter().chain(&[' ', ' ']).enumerate() {
        if c.is_whitespace() || c == '|' {
            spaces += if c == '|' || c == '\t' { 2 } else { 1 };
        } else {
            if text.is_empty() {
                start = i;
            } else if spaces == 1 {
                text.push(' ');
            }
            (spaces, _) = (0, text.push(c));
            continue;
        }
        if spaces >= 2 && !text.is_empty() {
            let length = text.chars().count();
            out.push(Piece {
                x0: start as f64,
                x1: (start + length) as f64,
                text: std::mem::take(&mut text),
                words: Vec::new(),
            });
        }
    }
    out.retain(|p| {
        p.text.chars().any(|c| !matches!(c, '-' | '=' | '_' | '+' | '*' | '─')) || p.text.chars().count() < 3
    });
    out
}
