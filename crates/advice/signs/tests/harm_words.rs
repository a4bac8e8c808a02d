//! Bad ends and sentences of signs, by number of the rule: take one out, and its rule fails here.

use std::collections::BTreeSet;

use crate::common::{self, of, read, seen, tank, words};
use knowledge::{Urgency, book};
use logbook::Reading;
use quantity::{Kind, Known};
use signs::{About, Finding};

/// mg/L N that a finding calls toxic.
fn toxic(finding: &Finding) -> f64 {
    let text = finding.says.split("toxic: ").nth(1).unwrap_or_else(|| panic!("{}", finding.says));
    text.split(' ').next().unwrap().parse().unwrap()
}

/// What is said of the ammonia among some readings.
fn ammonia(tank: &(setup::Tank, recipe::Plan), readings: &[Reading]) -> Finding {
    let found = seen(tank, &[], readings);
    let is = |finding: &&Finding| matches!(&finding.about, About::Reading { of, .. } if of == "ammonia_n");
    found.iter().find(is).unwrap_or_else(|| panic!("{found:#?}")).clone()
}

fn change(finding: &Finding) -> &str {
    finding.change.as_ref().map_or("", |change| change.text.as_str())
}

#[test]
fn rule_7_each_reading_counts_at_its_bad_end() {
    let hundred = tank(8.0, "[tank]\ntemperature = \"24 °C\"\n");
    let with = |of: &str, value: f64, error: f64| Reading { error: Some(error), ..read(of, value) };
    let at = |readings: &[Reading]| toxic(&ammonia(&hundred, readings));
    let plain = at(&[read("ph", 8.0), read("ammonia_n", 0.5)]);
    assert_eq!(at(&[with("ph", 7.9, 0.1), read("ammonia_n", 0.5)]), plain);
    assert_eq!(at(&[read("ph", 8.0), with("ammonia_n", 0.4, 0.1)]), plain);
    // As warm as the tank may be, where nobody reads it.
    let range = tank(8.0, "[tank]\ntemperature = \"22 to 28 °C\"\n");
    let warm = tank(8.0, "[tank]\ntemperature = \"28 °C\"\n");
    let of = |tank| ammonia(tank, &[read("ph", 8.0), read("ammonia_n", 0.5)]);
    assert_eq!(toxic(&of(&range)), toxic(&of(&warm)));
    assert!(toxic(&of(&warm)) > plain);
    let says = of(&range).says.replace('\u{a0}', " ");
    assert!(says.contains("28 °C, the upper ends of what you read"), "{says}");
}

#[test]
fn rule_7_the_warmth_that_was_read_counts_where_nobody_read_ph() {
    // Emerson et al. 1975: pKa = 0.09018 + 2729.92 ÷ T, 9.095 at 30 °C and 9.277 at 24 °C; the activity of ammonium in this water takes 0.0324 off
    // (as in `harm.rs`). At the upper end of the pH of aired water: 0.5 ÷ (1 + 10^(pKa + 0.0324 - pH)) mg/L N.
    let tank = tank(8.0, "[tank]\ntemperature = \"24 °C\"\n");
    let ph = tank.1.aired.as_ref().unwrap().ph;
    assert!(ph.high > ph.value + 0.05, "{ph:?}");
    let by_hand = |celsius: f64| {
        let pka = 0.09018 + 2729.92 / (273.15 + celsius);
        0.5 / (1.0 + 10f64.powf(pka + 0.0324 - ph.high))
    };
    let of = |readings: &[Reading]| ammonia(&tank, readings);
    let warm = |error: f64| Reading { error: Some(error), ..read("temperature", 30.0 - error) };
    for (found, celsius) in [
        (of(&[read("ammonia_n", 0.5)]), 24.0),
        (of(&[warm(0.0), read("ammonia_n", 0.5)]), 30.0),
        (of(&[warm(2.0), read("ammonia_n", 0.5)]), 30.0),
    ] {
        let says = found.says.replace('\u{a0}', " ");
        assert!(says.contains(&format!("{celsius} °C, the upper ends of what is worked out")), "{says}");
        // 4 %: the sum is printed in two figures.
        assert!((toxic(&found) / by_hand(celsius) - 1.0).abs() < 0.04, "{}: {says}", by_hand(celsius));
    }
    // Where alkalinity may be gone by the next change it is told all the same, and is no alarm by itself: 0.1 × 12 % = 0.012 mg/L N, under 0.016.
    let (lost, mut plan) = tank.clone();
    plan.alkalinity.before_change = Known::ranged(0.0, 0.0, 1.0, Kind::WorkedOut);
    let told = ammonia(&(lost, plan), &[read("ammonia_n", 0.1)]);
    assert!(told.urgency > Urgency::AtOnce && toxic(&told) < 0.016, "{}", told.says);
    // Warmer than what can be worked out: the bad end counts.
    let untold = of(&[read("temperature", 38.0), read("ammonia_n", 0.05)]);
    assert!(untold.urgency == Urgency::AtOnce && untold.says.contains("I can’t tell"), "{}", untold.says);
}

