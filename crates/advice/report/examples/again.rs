//! Reads a file again and again, for the benchmark beside other readers: `again FILE TIMES` prints what was read once.

#![allow(clippy::disallowed_methods, clippy::print_stdout)]

fn main() -> std::io::Result<()> {
    let mut words = std::env::args().skip(1);
    let (path, times) = (words.next().unwrap_or_default(), words.next().and_then(|n| n.parse().ok()).unwrap_or(1_u32));
    let bytes = std::fs::read(&path)?;
    let mut report = report::Report::default();
    for _ in 0..times {
        report = std::hint::black_box(report::read(&path, &bytes));
    }
    println!(
        "{} readings, {} unknown rows, {} errors",
        report.readings.len(),
        report.unknown_rows.len(),
        report.errors.len()
    );
    Ok(())
}
