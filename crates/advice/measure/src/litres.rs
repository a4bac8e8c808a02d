//! The litres that are really there, from a weighed salt and the rise of conductivity.
//!
//! What: a salt that nothing takes up is mixed in; what it raises the conductivity by tells how much water it met.
//!
//! Equation: V = 1000 m a / c, where κ(c) - κ(0) = (κ2 - κ1)/(g l); κ(c) of the tank's water with c mg/L of the salt, at 25 °C,
//! from the speciation of crate `water`. The water is the tap's make-up, all in one proportion, so that κ(0) = κ1.
//!
//! Symbols: V litres; m grams; a salt in what is weighed; c mg/L; κ µS/cm at 25 °C; g what the meter shows of a true rise;
//! l what the equation of conductivity misses of a salt's rise.
//!
//! Range: fresh water; a meter that shows µS/cm at 25 °C. The make-up hardly matters: the rise of a salt moves by some percent
//! from rain to hard water. Counted is the water that mixes within the wait.
//!
//! Harm: with animals the rise stays at or under 10 % of the conductivity in a day, potassium and nitrate under 10 mg/L each,
//! hardness under 1 German degree (rule 6); the least litres that the tank may hold count.
//!
//! Source: `mccleskey_2012` through crate `water`; `iupac_2022` for masses.
//!
//! Checked by: `tests/handbook_salt.rs` (equivalent conductivities of single salts), `tests/by_hand_measures.rs`, `tests/harm.rs`.

use knowledge::MeasureSalt;
use quantity::number::round_significant;
use quantity::{Fault, Ion, Kind, Known};
use setup::Tank;
use water::{Carbon, Sample, Totals};

use crate::say::{Pen, rule, spread, why};
use crate::{Name, Readings, Value, Worked, figures};

/// Rounds of the secant that finds a concentration: each gains more than a figure.
const ROUNDS: usize = 12;

/// A water that conducts: its make-up and how much of it.
#[derive(Clone, Copy)]
struct Base {
    mol_per_kg: [f64; 9],
    alkalinity_eq_per_kg: f64,
    ph: f64,
}

impl Base {
    /// The tap's make-up, as strong as conducts `us_per_cm`; water of plain bicarbonate where the tap holds next to nothing.
    fn of(tank: &Tank, us_per_cm: f64) -> Option<Base> {
        let tap = &tank.tap;
        let mg = Ion::MAJOR.map(|ion| tap.mg_per_l(ion).value);
        let tap = Base {
            mol_per_kg: Totals::from_mg_per_l(&mg).0,
            alkalinity_eq_per_kg: tap.alkalinity_meq_per_l.value.max(0.0) / 1000.0,
            ph: tap.ph.value,
        };
        let plain =
            Base { mol_per_kg: [1e-3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0], alkalinity_eq_per_kg: 1e-3, ph: 7.5 };
        let mut base = if tap.conducts(&[])? > 20.0 { tap } else { plain };
        for _ in 0..ROUNDS {
            let factor = us_per_cm / base.conducts(&[])?;
            base.mol_per_kg = base.mol_per_kg.map(|mol| factor * mol);
            base.alkalinity_eq_per_kg *= factor;
        }
        Some(base)
    }

    /// µS/cm at 25 °C with some moles added to a litre. `None`: outside the speciation.
    fn conducts(&self, added: &[(Ion, f64)]) -> Option<f64> {
        let mut totals = Totals(self.mol_per_kg);
        for (ion, mol) in added {
            totals.add(*ion, *mol);
        }
        let sample = Sample {
            temperature_c: 25.0,
            totals,
            alkalinity_eq_per_kg: Some(self.alkalinity_eq_per_kg),
            carbon: Carbon::Ph(self.ph),
        };
        water::solve(&sample).ok().map(|solved| solved.conductivity_25_us_per_cm)
    }

    /// mg/L of a salt that raise the conductivity by `rise` µS/cm.
    fn raised_by(&self, salt: &MeasureSalt, rise: f64) -> Option<f64> {
        let molar_mg = 1000.0 * knowledge::molar_mass_g_per_mol(&salt.formula).ok()?;
        let nothing = self.conducts(&[])?;
        let of = |mg: f64| {
            let added: Vec<(Ion, f64)> = salt.ions.iter().map(|(ion, n)| (*ion, n * mg / molar_mg)).collect();
            Some(self.conducts(&added)? - nothing)
        };
        // A first guess of 2 µS/cm for a mg/L; the curve is nearly straight.
        let mut mg = 0.5 * rise;
        for _ in 0..ROUNDS {
            mg *= rise / of(mg)?;
        }
        mg.is_finite().then_some(mg)
    }
}

