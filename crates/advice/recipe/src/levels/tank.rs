//! A tank's numbers put into the cycle: level of an ion, or alkalinity, with the range that tap and uptake give it.
//!
//! The poorest case is the tap at its year's minimum with the most that plants are likely to take; the richest the other
//! way round. Each ion stands at its own minimum and maximum: not all are there at once, so charges need not balance.

use std::collections::BTreeMap;

use knowledge::{Feeding as Wish, Levels, book};
use quantity::{Ion, Kind, Known};
use setup::{Energy, Feeding, SourceWater, Tank};

use super::{Cycle, Passed, simulate, tide};
use crate::plan::Level;

/// Low, best and high of something: the three cases that every level is worked out for, poorest first.
type Cases = [Cycle; 3];

/// Bands to stay in, mg/L of the ion: those of the keeper's wish and light, and the keeper's own before them. A soil
/// tank has none but the keeper's own. Where the keeper wishes a hardness, the table's upper edges of calcium and magnesium
/// follow it: either may be all of it.
pub fn bands(tank: &Tank) -> BTreeMap<Ion, (f64, f64)> {
    let all_of = |ion: Ion| match (ion, tank.wish.hardness_meq_per_l) {
        (Ion::Calcium | Ion::Magnesium, Some((_, most))) => most * ion.molar_mass() / f64::from(ion.charge().abs()),
        _ => 0.0,
    };
    let table =
        row(tank).map(|(row, _)| row.bands.iter().map(|(&ion, band)| (ion, (band.low, band.high.max(all_of(ion))))));
    table.into_iter().flatten().chain(tank.wish.bands.iter().map(|(&ion, &band)| (ion, band))).collect()
}

/// The row of `data/levels.toml` for a tank, and whether it is the very one that was wished: "just enough" in much light
/// and "plenty" in little have none, and the nearest wish in the same light stands in.
pub(crate) fn row(tank: &Tank) -> Option<(&'static Levels, bool)> {
    let wish = match tank.feeding {
        Feeding::JustEnough => Wish::JustEnough,
        Feeding::Comfortable => Wish::Comfortable,
        Feeding::Plenty => Wish::Plenty,
        Feeding::None => return None,
    };
    let energy = match tank.energy {
        Energy::Low => knowledge::Energy::Low,
        Energy::Medium => knowledge::Energy::Medium,
        Energy::High => knowledge::Energy::High,
    };
    let exact = book().levels(wish, energy).map(|row| (row, true));
    exact.or_else(|| book().levels(Wish::Comfortable, energy).map(|row| (row, false)))
}

/// mg/L a day that plants take, net of what food brings.
pub fn net_uptake(tank: &Tank, ion: Ion) -> Known<f64> {
    let none = Known::exact(0.0, Kind::WorkedOut);
    let taken = tank.growth.uptake_mg_per_l_day.get(&ion).copied().unwrap_or(none);
    let brought = tank.growth.food_mg_per_l_day.get(&ion).copied().unwrap_or(none);
    Known::ranged(
        taken.low - brought.high,
        taken.value - brought.value,
        taken.high - brought.low,
        taken.kind.weaker(brought.kind),
    )
}

/// The water that tops up.
fn topping(tank: &Tank) -> &SourceWater {
    match &tank.low {
        Some(low) if tank.habits.top_up_with == "low" => low,
        _ => &tank.tap,
    }
}

/// What topping up brings a day, for a concentration in the water that tops up: evaporation takes water and leaves salts.
/// From change to change its best estimate does; where nothing takes it out it gathers for months, and its range with it.
fn gained(tank: &Tank, in_water: Known<f64>) -> Known<f64> {
    let turns = tank.habits.top_up_l_per_day.map(|l| l / tank.geometry.true_l.value.max(f64::MIN_POSITIVE));
    let (low, high) = if tank.is_changed() { (turns.value, turns.value) } else { (turns.low, turns.high) };
    Known::ranged(in_water.low * low, in_water.value * turns.value, in_water.high * high, in_water.kind)
}

/// Days since the last whole renewal, as the keeper told them; four weeks where nobody did.
fn unchanged_days(tank: &Tank) -> u32 {
    tank.unchanged_days().map_or(Cycle::DRIFT_DAYS, |days| days.round().max(1.0) as u32)
}

/// mg/L a day of an ion that topping up brings.
pub fn top_up_per_day(tank: &Tank, ion: Ion) -> Known<f64> {
    gained(tank, topping(tank).mg_per_l(ion))
}

/// meq/L a day of alkalinity that topping up brings.
pub fn top_up_alkalinity_per_day(tank: &Tank) -> Known<f64> {
    gained(tank, topping(tank).alkalinity_meq_per_l)
}

/// The new water of a change: tap and low-mineral water by share, and what is added to it.
fn new_water(tank: &Tank, of: impl Fn(&SourceWater) -> Known<f64>, addition: f64, low_share: f64) -> Known<f64> {
    let (tap, low) = (of(&tank.tap), tank.low.as_ref().map_or(of(&tank.tap), &of));
    let blend = |tap: f64, low: f64| (1.0 - low_share) * tap + low_share * low + addition;
    let kind = if low_share > 0.0 { tap.kind.weaker(low.kind) } else { tap.kind };
    Known::ranged(blend(tap.low, low.low), blend(tap.value, low.value), blend(tap.high, low.high), kind)
}

