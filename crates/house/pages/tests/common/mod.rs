//! A real setup with a plan made by hand, so that the pages are tested alone: the plan's figures are plausible and judge
//! nothing.

mod door;

pub use door::*;
use quantity::{Faults, Ion, Kind, Known, Why};
use recipe::{
    Answer, Bottle, Change, Conditioner, Dose, Into, Level, NewWater, Note, Outcome, Plan, Proof, Purchase, Refused,
    Salt, Unmet, Weighed,
};
use setup::{Setup, Tank};

fn known(low: f64, value: f64, high: f64) -> Known<f64> {
    Known::ranged(low, value, high, Kind::WorkedOut)
}

fn why(key: &str, question: &str, sum: &str, words: &str, sources: &[&str], kind: Kind) -> Why {
    Why {
        key: key.into(),
        question: question.into(),
        sum: sum.into(),
        words: words.into(),
        sources: sources.iter().map(|s| (*s).to_owned()).collect(),
        kind,
    }
}

/// Points of the line, and of the wash.
type Saw = (Vec<(f64, f64)>, Vec<(f64, f64, f64)>);

/// A saw of two weeks from `after` to `before`, with a wash of half to one and a half.
fn saw(after: f64, before: f64) -> Saw {
    let mut tide = vec![(0.0, before)];
    for week in 0..2 {
        let start = f64::from(week) * 7.0;
        tide.extend([(start, after), (start + 7.0, before)]);
    }
    let likely = tide.iter().map(|(d, v)| (*d, 0.55 * v, 1.45 * v)).collect();
    (tide, likely)
}

fn level_of(
    ion: Option<Ion>,
    tap: f64,
    dose: f64,
    uptake: f64,
    after: f64,
    before: f64,
    band: Option<(f64, f64)>,
) -> Level {
    let (tide, likely) = saw(after, before);
    Level {
        ion,
        new_water: known(0.8 * tap, tap, 1.2 * tap),
        dose_per_day: dose,
        uptake_per_day: known(0.6 * uptake, uptake, 1.6 * uptake),
        top_up_per_day: known(0.0, 0.0, 0.0),
        unchanged_days: None,
        after_change: known(0.55 * after, after, 1.45 * after),
        before_change: known(0.55 * before, before, 1.45 * before),
        lowest: after.min(before),
        highest: after.max(before),
        band,
        runs_out_day: None,
        runs_out_day_poorest: (ion == Some(Ion::Iron)).then_some(4.0),
        tide,
        likely,
        why: format!("level-{}", ion.map_or("alkalinity", Ion::name)),
    }
}

fn bottle(tank: &Tank, name: &str, weighed: Vec<Weighed>, time: &str, slip: &str) -> Bottle {
    Bottle {
        name: name.into(),
        volume_ml: tank.at_hand.bottle_ml.value,
        daily_ml: tank.at_hand.daily_ml.value,
        lasts_days: tank.at_hand.bottle_ml.value / tank.at_hand.daily_ml.value,
        weighed,
        from_stock: Vec::new(),
        time_of_day: time.into(),
        handling: vec![
            "Pour it out after 60 days, whatever is left, and at once if it is cloudy or shows threads.".into(),
        ],
        hazards: vec!["Hurts eyes: goggles (iron chelate, H319).".into()],
        slip: slip.into(),
        ask_above_ml: 10.0,
        refuse_above_ml: 40.0,
    }
}

fn weighed(product: &str, name: &str, grams: f64) -> Weighed {
    Weighed {
        product: product.into(),
        name: name.into(),
        grams,
        error_share: 0.06,
        soluble_g_per_l: 80.0,
        why: format!("bottle-{product}"),
    }
}

fn change(tank: &Tank) -> Change {
    let share = tank.habits.change_share.value;
    let litres = share * tank.geometry.true_l.value;
    let buckets = (litres / 9.0).ceil();
    Change {
        share,
        every_days: tank.habits.every_days,
        litres,
        buckets: (buckets as u32, litres / buckets),
        limited: None,
        share_most: 1.0,
        most_because: None,
    }
}

fn conditioner() -> Conditioner {
    Conditioner {
        chlorine_mg_per_l: 1.0,
        stock_g: 3.0,
        stock_ml: 150.0,
        ml_a_bucket: 3.0,
        ml_whole_tank: 31.0,
        keeps_days: 90.0,
        covers_mg_per_l: 1.0,
        ammonia_n_mg_per_l: 0.33,
        nh3_n_in_tank_mg_per_l: 0.004,
        sentences: vec![
            "At once, every change: 3 mL of the conditioner into each bucket of 8.5 L. It covers 1 mg/L of total chlorine; gills are hurt from about 0.02 mg/L on within hours and from 0.011 over weeks. Stir, wait 5 minutes, then pour.".into(),
            "Standing overnight drives off part of the chlorine and none of the chloramine.".into(),
        ],
        more: vec!["By hose instead: 31 mL of the conditioner for the whole tank of 85.4 L, before the water.".into()],
        refused: None,
        why: "conditioner".into(),
    }
}

