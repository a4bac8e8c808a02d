//! One test or more for each rule of harm that the start of a tank touches, named by its number. Each fails if the rule is taken out.

use crate::start::{EMPTY, HOUSEHOLD, Settled, at, done, kept, read, settled, texts, under, with};
use care::start::{AMMONIA, Bag, GIVEN, NITRITE, Stage, Start};
use logbook::{Kept, Reading, Sure, What};

fn begin(s: &Settled, log: &[Kept], hours: i64) -> Start {
    care::start::start(&s.setup, &s.tank, &s.plan, log, &at(hours), &Bag::default())
}

#[test]
fn rule_7_a_kit_that_shows_nothing_may_hide_what_harms() {
    let s = settled(EMPTY);
    let aired = s.plan.aired.as_ref().expect("aired");
    // At most 0.016 mg/L of the toxic form: so much of all ammonia; a quarter of a milligram holds more than that.
    let (low, holds) = (0.016 / aired.nh3_fraction.high, 0.25 * aired.nh3_fraction.high);
    assert!(holds > 0.016, "{holds}");
    let start = begin(&s, &[], 0);
    let says = under(&start.hand, "Tests");
    let number = says.split("low means under ").nth(1).and_then(|rest| rest.split(':').next()).expect("a number");
    assert!((number.parse::<f64>().expect("a number") / low - 1.0).abs() < 0.06, "{number} {low}");
    assert!(
        says.contains("A kit that shows nothing may still hide") && says.contains("wait a day and test ammonia again")
    );
    // Nothing is hidden where the coarsest kit shows it in time.
    let mut acid = s.plan.clone();
    acid.aired.as_mut().expect("aired").nh3_fraction = quantity::Known::exact(0.001, quantity::Kind::WorkedOut);
    let start = care::start::start(&s.setup, &s.tank, &acid, &[], &at(0), &Bag::default());
    assert!(!under(&start.hand, "Tests").contains("hide"));
}

/// A round begun at an hour, read a day later.
fn round(hours: i64, ammonia: f64, nitrite: f64) -> Vec<Kept> {
    vec![done(hours, GIVEN), read(hours + 24, AMMONIA, ammonia, false), read(hours + 24, NITRITE, nitrite, false)]
}

fn stage(log: &[Kept], hours: i64) -> Stage {
    begin(&settled(EMPTY), log, hours).test.stage
}

#[test]
fn rule_15_twice_running_and_each_under_the_limit() {
    let good = |hours| round(hours, 0.02, 0.02);
    assert_eq!(stage(&[], 0), Stage::NotBegun);
    assert_eq!(stage(&good(0), 30), Stage::Partly { times: 1 });
    let twice: Vec<Kept> = [good(0), good(72)].concat();
    assert_eq!(stage(&twice, 100), Stage::Passed);
    assert!(stage(&twice, 100).may_come() && !stage(&good(0), 30).may_come());
    // 0.05 mg/L is not under 0.05, neither of ammonia nor of nitrite.
    assert_eq!(stage(&round(0, 0.05, 0.02), 30), Stage::Failed);
    assert_eq!(stage(&round(0, 0.02, 0.05), 30), Stage::Failed);
    // A round that was not passed in between: they are not running.
    let broken = [good(0), round(72, 0.2, 0.02), good(144)].concat();
    assert_eq!(stage(&broken, 180), Stage::Partly { times: 1 });
    let ends_badly = [good(0), good(72), round(144, 0.02, 0.3)].concat();
    assert_eq!(stage(&ends_badly, 180), Stage::Failed);
}

#[test]
fn rule_15_only_readings_of_the_day_after_count() {
    let read_at =
        |hours: i64| vec![done(0, GIVEN), read(hours, AMMONIA, 0.02, false), read(hours, NITRITE, 0.02, false)];
    assert_eq!(stage(&read_at(4), 20), Stage::Waiting { hours: 20.0 });
    assert_eq!(stage(&read_at(48), 60), Stage::Unread);
    assert_eq!(stage(&read_at(20), 60), Stage::Partly { times: 1 });
    // Nitrite alone is missing.
    assert_eq!(stage(&[done(0, GIVEN), read(24, AMMONIA, 0.02, false)], 60), Stage::Unread);
    // The worse of two readings counts.
    let mut log = read_at(20);
    log.push(read(26, AMMONIA, 0.4, false));
    assert_eq!(stage(&log, 60), Stage::Failed);
    // Whoever is not sure has not read.
    let doubtful =
        Reading { of: AMMONIA.into(), value: 0.02, below: false, error: None, kit: None, sure: Sure::NotSure };
    let log = [done(0, GIVEN), kept(24, What::Test(doubtful)), read(24, NITRITE, 0.02, false)];
    assert_eq!(stage(&log, 60), Stage::Unread);
}

