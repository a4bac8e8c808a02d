//! The house: from a request to a whole response.

use std::sync::Arc;

use http::{Method, Request, Response, StatusCode};
use jiff::ZonedDateTime;
use matchit::Router;
use maud::{Markup, PreEscaped, html};
use quantity::{Fault, Faults};
use recipe::Answer;
use setup::{Change, Setup, Shelf};

use crate::act::{self, Act, Asked, Logged};
use crate::answers::{Answers, Follows, Kept};
use crate::blank::Blanks;
use crate::ctx::{Ctx, Desk, Place, href, letter, tank_at};
use crate::first;
use crate::help_now;
use crate::more;
use crate::parts::{Head, frame};
use crate::plain::{closed, missing, not_so, strange, unreadable};
use crate::post::{Posted, is_form, merged, post};
use crate::respond;
use crate::routes::{FIRST, FRONT, Page, Route, table};
use crate::sheet::{Elsewhere, Said, Sheet, whole};
use crate::tap::report;
use crate::wait;

/// What becomes of a letter that was sent back.
enum Sent {
    /// It was taken: look there.
    Away(String),
    /// Something was not taken.
    Back(Box<Said>, StatusCode),
}

/// All pages behind one function.
pub struct House {
    routes: Router<Route>,
    pub(crate) answers: Answers,
}

impl Default for House {
    fn default() -> Self {
        House::new()
    }
}

impl House {
    /// A house that asks the recipe.
    pub fn new() -> House {
        House::asking(recipe::answer)
    }

    /// A house that asks somebody else: for tests of the pages alone.
    pub fn asking(work: fn(&Setup) -> Result<Answer, Faults>) -> House {
        House { routes: table(), answers: Answers::new(work) }
    }

    /// Answer a request. Never panics; whatever is asked wrongly gets a page in plain words.
    pub fn answer(&self, ctx: &mut Ctx, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
        let mut response = self.dispatch(ctx, request);
        if request.method() == Method::HEAD {
            response.body_mut().clear();
        }
        response
    }

    fn dispatch(&self, ctx: &mut Ctx, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
        let base = ctx.base.clone();
        let alone = Place::alone(&base);
        let path = below(&base, request.uri().path());
        let Some(found) = path.as_deref().and_then(|path| self.routes.at(path).ok()) else { return missing(alone) };
        let method = request.method();
        let reads = method == Method::GET || method == Method::HEAD;
        match *found.value {
            // First of all, and before anything touches the book.
            Route::HelpNow if reads => match found.params.get("trouble") {
                None => respond::page(StatusCode::OK, help_now::page(alone)),
                Some(key) => {
                    help_now::one(alone, key).map_or_else(|| missing(alone), |page| respond::page(StatusCode::OK, page))
                }
            },
            Route::Asset(asset) if reads => respond::asset(asset.kind, asset.body),
            Route::HelpMine if reads => help_now::door(ctx, found.params.get("trouble").unwrap_or("")),
            Route::HelpNow | Route::HelpMine | Route::Asset(_) => not_so(alone, "GET, HEAD"),
            Route::Door if reads => door(ctx),
            Route::Door => not_so(alone, "GET, HEAD"),
            _ if !reads && method != Method::POST => not_so(alone, "GET, HEAD, POST"),
            Route::Letter(_) if !reads && !is_form(request) => strange(alone),
            Route::First if reads => first::ask(ctx),
            Route::First => first::answer(ctx, request, None),
            Route::Calendar if reads => crate::care::file(self, ctx, found.params.get("id")),
            Route::Calendar => not_so(alone, "GET, HEAD"),
            Route::Report if !reads && !is_form(request) => strange(alone),
            Route::Reports | Route::Report => {
                let asked = report::Asked {
                    tank: found.params.get("id"),
                    report: found.params.get("report"),
                    request,
                    uploaded: None,
                };
                report::answer(self, ctx, asked)
            }
            Route::LogTable if reads => crate::log::csv(ctx, found.params.get("id")),
            Route::LogTable => not_so(alone, "GET, HEAD"),
            Route::HelpTank => help_now::mine(self, ctx, found.params.get("id"), found.params.get("trouble"), request),
            Route::Letter(page) => self.at_tank(ctx, page, found.params.get("id"), request),
        }
    }

