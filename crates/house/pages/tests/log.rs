//! The letter Log: every kind of line, mending in place, what is shown, tables in and out, readings over what was expected.

use crate::common::{Door, HOUSEHOLD, text};
use logbook::{Entry, Filter, Kept, Reading, Sure, What};
use setup::Shelf;

const LOG: &str = "/tank/1/log";

fn all(door: &mut Door) -> Vec<Kept> {
    door.shelf.log(1).unwrap().list(&Filter::default()).unwrap()
}

fn put(door: &mut Door, entries: Vec<Entry>) {
    door.shelf.log(1).unwrap().add(entries).unwrap();
}

fn at(text: &str) -> jiff::ZonedDateTime {
    logbook::moment(text).unwrap()
}

fn words(moment: &str, note: &str) -> Entry {
    Entry { at: at(moment), what: What::Words, note: note.to_owned() }
}

fn read(moment: &str, of: &str, value: f64) -> Entry {
    let reading = Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::Plain };
    Entry { at: at(moment), what: What::Test(reading), note: String::new() }
}

/// Sends a form of the letter; what it leads to.
fn sent(door: &mut Door, fields: &[(&str, &str)]) -> String {
    let fields: Vec<(&str, &str)> = [("revision", "1")].into_iter().chain(fields.iter().copied()).collect();
    door.rewrite(LOG, &fields)
}

/// A line of the letter: its kind, what is filled in, and what it must write.
type Line = (&'static str, &'static [(&'static str, &'static str)], What);

#[test]
fn every_kind_of_line_writes_its_entry() {
    let lines: [Line; 10] = [
        ("dose", &[("amount", "10"), ("what", "Bottle one")], What::Dose { bottle: "Bottle one".into(), ml: 10.0 }),
        ("change", &[("amount", "25,5")], What::Change { litres: 25.5 }),
        ("top_up", &[("amount", "2 L")], What::TopUp { litres: 2.0 }),
        ("food", &[("amount", "0.3")], What::Food { grams: 0.3 }),
        ("trim", &[("amount", "120")], What::Trim { wet_grams: Some(120.0) }),
        ("sight", &[("what", "brown_film")], What::Sight { sight: "brown_film".into() }),
        (
            "animals",
            &[("what", "fish"), ("amount", "-1"), ("counted", "11")],
            What::Animals { who: "fish".into(), change: -1, counted: Some(11) },
        ),
        (
            "bought",
            &[("what", "potassium nitrate"), ("amount", "500 g"), ("price", "5.99")],
            What::Bought { what: "potassium nitrate".into(), amount: Some(500.0), price_minor: Some(599.0) },
        ),
        ("photo", &[("what", "front.jpg")], What::Photo { file: "front.jpg".into() }),
        ("done", &[("what", "glass")], What::Done { act: "glass".into() }),
    ];
    let mut door = Door::open(HOUSEHOLD, "/");
    for (kind, fields, what) in lines {
        let named: Vec<(String, &str)> =
            fields.iter().map(|(name, text)| (format!("log-{kind}-{name}"), *text)).collect();
        let act = format!("add {kind}");
        let mut form: Vec<(&str, &str)> = named.iter().map(|(name, text)| (name.as_str(), *text)).collect();
        form.push(("act", &act));
        let page = sent(&mut door, &form);
        let newest = all(&mut door).into_iter().max_by_key(|kept| kept.id).unwrap();
        assert_eq!(newest.entry.what, what, "{kind}");
        assert!(page.contains("It stands in your log."), "{kind}");
    }
    let form = [
        ("log-test-what", "nitrate"),
        ("log-test-amount", "about 12"),
        ("log-test-kit", "colours"),
        ("log-test-sure", "not_sure"),
        ("log-with-at", "2026-06-10T20:30"),
        ("log-with-note", "in lamplight"),
        ("act", "add test"),
    ];
    let page = sent(&mut door, &form);
    let entry = all(&mut door).into_iter().max_by_key(|kept| kept.id).unwrap().entry;
    assert_eq!(
        (entry.at.to_string().as_str(), entry.note.as_str()),
        ("2026-06-10T20:30:00+00:00[UTC]", "in lamplight")
    );
    assert!(page.contains("nitrate 12\u{a0}mg/L as NO₃, not sure"), "{page}");
}

