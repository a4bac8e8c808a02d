//! From one tap to another: shares, days and litres by hand.
//!
//! Judge: hand arithmetic beside each check; every step is held against the daily limits of the rules of harm.

use crate::start;

use crate::start::{Settled, bicarbonate_tap, settled};
use care::moving::{Moving, moving};

fn tap(meq: f64, more: &str) -> Settled {
    settled(&bicarbonate_tap(meq, more, "0"))
}

fn way(from: f64, to: f64) -> Moving {
    let (old, new) = (tap(from, ""), tap(to, ""));
    moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0))
}

#[test]
fn alkalinity_goes_by_its_limit_a_day_and_then_in_one_step() {
    // Alkalinity 3.0 to 4.2, hardness the same: 1.2 meq/L apart. A German degree of hardness is 20 ÷ 56.077 = 0.3566 meq/L: a little less
    // than the 0.36 of alkalinity, so hardness binds: 0.3566 ÷ 1.2 = 29.7 % of 185 L = 55 L on the first day.
    let m = way(3.0, 4.2);
    assert_eq!(m.limited_by, Some("hardness"));
    let first = m.steps.first().expect("steps");
    assert!((first.share - 0.3566 / 1.2).abs() < 0.002, "{first:?}");
    assert!((first.litres - 55.0).abs() < 0.4, "{first:?}");
    // Then 0.8434 are left: 0.3566 ÷ 0.8434 = 42.3 %. Then 0.4868: 73 %, more than the usual half: over. Two days.
    assert_eq!(m.steps.len(), 2, "{:?}", m.steps);
    assert!((m.steps[1].share - 0.3566 / 0.8434).abs() < 0.003, "{:?}", m.steps);
    // Along goes what is not new on the first day: 185 - 55 = 130 L.
    assert!((m.take_along_l - 130.0).abs() < 0.5, "{}", m.take_along_l);
    assert!(m.answer.starts_with("Two days: a change a day, from 55 L to 78"), "{}", m.answer);
}

#[test]
fn every_step_keeps_every_limit_there_and_back() {
    let degree = 20.0 / 56.077;
    for (from, to) in [(1.0, 5.0), (5.0, 1.0), (2.0, 2.9), (6.0, 0.8)] {
        let m = way(from, to);
        let three = |marks: care::moving::Marks| marks.all().map(|mark| mark.expect("known"));
        let mut was = three(m.from);
        assert!(!m.steps.is_empty(), "{from} to {to}");
        for step in &m.steps {
            let now = three(step.after);
            assert!((now[0] - was[0]).abs() <= 0.36 + 1e-9, "{step:?}");
            assert!((now[1] - was[1]).abs() <= degree + 1e-9, "{step:?}");
            assert!((now[2] - was[2]).abs() <= 0.1 * was[2] + 1e-9, "{step:?}");
            // The new water that moves 24 °C by one degree in this share: 24 - 1 ÷ share.
            assert!((step.coldest_c - (24.0 - 1.0 / step.share)).abs() < 1e-9, "{step:?}");
            // A small share bears water that no tap brings.
            assert_eq!(step.may_be_too_cold(), step.share > 1.0 / 24.0, "{step:?}");
            was = now;
        }
        // What the last step leaves, the usual half bears.
        let left = (three(m.to)[1] - was[1]).abs();
        assert!(0.5 * left <= degree + 1e-9, "{left}");
    }
}

