//! The order of worth: which stage comes before which, and what each makes small.
//!
//! What: 1 no harm, 2 inside the bands over the tap's range, then as little low-mineral water and as little alkalinity as
//! these need: no dose is made larger for it, nor a salt taken that raises pH for nothing (`settle`);
//! then, with a yes-or-no for every product: 3 what is owned, 4 fewest products, and in fewest places, 5 what can be
//! weighed, 6 inside the bands over the likely uptake too, 7 cost, on a tie the order of the table (`pick`).
//! Each is held while the next is made small (`programme/stages.rs`). Stages 1 to 6 are proved unless the node limit is
//! met, which the answer then says; cost may stop early and is then the cheapest found.

use knowledge::book;

use super::line::Line;
use super::model::Model;
use super::part::Part;
use super::wishes::{Wish, edges};
use crate::programme::{Settled, Stage, Stages, Unsolved, lexicographic};

/// Nodes for a stage that is to be proved: three times what the hardest of a thousand random tanks took (1302; on average 20).
const NODES: u64 = 4000;
/// Nodes for cost.
const NODES_FOR_COST: u64 = 400;
/// Money for a place in the table: less than any price tells apart.
const TIE: f64 = 1e-5;
/// Days of a year, for running costs.
const DAYS: f64 = 365.0;

/// A use of a product in one place.
pub(super) struct Use {
    pub candidate: usize,
    /// Its amount column.
    pub amount: usize,
    /// 1 where it is used.
    pub used: usize,
    /// Into the new water, not a bottle.
    pub new_water: bool,
}

/// Stages 1 and 2, linear. Leaves the model's problem with what they reached held.
pub(super) fn settle(model: &mut Model, harm: Vec<(usize, f64)>, wishes: &[Wish]) -> Result<Stages, Unsolved> {
    let bands = wishes.iter().flat_map(|wish| [(wish.short, 1.0), (wish.over, 1.0)]).collect();
    let mut stages = vec![stage("no harm", harm, NODES), stage("inside the bands", bands, NODES)];
    let blends = model.problem.columns.get(model.low_share).is_some_and(|share| share.upper > share.lower);
    if blends {
        stages.push(stage("least low-mineral water", vec![(model.low_share, 1.0)], NODES));
    }
    if wishes.iter().all(|wish| wish.part != Part::Alkalinity) {
        let all = model.addition(Part::Alkalinity).plus(1.0, &model.dose(Part::Alkalinity));
        if !all.costs().is_empty() {
            stages.push(stage("no more alkalinity than is needed", all.costs(), NODES));
        }
    }
    let settled = lexicographic(&model.problem, &stages)?;
    model.problem = settled.held.clone();
    // What gave way so far gives way no further: bounds that make the next stages short.
    for column in wishes.iter().flat_map(|wish| [wish.short, wish.over]) {
        let reached = settled.values.get(column).copied().unwrap_or(0.0);
        if let Some(column) = model.problem.columns.get_mut(column) {
            column.upper = reached + 1e-7;
        }
    }
    Ok(settled)
}

/// Stages 3 to 7, solved.
pub(super) fn pick(model: &mut Model, wishes: &[Wish]) -> Result<(Stages, Vec<Use>), Unsolved> {
    let (stages, uses) = stages(model, wishes);
    Ok((lexicographic(&model.problem, &stages)?, uses))
}

/// Stages 3 to 7, with their yes-or-nos added to the model.
pub(super) fn stages(model: &mut Model, wishes: &[Wish]) -> (Vec<Stage>, Vec<Use>) {
    let uses = uses(model);
    let products = products(model, &uses);
    let stocks = stocks(model, &uses);
    let likely = likely(model, wishes);
    let ones = |columns: Vec<usize>| columns.into_iter().map(|column| (column, 1.0)).collect::<Vec<_>>();
    let owned = |&&(candidate, _): &&(usize, usize)| !model.candidates.get(candidate).is_some_and(|c| c.owned);
    let stages = vec![
        stage("what is owned first", ones(products.iter().filter(owned).map(|&(_, column)| column).collect()), NODES),
        stage("fewest products", ones(products.iter().map(|&(_, column)| column).collect()), NODES),
        stage("in fewest places", ones(uses.iter().map(|place| place.used).collect()), NODES),
        stage("doses that can be weighed", ones(stocks), NODES),
        stage("inside the bands over the likely uptake", ones(likely), NODES),
        stage("cost", cost(model, &uses, &products), NODES_FOR_COST),
    ];
    (stages, uses)
}

fn stage(name: &str, costs: Vec<(usize, f64)>, nodes: u64) -> Stage {
    Stage { name: name.to_owned(), costs, nodes }
}

/// What `settle` and `pick` proved, stage by stage.
pub(super) fn proof(stages: &[Settled]) -> Vec<(String, bool)> {
    let words = |stage: &Settled| match (stage.name.as_str(), stage.proved) {
        ("cost", false) => ("cost: cheapest found".to_owned(), false),
        (name, proved) => (name.to_owned(), proved),
    };
    stages.iter().map(words).collect()
}

