//! The water that follows from a report: every value with its range, what it means, and the button that takes it.

use maud::{Markup, html};
use quantity::{Ion, Known, Measure, Units};
use report::estimate::{Decided, Line, Quantity};
use report::{Combined, OneWater, combine, meaning};

use super::one::View;
use super::{front, place_of, sources, with_water, year};
use crate::house::House;
use crate::parts;
use crate::tap::means;
use crate::words::{capital, glued, level, sentence, span};

/// The verses of a report's water, or of its two.
pub(super) fn verses(house: &House, view: &View) -> Markup {
    let Some(combined) = combine(&sources(view.read, view.all), place_of(view.setup)) else {
        return html! { section.verse { h2 { "The water that follows" } div.text { p { "These numbers lie outside what fresh water can be: look whether a unit is wrong." } } } };
    };
    html! {
        (apart(view, &combined))
        @for (at, water) in combined.waters.iter().enumerate() { (one(view, &combined, at, water)) }
        (next(view, &combined))
        @for (at, water) in combined.waters.iter().enumerate() { (means(view, water, name(&combined, at).as_deref())) }
        (year::verse(house, view, &combined))
    }
}

/// What a water means; nothing before its questions are answered.
fn means(view: &View, water: &OneWater, called: Option<&str>) -> Markup {
    let tank = with_water(view.setup, water).ok().and_then(|setup| setup.tank().ok());
    match tank {
        Some(tank) if tank.questions.iter().any(|question| question.field.starts_with("tap.")) => html! {
            section.verse { h2 { "What it means" } div.text { p { "What it means waits for the answer that is open." } } }
        },
        Some(tank) => means::verses(&meaning(&tank, &water.readings), &view.units, called),
        None => html! {},
    }
}

/// What the waters are called where there are two.
fn name(combined: &Combined, at: usize) -> Option<String> {
    let water = combined.waters.get(at)?;
    let which = if at == 0 { "the water with less salt" } else { "the water with more salt" };
    (combined.waters.len() > 1).then(|| match &water.name {
        Some(name) => format!("{which}, {name}"),
        None => which.to_owned(),
    })
}

/// Two waters, or a softener: said before any number.
fn apart(view: &View, combined: &Combined) -> Markup {
    let units = &view.units;
    html! {
        @if combined.waters.len() > 1 {
            section.verse {
                h2 { "Two waters" }
                div.text { p {
                    "These are two waters that take turns, and no mean of them ever comes from your tap. "
                    @if let Some(us) = combined.tell_apart_us_per_cm {
                        "Before each change ask a pen: more than " b { (level(units, us)) " µS/cm" } " (at 25 °C) means that the one with more salt came today."
                    } @else if let Some(meq) = combined.tell_apart_meq_per_l {
                        "Before each change count the drops of a hardness kit: more than "
                        b { (glued(&quantity::hardness::format_hardness(meq, Measure::Hardness, units))) } " means that the harder one came today."
                    }
                } }
            }
        }
        @if let Some(softener) = &combined.softener {
            section.verse { h2 { "A softener" } div.text { p { (sentence(softener)) } } }
        }
    }
}

fn one(view: &View, combined: &Combined, at: usize, water: &OneWater) -> Markup {
    let called = name(combined, at);
    let taken = with_water(view.setup, water);
    html! {
        section.verse.across id=[(at == 0).then_some("water")] {
            h2 { @match &called { Some(called) => (capital(called)), None => "The water that follows" } }
            div.text.full {
                @if water.from.len() > 1 { p { "Put together from " (front::named(&water.from)) "." } }
                @for settled in &water.settled { p { (glued(&settled.text)) } }
                @for clash in &water.estimate.clashes { div.told { p { b.when { "It contradicts itself: " } (glued(&clash.text)) } } }
                @for apart in &water.apart { p { (glued(apart)) } }
                (table(&view.units, water))
                @for left_out in &water.estimate.left_out { p.small { (sentence(&capital(left_out))) } }
                @match taken {
                    Ok(setup) => {
                        @let tank = setup.tank().ok();
                        @if tank.is_some_and(|tank| tank.questions.iter().any(|q| q.field.starts_with("tap."))) {
                            p { "What is open stays open in your letter too: it shows both outcomes and decides nothing." }
                        }
                        p {
                            button.send name="do" value=(format!("take-{at}")) { "Take this water" } " "
                            span.small { "into your letter, as one change that can be undone there. What it says nothing of is assumed again, disinfectant and temperature stay." }
                        }
                    }
                    Err(fault) => p.really { (parts::fault(&fault)) },
                }
            }
        }
    }
}

