//! Whether an amount of water can belong to a tank of so many litres.

use knowledge::book;
use quantity::{Fault, Place, Units, Volume};

use crate::What;

/// Water changed or topped up, held against the litres of the tank (at their upper end); anything else fits. `litres` in L.
///
/// # Errors
/// More than `tank_times` of `data/amounts.toml` times the tank, with the way out.
pub fn fits(what: &What, litres: f64, units: &Units) -> Result<(), Fault> {
    let water = match what {
        What::Change { litres } | What::TopUp { litres } => *litres,
        _ => return Ok(()),
    };
    let times = book().amounts.get(what.kind()).and_then(|row| row.tank_times);
    let most = times.map_or(f64::INFINITY, |times| times * litres);
    if most <= 0.0 || water <= most {
        return Ok(());
    }
    let volume = |litres: f64| Volume::litres(litres).print(units);
    Err(Fault::new(format!("{} is more than this tank holds: {}", volume(water), volume(litres)))
        .expected(format!("at most {}", volume(most)))
        .hint("is a comma missing? Several changes are written one by one; another tank is written into its own log; a tank that holds more gets its sizes on Tank")
        .at(Place::field("amount")))
}
