//! What is typed against what is kept, by hand arithmetic with IUPAC's weights (2022): N 14.007, O 15.999, H 1.008.

use crate::common::now;
use logbook::written::{self, Texts};
use logbook::{Reading, Sure, What};
use quantity::{HardnessUnit, NutrientBasis, TemperatureUnit, Units};

fn typed(texts: &[(&str, &str)], units: &Units) -> Result<What, String> {
    let texts: Texts = texts.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
    written::read(&texts, &now(), units).map(|entry| entry.what).map_err(|faults| faults.to_string())
}

fn read(of: &str, amount: &str, units: &Units) -> Reading {
    match typed(&[("kind", "test"), ("what", of), ("amount", amount)], units) {
        Ok(What::Test(reading)) => reading,
        other => panic!("{of} {amount}: {other:?}"),
    }
}

fn near(got: f64, expected: f64) {
    assert!((got / expected - 1.0).abs() < 2e-5, "{got}, by hand {expected}");
}

#[test]
fn a_reading_is_kept_in_the_unit_of_its_row() {
    let units = Units::default();
    // NO3 = 14.007 + 3 × 15.999 = 62.004; 2.7 × 62.004 ÷ 14.007 = 11.9520
    near(read("nitrate", "2.7 mg/L N", &units).value, 11.9520);
    // NH4 = 14.007 + 4 × 1.008 = 18.039; 0.5 × 14.007 ÷ 18.039 = 0.388242
    near(read("ammonia", "0.5 mg/L NH4", &units).value, 0.388_242);
    assert_eq!(read("ammonia_n", "0.5", &units).value, 0.5, "a bare number is counted as the form says, as N");
    // A German degree is 10 mg CaO in a litre: 2 × 10 ÷ 56.077 = 0.356653 meq/L
    near(read("alkalinity", "4 °dKH", &units).value, 1.426_61);
    // (76 - 32) ÷ 1.8 = 24.4444
    near(read("temperature", "76 °F", &units).value, 24.4444);
    assert_eq!(read("conductivity", "0.43 mS/cm", &units).value, 430.0);
    assert_eq!(read("pH", "7,2", &units).value, 7.2);
    assert_eq!(read("oxygen", "8.1 mg/L", &units).value, 8.1);
}

#[test]
fn a_bare_number_is_in_the_keepers_unit() {
    let units = Units {
        nitrogen: NutrientBasis::Element,
        hardness: HardnessUnit::French,
        temperature: TemperatureUnit::Fahrenheit,
        ..Units::default()
    };
    near(read("nitrate", "2.7", &units).value, 11.9520);
    // A French degree is 10 mg CaCO3 in a litre: 2 × 10 ÷ 100.086 = 0.199828 meq/L
    near(read("hardness", "10", &units).value, 1.998_28);
    near(read("temperature", "76", &units).value, 24.4444);
}

#[test]
fn between_two_steps_below_the_lowest_and_about() {
    let units = Units::default();
    let range = read("nitrate", "10 to 20 mg/L NO3", &units);
    assert_eq!((range.value, range.error, range.below), (15.0, Some(5.0), false));
    let below = read("nitrite_n", "<0.01 mg/L N", &units);
    assert_eq!((below.value, below.below), (0.01, true));
    assert!(read("copper", "< 0.05", &units).below);
    let about = read("phosphate", "about 0.5", &units);
    assert_eq!((about.value, about.sure), (0.5, Sure::About));
    assert_eq!(about.words(&units), "phosphate about 0.5 mg/L PO4");
    assert_eq!(below.words(&units), "nitrite <0.01 mg/L N");
    // The kit's error counts where the keeper told none: a card of colours is off by 0.4 of 20 mg/L, at least 2.5.
    let kit = Reading { kit: Some("colours".to_owned()), value: 20.0, ..about };
    assert_eq!(Reading { of: "nitrate".to_owned(), ..kit }.likely_error(), 8.0);
}

#[test]
fn what_can_not_be_meant_is_refused_with_a_way_out() {
    let units = Units::default();
    let fault =
        |of: &str, amount: &str| typed(&[("kind", "test"), ("what", of), ("amount", amount)], &units).unwrap_err();
    assert!(fault("nitrate", ">100").contains("mix the sample with as much pure water"));
    assert!(fault("nitrate", "12 ppm").contains("NO3"), "without a basis it is asked");
    assert!(fault("nitrate", "5000").contains("cannot be 5000 mg/L NO3"));
    assert!(fault("ph", "72").contains("pH cannot be 72"));
    assert!(fault("temperature", "70").contains("cannot be 70 °C"), "that was °F");
    assert!(fault("luck", "7").contains("one of alkalinity, ammonia_n"));
    let fault = |texts: &[(&str, &str)]| typed(texts, &units).unwrap_err();
    assert!(fault(&[("kind", "dose"), ("what", "Bottle one"), ("amount", "10 L")]).contains("cannot be 10000 mL"));
    assert!(fault(&[("kind", "change")]).contains("how much is missing"));
    assert!(fault(&[("kind", "animals"), ("what", "cats"), ("amount", "1")]).contains("one of fish, shrimps"));
    let all =
        fault(&[("kind", "test"), ("what", "ph"), ("amount", "x"), ("error", "y"), ("sure", "z"), ("at", "soon")]);
    assert_eq!(all.matches("error: ").count(), 4, "all in one go: {all}");
}

#[test]
fn amounts_are_kept_in_one_unit_each() {
    let units = Units { volume: quantity::VolumeUnit::UsGallon, ..Units::default() };
    let of = |texts: &[(&str, &str)]| typed(texts, &units).unwrap();
    // 3 US gallons of 3.785411784 L.
    let What::Change { litres } = of(&[("kind", "change"), ("amount", "3")]) else { panic!() };
    near(litres, 11.356_24);
    let dose = of(&[("kind", "dose"), ("what", "Bottle one"), ("amount", "10")]);
    assert_eq!(dose, What::Dose { bottle: "Bottle one".to_owned(), ml: 10.0 }, "doses are millilitres for everybody");
    let bought = of(&[("kind", "bought"), ("what", "potassium nitrate"), ("amount", "0.5 kg"), ("price", "5.99")]);
    let What::Bought { amount, price_minor, .. } = bought else { panic!() };
    assert_eq!((amount, price_minor), (Some(500.0), Some(599.0)));
    assert_eq!(of(&[("kind", "trim")]), What::Trim { wet_grams: None });
}

/// A tank of 50 L: one and a half times is 75 L.
#[test]
fn water_is_held_against_the_litres_of_the_tank() {
    use logbook::{What, fits};
    let units = quantity::Units::default();
    for what in [What::Change { litres: 75.0 }, What::TopUp { litres: 75.0 }, What::Food { grams: 900.0 }] {
        assert!(fits(&what, 50.0, &units).is_ok(), "{what:?}");
    }
    for what in [What::Change { litres: 75.1 }, What::TopUp { litres: 800.0 }] {
        let fault = fits(&what, 50.0, &units).expect_err("too much");
        assert!(fault.what.contains("more than this tank holds: 50") && fault.hint.is_some(), "{fault}");
    }
}
