//! Amounts of set-up day, the weeks and the bag, by hand.
//!
//! Judge: hand arithmetic, written beside each check. Molar masses: IUPAC 2022. Densities, depths and hours are the table's own.

use crate::start::{EMPTY, SOIL, Settled, at, done, settled, texts, under, with};
use care::start::{Bag, Path, Start, Way, light_h};

fn begin(s: &Settled, bag: &Bag) -> Start {
    care::start::start(&s.setup, &s.tank, &s.plan, &[], &at(0), bag)
}

#[test]
fn the_ammonia_is_a_milligram_of_nitrogen_for_each_true_litre() {
    // 100 × 50 × 40 cm of water are 200 L; 25 L of gravel take (1 - 0.40) × 25 = 15 L of it: 185 L.
    let s = settled(EMPTY);
    assert!((s.tank.geometry.true_l.value - 185.0).abs() < 0.01);
    // NH4Cl: 14.007 + 4 × 1.008 + 35.45 = 53.489 g/mol, N 14.007 of it: 261.87 mg in a gram, of 99 % product 259.25.
    // 185 mg ÷ 259.25 mg/g = 0.7136 g.
    let grams = begin(&s, &Bag::default()).test.grams.expect("nobody lives there");
    assert!((grams - 0.7136).abs() < 0.0005, "{grams}");
    // The rule of thumb that the program is held to: 0.25 g in 64.5 L.
    assert!((grams * 64.5 / 185.0 - 0.25).abs() < 0.005);
}

#[test]
fn the_ground_is_weighed_and_the_floor_is_counted() {
    let start = begin(&settled(EMPTY), &Bag::default());
    let bed = start.bed.expect("gravel");
    // 10 dm × 5 dm × 0.5 dm = 25 L; × 1.6 kg/L = 40 kg.
    assert!((bed.litres - 25.0).abs() < 1e-9 && (bed.kg.value - 40.0).abs() < 1e-9, "{bed:?}");
    // 10 dm × 5 dm = 50 dm² × 2 = 100 plants.
    assert_eq!(start.plants.value, 100.0);
    assert_eq!(start.path, Path::Plain);
    // 185 L ÷ 9 L = 20.6: 21 buckets of 8.81 L.
    assert!(under(&start.hand, "Bucket").contains("21 times with 8.81 L"), "{}", under(&start.hand, "Bucket"));
}

#[test]
fn soil_lies_under_its_cap_and_takes_its_own_way() {
    // Before its animals came.
    let s = settled(&SOIL.replace("start_test_passed = true", "start_test_passed = false"));
    let start = begin(&s, &Bag::default());
    let bed = start.bed.expect("soil");
    // 23.5 × 12 in × (2 + 2.5) ÷ 2 in, an inch 0.254 dm: 5.969 × 3.048 × 0.5715 = 10.397 L; 2 cm of the mean 5.715 are soil.
    let soil_l = 10.397 * 2.0 / 5.715;
    assert!((bed.litres - 10.397).abs() < 0.01, "{bed:?}");
    assert!((bed.soil_kg.expect("soil").value - 1.3 * soil_l).abs() < 0.01);
    assert!((bed.kg.value - 1.6 * (10.397 - soil_l)).abs() < 0.02);
    assert_eq!(start.path, Path::Leaching);
    // From 8 to 1 mg/L by halves: 4, 2, 1: three changes.
    assert!(texts(&start.weeks_notes).contains("from 8 to 1 mg/L that is three changes"));
    // Two weeks of every second day are 7 changes; four more weeks one each: 11.
    assert!(under(&start.weeks_notes, "Way one: planted at once").contains("11 changes"));
    let week = |n: usize| &start.weeks[n - 1];
    assert_eq!((week(1).every_days, week(2).every_days, week(3).every_days), (2, 2, 7));
    assert_eq!(week(1).change_share, 0.5);
    assert_eq!(week(7).change_share, s.plan.change.share, "then the plan's own");
}

#[test]
fn light_grows_by_less_than_an_eighth_a_week() {
    // 6, 6.5, 7, 7.5, 8, 8 ...: the largest step is 0.5 ÷ 6 = 8.3 %, common practice allows 10 to 15 %.
    let mut tank = settled(EMPTY).tank;
    let mut hours = |h: f64| -> Vec<f64> {
        tank.keeping.light_h = quantity::Known::exact(h, quantity::Kind::Measured);
        (1..=8).map(|week| light_h(&tank, week)).collect()
    };
    assert_eq!(hours(8.0), [6.0, 6.5, 7.0, 7.5, 8.0, 8.0, 8.0, 8.0]);
    assert!(hours(8.0).windows(2).all(|pair| pair[1] / pair[0] <= 1.10));
    // The keeper's own hours end it, but none over the ten that plants can use.
    assert_eq!(hours(7.0)[7], 7.0);
    assert!(hours(14.0).iter().all(|h| *h <= 10.0));
}

#[test]
fn weeks_have_dates_once_the_log_knows_the_first_day() {
    let s = settled(EMPTY);
    // Filled on Monday, 1 June; nine days later it is Wednesday of week two.
    let log = [done(0, care::start::SET_UP)];
    let start = care::start::start(&s.setup, &s.tank, &s.plan, &log, &at(9 * 24), &Bag::default());
    assert_eq!(start.weeks[1].from.expect("a date").to_string(), "2026-06-08");
    assert!(start.answer.starts_with("Week 2: 6.5 hours"), "{}", start.answer);
}

