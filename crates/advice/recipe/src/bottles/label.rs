//! What stands on a bottle: how long it keeps, how it is handled, what its hazards are.

use knowledge::{Product, Role};

use crate::bottles::DAYS_A_MONTH;
use crate::desk::Desk;
use crate::plan::FromStock;
use crate::say::{capital, list};

/// Days that a bottle keeps: the shortest of its products.
pub(super) fn keeps_days(desk: &Desk, inside: &[&Product]) -> f64 {
    let days = inside.iter().filter_map(|p| p.bottle_keeps_months.as_ref()).map(|months| months.value * DAYS_A_MONTH);
    days.fold(desk.book.defaults.bottle_keeps_days.value, f64::min)
}

/// Sentences on the bottle: its stocks, how long it keeps, what its powders ask for, and that it is no drink.
pub(super) fn handling(desk: &Desk, inside: &[&Product], from_stock: &[FromStock], doses_in: f64) -> Vec<String> {
    let mut says: Vec<String> = from_stock.iter().map(|s| s.sentence.clone()).collect();
    let keeps = keeps_days(desk, inside);
    let left = if doses_in > keeps { ", whatever is left" } else { "" };
    says.push(format!(
        "Pour it out after {} days{left}, and at once if it is cloudy or shows threads.",
        desk.pen.n(keeps, 2)
    ));
    if inside.iter().any(|p| p.is(Role::Trace)) {
        says.push("Not into a bottle with phosphate: iron and phosphate fall out together.".to_owned());
    }
    says.extend(cautions(desk, inside));
    says.push(desk.book.harm.rule.not_a_drink.say.clone());
    says
}

/// What the powders ask for, each caution once; those that are not about all products stand behind the names that they
/// are about. Mask and gloves are left out: the letter says them once, before the first powder is weighed.
fn cautions(desk: &Desk, inside: &[&Product]) -> Vec<String> {
    let mut about: Vec<(String, Vec<String>)> = Vec::new();
    let mut seen = Vec::new();
    for key in inside.iter().flat_map(|p| &p.cautions).filter(|key| *key != "dust") {
        let Some(caution) = desk.book.cautions.get(key).filter(|_| !seen.contains(&key)) else { continue };
        seen.push(key);
        let of: Vec<&&Product> = inside.iter().filter(|p| p.cautions.contains(key)).collect();
        let names: Vec<String> = of.iter().map(|p| p.name.clone()).collect();
        let names = if of.len() == inside.len() { String::new() } else { format!("{}. ", capital(&list(&names))) };
        let say = format!("{}.", caution.say.trim_end_matches('.'));
        match about.iter_mut().find(|(other, _)| *other == names) {
            Some((_, says)) => says.push(say),
            None => about.push((names, vec![say])),
        }
    }
    about.into_iter().map(|(names, says)| format!("{names}{}", says.join(" "))).collect()
}

/// What harms, in words, each with the statements that suppliers give for it and the products that it is of.
pub(super) fn hazards(desk: &Desk, inside: &[&Product]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut seen = Vec::new();
    for key in inside.iter().flat_map(|product| &product.cautions) {
        let Some(caution) = desk.book.cautions.get(key).filter(|c| !c.statements.is_empty() && !seen.contains(&key))
        else {
            continue;
        };
        seen.push(key);
        let of: Vec<String> = inside.iter().filter(|p| p.cautions.contains(key)).map(|p| p.name.clone()).collect();
        out.push(format!("{} ({}, {}).", caution.say.trim_end_matches('.'), list(&of), caution.statements.join(", ")));
    }
    out
}
