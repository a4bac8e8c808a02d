//! Light on the ground from a phone's lux.
//!
//! What: photons of 400 to 700 nm on the bare ground, µmol/m²s.
//! Equation: PPFD = E p k/1000 w.
//! Symbols: E lux as shown; p true lux for a phone's lux; k µmol/s for 1,000 lm, of the lamp's spectrum; w light on the ground
//! under water for light where the phone lay.
//! Range: white light of one kind of lamp. Red and blue lamps can't be told by lux: a thousand lumens of them hold ten times the photons.
//! Source: `cie_015_2018` for k (luminous efficacy 683 lm/W and the photon's energy: `bipm_si_2019`); p and w assumed.
//! Checked by: `tests/by_hand_measures.rs`, `tests/handbook_light.rs`.

use quantity::{Fault, Kind, Known};
use setup::{Tank, propagate};

use crate::say::{Pen, why};
use crate::{Name, Readings, Value, Worked, figures};

/// Seconds in eight hours.
const EIGHT_HOURS_S: f64 = 8.0 * 3600.0;

/// Photons from the readings.
pub(crate) fn work(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let (pen, figure, tables) = (Pen(&tank.units), figures(), &knowledge::book().measures);
    let lux = readings.need(Name::Light, "lux")?;
    let lamp = readings.word(Name::Light, "lamp");
    let row = tables.lamp.get(&lamp).ok_or_else(|| Fault::new(format!("I know no lamp `{lamp}`")))?;
    let place = if readings.word(Name::Light, "where") == "over" { &figure.over_water } else { &figure.dry_ground };
    let inputs = [lux, figure.phone.known(), row.per_klm.known(), place.known()];
    let photons = Known { kind: Kind::Measured, ..propagate(&inputs, |[e, p, k, w]| e * p * k / 1000.0 * w) };
    let sum = format!(
        "{} lx × {} ÷ 1000 × {} = {} µmol/m²s",
        pen.n(lux.value, 3),
        pen.n(row.per_klm.value, 3),
        pen.n(place.value, 2),
        pen.n(photons.value, 2)
    );
    let words = "Lux count light as eyes see it, plants count photons. For white lamps the two go together; the phone, the water and \
                 the panes make the range wide.";
    let says = vec![
        format!("That is {} (rule of thumb, no source).", tables.light_words(photons.value)),
        format!(
            "Eight hours of it are {} mol of photons for a square metre and day.",
            pen.n(EIGHT_HOURS_S * 1e-6 * photons.value, 2)
        ),
    ];
    let value = Value {
        field: Some("measured.photons".to_owned()),
        label: "light on the bare ground".to_owned(),
        unit: "µmol/m²s".to_owned(),
        known: photons,
        why: why(
            "photons",
            format!("why {} µmol/m²s?", pen.n(photons.value, 2)),
            sum,
            words,
            &[&row.per_klm.source, "bipm_si_2019"],
        ),
    };
    Ok(Worked::one(value, says))
}
