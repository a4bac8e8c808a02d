//! A part of the salts of a change: for a smaller change, or for one whose new water gets fewer of them.
//!
//! What: grams (or mL of a stock) of the plan's change × part, on the keeper's scale and syringe; what the scale can't show of it is weighed
//! once for a litre, of which so much is taken. What raises pH has a litre of its own, for with calcium it would leave lime there.
//! Checked by: `tests/by_hand_weighed.rs`, `tests/by_hand_begin.rs`.

use setup::Tank;

use crate::bottles::weigh::Tools;
use crate::desk::Desk;
use crate::new_water::salts::raises_ph;
use crate::plan::{Plan, Salt};

/// What of the plan's salts goes into a change that gets `part` of them, 1 for all of the plan's own: "0.8 g of sodium bicarbonate",
/// "12 mL of the stock of ...". Where one of them raises pH, `NewWater::ph_test` stands beside it.
pub fn part_of_salts(tank: &Tank, plan: &Plan, part: f64) -> Vec<String> {
    of_salts(&Desk::new(tank), &plan.new_water.salts, part)
}

/// The same at a desk.
pub(crate) fn of_salts(desk: &Desk, salts: &[Salt], part: f64) -> Vec<String> {
    let (pen, tools) = (&desk.pen, Tools::of(desk));
    let little = |salt: &&Salt| salt.from_stock.is_none() && part * salt.grams_a_change < tools.least_g;
    let of = |salt: &Salt| match &salt.from_stock {
        Some(stock) => format!("{} of the stock of {}", pen.ml(tools.on_syringe(part * stock.take_ml)), salt.name),
        None => {
            format!("{} of {}", pen.grams(tools.on_scale(part * salt.grams_a_change), tools.scale_g), salt.name)
        }
    };
    let litre = |raising: bool| {
        let inside = salts.iter().filter(little).filter(|salt| raises_ph(desk, salt) == raising);
        let inside: Vec<String> =
            inside.map(|salt| format!("{} of {}", pen.grams(salt.grams_a_change, tools.scale_g), salt.name)).collect();
        let serves = match (1.0 / part + 1e-9).floor() as u32 {
            0 | 1 => "one of these".to_owned(),
            many => format!("{} of these", crate::say::count(many)),
        };
        (!inside.is_empty()).then(|| {
            format!(
                "{} of a litre of boiled, cooled water with {} in it, which serves {serves}",
                pen.ml((1000.0 * part).round()),
                crate::say::list(&inside)
            )
        })
    };
    if part <= 0.0 {
        return Vec::new();
    }
    salts.iter().filter(|salt| !little(salt)).map(of).chain(litre(false)).chain(litre(true)).collect()
}
