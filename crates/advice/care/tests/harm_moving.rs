//! What a new tap may bring on the first day (harm rules 1, 3, 4, 6, 8): the water that goes along holds every limit, and a tap that is
//! refused gives no litre.
//!
//! Judge: the limits of the rules of harm, held against the full difference of the two waters by hand arithmetic.

use crate::start;

use crate::start::{Settled, bicarbonate_tap, settled, under};
use care::moving::{Moving, moving, with_tap};

/// The tank of `bicarbonate_tap` with so much of it changed a week; the lines told of its tap stand in place of its own.
fn tap(meq: f64, change: &str, told: &str, more: &str) -> Settled {
    let text = bicarbonate_tap(meq, more, "0").replace("change = \"50 %\"", &format!("change = \"{change}\""));
    let keys: Vec<&str> = told.lines().filter_map(|line| line.split_once(" =")).map(|(key, _)| key).collect();
    let is_told = |line: &str| line.split_once(" =").is_some_and(|(key, _)| keys.contains(&key));
    let kept: Vec<&str> = text.lines().filter(|line| !is_told(line)).collect();
    settled(&kept.join("\n").replace("[tap]", &format!("[tap]\n{told}")))
}

const CLEAN: &str = "ammonium = \"0 mg/L NH4\"\ncopper = \"0 mg/L\"\ndisinfectant = \"none\"";

fn way(old: &Settled, new: &Settled) -> Moving {
    moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0))
}

/// Share of the first day that is new water.
fn first(s: &Settled, m: &Moving) -> f64 {
    1.0 - m.take_along_l / s.tank.geometry.true_l.value
}

#[test]
fn rule_6_small_changes_do_not_make_far_waters_near() {
    for (from, to) in [(1.0, 6.0), (6.0, 1.0)] {
        let (old, new) = (tap(from, "3 %", CLEAN, ""), tap(to, "3 %", CLEAN, ""));
        let m = way(&old, &new);
        let share = first(&old, &m);
        // 5 meq/L apart: 0.36 ÷ 5 = 7.2 % at the most, though 3 % a week would keep every limit.
        assert!(share > 0.0 && share * 5.0 <= 0.36, "{share}");
        let (a, b) = m.from.all()[2].zip(m.to.all()[2]).expect("known");
        assert!(share * (a - b).abs() <= 0.1 * a + 1e-9, "{share}");
        assert!(m.steps.is_empty() && !m.answer.contains("near enough"), "{}", m.answer);
        assert!(m.answer.contains("never more than") && m.limited_by.is_some(), "{}", m.answer);
        let along = under(&m.notes, "Old water along");
        assert!(
            along.contains("feels like the tank") && along.contains("made as “The new water” says, conditioner first"),
            "{along}"
        );
    }
}

#[test]
fn rule_3_the_ammonia_of_the_new_tap_limits_the_first_day() {
    let ammonium = CLEAN.replace("0 mg/L NH4", "2 mg/L NH4");
    for change in ["3 %", "50 %"] {
        let (old, new) = (tap(3.0, change, CLEAN, ""), tap(3.0, change, &ammonium, ""));
        let m = way(&old, &new);
        let toxic = new.plan.aired.as_ref().expect("solved").nh3_fraction.high;
        // 2 mg/L NH4 × 14.007 ÷ 18.039 = 1.553 mg/L as N; harm starts at 0.016 mg/L of the toxic part.
        let share = first(&old, &m);
        assert!(share * 1.553 * toxic <= 0.016 * 1.01, "{share} {toxic}");
        assert!(m.take_along_l > 0.0 && m.limited_by == Some("ammonia"), "{:?} {}", m.limited_by, m.answer);
        assert!(!m.answer.contains("near enough"), "{}", m.answer);
    }
}

#[test]
fn rule_8_an_old_tank_takes_at_most_a_tenth_of_new_water_along_the_way() {
    let more = "unchanged_months = 14";
    let (old, new) = (tap(3.0, "5 %", CLEAN, more), tap(3.05, "5 %", CLEAN, more));
    let m = way(&old, &new);
    assert!(first(&old, &m) <= 0.1 + 1e-9 && !m.answer.contains("near enough"), "{}", m.answer);
    assert!(under(&m.notes, "An old tank").contains("The hour is for an emergency"));
}

