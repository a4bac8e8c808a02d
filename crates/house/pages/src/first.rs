//! The first visit: four questions, each with "I don't know", from which a tank is made; everything else is assumed.
//!
//! The same questions make every further tank. What was typed is taken by the fields of the setup, with their faults; if
//! one is not taken, no tank is made and the questions come back with all that was answered.

mod questions;
mod replies;

use http::{Request, Response, StatusCode};
use logbook::{Entry, What};
use quantity::Fault;
use setup::{Setup, Shelf, TankEntry};

use crate::ctx::{Ctx, Desk, Place, letter};
use crate::parts::in_words;
use crate::plain::{closed, strange};
use crate::post::is_form;
use crate::respond;
use crate::routes::PLAN;
use crate::tap::report::{Uploaded, file, upload, written};
use crate::words::{counted, list, uncapital};
use questions::Asked;
use replies::{REPORT, Replies};

/// How many assumptions are named on the first letter; Tank lists all.
const NAMED: usize = 3;

/// The questions.
pub fn ask(ctx: &Ctx) -> Response<Vec<u8>> {
    show(ctx, StatusCode::OK, &Replies::default(), &Asked::default())
}

/// The replies: a tank, or the questions again. A report that came along was read by whoever has processes for it; else it is
/// read here.
pub fn answer(
    ctx: &mut Ctx,
    request: &Request<Vec<u8>>,
    uploaded: Option<Result<Uploaded, Fault>>,
) -> Response<Vec<u8>> {
    let written =
        if is_form(request) { Ok(Replies::read(request.body())) } else { written(request).map(Replies::of_pairs) };
    let Ok(replies) = written else { return strange(Place::alone(&ctx.base)) };
    let uploaded = uploaded.or_else(|| upload(&ctx.base, request, &|name, bytes| report::read(name, bytes)));
    let (given, told) = report_of(&replies, uploaded);
    let setup = match (replies.setup(), told.is_empty()) {
        (Ok(setup), true) => setup,
        (setup, _) => {
            let once_more = given.map(|given| format!("Pick “{}” once more: a browser does not keep it.", given.name));
            let told_file = told.into_iter().chain(once_more).collect();
            let told = "Something I could not take; it stands beside its question. No tank was made yet.";
            let refused = setup.err().unwrap_or_default();
            let asked = Asked { told: Some(told.to_owned()), file: told_file, refused, fault: None };
            return show(ctx, StatusCode::UNPROCESSABLE_ENTITY, &replies, &asked);
        }
    };
    let made =
        add(ctx.shelf, &replies, setup).and_then(|tank| runs(ctx, tank, &replies).map(|()| tank)).and_then(|tank| {
            match given {
                Some(given) => file(ctx, tank, given, true),
                None => Ok(format!("{}?first=1", letter(&ctx.base, tank, PLAN))),
            }
        });
    match made {
        Ok(to) => respond::see_other(&to),
        Err(fault) => {
            let asked = Asked { fault: Some(fault), ..Asked::default() };
            show(ctx, StatusCode::SERVICE_UNAVAILABLE, &replies, &asked)
        }
    }
}

/// The report that was picked, or what is said of one that can't be read, or was announced and is not there.
fn report_of(replies: &Replies, uploaded: Option<Result<Uploaded, Fault>>) -> (Option<Uploaded>, Vec<String>) {
    match uploaded {
        Some(Ok(given)) if given.report.readings.is_empty() => (None, given.unread()),
        Some(Ok(given)) => (Some(given), Vec::new()),
        Some(Err(fault)) => (None, vec![in_words(&fault)]),
        None if replies.of("tap") == REPORT => (
            None,
            vec![
                "No file was picked. Pick it here, or tick “I don’t know yet”: the report can follow later.".to_owned(),
            ],
        ),
        None => (None, Vec::new()),
    }
}

