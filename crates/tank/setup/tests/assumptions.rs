//! What nobody gave is assumed from data, listed, and ranked by how much it moves.

use setup::{Setup, Tank, fields};

fn tank(file: &str) -> Tank {
    Setup::read("tank.toml", file).unwrap_or_else(|faults| panic!("{faults}")).tank().unwrap()
}

#[test]
fn an_empty_file_is_a_tank_of_assumptions() {
    let tank = tank("");
    assert!(tank.geometry.true_l.value > 0.0);
    assert!(tank.assumed.len() > 30);
    // The size of the tank moves everything by more than its whole.
    for side in ["length", "width", "height"] {
        let field = format!("glass.inner_{side}");
        let at = tank.assumed.iter().position(|assumption| assumption.field == field).unwrap();
        assert!(at < 10 && tank.assumed[at].weight > 1.0, "{side} stands at {at}: {:?}", tank.assumed[at]);
    }
}

#[test]
fn the_weightiest_stand_first_and_each_has_its_field() {
    for file in [
        "",
        include_str!("../../../../examples/household/tank.toml"),
        include_str!("../../../../examples/soft-water.toml"),
    ] {
        let tank = tank(file);
        for pair in tank.assumed.windows(2) {
            assert!(pair[0].weight >= pair[1].weight);
        }
        for assumption in &tank.assumed {
            assert!(fields().iter().any(|field| field.path == assumption.field), "{}", assumption.field);
            assert!(assumption.weight.is_finite() && assumption.weight >= 0.0);
            assert!(assumption.sentence.ends_with('.'), "{}", assumption.sentence);
        }
    }
}

/// Weight by hand: the fill line moves the litres and all that goes by litres, from 90.63 + 5.472 to 90.63 - 8.208 L.
#[test]
fn the_weight_of_the_fill_line_by_hand() {
    let tank = tank(include_str!("../../../../examples/household/tank.toml"));
    let fill = tank.assumed.iter().find(|assumption| assumption.field == "glass.fill_below_rim").unwrap();
    let by_hand = (5.472 + 8.208) / tank.geometry.true_l.value;
    assert!((fill.weight - by_hand).abs() < 1e-6, "{} against {by_hand}", fill.weight);
}

#[test]
fn what_is_told_is_not_listed() {
    let told = tank(include_str!("../../../../examples/household/tank.toml"));
    for field in ["glass.inner_length", "tap.calcium", "food.per_day", "habits.change", "animals.fish"] {
        assert!(told.assumed.iter().all(|assumption| assumption.field != field), "{field}");
    }
}

/// Rule 1 of harm: disinfectant counts as present until the supplier says no; the bad end of the range counts.
#[test]
fn disinfectant_counts_until_somebody_says_no() {
    let silent = tank("[tank]\ncountry = \"eu\"\n");
    assert_eq!(silent.tap.disinfectant, setup::Disinfectant::Unknown);
    assert_eq!(
        silent.tap.total_chlorine_mg_per_l.value,
        knowledge::book().harm.limit.chlorine_unknown_mg_per_l.value()
    );
    // Where no European rule is known to hold the higher one counts.
    for country in ["us", "other"] {
        let abroad = tank(&format!("[tank]\ncountry = \"{country}\"\n"));
        assert_eq!(
            abroad.tap.total_chlorine_mg_per_l.value,
            knowledge::book().harm.limit.chlorine_unknown_us_mg_per_l.value()
        );
    }
    let said = tank("[tap]\ndisinfectant = \"none\"\n");
    assert_eq!(said.tap.total_chlorine_mg_per_l.value, 0.0);
}

/// Rule 4 of harm: where nobody spoke of animals or of pipes, shrimps and their copper may be there.
#[test]
fn silence_is_no_absence() {
    let silent = tank("");
    assert!(silent.animals.any() && silent.animals.invertebrates());
    assert!(silent.pipes_copper_mg_per_l.high + silent.tap.mg_per_l(quantity::Ion::Copper).high > 0.004);
    assert!(!silent.animals.start_test_passed);
    let fish_only = tank("[animals]\nfish = 6\n");
    assert!(!fish_only.animals.invertebrates());
    let limit = &knowledge::book().harm.limit.copper_unknown_percent;
    assert!((silent.at_hand.trace_copper.value - limit.value() / 100.0).abs() < 1e-12);
}

#[test]
fn rain_is_filled_in_from_data() {
    let tank = tank(include_str!("../../../../examples/hard-tap-ph-wish.toml"));
    let rain = tank.low.unwrap();
    assert_eq!(rain.disinfectant, setup::Disinfectant::None);
    assert!(rain.mg_per_l(quantity::Ion::Calcium).value < 3.0);
    assert_eq!(tank.wish.ph, Some(6.5));
}

#[test]
fn a_ground_that_feeds_gets_no_recipe() {
    let soil = tank("[ground]\nkind = \"soil_under_sand\"\n");
    assert_eq!(soil.feeding, setup::Feeding::None);
}

#[test]
fn far_from_usual_asks() {
    let tank = tank("[habits]\nchange = \"90 %\"\n");
    let (field, sentence) = &tank.unusual[0];
    assert_eq!(field, "habits.change");
    assert!(sentence.starts_with("Really?"), "{sentence}");
}
