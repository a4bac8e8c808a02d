//! The house behind the door, without the socket: odd paths find no page, and a change stays in memory.

use std::thread;
use std::time::Duration;

use app::{clock, files, house};
use book::SqliteBook;
use http::{Request, Response, header};
use setup::MemoryShelf;

fn get(answer: &app::socket::Answer, path: &str) -> Response<Vec<u8>> {
    answer.answer(Request::get(path).body(Vec::new()).unwrap()).map(Into::into)
}

#[test]
fn odd_paths_find_no_page_and_lead_nowhere() {
    let house = house::open(MemoryShelf::of(files::demo().unwrap()));
    for path in [
        "/../../etc/passwd",
        "/%2e%2e/%2e%2e/etc/passwd",
        "//stranger.example/",
        "/tank/1/../../../etc/passwd",
        "/tank/1/%2e%2e/tap",
        "/tank//1/tap",
        "/tank/1/tap/",
        "/tank/2/tap",
        "/tank/%00/tap",
        "/help-now%0d%0aSet-Cookie:a=b",
        "/look.css/..%2f..%2f",
    ] {
        let response = get(&house, path);
        assert_eq!(response.status(), 404, "{path}");
        assert!(response.headers().get(header::LOCATION).is_none(), "{path}");
        assert!(!String::from_utf8_lossy(response.body()).contains("stranger.example"), "{path} is echoed");
    }
}

#[test]
fn what_concerns_no_tank_is_answered_without_the_book() {
    let house = house::open(MemoryShelf::of(files::demo().unwrap()));
    for path in ["/help-now", "/look.css", "/letter.js"] {
        assert_eq!(get(&house, path).status(), 200, "{path}");
    }
    assert_eq!(get(&house, "/").status(), 303);
}

#[test]
fn a_change_is_seen_by_the_next_reader_and_forgotten_with_the_house() {
    let house = house::open(MemoryShelf::of(files::demo().unwrap()));
    let chloride = |house: &app::socket::Answer, value: &str| {
        let page = String::from_utf8(get(house, "/tank/1/tap").into_body()).unwrap();
        page.contains(&format!("name=\"tap.chloride\" value=\"{value}\""))
    };
    assert!(chloride(&house, "30"));
    let request = Request::post("/tank/1/tap")
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(b"do=rewrite&revision=1&tap.chloride=31".to_vec());
    assert_eq!(house.answer(request.unwrap()).status(), 303);
    assert!(chloride(&house, "31"));
    assert!(chloride(&house::open(MemoryShelf::of(files::demo().unwrap())), "30"));
}

#[test]
fn without_a_glass_salts_asks_for_it_and_the_other_letters_open() {
    let house = house::open(MemoryShelf::of(setup::Setup::read("tank.toml", "").unwrap()));
    let page = |path: &str| {
        let response = get(&house, path);
        assert_eq!(response.status(), 200, "{path}");
        String::from_utf8(response.body().clone()).unwrap()
    };
    let salts = page("/tank/1/salts");
    let salts = salts.split("What else you can tell me").next().unwrap_or_default();
    assert!(salts.contains("Tell me your glass first") && salts.contains("name=\"glass.inner_height\""), "no ask");
    assert!(!salts.contains("Weigh") && !salts.contains("\u{a0}g<"), "a gram for a glass that nobody told");
    assert!(page("/tank/1/tank").contains("name=\"glass.inner_length\""));
    assert!(page("/tank/1/tap").contains("How large is your glass?"));
}

/// Counted, not timed: whoever follows a change, or goes on from there, waits for nothing and no page is written for him.
#[test]
fn the_pages_behind_a_change_are_written_before_they_are_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = SqliteBook::create(&folder.path().join("book.tapmere")).unwrap();
    book.add_tank(files::demo().unwrap(), &clock::stamp().unwrap()).unwrap();
    let house = house::open(house::Kept(book));
    let at_hand = |path: &str| house.at_once(&Request::get(path).body(()).unwrap().into_parts().0);
    let change = |revision: u64, chloride: u64| {
        let form = format!("do=rewrite&revision={revision}&tap.chloride={chloride}").into_bytes();
        let kind = "application/x-www-form-urlencoded";
        let sent = house.answer(Request::post("/tank/1/tap").header(header::CONTENT_TYPE, kind).body(form).unwrap());
        sent.headers()[header::LOCATION].to_str().unwrap().to_owned()
    };
    // Where a minute ends meanwhile nothing of it is at hand: then once more.
    for (revision, chloride) in (1..4).zip(31..) {
        let next = change(revision, chloride);
        for _ in 0..400 {
            let beside = ["care", "tap", "salts", "tank", "log"].map(|key| at_hand(&format!("/tank/1/{key}")));
            if let (Some(page), true) = (at_hand(&next), beside.iter().all(Option::is_some)) {
                let text = String::from_utf8(page.into_body().to_vec()).unwrap();
                assert!(text.contains(&format!("name=\"tap.chloride\" value=\"{chloride}\"")));
                return;
            }
            thread::sleep(Duration::from_millis(50));
        }
    }
    panic!("nobody wrote them");
}