fn whys() -> Vec<Why> {
    let mut all = vec![
        why(
            "change",
            "why 25.6 L?",
            "30 % × 85.4 L = 25.6 L; ÷ 3 buckets = 8.5 L",
            "The share is common practice; the litres are those that are really in the tank.",
            &[],
            Kind::CommonPractice,
        ),
        why(
            "bottle-potassium_sulfate",
            "why 7.6 g?",
            "0.4 mg/L K a day × 85.4 L ÷ 448.8 mg in a gram × 100 doses = 7.61 g",
            "The bottle holds 100 doses.",
            &["iupac_2022"],
            Kind::WorkedOut,
        ),
        why(
            "bottle-iron_dtpa",
            "why 1.6 g?",
            "0.02 mg/L Fe a day × 85.4 L ÷ 110 mg in a gram × 100 doses = 1.55 g",
            "A little every day.",
            &["iupac_2022"],
            Kind::CommonPractice,
        ),
        why(
            "conditioner",
            "why 3 mL?",
            "1 mg/L × 7 mg/mg × 8.5 L ÷ 20 mg/mL = 2.98 mL, drawn up as 3 mL",
            "Two molecules of thiosulfate for one of chlorine.",
            &[],
            Kind::Assumed,
        ),
        why(
            "copper",
            "why 0.002 mg/L?",
            "0.001 tap + 0.001 pipes = 0.002",
            "The chelate lists none.",
            &[],
            Kind::Assumed,
        ),
    ];
    for (name, sum) in [
        ("nitrate", "9 mg/L + 7 days × (0 - 0.3) mg/L a day ÷ 0.3 = 2 mg/L"),
        ("potassium", "1.6 mg/L + 7 days × (0.4 - 0.2) mg/L a day ÷ 0.3 = 6.3 mg/L"),
        ("phosphate", "1.1 mg/L + 7 days × (0 - 0.03) mg/L a day ÷ 0.3 = 0.4 mg/L"),
        ("iron", "0 mg/L + 7 days × (0.02 - 0.015) mg/L a day ÷ 0.3 = 0.11 mg/L"),
        ("alkalinity", "1.7 meq/L + 7 days × (0 - 0.005) meq/L a day ÷ 0.3 = 1.58 meq/L"),
    ] {
        all.push(why(
            &format!("level-{name}"),
            &format!("why this much {name} before a change?"),
            sum,
            "What the new water brings, plus what each cycle adds or takes, divided by the share that a change renews.",
            &[],
            Kind::Assumed,
        ));
    }
    all
}

