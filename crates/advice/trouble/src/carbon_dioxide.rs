//! How much carbon dioxide the readings mean, and what all of a cylinder does to a room.
//!
//! What: free carbon dioxide from pH and alkalinity, the ends from the errors of both (harm rule 12); and the grams of a cylinder
//! over what a cubic metre bears (harm rule 14). Equation: the speciation; V = m/18 g/m³.
//! Range: that of `water::solve`; humic acids and phosphate spoil it. Source: `phreeqc_386`; limits of harm.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use quantity::{Digits, Kind, Known, format_number};
use setup::Tank;
use water::Carbon;

use crate::case::{Case, solved};
use crate::sum::{Sum, Urgency};
use crate::told::{anew_after, fresh_h};

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// Carbon dioxide by pH and alkalinity, mg/L: the ends by the errors of both. `None`: no pH was read, or outside the model's range.
fn by_readings(case: &Case) -> Option<Known<f64>> {
    let (ph, limit, t) = (case.told.last("ph")?.0, &case.book().harm.limit, case.temperature_c().value);
    let water = case.tank_water();
    let (by, error) = (limit.co2_ph_error.value(), limit.co2_alkalinity_error_percent.value() / 100.0);
    let at = |ph: f64, times: f64| {
        let mut water = water.clone();
        water.alkalinity_meq_per_l = water.alkalinity_meq_per_l.map(|meq| meq * times);
        solved(&water, 0.0, t, Carbon::Ph(ph)).map(|s| s.co2_mg_per_l())
    };
    Some(Known::ranged(at(ph + by, 1.0 - error)?, at(ph, 1.0)?, at(ph - by, 1.0 + error)?, Kind::WorkedOut))
}

/// Carbon dioxide whose upper end harms by the last readings (harm rule 12).
#[derive(Clone, Debug, PartialEq)]
pub struct CarbonRead {
    /// How much, in a line without a full stop: "59 mg/L by the readings, and it may be 82".
    pub much: String,
    /// What comes first where they are no longer today's.
    pub anew: Option<String>,
    /// Where stress begins, mg/L.
    pub most_mg_per_l: f64,
    /// What to do, with the number at which harm starts.
    pub says: String,
}

/// The same; only where pH and alkalinity were read within a day of each other: by a plan's alkalinity, or one of long ago, an acid tank would
/// seem full of it.
pub fn reading_harms(case: &Case) -> Option<CarbonRead> {
    let (ph_h, alkalinity_h) = (case.told.last_ago_h("ph")?, case.told.last_ago_h("alkalinity")?);
    if (ph_h - alkalinity_h).abs() > fresh_h() {
        return None;
    }
    let (co2, most) = (by_readings(case)?, case.book().harm.limit.co2_most_mg_per_l.value());
    let anew = anew_after(ph_h.max(alkalinity_h), "pH and alkalinity");
    (co2.high > most).then(|| CarbonRead { much: much(co2), anew, most_mg_per_l: most, says: off(most) })
}

fn much(co2: Known<f64>) -> String {
    format!("{} mg/L by the readings, and it may be {}", n(co2.value), n(co2.high))
}

fn off(most: f64) -> String {
    format!(
        "Off now, air on: above {} mg/L fish are in stress, above 50 to 60 in danger, and the upper end counts. Their breathing goes before every \
         reading.",
        n(most)
    )
}

/// What the readings mean.
pub(crate) fn water_sums(case: &Case) -> Vec<Sum> {
    let Some(ph) = case.told.get("ph") else { return given(case) };
    let limit = &case.book().harm.limit;
    let Some(co2) = by_readings(case) else { return Vec::new() };
    let (low, likely, high) = (co2.low, co2.value, co2.high);
    let (by, error) = (limit.co2_ph_error.value(), limit.co2_alkalinity_error_percent.value() / 100.0);
    let most = limit.co2_most_mg_per_l.value();
    let harms = high > most;
    let arithmetic = format!(
        "pH {} ± {} and the tank’s alkalinity {} ± {} %: {} to {} mg/L",
        n(ph),
        n(by),
        case.pen().alkalinity(case.tank_water().alkalinity_meq_per_l.value),
        n(100.0 * error),
        n(low),
        n(high)
    );
    let words = "pH is worth a tenth either way and alkalinity a tenth of it; humic acids and phosphate make the reading too high or too low.";
    let urgency = if harms { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let sum = Sum::new(
        "carbon-dioxide",
        urgency,
        format!("Carbon dioxide: {}", much(co2)),
        arithmetic,
        words,
        &["phreeqc_386"],
    )
    .figure("likely_mg_per_l", likely)
    .figure("high_mg_per_l", high);
    vec![match harms {
        true => sum.say(off(most)),
        false => sum.say(format!("Its upper end is under {} mg/L, above which fish are in stress. They breathe fast all the same? Off, and look for another cause.", n(most))),
    }]
}

/// Nothing was read: what the keeper gives, with its upper end.
fn given(case: &Case) -> Vec<Sum> {
    let Some(told) = case.tank.co2_given_mg_per_l else { return Vec::new() };
    let (may_be, most) = (recipe::may_be_mg_per_l(told), case.book().harm.limit.co2_most_mg_per_l.value());
    let urgency = if may_be > most { Urgency::AtOnce } else { Urgency::BeforeTheNextChange };
    let head = format!("You give {} mg/L of carbon dioxide by day: it may be {}", n(told.value), n(may_be));
    let words =
        "pH is worth a tenth either way and alkalinity a tenth of it: a figure that comes from them has an upper end.";
    let sum = Sum::new("carbon-dioxide", urgency, head, String::new(), words, &["timmons_ebeling_2010"])
        .figure("likely_mg_per_l", told.value)
        .figure("high_mg_per_l", may_be)
        .say(format!(
            "Above {} mg/L fish are in stress, above 50 to 60 in danger, and a valve that slipped gives any amount: fast breathing counts before \
             every figure. Off now, air on.",
            n(most)
        ))
        .say("Read pH and alkalinity in this minute, before it is aired off: they tell how much there was.");
    vec![sum]
}

/// What all of the cylinder does to a room.
pub(crate) fn room_sums(case: &Case) -> Vec<Sum> {
    cylinder_room(case.tank).into_iter().collect()
}

/// The room that all of the cylinder would fill to the share of the air at which harm begins; `None`: there is no cylinder.
pub fn cylinder_room(tank: &Tank) -> Option<Sum> {
    let cylinder = tank.keeping.cylinder?;
    let limit = &knowledge::book().harm.limit;
    let per_m3 = limit.co2_room_g_per_m3.value();
    let room_m3 = cylinder.holds_g / per_m3;
    let head = format!("All of your cylinder needs a room of {} m³ or more", n(room_m3));
    let arithmetic = format!(
        "{} g ÷ {} g/m³ ({} % of the air) = {} m³",
        n(cylinder.holds_g),
        n(per_m3),
        n(limit.co2_room_percent.value()),
        n(room_m3)
    );
    let words = "Carbon dioxide is heavier than air and gathers at the floor; half of that share is the eight-hour workplace value.";
    Some(
        Sum::new("cylinder-room", Urgency::BeforeTheNextChange, head, arithmetic, words, &["eu_2006_15"])
            .figure("room_m3", room_m3)
            .say(format!(
                "Let go at once it would fill {} m³ to {} %, which is where it must not stand in a smaller closed room: move it before it is used again.",
                n(room_m3),
                n(limit.co2_room_percent.value())
            )),
    )
}
