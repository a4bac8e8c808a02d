//! Prints what every trouble makes of a setup file: `cargo run -p trouble --example outcomes -- FILE [NAME=VALUE]...`
#![allow(clippy::disallowed_methods, reason = "an example reads the file that it is told")]

use trouble::{Told, outcomes, sheets, worked, worked_text};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let file = args.next().ok_or("which file?")?;
    let setup = setup::Setup::read(&file, &std::fs::read_to_string(&file)?)?;
    let mut told = Told::default();
    for pair in args {
        let (key, text) = pair.split_once('=').ok_or("NAME=VALUE")?;
        told.take(key, text)?;
    }
    let answer = recipe::answer(&setup)?;
    let now = jiff::civil::date(2026, 6, 9).at(15, 0, 0, 0).in_tz("UTC")?;
    for outcome in outcomes(&answer) {
        for sheet in sheets() {
            println!("=== {} {:?}", sheet.title, outcome.replies);
            println!("{}", worked_text(&worked(&sheet.key, &outcome.case(&told), &[], &now), true));
        }
    }
    Ok(())
}
