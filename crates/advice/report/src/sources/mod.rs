//! Files of each kind to grids.

mod accents;
mod delimited;
mod glyphs;
mod html;
mod middle;
mod pdf;
mod sheet;
mod single;
mod stacked;
mod text;
mod unpacked;

use crate::grid::Grid;
use crate::{Refusal, RefusalKind};

/// Largest file of text, bytes.
pub const LARGEST_TEXT: usize = 32 << 20;
/// Most cells looked at.
pub(crate) const MOST_ROWS: usize = 1_000_000;

/// Largest PDF or spreadsheet, bytes.
pub const LARGEST_FILE: usize = 64 << 20;

/// What bytes are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// PDF. Its reader's memory is not bounded: read it in a process that may die.
    Pdf,
    /// xlsx.
    Xlsx,
    /// ods.
    Ods,
    /// A page of the web, or text with or without delimiters.
    Text,
}

/// What bytes are, by their first ones.
pub fn kind(bytes: &[u8]) -> FileKind {
    let head = bytes.get(..bytes.len().min(1024)).unwrap_or_default();
    let has = |what: &[u8]| head.windows(what.len()).any(|w| w == what);
    if has(b"%PDF-") {
        FileKind::Pdf
    } else if !bytes.starts_with(b"PK") {
        FileKind::Text
    } else if has(b"mimetypeapplication/vnd.oasis.opendocument") {
        FileKind::Ods
    } else {
        FileKind::Xlsx
    }
}

/// The grids of a file, and what of it could not be read.
pub(crate) fn grids(bytes: &[u8]) -> Result<(Vec<Grid>, Option<Refusal>), Refusal> {
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(Refusal::new(RefusalKind::Empty, "The file is empty."));
    }
    let kind = kind(bytes);
    let (most, said) = if kind == FileKind::Text { (LARGEST_TEXT, 32) } else { (LARGEST_FILE, 64) };
    if bytes.len() > most {
        return Err(Refusal::new(
            RefusalKind::TooLarge,
            format!("The file is larger than {said} MB. Save the pages with the table alone."),
        ));
    }
    match kind {
        FileKind::Pdf => pdf::grids(bytes),
        FileKind::Xlsx | FileKind::Ods => {
            unpacked::check(bytes)?;
            Ok((sheet::grids(bytes, kind == FileKind::Ods)?, None))
        }
        FileKind::Text if is_binary(bytes) => Err(Refusal::new(
            RefusalKind::Damaged,
            "The file is none of those that can be read: PDF with text, xlsx, ods, CSV, a page of the web, text.",
        )),
        FileKind::Text => Ok((text_grids(&text::decode(bytes)), None)),
    }
}

/// Bytes that no text has: zeros, but for UTF-16.
fn is_binary(bytes: &[u8]) -> bool {
    let head = bytes.get(..bytes.len().min(4000)).unwrap_or_default();
    let odd = head.iter().filter(|b| **b < 9 || (14..32).contains(*b)).count();
    odd * 20 > head.len() && !text::is_utf16(bytes)
}

/// The grids of a text: of its tables, of a page of the web, or of its lines.
pub(crate) fn text_grids(text: &str) -> Vec<Grid> {
    let text = &*text::with_line_ends(text);
    if html::is_html(text) {
        return html::grids(text);
    }
    match delimited::grid(text)
        .or_else(|| stacked::under_names(text))
        .or_else(|| single::grid(text))
        .or_else(|| stacked::grid(text))
    {
        Some(grid) => vec![grid],
        None => text::grids(text),
    }
}
