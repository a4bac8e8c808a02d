//! What the tests of the letters share: a request, and what must be true of every page.

use http::{Request, Response, StatusCode};
use pages::{Ctx, House};
use setup::{Book, MemoryShelf, Setup, Shelf};

/// The invented household.
pub const HOUSEHOLD: &str = include_str!("../../../../../examples/household/tank.toml");
/// The same with a nitrate whose basis nobody told.
pub const QUESTION: &str = include_str!("../../../../../examples/household/tank-question.toml");

/// A shelf with one tank.
pub fn book(text: &str) -> MemoryShelf {
    MemoryShelf::of(Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}")))
}

/// What the tank's book says now.
pub fn setup(shelf: &MemoryShelf) -> &Setup {
    shelf.book(1).and_then(Book::setup).unwrap()
}

/// The revision that holds now.
pub fn revision(shelf: &MemoryShelf) -> u64 {
    shelf.book(1).map_or(0, Book::revision)
}

/// Send a request to a fresh house.
pub fn send(shelf: &mut dyn Shelf, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
    let now = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap();
    let mut ctx = Ctx { shelf, now, base: "/".to_owned(), seed: 1 };
    House::new().answer(&mut ctx, request)
}

/// A page by GET; it must be there.
pub fn get(shelf: &mut MemoryShelf, path: &str) -> String {
    let request = Request::builder().uri(path).body(Vec::new()).unwrap();
    let response = send(shelf, &request);
    assert_eq!(response.status(), StatusCode::OK, "{path}");
    String::from_utf8(response.into_body()).unwrap()
}

/// A letter sent back with some blanks changed; gives the letter that is then shown.
pub fn post(shelf: &mut MemoryShelf, path: &str, fields: &[(&str, &str)]) -> String {
    let revision = revision(shelf).to_string();
    let mut body = form_urlencoded::Serializer::new(String::new());
    body.append_pair("revision", &revision);
    for (field, text) in fields {
        body.append_pair(field, text);
    }
    let request = Request::builder()
        .method("POST")
        .uri(path)
        .header("content-type", "application/x-www-form-urlencoded")
        .body(body.finish().into_bytes())
        .unwrap();
    let response = send(shelf, &request);
    let status = response.status();
    let body = String::from_utf8(response.body().clone()).unwrap();
    assert_eq!(status, StatusCode::SEE_OTHER, "{}", words(&body));
    let to = response.headers()["location"].to_str().unwrap().to_owned();
    get(shelf, &to)
}

/// One tag of a page.
#[derive(Debug)]
pub struct Tag {
    /// Its name, without the slash.
    pub name: String,
    /// Its attributes.
    pub attributes: Vec<(String, String)>,
    /// It closes.
    pub closes: bool,
}

impl Tag {
    /// An attribute.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(key, _)| key == name).map(|(_, value)| value.as_str())
    }
}

/// All tags of a page, read strictly: every value in double quotes, every `<` a tag.
pub fn tags(html: &str) -> Vec<Tag> {
    let mut found = Vec::new();
    let mut rest = html.strip_prefix("<!DOCTYPE html>").expect("a doctype first");
    while let Some(at) = rest.find('<') {
        let inside = &rest[at + 1..];
        let end = inside.find('>').expect("a tag that ends");
        found.push(tag(&inside[..end]));
        rest = &inside[end + 1..];
    }
    found
}

fn tag(text: &str) -> Tag {
    let closes = text.starts_with('/');
    let text = text.trim_start_matches('/');
    let (name, mut rest) = text.split_once(' ').unwrap_or((text, ""));
    assert!(!name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric()), "a tag named `{name}`");
    let mut attributes = Vec::new();
    while !rest.trim().is_empty() {
        rest = rest.trim_start();
        let end = rest.find([' ', '=']).unwrap_or(rest.len());
        let key = rest[..end].to_owned();
        rest = &rest[end..];
        let value = match rest.strip_prefix("=\"") {
            Some(quoted) => {
                let close = quoted.find('"').expect("a quote that closes");
                rest = &quoted[close + 1..];
                quoted[..close].to_owned()
            }
            None => String::new(),
        };
        assert!(!attributes.iter().any(|(known, _)| *known == key), "{key} twice in <{text}>");
        attributes.push((key, value));
    }
    Tag { name: name.to_owned(), attributes, closes }
}