/// What a row of the table is called, in the keeper's units: factor from the kept unit, and the unit.
fn unit(of: Quantity, units: &Units) -> (f64, String) {
    let per = |measure: Measure| 1.0 / units.hardness.meq_per_unit(measure);
    match of {
        Quantity::Ion(ion) => {
            let (factor, unit) = crate::salts::levels::basis(units, Some(ion));
            (factor, unit.to_owned())
        }
        Quantity::Hardness => (per(Measure::Hardness), units.hardness.name(Measure::Hardness).to_owned()),
        Quantity::Alkalinity => (per(Measure::Alkalinity), units.hardness.name(Measure::Alkalinity).to_owned()),
        _ => (1.0, of.unit().to_owned()),
    }
}

/// Every value of the estimate.
fn table(units: &Units, water: &OneWater) -> Markup {
    let told = |ion: Ion| water.evidence.items.iter().any(|item| item.of == Quantity::Ion(ion));
    let ions = water
        .estimate
        .ions
        .iter()
        .filter(|(ion, line)| line.decided != Decided::Usual || Ion::MAJOR.contains(ion) || told(**ion));
    let rows: Vec<(Quantity, &Line)> = [
        (Quantity::Hardness, &water.estimate.hardness),
        (Quantity::Alkalinity, &water.estimate.alkalinity),
        (Quantity::Conductivity, &water.estimate.conductivity_25),
    ]
    .into_iter()
    .chain(ions.map(|(ion, line)| (Quantity::Ion(*ion), line)))
    .collect();
    html! {
        div.scroll tabindex="0" role="region" aria-label="The water, value by value" {
            table {
                thead { tr {
                    th scope="col" { "what" } th.n scope="col" { "best" } th.n scope="col" { "likely" } th.n scope="col" { "on one day" } th scope="col" { "known by" }
                } }
                tbody { @for (of, line) in rows { (value(units, of, line)) } }
            }
        }
        p.small { "Likely: 90 of 100 such waters lie in it. On one day: how far a single day may be from the mean, where the report has a least and a most." }
    }
}

fn value(units: &Units, of: Quantity, line: &Line) -> Markup {
    let (factor, unit) = unit(of, units);
    let Known { value, low, high, kind } = line.known.map(|x| factor * x);
    html! {
        tr {
            th scope="row" { (capital(of.name())) ", " (glued(&unit)) }
            td.n { (level(units, value)) }
            td.n { (span(units, low, high)) }
            td.n { @if let Some((low, high)) = line.day { (span(units, factor * low.max(0.0), factor * high)) } }
            td { (capital(kind.words())) ": " (line.decided.words()) }
        }
    }
}

/// Which test narrows it most.
fn next(view: &View, combined: &Combined) -> Markup {
    html! {
        @if let Some(test) = combined.next.first() {
            section.verse {
                h2 { "One more test" }
                div.text {
                    p { "The test that would tell most: " (front::said(test, &view.units)) }
                    @if combined.next.len() > 1 {
                        p { "After it: " (front::named(&combined.next.iter().skip(1).map(|test| test.test.to_owned()).collect::<Vec<_>>())) "." }
                    }
                }
            }
        }
    }
}
