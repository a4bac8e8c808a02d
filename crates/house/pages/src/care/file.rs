//! The routine as a file for a calendar.

use http::{Response, StatusCode};
use logbook::Kept;
use quantity::Fault;
use recipe::Answer;
use setup::Setup;

use crate::ctx::{Ctx, Place, tank_at};
use crate::house::House;
use crate::plain::{closed, missing, open_question, unreadable};
use crate::respond;

/// `/tank/{id}/care.ics`. While a question is open nothing is written on any of its answers; of a setup that can't be read it says so.
pub fn file(house: &House, ctx: &mut Ctx, id: Option<&str>) -> Response<Vec<u8>> {
    let found = read(ctx, id);
    let alone = Place::alone(&ctx.base);
    let (tank, log, setup, revision) = match found {
        Ok(Some(read)) => read,
        Ok(None) => return missing(alone),
        Err(fault) => return closed(alone, &fault),
    };
    match house.follows(&setup).as_ref() {
        Ok(Answer::Settled { tank: told, plan }) => {
            let text = care::calendar(told, plan, &log, &ctx.now, tank);
            respond::download(StatusCode::OK, "text/calendar; charset=utf-8", "attachment; filename=\"care.ics\"", text)
        }
        Ok(Answer::Open { .. }) => open_question(alone),
        Err(faults) => unreadable(Place { tank: Some(tank), ..alone }, "care", revision, faults),
    }
}

/// A tank's number, its log, its setup and the number of its revision.
type Found = (u64, Vec<Kept>, Setup, u64);

/// The tank of the address; `None`: there is none.
fn read(ctx: &mut Ctx, id: Option<&str>) -> Result<Option<Found>, Fault> {
    let Some(tank) = tank_at(&ctx.shelf.tanks()?, id) else { return Ok(None) };
    let log = care::logged(&*ctx.shelf.log(tank)?, &ctx.now)?;
    let book = ctx.shelf.open(tank)?;
    let revision = book.revision();
    Ok(book.setup().cloned().map(|setup| (tank, log, setup, revision)))
}
