//! Sound reports with their structure broken: chunks doubled, cut out, swapped, numbers made huge; in a workbook inside
//! its parts, so that the archive around them is whole. No reader panics, and what is answered is bounded by what is there.

#![allow(clippy::disallowed_methods)]

use std::io::{Cursor, Read, Write};

use proptest::prelude::*;
use proptest::sample::Index;

/// One change to bytes.
#[derive(Clone, Debug)]
enum Change {
    Cut(Index, u8),
    Double(Index, u8, u8),
    Swap(Index, Index, u8),
    /// The digits from here on become a number that nothing can hold.
    Huge(Index, u8),
}

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        (any::<Index>(), any::<u8>()).prop_map(|(at, n)| Change::Cut(at, n)),
        (any::<Index>(), any::<u8>(), 1_u8..40).prop_map(|(at, n, times)| Change::Double(at, n, times)),
        (any::<Index>(), any::<Index>(), any::<u8>()).prop_map(|(a, b, n)| Change::Swap(a, b, n)),
        (any::<Index>(), 1_u8..30).prop_map(|(at, n)| Change::Huge(at, n)),
    ]
}

fn changed(mut bytes: Vec<u8>, changes: &[Change]) -> Vec<u8> {
    for change in changes {
        if bytes.is_empty() {
            break;
        }
        let span = |at: &Index, n: u8, len: usize| {
            let at = at.index(len);
            at..(at + usize::from(n) + 1).min(len)
        };
        let len = bytes.len();
        match change {
            Change::Cut(at, n) => drop(bytes.drain(span(at, *n, len))),
            Change::Double(at, n, times) => {
                let range = span(at, *n, len);
                let chunk = bytes[range.clone()].repeat(usize::from(*times));
                bytes.splice(range.end..range.end, chunk);
            }
            Change::Swap(a, b, n) => {
                let (a, b) = (span(a, *n, len), span(b, *n, len));
                let (a, b) = (bytes[a].to_vec(), b);
                bytes.splice(b, a);
            }
            Change::Huge(at, n) => {
                let from = at.index(len);
                let Some(digit) = (from..len).find(|&i| bytes[i].is_ascii_digit()) else { continue };
                bytes.splice(digit..=digit, vec![b'9'; usize::from(*n)]);
            }
        }
    }
    bytes
}

fn sample(name: &str) -> Vec<u8> {
    std::fs::read(format!("{}/tests/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

/// A workbook with one of its parts changed.
fn rebuilt(bytes: &[u8], part: Index, changes: &[Change]) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // A part of rows or strings, not one that no reader opens.
    let names: Vec<String> = archive.file_names().map(|n| n.to_owned()).collect();
    let read: Vec<&String> =
        names.iter().filter(|n| n.ends_with(".xml") || n.ends_with(".rels")).filter(|n| !n.contains("theme")).collect();
    let chosen = part.get(&read).to_string();
    for name in &names {
        let mut text = Vec::new();
        archive.by_name(name).unwrap().read_to_end(&mut text).unwrap();
        let text = if *name == chosen { changed(text, changes) } else { text };
        let stored = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
        out.start_file(name.as_str(), stored).unwrap();
        out.write_all(&text).unwrap();
    }
    out.finish().unwrap().into_inner()
}

/// Read, and look at the answer: something, or a reason; and no more values than bytes could hold.
fn holds(bytes: &[u8]) {
    let report = report::read("changed", bytes);
    assert!(!report.readings.is_empty() || !report.errors.is_empty());
    assert!(report.readings.len() <= 400_000, "{}", report.readings.len());
    serde_json::to_vec(&report.answer()).unwrap();
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn texts_and_pages(which in 0_usize..9, changes in proptest::collection::vec(change(), 1..12)) {
        let names = [
            "abroad/01-gemeinde.txt", "abroad/02-boletin.txt", "abroad/04-stream.csv", "abroad/06-stationen.txt",
            "abroad/08-tweetalig.html", "abroad/10-characteristics.html", "abroad/11-acta.html", "later/03-uw-water.html",
            "samples/bulletin-eau.html",
        ];
        let bytes = changed(sample(names[which]), &changes);
        if report::kind(&bytes) == report::FileKind::Text {
            holds(&bytes);
        }
    }

    #[test]
    fn workbooks(which in 0_usize..5, part in any::<Index>(), changes in proptest::collection::vec(change(), 1..12)) {
        let names = ["abroad/12-treated.xlsx", "abroad/13-monthly.xlsx", "abroad/14-suivi.xlsx", "abroad/15-kwartaal.ods", "samples/zone-12.ods"];
        holds(&rebuilt(&sample(names[which]), part, &changes));
    }

    /// In this process: these few kilobytes are no bombs, which `report_read.rs` of the program tries behind its limits.
    #[test]
    fn pages_of_pdf(which in 0_usize..4, changes in proptest::collection::vec(change(), 1..8)) {
        let names = ["samples/annual-report.pdf", "abroad/18-test-report.pdf", "abroad/20-zone.pdf", "abroad/22-certificate.pdf"];
        holds(&changed(sample(names[which]), &changes));
    }
}

/// Found by `pages_of_pdf`: a length within a font that nothing can hold.
#[test]
fn a_font_of_a_length_that_nothing_can_hold_is_told() {
    let mut bytes = sample("abroad/20-zone.pdf");
    let from = ((bytes.len() as u128 * 4_022_300_137_148_551_334) >> 64) as usize;
    let digit = (from..bytes.len()).find(|&i| bytes[i].is_ascii_digit()).unwrap();
    bytes.splice(digit..=digit, [b'9'; 19]);
    holds(&bytes);
}
