//! A source of water made whole: hardness split, missing ions filled in, charge closed by what nobody measured.
//!
//! Rules, in this order: what was told is never touched. Hardness with one of calcium and magnesium gives the other.
//! Hardness alone is split as the usual tap has it, with the usual spread. An ion that is still missing has the value
//! and range that `data/waters.toml` gives for reports that leave it out. Alkalinity that nobody told closes the
//! charge; else the assumed ions move, within their ranges, until the charge is closed as far as they reach. A conductivity
//! that was measured then bounds them (`conductivity.rs`).

use std::collections::BTreeMap;

use knowledge::{Book, Place};
use quantity::number::canonical;
use quantity::{Ion, Kind, Known};

use crate::balance::{close, equivalents, open_charge_meq_per_l};
use crate::given::{Given, assumed};
use crate::range::propagate;
use crate::{Disinfectant, SourceWater, conductivity};

/// Fill in both waters and what the pipes add.
pub(crate) fn fill(given: &mut Given, book: &Book) {
    let place = Place::of(given.word("tank.country"));
    split_hardness(given, "tap", book, place);
    for ion in Ion::ALL {
        if let Some(row) = book.unreported(place, ion) {
            given.assume_row(&format!("tap.{}", ion.name()), &row.mg_per_l, 1.0);
        }
    }
    alkalinity_from_charge(given, "tap");
    close_charge(given, "tap");
    given.assume_row("tap.temperature", &book.defaults.tap_temperature_c, 1.0);
    given.assume_usual("tap.ph", book);
    bound_by_conductivity(given, "tap", book);
    chlorine(given, "tap", book, place, true);
    if given.lacks("pipes.copper")
        && let Some(row) = book.unreported(place, Ion::Copper)
    {
        // The row counts the pipes in: where the tap's own copper was told, its upper end is left for them.
        let told = !given.assumed.contains_key("tap.copper");
        let high = if told { row.mg_per_l.high() } else { 0.0 };
        given.assume("pipes.copper", Known::ranged(0.0, 0.0, high, Kind::Assumed), "pipes differ from house to house");
    }
    // Who tops up with such a water has it, whether or not anything is said of it.
    let topped = given.word("habits.top_up_with") == "low_water";
    if topped || given.numbers.keys().chain(given.words.keys()).any(|path| path.starts_with("low_water.")) {
        low_water(given, book, place);
    }
}

/// The second water: the row of its kind where the keeper gave nothing better.
fn low_water(given: &mut Given, book: &Book, place: Place) {
    if given.lacks("low_water.kind") {
        given.words.insert("low_water.kind".to_owned(), "low_mineral".to_owned());
        given.assumed.insert("low_water.kind".to_owned(), "the usual second water".to_owned());
    }
    let Some(water) = book.waters.get(given.word("low_water.kind")) else { return };
    split_hardness(given, "low_water", book, place);
    for ion in Ion::ALL {
        let path = format!("low_water.{}", ion.name());
        match water.ions.get(&ion) {
            Some(row) => given.assume_row(&path, row, 1.0),
            None => {
                given.assume(&path, Known::exact(0.0, Kind::Assumed), format!("none to speak of in {}", water.name))
            }
        }
    }
    given.assume(
        "low_water.alkalinity",
        assumed(water.alkalinity_meq_per_l.known()),
        format!("as {} has it", water.name),
    );
    close_charge(given, "low_water");
    given.assume("low_water.ph", assumed(water.ph.known()), format!("as {} has it", water.name));
    bound_by_conductivity(given, "low_water", book);
    let tap = assumed(given.number("tap.temperature"));
    given.assume("low_water.temperature", tap, "as cold as the tap");
    chlorine(given, "low_water", book, place, water.disinfected);
}

/// Calcium and magnesium from hardness, meq/L.
fn split_hardness(given: &mut Given, section: &str, book: &Book, place: Place) {
    let path = |name: &str| format!("{section}.{name}");
    let (Some(hardness), ca_path, mg_path) = (given.find(&path("hardness")), path("calcium"), path("magnesium")) else {
        return;
    };
    let meq = |ion: Ion, mg: f64| mg * equivalents(ion) / ion.molar_mass();
    let mg = |ion: Ion, meq: f64| canonical(meq / equivalents(ion) * ion.molar_mass());
    let rest = |known: Known<f64>, from: Ion, to: Ion| {
        let left = propagate(&[hardness, known], |[hardness, known]| mg(to, (hardness - meq(from, *known)).max(0.0)));
        Known { low: left.low.max(0.0), ..left }
    };
    match (given.find(&ca_path), given.find(&mg_path)) {
        (Some(ca), None) => {
            given.numbers.insert(mg_path, rest(ca, Ion::Calcium, Ion::Magnesium));
        }
        (None, Some(mg)) => {
            given.numbers.insert(ca_path, rest(mg, Ion::Magnesium, Ion::Calcium));
        }
        (None, None) => {
            let usual = |ion: Ion| book.unreported(place, ion).map(|row| row.mg_per_l.known());
            let (Some(ca), Some(magnesium)) = (usual(Ion::Calcium), usual(Ion::Magnesium)) else { return };
            // The usual magnesium beside the usual calcium gives the share, its ends the spread.
            let share =
                magnesium.map(|m| meq(Ion::Magnesium, m) / (meq(Ion::Magnesium, m) + meq(Ion::Calcium, ca.value)));
            let because = "hardness is known, its two parts are split as in the usual tap";
            let inputs = [hardness, assumed(share)];
            given.assume(&ca_path, propagate(&inputs, |[h, s]| mg(Ion::Calcium, h * (1.0 - s))), because);
            given.assume(&mg_path, propagate(&inputs, |[h, s]| mg(Ion::Magnesium, h * s)), because);
        }
        _ => {}
    }
}

