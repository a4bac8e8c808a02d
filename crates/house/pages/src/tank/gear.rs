//! Filter, air pump, heater, cover and the room round them. What nobody told stands as an empty blank: nothing is guessed.

use maud::{Markup, html};
use quantity::{Kind, Known};
use setup::{Setup, Tank};

use super::kind;
use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::capital;

/// Whether a filter runs is assumed where nobody told; the others are not.
const FILTER: &str = "care.filter";

/// Yes, no, or not told; each field with the words for yes and no.
const CHOICES: [(&str, [&str; 2]); 3] =
    [(FILTER, ["runs", "none"]), ("care.air_pump", ["runs", "none"]), ("care.covered", ["closed", "open above"])];

/// The blanks of this verse.
pub fn blanks(setup: &Setup, tank: &Tank) -> Vec<Blank> {
    let warmth = &tank.warmth;
    let number = warmth.heaters.map(|heaters| Known::exact(f64::from(heaters), Kind::Measured));
    let numbers = [
        ("heater.watts", warmth.heater_w),
        ("heater.number", number),
        ("room.coldest", warmth.coldest_room_c),
        ("room.hottest", warmth.hottest_room_c),
        ("care.fish_weight", warmth.fish_g),
    ];
    let mut all: Vec<Blank> = numbers.into_iter().filter_map(|(field, known)| told(field, known, tank)).collect();
    all.extend(CHOICES.into_iter().map(|(field, [yes, no])| {
        let says = setup::field_of(field).map_or_else(String::new, |entry| capital(&entry.label));
        let list = [("true", yes), ("false", no), ("", "not told to me")];
        if field == FILTER {
            return Blank::choice(field, &tank.keeping.filter.to_string(), &says, kind(tank, field), &list[..2]);
        }
        let shown = setup.written(field).unwrap_or_default();
        let known = if shown.is_empty() { Kind::Assumed } else { Kind::Measured };
        Blank::choice(field, &shown, &says, known, &list)
    }));
    all
}

/// A number that was told, or an empty blank in its unit.
fn told(field: &str, known: Option<Known<f64>>, tank: &Tank) -> Option<Blank> {
    match known {
        Some(known) => Blank::of(field, known, &tank.units),
        None => {
            let blank = Blank::of(field, Known::exact(0.0, Kind::Assumed), &tank.units)?;
            Some(Blank { shown: String::new(), ..blank })
        }
    }
}

/// The verse.
pub fn verse(sheet: &Sheet) -> Markup {
    sheet.verse("What keeps it warm and moving", html! {
        p {
            "Filter: " (sheet.blank("care.filter", ";")) " air pump: " (sheet.blank("care.air_pump", ";")) " cover: " (sheet.blank("care.covered", "."))
            " Heaters: " (sheet.in_unit("heater.number", "")) " of " (sheet.in_unit("heater.watts", "")) " each."
            " The room is " (sheet.in_unit("room.coldest", "")) " on its coldest day and " (sheet.in_unit("room.hottest", ""))
            " on its hottest; one grown fish weighs about " (sheet.in_unit("care.fish_weight", "."))
        }
        p {
            "From these I say how long it stays warm and in breath without power, and how hot a heater that sticks would make it: "
            a href=(sheet.place.letter("help-now/power-cut")) { "the power is out" } ", "
            a href=(sheet.place.letter("help-now/heater-on")) { "the heater stays on" } "."
        }
    })
}
