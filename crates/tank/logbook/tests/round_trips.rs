//! What is written out reads back: every kind of entry, every digit, any words.

use crate::common::{entry, now, whole};
use logbook::written::Texts;
use logbook::{Kept, table, written};
use proptest::prelude::*;
use quantity::{DecimalSign, HardnessUnit, NutrientBasis, TemperatureUnit, Units, VolumeUnit};

/// The units of another keeper: what stands in a table says its own.
fn others() -> Units {
    Units {
        volume: VolumeUnit::UsGallon,
        temperature: TemperatureUnit::Fahrenheit,
        hardness: HardnessUnit::French,
        nitrogen: NutrientBasis::Element,
        phosphorus: NutrientBasis::Element,
        decimal: DecimalSign::Comma,
        ..Units::default()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn an_entry_reads_as_it_was_written(entry in entry()) {
        let texts: Texts = written::write(&entry).into_iter().map(|(name, text)| (name.to_owned(), text)).collect();
        for units in [Units::default(), others()] {
            let read = written::read(&texts, &now(), &units).map_err(|faults| TestCaseError::fail(faults.to_string()))?;
            prop_assert_eq!(whole(&read), whole(&entry));
        }
    }

    #[test]
    fn a_table_reads_as_it_was_written(entries in prop::collection::vec(entry(), 0..12)) {
        let kept: Vec<Kept> = (1..).zip(entries).map(|(id, entry)| Kept { id, entry }).collect();
        let text = table::write(&kept);
        let read = table::read("log.csv", &text, &now(), &others()).map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        let mut sorted = kept.clone();
        sorted.sort_by_key(|kept| (kept.entry.at.timestamp(), kept.id));
        let all = |entries: &mut dyn Iterator<Item = &logbook::Entry>| entries.map(whole).collect::<Vec<_>>();
        prop_assert_eq!(all(&mut read.iter()), all(&mut sorted.iter().map(|kept| &kept.entry)));
        // Read in twice it is written once.
        let again = |held: &[Kept]| table::fresh("log.csv", &text, &now(), &others(), held, None).map(|(new, there)| (new.len(), there));
        prop_assert_eq!(again(&kept), Ok((0, kept.len())));
        prop_assert_eq!(again(&[]), Ok((kept.len(), 0)));
    }

    #[test]
    fn no_text_is_a_panic(texts in prop::collection::btree_map(prop::sample::select(written::NAMES.to_vec()), ".{0,30}", 0..8), kind in 0..12_usize) {
        let mut texts: Texts = texts.into_iter().map(|(name, text)| (name.to_owned(), text)).collect();
        let _ = written::read(&texts, &now(), &Units::default());
        texts.insert("kind".to_owned(), written::KINDS[kind].0.to_owned());
        let _ = written::read(&texts, &now(), &others());
    }

    #[test]
    fn no_table_is_a_panic(text in any::<String>(), cut in 0_usize..400) {
        let kept = [Kept { id: 1, entry: logbook::Entry { at: now(), what: logbook::What::Words, note: "a, \"b\"\n".to_owned() } }];
        let whole = table::write(&kept);
        let cut = whole.floor_char_boundary(cut.min(whole.len()));
        for text in [text.clone(), format!("{}{text}", &whole[..cut]), format!("{whole}{text}\n")] {
            let _ = table::read("log.csv", &text, &now(), &Units::default());
        }
    }
}

/// A keeper's own table tells days: read in each morning as it grows, it is written once.
#[test]
fn a_table_of_days_that_is_read_in_again_is_written_once() {
    let text = "at,kind,amount\n2026-06-10,food,0.2 g\n2026-06-11,food,0.2 g\n2026-06-11,food,0.3 g\n";
    let fresh = |held: &[Kept], at: &str| {
        table::fresh("log.csv", text, &at.parse().unwrap(), &Units::default(), held, None).unwrap()
    };
    let (new, there) = fresh(&[], "2026-06-11T09:15:00+02:00[Europe/Berlin]");
    assert_eq!((new.len(), there), (3, 0));
    // None of it has still to come.
    assert!(new.iter().all(|entry| entry.at.timestamp() <= now().timestamp()), "{new:?}");
    let held: Vec<Kept> = new.into_iter().zip(1..).map(|(entry, id)| Kept { id, entry }).collect();
    for at in ["2026-06-11T09:20:00+02:00[Europe/Berlin]", "2026-06-12T09:15:00+02:00[Europe/Berlin]"] {
        assert_eq!(fresh(&held, at), (vec![], 3));
    }
    // An hour is an hour: the same food at another is another meal.
    let hour = text.replace("2026-06-10,", "2026-06-10 08:00,");
    let (new, there) = table::fresh("log.csv", &hour, &now(), &Units::default(), &held, None).unwrap();
    assert_eq!((new.len(), there), (1, 2));
}

/// A spreadsheet takes what begins so for a formula and runs it; behind an apostrophe it is text.
#[test]
fn no_text_of_the_table_is_a_formula() {
    for (note, cell) in [
        ("=1+1", "'=1+1"),
        ("+49", "'+49"),
        ("- a leaf", "'- a leaf"),
        ("@home", "'@home"),
        ("'=1", "''=1"),
        ("'tis", "'tis"),
        ("a = b", "a = b"),
    ] {
        let entry = logbook::Entry { at: now(), what: logbook::What::Words, note: note.to_owned() };
        let text = table::write(&[Kept { id: 1, entry: entry.clone() }]);
        assert!(text.ends_with(&format!(",{cell}\r\n")), "{note}: {text}");
        assert_eq!(table::read("log.csv", &text, &now(), &Units::default()).unwrap(), [entry]);
    }
    // How many more animals is a number, below 0 too.
    let what = logbook::What::Animals { who: "fish".to_owned(), change: -1, counted: None };
    let text = table::write(&[Kept { id: 1, entry: logbook::Entry { at: now(), what, note: String::new() } }]);
    assert!(text.contains(",fish,-1,"), "{text}");
}
