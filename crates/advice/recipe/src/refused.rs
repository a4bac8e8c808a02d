//! Wishes that are refused, with their number and the honest ways instead. The wish for a pH stands first.
//!
//! What: a water aired to a room has one pH for its alkalinity. To lower it with acid, alkalinity must be destroyed, and
//! each milliequivalent frees a millimole of carbon dioxide: ΔA = A - A(pH), CO2 = 44.009 mg/mmol × ΔA.
//! A(pH) is the alkalinity at which the same water, aired to the room, stands at the wished pH (bisection on the
//! speciation). The share of low-mineral water that reaches it is found the same way, by blending and airing.
//! Symbols: A meq/L; CO2 mg/L.
//! Range: pH 4.5 to 10; that of `water::solve`.
//! Source: conservation of mass; molar mass `iupac_2022`; harm rules 9 and 12.
//! Checked by: `tests/refused_ph.rs`.

use quantity::basis::molar_mass;
use quantity::{Ion, Kind};
use setup::{SourceWater, Tank};
use water::{Conserved, Totals, blend, pco2_atm_of_room, solve};

use crate::desk::{Desk, source, why};
use crate::plan::{Indices, Refused};

/// Halvings of a bisection: 2^-40 of the range.
const HALVINGS: usize = 40;

/// A water as what mixing conserves; its carbon is not used, for it is aired.
fn conserved(water: &SourceWater, temperature_c: f64) -> Conserved {
    Conserved {
        totals: Totals::from_mg_per_l(&Ion::MAJOR.map(|ion| water.mg_per_l(ion).value)),
        alkalinity_eq_per_kg: water.alkalinity_meq_per_l.value / 1000.0,
        dic_mol_per_kg: 0.0,
        temperature_c,
    }
}

/// pH of a water aired to the tank's room at the tank's temperature.
fn aired_ph(tank: &Tank, water: &Conserved) -> Option<f64> {
    let t = tank.temperature_c.value;
    solve(&water.at_temperature(t).open_to(pco2_atm_of_room(tank.room_co2_ppm.value, t))).ok().map(|s| s.ph)
}

/// The place between `low` and `high` where `ph(x)` crosses `wished`; `ph` rises or falls all the way. `None`: nowhere.
fn crossing(low: f64, high: f64, wished: f64, ph: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let (at_low, at_high) = (ph(low)? - wished, ph(high)? - wished);
    if at_low * at_high > 0.0 {
        return None;
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if (ph(middle)? - wished) * at_low > 0.0 { low = middle } else { high = middle }
    }
    Some((low + high) / 2.0)
}

/// The wish for a pH, if it is not what the aired water has anyway.
pub(crate) fn wished_ph(desk: &Desk, new_water: &SourceWater, aired: Option<&Indices>) -> Option<Refused> {
    let wished = desk.tank.wish.ph?;
    let aired = aired?;
    if (aired.ph.low..=aired.ph.high).contains(&wished) {
        return None;
    }
    let tap = conserved(new_water, desk.tank.temperature_c.value);
    let alkalinity = tap.alkalinity_eq_per_kg;
    if wished > aired.ph.value {
        return Some(raise(desk, wished, aired, alkalinity_at(desk, &tap, alkalinity, 0.05, wished), alkalinity));
    }
    // Down to a water that would be acid: -0.1 meq/L is below any pH that is asked for.
    let left = alkalinity_at(desk, &tap, -1e-4, alkalinity, wished).unwrap_or(0.0);
    Some(lower(desk, wished, aired, &tap, left))
}

/// The alkalinity, eq/kg between `low` and `high`, at which this water stands at a pH once aired.
fn alkalinity_at(desk: &Desk, water: &Conserved, low: f64, high: f64, ph: f64) -> Option<f64> {
    crossing(low, high, ph, |eq| aired_ph(desk.tank, &Conserved { alkalinity_eq_per_kg: eq, ..*water }))
}

