//! A nitrate without a basis: nothing is computed before it is answered, each reply shows its own outcome.

use quantity::Ion;
use recipe::{Answer, answer};
use setup::Setup;

const QUESTION: &str = include_str!("../../../../examples/household/tank-question.toml");

#[test]
fn both_outcomes_and_no_headline() {
    let setup = Setup::read("tank-question.toml", QUESTION).expect("reads");
    let Answer::Open { question, outcomes } = answer(&setup).expect("an answer") else {
        panic!("a plan on an open basis")
    };
    assert_eq!(question.field, "tap.nitrate");
    let keys: Vec<&str> = question.replies.iter().map(|r| r.key.as_str()).collect();
    assert_eq!(outcomes.iter().map(|o| o.reply.as_str()).collect::<Vec<_>>(), keys);
    assert!(keys.len() >= 2);
    // 14 mg/L as N are 14 × 62.004 ÷ 14.007 = 61.97 mg/L of NO3.
    let tap: Vec<f64> = outcomes
        .iter()
        .map(|o| match &*o.answer {
            Answer::Settled { tank, .. } => tank.tap.mg_per_l(Ion::Nitrate).value,
            Answer::Open { .. } => panic!("one question only"),
        })
        .collect();
    assert!((tap[0] - 14.0).abs() < 1e-9 && (tap[1] - 61.97).abs() < 0.01, "{tap:?}");
    let json = serde_json::to_value(answer(&setup).expect("an answer")).expect("json");
    assert_eq!(json["state"], "open");
    assert!(json.get("plan").is_none(), "no headline on either");
}

#[test]
fn a_reply_gives_what_the_settled_file_gives() {
    let open = answer(&Setup::read("tank-question.toml", QUESTION).expect("reads")).expect("an answer");
    // What the keeper would have written by hand.
    let written = QUESTION.replace("\"14 mg/L\"", "\"14 mg/L NO3\"");
    assert_ne!(written, QUESTION);
    let settled = answer(&Setup::read("tank.toml", &written).expect("reads")).expect("an answer");
    let (Answer::Open { outcomes, .. }, Answer::Settled { plan, .. }) = (open, settled) else {
        panic!("one open, one settled")
    };
    let Answer::Settled { plan: replied, .. } = &*outcomes[0].answer else { panic!("settled") };
    assert_eq!(replied.doses, plan.doses);
    assert_eq!(replied.bottles, plan.bottles);
}

#[test]
fn without_the_sizes_of_the_glass_nothing_is_weighed() {
    let Answer::Open { question, outcomes } = answer(&Setup::read("tank.toml", "").expect("reads")).expect("an answer")
    else {
        panic!("a plan for a glass that nobody told")
    };
    assert!(question.field.starts_with("glass.") && question.replies.is_empty(), "{question:?}");
    let [outcome] = outcomes.as_slice() else { panic!("{} outcomes", outcomes.len()) };
    let Answer::Settled { plan, .. } = &*outcome.answer else { panic!("nothing else is open") };
    assert!(plan.bottles.is_empty() && plan.doses.is_empty() && plan.new_water.salts.is_empty());
    assert!(plan.new_water.conditioner.as_ref().is_none_or(|c| c.stock_g == 0.0 && c.refused.is_some()));
    let json = serde_json::to_string(&plan.cautions).expect("JSON");
    assert!(!json.contains(" L "), "no litres of a guess: {json}");
}

#[test]
fn an_answer_says_how_far_it_is_and_stops_when_it_is_told_to() {
    let setup = Setup::read("tank-question.toml", QUESTION).expect("reads");
    let mut seen = Vec::new();
    let whole = recipe::answer_while(&setup, &mut |progress| {
        seen.push((progress.done, progress.of));
        true
    });
    assert_eq!(whole, Some(answer(&setup)));
    assert_eq!(seen, [(0, 2), (1, 2)], "a plan for each of the two replies");
    let mut asked = 0;
    let stopped = recipe::answer_while(&setup, &mut |progress| {
        asked += 1;
        progress.done == 0
    });
    assert_eq!((stopped, asked), (None, 2), "not asked again once it said no");
}
