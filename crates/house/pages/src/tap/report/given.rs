//! What a keeper gives: a file or a pasted text, taken out of its form and read.

use http::{Method, Request, header};
use quantity::Fault;
use report::{By, Report};

use super::multipart;
use crate::ctx::href;
use crate::routes::FIRST;

/// A report that was given and read.
#[derive(Clone, Debug)]
pub struct Uploaded {
    /// Name of the file, or what a pasted text is called.
    pub name: String,
    /// Who measured.
    pub by: By,
    /// The text as pasted; empty for a file.
    pub pasted: String,
    /// What was read.
    pub report: Report,
}

impl Uploaded {
    /// What is said of a report in which nothing could be read.
    pub(crate) fn unread(&self) -> Vec<String> {
        let errors = self.report.errors.iter().map(|error| error.text.clone());
        std::iter::once(format!("I could read no value from {}.", self.name)).chain(errors).collect()
    }
}

/// Characters of a file's name that are kept.
const LONGEST_NAME: usize = 80;

/// Whether a request may give a report below `base`.
pub fn is_upload(base: &str, method: &Method, path: &str) -> bool {
    let door = href(base, "tank/");
    let inner = path.strip_prefix(&door).and_then(|rest| rest.split_once('/'));
    method == Method::POST && (is_first(base, path) || inner.is_some_and(|(_, rest)| rest == super::KEY))
}

fn is_first(base: &str, path: &str) -> bool {
    path == href(base, FIRST)
}

/// The report that a request gives, read by `read` from its name and bytes; none where it gives none.
///
/// The bytes are not trusted: `read` should be a process of its own, with limits.
pub fn upload(
    base: &str,
    request: &Request<Vec<u8>>,
    read: &dyn Fn(&str, &[u8]) -> Report,
) -> Option<Result<Uploaded, Fault>> {
    let path = request.uri().path();
    // The first visit asks for a file beside other things: without one its form is like any other.
    let gives = is_upload(base, request.method(), path) && (!is_first(base, path) || names_file(request));
    gives.then(|| take(request, read))
}

fn names_file(request: &Request<Vec<u8>>) -> bool {
    let named =
        |part: &multipart::Part| part.name == "report" && part.file.as_deref().is_some_and(|file| !file.is_empty());
    parts(request).is_ok_and(|parts| parts.iter().any(named))
}

/// The parts of a form that may carry a file.
fn parts(request: &Request<Vec<u8>>) -> Result<Vec<multipart::Part<'_>>, Fault> {
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let strange = || {
        Fault::new("this upload did not come from one of my pages")
            .hint("open the page of reports and give the file there")
    };
    multipart::parts(request.body(), &multipart::boundary(kind).ok_or_else(strange)?)
}

/// What is written in a form that may carry a file: names and texts, without the file.
///
/// # Errors
/// A form that is broken, or of another kind.
pub(crate) fn written(request: &Request<Vec<u8>>) -> Result<Vec<(String, String)>, Fault> {
    let text = |part: &multipart::Part| part.file.is_none().then(|| (part.name.clone(), part.text()));
    Ok(parts(request)?.iter().filter_map(text).collect())
}

fn take(request: &Request<Vec<u8>>, read: &dyn Fn(&str, &[u8]) -> Report) -> Result<Uploaded, Fault> {
    let parts = parts(request)?;
    let find = |name: &str| parts.iter().find(|part| part.name == name);
    let by = match find("by").map(multipart::Part::text).as_deref() {
        Some("keeper") => By::Keeper,
        _ => By::Works,
    };
    // A file that was chosen wins over a text that was forgotten.
    if let Some(file) = find("report").filter(|part| !part.content.is_empty()) {
        let name = tidy(file.file.as_deref().unwrap_or_default(), "report");
        let report = read(&name, file.content);
        return Ok(Uploaded { name, by, pasted: String::new(), report });
    }
    let pasted = find("text").map(multipart::Part::text).unwrap_or_default();
    if pasted.trim().is_empty() {
        if let Some(empty) = find("report").and_then(|part| part.file.as_deref()).filter(|name| !name.is_empty()) {
            return Err(Fault::new(format!("the file “{empty}” is empty")).hint("pick the report once more"));
        }
        return Err(Fault::new("there is neither a file nor a text")
            .expected("a file that was picked or dropped on its field, or a text pasted below it"));
    }
    let called = find("name").map(multipart::Part::text).unwrap_or_default();
    let name = tidy(&called, if by == By::Keeper { "my own tests" } else { "pasted text" });
    Ok(Uploaded { report: read(&name, pasted.as_bytes()), name, by, pasted })
}

/// A name without control characters, not too long.
fn tidy(name: &str, otherwise: &str) -> String {
    let name: String = name.trim().chars().filter(|c| !c.is_control()).take(LONGEST_NAME).collect();
    if name.is_empty() { otherwise.to_owned() } else { name }
}
