//! What the sums of Help now must say of a tank, by number of the rule: take a sentence out of the code, and its rule fails here.

use crate::common::{sum, words, work};
use trouble::CHANGE_MOST;

pub(crate) type Pairs<'a> = &'a [(&'a str, &'a str)];

/// Each phrase stands in a sum of the trouble.
pub(crate) fn said(trouble: &str, fields: Pairs, readings: Pairs, key: &str, phrases: &[&str]) {
    let worked = work(trouble, fields, readings);
    // A trouble may have a sum for each bottle: all of them count.
    let all: Vec<String> =
        worked.sums.iter().filter(|sum| sum.key == key).map(|sum| words(sum).replace('\u{a0}', " ")).collect();
    for phrase in phrases {
        assert!(all.iter().any(|text| text.contains(phrase)), "{trouble}, {key} no longer says: {phrase}\n{all:#?}");
    }
}

pub(crate) const OLD: (&str, &str) = ("animals.unchanged_months", "8");
pub(crate) const NO_AMMONIUM: (&str, &str) = ("tap.ammonium", "0 mg/L NH4");
const HARD: [(&str, &str); 3] = [("tap.alkalinity", "6 meq/L"), ("tap.ph", "8.4"), ("tap.calcium", "120 mg/L")];
const RICH: [(&str, &str); 2] = [("feeding.wish", "plenty"), ("light.energy", "high")];
const CHLORAMINE: [(&str, &str); 4] =
    [("tap.disinfectant", "chloramine"), ("tap.total_chlorine", "2 mg/L"), ("tap.ph", "8.2"), ("animals.shrimps", "5")];

#[test]
fn rules_6_and_19_new_water_by_its_warmth_and_by_its_salts() {
    said(
        "gasping",
        &[],
        &[("new_temperature", "8 °C")],
        "new-water-temperature",
        &[
            "too sudden",
            "more than 1 °C in an hour or 2 °C in a day is too much. Don’t pour it so.",
            "As it is: at most 11.8 L at once in place of as much tank water, and the next when the tank is as warm as before; at most 2 °C in a day all together",
        ],
    );
    said(
        "gasping",
        &HARD,
        &[("alkalinity", "1 meq/L")],
        "half-change",
        &[
            "in a day with this water, because of alkalinity",
            "A tank that was kept for long in other water must not be thrown into this one.",
            "Where ammonia shows, whatever raises pH makes it more toxic (harm starts at 0.016 mg/L of toxic ammonia, as N): test before and after.",
        ],
    );
    said(
        "gasping",
        &HARD,
        &[("alkalinity", "1 meq/L")],
        CHANGE_MOST,
        &["more would move alkalinity too far for a day"],
    );
    said(
        "alkalinity",
        &HARD,
        &[("alkalinity", "0.1 meq/L")],
        "alkalinity",
        &[
            "a day, conditioner in it and as warm as the tank: each raises alkalinity by no more than 1 °dKH (0.36 meq/L), the most that animals bear in a day.",
        ],
    );
    for trouble in ["power-cut", "heater-dead"] {
        let warm =
            ["the blanket goes round before that. Warming it up again: at most 1 °C in an hour and 2 °C in a day."];
        said(trouble, &[], &[], "warmth-hours", &warm);
    }
}

#[test]
fn rule_3_what_a_tap_may_bring_is_tested_in_a_bucket_and_until_then_the_first_line_holds() {
    said(
        "gasping",
        &CHLORAMINE,
        &[],
        CHANGE_MOST,
        &[
            "at a time with this tap, again after 24 hours at the earliest",
            "up to 50 %, 100 L at once, as warm as the tank; at that or more, or until you know, no more than the first line says.",
            "This holds in place of the notice’s share:",
            "Conditioner, the stock that Salts gives: 3.5 mL for each bucket of 7.62 L",
            "stirred, 5 minutes before it is poured, since chlorine hurts gills from about 0.02 mg/L on. One that you bought: as its label says.",
        ],
    );
    said(
        "ammonia",
        &[NO_AMMONIUM],
        &[("ammonia", "1 mg/L N"), ("ph", "8")],
        CHANGE_MOST,
        &[
            "again some hours later, with a test before",
            "No more at once than the first line says, as warm as the tank.",
        ],
    );
}

#[test]
fn rule_7_ammonia_that_harms_with_water_that_helps_and_water_that_does_not() {
    let half = [("ammonia", "1 mg/L N"), ("ph", "8")];
    said(
        "ammonia",
        &[NO_AMMONIUM],
        &half,
        "toxic-ammonia",
        &[
            "No food. ",
            "The tap smells, is brown, or there is a notice: no change; where they gasp, air only.",
            "at the upper end of pH and of what the tap may bring; harm starts at 0.016.",
            "Harm starts at 0.016 mg/L of toxic ammonia,",
            "all ammonia on, and at the upper end of that, which decides, from",
            "Test two hours later; once more if it is needed, until it is below where harm starts.",
            "conditioner, stirred, 5 minutes before it is poured; as warm as the tank; plugs back when the water is over the mark.",
        ],
    );
    // Where airing changes nothing, air goes on.
    said(
        "ammonia",
        &[],
        &[("ammonia", "1 mg/L N"), ("ph", "8.6")],
        "toxic-ammonia",
        &["No food, air on. The tap smells, is brown, or there is a notice: no change, air only."],
    );
    let worse = [("ammonia", "4 mg/L N"), ("ph", "6.9"), ("alkalinity", "0.4 meq/L"), ("nitrite", "1 mg/L N")];
    said(
        "ammonia",
        &HARD,
        &worse,
        "toxic-ammonia",
        &[
            "No change with this water, for",
            "harm starts at 0.016. Instead: water of low minerals or clean rain, as warm as the tank, 10 %",
            "it thins what harms and does not raise pH",
        ],
    );
    said(
        "ammonia",
        &HARD,
        &worse,
        CHANGE_MOST,
        &[
            "In this tank: no change with this water, whatever the notice says",
            "It would leave as much toxic ammonia as there is now, or more; the sum below says what helps.",
        ],
    );
}

