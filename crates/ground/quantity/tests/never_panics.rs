//! Whatever is typed, the answer is an amount or a fault that says what was expected and how to mend it.

use proptest::prelude::*;
use quantity::concentration::{explain_conversion, parse_concentration, possible_readings};
use quantity::conductivity::parse_conductivity;
use quantity::hardness::{parse_alkalinity, parse_hardness};
use quantity::*;

/// Pieces of which amounts are made, put together without sense.
fn pieces() -> impl Strategy<Value = String> {
    let piece = proptest::sample::select(vec![
        "1", "12", "1,234", "0.05", ".5", "-", "–", "+", "<", ">", "~", "±", "/", " ", " ", ":", "@", "(", ")", "·",
        "to", "as", "mg", "µg", "L", "l-1", "⁻¹", "mmol", "meq", "ppm", "NO3", "NO3-", "N", "P2O5", "Ca2+", "SO4 2-",
        "CaCO3", "nitrate", "°", "°dH", "dKH", "GH", "KH", "gpg", "grains", "per", "imperial", "µS", "cm", "°C", "20",
        "25", "e-4", "× 10^-4", "...", "'", "_", "%", "€", "US gal", "EUR", "month", "KS4,3", "İ", "ﬁ", "²", "\u{0}",
        "\u{202e}", "٣",
    ]);
    proptest::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

fn sound<T>(text: &str, result: Result<T, Fault>) -> Result<Option<T>, TestCaseError> {
    match result {
        Ok(value) => Ok(Some(value)),
        Err(fault) => {
            let whole = [Some(&fault.what), fault.expected.as_ref(), fault.hint.as_ref()];
            prop_assert!(whole.iter().all(|t| t.is_some_and(|t| !t.is_empty())), "{text:?}: {fault}");
            prop_assert!(fault.to_string().len() < 1500, "{text:?}");
            Ok(None)
        }
    }
}

fn read_all(text: &str) -> Result<(), TestCaseError> {
    let units = Units::default();
    if let Some(v) = sound(text, parse_number(text))? {
        prop_assert!(v.is_finite());
    }
    for ion in Ion::ALL {
        if let Some(r) = sound(text, parse_concentration(text, ion))? {
            prop_assert!(0.0 <= r.low_mol_per_l && r.low_mol_per_l <= r.mol_per_l && r.mol_per_l <= r.high_mol_per_l);
            prop_assert!(r.mol_per_l.is_finite());
            explain_conversion(&r);
            r.explain();
        }
        if let Some(readings) = sound(text, possible_readings(text, ion))? {
            prop_assert!(!readings.is_empty());
        }
    }
    for parse in [parse_hardness, parse_alkalinity] {
        if let Some(r) = sound(text, parse(text))? {
            prop_assert!(r.low_meq_per_l <= r.meq_per_l && r.meq_per_l <= r.high_meq_per_l && r.meq_per_l.is_finite());
            r.print(&units);
            r.explain();
        }
    }
    if let Some(r) = sound(text, parse_conductivity(text))? {
        prop_assert!(r.us_per_cm.is_finite() && r.low_us_per_cm >= 0.0);
        sound(text, r.at_25())?;
    }
    sound(text, Volume::parse(text))?;
    sound(text, Mass::parse(text))?;
    sound(text, Length::parse(text))?;
    sound(text, Power::parse(text))?;
    sound(text, Duration::parse(text))?;
    sound(text, Share::parse(text))?;
    sound(text, Temperature::parse(text))?;
    sound(text, TemperatureDifference::parse(text))?;
    sound(text, Money::parse(text))?;
    sound(text, MoneyRate::parse(text))?;
    sound(text, Currency::new(text))?;
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn pieces_of_amounts(text in pieces()) {
        read_all(&text)?;
    }

    #[test]
    fn any_text(text in any::<String>()) {
        read_all(&text)?;
    }
}

#[test]
fn a_very_long_text_is_refused() {
    let text = "1 mg/L ".repeat(100_000);
    read_all(&text).unwrap();
    assert!(parse_concentration(&text, Ion::Sodium).is_err());
}
