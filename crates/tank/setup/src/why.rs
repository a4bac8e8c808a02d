//! Why the tank's numbers are what they are, in figures.

use knowledge::Book;
use quantity::amount::{Length, Mass, Share, Volume};
use quantity::{Digits, Ion, Kind, Known, Units, Why, format_number};

use crate::Tank;
use crate::balance::{charge_balance_percent, charge_meq_per_l};
use crate::given::Given;
use crate::glass::{GRAVITY, Glass};

/// All why-notes of a tank.
pub(crate) fn all(tank: &Tank, given: &Given, glass: &Glass, book: &Book) -> Vec<Why> {
    let mut whys = vec![
        litres(tank, glass, &tank.units),
        surface(tank, &tank.units),
        mass(tank, glass, book, &tank.units),
        pressure(tank, glass, &tank.units),
        uptake(tank, given, book),
        food_nitrate(tank, given, book),
        food_phosphate(tank, given, book),
        alkalinity_eaten(tank, book),
    ];
    whys.extend(balance(tank));
    whys
}

fn why(key: &str, question: String, sum: String, words: &str, kind: Kind) -> Why {
    Why { key: key.to_owned(), question, sum, words: words.to_owned(), sources: Vec::new(), kind }
}

fn round_to(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(3))
}

fn length(metres: f64, units: &Units) -> String {
    Length::metres(metres).print(units)
}

fn volume(litres: f64, units: &Units) -> String {
    Volume::litres(litres).print(units)
}

fn kilograms(kg: f64, units: &Units) -> String {
    Mass::kilograms(kg).print(units)
}

fn likely(known: Known<f64>, show: impl Fn(f64) -> String) -> String {
    if known.low == known.high {
        String::new()
    } else {
        format!(", likely {} to {}", show(known.low), show(known.high))
    }
}

fn litres(tank: &Tank, glass: &Glass, units: &Units) -> Why {
    let g = &tank.geometry;
    if let Some(measured) = tank.measured.litres {
        let shown = volume(measured.value, units);
        let by_size = volume(glass.water_l().value, units);
        let sum = format!("measured: {shown}{}; by its sizes {by_size}", likely(measured, |l| volume(l, units)));
        let words =
            "You measured the water that mixes in this tank. Doses go by it, and no longer by the sizes of the glass.";
        return why("true-litres", format!("why {shown}?"), sum, words, measured.kind);
    }
    let [filled, grains, rock, wood] = glass.parts_l();
    let floor = format!("{} × {}", length(g.length_m, units), length(g.width_m, units));
    let mut sum = format!(
        "{floor} × {} = {}; less the grains of the ground {floor} × ({} + {}) ÷ 2 × (1 − {}) = {}",
        length(g.waterline_m, units),
        volume(filled, units),
        length(g.ground_front_m, units),
        length(g.ground_back_m, units),
        Share::part(glass.porosity.value).print(units),
        volume(grains, units),
    );
    for (name, litres) in [("rock", rock), ("wood", wood)] {
        if litres > 0.0 {
            sum.push_str(&format!("; less {name} {}", volume(litres, units)));
        }
    }
    let true_l = g.true_l;
    sum.push_str(&format!(" = {}{}", volume(true_l.value, units), likely(true_l, |l| volume(l, units))));
    why(
        "true-litres",
        format!("why {} and not {}?", volume(true_l.value, units), volume(g.nominal_l, units)),
        sum,
        "The water that is really in the tank: up to the waterline, without what stones and wood take away. The water \
         between the grains of the ground counts too, though it moves slowly. Doses go by this and never by the size \
         that a seller states.",
        true_l.kind,
    )
}

fn surface(tank: &Tank, units: &Units) -> Why {
    let g = &tank.geometry;
    let sum = format!("{} × {} = {} m²", length(g.length_m, units), length(g.width_m, units), n(g.surface_m2));
    let words = "Where air and water meet: here oxygen comes in and carbon dioxide goes out.";
    why("surface", format!("why {} m² of surface?", n(g.surface_m2)), sum, words, Kind::WorkedOut)
}