#[test]
fn what_can_not_be_meant_is_told_beside_its_line_and_stays_typed() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = [
        ("revision", "1"),
        ("log-test-what", "ph"),
        ("log-test-amount", "72"),
        ("log-with-at", "2027-01-01T00:00"),
        ("log-with-note", "early"),
        ("act", "add test"),
    ];
    let response = door.post(LOG, &form);
    let page = text(&response);
    assert_eq!((response.status().as_u16(), all(&mut door).len()), (422, 0));
    assert!(page.contains("pH cannot be 72") && page.contains("is no day of this log"), "both at once: {page}");
    assert!(page.contains("value=\"72\"") && page.contains("value=\"early\""));
    assert!(page.contains("<option value=\"ph\" selected>"));
}

#[test]
fn a_line_is_mended_where_it_stands_and_keeps_what_was_not_touched() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let precise = "2026-06-01T08:30:12.5+05:45[Asia/Kathmandu]";
    put(&mut door, vec![words("2026-06-02T09:00:00Z", "two\nlines"), read(precise, "nitrate", 11.952_038_452)]);
    let page = door.page(&format!("{LOG}?mend=2"));
    assert!(page.contains("value=\"mend 2\"") && page.contains("value=\"11.952038452 mg/L NO3\""), "{page}");
    let shown = [
        ("log-mend-at", "2026-06-01T08:30"),
        ("log-mend-what", "nitrate"),
        ("log-mend-amount", "11.952038452 mg/L NO3"),
        ("log-mend-error", ""),
        ("log-mend-kit", ""),
        ("log-mend-sure", ""),
        ("log-mend-note", ""),
        ("act", "mend 2"),
    ];
    let page = sent(&mut door, &shown);
    assert!(!page.contains("It stands in your log."), "sent back as it came it changes nothing");
    let mut changed = shown;
    changed[4].1 = "colours";
    changed[6].1 = "read twice";
    sent(&mut door, &changed);
    let kept = door.shelf.log(1).unwrap().entry(2).unwrap().unwrap();
    assert_eq!((kept.at.to_string().as_str(), kept.note.as_str()), (precise, "read twice"));
    assert!(matches!(kept.what, What::Test(Reading { value: 11.952_038_452, kit: Some(kit), .. }) if kit == "colours"));
    // A note of two lines stays one when a browser sends it with its own line ends.
    sent(&mut door, &[("log-mend-at", "2026-06-02T09:00"), ("log-mend-note", "two\r\nlines"), ("act", "mend 1")]);
    assert_eq!(door.shelf.log(1).unwrap().last_writing().unwrap().unwrap().number, 2);
    // And back.
    sent(&mut door, &[("act", "undo@2")]);
    assert_eq!(door.shelf.log(1).unwrap().entry(2).unwrap().unwrap().note, "");
}

/// Two windows mend one entry: each changes what its keeper typed over, and nothing else.
#[test]
fn a_line_that_was_mended_elsewhere_keeps_both() {
    let mut door = Door::open(HOUSEHOLD, "/");
    put(&mut door, vec![read("2026-06-02T09:00:00Z", "nitrate", 12.0)]);
    // What both windows sent along: the line as it was shown to them.
    let page = door.page(&format!("{LOG}?mend=1"));
    let field = |name: &str| {
        let from = page.split(&format!("name=\"{name}\" value=\"")).nth(1).unwrap_or_else(|| panic!("{name}"));
        from.split('"').next().unwrap().to_owned()
    };
    let names = ["at", "kind", "what", "amount"].map(|name| format!("log-before-{name}"));
    let before: Vec<(&str, String)> = names.iter().map(|name| (name.as_str(), field(name))).collect();
    let mut mend = |amount: &str, kit: &str, note: &str| {
        let line = [
            ("log-mend-at", "2026-06-02T09:00"),
            ("log-mend-what", "nitrate"),
            ("log-mend-amount", amount),
            ("log-mend-kit", kit),
            ("log-mend-note", note),
            ("act", "mend 1"),
        ];
        let form: Vec<(&str, &str)> = before.iter().map(|(name, text)| (*name, text.as_str())).chain(line).collect();
        sent(&mut door, &form);
        door.shelf.log(1).unwrap().entry(1).unwrap().unwrap()
    };
    mend("12 mg/L NO3", "colours", "by daylight");
    let both = mend("14 mg/L NO3", "", "");
    assert_eq!(both.note, "by daylight");
    assert!(matches!(both.what, What::Test(Reading { value: 14.0, kit: Some(kit), .. }) if kit == "colours"));
}

