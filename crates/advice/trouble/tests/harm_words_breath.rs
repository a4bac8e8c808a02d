//! What the sums of Help now must say of breath, rooms, heaters, nitrite and nitrate, by number of the rule: as `harm_words`.

use crate::common::{read, sum, with_log, words};
use crate::harm_words::{NO_AMMONIUM, OLD, said};
use trouble::CHANGE_MOST;

#[test]
fn rule_13_breath_without_power() {
    said(
        "power-cut",
        &[],
        &[],
        "oxygen-hours",
        &[
            "at worst it runs low after 3 hours",
            "Begin to move the water before 3 hours are over: a battery air pump, or a jug for five minutes in every half hour.",
            "Harm starts at about 3 mg/L of oxygen for grown fish, 5 for young. Fish at the surface: begin at once, whatever the sum says.",
        ],
    );
    said("power-cut", &[("animals.fish", "400")], &[], "oxygen-hours", &["Begin to move the water at once:"]);
    said(
        "power-cut",
        &[("animals.fish", "50")],
        &[],
        "oxygen-hours",
        &["Begin to move the water before an hour is over:"],
    );
    said(
        "power-cut",
        &[("animals.fish", "0"), ("animals.shrimps", "20")],
        &[],
        "oxygen-hours",
        &[
            "harm starts at about 3 to 5 mg/L of oxygen; for what lives here nobody told me a number, so the upper end counts.",
        ],
    );
    said(
        "power-cut",
        &[("care.filter", "false")],
        &[],
        "oxygen-hours",
        &[
            "Dark for longer than a night? Fish at the surface? Dip up water with a jug and let it fall back, five minutes in every half hour.",
        ],
    );
}

#[test]
fn rules_12_13_and_14_carbon_dioxide_goes_off_at_its_number_and_at_fast_breathing() {
    let alkalinity = ("alkalinity", "2.8 meq/L");
    said(
        "carbon-dioxide",
        &[],
        &[("ph", "6.4"), alkalinity],
        "carbon-dioxide",
        &[
            "Off now, air on: above 30 mg/L fish are in stress, above 50 to 60 in danger, and the upper end counts.",
            "Their breathing goes before every reading.",
            "humic acids and phosphate make the reading too high or too low",
        ],
    );
    said(
        "carbon-dioxide",
        &[],
        &[("ph", "7.4"), alkalinity],
        "carbon-dioxide",
        &[
            "Its upper end is under 30 mg/L, above which fish are in stress. They breathe fast all the same? Off, and look for another cause.",
        ],
    );
    said(
        "carbon-dioxide",
        &[("tank.co2", "15 mg/L")],
        &[],
        "carbon-dioxide",
        &[
            "Above 30 mg/L fish are in stress, above 50 to 60 in danger, and a valve that slipped gives any amount: fast breathing counts before every figure. Off now, air on.",
            "Read pH and alkalinity in this minute, before it is aired off",
        ],
    );
    said(
        "cylinder",
        &[("care.cylinder_full", "1900 g"), ("care.cylinder_holds", "900 g")],
        &[],
        "cylinder-room",
        &[
            "All of your cylinder needs a room of 50 m³ or more",
            "which is where it must not stand in a smaller closed room: move it before it is used again.",
            "Carbon dioxide is heavier than air and gathers at the floor;",
        ],
    );
}

#[test]
fn nitrite_says_what_it_does_and_what_is_tested_first() {
    said(
        "ammonia",
        &[OLD, NO_AMMONIUM],
        &[("ammonia", "4 mg/L N"), ("ph", "8"), ("nitrite", "1 mg/L N")],
        "nitrite",
        &[
            "it harms now",
            "No food. Blood that carries nitrite carries less oxygen: watch how they breathe.",
            "as warm as the tank, with conditioner. Test ammonia first: with harder water it gets more toxic.",
        ],
    );
    said(
        "ammonia",
        &[],
        &[("nitrite", "0.3 mg/L N")],
        "nitrite",
        &[
            "it harms if it stays for days",
            "No food, air on: blood that carries nitrite carries less oxygen.",
            "harm starts at 0.2 mg/L (as N) over days, at 0.6 at any time",
        ],
    );
    said(
        "ammonia",
        &[],
        &[("nitrite", "0.05 mg/L N")],
        "nitrite",
        &["no harm is known below that", "Little food, test again tomorrow."],
    );
    // A kit's figure without its basis is taken as the bad end.
    said(
        "ammonia",
        &[],
        &[("nitrite", "0.3")],
        "nitrite",
        &["You did not say how your kit counts: taken as N, the bad end."],
    );
}

#[test]
fn rule_16_nitrate_names_its_mark_for_whoever_lives_there() {
    let shrimps = [("tap.nitrate", "45 mg/L NO3"), ("animals.shrimps", "9")];
    said(
        "nitrate",
        &shrimps,
        &[("nitrate", "80 mg/L NO3")],
        "nitrate",
        &[
            "its nitrate stays behind: 0.23 mg/L NO3 a day. Top up with water of low minerals or clean rain.",
            "What helps: plants that grow fast, with the trimmings taken out; less food; no nitrate from a bottle.",
            "in steps of at most 10 % of the conductivity a day",
            "Harm for shrimps, snails and young starts at 13 mg/L NO3 over long times at the strictest",
        ],
    );
    said(
        "nitrate",
        &[("tap.nitrate", "30 mg/L NO3")],
        &[("nitrate", "200 mg/L NO3")],
        "nitrate",
        &[
            "a day, conditioner in it and as warm as the tank. The first leaves 150 mg/L NO3. No larger one, for salts and pH move with it; test ammonia before each.",
            "Harm for grown fish starts at 50 mg/L NO3 over long times at the strictest, and 50 mg/L NO3 is the most in common practice.",
        ],
    );
}

#[test]
fn rule_18_a_heater_that_sticks_on_and_water_that_is_too_warm() {
    let watts = [("heater.watts", "200 W")];
    said(
        "heater-on",
        &watts,
        &[("temperature", "37 °C")],
        "too-warm",
        &["here fish die: every minute counts", "Air on, lid off:"],
    );
    said(
        "heater-on",
        &watts,
        &[],
        "heater-stuck",
        &[
            "Stuck on, one heater brings the water to as much as 50 °C or more",
            "From about 28 °C to 30 °C on fish of warm tanks are harmed: smaller heaters, two rather than one.",
            "two of half the watts, each with its own thermostat",
        ],
    );
    said("heater-on", &[], &[], "heater-stuck", &["Tell me the watts of yours: they stand on its glass."]);
}

#[test]
fn rules_5_and_24_a_leak_into_buckets() {
    said(
        "leak",
        &[],
        &[],
        "leak",
        &["at most 10 L to carry, and never the filled tank. Lids half on: a child can drown in one."],
    );
}

#[test]
fn what_was_read_days_ago_counts_and_is_read_anew_first() {
    let log = [(120.0, read("ammonia_n", 2.0)), (120.0, read("ph", 8.2))];
    let worked = with_log("ammonia", &[], &[], &log);
    let (first, toxic) = (words(sum(&worked, CHANGE_MOST)), words(sum(&worked, "toxic-ammonia")));
    assert!(
        first.contains(
            "What harms was read 5 days ago: test ammonia and pH now, and the new reading says how much may be changed."
        ),
        "{first}"
    );
    assert!(toxic.contains("read ammonia and pH anew now, before anything else. Until then it counts."), "{toxic}");
    assert!(toxic.contains("No change with this water until the new test, which says how much; harm starts at 0.016. Do animals gasp or lie meanwhile: water of low minerals"), "{toxic}");
}
