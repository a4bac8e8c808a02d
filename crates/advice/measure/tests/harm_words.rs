//! What measuring must say, by number of the rule: take a sentence out, and its rule fails here.

use crate::common::{self, tank, worked};
use measure::{Name, Readings, brief, most_grams};

fn said(says: &[String], phrases: &[&str]) {
    let text = says.join(" ").replace('\u{a0}', " ");
    for phrase in phrases {
        assert!(text.contains(phrase), "no longer said: {phrase}\n{text}");
    }
}

fn of(text: &str) -> setup::Tank {
    setup::Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}")).tank().unwrap()
}

#[test]
fn rules_6_and_18_a_cooling_that_was_too_fast_ends_now() {
    let typed = [("start", "25"), ("end", "22"), ("hours", "8"), ("room", "16"), ("pump", "0")];
    let found = worked(Name::Cooling, &tank(""), &typed).unwrap();
    said(
        &found.says,
        &[
            "that is too much with animals in it (At most 1 °C an hour. At most 2 °C a day.). Heater’s plug in now, warm no faster than it fell;",
        ],
    );
    let small = of(
        "[glass]\ninner_length = \"20 cm\"\ninner_width = \"20 cm\"\ninner_height = \"20 cm\"\n[animals]\nfish = 1\n",
    );
    let readings = Readings::read(Name::Cooling, [("start", "26"), ("room", "10")], &small.units).unwrap();
    said(
        &brief(Name::Cooling, &small, &readings),
        &[
            "It may cool faster than 1 °C an hour: with animals in it take the way by the heater’s plug, and not this one.",
        ],
    );
    let gentle = [("start", "25"), ("end", "24"), ("hours", "3"), ("room", "16"), ("pump", "0")];
    said(
        &worked(Name::Cooling, &tank(""), &gentle).unwrap().says,
        &["A heater is sized by the high end, and looked at for the day it sticks by the low one."],
    );
}

#[test]
fn rule_6_the_salt_names_what_limits_it_and_counts_the_least_water() {
    let tank = tank("[measured]\nlitres = \"90 to 110 L\"\n");
    for (salt, before, says) in [
        ("kitchen_salt", 420.0, "At most a tenth of the conductivity a day."),
        ("potassium_nitrate", 900.0, "At most 10 mg/L of nitrate (as NO3) a day."),
        ("potassium_sulfate", 900.0, "At most 10 mg/L of potassium a day."),
        ("magnesium_sulfate", 900.0, "At most 1 German degree of hardness a day."),
    ] {
        assert_eq!(most_grams(&tank, salt, before).unwrap().limited_by, says, "{salt}");
    }
    let none = Readings::default();
    said(
        &brief(Name::Litres, &tank, &none),
        &["Read the conductivity first and write it here: then I say how much salt, and no more than that."],
    );
    let readings = Readings::read(Name::Litres, [("salt", "kitchen_salt"), ("before", "420")], &tank.units).unwrap();
    said(
        &brief(Name::Litres, &tank, &readings),
        &[
            "once. In the least water that your tank may hold, 90 L,",
            "At most a tenth of the conductivity a day.",
            "Not in the week after new animals came in, and not on the day of a change: one strain at a time.",
        ],
    );
}

#[test]
fn rules_6_7_and_15_what_a_clay_would_do_to_a_tank() {
    let bed = of(&common::HUNDRED.replace("\"0 cm\"", "\"5 cm\""));
    let found = |more: &[(&str, &str)]| {
        let typed = [&[("vinegar", "none"), ("grams", "100"), ("litres", "1")], more].concat();
        worked(Name::Clay, &bed, &typed).unwrap().says
    };
    said(
        &found(&[("rubbed", "mud")]),
        &[
            "It turns to mud: not into a tank, whatever else it does.",
            "Ammonia was not tested: until it was, count on it.",
        ],
    );
    said(
        &found(&[("rubbed", "soft")]),
        &["it will crumble to dust within a year or two, and clog. Only under sand, or not at all."],
    );
    said(
        &found(&[("rubbed", "firm"), ("ammonia", "1")]),
        &[
            "and go on. The toxic share of ammonia stays under 0.016 mg/L (as N), before and after. No animal, snails included, before the start test is passed twice. Soak it in buckets, with the water poured away every other day, until the test shows nothing.",
        ],
    );
    said(
        &found(&[("rubbed", "firm"), ("alkalinity_before", "8 °dH"), ("alkalinity_after", "4 °dH")]),
        &[
            "and again after each change until it is loaded. With animals at most 0.36 meq/L (1 German degree) of alkalinity a day. So load it in buckets of tap water first",
        ],
    );
    said(
        &found(&[("rubbed", "firm"), ("conductivity_before", "400"), ("conductivity_after", "600")]),
        &[
            "Salts wash out of it (conductivity up by 50 %): rinse until the water over it stands still. At most a tenth of the conductivity a day.",
        ],
    );
}

#[test]
fn rule_13_little_oxygen_in_the_morning_is_told_at_once() {
    let typed = [("start", "7"), ("end", "4.5"), ("hours", "3"), ("rest", "2.5"), ("water", "25")];
    let found = worked(Name::Oxygen, &tank(""), &typed);
    let says = found.unwrap_or_else(|fault| panic!("{fault}")).says;
    said(&says, &["In the morning you read 2.5 mg/L.", "Let the surface move more at once, or give air."]);
}