    /// A letter of one tank, read or sent back.
    fn at_tank(
        &self,
        ctx: &mut Ctx,
        page: &'static Page,
        id: Option<&str>,
        request: &Request<Vec<u8>>,
    ) -> Response<Vec<u8>> {
        let alone = Place::alone(&ctx.base);
        let tanks = match ctx.shelf.tanks() {
            Ok(tanks) => tanks,
            Err(fault) => return closed(alone, &fault),
        };
        let Some(tank) = tank_at(&tanks, id) else { return missing(alone) };
        let place = Place { tank: Some(tank), tanks: Some(&tanks), ..alone };
        let sent = match request.method() == Method::POST {
            true => self.sent(ctx.shelf, &ctx.now, place, page, request.body()).map(Some),
            false => Ok(None),
        };
        let back = match sent {
            Ok(Some(Sent::Away(to))) => return respond::see_other(&to),
            Ok(Some(Sent::Back(said, status))) => Some((*said, status)),
            Ok(None) => None,
            Err(fault) => return closed(place, &fault),
        };
        let of = Asked { now: &ctx.now, query: &act::view(request) };
        let both = act::read(ctx.shelf, tank, page.logs.as_ref(), &of).and_then(|log| Ok((log, ctx.shelf.open(tank)?)));
        let (logged, mut book) = match both {
            Ok(both) => both,
            Err(fault) => return closed(place, &fault),
        };
        let desk = Desk { place, now: ctx.now.clone(), book: &mut *book };
        let (said, status) = back.unwrap_or_else(|| (asked(&desk, page, request), StatusCode::OK));
        self.letter(&desk, page, &logged, said, status)
    }

    /// Answer a request that gives a report ([`crate::upload`]), once it was read.
    pub fn file(
        &self,
        ctx: &mut Ctx,
        request: &Request<Vec<u8>>,
        uploaded: Result<report::Uploaded, Fault>,
    ) -> Response<Vec<u8>> {
        let path = below(&ctx.base, request.uri().path());
        let found = path.as_deref().and_then(|path| self.routes.at(path).ok());
        if found.as_ref().is_some_and(|found| matches!(found.value, Route::First)) {
            return first::answer(ctx, request, Some(uploaded));
        }
        let tank = found.as_ref().and_then(|found| found.params.get("id")).map(str::to_owned);
        let asked = report::Asked { tank: tank.as_deref(), report: None, request, uploaded: Some(uploaded) };
        report::answer(self, ctx, asked)
    }

    /// The tank of whose letters an address is one.
    pub(crate) fn tank_of(&self, base: &str, path: &str) -> Option<u64> {
        self.routes.at(&below(base, path)?).ok()?.params.get("id")?.parse().ok()
    }

    /// The report that an address is of.
    pub(crate) fn report_of(&self, base: &str, path: &str) -> Option<String> {
        Some(self.routes.at(&below(base, path)?).ok()?.params.get("report")?.to_owned())
    }

    /// Whether the answer to a setup is worked out.
    pub(crate) fn has(&self, setup: &Setup) -> bool {
        self.answers.has(setup)
    }

    /// What follows from a setup; worked out once for each text.
    pub(crate) fn follows(&self, setup: &Setup) -> Follows {
        self.answers.follows(setup)
    }

    /// The blanks that the letters of a revision show.
    pub(crate) fn blanks_at(&self, desk: &Desk, revision: u64) -> Option<Arc<Blanks>> {
        Some(self.answers.blanks(desk.book.setup_at(revision)?))
    }

    /// A letter as the book has it now.
    fn letter(
        &self,
        desk: &Desk,
        page: &'static Page,
        logged: &Logged,
        said: Said,
        status: StatusCode,
    ) -> Response<Vec<u8>> {
        let Some(setup) = desk.book.setup() else { return missing(desk.place) };
        let Kept { setup, answer, blanks, letters } = self.answers.get(setup);
        let answer = match answer.as_ref() {
            Ok(answer) => answer,
            Err(faults) => return unreadable(desk.place, page.key, desk.book.revision(), faults),
        };
        let text = letters.get(desk, page, logged, &said, || {
            let mut said = said.clone();
            self.compare(desk, page, logged, &setup, &blanks, &mut said);
            let mut sheet = Sheet::new(desk.place, &desk.now, desk.book.revision(), &setup, answer, &blanks, &said);
            sheet.take(logged);
            form(&sheet, page)
        });
        let title = if said.refused.is_empty() { page.name.to_owned() } else { format!("Not taken: {}", page.name) };
        let (current, class) = (Some(page.key), &format!("page-{}", page.key));
        respond::page(status, frame(&Head { place: desk.place, title: &title, current, class }, PreEscaped(text)))
    }

