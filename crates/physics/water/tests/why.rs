//! The answers to "why?" carry the water's own figures, a source each, and no forbidden word.

use water::{Asked, Carbon, Sample, Totals, solve};

#[test]
fn every_answer_shows_its_figures_and_sources() {
    let totals = Totals::from_mg_per_l(&[25.0, 4.0, 80.0, 12.0, 0.3, 35.0, 45.0, 20.0, 0.1]);
    let water =
        solve(&Sample { temperature_c: 20.0, totals, alkalinity_eq_per_kg: None, carbon: Carbon::Ph(7.5) }).unwrap();
    let shown = [
        (Asked::Ph, format!("{:.3} meq/L", water.alkalinity_eq_per_kg * 1e3)),
        (Asked::Co2, format!("{:.1} mg/L", water.co2_mg_per_l())),
        (Asked::Conductivity, format!("{:.0} µS/cm", water.conductivity_25_us_per_cm)),
        (Asked::ToxicAmmonia, format!("{:.3} %", water.nh3_fraction * 100.0)),
        (Asked::Lime, format!("{:.2}", water.si.calcite.unwrap())),
    ];
    for (asked, figure) in shown {
        let why = water.why(asked);
        assert!(why.sum.contains(&figure), "{} lacks {figure}", why.sum);
        assert!(!why.sources.is_empty() && why.question.starts_with("why"));
        let text = format!("{} {} {}", why.question, why.sum, why.words).to_lowercase();
        assert!(!text.contains("safe") && !text.contains(" gas"), "{text}");
    }
}

#[test]
fn a_water_without_lime_says_so() {
    let pure = Sample {
        temperature_c: 20.0,
        totals: Totals::default(),
        alkalinity_eq_per_kg: None,
        carbon: Carbon::Pco2Atm(4e-4),
    };
    assert!(solve(&pure).unwrap().why(Asked::Lime).sum.contains("no lime can form"));
}
