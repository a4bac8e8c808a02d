//! Care: acts that one thumb ticks off without script, the way back, the open question, paper and calendar.

use crate::common::{Door, HOUSEHOLD, QUESTION, text};
use logbook::{Filter, What};
use setup::{Book, Shelf};

const CARE: &str = "/tank/1/care";

fn logged(door: &mut Door) -> Vec<What> {
    let kept = door.shelf.log(1).unwrap().list(&Filter::default()).unwrap();
    kept.into_iter().map(|kept| kept.entry.what).collect()
}

fn sent(door: &mut Door, fields: &[(&str, &str)]) -> String {
    let response = door.post(CARE, fields);
    assert_eq!(response.status(), 303, "{}", text(&response));
    response.headers()["location"].to_str().unwrap().to_owned()
}

/// Values of the buttons that tick something off.
fn ticks(page: &str) -> Vec<String> {
    let starts = page.match_indices("value=\"done@").map(|(at, _)| at + 7);
    starts.filter_map(|at| page[at..].split('"').next()).map(str::to_owned).collect()
}

#[test]
fn each_act_is_a_button_that_writes_into_the_log_and_stays_with_its_hour() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(CARE);
    assert!(page.contains("Nothing else today.") && page.contains(">Today<"), "{page}");
    let acts = ticks(&page);
    assert!(acts.contains(&"done@feed".to_owned()), "{acts:?}");
    let to = sent(&mut door, &[("revision", "1"), ("act", "done@feed")]);
    assert!(matches!(logged(&mut door).as_slice(), [What::Food { grams }] if *grams == 0.2));
    let page = door.page(&to);
    assert!(page.contains("act done") && page.contains("done, ") && page.contains("value=\"back@feed\""), "{page}");
    assert_eq!(ticks(&page).len(), acts.len() - 1, "nothing takes its place");
    // Pressed twice it is written once.
    sent(&mut door, &[("revision", "1"), ("act", "done@feed")]);
    assert_eq!(logged(&mut door).len(), 1);
    // And the way back.
    let to = sent(&mut door, &[("revision", "1"), ("act", "back@feed")]);
    assert!(logged(&mut door).is_empty());
    assert_eq!(ticks(&door.page(&to)), acts);
    assert_eq!(door.book().revision(), 1, "the setup was not touched");
}

#[test]
fn an_amount_of_the_keepers_own_is_kept_and_a_shown_one_is_not_rounded() {
    let mut door = Door::open(HOUSEHOLD, "/");
    sent(&mut door, &[("revision", "1"), ("amount_feed", "0.35"), ("act", "done@feed")]);
    assert!(matches!(logged(&mut door).as_slice(), [What::Food { grams }] if *grams == 0.35));
    sent(&mut door, &[("revision", "1"), ("act", "back@feed")]);
    sent(&mut door, &[("revision", "1"), ("amount_feed", "0.2"), ("act", "done@feed")]);
    assert!(matches!(logged(&mut door).as_slice(), [What::Food { grams }] if *grams == 0.2));
    sent(&mut door, &[("revision", "1"), ("act", "back@feed")]);
    // What is no amount is said beside its field, and nothing is written.
    let response = door.post(CARE, &[("revision", "1"), ("amount_feed", "a lot"), ("act", "done@feed")]);
    assert_eq!(response.status(), 422);
    assert!(text(&response).contains("aria-invalid=\"true\""));
    assert!(logged(&mut door).is_empty());
}

/// Enter sends the form's first button: the act whose amount was typed is done, and nothing else.
#[test]
fn enter_in_an_amount_ticks_its_act() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(CARE);
    let first = page.split("<form").nth(1).and_then(|form| form.split("<button").nth(1)).unwrap();
    assert!(first.contains("off-screen") && first.contains("value=\"typed\""), "{first}");
    let fields: Vec<&str> =
        page.match_indices("name=\"amount_").filter_map(|(at, _)| page[at + 6..].split('"').next()).collect();
    assert_eq!(fields, ["amount_feed"], "the only field: Enter in it means its act, typed over or not");
    sent(&mut door, &[("revision", "1"), ("act", "typed"), ("amount_feed", "0.35")]);
    assert!(matches!(logged(&mut door).as_slice(), [What::Food { grams }] if *grams == 0.35));
    // Sent twice it is written once.
    sent(&mut door, &[("revision", "1"), ("act", "typed"), ("amount_feed", "0.35")]);
    assert_eq!(logged(&mut door).len(), 1);
    sent(&mut door, &[("revision", "1"), ("act", "back@feed")]);
    sent(&mut door, &[("revision", "1"), ("act", "typed"), ("amount_feed", "0.2")]);
    assert!(matches!(logged(&mut door).as_slice(), [What::Food { grams }] if *grams == 0.2));
    sent(&mut door, &[("revision", "1"), ("act", "back@feed")]);
    // What can't be meant is refused beside its field, as by the act's own button.
    let response = door.post(CARE, &[("revision", "1"), ("act", "typed"), ("amount_feed", "51")]);
    assert!(response.status() == 422 && text(&response).contains("at most 50"), "{}", text(&response));
    assert!(logged(&mut door).is_empty());
}

