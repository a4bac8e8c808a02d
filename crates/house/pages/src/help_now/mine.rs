//! A trouble with the figures of a tank: causes for which something speaks, sums, and the readings that sharpen them.
//!
//! One tap behind the plain page, since here the book and the recipe are asked. A reading is a question and no change: the
//! form goes by GET and writes nothing.

use http::{Method, Request, Response, StatusCode};
use logbook::Kept;
use maud::{Markup, html};
use quantity::{Fault, Units};
use recipe::Answer;
use trouble::{Ask, CHANGE_MOST, Cause, Sheet, Sum, Told, Urgency, Worked, asks, outcomes, sheet, worked};

use super::{HELP_NOW, notice};
use crate::ctx::{Ctx, Place, href, tank_at};
use crate::house::House;
use crate::parts::{Head, frame, in_words};
use crate::plain::{closed, missing, not_so};
use crate::words::glued;
use crate::{respond, wait};

/// The way from a plain page to the same trouble of the tank that was edited last; in an empty book, to the first visit.
pub fn door(ctx: &Ctx, key: &str) -> Response<Vec<u8>> {
    if sheet(key).is_none() {
        return missing(Place::alone(&ctx.base));
    }
    match ctx.shelf.last() {
        Ok(Some(tank)) => respond::see_other(&address(&ctx.base, tank, key)),
        Ok(None) => respond::see_other(&href(&ctx.base, crate::routes::FIRST)),
        Err(fault) => closed(Place::alone(&ctx.base), &fault),
    }
}

fn address(base: &str, tank: u64, key: &str) -> String {
    href(base, &format!("tank/{tank}/{HELP_NOW}/{key}"))
}

/// What was typed, as it was typed, with what is wrong with it.
struct Typed {
    told: Told,
    units: Units,
    texts: Vec<Text>,
}

/// One reading as it was typed.
struct Text {
    ask: &'static Ask,
    text: String,
    basis: String,
    fault: Option<Fault>,
}

/// A trouble of a tank.
pub fn mine(
    house: &House,
    ctx: &mut Ctx,
    id: Option<&str>,
    key: Option<&str>,
    request: &Request<Vec<u8>>,
) -> Response<Vec<u8>> {
    let base = ctx.base.clone();
    let alone = Place::alone(&base);
    let Some(sheet) = key.and_then(sheet) else { return missing(alone) };
    let tanks = match ctx.shelf.tanks() {
        Ok(tanks) => tanks,
        Err(fault) => return closed(alone, &fault),
    };
    let Some(tank) = tank_at(&tanks, id) else { return missing(alone) };
    let place = Place { tank: Some(tank), tanks: Some(&tanks), ..alone };
    if request.method() == Method::POST {
        return stopped(ctx, place, tank, sheet, request.body());
    }
    let setup = match ctx.shelf.open(tank) {
        Ok(book) => book.setup().cloned(),
        Err(fault) => return closed(place, &fault),
    };
    let Some(setup) = setup else { return missing(place) };
    // A log that can't be read takes no help away.
    let log = recent(ctx, tank).unwrap_or_default();
    let answer = house.follows(&setup);
    let answer = match answer.as_ref() {
        Ok(answer) => answer,
        // Its words need none of the figures, and whoever stands here needs them at once.
        Err(_) => {
            return notice::one(place, &sheet.key)
                .map_or_else(|| missing(place), |page| respond::page(StatusCode::OK, page));
        }
    };
    let units = outcomes(answer).first().map_or_else(Units::default, |outcome| outcome.tank.units);
    let mut typed = typed(sheet, request.uri().query().unwrap_or(""), units);
    typed.told.hear(&log, &ctx.now);
    let status = match typed.texts.iter().any(|text| text.fault.is_some()) {
        true => StatusCode::UNPROCESSABLE_ENTITY,
        false => StatusCode::OK,
    };
    let title = format!("{}: my tank", sheet.title);
    let head = Head { place, title: &title, current: None, class: "page-mine" };
    respond::page(status, frame(&head, body(place, sheet, answer, &typed, &log, ctx)))
}

