//! A plan that begins with smaller changes, as Care, wall and calendar carry it out (harm rules 6 and 8); each test fails when it is taken out.

use crate::days::{HOUSEHOLD, june, log, noted, planned};
use care::{Act, day, events};
use logbook::{Reading, Sure, What};
use recipe::{Begin, BeginReading, Plan};
use setup::Tank;

/// The household, wishing for more alkalinity than its tap has: it comes in steps.
fn raised() -> (Tank, Plan, Begin) {
    let (tank, plan) = planned(&HOUSEHOLD.replace("[at_hand]", "[wish]\nalkalinity = \"9 to 12 °dH\"\n\n[at_hand]"));
    let begin = plan.begin.clone().unwrap_or_else(|| panic!("so far in one change"));
    assert!(
        begin.share < plan.change.share && begin.changes.is_some_and(|n| n > 1) && begin.steps.is_empty(),
        "{begin:?}"
    );
    (tank, plan, begin)
}

fn litres(act: &Act) -> f64 {
    match act.writes.first() {
        Some(What::Change { litres }) => *litres,
        other => panic!("{other:?}"),
    }
}

/// What the change of a Saturday is, after this log.
fn saturday(tank: &Tank, plan: &Plan, kept: &[logbook::Kept]) -> Act {
    let day = day(tank, plan, kept, &june(27, 8));
    day.act("change").cloned().unwrap_or_else(|| panic!("{:?}", day.today))
}

#[test]
fn rule_6_row_sheet_wall_and_calendar_give_the_small_change() {
    let (tank, plan, begin) = raised();
    let today = day(&tank, &plan, &[], &june(27, 8));
    let act = today.act("change").unwrap_or_else(|| panic!());
    // By hand: so many changes of this share leave (1 - s)^n of the way, and then the usual change moves no further than one of them.
    let n = begin.changes.map_or(0, |n| n as i32);
    assert!((1.0 - begin.share).powi(n) * plan.change.share <= begin.share + 1e-9);
    assert!((litres(act) - begin.litres).abs() < 0.01 * begin.litres, "{act:?}");
    let sheet = today.change.clone().unwrap_or_else(|| panic!());
    assert!((sheet.litres - begin.litres).abs() < 1e-9 && sheet.first[0].starts_with("Begin smaller"), "{sheet:?}");
    assert!(!sheet.steps.iter().any(|step| step.say.starts_with("Then the salts")), "no whole dose of salts");
    // Who follows the steps alone forgets none of what is weighed for so little water.
    let step =
        |words: &str| sheet.steps.iter().position(|step| step.say.contains(words)).unwrap_or_else(|| panic!("{words}"));
    let salts = step("The salts for this smaller change go in now");
    assert!(step("First into each bucket") < salts && salts < step("Siphon"), "{:?}", sheet.steps);
    let mut of_it = recipe::part_of_salts(&tank, &plan, begin.share / plan.change.share);
    assert!(!of_it.is_empty());
    of_it.extend(plan.new_water.ph_test.clone());
    assert_eq!(sheet.steps[salts].minds, of_it.iter().map(|mind| recipe::say::capital(mind)).collect::<Vec<_>>());
    assert!(sheet.steps[salts].minds.iter().any(|mind| mind.starts_with("Test ammonia before and after")));
    let out: f64 = f64::from(sheet.buckets.0) * sheet.buckets.1;
    assert!((out - begin.litres).abs() < 1e-9);
    let events = events(&tank, &plan, &[], &june(27, 8));
    let event = events.iter().find(|event| event.key == "change").unwrap_or_else(|| panic!());
    // It outlives the beginning, so it names no litres.
    assert_eq!(event.summary, "Change water: litres as Care says that day");
    assert!(event.says[0].starts_with("Look at Care first"), "{:?}", event.says);
}

#[test]
fn rule_6_a_smaller_change_goes_by_bucket_even_where_there_is_a_hose() {
    let first = |more: &str| {
        let wish = format!("[wish]\nalkalinity = \"9 to 12 °dH\"\n\n[at_hand]{more}");
        let (tank, plan) = planned(&HOUSEHOLD.replace("[at_hand]", &wish));
        let sheet = day(&tank, &plan, &[], &june(27, 8)).change.unwrap_or_else(|| panic!());
        assert!(sheet.share < plan.change.share && sheet.buckets.0 > 0, "{sheet:?}");
        sheet.first.join(" ")
    };
    let hose = first("\nby_hose = true");
    assert!(hose.contains("By bucket and not by hose, so that no more goes in"), "{hose}");
    assert!(!first("").contains("hose"), "{}", first(""));
}