#[test]
fn rule_7_ammonia_that_does_not_harm_yet_and_ammonia_that_nobody_can_tell() {
    said(
        "ammonia",
        &[],
        &[("ammonia", "0.3 mg/L N"), ("ph", "6.8")],
        "toxic-ammonia",
        &[
            "no harm is known below 0.016 mg/L of toxic ammonia. No food today, test again tomorrow.",
            "Let nothing raise pH meanwhile (alkalinity salt, harder water): one step of pH makes ten times as much of it toxic, and harm starts at 0.016 mg/L.",
        ],
    );
    // Water outside of what can be worked out: it counts as harm.
    said(
        "ammonia",
        &[],
        &[("ammonia", "1 mg/L N"), ("ph", "8"), ("temperature", "38 °C")],
        "toxic-ammonia",
        &[
            "how much of it is toxic I can’t tell",
            "Harm starts at 0.016 mg/L of its toxic share: the table of the notice says from how much on.",
            "No food. Air raises pH: it runs as before and carbon dioxide stays as it is, unless they breathe fast; then the carbon dioxide goes off and the air on.",
        ],
    );
}

#[test]
fn rule_7_no_alkalinity_before_ammonia_was_tested() {
    let shows = [("alkalinity", "0.1 meq/L"), ("ammonia", "2 mg/L N"), ("ph", "6.5")];
    said(
        "alkalinity",
        &[],
        &shows,
        CHANGE_MOST,
        &[
            "no change with this water while ammonia shows",
            "each change raises alkalinity and with it pH, which makes it toxic. Test it again tomorrow.",
        ],
    );
    said(
        "alkalinity",
        &[],
        &shows,
        "alkalinity",
        &[
            "Harm starts at 0.016 mg/L of its toxic share, and that grows tenfold with one step of pH. Go on under ammonia.",
        ],
    );
    said(
        "alkalinity",
        &[],
        &[("alkalinity", "0.1 meq/L")],
        "alkalinity",
        &["Test ammonia first, and again after each step: where it shows, nothing that raises pH."],
    );
    said(
        "alkalinity",
        &[OLD],
        &[],
        "alkalinity",
        &["food and filter eat alkalinity month by month, and an old acid tank never gets a big change."],
    );
}

#[test]
fn rule_8_why_a_tenth_and_no_more() {
    let old = [OLD, NO_AMMONIUM];
    said(
        "gasping",
        &old,
        &[],
        CHANGE_MOST,
        &[
            "again each hour, with an ammonia test each time",
            "It was not changed for months: a larger change may raise pH and turn its ammonium toxic.",
        ],
    );
    let soft = [("tap.alkalinity", "0.2 meq/L"), ("tap.calcium", "4 mg/L")];
    said(
        "gasping",
        &soft,
        &[],
        CHANGE_MOST,
        &[
            "Alkalinity may be gone: this tap brings hardly any and nobody read it. A larger change may raise pH and turn ammonium toxic, so an ammonia test before each.",
        ],
    );
    let gone = [("alkalinity", "0.1 meq/L"), ("ammonia", "2 mg/L N"), ("ph", "6.5")];
    said(
        "gasping",
        &[NO_AMMONIUM],
        &gone,
        CHANGE_MOST,
        &[
            "Alkalinity is gone and ammonia shows: a larger change may raise pH and turn ammonium toxic, so an ammonia test before each.",
        ],
    );
}

#[test]
fn rules_2_4_8_and_10_an_overdose_is_thinned_with_water_that_may_go_in() {
    let sixty = [("times", "60")];
    said(
        "overdose",
        &RICH,
        &sixty,
        "overdose",
        &[
            "Leave the next 59 doses out. At most 29 % at once, as far apart as the first line says, conditioner in it and as warm as the tank; the tap smells, is brown, or there is a notice: air only.",
        ],
    );
    said(
        "overdose",
        &[RICH[0], RICH[1], OLD],
        &sixty,
        "overdose",
        &[
            "at once (it was not changed for months), with an ammonia test before each, as far apart as the first line says",
        ],
    );
    // The first line's day is no hour: this tap's ammonia limits it.
    let old = work("overdose", &[RICH[0], RICH[1], OLD], &sixty);
    assert!(
        words(sum(&old, CHANGE_MOST)).contains("again after 24 hours")
            && !words(sum(&old, "overdose")).contains("each hour"),
        "{old:#?}"
    );
    said(
        "overdose",
        &[],
        &[("times", "2")],
        CHANGE_MOST,
        &["You gave more, or from a bottle that I don’t know? Then the notice holds."],
    );
    said(
        "overdose",
        &[],
        &[("bottle", "green one")],
        "overdose",
        &["nothing here is worked out", "Then the notice holds, and its label says what is in it."],
    );
}
