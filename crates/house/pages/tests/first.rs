//! The first visit: an empty book, four questions, a letter with everything else assumed.

use crate::common::{Door, HOUSEHOLD, text};
use http::Request;
use setup::{Book, MemoryShelf, Shelf};

fn empty(base: &str) -> Door {
    Door::over(MemoryShelf::default(), base)
}

/// Sends the questions back; gives the letter to which that leads.
fn answered(door: &mut Door, replies: &[(&str, &str)]) -> String {
    let response = door.post("/first", replies);
    assert_eq!(response.status(), 303, "{}", text(&response));
    response.headers()["location"].to_str().unwrap().to_owned()
}

#[test]
fn an_empty_book_asks_four_questions_and_shows_no_page_that_is_not_there() {
    for base in ["/", "/tapmere/"] {
        let mut door = empty(base);
        let response = door.get(base);
        assert_eq!(
            (response.status().as_u16(), response.headers()["location"].to_str().unwrap()),
            (303, &*format!("{base}first"))
        );
        let page = door.page(&format!("{base}first"));
        assert_eq!(page.matches("<fieldset").count(), 4);
        assert_eq!(
            page.matches("value=\"unknown\" checked").count(),
            4,
            "I don't know is among the replies, and ticked"
        );
        assert!(!page.contains("/tank/") && page.contains(&format!("href=\"{base}help-now\"")));
        assert!(page.contains(&format!("action=\"{base}first\"")));
        assert_eq!(door.get(&format!("{base}tank/1/salts")).status(), 404);
    }
}

#[test]
fn knowing_nothing_is_enough_for_a_letter_that_says_what_it_assumed() {
    let mut door = empty("/");
    let to = answered(&mut door, &[("tap", "unknown"), ("glass", "unknown"), ("who", "unknown"), ("wish", "unknown")]);
    assert_eq!(to, "/tank/1/salts?first=1");
    assert_eq!(door.setup().text(), "", "nothing is written that nobody said");
    let count = |door: &Door| door.setup().tank().unwrap().assumed.len();
    assert!(door.page(&to).contains(&format!("{} things I assumed", count(&door))));
}

#[test]
fn what_was_not_told_is_listed_by_how_much_it_matters() {
    let mut door = empty("/");
    let glass = [("glass.outer_length", "60"), ("glass.outer_width", "30"), ("glass.outer_height", "36")];
    let to = answered(&mut door, &glass);
    let assumed = door.setup().tank().unwrap().assumed;
    let label = |n: usize| assumed[n].sentence.split(": ").next().unwrap()[1..].to_owned();
    let part = |page: &str, from: &str, to: &str| {
        let rest = page.split_once(from).unwrap().1;
        rest.split(to).next().unwrap().to_owned()
    };
    let told = part(&door.page(&to), "<div class=\"told\"", "</div>");
    assert!((0..3).all(|n| told.contains(&label(n))) && !told.contains(&label(3)), "{told}");
    let list = part(&door.page("/tank/1/tank"), "What I assumed</h2>", "</section>");
    let places: Vec<usize> = (0..10).map(|n| list.find(&label(n)).unwrap()).collect();
    assert!(places.is_sorted(), "{places:?}");
}

#[test]
fn what_was_told_is_taken_and_nothing_else() {
    let mut door = empty("/");
    let replies = [
        ("tanks", "0"),
        ("tap", "numbers"),
        ("tap.hardness", "14,5"),
        ("tap.alkalinity", ""),
        ("unit.hardness", "french"),
        ("tap.nitrate", "14"),
        ("unit.nitrate", "ion"),
        ("country", "gb"),
        ("glass", "this"),
        ("glass.outer_length", "61"),
        ("unit.length", "centimetre"),
        ("who", "these"),
        ("animals.fish", "12"),
        ("wish", "just_enough"),
        ("tank.name", "Upstairs"),
        ("do", "first"),
    ];
    let to = answered(&mut door, &replies);
    let told: Vec<(String, String)> = door.setup().entries().into_iter().collect();
    let expected = [
        ("animals.fish", "12"),
        ("feeding.wish", "just_enough"),
        ("glass.outer_length", "61 cm"),
        ("tank.country", "gb"),
        ("tank.currency", "GBP"),
        ("tank.name", "Upstairs"),
        ("tap.hardness", "14,5 °fH"),
        ("tap.nitrate", "14 mg/L NO3"),
        ("units.hardness", "french"),
        ("units.length", "centimetre"),
        ("units.nitrogen", "ion"),
    ];
    assert_eq!(told, expected.map(|(field, text)| (field.to_owned(), text.to_owned())));
    door.page(&to);
}

