//! Prints what is read of a file: `cargo run -p report --example show FILE`.

#![allow(clippy::disallowed_methods, clippy::print_stdout)]

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        let report = report::read(&path, &std::fs::read(&path)?);
        println!("{path}: {:?} {:?} {:?}", report.language, report.samples, report.errors);
        for r in &report.readings {
            let value = (r.statistic, r.value, r.detection_limit, r.unit, r.counted.basis(), r.sample);
            println!("{} {value:?} {:?} {:?} <{}>", r.determinand, r.question, r.because, r.place.text);
        }
        report.unknown_rows.iter().for_each(|u| println!("? {}", u.text));
        report.contradictions.iter().for_each(|c| println!("! {}", c.text));
    }
    Ok(())
}
