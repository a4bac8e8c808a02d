//! How much an assumption matters: by what share the keeper's most sensitive figure moves over its range.
//!
//! Rule: every assumed value is moved to the low and the high end of its range alone, the tank is worked out anew, and
//! each figure below is compared: (largest - smallest) ÷ its scale. The weight is the largest of these shares. A choice
//! in words is moved through all its words. 0: it moves none of the figures.
//!
//! Figures: litres in the tank; litres of a change; for each nutrient with a band, mg a day that must be added to stay
//! in the band's middle, against what plants and changes take there; total chlorine of a change; copper against the
//! limit at which shrimps are refused; alkalinity and hardness before a change; the error of weighing and of the
//! syringe; days that a bottle lasts; pH of the aired water, against 7. Iron is left out: what a tap brings is rust.
//!
//! Equation: need of an ion = V (U - F - x/n (T - B)), scale V (U + x/n B); pH moves with log10 of alkalinity over the
//! carbon dioxide of the air.
//!
//! Symbols: V litres, U uptake and F food in mg/L a day, x share of a change, n days, T tap and B band in mg/L.
//!
//! Range: only ranks assumptions; no dose and no pH is worked out from it.
//!
//! Source: our own rule.
//!
//! Checked by: `tests/assumptions.rs`.

use std::collections::BTreeMap;

use knowledge::Book;
use quantity::{Ion, Known};

use crate::given::Given;
use crate::{Assumption, Tank, build, field_of};

/// The assumptions of a tank, the weightiest first.
pub(crate) fn assumptions(given: &Given, tank: &Tank, book: &Book) -> Vec<Assumption> {
    let best = figures(tank, book);
    let one = |(field, because): (&String, &String)| {
        let others = moved(given, field);
        let moves: Vec<Vec<Figure>> = others.iter().map(|given| figures(&build::tank(given, book), book)).collect();
        Assumption {
            field: field.clone(),
            sentence: sentence(given, field, because, tank),
            weight: weight(&best, &moves),
            kind: given.find(field).map_or(quantity::Kind::Assumed, |known| known.kind),
        }
    };
    let mut all: Vec<Assumption> = given.assumed.iter().map(one).collect();
    all.sort_by(|a, b| b.weight.total_cmp(&a.weight).then_with(|| a.field.cmp(&b.field)));
    all
}

/// Nutrients that are given by the day.
const FED: [Ion; 5] = [Ion::Nitrate, Ion::Phosphate, Ion::Potassium, Ion::Magnesium, Ion::Calcium];

/// pH against which a move of pH is measured.
const NEUTRAL_PH: f64 = 7.0;

/// One figure with the scale of its moves.
#[derive(Clone, Copy)]
struct Figure {
    value: f64,
    scale: f64,
}

/// The largest share over all figures.
fn weight(best: &[Figure], moves: &[Vec<Figure>]) -> f64 {
    let share = |(at, best): (usize, &Figure)| {
        let values = moves.iter().filter_map(|figures| figures.get(at)).map(|figure| figure.value);
        let (low, high) = values.fold((best.value, best.value), |(low, high), value| (low.min(value), high.max(value)));
        if best.scale > 0.0 { (high - low) / best.scale } else { 0.0 }
    };
    best.iter().enumerate().map(share).filter(|share| share.is_finite()).fold(0.0, f64::max)
}

/// The same tank with one assumption at its other ends.
fn moved(given: &Given, field: &str) -> Vec<Given> {
    if let Some(known) = given.find(field) {
        let at = |value: f64| {
            let mut other = given.clone();
            other.numbers.insert(field.to_owned(), Known { value, ..known });
            if field == "light.hours" {
                other.forget(&["plants.uptake_nitrate"]);
            }
            other
        };
        return [known.low, known.high].into_iter().filter(|end| *end != known.value).map(at).collect();
    }
    let choices = field_of(field).map(|field| field.takes.choices()).unwrap_or_default();
    let now = given.word(field);
    let at = |word: &String| {
        let mut other = given.clone();
        other.words.insert(field.to_owned(), word.clone());
        // What was assumed because of the word goes with it.
        other.forget(&["plants.uptake_nitrate", "ground.porosity", "habits.change", "habits.every"]);
        other
    };
    choices.iter().filter(|word| *word != now).map(at).collect()
}

