//! Every way in: pages under two bases, heads of the responses, what is asked wrongly, and whatever else may come.

use std::collections::BTreeSet;

use crate::common::{Door, HOUSEHOLD, QUESTION, text};
use http::{Method, Request};
use proptest::prelude::*;

/// Values of an attribute.
fn values<'p>(page: &'p str, attribute: &str) -> impl Iterator<Item = &'p str> {
    let opening = format!(" {attribute}=\"");
    let starts: Vec<usize> = page.match_indices(&opening).map(|(at, _)| at + opening.len()).collect();
    starts.into_iter().filter_map(|at| page[at..].split('"').next())
}

/// All pages that are reached from the door by links, with their text.
fn crawl(household: &str, base: &str) -> Vec<(String, String)> {
    let mut door = Door::open(household, base);
    let (mut todo, mut seen, mut pages) = (vec![base.to_owned()], BTreeSet::new(), Vec::new());
    while let Some(path) = todo.pop() {
        if !seen.insert(path.clone()) {
            continue;
        }
        let response = door.get(&path);
        if response.status() == 303 {
            todo.push(response.headers()["location"].to_str().unwrap().to_owned());
            continue;
        }
        assert_eq!(response.status(), 200, "{path}");
        let body = text(&response);
        if response.headers()["content-type"].to_str().unwrap().starts_with("text/html") {
            for link in values(&body, "href").chain(values(&body, "src")).chain(values(&body, "action")) {
                let link = link.split('#').next().unwrap();
                match link.chars().next() {
                    None => {}
                    Some('?') => todo.push(format!("{}{link}", path.split('?').next().unwrap())),
                    Some('/') => {
                        assert!(link.starts_with(base), "{link} on {path} leaves {base}");
                        todo.push(link.to_owned());
                    }
                    Some(_) => assert_eq!(link, "data:,", "on {path}"),
                }
            }
            pages.push((path, body));
        }
    }
    pages
}

#[test]
fn every_link_leads_to_a_page_under_either_base() {
    for household in [HOUSEHOLD, QUESTION] {
        let (at_root, below) = (crawl(household, "/"), crawl(household, "/tapmere/"));
        assert!(at_root.len() > 10, "letters, notes and the notice: {}", at_root.len());
        assert_eq!(at_root.len(), below.len());
    }
}

#[test]
fn every_fragment_and_every_label_leads_somewhere() {
    for (path, page) in crawl(HOUSEHOLD, "/") {
        let ids: Vec<&str> = values(&page, "id").collect();
        let unique: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(ids.len(), unique.len(), "an id stands twice on {path}");
        let fragments = values(&page, "href").filter_map(|link| link.split_once('#').map(|(_, id)| id));
        let labels = ["aria-labelledby", "aria-describedby"]
            .into_iter()
            .flat_map(|a| values(&page, a).flat_map(str::split_whitespace));
        for id in fragments.chain(labels) {
            assert!(unique.contains(id), "#{id} on {path}");
        }
    }
}

#[test]
fn pages_are_well_formed() {
    for household in [HOUSEHOLD, QUESTION] {
        for (path, page) in crawl(household, "/") {
            assert!(page.starts_with("<!DOCTYPE html>"), "{path}");
            assert_eq!(page.matches("<h1").count(), 1, "one answer on {path}");
            assert_eq!(page.matches("<main").count(), 1, "{path}");
            balanced(&path, &page);
        }
    }
}

/// Each element is closed in its order; void elements stand alone; a paragraph holds no block.
fn balanced(path: &str, page: &str) {
    const VOID: [&str; 4] = ["meta", "link", "input", "br"];
    const BLOCKS: [&str; 9] = ["p", "div", "ul", "ol", "table", "section", "form", "details", "h2"];
    let mut open: Vec<&str> = Vec::new();
    for tag in page.split('<').skip(1) {
        let name: &str = tag.split(|c: char| c.is_whitespace() || c == '>').next().unwrap();
        if name.starts_with('!') {
            continue;
        }
        if let Some(name) = name.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "on {path} near <{}", &tag[..tag.len().min(60)]);
        } else if !VOID.contains(&name) {
            assert!(!(open.contains(&"p") && BLOCKS.contains(&name)), "{name} in a paragraph on {path}");
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?} on {path}");
}

#[test]
fn no_page_says_what_is_never_said() {
    for household in [HOUSEHOLD, QUESTION] {
        for (path, page) in crawl(household, "/") {
            let body = page.split_once("<body").unwrap().1;
            let words: String =
                body.split('<').filter_map(|tag| tag.split_once('>')).map(|(_, text)| format!(" {text}")).collect();
            let words = words.to_lowercase();
            for never in ["safe", "safely", "gas", "optimal"] {
                let found = words.split(|c: char| !c.is_alphanumeric()).any(|word| word == never);
                assert!(!found, "`{never}` on {path}");
            }
        }
    }
}