/// A yes-or-no for every place that a product may go to.
fn uses(model: &mut Model) -> Vec<Use> {
    let place = |columns: &[Option<usize>], candidate: usize| columns.get(candidate).copied().flatten();
    let places: Vec<(usize, usize, bool)> = (0..model.candidates.len())
        .flat_map(|i| [(i, place(&model.daily, i), false), (i, place(&model.added, i), true)])
        .filter_map(|(candidate, amount, new_water)| Some((candidate, amount?, new_water)))
        .collect();
    let amounts: Vec<usize> = places.iter().map(|&(_, amount, _)| amount).collect();
    let used = model.problem.used(&amounts);
    let zip = places.into_iter().zip(used);
    zip.map(|((candidate, amount, new_water), used)| Use { candidate, amount, used, new_water }).collect()
}

/// A yes-or-no for every product: that of its only place, or one that is yes where either place is. (candidate, column)
fn products(model: &mut Model, uses: &[Use]) -> Vec<(usize, usize)> {
    let mut products = Vec::new();
    for candidate in 0..model.candidates.len() {
        let places: Vec<usize> = uses.iter().filter(|u| u.candidate == candidate).map(|u| u.used).collect();
        match places.as_slice() {
            [] => {}
            [only] => products.push((candidate, *only)),
            several => {
                let key = model.candidates.get(candidate).map_or_else(String::new, |c| format!("{}?", c.key));
                let product = model.problem.yes_or_no(key.clone());
                for &place in several {
                    model.problem.row(key.clone(), f64::NEG_INFINITY, vec![(place, 1.0), (product, -1.0)], 0.0);
                }
                let either = several.iter().map(|&place| (place, 1.0)).chain([(product, -1.0)]).collect();
                model.problem.row(key, 0.0, either, f64::INFINITY);
                products.push((candidate, product));
            }
        }
    }
    products
}

/// A yes-or-no for every use in a bottle: 1 where the amount is too small for scale or syringe and must come from a stock. The new
/// water gets what it lacks, by a stock where need be: to give more of it for the scale's sake would move the tank further.
fn stocks(model: &mut Model, uses: &[Use]) -> Vec<usize> {
    let at_hand = &model.tank.at_hand;
    let litres = model.tank.geometry.true_l.value;
    let steps = book().defaults.scale_steps_least.value;
    let bottle_days = at_hand.bottle_ml.value / at_hand.daily_ml.value;
    let mut stocks = Vec::new();
    for place in uses.iter().filter(|place| !place.new_water) {
        // A weighed portion goes into the tank on all days of a bottle.
        let (step, into_l) = match model.candidates.get(place.candidate).is_some_and(|c| c.liquid) {
            true => (at_hand.syringe_ml.value, litres),
            false => (at_hand.scale_g.value, litres * bottle_days),
        };
        let least = 1000.0 * steps * step / into_l;
        if !(least.is_finite() && least > 0.0) {
            continue;
        }
        let name =
            model.problem.columns.get(place.amount).map_or_else(String::new, |c| format!("{} by a stock", c.name));
        let stock = model.problem.yes_or_no(name.clone());
        let terms = vec![(place.amount, 1.0 / least), (place.used, -1.0), (stock, 1.0)];
        model.problem.row(name, 0.0, terms, f64::INFINITY);
        stocks.push(stock);
    }
    stocks
}

/// How far the bands are left where plants take more or less than the best estimate, as far as is likely.
fn likely(model: &mut Model, wishes: &[Wish]) -> Vec<usize> {
    let mut columns = Vec::new();
    for wish in wishes {
        let short = model.problem.amount(format!("{} short, likely", wish.part.name()), 0.0, f64::INFINITY);
        let over = model.problem.amount(format!("{} over, likely", wish.part.name()), 0.0, f64::INFINITY);
        edges(model, wish, (short, over), true);
        columns.extend([short, over]);
    }
    columns
}

/// Money of the first year: what is used up, and the packets that must be bought. A place in the table costs next to
/// nothing more than the one before it, so that a tie goes to the earlier product.
fn cost(model: &Model, uses: &[Use], products: &[(usize, usize)]) -> Vec<(usize, f64)> {
    let litres = model.tank.geometry.true_l.value;
    let habits = &model.tank.habits;
    let mut line = Line::default();
    for place in uses {
        let Some(candidate) = model.candidates.get(place.candidate) else { continue };
        let litres_a_year = if place.new_water {
            litres * habits.change_share.value * DAYS / f64::from(habits.every_days.max(1))
        } else {
            litres * DAYS
        };
        line = line.plus(candidate.price * litres_a_year / 1000.0, &Line::column(place.amount, 1.0));
    }
    for &(candidate, column) in products {
        let packet = model.candidates.get(candidate).map_or(0.0, |c| c.packet);
        line = line.plus(packet + TIE * candidate as f64, &Line::column(column, 1.0));
    }
    line.costs()
}