/// How much salt may go in, and what limits it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Most {
    /// g, a multiple of the scale's step; 0 where even one step is too much.
    pub grams: f64,
    /// g before rounding.
    pub grams_exact: f64,
    /// What the conductivity would rise by, µS/cm.
    pub rise_us_per_cm: f64,
    /// What limits it, in words with its number.
    pub limited_by: String,
}

/// The most of a salt (key of `data/measures.toml`) that may go into the tank at once, whose water conducts `before` µS/cm.
/// The least litres that it may hold count. `None`: no such salt, or a water outside the speciation.
pub fn most_grams(tank: &Tank, salt: &str, before: f64) -> Option<Most> {
    let (book, pen) = (knowledge::book(), Pen(&tank.units));
    let salt = book.measures.salt.get(salt)?;
    let base = Base::of(tank, before)?;
    let molar_mg = 1000.0 * knowledge::molar_mass_g_per_mol(&salt.formula).ok()?;
    let limit = &book.harm.limit;
    let animals = tank.animals.any();
    let percent =
        if animals { limit.conductivity_step_percent.value() } else { figures().rise_without_animals_percent.value };
    let words = if animals {
        limit.conductivity_step_percent.say.clone()
    } else {
        format!("With nobody living there I stay at {} %.", pen.n(percent, 2))
    };
    let mut least = (base.raised_by(salt, before * percent / 100.0)?, words);
    let mut bound = |mg_of_salt: f64, say: &str| {
        if animals && mg_of_salt < least.0 {
            least = (mg_of_salt, say.to_owned());
        }
    };
    for (ion, n) in &salt.ions {
        let mg_of_ion = |mg: f64| mg / ion.molar_mass() / n / 1000.0 * molar_mg;
        match ion {
            Ion::Potassium => {
                bound(mg_of_ion(limit.potassium_step_mg_per_l.value()), &limit.potassium_step_mg_per_l.say)
            }
            Ion::Nitrate => bound(mg_of_ion(limit.nitrate_step_mg_per_l.value()), &limit.nitrate_step_mg_per_l.say),
            Ion::Magnesium | Ion::Calcium => {
                let meq = limit.hardness_step_meq_per_l();
                bound(meq / 2.0 / 1000.0 / n * molar_mg, &limit.hardness_step_dh.say);
            }
            _ => {}
        }
    }
    let (mg_per_l, limited_by) = least;
    let grams_exact = mg_per_l * tank.geometry.true_l.low.max(0.0) / 1000.0;
    let step = tank.at_hand.scale_g.value;
    // A hair is added, so that 1.6 stays 1.6.
    let grams = if step > 0.0 { round_significant(step * (grams_exact / step + 1e-9).floor(), 6) } else { grams_exact };
    let added: Vec<(Ion, f64)> = salt.ions.iter().map(|(ion, n)| (*ion, n * mg_per_l / molar_mg)).collect();
    let rise_us_per_cm = base.conducts(&added)? - base.conducts(&[])?;
    Some(Most { grams, grams_exact, rise_us_per_cm, limited_by })
}

/// How much salt, before anything is done.
pub(crate) fn brief(tank: &Tank, readings: &Readings) -> Vec<String> {
    let pen = Pen(&tank.units);
    let salt = readings.word(Name::Litres, "salt");
    let Some(before) = readings.find("before") else {
        return vec![
            "Read the conductivity first and write it here: then I say how much salt, and no more than that."
                .to_owned(),
        ];
    };
    if crate::litres_unknown(tank) {
        return vec!["Tell me your glass first: how much salt is borne goes by the water in it.".to_owned()];
    }
    let Some(most) = most_grams(tank, &salt, before.value) else { return Vec::new() };
    let (step, litres) = (tank.at_hand.scale_g.value, tank.geometry.true_l);
    let mut says = Vec::new();
    let least_steps = knowledge::book().defaults.scale_steps_least.value;
    if most.grams >= least_steps * step {
        says.push(format!(
            "Weigh at most {} g, once. In the least water that your tank may hold, {} L, that raises the conductivity by {} of {} µS/cm. {}",
            pen.n(most.grams, 4),
            pen.n(litres.low, 3),
            pen.n(most.rise_us_per_cm, 2),
            pen.n(before.value, 3),
            most.limited_by
        ));
    } else {
        says.push(format!(
            "Too little for your scale: at most {} g belong into this tank. Dissolve {} g in 1 L of clean water and pour {} mL of it, once; then \
             write {} g. {}",
            pen.n(most.grams_exact, 3),
            pen.n(10.0 * least_steps * step, 3),
            pen.n((1000.0 * most.grams_exact / (10.0 * least_steps * step)).floor(), 3),
            pen.n(most.grams_exact, 3),
            most.limited_by
        ));
    }
    let error = 100.0 * std::f64::consts::SQRT_2 * (before.high - before.value) / most.rise_us_per_cm;
    says.push(format!(
        "Two readings, each good to {} µS/cm, leave an error of {} % in the litres.",
        pen.n(before.high - before.value, 2),
        pen.n(error, 2)
    ));
    if tank.animals.any() {
        says.push(
            "Not in the week after new animals came in, and not on the day of a change: one strain at a time."
                .to_owned(),
        );
    }
    says
}

