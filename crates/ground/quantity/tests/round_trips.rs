//! What is printed can be read again, and gives the same to the digits printed.

use proptest::prelude::*;
use quantity::concentration::{format_concentration, keepers_basis, parse_concentration};
use quantity::conductivity::parse_conductivity;
use quantity::hardness::{format_hardness, parse_alkalinity, parse_hardness};
use quantity::number::format_number_with;
use quantity::*;

/// Positive numbers spread over many powers of ten.
fn positive() -> impl Strategy<Value = f64> {
    (1.0..10.0f64, -5..6i32).prop_map(|(m, e)| m * 10f64.powi(e))
}

fn units() -> impl Strategy<Value = Units> {
    (0..8usize, any::<[bool; 7]>()).prop_map(|(hardness, pick)| Units {
        volume: if pick[0] { VolumeUnit::UsGallon } else { VolumeUnit::Litre },
        temperature: if pick[1] { TemperatureUnit::Fahrenheit } else { TemperatureUnit::Celsius },
        hardness: [
            HardnessUnit::German,
            HardnessUnit::French,
            HardnessUnit::English,
            HardnessUnit::Caco3,
            HardnessUnit::Mmol,
            HardnessUnit::Meq,
            HardnessUnit::Grains,
            HardnessUnit::Cao,
        ][hardness],
        length: if pick[2] { LengthUnit::Inch } else { LengthUnit::Centimetre },
        mass: if pick[3] { MassUnit::Pound } else { MassUnit::Gram },
        nitrogen: if pick[4] { NutrientBasis::Element } else { NutrientBasis::Ion },
        phosphorus: if pick[5] { NutrientBasis::Element } else { NutrientBasis::Ion },
        decimal: if pick[6] { DecimalSign::Comma } else { DecimalSign::Point },
    })
}

/// Half a unit of the third figure, and the 12 figures that are kept.
fn three_figures(found: f64, meant: f64) -> bool {
    (found - meant).abs() <= 5.0001e-3 * meant.abs()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn numbers(value in -1e12..1e12f64, small in -1.0..1.0f64, figures in 1..16u8, decimals in 0..6u8, comma: bool) {
        let sign = if comma { DecimalSign::Comma } else { DecimalSign::Point };
        for v in [value, small, small * 1e-9] {
            let text = format_number_with(v, Digits::Significant(figures), sign);
            prop_assert_eq!(parse_number(&text).unwrap(), round_significant(v, figures), "{}", text);
            let text = format_number_with(v, Digits::Decimals(decimals), sign);
            let half = 0.5 * 10f64.powi(-i32::from(decimals));
            prop_assert!((parse_number(&text).unwrap() - v).abs() <= half * (1.0 + 1e-9) + v.abs() * 1e-15, "{}", text);
        }
    }

    #[test]
    fn concentrations(mg in positive(), at in 0..16usize, units in units(), form in 0..4usize, up in 1.0..3.0f64) {
        let ion = Ion::ALL[at];
        let f = keepers_basis(ion, &units).formula(ion).unwrap();
        let n = |v| format_number(v, Digits::Significant(3));
        let text = match form {
            0 => format!("{} mg/L {f}", n(mg)),
            1 => format!("<{} mg/L {f}", n(mg)),
            2 => format!("about {} mg/L {f}", n(mg)),
            _ => format!("{} to {} mg/L {f}", n(mg), n(mg * (1.02 + up))),
        };
        let reading = parse_concentration(&text, ion).unwrap();
        let printed = reading.print(&units);
        let again = parse_concentration(&printed, ion).unwrap();
        prop_assert_eq!(again.print(&units), printed.clone());
        prop_assert_eq!(
            (again.comparator, again.low_mol_per_l, again.mol_per_l, again.high_mol_per_l, again.basis),
            (reading.comparator, reading.low_mol_per_l, reading.mol_per_l, reading.high_mol_per_l, reading.basis),
            "{} {}", text, printed
        );
        let shown = format_concentration(mg * 1e-3, ion, &units);
        prop_assert!(three_figures(parse_concentration(&shown, ion).unwrap().mol_per_l, mg * 1e-3), "{}", shown);
    }

    #[test]
    fn hardness(meq in positive(), units in units()) {
        let shown = format_hardness(meq, Measure::Hardness, &units);
        let read = parse_hardness(&shown).unwrap();
        prop_assert!(three_figures(read.meq_per_l, meq), "{}", shown);
        prop_assert_eq!(parse_hardness(&read.print(&units)).unwrap().meq_per_l, read.meq_per_l);
        for meq in [meq, -meq] {
            let shown = format_hardness(meq, Measure::Alkalinity, &units);
            let read = parse_alkalinity(&shown).unwrap();
            prop_assert!(three_figures(read.meq_per_l, meq), "{}", shown);
            prop_assert_eq!(parse_alkalinity(&read.print(&units)).unwrap().meq_per_l, read.meq_per_l);
        }
    }

    #[test]
    fn conductivity(us in positive(), reference in prop_oneof![Just(""), Just(" at 20 °C"), Just(" @ 25 °C")], units in units()) {
        let read = parse_conductivity(&format!("{us} µS/cm{reference}")).unwrap();
        let again = parse_conductivity(&read.print(&units)).unwrap();
        prop_assert!((again.us_per_cm - us).abs() <= 5.0001e-4 * us);
        prop_assert_eq!(again.reference_temperature_c, read.reference_temperature_c);
    }

    #[test]
    fn amounts(v in positive(), units in units()) {
        macro_rules! there_and_back {
            ($($make:expr, $type:ident, $get:ident;)*) => {$(
                let shown = $make.print(&units);
                let read = $type::parse(&shown).unwrap();
                prop_assert!(three_figures(read.$get(), $make.$get()), "{}", shown);
            )*};
        }
        there_and_back! {
            Volume::litres(v), Volume, in_litres;
            Mass::grams(v), Mass, in_grams;
            Length::metres(v), Length, in_metres;
            Power::watts(v), Power, in_watts;
            Duration::seconds(v), Duration, in_seconds;
            Share::percent(v), Share, in_parts;
        }
    }

    #[test]
    fn temperatures(c in -50.0..150.0f64, units in units()) {
        let t = Temperature::celsius(c);
        let read = Temperature::parse(&t.print(&units)).unwrap();
        prop_assert!((read - t).in_kelvins().abs() <= 0.0500001);
        let d = TemperatureDifference::kelvins(c);
        let read = TemperatureDifference::parse(&d.print(&units)).unwrap();
        prop_assert!((read - d).in_kelvins().abs() <= 0.0500001);
    }

    #[test]
    fn money(minor in -1_000_000_000i64..1_000_000_000, code in prop_oneof![Just("EUR"), Just("JPY"), Just("KWD")], units in units()) {
        let money = Money { minor, currency: Currency::new(code).unwrap() };
        prop_assert_eq!(Money::parse(&money.print(&units)).unwrap(), money);
        let rate = MoneyRate { money, per: Period::Month };
        prop_assert_eq!(MoneyRate::parse(&rate.print(&units)).unwrap(), rate);
    }
}
