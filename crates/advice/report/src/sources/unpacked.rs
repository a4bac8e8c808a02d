//! What a zip archive says that it unpacks to, read from its directory before anything is unpacked.

use crate::{Refusal, RefusalKind};

/// Most bytes that a spreadsheet may unpack to.
const MOST: u64 = 200 << 20;

/// Refuse an archive that unpacks to too much, or whose directory can't be read.
///
/// The directory's record of the end (`PK\5\6`) says where the entries stand; each entry (`PK\1\2`) says its size
/// unpacked. Sizes of 2^32 - 1 stand for a larger one (zip64): no report is that large.
pub(crate) fn check(bytes: &[u8]) -> Result<(), Refusal> {
    let damaged = || {
        Refusal::new(
            RefusalKind::Damaged,
            "The spreadsheet is cut off or damaged: its directory is missing. Save it again.",
        )
    };
    let tail = bytes.len().saturating_sub(65_600);
    let end =
        bytes.get(tail..).and_then(|t| t.windows(4).rposition(|w| w == b"PK\x05\x06")).ok_or_else(damaged)? + tail;
    let entries = u16_at(bytes, end + 10).ok_or_else(damaged)?;
    let mut at = u32_at(bytes, end + 16).ok_or_else(damaged)? as usize;
    let mut sum: u64 = 0;
    for _ in 0..entries {
        if bytes.get(at..at + 4) != Some(b"PK\x01\x02") {
            return Err(damaged());
        }
        sum += u64::from(u32_at(bytes, at + 24).ok_or_else(damaged)?);
        let skip = |o: usize| u16_at(bytes, at + o).map(usize::from).ok_or_else(damaged);
        at += 46 + skip(28)? + skip(30)? + skip(32)?;
    }
    if sum > MOST {
        return Err(Refusal::new(
            RefusalKind::TooLarge,
            "The spreadsheet unpacks to more than 200 MB. Save the sheet with the table alone.",
        ));
    }
    Ok(())
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}
