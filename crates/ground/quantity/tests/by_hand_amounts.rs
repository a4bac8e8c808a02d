//! Everyday amounts against the definitions of their units, and the texts in which they come.

use quantity::{
    Currency, Duration, Length, Mass, Money, MoneyRate, Period, Power, Share, Temperature, TemperatureDifference,
    TemperatureUnit, Units, Volume, VolumeUnit,
};

fn close(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-11 * b.abs(), "{a} for {b}");
}

/// NIST Handbook 44, appendix C (source key `nist_hb44`, from memory), and SI 1995/1804 for the imperial gallon
/// (`uk_units_1995`, from memory).
#[test]
fn exact_units() {
    close(Volume::us_gallons(1.0).in_litres(), 3.785411784);
    close(Volume::imperial_gallons(1.0).in_litres(), 4.54609);
    close(Volume::cubic_metres(1.0).in_litres(), 1000.0);
    close(Mass::pounds(1.0).in_grams(), 453.59237);
    close(Mass::ounces(1.0).in_grams(), 28.349523125);
    close(Length::inches(1.0).in_centimetres(), 2.54);
    close(Length::feet(1.0).in_inches(), 12.0);
    close(Duration::weeks(2.0).in_days(), 14.0);
}

/// Water freezes at 32 and boils at 212 °F, the scales meet at -40, 37 °C is 98.6 °F (definition of the scale).
#[test]
fn fahrenheit() {
    for (c, f) in [(0.0, 32.0), (100.0, 212.0), (-40.0, -40.0), (37.0, 98.6)] {
        close(Temperature::celsius(c).in_fahrenheit(), f);
        assert!((Temperature::fahrenheit(f).in_celsius() - c).abs() < 1e-12);
    }
    close(TemperatureDifference::fahrenheit(1.8).in_kelvins(), 1.0);
    close((Temperature::fahrenheit(77.0) - Temperature::celsius(20.0)).in_kelvins(), 5.0);
    close(Temperature::celsius(25.0).in_kelvins(), 298.15);
}

#[test]
fn texts() {
    close(Volume::parse("64,5 l").unwrap().in_litres(), 64.5);
    close(Volume::parse("17 US gal").unwrap().in_us_gallons(), 17.0);
    close(Volume::parse("14 imperial gallons").unwrap().in_imperial_gallons(), 14.0);
    close(Volume::parse("250mL").unwrap().in_litres(), 0.25);
    close(Volume::parse("0.2 m³").unwrap().in_litres(), 200.0);
    close(Mass::parse("120 mg").unwrap().in_grams(), 0.12);
    close(Mass::parse("3 lbs").unwrap().in_pounds(), 3.0);
    close(Length::parse("6 mm").unwrap().in_metres(), 0.006);
    close(Length::parse("24 in").unwrap().in_inches(), 24.0);
    close(Power::parse("0.1 kW").unwrap().in_watts(), 100.0);
    close(Duration::parse("90 min").unwrap().in_hours(), 1.5);
    close(Share::parse("40 %").unwrap().in_parts(), 0.4);
    close(Temperature::parse("24.5 °C").unwrap().in_celsius(), 24.5);
    close(Temperature::parse("24.5℃").unwrap().in_celsius(), 24.5);
    close(Temperature::parse("−3 C").unwrap().in_celsius(), -3.0);
    close(TemperatureDifference::parse("2 K").unwrap().in_kelvins(), 2.0);
    for text in ["64", "64 x", "x", "17 gal", "", "L 64", "10 to 20 L", "<5 L"] {
        assert!(Volume::parse(text).is_err(), "{text}");
    }
    assert!(Share::parse("0.4").is_err() && Duration::parse("3 m").is_err() && Temperature::parse("-300 °C").is_err());
}

#[test]
fn a_bare_number_is_in_the_keepers_unit() {
    let us = Units { volume: VolumeUnit::UsGallon, temperature: TemperatureUnit::Fahrenheit, ..Units::default() };
    close(Volume::parse_in("17", &us).unwrap().in_us_gallons(), 17.0);
    close(Volume::parse_in("17 gal", &us).unwrap().in_us_gallons(), 17.0);
    close(Volume::parse_in("17 L", &us).unwrap().in_litres(), 17.0);
    close(Temperature::parse_in("77", &us).unwrap().in_celsius(), 25.0);
    close(Temperature::parse_in("25 °", &Units::default()).unwrap().in_celsius(), 25.0);
    assert_eq!(Volume::parse("17 US gal").unwrap().print(&us), "17 US gal");
    assert_eq!(Volume::millilitres(10.0).print(&us), "10 mL");
    assert_eq!(Temperature::celsius(25.0).print(&us), "77.0 °F");
    let which = Volume::parse("17 gal").unwrap_err().expected.unwrap();
    assert_eq!(which, "17 US gal = 64.4 L, or 17 imp gal = 77.3 L");
}

#[test]
fn money() {
    let eur = Currency::new("eur").unwrap();
    for text in ["12.50 EUR", "12,50 €", "€ 12.50", "EUR 12.50", "12.5 eur"] {
        assert_eq!(Money::parse(text).unwrap(), Money { minor: 1250, currency: eur }, "{text}");
    }
    assert_eq!(Money::parse("300 JPY").unwrap().minor, 300);
    assert_eq!(Money::parse_in("3", eur).unwrap().minor, 300);
    for text in ["12.50", "$ 12", "12 eurodollars", "EUR", "", "1e14 EUR"] {
        assert!(Money::parse(text).is_err(), "{text}");
    }
    for text in ["3.20 EUR per month", "3.20 EUR/month", "3.20 € a month"] {
        let rate = MoneyRate::parse(text).unwrap();
        assert_eq!((rate.money.minor, rate.per), (320, Period::Month), "{text}");
    }
    let rate = MoneyRate::parse("0.10 EUR per day").unwrap();
    // A mean Gregorian year: 97 leap years in 400, so 365.2425 days.
    close(rate.in_units_per(Period::Year), 0.1 * (365.0 + 97.0 / 400.0));
    assert_eq!(rate.print(&Units::default()), "0.10 EUR per day");
    assert!(MoneyRate::parse("3 EUR").is_err());
}
