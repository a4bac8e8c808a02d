//! Every protocol is whole, and what it measures goes into the setup and out again.

use crate::common::{setup, tank, worked};
use measure::{Name, Readings};
use quantity::Kind;

/// Readings from which each protocol gives something.
fn typed(name: Name) -> Vec<(&'static str, &'static str)> {
    match name {
        Name::Litres => vec![("salt", "kitchen_salt"), ("grams", "1.8"), ("before", "420"), ("after", "456")],
        Name::Flow => vec![("caught", "2"), ("seconds", "24")],
        Name::Light => vec![("lux", "3000"), ("lamp", "white_led"), ("where", "over")],
        Name::Heater => vec![("watt_hours", "480"), ("hours", "24"), ("pump", "5"), ("water", "24"), ("room", "20")],
        Name::Cooling => vec![("start", "24"), ("end", "23"), ("hours", "3"), ("room", "20"), ("pump", "5")],
        Name::Co2 => vec![
            ("ph_start", "6.8"),
            ("ph_end", "7.3"),
            ("hours", "4"),
            ("ph_rest", "7.9"),
            ("alkalinity", "4"),
            ("water", "25"),
        ],
        Name::Oxygen => {
            vec![("start", "10.5"), ("end", "8.6"), ("hours", "3"), ("rest", "7"), ("water", "25")]
        }
        Name::Trimmings => vec![("grams", "100"), ("days", "7")],
        Name::Clay => vec![
            ("vinegar", "lively"),
            ("rubbed", "firm"),
            ("grams", "100"),
            ("litres", "1"),
            ("ammonia", "0.5"),
            ("alkalinity_before", "8"),
            ("alkalinity_after", "6"),
        ],
    }
}

#[test]
fn every_name_has_a_protocol_and_fields_that_exist() {
    assert_eq!(Name::ALL.len(), knowledge::book().measures.measure.len());
    for name in Name::ALL {
        let protocol = name.protocol().unwrap_or_else(|| panic!("{name:?}"));
        assert_eq!(Name::of(name.key()).unwrap(), name);
        assert!(protocol.steps.len() >= 3 && !protocol.at_hand.is_empty() && !protocol.note.is_empty());
        for field in &protocol.writes {
            assert!(setup::field_of(field).is_some(), "{field}");
        }
    }
    assert!(Name::of("weight").is_err());
}

#[test]
fn what_was_measured_is_taken_as_measured_twice() {
    for name in Name::ALL {
        let tank = tank("[tank]\nco2 = \"15 mg/L\"\n");
        let worked = worked(name, &tank, &typed(name)).unwrap_or_else(|fault| panic!("{name:?}: {fault}"));
        assert!(worked.writes(), "{name:?}");
        let once = worked.take(&setup("")).unwrap_or_else(|faults| panic!("{name:?}: {faults}"));
        // Over an older value too, whose range need not hold the new one.
        let twice = worked.take(&once).unwrap();
        assert_eq!(once.entries(), twice.entries());
        let protocol = name.protocol().unwrap();
        for value in worked.values.iter().filter(|value| value.field.is_some()) {
            let field = value.field.as_deref().unwrap();
            assert!(protocol.writes.iter().any(|known| known == field), "{field}");
            let back = twice.number(field).unwrap_or_else(|| panic!("{field}"));
            assert_eq!(back.kind, Kind::Measured);
            for (found, put) in
                [(back.value, value.known.value), (back.low, value.known.low), (back.high, value.known.high)]
            {
                assert!((found - put).abs() <= 1e-3 * put.abs(), "{field}: {found} {put}");
            }
        }
        twice.tank().unwrap();
        assert!(
            !worked
                .values
                .iter()
                .any(|value| value.known.low > value.known.value || value.known.value > value.known.high)
        );
    }
}

#[test]
fn measured_litres_reach_the_dose() {
    let worked = worked(Name::Litres, &tank(""), &typed(Name::Litres)).unwrap();
    let taken = worked.take(&setup("")).unwrap().tank().unwrap();
    assert!((taken.geometry.true_l.value - worked.values[0].known.value).abs() < 0.1);
}

#[test]
fn what_is_typed_wrongly_is_said_in_one_go() {
    let units = quantity::Units::default();
    let faults =
        Readings::read(Name::Litres, [("grams", "a lot"), ("before", "42000"), ("colour", "5")], &units).unwrap_err();
    assert_eq!(faults.0.len(), 3, "{faults}");
    let half = Readings::read(Name::Litres, [("grams", "1.8"), ("before", "")], &units).unwrap();
    assert!(!half.complete(Name::Litres));
}

/// A keeper in gallons and degrees Fahrenheit measures the same tank.
#[test]
fn other_units_same_tank() {
    let units = quantity::Units {
        temperature: quantity::TemperatureUnit::Fahrenheit,
        volume: quantity::VolumeUnit::UsGallon,
        ..quantity::Units::default()
    };
    let (metric, other) = (tank(""), setup::Tank { units, ..tank("") });
    let cooled = worked(Name::Cooling, &metric, &typed(Name::Cooling)).unwrap().values[0].known.value;
    let typed = [("start", "75.2"), ("end", "73.4"), ("hours", "3"), ("room", "68"), ("pump", "5")];
    let there = worked(Name::Cooling, &other, &typed).unwrap().values[0].known.value;
    assert!((cooled / there - 1.0).abs() < 1e-6, "{cooled} {there}");
    let poured = worked(Name::Flow, &other, &[("caught", "0.5283441"), ("seconds", "24")]).unwrap();
    assert!((poured.values[0].known.value / 300.0 - 1.0).abs() < 1e-6);
}
