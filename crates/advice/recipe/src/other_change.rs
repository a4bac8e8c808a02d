//! A change of another size than the plan's, with its new water weighed anew: for weeks that have their own rhythm.
//!
//! What: the plan's water with as much of each salt in a litre, the conditioner from the stock that the plan makes, in buckets of its own.
//! Range: a tank without animals, for nothing limits it here; water that may not be used is refused in its conditioner as ever.
//! Checked by: `tests/by_hand_other_change.rs`.

use quantity::{Kind, Known};
use setup::Tank;

use crate::assemble::runs_by_hose;
use crate::desk::Desk;
use crate::new_water::ammonia::worst;
use crate::new_water::salts::weigh_all;
use crate::new_water::{chlorine, new_water};
use crate::plan::Plan;
use crate::waters::{blended, salted};

/// The plan with a change of a share (0 to 1) every so many days, 1 or more, in place of its own.
pub fn other_change(tank: &Tank, plan: &Plan, share: f64, every_days: u32) -> Plan {
    let mut tank = tank.clone();
    tank.habits.change_share = Known::exact(share, Kind::WorkedOut);
    tank.habits.every_days = every_days;
    tank.at_hand.by_hose = runs_by_hose(&tank);
    let desk = Desk::new(&tank);
    let mixture = blended(&tank, plan.low_share);
    let brought = chlorine::brought(&desk, &mixture, plan.low_share);
    let change = crate::change::change(&desk, None);
    let salts = weigh_all(&desk, &change, &plan.doses);
    let water = salted(mixture, &plan.doses);
    let made = plan.new_water.conditioner.as_ref().map(|c| (c.stock_g, c.stock_ml));
    let new_water =
        new_water(&desk, &change, salts.lines, &brought, worst(&desk, &water, brought.nitrogen.1), &water, made);
    // What limits the plan's own change, or begins smaller, is of a tank in which animals live.
    Plan { change, new_water, begin: None, ..plan.clone() }
}