/// What answers a wish for a pH within the likely range of the water, which is no refusal.
pub(crate) fn reached_ph(desk: &Desk, new_water: &SourceWater, aired: &Indices) -> Option<String> {
    let (wished, pen) = (desk.tank.wish.ph?, &desk.pen);
    if !(aired.ph.low..=aired.ph.high).contains(&wished) {
        return None;
    }
    let told = pen.n(wished, 3);
    if (wished - aired.ph.value).abs() <= desk.book.recipe.worth.ph_met.value {
        return Some(format!("That meets your wish for pH {told}."));
    }
    let tap = conserved(new_water, desk.tank.temperature_c.value);
    let now = tap.alkalinity_eq_per_kg;
    let first =
        format!("Your wish for pH {told} lies within that range: test the tank before anything is done for it.");
    if wished < aired.ph.value {
        return Some(format!("{first} Should it stand higher: {}", blend_way(desk, wished, &tap)));
    }
    let way = alkalinity_at(desk, &tap, now, 0.05, wished).map_or_else(String::new, |eq| {
        format!(
            " Should it stand lower, wish for alkalinity: {} (your new water has {}) stands at pH {told} once aired. {}",
            pen.alkalinity(1000.0 * eq),
            pen.alkalinity(1000.0 * now),
            desk.book.harm.rule.ph_frees_ammonia.say
        )
    });
    Some(format!("{first}{way}"))
}

/// "Lower my hard tap to pH 6.5."
fn lower(desk: &Desk, wished: f64, aired: &Indices, tap: &Conserved, left: f64) -> Refused {
    let (pen, limit, rule) = (&desk.pen, &desk.book.harm.limit, &desk.book.harm.rule);
    let removed_meq = 1000.0 * (tap.alkalinity_eq_per_kg - left);
    let freed = molar_mass::CO2 * removed_meq;
    desk.why(why(
        "wish-ph",
        format!("why {} mg/L of carbon dioxide?", pen.n(freed, 3)),
        format!(
            "({} − {}) meq/L × 44.009 mg/mmol = {} mg/L",
            pen.n(1000.0 * tap.alkalinity_eq_per_kg, 4),
            pen.n(1000.0 * left, 3),
            pen.n(freed, 3)
        ),
        format!(
            "At {} ppm of carbon dioxide in the room this water stands at pH {} only with {} meq/L of alkalinity. Acid destroys the rest, and each \
             milliequivalent of it becomes a millimole of carbon dioxide.",
            pen.n(desk.tank.room_co2_ppm.value, 4),
            pen.n(wished, 3),
            pen.n(1000.0 * left, 3)
        ),
        &["iupac_2022", source(&limit.co2_most_mg_per_l)],
        Kind::WorkedOut,
    ));
    Refused {
        wish: format!("pH {}", pen.n(wished, 3)),
        why: format!(
            "Your water, aired to the room, stands at pH {} ({} to {}). To hold it at {} acid would have to destroy {} of its \
             alkalinity, and that frees {} mg/L of carbon dioxide. {} {}",
            pen.n(aired.ph.value, 3),
            pen.n(aired.ph.low, 3),
            pen.n(aired.ph.high, 3),
            pen.n(wished, 3),
            pen.alkalinity(removed_meq),
            pen.n(freed, 3),
            limit.co2_most_mg_per_l.say,
            rule.no_acid.say
        ),
        ways: vec![blend_way(desk, wished, tap), leave_way(desk, aired)],
    }
}

