//! Two answers against each other: which advice differs, in sentences.

use std::collections::BTreeMap;

use quantity::{Digits, Units};
use recipe::{Answer, Plan};

/// An amount moves if it moves by more than this share; less is the scale's business.
const MOVES: f64 = 0.05;

/// What differs between what follows from two setups, in sentences; empty where nothing does.
pub fn between(before: &Answer, after: &Answer, units: &Units) -> Vec<String> {
    match (before, after) {
        (Answer::Settled { plan: before, .. }, Answer::Settled { plan: after, .. }) => plans(before, after, units),
        (Answer::Settled { .. }, Answer::Open { question, .. }) => {
            vec![format!("One number is open then, and nothing is decided on it: {}", question.ask)]
        }
        (Answer::Open { .. }, Answer::Settled { .. }) => vec!["What was open is settled then.".to_owned()],
        (Answer::Open { question: old, .. }, Answer::Open { question: new, .. }) if old == new => {
            vec!["The same question stays open.".to_owned()]
        }
        (_, Answer::Open { question, .. }) => vec![format!("Another question is open then: {}", question.ask)],
    }
}

fn plans(before: &Plan, after: &Plan, units: &Units) -> Vec<String> {
    let mut all = Vec::new();
    change(before, after, units, &mut all);
    doses(before, after, units, &mut all);
    conditioner(before, after, units, &mut all);
    let texts = |plan: &Plan| plan.refused.iter().map(|refused| (refused.wish.clone(), refused.why.clone())).collect();
    told("Refused now", "No longer refused", texts(before), texts(after), &mut all);
    let unmet = |plan: &Plan| {
        plan.unmet
            .iter()
            .map(|unmet| {
                (unmet.ion.map_or("hardness or alkalinity", quantity::Ion::name).to_owned(), unmet.text.clone())
            })
            .collect()
    };
    told("Not held now", "Held now, and before it was not", unmet(before), unmet(after), &mut all);
    let left = |plan: &Plan| plan.left_out.iter().map(|note| (note.about.clone(), note.text.clone())).collect();
    told("Left out now", "No longer left out", left(before), left(after), &mut all);
    all
}

fn number(units: &Units, value: f64) -> String {
    units.number(value, Digits::Significant(2))
}

fn moved(before: f64, after: f64) -> bool {
    (after - before).abs() > MOVES * before.abs().max(after.abs())
}

/// Share and days of a change, low-mineral water in it.
fn change(before: &Plan, after: &Plan, units: &Units, all: &mut Vec<String>) {
    let (old, new) = (&before.change, &after.change);
    if moved(old.share, new.share) {
        let (old, new_share) = (number(units, 100.0 * old.share), number(units, 100.0 * new.share));
        let why = new.limited.as_ref().map(|why| format!(": {why}")).unwrap_or_default();
        all.push(format!("The change becomes {new_share} % instead of {old} %{why}"));
    }
    if (before.low_share - after.low_share).abs() > MOVES {
        all.push(format!(
            "Of the new water {} % are low-mineral water instead of {} %",
            number(units, 100.0 * after.low_share),
            number(units, 100.0 * before.low_share)
        ));
    }
}

/// What is weighed and given, product by product.
fn doses(before: &Plan, after: &Plan, units: &Units, all: &mut Vec<String>) {
    let of = |plan: &Plan| -> BTreeMap<String, (String, f64, &'static str)> {
        let bottles = plan.bottles.iter().flat_map(|bottle| {
            bottle.weighed.iter().map(|w| {
                (format!("bottle {}", w.product), (w.name.clone(), w.grams / bottle.lasts_days.max(1.0), "g a day"))
            })
        });
        let salts = plan.new_water.salts.iter().map(|salt| {
            (
                format!("water {}", salt.product),
                (salt.name.clone(), salt.grams_a_change, "g in the new water of a change"),
            )
        });
        bottles.chain(salts).collect()
    };
    let (old, new) = (of(before), of(after));
    for (key, (name, amount, unit)) in &new {
        match old.get(key) {
            None => {
                all.push(format!("New: {name}, {} {unit}; how it is weighed stands on Salts", number(units, *amount)))
            }
            Some((_, was, _)) if moved(*was, *amount) => {
                let way = if amount > was { "More" } else { "Less" };
                all.push(format!("{way} {name}: {} instead of {} {unit}", number(units, *amount), number(units, *was)));
            }
            Some(_) => {}
        }
    }
    for (name, ..) in old.iter().filter(|(key, _)| !new.contains_key(*key)).map(|(_, dose)| dose) {
        all.push(format!("No more {name}"));
    }
}

/// What binds the chlorine.
fn conditioner(before: &Plan, after: &Plan, units: &Units, all: &mut Vec<String>) {
    match (&before.new_water.conditioner, &after.new_water.conditioner) {
        (None, Some(new)) => all.extend(new.refused.clone().or_else(|| new.sentences.first().cloned())),
        // Where no water is changed none is treated, and that says nothing of the water.
        (Some(_), None) if after.change.share > 0.0 => {
            all.push("Nothing has to be bound before the water is poured".to_owned());
        }
        (Some(old), Some(new)) => {
            if new.refused != old.refused {
                all.extend(new.refused.clone());
            } else if moved(old.chlorine_mg_per_l, new.chlorine_mg_per_l) {
                let first = new.sentences.first().map(|text| format!(": {text}")).unwrap_or_default();
                all.push(format!(
                    "The conditioner must cover {} mg/L of total chlorine instead of {}{first}",
                    number(units, new.chlorine_mg_per_l),
                    number(units, old.chlorine_mg_per_l)
                ));
            }
        }
        (Some(_) | None, None) => {}
    }
}

/// Sentences that one plan has and the other has not, by what they are about. Of what is gone the old sentence would speak
/// of a water that holds no more, so only its name is said.
fn told(now: &str, gone: &str, before: Vec<(String, String)>, after: Vec<(String, String)>, all: &mut Vec<String>) {
    let has = |list: &[(String, String)], about: &str| list.iter().any(|(other, _)| other == about);
    all.extend(after.iter().filter(|(about, _)| !has(&before, about)).map(|(_, text)| format!("{now}: {text}")));
    all.extend(
        before.iter().filter(|(about, _)| !has(&after, about)).map(|(about, _)| format!("{gone}: {}", name(about))),
    );
}

/// What a sentence is about, in words: a product's key is none.
fn name(about: &str) -> &str {
    match knowledge::book().product(about) {
        Some(product) => &product.name,
        None if about == "ph" => "pH",
        None => about,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The old sentence spoke of the water before: after a report that tells iron, it must not say that nobody measured it.
    #[test]
    fn what_is_gone_is_named_and_not_told_again() {
        let note = |about: &str| vec![(about.to_owned(), "Nobody measured iron in your tap.".to_owned())];
        let mut all = Vec::new();
        told("Not held now", "Held now", note("iron"), Vec::new(), &mut all);
        told("Left out now", "No longer left out", note("potassium_nitrate"), Vec::new(), &mut all);
        told("Left out now", "No longer left out", Vec::new(), note("iron"), &mut all);
        assert_eq!(
            all,
            [
                "Held now: iron",
                "No longer left out: potassium nitrate",
                "Left out now: Nobody measured iron in your tap."
            ]
        );
    }
}
