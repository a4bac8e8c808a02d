//! The last report against this one: what moved in each water, works by their names, and which advice moves with it.

use maud::{Markup, html};
use report::{Combined, Filed, Moved, OneWater, Pair, Years, combine, compare, is_alike, picked_alike, years};
use setup::Setup;

use super::one::View;
use super::{Read, front, place_of, sources, with_water};
use crate::advice;
use crate::house::House;
use crate::words::sentence;

/// The report before this one: the last of the same layout, else the last of the same kind; own tests have none.
fn earlier<'r>(read: &Read, all: &'r [Read]) -> Option<&'r Read> {
    let before = || {
        all.iter()
            .filter(|other| other.kept.id < read.kept.id && !other.filed.put_away && other.filed.by == read.filed.by)
    };
    before().find(|other| is_alike(&other.filed.report, &read.filed.report)).or_else(|| before().next())
}

fn waters(read: &Read, all: &[Read], setup: &Setup) -> Option<Vec<OneWater>> {
    Some(combine(&sources(read, all), place_of(setup))?.waters)
}

/// The waters of the report before this one, the same works of it, beside those of this one; none where there is none before.
fn since(read: &Read, all: &[Read], now: &[OneWater], setup: &Setup) -> Option<Years> {
    let earlier = earlier(read, all)?;
    let alike = picked_alike(&earlier.filed, &read.filed);
    let named: Vec<(&str, &Filed)> = std::iter::once((earlier.kept.name.as_str(), &alike))
        .chain(sources(earlier, all).into_iter().skip(1))
        .collect();
    Some(years(&combine(&named, place_of(setup))?.waters, now))
}

/// The setups of two waters whose advice is compared.
fn both(setup: &Setup, pair: &Pair) -> Option<[Setup; 2]> {
    Some([with_water(setup, &pair.before).ok()?, with_water(setup, &pair.after).ok()?])
}

/// The letter as it stands, and with this water; two waters are not one that could be taken.
fn taken(setup: &Setup, now: &[OneWater]) -> Option<[Setup; 2]> {
    let [water] = now else { return None };
    Some([setup.clone(), with_water(setup, water).ok()?])
}

/// The setups whose advice is compared: with the earlier report's water and with this one's, for each works; without an earlier
/// one, the letter as it stands and with this one's.
pub(super) fn setups(read: &Read, all: &[Read], setup: &Setup) -> Vec<Setup> {
    if read.filed.put_away {
        return Vec::new();
    }
    let Some(now) = waters(read, all, setup) else { return Vec::new() };
    match since(read, all, &now, setup) {
        Some(years) => years.pairs.iter().filter_map(|pair| both(setup, pair)).flatten().collect(),
        None => taken(setup, &now).into_iter().flatten().collect(),
    }
}

/// What moved, and which advice moves with it.
pub(super) fn verse(house: &House, view: &View, combined: &Combined) -> Markup {
    let (read, all) = (view.read, view.all);
    if read.filed.put_away {
        return html! {};
    }
    let (Some(earlier), Some(years)) = (earlier(read, all), since(read, all, &combined.waters, view.setup)) else {
        let Some(setups) = taken(view.setup, &combined.waters) else { return html! {} };
        let advice = between(house, view, &setups);
        return html! {
            section.verse {
                h2 { "What would change" }
                div.text {
                    p { @if advice.is_empty() { "Taken into your letter, it changes no advice." } @else { "Taken into your letter, it changes this advice:" } }
                    (list(&advice))
                }
            }
        };
    };
    html! {
        section.verse {
            h2 { "Since the last report" }
            div.text {
                p { "Against " (earlier.kept.name) " of " (front::day(&earlier.kept.at)) ":" }
                @for text in &years.unmatched { p { (sentence(text)) } }
                @for pair in &years.pairs { (one(house, view, pair, years.pairs.len() > 1)) }
            }
        }
    }
}

/// What moved in one water.
fn one(house: &House, view: &View, pair: &Pair, is_named: bool) -> Markup {
    let moved = compare(&pair.before.estimate, &pair.after.estimate, &view.units);
    let (sure, still): (Vec<&Moved>, Vec<&Moved>) = moved.iter().partition(|moved| moved.for_sure);
    let advice = both(view.setup, pair).map(|setups| between(house, view, &setups)).unwrap_or_default();
    html! {
        @if let Some(name) = pair.name.as_ref().filter(|_| is_named) { h3 { (name) } }
        @if sure.is_empty() { p { "Nothing moved by more than both reports may be off." } }
        ul.plain { @for moved in &sure { li { (moved.text) } } }
        @if !still.is_empty() {
            details.more { summary { "What moved by no more than both may be off" } ul.plain { @for moved in &still { li { (moved.text) } } } }
        }
        p { @if advice.is_empty() { "No advice changes with it." } @else { "The advice that changes with it:" } }
        (list(&advice))
    }
}

fn between(house: &House, view: &View, [before, now]: &[Setup; 2]) -> Vec<String> {
    match (house.follows(before).as_ref(), house.follows(now).as_ref()) {
        (Ok(old), Ok(new)) => advice::between(old, new, &view.units),
        _ => Vec::new(),
    }
}

fn list(advice: &[String]) -> Markup {
    html! { ul.plain { @for line in advice { li { (sentence(line)) } } } }
}

/// Reports that can be looked at beside this one.
pub(super) fn others(view: &View) -> Markup {
    let list: Vec<&Read> = view.all.iter().filter(|other| other.kept.id != view.read.kept.id).collect();
    html! {
        @if !list.is_empty() {
            section.verse {
                h2 { "Other reports" }
                div.text { ul.plain { @for other in list {
                    li { a href=(view.place.letter(&format!("{}/{}", super::KEY, other.kept.id))) { (other.kept.name) } ", " (front::day(&other.kept.at)) }
                } } }
            }
        }
    }
}
