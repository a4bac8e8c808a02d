//! May I buy this here, what does it cost, how long does it last.

use maud::{Markup, html};
use quantity::{Kind, Units, Why};
use recipe::{Plan, Purchase};
use setup::Tank;

use super::notes::note;
use super::reading::{Reading, by_reading};
use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{days, glued, list as listed, money_fine, money_plain, money_sign, small_money};

/// Prices that the keeper may write in.
pub fn blanks(tank: &Tank, plan: &Plan) -> Vec<Blank> {
    let known = plan.shopping.iter().filter(|p| knowledge::book().product(&p.product).is_some());
    let price = |p: &Purchase| {
        let shown = money_plain(&tank.units, &tank.currency, p.price_minor.value);
        let says = format!("Price of {}, {}", p.name, tank.currency);
        Blank::number(&field(p), shown, "", &says, p.price_minor.kind)
    };
    let money =
        Blank::number("tank.currency", tank.currency.clone(), "", "Currency of the prices, three letters", kind(tank));
    std::iter::once(money).chain(known.map(price)).collect()
}

/// How well the currency is known.
fn kind(tank: &Tank) -> Kind {
    super::kind_of(tank, "tank.currency")
}

fn field(purchase: &Purchase) -> String {
    format!("prices.{}", purchase.product)
}

/// What the law of the country says.
pub fn law(sheet: &Sheet, readings: &[Reading]) -> Markup {
    if readings.iter().all(|r| r.plan.law.is_empty()) {
        return html! {};
    }
    sheet.verse(
        "May I buy this here?",
        by_reading(
            readings,
            |r| r.plan.law.clone(),
            |r| html! { @for law in &r.plan.law { (note(sheet, r.plan, law)) } },
        ),
    )
}

/// The shopping list.
pub fn list(sheet: &Sheet, readings: &[Reading]) -> Markup {
    if readings.iter().all(|r| r.plan.shopping.is_empty()) {
        return html! {};
    }
    sheet.verse(
        "To buy",
        by_reading(
            readings,
            |r| (r.plan.shopping.clone(), recipe::may_wait(r.plan), unproved(r.plan)),
            |r| html! { (table(sheet, r)) @for text in recipe::to_share(r.plan).into_iter().chain(recipe::may_wait(r.plan)) { p { (glued(&text)) } } @if let Some(unproved) = unproved(r.plan) { p.small { (unproved) } } },
        ),
    )
}

/// What of the search is not proved, in a sentence.
fn unproved(plan: &Plan) -> Option<String> {
    let stages: Vec<&str> =
        plan.proof.stages.iter().filter(|(_, proved)| !proved).map(|(name, _)| name.as_str()).collect();
    let cost = |stage: &&str| stage.starts_with("cost");
    match stages.as_slice() {
        [] => None,
        all if all.iter().all(cost) => {
            Some("This is the cheapest found; something a little cheaper may do the same.".to_owned())
        }
        all => Some(format!("This is the best found; not proved is: {}.", listed(all))),
    }
}

fn table(sheet: &Sheet, reading: &Reading) -> Markup {
    let units = &sheet.units;
    let currency = reading.tank.currency.as_str();
    let list = &reading.plan.shopping;
    let region =
        reading.label.as_ref().map_or("Shopping list".to_owned(), |label| format!("Shopping list, if {label}"));
    let plain = |minor: f64| money_plain(units, currency, minor);
    html! {
        div.scroll tabindex="0" role="region" aria-label=(region) {
            table {
                caption {
                    "Prices are in " (sheet.blank("tank.currency", ",")) " and assumed until you write in your own. What you have already is not counted together."
                }
                thead { tr {
                    th scope="col" { "what" }
                    th.n scope="col" { "a packet, " (money_sign(currency)) }
                    th.n.on-paper scope="col" { "paid" }
                    th.n scope="col" { "lasts" }
                    th.n scope="col" { "a month, " (small_money(currency)) }
                } }
                tbody { @for purchase in list { tr {
                    th scope="row" { span.tick {} (glued(&purchase.name)) @if purchase.owned { " (you have it)" } }
                    td.n { (price(sheet, purchase, &plain(purchase.price_minor.value))) }
                    td.n.on-paper { @if !purchase.owned { "______" } }
                    td.n { @if let Some((lasts, longer)) = purchase.lasts() { @if longer { "over " } (days(units, lasts)) } }
                    td.n { @if purchase.a_month_minor > 0.0 { (money_fine(units, currency, purchase.a_month_minor)) } }
                } } }
                tfoot { tr {
                    th scope="row" { "together" }
                    td.n { (plain(super::to_buy(reading.plan))) }
                    td.n.on-paper { "______" }
                    td.n {}
                    td.n { (sheet.out(&money_fine(units, currency, super::a_month(reading.plan)), &month(units, reading.plan, currency))) }
                } }
            }
        }
    }
}

/// The blank of a price, or the price.
fn price(sheet: &Sheet, purchase: &Purchase, plain: &str) -> Markup {
    let field = field(purchase);
    if sheet.has(&field) {
        sheet.blank(&field, "")
    } else {
        html! { (plain) }
    }
}

fn month(units: &Units, plan: &Plan, currency: &str) -> Why {
    let parts: Vec<String> = plan
        .shopping
        .iter()
        .filter(|p| p.a_month_minor > 0.0)
        .map(|p| money_fine(units, currency, p.a_month_minor))
        .collect();
    let total = money_fine(units, currency, super::a_month(plan));
    Why {
        key: "cost-a-month".to_owned(),
        question: format!("why {total} a month?"),
        sum: format!("{} = {total}", parts.join(" + ")),
        words: "Each packet’s price, spread over the time that it lasts. Tools are left out.".to_owned(),
        sources: Vec::new(),
        kind: plan.shopping.iter().map(|p| p.price_minor.kind).fold(Kind::WorkedOut, Kind::weaker),
    }
}