const VOID: [&str; 8] = ["meta", "link", "input", "br", "hr", "img", "col", "wbr"];

/// Tags close in the order in which they open; ids are unlike; what refers to an id finds it; what can be filled in has
/// a name for who can't see it; nothing is inline that the policy of the pages forbids.
pub fn is_sound(html: &str) {
    let all = tags(html);
    let mut open: Vec<&str> = Vec::new();
    for tag in &all {
        if tag.closes {
            assert_eq!(open.pop(), Some(tag.name.as_str()), "closing order");
        } else if !VOID.contains(&tag.name.as_str()) {
            open.push(&tag.name);
        }
        assert!(tag.get("style").is_none(), "an inline style in <{}>", tag.name);
        assert!(!tag.attributes.iter().any(|(key, _)| key.starts_with("on")), "an inline script in <{}>", tag.name);
    }
    assert!(open.is_empty(), "left open: {open:?}");
    let ids: Vec<&str> = all.iter().filter_map(|tag| tag.get("id")).collect();
    let mut unlike = ids.clone();
    unlike.sort_unstable();
    unlike.dedup();
    assert_eq!(unlike.len(), ids.len(), "an id stands twice: {ids:?}");
    for tag in &all {
        let refers = ["aria-labelledby", "aria-describedby"].iter().filter_map(|key| tag.get(key));
        for id in refers.flat_map(str::split_whitespace) {
            assert!(ids.contains(&id), "<{}> refers to {id}", tag.name);
        }
        if let Some((_, note)) = tag.get("href").and_then(|href| href.split_once("#why-")) {
            assert!(ids.contains(&format!("why-{note}").as_str()), "no note {note}");
        }
        let typed = tag.name == "select" || (tag.name == "input" && tag.get("type") != Some("hidden"));
        let typed = typed && !tag.closes;
        assert!(!typed || tag.get("aria-label").is_some_and(|says| says.len() > 8), "a blank without a name: {tag:?}");
    }
}

/// Every drawing has a title and a description, and the page has a table.
pub fn drawings_speak(html: &str, drawings: usize) {
    let parts: Vec<&str> = html.split("<svg").skip(1).collect();
    assert_eq!(parts.len(), drawings);
    for part in parts {
        let svg = part.split("</svg>").next().unwrap();
        assert!(svg.contains("role=\"img\"") && svg.contains("aria-labelledby="), "{svg:.200}");
        for name in ["title", "desc"] {
            let text = svg.split(&format!("</{name}>")).next().and_then(|head| head.rsplit('>').next()).unwrap();
            assert!(text.len() > 20, "{name}: {text}");
        }
    }
    assert!(html.contains("<table"));
}

/// The text of a page, without tags, entities read back.
pub fn words(html: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                out.push(' ');
            }
            c if !inside => out.push(c),
            _ => {}
        }
    }
    let out = out
        .replace("&amp;", "&")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace('\u{a0}', " ");
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Words that no page of this house uses (rules of harm, and the tone of the house).
pub fn no_forbidden_words(text: &str) {
    // The one sentence that says what the house does not speak of.
    let text = text.replace("Tapmere says nothing about drinking water.", "").to_lowercase();
    for word in text.split(|c: char| !c.is_alphanumeric()) {
        for forbidden in
            ["safe", "safely", "unsafe", "gas", "gases", "optimal", "drinking", "drinkable", "todo", "nan", "inf"]
        {
            assert!(
                word != forbidden,
                "the word `{forbidden}` in: {:.300}",
                &text[text.find(forbidden).unwrap_or(0)..]
            );
        }
    }
}