#[test]
fn rule_15_the_lowest_step_of_a_kit_is_said_and_must_be_fine_enough() {
    let log = |step: f64| vec![done(0, GIVEN), read(24, AMMONIA, step, true), read(24, NITRITE, step, true)];
    assert_eq!(stage(&log(0.2), 30), Stage::Partly { times: 1 });
    let says = begin(&settled(EMPTY), &log(0.2), 30).test.says;
    assert!(says.contains("lowest step, 0.2 mg/L"), "{says}");
    // A kit that begins at 1 mg/L can't see 1 mg/L go.
    assert_eq!(stage(&log(1.0), 30), Stage::Failed);
}

#[test]
fn rule_15_a_filter_that_starved_is_asked_again() {
    let twice = [round(0, 0.02, 0.02), round(72, 0.02, 0.02)].concat();
    assert_eq!(stage(&twice, 72 + 7 * 24), Stage::Passed);
    assert!(matches!(stage(&twice, 72 + 20 * 24), Stage::LongAgo { .. }));
    // With animals that were told, the food keeps it.
    let told = settled(&with("[animals]\nfish = 6\nstart_test_passed = true"));
    assert_eq!(begin(&told, &twice, 72 + 20 * 24).test.stage, Stage::Passed);
}

#[test]
fn rule_15_no_animal_before_it_snails_too() {
    let start = begin(&settled(EMPTY), &[], 0);
    assert!(start.answer.contains("no animal before the start test is passed twice"), "{}", start.answer);
    assert!(under(&start.day, "No animal yet").contains("snails included"));
    assert!(under(&start.day, "No animal yet").contains("snail that came with a plant"));
    assert!(under(&start.home.steps, "Before you go").contains("passed twice"));
    assert!(under(&start.test.steps, "Give").contains("never a household cleaner, and never near bleach"));
    assert!(under(&start.hand, "Ammonium chloride").contains("never near bleach"));
}

#[test]
fn rules_10_and_15_no_ammonium_where_an_animal_lives() {
    let animal = kept(0, What::Animals { who: "snails".into(), change: 2, counted: None });
    let start = begin(&settled(EMPTY), std::slice::from_ref(&animal), 1);
    assert_eq!((start.test.grams, start.test.animals_in), (None, Some(true)));
    assert!(!texts(&start.test.steps).contains("stirred into"), "{}", texts(&start.test.steps));
    assert!(texts(&start.test.steps).contains("Give no ammonia"));
    assert!(!texts(&start.hand).contains("chloride"), "none is bought either: {}", texts(&start.hand));
    assert!(start.answer.contains("no ammonia"), "{}", start.answer);
    // They were given away again: the test may go on.
    let gone = kept(2, What::Animals { who: "snails".into(), change: -2, counted: None });
    assert!(begin(&settled(EMPTY), &[animal, gone], 3).test.grams.is_some());
    // One fewer than ever came: the log began later than the animals, and can't say that none is left.
    let died = kept(2, What::Animals { who: "fish".into(), change: -1, counted: None });
    let unknown = begin(&settled(EMPTY), &[died], 3).test;
    assert_eq!((unknown.animals_in, unknown.steps[0].about.as_str()), (None, "First"));
    // Nobody said: the question stands before the dose, and the number at which harm starts in its sentence.
    let open = begin(&settled(EMPTY), &[], 0).test;
    assert_eq!(open.steps[0].about, "First");
    assert!(under(&open.steps, "Give").starts_with("Only while no animal is in the tank"));
    assert!(under(&open.steps, "Give").contains("harm starts at 0.016 mg/L"), "{}", under(&open.steps, "Give"));
}

#[test]
fn rule_15_a_ground_that_gives_off_ammonia_waits_for_its_own_end() {
    let soil = settled(&EMPTY.replace("kind = \"gravel\"", "kind = \"baked_soil\""));
    let start = begin(&soil, &[], 0);
    let says = under(&start.weeks_notes, "This ground gives off ammonia");
    assert!(says.contains("No animal meanwhile, snails included; then the start test"), "{says}");
    assert!(start.weeks[2].tests.contains("once it shows the lowest step by itself"));
    assert!(start.weeks[0].change_share > 0.0 && start.weeks[0].every_days == 2);
}

#[test]
fn rule_4_copper_is_told_to_whoever_brings_shrimps() {
    let told = settled(&HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.005 mg/L\""));
    let says = texts(&begin(&told, &[], 0).home.steps);
    assert!(says.contains("up to 0.006 mg/L") && says.contains("0.008 mg/L"), "{says}");
    assert!(!texts(&begin(&settled(HOUSEHOLD), &[], 0).home.steps).contains("copper"), "0.003 mg/L is under the mark");
}

