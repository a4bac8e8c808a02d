//! Nitrate that the tap brings: one answer for Salts, Help now and Signs.

use recipe::{tap_keeps_nitrate, tap_keeps_nitrate_says};

#[test]
fn half_of_what_is_borne_comes_with_the_tap() {
    // Half of 50 is 25 (common practice); of the strictest 13, 6.5.
    for (new, mark, keeps) in
        [(40.0, 50.0, true), (25.0, 50.0, true), (24.9, 50.0, false), (7.0, 13.0, true), (6.0, 13.0, false)]
    {
        assert_eq!(tap_keeps_nitrate(new, mark), keeps, "{new} {mark}");
    }
    let says = tap_keeps_nitrate_says(&recipe::say::Pen::new(&quantity::Units::default()), 45.0);
    assert!(says.contains("45 mg/L NO3 itself") && says.contains("more often, is no answer"), "{says}");
}

/// Many fish on a tap of NITRATE.
const TANK: &str = r#"
[tank]
country = "eu"
temperature = "25 °C"
[glass]
inner_length = "100 cm"
inner_width = "40 cm"
inner_height = "45 cm"
thickness = "10 mm"
[tap]
calcium = "60 mg/L"
magnesium = "8 mg/L"
alkalinity = "8 °dH"
nitrate = "NITRATE"
ph = 7.5
disinfectant = "none"
ammonium = "0 mg/L NH4"
[light]
energy = "low"
[feeding]
wish = "none"
[animals]
fish = 60
start_test_passed = true
[food]
per_day = "3 g a day"
[habits]
change = "30 %"
every = "7 days"
"#;

fn cautions(nitrate: &str) -> String {
    let setup = setup::Setup::read("tank.toml", &TANK.replace("NITRATE", nitrate));
    let setup = setup.unwrap_or_else(|faults| panic!("{faults}"));
    let Ok(recipe::Answer::Settled { plan, .. }) = recipe::answer(&setup) else { panic!("settled") };
    let all: String = plan.cautions.iter().map(|note| note.text.clone() + "\n").collect();
    assert!(all.contains("Nitrate may reach"), "{all}");
    all
}

#[test]
fn salts_does_not_answer_a_rich_tap_with_more_changes() {
    // 45 in the tap against 50 that are borne: half is 25.
    for tap in ["45 mg/L NO3", "30 mg/L NO3", "26 mg/L NO3"] {
        let said = cautions(tap);
        assert!(!said.contains("more frequent changes") && said.contains("more often, is no answer"), "{said}");
    }
    assert!(cautions("5 mg/L NO3").contains("more frequent changes"));
}
