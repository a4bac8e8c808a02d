//! One report: its question on top, what was read beside the original, the water that follows, and taking it.

use http::{Request, Response};
use maud::{Markup, html};
use quantity::{Fault, Units};
use report::{By, Filed, Line, Picked, Spot, combine};
use setup::{Setup, Unwritten};

use super::sent::{Form, Refused, name, text};
use super::{KEY, Read, all, away, front, place_of, posts, setup, sources, status, water, with_water, year};
use crate::ctx::{Ctx, Place, Today, letter};
use crate::house::House;
use crate::parts::{self, Head, frame};
use crate::plain::missing;
use crate::respond;
use crate::words::{capital, counted, glued, sentence};

/// Lines of a report that are shown at most; the rest is counted.
const SHOWN: usize = 400;

/// What the page shows.
pub(super) struct View<'a> {
    pub place: Place<'a>,
    pub today: Today,
    pub read: &'a Read,
    pub all: &'a [Read],
    pub setup: &'a Setup,
    pub units: Units,
    pub refused: Refused,
    pub told: Vec<String>,
}

/// Read the page, or send it back.
pub(super) fn answer(
    house: &House,
    ctx: &mut Ctx,
    place: Place,
    number: u64,
    request: &Request<Vec<u8>>,
) -> Result<Response<Vec<u8>>, Fault> {
    let tank = place.tank.unwrap_or_default();
    let setup = setup(ctx.shelf, tank)?;
    let (mut reports, _) = all(ctx.shelf, tank)?;
    let Some(at) = reports.iter().position(|read| read.kept.id == number) else { return Ok(missing(place)) };
    let (mut refused, mut told) = (Refused::new(), Vec::new());
    if posts(request) {
        let form = Form::read(request.body());
        let Some(read) = reports.get_mut(at) else { return Ok(missing(place)) };
        if form.edition != Some(read.kept.edition) {
            told.push(
                "Another window changed this report meanwhile. This is how it stands; make your change again."
                    .to_owned(),
            );
        } else {
            let before = read.filed.clone();
            refused = form.lay(&mut read.filed);
            if read.filed != before {
                match ctx.shelf.amend_report(tank, number, read.kept.edition, &read.filed.to_text()?) {
                    Ok(edition) => read.kept.edition = edition,
                    Err(unwritten) => return Err(unwritten.into()),
                }
            }
            if refused.is_empty() {
                match form.takes().map(|which| take(ctx, place, &reports, at, which)) {
                    None => return Ok(away(place, &format!("/{number}"))),
                    Some(Ok(to)) => return Ok(respond::see_other(&to)),
                    Some(Err(fault)) => told.push(parts::in_words(&fault)),
                }
            } else {
                told.push(
                    "Something you wrote I could not take; it stands beside its row. The old reading holds.".to_owned(),
                );
            }
        }
    }
    let Some(read) = reports.get(at) else { return Ok(missing(place)) };
    let units = setup.tank().map(|tank| tank.units).unwrap_or_default();
    let bad = !refused.is_empty() || !told.is_empty();
    let today = Today::of(&ctx.now);
    let view = View { place, today, read, all: &reports, setup: &setup, units, refused, told };
    Ok(respond::page(status(bad), page(house, &view)))
}

/// Write a water into the letter as one revision, and go there.
fn take(ctx: &mut Ctx, place: Place, reports: &[Read], at: usize, which: usize) -> Result<String, Fault> {
    let gone = || Fault::new("this water is not there any more").hint("look at the report as it stands now");
    let read = reports.get(at).ok_or_else(gone)?;
    let tank = place.tank.unwrap_or_default();
    let mut book = ctx.shelf.open(tank)?;
    let setup = book.setup().cloned().ok_or_else(gone)?;
    let combined = combine(&sources(read, reports), place_of(&setup)).ok_or_else(gone)?;
    let water = combined.waters.get(which).ok_or_else(gone)?;
    let taken = with_water(&setup, water)?;
    let seen = book.revision();
    let changes = setup.changes_to(&taken);
    let tap = letter(place.base, tank, "tap");
    if changes.is_empty() {
        return Ok(tap);
    }
    book.write_over(seen, taken, changes).map_err(|unwritten: Unwritten| Fault::from(unwritten))?;
    Ok(format!("{tap}?was={seen}"))
}

fn page(house: &House, view: &View) -> Markup {
    let title = if view.refused.is_empty() {
        view.read.kept.name.clone()
    } else {
        format!("Not taken: {}", view.read.kept.name)
    };
    let head = Head { place: view.place, title: &title, current: Some("tap"), class: "page-report" };
    let action = view.place.letter(&format!("{KEY}/{}", view.read.kept.id));
    let main = html! {
        form.first.reports method="post" action=(action) autocomplete="off" {
            button.off-screen name="do" value="rewrite" tabindex="-1" { "Take my corrections" }
            input type="hidden" name="edition" value=(view.read.kept.edition);
            (opening(view))
            (choices(view))
            (lines(view))
            (unknown(view))
            @if !view.read.filed.put_away { (water::verses(house, view)) }
            (year::others(view))
            section.verse { div.text { p {
                @if view.read.filed.put_away { button.again name="do" value="back" { "Take it out again" } }
                @else { "Given by mistake? " button.again name="do" value="away" { "Put this report away" } "; it stays in the book and counts for nothing." }
            } p { a href=(view.place.letter(KEY)) { "All reports, and another one" } } } }
        }
    };
    frame(&head, main)
}