/// The household's tap with so much copper, or chlorine, in it.
fn refused() -> [Settled; 2] {
    [
        ("copper = \"0.002 mg/L\"", "copper = \"0.02 mg/L\""),
        ("total_chlorine = \"0.4 mg/L\"", "total_chlorine = \"6 mg/L\""),
    ]
    .map(|(is, becomes)| settled(&HOUSEHOLD.replace(is, becomes)))
}

#[test]
fn rules_1_and_4_no_week_changes_with_a_tap_that_is_refused_and_the_first_bucket_says_so() {
    let sold = kept(0, What::Animals { who: "shrimps".into(), change: 0, counted: Some(0) });
    for s in refused() {
        // With animals in it, with nothing said of them, and while none has come.
        for (log, told) in [(vec![], true), (vec![], false), (vec![sold.clone()], false)] {
            let mut s =
                settled(&s.setup.text().replace("start_test_passed = true", &format!("start_test_passed = {told}")));
            s.tank.animals.start_test_passed = told;
            let start = begin(&s, &log, 1);
            assert!(
                start.weeks.iter().all(|week| week.change_share == 0.0 && week.every_days == 0),
                "{:?}",
                start.weeks
            );
            assert!(
                under(&start.day, "A hand’s breadth of water").contains("But not with this tap"),
                "{}",
                texts(&start.day)
            );
            let says = under(&start.weeks_notes, "Changes");
            assert!(says.contains("0.008") || says.contains("supplier"), "{says}");
            assert!(!says.contains("While no animal is in it"), "{says}");
        }
    }
}

/// A tank of fish at a tap of chloramine, so that its changes are limited; so much more told of its animals.
fn limited(animals: &str) -> Settled {
    settled(
        &with(&format!("[animals]\nfish = 6\n{animals}"))
            .replace("disinfectant = \"none\"", "disinfectant = \"chloramine\"\ntotal_chlorine = \"2 mg/L\""),
    )
}

#[test]
fn rules_3_and_8_the_weeks_of_a_tank_with_animals_are_those_of_its_plan() {
    for animals in ["start_test_passed = true", "unchanged_months = 14", ""] {
        let s = limited(animals);
        let plan = &s.plan.change;
        assert!(plan.share < s.tank.habits.change_share.value && plan.limited.is_some(), "{plan:?}");
        let start = begin(&s, &[], 0);
        assert!(start.weeks.iter().all(|w| w.change_share == plan.share && w.every_days == plan.every_days));
        assert_eq!(under(&start.weeks_notes, "Changes").contains("While no animal is in it"), animals.is_empty());
    }
    // Nobody lives in it by the log: what the keeper told.
    let none = kept(0, What::Animals { who: "fish".into(), change: 0, counted: Some(0) });
    let s = limited("");
    let start = begin(&s, &[none], 1);
    assert!(start.weeks.iter().all(|w| w.change_share == s.tank.habits.change_share.value), "{:?}", start.weeks);
    // Ground that gives off ammonia: half changes only while nobody lives there.
    let lives = kept(0, What::Animals { who: "fish".into(), change: 6, counted: None });
    let soil = settled(&limited("").setup.text().replace("kind = \"gravel\"", "kind = \"baked_soil\""));
    let start = begin(&soil, &[lives], 1);
    assert!(start.weeks.iter().all(|w| w.change_share == soil.plan.change.share), "{:?}", start.weeks);
    assert!(under(&start.weeks_notes, "This ground gives off ammonia").contains("0.016 mg/L"));
}

#[test]
fn rules_10_and_15_no_week_of_a_tank_with_animals_asks_for_the_start_test() {
    let lives = kept(0, What::Animals { who: "fish".into(), change: 6, counted: None });
    for s in [limited(""), limited("start_test_passed = true"), settled(&EMPTY.replace("\"gravel\"", "\"baked_soil\""))]
    {
        let start = begin(&s, std::slice::from_ref(&lives), 1);
        assert!(start.weeks.iter().all(|week| !week.tests.contains("start test")), "{:?}", start.weeks);
    }
}

