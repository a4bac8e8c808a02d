//! What the water means: five sentences, and under them the tables that they come from.

use maud::{Markup, html};
use quantity::Units;
use report::{Against, Borne, Meaning, Swing};

use crate::words::{capital, glued, sentence, span};

/// The verses of a meaning; `of` names the water where there are several.
pub(crate) fn verses(meaning: &Meaning, units: &Units, of: Option<&str>) -> Markup {
    let urgent = meaning.sentences.iter().any(|said| said.urgent);
    html! {
        section.verse {
            h2 { "What it means" @if let Some(of) = of { ": " (of) } }
            div class=(if urgent { "text must" } else { "text" }) {
                @for said in &meaning.sentences {
                    p { (glued(&said.text)) }
                    @if !said.more.is_empty() {
                        details.more {
                            summary { (said.head) ", more of it" }
                            ul.plain { @for more in &said.more { li { (sentence(more)) } } }
                        }
                    }
                }
                (tables(meaning, units))
            }
        }
    }
}

/// What the letter says itself, verse by verse.
const SAID: [&str; 2] = ["feeds", "first"];

/// The verse on a letter that says the rest already.
pub(crate) fn brief(meaning: &Meaning, units: &Units) -> Markup {
    html! {
        section.verse {
            h2 { "What it means" }
            div.text {
                @for said in meaning.sentences.iter().filter(|said| !SAID.contains(&said.key)) { p { (glued(&said.text)) } }
                (tables(meaning, units))
            }
        }
    }
}

/// The tables from which the sentences come, folded.
fn tables(meaning: &Meaning, units: &Units) -> Markup {
    html! {
        details.more { summary { "Against what plants, fish and shrimps bear" } (bears(&meaning.bears)) }
        details.more { summary { "Against regulators’ limits, which bind the supplier and say nothing of animals" } (regulators(&meaning.regulators)) }
        details.more { summary { "How far each value could swing over a year" } (swings(&meaning.swings, units)) }
    }
}

fn bears(all: &[Borne]) -> Markup {
    html! {
        @if all.is_empty() { p { "Nothing was told that could be held against it." } }
        @else {
            div.scroll tabindex="0" role="region" aria-label="Against what plants, fish and shrimps bear" { table {
                thead { tr { th scope="col" { "what" } th scope="col" { "here" } th scope="col" { "who" } th scope="col" { "bears" } th scope="col" { "" span.off-screen { "Beyond it" } } } }
                tbody { @for borne in all { tr {
                    th scope="row" { (capital(&borne.determinand)) }
                    td { (glued(&borne.shown)) } td { (borne.who.words()) } td { (glued(&borne.limit)) }
                    td { @if borne.beyond { b { "beyond it" } } }
                } } }
            } }
            ul.plain { @for borne in all.iter().filter(|borne| borne.beyond) {
                li { (sentence(&borne.say)) " " span.small { "Source: " (knowledge::book().cite_words(&borne.source)) "." } }
            } }
        }
    }
}

fn regulators(all: &[Against]) -> Markup {
    html! {
        @if all.is_empty() { p { "Nothing was told for which a regulator sets a limit." } }
        @else {
            div.scroll tabindex="0" role="region" aria-label="Against regulators’ limits for suppliers" { table {
                thead { tr {
                    th scope="col" { "what" } th scope="col" { "here" }
                    @for by in knowledge::Regulator::ALL { th scope="col" { (by.name()) } }
                } }
                tbody { @for against in all { tr {
                    th scope="row" { (capital(&against.name)) @if !against.unit.is_empty() { ", " (glued(&against.unit)) } }
                    td { (against.shown) }
                    @for by in knowledge::Regulator::ALL {
                        @let limit = against.limits.iter().find(|limit| limit.by == by);
                        td { @if let Some(limit) = limit {
                            (limit.text) @if let Some(note) = &limit.note { " (" (note) ")" } @if limit.beyond { " " b { "beyond it" } }
                        } @else { "none" } }
                    }
                } } }
            } }
            p.small { "Sources: " (sources(all)) "." }
        }
    }
}

fn sources(all: &[Against]) -> String {
    let mut keys: Vec<&str> =
        all.iter().flat_map(|against| &against.limits).map(|limit| limit.source.as_str()).collect();
    keys.sort_unstable();
    keys.dedup();
    keys.iter().map(|key| knowledge::book().cite_words(key)).collect::<Vec<_>>().join("; ")
}

fn swings(all: &[Swing], units: &Units) -> Markup {
    html! {
        div.scroll tabindex="0" role="region" aria-label="Over a year" { table {
            thead { tr { th scope="col" { "what" } th.n scope="col" { "from, to" } th scope="col" { "known by" } } }
            tbody { @for swing in all { tr {
                th scope="row" { (capital(&swing.name)) @if !swing.unit.is_empty() { ", " (glued(&swing.unit)) } }
                td.n { (span(units, swing.known.low, swing.known.high)) }
                td { @if swing.told { "the report’s least and most" } @else if swing.known.high > swing.known.low { (swing.known.kind.words()) } @else { "one number: how far it moves nobody told" } }
            } } }
        } }
    }
}
