//! What plants took, from wet trimmings.
//!
//! What: nitrogen, phosphorus and potassium that left with the cut plants, as mg/L of nitrate, phosphate and potassium a day.
//! Equation: u = 1000 m w d q / (V t) f.
//! Symbols: m wet grams; w plants in what was weighed; d dry share; q share of the element in dry matter; V litres; t days;
//! f 62.004/14.007 for nitrate, 94.970/30.974 for phosphate, 1 for potassium.
//! Range: a stand that looks the same at both ends of the time. Soil that feeds gives a part of it.
//! Source: `duarte_1992`, `gerloff_1973` (both from memory) for dry matter; `iupac_2022` for f.
//! Checked by: `tests/by_hand_measures.rs`.

use knowledge::Sourced;
use quantity::chem::atom;
use quantity::{Fault, Ion, Kind, Known};
use setup::{Tank, propagate};

use crate::say::{Pen, why};
use crate::{Name, Readings, Value, Worked, figures};

/// Uptake from the readings.
pub(crate) fn work(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let (pen, figure) = (Pen(&tank.units), figures());
    let (grams, days) = (readings.need(Name::Trimmings, "grams")?, readings.need(Name::Trimmings, "days")?);
    let litres = tank.geometry.true_l;
    let one = |ion: Ion, percent: &Sourced<f64>, per_element: f64| {
        let inputs = [grams, days, litres, figure.wet_weight.known(), figure.dry_share.known(), percent.known()];
        let taken =
            propagate(&inputs, |[g, t, v, wet, dry, p]| 1000.0 * g * wet * dry * p / 100.0 * per_element / (v * t));
        let known = Known { low: taken.low.max(0.0), kind: Kind::Measured, ..taken };
        let shown = format!("{} mg/L", pen.n(known.value, 2));
        let sum = format!(
            "{} g × {} × {} dry × {} % ÷ ({} L × {} days) × {} = {shown} a day",
            pen.n(grams.value, 4),
            pen.n(figure.wet_weight.value, 2),
            pen.n(figure.dry_share.value, 2),
            pen.n(percent.value, 2),
            pen.n(litres.value, 3),
            pen.n(days.value, 3),
            pen.n(per_element, 4)
        );
        let words = "What you cut and take out took this from the water, the food and the ground. Dry share and make-up of plants are \
                     from books, so the range is wide; it narrows with every cut.";
        Value {
            field: Some(format!("plants.uptake_{}", ion.name())),
            label: format!("{} taken in a day", ion.name()),
            unit: format!("mg/L {} a day", ion.formula()),
            known,
            why: why(
                &format!("trimmings-{}", ion.name()),
                format!("why {shown} of {} a day?", ion.name()),
                sum,
                words,
                &[&percent.source, "iupac_2022"],
            ),
        }
    };
    let values = vec![
        one(Ion::Nitrate, &figure.nitrogen_percent, Ion::Nitrate.molar_mass() / atom::N),
        one(Ion::Phosphate, &figure.phosphorus_percent, Ion::Phosphate.molar_mass() / atom::P),
        one(Ion::Potassium, &figure.potassium_percent, 1.0),
    ];
    let mut says = Vec::new();
    if tank.feeding == setup::Feeding::None {
        says.push(
            "Your ground feeds the plants, so a part of this never was in the water: taken as uptake from the water it is the \
             upper end."
                .to_owned(),
        );
    }
    if let (Some(was), Some(now)) = (tank.growth.uptake_mg_per_l_day.get(&Ion::Nitrate), values.first()) {
        says.push(format!(
            "I counted on {} mg/L of nitrate a day; your scale says {} ({}).",
            pen.n(was.value, 2),
            pen.n(now.known.value, 2),
            pen.likely(now.known)
        ));
    }
    Ok(Worked { values, flags: Vec::new(), says })
}
