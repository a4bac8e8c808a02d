//! `tapmere care` as a keeper types it: today, the week, JSON, the calendar, an open question.

use std::process::Command;

use serde_json::Value;

const DEMO: &str = "examples/household/tank.toml";
const QUESTION: &str = "examples/household/tank-question.toml";
/// A Saturday.
const AT: &str = "2026-06-13T08:30[Europe/London]";

fn said(arguments: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_tapmere"))
        .args(arguments)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."))
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

#[test]
fn today_has_its_acts_and_the_change_where_it_is_due() {
    let (code, out, err) = said(&["care", "today", DEMO, "--at", AT]);
    assert_eq!((code, err.as_str()), (0, ""));
    for words in
        ["Saturday, 13 June", "[ ] Feed: 0.2 g", "[ ] Change water: 36.3 L", "Nothing else today.", "plugs out"]
    {
        assert!(out.contains(words), "{words}: {out}");
    }
    let (_, week, _) = said(&["care", "week", DEMO, "--at", AT]);
    assert!(week.starts_with(out.trim_end()) && week.contains("This week") && week.contains("What runs out"), "{week}");
}

#[test]
fn json_holds_the_day() {
    let (code, out, _) = said(&["care", "week", DEMO, "--at", AT, "--json"]);
    let day: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &day["state"]), (0, &Value::from("settled")));
    let day = &day["day"];
    assert_eq!((&day["date"], &day["kind"]), (&Value::from("2026-06-13"), &Value::from("daily")));
    assert_eq!(day["week"].as_array().unwrap().len(), 6);
    assert!(
        day["today"]
            .as_array()
            .unwrap()
            .iter()
            .any(|act| act["key"] == "change" && act["writes"][0]["kind"] == "change")
    );
}

#[test]
fn while_a_question_is_open_nothing_is_settled_and_no_calendar_is_written() {
    let (code, out, _) = said(&["care", "today", QUESTION, "--at", AT]);
    assert!(code == 1 && out.starts_with("One question first"), "{out}");
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("care.ics");
    let (code, _, err) = said(&["care", "week", QUESTION, "--calendar", file.to_str().unwrap()]);
    assert!(code == 1 && err.contains("a question is still open") && !file.exists(), "{err}");
}

#[test]
fn the_calendar_goes_into_a_new_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("care.ics");
    let arguments = ["care", "week", DEMO, "--at", AT, "--calendar", file.to_str().unwrap()];
    assert_eq!(said(&arguments).0, 0);
    let text = std::fs::read_to_string(&file).unwrap();
    assert!(
        text.contains("TZID:Europe/London\r\n") && text.contains("DTSTART;TZID=Europe/London:20260613T100000"),
        "{text}"
    );
    // What stands there already is left alone.
    let (code, _, err) = said(&arguments);
    assert!(code == 1 && err.contains("nothing was written"), "{err}");
}

#[test]
fn what_can_not_be_read_is_told() {
    let (code, _, err) = said(&["care", "today", DEMO, "--at", "next week"]);
    assert!(code == 1 && err.contains("is no moment"), "{err}");
    let (code, _, err) = said(&["care", "today", "no-such-file.toml"]);
    assert!(code == 1 && err.contains("no-such-file.toml"), "{err}");
}

#[test]
fn a_reading_that_harms_stands_before_the_acts_and_nothing_closes_the_day() {
    use book::{SqliteBook, Stamp};
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let text = include_str!("../../../../examples/household/tank.toml");
    let mut book = SqliteBook::create(&path).unwrap();
    let stamp = Stamp::read("2026-06-11T08:30:00Z").unwrap();
    book.add_tank(setup::Setup::read("tank.toml", text).unwrap(), &stamp).unwrap();
    drop(book);
    let file = path.to_str().unwrap();
    let wrote = said(&["log", "add", "test", "nitrite_n", "1 mg/L N", "--at", "2026-06-13T07:00Z", "--book", file]);
    assert_eq!(wrote.0, 0, "{wrote:?}");
    let (_, out, _) = said(&["care", "today", file, "--at", AT]);
    let before = out.find("At once").zip(out.find("[ ] Feed")).is_some_and(|(alarm, act)| alarm < act);
    assert!(before && out.contains("tapmere help-now ammonia") && !out.contains("Nothing else today"), "{out}");
    let (_, out, _) = said(&["care", "today", file, "--at", AT, "--json"]);
    let day: Value = serde_json::from_str(&out).unwrap();
    let alarm = &day["day"]["alarms"][0];
    assert_eq!((&alarm["of"], &alarm["urgency"]), (&Value::from("nitrite_n"), &Value::from("at_once")));
}
