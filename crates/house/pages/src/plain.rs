//! Pages of a sentence and what to do: what is not there, what can't be done, what can't be read.

use http::{HeaderValue, Response, StatusCode, header};
use maud::{Markup, html};
use quantity::{Fault, Faults};

use crate::ctx::Place;
use crate::parts::{self, Head, frame};
use crate::post::BACK;
use crate::respond;

/// A page of a sentence and what to do.
fn plain(place: Place, status: StatusCode, what: &str, then: Markup) -> Response<Vec<u8>> {
    let head = Head { place, title: what.trim_end_matches('.'), current: None, class: "page-plain" };
    let main = html! {
        section.verse {
            h1.answer { (what) }
            div.text { (then) p { "To " a href=(place.href("")) { "your letter" } ", or pick a page from the list below." } }
        }
    };
    respond::page(status, frame(&head, main))
}

/// No such page, or no such tank.
pub fn missing(place: Place) -> Response<Vec<u8>> {
    let then = html! { p { "The address is mistyped, or the page was never written." } };
    plain(place, StatusCode::NOT_FOUND, "There is no such page.", then)
}

/// A file that would stand on an answer that nobody gave.
pub fn open_question(place: Place) -> Response<Vec<u8>> {
    let then =
        html! { p { "Answer the question on the letter first: until then I write nothing on any of its answers." } };
    plain(place, StatusCode::CONFLICT, "A question is still open.", then)
}

/// A method that the page does not take; `allowed` are those that it does.
pub fn not_so(place: Place, allowed: &'static str) -> Response<Vec<u8>> {
    let then = html! { p { "This page can only be read or rewritten." } };
    let mut response = plain(place, StatusCode::METHOD_NOT_ALLOWED, "That can’t be done here.", then);
    response.headers_mut().insert(header::ALLOW, HeaderValue::from_static(allowed));
    response
}

/// A form that is none of ours.
pub fn strange(place: Place) -> Response<Vec<u8>> {
    let then = html! { p { "It did not come from one of my letters. Nothing was changed." } };
    plain(place, StatusCode::UNSUPPORTED_MEDIA_TYPE, "I can’t read this form.", then)
}

/// The book does not answer.
pub fn closed(place: Place, fault: &Fault) -> Response<Vec<u8>> {
    let then = html! { p { "Nothing was changed. This is what is wrong:" } p { (parts::fault(fault)) } };
    plain(place, StatusCode::SERVICE_UNAVAILABLE, "I can’t open the book.", then)
}

/// The text of the tank can't be understood. `key` is the letter's: there the last change is taken back, if `revision`
/// is not the first.
pub fn unreadable(place: Place, key: &str, revision: u64, faults: &Faults) -> Response<Vec<u8>> {
    let then = html! {
        p { "This is what I can’t read:" }
        p { (parts::faults(&faults.0)) }
        @if revision > 1 {
            form method="post" action=(place.letter(key)) autocomplete="off" {
                input type="hidden" name="revision" value=(revision);
                p { button.send name="do" value=(BACK) { "Take the last change back" } }
            }
            p { "Everything before it is still there. If you keep this tank in a file of your own, you can mend it there instead." }
        } @else {
            p { "Mend it in the file and open it again." }
        }
        p { "Fish in trouble at this moment? " a href=(place.href("help-now")) { "Help now" } " needs none of it." }
    };
    plain(place, StatusCode::UNPROCESSABLE_ENTITY, "I can’t read what stands in this tank.", then)
}
