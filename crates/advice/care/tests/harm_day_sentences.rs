//! What a day must say once something was read, done or planned, by number of the rule: take a sentence out, and its rule fails here.

use crate::days::{HOUSEHOLD, SOIL, june, log, planned};
use crate::harm_sentences::{all_of, said};
use care::day;
use jiff::ToSpan;
use logbook::{Reading, Sure, What};

fn read(of: &str, value: f64) -> What {
    What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::default() })
}

/// All that the tenth of June says of a tank, of what was done and read so many hours before nine.
fn tenth(text: &str, entries: &[(i8, i8, What)]) -> String {
    let (tank, plan) = planned(text);
    let entries = entries.iter().map(|(date, hour, what)| (june(*date, *hour), what.clone())).collect();
    all_of(&day(&tank, &plan, &log(entries), &june(10, 9)))
}

#[test]
fn rules_6_and_16_warmth_cold_and_nitrate_with_their_numbers() {
    let hour = "At most 1 °C an hour.";
    let warm = tenth(HOUSEHOLD, &[(10, 8, read("temperature", 33.0))]);
    said(&warm, &["Warm water holds less oxygen: air on, and cool it slowly.", hour]);
    // Where air would make ammonia toxic it runs as before.
    let both = [(10, 8, read("temperature", 33.0)), (10, 8, read("ammonia_n", 0.3)), (10, 8, read("ph", 6.8))];
    said(&tenth(HOUSEHOLD, &both), &["Warm water holds less oxygen: watch how they breathe, and cool it slowly."]);
    said(&tenth(HOUSEHOLD, &[(10, 8, read("temperature", 12.0))]), &["Warm it slowly.", hour]);
    // Other tanks are kept at 29 °C: here it is further from the usual than a day's step.
    said(&tenth(HOUSEHOLD, &[(10, 8, read("temperature", 29.0))]), &["over the usual", hour]);
    said(
        &tenth(HOUSEHOLD, &[(10, 8, read("nitrate", 80.0))]),
        &[
            "80 mg/L NO3 is more than most keep.",
            "Many tanks are kept at 20 to 50 mg/L of nitrate: common practice, no source.",
            "For shrimps, snails and young the strictest guideline for wild animals is 13 mg/L of nitrate (as NO3).",
        ],
    );
}

#[test]
fn rules_3_7_and_8_what_was_done_that_may_harm() {
    let limit = "The toxic share of ammonia stays under 0.016 mg/L (as N), before and after.";
    // Nothing was changed for 61 days by the log, and then a third at once.
    let (tank, plan) = planned(HOUSEHOLD);
    let then = june(10, 8).checked_sub(61.days()).unwrap();
    let done = log(vec![(then, What::Change { litres: 36.0 }), (june(10, 8), What::Change { litres: 30.0 })]);
    said(
        &all_of(&day(&tank, &plan, &done, &june(10, 9))),
        &[
            "more than a tenth, 9.06 L. An old acid tank that was long unchanged never gets a big change: a tenth, again each hour, with an ammonia test.",
            limit,
            "Test ammonia and pH now, and watch how they breathe and whether shrimps and snails move; no food, and no change until the test is low.",
        ],
    );
    said(
        &tenth(HOUSEHOLD, &[(10, 8, What::Food { grams: 20.0 })]),
        &["No food until a test of ammonia, today and tomorrow, is low."],
    );
    let unsure = What::Test(Reading {
        of: "ammonia_n".into(),
        value: 0.3,
        below: false,
        error: None,
        kit: None,
        sure: Sure::NotSure,
    });
    said(
        &tenth(HOUSEHOLD, &[(10, 8, unsure)]),
        &["and you were not sure: test again now. Until then no food, and nothing that raises pH.", limit],
    );
    said(
        &tenth(HOUSEHOLD, &[(10, 8, read("ammonia_n", 1.0)), (10, 8, read("ph", 7.6))]),
        &["no food until a test is low again."],
    );
}

#[test]
fn rules_2_5_18_and_19_a_change_day() {
    // The household changes on Saturdays: the sheet of the 13th.
    let (tank, plan) = planned(HOUSEHOLD);
    let sheet =
        all_of(&day(&tank, &plan, &log(vec![(june(6, 9), What::Change { litres: 36.0 })]), &june(13, 9)).change);
    said(
        &sheet,
        &[
            "The tap smells, is brown, or there is a notice: no change today, air only.",
            "Let the cold tap run to its coldest; never take the hot tap.",
            "Stir, wait 5 minutes",
            "A clean bucket used for nothing else, with its lid on: a child can drown in it. Carry at most 10 L at once.",
            "Never start a siphon by mouth; gloves over cuts; wash your hands.",
        ],
    );
}

#[test]
fn rule_8_the_smaller_changes_of_a_long_pause_go_by_bucket() {
    // By hose as a habit, and nothing changed for 70 days: the tenth goes by bucket.
    let hose = HOUSEHOLD.replace("[at_hand]", "[at_hand]\nby_hose = true");
    let (tank, plan) = planned(&hose);
    let long = log(vec![(june(10, 9).checked_sub(70.days()).unwrap(), What::Change { litres: 36.0 })]);
    let text = all_of(&day(&tank, &plan, &long, &june(10, 9)));
    said(
        &text,
        &["a tenth, again each hour, with an ammonia test", "The hour is for an emergency; without one 9.06 L a day"],
    );
}

#[test]
fn rule_4_copper_that_nobody_measured_is_told_before_a_jug_is_poured() {
    let text = HOUSEHOLD.replace("every = \"7 days\"", "every = \"7 days\"\ntop_up = \"2 L a day\"");
    let without: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("copper")).collect();
    said(
        &tenth(&without.join("\n"), &[]),
        &[
            "Nobody measured the copper that tap and pipes bring: it may be up to",
            "and shrimps and snails are harmed from 0.004 mg/L on, above 0.008 I refuse. Rain or low-mineral water first, or have it measured before you pour.",
        ],
    );
    said(&tenth(SOIL, &[]), &["gills are hurt from about 0.02 mg/L on within hours."]);
}
