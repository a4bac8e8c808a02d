//! Grams for a bottle: rounded to the scale, with the error that scale and syringe make; by way of a stock where the
//! scale is too coarse.
//!
//! What: grams = g a day × doses in the bottle, to the nearest step of the scale.
//! Error, as a share of what is wished: (|rounded - exact| + the scale's own error) ÷ exact + half a step of the
//! syringe ÷ the daily dose. An amount below the scale's least trusted one goes through a stock: the least trusted
//! amount (or a multiple) in a round volume, of which so many millilitres are taken as hold the grams wished.
//! Checked by: `tests/by_hand_bottles.rs`.

use quantity::canonical;
use setup::Tank;

use crate::desk::Desk;
use crate::plan::{Dose, FromStock};

/// The tools of the kitchen.
#[derive(Clone, Copy, Debug)]
pub struct Tools {
    /// Step of the scale, g.
    pub scale_g: f64,
    /// Least amount that is trusted, g.
    pub least_g: f64,
    /// The scale's error to either side, g.
    pub scale_error_g: f64,
    /// Step of the syringe, mL.
    pub syringe_ml: f64,
}

impl Tools {
    /// What the keeper of this desk has.
    pub(crate) fn of(desk: &Desk) -> Self {
        Tools::at_hand(desk.tank)
    }

    /// What the keeper of a tank has.
    pub fn at_hand(tank: &Tank) -> Self {
        let (hand, defaults) = (&tank.at_hand, &knowledge::book().defaults);
        let scale_g = hand.scale_g.value;
        Tools {
            scale_g,
            least_g: scale_g * defaults.scale_steps_least.value,
            scale_error_g: scale_g * defaults.scale_error_steps.value,
            syringe_ml: hand.syringe_ml.value,
        }
    }

    /// To the nearest step of the scale.
    pub fn on_scale(&self, grams: f64) -> f64 {
        to_step(grams, self.scale_g, f64::round)
    }

    /// Up to the next step of the scale.
    pub fn up_on_scale(&self, grams: f64) -> f64 {
        to_step(grams, self.scale_g, f64::ceil)
    }

    /// To the nearest step of the syringe.
    pub fn on_syringe(&self, ml: f64) -> f64 {
        to_step(ml, self.syringe_ml, f64::round)
    }

    /// Up to the next step of the syringe.
    pub fn up_on_syringe(&self, ml: f64) -> f64 {
        to_step(ml, self.syringe_ml, f64::ceil)
    }

    /// Down to a step of the syringe.
    pub fn down_on_syringe(&self, ml: f64) -> f64 {
        to_step(ml, self.syringe_ml, f64::floor)
    }
}

/// A whole number of steps; `value` itself where there is no step. A hair of arithmetic is not a step.
fn to_step(value: f64, step: f64, round: fn(f64) -> f64) -> f64 {
    if step > 0.0 { canonical(round(canonical(value / step)) * step) } else { value }
}

/// An amount as it is weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Straight into the bottle.
    Direct {
        /// A multiple of the scale's step.
        grams: f64,
        /// Error, share of what is wished.
        error_share: f64,
    },
    /// Through a stock.
    Stock {
        /// g into the stock, a multiple of the scale's step.
        stock_g: f64,
        /// mL of the stock.
        stock_ml: f64,
        /// mL of it into the bottle, a multiple of the syringe's step.
        take_ml: f64,
        /// g that come into the bottle so.
        grams: f64,
        /// Error, share of what is wished.
        error_share: f64,
    },
}

impl Amount {
    /// g that are in the bottle.
    pub fn grams(&self) -> f64 {
        match *self {
            Amount::Direct { grams, .. } | Amount::Stock { grams, .. } => grams,
        }
    }

    /// The same stock, of which the syringe takes `exact_g` or a hair more. What is weighed straight in stays.
    pub(crate) fn rounded_up(self, tools: &Tools, exact_g: f64) -> Self {
        match self {
            Amount::Stock { stock_g, stock_ml, error_share, .. } => {
                let take_ml = tools.up_on_syringe(exact_g / stock_g * stock_ml);
                let grams = stock_g * take_ml / stock_ml;
                Amount::Stock { stock_g, stock_ml, take_ml, grams, error_share: error_share.max(grams / exact_g - 1.0) }
            }
            direct => direct,
        }
    }

    /// Error of the weighing, share of what is wished.
    pub fn error_share(&self) -> f64 {
        match *self {
            Amount::Direct { error_share, .. } | Amount::Stock { error_share, .. } => error_share,
        }
    }

