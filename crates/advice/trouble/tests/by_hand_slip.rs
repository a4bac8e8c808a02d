//! A bottle of which too much was given: one way back for Care, Salts and Help now, and what the log knows.

use crate::common;

use crate::common::{answer, close, figure, sum, told, with_log, words, work};
use logbook::What;
use quantity::{Kind, Known};
use trouble::{Case, Urgency, outcomes};

/// A soft tap and rich feeding, so that two doses of a day are over a limit.
const RICH: [(&str, &str); 7] = [
    ("feeding.wish", "plenty"),
    ("light.energy", "high"),
    ("tap.nitrate", "1 mg/L NO3"),
    ("tap.phosphate", "0.05 mg/L PO4"),
    ("tap.potassium", "0.5 mg/L"),
    ("tap.ammonium", "0 mg/L NH4"),
    ("habits.change", "50 %"),
];

#[test]
fn twice_the_dose_has_the_same_way_back_as_in_care() {
    let mut fields = RICH.to_vec();
    fields.push(("plants.uptake_nitrate", "6 mg/L NO3 a day"));
    let answer = answer(&fields);
    let told = told(&[("times", "2")]);
    let all = outcomes(&answer);
    let outcome = all.first().unwrap();
    let worked = trouble::worked("overdose", &outcome.case(&told), &[], &common::now());
    let mut seen = 0;
    for sum in worked.sums.iter().filter(|sum| sum.key == "overdose" && sum.urgency == Urgency::AtOnce) {
        seen += 1;
        let far = figure(sum, "excess_mg_per_l") / figure(sum, "allowed_mg_per_l");
        // Below twice the limit one half change brings it back: ln(far)/ln 2 <= 1.
        assert!(far > 1.0 && far <= 2.0, "{sum:?}");
        let share = outcome.plan.change.share.min(figure(worked.sums.first().unwrap(), "share_most"));
        let back = recipe::way_back(outcome.tank, share, far);
        if back.changes == 1 {
            assert!(words(sum).contains(&back.says) && sum.head.contains("one change of"), "{}", words(sum));
            assert!(!sum.head.contains("two changes"), "{}", sum.head);
        }
    }
    assert!(seen > 0, "{worked:#?}");
    let notice = trouble::sheet("overdose").unwrap();
    assert!(!notice.then.contains("harms nothing") && notice.then.contains("10 mg/L"), "{}", notice.then);
}

#[test]
fn what_the_log_knows_is_counted_and_not_ten_times() {
    let plan = answer(&RICH);
    let bottle = outcomes(&plan).first().unwrap().plan.bottles.first().unwrap().clone();
    // Twelve times the day's dose in two lines of one day; a third line is older than a day.
    let dose = |times: f64| What::Dose { bottle: bottle.name.clone(), ml: times * bottle.daily_ml };
    let worked = with_log("overdose", &RICH, &[], &[(1.0, dose(7.0)), (2.0, dose(5.0)), (30.0, dose(9.0))]);
    let sums: Vec<_> = worked.sums.iter().filter(|sum| sum.key == "overdose").collect();
    assert_eq!(sums.len(), 1, "only the bottle that was given: {sums:?}");
    assert!(sums[0].head.contains("12 times the dose") && sums[0].head.contains("by your log"), "{}", sums[0].head);
    let ten = work("overdose", &RICH, &[("times", "10"), ("bottle", &bottle.name)]);
    close(figure(sums[0], "excess_mg_per_l") / figure(sum(&ten, "overdose"), "excess_mg_per_l"), 1.2, 1e-6);
    // What is said now goes before the log.
    // By its name in small letters too.
    let small = What::Dose { bottle: bottle.name.to_lowercase(), ml: 12.0 * bottle.daily_ml };
    let worked = with_log("overdose", &RICH, &[], &[(1.0, small.clone())]);
    close(figure(sum(&worked, "overdose"), "excess_mg_per_l"), figure(sums[0], "excess_mg_per_l"), 1e-9);
    assert!(with_log("gasping", &RICH, &[], &[(1.0, small)]).causes.iter().any(|c| c.key == knowledge::CauseKey::Dose));
    let said = with_log("overdose", &RICH, &[("times", "3")], &[(1.0, dose(12.0))]);
    assert!(said.sums.iter().all(|sum| !sum.head.contains("by your log")), "{said:?}");
}

