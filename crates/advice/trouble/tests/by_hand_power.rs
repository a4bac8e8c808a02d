//! Hours without power and a heater stuck on: by hand.

use crate::common::{close, figure, sum, words, work};

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

#[test]
fn a_cut_takes_no_breath_from_a_tank_without_filter_and_air() {
    let fields = [("care.filter", "false"), ("care.air_pump", "false"), ("animals.fish", "60")];
    let worked = work("power-cut", &fields, &[]);
    let breath = sum(&worked, "oxygen-hours");
    assert_eq!(breath.urgency, trouble::Urgency::LeaveItBe);
    assert!(breath.head.contains("nothing but the light") && words(breath).contains("about 3 mg/L"), "{breath:?}");
    // With one of them it is counted in hours.
    let filter = work("power-cut", &fields[1..], &[]);
    assert!(sum(&filter, "oxygen-hours").figures.contains_key("hours_early"));
}

#[test]
fn too_warm_water_by_what_was_read() {
    let at = |c: &str| {
        let worked = work("heater-on", &[], &[("temperature", c), ("room", "24 °C")]);
        sum(&worked, "too-warm").clone()
    };
    let (thirty, more, dying) = (at("30 °C"), at("33 °C"), at("36 °C"));
    // Benson and Krause 1984, one atmosphere: 7.559 mg/L at 30 °C, 8.263 at 25, 6.949 at 35.
    close(figure(&thirty, "oxygen_mg_per_l"), 7.559, 0.01);
    close(figure(&thirty, "oxygen_usual_mg_per_l"), 8.263, 0.01);
    close(figure(&at("35 °C"), "oxygen_mg_per_l"), 6.949, 0.01);
    assert!(thirty.head != more.head && more.head.contains("it harms now") && dying.head.contains("here fish die"));
    assert_eq!(dying.urgency, trouble::Urgency::AtOnce);
    let said = words(&more);
    for part in [
        "between 34 °C and 40 °C",
        "by itself: that is right",
        "Only what you add",
        "1 °C in an hour and 2 °C in a day",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    // No sentence of this trouble has a degree a day for a way that the room goes by itself.
    for read in ["30 °C", "36 °C", "45 °C"] {
        let all: String =
            work("heater-on", &[("heater.watts", "200 W")], &[("temperature", read)]).sums.iter().map(words).collect();
        assert!(!all.contains("one degree a day"), "{all}");
    }
}

#[test]
fn a_tank_of_shrimps_alone_hears_nothing_of_grown_fish() {
    let fields = [("animals.fish", "0"), ("animals.shrimps", "30")];
    for more in [&[][..], &[("care.filter", "false"), ("care.air_pump", "false")][..]] {
        let said = words(sum(&work("power-cut", &[&fields[..], more].concat(), &[]), "oxygen-hours"));
        assert!(!said.contains("grown fish") && !said.contains("Fish at the surface"), "{said}");
        assert!(said.contains("Shrimps that climb to the surface"), "{said}");
    }
}
