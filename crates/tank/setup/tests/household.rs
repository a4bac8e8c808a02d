//! The invented household of `examples/` is what the guide says it is.

use quantity::{Ion, Kind};
use setup::{Disinfectant, Energy, Feeding, Setup};

#[test]
fn it_reads_without_question_and_without_wonder() {
    let setup = Setup::read("tank.toml", include_str!("../../../../examples/household/tank.toml"))
        .unwrap_or_else(|faults| panic!("{faults}"));
    let tank = setup.tank().unwrap();
    assert_eq!((tank.questions.len(), tank.unusual.len()), (0, 0), "{:?}", tank.unusual);
    assert_eq!(
        (tank.name.as_str(), tank.country.as_str(), tank.currency.as_str()),
        ("The tank in the hall", "gb", "GBP")
    );
    assert_eq!((tank.energy, tank.feeding), (Energy::Medium, Feeding::Comfortable));
    assert_eq!((tank.animals.fish, tank.animals.shrimps), (12, 20));
    assert_eq!((tank.habits.change_share.value, tank.habits.every_days), (0.4, 7));
    assert_eq!(tank.tap.disinfectant, Disinfectant::Unknown);
    let phosphate = tank.tap.mg_per_l(Ion::Phosphate);
    // 0.8 mg/L P × 94.970 ÷ 30.974 = 2.453 mg/L PO4.
    assert!((phosphate.value - 2.453).abs() < 0.001 && phosphate.kind == Kind::Measured);
    assert_eq!((tank.tap.temperature_c.low, tank.tap.temperature_c.high), (7.0, 18.0));
}