/// Enter presses the first button of the form, which does what the one line that is filled in says.
#[test]
fn enter_writes_the_line_that_is_filled_in() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let empty = [("log-test-what", ""), ("log-dose-what", ""), ("log-animals-what", "fish"), ("act", "line")];
    let page = sent(&mut door, &empty);
    assert!(all(&mut door).is_empty() && page.contains("<button class=\"off-screen\" name=\"act\" value=\"line\""));
    sent(&mut door, &[&empty[..], &[("log-food-amount", "0.2")]].concat());
    sent(&mut door, &[&empty[..], &[("log-with-note", "quiet")]].concat());
    assert_eq!(all(&mut door).len(), 2);
    let two = [&[("revision", "1")], &empty[..], &[("log-food-amount", "0.2"), ("log-change-amount", "25")]].concat();
    let response = door.post(LOG, &two);
    assert!(text(&response).contains("More than one line is filled in") && text(&response).contains("value=\"25\""));
    sent(&mut door, &[("log-mended", "1"), ("log-mend-amount", "0.3 g"), ("act", "line")]);
    assert_eq!(door.shelf.log(1).unwrap().entry(1).unwrap().unwrap().what, What::Food { grams: 0.3 });
}

#[test]
fn a_line_is_taken_out_and_put_back() {
    let mut door = Door::open(HOUSEHOLD, "/");
    put(&mut door, vec![words("2026-06-02T09:00:00Z", "one"), words("2026-06-03T09:00:00Z", "two")]);
    let page = sent(&mut door, &[("act", "out 1")]);
    assert!(!page.contains(">one<") && page.contains("undo@2"), "{page}");
    sent(&mut door, &[("act", "undo@2")]);
    assert_eq!(all(&mut door).len(), 2);
    let response = door.post(LOG, &[("revision", "1"), ("act", "out 9")]);
    assert!(text(&response).contains("There is no entry 9"));
}

#[test]
fn the_address_says_what_is_shown() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let entries = (1..=9).map(|day| words(&format!("2026-06-0{day}T09:00:00Z"), &format!("note {day}")));
    put(&mut door, entries.chain([read("2026-06-05T10:00:00Z", "ph", 7.1)]).collect());
    let page = door.page(&format!("{LOG}?kind=test"));
    assert!(page.contains("pH 7.1") && !page.contains("note 5"));
    let page = door.page(&format!("{LOG}?words=NOTE+7"));
    assert!(page.contains("note 7") && !page.contains("note 6"));
    let page = door.page(&format!("{LOG}?from=2026-06-08&to=2026-06-08"));
    assert!(page.contains("note 8") && !page.contains("note 7") && !page.contains("note 9"));
    let page = door.page(&format!("{LOG}?show=3"));
    assert!(page.contains("note 7") && !page.contains("note 6") && page.contains("Older ones"));
    // Looking for something leads to such an address; what is done there comes back to it.
    let form = [("revision", "1"), ("log-find-kind", "test"), ("log-find-words", " ph "), ("act", "show")];
    let response = door.post(LOG, &form);
    assert_eq!(response.headers()["location"], "/tank/1/log?kind=test&words=ph");
    let response = door.post(LOG, &[("revision", "1"), ("view", "kind=test&x=%22"), ("act", "out 10")]);
    assert_eq!(response.headers()["location"], "/tank/1/log?kind=test&wrote=2");
}

#[test]
fn the_log_goes_out_as_a_table_and_comes_in_again_once() {
    let mut door = Door::open(HOUSEHOLD, "/");
    put(&mut door, vec![words("2026-06-02T09:00:00Z", "a, \"b\""), read("2026-06-03T09:00:00Z", "nitrate", 12.0)]);
    let response = door.get("/tank/1/log.csv");
    assert_eq!(response.headers()["content-type"], "text/csv; charset=utf-8");
    let table = text(&response);
    assert_eq!(table.lines().count(), 3, "{table}");
    assert_eq!(door.get("/tank/2/log.csv").status(), 404);
    let more = format!("{table}2026-06-04,food,,0.2,g,,,,,,\r\n");
    sent(&mut door, &[("log-table-text", &more), ("act", "table")]);
    assert_eq!(all(&mut door).len(), 3, "only the new one is written");
    let wrong = "at,kind,amount\n2026-06-04,food,much\n2026-16-04,sing,1\n";
    let response = door.post(LOG, &[("revision", "1"), ("log-table-text", wrong), ("act", "table")]);
    let page = text(&response);
    assert_eq!((response.status().as_u16(), all(&mut door).len()), (422, 3));
    for told in ["the table, line 2, character 17", "the table, line 3, character 1", "the table, line 3, character 12"]
    {
        assert!(page.contains(told), "{told}: {page}");
    }
    assert!(page.contains("2026-16-04,sing,1\n</textarea>"), "what was pasted stays");
}

