//! What else can be told: a blank for every field of the setup, made from the table of fields, so that none is out of reach.
//!
//! A letter has better blanks for what it speaks of; here stand the others, folded, on the letter to which they belong.

use maud::{Markup, html};
use quantity::{Kind, Known};
use recipe::Plan;
use setup::{Field, Setup, Table, Takes, Tank, fields};

use crate::blank::Blank;
use crate::routes::PAGES;
use crate::sheet::Sheet;
use crate::words::{capital, list};

/// A group of fields: the letter to which it belongs, its head, what its fields begin with. The first that fits holds.
struct Group {
    letter: &'static str,
    head: &'static str,
    of: &'static [&'static str],
}

const fn group(letter: &'static str, head: &'static str, of: &'static [&'static str]) -> Group {
    Group { letter, head, of }
}

const GROUPS: &[Group] = &[
    group("tap", "Your tap water, one by one, and its pipes", &["tap.", "pipes."]),
    group("tap", "A second water to mix with it, such as rain or water without minerals", &["low_water."]),
    group("salts", "What you wish the water to be", &["wish.", "feeding."]),
    group("salts", "What you have at home", &["at_hand."]),
    group("salts", "A liquid or powder of your own, by its label", &["own."]),
    group("salts", "What things cost where you buy", &["prices."]),
    group("tank", "Carbon dioxide", &["tank.co2", "tank.room_co2", "care.cylinder"]),
    group("tank", "Food", &["food."]),
    group("tank", "The glass and what stands in it", &["glass.", "ground.", "hardscape."]),
    group("tank", "What you measured yourself", &["measured."]),
    group("tank", "The units in which you read", &["units."]),
    group("tank", "Light, plants and animals", &["light.", "plants.", "animals."]),
    group("tank", "Warmth, air and what you do", &["room.", "heater.", "care.", "habits.", "tank."]),
];

/// The group of a field.
fn of(path: &str) -> Option<&'static Group> {
    GROUPS.iter().find(|group| group.of.iter().any(|begins| path.starts_with(begins)))
}

/// All fields with their paths: of a keeper's own liquids those that are told, and one more.
fn paths(tank: &Tank) -> impl Iterator<Item = (String, &'static Field)> {
    let own = tank.at_hand.own.len() + 1;
    fields().iter().flat_map(move |field| {
        let last = if field.path.contains('*') { own } else { 1 };
        (1..=last).map(move |number| (field.path.replace('*', &number.to_string()), field))
    })
}

/// A blank for each field: what was told, else what is assumed, else empty. Where a letter has a better one, that follows
/// and wins.
pub fn all(setup: &Setup, tank: &Tank, plan: &Plan) -> impl Iterator<Item = Blank> {
    let letters = PAGES.iter().flat_map(|page| (page.blanks)(setup, tank, plan));
    paths(tank).map(|(path, field)| blank(setup, tank, &path, field)).chain(letters)
}

fn blank(setup: &Setup, tank: &Tank, path: &str, field: &Field) -> Blank {
    let written = setup.written(path);
    let kind = if written.is_some() { Kind::Measured } else { Kind::Assumed };
    let label = label(path, field);
    let shown = written.clone().unwrap_or_default();
    match field.takes {
        Takes::YesNo => choice(path, &shown, &label, kind, &[("true", "yes"), ("false", "no")]),
        Takes::Choice(_) | Takes::OneOf(_) => {
            let named: Vec<(String, String)> =
                field.takes.choices().into_iter().map(|key| (key.clone(), name(field.takes, &key))).collect();
            let named: Vec<(&str, &str)> = named.iter().map(|(key, name)| (key.as_str(), name.as_str())).collect();
            choice(path, &shown, &label, kind, &named)
        }
        // A label is read as it stands on the bottle; names have no unit.
        Takes::Words | Takes::SomeOf(_) | Takes::Label(_) => Blank::number(path, shown, "", &label, kind),
        _ => {
            let assumed = tank.assumed.iter().any(|assumption| assumption.field == path);
            let known = setup.inside().numbers.get(path).filter(|_| assumed || written.is_some());
            let number = Blank::of_field(path, field, known.copied().unwrap_or(Known::exact(0.0, kind)), &tank.units);
            match (known, written) {
                (Some(_), _) => number,
                // Told, but it is still asked what it is counted as: that stands in its own words.
                (None, Some(written)) => Blank { shown: written, unit: String::new(), ..number },
                (None, None) => Blank { shown: String::new(), ..number },
            }
        }
    }
}

fn choice(path: &str, shown: &str, label: &str, kind: Kind, words: &[(&str, &str)]) -> Blank {
    let mut all = vec![("", "not told to me")];
    all.extend(words);
    Blank::choice(path, shown, label, kind, &all)
}

/// What a field is; of several liquids, which of them.
fn label(path: &str, field: &Field) -> String {
    match path.strip_prefix("own.").and_then(|rest| rest.split('.').next()) {
        Some(number) => format!("Number {number}: {}", field.label),
        None => capital(&field.label),
    }
}

/// A key in words: its name in the tables, else itself.
fn name(takes: Takes, key: &str) -> String {
    let book = knowledge::book();
    let known = match takes {
        Takes::OneOf(table) | Takes::SomeOf(table) => match table {
            Table::Substrates => book.substrates.get(key).map(|row| row.name.clone()),
            Table::Waters => book.waters.get(key).map(|row| row.name.clone()),
            Table::Products => book.product(key).map(|row| row.name.clone()),
            Table::Tests => None,
        },
        _ => None,
    };
    known.unwrap_or_else(|| key.replace('_', " "))
}

/// The verse: what belongs to the letter and has no blank on it yet. It is written last.
pub fn verse(sheet: &Sheet, letter: &str) -> Markup {
    let Some(tank) = crate::sheet::first_tank(sheet.answer) else { return html! {} };
    let untold: Vec<(String, &Field)> = paths(tank).filter(|(path, _)| !sheet.shows(path)).collect();
    let groups: Vec<(&Group, Vec<&(String, &Field)>)> = GROUPS
        .iter()
        .filter(|group| group.letter == letter)
        .map(|group| {
            let here = |entry: &&(String, &Field)| of(&entry.0).is_some_and(|of| std::ptr::eq(of, group));
            (group, untold.iter().filter(here).collect())
        })
        .filter(|(_, fields): &(_, Vec<_>)| !fields.is_empty())
        .collect();
    if groups.is_empty() {
        return html! {};
    }
    html! {
        section.verse.on-screen {
            h2 { "What else you can tell me" }
            div.text {
                p { "None of it is needed. Whatever you leave empty I take as usual, or do without; what you write in counts from then on." }
                @for (group, fields) in groups {
                    details.more {
                        summary { (group.head) }
                        ul.assumptions { @for (path, field) in fields { (item(sheet, path, field)) } }
                    }
                }
            }
        }
    }
}

fn item(sheet: &Sheet, path: &str, field: &Field) -> Markup {
    html! {
        li {
            (label(path, field)) ": " (sheet.in_unit(path, ""))
            @match field.takes {
                Takes::SomeOf(_) => small {
                    " with commas between them, out of: " (list(&field.takes.choices().iter().map(|key| key.replace('_', " ")).collect::<Vec<_>>()))
                },
                Takes::Label(_) => small { " as the label says it, for instance " (field.example) },
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_belongs_to_a_letter() {
        for field in fields() {
            assert!(of(&field.path).is_some(), "{}", field.path);
        }
    }
}
