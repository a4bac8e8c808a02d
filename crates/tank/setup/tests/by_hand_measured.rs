//! What was measured at the tank counts before what its sizes or its light stand for. Judge: sums by hand.

use quantity::{Ion, Kind};
use setup::{Setup, Tank};

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

fn tank(more: &str) -> Tank {
    Setup::read("tank.toml", &format!("{HOUSEHOLD}\n{more}"))
        .unwrap_or_else(|faults| panic!("{faults}"))
        .tank()
        .unwrap()
}

/// Rule 10 of harm: doses go by the litres that are really there.
#[test]
fn measured_litres_override_the_sizes() {
    let by_size = tank("").geometry;
    let measured = tank("[measured]\nlitres = \"84 to 92 L\"\n");
    let litres = measured.geometry.true_l;
    assert_eq!((litres.low, litres.value, litres.high, litres.kind), (84.0, 88.0, 92.0, Kind::Measured));
    assert!((by_size.true_l.value - litres.value).abs() > 0.1, "the sizes say something else");
    assert_eq!(measured.geometry.nominal_l, by_size.nominal_l);
    // 0.2 g × 35 % ÷ 6.25 × 0.8 × 62.004 ÷ 14.007 ÷ 88 L = 0.4507 mg/L of nitrate.
    let food = measured.growth.food_mg_per_l_day[&Ion::Nitrate].value;
    assert!((food - 0.2e3 * 0.35 / 6.25 * 0.8 * 62.004 / 14.007 / 88.0).abs() < 1e-6, "{food}");
    // The sizes of the glass weigh nothing any more in what goes by litres.
    let weight = |tank: &Tank| {
        tank.assumed.iter().find(|assumed| assumed.field == "glass.fill_below_rim").map(|assumed| assumed.weight)
    };
    assert!(weight(&tank("")).unwrap() > 0.1 && weight(&measured).unwrap() < 1e-9);
    assert!(measured.whys.iter().any(|why| why.key == "true-litres" && why.sum.starts_with("measured: 88 L")));
}

/// 76 × 36 × 40 cm hold 109.4 L to the rim: more is a slip, and every dose would be too large.
#[test]
fn more_than_the_glass_holds_is_refused() {
    let faults = Setup::read("tank.toml", &format!("{HOUSEHOLD}\n[measured]\nlitres = \"120 L\"\n")).unwrap_err();
    assert_eq!(faults.0.len(), 1);
    assert!(faults.0[0].what.contains("can't hold 120 L"), "{faults}");
    let asked = tank("[measured]\nlitres = \"60 L\"\n");
    assert!(asked.unusual.iter().any(|(field, says)| field == "measured.litres" && says.starts_with("Really?")));
}

#[test]
fn weighed_trimmings_feed_the_growth_ion_by_ion() {
    let grown = tank(
        "[plants]\nuptake_nitrate = \"0.9 mg/L NO3 a day\"\nuptake_phosphate = \"0.02 to 0.06 mg/L PO4 a day\"\n\
         uptake_potassium = \"0.3 mg/L K a day\"\n",
    );
    let of = |ion: Ion| grown.growth.uptake_mg_per_l_day[&ion];
    assert_eq!(of(Ion::Nitrate).value, 0.9);
    assert_eq!((of(Ion::Phosphate).low, of(Ion::Phosphate).high), (0.02, 0.06));
    assert_eq!(of(Ion::Potassium).value, 0.3);
    assert_eq!(of(Ion::Phosphate).kind, Kind::Measured);
    // Magnesium still goes with the nitrate: 0.9 × 0.027.
    assert!((of(Ion::Magnesium).value - 0.9 * 0.027).abs() < 1e-12);
}

#[test]
fn every_measured_field_is_read_back() {
    let measured = tank(
        "[measured]\nheat_loss = \"6 to 8 W/K\"\noxygen_exchange = \"0.2 /h\"\nphotons = \"30 to 60 µmol/m²s\"\n\
         flow = \"180 L/h\"\nground_lime = false\nground_ammonia = true\n",
    )
    .measured;
    assert_eq!(measured.heat_loss_w_per_k.unwrap().value, 7.0);
    assert_eq!(measured.oxygen_per_h_at_20.unwrap().value, 0.2);
    assert_eq!(measured.photons_umol_per_m2_s.unwrap().high, 60.0);
    assert_eq!(measured.flow_l_per_h.unwrap().value, 180.0);
    assert_eq!((measured.ground_lime, measured.ground_ammonia), (Some(false), Some(true)));
    let setup = Setup::read("tank.toml", HOUSEHOLD).unwrap();
    for (field, text) in [("measured.flow", "180"), ("measured.heat_loss", "7"), ("measured.photons", "40 lx")] {
        assert!(setup.with(field, text).is_err(), "{field} {text} has no unit");
    }
}
