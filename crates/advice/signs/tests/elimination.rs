//! Causes that this tank can't have are struck out by its own numbers. Judge: the numbers, put in on both sides of a bound.

use crate::common;

use crate::common::{cause, entry, now, read, seen, tank};
use logbook::What;
use signs::{About, Standing};

#[test]
fn a_shortage_goes_by_the_level_of_this_tank() {
    // A tap of 30 mg/L of nitrate: the level never falls to 3.
    let rich = seen(&tank(30.0, ""), &["old_yellow"], &[]);
    let nitrogen = cause(&rich[0], "nitrogen_short");
    assert_eq!(nitrogen.standing, Standing::StruckOut, "{nitrogen:?}");
    assert!(nitrogen.because.contains("short below 3 mg/L"), "{}", nitrogen.because);
    // The keeper read 1: likely, whatever was worked out.
    let poor = seen(&tank(30.0, ""), &["old_yellow"], &[read("nitrate", 1.0)]);
    let of_leaf = poor.iter().find(|finding| matches!(finding.about, About::Sight { .. })).unwrap();
    assert_eq!(cause(of_leaf, "nitrogen_short").standing, Standing::Likely);
    assert_eq!(of_leaf.causes[0].key, "nitrogen_short", "the likeliest first");
    assert_eq!(of_leaf.change.as_ref().unwrap().cause, "nitrogen_short");
}

#[test]
fn light_goes_by_what_was_measured() {
    let of = |photons: &str| {
        let found = seen(&tank(8.0, &format!("[measured]\nphotons = \"{photons} µmol/m²s\"\n")), &["threads"], &[]);
        cause(&found[0], "light_strong").standing
    };
    assert_eq!(of("20 to 40"), Standing::StruckOut);
    assert_eq!(of("60 to 74"), Standing::Possible);
    assert_eq!(of("100 to 140"), Standing::Likely);
    // With carbon dioxide the bound is another: 150.
    let co2 = "[tank]\nco2 = \"15 mg/L\"\n[measured]\nphotons = \"100 to 140 µmol/m²s\"\n";
    let found = seen(&tank(8.0, co2), &["threads"], &[]);
    assert_eq!(cause(&found[0], "light_strong").standing, Standing::StruckOut);
    assert_eq!(cause(&found[0], "carbon_short").standing, Standing::StruckOut);
}

#[test]
fn carbon_that_is_not_given_comes_evenly() {
    let found = seen(&tank(8.0, ""), &["black_tufts"], &[]);
    assert_eq!(cause(&found[0], "carbon_unsteady").standing, Standing::StruckOut);
    let found = seen(&tank(8.0, "[tank]\nco2 = \"15 mg/L\"\n"), &["black_tufts"], &[]);
    assert_eq!(cause(&found[0], "carbon_unsteady").standing, Standing::Open);
}

#[test]
fn a_crust_needs_lime() {
    let soft = common::HUNDRED.replace("NITRATE", "8").replace("alkalinity = \"8 °dH\"", "alkalinity = \"2 °dH\"");
    let found = seen(&common::of(&soft, ""), &["white_crust"], &[]);
    assert_eq!(cause(&found[0], "lime_crust").standing, Standing::StruckOut);
    assert!(found[0].change.is_none());
    // It is the water's, not the keeper's.
    let because = &cause(&found[0], "lime_crust").because;
    assert!(because.contains("your tank’s alkalinity is"), "{because}");
    assert_eq!(cause(&seen(&tank(8.0, ""), &["white_crust"], &[])[0], "lime_crust").standing, Standing::Likely);
}

