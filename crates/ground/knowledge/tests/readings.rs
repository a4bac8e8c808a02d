//! What the logbook can hold: rows of `data/readings.toml` and `data/amounts.toml`.

use knowledge::{Counts, book};
use quantity::basis::Basis;

#[test]
fn a_row_counts_what_its_unit_says() {
    for (key, row) in &book().readings {
        assert!(row.is.is_ordered() && row.is.usual_low < row.is.usual_high, "{key}");
        assert_eq!(row.ion.is_some(), matches!(row.how, Counts::Ion | Counts::Element), "{key}");
        let unit = match (row.how, row.ion) {
            (Counts::Ion, Some(ion)) if quantity::basis::needs_basis(ion) => format!("mg/L {}", ion.formula()),
            (Counts::Ion, Some(_)) | (Counts::Plain, _) => "mg/L".to_owned(),
            (Counts::Element, Some(ion)) => format!("mg/L {}", Basis::AsElement.formula(ion).unwrap()),
            (Counts::Alkalinity | Counts::Hardness, _) => "meq/L".to_owned(),
            (Counts::Conductivity, _) => "µS/cm".to_owned(),
            (Counts::Temperature, _) => "°C".to_owned(),
            (Counts::Mass, _) => "g".to_owned(),
            _ => String::new(),
        };
        assert_eq!(row.is.unit, unit, "{key}");
    }
}

#[test]
fn a_kit_is_never_said_to_be_exact() {
    for (key, row) in &book().readings {
        assert!(!row.kit.is_empty(), "{key}: nothing reads it");
        for (name, kit) in &row.kit {
            assert!(kit.least > 0.0 && (0.0..1.0).contains(&kit.share), "{key}: {name}");
            assert!(kit.lowest.is_none_or(|lowest| lowest > 0.0 && lowest <= row.is.usual_high), "{key}: {name}");
            // Where no kit is named, none is better than what counts.
            for value in [row.is.usual_low, row.is.usual_high] {
                assert!(row.error(None, value) >= row.error(Some(name), value), "{key}: {name}");
            }
        }
    }
    for (key, row) in &book().amounts {
        assert!(row.is.is_ordered() && row.is.low == 0.0, "{key}");
    }
}

/// What other tables call a reading is one of these.
#[test]
fn every_test_of_the_routine_and_every_meaning_is_a_reading() {
    for key in book().routine.test.keys() {
        assert!(book().readings.contains_key(key), "{key}");
    }
}
