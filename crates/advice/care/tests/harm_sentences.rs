//! What Start, an ending, an absence and a move must say, by number of the rule: take a sentence out, and its rule fails here.

use crate::start::away;
use crate::start::{self, HOUSEHOLD, SOIL, Settled, done, read, settled, with};
use care::away::Ask;
use care::moving::moving;
use care::start::{AMMONIA, Bag, GIVEN, NITRITE, start};
use care::stopping::stopping;
use logbook::Kept;

/// Every word of an answer, one text after the other.
pub(crate) fn all_of(answer: &impl serde::Serialize) -> String {
    fn walk(value: &serde_json::Value, out: &mut String) {
        match value {
            serde_json::Value::String(text) => out.push_str(&format!("{text}\n")),
            serde_json::Value::Array(all) => all.iter().for_each(|value| walk(value, out)),
            serde_json::Value::Object(all) => {
                all.iter().filter(|(key, _)| *key != "whys").for_each(|(_, value)| walk(value, out));
            }
            _ => {}
        }
    }
    let mut out = String::new();
    walk(&serde_json::to_value(answer).unwrap(), &mut out);
    out.replace('\u{a0}', " ")
}

/// Each phrase is said.
pub(crate) fn said(text: &str, phrases: &[&str]) {
    for phrase in phrases {
        assert!(text.contains(phrase), "no longer said: {phrase}\n{text}");
    }
}

/// Fish, shrimps and snails are planned; a tap with chloramine.
fn planned() -> Settled {
    let chloramine = "disinfectant = \"chloramine\"\ntotal_chlorine = \"1 mg/L\"";
    settled(&with("[animals]\nfish = 8\nshrimps = 10\nsnails = 3\n").replace("disinfectant = \"none\"", chloramine))
}

fn begun(s: &Settled, log: &[Kept], hours: i64) -> String {
    all_of(&start(&s.setup, &s.tank, &s.plan, log, &start::at(hours), &Bag::default()))
}

#[test]
fn rule_15_no_animal_before_the_test_and_no_ammonia_with_one() {
    let s = planned();
    said(
        &begun(&s, &[], 0),
        &[
            "no animal before the start test is passed twice.",
            "No start test is in the log yet: no animal, snails included, until it is passed twice.",
            "Not even the snail that came with a plant: put it in a glass with a plant until then.",
            "Does any animal swim or crawl in this tank already, a snail too? Then never give ammonia: do what stands last instead. Only if none is in it yet, go on.",
            "Ammonia and nitrite show the lowest step of the kit by themselves: what is there already would be judged with it.",
            "Only while no animal is in the tank:",
            "of it is toxic: 0.14 mg/L, and harm starts at 0.016 mg/L: never with an animal in it, a snail neither.",
            "A day later ammonia and nitrite each stand under 0.05 mg/L (as N), or under the lowest step of your kit. Write both readings into the log: they decide, not the calendar.",
            "The test is passed twice running before the first animal, snails included.",
            "Give no ammonia: No ammonium, urea or the double salt of calcium nitrate with animals: they become ammonia. Instead test ammonia and nitrite every day, feed little, and bring no further animal, until both have stayed at the lowest step of the kit for 14 days. The toxic share of ammonia stays under 0.016 mg/L (as N), before and after. If ammonia or nitrite shows: Help now.",
            "A kit that shows nothing may still hide its lowest step: at your pH of 8.2 harm starts at 0.11 mg/L of all ammonia-N",
            "low means under 0.11: a kit whose lowest step is at most that. With a coarser one change at most a tenth of the water at once, feed little, wait a day and test ammonia again.",
            "Bring a third of them first: three fish, four shrimps and one snail.",
        ],
    );
    // Given three hours ago; a day later with ammonia left; passed once; passed twice and left alone.
    said(
        &begun(&s, &[done(0, GIVEN)], 3),
        &[
            "The ammonia is given: test ammonia and nitrite a day later. No animal yet.",
            "Test ammonia and nitrite 18 to 30 hours after it: on",
        ],
    );
    let round = |from: i64, left: f64| {
        vec![done(from, GIVEN), read(from + 24, AMMONIA, left, false), read(from + 24, NITRITE, 0.01, false)]
    };
    said(
        &begun(&s, &round(0, 0.4), 25),
        &[
            "No animal comes now: the log has 0.4 mg/L of ammonia (as N), one hour ago. None before both have shown the lowest step again;",
            "Not passed yet:",
            "each must be under 0.05 mg/L",
        ],
    );
    said(
        &begun(&s, &round(0, 0.01), 25),
        &["once more before the first animal.", "It must be passed two times running."],
    );
    let twice = [round(0, 0.01), round(48, 0.01)].concat();
    said(&begun(&s, &twice, 73), &["The start test is passed twice: the first animals may come."]);
    said(
        &begun(&s, &twice, 73 + 24 * 14),
        &[
            "bacteria that get no ammonia for more than",
            "grow fewer. One more round, then the animals.",
            "one more round before the first animal.",
        ],
    );
}

