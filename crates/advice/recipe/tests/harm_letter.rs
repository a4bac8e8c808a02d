//! Where the sentences of harm stand in the letter: each beside its decision, none twice, a guess never told as a finding.

use crate::common::{exact, sentences, tank, with_chlorine};
use quantity::{Ion, Kind, Known};
use recipe::{Stands, plan};
use setup::{Disinfectant, Feeding, Tank};

#[test]
fn rule_22_stands_before_the_first_weighing_whatever_is_weighed() {
    let before = |tank: &Tank| {
        let plan = plan(tank);
        let notes = plan.cautions.iter().filter(|note| note.stands() == Stands::Weighing);
        notes.map(|note| note.text.clone()).collect::<Vec<_>>().join(" ")
    };
    let mut tank = with_chlorine(Disinfectant::Chlorine, exact(0.5));
    tank.feeding = Feeding::None;
    assert!(plan(&tank).bottles.is_empty(), "the conditioner alone is weighed");
    let said = before(&tank);
    for words in ["dust mask and gloves", "Never in a drinks bottle", "Keep from children", "poison centre"] {
        assert!(said.contains(words), "{words} in {said}");
    }
    tank.tap.disinfectant = Disinfectant::None;
    assert_eq!(before(&tank), "", "nothing is weighed");
}

#[test]
fn no_sentence_is_said_twice_in_a_letter() {
    let mut tank = with_chlorine(Disinfectant::Unknown, Known::exact(0.0, Kind::Assumed));
    tank.animals.shrimps = 4;
    tank.tap.ions.insert(Ion::Copper, Known::ranged(0.002, 0.035, 0.1, Kind::Assumed));
    for start_test_passed in [true, false] {
        tank.animals.start_test_passed = start_test_passed;
        let plan = plan(&tank);
        let mut said: Vec<String> = plan.cautions.iter().chain(&plan.new_water.notes).map(|n| n.text.clone()).collect();
        said.extend(plan.law.iter().chain(&plan.left_out).map(|n| n.text.clone()));
        said.extend(plan.change.limited.clone());
        let c = plan.new_water.conditioner.as_ref().expect("a conditioner");
        said.extend(c.sentences.iter().chain(&c.more).cloned());
        let mut sentences: Vec<&str> = said.iter().flat_map(|text| text.split(". ")).collect();
        sentences.sort_unstable();
        for pair in sentences.windows(2) {
            assert_ne!(pair[0].trim_end_matches('.'), pair[1].trim_end_matches('.'));
        }
        assert_eq!(said.iter().filter(|text| text.contains("0.011")).count(), 1, "where chlorine harms");
    }
}

#[test]
fn rule_4_copper_that_nobody_measured_counts_at_the_bad_end_and_is_no_verdict() {
    let mut tank = tank();
    tank.animals.shrimps = 5;
    tank.tap.ions.insert(Ion::Copper, Known::ranged(0.002, 0.035, 0.1, Kind::Assumed));
    tank.at_hand.products.push("trace_mix".to_owned());
    let plan = plan(&tank);
    assert!(plan.doses.iter().all(|dose| dose.product != "trace_mix"), "0.1 is above 0.008 before any dose");
    assert!(plan.doses.iter().any(|dose| dose.brings.iter().any(|(ion, mg)| *ion == Ion::Iron && *mg > 0.0)));
    let told = plan.cautions.iter().find(|note| note.about == "copper").expect("told");
    for words in
        ["nobody has measured it", "0.1 with the pipes", "Ask your supplier", "above 0.004", "refuse above 0.008"]
    {
        assert!(told.text.contains(words), "{words} in {}", told.text);
    }
    assert!(!told.text.contains("That is above"), "a guess is no finding: {}", told.text);
}

#[test]
fn words_never_safe_never_a_bare_gas() {
    let mut tanks = vec![tank()];
    let mut all_in = with_chlorine(Disinfectant::Unknown, Known::exact(0.0, Kind::Assumed));
    all_in.animals.shrimps = 4;
    all_in.co2_given_mg_per_l = Some(exact(25.0));
    all_in.wish.ph = Some(6.5);
    all_in.unchanged_months = Some(6.0);
    all_in.wish.alkalinity_meq_per_l = Some((4.0, 5.0));
    tanks.push(all_in);
    for tank in &tanks {
        for text in sentences(&plan(tank)) {
            let words: Vec<String> =
                text.to_lowercase().split(|c: char| !c.is_alphabetic()).map(str::to_owned).collect();
            for word in ["safe", "safely", "safety", "gas", "gases", "optimal"] {
                assert!(!words.iter().any(|w| w == word), "\"{word}\" in: {text}");
            }
        }
    }
}