/// The page that waits for an answer posts here when it is told to stop.
fn stopped(ctx: &mut Ctx, place: Place, tank: u64, sheet: &Sheet, body: &[u8]) -> Response<Vec<u8>> {
    let Some(seen) = wait::stopped(body) else { return not_so(place, "GET, HEAD") };
    match ctx.shelf.open(tank) {
        Ok(mut book) => {
            // What was changed elsewhere meanwhile stays: then nothing is taken back.
            let _ = book.undo_over(seen);
        }
        Err(fault) => return closed(place, &fault),
    }
    respond::see_other(&address(place.base, tank, &sheet.key))
}

fn recent(ctx: &mut Ctx, tank: u64) -> Result<Vec<Kept>, Fault> {
    ctx.shelf.log(tank)?.list(&trouble::reads(&ctx.now))
}

fn typed(sheet: &Sheet, query: &str, units: Units) -> Typed {
    let pairs: Vec<(String, String)> = form_urlencoded::parse(query.as_bytes()).into_owned().collect();
    let typed =
        |key: &str| pairs.iter().find(|(name, _)| name == key).map_or_else(String::new, |(_, text)| text.clone());
    let mut told = Told::default();
    let texts = asks(&sheet.key).iter().map(|ask| {
        let (text, basis) = (typed(ask.key), typed(&basis_name(ask)));
        let fault = told.take_in(ask.key, &text, &basis, &units).err();
        Text { ask, text, basis, fault }
    });
    let texts = texts.collect();
    Typed { told, units, texts }
}

/// Name of the choice of how a kit counts.
fn basis_name(ask: &Ask) -> String {
    format!("{}_as", ask.key)
}

fn body(place: Place, sheet: &Sheet, answer: &Answer, typed: &Typed, log: &[Kept], ctx: &Ctx) -> Markup {
    let all: Vec<(Vec<String>, Worked)> = outcomes(answer)
        .into_iter()
        .map(|outcome| {
            let work = worked(&sheet.key, &outcome.case(&typed.told), log, &ctx.now);
            (outcome.replies.clone(), work)
        })
        .collect();
    let plain = place.href(&format!("{HELP_NOW}/{}", sheet.key));
    html! {
        section.verse {
            h1.answer { (sheet.title) ": " (named(place)) }
            div.text {
                (others(place, sheet))
                p { "First do the steps of " a href=(plain) { "the notice" } ": they need no numbers. What stands here is of your tank, and holds where the two differ." }
            }
        }
        (refused(typed))
        @if let Answer::Open { question, .. } = answer {
            section.verse {
                h2 { "One thing is open" }
                div.text { p {
                    (question.ask) " Answer it on " a href=(place.letter(crate::routes::FRONT)) { "the letter" } "; until then each reply has its own figures here."
                } }
            }
        }
        @for (replies, work) in &all { (outcome(replies, work)) }
        (form(place, sheet, typed))
    }
}

/// The tank by its name, where it stands beside others.
fn named(place: Place) -> String {
    let tanks = place.tanks.unwrap_or_default();
    let own = tanks.iter().find(|tank| place.tank == Some(tank.id)).filter(|_| tanks.len() > 1);
    own.map_or_else(|| "in this tank".to_owned(), |tank| tank.label())
}

/// The way to the same trouble of another tank: figures of the wrong one harm.
fn others(place: Place, sheet: &Sheet) -> Markup {
    let tanks = place.tanks.unwrap_or_default();
    let others: Vec<_> = tanks.iter().filter(|tank| place.tank != Some(tank.id)).collect();
    html! {
        @if !others.is_empty() {
            p.other-tanks { "Another tank? "
                @for (n, tank) in others.iter().enumerate() {
                    @if n > 0 { ", " }
                    a href=(address(place.base, tank.id, &sheet.key)) { (tank.label()) }
                }
            }
        }
    }
}

/// What could not be read stands before anything that is worked out.
fn refused(typed: &Typed) -> Markup {
    let faults: Vec<(&Ask, &Fault)> =
        typed.texts.iter().filter_map(|text| Some((text.ask, text.fault.as_ref()?))).collect();
    html! {
        @if !faults.is_empty() {
            section.verse { div.text.must role="alert" {
                @for (ask, fault) in faults { p {
                    a href=(format!("#ask-{}", ask.key)) { (ask.label) } ": " b { (in_words(fault)) } " Nothing here is worked out from it."
                } }
            } }
        }
    }
}

