//! Rules of harm: they outrank every goal (`data/harm.toml`).
//!
//! A rule is a number with its source ([`Limit`]) or a sentence ([`Rule`]); both carry the rule's number, 1 to 24,
//! under which data, code, pages and tests speak of it.

use quantity::{HardnessUnit, Measure};

use crate::named::named;
use crate::{Place, Sourced};

/// A number that an act must not pass, or that a sentence must name.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// Number of the rule.
    pub rule: u8,
    /// The value; the row's name carries its unit.
    pub is: Sourced<f64>,
    /// The unit as a page prints it; empty for a bare number.
    pub unit: String,
    /// The sentence for the page.
    pub say: String,
}

impl Limit {
    /// The number.
    pub fn value(&self) -> f64 {
        self.is.value
    }
}

/// A rule that is said and not counted.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// Number of the rule.
    pub rule: u8,
    /// The sentence for the page.
    pub say: String,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
}

named! {
    /// Numbers of the rules.
    Limits of Limit {
        /// Total chlorine that harms within hours, mg/L Cl2.
        chlorine_acute_mg_per_l,
        /// Total chlorine that harms over weeks, mg/L Cl2.
        chlorine_chronic_mg_per_l,
        /// Total chlorine where nobody knows and European rules hold, mg/L Cl2.
        chlorine_unknown_mg_per_l,
        /// Total chlorine where nobody knows, in North America and wherever no European rule is known to hold, mg/L Cl2.
        chlorine_unknown_us_mg_per_l,
        /// Total chlorine above which no conditioner recipe is given, mg/L Cl2.
        chlorine_stop_mg_per_l,
        /// Sodium thiosulfate pentahydrate for a mg of total chlorine, mg.
        thiosulfate_mg_per_mg,
        /// Minutes to wait after stirring in the conditioner.
        conditioner_wait_min,
        /// Mass of Cl2 for a mass of nitrogen in chloramine; the lower, the more ammonia is left.
        chloramine_cl2_per_n,
        /// Un-ionised ammonia with animals, mg/L as N.
        ammonia_unionised_mg_n_per_l,
        /// Copper with invertebrates: ask above, mg/L.
        copper_ask_mg_per_l,
        /// Copper with invertebrates: refuse above, mg/L.
        copper_refuse_mg_per_l,
        /// Copper of a trace mix whose label does not say, percent.
        copper_unknown_percent,
        /// Largest bucket to carry, L.
        bucket_l,
        /// Change of alkalinity in a day, meq/L.
        alkalinity_step_meq_per_l,
        /// Alkalinity that is left with animals right before a change, at least, meq/L.
        alkalinity_floor_meq_per_l,
        /// Change of hardness in a day, German degrees.
        hardness_step_dh,
        /// Change of conductivity in a day, percent.
        conductivity_step_percent,
        /// Change of temperature in a day, °C.
        temperature_step_c,
        /// Change of temperature in an hour, °C.
        temperature_step_c_per_h,
        /// Rise of nitrate in a day, mg/L NO3.
        nitrate_step_mg_per_l,
        /// Rise of potassium in a day, mg/L.
        potassium_step_mg_per_l,
        /// Rise of phosphate in a day, mg/L PO4.
        phosphate_step_mg_per_l,
        /// Rise of iron in a day, mg/L.
        iron_step_mg_per_l,
        /// First change of an old acid tank that was long unchanged, percent.
        old_tank_change_percent,
        /// Carbon dioxide: the upper end of the range stays at or under this, mg/L.
        co2_most_mg_per_l,
        /// Carbon dioxide to aim at, mg/L.
        co2_aim_mg_per_l,
        /// Carbon dioxide never planned above, mg/L.
        co2_plan_most_mg_per_l,
        /// Error of a pH reading that the carbon dioxide range counts with.
        co2_ph_error,
        /// Error of an alkalinity reading that the carbon dioxide range counts with, percent.
        co2_alkalinity_error_percent,
        /// All the carbon dioxide let go at once: share of a closed bedroom's air, percent.
        co2_room_percent,
        /// The same as grams for a cubic metre of room.
        co2_room_g_per_m3,
        /// Carbon dioxide in a workplace's air over eight hours, g for a cubic metre.
        co2_workplace_g_per_m3,
        /// Carbon dioxide in a lived-in room, lower end, ppm.
        room_co2_low_ppm,
        /// Carbon dioxide in a lived-in room, upper end, ppm.
        room_co2_high_ppm,
        /// Ammonia of the start test, mg/L as N.
        start_test_mg_n_per_l,
        /// Ammonia and nitrite each a day after the start test, mg/L as N.
        start_test_pass_mg_n_per_l,
        /// Times that the start test is passed before the first animal.
        start_test_times,
        /// Nitrate for invertebrates and young: the strictest guideline for wild animals, mg/L NO3.
        nitrate_strict_mg_per_l,
        /// Nitrate in common practice, lower end, mg/L NO3.
        nitrate_practice_low_mg_per_l,
        /// Nitrate in common practice, upper end, mg/L NO3.
        nitrate_practice_high_mg_per_l,
        /// Minutes between the heater's plug and the water that falls below its mark.
        heater_wait_min,
        /// Residual-current device: trips at most at this, mA.
        residual_current_ma,
        /// How many times a usual dose is asked: "Really?"
        dose_times_usual,
    }
}