#[test]
fn rules_6_and_8_the_conductivity_of_a_tank_long_unchanged_is_not_guessed() {
    let s = limited("unchanged_months = 14");
    let bag = Bag { conductivity_25_us_per_cm: Some(150.0), ..Bag::default() };
    let home = care::start::start(&s.setup, &s.tank, &s.plan, &[], &at(0), &bag).home;
    assert_eq!(home.tub_days, None);
    let says = texts(&home.steps);
    assert!(!says.contains("Yours are") && !says.contains("in the tank. At most a tenth"), "{says}");
    let ask = under(&home.steps, "Measure the bag and your tank");
    for words in ["14 months", "can’t tell", "by a tenth a day", "never gets a big change", "ammonia"] {
        assert!(ask.contains(words), "{words}: {ask}");
    }
}

#[test]
fn rule_5_no_bucket_of_the_first_filling_is_over_ten_litres() {
    let big = settled(&with("[at_hand]\nbucket = \"20 L\""));
    assert_eq!(big.tank.at_hand.bucket_l.value, 20.0);
    let start = begin(&big, &[], 0);
    // 185 L by 10 L: nineteen times with 9.74 L.
    assert!(under(&start.hand, "Bucket").contains("19 times with 9.74 L"), "{}", under(&start.hand, "Bucket"));
}

#[test]
fn rule_6_what_differs_more_than_a_day_bears_comes_as_days() {
    let s = settled(EMPTY);
    let bag = Bag { conductivity_25_us_per_cm: Some(150.0), temperature_c: Some(18.0), ..Bag::default() };
    let home = care::start::start(&s.setup, &s.tank, &s.plan, &[], &at(0), &bag).home;
    assert!(home.tub_days.is_some_and(|n| n > 5.0), "{:?}", home.tub_days);
    let tub = under(&home.steps, "Their water is not yours");
    assert!(tub.contains("not into the tank today") && tub.contains("a tenth a day"), "{tub}");
    assert!(under(&home.steps, "Warmth, the bag still closed").contains("At most 2 °C a day"));
}

#[test]
fn rule_7_the_bags_ammonia_decides_the_way() {
    let s = settled(EMPTY);
    let home = |ammonia: f64| {
        let bag = Bag { ammonia_mg_n_per_l: Some(ammonia), ph: Some(6.4), temperature_c: Some(24.0), ..Bag::default() };
        care::start::start(&s.setup, &s.tank, &s.plan, &[], &at(0), &bag).home
    };
    let share = s.plan.aired.as_ref().expect("aired").nh3_fraction.high;
    // Just under and just over the limit of 0.016 mg/L in open water.
    let (under_it, over_it) = (home(0.0159 / share), home(0.0161 / share));
    assert!(texts(&under_it.steps).contains("let water of the tank drip in"));
    assert!(texts(&over_it.steps).contains("No dripping") && !texts(&over_it.steps).contains("drip in"));
    assert!(under(&over_it.steps, "Its ammonia").contains("harm starts at 0.016 mg/L"));
    assert!(texts(&over_it.steps).contains("Never into the tank: down the drain"));
}

#[test]
fn rule_6_animals_whose_water_is_another_are_not_netted_into_the_tank_by_the_next_step() {
    let s = settled(EMPTY);
    let us = s.plan.aired.as_ref().expect("aired").conductivity_25_us_per_cm.value;
    let bag = |us: f64| Bag {
        conductivity_25_us_per_cm: Some(us),
        ph: Some(7.0),
        ammonia_mg_n_per_l: Some(3.0),
        ..Bag::default()
    };
    let home = |b: Bag| care::start::start(&s.setup, &s.tank, &s.plan, &[], &at(0), &b).home;
    let far = home(bag(3.0 * us));
    let place = |about: &str| far.steps.iter().position(|step| step.about == about).expect("a step");
    assert!(place("Their water is not yours") < place("At once, without its water"));
    assert!(under(&far.steps, "At once, without its water").contains("into the tub within minutes"));
    assert!(under(&home(bag(us)).steps, "At once, without its water").contains("into the tank within minutes"));
}

#[test]
fn rules_12_and_13_carbon_dioxide_waits_for_the_animals() {
    let given = settled(&EMPTY.replace("country = \"eu\"", "country = \"eu\"\nco2 = \"15 mg/L\""));
    let says = texts(&begin(&given, &[], 0).weeks_notes);
    assert!(says.contains("at or under 30 mg/L") && says.contains("22 mg/L of carbon dioxide can be 30"), "{says}");
    assert!(says.contains("raise it over days") && says.contains("never switched off for carbon dioxide"));
    assert!(!texts(&begin(&settled(EMPTY), &[], 0).weeks_notes).contains("arbon dioxide"));
}

