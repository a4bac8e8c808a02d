//! Each rule of harm that a day touches, with a test that fails when the rule is taken out.

use crate::days::{HOUSEHOLD, SOIL, june, log, planned, sentences, without};
use crate::traced::weigh_trace_mix;
use care::{Act, ChangeSheet, Day, day};
use logbook::What;
use quantity::{Ion, Kind, Known};

fn saturday(text: &str) -> (Day, ChangeSheet) {
    let (tank, plan) = planned(text);
    let day = day(&tank, &plan, &[], &june(13, 8));
    let sheet = day.change.clone().unwrap_or_else(|| panic!("no change on {}", day.date));
    (day, sheet)
}

/// Where in the order of work the first sentence with these words stands.
fn at(sheet: &ChangeSheet, words: &str) -> usize {
    let holds = |say: &String| say.contains(words);
    let found = sheet.steps.iter().position(|step| holds(&step.say) || step.minds.iter().any(holds));
    found.unwrap_or_else(|| panic!("nobody says “{words}”: {:#?}", sheet.steps))
}

fn step(sheet: &ChangeSheet, words: &str) -> String {
    let step = &sheet.steps[at(sheet, words)];
    format!("{} {}", step.say, step.minds.join(" "))
}

#[test]
fn rule_1_and_2_conditioner_comes_first_with_the_number_at_which_harm_starts() {
    let (_, sheet) = saturday(HOUSEHOLD);
    let said = step(&sheet, "of the conditioner");
    for words in ["First into each bucket", "covers 0.4 mg/L of total chlorine", "0.02 mg/L", "wait 5 minutes"] {
        assert!(said.contains(words), "{said}");
    }
    assert!(at(&sheet, "of the conditioner") < at(&sheet, "Pour slowly"));
    // By hose: for the whole tank, before the water.
    let (_, sheet) = saturday(&HOUSEHOLD.replace("[at_hand]", "[at_hand]\nby_hose = true"));
    let said = step(&sheet, "of the conditioner");
    assert!(said.contains("whole tank") && said.contains("0.02 mg/L"), "{said}");
    assert!(at(&sheet, "of the conditioner") < at(&sheet, "run in slowly"));
}

#[test]
fn rule_1_topping_up_from_the_tap_wants_its_conditioner_too() {
    let (tank, plan) = planned(HOUSEHOLD);
    let tops = |day: &Day| day.today.iter().find(|act| act.key == "top_up").map(|act| act.says.join(" "));
    let said = (1..8).find_map(|n| tops(&day(&tank, &plan, &[], &june(n, 8)))).unwrap_or_default();
    assert!(said.contains("of the conditioner") && said.contains("0.02 mg/L"), "{said}");
    // Rule 18.
    assert!(said.contains("below the heater's mark?") && said.contains("15 minutes"), "{said}");
}

#[test]
fn rule_1_water_above_the_ceiling_is_neither_changed_nor_topped_up_with() {
    let text = HOUSEHOLD.replace("total_chlorine = \"0.4 mg/L\"", "total_chlorine = \"6 mg/L\"");
    let (tank, plan) = planned(&text);
    for n in 1..15 {
        let day = day(&tank, &plan, &[], &june(n, 8));
        assert!(!day.today.iter().any(|act| act.key == "change" || act.key == "top_up"), "{n}: {:?}", day.today);
        let sheet = day.change.unwrap_or_else(|| panic!("{n}"));
        assert!(sheet.stop.is_some_and(|stop| stop.contains("supplier")) && sheet.steps.is_empty());
    }
}

#[test]
fn rule_4_measured_copper_stops_change_and_top_up_with_shrimps() {
    let text = HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.02 mg/L\"");
    let (tank, plan) = planned(&text);
    for n in 1..15 {
        let day = day(&tank, &plan, &[], &june(n, 8));
        assert!(!day.today.iter().any(|act| act.key == "change" || act.key == "top_up"), "{n}: {:?}", day.today);
        assert!(day.change.is_some_and(|sheet| sheet.stop.is_some()));
    }
}

