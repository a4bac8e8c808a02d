//! Hours without power and a heater stuck on: by hand.

mod common;

use common::{close, figure, sum, words, work};

#[test]
fn breath_of_a_crowded_tank() {
    // 200 fish of 3 g: 600 g x 250 mg/kg/h = 150 mg/h over 200 L = 0.75 mg/L an hour, and 0.08 for plants and ground: 0.83.
    // Surface: 2.1 cm/h / 40 cm = 0.0525 /h for Schmidt 600; oxygen at 20 °C has Schmidt 529.6: x (600/529.6)^(2/3) = 1.0868: 0.05706;
    // at 25 °C x 1.024^5 = 1.1259, and crate water counts Schmidt 20 °C over Schmidt 25 °C for oxygen as 1: 0.06424 /h.
    // O* at 25 °C 8.263; O_inf = 8.263 - 0.83/0.06424 = -4.657; start 0.8 x 8.263 = 6.610; least 4:
    // t = ln((6.610 + 4.657)/(4 + 4.657))/0.06424 = ln(1.3015)/0.06424 = 0.26352/0.06424 = 4.10 h.
    let worked = work("power-cut", &[("animals.fish", "200"), ("care.fish_weight", "3 g")], &[]);
    let sum = sum(&worked, "oxygen-hours");
    close(figure(sum, "use_mg_per_l_h"), 0.83, 0.001);
    close(figure(sum, "hours_likely"), 4.10, 0.03);
    assert!(figure(sum, "hours_early") < figure(sum, "hours_likely"));
    assert!(words(sum).contains("Harm starts at about 3 mg/L"), "{}", words(sum));
}

#[test]
fn a_tank_of_few_fish_holds() {
    // 1 fish: use about 0.08: O_inf = 8.263 - 0.082/0.0642 = 6.99, above 4.
    let worked = work("power-cut", &[("animals.fish", "1")], &[]);
    assert_eq!(figure(sum(&worked, "oxygen-hours"), "hours_likely"), f64::INFINITY);
}

#[test]
fn warmth_by_a_loss_that_was_measured() {
    // Loss 15 W/K, 200 L x 1.05 x 4.18 = 877.8 kJ/K: 16.256 h. From 25 in a room of 15, 12 h: 15 + 10 exp(-0.7382) = 19.78.
    let fields = [("measured.heat_loss", "15 W/K"), ("room.coldest", "15 °C")];
    let worked = work("power-cut", &fields, &[]);
    let sum = sum(&worked, "warmth-hours");
    close(figure(sum, "after_12_h_c"), 19.78, 0.02);
    // The colder end holds 200 L x 4.18 alone: 836 kJ/K, 15.48 h: 2 °C are gone after -15.48 ln 0.8 = 3.45 h: said after the hour, 4.
    close(figure(sum, "hours_to_day_limit"), 4.0, 0.0);
}

#[test]
fn a_heater_stuck_on_by_a_loss_that_was_measured() {
    // 150 W over 10 to 15 W/K in a room of 28: 28 + 150/10 = 43 at most.
    let fields = [("measured.heat_loss", "10 to 15 W/K"), ("room.hottest", "28 °C"), ("heater.watts", "150 W")];
    let sum_of = work("heater-on", &fields, &[]);
    let sum_of = sum(&sum_of, "heater-stuck");
    close(figure(sum_of, "warmest_c"), 43.0, 1e-9);
    // The same watts read off its glass just now.
    let read = work("heater-on", &fields[..2], &[("watts", "0.15 kW")]);
    close(figure(sum(&read, "heater-stuck"), "warmest_c"), 43.0, 1e-9);
    assert!(words(sum_of).contains("two rather than one"), "{}", words(sum_of));
}

#[test]
fn a_leak_by_the_centimetre() {
    // 1 m x 0.5 m x 1 cm = 5 L.
    close(figure(sum(&work("leak", &[], &[]), "leak"), "litres_a_cm"), 5.0, 1e-9);
}