#[test]
fn rule_16_nitrate_is_told_to_whoever_brings_shrimps() {
    let says = texts(&begin(&settled(HOUSEHOLD), &[], 0).home.steps);
    assert!(says.contains("Your tap brings up to 21 mg/L NO3") && says.contains("13 mg/L of nitrate"), "{says}");
    let little = EMPTY.replace("nitrate = \"12 mg/L NO3\"", "nitrate = \"1 mg/L NO3\"");
    let little = settled(&format!("{little}\n[food]\nper_day = \"0 g a day\"\n[feeding]\nwish = \"none\"\n"));
    assert!(!texts(&begin(&little, &[], 0).home.steps).contains("13 mg/L of nitrate"));
}

#[test]
fn rules_18_and_20_the_plugs_are_the_last_act_and_the_first_ever_after() {
    let day = begin(&settled(EMPTY), &[], 0).day;
    let place = |about: &str| day.iter().position(|note| note.about == about).unwrap_or_else(|| panic!("{about}"));
    assert!(place("Nothing is plugged in") < place("A hand’s breadth of water"));
    for before in ["Ground", "Plants", "Fill it", "Loops"] {
        assert!(place(before) < place("The plugs, last"), "{before}");
    }
    assert!(under(&day, "Loops").contains("loop below its socket"));
    let plugs = under(&day, "The plugs, last");
    assert!(plugs.contains("dry hands") && plugs.contains("30 mA") && plugs.contains("15 minutes later"), "{plugs}");
    assert!(under(&day, "From now on").contains("before your hands go in"));
    assert!(under(&begin(&settled(EMPTY), &[], 0).home.steps, "Hands").contains("before your hands go in"));
}

#[test]
fn rules_22_and_23_powders_and_siphons_are_minded() {
    let start = begin(&settled(EMPTY), &[], 0);
    let weigh = under(&start.test.steps, "Weigh");
    assert!(weigh.contains("dust mask and gloves") && weigh.contains("poison centre"), "{weigh}");
    assert!(under(&start.weeks_notes, "Hands in the water").contains("Never start a siphon by mouth"));
}

#[test]
fn rule_24_the_load_is_stated_and_asked() {
    let s = settled(EMPTY);
    let says = under(&begin(&s, &[], 0).day, "Where it stands").to_owned();
    assert!(says.contains("kPa") && says.contains("I can't tell"), "{says}");
    assert!(says.contains("Ask whether floor and stand bear this mass and pressure"), "{says}");
    let kg = s.tank.geometry.mass_kg.high.round();
    assert!(says.contains(&format!("{kg} kg")), "{says}");
    assert!(!says.contains("it holds that"));
}

#[test]
fn rule_18_what_a_stuck_heater_does_here_stands_before_one_is_bought() {
    let s = settled(EMPTY);
    let hand = begin(&s, &[], 0).hand;
    let heater = under(&hand, "Heater");
    assert!(heater.starts_with("Stuck on") && heater.contains("two rather than one"), "{heater}");
    let sum = trouble::heater_stuck(&s.tank, &s.plan).expect("a glass");
    // The sum of Help now, held against small steps in trouble/tests/by_hand_power.rs.
    assert!(heater.contains(&sum.head), "{heater}");
}

#[test]
fn rule_14_what_a_cylinder_does_to_a_room_stands_before_set_up_day() {
    let mut s = settled(EMPTY);
    let title = |s: &_, title: &str| begin(s, &[], 0).hand.iter().any(|note| note.about == title);
    assert!(!title(&s, "Carbon dioxide cylinder"));
    s.tank.keeping.cylinder = Some(setup::Cylinder { full_g: 4200.0, holds_g: 2000.0 });
    let hand = begin(&s, &[], 0).hand;
    let says = under(&hand, "Carbon dioxide cylinder");
    // By hand, at 20 °C (a mole is 8.314 × 293.15 ÷ 101,325 = 24.06 L): 2,000 ÷ 44.01 × 24.06 = 1,093 L, one part in a hundred of 109 m³.
    assert!(says.contains("a room of 110 m³ or more"), "{says}");
    for must in ["upright and fixed", "Ventilate", "soap water", "alarm", "regulator made for it", "don't go back"] {
        assert!(says.contains(must), "{must}: {says}");
    }
}

#[test]
fn rule_15_a_later_reading_that_does_not_pass_undoes_the_round() {
    let good = round(0, 0.02, 0.02);
    assert_eq!(stage(&good, 60), Stage::Partly { times: 1 });
    let undone = [good.clone(), vec![read(36, NITRITE, 0.5, false)]].concat();
    assert_eq!(stage(&undone, 60), Stage::Failed);
    // What was read before the day after is of the ammonia that was given.
    let early = [good, vec![read(6, AMMONIA, 0.9, false)]].concat();
    assert_eq!(stage(&early, 60), Stage::Partly { times: 1 });
}