fn mass(tank: &Tank, glass: &Glass, book: &Book, units: &Units) -> Why {
    let mass = tank.geometry.mass_kg;
    let names = ["water", "glass", "ground", "rock", "wood"];
    let parts: Vec<String> = names
        .iter()
        .zip(glass.masses_kg())
        .filter(|(_, kg)| *kg > 0.0)
        .map(|(name, kg)| format!("{name} {}", kilograms(kg, units)))
        .collect();
    let total = kilograms(mass.value, units);
    let sum = format!("{} = {total}{}", parts.join(" + "), likely(mass, |kg| kilograms(kg, units)));
    let words = "Without the stand, the lamp and the lid. The ground counts dry, its water is in the water.";
    let mut why = why("mass", format!("why {total}?"), sum, words, mass.kind);
    let materials = &book.materials;
    why.sources = [&materials.water_kg_per_m3, &materials.glass_kg_per_m3]
        .into_iter()
        .filter_map(|row| row.source_key().map(str::to_owned))
        .collect();
    why
}

fn pressure(tank: &Tank, glass: &Glass, units: &Units) -> Why {
    let g = &tank.geometry;
    let outer = |inner: f64| length(inner + 2.0 * g.glass_m, units);
    let kpa = format!("{} kPa", n(g.pressure_kpa.value));
    let sum = format!(
        "{} × {} m/s² ÷ ({} × {}) = {kpa}{}",
        kilograms(g.mass_kg.value, units),
        format_number(GRAVITY, Digits::Significant(3)),
        outer(glass.length_m.value),
        outer(glass.width_m.value),
        likely(g.pressure_kpa, |kpa| format!("{} kPa", n(kpa))),
    );
    let mut why = why("pressure", format!("why {kpa}?"), sum, &g.load_sentence(units), g.pressure_kpa.kind);
    why.sources.push("bipm_si_2019".to_owned());
    why
}

fn uptake(tank: &Tank, given: &Given, book: &Book) -> Why {
    let nitrate = given.number("plants.uptake_nitrate");
    let part = |(ion, known): (&Ion, &Known<f64>)| {
        if crate::growth::own_uptake(given, *ion).is_some() {
            return format!("{} {}, told", ion.name(), n(known.value));
        }
        let ratio = book.uptake.per_nitrate.get(ion).map_or(0.0, |ratio| ratio.value);
        format!("{} {} × {ratio} = {}", ion.name(), n(nitrate.value), n(known.value))
    };
    let parts: Vec<String> = tank.growth.uptake_mg_per_l_day.iter().map(part).collect();
    why(
        "uptake",
        format!("why {} mg/L of nitrate a day?", n(nitrate.value)),
        format!("mg/L a day: {}{}", parts.join("; "), likely(nitrate, |mg| format!("{} of nitrate", n(mg)))),
        "What plants take from the water in a day, before the food gives some back. The other nutrients go with the \
         nitrate as they do in the plants' dry matter. Weighed trimmings or two tests a week apart tell better.",
        nitrate.kind.weaker(Kind::Assumed),
    )
}

/// Grams of food, protein, share and litres as they enter the sums below.
fn food_sum(tank: &Tank, given: &Given, share: &str, returned: f64) -> String {
    format!(
        "{} g × {} × {returned} ÷ {} L",
        n(given.number("food.per_day").value),
        Share::part(given.number(share).value).print(&tank.units),
        n(tank.geometry.true_l.value)
    )
}