/// The household's plan of the tests: nitrate 4.1 mg/L after a change and 2.0 a week later, likely 0.55 to 1.45 of it.
#[test]
fn readings_stand_over_what_was_expected() {
    let mut door = Door::open(HOUSEHOLD, "/");
    assert!(!door.page(LOG).contains("over what I expected"));
    let change = Entry { at: at("2026-06-01T09:00:00Z"), what: What::Change { litres: 25.0 }, note: String::new() };
    let late = read("2026-06-08T21:00:00Z", "nitrate", 40.0);
    put(
        &mut door,
        vec![read("2026-05-30T09:00:00Z", "nitrate", 3.0), change, read("2026-06-04T21:00:00Z", "nitrate", 4.0), late],
    );
    let page = door.page(LOG);
    assert_eq!(page.matches("class=\"mark\"").count(), 2, "the one before any change has no day: {page}");
    let table = page.split("Readings beside what was expected").nth(1).unwrap().split("</table>").next().unwrap();
    // Half way: (4.1 + 2.0) ÷ 2 = 3.05; likely 0.55 × 3.05 = 1.7 to 1.45 × 3.05 = 4.4. Kits are off by 10 at worst (a strip).
    assert!(table.contains("as\u{a0}expected") && table.contains("more\u{a0}than\u{a0}was\u{a0}likely"), "{table}");
    assert!(table.contains("1.7\u{a0}to\u{a0}4.4"), "{table}");
    assert!(page.contains("Read: 40 on 2026-06-08, 4.0 on 2026-06-04"), "{page}");
}

/// The household's tank holds about 85 L: one and a half times is about 128.
#[test]
fn water_that_the_tank_can_not_hold_is_not_written() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for kind in ["change", "top_up"] {
        let (field, act) = (format!("log-{kind}-amount"), format!("add {kind}"));
        let response = door.post(LOG, &[("revision", "1"), (&field, "800"), ("act", &act)]);
        let page = text(&response);
        assert_eq!((response.status().as_u16(), all(&mut door).len()), (422, 0), "{kind}");
        assert!(page.contains("is more than this tank holds") && page.contains("Is a comma missing?"), "{page}");
    }
    let table = "at,kind,amount,unit\n2026-06-04,change,800,L\n";
    let response = door.post(LOG, &[("revision", "1"), ("log-table-text", table), ("act", "table")]);
    assert!(text(&response).contains("the table, line 2, character 19") && all(&mut door).is_empty());
    sent(&mut door, &[("log-change-amount", "25"), ("act", "add change")]);
    let response = door.post(LOG, &[("revision", "1"), ("view", ""), ("log-mend-amount", "2500"), ("act", "mend 1")]);
    assert!(text(&response).contains("is more than this tank holds"), "{}", text(&response));
    assert_eq!(all(&mut door)[0].entry.what, What::Change { litres: 25.0 });
}

#[test]
fn a_fault_is_said_as_to_a_keeper() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = [("revision", "1"), ("log-test-what", "ph"), ("log-test-amount", "74"), ("act", "add test")];
    let page = text(&door.post(LOG, &form));
    assert!(page.contains("pH cannot be 74") && page.contains("I expected "), "{page}");
    for machine in ["error:", "where:", "field `", "expected:", "hint:", "<p class=\"fault"] {
        assert!(!page.contains(machine), "{machine}: {page}");
    }
}