impl Limits {
    /// Change of hardness in a day, meq/L: [`Limits::hardness_step_dh`] counted in that.
    pub fn hardness_step_meq_per_l(&self) -> f64 {
        HardnessUnit::German.to_meq_per_l(self.hardness_step_dh.value(), Measure::Hardness)
    }
}

named! {
    /// Sentences of the rules.
    Rules of Rule {
        /// Disinfectant counts as present.
        disinfectant_counts,
        /// Standing overnight.
        standing_overnight,
        /// The conditioner's label.
        conditioner_covers,
        /// Too much chlorine for a recipe.
        chlorine_ask_supplier,
        /// Stir and wait.
        stir_and_wait,
        /// By hose.
        hose_whole_tank,
        /// Ammonia that chloramine leaves.
        chloramine_leaves_ammonia,
        /// The filter counts only after the start test.
        filter_after_test,
        /// Copper comes from several sides.
        copper_adds_up,
        /// Iron chelate alone.
        iron_alone,
        /// Cold tap only.
        cold_tap,
        /// The tap smells, is brown, or there is a notice.
        tap_notice,
        /// Clean bucket with a lid.
        clean_bucket,
        /// Bigger corrections come as steps.
        in_steps,
        /// What raises pH frees ammonia.
        ph_frees_ammonia,
        /// An old acid tank.
        old_acid_tank,
        /// No acid.
        no_acid,
        /// No medicine.
        no_medicine,
        /// No ammonium with animals.
        no_ammonium,
        /// True litres.
        true_litres,
        /// Nothing on an unsettled basis.
        unsettled_basis,
        /// Carbon dioxide: range, not reading.
        co2_upper_end,
        /// Filter and air stay on.
        filter_and_air_stay,
        /// Carbon dioxide: when never to raise it.
        co2_never_raised,
        /// Carbon dioxide in a room.
        co2_room,
        /// Carbon dioxide from a bottle or cylinder.
        co2_generator,
        /// Carbon dioxide: what makes a reading wrong.
        co2_reading_errs,
        /// No animals before the start test.
        start_test,
        /// No household cleaners.
        no_cleaners,
        /// Nitrate of the tap is told.
        nitrate_told,
        /// Never release.
        never_release,
        /// Two small heaters.
        two_heaters,
        /// A heater that sticks on.
        heater_stuck,
        /// Heater's plug before the change.
        heater_plug,
        /// New water feels like the tank.
        new_water_temperature,
        /// Warming with kettle water.
        kettle_water,
        /// Plugs out.
        plugs_out,
        /// Someone shocked.
        shocked,
        /// Cables and the test button.
        drip_loops,
        /// A lamp not made for tanks.
        lamp,
        /// Spray, paint, smoke.
        smoke,
        /// Powders.
        powders,
        /// Never in a drinks bottle.
        not_a_drink,
        /// Siphon.
        siphon,
        /// Load.
        load,
    }
}

/// Parameters of the chronic criterion for total ammonia that protects snails and mussels:
/// `factor (a / (1 + 10^(pk - pH)) + b / (1 + 10^(pH - pk))) scale 10^(slope (20 - max(T, t_least)))`, mg/L as N,
/// T in °C. US EPA 2013, source key `epa_ammonia_2013`; pH 6.5 to 9, 0 to 30 °C.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct AmmoniaCriterion {
    /// Number of the rule.
    pub rule: u8,
    /// Factor in front.
    pub factor: f64,
    /// Weight of the branch for low pH.
    pub a: f64,
    /// Weight of the branch for high pH.
    pub b: f64,
    /// Where the branches cross.
    pub pk: f64,
    /// mg/L as N at 20 °C.
    pub scale: f64,
    /// Decades for a degree.
    pub slope: f64,
    /// Colder counts as this, °C.
    pub t_least_c: f64,
    /// Key of the source.
    pub source: String,
    /// The sentence for the page.
    pub say: String,
}

impl AmmoniaCriterion {
    /// Total ammonia, mg/L as N, that snails and mussels bear over a month at this pH and temperature.
    pub fn total_mg_n_per_l(&self, ph: f64, temperature_c: f64) -> f64 {
        let branch = self.a / (1.0 + 10f64.powf(self.pk - ph)) + self.b / (1.0 + 10f64.powf(ph - self.pk));
        self.factor * branch * self.scale * 10f64.powf(self.slope * (20.0 - temperature_c.max(self.t_least_c)))
    }
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Harm {
    /// Numbers.
    pub limit: Limits,
    /// Sentences.
    pub rule: Rules,
    /// The ammonia criterion for snails.
    pub snail_ammonia: AmmoniaCriterion,
}

impl Harm {
    /// Total chlorine that counts where nobody said: the European row where European rules hold, else the higher one.
    pub fn chlorine_unknown(&self, place: Place) -> &Limit {
        match place {
            Place::Eu | Place::Gb => &self.limit.chlorine_unknown_mg_per_l,
            Place::Us | Place::Other => &self.limit.chlorine_unknown_us_mg_per_l,
        }
    }

    /// The sentence of a row, by its key.
    pub fn say(&self, key: &str) -> Option<&str> {
        let limit = self.limit.all().into_iter().find(|(name, _)| *name == key).map(|(_, row)| row.say.as_str());
        limit.or_else(|| self.rule.all().into_iter().find(|(name, _)| *name == key).map(|(_, row)| row.say.as_str()))
    }
}