    /// Fills in what the compared revision showed, where the keeper changed it or where it moved.
    fn compare(&self, desk: &Desk, page: &Page, logged: &Logged, setup: &Setup, blanks: &Blanks, said: &mut Said) {
        let Some(before) = said.before.filter(|before| *before < desk.book.revision()) else { return };
        let Some(old) = desk.book.setup_at(before) else { return };
        let answer = self.follows(old);
        let Ok(answer) = answer.as_ref() else { return };
        let old_blanks = self.answers.blanks(old);
        let asked = match answer {
            Answer::Open { question, .. } => Some(question.field.as_str()),
            Answer::Settled { .. } => None,
        };
        for (field, blank) in blanks {
            let (was, now) = (old.written(field), setup.written(field));
            if was != now {
                let shown = old_blanks.get(field).map_or_else(String::new, |blank| blank.shown.clone());
                let so = was.is_none() && shown == blank.shown;
                said.was.insert(field.clone(), if so { "assumed".to_owned() } else { shown });
            }
        }
        let elsewhere = |change: Change| Elsewhere { answered: asked == Some(whole(&change.field)), change };
        said.elsewhere = old.changes_to(setup).into_iter().map(elsewhere).collect();
        let nothing = Said::default();
        let mut sheet = Sheet::new(desk.place, &desk.now, before, old, answer, &old_blanks, &nothing);
        sheet.take(logged);
        let _ = (page.write)(&sheet);
        said.outs = sheet.outs();
    }

    /// Takes a letter that was sent back: its blanks, then its act.
    fn sent(
        &self,
        shelf: &mut dyn Shelf,
        now: &ZonedDateTime,
        place: Place,
        page: &'static Page,
        body: &[u8],
    ) -> Result<Sent, Fault> {
        let tank = place.tank.unwrap_or_default();
        let mut book = shelf.open(tank)?;
        let mut desk = Desk { place, now: now.clone(), book: &mut *book };
        if let Some(seen) = wait::stopped(body) {
            // What was changed elsewhere meanwhile stays: then nothing is taken back.
            let _ = desk.book.undo_over(seen);
            return Ok(Sent::Away(place.letter(page.key)));
        }
        let mut query = match post(self, &mut desk, body) {
            Posted::Taken(query) => query,
            Posted::Refused(said) => return Ok(Sent::Back(act::waits(said, body), StatusCode::UNPROCESSABLE_ENTITY)),
            Posted::Unknown(said) => return Ok(Sent::Back(act::waits(said, body), StatusCode::CONFLICT)),
        };
        let setup = desk.book.setup().cloned();
        drop(book);
        if let (Some(logs), Some(setup), Some((act, form))) = (&page.logs, setup, act::asked_for(body))
            && let Ok(answer) = self.follows(&setup).as_ref()
        {
            let act = Act { act: &act, now, form: &form, answer };
            match act::done(logs, &act, &mut *shelf.log(tank)?) {
                Ok(more) if more.is_empty() => {}
                Ok(more) => query = format!("{query}{}{more}", if query.is_empty() { "?" } else { "&" }),
                Err(refused) => {
                    let said = Box::new(act::refused(refused, form));
                    return Ok(Sent::Back(said, StatusCode::UNPROCESSABLE_ENTITY));
                }
            }
        }
        Ok(Sent::Away(format!("{}{query}", place.letter(page.key))))
    }
}

/// The way to the tank that was edited last; in an empty book, to the first visit.
fn door(ctx: &Ctx) -> Response<Vec<u8>> {
    match ctx.shelf.last() {
        Ok(Some(tank)) => respond::see_other(&letter(&ctx.base, tank, FRONT)),
        Ok(None) => respond::see_other(&href(&ctx.base, FIRST)),
        Err(fault) => closed(Place::alone(&ctx.base), &fault),
    }
}

/// The path below the base, with a slash in front.
fn below(base: &str, path: &str) -> Option<String> {
    let door = href(base, "");
    if path == door.trim_end_matches('/') {
        return Some("/".to_owned());
    }
    path.strip_prefix(&door).map(|rest| format!("/{rest}"))
}

