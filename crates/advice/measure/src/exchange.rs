//! Exchange with the air, from two readings of oxygen or of pH.
//!
//! What: the rate at which oxygen nears its level in balance with air, as it would be at 20 °C, 1/h.
//!
//! Equation: C(t) = C_r + (C0 - C_r) exp(-k t), so k = ln((C0 - C_r)/(C1 - C_r))/t. Carbon dioxide from pH and alkalinity by the
//! speciation of crate `water`; from its k to that of oxygen at 20 °C by `water::Surface` (ratio of Schmidt numbers, 1.024 a degree).
//!
//! Symbols: C mg/L; C_r the level of rest, read in the morning or else the balance with air less (oxygen) or more (carbon dioxide)
//! what is breathed at night; t hours.
//!
//! Range: nothing but exchange and an even breathing between the readings: dark, nothing given, the same pumps on.
//!
//! Source: `wanninkhof_1992`; `asce_2006` (1.024); `benson_krause_1984`; `phreeqc_386`.
//!
//! Checked by: `tests/closed_form_exchange.rs` (readings made by `water::Exchange`), `tests/by_hand_measures.rs`.

use quantity::{Fault, Ion, Known};
use setup::Tank;
use water::{Carbon, Sample, Surface, Totals, co2_at_saturation_mg_per_l, oxygen_at_saturation_mg_per_l};

use crate::say::{Pen, rule, spread, why};
use crate::{Name, Readings, Value, Worked, figures};

/// What is said before carbon dioxide is read.
pub(crate) fn brief(tank: &Tank) -> Vec<String> {
    if tank.co2_given_mg_per_l.is_none() {
        return vec!["You give no carbon dioxide, so there is nothing to fall: take the way by oxygen.".to_owned()];
    }
    vec![format!("{} {}", rule("co2_never_raised"), rule("filter_and_air_stay"))]
}

/// By carbon dioxide, from pH and alkalinity.
pub(crate) fn by_co2(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let need = |key: &str| readings.need(Name::Co2, key);
    let (ph0, ph1, hours) = (need("ph_start")?, need("ph_end")?, need("hours")?);
    let (alkalinity, water) = (need("alkalinity")?, need("water")?);
    let rest = readings.find("ph_rest");
    let co2 = |ph: f64, alkalinity: f64, c: f64| co2_mg_per_l(tank, ph, alkalinity, c).unwrap_or(f64::NAN);
    let room = |c: f64| co2_at_saturation_mg_per_l(tank.room_co2_ppm.value, c).unwrap_or(f64::NAN);
    // With a morning's pH the level of rest follows from it, else from the room and a guess at what is breathed.
    let over = rest.unwrap_or(figures().rest_over_air_mg_per_l.known());
    let inputs = [ph0, ph1, hours, alkalinity, water, over, figures().exchange_exponent.known()];
    let rate = |[p0, p1, h, alk, c, over, n]: &[f64; 7]| {
        let at_rest = if rest.is_some() { co2(*over, *alk, *c) } else { room(*c) + over };
        let k = per_h(co2(*p0, *alk, *c), co2(*p1, *alk, *c), at_rest, *h);
        k / Surface { oxygen_per_h_at_20: 1.0, exponent: *n }.carbon_dioxide_per_h(*c)
    };
    let pen = Pen(&tank.units);
    let at = |ph: f64| pen.n(co2(ph, alkalinity.value, water.value), 2);
    let sum =
        format!("carbon dioxide fell from {} to {} mg/L in {} h", at(ph0.value), at(ph1.value), pen.n(hours.value, 2));
    let limit = &knowledge::book().harm.limit;
    // For a difference of two readings one instrument errs less than for the water itself: there the wider error counts.
    let lowest_ph = ph0.low.min(ph0.value - limit.co2_ph_error.value());
    let highest = alkalinity.high.max(alkalinity.value * (1.0 + limit.co2_alkalinity_error_percent.value() / 100.0));
    let most = co2_mg_per_l(tank, lowest_ph, highest, water.value);
    finish(tank, spread(&inputs, rate), sum, too_much(tank, &at(ph0.value), most))
}

/// With animals the upper end of the first reading is held against the number at which harm starts (`most` mg/L).
fn too_much(tank: &Tank, shown: &str, most: Option<f64>) -> Vec<String> {
    let limit = &knowledge::book().harm.limit.co2_most_mg_per_l;
    let over = most.filter(|most| tank.animals.any() && *most > limit.value());
    over.map_or_else(Vec::new, |most| {
        vec![format!(
            "At once: it stays off, air on. When you began the water held {shown} mg/L of carbon dioxide, and it may have been {}. {} Then less of it, raised over days, and off at any fast breathing. {}",
            Pen(&tank.units).n(most, 2),
            limit.say,
            rule("filter_and_air_stay")
        )]
    })
}