#[test]
fn a_nitrate_of_nobody_knows_what_is_asked_about_in_the_letter() {
    let mut door = empty("/");
    let to = answered(&mut door, &[("tap.nitrate", "28")]);
    assert!(door.page(&to).contains("name=\"reply\""), "a question stands on top");
}

#[test]
fn what_is_not_taken_comes_back_with_all_that_was_answered() {
    let mut door = empty("/");
    let replies = [
        ("tap.nitrate", "<b>"),
        ("tap.hardness", "8"),
        ("unit.hardness", "english"),
        ("who", "nobody"),
        ("wish", "plenty"),
    ];
    let response = door.post("/first", &replies);
    assert_eq!(response.status(), 422);
    let page = text(&response);
    assert!(
        page.contains("“&lt;b&gt;” I did not take") && page.contains("aria-describedby=\"about-tap-nitrate\""),
        "{page}"
    );
    for kept in [
        "name=\"tap.hardness\" value=\"8\"",
        "value=\"english\" selected",
        "value=\"numbers\" checked",
        "value=\"nobody\" checked",
        "value=\"plenty\" checked",
    ] {
        assert!(page.contains(kept), "{kept}");
    }
    assert_eq!(door.shelf.tanks().unwrap(), []);
}

#[test]
fn a_form_that_is_sent_twice_makes_one_tank_and_a_new_visit_another() {
    let mut door = empty("/");
    for _ in 0..2 {
        assert_eq!(answered(&mut door, &[("tanks", "0"), ("tap.total_chlorine", "0.7")]), "/tank/1/salts?first=1");
    }
    let page = door.page("/first");
    assert!(page.contains("Another tank.") && page.contains("name=\"tanks\" value=\"1\""));
    assert_eq!(answered(&mut door, &[("tanks", "1"), ("tap.total_chlorine", "0.7")]), "/tank/2/salts?first=1");
    assert_eq!(
        answered(&mut door, &[("tanks", "1"), ("tap.total_chlorine", "0.8")]),
        "/tank/3/salts?first=1",
        "another tab, another tank"
    );
    assert_eq!(door.shelf.tanks().unwrap().len(), 3);
}

#[test]
fn a_later_letter_does_not_say_that_it_is_the_first() {
    let mut door = Door::open(HOUSEHOLD, "/");
    door.rewrite("/tank/1/salts", &[("revision", "1"), ("at_hand.bottle", "500")]);
    assert_eq!(door.book().revision(), 2);
    assert!(!door.page("/tank/1/salts?first=1").contains("first letter"));
}

#[test]
fn only_a_form_of_ours_makes_a_tank() {
    let mut door = empty("/");
    let request = Request::post("/first").header("content-type", "text/plain").body(b"tap.nitrate=7".to_vec()).unwrap();
    assert_eq!(door.ask(request).status(), 415);
    assert_eq!(door.ask(Request::delete("/first").body(Vec::new()).unwrap()).status(), 405);
    assert_eq!(door.shelf.tanks().unwrap(), []);
}

/// Sends the questions back as a browser does that has a field for a file; gives the answer.
fn with_file(door: &mut Door, replies: &[(&str, &str)], name: &str, content: &str) -> http::Response<Vec<u8>> {
    let part =
        |head: &str, content: &str| format!("--q7\r\nContent-Disposition: form-data; {head}\r\n\r\n{content}\r\n");
    let mut body: String = replies.iter().map(|(name, value)| part(&format!("name=\"{name}\""), value)).collect();
    body += &part(&format!("name=\"report\"; filename=\"{name}\""), content);
    body += "--q7--\r\n";
    let request = Request::post("/first").header("content-type", "multipart/form-data; boundary=q7");
    door.ask(request.body(body.into_bytes()).unwrap())
}

const REPORT: &str = "Parameter;Unit;Value\nTotal hardness;°dH;9\nNitrate;mg/L NO3;14\n";

