//! Numbers of the first weeks and of absences (`data/start.toml`, `data/away.toml`).

use crate::Sourced;
use crate::named::named;

named! {
    /// The first weeks. One row a value; the name carries the unit.
    FirstWeeks of Sourced<f64> {
        /// Plants (stems and small rosettes) for a square decimetre of ground on the first day.
        plants_per_dm2,
        /// Stems in a bunch or a pot as it is sold.
        stems_a_bunch,
        /// Share of the plants that grow fast, percent.
        fast_percent,
        /// Light in the first week, hours a day.
        light_first_h,
        /// What the light grows by in a week, hours a day.
        light_step_h,
        /// Light in the end, hours a day.
        light_last_h,
        /// Weeks that the table shows.
        weeks_shown,
        /// Week in which the first dose is given.
        dose_from_week,
        /// Share of the dose until it is given whole, percent.
        dose_first_percent,
        /// Week from which the whole dose is given.
        dose_full_week,
        /// Weeks until the bacteria have grown.
        nitrifiers_weeks,
        /// Weeks that it took with new media.
        nitrifiers_longest_weeks,
        /// Day from which a start test is worth while.
        test_from_day,
        /// Hours after the ammonia from which a reading judges.
        test_earliest_h,
        /// Hours after the ammonia until which a reading judges.
        test_latest_h,
        /// Days to wait after a round that was not passed.
        test_wait_days,
        /// Days for which a start looks back into the log.
        reads_days,
        /// Days for which a passed test speaks of the filter without animals.
        test_keeps_days,
        /// Coarsest lowest step of a kit that can judge, mg/L as N.
        kit_step_most_mg_n_per_l,
        /// Lowest step of a usual kit, mg/L as N.
        kit_step_mg_n_per_l,
        /// What unsoaked soil gives off in the first weeks, mg/L NH4 in the water.
        leach_ammonium_mg_per_l,
        /// Weeks for which such a ground gives off ammonium.
        leach_weeks,
        /// Share of a change meanwhile, percent.
        leach_change_percent,
        /// Days from one such change to the next.
        leach_every_days,
        /// Weeks for which they are so often.
        leach_often_weeks,
        /// Weeks of a start in the dark.
        dark_weeks,
        /// Share of the one change after a start in the dark, percent.
        dark_change_percent,
        /// Weeks for which soil is soaked beforehand.
        soak_weeks,
        /// Soil under the cap, cm.
        soil_cm,
        /// Deepest bed, cm.
        bed_most_cm,
        /// Minutes for which a closed bag floats.
        float_min,
        /// Minutes over which the bag's water is changed for the tank's.
        drip_min,
        /// The same for shrimps, and where the conductivities differ much.
        drip_shrimps_min,
        /// How many times its volume the bag's water grows to.
        drip_times,
        /// Difference of conductivity from which the longer time holds, percent.
        slow_percent,
        /// pH in a bag that nobody measured.
        bag_ph,
        /// Ammonia in a bag that nobody measured, mg/L as N.
        bag_ammonia_mg_n_per_l,
        /// Share of the animals that come first, percent.
        first_part_percent,
        /// Days from one group of animals to the next.
        between_groups_days,
    }
}

named! {
    /// Absences, another tap, the end. One row a value; the name carries the unit.
    Absence of Sourced<f64> {
        /// Days away until the keeper says how long.
        away_days,
        /// Light while away, hours a day.
        light_h,
        /// Days before leaving in which nothing new begins.
        nothing_new_days,
        /// Days that grown fish do without food.
        without_food_days,
        /// Days from one meal to the next while away.
        food_every_days,
        /// Share of a usual meal while away, percent.
        food_percent,
        /// Days from one visit to the next.
        visit_days,
        /// Days after which somebody looks in, whoever lives there.
        without_visit_days,
        /// Litres that a sitter tops up in a visit at most.
        card_litres_most,
        /// Largest change on the way to another water, percent.
        change_most_percent,
        /// Days after which the way to another water is too long.
        days_most,
        /// Days of daily ammonia tests after a move.
        test_days,
        /// Minutes that a filter sponge stands without moving water.
        sponge_out_min,
        /// Days for which a reading tells what stands in the tank.
        reading_days,
        /// Hours without food before a move.
        no_food_before_h,
        /// Days in the freezer for plants that go.
        freeze_days,
        /// Days of drying for plants that go.
        dry_days,
    }
}