/// Litres from the readings.
pub(crate) fn work(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let (pen, figure) = (Pen(&tank.units), figures());
    let key = readings.word(Name::Litres, "salt");
    let salt =
        knowledge::book().measures.salt.get(&key).ok_or_else(|| Fault::new(format!("I know no salt `{key}`")))?;
    let grams = readings.need(Name::Litres, "grams")?;
    let (before, after) = (readings.need(Name::Litres, "before")?, readings.need(Name::Litres, "after")?);
    if after.value - before.value <= after.high - after.value + before.high - before.value {
        return Err(Fault::new("the conductivity did not rise by more than the meter’s error")
            .expected("after an hour of mixing more than before")
            .hint("look whether the salt was dissolved, whether the filter runs, and whether the meter shows µS/cm"));
    }
    // The scale is read twice: empty and with the salt.
    let step = tank.at_hand.scale_g.value * knowledge::book().defaults.scale_error_steps.high();
    let weighed = if grams.low < grams.high {
        grams
    } else {
        Known::ranged((grams.value - step).max(0.0), grams.value, grams.value + step, Kind::Measured)
    };
    let out_of_range = || Fault::new("this water is outside what I can work out").expected("fresh water");
    let base = Base::of(tank, before.value).ok_or_else(out_of_range)?;
    let litres = |[m, k1, k2, assay, slope, model]: &[f64; 6]| {
        let mg = base.raised_by(salt, (k2 - k1) / (slope * model));
        mg.map_or(f64::NAN, |mg| 1000.0 * m * assay / mg)
    };
    let inputs =
        [weighed, before, after, figure.salt_assay.known(), figure.meter_slope.known(), figure.salt_slope.known()];
    let volume = spread(&inputs, litres).filter(|volume| volume.low > 0.0).ok_or_else(out_of_range)?;
    let rise = after.value - before.value;
    let mg = 1000.0 * grams.value * figure.salt_assay.value / volume.value;
    let sum = format!(
        "{} - {} = {} µS/cm, which {} mg/L of it bring; {} g × {} ÷ {} mg/L = {} L ({})",
        pen.n(after.value, 4),
        pen.n(before.value, 4),
        pen.n(rise, 3),
        pen.n(mg, 3),
        pen.n(grams.value, 4),
        pen.n(figure.salt_assay.value, 2),
        pen.n(mg, 3),
        pen.n(volume.value, 3),
        pen.percent_off(volume)
    );
    let words = "Salt that nothing takes up spreads through all the water that moves. How far the conductivity rises tells how much water that is.";
    let value = Value {
        field: Some("measured.litres".to_owned()),
        label: "water in the tank".to_owned(),
        unit: "L".to_owned(),
        known: volume,
        why: why(
            "measured-litres",
            format!("why {} L?", pen.n(volume.value, 3)),
            sum,
            words,
            &["mccleskey_2012", "iupac_2022"],
        ),
    };
    Ok(Worked::one(value, says(tank, before.value, rise, volume)))
}

/// What is said of the litres: harm first.
fn says(tank: &Tank, before: f64, rise: f64, volume: Known<f64>) -> Vec<String> {
    let (pen, limit) = (Pen(&tank.units), &knowledge::book().harm.limit);
    let mut says = Vec::new();
    let (percent, most) = (100.0 * rise / before, limit.conductivity_step_percent.value());
    if tank.animals.any() && percent > most {
        says.push(format!(
            "That was a rise of {} %; at most {} % a day are borne. No second try: the next change as planned takes it out again, and no dose today.",
            pen.n(percent, 2),
            pen.n(most, 2)
        ));
    }
    let by_size = tank.geometry.true_l;
    if tank.measured.litres.is_none() {
        let (low, high) = (volume.low.max(by_size.low), volume.high.min(by_size.high));
        says.push(if low <= high {
            format!("By its sizes it holds {} L ({}): both may be true.", pen.n(by_size.value, 3), pen.likely(by_size))
        } else {
            format!(
                "By its sizes it holds {} L ({}): one of the two is wrong. Look at the sizes, the scale and the meter, and measure again before you take it.",
                pen.n(by_size.value, 3),
                pen.likely(by_size)
            )
        });
    }
    says.push(rule("true_litres"));
    says
}