#[test]
fn exclusive_replies_are_radio_buttons_and_the_report_is_a_named_file_of_a_form_that_can_carry_it() {
    let page = empty("/").page("/first");
    assert!(page.contains("enctype=\"multipart/form-data\"") && page.contains("type=\"file\" name=\"report\""));
    for (question, replies) in [("tap", 3), ("glass", 2), ("who", 3), ("wish", 4)] {
        assert_eq!(page.matches(&format!("type=\"radio\" name=\"{question}\"")).count(), replies, "{question}");
    }
    assert!(!page.contains("type=\"checkbox\""));
}

#[test]
fn a_report_that_was_picked_wins_over_a_forgotten_reply_and_its_page_comes_next() {
    let mut door = empty("/");
    let replies = [("tanks", "0"), ("tap", "unknown"), ("glass.outer_length", "61"), ("who", "nobody")];
    for _ in 0..2 {
        let response = with_file(&mut door, &replies, "tap.csv", REPORT);
        assert_eq!(response.status(), 303, "{}", text(&response));
        assert_eq!(response.headers()["location"], "/tank/1/tap/report/1", "sent twice it is one tank and one report");
    }
    assert!(door.page("/tank/1/tap/report/1").contains("value=\"14 mg/L as NO3\""), "shown, to be looked at");
    assert_eq!(door.setup().written("glass.outer_length").as_deref(), Some("61 cm"), "the other replies count too");
    assert_eq!(door.setup().written("tap.nitrate"), None, "nothing is taken before it was looked at");
}

#[test]
fn a_form_without_a_file_is_like_any_other() {
    let mut door = empty("/");
    let response = with_file(&mut door, &[("tanks", "0"), ("tap.nitrate", "14 mg/L NO3")], "", "");
    assert_eq!(response.headers()["location"], "/tank/1/salts?first=1", "{}", text(&response));
    assert_eq!(door.setup().written("tap.nitrate").as_deref(), Some("14 mg/L NO3"));
}

#[test]
fn a_report_that_is_missing_empty_or_unreadable_makes_no_tank_and_is_told_at_its_field() {
    for (name, content, told) in [
        ("", "", "No file was picked."),
        ("tap.csv", "", "The file “tap.csv” is empty."),
        ("tap.csv", "nothing of a water", "I could read no value from tap.csv."),
    ] {
        let mut door = empty("/");
        let response = with_file(&mut door, &[("tanks", "0"), ("tap", "report"), ("who", "nobody")], name, content);
        let page = text(&response);
        assert_eq!(response.status(), 422, "{told}");
        let beside = page.split("id=\"about-report\">").nth(1).unwrap().split("</p>").next().unwrap();
        assert!(beside.contains(told), "{beside}");
        assert!(page.contains("value=\"nobody\" checked") && page.contains("aria-describedby=\"about-report\""));
        assert_eq!(door.shelf.tanks().unwrap(), []);
    }
    // Something else is not taken: the file has to be picked again, and the page says so.
    let mut door = empty("/");
    let response = with_file(&mut door, &[("tanks", "0"), ("glass.outer_length", "a lot")], "tap.csv", REPORT);
    assert!(response.status() == 422 && text(&response).contains("Pick “tap.csv” once more"));
    assert_eq!(door.shelf.tanks().unwrap(), []);
}

/// A tank that runs already is not told to be set up: its log says when it was filled, once, however often the form is sent.
#[test]
fn a_tank_that_runs_already_is_taken_as_running() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let replies = [("tanks", "1"), ("who", "nobody"), ("running", "30"), ("filter", "true"), ("co2", "yes")];
    for _ in 0..2 {
        assert_eq!(door.post("/first", &replies).status(), 303);
    }
    let setup = door.shelf.book(2).unwrap().setup().unwrap().clone();
    assert_eq!(setup.written("care.filter").as_deref(), Some("true"));
    assert_eq!(setup.tank().unwrap().co2_given_mg_per_l.map(|known| (known.low, known.high)), Some((5.0, 20.0)));
    let log = door.shelf.log(2).unwrap().list(&logbook::Filter::default()).unwrap();
    assert_eq!(log.len(), 1);
    // Thirty days before 11 June are 12 May.
    assert_eq!(care::start::filled_on(&log), Some(jiff::civil::date(2026, 5, 12)));
    // Who does not know writes nothing.
    assert_eq!(door.post("/first", &[("tanks", "2"), ("running", "unknown")]).status(), 303);
    assert_eq!(door.shelf.log(3).unwrap().list(&logbook::Filter::default()).unwrap().len(), 0);
}