#[test]
fn rules_18_and_20_a_change_in_the_calendar_says_plugs_out_before_anything_else() {
    // Without litres, where a plan begins smaller or nobody changed it for months; with all its steps, where the litres hold.
    let old = planned(&HOUSEHOLD.replace("fish = 12", "fish = 12\nunchanged_months = 8"));
    let (tank, plan, _) = raised();
    for (tank, plan, litres) in [(tank, plan, false), (old.0, old.1, false)]
        .into_iter()
        .chain([planned(HOUSEHOLD)].map(|(tank, plan)| (tank, plan, true)))
    {
        let events = events(&tank, &plan, &[], &june(27, 8));
        let event = events.iter().find(|event| event.key == "change").unwrap_or_else(|| panic!("{events:?}"));
        assert_eq!(!event.summary.contains("as Care says that day"), litres, "{}", event.summary);
        let says = event.says.join(" ");
        let plugs = says.find("Plugs of everything in or over the water out, with dry hands");
        let plugs = plugs.unwrap_or_else(|| panic!("{says}"));
        assert!(says.find("Siphon").is_none_or(|siphon| plugs < siphon), "{says}");
        assert_eq!(says.contains("Siphon"), litres, "{says}");
    }
}

#[test]
fn rule_6_they_are_a_day_apart_and_through_when_all_are_ticked() {
    let (tank, plan, begin) = raised();
    let n = begin.changes.map_or(0, |n| n as i8);
    assert!((2..=20).contains(&n), "{n}");
    let note = saturday(&tank, &plan, &[]).note;
    assert!(note.starts_with("new water "), "{note}");
    let ticked = |count: i8, note: &str| {
        noted((0..count).map(|i| (june(21 - count + i, 9), What::Change { litres: begin.litres }, note)).collect())
    };
    // The day after the first, the second.
    let after_one = ticked(1, &note);
    assert!((litres(&saturday(&tank, &plan, &after_one)) - begin.litres).abs() < 0.01 * begin.litres);
    // One of their size that was written down without its water is one of them, so that the next stands on the day after.
    assert!((litres(&saturday(&tank, &plan, &ticked(1, ""))) - begin.litres).abs() < 0.01 * begin.litres);
    let sunday = |note: &str| day(&tank, &plan, &ticked(1, note), &june(22, 8)).act("change").is_some();
    assert_eq!([sunday(&note), sunday(""), sunday("new water 31 µS/cm")], [true, true, false]);
    let all = ticked(n, &note);
    let usual = plan.change.litres;
    assert!((litres(&saturday(&tank, &plan, &all)) - usual).abs() < 0.01 * usual);
    // Water of another plan brings the tank nowhere.
    let other = ticked(n, "new water 31 µS/cm");
    assert!(litres(&saturday(&tank, &plan, &other)) < 1.01 * begin.litres);
    assert!(litres(&saturday(&tank, &plan, &ticked(n, ""))) < 1.01 * begin.litres);
}

#[test]
fn rule_6_a_test_that_finds_the_tank_there_ends_it() {
    let (tank, plan, begin) = raised();
    let key = match begin.reading {
        BeginReading::Conductivity => "conductivity",
        BeginReading::Alkalinity => "alkalinity",
        BeginReading::Hardness => "hardness",
    };
    let read = |value: f64, sure: Sure| {
        let reading = Reading { of: key.to_owned(), value, below: false, error: None, kit: None, sure };
        litres(&saturday(&tank, &plan, &log(vec![(june(20, 9), What::Test(reading))])))
    };
    let usual = plan.change.litres;
    assert!((read(begin.new_water, Sure::Plain) - usual).abs() < 0.01 * usual);
    assert!(read(begin.new_water, Sure::NotSure) < 1.01 * begin.litres);
    assert!(read(0.3 * begin.new_water, Sure::Plain) < 1.01 * begin.litres);
}

/// Ten litres on a tap with next to no salts, which the plan raises.
const CUBE: &str = r#"
[tank]
name = "Cube"
country = "eu"
[feeding]
wish = "just_enough"
[tap]
hardness = "1 °dH"
alkalinity = "0.5 °dH"
nitrate = "1 mg/L NO3"
ph = 6.8
conductivity = "60 µS/cm"
total_chlorine = "0.5 mg/L"
[glass]
outer_length = "25 cm"
outer_width = "25 cm"
outer_height = "25 cm"
[animals]
shrimps = 15
snails = 3
"#;

