//! Water reports of a tank's tap: given as a file or pasted, read beside the original, corrected, taken into the letter.
//!
//! Two addresses: `/tank/{id}/tap/report` is where a report is given and all are listed, `…/report/{n}` is one of them. A
//! file is taken apart by [`upload`]: whoever has processes reads it there in one that may die, before anything is locked.

mod front;
mod given;
mod multipart;
mod one;
mod sent;
mod water;
mod year;

pub(crate) use given::written;
pub use given::{Uploaded, is_upload, upload};

use http::{Method, Request, Response, StatusCode};
use quantity::Fault;
pub(crate) use report::place_of;
use report::{Filed, OneWater};
use setup::{FiledReport, Setup, Shelf};

use crate::ctx::{Ctx, Place, tank_at};
use crate::house::House;
use crate::plain::{closed, missing};
use crate::respond;

/// What the tap of a tank means.
pub(crate) fn meaning(tank: &setup::Tank) -> report::Meaning {
    report::meaning(tank, &[])
}

/// Key of these pages below a tank.
pub(crate) const KEY: &str = "tap/report";

/// A report with what the keeper made of it.
pub(crate) struct Read {
    /// As the shelf has it.
    pub kept: FiledReport,
    /// What its text says.
    pub filed: Filed,
}

/// All reports of a tank, the last first. One whose text can't be read any more is left out, and told.
fn all(shelf: &dyn Shelf, tank: u64) -> Result<(Vec<Read>, Vec<Fault>), Fault> {
    let (mut whole, mut faults) = (Vec::new(), Vec::new());
    for kept in shelf.reports(tank)? {
        match Filed::from_text(&kept.text) {
            Ok(filed) => whole.push(Read { kept, filed }),
            Err(fault) => faults.push(fault),
        }
    }
    Ok((whole, faults))
}

/// The sources that count for a report: itself, then those that the keeper counts in.
fn sources<'r>(read: &'r Read, all: &'r [Read]) -> Vec<(&'r str, &'r Filed)> {
    let with = all.iter().filter(|other| other.kept.id != read.kept.id && read.filed.with.contains(&other.kept.id));
    std::iter::once(read).chain(with).map(|read| (read.kept.name.as_str(), &read.filed)).collect()
}

/// The setup with a water at its tap, if it takes it.
fn with_water(setup: &Setup, water: &OneWater) -> Result<Setup, Fault> {
    report::take(setup, water).map_err(|faults| {
        faults.0.into_iter().next().unwrap_or_else(|| Fault::new("this water does not fit into the setup"))
    })
}

/// A request for one of these pages.
pub(crate) struct Asked<'r> {
    /// Number of the tank, as the address has it.
    pub tank: Option<&'r str>,
    /// Number of the report, as the address has it; none: the page where one is given.
    pub report: Option<&'r str>,
    /// The request.
    pub request: &'r Request<Vec<u8>>,
    /// What was read from an upload, where that was done already.
    pub uploaded: Option<Result<Uploaded, Fault>>,
}

/// Answer a request for one of these pages.
pub(crate) fn answer(house: &House, ctx: &mut Ctx, asked: Asked) -> Response<Vec<u8>> {
    let base = ctx.base.clone();
    let alone = Place::alone(&base);
    let tanks = match ctx.shelf.tanks() {
        Ok(tanks) => tanks,
        Err(fault) => return closed(alone, &fault),
    };
    let Some(tank) = tank_at(&tanks, asked.tank) else { return missing(alone) };
    let place = Place { tank: Some(tank), tanks: Some(&tanks), ..alone };
    match asked.report {
        None => front::answer(ctx, place, asked),
        Some(number) => match number.parse() {
            Ok(report) => one::answer(house, ctx, place, report, asked.request),
            Err(_) => Ok(missing(place)),
        },
    }
    .unwrap_or_else(|fault| closed(place, &fault))
}

/// Keep a report that was read for a tank, and give its page; what the keeper said of an earlier one is remembered. `once`: the same
/// report that is there already is not kept a second time.
///
/// # Errors
/// A shelf that can't be read or written.
pub(crate) fn file(ctx: &mut Ctx, tank: u64, given: Uploaded, once: bool) -> Result<String, Fault> {
    let (reports, _) = all(ctx.shelf, tank)?;
    let mut filed = Filed::new(given.report, given.by);
    for earlier in &reports {
        filed.remember(&earlier.filed, &earlier.kept.name);
    }
    let text = filed.to_text()?;
    let same = |read: &&Read| once && read.kept.name == given.name && read.kept.text == text;
    let id = match reports.iter().find(same) {
        Some(read) => read.kept.id,
        None => ctx.shelf.file_report(tank, &ctx.now.timestamp().to_string(), &given.name, &text)?,
    };
    Ok(crate::ctx::letter(&ctx.base, tank, &format!("{KEY}/{id}")))
}

/// The setup that holds now.
fn setup(shelf: &mut dyn Shelf, tank: u64) -> Result<Setup, Fault> {
    let book = shelf.open(tank)?;
    book.setup().cloned().ok_or_else(|| Fault::new("this tank has no setup"))
}

/// Whether a request changes something.
fn posts(request: &Request<Vec<u8>>) -> bool {
    request.method() == Method::POST
}

/// To another page of these.
fn away(place: Place, path: &str) -> Response<Vec<u8>> {
    respond::see_other(&format!("{}{path}", place.letter(KEY)))
}

/// Setups whose answers a report's page compares and nobody worked out yet.
pub(crate) fn lacks(house: &House, shelf: &mut dyn Shelf, tank: u64, report: &str) -> Option<Setup> {
    let setup = setup(shelf, tank).ok()?;
    let (all, _) = all(shelf, tank).ok()?;
    let read = all.iter().find(|read| read.kept.id.to_string() == report)?;
    year::setups(read, &all, &setup).into_iter().find(|setup| !house.has(setup))
}

/// Status of a page that was asked for, or comes back with what was not taken.
fn status(refused: bool) -> StatusCode {
    if refused { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK }
}
