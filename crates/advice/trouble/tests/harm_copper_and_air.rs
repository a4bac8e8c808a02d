//! Rules of harm in the sums of Help now that need a tank of their own: copper of an overdose (rule 4), carbon dioxide that goes
//! (rule 7), the first sentence for an old tank (rule 8). Each test fails when its rule is taken out.

use crate::common::{answer, close, figure, now, sum, told, words, work};
use quantity::{Ion, Kind, Known};
use recipe::Into;
use trouble::{Case, Sum, Urgency, outcomes, worked};

/// Ten times a dose of which each brings 0.0005 mg/L of copper, over a tap of 0.001.
fn copper(shrimps: &str) -> (f64, Sum) {
    copper_of(&[("animals.shrimps", shrimps), ("tap.copper", "0.001 mg/L")], None)
}

/// The same over another tap, in other litres.
fn copper_of(fields: &[(&str, &str)], litres: Option<Known<f64>>) -> (f64, Sum) {
    let answer = answer(fields);
    let all = outcomes(&answer);
    let mut plan = all[0].plan.clone();
    plan.true_l = litres.unwrap_or(plan.true_l);
    let dose = plan.doses.iter_mut().find(|dose| dose.into == Into::Bottle).unwrap();
    dose.brings.push((Ion::Copper, 0.0005));
    let told = told(&[("times", "10")]);
    let case = Case { tank: all[0].tank, plan: &plan, told: &told, litres_known: true };
    let litres = plan.true_l;
    let worked = worked("overdose", &case, &[], &now());
    let copper = worked.sums.iter().find(|sum| words(sum).to_lowercase().contains("copper"));
    (litres.value / litres.low, copper.cloned().unwrap_or_else(|| sum(&worked, "overdose").clone()))
}

#[test]
fn rule_4_copper_of_an_overdose_is_summed_where_shrimps_live() {
    // 10 × 0.0005 = 0.005 mg/L in the litres of the plan, more in the fewest; 0.004 less the tap's 0.001 and the pipes' is allowed.
    let (fewest, sum) = copper("9");
    let (over, may) = (figure(&sum, "excess_mg_per_l"), figure(&sum, "allowed_mg_per_l"));
    close(over, 0.005 * fewest, 1e-9);
    assert!((0.0..=0.003 + 1e-12).contains(&may), "{may}");
    assert_eq!(sum.urgency, Urgency::AtOnce);
    assert!(words(&sum).contains("Copper rises by") && words(&sum).contains("in a day is too much"), "{}", words(&sum));
    // By hand: halves until what is left is allowed; none where nothing more is.
    let (mut left, mut halves) = (over, 0.0);
    while may > 0.0 && left > may * (1.0 + 1e-9) {
        (left, halves) = (0.5 * left, halves + 1.0);
    }
    assert_eq!(figure(&sum, "changes_of_50_percent"), if may > 0.0 { halves } else { f64::INFINITY });
    // Fish alone bear it: then another of its ions is the worst.
    assert!(!words(&copper("0").1).contains("Copper rises"), "fish alone");
}

#[test]
fn rule_4_copper_of_an_overdose_counts_in_the_fewest_litres_over_the_most_of_the_tap() {
    // 160 to 240 L, likely 200: 10 × 0.0005 × 200 ÷ 160 = 0.00625 mg/L, not 0.005. Nothing evaporates.
    let litres = Known::ranged(160.0, 200.0, 240.0, Kind::WorkedOut);
    let of = |tap: &str| {
        let fields =
            [("animals.shrimps", "9"), ("tap.copper", tap), ("pipes.copper", "0 mg/L"), ("habits.top_up", "0 L a day")];
        let (_, sum) = copper_of(&fields, Some(litres));
        close(figure(&sum, "excess_mg_per_l"), 0.00625, 1e-12);
        figure(&sum, "allowed_mg_per_l")
    };
    // A tap of 0.001 to 0.003, likely 0.002: 0.004 - 0.003 = 0.001 are left, as at one of 0.003; not 0.002.
    close(of("0.001 to 0.003 mg/L"), 0.001, 1e-9);
    close(of("0.003 mg/L"), 0.001, 1e-9);
    close(of("0.002 mg/L"), 0.002, 1e-9);
}

#[test]
fn rule_7_ammonia_that_the_carbon_dioxide_holds_down_is_told_for_when_it_goes() {
    // 1 mg/L of ammonia-N at pH 6.8 and 25 °C: 0.36 % toxic (Emerson et al. 1975), 0.0036 mg/L. Aired, 2.8 meq/L stand above pH 8: 5.4 % or
    // more, over 0.05.
    let readings = [("ammonia", "1 mg/L N"), ("ph", "6.8"), ("temperature", "25 °C")];
    for trouble in ["ammonia", "carbon-dioxide"] {
        let worked = work(trouble, &[], &readings);
        let toxic = sum(&worked, "toxic-ammonia");
        assert_eq!(toxic.urgency, Urgency::LeaveItBe, "{toxic:?}");
        assert!(figure(toxic, "aired_mg_n_per_l") > 0.05, "{trouble}: {toxic:?}");
        let said = words(toxic);
        for part in ["carbon dioxide stays as it is, unless they breathe fast", "over 0.016", "test again at once"] {
            assert!(said.contains(part), "{trouble}: {part}: {said}");
        }
        assert!(said.contains("Let nothing raise pH meanwhile"), "{said}");
    }
    // A tenth of it stays under 0.016 aired: 0.1 × at most 14 %.
    let little = work("ammonia", &[], &[("ammonia", "0.1 mg/L N"), ("ph", "6.8"), ("temperature", "25 °C")]);
    assert!(!sum(&little, "toxic-ammonia").figures.contains_key("aired_mg_n_per_l"));
}

#[test]
fn rule_8_the_first_sentence_of_an_old_tank_names_its_months() {
    let head = |fields: &[(&str, &str)]| sum(&work("alkalinity", fields, &[]), "alkalinity").head.clone();
    let old = head(&[("animals.unchanged_months", "14")]);
    assert!(old.starts_with("Not changed for 14 months: ") && old.contains("can’t tell"), "{old}");
    assert!(head(&[]).starts_with("Without a reading I can’t tell"), "{}", head(&[]));
}
