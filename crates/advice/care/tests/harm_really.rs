//! Harm rule 10: what is far from usual is asked about before it is written, with the number at which harm starts; harm rule 17: plants on a
//! list of weeds are named when plants are cut and when a tank ends.

use crate::days::{HOUSEHOLD, dose, june, log, planned};
use care::really;
use care::stopping::stopping;
use logbook::{Entry, What};
use recipe::Answer;

fn household(text: &str) -> Answer {
    let (tank, plan) = planned(text);
    Answer::Settled { tank: Box::new(tank), plan: Box::new(plan) }
}

fn entry(what: What) -> Entry {
    Entry { at: june(13, 9), what, note: String::new() }
}

#[test]
fn rule_10_a_dose_many_times_the_usual_is_asked_about_with_the_number_at_which_harm_starts() {
    let (answer, (_, plan)) = (household(HOUSEHOLD), planned(HOUSEHOLD));
    let bottle = &plan.bottles[0];
    assert_eq!(really(&answer, &entry(dose(bottle.daily_ml)), &[]), None);
    assert_eq!(
        really(&answer, &entry(dose(bottle.ask_above_ml)), &[]),
        None,
        "up to the line that the bottle itself names"
    );
    let asked = really(&answer, &entry(dose(12.0 * bottle.daily_ml)), &[]).expect("asked");
    for told in ["Really?", "in a day is 12 times the usual", "mg/L"] {
        assert!(asked.contains(told), "{told}: {asked}");
    }
    // The day's sum counts, whoever writes the name, and only of that day.
    let given = |day| log(vec![(june(day, 8), dose(11.0 * bottle.daily_ml))]);
    let again = entry(What::Dose { bottle: "bottle ONE ".to_owned(), ml: bottle.daily_ml });
    assert!(really(&answer, &again, &given(13)).expect("asked").contains("12 times"));
    assert_eq!(really(&answer, &again, &given(12)), None);
}

#[test]
fn rule_10_food_water_and_readings_too() {
    let (answer, (tank, plan)) = (household(HOUSEHOLD), planned(HOUSEHOLD));
    let usual = tank.keeping.food_g_per_day.value;
    assert_eq!(really(&answer, &entry(What::Food { grams: 9.0 * usual }), &[]), None);
    let fed = really(&answer, &entry(What::Food { grams: 11.0 * usual }), &[]).expect("asked");
    assert!(fed.contains("11 times") && fed.contains("0.016 mg/L"), "{fed}");
    assert_eq!(really(&answer, &entry(What::Change { litres: plan.change.litres }), &[]), None);
    let changed = really(&answer, &entry(What::Change { litres: 2.4 * plan.change.litres }), &[]).expect("asked");
    assert!(changed.contains("Really?"), "{changed}");
    let read = What::Test(logbook::Reading {
        of: "nitrate".to_owned(),
        value: 400.0,
        below: false,
        error: None,
        kit: None,
        sure: logbook::Sure::Plain,
    });
    assert!(really(&answer, &entry(read), &[]).expect("asked").starts_with("Really?"));
}

#[test]
fn rule_17_plants_on_a_list_are_named_when_they_are_cut_and_when_the_tank_ends() {
    let text = format!("{HOUSEHOLD}\n[plants]\nnames = \"Java fern, Pistia stratiotes\"\n");
    let text = if HOUSEHOLD.contains("[plants]") {
        HOUSEHOLD.replace("[plants]", "[plants]\nnames = \"Java fern, Pistia stratiotes\"")
    } else {
        text
    };
    let (tank, plan) = planned(&text);
    let end = stopping(&tank, &plan);
    let told = end.iter().find(|note| note.text.contains("Pistia stratiotes")).expect("named at the end");
    assert!(told.text.contains("ask your local authority") && told.text.contains("Never release it"), "{told:?}");
    let cut = (1..30).flat_map(|n| care::day(&tank, &plan, &[], &june(n, 8)).today).find(|act| act.key == "trim");
    let along = (1..30).filter_map(|n| care::day(&tank, &plan, &[], &june(n, 8)).change).flat_map(|sheet| sheet.along);
    let trim = cut.or_else(|| along.into_iter().find(|act| act.key == "trim")).expect("plants are cut once");
    assert!(trim.says.iter().any(|says| says.contains("Pistia stratiotes") && says.contains("Never release it")));
    let (tank, plan) = planned(HOUSEHOLD);
    assert!(!stopping(&tank, &plan).iter().any(|note| note.about.contains("may have of you")));
}

/// Harm rule 3: what the log asks at and what Care calls too much is one limit, the plan's own where that is the smaller.
#[test]
fn rule_3_more_than_the_plan_lets_this_tap_bring_is_asked_about() {
    let text = HOUSEHOLD.replace("<0.05 mg/L NH4", "1 mg/L NH4");
    let (tank, plan) = planned(&text);
    let most = plan.change.litres;
    assert!(
        plan.change.limited.is_some() && most < plan.change.share_most * tank.geometry.true_l.value,
        "{:?}",
        plan.change
    );
    let changed = |litres: f64| really(&household(&text), &entry(What::Change { litres }), &[]);
    assert_eq!(changed(most), None);
    let asked = changed(1.2 * most).expect("asked");
    assert!(asked.contains("that may be changed at once with this water"), "{asked}");
    let alarmed = care::day(&tank, &plan, &log(vec![(june(13, 7), What::Change { litres: 1.2 * most })]), &june(13, 9));
    assert!(
        alarmed
            .alarms
            .iter()
            .any(|alarm| alarm.says.iter().any(|say| say.contains("more than this tap allows at once")))
    );
}

/// A bottle that nobody knows may bring copper where shrimps and snails live; with fish alone it is the keeper's own business.
#[test]
fn rule_4_an_unknown_bottle_carries_the_copper_caution() {
    let strange = entry(What::Dose { bottle: "green stuff".to_owned(), ml: 5.0 });
    let asked = really(&household(HOUSEHOLD), &strange, &[]).expect("shrimps live there");
    assert!(
        asked.starts_with("Really? “green stuff”") && asked.contains("0.004 mg/L") && asked.contains("0.008 mg/L"),
        "{asked}"
    );
    let fish = HOUSEHOLD.replace("shrimps = 20", "shrimps = 0");
    assert_ne!(fish, HOUSEHOLD);
    assert_eq!(really(&household(&fish), &strange, &[]), None);
}

/// Where a tap is refused none of it may be changed, and no sentence speaks of 0 mL.
#[test]
fn nothing_is_more_than_no_millilitre() {
    let text = HOUSEHOLD.replace("[animals]\n", "[animals]\nunchanged_months = 8\n");
    let (tank, mut plan) = planned(&text);
    plan.change.share_most = 0.0;
    plan.change.limited = None;
    let answer = Answer::Settled { tank: Box::new(tank), plan: Box::new(plan) };
    let asked = really(&answer, &entry(What::Change { litres: 20.0 }), &[]).expect("asked");
    assert!(asked.contains("none of this water may be changed") && !asked.contains("0 mL"), "{asked}");
}
