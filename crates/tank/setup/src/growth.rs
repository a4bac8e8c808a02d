//! What plants take in a day, what food brings, and the alkalinity that the food's nitrogen eats.
//!
//! Equation: uptake of nitrate that was not told = that of the words for the light × hours of light ÷ usual hours;
//! uptake of an ion = uptake of nitrate × ratio, where it was not told by itself;
//! nitrate from food = F p/(6.25 V) r_N × 62.004/14.007; phosphate from food = F q/V r_P × 94.970/30.974;
//! alkalinity eaten = F p/(6.25 V) r_N / 14.007 × e.
//!
//! Symbols: F food, mg a day; p protein and q phosphorus of the food, shares; V water, L; r shares that end in the
//! water; e equivalents for a mole of organic nitrogen that becomes nitrate, eq/mol; 6.25 mass of protein for a mass of nitrogen (from `data/uptake.toml`).
//!
//! Range: a tank in its daily round, not in its first weeks; uptake is that of a planted tank of these words.
//!
//! Source: `data/uptake.toml`; molar masses `iupac_2022`.
//!
//! Checked by: `tests/by_hand_growth.rs`.

use std::collections::BTreeMap;

use knowledge::Book;
use quantity::chem::atom;
use quantity::{Ion, Kind, Known};

use crate::given::{Given, assumed};
use crate::range::propagate;
use crate::{Energy, Growth};

/// The row of the table for an energy.
pub(crate) fn row(energy: Energy) -> knowledge::Energy {
    match energy {
        Energy::Low => knowledge::Energy::Low,
        Energy::Medium => knowledge::Energy::Medium,
        Energy::High => knowledge::Energy::High,
    }
}

/// mg/L of nitrate a day that the words for the light stand for, with the likely range of a given tank.
pub(crate) fn usual_uptake(word: &str, book: &Book) -> Option<Known<f64>> {
    let row = book.uptake.energy.iter().find(|(energy, _)| energy.word() == word).map(|(_, row)| row)?;
    let factor = book.uptake.likely_factor.known();
    let best = row.nitrate_mg_per_l_day.value;
    Some(factor.map(|factor| factor * best))
}

/// What so many hours of light let grow, as a share of what the usual hours do: in proportion, up to the most that is of use
/// to plants.
pub(crate) fn share_of_light(hours: f64, book: &Book) -> f64 {
    let usual = &book.defaults.light_h;
    hours.min(usual.high()) / usual.value
}

/// mg/L a day of an ion beside nitrate that was told by itself, as weighed trimmings tell it.
pub(crate) fn own_uptake(given: &Given, ion: Ion) -> Option<Known<f64>> {
    given.find(&format!("plants.uptake_{}", ion.name())).filter(|_| ion != Ion::Nitrate)
}

/// Growth and food of the tank.
pub(crate) fn growth(given: &Given, book: &Book, true_l: Known<f64>) -> Growth {
    // With an open question about the uptake there is none to state.
    let known_uptake = given.find("plants.uptake_nitrate");
    let nitrate = known_uptake.unwrap_or(Known::exact(0.0, Kind::Assumed));
    let uptake = |(ion, ratio): (&Ion, &knowledge::Sourced<f64>)| {
        let in_proportion = || propagate(&[nitrate, assumed(ratio.known())], |[nitrate, ratio]| nitrate * ratio);
        // Nitrate is the measure itself: as well known as it was told.
        let own = if *ion == Ion::Nitrate { Some(nitrate) } else { own_uptake(given, *ion) };
        (*ion, own.unwrap_or_else(in_proportion))
    };
    let food = &book.uptake.food;
    let (grams, litres) = (given.number("food.per_day"), true_l);
    let per_protein = 1.0 / food.protein_per_nitrogen.value;
    let nitrogen = [grams, given.number("food.protein"), assumed(food.nitrogen_returned.known()), litres];
    let phosphorus = [grams, given.number("food.phosphorus"), assumed(food.phosphorus_returned.known()), litres];
    // mg of element in a litre and day, from g of food.
    let element = |[grams, share, returned, litres]: &[f64; 4]| {
        if *litres > 0.0 { 1000.0 * grams * share * returned / litres } else { 0.0 }
    };
    let as_ion = |ion: Ion, atom: f64| ion.molar_mass() / atom;
    let nitrate_back = propagate(&nitrogen, |p| element(p) * per_protein * as_ion(Ion::Nitrate, atom::N));
    let phosphate_back = propagate(&phosphorus, |p| element(p) * as_ion(Ion::Phosphate, atom::P));
    let eaten = food.alkalinity_eq_per_mol_nitrogen.value;
    Growth {
        uptake_mg_per_l_day: book.uptake.per_nitrate.iter().filter(|_| known_uptake.is_some()).map(uptake).collect(),
        food_mg_per_l_day: BTreeMap::from([(Ion::Nitrate, nitrate_back), (Ion::Phosphate, phosphate_back)]),
        alkalinity_eaten_meq_per_l_day: propagate(&nitrogen, |p| element(p) * per_protein / atom::N * eaten),
    }
}

/// Food and top-up that nobody told, from the litres of the tank.
pub(crate) fn fill(given: &mut Given, book: &Book) {
    if let Some(uptake) = usual_uptake(given.word("light.energy"), book) {
        let share = share_of_light(given.number("light.hours").value, book);
        given.assume(
            "plants.uptake_nitrate",
            assumed(uptake.map(|uptake| share * uptake)),
            "what a planted tank with this light takes; trimmings tell better",
        );
    }
    let litres = crate::build::water_l(given, book).value.max(0.0);
    let fed = ["animals.fish", "animals.shrimps", "animals.snails", "animals.other_invertebrates"];
    if fed.iter().any(|path| given.number(path).value > 0.0) {
        given.assume_row("food.per_day", &book.defaults.food_mg_per_l_day, litres / 1000.0);
    } else {
        given.assume("food.per_day", Known::exact(0.0, Kind::Assumed), "nobody lives there");
    }
    given.assume_row("habits.top_up", &book.defaults.evaporation_percent_day, litres / 100.0);
}
