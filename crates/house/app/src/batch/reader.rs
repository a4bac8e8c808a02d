//! Rows of a batch, handed out in chunks; no row may be longer than a limit, so memory stays bounded.

use std::io::{self, Read};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use csv::ByteRecord;
use quantity::{Fault, Faults, Place};

use super::columns::Columns;

/// Longest row, bytes. A row of plain numbers has some two hundred.
pub const ROW_LIMIT: usize = 1 << 20;

/// The reader's buffer, bytes.
const BUFFER: usize = 1 << 16;

/// A row as it stands in the file.
pub struct Row {
    /// Line, counted from 1.
    pub line: usize,
    /// Its fields.
    pub fields: ByteRecord,
}

/// Rows of a file, the header read and checked.
pub struct Rows<R> {
    csv: csv::Reader<Limited<R>>,
    since_row: Arc<AtomicUsize>,
    /// Name of the file in faults.
    pub file: String,
    /// The header.
    pub columns: Columns,
}

impl<R: Read> Rows<R> {
    /// Open a batch; `blend` asks for `parts` too.
    ///
    /// # Errors
    /// An empty or unreadable file, and all faults of the header.
    pub fn open(file: &str, input: R, blend: bool) -> Result<Rows<R>, Faults> {
        let since_row = Arc::new(AtomicUsize::new(0));
        let limited = Limited { input, since_row: Arc::clone(&since_row) };
        let mut csv =
            csv::ReaderBuilder::new().has_headers(false).flexible(true).buffer_capacity(BUFFER).from_reader(limited);
        let mut first = ByteRecord::new();
        let any = csv.read_byte_record(&mut first).map_err(|e| unreadable(file, &e))?;
        since_row.store(0, Ordering::Relaxed);
        if !any || first.iter().all(|f| f.iter().all(u8::is_ascii_whitespace)) {
            return Err(Fault::new("the file is empty")
                .at(Place { file: Some(file.to_owned()), ..Place::default() })
                .expected("a header and at least one row")
                .hint("docs/command-line.md shows a batch to start from")
                .into());
        }
        let header: Vec<String> = first.iter().map(|f| String::from_utf8_lossy(f).into_owned()).collect();
        let columns = Columns::read(file, &header, blend)?;
        Ok(Rows { csv, since_row, file: file.to_owned(), columns })
    }

    /// At most `most` further rows; fewer, or none, at the end.
    ///
    /// The second value is the fault that ended the reading, if one did.
    pub fn next(&mut self, most: usize) -> (Vec<Row>, Option<Fault>) {
        let mut rows = Vec::with_capacity(most);
        while rows.len() < most {
            let mut fields = ByteRecord::new();
            match self.csv.read_byte_record(&mut fields) {
                Ok(false) => break,
                Ok(true) => {
                    self.since_row.store(0, Ordering::Relaxed);
                    let line = fields.position().map_or(0, |p| p.line() as usize);
                    rows.push(Row { line, fields });
                }
                Err(e) => {
                    let mut fault = unreadable(&self.file, &e);
                    fault.place.line = Some(self.csv.position().line() as usize);
                    return (rows, Some(fault));
                }
            }
        }
        (rows, None)
    }
}

fn unreadable(file: &str, error: &csv::Error) -> Fault {
    let place = Place { file: Some(file.to_owned()), ..Place::default() };
    match error.kind() {
        csv::ErrorKind::Io(e) if e.kind() == io::ErrorKind::InvalidData => Fault::new("a row is too long")
            .at(place)
            .expected(format!("rows of at most {} bytes", ROW_LIMIT))
            .hint("a quotation mark that is opened and never closed makes the rest of the file one row"),
        _ => Fault::new(format!("the file can't be read: {error}")).at(place),
    }
}

/// Counts what was read since the last whole row, and refuses to go on beyond the limit.
struct Limited<R> {
    input: R,
    since_row: Arc<AtomicUsize>,
}

impl<R: Read> Read for Limited<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let n = self.input.read(buffer)?;
        if self.since_row.fetch_add(n, Ordering::Relaxed) + n > ROW_LIMIT + BUFFER {
            return Err(io::ErrorKind::InvalidData.into());
        }
        Ok(n)
    }
}
