//! What a half change with this tap does: temperature, pH and toxic ammonia, alkalinity, hardness, conductivity.
//!
//! **What.** The tank after a half change and how far each figure jumps, against what animals bear in a day (harm rule 6);
//! the largest share whose jumps all stay inside. And cold water poured in, by itself.
//!
//! **Equation.** ΔY = x (Y_new - Y_tank) for what mixing conserves; largest x = limit/|Y_new - Y_tank|.
//!
//! **Symbols.** x share, 0 to 1.
//!
//! **Range.** Best estimates of both waters, and for temperature the end of the tap's year that differs most. Conductivity counts as
//! mixed by volume, a few parts in a hundred off.
//!
//! **Source.** Balance of mass and heat; limits: common practice.
//!
//! **Checked by** `tests/by_hand_half_change.rs`, `tests/harm.rs`.

use heat::{Pour, mixed_c};
use quantity::{Digits, HardnessUnit, Ion, Measure, format_number};
use setup::SourceWater;
use water::{Carbon, Solved, pco2_atm_of_room};

use crate::case::{Case, solved};
use crate::most::most_at_once;
use crate::sum::{Sum, Urgency};

const HALF: f64 = 0.5;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(3))
}

/// Cold (or warm) new water poured into what stands in the tank.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct ColdWater {
    /// The mix, °C.
    pub mixed_c: f64,
    /// By how much the tank moves, °C; below 0 it cools.
    pub moves_c: f64,
    /// More than an hour's limit.
    pub too_sudden: bool,
    /// New water that may go in all at once is no colder (or warmer) than this, °C.
    pub mildest_at_once_c: f64,
    /// Spread over a day, no colder (or warmer) than this, °C.
    pub mildest_in_a_day_c: f64,
    /// As it is: in so many equal pours, the tank as warm as before each.
    pub pours: f64,
    /// As it is: so many litres at once in place of tank water, at most.
    pub most_at_once_l: f64,
}

/// `new_l` at `new_c` into `tank_l` at `tank_c`, the water that it replaces being out already. `None`: no water.
pub fn cold_water(new_l: f64, new_c: f64, tank_l: f64, tank_c: f64) -> Option<ColdWater> {
    let limit = &knowledge::book().harm.limit;
    let (hour, day) = (limit.temperature_step_c_per_h.value(), limit.temperature_step_c.value());
    let mixed_c = mixed_c(&[(new_l, new_c), (tank_l, tank_c)])?;
    let pour = Pour { tank_c, new_c, share: new_l / (new_l + tank_l) };
    Some(ColdWater {
        mixed_c,
        moves_c: pour.moves_c(),
        too_sudden: pour.moves_c().abs() > hour,
        mildest_at_once_c: pour.mildest_c(hour),
        mildest_in_a_day_c: pour.mildest_c(day),
        pours: pour.pours(hour),
        most_at_once_l: pour.share_most(hour) * (new_l + tank_l),
    })
}

/// The temperature alone, for new water whose temperature is told, else at the end of the tap's year that differs most.
pub(crate) fn temperature_sums(case: &Case) -> Vec<Sum> {
    let Some(litres) = case.litres() else { return Vec::new() };
    let (tank_c, new) = (case.temperature_c().value, case.new_c());
    let ends = [new.low, new.high].into_iter();
    let new_c = ends.max_by(|a, b| (a - tank_c).abs().total_cmp(&(b - tank_c).abs())).unwrap_or(tank_c);
    let most_l = most_at_once(case) * litres;
    let new_l = case.told.get("new_litres").unwrap_or(most_l).min(litres);
    let Some(cold) = cold_water(new_l, new_c, litres - new_l, tank_c) else { return Vec::new() };
    let cold = ColdWater { most_at_once_l: cold.most_at_once_l.min(most_l), ..cold };
    vec![said(case, &cold, (new_l, new_c), (litres - new_l, tank_c))]
}

