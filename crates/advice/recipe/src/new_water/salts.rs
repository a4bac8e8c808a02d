//! Salts that are stirred into the new water: by the bucket, by the jug, or by way of a stock.
//!
//! What: grams = g in a litre × litres of the change, on the keeper's scale; where that would round a bucket's share by more
//! than a tenth the whole change is weighed at once, and where that rounds too far a stock is made (`bottles::weigh`).
//! Checked by: `tests/by_hand_new_water.rs`, `tests/by_hand_weighed.rs`, `tests/harm.rs`.

use knowledge::Role;
use quantity::{Kind, canonical};

use crate::bottles::scaled;
use crate::bottles::weigh::{Amount, Tools, stock};
use crate::desk::{Desk, why};
use crate::plan::{Change, Dose, FromStock, Into, Note, Salt};
use crate::say::capital;

/// What came of the doses for the new water.
#[derive(Clone, Debug, Default)]
pub(crate) struct Salts {
    /// The lines of the recipe.
    pub lines: Vec<Salt>,
    /// The doses as they are really weighed.
    pub given: Vec<Dose>,
    /// What the scale can't weigh.
    pub left: Vec<Note>,
}

/// Weigh what goes into the new water.
pub(crate) fn weigh_all(desk: &Desk, change: &Change, doses: &[Dose]) -> Salts {
    let tools = Tools::of(desk);
    let mut out = Salts::default();
    for dose in doses.iter().filter(|d| d.into == Into::NewWater && d.amount > 0.0) {
        match weighed(desk, &tools, change, dose) {
            Some(way) => {
                out.given.push(way.given(dose, change));
                out.lines.push(way.line(desk, &tools, change, dose));
            }
            None => out.left.push(too_little(desk, &tools, change, dose)),
        }
    }
    out
}

impl Salts {
    /// `test` stands with each salt that raises pH (`ammonia::tested`).
    pub fn tested(&mut self, desk: &Desk, test: Option<&str>) {
        let Some(test) = test else { return };
        for salt in self.lines.iter_mut().filter(|salt| raises_ph(desk, salt)) {
            salt.how = format!("{} {test}", salt.how);
        }
    }
}

/// The salt raises alkalinity, and pH with it.
pub(crate) fn raises_ph(desk: &Desk, salt: &Salt) -> bool {
    desk.product(&salt.product).is_some_and(|product| product.is(Role::Alkalinity))
}

/// How an amount is weighed.
enum Way {
    /// g into each bucket.
    Bucket(f64),
    /// g for the whole change.
    Jug(f64),
    /// By way of a stock.
    Stock(Amount),
}

fn weighed(desk: &Desk, tools: &Tools, change: &Change, dose: &Dose) -> Option<Way> {
    let exact = dose.amount * change.litres;
    if exact <= 0.0 {
        return None;
    }
    let product = desk.product(&dose.product)?;
    // What holds alkalinity's floor is just enough: rounded down it would fall short of it.
    let up = product.is(Role::Alkalinity) && desk.tank.wish.alkalinity_meq_per_l.is_none();
    let on_scale = |grams: f64| if up { tools.up_on_scale(grams) } else { tools.on_scale(grams) };
    let weighable = |grams: f64| {
        let off = (on_scale(grams) - grams).abs() / grams;
        (on_scale(grams) >= tools.least_g && off <= desk.book.recipe.new_water.rounded_share_most.value)
            .then(|| on_scale(grams))
    };
    let bucket = weighable(dose.amount * change.buckets.1).filter(|_| !desk.tank.at_hand.by_hose);
    if let Some(way) = bucket.map(Way::Bucket).or_else(|| weighable(exact).map(Way::Jug)) {
        return Some(way);
    }
    let limit = desk.book.stock_limit_g_per_l(product, desk.tank.at_hand.coldest_room_c.low)?;
    let amount = stock(tools, exact, desk.book.recipe.new_water.stock_for_ml.value, limit)?;
    Some(Way::Stock(if up { amount.rounded_up(tools, exact) } else { amount }))
}

impl Way {
    /// g for the whole change.
    fn grams(&self, change: &Change) -> f64 {
        match *self {
            Way::Bucket(grams) => canonical(grams * f64::from(change.buckets.0)),
            Way::Jug(grams) => grams,
            Way::Stock(amount) => amount.grams(),
        }
    }

    fn given(&self, dose: &Dose, change: &Change) -> Dose {
        scaled(dose, self.grams(change) / (dose.amount * change.litres))
    }

    fn line(&self, desk: &Desk, tools: &Tools, change: &Change, dose: &Dose) -> Salt {
        let buckets = f64::from(change.buckets.0.max(1));
        let grams_a_change = self.grams(change);
        let grams_a_bucket = match *self {
            Way::Bucket(grams) => grams,
            _ => grams_a_change / buckets,
        };
        let why = desk.why(self.why(desk, tools, change, dose));
        let from_stock = match self {
            Way::Stock(amount) => amount.as_stock(desk, dose, dose.amount * change.litres, " for a change", &why),
            _ => None,
        };
        let how = self.how(desk, tools, change, &dose.product, from_stock.as_ref());
        Salt {
            product: dose.product.clone(),
            name: dose.name.clone(),
            grams_a_change,
            grams_a_bucket,
            from_stock,
            how,
            why,
        }
    }

