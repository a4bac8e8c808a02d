//! Relations that hold whatever the numbers are, each run over many cases.

use quantity::basis::{convert, equivalents_per_mole, possible_bases};
use quantity::concentration::parse_concentration;
use quantity::hardness::{HardnessUnit as U, Measure, hardness_meq_per_l, parse_alkalinity, parse_hardness};
use quantity::{Digits, Ion, Units, canonical, format_number};

const UNITS: [U; 8] = [U::German, U::French, U::English, U::Caco3, U::Mmol, U::Meq, U::Grains, U::Cao];

/// 0.1, 0.2 ... 60.0: what a kit in drops or half drops shows.
fn amounts() -> impl Iterator<Item = f64> {
    (1..=600).map(|i| f64::from(i) / 10.0)
}

/// The same water, exactly converted and typed in another unit, is the same number. The text carries 16 figures; where it
/// falls on the edge between two values of 12 figures (one in some thousands) those are neighbours.
#[test]
fn the_same_water_in_any_unit_is_the_same_number() {
    for measure in [Measure::Hardness, Measure::Alkalinity] {
        let parse = if measure == Measure::Hardness { parse_hardness } else { parse_alkalinity };
        let (mut all, mut same) = (0, 0);
        for amount in amounts() {
            let german = parse(&format!("{amount} °dH")).unwrap().meq_per_l;
            for unit in UNITS {
                let other = amount * U::German.meq_per_unit(measure) / unit.meq_per_unit(measure);
                let name = if unit == U::German { "°dH" } else { unit.name(measure) };
                let typed =
                    parse(&format!("{} {name}", format_number(other, Digits::Significant(16)))).unwrap().meq_per_l;
                assert!((typed / german - 1.0).abs() < 1.1e-11, "{amount} °dH as {other} {name}");
                all += 1;
                same += i32::from(typed == german);
            }
        }
        assert!(same * 1000 >= all * 999, "{measure:?}: {same} of {all}");
    }
}

/// Out of a unit and back.
#[test]
fn hardness_there_and_back() {
    for measure in [Measure::Hardness, Measure::Alkalinity] {
        for unit in UNITS {
            for amount in amounts() {
                assert_eq!(unit.from_meq_per_l(unit.to_meq_per_l(amount, measure), measure), amount, "{unit:?}");
            }
        }
    }
}

/// From any basis to any other and back, for every ion; and every basis is the mole times what it weighs.
#[test]
fn bases_there_and_back() {
    for ion in Ion::ALL {
        assert_eq!(possible_bases(ion)[0], quantity::Basis::AsIon);
        for &from in possible_bases(ion) {
            for &to in possible_bases(ion) {
                for amount in amounts() {
                    let there = convert(amount, ion, from, to).unwrap();
                    let back = convert(there, ion, to, from).unwrap();
                    assert!((back / amount - 1.0).abs() < 2e-11, "{ion:?} {from:?} {to:?} {amount}");
                }
            }
        }
    }
}

/// What is typed in each basis comes back as it was typed.
#[test]
fn a_reading_gives_back_what_was_typed() {
    for ion in Ion::ALL {
        for &basis in possible_bases(ion) {
            for amount in amounts() {
                let text = format!("{amount} mg/L {}", basis.formula(ion).unwrap());
                let reading = parse_concentration(&text, ion).unwrap();
                assert_eq!(reading.basis, basis, "{text}");
                assert_eq!(reading.mg_per_l_as(basis), Some(amount), "{text}");
            }
        }
    }
}

/// mmol/L times the charge is meq/L; a thousand µg are a milligram; ppm is mg/L.
#[test]
fn units_of_concentration_agree() {
    for ion in Ion::ALL {
        let f = ion.formula();
        for amount in amounts() {
            let read = |text: String| parse_concentration(&text, ion).unwrap().mol_per_l;
            let mg = read(format!("{amount} mg/L {f}"));
            assert_eq!(mg, read(format!("{} µg/L {f}", canonical(amount * 1000.0))));
            assert_eq!(mg, read(format!("{amount} ppm {f}")));
            assert_eq!(mg, read(format!("{f} {amount} g/m³")));
            if let Some(z) = equivalents_per_mole(ion) {
                let (mmol, meq) =
                    (read(format!("{amount} mmol/L {f}")), read(format!("{} meq/L", canonical(amount * z))));
                assert_eq!(mmol, meq, "{ion:?}");
            }
        }
    }
}

/// Hardness adds up: calcium alone and magnesium alone make both together.
#[test]
fn hardness_adds_up() {
    for (ca, mg) in amounts().zip(amounts().skip(7)) {
        let (ca, mg) = (ca * 1e-3, mg * 1e-3);
        let apart = hardness_meq_per_l(ca, 0.0) + hardness_meq_per_l(0.0, mg);
        assert!((hardness_meq_per_l(ca, mg) / apart - 1.0).abs() < 1e-11);
    }
}

/// What is left out of a file of preferences takes its default; what is not known there is refused.
#[test]
fn preferences_read_and_write() {
    let units: Units = toml::from_str("volume = \"us_gallon\"\nhardness = \"caco3\"\ndecimal = \"comma\"").unwrap();
    assert_eq!(units.temperature, quantity::TemperatureUnit::Celsius);
    assert_eq!(toml::from_str::<Units>(&toml::to_string(&units).unwrap()).unwrap(), units);
    assert!(toml::from_str::<Units>("colour = \"blue\"").is_err());
}
