//! Whatever a setup can say can be said on a page, whether or not it was said already.

use std::collections::BTreeSet;

use crate::common::{Door, HOUSEHOLD, QUESTION};
use setup::{Setup, fields};

/// The fields of the blanks of all letters.
fn reached(text: &str) -> BTreeSet<String> {
    let mut door = Door::open(text, "/");
    let mut all = BTreeSet::new();
    for letter in ["tap", "tank", "salts"] {
        let page = door.page(&format!("/tank/1/{letter}"));
        let names = page.split(" name=\"").skip(1).filter_map(|rest| rest.split('"').next());
        all.extend(names.filter(|name| setup::field_of(name).is_some()).map(str::to_owned));
    }
    all
}

/// The household with an example in every field that can stand beside its own.
fn full() -> String {
    let mut setup = Setup::read("tank.toml", HOUSEHOLD).unwrap();
    for field in fields() {
        if let Ok(next) = setup.with(&field.path.replace('*', "1"), &field.example) {
            setup = next;
        }
    }
    setup.text().to_owned()
}

#[test]
fn every_field_has_a_blank_on_some_letter_told_or_not() {
    let full = full();
    for text in ["", HOUSEHOLD, QUESTION, &full] {
        let reached = reached(text);
        for field in fields() {
            let path = field.path.replace('*', "1");
            assert!(reached.contains(&path), "{path} of a tank of {} bytes", text.len());
        }
    }
}

/// What is written there is taken, stays to be seen, and goes again.
#[test]
fn what_no_letter_spoke_of_is_told_and_taken_back() {
    for (letter, field, typed, written) in [
        ("tank", "tank.co2", "15", "15 mg/L"),
        ("tank", "care.cylinder_full", "1900", "1900 g"),
        ("tank", "food.per_day", "0.2", "0.2 g a day"),
        ("tap", "tap.zinc", "0.3", "0.3 mg/L Zn"),
        ("tap", "tap.conductivity", "400", "400 µS/cm"),
        ("tap", "low_water.kind", "rain", "rain"),
        ("salts", "wish.ph", "7.0", "7.0"),
        ("salts", "at_hand.products", "potassium nitrate, urea", "potassium nitrate, urea"),
    ] {
        let mut door = Door::open("", "/");
        let path = format!("/tank/1/{letter}");
        door.rewrite(&path, &[("revision", "1"), (field, typed)]);
        assert_eq!(door.setup().written(field).as_deref(), Some(written), "{field}");
        assert!(door.page(&path).contains(&format!("name=\"{field}\"")), "{field} vanishes once it is told");
        door.rewrite(&path, &[("revision", "2"), (field, "")]);
        assert_eq!(door.setup().written(field), None, "{field}");
    }
}

/// Who tops up with water without minerals has such water.
#[test]
fn topping_up_with_another_water_is_taken_at_its_word() {
    let mut door = Door::open("", "/");
    door.rewrite("/tank/1/tank", &[("revision", "1"), ("habits.top_up_with", "low_water")]);
    let tank = door.setup().tank().unwrap();
    assert!(tank.low.is_some() && tank.habits.top_up_with == "low");
}

/// Of an inner and an outer size one may come only when the other went: in one letter both are done.
#[test]
fn an_outer_size_becomes_an_inner_one_in_one_letter() {
    let mut door = Door::open("[glass]\nouter_length = \"80 cm\"\n", "/");
    let form = [("revision", "1"), ("glass.inner_length", "78"), ("glass.outer_length", "")];
    door.rewrite("/tank/1/tank", &form);
    assert_eq!(door.setup().written("glass.inner_length").as_deref(), Some("78 cm"));
    assert_eq!(door.setup().written("glass.outer_length"), None);
}

/// A nervous beginner is not met by a hundred blanks: they are folded, and no paper is spent on them.
#[test]
fn they_are_folded_and_not_printed() {
    let page = Door::open("", "/").page("/tank/1/tap");
    let verse = page.split("What else you can tell me").nth(1).unwrap();
    assert!(page.contains("<section class=\"verse on-screen\"><h2>What else you can tell me"));
    assert!(
        verse.contains("<details class=\"more\"><summary>")
            && !verse.split("</section>").next().unwrap().contains("<details class=\"more\" open")
    );
}
