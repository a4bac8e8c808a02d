//! What stands on a bottle: how long it keeps, how it is handled, what its hazards are.

use knowledge::{Product, Role};
use quantity::Known;

use crate::bottles::{DAYS_A_MONTH, chelate};
use crate::desk::Desk;
use crate::plan::FromStock;

/// Days that a bottle keeps: the shortest of its products.
pub(super) fn keeps_days(desk: &Desk, inside: &[&Product]) -> f64 {
    let days = inside.iter().filter_map(|p| p.bottle_keeps_months.as_ref()).map(|months| months.value * DAYS_A_MONTH);
    days.fold(desk.book.defaults.bottle_keeps_days.value, f64::min)
}

pub(super) fn handling(
    desk: &Desk,
    inside: &[&Product],
    from_stock: &[FromStock],
    doses_in: f64,
    ph: Option<Known<f64>>,
) -> Vec<String> {
    let mut says: Vec<String> = from_stock.iter().map(|s| s.sentence.clone()).collect();
    says.push("Boiled, cooled water; shake until it is clear. Label it with the day of mixing.".to_owned());
    let keeps = keeps_days(desk, inside);
    let left = if doses_in > keeps { ", whatever is left" } else { "" };
    says.push(format!(
        "Pour it out after {} days{left}, and at once if it is cloudy or shows threads.",
        desk.pen.n(keeps, 2)
    ));
    if inside.iter().any(|p| p.is(Role::Trace)) {
        says.push("Not into a bottle with phosphate: iron and phosphate fall out together.".to_owned());
    }
    if let Some(ph) = ph {
        says.extend(inside.iter().filter_map(|p| chelate::say(&desk.pen, p, ph)).map(|note| note.text));
    }
    for product in inside {
        for caution in product.cautions.iter().filter_map(|key| desk.book.cautions.get(key)) {
            let say = format!("{}.", caution.say.trim_end_matches('.'));
            if !says.contains(&say) {
                says.push(say);
            }
        }
    }
    let drink = desk.book.harm.rule.not_a_drink.say.clone();
    says.push(drink);
    says
}

pub(super) fn hazards(desk: &Desk, inside: &[&Product]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for product in inside {
        for caution in product.cautions.iter().filter_map(|key| desk.book.cautions.get(key)) {
            for statement in &caution.statements {
                let line = format!("{statement} ({})", product.name);
                if !out.contains(&line) {
                    out.push(line);
                }
            }
        }
    }
    out
}
