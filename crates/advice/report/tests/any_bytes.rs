//! No bytes and no shape of a table make a reader panic or run on.

#![allow(clippy::disallowed_methods)]

use proptest::prelude::*;

/// Pieces that tables are made of, and a few that they are not.
const PIECES: [&str; 40] = [
    "Nitrate",
    "Calcium (mg/l)",
    "pH",
    "mg/l",
    "µg/l NO3",
    "12,5",
    "<0.05",
    "1,234",
    "n.d.",
    "-",
    "Min",
    "Max",
    "Mean",
    "Limit",
    "Unit",
    "Parameter",
    "2024-03-01",
    "Zone 1",
    "  ",
    "    ",
    "\t",
    ";",
    ",",
    "|",
    "\n",
    "\n",
    "\n",
    "(",
    ")",
    "18 - 44",
    "±",
    "°",
    "\u{300}",
    "🜄",
    "\"",
    "<table>",
    "<tr><td>",
    "<sup>",
    "99999999999999999999999",
    "1e99",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..2000)) {
        if report::kind(&bytes) != report::FileKind::Pdf {
            let report = report::read("any", &bytes);
            prop_assert!(!report.readings.is_empty() || !report.errors.is_empty());
        }
    }

    #[test]
    fn any_text(text in "\\PC{0,400}") {
        report::read_text(&text);
    }

    #[test]
    fn any_table(pieces in proptest::collection::vec(proptest::sample::select(PIECES.to_vec()), 0..120)) {
        let report = report::read_text(&pieces.concat());
        serde_json::to_string(&report.answer()).unwrap();
    }

    /// Samples of each kind with bytes changed, cut out, cut off. PDF is tried through the program, in its own process.
    #[test]
    fn damaged_samples(
        which in 0_usize..6,
        changes in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..20),
        cut in any::<prop::sample::Index>(),
        cuts in any::<bool>(),
    ) {
        let names = ["waterkwaliteit.xlsx", "zone-12.ods", "bulletin-eau.html", "outgoing-water.tsv", "informe-valdesoto.txt", "uk-zone-summary.csv"];
        let mut bytes = std::fs::read(format!("{}/tests/samples/{}", env!("CARGO_MANIFEST_DIR"), names[which])).unwrap();
        if cuts {
            bytes.truncate(cut.index(bytes.len()));
        }
        for (at, byte) in &changes {
            if !bytes.is_empty() {
                let at = at.index(bytes.len());
                bytes[at] = *byte;
            }
        }
        if report::kind(&bytes) != report::FileKind::Pdf {
            report::read("damaged", &bytes);
        }
    }
}
