//! May I buy this here, what does it cost, how long does it last.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Kind, Why};
use recipe::{Plan, Purchase};
use setup::Tank;

use super::notes::note;
use super::reading::{Reading, by_reading};
use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{days, money_plain, money_sign};

/// Prices that the keeper may write in: none is known before the plan names it.
pub fn blanks(_tank: &Tank) -> Vec<Blank> {
    Vec::new()
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
    sheet.verse("To buy", by_reading(readings, |r| r.plan.shopping.clone(), |r| table(sheet, r)))
}

fn table(sheet: &Sheet, reading: &Reading) -> Markup {
    let units = &sheet.units;
    let currency = reading.tank.currency.as_str();
    let list = &reading.plan.shopping;
    let plain = |minor: f64| money_plain(units, currency, minor);
    let to_buy: f64 = list.iter().filter(|p| !p.owned).map(|p| p.price_minor.value).sum();
    html! {
        div.scroll tabindex="0" role="region" aria-label="Shopping list" {
            table {
                caption { "Prices are assumed until you write in your own." }
                thead { tr {
                    th scope="col" { "what" }
                    th.n scope="col" { "price, " (money_sign(currency)) }
                    th.n scope="col" { "lasts" }
                    th.n scope="col" { "a month" }
                } }
                tbody { @for purchase in list { tr {
                    th scope="row" { (purchase.name) @if purchase.owned { " (you have it)" } }
                    td.n { (price(sheet, purchase, &plain(purchase.price_minor.value))) }
                    td.n { @if let Some(lasts) = purchase.lasts_days { (days(units, lasts)) } }
                    td.n { (plain_fine(sheet, currency, purchase.a_month_minor)) }
                } } }
                tfoot { tr {
                    th scope="row" { "together" }
                    td.n { (plain(to_buy)) }
                    td.n {}
                    td.n { (sheet.out(&plain_fine(sheet, currency, super::a_month(reading.plan)), &month(sheet, reading.plan, currency))) }
                } }
            }
        }
    }
}

/// The blank of a price, or the price.
fn price(sheet: &Sheet, purchase: &Purchase, plain: &str) -> Markup {
    let field = format!("prices.{}", purchase.product);
    if sheet.has(&field) {
        sheet.blank(&field, "")
    } else {
        html! { (plain) }
    }
}

/// A monthly share, a figure finer than the coin.
fn plain_fine(sheet: &Sheet, currency: &str, minor: f64) -> String {
    let whole = money_plain(&sheet.units, currency, 100.0 * minor);
    let decimals = whole.rsplit(['.', ',']).next().map_or(0, str::len);
    let per_main = 10f64.powi(i32::try_from(decimals).unwrap_or(2));
    sheet.units.number(minor / per_main, Digits::Decimals(u8::try_from(decimals + 1).unwrap_or(3)))
}

fn month(sheet: &Sheet, plan: &Plan, currency: &str) -> Why {
    let parts: Vec<String> = plan
        .shopping
        .iter()
        .filter(|p| p.a_month_minor > 0.0)
        .map(|p| plain_fine(sheet, currency, p.a_month_minor))
        .collect();
    let total = plain_fine(sheet, currency, super::a_month(plan));
    Why {
        key: "cost-a-month".to_owned(),
        question: format!("why {total} a month?"),
        sum: format!("{} = {total}", parts.join(" + ")),
        words: "Each packet’s price, spread over the time that it lasts. Tools are left out.".to_owned(),
        sources: Vec::new(),
        kind: plan.shopping.iter().map(|p| p.price_minor.kind).fold(Kind::WorkedOut, Kind::weaker),
    }
}