fn cases(tank: &Tank, water: Known<f64>, dose: f64, uptake: Known<f64>, gain: Known<f64>, floor: bool) -> Cases {
    let one = |tap, uptake_per_day, top_up_per_day| Cycle {
        tap,
        dose_per_day: dose,
        uptake_per_day,
        top_up_per_day,
        change_share: tank.habits.change_share.value,
        every_days: tank.habits.every_days,
        floor,
        unchanged_days: unchanged_days(tank),
    };
    [
        one(water.low, uptake.high, gain.low),
        one(water.value, uptake.value, gain.value),
        one(water.high, uptake.low, gain.high),
    ]
}

/// The cycle of an ion at the best estimate. `dose_per_day` and `new_water_addition` in mg/L.
pub fn cycle(tank: &Tank, ion: Ion, dose_per_day: f64, new_water_addition: f64, low_share: f64) -> Cycle {
    let water = new_water(tank, |w| w.mg_per_l(ion), new_water_addition, low_share);
    cases(tank, water, dose_per_day, net_uptake(tank, ion), top_up_per_day(tank, ion), true)[1]
}

/// The cycle of alkalinity at the best estimate. `dose_per_day` and `new_water_addition` in meq/L.
pub fn alkalinity_cycle(tank: &Tank, dose_per_day: f64, new_water_addition: f64, low_share: f64) -> Cycle {
    alkalinity_cases(tank, dose_per_day, new_water_addition, low_share).0[1]
}

fn alkalinity_cases(tank: &Tank, dose: f64, addition: f64, low_share: f64) -> (Cases, Known<f64>) {
    let water = new_water(tank, |w| w.alkalinity_meq_per_l, addition, low_share);
    let gain = top_up_alkalinity_per_day(tank);
    (cases(tank, water, dose, eaten_per_day(tank), gain, false), water)
}

/// Level of an ion under a dose (mg/L a day) and an addition to the new water (mg/L), with `low_share` (0 to 1) of
/// low-mineral water in it. mg/L of the ion.
pub fn level(tank: &Tank, ion: Ion, dose_per_day: f64, new_water_addition: f64, low_share: f64) -> Level {
    let water = new_water(tank, |w| w.mg_per_l(ion), new_water_addition, low_share);
    let uptake = net_uptake(tank, ion);
    let cases = cases(tank, water, dose_per_day, uptake, top_up_per_day(tank, ion), true);
    let band = bands(tank).get(&ion).copied();
    assemble(Some(ion), cases, water, uptake, band, format!("level-{}", ion.name()))
}

/// When the poorest case of a level holds, in words: what varies is the tap, or where the tap is exact what plants take.
pub fn poorest(level: &Level) -> &'static str {
    let (tap, taken) = (level.new_water, level.uptake_per_day);
    match (tap.high > tap.low, taken.high > taken.low) {
        (true, true) => "at the poorest tap, where plants take the most that is likely,",
        (true, false) => "at the poorest tap",
        (false, _) => "where plants take the most that is likely",
    }
}

/// meq/L a day of alkalinity that nitrification eats. Plants that take nitrate give one equivalent a mole back: that is
/// not counted, so the level shown is the poorer one.
pub fn eaten_per_day(tank: &Tank) -> Known<f64> {
    tank.growth.alkalinity_eaten_meq_per_l_day
}

/// Alkalinity under a dose (meq/L a day) and an addition to the new water (meq/L). meq/L.
pub fn alkalinity(tank: &Tank, dose_per_day: f64, new_water_addition: f64, low_share: f64) -> Level {
    let (cases, water) = alkalinity_cases(tank, dose_per_day, new_water_addition, low_share);
    let band = tank.wish.alkalinity_meq_per_l;
    assemble(None, cases, water, eaten_per_day(tank), band, "level-alkalinity".to_owned())
}

fn assemble(
    ion: Option<Ion>,
    cases: Cases,
    new_water: Known<f64>,
    uptake_per_day: Known<f64>,
    band: Option<(f64, f64)>,
    why: String,
) -> Level {
    let [poorest, best, richest] = cases.map(|case| case.swing());
    let kind = new_water.kind.weaker(uptake_per_day.kind).weaker(Kind::WorkedOut);
    let passes = cases.map(|case| two_cycles(&case));
    let points = tide([&passes[0], &passes[1], &passes[2]]);
    Level {
        ion,
        new_water,
        dose_per_day: cases[1].dose_per_day,
        uptake_per_day,
        top_up_per_day: Known::ranged(
            cases[0].top_up_per_day,
            cases[1].top_up_per_day,
            cases[2].top_up_per_day,
            Kind::WorkedOut,
        ),
        unchanged_days: (!cases[1].changes()).then_some(cases[1].unchanged_days),
        after_change: Known::ranged(poorest.after_change, best.after_change, richest.after_change, kind),
        before_change: Known::ranged(poorest.before_change, best.before_change, richest.before_change, kind),
        lowest: best.lowest,
        highest: best.highest,
        band,
        runs_out_day: best.runs_out_day,
        runs_out_day_poorest: poorest.runs_out_day,
        tide: points.iter().map(|&(day, [_, best, _])| (day, best)).collect(),
        likely: points.iter().map(|&(day, [low, _, high])| (day, low, high)).collect(),
        why,
    }
}

/// Two cycles from right before a change; without changes, the last days up to today.
fn two_cycles(cycle: &Cycle) -> Vec<Passed> {
    if cycle.changes() {
        return simulate(cycle.before_change(), &cycle.schedule(2 * cycle.days()));
    }
    let days = cycle.days().min(Cycle::DRIFT_DAYS);
    simulate(cycle.drifted(f64::from(cycle.days() - days)), &cycle.schedule(days))
}