fn said(case: &Case, cold: &ColdWater, (new_l, new_c): (f64, f64), (rest_l, tank_c): (f64, f64)) -> Sum {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let (hour, day) = (limit.temperature_step_c_per_h.value(), limit.temperature_step_c.value());
    let verdict = if cold.too_sudden { "too sudden" } else { "gently enough" };
    let head = format!(
        "{} at {} into {} at {}: {}, {verdict}",
        pen.litres(new_l),
        pen.celsius(new_c),
        pen.litres(rest_l),
        pen.celsius(tank_c),
        pen.celsius(cold.mixed_c)
    );
    let arithmetic = format!(
        "({} L × {} + {} L × {}) ÷ {} L = {}",
        n(new_l),
        pen.celsius(new_c),
        n(rest_l),
        pen.celsius(tank_c),
        n(new_l + rest_l),
        pen.celsius(cold.mixed_c)
    );
    let words = "Mixing by volume; glass and ground are left out, which errs to the side of the new water.";
    let urgency = if cold.too_sudden { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let sum = Sum::new("new-water-temperature", urgency, head, arithmetic, words, &[])
        .figure("mixed_c", cold.mixed_c)
        .figure("moves_c", cold.moves_c)
        .figure("mildest_at_once_c", cold.mildest_at_once_c)
        .figure("pours", cold.pours);
    if !cold.too_sudden {
        return sum.say(format!(
            "More than {} in an hour or {} in a day is too much; this stays below.",
            pen.kelvin(hour),
            pen.kelvin(day)
        ));
    }
    sum.say(format!(
        "It moves the tank by {}; more than {} in an hour or {} in a day is too much. Don’t pour it so.",
        pen.kelvin(cold.moves_c.abs()),
        pen.kelvin(hour),
        pen.kelvin(day)
    ))
    .say(milder(case, cold, day))
    .say(by_and_by(case, cold, day))
}

/// New water that may go in.
fn milder(case: &Case, cold: &ColdWater, day: f64) -> String {
    let pen = case.pen();
    let than = if cold.moves_c < 0.0 { "colder" } else { "warmer" };
    // What moves it by less than a day's limit is spread by the hour's alone.
    let in_a_day = match cold.moves_c.abs() > day {
        true => format!("; spread over a day no {than} than {}", pen.celsius(cold.mildest_in_a_day_c)),
        false => String::new(),
    };
    format!(
        "Instead: new water no {than} than {}, measured in the bucket{in_a_day}. Warming it with kettle water is common \
         practice without a source: it scalds; into the bucket, never into the tank; stir, then measure before pouring.",
        pen.celsius(cold.mildest_at_once_c)
    )
}

/// The water as it is, in small parts.
fn by_and_by(case: &Case, cold: &ColdWater, day: f64) -> String {
    let pen = case.pen();
    let rest = match cold.moves_c.abs() > day {
        true => format!("; at most {} in a day all together, so the rest tomorrow", pen.kelvin(day)),
        false => String::new(),
    };
    format!(
        "As it is: at most {} at once in place of as much tank water, and the next when the tank is as warm as before{rest}.",
        pen.litres(cold.most_at_once_l)
    )
}

/// One figure that a change moves.
struct Jump {
    name: &'static str,
    from: String,
    to: String,
    limit: String,
    /// The largest share that stays inside the limit, 1 at most.
    share: f64,
}

fn jump(name: &'static str, tank: f64, new: f64, limit: f64, write: &dyn Fn(f64) -> String, most: String) -> Jump {
    let apart = (new - tank).abs();
    let share = if HALF * apart <= 1e-12 { 1.0 } else { (limit / apart).min(1.0) };
    Jump { name, from: write(tank), to: write(tank + HALF * (new - tank)), limit: most, share }
}

/// The tank's water and the new water, aired to the room.
struct Both {
    tank: SourceWater,
    new: SourceWater,
    was: Solved,
    comes: Solved,
}

/// The jumps of a half change.
fn jumps(case: &Case, both: &Both) -> [Jump; 4] {
    let (pen, limit, Both { tank, new, was, comes }) = (case.pen(), &case.book().harm.limit, both);
    let dh = limit.hardness_step_dh.value() * HardnessUnit::German.to_meq_per_l(1.0, Measure::Hardness);
    let meq = limit.alkalinity_step_meq_per_l.value();
    let percent = limit.conductivity_step_percent.value() / 100.0;
    let us = |v: f64| format!("{} µS/cm", pen.n(v, 3));
    let (from, to) = (tank.alkalinity_meq_per_l.value, new.alkalinity_meq_per_l.value);
    let alkalinity = jump("alkalinity", from, to, meq, &|v| pen.alkalinity(v), pen.alkalinity(meq));
    let (from, to) = (recipe::hardness_meq(tank).value, recipe::hardness_meq(new).value);
    let hardness = jump("hardness", from, to, dh, &|v| pen.hardness(v), pen.hardness(dh));
    let (from, to) = (was.conductivity_25_us_per_cm, comes.conductivity_25_us_per_cm);
    let conductivity = jump("conductivity", from, to, percent * from, &us, pen.percent(percent));
    let (from, to) = (tank.mg_per_l(Ion::Nitrate).value, new.mg_per_l(Ion::Nitrate).value);
    let step = limit.nitrate_step_mg_per_l.value();
    // Only a rise has a limit.
    let least = if to > from { step } else { f64::INFINITY };
    let nitrate = jump("nitrate", from, to, least, &|v| pen.ion(Ion::Nitrate, v), pen.ion(Ion::Nitrate, step));
    [alkalinity, hardness, conductivity, nitrate]
}

/// Both waters of a tank.
fn both(case: &Case) -> Option<Both> {
    let t = case.temperature_c().value;
    let (tank, new) = (case.tank_water(), case.new_water());
    let carbon = || Carbon::Pco2Atm(pco2_atm_of_room(case.tank.room_co2_ppm.value, t));
    let (was, comes) = (solved(&tank, 0.0, t, carbon())?, solved(&new, 0.0, t, carbon())?);
    Some(Both { tank, new, was, comes })
}

/// The largest share whose jumps all stay inside a day's limits, and the figure that limits it.
pub(crate) fn salts_most(case: &Case) -> Option<(f64, &'static str)> {
    let worst = jumps(case, &both(case)?).into_iter().min_by(|a, b| a.share.total_cmp(&b.share))?;
    Some((worst.share, worst.name))
}

/// What a half change moves, and the largest share whose jumps stay inside a day's limits. Nothing where something else keeps
/// changes below that: no line may offer more than another.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let Some(both) = both(case) else { return Vec::new() };
    let jumps = jumps(case, &both);
    let Some(worst) = jumps.iter().min_by(|a, b| a.share.total_cmp(&b.share)) else { return Vec::new() };
    if most_at_once(case) < HALF.min(worst.share) {
        return Vec::new();
    }
    let rows: Vec<String> =
        jumps.iter().map(|j| format!("{} {} → {} (at most {} a day)", j.name, j.from, j.to, j.limit)).collect();
    let shares: Vec<String> =
        jumps.iter().map(|j| format!("{}: {} of it at most", j.name, pen.percent(j.share))).collect();
    let (urgency, head) = match worst.share >= HALF {
        true => (Urgency::WhenItSuits, "Salts and pH bear a half change with this water".to_owned()),
        false => (
            Urgency::AtOnce,
            format!("Salts: at most {} in a day with this water, because of {}", pen.percent(worst.share), worst.name),
        ),
    };
    let words = "The day’s limit over what lies between tank and new water. A tank that was kept for long in other water must not be thrown \
                 into this one.";
    let apart = both.new.alkalinity_meq_per_l.value - both.tank.alkalinity_meq_per_l.value;
    let ratio = both.comes.conductivity_25_us_per_cm / both.was.conductivity_25_us_per_cm;
    let sum = Sum::new("half-change", urgency, head, shares.join("; "), words, &["phreeqc_386"])
        .figure("share_most", worst.share)
        .figure("alkalinity_jump_meq_per_l", HALF * apart)
        .figure("conductivity_jump_share", HALF * (ratio - 1.0))
        .say(format!("After a half change: {}.", rows.join("; ")))
        .say(format!(
            "pH {} → {} once it is aired. Where ammonia shows, whatever raises pH makes it more toxic (harm starts at {} mg/L of toxic ammonia, as \
             N): test before and after.",
            pen.n(both.was.ph, 3),
            pen.n(mixed_ph(case, HALF).unwrap_or(both.was.ph), 3),
            n(limit.ammonia_unionised_mg_n_per_l.value())
        ));
    vec![sum]
}

/// pH of the mix, aired to the room.
fn mixed_ph(case: &Case, share: f64) -> Option<f64> {
    let t = case.temperature_c().value;
    let carbon = || Carbon::Pco2Atm(pco2_atm_of_room(case.tank.room_co2_ppm.value, t));
    let tank = solved(&case.tank_water(), 0.0, t, carbon())?;
    let new = solved(&case.new_water(), 0.0, t, carbon())?;
    let mixed = water::blend(&[(1.0 - share, tank.conserved()), (share, new.conserved())]);
    let room = pco2_atm_of_room(case.tank.room_co2_ppm.value, t);
    water::solve(&mixed.open_to(room)).ok().map(|s| s.ph)
}
