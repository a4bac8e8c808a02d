//! A tank at hand: what it is, what its plan gives, what was read.

use knowledge::{Book, TroubleNumbers};
use quantity::chem::atom;
use quantity::{Ion, Kind, Known};
use recipe::Plan;
use recipe::say::Pen;
use setup::{SourceWater, Tank};
use water::{Carbon, Sample, Solved, Totals, solve};

use crate::told::Told;

/// Nitrogen in ammonium by mass (`iupac_2022`).
pub(crate) const N_OF_NH4: f64 = atom::N / (atom::N + 4.0 * atom::H);

/// A tank without open questions, its plan, and what was read.
#[derive(Clone, Copy)]
pub struct Case<'a> {
    /// The tank.
    pub tank: &'a Tank,
    /// Its plan.
    pub plan: &'a Plan,
    /// What was read.
    pub told: &'a Told,
    /// False while the sizes of the glass are not told: then nothing that needs litres is worked out.
    pub litres_known: bool,
}

impl Case<'_> {
    pub(crate) fn book(&self) -> &'static Book {
        knowledge::book()
    }

    pub(crate) fn numbers(&self) -> &'static TroubleNumbers {
        &knowledge::book().troubles.number
    }

    pub(crate) fn pen(&self) -> Pen {
        Pen::new(&self.tank.units)
    }

    /// L in the tank; `None` while its sizes are not told.
    pub(crate) fn litres(&self) -> Option<f64> {
        Some(self.tank.geometry.true_l.value).filter(|litres| self.litres_known && *litres > 0.0)
    }

    /// ", 12 L in two buckets": what a share of the tank is to carry; empty while its sizes are not told.
    pub(crate) fn poured(&self, share: f64) -> String {
        let Some(litres) = self.litres().map(|all| share * all) else { return String::new() };
        let most = self.tank.at_hand.bucket_l.value.min(self.book().harm.limit.bucket_l.value());
        let buckets = (litres / most - 1e-9).ceil().max(1.0);
        let buckets = match buckets {
            one if one <= 1.0 => "one bucket".to_owned(),
            many => format!("{} buckets of {}", recipe::say::count(many as u32), self.pen().litres(litres / many)),
        };
        format!(", {} in {buckets}", self.pen().litres(litres))
    }

    /// °C of the tank: as read today; an older reading widens the usual range; else that range.
    pub(crate) fn temperature_c(&self) -> Known<f64> {
        let usual = self.tank.temperature_c;
        let fresh = self.told.get("temperature").filter(|_| !self.told.is_old("temperature"));
        match (fresh, self.told.last("temperature")) {
            (Some(c), _) => Known::exact(c, Kind::Measured),
            (None, Some((c, _))) => Known::ranged(usual.low.min(c), c, usual.high.max(c), Kind::WorkedOut),
            (None, None) => usual,
        }
    }

    /// °C of new water: as told, else the tap's over the year.
    pub(crate) fn new_c(&self) -> Known<f64> {
        match self.told.get("new_temperature") {
            Some(c) => Known::exact(c, Kind::Measured),
            None => self.tank.tap.temperature_c,
        }
    }

    /// The new water of a change, salts in it.
    pub(crate) fn new_water(&self) -> SourceWater {
        recipe::salted(recipe::blended(self.tank, self.plan.low_share), &self.plan.doses)
    }

    /// The water that the plan leads to.
    pub(crate) fn plan_water(&self) -> SourceWater {
        recipe::in_tank(&self.new_water(), &self.plan.levels, &self.plan.alkalinity)
    }

    /// The water that stands in the tank, by what was read last.
    pub(crate) fn tank_water(&self) -> SourceWater {
        let mut water = self.plan_water();
        if let Some((meq, _)) = self.told.last("alkalinity") {
            water.alkalinity_meq_per_l = Known::exact(meq, Kind::Measured);
        }
        if let Some((mg, _)) = self.told.last("nitrate") {
            water.ions.insert(Ion::Nitrate, Known::exact(mg, Kind::Measured));
        }
        water
    }

    /// The tank was not changed for months.
    pub(crate) fn old(&self) -> bool {
        self.tank.unchanged_months.is_some_and(|months| months > 0.0)
    }

    /// Snails or others for which the stricter criterion of ammonia holds.
    pub(crate) fn snails(&self) -> bool {
        self.tank.animals.snails > 0 || self.tank.animals.other_invertebrates > 0
    }

    /// pH of the tank: as read today, with the error of a reading; else the log's last reading, whose upper end is the aired water's, since its
    /// carbon dioxide may have gone; else the aired water's range.
    pub(crate) fn ph(&self) -> Option<Known<f64>> {
        let error = self.book().harm.limit.co2_ph_error.value();
        let aired = self.plan.aired.as_ref().map(|aired| aired.ph);
        match (self.told.get("ph"), self.told.last("ph")) {
            (Some(ph), _) => Some(Known::ranged(ph - error, ph, ph + error, Kind::Measured)),
            (None, Some((ph, _))) => {
                let high = aired.map_or(ph + error, |aired| aired.high.max(ph + error));
                Some(Known::ranged(ph - error, ph, high, Kind::WorkedOut))
            }
            (None, None) => aired,
        }
    }

    /// The upper end of the last reading of pH by itself, today's or older; else of what counts.
    pub(crate) fn ph_read_high(&self) -> Option<f64> {
        let error = self.book().harm.limit.co2_ph_error.value();
        self.told.last("ph").map(|(ph, _)| ph + error).or_else(|| self.ph().map(|ph| ph.high))
    }

    /// "pH 8.2 (you said; 8.1 to 8.3)": the pH that counts, who told it, and its range.
    pub(crate) fn ph_words(&self) -> String {
        let (Some(ph), pen) = (self.ph(), self.pen()) else { return "an unknown pH".to_owned() };
        let from = match (self.told.get("ph"), self.told.last("ph")) {
            (Some(_), Some((_, from))) => from.to_owned(),
            (None, Some((_, from))) => match self.tank.co2_given_mg_per_l {
                Some(_) => format!("{from}; the upper end with the carbon dioxide off"),
                None => format!("{from}; the upper end aired to the room"),
            },
            _ => "worked out for aired water: test it".to_owned(),
        };
        format!("pH {} ({from}; {} to {})", pen.n(ph.value, 3), pen.n(ph.low, 3), pen.n(ph.high, 3))
    }

    /// Ammonia that new water brings at most, mg/L N: as read in a bucket of it, else what chloramine may leave and the tap may hold.
    pub(crate) fn brought_n(&self) -> f64 {
        if let Some(read) = self.told.get("tap_ammonia") {
            return read;
        }
        let own = self.new_water().mg_per_l(Ion::Ammonium).high * N_OF_NH4;
        // What chloramine leaves and what the tap brings count together already, where there is a conditioner.
        self.plan.new_water.conditioner.as_ref().map_or(own, |c| c.ammonia_n_mg_per_l.max(own))
    }
}

/// A water at its best estimates, solved; ammonia in mg/L N over what the water names. `None` outside the model's range.
pub(crate) fn solved(water: &SourceWater, ammonia_mg_n: f64, temperature_c: f64, carbon: Carbon) -> Option<Solved> {
    let mut mg = Ion::MAJOR.map(|ion| water.mg_per_l(ion).value.max(0.0));
    if let Some(slot) = mg.get_mut(Ion::Ammonium.index()) {
        *slot = ammonia_mg_n * Ion::Ammonium.molar_mass() / atom::N;
    }
    let sample = Sample {
        temperature_c,
        totals: Totals::from_mg_per_l(&mg),
        alkalinity_eq_per_kg: Some(water.alkalinity_meq_per_l.value / 1000.0),
        carbon,
    };
    solve(&sample).ok()
}