fn opening(view: &View) -> Markup {
    let filed = &view.read.filed;
    let report = filed.corrected();
    let asked = filed.asked();
    let mine = report.readings.iter().filter(|reading| filed.counts(reading)).count();
    html! {
        section.verse {
            p.dateline { (view.today.words()) " · " (view.read.kept.name) ", given on " (front::day(&view.read.kept.at)) }
            @if !view.told.is_empty() { div.told role="status" { @for told in &view.told { p.fault { (told) } } } }
            h1.answer {
                @if filed.put_away { "This report is put away: it counts for nothing." }
                @else if asked.is_some() { "I read " (counted(mine, "value", "values")) ". One question first." }
                @else if filed.open() > 0 { "I read " (counted(mine, "value", "values")) "; what you could not answer I leave out." }
                @else { "I read " (counted(mine, "value", "values")) ", and nothing is open." }
            }
            @if let Some(asked) = asked.filter(|_| !filed.put_away) { (question(&asked, filed)) }
            @for error in &report.errors { div.told { p { (error.text) } } }
            @for contradiction in &report.contradictions { div.told { p { b.when { "It contradicts itself: " } (glued(&contradiction.text)) } } }
            (remembered(filed))
            @if !filed.put_away { p { a href="#water" { "To the water that follows" } ", what it means, and what would change" } }
        }
    }
}

/// The question on top, with where it stands.
fn question(asked: &report::Asked, filed: &Filed) -> Markup {
    let stands = filed.report.readings.get(asked.reading).map(|reading| reading.place.text.clone()).unwrap_or_default();
    html! {
        div.question role="group" aria-labelledby="question" {
            h2 #question { (glued(&asked.text)) }
            p { "It stands there as " q { (stands) } ". Until you answer, nothing is worked out from it." }
            div.replies {
                @for (key, words) in &asked.replies {
                    button.reply name="reply" value=(format!("{}={key}", asked.reading)) { b { (glued(words)) } }
                }
                button.reply.unknown name="reply" value=(format!("{}=", asked.reading)) {
                    b { "I don’t know." }
                    span { "Then it stays open and out of every sum. The supplier, or the leaflet of the test, can tell." }
                }
            }
        }
    }
}

/// Corrections that came from an earlier report.
fn remembered(filed: &Filed) -> Markup {
    let mut from: Vec<&str> = filed.corrections.iter().filter_map(|c| c.remembered.as_deref()).collect();
    let count = from.len();
    from.dedup();
    html! {
        @if count > 0 {
            div.told { p {
                "Its rows are those of " (from.join(", ")) ", so I read " (counted(count, "of them", "of them"))
                " as you told me there. Each says so below and can be taken back."
            } }
        }
    }
}

/// Which sample, and which other reports count in.
fn choices(view: &View) -> Markup {
    let filed = &view.read.filed;
    let samples = &filed.report.samples;
    let others: Vec<&Read> = view.all.iter().filter(|r| r.kept.id != view.read.kept.id && !r.filed.put_away).collect();
    if samples.len() < 2 && others.is_empty() {
        return html! {};
    }
    let one = filed.one();
    html! {
        section.verse {
            h2 { "What counts" }
            div.text.ask {
                @if samples.len() > 1 {
                    p {
                        "It holds several columns or dates. Yours is "
                        span.pick { select.blank.measured name="sample" aria-label="Which of its samples is your water" {
                            @for (at, sample) in samples.iter().enumerate() {
                                option value=(at) selected[one == Some(at)] { (sample.name.as_deref().unwrap_or("without a name")) }
                            }
                            option value="all" selected[one.is_none()] { "all of them" }
                        } }
                        "."
                        @if filed.picked == Picked::Proposed { " The latest is proposed." }
                    }
                    p.small { "All of them: dates of one water become one water with its swing; works that take turns stay two waters." }
                }
                @for other in &others {
                    label.option {
                        input type="checkbox" name="with" value=(other.kept.id) checked[filed.with.contains(&other.kept.id)];
                        span {
                            "Count in " (other.kept.name) " of " (front::day(&other.kept.at))
                            @if other.filed.by == By::Keeper { small { "Your own tests count by their own errors." } }
                        }
                    }
                }
                p { button.again name="do" value="rewrite" { "Take this choice" } }
            }
        }
    }
}