/// What the address says of the last rewriting.
fn asked(desk: &Desk, page: &Page, request: &Request<Vec<u8>>) -> Said {
    let (mut said, mut over) = (Said::default(), None);
    for (key, value) in form_urlencoded::parse(request.uri().query().unwrap_or("").as_bytes()) {
        match key.as_ref() {
            "why" => said.why = Some(value.into_owned()),
            "was" => said.before = value.parse().ok(),
            "over" => over = value.parse().ok(),
            "unknown" => said.unknown = Some(value.into_owned()),
            "wrote" => said.wrote = value.parse().ok(),
            "undone" => said.undone = value.parse().ok(),
            "first" => said.told.extend(first::told(desk)),
            name if page.reads_address => drop(said.typed.insert(name.to_owned(), value.into_owned())),
            _ => {}
        }
    }
    if let (Some(before), Some(over)) = (said.before, over) {
        said.told.extend(merged(desk, before, over));
    }
    said
}

/// All blanks of all letters, of the first reading that has them; a field whose question is open shows what is written.
pub(crate) fn blanks(setup: &Setup, answer: &Answer) -> Blanks {
    match answer {
        Answer::Settled { tank, plan } => {
            more::all(setup, tank, plan).map(|blank| (blank.field.clone(), blank)).collect()
        }
        Answer::Open { question, outcomes } => {
            let mut all = Blanks::new();
            for (field, blank) in outcomes.iter().flat_map(|outcome| blanks(setup, &outcome.answer)) {
                all.entry(field).or_insert(blank);
            }
            // Where something is to be measured the guess stands.
            if let Some(blank) = all.get_mut(&question.field).filter(|_| !question.replies.is_empty()) {
                blank.shown.clone_from(&question.written);
                blank.unit.clear();
            }
            all
        }
    }
}

/// One form a letter. Its first button is off screen, so that Enter in a blank rewrites (or works out what was typed, where
/// that is not kept) and never answers a question.
fn form(sheet: &Sheet, page: &Page) -> Markup {
    let (verses, enter) = ((page.write)(sheet), page.logs.as_ref().and_then(|logs| logs.enter));
    html! {
        form method="post" action=(sheet.letter(page.key)) autocomplete="off" {
            @if page.asks_back {
                button.off-screen formmethod="get" name="do" value="read" tabindex="-1" { "Work it out" }
            } @else if let Some(act) = enter {
                button.off-screen name="act" value=(act) tabindex="-1" { "Do what this line says" }
            } @else {
                button.off-screen name="do" value="rewrite" tabindex="-1" { "Rewrite the letter" }
            }
            input type="hidden" name="revision" value=(sheet.revision);
            @if page.logs.is_some() { input type="hidden" name=(act::SEEN) value=(sheet.writing_number()); }
            (sheet.changed_elsewhere())
            (sheet.acted())
            (verses)
            section.verse.rewrite { p {
                button.send name="do" value="rewrite" { "Rewrite the letter" }
                span { "with the numbers you changed. " @if enter.is_none() { "Enter does the same; nothing" } @else { "Nothing" } " is lost, each change can be undone." }
                @if sheet.revision > 1 && !page.asks_back {
                    " " button.again name="do" value=(crate::post::BACK) { "take the last change back" }
                }
            } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_base_is_taken_off_whole() {
        assert_eq!(below("/", "/help-now").as_deref(), Some("/help-now"));
        assert_eq!(below("/tapmere/", "/tapmere/help-now").as_deref(), Some("/help-now"));
        assert_eq!(below("/tapmere/", "/tapmere").as_deref(), Some("/"));
        assert_eq!(below("/tapmere/", "/tapmerehelp-now"), None);
        assert_eq!(below("/tapmere/", "/help-now"), None);
    }

    #[test]
    fn every_row_of_the_table_is_found() {
        let table = table();
        for page in crate::routes::PAGES {
            assert!(
                matches!(table.at(&format!("/tank/12/{}", page.key)).map(|m| *m.value), Ok(Route::Letter(p)) if p.key == page.key)
            );
        }
        assert!(table.at("/look.css").is_ok() && table.at("/letter.js").is_ok() && table.at("/").is_ok());
    }
}