#[test]
fn rule_7_ammonia_that_harms_may_harm_or_does_not_yet() {
    let hundred = tank(8.0, "[tank]\ntemperature = \"24 °C\"\n");
    let at = |ph: f64, more: Option<Reading>| {
        let readings: Vec<Reading> =
            [Some(read("ph", ph)), more, Some(read("ammonia_n", 0.5))].into_iter().flatten().collect();
        ammonia(&hundred, &readings)
    };
    let act = "No food today, nothing that raises pH: air runs as before, unless they breathe fast; then the carbon dioxide goes off and the air on. Then Help now: it has the change that this tap allows.";
    let harms = at(8.0, None);
    assert!(harms.says.starts_with("Animals are in danger: at pH 8"), "{}", harms.says);
    assert_eq!(change(&harms), act);
    // Warmer than what can be worked out: the bad end counts, and it is never called "nothing to do".
    let untold = at(7.0, Some(read("temperature", 38.0)));
    assert_eq!(untold.urgency, Urgency::AtOnce);
    assert!(
        untold.says.starts_with("Animals may be in danger: how much of it is toxic I can’t tell")
            && untold.says.contains("0.016"),
        "{}",
        untold.says
    );
    assert_eq!(change(&untold), act);
    let not_yet = at(7.0, None);
    assert!(
        change(&not_yet).starts_with("Feed half and test every day until it is gone. Whatever raises pH"),
        "{}",
        change(&not_yet)
    );
    // Where nobody lives nobody is harmed.
    let empty = of(&common::HUNDRED.replace("NITRATE", "8").replace("fish = 10", "fish = 0"), "");
    let nobody = ammonia(&empty, &[read("ph", 8.0), read("ammonia_n", 0.5)]);
    assert_eq!(nobody.urgency, Urgency::LeaveItBe);
}

#[test]
fn rules_12_and_13_too_much_carbon_dioxide_says_where_harm_starts_and_that_it_is_never_raised() {
    let given = tank(8.0, "[tank]\nco2 = \"8 mg/L\"\n");
    let found = seen(&given, &[], &[Reading { error: Some(8.0), ..read("co2", 24.0) }]).remove(0);
    let (limit, rule) = (&book().harm.limit, &book().harm.rule);
    assert_eq!(found.says, format!("It can be 32 mg/L. {}", limit.co2_most_mg_per_l.say));
    assert_eq!(
        change(&found),
        format!(
            "Carbon dioxide off, air on, until the fish breathe quietly; then less of it. {} {}",
            rule.co2_never_raised.say, rule.filter_and_air_stay.say
        )
    );
}