fn food_nitrate(tank: &Tank, given: &Given, book: &Book) -> Why {
    let known = tank.growth.food_mg_per_l_day.get(&Ion::Nitrate).copied().unwrap_or(Known::exact(0.0, Kind::Assumed));
    let food = &book.uptake.food;
    let sum = format!(
        "{} ÷ {} × 62.004 ÷ 14.007 = {} mg/L of nitrate a day{}",
        food_sum(tank, given, "food.protein", food.nitrogen_returned.value),
        food.protein_per_nitrogen.value,
        n(known.value),
        likely(known, n)
    );
    let words = "Protein holds one part of nitrogen in 6.25. Most of it leaves the animals as ammonia, and the filter makes nitrate of that.";
    sourced(
        why("food-nitrate", format!("why {} mg/L of nitrate from food?", n(known.value)), sum, words, known.kind),
        &["iupac_2022", &food.protein_per_nitrogen.source],
        book,
    )
}

fn food_phosphate(tank: &Tank, given: &Given, book: &Book) -> Why {
    let known = tank.growth.food_mg_per_l_day.get(&Ion::Phosphate).copied().unwrap_or(Known::exact(0.0, Kind::Assumed));
    let food = &book.uptake.food;
    let sum = format!(
        "{} × 94.970 ÷ 30.974 = {} mg/L of phosphate a day{}",
        food_sum(tank, given, "food.phosphorus", food.phosphorus_returned.value),
        n(known.value),
        likely(known, n)
    );
    let words = "Flakes hold about one percent of phosphorus, and most of it ends in the water.";
    sourced(
        why("food-phosphate", format!("why {} mg/L of phosphate from food?", n(known.value)), sum, words, known.kind),
        &["iupac_2022", &food.phosphorus_percent.source],
        book,
    )
}

fn alkalinity_eaten(tank: &Tank, book: &Book) -> Why {
    let eaten = tank.growth.alkalinity_eaten_meq_per_l_day;
    let nitrate = tank.growth.food_mg_per_l_day.get(&Ion::Nitrate).map_or(0.0, |known| known.value);
    let each = book.uptake.food.alkalinity_eq_per_mol_nitrogen.value;
    let sum = format!("{} ÷ 62.004 × {each} = {} meq/L a day{}", n(nitrate), n(eaten.value), likely(eaten, n));
    let words = "Each mole of nitrogen from food that becomes nitrate eats one equivalent of alkalinity.";
    let question = format!("why {} meq/L of alkalinity a day?", n(eaten.value));
    sourced(why("alkalinity-eaten", question, sum, words, eaten.kind), &["iupac_2022"], book)
}

/// The balance of the tap's charges, where every ion is known.
fn balance(tank: &Tank) -> Option<Why> {
    let alkalinity = tank.tap.alkalinity_meq_per_l;
    // Where an ion was moved to close the balance only the computer's rounding is left.
    let percent = round_to(charge_balance_percent(&tank.tap.ions, alkalinity.value)?, 1e-3);
    let side = |positive: bool| {
        let part = |(ion, known): (&Ion, &Known<f64>)| {
            let meq = charge_meq_per_l(*ion, known.value);
            (meq != 0.0 && (meq > 0.0) == positive).then(|| format!("{} {}", ion.formula(), n(meq.abs())))
        };
        tank.tap.ions.iter().filter_map(part).collect::<Vec<_>>().join(" + ")
    };
    let kind =
        tank.tap.ions.values().fold(alkalinity.kind, |kind, known| kind.weaker(known.kind)).weaker(Kind::WorkedOut);
    let mut why = why(
        "tap-balance",
        format!("why {} % of imbalance?", n(percent)),
        format!("meq/L: {} against {} + alkalinity {}: {} %", side(true), side(false), n(alkalinity.value), n(percent)),
        "A water carries no charge: what stands on both sides should be equal. What differs is the error of the analysis, \
         or an ion that is missing. Phosphate counts one charge here, the rest of its charge is in the alkalinity.",
        kind,
    );
    why.sources.push("standard_methods_1030".to_owned());
    Some(why)
}

/// The same why with the keys that are really sources.
fn sourced(mut why: Why, keys: &[&str], book: &Book) -> Why {
    why.sources = keys.iter().filter(|key| book.cite(key).is_some()).map(|key| (*key).to_owned()).collect();
    why
}
