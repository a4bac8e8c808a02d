//! Where a figure that protects life is old, unsure or has a range, its bad end counts; each test fails when that is taken out.
//!
//! Judge: the limits of the rules of harm and hand arithmetic beside each check.

use crate::common;

use crate::common::{HEAVY, answer_of, figure, now, read, sum, told, words, work, work_of};
use logbook::{Reading, Sure, What};
use trouble::{CHANGE_MOST, Urgency, Worked, outcomes};

fn most(worked: &Worked) -> f64 {
    let first = worked.sums.iter().find(|sum| sum.key == CHANGE_MOST).unwrap();
    if first.figures.contains_key("no_change") { 0.0 } else { figure(first, "share_most") }
}

#[test]
fn rule_3_a_reading_older_than_a_change_lifts_no_limit_of_the_tap() {
    let readings = [(16.0, read("ammonia_n", 3.0)), (16.0, read("ph", 8.2))];
    assert!(most(&work_of(HEAVY, "ammonia", &[], &[], &readings)) > 0.3);
    // 5 L were changed since: what was read is gone, and the tap's own 9 % hold again.
    let changed = [readings.to_vec(), vec![(1.0, What::Change { litres: 5.0 })]].concat();
    let share = most(&work_of(HEAVY, "ammonia", &[], &[], &changed));
    assert!(share > 0.0 && share < 0.12, "{share}");
}

#[test]
fn rule_4_no_reading_makes_a_refused_tap_one_to_change_with() {
    // 0.03 mg/L of copper are above the 0.008 that is refused with snails, whatever ammonia was read in tank or bucket.
    let fields = [("tap.copper", "0.03 mg/L"), ("animals.snails", "8")];
    for readings in [
        vec![("ammonia", "3 mg/L N"), ("ph", "8.2")],
        vec![("tap_ammonia", "0 mg/L N")],
        vec![("ammonia", "3 mg/L N"), ("ph", "8.2"), ("tap_ammonia", "0 mg/L N")],
    ] {
        for trouble in ["ammonia", "gasping"] {
            let worked = work(trouble, &fields, &readings);
            assert_eq!(most(&worked), 0.0, "{readings:?}: {worked:?}");
            let offers = worked.sums.iter().flat_map(|sum| &sum.says).any(|say| say.starts_with("Change "));
            assert!(!offers, "{readings:?}: {worked:?}");
        }
    }
}

#[test]
fn rule_7_new_water_is_weighed_at_the_ph_to_which_the_tank_airs() {
    // pH 6.8 under carbon dioxide, up to 6.9: 0.4 % toxic (Emerson, 26 °C: pKa 9.216), 0.016 ÷ 0.004 = 4 mg/L would be borne and 1 mg/L of the
    // new water would limit nothing. Aired it stands at some 8.7, 23 %: 0.016 ÷ 0.23 = 0.07 mg/L, so at most 7 % of such water.
    let worked = work_of(HEAVY, "ammonia", &[], &[("tap_ammonia", "1 mg/L N"), ("ph", "6.8")], &[]);
    let share = most(&worked);
    assert!(share > 0.0 && share < 0.12, "{share}");
}

#[test]
fn an_older_ph_that_the_keeper_was_not_sure_of_counts_for_nothing() {
    let ph = |sure| What::Test(Reading { of: "ph".into(), value: 7.1, below: false, error: None, kit: None, sure });
    let of = |sure| {
        let log = [(16.0, read("ammonia_n", 0.5)), (72.0, ph(sure))];
        let worked = work_of(HEAVY, "ammonia", &[], &[], &log);
        words(sum(&worked, "toxic-ammonia"))
    };
    assert!(of(Sure::Plain).contains("pH 7.1 (your log, 3 days ago"));
    assert!(!of(Sure::NotSure).contains("pH 7.1") && of(Sure::NotSure).contains("worked out for aired water"));
}

#[test]
fn nitrite_counts_at_the_least_chloride() {
    // Gills take up more of it the less chloride there is (Nordin and Pommen 2009): of 2 to 60 mg/L over the year the 2 count, with what the
    // salts bring, as if it were 2 all year.
    let of = |chloride: &str| {
        let worked = work("ammonia", &[("tap.chloride", chloride)], &[("nitrite", "0.05 mg/L N")]);
        figure(sum(&worked, "nitrite"), "harm_from_mg_n_per_l")
    };
    assert_eq!(of("2 to 60 mg/L"), of("2 mg/L"));
    assert!(of("2 to 60 mg/L") < of("60 mg/L"));
}

#[test]
fn a_kits_lowest_step_in_the_log_is_no_ammonia_and_no_nitrite_but_of_alkalinity_the_bad_end() {
    let below = |of: &str, value: f64| {
        What::Test(Reading { of: of.into(), value, below: true, error: None, kit: None, sure: Sure::Plain })
    };
    let log = [(2.0, below("ammonia_n", 0.25)), (2.0, below("nitrite_n", 0.25)), (2.0, read("ph", 8.4))];
    let worked = work_of(HEAVY, "ammonia", &[], &[], &log);
    assert!(!worked.sums.iter().any(|sum| ["toxic-ammonia", "nitrite"].contains(&sum.key.as_str())), "{worked:?}");
    let gone = work_of(HEAVY, "alkalinity", &[], &[], &[(2.0, below("alkalinity", 0.2))]);
    assert_eq!(figure(sum(&gone, "alkalinity"), "tank_meq_per_l"), 0.2);
}

#[test]
fn rule_6_too_warm_and_too_cold_are_told_of_a_bare_reading() {
    let answer = answer_of(common::TANK, &[]);
    let (all, told) = (outcomes(&answer), told(&[]));
    let case = all.first().unwrap().case(&told);
    let harms = |celsius: f64| trouble::harms(&case, "temperature", celsius, &now()).map(|harms| harms.trouble);
    // Tanks are kept at 18 to 30 °C, this one at 25.
    let usual = &knowledge::book().bound("tank_temperature").unwrap().is;
    assert_eq!(harms(usual.usual_high + 0.5), Some("heater-on"));
    assert_eq!(harms(usual.usual_low - 0.5), Some("heater-dead"));
    assert_eq!(harms(25.0), None);
}

#[test]
fn rule_10_no_change_larger_than_may_be_at_once_takes_an_overdose_out() {
    // An old tank: its usual half is no way back, a tenth is the most at once (harm rule 8).
    let rich = [
        ("feeding.wish", "plenty"),
        ("light.energy", "high"),
        ("tap.nitrate", "1 mg/L NO3"),
        ("tap.potassium", "0.5 mg/L"),
        ("habits.change", "50 %"),
    ];
    let mut fields = rich.to_vec();
    fields.push(("animals.unchanged_months", "8"));
    let worked = work("overdose", &fields, &[("times", "30")]);
    assert!(most(&worked) <= 0.1 + 1e-9);
    let mut told = 0;
    for found in worked.sums.iter().filter(|sum| sum.key == "overdose" && sum.urgency == Urgency::AtOnce) {
        told += 1;
        assert!(!words(found).contains("of 50 %") && !words(found).contains("of 30 %"), "{}", words(found));
        assert!(
            !words(found).contains("change 100 L") && !words(found).contains("one change of 100 L"),
            "{}",
            words(found)
        );
    }
    assert!(told > 0, "{worked:?}");
}
