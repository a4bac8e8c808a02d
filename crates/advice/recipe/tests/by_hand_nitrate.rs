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

#[test]
fn salts_does_not_answer_a_rich_tap_with_more_changes() {
    let text = include_str!("../../../../examples/household/tank.toml");
    let setup = setup::Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}"));
    for (tap, more) in [("45 mg/L NO3", false), ("40 to 50 mg/L NO3", false)] {
        let setup = setup.with("tap.nitrate", tap).unwrap_or_else(|faults| panic!("{faults}"));
        let setup = setup.with("food.per_day", "3 g a day").unwrap_or_else(|faults| panic!("{faults}"));
        let Ok(recipe::Answer::Settled { plan, .. }) = recipe::answer(&setup) else { panic!("settled") };
        let cautions: String = plan.cautions.iter().map(|note| note.text.clone() + "\n").collect();
        assert!(cautions.contains("Nitrate may reach"), "{cautions}");
        assert_eq!(cautions.contains("more frequent changes"), more, "{cautions}");
        assert!(cautions.contains("more often, is no answer"), "{cautions}");
    }
}