/// 1 mg/L of each harms in any tap water; 35 °C is over what tanks are kept at, 25 °C is not.
#[test]
fn a_reading_that_harms_leads_to_help_now() {
    for (of, value, to) in [
        ("ammonia_n", 3.0, "ammonia"),
        ("nitrite_n", 1.0, "ammonia"),
        ("temperature", 35.0, "heater-on"),
        ("temperature", 9.0, "heater-dead"),
    ] {
        let mut door = Door::open(HOUSEHOLD, "/");
        put(&mut door, vec![read("2026-06-10T09:00:00Z", of, value)]);
        let page = door.page(LOG);
        assert!(page.contains(&format!("href=\"/tank/1/help-now/{to}\"")), "{of} {value}: {page}");
        assert_eq!(door.get(&format!("/tank/1/help-now/{to}")).status(), 200);
    }
    for (of, value) in [("ammonia_n", 0.0), ("nitrite_n", 0.0), ("temperature", 25.0), ("ph", 7.0)] {
        let mut door = Door::open(HOUSEHOLD, "/");
        put(&mut door, vec![read("2026-06-10T09:00:00Z", of, value)]);
        assert!(!door.page(LOG).contains("href=\"/tank/1/help-now/"), "{of} {value}");
    }
}

#[test]
fn the_log_does_not_count_for_the_letter_and_says_so() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = sent(&mut door, &[("log-animals-what", "fish"), ("log-animals-amount", "-3"), ("act", "add animals")]);
    assert!(
        page.contains("Your letter says 12 fish") && page.contains("href=\"/tank/1/tank\">change it on Tank"),
        "{page}"
    );
    sent(&mut door, &[("log-animals-what", "fish"), ("log-animals-counted", "12"), ("act", "add animals")]);
    assert!(!door.page(LOG).contains("Your letter says"), "the newest agrees");
}

/// Harm rule 10: asked first, and written by a button that holds for just the amount that was asked about.
#[test]
fn what_is_far_from_usual_is_asked_about_before_it_is_written() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let dose = |amount, act| [("log-dose-what", "Bottle one"), ("log-dose-amount", amount), ("act", act)];
    let ask = |door: &mut Door, amount, act| {
        let fields: Vec<(&str, &str)> = [("revision", "1")].into_iter().chain(dose(amount, act)).collect();
        text(&door.post(LOG, &fields))
    };
    let page = ask(&mut door, "60", "add dose");
    assert!(page.contains("Really?") && page.contains("value=\"add dose really 60\""), "{page}");
    assert!(page.contains("value=\"60\""), "what was typed stays");
    assert_eq!(all(&mut door), []);
    ask(&mut door, "61", "add dose really 60");
    assert_eq!(all(&mut door), [], "another amount is asked about anew");
    sent(&mut door, &dose("60", "add dose really 60"));
    assert_eq!(all(&mut door)[0].entry.what, What::Dose { bottle: "Bottle one".to_owned(), ml: 60.0 });
}

/// Harm rule 17.
#[test]
fn a_plant_that_stands_on_a_list_of_weeds_is_told() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = sent(&mut door, &[("log-bought-what", "Water lettuce"), ("act", "add bought")]);
    for told in ["Pistia stratiotes", "ask your local authority", "Never release it"] {
        assert!(page.contains(told), "{told}: {page}");
    }
    let page = door.rewrite("/tank/1/tank", &[("revision", "1"), ("plants.names", "Hydrilla verticillata, java fern")]);
    assert!(page.contains("Hydrilla verticillata (hydrilla) stands on") && page.contains("Never release it"), "{page}");
}

/// Two lines are filled in and the button of one is pressed: the other comes back in its fields, with a word.
#[test]
fn what_was_typed_into_another_line_comes_back() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let two = [
        ("log-food-amount", "0.3"),
        ("log-trim-amount", "120"),
        ("log-with-at", "2026-06-10T08:00"),
        ("log-with-note", "a note"),
        ("act", "add food"),
    ];
    let page = sent(&mut door, &two);
    assert_eq!(all(&mut door).len(), 1);
    assert!(page.contains("What you had filled in beside it is not yet"));
    let field = |name: &str| {
        page.split(&format!("name=\"{name}\" value=\"")).nth(1).unwrap().split('"').next().unwrap().to_owned()
    };
    assert_eq!((field("log-trim-amount"), field("log-food-amount")), ("120".to_owned(), String::new()));
    assert_eq!((field("log-with-at"), field("log-with-note")), ("2026-06-10T08:00".to_owned(), String::new()));
    assert!(page.contains("<details class=\"more\" open"), "its fold is open");
    let page = sent(&mut door, &[("log-trim-amount", "120"), ("act", "add trim")]);
    assert_eq!(all(&mut door).len(), 2);
    assert!(!page.contains("beside it is not yet"));
}