/// The ions of a section that have a value, with the ones that are only assumed.
fn ions(given: &Given, section: &str) -> (BTreeMap<Ion, Known<f64>>, Vec<Ion>) {
    let path = |ion: Ion| format!("{section}.{}", ion.name());
    let all = Ion::ALL.into_iter().filter_map(|ion| Some((ion, given.find(&path(ion))?))).collect();
    (all, Ion::ALL.into_iter().filter(|ion| given.assumed.contains_key(&path(*ion))).collect())
}

/// Alkalinity that nobody told: what the charge of the ions leaves for it.
fn alkalinity_from_charge(given: &mut Given, section: &str) {
    let path = format!("{section}.alkalinity");
    if !given.lacks(&path) || is_open(given, section) {
        return;
    }
    let (ions, _) = ions(given, section);
    let value = canonical(open_charge_meq_per_l(&ions, 0.0).max(0.0));
    let side = |ion: &Ion, known: &Known<f64>, end: f64| equivalents(*ion) * (end - known.value) / ion.molar_mass();
    let spread = |sign: f64| {
        let moves = ions.iter().map(|(ion, known)| {
            let ends = [side(ion, known, known.low), side(ion, known, known.high)];
            ends.into_iter().map(|end| (sign * end).max(0.0)).fold(0.0, f64::max).powi(2)
        });
        moves.sum::<f64>().sqrt()
    };
    let number = Known::ranged((value - spread(-1.0)).max(0.0), value, value + spread(1.0), Kind::Assumed);
    given.assume(&path, number, "what the charge of the other ions leaves for it");
}

/// Close the charge with what is only assumed.
fn close_charge(given: &mut Given, section: &str) {
    let alkalinity = format!("{section}.alkalinity");
    let Some(known) = given.find(&alkalinity).filter(|_| !is_open(given, section)) else { return };
    let (mut ions, mut movable) = ions(given, section);
    if given.assumed.contains_key(&alkalinity) {
        let wished = known.value + open_charge_meq_per_l(&ions, known.value);
        let reached = canonical(wished.clamp(known.low, known.high));
        if reached != known.value {
            given.numbers.insert(alkalinity.clone(), Known { value: reached, ..known });
            note(given, &alkalinity);
        }
    }
    if given.find(&format!("{section}.hardness")).is_some() {
        // Their sum was told, so neither may move alone.
        movable.retain(|ion| !matches!(ion, Ion::Calcium | Ion::Magnesium));
    }
    for ion in close(&mut ions, given.number(&alkalinity).value, &movable) {
        let path = format!("{section}.{}", ion.name());
        if let Some(number) = ions.get(&ion) {
            given.numbers.insert(path.clone(), *number);
            note(given, &path);
        }
    }
}

/// A measured conductivity bounds what is only assumed.
fn bound_by_conductivity(given: &mut Given, section: &str, book: &Book) {
    if !is_open(given, section) {
        conductivity::bound(given, section, book);
    }
}

fn note(given: &mut Given, path: &str) {
    if let Some(because) = given.assumed.get_mut(path) {
        *because = "chosen within its range so that the charges balance".to_owned();
    }
}

/// Whether a question about this water is open: then its charge is not known either.
fn is_open(given: &Given, section: &str) -> bool {
    given.open.iter().any(|path| path.strip_prefix(section).is_some_and(|rest| rest.starts_with('.')))
}

/// Disinfectant counts as present until somebody says no (rule 1 of `data/harm.toml`).
fn chlorine(given: &mut Given, section: &str, book: &Book, place: Place, disinfected: bool) {
    let (kind, total) = (format!("{section}.disinfectant"), format!("{section}.total_chlorine"));
    if given.lacks(&kind) {
        let (word, because) = match disinfected {
            true => ("unknown", "nobody said which, so it counts as chloramine"),
            false => ("none", "such water is not disinfected"),
        };
        given.words.insert(kind.clone(), word.to_owned());
        given.assumed.insert(kind.clone(), because.to_owned());
    }
    if given.word(&kind) == "none" {
        if given.lacks(&total) {
            given.numbers.insert(total, Known::exact(0.0, Kind::WorkedOut));
        }
        return;
    }
    let row = book.harm.chlorine_unknown(place);
    let because = "the most that is usual counts until your supplier says";
    given.assume(&total, assumed(row.is.known()), because);
}

/// The water as the other crates see it.
pub(crate) fn water(given: &Given, section: &str, name: &str) -> SourceWater {
    let number = |field: &str| given.number(&format!("{section}.{field}"));
    SourceWater {
        name: name.to_owned(),
        ions: ions(given, section).0,
        alkalinity_meq_per_l: number("alkalinity"),
        ph: number("ph"),
        temperature_c: number("temperature"),
        conductivity_25_us_per_cm: given.find(&format!("{section}.conductivity")),
        disinfectant: match given.word(&format!("{section}.disinfectant")) {
            "none" => Disinfectant::None,
            "chlorine" => Disinfectant::Chlorine,
            "chloramine" => Disinfectant::Chloramine,
            _ => Disinfectant::Unknown,
        },
        total_chlorine_mg_per_l: number("total_chlorine"),
    }
}