/// Every value beside the line that it was read from.
fn lines(view: &View) -> Markup {
    let filed = &view.read.filed;
    let lines: Vec<Line> = filed.lines().into_iter().filter(|line| filed.counts(&line.reading)).collect();
    // What is open stands on top.
    let (open, settled): (Vec<&Line>, Vec<&Line>) = lines.iter().partition(|line| line.reading.question.is_some());
    html! {
        section.verse.across {
            h2 { "What I read, beside the original" }
            div.text.full {
                p { "Each value can be changed where it stands: “28 mg/L NO3”, “<0.05 mg/L”, or another substance with its name in front. An empty blank leaves the row out." }
                div.scroll tabindex="0" role="region" aria-label="What was read" {
                    table.read {
                        thead { tr { th scope="col" { "what" } th scope="col" { "value" } th scope="col" { "which" } th scope="col" { "the original" } } }
                        tbody { @for line in open.into_iter().chain(settled).take(SHOWN) { (row(view, line)) } }
                    }
                }
                @if lines.len() > SHOWN { p.small { (lines.len() - SHOWN) " more rows are read and not shown." } }
                p { button.send name="do" value="rewrite" { "Take my corrections" } }
            }
        }
    }
}

fn row(view: &View, line: &Line) -> Markup {
    let reading = &line.reading;
    let called = knowledge::book()
        .determinands
        .get(&reading.determinand)
        .map_or(reading.as_written.as_str(), |d| d.name.as_str());
    let refused = view.refused.get(&line.at);
    let shown = refused.map_or_else(|| text(line), |(typed, _)| typed.clone());
    let says = format!("{}, {}", capital(called), statistic(reading));
    let about = refused.map(|_| format!("about-{}", name(line.at)));
    html! {
        tr {
            th scope="row" { (capital(called)) }
            td.value {
                input.blank.measured name=(name(line.at)) value=(shown) size=(shown.chars().count().max(6)) spellcheck="false" autocapitalize="off"
                    aria-label=(says) aria-invalid=[refused.map(|_| "true")] aria-describedby=[about.as_deref()];
                @if let Some((typed, fault)) = refused { span.really id=[about.as_deref()] { "“" (typed) "” I did not take. " (parts::fault(fault)) } }
                @if let Some(question) = &reading.question { span.small { (glued(question)) } }
                (correction(line, &says))
            }
            td { (statistic(reading)) @if let Some(n) = reading.samples { " of " (n) } }
            td.original { q { (reading.place.text) } " " span.small { (stands(&reading.place)) } }
        }
    }
}

/// What was done to a row, and the way back.
fn correction(line: &Line, says: &str) -> Markup {
    let because = line.reading.because.as_deref().map(sentence);
    html! {
        @if line.is_left_out() { span.small { "Left out. " } }
        @else if let Some(because) = because { span.small { (capital(&because)) " " } }
        @if line.correction.is_some() {
            button.again name="undo" value=(name(line.at)) aria-label=(format!("As it was read: {says}")) { "as it was read" }
        }
    }
}

fn statistic(reading: &report::Reading) -> &'static str {
    use report::Statistic::{Max, Mean, Median, Min, P5, P10, P90, P95, Single};
    match reading.statistic {
        Min => "least",
        Mean => "mean",
        Median => "middle one",
        Max => "most",
        P95 => "95 of 100 lie below",
        P90 => "90 of 100 lie below",
        P10 => "10 of 100 lie below",
        P5 => "5 of 100 lie below",
        Single => "one sample",
    }
}

/// Where in the file.
fn stands(place: &report::Place) -> String {
    let mut parts = Vec::new();
    parts.extend(place.page.map(|page| format!("page {page}")));
    parts.extend(place.sheet.as_ref().map(|sheet| format!("sheet {sheet}")));
    parts.extend(place.cell.as_ref().map(|cell| format!("cell {cell}")));
    parts.extend(place.line.filter(|_| place.cell.is_none()).map(|line| format!("line {line}")));
    parts.join(", ")
}

/// Rows that nobody understood: each can be given a meaning.
fn unknown(view: &View) -> Markup {
    let rows = &view.read.filed.report.unknown_rows;
    let meant = |at: usize| view.read.filed.correction(Spot::Row(at)).is_some();
    let open: Vec<usize> = (0..rows.len()).filter(|at| !meant(*at)).take(SHOWN).collect();
    html! {
        @if !open.is_empty() {
            section.verse.across {
                h2 { "What I did not understand" }
                div.text.full {
                    details.more {
                        summary { (counted(open.len(), "row", "rows")) " with a value and a name that I don’t know" }
                        table.read { tbody { @for at in open { @if let Some(row) = rows.get(at) { (unread(view, at, row)) } } } }
                        p { "If one matters, write what it is: “nitrate 24.4 mg/L NO3”." }
                    }
                }
            }
        }
    }
}

fn unread(view: &View, at: usize, row: &report::UnknownRow) -> Markup {
    let refused = view.refused.get(&Spot::Row(at));
    let typed = refused.map_or("", |(typed, _)| typed.as_str());
    html! {
        tr {
            td.original { q { (row.text) } " " span.small { (stands(&row.source)) } }
            td.value {
                input.blank.assumed name=(name(Spot::Row(at))) value=(typed) size="16" spellcheck="false" autocapitalize="off"
                    aria-label=(format!("What this row is: {}", row.text)) aria-invalid=[refused.map(|_| "true")];
                @if let Some((_, fault)) = refused { span.really { (parts::fault(fault)) } }
            }
        }
    }
}
