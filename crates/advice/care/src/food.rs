//! The weighed pinch of food, and what it brings.
//!
//! **What.** Nitrogen and phosphorus in a day's food, and what comes of them in the water.
//!
//! **Equation.** N = 1000 F p/6.25, P = 1000 F q.
//!
//! **Symbols.** F food, g a day; p protein, q phosphorus, shares; N, P in mg a day; 6.25 mass of protein for a mass of nitrogen.
//!
//! **Range.** Food as it comes from the packet.
//!
//! **Source.** `data/uptake.toml`.
//!
//! **Checked by** `tests/by_hand_day.rs`.

use quantity::{Ion, Why};
use recipe::say::Pen;
use setup::Tank;

use crate::day::{Act, Ask};
use crate::log::Past;

/// What a day's food brings.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Food {
    /// g a day.
    pub grams: f64,
    /// mg of nitrogen in it.
    pub nitrogen_mg: f64,
    /// mg of phosphorus in it.
    pub phosphorus_mg: f64,
}

/// The food of a tank; `None`: nobody is fed.
pub(crate) fn food(tank: &Tank) -> Option<Food> {
    let keeping = &tank.keeping;
    let grams = keeping.food_g_per_day.value;
    let per_nitrogen = knowledge::book().uptake.food.protein_per_nitrogen.value;
    (grams > 0.0 && tank.animals.any()).then(|| Food {
        grams,
        nitrogen_mg: 1000.0 * grams * keeping.food_protein.value / per_nitrogen,
        phosphorus_mg: 1000.0 * grams * keeping.food_phosphorus.value,
    })
}

/// Feeding, with the head count.
pub(crate) fn act(tank: &Tank, food: &Food, past: &Past, pen: &Pen) -> Act {
    let number = &knowledge::book().routine.number;
    let is_food = |what: &logbook::What| matches!(what, logbook::What::Food { .. });
    let mut act = Act::new("feed", "Feed");
    let logged = |what: &logbook::What| if let logbook::What::Food { grams } = what { Some(*grams) } else { None };
    act.amount = grams(pen, past.amount_today(logged).unwrap_or(food.grams));
    act.says = vec![
        format!(
            "As much as is gone in {} minutes; what is left over feeds algae. Weigh ten pinches once: one is a tenth of that.",
            pen.n(number.eat_minutes.value, 2)
        ),
        heads(tank),
        brings(tank, food, pen),
    ];
    act.says.retain(|say| !say.is_empty());
    act.done = past.today_done(is_food);
    act.writes = vec![logbook::What::Food { grams: food.grams }];
    let most = Some(number.food_most_g.value);
    act.asks = Some(Ask { says: "Food, grams".to_owned(), unit: "g".to_owned(), value: Some(food.grams), most });
    act
}

/// No feeding, while a reading says so.
pub(crate) fn fasting(act: Act) -> Act {
    if act.done.is_some() {
        return act;
    }
    let says = "By your readings: no food until a test is low again. What they don’t eat and what they give off turns into more of it.";
    Act { amount: "none".to_owned(), says: vec![says.to_owned()], writes: Vec::new(), asks: None, ..act }
}

/// Grams as a kitchen scale shows them.
pub(crate) fn grams(pen: &Pen, grams: f64) -> String {
    format!("{} g", pen.n(grams, 2))
}

/// The head count; fish are counted, the rest hides.
fn heads(tank: &Tank) -> String {
    let told = !tank.assumed.iter().any(|assumed| assumed.field == "animals.fish");
    match tank.animals.fish {
        0 => String::new(),
        1 if told => "While they eat: does your fish come?".to_owned(),
        n if told => format!("While they eat, count: do all {n} fish come?"),
        _ => "While they eat, count your fish: who stays away is ill or dead.".to_owned(),
    }
}

fn brings(tank: &Tank, food: &Food, pen: &Pen) -> String {
    let of = |ion: Ion| tank.growth.food_mg_per_l_day.get(&ion).map_or(0.0, |known| known.value);
    let weight = match (food.nitrogen_mg, food.phosphorus_mg) {
        (n, p) if n > 0.0 && p > 0.0 => format!("{} mg of nitrogen and {} mg of phosphorus", pen.n(n, 2), pen.n(p, 2)),
        (n, _) => format!("{} mg of nitrogen", pen.n(n, 2)),
    };
    format!(
        "It brings {weight}: of the nitrogen {} come back, by and by {} and {} a day.",
        pen.percent(knowledge::book().uptake.food.nitrogen_returned.value),
        pen.ion(Ion::Nitrate, of(Ion::Nitrate)),
        pen.ion(Ion::Phosphate, of(Ion::Phosphate))
    )
}

/// Why so much nitrogen and phosphorus.
pub(crate) fn why(tank: &Tank, food: &Food, pen: &Pen) -> Why {
    let (keeping, book) = (&tank.keeping, &knowledge::book().uptake.food);
    Why {
        key: "food".to_owned(),
        question: format!("why {} mg of nitrogen?", pen.n(food.nitrogen_mg, 2)),
        sum: format!(
            "{} g × {} protein ÷ {} = {} mg N; {} g × {} = {} mg P",
            pen.n(food.grams, 2),
            pen.percent(keeping.food_protein.value),
            pen.n(book.protein_per_nitrogen.value, 3),
            pen.n(food.nitrogen_mg, 3),
            pen.n(food.grams, 2),
            pen.percent(keeping.food_phosphorus.value),
            pen.n(food.phosphorus_mg, 3)
        ),
        words: format!(
            "Of the nitrogen {} come back into the water by and by, {} to {}; the rest goes with what is taken out. The packet says protein and, \
             if you are lucky, phosphorus.",
            pen.percent(book.nitrogen_returned.value),
            pen.percent(book.nitrogen_returned.low()),
            pen.percent(book.nitrogen_returned.high())
        ),
        sources: Vec::new(),
        kind: keeping.food_g_per_day.kind.weaker(keeping.food_protein.kind),
    }
}