#[test]
fn a_bottle_that_is_not_there_is_said_to_be_unknown() {
    let worked = work("overdose", &RICH, &[("bottle", "nine")]);
    let said = words(sum(&worked, "overdose"));
    assert!(said.contains("no bottle called “nine”") && said.contains("Bottle one"), "{said}");
}

#[test]
fn a_change_after_the_dose_took_its_share_out() {
    let plan = answer(&RICH);
    let outcome = outcomes(&plan);
    let (tank, plan) = outcome.first().map(|o| (o.tank, o.plan)).unwrap();
    let bottle = plan.bottles.first().unwrap();
    let dose = |times: f64| What::Dose { bottle: bottle.name.clone(), ml: times * bottle.daily_ml };
    let half = What::Change { litres: 0.5 * tank.geometry.true_l.high };
    let excess = |log: &[(f64, What)]| {
        let worked = with_log("overdose", &RICH, &[], log);
        figure(sum(&worked, "overdose"), "excess_mg_per_l")
    };
    let whole = excess(&[(3.0, dose(12.0))]);
    // By hand: a change of half the water leaves a half of it, two leave a quarter; one before the dose takes nothing.
    close(excess(&[(3.0, dose(12.0)), (2.0, half.clone())]) / whole, 0.5, 1e-9);
    close(excess(&[(3.0, dose(12.0)), (2.0, half.clone()), (1.0, half.clone())]) / whole, 0.25, 1e-9);
    close(excess(&[(3.0, dose(12.0)), (4.0, half.clone())]) / whole, 1.0, 1e-9);
    // 6 before and 6 after it: 6 × 0.5 + 6 = 9 of 12.
    close(excess(&[(3.0, dose(6.0)), (2.0, half.clone()), (1.0, dose(6.0))]) / whole, 0.75, 1e-9);
    let worked = with_log("overdose", &RICH, &[], &[(3.0, dose(12.0)), (2.0, half.clone())]);
    let head = &sum(&worked, "overdose").head;
    assert!(head.contains("12 times the dose, of which your changes since left 50"), "{head}");
    // Harm rule 6: where the keeper says how much it was, nobody knows when, and all of it counts.
    let said =
        with_log("overdose", &RICH, &[("times", "12"), ("bottle", &bottle.name)], &[(3.0, dose(12.0)), (2.0, half)]);
    close(figure(sum(&said, "overdose"), "excess_mg_per_l") / whole, 1.0, 1e-9);
}

#[test]
fn rule_6_a_change_after_the_dose_took_out_no_more_than_in_the_most_litres() {
    let plan = answer(&RICH);
    let outcome = outcomes(&plan);
    let (mut tank, plan) = outcome.first().map(|o| (o.tank.clone(), o.plan)).unwrap();
    // 150 to 250 L, likely 200: 100 L changed leave 1 - 100 ÷ 250 = 60 % of it, not a half.
    tank.geometry.true_l = Known::ranged(150.0, 200.0, 250.0, Kind::WorkedOut);
    let bottle = plan.bottles.first().unwrap();
    let excess = |changed: &[(f64, What)]| {
        let dose = (3.0, What::Dose { bottle: bottle.name.clone(), ml: 12.0 * bottle.daily_ml });
        let entries = changed.iter().chain([&dose]).zip(1..);
        let log: Vec<_> = entries.map(|((ago, what), id)| common::kept(id, *ago, what.clone())).collect();
        let mut told = told(&[]);
        told.hear(&log, &common::now());
        let case = Case { tank: &tank, plan, told: &told, litres_known: true };
        figure(sum(&trouble::worked("overdose", &case, &log, &common::now()), "overdose"), "excess_mg_per_l")
    };
    close(excess(&[(2.0, What::Change { litres: 100.0 })]) / excess(&[]), 0.6, 1e-9);
}
