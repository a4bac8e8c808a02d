//! The house: from a request to a whole response.

use std::cell::RefCell;
use std::sync::Arc;

use http::{Method, Request, Response, StatusCode, header};
use matchit::Router;
use maud::{Markup, html};
use quantity::Faults;
use recipe::Answer;
use setup::Setup;

use crate::blank::{Blank, Blanks};
use crate::ctx::{Ctx, href};
use crate::help_now;
use crate::parts::{Head, frame};
use crate::post::{Posted, post};
use crate::respond;
use crate::routes::{FRONT, PAGES, Page, Route, table};
use crate::sheet::{Said, Sheet};

/// How many answers are kept: the letter that is shown, what it is compared with, and one before.
const KEPT: usize = 4;

/// An answer with the text that it follows from.
struct Kept {
    text: String,
    answer: Arc<Result<Answer, Faults>>,
}

/// All pages behind one function.
pub struct House {
    routes: Router<Route>,
    work: fn(&Setup) -> Result<Answer, Faults>,
    kept: RefCell<Vec<Kept>>,
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
        House { routes: table(), work, kept: RefCell::default() }
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
        let route = below(&base, request.uri().path()).and_then(|path| self.routes.at(&path).ok().map(|m| *m.value));
        let method = request.method();
        let reads = method == Method::GET || method == Method::HEAD;
        match route {
            None => missing(&base),
            // First of all, and before anything touches the book.
            Some(Route::HelpNow) if reads => respond::page(StatusCode::OK, help_now::page(&base)),
            Some(Route::Asset(asset)) if reads => respond::asset(asset.kind, asset.body),
            Some(Route::Door) if reads => respond::see_other(&href(&base, FRONT)),
            Some(Route::Letter(page)) if reads => self.letter(ctx, page, asked(request), StatusCode::OK),
            Some(Route::Letter(page)) if method == Method::POST => self.rewrite(ctx, page, request),
            Some(route) => not_so(&base, matches!(route, Route::Letter(_))),
        }
    }

    /// What follows from a setup; worked out once for each text.
    pub(crate) fn follows(&self, setup: &Setup) -> Arc<Result<Answer, Faults>> {
        let mut kept = self.kept.borrow_mut();
        if let Some(at) = kept.iter().position(|kept| kept.text == setup.text()) {
            let found = kept.remove(at);
            let answer = found.answer.clone();
            kept.push(found);
            return answer;
        }
        let answer = Arc::new((self.work)(setup));
        if kept.len() >= KEPT {
            kept.remove(0);
        }
        kept.push(Kept { text: setup.text().to_owned(), answer: answer.clone() });
        answer
    }

    /// The blanks that the letters of a revision show.
    pub(crate) fn blanks_at(&self, ctx: &Ctx, revision: u64) -> Option<Blanks> {
        let setup = ctx.book.setup_at(revision)?;
        let answer = self.follows(setup);
        Some(answer.as_ref().as_ref().map(|answer| blanks(setup, answer)).unwrap_or_default())
    }

    /// A letter as the book has it now.
    fn letter(&self, ctx: &Ctx, page: &'static Page, mut said: Said, status: StatusCode) -> Response<Vec<u8>> {
        let base = ctx.base.as_str();
        let Some(setup) = ctx.book.setup() else {
            return plain(base, StatusCode::NOT_FOUND, "The book is empty.", "Open it with a setup file.");
        };
        let answer = self.follows(setup);
        let answer = match answer.as_ref() {
            Ok(answer) => answer,
            Err(faults) => return unreadable(base, faults),
        };
        let blanks = blanks(setup, answer);
        self.compare(ctx, page, setup, &blanks, &mut said);
        let sheet = Sheet::new(base, ctx.today, ctx.book.revision(), setup, answer, &blanks, &said);
        let title = if said.refused.is_empty() { page.name.to_owned() } else { format!("Not taken: {}", page.name) };
        let class = format!("page-{}", page.key);
        let head = Head { base, title: &title, current: Some(page.key), class: &class };
        respond::page(status, frame(&head, form(&sheet, page)))
    }

    /// Fills in what the compared revision showed, where the keeper changed it or where it moved.
    fn compare(&self, ctx: &Ctx, page: &Page, setup: &Setup, blanks: &Blanks, said: &mut Said) {
        let Some(before) = said.before.filter(|before| *before < ctx.book.revision()) else { return };
        let Some(old) = ctx.book.setup_at(before) else { return };
        let answer = self.follows(old);
        let Ok(answer) = answer.as_ref() else { return };
        let old_blanks = crate::house::blanks(old, answer);
        for field in blanks.keys() {
            if old.written(field) != setup.written(field) {
                let was = old_blanks.get(field).map_or_else(String::new, |blank| blank.shown.clone());
                said.was.insert(field.clone(), was);
            }
        }
        let nothing = Said::default();
        let sheet = Sheet::new(&ctx.base, ctx.today, before, old, answer, &old_blanks, &nothing);
        let _ = (page.write)(&sheet);
        said.outs = sheet.outs();
    }

    fn rewrite(&self, ctx: &mut Ctx, page: &'static Page, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
        let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or("");
        if !kind.to_ascii_lowercase().starts_with("application/x-www-form-urlencoded") {
            return plain(
                &ctx.base,
                StatusCode::UNSUPPORTED_MEDIA_TYPE,
                "I can’t read this form.",
                "It did not come from one of my letters. Nothing was changed.",
            );
        }
        match post(self, ctx, request.body()) {
            Posted::Taken(query) => respond::see_other(&href(&ctx.base, &format!("{}{query}", page.path))),
            Posted::Refused(said) => self.letter(ctx, page, *said, StatusCode::UNPROCESSABLE_ENTITY),
            Posted::Unknown(said) => self.letter(ctx, page, *said, StatusCode::CONFLICT),
        }
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
fn asked(request: &Request<Vec<u8>>) -> Said {
    let mut said = Said::default();
    for (key, value) in form_urlencoded::parse(request.uri().query().unwrap_or("").as_bytes()) {
        match key.as_ref() {
            "why" => said.why = Some(value.into_owned()),
            "was" => said.before = value.parse().ok(),
            "unknown" => said.unknown = Some(value.into_owned()),
            "older" => said.told.push(
                "Your letter was older than the book: something had been changed elsewhere in the meantime. I kept both, blank by blank."
                    .to_owned(),
            ),
            _ => {}
        }
    }
    said
}

/// All blanks of all letters, of the first reading that has them; a field whose question is open shows what is written.
fn blanks(setup: &Setup, answer: &Answer) -> Blanks {
    match answer {
        Answer::Settled { tank, plan } => {
            let list = PAGES.iter().flat_map(|page| (page.blanks)(setup, tank, plan));
            list.map(|blank: Blank| (blank.field.clone(), blank)).collect()
        }
        Answer::Open { question, outcomes } => {
            let mut all = Blanks::new();
            for (field, blank) in outcomes.iter().flat_map(|outcome| blanks(setup, &outcome.answer)) {
                all.entry(field).or_insert(blank);
            }
            if let Some(blank) = all.get_mut(&question.field) {
                blank.shown.clone_from(&question.written);
                blank.unit.clear();
            }
            all
        }
    }
}

/// One form a letter. Its first button is off screen, so that Enter in a blank rewrites and never answers a question.
fn form(sheet: &Sheet, page: &Page) -> Markup {
    html! {
        form method="post" action=(sheet.href(page.path)) autocomplete="off" {
            button.off-screen name="do" value="rewrite" tabindex="-1" { "Rewrite the letter" }
            input type="hidden" name="revision" value=(sheet.revision);
            ((page.write)(sheet))
            section.verse.rewrite { p {
                button.send name="do" value="rewrite" { "Rewrite the letter" }
                span { "with the numbers you changed. Enter does the same; nothing is lost, each change can be undone." }
            } }
        }
    }
}

/// A page of a sentence and what to do.
fn plain(base: &str, status: StatusCode, what: &str, then: &str) -> Response<Vec<u8>> {
    let head = Head { base, title: what.trim_end_matches('.'), current: None, class: "page-plain" };
    let main = html! {
        section.verse {
            h1.answer { (what) }
            div.text { p { (then) } p { "To " a href=(href(base, FRONT)) { "your letter" } ", or pick a page from the list below." } }
        }
    };
    respond::page(status, frame(&head, main))
}

fn missing(base: &str) -> Response<Vec<u8>> {
    plain(
        base,
        StatusCode::NOT_FOUND,
        "There is no such page.",
        "The address is mistyped, or the page was never written.",
    )
}

fn not_so(base: &str, letter: bool) -> Response<Vec<u8>> {
    let mut response = plain(
        base,
        StatusCode::METHOD_NOT_ALLOWED,
        "That can’t be done here.",
        "This page can only be read or rewritten.",
    );
    let allowed = if letter { "GET, HEAD, POST" } else { "GET, HEAD" };
    response.headers_mut().insert(header::ALLOW, http::HeaderValue::from_static(allowed));
    response
}

fn unreadable(base: &str, faults: &Faults) -> Response<Vec<u8>> {
    let head = Head { base, title: "I can’t read the setup", current: None, class: "page-plain" };
    let main = html! {
        section.verse {
            h1.answer { "I can’t read the setup." }
            div.text { p { "Mend it in the file and open it again:" } p.fault { (faults) } }
        }
    };
    respond::page(StatusCode::UNPROCESSABLE_ENTITY, frame(&head, main))
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
        for page in PAGES {
            assert!(
                matches!(table.at(&format!("/{}", page.path)).map(|m| *m.value), Ok(Route::Letter(p)) if p.key == page.key)
            );
        }
        assert!(table.at("/look.css").is_ok() && table.at("/letter.js").is_ok() && table.at("/").is_ok());
    }
}