fn figures(tank: &Tank, book: &Book) -> Vec<Figure> {
    let litres = tank.geometry.true_l.value.max(0.0);
    let share = tank.habits.change_share.value;
    let a_day = if tank.habits.every_days > 0 { share / f64::from(tank.habits.every_days) } else { 0.0 };
    let mut figures = Vec::new();
    let mut add = |value: f64, scale: f64| figures.push(Figure { value, scale: scale.abs() });
    add(litres, litres);
    add(litres * share, litres * share);
    let bands = build::bands(&tank.wish, tank.feeding, tank.energy, book);
    for ion in FED {
        // An ion with an open question is in no sum, and one without a band is not fed.
        let Some((low, high)) = bands.get(&ion).filter(|_| tank.tap.ions.contains_key(&ion)) else {
            add(0.0, 0.0);
            continue;
        };
        let of = |map: &BTreeMap<Ion, Known<f64>>| map.get(&ion).map_or(0.0, |known| known.value);
        let (uptake, food) = (of(&tank.growth.uptake_mg_per_l_day), of(&tank.growth.food_mg_per_l_day));
        let (band, water) = (0.5 * (low + high), tank.tap.mg_per_l(ion).value);
        add(litres * (uptake - food - a_day * (water - band)), litres * (uptake + a_day * band));
    }
    let chlorine = tank.tap.total_chlorine_mg_per_l.value * litres * share;
    add(chlorine, chlorine);
    let copper = tank.tap.mg_per_l(Ion::Copper).value + tank.pipes_copper_mg_per_l.value;
    add(copper, if tank.animals.invertebrates() { book.harm.limit.copper_refuse_mg_per_l.value() } else { 0.0 });
    let alkalinity = tank.tap.alkalinity_meq_per_l.value;
    let eaten = if a_day > 0.0 { tank.growth.alkalinity_eaten_meq_per_l_day.value / a_day } else { 0.0 };
    add(alkalinity - eaten, alkalinity + eaten);
    let hardness = [Ion::Calcium, Ion::Magnesium].map(|ion| tank.tap.mg_per_l(ion).value * 2.0 / ion.molar_mass());
    add(hardness.iter().sum(), hardness.iter().sum());
    let hand = &tank.at_hand;
    // A bottle holds some grams of the leading salt: this many for the nitrate that plants take while it lasts.
    let days = if hand.daily_ml.value > 0.0 { hand.bottle_ml.value / hand.daily_ml.value } else { 0.0 };
    let nitrate = tank.growth.uptake_mg_per_l_day.get(&Ion::Nitrate).map_or(0.0, |known| known.value);
    let grams = litres * nitrate * days / 1000.0;
    add(0.5 * hand.scale_g.value / grams.max(hand.scale_g.value), 1.0);
    add(0.5 * hand.syringe_ml.value / hand.daily_ml.value.max(hand.syringe_ml.value), 1.0);
    add(days, days);
    add((alkalinity.max(1e-3) / tank.room_co2_ppm.value.max(1.0)).log10(), NEUTRAL_PH);
    figures
}

/// "The fill line was not given: 3 cm is assumed (likely 1 to 6 cm). ..."
fn sentence(given: &Given, field: &str, because: &str, tank: &Tank) -> String {
    let label = field_of(field).map_or(field, |field| field.label.as_str());
    let mut letters = label.chars();
    let label = letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
    let value = match (given.find(field), field_of(field)) {
        (Some(known), Some(entry)) => entry.show_known(known, &tank.units),
        _ => match given.flags.get(field) {
            Some(true) => "yes".to_owned(),
            Some(false) => "no".to_owned(),
            None => given.word(field).replace('_', " "),
        },
    };
    match because {
        "" => format!("{label}: not given, so {value} is assumed."),
        because => format!("{label}: not given, so {value} is assumed; {because}."),
    }
}
