//! The last report against this one: what moved in the water, and which advice moves with it.

use maud::{Markup, html};
use report::{Combined, OneWater, combine, compare, is_alike};
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

fn first(read: &Read, all: &[Read], setup: &Setup) -> Option<OneWater> {
    let combined = combine(&sources(read, all), place_of(setup))?;
    // Two waters are not one year against another.
    let [one] = <[OneWater; 1]>::try_from(combined.waters).ok()?;
    Some(one)
}

/// The two setups whose advice is compared: as the letter stands, or with the earlier report's water; and with this one's.
pub(super) fn setups(read: &Read, all: &[Read], setup: &Setup) -> Option<[Setup; 2]> {
    if read.filed.put_away {
        return None;
    }
    let now = with_water(setup, &first(read, all, setup)?).ok()?;
    let before = earlier(read, all)
        .and_then(|earlier| first(earlier, all, setup))
        .and_then(|water| with_water(setup, &water).ok())
        .unwrap_or_else(|| setup.clone());
    Some([before, now])
}

/// What moved, and which advice moves with it.
pub(super) fn verse(house: &House, view: &View, combined: &Combined) -> Markup {
    let [water] = combined.waters.as_slice() else { return html! {} };
    let Some([before, now]) = setups(view.read, view.all, view.setup) else { return html! {} };
    let earlier = earlier(view.read, view.all);
    let moved = earlier
        .and_then(|earlier| first(earlier, view.all, view.setup))
        .map(|old| compare(&old.estimate, &water.estimate, &view.units))
        .unwrap_or_default();
    let (old, new) = (house.follows(&before), house.follows(&now));
    let advice = match (old.as_ref(), new.as_ref()) {
        (Ok(old), Ok(new)) => advice::between(old, new, &view.units),
        _ => Vec::new(),
    };
    let (sure, still): (Vec<_>, Vec<_>) = moved.iter().partition(|moved| moved.for_sure);
    html! {
        section.verse {
            h2 { @match earlier { Some(_) => "Since the last report", None => "What would change" } }
            div.text {
                @if let Some(earlier) = earlier {
                    p { "Against " (earlier.kept.name) " of " (front::day(&earlier.kept.at)) ":" }
                    @if sure.is_empty() { p { "Nothing moved by more than both reports may be off." } }
                    ul.plain { @for moved in &sure { li { (moved.text) } } }
                    @if !still.is_empty() {
                        details.more { summary { "What moved by no more than both may be off" } ul.plain { @for moved in &still { li { (moved.text) } } } }
                    }
                    p { @if advice.is_empty() { "No advice changes with it." } @else { "The advice that changes with it:" } }
                } @else {
                    p { @if advice.is_empty() { "Taken into your letter, it changes no advice." } @else { "Taken into your letter, it changes this advice:" } }
                }
                ul.plain { @for line in &advice { li { (sentence(line)) } } }
            }
        }
    }
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
