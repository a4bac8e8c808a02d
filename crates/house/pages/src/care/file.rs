//! The routine as a file for a calendar.

use http::{Response, StatusCode};
use logbook::Kept;
use recipe::Answer;
use setup::Shelf;

use crate::ctx::{Ctx, Place};
use crate::house::House;
use crate::plain::{closed, missing, open_question};
use crate::respond;

/// `/tank/{id}/care.ics`. While a question is open nothing is written on any of its answers.
pub fn file(house: &House, ctx: &mut Ctx, id: Option<&str>) -> Response<Vec<u8>> {
    let alone = Place::alone(&ctx.base);
    let Some(tank) = id.and_then(|id| id.parse::<u64>().ok()) else { return missing(alone) };
    let known = ctx.shelf.tanks().map(|tanks| tanks.iter().any(|entry| entry.id == tank));
    match known {
        Ok(true) => {}
        Ok(false) => return missing(alone),
        Err(fault) => return closed(alone, &fault),
    }
    let log = match log(ctx.shelf, tank, &ctx.now) {
        Ok(log) => log,
        Err(fault) => return closed(alone, &fault),
    };
    let setup = match ctx.shelf.open(tank) {
        Ok(book) => book.setup().cloned(),
        Err(fault) => return closed(alone, &fault),
    };
    let Some(setup) = setup else { return missing(alone) };
    match house.follows(&setup).as_ref() {
        Ok(Answer::Settled { tank: told, plan }) => {
            let text = care::calendar(told, plan, &log, &ctx.now, tank);
            respond::download(StatusCode::OK, "text/calendar; charset=utf-8", "attachment; filename=\"care.ics\"", text)
        }
        _ => open_question(alone),
    }
}

fn log(shelf: &mut dyn Shelf, tank: u64, now: &jiff::ZonedDateTime) -> Result<Vec<Kept>, quantity::Fault> {
    care::logged(&*shelf.log(tank)?, now)
}
