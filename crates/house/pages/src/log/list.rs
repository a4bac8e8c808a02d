//! The entries, day by day; each can be mended and taken out.

use logbook::{Entry, Kept};
use maud::{Markup, html};
use quantity::Units;

use super::lines::{Line, kind_words, name};
use super::view::View;
use super::{MEND, beside, mendable};
use crate::ctx::Today;
use crate::sheet::Sheet;
use crate::words::{capital, glued};
use logbook::written::KINDS;

/// An entry in words.
pub fn words(entry: &Entry, units: &Units) -> String {
    match entry.words(units) {
        words if words.is_empty() => entry.note.clone(),
        words => glued(&words),
    }
}

/// The day of an entry, by the clock of its own zone.
pub fn day(entry: &Entry, sheet: &Sheet) -> String {
    let (today, date) = (sheet.now.date(), entry.at.date());
    if date == today {
        "today".to_owned()
    } else if today.yesterday().is_ok_and(|yesterday| yesterday == date) {
        "yesterday".to_owned()
    } else if date.year() == today.year() {
        Today::of(&entry.at).words()
    } else {
        format!("{} {}", Today::of(&entry.at).words(), date.year())
    }
}

/// The filter and the entries.
pub fn verse(sheet: &Sheet, view: &View) -> Markup {
    let shown = sheet.log.get(..view.shown().min(sheet.log.len())).unwrap_or_default();
    let older = (sheet.log.len() > shown.len()).then(|| view.older(shown).query());
    sheet.verse(
        "What is written",
        html! {
            (find(view))
            @if shown.is_empty() { p { "Nothing" @if view.narrows() { " like that" } " is written." } }
            ul.days {
                @for day in shown.chunk_by(|a, b| a.entry.at.date() == b.entry.at.date()) { (one_day(sheet, view, day)) }
            }
            @if let Some(older) = older { p { a href=(format!("?{older}")) { "Older ones" } } }
            @if view.narrows() { p { a href=(sheet.letter("log")) { "All entries, the latest first" } } }
        },
    )
}

fn find(view: &View) -> Markup {
    let field = |of: &str, shown: &str, says: &str, kind: &str, class: &str| {
        html! { input class=(format!("entry {class}")) type=(kind) name=(name("find", of)) value=(shown) aria-label=(says); }
    };
    html! {
        details.more open[view.narrows()] {
            summary { "Look for something" }
            div.line { p {
                "Show " span.pick { select.entry name=(name("find", "kind")) aria-label="Of which kind" {
                    option value="" { "everything" }
                    @for (kind, words) in KINDS { option value=(kind) selected[kind == view.kind] { (words) } }
                } }
                " with the words " (field("words", &view.words, "With which words", "text", "wide"))
                " from " (field("from", &view.from, "From which day on", "date", "moment"))
                " to " (field("to", &view.to, "Up to which day", "date", "moment"))
                " " button.again name="act" value="show" { "show" }
            } }
        }
    }
}

fn one_day(sheet: &Sheet, view: &View, day: &[Kept]) -> Markup {
    let Some(first) = day.first() else { return html! {} };
    html! {
        li {
            h3 { (capital(&self::day(&first.entry, sheet))) }
            ul.entries { @for kept in day { (one(sheet, view, kept)) } }
        }
    }
}

fn one(sheet: &Sheet, view: &View, kept: &Kept) -> Markup {
    let (id, entry) = (kept.id, &kept.entry);
    if view.mend == Some(id) {
        return mend(sheet, view, kept);
    }
    let said = words(entry, &sheet.units);
    let query = view.query();
    let address = format!("?{query}{}mend={id}#entry-{id}", if query.is_empty() { "" } else { "&" });
    html! {
        li id=(format!("entry-{id}")) {
            span.at { (entry.at.strftime("%H:%M").to_string()) }
            span.said {
                (said)
                @if !entry.words(&sheet.units).is_empty() && !entry.note.is_empty() { " " i { (entry.note) } }
                @if let Some(remark) = entry.remark() { " " span.really { (remark) } }
                (beside::remark(sheet, kept))
            }
            span.hands {
                a href=(address) aria-label=(format!("Mend: {said}")) { "mend" }
                button.again name="act" value=(format!("out {id}")) aria-label=(format!("Take out: {said}")) { "take out" }
            }
        }
    }
}

/// An entry as a line to be filled in.
fn mend(sheet: &Sheet, view: &View, kept: &Kept) -> Markup {
    let usual = mendable(&kept.entry);
    let line = Line { sheet, line: MEND, usual: &usual };
    let kind = kept.entry.what.kind();
    let query = view.query();
    html! {
        li.mended id=(format!("entry-{}", kept.id)) {
            input type="hidden" name=(super::MENDED) value=(kept.id);
            @for (field, text) in &usual {
                @let field = name(super::BEFORE, field);
                input type="hidden" name=(field) value=(sheet.typed(&field, text));
            }
            div.line role="group" aria-label=(format!("Mend: {}", words(&kept.entry, &sheet.units))) {
                p {
                    (line.moment("When")) " " b { (kind_words(kind)) ": " } (line.sentence(kind))
                    @if kind == "test" { ", off by at most " (line.text("error", "How far it may be off; empty: as kits are", "short")) }
                    ". A note: " (line.note()) " "
                    button.again name="act" value=(format!("{MEND} {}", kept.id)) { "keep it so" }
                    " " a href=(format!("?{query}#entry-{}", kept.id)) { "leave it" }
                }
                (line.faults())
            }
        }
    }
}
