//! Changes that dilute: by hand.

use crate::common;

use crate::common::{answer, close, figure, sum, told, words, work};
use quantity::Ion;
use recipe::Into;
use trouble::{changes_needed, outcomes, share_left, worked};

#[test]
fn numbers_of_changes() {
    // r = 10/90 = 0.111: ln 0.111 = -2.197; by halves (-0.693) 3.17 -> 4; by 30 % (-0.357) 6.16 -> 7; by 10 % (-0.1054) 20.9 -> 21.
    assert_eq!(changes_needed(90.0, 10.0, 0.5), Some(4));
    assert_eq!(changes_needed(90.0, 10.0, 0.3), Some(7));
    assert_eq!(changes_needed(90.0, 10.0, 0.1), Some(21));
    // A quarter is exactly two halves.
    assert_eq!(changes_needed(4.0, 1.0, 0.5), Some(2));
    assert_eq!(changes_needed(1.0, 1.0, 0.5), Some(0));
    assert_eq!(changes_needed(2.0, 1.0, 1.0), Some(1));
    assert_eq!(changes_needed(2.0, 0.0, 0.5), None);
    assert_eq!(changes_needed(2.0, 1.0, 0.0), None);
    close(share_left(0.3, 7), 0.0823543, 1e-9);
}

#[test]
fn one_fewer_is_not_enough() {
    for share in [0.05, 0.1, 0.25, 0.3, 0.5, 0.75] {
        for present in [1.01, 2.0, 9.0, 90.0] {
            let n = changes_needed(present, 1.0, share).expect("a number");
            assert!(present * share_left(share, n) <= 1.0 + 1e-6, "{share} {present} {n}");
            assert!(n == 0 || present * share_left(share, n - 1) > 1.0, "{share} {present} {n}");
        }
    }
}

/// A soft tap and rich feeding: ten doses at once are an overdose.
const RICH: [(&str, &str); 6] = [
    ("feeding.wish", "plenty"),
    ("light.energy", "high"),
    ("tap.nitrate", "1 mg/L NO3"),
    ("tap.phosphate", "0.05 mg/L PO4"),
    ("tap.potassium", "0.5 mg/L"),
    ("habits.change", "50 %"),
];

#[test]
fn ten_times_the_dose() {
    let answer = answer(&RICH);
    let told = told(&[("times", "10")]);
    let all = outcomes(&answer);
    let outcome = all.first().expect("an outcome");
    let case = outcome.case(&told);
    let worked = worked("overdose", &case, &[], &common::now());
    let mut seen = 0;
    for sum in worked.sums.iter().filter(|sum| sum.key == "overdose" && sum.figures.contains_key("excess_mg_per_l")) {
        seen += 1;
        let (excess, allowed) = (figure(sum, "excess_mg_per_l"), figure(sum, "allowed_mg_per_l"));
        // By hand: n doublings of 1/(1 - x) until the excess is below what a day allows.
        let by_hand = |x: f64| {
            let (mut left, mut n) = (excess, 0.0);
            while left > allowed * (1.0 + 1e-9) {
                left *= 1.0 - x;
                n += 1.0;
            }
            n
        };
        assert_eq!(figure(sum, "changes_of_50_percent"), by_hand(0.5));
        assert_eq!(figure(sum, "changes_of_30_percent"), by_hand(0.3));
        // By hand: ten days' doses of one of its ions, dissolved in the fewest litres that the glass may hold.
        let litres = outcome.plan.true_l;
        let doses = || outcome.plan.doses.iter().filter(|dose| dose.into == Into::Bottle);
        let ten = |mg: f64| 10.0 * mg * litres.value / litres.low;
        let mut lifts: Vec<f64> = doses().flat_map(|dose| dose.brings.iter().map(|(_, mg)| ten(*mg))).collect();
        let potassium = doses().flat_map(|dose| &dose.brings).filter(|(ion, _)| *ion == Ion::Potassium);
        lifts.push(ten(potassium.map(|(_, mg)| mg).sum()));
        assert!(lifts.iter().any(|mg| (mg - excess).abs() < 1e-9), "{excess}");
        // What ten times the dose lifts is said with the same figure by the bottle's own sentence, where that names it.
        assert!(words(sum).contains("Leave the next 9 doses out"), "{}", words(sum));
    }
    assert!(seen > 0, "{worked:#?}");
}

#[test]
fn a_tap_full_of_nitrate_takes_none_out() {
    let worked =
        work("nitrate", &[("tap.nitrate", "40 mg/L NO3"), ("animals.shrimps", "10")], &[("nitrate", "60 mg/L NO3")]);
    let words = words(sum(&worked, "nitrate"));
    assert!(words.contains("can’t bring the tank below that"), "{words}");
    for more in ["change more", "usual change", "changes bring", "larger change"] {
        assert!(!words.to_lowercase().contains(more), "{more}: {words}");
    }
    // For 13 mg/L out of a tap of 40: 1 - 13/40 = 67.5 % of low-mineral water.
    close(figure(sum(&worked, "nitrate"), "low_mineral_share"), 0.675, 1e-9);
}

