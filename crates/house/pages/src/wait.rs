//! Where an answer takes its time: which one a request waits for, and the page that says how far it is.
//!
//! [`House::answer`] works out what it needs. Whoever has threads asks [`House::lacks`] first, works it out where nobody
//! else waits, hands it over by [`House::keep`], and meanwhile may show [`House::working`].

use std::sync::Arc;

use http::{HeaderValue, Method, Request, Response, StatusCode, header};
use maud::html;
use quantity::Faults;
use recipe::{Answer, Progress};
use setup::Setup;

use crate::ctx::{Ctx, Place};
use crate::house::House;
use crate::parts::{Head, frame};
use crate::respond;
use crate::words::counted;

/// The button that stops what is worked out: the change that asked for it is taken back.
pub const STOP: &str = "stop";

impl House {
    /// A setup of which a request needs the answer, and which nobody has worked out yet; `None`: it can be answered.
    pub fn lacks(&self, ctx: &mut Ctx, request: &Request<Vec<u8>>) -> Option<Setup> {
        let tank = self.tank_of(&ctx.base, request.uri().path())?;
        if let Some(report) = self.report_of(&ctx.base, request.uri().path()) {
            return crate::tap::report::lacks(self, ctx.shelf, tank, &report);
        }
        let posted = request.method() == Method::POST;
        let pairs = || {
            let text = if posted { request.body().as_slice() } else { request.uri().query().unwrap_or("").as_bytes() };
            form_urlencoded::parse(text)
        };
        if posted && stopped(request.body()).is_some() {
            return None;
        }
        let seen = if posted { "revision" } else { "was" };
        let seen = pairs().find(|(name, _)| name == seen).and_then(|(_, value)| value.trim().parse().ok());
        let book = ctx.shelf.open(tank).ok()?;
        let revisions = [Some(book.revision()), seen];
        let mut setups = revisions.into_iter().flatten().filter_map(|revision| book.setup_at(revision));
        setups.find(|setup| !self.answers.has(setup)).cloned()
    }

    /// Take over an answer that was worked out elsewhere.
    pub fn keep(&self, setup: &Setup, answer: Arc<Result<Answer, Faults>>) {
        self.answers.keep(setup, answer);
    }

    /// What is shown while an answer is worked out: it asks again by itself, and can be stopped.
    pub fn working(&self, ctx: &mut Ctx, request: &Request<Vec<u8>>, progress: Progress) -> Response<Vec<u8>> {
        let tank = self.tank_of(&ctx.base, request.uri().path());
        let revision = tank.and_then(|tank| Some(ctx.shelf.open(tank).ok()?.revision())).unwrap_or(0);
        let place = Place { tank, ..Place::alone(&ctx.base) };
        let head = Head { place, title: "Working it out", current: None, class: "page-plain" };
        let main = html! {
            form.working method="post" action=(request.uri().path()) autocomplete="off" {
                input type="hidden" name="revision" value=(revision);
                section.verse {
                    h1.answer { "I am working it out." }
                    div.text {
                        p {
                            "So far " (counted(progress.done, "plan is", "plans are")) " written, of " (progress.of) ". "
                            progress max=(progress.of.max(1)) value=(progress.done) aria-label="Plans written" {}
                        }
                        p { "This page looks again by itself, and shows your letter when it is done." }
                        @if revision > 1 { p {
                            button.again name="do" value=(STOP) { "Stop, and take my last change back" } "."
                        } }
                    }
                }
            }
        };
        let mut response = respond::page(StatusCode::OK, frame(&head, main));
        response.headers_mut().insert(header::REFRESH, HeaderValue::from_static("1"));
        response
    }
}

/// The revision whose working out is to be stopped, if a form says so.
pub fn stopped(body: &[u8]) -> Option<u64> {
    let of = |wanted: &str| form_urlencoded::parse(body).find(|(name, _)| name == wanted).map(|(_, value)| value);
    of("do").filter(|what| what == STOP)?;
    of("revision")?.trim().parse().ok()
}
