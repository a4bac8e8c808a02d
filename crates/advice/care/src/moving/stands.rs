//! What stands in a tank before it goes over to another water: by its last readings, else as its plan has it, else nobody knows.
//!
//! **Equation.** y = n + (r − n) Π(1 − l ÷ V) for a reading r, n the new water of the changes of l litres since, V true litres.
//!
//! **Range.** Readings as old as a row of `data/away.toml`, the latest of each; one marked "not sure" or under a kit's lowest step tells nothing.
//! A tank that nobody changed for months stands at what was read; what was not read of it is not known.
//!
//! **Checked by** `tests/by_hand_moving_log.rs`.

use knowledge::book;
use logbook::{Reading, Sure, What};
use quantity::{Ion, Kind, Known};
use recipe::say::Pen;
use recipe::{Note, Plan, hardness_meq};
use setup::{SourceWater, Tank};

use crate::due::days_between;
use crate::log::Past;
use crate::start_waters::{in_tank, new_water};
use crate::start_words::{day, note};
use crate::top_up::piled_up;

/// A water with what is known of it.
pub(super) struct Stands {
    /// The water, with ranges; what is not known of it at the bad end.
    pub water: SourceWater,
    /// µS/cm at 25 °C as it was read.
    pub us_per_cm: Option<f64>,
    /// Whether alkalinity, hardness and the conductivity of it can be told.
    pub known: [bool; 3],
    /// What the log says of it, and what nobody knows: sentences with their heads.
    pub notes: Vec<Note>,
}

impl Stands {
    /// Whether alkalinity and hardness can be told, and so pH.
    pub fn ph_known(&self) -> bool {
        self.known[0] && self.known[1]
    }
}

/// What stands in a tank under its plan, by its log.
pub(super) fn stands(tank: &Tank, plan: &Plan, past: &Past) -> Stands {
    let (mut water, new) = (in_tank(tank, plan), new_water(tank, plan));
    let old = tank.unchanged_months.is_some_and(|months| months > 0.0);
    let mut known = [!old; 3];
    let mut said: Vec<String> = Vec::new();
    let pen = Pen::new(&tank.units);
    let mut of = |key: &str, fresh: f64| -> Option<Known<f64>> {
        let (reading, mixed) = read(tank, past, key, fresh)?;
        said.push(format!("{} on {}", words(&pen, key, reading.value), day(reading.on)));
        Some(mixed)
    };
    // What months of topping up piled up is known to nobody: the upper end counts.
    let times = piled_up(tank).unwrap_or(0.0);
    match of("alkalinity", new.alkalinity_meq_per_l.value) {
        Some(read) => (water.alkalinity_meq_per_l, known[0]) = (read, true),
        None => {
            let high = times * tank.tap.alkalinity_meq_per_l.high;
            water.alkalinity_meq_per_l.high = water.alkalinity_meq_per_l.high.max(high);
        }
    }
    match of("hardness", hardness_meq(&new).value) {
        Some(read) => {
            harden(&mut water, read);
            known[1] = true;
        }
        None => {
            for ion in [Ion::Calcium, Ion::Magnesium] {
                let (mut level, high) = (water.mg_per_l(ion), times * tank.tap.mg_per_l(ion).high);
                level.high = level.high.max(high);
                water.ions.insert(ion, level);
            }
        }
    }
    if let Some(read) = of("nitrate", new.mg_per_l(Ion::Nitrate).value) {
        water.ions.insert(Ion::Nitrate, read);
    }
    let us = |water: &SourceWater| recipe::aired(tank, water).map(|i| i.conductivity_25_us_per_cm.value);
    let us_per_cm = of("conductivity", us(&new).unwrap_or_default()).map(|read| read.value);
    known[2] |= us_per_cm.is_some();
    let mut notes: Vec<Note> = untold(tank, known, &pen).into_iter().collect();
    if !said.is_empty() {
        let text = format!("{}. From there the way begins; water that you changed since is counted.", said.join("; "));
        notes.push(note("By your log", recipe::say::capital(&text)));
    }
    Stands { water, us_per_cm, known, notes }
}