/// The household's bottle with a gram a day of a mix whose label says so much copper, in 100 L.
fn with_trace(share: f64, every_days: u32) -> (setup::Tank, recipe::Plan) {
    let (mut tank, mut plan) = planned(HOUSEHOLD);
    weigh_trace_mix(&mut tank, &mut plan, Known::exact(share, Kind::Measured));
    plan.change.every_days = every_days;
    (tank, plan)
}

#[test]
fn rule_4_a_shrimp_tank_never_gets_copper_without_the_sum_of_what_piles_up() {
    // 0.01 g x 0.1 % x 1000 / 100 L = 0.0001 mg/L a day; x 7 / 0.4 = 0.00175; with 0.002 of the tap and 0.001 of the pipes
    // 0.00475 mg/L before a change: above 0.004, under 0.008.
    let (tank, plan) = with_trace(0.001, 7);
    let one = day(&tank, &plan, &[], &june(10, 8));
    let act = one.act("dose_evening").cloned().unwrap_or_else(|| panic!());
    let said = act.says.join(" ");
    for words in [
        "0.0001 mg/L of copper a day",
        "0.00475 mg/L before a change",
        "above 0.004 mg/L I ask",
        "above 0.008 I refuse",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(!act.writes.is_empty());
    // 0.5 %: 0.0005 x 7 / 0.4 + 0.003 = 0.01175 mg/L: it is not given.
    let (tank, plan) = with_trace(0.005, 7);
    let act = day(&tank, &plan, &[], &june(10, 8)).act("dose_evening").cloned().unwrap_or_else(|| panic!());
    assert!(act.writes.is_empty() && act.says.join(" ").contains("not given"), "{:?}", act.says);
    // Never changed it only gathers: (0.008 - 0.003) / 0.0001 = 50 days.
    let (tank, plan) = with_trace(0.001, 0);
    let act = day(&tank, &plan, &[], &june(10, 8)).act("dose_evening").cloned().unwrap_or_else(|| panic!());
    assert!(act.writes.is_empty() && act.says.join(" ").contains("after 50 days"), "{:?}", act.says);
    // Fish alone: no matter of this rule.
    let (mut tank, plan) = with_trace(0.005, 7);
    tank.animals.shrimps = 0;
    let act = day(&tank, &plan, &[], &june(10, 8)).act("dose_evening").cloned().unwrap_or_else(|| panic!());
    assert!(!act.writes.is_empty() && !act.says.join(" ").contains("copper"));
}

#[test]
fn rule_4_copper_of_tap_and_pipes_counts_at_its_upper_end() {
    // 0.0001 mg/L a day x 7 / 0.4 = 0.00175 of the dose. Tap up to 0.004, likely 0.002, and 0.001 of the pipes: 0.00675. The tap's 0.002 and pipes
    // of up to 0.003, likely 0.001: 0.00675 too. Both: 0.00875, above 0.008, where the best estimate is 0.00475.
    for (tap, pipes, says, given) in
        [(0.004, 0.001, "0.00675", true), (0.002, 0.003, "0.00675", true), (0.004, 0.003, "0.00875", false)]
    {
        let (mut tank, plan) = with_trace(0.001, 7);
        tank.tap.ions.insert(Ion::Copper, Known::ranged(0.001, 0.002, tap, Kind::Measured));
        tank.pipes_copper_mg_per_l = Known::ranged(0.0, 0.001, pipes, Kind::Measured);
        let act = day(&tank, &plan, &[], &june(10, 8)).act("dose_evening").cloned().unwrap_or_else(|| panic!());
        let said = act.says.join(" ");
        assert!(said.contains(&format!("{says} mg/L before a change")), "{says}: {said}");
        assert_eq!(!act.writes.is_empty(), given, "{said}");
        assert_eq!(said.contains("So it is not given"), !given, "{said}");
    }
}

#[test]
fn rule_5_the_tap_is_looked_at_first_and_no_bucket_is_over_ten_litres() {
    for text in [HOUSEHOLD, &HOUSEHOLD.replace("[at_hand]", "[at_hand]\nbucket = \"20 L\"")] {
        let (_, sheet) = saturday(text);
        assert_eq!(at(&sheet, "smells, is brown, or there is a notice: no change today, air only"), 0);
        assert!(step(&sheet, "never take the hot tap").contains("coldest"));
        assert!(step(&sheet, "Fill ").contains("a child can drown in it"));
        assert!(sheet.buckets.1 <= 10.0, "{:?}", sheet.buckets);
        let (buckets, each) = sheet.buckets;
        assert!((f64::from(buckets) * each - sheet.litres).abs() < 1e-9);
    }
    // What evaporated in weeks is not carried at once either.
    let (tank, plan) = planned(&HOUSEHOLD.replace("[habits]", "[habits]\ntop_up = \"4 L a day\""));
    let kept = log(vec![(june(6, 8), What::Change { litres: 36.3 }), (june(6, 9), What::TopUp { litres: 1.0 })]);
    let day = day(&tank, &plan, &kept, &june(12, 8));
    let writes = day.act("top_up").map(|act| act.writes.clone()).unwrap_or_default();
    assert!(matches!(writes.as_slice(), [What::TopUp { litres }] if *litres <= 10.0), "{writes:?}");
}

#[test]
fn rule_8_a_tank_that_the_log_shows_long_unchanged_gets_a_tenth() {
    let (tank, plan) = planned(HOUSEHOLD);
    let at = june(13, 8).checked_sub(jiff::ToSpan::days(70)).unwrap_or_else(|error| panic!("{error}"));
    let kept = log(vec![(at, What::Change { litres: 36.3 })]);
    let long = day(&tank, &plan, &kept, &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert!((long.litres - 0.1 * tank.geometry.true_l.value).abs() < 1e-9, "{}", long.litres);
    let first = long.first.join(" ");
    assert!(first.contains("70 days") && first.contains("a tenth, again each hour, with an ammonia test"), "{first}");
    assert!(!first.contains("hose"), "nobody has one: {first}");
    // 9.06 L are two buckets of 4.53 L; conditioner by their litres: 4.53 L x 3 mL / 7.25 L = 1.87, drawn up as 1.9 mL.
    assert_eq!(long.buckets.0, 2);
    assert!(step(&long, "of the conditioner").contains("1.9 mL"), "{}", step(&long, "of the conditioner"));
    let (_, usual) = saturday(HOUSEHOLD);
    assert!(usual.first.is_empty() && (usual.share - 0.4).abs() < 1e-9, "an empty log knows nothing");
    // By hose the whole tank's conditioner would go in for a tenth: it goes by bucket.
    let (tank, plan) = planned(&HOUSEHOLD.replace("[at_hand]", "[at_hand]\nby_hose = true"));
    let long = day(&tank, &plan, &kept, &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert!(long.first.join(" ").contains("By bucket and not by hose") && long.buckets.0 == 2, "{:?}", long.first);
    let said = long.steps.iter().map(|step| step.say.as_str()).collect::<Vec<_>>().join(" ");
    assert!(said.contains("First into each bucket") && !said.contains("whole tank"), "{said}");
}

#[test]
fn rule_8_one_tenth_does_not_make_an_old_tank_young() {
    // 0.9^n × 0.4 ≤ 0.1: n = ln 0.25 ÷ ln 0.9 = 13.2: fourteen tenths, one a day, before the usual 40 % comes back.
    let (tank, plan) = planned(HOUSEHOLD);
    let tenth = 0.1 * tank.geometry.true_l.value;
    let before = |n: i64| june(13, 8).checked_sub(jiff::ToSpan::days(n)).unwrap_or_else(|error| panic!("{error}"));
    let with = |n: i64| {
        let first = (before(n + 70), What::Change { litres: 36.3 });
        let since = (1..=n).map(|back| (before(back), What::Change { litres: tenth }));
        day(&tank, &plan, &log(std::iter::once(first).chain(since).collect()), &june(13, 8))
    };
    for n in [1, 5, 13] {
        let day = with(n);
        let sheet = day.change.clone().unwrap_or_else(|| panic!("{n}"));
        assert!((sheet.litres - tenth).abs() < 1e-9, "{n}: {}", sheet.litres);
        assert!(day.act("change").is_some(), "a day after the last one the next is due");
    }
    assert!(with(1).change.is_some_and(|sheet| sheet.first[0].contains("13 times yet")));
    assert!(with(13).change.is_some_and(|sheet| sheet.first[0].contains("one time yet")));
    // The last one was on Friday, which counts as this Saturday's: the usual one comes a week later.
    assert_eq!(with(14).change, None);
}

#[test]
fn rules_1_and_4_no_sentence_offers_a_tap_that_is_refused() {
    // The copper of the tap with shrimps, and a tap above the ceiling of chlorine; with changes and without any.
    let copper = HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.02 mg/L\"");
    let chlorine = HOUSEHOLD.replace("total_chlorine = \"0.4 mg/L\"", "total_chlorine = \"6 mg/L\"");
    for text in [copper, chlorine] {
        for text in [text.replace("change = \"40 %\"", "change = \"0 %\""), text] {
            let (tank, plan) = planned(&text);
            let says = day(&tank, &plan, &[], &june(10, 8)).top_up.map(|settles| settles.says).unwrap_or_default();
            assert!(
                says.contains("Not topped up with your tap") && says.contains("Rain or low-mineral water"),
                "{says}"
            );
            assert!(!says.contains("Topped up with your tap") && !says.contains("change a little"), "{says}");
        }
    }
}

#[test]
fn rule_3_and_6_a_change_that_is_limited_or_begins_smaller_says_so_first() {
    let (tank, plan) = planned(SOIL);
    let limited =
        plan.change.limited.clone().unwrap_or_else(|| panic!("the example's change is limited by its ammonia"));
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert!(sheet.first.contains(&limited) && (sheet.litres - plan.change.litres).abs() < 1e-9);
    // Who goes from the top down reads ammonia before the water is poured.
    let (tank, plan) = planned(&HOUSEHOLD.replace("<0.05 mg/L NH4", "1 mg/L NH4"));
    assert!(plan.change.limited.is_some(), "a tap with so much ammonia");
    let today = (1..30).map(|n| day(&tank, &plan, &[], &june(n, 8)).today);
    let today = today.into_iter().find(|acts| acts.iter().any(|act| act.key == "change")).unwrap_or_else(|| panic!());
    let row = |is: &dyn Fn(&Act) -> bool| today.iter().position(is).unwrap_or_else(|| panic!("{today:?}"));
    assert!(row(&|act| act.name.contains("ammonia")) < row(&|act| act.key == "change"), "{today:?}");
    let (tank, plan) = planned(&HOUSEHOLD.replace("[at_hand]", "[wish]\nalkalinity = \"9 to 12 °dH\"\n\n[at_hand]"));
    let first = plan.begin.as_ref().map(|begin| begin.says.clone()).unwrap_or_else(|| panic!("so far in one change"));
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert_eq!(sheet.first.first(), Some(&first));
}

#[test]
fn rule_14_weighing_the_cylinder_says_what_a_hiss_means() {
    let text = HOUSEHOLD.replace("currency = \"GBP\"", "currency = \"GBP\"\nco2 = \"12 mg/L\"");
    let (tank, plan) = planned(&text);
    let said: Vec<String> = (1..30).flat_map(|n| sentences(&day(&tank, &plan, &[], &june(n, 8)))).collect();
    assert!(said.iter().any(|say| say.contains("Hissing, headache, short breath: out of the room")));
    // Nobody is told of it who gives none.
    let (tank, plan) = planned(HOUSEHOLD);
    let said: Vec<String> = (1..30).flat_map(|n| sentences(&day(&tank, &plan, &[], &june(n, 8)))).collect();
    assert!(!said.iter().any(|say| say.contains("cylinder")));
}

#[test]
fn rule_15_ammonia_and_nitrite_are_tested_until_the_start_test_is_passed() {
    let (tank, plan) = planned(&HOUSEHOLD.replace("start_test_passed = true", "start_test_passed = false"));
    let day = day(&tank, &plan, &[], &june(10, 8));
    let first: Vec<(&str, bool)> = day.tests.iter().take(2).map(|kit| (kit.key.as_str(), kit.decides)).collect();
    assert_eq!(first, [("ammonia_n", true), ("nitrite_n", true)]);
    assert!(day.tests[0].minds.iter().any(|say| say.contains("0.016 mg/L")), "{:?}", day.tests[0].minds);
    let (tank, plan) = planned(HOUSEHOLD);
    assert!(!care::day(&tank, &plan, &[], &june(10, 8)).tests.iter().any(|kit| kit.key == "ammonia_n"));
}

#[test]
fn rule_18_and_20_plugs_are_out_and_the_wait_is_over_before_hands_or_hose_go_in() {
    for text in [HOUSEHOLD, &HOUSEHOLD.replace("[at_hand]", "[at_hand]\nby_hose = true")] {
        let (_, sheet) = saturday(text);
        let plugs = at(&sheet, "plugs out");
        let said = step(&sheet, "plugs out");
        assert!(
            said.contains("dry hands")
                && said.contains("15 minutes")
                && said.contains("not an air pump that stands outside")
        );
        assert!(plugs < at(&sheet, "Siphon "), "plugs before the siphon");
        assert_eq!(at(&sheet, "plugs back"), sheet.steps.len() - 1);
        assert!(step(&sheet, "plugs back").contains("over the heater's mark"));
    }
    // Where no change brings them along, each act with hands in the water says it itself.
    let (tank, plan) = planned(&without(&without(SOIL, "change ="), "every ="));
    let mut seen = 0;
    for n in 1..30 {
        for act in
            day(&tank, &plan, &[], &june(n, 8)).today.iter().filter(|act| act.key == "glass" || act.key == "trim")
        {
            assert!(act.says.first().is_some_and(|say| say.contains("Plugs of everything")), "{:?}", act.says);
            seen += 1;
        }
    }
    assert!(seen >= 2, "{seen}");
}

#[test]
fn rule_20_the_test_button_comes_once_a_month_and_promises_nothing() {
    let (tank, plan) = planned(HOUSEHOLD);
    let pressed: Vec<String> = (1..29)
        .flat_map(|n| day(&tank, &plan, &[], &june(n, 8)).today)
        .filter(|act| act.key == "test_button")
        .map(|act| act.says.join(" "))
        .collect();
    assert_eq!(pressed.len(), 1);
    assert!(
        pressed[0].contains("does not make wet hands harmless") && pressed[0].contains("It must trip"),
        "{pressed:?}"
    );
}

#[test]
fn rule_19_new_water_feels_like_the_tank_or_is_not_poured() {
    let (_, sheet) = saturday(HOUSEHOLD);
    let said = step(&sheet, "new water should feel like the tank, and is never colder than 21.5 °C");
    for words in [
        "from 24 °C to 17.2 °C",
        "1 °C in an hour and 2 °C in a day",
        "Measure, for a bucket left overnight does not reach the room",
        "it scalds",
        "never into the tank",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(at(&sheet, "never colder than") < at(&sheet, "Pour slowly"));
}

#[test]
fn rule_23_the_siphon_is_never_started_by_mouth() {
    let (_, sheet) = saturday(HOUSEHOLD);
    assert!(step(&sheet, "Siphon ").contains("Never start a siphon by mouth; gloves over cuts"));
    let (_, sheet) = saturday(&HOUSEHOLD.replace("[at_hand]", "[at_hand]\nby_hose = true"));
    assert!(step(&sheet, "run in slowly").contains("never ends under water"));
}

#[test]
fn no_word_that_we_do_not_use() {
    let slow = HOUSEHOLD.replace("energy = \"medium\"", "energy = \"low\"");
    for text in [HOUSEHOLD, SOIL, &slow] {
        let (tank, plan) = planned(text);
        for n in 1..30 {
            for say in sentences(&day(&tank, &plan, &[], &june(n, 8))) {
                let words: Vec<String> = say.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
                assert!(!words.iter().any(|word| ["safe", "gas", "optimal"].contains(&word.as_str())), "{say}");
            }
        }
    }
}