#[test]
fn enter_does_not_guess_between_two_acts_and_answers_no_question() {
    // Topping up has a field too, on the days on which it is due.
    let mut door = Door::open(HOUSEHOLD, "/");
    let at = jiff::civil::date(2026, 6, 6).at(8, 0, 0, 0).in_tz("UTC").unwrap();
    let topped = logbook::Entry { at, what: What::TopUp { litres: 1.0 }, note: String::new() };
    door.shelf.log(1).unwrap().add(vec![topped]).unwrap();
    let page = door.page(CARE);
    let fields: Vec<&str> =
        page.match_indices("name=\"amount_").filter_map(|(at, _)| page[at + 6..].split('"').next()).collect();
    if let [one, other, ..] = fields.as_slice() {
        let both = [("revision", "1"), ("act", "typed"), (*one, "0.3"), (*other, "0.4")];
        let response = door.post(CARE, &both);
        assert!(
            response.status() == 422 && text(&response).contains("can’t tell which of the acts"),
            "{}",
            text(&response)
        );
        assert!(text(&response).contains("value=\"0.3\"") && logged(&mut door).len() == 1, "what was typed stays");
        let shown: Vec<String> = fields
            .iter()
            .map(|name| {
                page.split(&format!("name=\"{name}\" value=\"")).nth(1).unwrap().split('"').next().unwrap().to_owned()
            })
            .collect();
        sent(&mut door, &[("revision", "1"), ("act", "typed"), (*one, &shown[0]), (*other, "30")]);
        assert_eq!(logged(&mut door).len(), 2, "the one that was typed over");
    } else {
        panic!("two fields are needed: {fields:?}");
    }
    let mut door = Door::open(QUESTION, "/");
    door.post(CARE, &[("revision", "1"), ("act", "typed"), ("amount_feed", "0.3")]);
    assert!(door.page(CARE).contains("Still open."));
    assert_eq!(door.book().revision(), 1);
}

#[test]
fn what_is_no_act_of_today_writes_nothing() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for act in ["done@", "done@sponge-of-last-year", "back@feed", "done@feed@feed", "undo@99"] {
        sent(&mut door, &[("revision", "1"), ("act", act)]);
        assert!(logged(&mut door).is_empty(), "{act}");
    }
}

#[test]
fn the_day_of_the_change_is_chosen_where_it_stands() {
    let mut door = Door::open(HOUSEHOLD, "/");
    sent(&mut door, &[("revision", "1"), ("care.change_day", "tuesday")]);
    assert_eq!(door.book().setup().unwrap().written("care.change_day").as_deref(), Some("tuesday"));
    assert!(door.page(CARE).contains("The change of Tuesday") || door.page(CARE).contains(">The change<"));
}

#[test]
fn an_open_question_stands_on_top_and_no_headline_hangs_on_it() {
    let mut door = Door::open(QUESTION, "/");
    let page = door.page(CARE);
    let question = page.find("Still open.").unwrap();
    assert!(question < page.find("class=\"acts\"").unwrap_or(usize::MAX));
    assert!(page.contains("If “"), "both outcomes");
    // No calendar is written on one of its answers.
    assert!(!page.contains("care.ics"));
    assert_eq!(door.get("/tank/1/care.ics").status(), 409);
}

/// Under each reply stands a whole change: what goes along with it could be pressed under one, and be another under the other.
#[test]
fn while_a_question_is_open_no_button_stands_twice() {
    let mut door = Door::open(QUESTION, "/");
    let thursday = sent(&mut door, &[("revision", "1"), ("care.change_day", "thursday")]);
    let page = door.page(&thursday);
    assert_eq!(page.matches("Along with it, while the plugs are out").count(), 2, "{page}");
    let names = |of: &str| -> Vec<String> {
        page.match_indices(of).filter_map(|(at, _)| page[at..].split('"').nth(1)).map(str::to_owned).collect()
    };
    for of in ["value=\"done@", "name=\"amount_"] {
        let (all, once) = (names(of), names(of).into_iter().collect::<std::collections::BTreeSet<_>>());
        assert_eq!(all.len(), once.len(), "{all:?}");
    }
    // What is only read has its caution all the same (harm rule 10).
    let doses = page.matches("This evening, bottle two").count();
    let slip = "Should the hand slip";
    assert!(
        doses >= 2 && page.matches(slip).count() >= doses,
        "{doses} doses, {} cautions",
        page.matches(slip).count()
    );
}