/// By oxygen.
pub(crate) fn by_oxygen(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let need = |key: &str| readings.need(Name::Oxygen, key);
    let (start, end, hours, water) = (need("start")?, need("end")?, need("hours")?, need("water")?);
    let rest = readings.find("rest");
    let air = |c: f64| oxygen_at_saturation_mg_per_l(c, 1.0).unwrap_or(f64::NAN);
    let under = rest.unwrap_or(figures().rest_under_air_mg_per_l.known());
    let at_20 = |c: f64| Surface { oxygen_per_h_at_20: 1.0, exponent: 0.5 }.oxygen_per_h(c);
    let rate = |[c0, c1, h, c, under]: &[f64; 5]| {
        let at_rest = if rest.is_some() { *under } else { air(*c) - under };
        per_h(*c0, *c1, at_rest, *h) / at_20(*c)
    };
    let known = spread(&[start, end, hours, water, under], rate);
    let pen = Pen(&tank.units);
    let mut says = Vec::new();
    if let Some((rest, known)) = rest.zip(known) {
        let eaten = known.value * at_20(water.value) * (air(water.value) - rest.value);
        says.push(format!(
            "By night animals, plants and bacteria use about {} mg/L of oxygen an hour.",
            pen.n(eaten.max(0.0), 2)
        ));
        let low = knowledge::book().meanings.meaning.iter().find(|meaning| meaning.key == "oxygen_low");
        if let Some(low) = low.filter(|low| low.bound.is_some_and(|bound| rest.value < bound)) {
            says.push(format!(
                "In the morning you read {} mg/L. {} Let the surface move more at once, or give air.",
                pen.n(rest.value, 2),
                low.says
            ));
        }
    }
    let sum = format!(
        "oxygen went from {} to {} mg/L in {} h",
        pen.n(start.value, 3),
        pen.n(end.value, 3),
        pen.n(hours.value, 2)
    );
    finish(tank, known, sum, says)
}

/// First order towards a level: 1/h; not a number where the readings don't near it.
fn per_h(start: f64, end: f64, rest: f64, hours: f64) -> f64 {
    let ratio = (start - rest) / (end - rest);
    if ratio > 1.0 && hours > 0.0 { ratio.ln() / hours } else { f64::NAN }
}

/// Free carbon dioxide of a water of the tap's make-up with this alkalinity (meq/L). `None`: outside the speciation.
fn co2_mg_per_l(tank: &Tank, ph: f64, alkalinity: f64, temperature_c: f64) -> Option<f64> {
    let mg = Ion::MAJOR.map(|ion| tank.tap.mg_per_l(ion).value);
    let sample = Sample {
        temperature_c,
        totals: Totals::from_mg_per_l(&mg),
        alkalinity_eq_per_kg: Some(alkalinity / 1000.0),
        carbon: Carbon::Ph(ph),
    };
    water::solve(&sample).ok().map(|solved| solved.co2_mg_per_l())
}

fn finish(tank: &Tank, rate: Option<Known<f64>>, sum: String, mut says: Vec<String>) -> Result<Worked, Fault> {
    let pen = Pen(&tank.units);
    let known = rate.filter(|rate| rate.low > 0.0).ok_or_else(|| {
        Fault::new("the two readings don’t near the level of rest by more than their errors")
            .expected("a first reading far from rest, a second one on the way to it")
            .hint("read the second one sooner, or with an instrument that shows finer steps; the morning’s reading helps most")
    })?;
    says.push(format!(
        "Half of the way to balance takes about {} hours ({} to {}).",
        pen.n(f64::ln(2.0) / known.value, 2),
        pen.n(f64::ln(2.0) / known.high, 2),
        pen.n(f64::ln(2.0) / known.low, 2)
    ));
    let shown = format!("{} an hour", pen.n(known.value, 2));
    let words = "Each hour this share of the distance to the balance with the room's air is closed, counted for oxygen at 20 °C. It holds for the \
                 pumps that ran while you measured.";
    let value = Value {
        field: Some("measured.oxygen_exchange".to_owned()),
        label: "exchange of oxygen with the air at 20 °C".to_owned(),
        unit: "/h".to_owned(),
        known,
        why: why(
            "exchange",
            format!("why {shown}?"),
            format!("{sum}: {shown}"),
            words,
            &["wanninkhof_1992", "asce_2006"],
        ),
    };
    Ok(Worked::one(value, says))
}