/// Low-mineral waters to blend with: the one at hand, else those that a household can get, the usual one first.
fn low_waters(desk: &Desk) -> Vec<(String, Conserved)> {
    let t = desk.tank.temperature_c.value;
    if let Some(low) = &desk.tank.low {
        return vec![(low.name.clone(), conserved(low, t))];
    }
    let listed = ["low_mineral", "demineralised"].into_iter().filter_map(|key| desk.book.waters.get(key));
    listed
        .map(|water| {
            let mg = Ion::MAJOR.map(|ion| water.ions.get(&ion).map_or(0.0, |s| s.value));
            let alkalinity_eq_per_kg = water.alkalinity_meq_per_l.value / 1000.0;
            let totals = Totals::from_mg_per_l(&mg);
            (water.name.clone(), Conserved { totals, alkalinity_eq_per_kg, dic_mol_per_kg: 0.0, temperature_c: t })
        })
        .collect()
}

/// Alkalinity under which nothing holds the pH through a week: one German degree, as far as a change may move it in a day.
fn little_buffer_meq(desk: &Desk) -> f64 {
    desk.book.harm.limit.alkalinity_step_meq_per_l.value()
}

fn blend_way(desk: &Desk, wished: f64, tap: &Conserved) -> String {
    let pen = &desk.pen;
    let waters = low_waters(desk);
    let mixed = |share: f64, low: Conserved| blend(&[(1.0 - share, *tap), (share, low)]);
    let reaching = waters.iter().find_map(|(name, low)| {
        let share = crossing(0.0, 1.0, wished, |share| aired_ph(desk.tank, &mixed(share, *low)))?;
        Some((name, share, 1000.0 * mixed(share, *low).alkalinity_eq_per_kg))
    });
    if let Some((name, share, alkalinity)) = reaching {
        let buffer = if alkalinity < little_buffer_meq(desk) {
            format!(
                "Only {} is left then, next to no buffer: such a water falls further within days as food is turned over, so alkalinity is tested \
                 every week.",
                pen.alkalinity(alkalinity)
            )
        } else {
            format!("{} is left to hold it.", pen.alkalinity(alkalinity))
        };
        return format!(
            "Blend: {} of {name} in the new water stands at pH {} once aired. It comes in steps, change by change. {buffer}",
            pen.share(share),
            pen.n(wished, 3)
        );
    }
    let alone = waters.last().map(|(name, low)| {
        let ph = aired_ph(desk.tank, low).map_or_else(|| "?".to_owned(), |ph| pen.n(ph, 3));
        format!("even {name} alone stands at pH {ph} once aired, so no share of it reaches {}", pen.n(wished, 3))
    });
    format!("Blend: {}.", alone.unwrap_or_else(|| "no low-mineral water is known to me here".to_owned()))
}

fn leave_way(desk: &Desk, aired: &Indices) -> String {
    format!(
        "Leave it be: choose plants and animals that suit pH {} to {}. It is steady, and steadiness is worth more to them than a figure.",
        desk.pen.n(aired.ph.low, 3),
        desk.pen.n(aired.ph.high, 3)
    )
}

/// A pH above what the water has: not by a base, but by alkalinity, in steps.
fn raise(desk: &Desk, wished: f64, aired: &Indices, alkalinity: Option<f64>, now: f64) -> Refused {
    let pen = &desk.pen;
    let way = alkalinity.map_or_else(
        || format!("No alkalinity within reason holds pH {} in this room's air.", pen.n(wished, 3)),
        |eq| {
            format!(
                "Wish for alkalinity instead: {} (your new water has {}) stands at pH {} once aired. {} {}",
                pen.alkalinity(1000.0 * eq),
                pen.alkalinity(1000.0 * now),
                pen.n(wished, 3),
                desk.book.harm.limit.alkalinity_step_meq_per_l.say,
                desk.book.harm.rule.ph_frees_ammonia.say
            )
        },
    );
    Refused {
        wish: format!("pH {}", pen.n(wished, 3)),
        why: format!(
            "Your water, aired to the room, stands at pH {} ({} to {}). A base in the tank would raise it for hours, and what ammonia there is turns toxic with it.",
            pen.n(aired.ph.value, 3),
            pen.n(aired.ph.low, 3),
            pen.n(aired.ph.high, 3)
        ),
        ways: vec![way, leave_way(desk, aired)],
    }
}