#[test]
fn rules_6_and_7_a_bag_stays_closed_and_no_water_of_it_goes_into_the_tank() {
    said(
        &begun(&planned(), &[], 0),
        &[
            "At most a tenth of the conductivity a day.",
            "Keep the bag closed: closed it is acid, and its ammonia is nearly harmless.",
            "Further off: leave it closed in its box beside the tank. At most 1 °C an hour. At most 2 °C a day.",
            "Nobody measured the bag: this is what hours of breath usually leave.",
            "No dripping, no tank water into the bag: it would only make the ammonia toxic sooner.",
            "Never into the tank: down the drain. Lamp off until tomorrow, no food today.",
            "Test ammonia and nitrite on each of the first days; the next animals 14 days later at the earliest. The toxic share of ammonia stays under 0.016 mg/L (as N), before and after.",
        ],
    );
    said(
        &begun(&settled(HOUSEHOLD), &[], 0),
        &[
            "Animals live in it: few new ones at a time, ammonia and nitrite at the lowest step before them, the next 14 days later at the earliest.",
        ],
    );
}

#[test]
fn rules_1_2_4_5_and_16_the_first_water() {
    said(
        &begun(&planned(), &[], 0),
        &[
            "Let the cold tap run to its coldest; never take the hot tap. Into each bucket first",
            "total chlorine. Stir, wait 5 minutes, then pour.",
            "One of at most 10 L, used for nothing else, with its lid:",
            "For shrimps, snails and young the strictest guideline for wild animals is 13 mg/L of nitrate (as NO3). Many tanks are kept at 20 to 50 mg/L of nitrate: common practice, no source.",
            "Shrimps and snails are harmed by copper first: above 0.004 mg/L I ask. With shrimps or snails I refuse what brings copper above 0.008 mg/L. Ask your supplier, let the tap run, or bring none.",
        ],
    );
}

#[test]
fn rules_18_20_22_and_24_plugs_last_and_powders_without_draught() {
    let device = "A residual-current device of 30 mA or less, fitted by a licensed electrician (in North America about 5 mA); it does not make wet hands harmless.";
    let text = begun(&planned(), &[], 0);
    assert_eq!(text.matches(device).count(), 2, "to have at hand, and on the day: {text}");
    said(
        &text,
        &[
            "Once it holds water it is never moved.",
            "are put in their places without their plugs. The plugs come last.",
            "a strip of sockets that hangs beside the tank and not under it",
            "when the glass is dry outside and nothing drips: first the filter, then",
            "Plugs of everything in or over the water out, with dry hands, before your hands go in; but not an air pump that stands outside. Heater's plug out and 15 minutes' wait before the water falls; plug back when the water is over its mark.",
            "before your hands go in; but not an air pump that stands outside. Never start a siphon by mouth;",
            "Weigh powders without a draught, with a dust mask and gloves. Never in a drinks bottle.",
        ],
    );
    said(
        &begun(&settled(SOIL), &[], 0),
        &[
            "each stirred into a bucket of its own. Weigh powders without a draught, with a dust mask and gloves.",
            "Soil without fertiliser, manure or peat;",
            "its water poured away each day",
        ],
    );
}

fn with_carbon_dioxide() -> Settled {
    settled(&HOUSEHOLD.replace("[tank]", "[tank]\nco2 = \"15 mg/L\""))
}

#[test]
fn rule_17_an_ending_gives_nothing_to_nature_and_leaves_nobody_without_breath() {
    let s = with_carbon_dioxide();
    said(
        &all_of(&stopping(&s.tank, &s.plan)),
        &[
            "may not be sold, given away or kept at all: ask your nature authority before you pass anything on.",
            "an animal shelter; all of them, before anything is switched off. Tell your water’s hardness, pH and temperature. A sick animal is a vet’s business.",
            "None into a pond, stream or toilet, alive or dead: the dead go into the household waste or the ground.",
            "Not before the last animal has gone: filter, heater and air run until then. Plugs of everything in or over the water out, with dry hands, before your hands go in; but not an air pump that stands outside. Heater's plug out and 15 minutes' wait before the water falls;",
            "Give them away where the law allows it. What is left: 1 to 7 days in the freezer, or spread out until it crackles",
            "Not onto the compost, not into a stream, pond or ditch: a finger’s length of a stem grows again",
            "bucket by bucket of at most 10 L: down the drain to the sewer, or onto a flower bed that drains into no water. Never into a street drain that leads to a stream.",
            "dry them out in the sun or a warm room until nothing on them is damp; snails and seeds live on in wet gravel.",
        ],
    );
}