#[test]
fn waters_that_are_near_need_no_walk_and_an_empty_tank_none_at_all() {
    let near = way(3.0, 3.2);
    assert!(near.steps.is_empty() && near.answer.contains("near enough"), "{}", near.answer);
    let (old, new) = (tap(1.0, ""), tap(6.0, ""));
    let mut nobody = old.tank.clone();
    nobody.animals = Default::default();
    let m = moving((&nobody, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    assert!(m.steps.is_empty() && m.answer.contains("No animal lives in it"), "{}", m.answer);
}

#[test]
fn an_old_tank_goes_by_tenths() {
    let (old, new) = (tap(3.0, "unchanged_months = 8"), tap(3.3, ""));
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    assert_eq!(m.limited_by, Some("an old tank"));
    assert!(m.steps.iter().all(|step| step.share <= 0.1 + 1e-12), "{:?}", m.steps);
    // Until the usual half moves it no further than the first tenth did: 0.9^n ≤ 0.1 ÷ 0.5 = 0.2: n = ln 0.2 ÷ ln 0.9 = 15.3: 16 days.
    assert_eq!(m.steps.len(), 16);
}

#[test]
fn nitrate_rises_by_ten_a_day() {
    let old = tap(3.0, "");
    let new = settled(&bicarbonate_tap(3.0, "", "0").replace("nitrate = \"0 mg/L NO3\"", "nitrate = \"50 mg/L NO3\""));
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    // 0 to 50 mg/L: 10 ÷ 50 = 20 %, then 10 ÷ 40 = 25 %, then 10 ÷ 30 = 33 %, then 10 ÷ 20 = half: over.
    assert_eq!(m.limited_by, Some("nitrate"));
    let shares: Vec<f64> = m.steps.iter().map(|step| step.share).collect();
    assert_eq!(shares.len(), 3, "{shares:?}");
    for (share, by_hand) in shares.iter().zip([0.2, 0.25, 1.0 / 3.0]) {
        assert!((share - by_hand).abs() < 1e-9, "{shares:?}");
    }
    // Down it may go at once: nitrate has no limit that way.
    let back = moving((&new.tank, &new.plan), (&old.tank, &old.plan), &[], &start::at(0));
    assert_ne!(back.limited_by, Some("nitrate"));
}

/// The number in front of these words.
fn before(text: &str, words: &str) -> f64 {
    let (number, _) = text.split_once(words).unwrap_or_else(|| panic!("{words}: {text}"));
    number.rsplit(' ').next().and_then(|number| number.parse().ok()).unwrap_or_else(|| panic!("{words}: {text}"))
}

/// The new water of the way has its conditioner in millilitres and its salts in grams, for its own litres.
#[test]
fn rule_1_the_new_water_of_the_way_is_made_by_grams_and_millilitres() {
    let old = tap(4.0, "");
    let soft = bicarbonate_tap(0.8, "", "0");
    let chlorine = "disinfectant = \"chlorine\"\ntotal_chlorine = \"0.6 mg/L\"";
    let soft = soft.replace("disinfectant = \"none\"", chlorine);
    assert!(soft.contains(chlorine));
    let new = settled(&format!("{soft}\n[wish]\nalkalinity = \"2.2 to 2.8 meq/L\"\n"));
    let m = moving((&old.tank, &old.plan), (&new.tank, &new.plan), &[], &start::at(0));
    let first_l = old.tank.geometry.true_l.value - m.take_along_l;
    let made = start::under(&m.notes, "The new water");
    let (first, rest) = made.split_once(". ").unwrap_or_else(|| panic!("{made}"));
    // 0.6 mg/L × 7.0 mg of thiosulfate for each × litres, over the stock's mg in a millilitre; the syringe goes up by half millilitres.
    let c = new.plan.new_water.conditioner.as_ref().unwrap_or_else(|| panic!("a conditioner"));
    let hand = c.chlorine_mg_per_l * 7.0 * first_l / (1000.0 * c.stock_g * 0.99 / c.stock_ml);
    let ml = before(first, " mL of conditioner");
    assert!(ml >= hand * 0.99 && ml <= hand * 1.05 + 0.5, "{ml} for {hand} in {first}");
    // As much of each salt as the litres are of the plan's own change, on a scale of a tenth of a gram.
    let salt = new.plan.new_water.salts.first().unwrap_or_else(|| panic!("a salt"));
    let grams = before(first, &format!(" g of {}", salt.name));
    assert!((grams - salt.grams_a_change * first_l / new.plan.change.litres).abs() <= 0.051, "{grams} in {first}");
    for words in
        ["mixed as Salts says", "gills are hurt from about 0.02 mg/L", "Test ammonia before and after", "Into the last"]
    {
        assert!(rest.contains(words), "{words}: {made}");
    }
    let along = start::under(&m.notes, "Old water along");
    assert!(along.contains("as “The new water” says, conditioner first"), "{along}");
    // What the filter takes is named.
    let after = start::under(&m.notes, "After the move");
    assert!(after.contains("give off ammonia, and new water may bring some. Your filter"), "{after}");
}
