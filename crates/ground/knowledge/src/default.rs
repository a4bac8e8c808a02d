//! What is assumed when the keeper did not say (`data/defaults.toml`).

use crate::Sourced;
use crate::named::named;

named! {
    /// One row a value; the name carries the unit.
    Defaults of Sourced<f64> {
        /// Thickness of a wall of the tank, where only outer sizes are known.
        wall_thickness_mm,
        /// Thickness of the bottom.
        bottom_thickness_mm,
        /// From the upper edge of the glass down to the water.
        fill_line_below_edge_cm,
        /// Depth of the ground.
        substrate_depth_cm,
        /// Temperature of the tank.
        tank_temperature_c,
        /// Temperature of the cold tap.
        tap_temperature_c,
        /// The coldest that a room gets in which a bottle stands.
        room_coldest_c,
        /// Carbon dioxide in the room's air, parts per million of dry air.
        room_co2_ppm,
        /// Share of the tank's water that a change renews, percent.
        change_percent,
        /// Hours of light a day; its upper end is the most that is of use to plants.
        light_h,
        /// Days from one change to the next.
        change_every_days,
        /// Share of the tank's water that evaporates and is topped up in a day, percent.
        evaporation_percent_day,
        /// Size of a bottle of nutrients.
        bottle_ml,
        /// What is given from a bottle in a day.
        daily_dose_ml,
        /// Smallest step of the kitchen scale.
        scale_step_g,
        /// Smallest amount that the scale weighs to be trusted, in steps of the scale.
        scale_steps_least,
        /// Smallest step of the syringe for the daily dose.
        syringe_step_ml,
        /// Volume of a drop, where a dropper is used.
        drop_ml,
        /// Days that a bottle of nutrients lasts before it is poured out.
        bottle_keeps_days,
        /// Days that a bottle of conditioner keeps.
        conditioner_keeps_days,
        /// Size of a bottle of conditioner.
        conditioner_bottle_ml,
        /// Size of the bucket for changes.
        bucket_l,
        /// Share of what saturates a bottle that is used, 0 to 1, at the room's coldest.
        stock_share_of_solubility,
        /// Density below which no crystal of a salt that goes into a bottle falls; see `Product::solubility_g_per_l`.
        crystal_density_g_per_ml,
        /// Likely error of a scale's reading, in its steps, to either side.
        scale_error_steps,
        /// Mass of stand and what else stands on the same footprint.
        stand_kg,
        /// Food a day in an ordinarily stocked tank, mg per litre of water.
        food_mg_per_l_day,
    }
}
