//! The stream: while one chunk of rows is solved on all cores, the one before is written and the next one read.

use std::io::{self, Read, Write};

use quantity::{Fault, Faults};
use rayon::prelude::*;

use super::answer::{Form, print, table_head};
use super::reader::{Row, Rows};
use super::row::RowReader;

/// Rows a chunk. Three chunks are in memory at a time: one read, one solved, one written.
const CHUNK: usize = 8192;
/// Rows that one core takes at a time.
const SLICE: usize = 256;
/// Faults shown in full under a table; the rest is counted.
const SHOWN: usize = 20;

/// How a batch went.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// Rows solved.
    pub solved: usize,
    /// Rows that could not be solved.
    pub failed: usize,
}

/// Why a batch ended before its end.
#[derive(Debug)]
pub enum Stop {
    /// The file as a whole is no batch; nothing was printed.
    Faults(Faults),
    /// The output could not be written.
    Output(io::Error),
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Self {
        Stop::Output(error)
    }
}

/// Solve all rows of `input` and print them to `out` in order; faults that a table can't show go to `notes`.
///
/// # Errors
/// [`Stop`]: a file that is no batch, or an output that takes no more.
pub fn solve<R: Read + Send, W: Write + Send, N: Write + Send>(
    file: &str,
    input: R,
    form: Form,
    out: W,
    notes: N,
) -> Result<Count, Stop> {
    let mut rows = Rows::open(file, input, false).map_err(Stop::Faults)?;
    let columns = rows.columns.clone();
    let reader = RowReader { file, columns: &columns };
    let (mut chunk, mut end) = rows.next(CHUNK);
    if chunk.is_empty() && end.is_none() {
        return Err(Stop::Faults(no_rows(file).into()));
    }
    let mut writer = Writer { form, out, notes, count: Count::default(), shown: 0 };
    let mut ready = Vec::new();
    writer.begin()?;
    while !chunk.is_empty() {
        let (solved, next) = rayon::join(
            || solve_chunk(&reader, form, &chunk),
            || writer.write(&ready).map(|()| if end.is_none() { rows.next(CHUNK) } else { (Vec::new(), None) }),
        );
        let (following, fault) = next?;
        ready = solved;
        chunk = following;
        end = end.or(fault);
    }
    writer.write(&ready)?;
    if let Some(fault) = end {
        writer.write(&[last(form, fault)])?;
    }
    Ok(writer.end()?)
}

/// What became of some rows.
struct Printed {
    bytes: Vec<u8>,
    /// Where each row ends in `bytes`.
    ends: Vec<usize>,
    faults: Vec<Faults>,
}

impl Printed {
    fn add(&mut self, form: Form, id: &str, result: Result<water::Solved, Faults>) {
        print(&mut self.bytes, form, id, &result);
        self.ends.push(self.bytes.len());
        self.faults.extend(result.err());
    }
}

fn solve_chunk(reader: &RowReader<'_>, form: Form, rows: &[Row]) -> Vec<Printed> {
    rows.par_chunks(SLICE)
        .map(|slice| {
            let mut printed = Printed { bytes: Vec::with_capacity(400 * slice.len()), ends: vec![], faults: vec![] };
            for row in slice {
                printed.add(form, &reader.id(row), reader.solve(row));
            }
            printed
        })
        .collect()
}

/// The row that could not even be read.
fn last(form: Form, fault: Fault) -> Printed {
    let mut printed = Printed { bytes: vec![], ends: vec![], faults: vec![] };
    printed.add(form, "", Err(fault.into()));
    printed
}

/// The fault of a batch that ends after its header.
pub fn no_rows(file: &str) -> Fault {
    Fault::new("the file has a header and no rows")
        .at(quantity::Place { file: Some(file.to_owned()), ..Default::default() })
        .expected("at least one row")
}

struct Writer<W, N> {
    form: Form,
    out: W,
    notes: N,
    count: Count,
    shown: usize,
}

impl<W: Write, N: Write> Writer<W, N> {
    fn begin(&mut self) -> io::Result<()> {
        match self.form {
            Form::Json => self.out.write_all(b"["),
            Form::Table | Form::Explained => self.out.write_all(table_head().as_bytes()),
        }
    }

    fn write(&mut self, ready: &[Printed]) -> io::Result<()> {
        for printed in ready {
            let mut start = 0;
            for end in &printed.ends {
                if self.form == Form::Json {
                    let first = self.count.solved + self.count.failed == 0;
                    self.out.write_all(if first { b"\n" } else { b",\n" })?;
                }
                self.out.write_all(&printed.bytes[start..*end])?;
                self.count.solved += 1;
                start = *end;
            }
            self.count.solved -= printed.faults.len();
            self.count.failed += printed.faults.len();
            if self.form != Form::Json {
                for faults in printed.faults.iter().take(SHOWN - self.shown.min(SHOWN)) {
                    writeln!(self.notes, "{faults}\n")?;
                    self.shown += 1;
                }
            }
        }
        Ok(())
    }

    fn end(mut self) -> io::Result<Count> {
        if self.form == Form::Json {
            self.out.write_all(b"\n]\n")?;
        }
        self.out.flush()?;
        let Count { solved, failed } = self.count;
        if failed > 0 {
            if self.form != Form::Json && failed > self.shown {
                writeln!(self.notes, "{} more faults are not shown; --json has them all\n", failed - self.shown)?;
            }
            writeln!(self.notes, "{failed} of {} rows could not be solved", solved + failed)?;
        }
        Ok(self.count)
    }
}