#[test]
fn age_and_events_come_from_the_log() {
    let (tank, plan) = tank(8.0, "");
    let judge = |log: &[logbook::Kept]| signs::judge(&tank, &plan, log, &now());
    let sight = |days: i64| entry(1, days, What::Sight { sight: "glassy".to_owned() });
    let changed = entry(2, 3, What::Change { litres: 70.0 });
    let found = judge(&[sight(1), changed]);
    assert_eq!(cause(&found[0], "change_sudden").standing, Standing::Likely);
    assert!(cause(&found[0], "change_sudden").because.contains("2026-06-08"), "{:?}", found[0].causes);
    // A sight of last month says nothing of today.
    assert!(judge(&[sight(30)]).is_empty());
    // A log of a year: the tank is not young.
    let old = entry(3, 365, What::Words);
    let brown = entry(4, 0, What::Sight { sight: "brown_film".to_owned() });
    assert_eq!(cause(&judge(&[brown.clone(), old])[0], "young_tank").standing, Standing::StruckOut);
    assert_eq!(cause(&judge(&[brown])[0], "young_tank").standing, Standing::Open);
}

#[test]
fn poor_evidence_says_that_we_dont_know() {
    let poor = ["green_dots", "green_dust", "threads", "fuzz", "black_tufts", "grey_branches", "slime_sheet"];
    for finding in seen(&tank(8.0, ""), &poor, &[]) {
        assert!(finding.unknown.contains("don't know"), "{}", finding.name);
        assert_eq!(finding.evidence, knowledge::Evidence::Poor);
    }
}

#[test]
fn one_change_and_a_day_to_judge_it() {
    let sights: Vec<&str> = knowledge::book().sights.keys().map(String::as_str).collect();
    let found = seen(&tank(8.0, ""), &sights, &[]);
    assert_eq!(found.len(), sights.len());
    for finding in &found {
        assert!(
            finding.causes.iter().all(|cause| !cause.because.is_empty() && !cause.decides.is_empty()),
            "{finding:#?}"
        );
        let Some(change) = &finding.change else { continue };
        let (early, usual, late) = change.judge_days;
        assert!(early <= usual && usual <= late && late > 0);
        assert!(change.judge_on > now().date() && !change.text.is_empty());
        assert!(finding.kept().any(|cause| cause.key == change.cause));
    }
}

#[test]
fn every_cause_of_the_table_is_held_against_the_tank() {
    let all: std::collections::BTreeSet<&String> =
        knowledge::book().sights.values().flat_map(|sight| &sight.causes).collect();
    let sights: Vec<&str> = knowledge::book().sights.keys().map(String::as_str).collect();
    let found = seen(&tank(8.0, ""), &sights, &[]);
    for key in all {
        assert!(found.iter().any(|finding| finding.causes.iter().any(|cause| cause.key == *key)), "{key} has no test");
    }
    for meaning in &knowledge::book().meanings.meaning {
        let bound = meaning.bound.unwrap_or(10.0);
        let value = if meaning.above { 50.0 * bound } else { 0.0 };
        let shrimps = common::HUNDRED.replace("NITRATE", "8").replace("fish = 10", "fish = 10\nshrimps = 5");
        let found = seen(&common::of(&shrimps, ""), &[], &[read(&meaning.reading, value)]);
        let causes: Vec<&String> = found.iter().flat_map(|finding| &finding.causes).map(|cause| &cause.key).collect();
        let same = |key: &&String| causes.contains(key);
        // Two meanings share a side of nitrate; the first that counts is said.
        assert!(
            meaning.causes.iter().all(|key| same(&key)) || meaning.key == "nitrate_strict",
            "{}: {causes:?}",
            meaning.key
        );
    }
}

#[test]
fn an_old_reading_and_an_unsure_one_decide_nothing() {
    let (tank, plan) = tank(30.0, "");
    let test = |days: i64, sure: logbook::Sure| {
        let reading = logbook::Reading { sure, ..read("nitrate", 0.5) };
        signs::judge(&tank, &plan, &[entry(1, days, What::Test(reading))], &now())
    };
    assert_eq!(test(1, logbook::Sure::Plain).len(), 1);
    assert!(test(20, logbook::Sure::Plain).is_empty());
    assert!(test(1, logbook::Sure::NotSure).is_empty());
}
