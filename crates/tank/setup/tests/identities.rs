//! Relations that hold whatever the numbers: one water in two units, balanced draws, the keeper's book.

use quantity::Ion;
use setup::{Book, Change, MemoryBook, Setup, draws};

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

#[test]
fn one_water_in_two_units_is_the_same_to_the_last_bit() {
    let read = |text: &str| Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}")).tank().unwrap();
    let degrees = read(include_str!("../../../../examples/same-water-degrees.toml"));
    let caco3 = read(include_str!("../../../../examples/same-water-caco3.toml"));
    assert_eq!(degrees.tap, caco3.tap);
    assert_eq!(degrees, caco3);
}

#[test]
fn draws_keep_the_ranges_and_close_the_charge() {
    let tank = Setup::read("tank.toml", HOUSEHOLD).unwrap().tank().unwrap();
    let drawn = draws(&tank.tap, 2000, 7);
    assert_eq!(drawn, draws(&tank.tap, 2000, 7), "the same seed");
    assert_ne!(drawn[..10], draws(&tank.tap, 10, 8)[..], "another seed");
    for draw in &drawn {
        let mut charge = -draw.alkalinity_meq_per_l;
        for ion in Ion::MAJOR {
            let (known, mg) = (tank.tap.mg_per_l(ion), draw.mg_per_l(ion));
            assert!((known.low..=known.high).contains(&mg), "{ion:?} {mg}");
            let equivalents = if ion == Ion::Phosphate { -1.0 } else { f64::from(ion.charge()) };
            charge += equivalents * mg / ion.molar_mass();
        }
        let known = tank.tap.alkalinity_meq_per_l;
        assert!((known.low..=known.high).contains(&draw.alkalinity_meq_per_l));
        // 1e-9 meq/L: sums of ten terms of some meq/L in double precision.
        assert!((charge - draw.open_meq_per_l).abs() < 1e-9);
        // The household's ranges of calcium (0.55 meq/L) and alkalinity (0.39) reach further than its ions can drift apart.
        assert!(draw.open_meq_per_l.abs() < 1e-9, "{draw:?}");
    }
    // Not all at one end: the drawn calcium fills its range.
    let calcium: Vec<f64> = drawn.iter().map(|draw| draw.mg_per_l(Ion::Calcium)).collect();
    assert!(calcium.iter().any(|mg| *mg < 44.0) && calcium.iter().any(|mg| *mg > 51.0));
}

#[test]
fn a_water_without_ranges_is_drawn_as_it_stands() {
    let tank =
        Setup::read("tank.toml", include_str!("../../../../examples/hard-tap-ph-wish.toml")).unwrap().tank().unwrap();
    let mut tap = tank.tap.clone();
    for known in tap.ions.values_mut() {
        (known.low, known.high) = (known.value, known.value);
    }
    for draw in draws(&tap, 5, 1) {
        assert_eq!(draw.mg_per_l(Ion::Calcium), 96.0);
        let open = setup::open_charge_meq_per_l(&tap.ions, tap.alkalinity_meq_per_l.value);
        assert!((draw.open_meq_per_l - open).abs() < 1e-9, "what can't be closed is told");
    }
}

#[test]
fn every_why_of_an_example_has_its_sources() {
    for file in [HOUSEHOLD, include_str!("../../../../examples/soil-tank.toml"), ""] {
        let tank = Setup::read("tank.toml", file).unwrap().tank().unwrap();
        for key in [
            "true-litres",
            "surface",
            "mass",
            "pressure",
            "uptake",
            "food-nitrate",
            "food-phosphate",
            "alkalinity-eaten",
            "tap-balance",
        ] {
            assert!(tank.whys.iter().any(|why| why.key == key), "{key}");
        }
        for why in &tank.whys {
            assert!(
                why.sources.iter().all(|key| knowledge::book().cite(key).is_some()),
                "{}: {:?}",
                why.key,
                why.sources
            );
        }
    }
}

#[test]
fn the_book_goes_forward_and_back() {
    let first = Setup::read("tank.toml", HOUSEHOLD).unwrap();
    let second = first.with("habits.change", "30 %").unwrap();
    let third = second.with("tap.potassium", "").unwrap();
    let mut book = MemoryBook::open(first.clone());
    assert_eq!(book.write(second.clone(), first.changes_to(&second)), 2);
    assert_eq!(book.write(third.clone(), second.changes_to(&third)), 3);
    let change = |field: &str, was: Option<&str>, now: Option<&str>| Change {
        field: field.to_owned(),
        was: was.map(str::to_owned),
        now: now.map(str::to_owned),
    };
    assert_eq!(book.last_changes(), [change("tap.potassium", Some("3.0 mg/L"), None)]);
    assert_eq!(book.undo(), Some(4));
    assert_eq!(book.last_changes(), [change("tap.potassium", None, Some("3.0 mg/L"))]);
    assert_eq!(book.setup(), Some(&second));
    assert_eq!(book.undo(), Some(5));
    assert_eq!(book.setup(), Some(&first));
    assert_eq!(book.undo(), None, "nothing is left");
    // A new edit after an undo can be taken back too, and old revisions stay to be read.
    book.write(third.clone(), Vec::new());
    assert_eq!(book.undo(), Some(7));
    assert_eq!(book.setup(), Some(&first));
    assert_eq!(book.setup_at(3), Some(&third));
    assert_eq!((book.setup_at(0), book.setup_at(8)), (None, None));
}

#[test]
fn what_was_not_told_of_warmth_stays_untold() {
    let told = setup::Setup::read("t.toml", "[room]\ncoldest = \"62 °F\"\n[heater]\nwatts = \"0.05 kW\"\nnumber = 2\n")
        .unwrap();
    let warmth = told.tank().unwrap().warmth;
    // 62 °F = (62 - 32)/1.8 = 16.67 °C
    assert!((warmth.coldest_room_c.unwrap().value - 16.667).abs() < 0.001);
    assert_eq!(warmth.heater_w.map(|watts| watts.value), Some(50.0));
    assert_eq!((warmth.heaters, warmth.hottest_room_c, warmth.covered), (Some(2), None, None));
}