#[test]
fn rules_14_20_and_22_an_endings_cylinder_salts_and_glass() {
    let s = with_carbon_dioxide();
    said(
        &all_of(&stopping(&s.tank, &s.plan)),
        &[
            "In their labelled packets to another keeper or gardener, else to the collection of hazardous waste, each as its label says. Never two poured together.",
            "Valve closed, regulator off, back to the dealer, never into the waste, never opened to empty it indoors. Ventilate, test joints with soap water",
            "Empty before anybody lifts it, by two, with gloves.",
        ],
    );
    // An empty glass has no cable and no switch to test.
    assert!(!all_of(&stopping(&s.tank, &s.plan)).contains("Every cable hangs in a loop"));
}

#[test]
fn rules_2_13_14_18_and_20_what_a_sitter_reads() {
    let s = with_carbon_dioxide();
    said(
        &all_of(&away(&s.tank, &s.plan, Ask::default())),
        &[
            "All breathe calmly and swim about",
            "No other food, however hungry they look",
            "Nothing from any bottle: what the cans need is in them",
            "No water but that from the cans",
            "No hands in the water, nothing cleaned",
            "No plug pulled from filter or air pump, unless the floor is wet",
            "add none. Water without it burns gills: no such label, pour nothing; call",
            "before the water falls below its mark. Plug back in when the water covers it",
            "touch nothing wet. Someone shocked: don't touch them before the power is off. To the fuse box only on dry ground.",
            "Wet floor: stay off it; all plugs out with dry hands if you reach them on dry ground; then call.",
            "All hang at the surface or breathe fast: carbon dioxide off (valve closed), air pump on; none: the filter’s outlet lifted, or water lifted with a cup and poured back, no food; call.",
            "Hissing, headache, short breath: out of the room, door open, call; don’t go back for the valve.",
            "press the protective switch once. It trips again: leave it, call.",
            "Too cold or too warm: touch nothing in the water; call.",
        ],
    );
}

#[test]
fn rules_6_7_10_and_13_before_an_absence_and_after_it() {
    let s = with_carbon_dioxide();
    said(
        &all_of(&away(&s.tank, &s.plan, Ask::default())),
        &[
            "nothing new: no animal, no device, no lamp, no other food, no larger dose.",
            "Then don’t leave before its test is low: who looks in can’t help them.",
            "harm starts at 0.14 mg/L of all ammonia-N, so test it the day after.",
            "gills are hurt from about 0.02 mg/L on within hours. Stir, let it stand 5 minutes, lid on. Write on each label: CONDITIONER IS IN, ADD NONE.",
            "does everybody breathe calmly, does the filter run?",
            "Harm starts at 0.016 mg/L of the toxic form: that is why the packet is locked away.",
            "filter outlet and heater’s mark must stay under it",
            "At most a tenth of the conductivity a day. So 1.27 L on each of four visits; never more than 9.06 L of your 90.6 L at once.",
            "Count heads, look how they breathe, feel the warmth, look under the tank. Take out what died. Something is wrong: Help now.",
            "Ammonia, nitrite and alkalinity first; then your usual change, 36.3 L, or what stands in Care that day where that is less.",
            "Nothing is made up for.",
        ],
    );
}

#[test]
fn rules_3_5_13_19_and_24_a_move() {
    let other = settled(&HOUSEHOLD.replace("alkalinity = ", "alkalinity = \"6 meq/L\"\n#"));
    let house = settled(HOUSEHOLD);
    said(
        &all_of(&moving((&house.tank, &house.plan), (&other.tank, &other.plan), &[], &start::at(0))),
        &[
            "Bigger corrections come as steps, a day apart. At most 0.36 meq/L (1 German degree) of alkalinity a day.",
            "harm starts at 0.14 mg/L of all ammonia-N now and at 0.068 mg/L then. Whatever raises pH turns ammonium into ammonia, ten times as much for one step of pH: test ammonia before and after.",
            "gills are hurt from about 0.02 mg/L on within hours and from 0.011 over weeks. Stir, wait 5 minutes, then pour.",
            "No food for 24 hours. Plugs of everything in or over the water out, with dry hands, before your hands go in; but not an air pump that stands outside. Heater's plug out and 15 minutes' wait before the water falls;",
            "lidded cans of at most 10 L: the tank is filled up with no more than 7.93 L of the new on the first day, made as “The new water” says, conditioner first; a day bears no more of it. Cannot so much go along? Then run it less full, over the heater's mark. New water feels like the tank or is not poured:",
            "Never colder than 12.6 °C. The animals travel in some of it, dark, with air over the water.",
            "Its sponge in a bucket of tank water, with air through it; without moving water it keeps for 30 to 120 minutes. Never rinsed in the tap, never dried.",
            "Empty of water and stones before anybody lifts it. At the new place: Ask whether floor and stand bear this mass and pressure",
            "As on the first day: loops in the cables, plugs last; the heater when the water is over its mark.",
            "Ammonia and nitrite every day for seven days: the filter counts as new until they stay at the lowest step. Little food. Animals give off ammonia, and new water may bring some. Your filter takes this ammonia only if it has passed the start test.",
        ],
    );
}
