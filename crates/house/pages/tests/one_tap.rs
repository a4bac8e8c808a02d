//! One tap for several tanks: asked on the first visit, said on Tap, changed in one letter and seen in the other.

use crate::common::{Door, HOUSEHOLD};
use setup::{Book, MemoryShelf, Setup, Shelf};

fn written(door: &Door, tank: u64, field: &str) -> Option<String> {
    door.shelf.book(tank).unwrap().setup().unwrap().written(field)
}

#[test]
fn a_second_tank_has_the_tap_of_the_first_if_the_keeper_says_so() {
    let mut door = Door::open(HOUSEHOLD, "/");
    assert!(!door.page("/tank/1/tap").contains("Whose tap"), "with one tank there is nothing to share");
    let first = door.page("/first");
    assert!(first.contains("value=\"same\"") && first.contains("the one that fills “The tank in the hall”"));
    let replies =
        [("tanks", "1"), ("tap", "same"), ("same", "1"), ("glass", "unknown"), ("who", "nobody"), ("wish", "unknown")];
    for sent in ["once", "once more"] {
        assert_eq!(door.post("/first", &replies).status(), 303, "{sent}");
    }
    assert!(door.shelf.book(3).is_none(), "the same form twice makes one tank");
    assert_eq!(written(&door, 2, "tap.nitrate"), written(&door, 1, "tap.nitrate"));
    assert_eq!(written(&door, 2, "animals.fish").as_deref(), Some("0"), "the tap and nothing else");

    let tap = door.page("/tank/2/tap");
    assert!(tap.contains("The same water runs into <a href=\"/tank/1/tap\">The tank in the hall</a>"), "{tap}");
    door.rewrite("/tank/2/tap", &[("revision", "1"), ("tap.chloride", "44")]);
    assert_eq!(written(&door, 1, "tap.chloride").as_deref(), Some("44 mg/L Cl"));

    // Another name, and it has a tap of its own.
    door.rewrite("/tank/2/tap", &[("revision", "2"), ("tap.name", "the well")]);
    door.rewrite("/tank/2/tap", &[("revision", "3"), ("tap.chloride", "7")]);
    assert_eq!(written(&door, 1, "tap.chloride").as_deref(), Some("44 mg/L Cl"));
    let first = door.page("/first");
    assert!(first.contains("the one that I call “the well”") && first.contains("“tap of The tank in the hall”"));
}

/// With ten tanks of taps of their own the choice is one line still, and the other answers stay on the first screen.
#[test]
fn many_taps_are_one_line_of_the_first_visit() {
    let mut shelf = MemoryShelf::of(Setup::read("tank.toml", HOUSEHOLD).unwrap());
    for number in 2..=10 {
        shelf.add(Setup::read("tank.toml", &format!("[tank]\nname = \"Number {number}\"\n")).unwrap()).unwrap();
    }
    let first = Door::over(shelf, "/").page("/first");
    let tap = first.split("id=\"tap\"").nth(1).unwrap().split("</fieldset>").next().unwrap();
    assert_eq!(tap.matches("type=\"radio\"").count(), 4, "same, report, numbers, unknown");
    assert_eq!(tap.matches("the one that fills").count(), 10);
}