fn outcome(replies: &[String], work: &Worked) -> Markup {
    html! {
        @if !replies.is_empty() { section.verse { h2 { "If" } div.text { p { b { (replies.join("; ")) } } } } }
        @for sum in work.sums.iter().filter(|sum| sum.key == CHANGE_MOST) { (one(sum)) }
        @if !work.causes.is_empty() { (causes(&work.causes)) }
        @for sum in work.sums.iter().filter(|sum| sum.key != CHANGE_MOST) { (one(sum)) }
        @if work.causes.is_empty() && work.sums.is_empty() {
            section.verse { div.text { p {
                "No figure of this tank changes the notice. "
                @if !work.asks.is_empty() { "A reading below may." }
            } } }
        }
    }
}

fn causes(causes: &[Cause]) -> Markup {
    html! {
        section.verse {
            h2 { "What speaks for a cause" }
            div.text {
                p.small { "The likeliest first. A cause that nothing speaks for may still be the one." }
                ol.steps { @for cause in causes { li { b { (cause.title) "." } " " (glued(&cause.because)) " " (glued(&cause.check)) } } }
            }
        }
    }
}

fn one(sum: &Sum) -> Markup {
    let class = if sum.urgency == Urgency::AtOnce { "must" } else { "" };
    let sources: Vec<String> = sum.why.sources.iter().map(|key| knowledge::book().cite_words(key)).collect();
    html! {
        section.verse {
            div class={ "text " (class) } {
                h2.sum-head { (glued(&sum.head)) }
                p.when { (sum.urgency.words()) }
                @for sentence in &sum.says { p { (glued(sentence)) } }
                details.more {
                    summary { "Why?" }
                    @if !sum.why.sum.is_empty() { p.sum { (glued(&sum.why.sum)) } }
                    p { (sum.why.words) }
                    p.small { (sum.why.kind.words()) @if !sources.is_empty() { "; " (sources.join("; ")) } }
                }
            }
        }
    }
}

/// The readings that sharpen the sums. The address is the whole of it: nothing is written.
fn form(place: Place, sheet: &Sheet, typed: &Typed) -> Markup {
    let asks = asks(&sheet.key);
    let action = place.tank.map_or_else(String::new, |tank| address(place.base, tank, &sheet.key));
    html! {
        @if !asks.is_empty() {
            section.verse {
                h2 { "What I read just now" }
                form.asks.text method="get" action=(action) autocomplete="off" {
                    @for text in &typed.texts { (field(text, typed)) }
                    p { button.send { "Work it out" } " " span.small { "Nothing is written into your book." } }
                }
            }
        }
    }
}

fn field(Text { ask, text, basis, fault }: &Text, typed: &Typed) -> Markup {
    let id = format!("ask-{}", ask.key);
    let from = typed.told.from(ask.key);
    let heard = if text.is_empty() && !from.is_empty() {
        format!("taken from {from}")
    } else {
        format!("for instance {}", ask.example_in(&typed.units))
    };
    let about = format!("{id}-about");
    html! {
        p {
            label for=(id) { (ask.label) }
            input id=(id) name=(ask.key) value=(text) aria-describedby=(about) aria-invalid=[fault.as_ref().map(|_| "true")];
            @if !ask.bases.is_empty() { (counted(ask, basis)) }
            span.small id=(about) {
                @if let Some(fault) = fault { b { (in_words(fault)) } } @else { (heard) }
            }
        }
    }
}

/// How the kit counts; who does not know gets the bad end.
fn counted(ask: &Ask, basis: &str) -> Markup {
    html! {
        select name=(basis_name(ask)) aria-label=(format!("How the kit counts: {}", ask.label)) {
            option value="" selected[basis.is_empty()] { "I don’t know" }
            @for known in ask.bases { option value=(known) selected[basis == *known] { "as " (known) } }
        }
    }
}