#[test]
fn the_calendar_is_a_file_of_this_tank() {
    let mut door = Door::open(HOUSEHOLD, "/tapmere/");
    assert!(door.page("/tapmere/tank/1/care").contains("href=\"/tapmere/tank/1/care.ics\""));
    let response = door.get("/tapmere/tank/1/care.ics");
    assert_eq!(response.status(), 200);
    assert!(response.headers()["content-type"].to_str().unwrap().starts_with("text/calendar"));
    let body = text(&response);
    assert!(body.starts_with("BEGIN:VCALENDAR\r\n") && body.contains("UID:feed-1@"), "{body}");
    assert_eq!(door.get("/tapmere/tank/7/care.ics").status(), 404);
    assert_eq!(door.post("/tapmere/tank/1/care.ics", &[]).status(), 405);
}

#[test]
fn the_sheet_for_the_wall_carries_the_amounts_and_what_to_do_when_fish_gasp() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(CARE);
    let wall = page.split("class=\"wall\"").nth(1).unwrap();
    for words in [
        "Every",
        "plugs out with dry hands, 15",
        "Fish at the surface?",
        "Carbon dioxide off",
        "Air on",
        "no change, air only",
    ] {
        assert!(wall.contains(words), "{words}: {wall}");
    }
    assert!(page.contains("aria-label=\"Changing water\"") && wall.contains("class=\"wall-ticks\""));
}

/// The wall hangs for weeks: the litres that a reading, a pause or a plan's beginning leaves stand on the sheet of the change and not there.
#[test]
fn the_wall_names_no_litres_that_are_for_now() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let at = jiff::civil::date(2026, 6, 11).at(8, 0, 0, 0).in_tz("UTC").unwrap();
    for for_now in [false, true] {
        let page = door.page(CARE).replace('\u{a0}', " ");
        let wall = page.split("class=\"wall\"").nth(1).unwrap();
        assert_eq!(wall.contains("litres, conditioner and salts as Care says that day"), for_now, "{wall}");
        assert_eq!(wall.contains("36.3 L out, as much in"), !for_now, "{wall}");
        assert!(wall.contains("plugs out with dry hands") && wall.contains("plugs back"), "{wall}");
        let entry = logbook::Entry { at: at.clone(), what: reading("alkalinity", 0.2), note: String::new() };
        door.shelf.log(1).unwrap().add(vec![entry]).unwrap();
    }
}

/// A reading of the log.
fn reading(of: &str, value: f64) -> What {
    What::Test(logbook::Reading {
        of: of.to_owned(),
        value,
        below: false,
        error: None,
        kit: None,
        sure: logbook::Sure::default(),
    })
}

#[test]
fn a_reading_that_harms_stands_before_every_act_with_its_page_of_help_now() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let at = jiff::civil::date(2026, 6, 11).at(8, 0, 0, 0).in_tz("UTC").unwrap();
    for what in [reading("nitrite_n", 1.0), reading("temperature", 33.0)] {
        let entry = logbook::Entry { at: at.clone(), what, note: String::new() };
        door.shelf.log(1).unwrap().add(vec![entry]).unwrap();
    }
    let page = door.page(CARE);
    let first_act = page.find("class=\"acts\"").unwrap();
    for words in ["At once:", "href=\"/tank/1/help-now/ammonia\"", "href=\"/tank/1/help-now/heater-on\""] {
        assert!(page.find(words).is_some_and(|at| at < first_act), "{words}: {page}");
        let link = words.strip_prefix("href=\"").map(|link| link.trim_end_matches('"'));
        assert!(link.is_none_or(|link| door.get(link).status() == 200), "{words}");
    }
    assert!(!page.contains("Nothing else today."), "{page}");
}

#[test]
fn an_amount_larger_than_the_tank_is_refused_and_what_was_logged_is_shown() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let response = door.post(CARE, &[("revision", "1"), ("amount_feed", "51"), ("act", "done@feed")]);
    assert_eq!(response.status(), 422);
    assert!(text(&response).contains("at most 50"), "{}", text(&response));
    assert!(logged(&mut door).is_empty());
    sent(&mut door, &[("revision", "1"), ("amount_feed", "0.5"), ("act", "done@feed")]);
    assert!(door.page(CARE).contains("<b>0.5\u{a0}g</b>"), "{}", door.page(CARE));
}

#[test]
fn the_day_of_the_week_is_asked_only_where_changes_go_by_weeks() {
    assert!(Door::open(HOUSEHOLD, "/").page(CARE).contains("Water is changed on a "));
    let other = HOUSEHOLD.replace("every = \"7 days\"", "every = \"5 days\"");
    assert!(!Door::open(&other, "/").page(CARE).contains("Water is changed on a "));
}

#[test]
fn an_empty_tank_without_a_log_is_led_to_the_start() {
    let empty = HOUSEHOLD.replace("fish = 12", "fish = 0").replace("shrimps = 20", "shrimps = 0");
    let page = Door::open(&empty, "/").page(CARE);
    assert!(page.contains("Set the tank up first") && page.contains("class=\"act\" href=\"/tank/1/start\""), "{page}");
    assert!(ticks(&page).is_empty(), "{page}");
}