/// What a bucket holds of a change, and the note of the water that it pours.
fn cube_on(kept: &[logbook::Kept], date: i8) -> (Tank, Plan, Option<(f64, String)>) {
    let (tank, plan) = planned(CUBE);
    let day = day(&tank, &plan, kept, &june(date, 8));
    let change = day.act("change").map(|act| (litres(act), act.note.clone()));
    (tank, plan, change)
}

/// By hand: each note names the conductivity of what was poured; mixed into what stands there, none moves it by more than a tenth. Tenths
/// come a day apart, and nobody is told to pour a cupful.
#[test]
fn rule_6_and_8_very_soft_water_is_raised_by_whole_changes() {
    let (tank, plan, first) = cube_on(&[], 13);
    let begin = plan.begin.clone().unwrap_or_else(|| panic!("in steps"));
    let (first, note) = first.unwrap_or_else(|| panic!("a Saturday"));
    assert!(first > 0.09 * tank.geometry.true_l.value && note.starts_with("new water "), "{first} {note}");
    let (mut kept, mut stands) = (Vec::new(), begin.plain_us_per_cm);
    let (mut days, mut parts) = (Vec::new(), Vec::new());
    for date in 1..=30i8 {
        let (_, _, change) = cube_on(&noted(kept.clone()), date);
        let Some((poured, note)) = change else { continue };
        let us = trouble::poured_us(&note).unwrap_or_else(|| panic!("{note}"));
        let moves = poured / tank.geometry.true_l.value * (us - stands);
        // Litres are written down with three figures, conductivity with four.
        assert!(moves <= 0.1 * stands * 1.03, "{moves} from {stands} on day {date}: {note}");
        stands += moves;
        days.push(date);
        parts.push(us);
        kept.push((june(date, 9), What::Change { litres: poured }, Box::leak(note.into_boxed_str()) as &str));
    }
    let small = begin.steps.iter().take_while(|step| step.share < plan.change.share).count();
    assert!(small > 1 && days.len() > small, "{days:?}");
    assert!(days.windows(2).take(small - 1).all(|pair| pair[1] == pair[0] + 1), "a day apart: {days:?}");
    assert!(days.windows(2).skip(small).all(|pair| pair[1] >= pair[0] + 7), "then on the usual days: {days:?}");
    assert!(parts.windows(2).take(small - 1).all(|pair| pair[1] > pair[0]), "{parts:?}");
}

/// A test says where the tank is: far below what the plain tap was thought to leave, the salts start lower; alkalinity that is there ends the
/// tenths; a tank that is there gets the plan's own change.
#[test]
fn rule_6_and_8_a_test_says_which_change_is_next() {
    let read = |of: &str, value: f64| {
        let reading = Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::Plain };
        let (tank, plan, change) = cube_on(&log(vec![(june(12, 9), What::Test(reading))]), 13);
        let (poured, note) = change.unwrap_or_else(|| panic!("a Saturday"));
        (poured / tank.geometry.true_l.value, trouble::poured_us(&note).unwrap_or(0.0), plan)
    };
    let (share, us, plan) = read("alkalinity", 0.9);
    assert!((share - plan.change.share).abs() < 0.01, "{share}");
    assert!(us < plan.begin.as_ref().map_or(0.0, |begin| begin.new_us_per_cm), "{us}");
    let (share, us, _) = read("conductivity", 40.0);
    assert!(share * (us - 40.0) <= 0.1 * 40.0 * 1.03, "{share} of {us}");
    let (share, us, plan) = read("conductivity", 220.0);
    assert!((share - plan.change.share).abs() < 0.01, "{share}");
    assert!(plan.begin.is_some_and(|begin| (us - begin.new_us_per_cm).abs() < 0.01 * us), "{us}");
}

/// The wall hangs for weeks: the sheet says that its litres are for now.
#[test]
fn a_sheet_says_whether_its_litres_are_for_now() {
    let (tank, plan) = planned(CUBE);
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert!(sheet.for_now && !sheet.salts, "{sheet:?}");
    let (tank, plan) = planned(HOUSEHOLD);
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    assert!(!sheet.for_now, "{sheet:?}");
}