#[test]
fn rule_6_alkalinity_of_animals_is_judged_at_the_bad_end() {
    // 0.4, give or take 0.1: 0.3 is under a German degree.
    let low = seen(&tank(8.0, ""), &[], &[Reading { error: Some(0.1), ..read("alkalinity", 0.4) }]).remove(0);
    assert!(low.urgency < Urgency::WhenItSuits, "{low:?}");
}

/// Taps rich and poor in nitrate, soft and hard, with copper; nobody fed; shrimps; an exchange with the air that was measured.
fn tanks() -> Vec<(setup::Tank, recipe::Plan)> {
    let still = "[measured]\noxygen_exchange = \"0.05 an hour\"\n";
    let kinds = [
        ("8 °dH", "0.3 g a day", 0, ""),
        ("1 °dH", "0.3 g a day", 0, ""),
        ("1 °dH", "0 g a day", 0, ""),
        ("8 °dH", "0.3 g a day", 20, still),
    ];
    let one = |nitrate: &str, (tap, food, shrimps, more): (&str, &str, u32, &str)| {
        let text = common::HUNDRED
            .replace("NITRATE", nitrate)
            .replace("\"8 °dH\"", &format!("\"{tap}\""))
            .replace("0.3 g a day", food)
            .replace("\"0.001 mg/L\"", "\"0.02 mg/L\"")
            .replace("fish = 10", &format!("fish = 10\nshrimps = {shrimps}"));
        of(&text, more)
    };
    ["1", "40"].into_iter().flat_map(|nitrate| kinds.map(|kind| one(nitrate, kind))).collect()
}

/// Rules 4, 6, 7, 13 and 16: whatever the one change is, the rule that it touches stands in the same sentence.
#[test]
fn each_change_carries_its_rule() {
    let (limit, rule) = (&book().harm.limit, &book().harm.rule);
    let needs = [
        ("nitrogen_short", &limit.nitrate_step_mg_per_l.say),
        ("phosphorus_short", &limit.phosphate_step_mg_per_l.say),
        ("potassium_short", &limit.potassium_step_mg_per_l.say),
        ("iron_short", &limit.iron_step_mg_per_l.say),
        ("tap_brings", &rule.in_steps.say),
        ("tap_brings_little", &rule.ph_frees_ammonia.say),
        ("nitrification_eats", &rule.ph_frees_ammonia.say),
        ("surface_still", &rule.filter_and_air_stay.say),
    ];
    let sights: Vec<&str> = book().sights.keys().map(String::as_str).collect();
    let readings = [
        ("nitrate", 1.0),
        ("nitrate", 55.0),
        ("phosphate", 0.0),
        ("potassium", 0.5),
        ("iron", 0.0),
        ("alkalinity", 0.2),
        ("oxygen", 2.0),
        ("copper", 0.01),
    ];
    let mut met: BTreeSet<&str> = BTreeSet::new();
    for tank in tanks() {
        let seen_there = sights.iter().flat_map(|sight| seen(&tank, &[sight], &[]));
        for finding in seen_there.chain(readings.iter().flat_map(|(of, value)| seen(&tank, &[], &[read(of, *value)]))) {
            let Some(change) = &finding.change else { continue };
            let mut must = |key: &'static str, say: &str| {
                assert!(change.text.contains(say), "{key}: {}", words(&finding));
                met.insert(key);
            };
            needs.iter().filter(|(cause, _)| *cause == change.cause).for_each(|(cause, say)| must(cause, say));
            if change.cause == "nitrogen_short" && tank.0.animals.shrimps > 0 {
                must("strict", &limit.nitrate_strict_mg_per_l.say);
            }
            if change.cause == "tap_brings" && finding.name.to_lowercase().contains("copper") {
                must("copper", &rule.copper_adds_up.say);
            }
        }
    }
    let wanted: BTreeSet<&str> = needs.iter().map(|(cause, _)| *cause).chain(["strict", "copper"]).collect();
    assert!(met == wanted, "never met: {:?}", wanted.difference(&met).collect::<Vec<_>>());
}