    /// The line of the recipe for the stock of a dose of `exact_g`, taken for `what` ("" or " for a change"), with the key of its
    /// why-note; `None`: it is weighed straight in.
    pub(crate) fn as_stock(&self, desk: &Desk, dose: &Dose, exact_g: f64, what: &str, why: &str) -> Option<FromStock> {
        let Amount::Stock { stock_g, stock_ml, take_ml, grams, error_share } = *self else { return None };
        let pen = &desk.pen;
        let sentence = format!(
            "Weigh {} of {} into {} of boiled, cooled water, shake, and take {} of that{what}: {} {}.",
            pen.grams(stock_g, desk.tank.at_hand.scale_g.value),
            dose.name,
            pen.ml(stock_ml),
            pen.ml(take_ml),
            if exact_g < 0.01 {
                format!("{} mg", pen.n(1000.0 * exact_g, 2))
            } else {
                format!("{} g", pen.n(exact_g, 2))
            },
            match Tools::of(desk) {
                tools if exact_g < tools.least_g => "is too little for your scale",
                _ => "would be rounded too far by your scale",
            }
        );
        let (product, name, why) = (dose.product.clone(), dose.name.clone(), why.to_owned());
        Some(FromStock { product, name, stock_g, stock_ml, take_ml, grams, error_share, sentence, why })
    }
}

/// How `exact_g` gets into a bottle of `bottle_ml`; `limit_g_per_l`: what may be dissolved. `None`: the scale is too
/// coarse even for a stock.
pub fn weigh(tools: &Tools, exact_g: f64, bottle_ml: f64, limit_g_per_l: f64) -> Option<Amount> {
    if exact_g <= 0.0 {
        return None;
    }
    if tools.on_scale(exact_g) >= tools.least_g {
        let most = to_step(limit_g_per_l * bottle_ml / 1000.0, tools.scale_g, f64::floor);
        let grams = tools.on_scale(exact_g).min(most);
        let error_share = ((grams - exact_g).abs() + tools.scale_error_g) / exact_g;
        return (grams > 0.0).then_some(Amount::Direct { grams, error_share });
    }
    stock(tools, exact_g, bottle_ml, limit_g_per_l)
}

/// `exact_g` by way of a stock, whatever the scale shows of it: of the least trusted amount, or a multiple that holds it.
pub(crate) fn stock(tools: &Tools, exact_g: f64, bottle_ml: f64, limit_g_per_l: f64) -> Option<Amount> {
    let figures = &knowledge::book().recipe.stock;
    let take_least_ml = figures.take_steps_least.value * tools.syringe_ml;
    let take_most_ml = figures.take_share_most.value * bottle_ml;
    let least_g = tools.up_on_scale(tools.least_g);
    let stock_g = canonical(least_g * (exact_g / least_g).ceil().max(1.0));
    figures.sizes_ml.value.iter().find_map(|&stock_ml| {
        let take_ml = tools.on_syringe(exact_g / stock_g * stock_ml);
        let dissolves = stock_g / stock_ml * 1000.0 <= limit_g_per_l;
        let measured = (take_least_ml..=take_most_ml).contains(&take_ml);
        let grams = stock_g * take_ml / stock_ml;
        let error_share = (grams - exact_g).abs() / exact_g
            + tools.scale_error_g / stock_g
            + 0.5 * tools.syringe_ml / take_ml.max(tools.syringe_ml);
        (dissolves && measured && grams > 0.0).then_some(Amount::Stock {
            stock_g,
            stock_ml,
            take_ml,
            grams,
            error_share,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tools(scale_g: f64) -> Tools {
        Tools { scale_g, least_g: 10.0 * scale_g, scale_error_g: scale_g, syringe_ml: 0.2 }
    }

    #[test]
    fn a_weighable_amount_is_rounded_to_the_scale() {
        // 3.87 g on a scale of 0.1 g: 3.9 g; 0.03 g of rounding and 0.1 g of the scale are 3.4 % of 3.87 g.
        let Some(Amount::Direct { grams, error_share }) = weigh(&tools(0.1), 3.87, 300.0, 60.0) else { panic!() };
        assert_eq!(grams, 3.9);
        assert!((error_share - 0.13 / 3.87).abs() < 1e-12);
    }

    #[test]
    fn too_little_for_the_scale_goes_through_a_stock() {
        // 0.3 g on a scale of 0.1 g that is trusted from 1 g: 1 g in 100 mL, of which 30 mL hold 0.3 g.
        let Some(Amount::Stock { stock_g, stock_ml, take_ml, grams, .. }) = weigh(&tools(0.1), 0.3, 300.0, 60.0) else {
            panic!()
        };
        assert_eq!((stock_g, stock_ml, take_ml, grams), (1.0, 100.0, 30.0, 0.3));
    }

    #[test]
    fn a_stock_that_would_not_dissolve_is_made_larger() {
        // 10 g do not go into 100 mL at 60 g/L, nor into 200 mL's 50 g/L limit of 45: 250 mL.
        let Some(Amount::Stock { stock_g, stock_ml, .. }) = weigh(&tools(1.0), 3.0, 300.0, 45.0) else { panic!() };
        assert_eq!((stock_g, stock_ml), (10.0, 250.0));
    }

    #[test]
    fn a_scale_too_coarse_for_any_stock_is_said() {
        assert_eq!(weigh(&tools(50.0), 0.01, 300.0, 60.0), None);
    }
}