/// The plan for a tank: two bottles, nitrate and phosphate left out.
pub fn plan(tank: &Tank) -> Plan {
    let note = |about: &str, text: &str, key: Option<&str>| Note {
        about: about.into(),
        text: text.into(),
        key: key.map(str::to_owned),
    };
    let buy = |product: &str, name: &str, pence: f64, lasts: Option<f64>, a_month: f64| Purchase {
        product: product.into(),
        name: name.into(),
        price_minor: Known::exact(pence, Kind::Assumed),
        lasts_days: lasts,
        a_month_minor: a_month,
        owned: product == "potassium_sulfate",
    };
    Plan {
        begin: None,
        true_l: tank.geometry.true_l,
        change: change(tank),
        low_share: 0.0,
        levels: vec![
            level_of(Some(Ion::Nitrate), 9.0, 0.0, 0.3, 4.1, 2.0, Some((2.0, 10.0))),
            level_of(Some(Ion::Potassium), 1.6, 0.4, 0.2, 4.9, 6.3, Some((3.0, 15.0))),
            level_of(Some(Ion::Phosphate), 1.1, 0.0, 0.03, 0.6, 0.4, Some((0.1, 1.0))),
            level_of(Some(Ion::Iron), 0.0, 0.02, 0.015, 0.08, 0.11, Some((0.02, 0.2))),
        ],
        alkalinity: level_of(None, 1.7, 0.0, 0.005, 1.62, 1.58, None),
        aired: None,
        under_co2: None,
        doses: vec![Dose {
            product: "potassium_sulfate".into(),
            name: "potassium sulfate".into(),
            into: Into::Bottle,
            amount: 0.076,
            owned: true,
            brings: vec![(Ion::Potassium, 0.4)],
        }],
        bottles: vec![
            bottle(
                tank,
                "Bottle one",
                vec![weighed("potassium_sulfate", "potassium sulfate", 7.6)],
                "every morning",
                "Should the hand slip and give ten times as much once, potassium rises by 4 mg/L (no harm known to me below 10 mg/L in a day). Leave bottle one away for ten days. Above 15 mL a day I ask: really? Above 125 mL I refuse.",
            ),
            bottle(
                tank,
                "Bottle two",
                vec![weighed("iron_dtpa", "iron chelate (DTPA)", 1.6)],
                "every evening",
                "Should the hand slip and give ten times as much once, iron rises by 0.2 mg/L (no harm known to me below 0.2 mg/L in a day). Leave bottle two away for ten days. Above 15 mL a day I ask: really? Above 50 mL I refuse.",
            ),
        ],
        new_water: NewWater {
            ph_test: None,
            salts: Vec::new(),
            conditioner: Some(conditioner()),
            notes: vec![note("new water", "Let the cold tap run until it is as cold as it gets.", Some("cold_tap"))],
        },
        left_out: vec![
            note(
                "nitrate",
                "The tap brings more than the plants take: 2 mg/L are left before a change.",
                Some("level-nitrate"),
            ),
            note("phosphate", "The tap brings it, to keep its pipes from rusting.", Some("level-phosphate")),
            note("trace_mix", "You keep shrimps, so no trace mix with copper: iron chelate alone.", None),
        ],
        unmet: Vec::new(),
        refused: Vec::new(),
        cautions: vec![
            note("powders", "Weigh powders without a draught, with a dust mask and gloves.", Some("powders")),
            note("litres", "I count the litres that are really in the tank.", Some("true_litres")),
            note("medicine", "No medicine: that is not my business.", Some("no_medicine")),
            note("plugs", "Plugs of everything in or over the water out, before your hands go in.", Some("plugs_out")),
            note(
                "copper",
                "Tap, pipes and bottles together bring 0.002 mg/L of copper. I ask above 0.004 and refuse above 0.008.",
                Some("copper"),
            ),
            note(
                "iron_dtpa",
                "At a pH near 8 it lets go of its iron within days to weeks: so a little every day.",
                None,
            ),
        ],
        law: vec![note("potassium_sulfate", "Sold freely.", None)],
        shopping: vec![
            buy("potassium_sulfate", "potassium sulfate, 500 g", 600.0, Some(3900.0), 4.6),
            buy("iron_dtpa", "iron chelate (DTPA), 100 g", 700.0, Some(3700.0), 5.7),
            buy("scale", "scale to 0.1 g", 900.0, None, 0.0),
        ],
        whys: whys(),
        proof: Proof { stages: vec![("no harm".into(), true), ("cost: cheapest found".into(), false)], nodes: 7 },
    }
}

/// A plan that shows what seldom shows: a salt in the new water, a band unmet, a wish refused.
fn hard(mut plan: Plan) -> Plan {
    plan.new_water.salts = vec![Salt {
        product: "magnesium_sulfate".into(),
        name: "magnesium sulfate".into(),
        grams_a_change: 3.9,
        grams_a_bucket: 1.3,
        from_stock: None,
        how: "Stir 1.3 g into each bucket of 8.5 L until it is dissolved, then pour.".into(),
        why: "change".into(),
    }];
    plan.unmet = vec![Unmet {
        ion: Some(Ion::Nitrate),
        band: (2.0, 10.0),
        reached: (1.0, 3.0),
        text: "Nitrate stays between 1 and 3 mg/L, below the 2 you wished. A smaller change would mend it".into(),
    }];
    plan.refused = vec![Refused {
        wish: "pH 6.5 from this tap".into(),
        why: "It would free 60 mg/L of carbon dioxide; animals are in danger from 30".into(),
        ways: vec!["Blend with rain".into(), "Leave it, and choose what lives well in it".into()],
    }];
    plan
}

/// What follows from a setup, with the plan made by hand. Nitrate read as N gives a richer tank.
pub fn answer(setup: &Setup) -> Result<Answer, Faults> {
    let tank = setup.tank()?;
    let Some(question) = tank.questions.first().cloned() else {
        let mut plan = plan(&tank);
        if tank.wish.ph.is_some() {
            plan = hard(plan);
        }
        if tank.tap.mg_per_l(Ion::Nitrate).value > 50.0 {
            plan.levels[0] = level_of(Some(Ion::Nitrate), 62.0, 0.0, 0.3, 58.0, 55.0, Some((2.0, 10.0)));
            plan.left_out[0].text = "The tap brings far more than shrimps bear for long.".into();
        }
        return Ok(Answer::Settled { tank: Box::new(tank), plan: Box::new(plan) });
    };
    let outcome = |reply: &setup::Reply| {
        let answer = answer(&setup.with(&question.field, &reply.text)?)?;
        Ok(Outcome { reply: reply.key.clone(), answer: Box::new(answer) })
    };
    let outcomes = question.replies.iter().map(outcome).collect::<Result<Vec<_>, Faults>>()?;
    Ok(Answer::Open { question, outcomes })
}

/// The invented household.
pub const HOUSEHOLD: &str = include_str!("../../../../../examples/household/tank.toml");
/// The same with a nitrate whose basis nobody told.
pub const QUESTION: &str = include_str!("../../../../../examples/household/tank-question.toml");