#[test]
fn the_bag_turns_toxic_in_open_water() {
    let s = settled(EMPTY);
    let bag = Bag { ammonia_mg_n_per_l: Some(2.0), ph: Some(6.5), temperature_c: Some(24.0), ..Bag::default() };
    let home = begin(&s, &bag).home;
    // Emerson et al. 1975 at infinite dilution: pKa = 0.09018 + 2729.92 ÷ 297.15 = 9.2772; share at pH 6.5:
    // 1 ÷ (1 + 10^2.7772) = 0.1669 %; × 2 = 0.00334 mg/L. In a water of ionic strength 0.007 activities take some 8 %.
    let closed = home.toxic_closed_mg_n_per_l.expect("within range");
    assert!(closed < 0.00334 && closed > 0.87 * 0.00334, "{closed}");
    // At the tank's pH, the upper end: Emerson's share there, less the same 8 %.
    let ph = s.plan.aired.as_ref().expect("aired").ph.high;
    let t = s.tank.temperature_c.high + 273.15;
    let emerson = 2.0 / (1.0 + 10f64.powf(0.0901821 + 2729.92 / t - ph));
    let open = home.toxic_open_mg_n_per_l.expect("within range");
    assert!(open < emerson && open > 0.87 * emerson, "{open} beside {emerson}");
    assert_eq!(home.way, Some(Way::AtOnce));
    // Hardly any ammonia: 0.05 × the share of at most 0.16 stays under 0.016.
    let bag = Bag { ammonia_mg_n_per_l: Some(0.05), ..bag };
    assert_eq!(begin(&s, &bag).home.way, Some(Way::Slowly));
}

#[test]
fn a_tub_brings_them_over_by_a_tenth_a_day() {
    let s = settled(EMPTY);
    let tank = s.plan.aired.as_ref().expect("aired").conductivity_25_us_per_cm.value;
    let days = |share: f64| {
        let bag = Bag { conductivity_25_us_per_cm: Some(share * tank), ..Bag::default() };
        begin(&s, &bag).home.tub_days.expect("measured")
    };
    // Doubled: 1.1^7 = 1.95, 1.1^8 = 2.14: eight days. Halved: 0.9^6 = 0.53, 0.9^7 = 0.48: seven.
    assert_eq!((days(0.5), days(2.0)), (8.0, 7.0));
    // Within a tenth: none.
    assert_eq!((days(0.95), days(1.05)), (0.0, 0.0));
}

#[test]
fn warmth_is_a_degree_an_hour() {
    let s = settled(&with(""));
    let says = |t: f64| {
        let home = begin(&s, &Bag { temperature_c: Some(t), ..Bag::default() }).home;
        (home.hours.expect("measured"), under(&home.steps, "Warmth, the bag still closed").to_owned())
    };
    // 24 °C: half a degree floats, two degrees take two hours, five are three more than a day bears: two days of 2 °C.
    assert!(says(23.5).1.contains("float for 15 to 20 minutes"));
    let (hours, text) = says(22.0);
    assert_eq!(hours, 2.0);
    assert!(text.contains("two hours"), "{text}");
    let (_, text) = says(19.0);
    assert!(text.contains("too much for one day") && text.contains("two days"), "{text}");
}

/// What is bought is what the weighing takes: a stock of half a gram where three tests need less; and the rest has a place.
#[test]
fn ammonium_chloride_is_as_much_as_is_weighed() {
    let s = settled(EMPTY);
    let start = begin(&s, &Bag::default());
    let grams = start.test.grams.expect("nobody lives there");
    let product = knowledge::book().with_role(knowledge::Role::StartTest).next().expect("in the table");
    let weighed = recipe::portion_weighs(&s.tank, product, grams, 3.0);
    // Three times what the scale of 0.1 g weighs of one: within half a step each.
    assert!((weighed - 3.0 * grams).abs() <= 3.0 * 0.05 + 1e-9, "{weighed}");
    let mut small = s.tank.clone();
    // 10 L: 1 mg/L of N × 10 L ÷ 261.9 mg N in a gram = 0.038 g, three of them 0.11 g; a scale of 0.1 g is trusted from 0.5 g on.
    small.geometry.true_l = small.geometry.true_l.map(|_| 10.0);
    let needs = grams * 10.0 / s.tank.geometry.true_l.value;
    assert!(recipe::portion_weighs(&small, product, needs, 3.0) > 4.0 * needs, "a stock takes more");
    let says = under(&start.test.steps, "Weigh");
    assert!(says.contains("What is left keeps for the next rounds") && says.contains("locked away"), "{says}");
}

/// The first buckets are as many as a hand's breadth takes; all of them are counted where the tank is filled.
#[test]
fn the_buckets_are_counted_where_the_tank_is_filled() {
    let s = settled(EMPTY);
    let start = begin(&s, &Bag::default());
    let (first, all) = (under(&start.day, "A hand’s breadth of water"), under(&start.day, "Fill it"));
    assert!(!first.contains("21 buckets") && first.contains("Each bucket, now and later"), "{first}");
    assert!(all.contains("21 buckets of 8.81 L"), "{all}");
}