/// A reading with its day.
struct Read {
    value: f64,
    on: jiff::civil::Date,
}

/// The last reading, and what stands there after the changes since, with the kit's error; `new`: the same of the new water.
fn read(tank: &Tank, past: &Past, key: &str, new: f64) -> Option<(Read, Known<f64>)> {
    let most = book().away.reading_days.value;
    let litres = tank.geometry.true_l.value;
    let mut left = 1.0;
    for (on, kept) in past.entries().rev().filter(|(on, _)| days_between(*on, past.today()) as f64 <= most) {
        match &kept.entry.what {
            What::Change { litres: l } if litres > 0.0 => left *= 1.0 - (l / litres).clamp(0.0, 1.0),
            What::Test(reading) if reading.of == key && sure(reading) => {
                let now = |value: f64| new + (value - new) * left;
                let error = reading.error.unwrap_or(0.0).max(0.0);
                let (low, high) = (now((reading.value - error).max(0.0)), now(reading.value + error));
                let mixed = Known::ranged(low, now(reading.value), high, Kind::Measured);
                return Some((Read { value: reading.value, on }, mixed));
            }
            _ => {}
        }
    }
    None
}

fn sure(reading: &Reading) -> bool {
    reading.sure != Sure::NotSure && !reading.below && reading.value.is_finite()
}

/// Calcium and magnesium in their proportion, so that the hardness is what was read; calcium alone where there was none.
fn harden(water: &mut SourceWater, read: Known<f64>) {
    let was = hardness_meq(water).value;
    if was <= 0.0 {
        let mg_per_meq = Ion::Calcium.molar_mass() / f64::from(Ion::Calcium.charge());
        water.ions.insert(Ion::Calcium, read.map(|meq| meq * mg_per_meq));
        return;
    }
    for ion in [Ion::Calcium, Ion::Magnesium] {
        let mg = water.mg_per_l(ion).value;
        water.ions.insert(ion, read.map(|meq| mg * meq / was));
    }
}

/// A reading in words.
fn words(pen: &Pen, key: &str, value: f64) -> String {
    match key {
        "alkalinity" => format!("alkalinity {}", pen.alkalinity(value)),
        "hardness" => format!("hardness {}", pen.hardness(value)),
        "nitrate" => pen.ion(Ion::Nitrate, value),
        _ => format!("conductivity {} µS/cm", pen.n(value, 3)),
    }
}

/// What nobody knows of a tank that was not changed for months: a test decides.
fn untold(tank: &Tank, [alkalinity, hardness, _]: [bool; 3], pen: &Pen) -> Option<Note> {
    let what = match (alkalinity, hardness) {
        (true, true) => return None,
        (false, false) => "hardness and alkalinity",
        (false, true) => "alkalinity",
        (true, false) => "hardness",
    };
    let piled = piled_up(tank).map(|times| {
        let most_alkalinity = pen.alkalinity(times * tank.tap.alkalinity_meq_per_l.high);
        let most_hardness = pen.hardness(times * hardness_meq(&tank.tap).high);
        let most = match (alkalinity, hardness) {
            (false, false) => {
                format!("{most_alkalinity} of alkalinity and {most_hardness} of hardness, or hardly any alkalinity")
            }
            (false, true) => format!("{most_alkalinity} of it, or hardly any"),
            _ => format!("{most_hardness} of it"),
        };
        format!(" It was topped up with your tap: up to {most} may stand there.")
    });
    Some(note(
        "Test your tank first",
        format!(
            "Its {what}, ammonia and pH, and write them into the log. It was not changed for months: of {what} I can’t tell what stands there, so \
             none stands here as now, and the days are counted for as far off as it may be.{}",
            piled.unwrap_or_default()
        ),
    ))
}