#[test]
fn a_lean_tap_takes_it_out() {
    // 80 in the tank, 10 in the tap, goal 50, 40 % a change: (50 - 10)/(80 - 10) = 0.571; ln 0.571/ln 0.6 = 1.096 -> 2.
    let fields = [("tap.nitrate", "10 mg/L NO3"), ("tap.ammonium", "0 mg/L NH4"), ("habits.change", "40 %")];
    let worked = work("nitrate", &fields, &[("nitrate", "80 mg/L NO3")]);
    let sum = sum(&worked, "nitrate");
    close(figure(sum, "changes"), 2.0, 0.0);
    close(figure(sum, "after_one_mg_per_l"), 80.0 - 0.4 * 70.0, 0.5);
}

#[test]
fn alkalinity_comes_back_by_the_days_step() {
    // Tank 0.2, tap 2.8 meq/L: 0.36/2.6 = 13.8 % a day.
    let worked = work("alkalinity", &[], &[("alkalinity", "0.2 meq/L")]);
    close(figure(sum(&worked, "alkalinity"), "share_a_day"), 0.36 / 2.6, 1e-3);
}

#[test]
fn carbon_dioxide_of_a_reading_has_its_upper_end() {
    // Ideal: 2.8 meq/L at pH 6.6 and 25 °C: 2.8 x 10^(6.352 - 6.6) x 44.01 = 69.6 mg/L, less some 8 % for activities; the upper end is
    // 10^0.1 x 1.1 = 1.385 times that.
    let worked = work("carbon-dioxide", &[], &[("ph", "6.6"), ("alkalinity", "2.8 meq/L"), ("temperature", "25 °C")]);
    let sum = sum(&worked, "carbon-dioxide");
    close(figure(sum, "likely_mg_per_l"), 69.6 * 0.92, 2.0);
    close(figure(sum, "high_mg_per_l") / figure(sum, "likely_mg_per_l"), 1.385, 0.01);
}

#[test]
fn a_cylinder_and_its_room() {
    // 500 g / 18 g/m³ = 27.8 m³.
    let fields = [("care.cylinder_full", "1900 g"), ("care.cylinder_holds", "500 g")];
    close(figure(sum(&work("cylinder", &fields, &[]), "cylinder-room"), "room_m3"), 27.78, 0.01);
}

#[test]
fn a_rich_tap_is_no_way_down_for_fish_either() {
    // 40 of the 50 mg/L that grown fish bear (common practice) come with each change.
    for (tap, tank) in [("40 mg/L NO3", "60 mg/L NO3"), ("45 mg/L NO3", "60 mg/L NO3"), ("40 mg/L NO3", "100 mg/L NO3")]
    {
        let worked = work("nitrate", &[("tap.nitrate", tap), ("animals.fish", "12")], &[("nitrate", tank)]);
        let words = words(sum(&worked, "nitrate"));
        assert!(words.contains("can’t bring the tank below that"), "{words}");
        for more in ["change more", "usual change", "changes bring", "larger change"] {
            assert!(!words.to_lowercase().contains(more), "{more}: {words}");
        }
    }
}

#[test]
fn rule_6_an_overdose_over_the_limit_of_a_day_is_at_once_and_none_below_it() {
    let mut seen = [0, 0];
    for times in ["2", "10", "1000"] {
        for sum in work("overdose", &[], &[("times", times)]).sums.iter().filter(|sum| sum.key == "overdose") {
            let over = figure(sum, "excess_mg_per_l") > figure(sum, "allowed_mg_per_l");
            assert_eq!(sum.urgency == trouble::Urgency::AtOnce, over, "{sum:?}");
            assert_eq!(sum.head.contains("below harm"), !over, "{}", sum.head);
            seen[usize::from(over)] += 1;
        }
    }
    assert!(seen[0] > 0 && seen[1] > 0, "{seen:?}");
}

#[test]
fn carbon_dioxide_that_is_given_has_its_upper_end_without_a_reading() {
    // 20 mg/L x 10^0.1 x 1.1 = 20 x 1.2589 x 1.1 = 27.7.
    let worked = work("carbon-dioxide", &[("tank.co2", "20 mg/L")], &[]);
    let sum = sum(&worked, "carbon-dioxide");
    close(figure(sum, "high_mg_per_l"), 27.7, 0.05);
    assert!(sum.head.contains("20 mg/L") && words(sum).contains("Above 30 mg/L"), "{}", words(sum));
}