#[test]
fn rules_1_and_4_a_refused_tap_gives_no_litre() {
    let copper = CLEAN.replace("copper = \"0 mg/L\"", "copper = \"0.03 mg/L\"");
    let chlorine = CLEAN.replace("\"none\"", "\"chloramine\"\ntotal_chlorine = \"6 mg/L\"");
    for (water, animals) in [(copper, "snails = 8"), (chlorine, "")] {
        let (old, new) = (tap(3.0, "50 %", CLEAN, animals), tap(3.0, "50 %", &water, animals));
        let m = way(&old, &new);
        assert!(m.stopped.is_some() && m.answer.starts_with("Not with this tap"), "{}", m.answer);
        assert_eq!(m.take_along_l, old.tank.geometry.true_l.value);
        let says = under(&m.notes, "Old water along");
        assert!(says.contains("nothing of the new tap goes in") && says.contains("other water"), "{says}");
        assert!(!says.contains("filled up") && under(&m.notes, "The new tap").is_empty(), "{:?}", m.notes);
    }
}

#[test]
fn rule_6_alkalinity_alone_keeps_the_changes_small() {
    // The same hardness, 1.5 meq/L more alkalinity as sodium bicarbonate: 0.36 ÷ 1.5 = 24 % on the first day.
    let (old, mut new) = (tap(3.0, "50 %", CLEAN, ""), tap(3.0, "50 %", CLEAN, ""));
    new.tank.tap.alkalinity_meq_per_l = quantity::Known::exact(4.5, quantity::Kind::Measured);
    let sodium = quantity::Known::exact(23.0 + 1.5 * 22.99, quantity::Kind::Measured);
    new.tank.tap.ions.insert(quantity::Ion::Sodium, sodium);
    let m = way(&old, &new);
    assert_eq!(m.limited_by, Some("alkalinity"));
    assert!(m.steps.first().is_some_and(|step| (step.share - 0.24).abs() < 1e-6), "{:?}", m.steps);
    // Rule 19: a tap of 12 °C moves the tank by a degree at most: 24 - 1 ÷ 0.24 = 19.8 °C.
    let along = under(&m.notes, "Old water along");
    assert!(along.contains("Never colder than 19.8 °C"), "{along}");
}

#[test]
fn rule_4_the_pipes_of_the_new_house_count_with_its_tap() {
    // 0 mg/L of the tap and 0.05 of the pipes are above the 0.008 that is refused with snails.
    let (old, mut there) = (tap(3.0, "50 %", CLEAN, "snails = 8"), tap(3.0, "50 %", CLEAN, ""));
    there.tank.pipes_copper_mg_per_l = quantity::Known::exact(0.05, quantity::Kind::Measured);
    let tank = with_tap(&old.tank, &there.tank);
    let m = moving((&old.tank, &old.plan), (&tank, &recipe::plan(&tank)), &[], &start::at(0));
    assert!(m.stopped.is_some_and(|says| says.contains("copper")) && m.steps.is_empty());
}

#[test]
fn rule_6_a_new_water_below_what_animals_bear_says_so() {
    let lean = |meq: f64, animals: &str| {
        let (old, new) = (tap(3.0, "0 %", CLEAN, animals), tap(meq, "0 %", CLEAN, animals));
        let notes = way(&old, &new).notes;
        ["Too little alkalinity", "Too soft for shells"].map(|about| under(&notes, about).to_owned())
    };
    // 0.2 meq/L of both: below the floor of 0.36 and the 1.43 of shells; 1.0: only shells; 3.0: neither.
    let [alkalinity, shells] = lean(0.2, "snails = 8");
    assert!(alkalinity.contains("0.2 meq/L") && alkalinity.contains("0.36 meq/L"), "{alkalinity}");
    assert!(shells.contains("4 German degrees"), "{shells}");
    let told = |meq, animals| lean(meq, animals).map(|text| !text.is_empty());
    assert_eq!(told(1.0, "snails = 8"), [false, true]);
    assert_eq!(told(3.0, "snails = 8"), [false, false]);
    assert_eq!([told(1.0, ""), told(0.2, "")], [[false, false], [true, false]]);
}
