//! Each formula redone by hand; the sums stand beside. Judge: arithmetic.

use crate::common::{tank, value, worked};
use measure::{Name, Readings};
use quantity::{Units, VolumeUnit};

fn near(found: f64, hand: f64, share: f64) {
    assert!((found / hand - 1.0).abs() < share, "{found} against {hand} by hand");
}

#[test]
fn flow() {
    // 2 L in 24 s: 2 ÷ 24 × 3600 = 300 L/h; three tanks of 100 L an hour.
    let found = worked(Name::Flow, &tank(""), &[("caught", "2"), ("seconds", "24")]).unwrap();
    near(found.values[0].known.value, 300.0, 1e-9);
    assert!(found.says[0].contains("3 times an hour"), "{:?}", found.says);
    // Errors of 0.05 L and 0.5 s: 2.05 L makes 307.5, 23.5 s makes 306.4; together 300 + √(7.5² + 6.38²) = 309.8.
    near(found.values[0].known.high, 309.85, 1e-3);
}

#[test]
fn light() {
    // 3,000 lx of a white LED on the dry ground: 3000 × 14.3 ÷ 1000 × 0.9 = 38.6 µmol/m²s.
    let found = worked(Name::Light, &tank(""), &[("lux", "3000"), ("lamp", "white_led")]).unwrap();
    near(found.values[0].known.value, 38.61, 1e-3);
    let known = found.values[0].known;
    assert!(known.low < 0.75 * known.value && known.high > 1.3 * known.value, "a phone is no light meter");
    assert!(found.says[0].contains("little light"), "{:?}", found.says);
}

#[test]
fn heat_by_the_heater() {
    // 480 Wh in 24 h are 20 W, and 5 W from the pump; 4 °C over the room: 25 ÷ 4 = 6.25 W/K.
    let typed = [("watt_hours", "480"), ("hours", "24"), ("pump", "5"), ("water", "24"), ("room", "20")];
    near(value(Name::Heater, &tank(""), &typed).value, 6.25, 1e-9);
}

#[test]
fn heat_by_a_cooling_without_pump() {
    // 100 L × 4.18 kJ/L/K × 1.05 = 438.9 kJ/K; ln((24 - 20)/(23 - 20)) = 0.28768; in 3 h: 438,900 × 0.28768 ÷ 10,800 = 11.69 W/K.
    let typed = [("start", "24"), ("end", "23"), ("hours", "3"), ("room", "20"), ("pump", "0")];
    near(value(Name::Cooling, &tank(""), &typed).value, 11.691, 1e-3);
}

#[test]
fn trimmings() {
    // 100 g wet × 0.95 × 0.08 = 7.6 g dry; 2.5 % N are 190 mg in 100 L and 7 days: 0.2714 mg/L N a day,
    // × 62.004 ÷ 14.007 = 1.2015 mg/L of nitrate. P: 22.8 mg, 0.03257 × 94.970 ÷ 30.974 = 0.09987. K: 0.2714.
    let found = worked(Name::Trimmings, &tank(""), &[("grams", "100"), ("days", "7")]).unwrap();
    for (value, hand) in found.values.iter().zip([1.2015, 0.09987, 0.2714]) {
        near(value.known.value, hand, 1e-3);
        assert!(value.known.low < 0.6 * value.known.value && value.known.low > 0.0, "{:?}", value.known);
    }
    let fields: Vec<_> = found.values.iter().filter_map(|value| value.field.as_deref()).collect();
    assert_eq!(fields, ["plants.uptake_nitrate", "plants.uptake_phosphate", "plants.uptake_potassium"]);
}

/// Carbon dioxide by pH at 4 °dKH and 25 °C, as PHREEQC's table for bicarbonate water has it (pH to two digits): 20 mg/L at
/// 6.83, 10 at 7.13, 2 at 7.83. k = ln((20 - 2)/(10 - 2)) ÷ 2 h = 0.4055 /h for carbon dioxide at 25 °C. To oxygen at 20 °C:
/// 1.024⁵ = 1.1259; Schmidt numbers at 25 °C 417.7 (O2) and 470.7 (CO2): (417.7/470.7)^0.6 = 0.9308; 0.4055 ÷ 1.0480 = 0.387.
#[test]
fn exchange_by_carbon_dioxide() {
    let tank = tank("[tank]\nco2 = \"15 mg/L\"\n");
    let typed = [
        ("ph_start", "6.83"),
        ("ph_end", "7.13"),
        ("hours", "2"),
        ("ph_rest", "7.83"),
        ("alkalinity", "4"),
        ("water", "25"),
    ];
    // The table's last digit is worth 2 % of the carbon dioxide.
    near(value(Name::Co2, &tank, &typed).value, 0.387, 0.04);
}

#[test]
fn litres_are_grams_over_concentration() {
    // 2 g in 100 L are 20 mg/L. The rise that 20 mg/L bring is asked of the program itself, so this holds the sum alone:
    // twice the grams at the same rise are twice the litres.
    let tank = tank("");
    let of = |grams: &str| {
        value(Name::Litres, &tank, &[("salt", "kitchen_salt"), ("grams", grams), ("before", "420"), ("after", "460")])
            .value
    };
    near(of("4") / of("2"), 2.0, 1e-9);
}

#[test]
fn an_error_of_ones_own_goes_before_the_tables() {
    let tank = tank("");
    let wide = |before: &str| {
        let typed = [("salt", "kitchen_salt"), ("grams", "2"), ("before", before), ("after", "460")];
        let known = value(Name::Litres, &tank, &typed);
        known.high - known.low
    };
    assert!(wide("420 ± 5") > 1.5 * wide("420"), "{} {}", wide("420 ± 5"), wide("420"));
}

#[test]
fn nothing_is_made_of_readings_that_say_nothing() {
    let tank = tank("");
    for (name, typed) in [
        (Name::Litres, vec![("grams", "2"), ("before", "420"), ("after", "421")]),
        (Name::Cooling, vec![("start", "24"), ("end", "24.1"), ("hours", "3"), ("room", "20"), ("pump", "0")]),
        (Name::Heater, vec![("watt_hours", "480"), ("hours", "24"), ("pump", "0"), ("water", "24"), ("room", "23.5")]),
        (Name::Oxygen, vec![("start", "8.2"), ("end", "8.1"), ("hours", "3"), ("rest", "8.0"), ("water", "24")]),
        (Name::Flow, vec![("caught", "2")]),
    ] {
        let fault = worked(name, &tank, &typed).unwrap_err();
        assert!(fault.hint.is_some() || fault.what.contains("missing"), "{fault}");
    }
}

#[test]
fn an_error_is_shown_in_the_unit_that_its_blank_names() {
    let caught = Name::Flow.protocol().and_then(|p| p.blank.iter().find(|b| b.key == "caught")).expect("a blank");
    let litres = Units::default();
    assert_eq!((Readings::unit(caught, &litres), Readings::error(caught, &litres)), ("L".into(), "± 0.05".into()));
    // 0.05 L ÷ 3.785 = 0.0132 US gal.
    let gallons = Units { volume: VolumeUnit::UsGallon, ..litres };
    assert_eq!(
        (Readings::unit(caught, &gallons), Readings::error(caught, &gallons)),
        ("US gal".into(), "± 0.013".into())
    );
}