    /// Litres of new water in which it dissolves at the tap's coldest, a jug at the least.
    fn jug_l(&self, desk: &Desk, change: &Change, product: &str) -> f64 {
        let cold = desk.tank.tap.temperature_c.low;
        let limit = desk.product(product).and_then(|p| desk.book.stock_limit_g_per_l(p, cold));
        let jug_l = desk.book.recipe.new_water.jug_l.value;
        limit.map_or(jug_l, |g_per_l| (self.grams(change) / g_per_l / jug_l).ceil().max(1.0) * jug_l)
    }

    fn how(&self, desk: &Desk, tools: &Tools, change: &Change, product: &str, stock: Option<&FromStock>) -> String {
        let (pen, jug) = (&desk.pen, desk.pen.litres(self.jug_l(desk, change, product)));
        let place = if desk.tank.at_hand.by_hose {
            "pour it in slowly while the new water runs".to_owned()
        } else if change.buckets.0 > 1 {
            format!("share it out evenly over the {} buckets", crate::say::count(change.buckets.0))
        } else {
            "pour it into the bucket".to_owned()
        };
        match (self, stock) {
            (Way::Bucket(grams), _) => format!(
                "Stir {} into each bucket of {} until it is dissolved, then pour.",
                pen.grams(*grams, tools.scale_g),
                pen.litres(change.buckets.1)
            ),
            (Way::Stock(_), Some(stock)) if change.buckets.0 == 1 && !desk.tank.at_hand.by_hose => {
                format!("{} Stir it into the bucket.", stock.sentence)
            }
            (Way::Stock(_), Some(stock)) => {
                format!("{} Stir it into a jug of {jug} of the new water and {place}.", stock.sentence)
            }
            _ => format!(
                "Dissolve {} in a jug of {jug} of the new water and {place}.",
                pen.grams(self.grams(change), tools.scale_g)
            ),
        }
    }

    fn why(&self, desk: &Desk, tools: &Tools, change: &Change, dose: &Dose) -> quantity::Why {
        let pen = &desk.pen;
        let (buckets, bucket_l) = change.buckets;
        let product = desk.product(&dose.product);
        let most = dose.brings.iter().max_by(|a, b| a.1.total_cmp(&b.1));
        let per_litre = match (product, most) {
            (Some(p), Some((ion, mg))) if p.mg_per_g(*ion) > 0.0 => format!(
                "{} mg/L {} ÷ {} mg in a gram = {} g/L",
                pen.n(*mg, 4),
                ion.formula(),
                pen.n(p.mg_per_g(*ion) * p.assay(), 4),
                pen.n(dose.amount, 4)
            ),
            _ => format!("{} g/L", pen.n(dose.amount, 4)),
        };
        let sum = match *self {
            Way::Bucket(grams) => format!(
                "{per_litre}; × {} L = {} g a bucket, weighed as {}; × {buckets} = {}",
                pen.n(bucket_l, 4),
                pen.n(dose.amount * bucket_l, 4),
                pen.grams(grams, tools.scale_g),
                pen.grams(self.grams(change), tools.scale_g)
            ),
            Way::Jug(grams) | Way::Stock(Amount::Direct { grams, .. }) => format!(
                "{per_litre}; × {} L = {} g a change, weighed as {}",
                pen.n(change.litres, 4),
                pen.n(dose.amount * change.litres, 4),
                pen.grams(grams, tools.scale_g)
            ),
            Way::Stock(Amount::Stock { stock_g, stock_ml, take_ml, grams, .. }) => format!(
                "{per_litre}; × {} L = {} g a change; {} ÷ {} × {} = {} g",
                pen.n(change.litres, 4),
                pen.n(dose.amount * change.litres, 4),
                pen.grams(stock_g, tools.scale_g),
                pen.ml(stock_ml),
                pen.ml(take_ml),
                pen.n(grams, 4)
            ),
        };
        why(
            format!("new-water-{}", dose.product.replace('_', "-")),
            format!("why {} g?", pen.n(self.grams(change), 3)),
            sum,
            "What a litre of new water lacks, for all its litres, on your scale.".to_owned(),
            &["iupac_2022"],
            Kind::WorkedOut,
        )
    }
}

fn too_little(desk: &Desk, tools: &Tools, change: &Change, dose: &Dose) -> Note {
    let text = if change.litres > 0.0 {
        format!(
            "{}: {} g a change would be needed, and your scale is trusted from {} on. I left it out: a finer scale would mend it.",
            capital(&dose.name),
            desk.pen.n(dose.amount * change.litres, 2),
            desk.pen.grams(tools.least_g, tools.scale_g)
        )
    } else {
        format!("{}: without a change of water there is nothing to stir it into. I left it out.", capital(&dose.name))
    };
    Note { about: dose.product.clone(), text, key: None }
}