#[test]
fn every_control_has_a_name_and_every_drawing_its_words() {
    for household in [HOUSEHOLD, QUESTION] {
        for (path, page) in crawl(household, "/") {
            for tag in ["input", "select"] {
                for control in page.split(&format!("<{tag} ")).skip(1).map(|rest| rest.split('>').next().unwrap()) {
                    let id = control.split_once("id=\"").and_then(|(_, rest)| rest.split('"').next());
                    let labelled = id.is_some_and(|id| page.contains(&format!("<label for=\"{id}\"")));
                    let named = labelled
                        || control.contains("aria-label=")
                        || control.contains("type=\"hidden\"")
                        || control.contains("type=\"checkbox\"")
                        || control.contains("type=\"radio\"");
                    assert!(named, "<{tag} {control}> on {path}");
                }
            }
            for drawing in page.split("<svg").skip(1) {
                let head = drawing.split('>').next().unwrap();
                assert!(head.contains("role=\"img\"") || head.contains("aria-hidden=\"true\""), "{head} on {path}");
            }
            assert!(!page.contains(" style="), "an inline style on {path}: the policy forbids it");
            assert!(!page.contains("<script>"), "an inline script on {path}");
            assert!(!page.contains(" onclick"), "{path}");
        }
    }
}

#[test]
fn help_now_is_the_first_stop_and_the_way_past_the_head_the_second() {
    for (path, page) in crawl(HOUSEHOLD, "/") {
        let stops: Vec<&str> = page.split("<a ").skip(1).take(2).collect();
        assert!(stops[0].contains("help-now"), "{path}");
        assert!(stops[1].contains("href=\"#letter\"") && page.contains("id=\"letter\""), "{path}");
    }
}

#[test]
fn every_response_carries_the_policy_and_no_cookie() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for path in ["/", "/tank/1/salts", "/help-now", "/look.css", "/letter.js", "/nowhere"] {
        let response = door.get(path);
        let heads = response.headers();
        let policy = heads["content-security-policy"].to_str().unwrap();
        for part in [
            "default-src 'none'",
            "style-src 'self'",
            "script-src 'self'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
            "form-action 'self'",
        ] {
            assert!(policy.contains(part), "{part} on {path}");
        }
        assert!(!policy.contains("unsafe"));
        assert_eq!(heads["x-content-type-options"], "nosniff");
        assert_eq!(heads["referrer-policy"], "same-origin");
        assert!(heads.contains_key("cache-control"));
        assert!(!heads.contains_key("set-cookie"));
    }
}

#[test]
fn what_is_asked_wrongly_gets_a_page_in_plain_words() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for path in ["/nowhere", "/tank/2/salts", "/tank/1/weeks", "/look.css/x", "/tank/01/care.ics", "/tank/+1/log.csv"] {
        let response = door.get(path);
        assert_eq!(response.status(), 404, "{path}");
        assert!(text(&response).contains("There is no such page."));
    }
    let response = door.post("/help-now", &[]);
    assert_eq!(response.status(), 405);
    assert_eq!(response.headers()["allow"], "GET, HEAD");
    let response = door.ask(Request::delete("/tank/1/salts").body(Vec::new()).unwrap());
    assert_eq!(response.status(), 405);
    let response = door
        .ask(Request::post("/tank/1/salts").header("content-type", "text/plain").body(b"revision=1".to_vec()).unwrap());
    assert_eq!(response.status(), 415);
    let response = door.ask(Request::head("/tank/1/salts").body(Vec::new()).unwrap());
    assert_eq!((response.status().as_u16(), response.body().len()), (200, 0));
}

#[test]
fn what_the_keeper_typed_is_shown_as_text() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let response = door.post("/tank/1/salts", &[("revision", "1"), ("at_hand.bottle", "<script>alert(1)</script>\"'")]);
    assert_eq!(response.status(), 422);
    assert!(!text(&response).contains("<script>alert"));
    let page = door.page("/tank/1/salts?why=%22%3E%3Cscript%3E&unknown=%3Cb%3E&was=0&older=1");
    assert!(!page.contains("\"><script>"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_request_is_a_panic(
        method in prop::sample::select(vec![Method::GET, Method::POST, Method::HEAD, Method::PUT, Method::OPTIONS]),
        path in prop::sample::select(vec!["/", "/tank/1/salts", "/tank/1/tap", "/tank/1/tank", "/tank/9/tap", "/first", "/help-now", "/x", "//", "/%00"]),
        query in "[a-z=&?%0-9@.#+-]{0,40}",
        body in prop::collection::vec(any::<u8>(), 0..200),
        form in any::<bool>(),
    ) {
        let query = query.replace('#', "");
        let mut request = Request::builder().method(method).uri(format!("{path}?{query}"));
        if form {
            request = request.header("content-type", "application/x-www-form-urlencoded");
        }
        if let Ok(request) = request.body(body) {
            let status = Door::open(QUESTION, "/").ask(request).status().as_u16();
            prop_assert!([200, 303, 404, 405, 409, 415, 422].contains(&status), "{}", status);
        }
    }

    #[test]
    fn no_form_is_a_panic_and_none_leaves_the_setup_unreadable(
        fields in prop::collection::vec((
            prop::sample::select(vec!["habits.change", "habits.every", "at_hand.bottle", "at_hand.daily", "at_hand.bucket", "plants.uptake_nitrate", "reply", "undo", "x"]),
            prop_oneof!["[0-9.,% a-zA-Z=@-]{0,12}", any::<String>()],
        ), 0..5),
    ) {
        let mut door = Door::open(HOUSEHOLD, "/");
        let mut form = vec![("revision", "1")];
        form.extend(fields.iter().map(|(name, value)| (*name, value.as_str())));
        let status = door.post("/tank/1/salts", &form).status().as_u16();
        prop_assert!([303, 422].contains(&status), "{}", status);
        prop_assert_eq!(door.get("/tank/1/salts").status(), 200);
    }
}