/// Makes the tank, but not a second time if the same form is sent twice.
fn add(shelf: &mut dyn Shelf, replies: &Replies, setup: Setup) -> Result<u64, Fault> {
    let tanks = shelf.tanks()?;
    let setup = match replies.same_tap().and_then(|id| tanks.iter().find(|tank| tank.id == id)) {
        Some(tank) => with_tap(&setup, &tap_of(shelf, tank)?)?,
        None => setup,
    };
    if replies.tanks() != Some(tanks.len())
        && let Some(TankEntry { id, .. }) = tanks.last()
        && shelf.open(*id)?.setup_at(1).is_some_and(|last| same(last, &setup))
    {
        return Ok(*id);
    }
    shelf.add(setup)
}

/// A tank that runs already was filled once: its log says when, for the routine goes by it. A log that has begun stays.
fn runs(ctx: &mut Ctx, tank: u64, replies: &Replies) -> Result<(), Fault> {
    let Some(days) = replies.running_days() else { return Ok(()) };
    let at = ctx.now.checked_sub(jiff::Span::new().days(days)).unwrap_or_else(|_| ctx.now.clone());
    let mut log = ctx.shelf.log(tank)?;
    if log.last_writing()?.is_none() {
        let filled = What::Done { act: care::start::SET_UP.to_owned() };
        log.add(vec![Entry { at, what: filled, note: "about, as said on the first visit".to_owned() }])?;
    }
    Ok(())
}

/// What the tap of a tank is called; one without a name gets one.
fn tap_of(shelf: &mut dyn Shelf, tank: &TankEntry) -> Result<String, Fault> {
    if let Some(tap) = &tank.tap {
        return Ok(tap.clone());
    }
    let tap = format!("tap of {}", tank.label());
    let mut book = shelf.open(tank.id)?;
    if let Some(setup) = book.setup() {
        let named = with_tap(setup, &tap)?;
        let (seen, changes) = (book.revision(), setup.changes_to(&named));
        book.write_over(seen, named, changes)?;
    }
    Ok(tap)
}

fn with_tap(setup: &Setup, tap: &str) -> Result<Setup, Fault> {
    let named = setup.with("tap.name", tap);
    named.map_err(|faults| faults.0.into_iter().next().unwrap_or_else(|| Fault::new("the tap can’t be named")))
}

/// The same replies made both: the water of a shared tap came from elsewhere.
fn same(made: &Setup, asked: &Setup) -> bool {
    let shared = asked.tap_name().is_some();
    let of_tap = |field: &str| field.starts_with("tap.") || field.starts_with("pipes.");
    made.tap_name() == asked.tap_name() && made.changes_to(asked).iter().all(|change| shared && of_tap(&change.field))
}

fn show(ctx: &Ctx, status: StatusCode, replies: &Replies, asked: &Asked) -> Response<Vec<u8>> {
    let both = ctx.shelf.tanks().and_then(|tanks| Ok((tanks, ctx.shelf.last()?)));
    match both {
        Ok((tanks, last)) => {
            let place = Place { base: &ctx.base, tank: last, tanks: Some(&tanks) };
            respond::page(status, questions::page(place, replies, asked))
        }
        Err(fault) => closed(Place::alone(&ctx.base), &fault),
    }
}

/// What the first letter says on its top: what was assumed, the weightiest first.
pub fn told(desk: &Desk) -> Vec<String> {
    let tank = desk.book.setup().filter(|_| desk.book.revision() == 1).and_then(|setup| setup.tank().ok());
    let Some(tank) = tank.filter(|tank| !tank.assumed.is_empty()) else { return Vec::new() };
    let named =
        tank.assumed.iter().take(NAMED).map(|assumption| assumption.sentence.split(": ").next().unwrap_or_default());
    let named: Vec<String> = named.map(uncapital).collect();
    vec![format!(
        "This is your first letter. {} I assumed; Tank lists them all, each with its blank. These would move your answers most: {}.",
        counted(tank.assumed.len(), "thing", "things"),
        list(&named),
    )]
}
