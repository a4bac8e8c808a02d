//! Reports are read in a process of their own, with a deadline and a limit on its memory: a hostile file costs its reader,
//! nothing else.
//!
//! The reader is this program with the hidden command `report read-here`: bytes on its standard input, the report as
//! JSON on its standard output. Its memory is watched on Linux, where the system tells it (`/proc`); elsewhere the
//! deadline and the sizes of the files are the only limits.

use std::io::{self, Read, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use report::{Refusal, RefusalKind, Report};

/// A report of two hundred pages takes a second.
const DEADLINE: Duration = Duration::from_secs(20);
/// Most memory of the reader, bytes.
const MEMORY: u64 = 400 << 20;
/// How often the reader is looked at.
const LOOK: Duration = Duration::from_millis(5);
/// Longest answer, bytes.
const LONGEST_ANSWER: u64 = 256 << 20;

/// Read a report in a process of its own; `program` is this program.
pub fn read(program: &Path, file: &str, bytes: Vec<u8>) -> Report {
    match watched(program, bytes) {
        Ok(report) => Report { file: file.to_owned(), ..report },
        Err(refusal) => Report { file: file.to_owned(), errors: vec![refusal], ..Report::default() },
    }
}

/// The reader's side: bytes in, report out.
///
/// # Errors
/// A standard input or output that fails.
pub fn read_here() -> io::Result<()> {
    let mut bytes = Vec::new();
    io::stdin().lock().take(report::LARGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    let report = report::read("", &bytes);
    let mut out = io::BufWriter::new(io::stdout().lock());
    serde_json::to_writer(&mut out, &report)?;
    out.flush()
}

fn watched(program: &Path, bytes: Vec<u8>) -> Result<Report, Refusal> {
    let failed = |what: &str, e: io::Error| Refusal::new(RefusalKind::Damaged, format!("The reader {what}: {e}."));
    let mut child = Command::new(program)
        .args(["report", "read-here"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|e| failed("can't be started", e))?;
    let (input, output) = (child.stdin.take(), child.stdout.take());
    // A reader that stops listening has a reason, which its end tells.
    let feeder = thread::spawn(move || input.map(|mut i| i.write_all(&bytes)));
    let listener = thread::spawn(move || {
        let mut answer = Vec::new();
        output.map(|o| o.take(LONGEST_ANSWER).read_to_end(&mut answer).map(|_| answer))
    });
    let ended = wait(&mut child);
    let _ = feeder.join();
    let answer = listener.join().ok().flatten().and_then(Result::ok).unwrap_or_default();
    ended?;
    serde_json::from_slice(&answer).map_err(|_| {
        Refusal::new(
            RefusalKind::Damaged,
            "The file broke its reader: it is damaged, or made to do harm. Print it to a new file, or paste its text.",
        )
    })
}

/// Wait for the reader, and end it where it takes too long or too much.
fn wait(child: &mut Child) -> Result<(), Refusal> {
    let start = Instant::now();
    loop {
        match child.try_wait() {
            Ok(Some(_)) | Err(_) => return Ok(()),
            Ok(None) => {}
        }
        let refusal = if start.elapsed() > DEADLINE {
            Some("Reading it took more than 20 seconds. Save the pages with the table alone.")
        } else if memory(child.id()).is_some_and(|m| m > MEMORY) {
            Some("It unpacks to more than a report can hold. Save the pages with the table alone.")
        } else {
            None
        };
        if let Some(text) = refusal {
            let _ = child.kill();
            let _ = child.wait();
            return Err(Refusal::new(RefusalKind::TooLarge, text));
        }
        thread::sleep(LOOK);
    }
}

/// Resident memory of a process, bytes, where the system tells it.
fn memory(id: u32) -> Option<u64> {
    if !cfg!(target_os = "linux") {
        return None;
    }
    let text = std::fs::read_to_string(format!("/proc/{id}/status")).ok()?;
    let line = text.lines().find_map(|l| l.strip_prefix("VmRSS:"))?;
    line.split_whitespace().next()?.parse::<u64>().ok().map(|kb| kb * 1024)
}
