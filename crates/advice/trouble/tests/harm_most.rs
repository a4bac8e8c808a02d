//! One voice: how much is changed at once, and what a reading without its unit or basis counts as.

use crate::common;

use crate::common::{answer, close, figure, now, sum, words, work};
use quantity::{TemperatureUnit, Units};
use trouble::{CHANGE_MOST, Told, Urgency, asks, outcomes, worked};

/// A tap whose chloramine leaves ammonia, and rather alkaline water: the plan limits the change.
const CHLORAMINE: [(&str, &str); 4] =
    [("tap.disinfectant", "chloramine"), ("tap.total_chlorine", "2 mg/L"), ("tap.ph", "8.2"), ("animals.shrimps", "5")];

#[test]
fn rule_3_what_the_plan_limits_stands_first_and_nothing_offers_more() {
    let answer = answer(&CHLORAMINE);
    let all = outcomes(&answer);
    let outcome = all.first().unwrap();
    let change = &outcome.plan.change;
    assert!(change.limited.is_some() && change.share < 0.3, "{change:?}");
    for trouble in ["gasping", "lying", "ammonia"] {
        let told = Told::default();
        let worked = worked(trouble, &outcome.case(&told), &[], &now());
        let first = worked.sums.first().unwrap();
        assert_eq!(first.key, CHANGE_MOST, "{trouble}");
        // The same litres as the plan that Care and Salts print.
        close(figure(first, "litres_most"), change.litres, 1e-9);
        // In need a day apart with a test before each, as the way back of a slip; the plan's days renew as much as before, no more.
        close(figure(first, "again_after_hours"), 24.0, 1e-9);
        assert!(words(first).contains(change.most_because.as_ref().unwrap()), "{}", words(first));
        let conditioner = outcome.plan.new_water.conditioner.as_ref().unwrap();
        let ml = format!(
            "{} mL for the whole tank",
            quantity::format_number(conditioner.ml_whole_tank, quantity::Digits::Significant(4))
        );
        assert!(words(first).contains(&ml), "{ml} in {}", words(first));
        for other in worked.sums.iter().skip(1) {
            assert!(!words(other).contains("half change"), "{trouble}: {}", words(other));
        }
    }
    // Nitrite is thinned by as much at a time, never by a half.
    let mut told = Told::default();
    told.take("nitrite", "1 mg/L N").unwrap();
    let worked = worked("ammonia", &outcome.case(&told), &[], &now());
    let nitrite = words(sum(&worked, "nitrite"));
    assert!(!nitrite.contains("50 %") && nitrite.contains("24 hours apart or more"), "{nitrite}");
}

#[test]
fn rule_8_an_old_tank_gets_its_tenth_in_the_first_line() {
    let worked = work("gasping", &[("animals.unchanged_months", "8")], &[]);
    let first = worked.sums.first().unwrap();
    assert!(figure(first, "share_most") <= 0.1 && first.key == CHANGE_MOST, "{first:?}");
}

#[test]
fn rule_7_no_change_with_this_water_means_that_no_line_offers_one() {
    // Soft acid tank, hard alkaline tap: each change raises pH.
    let fields = [("tap.alkalinity", "6 meq/L"), ("tap.ph", "8.4"), ("tap.calcium", "120 mg/L")];
    let readings = [("ammonia", "4 mg/L N"), ("ph", "6.9"), ("alkalinity", "0.4 meq/L"), ("nitrite", "1 mg/L N")];
    let worked = work("ammonia", &fields, &readings);
    assert!(words(sum(&worked, "toxic-ammonia")).contains("No change with this water"), "{worked:#?}");
    let first = worked.sums.first().unwrap();
    assert!(first.head.starts_with("In this tank: no change with this water"), "{first:?}");
    for sum in &worked.sums {
        assert!(!["half-change", "new-water-temperature"].contains(&sum.key.as_str()), "{sum:?}");
        let text = words(sum);
        for offer in ["Change ", "A change of", "bear a half change", "at once in place of"] {
            assert!(!text.contains(offer), "{offer}: {text}");
        }
    }
}

#[test]
fn an_overdose_below_harm_says_first_that_no_change_is_needed() {
    let worked = work("overdose", &[], &[("times", "2")]);
    let first = worked.sums.first().unwrap();
    assert_eq!((first.key.as_str(), first.urgency), (CHANGE_MOST, Urgency::LeaveItBe), "{worked:#?}");
    assert!(first.head.contains("no change of water is needed for 2 times"), "{first:?}");
    assert!(words(first).contains("Leave the next dose out."), "{first:?}");
}

#[test]
fn one_arithmetic_for_a_slip_and_for_help_now() {
    let answer = answer(&[]);
    let all = outcomes(&answer);
    let plan = all.first().unwrap().plan;
    let worked = work("overdose", &[], &[("times", "10")]);
    let mut seen = 0;
    for (bottle, sum) in plan.bottles.iter().zip(worked.sums.iter().filter(|sum| sum.key == "overdose")) {
        // What the bottle's own sentence names first is what is nearest to its limit.
        let rises = sum.says.iter().find(|text| text.contains(" rises by ")).unwrap();
        let figure = rises.split("rises by ").nth(1).unwrap().split(' ').next().unwrap();
        if bottle.slip.contains(&format!("rises by {figure} ")) {
            seen += 1;
        }
        assert!(bottle.slip.contains("Leave the next nine doses of"), "{}", bottle.slip);
    }
    assert!(seen > 0, "{worked:#?}");
}

#[test]
fn a_bare_number_is_in_the_unit_of_the_blank() {
    let us = Units { temperature: TemperatureUnit::Fahrenheit, ..Units::default() };
    let mut told = Told::default();
    told.take_in("temperature", "77", "", &us).unwrap();
    // (77 - 32)/1.8 = 25.
    close(told.get("temperature").unwrap(), 25.0, 1e-9);
    for (key, text, value) in
        [("temperature", "24", 24.0), ("ph", "8", 8.0), ("new_litres", "40", 40.0), ("watts", "50", 50.0)]
    {
        told.take(key, text).unwrap();
        close(told.get(key).unwrap(), value, 1e-9);
    }
    // Every example can be read back, in every unit.
    for units in [Units::default(), us] {
        for ask in ["gasping", "heater-dead", "nitrate", "alkalinity"].into_iter().flat_map(asks) {
            Told::default()
                .take_in(ask.key, &ask.example_in(&units), "", &units)
                .unwrap_or_else(|fault| panic!("{fault}"));
        }
    }
}

#[test]
fn ammonia_without_its_basis_is_taken_at_the_bad_end_and_says_so() {
    let value = |text: &str, basis: &str| {
        let mut told = Told::default();
        told.take_in("ammonia", text, basis, &Units::default()).unwrap();
        told.get("ammonia").unwrap()
    };
    // 14.007/18.039 = 0.7765 of NH4 is N.
    for (text, basis, mg_n) in [
        ("0.25", "", 0.25),
        ("0.25 mg/L", "", 0.25),
        ("0.25", "N", 0.25),
        ("0.25", "NH4", 0.25 * 0.7765),
        ("0.25 mg/L NH4", "", 0.25 * 0.7765),
        ("<0.25", "", 0.25),
    ] {
        close(value(text, basis), mg_n, 1e-4);
    }
    let guessed = work("ammonia", &[], &[("ammonia", "0.25")]);
    assert!(words(sum(&guessed, "toxic-ammonia")).contains("taken as N, the bad end"), "{guessed:#?}");
    let said = work("ammonia", &[], &[("ammonia", "0.25 mg/L N")]);
    assert!(!words(sum(&said, "toxic-ammonia")).contains("bad end"));
}

#[test]
fn what_could_not_be_read_is_not_taken_from_the_log_either() {
    let mut told = Told::default();
    assert!(told.take("temperature", "warm").is_err());
    let reading = logbook::Reading {
        of: "temperature".to_owned(),
        value: 20.0,
        below: false,
        error: None,
        kit: None,
        sure: logbook::Sure::Plain,
    };
    told.hear(&[common::kept(1, 1.0, logbook::What::Test(reading))], &now());
    assert_eq!(told.get("temperature"), None);
}

#[test]
fn rule_8_nobody_is_calmed_by_the_alkalinity_of_a_tank_that_went_its_own_way_for_months() {
    let old = [("animals.unchanged_months", "14")];
    let untested = work("alkalinity", &old, &[]);
    let said = sum(&untested, "alkalinity");
    assert!(said.urgency == Urgency::AtOnce && said.head.contains("can’t tell"), "{said:?}");
    let tested = work("alkalinity", &old, &[("alkalinity", "2 meq/L")]);
    assert!(sum(&tested, "alkalinity").head.contains("it holds"), "a test of the keeper’s own counts");
}

#[test]
fn rule_4_a_tap_that_is_refused_is_no_way_out_of_nitrate() {
    // Copper above the limit, with shrimps: no water is changed.
    let worked =
        work("nitrate", &[("tap.copper", "0.03 mg/L"), ("animals.shrimps", "30")], &[("nitrate", "120 mg/L NO3")]);
    let said = words(sum(&worked, "nitrate"));
    assert!(said.contains("may not be changed here") && !said.contains("A change of"), "{said}");
}

/// The litres that the first line allows at a time.
fn litres_most(trouble: &str, fields: &[(&str, &str)]) -> f64 {
    let worked = work(trouble, fields, &[]);
    figure(worked.sums.iter().find(|sum| sum.key == CHANGE_MOST).unwrap(), "litres_most")
}

#[test]
fn rule_3_whoever_changes_little_is_not_offered_more_than_whoever_changes_much() {
    for habit in ["0 %", "5 %", "10 %", "30 %", "50 %"] {
        let fields: Vec<_> = CHLORAMINE.into_iter().chain([("habits.change", habit)]).collect();
        let much: Vec<_> = CHLORAMINE.into_iter().chain([("habits.change", "50 %")]).collect();
        let plan = answer(&fields);
        let all = outcomes(&plan);
        let change = &all.first().unwrap().plan.change;
        // The share that harms by the plan's own why-note, of a habit that passes it.
        let harms = answer(&much);
        let harms = outcomes(&harms).first().unwrap().plan.why("change-ammonia").unwrap().sum.clone();
        let percent: f64 = harms.rsplit("= ").next().unwrap().trim_end_matches(" %").parse().unwrap();
        assert!(change.share_most <= percent / 100.0, "{habit}: {} {harms}", change.share_most);
        let litres = all.first().unwrap().plan.true_l.value;
        assert!(litres_most("gasping", &fields) <= litres * percent / 100.0, "{habit}: {harms}");
    }
}

#[test]
fn rules_7_and_8_acid_water_in_which_ammonia_shows_gets_a_tenth_and_no_alkalinity() {
    let readings = [("alkalinity", "0.05 meq/L"), ("ph", "5.2"), ("ammonia", "3 mg/L N")];
    let worked = work("alkalinity", &[], &readings);
    let first = worked.sums.first().unwrap();
    assert!(figure(first, "share_most") <= 0.1, "{first:?}");
    let sum = sum(&worked, "alkalinity");
    assert!(!sum.figures.contains_key("share_a_day"), "{sum:?}");
    assert!(sum.head.contains("waits"), "{sum:?}");
}

#[test]
fn a_tap_without_alkalinity_is_no_way_to_bring_it_back() {
    // Nothing is planned for new water of a tank that is never changed: it is the tap's 0.2 °dKH, 0.07 meq/L.
    let fields = [
        ("tap.alkalinity", "0.2 °dKH"),
        ("tap.hardness", "1 °dH"),
        ("tap.calcium", "5 mg/L"),
        ("tap.magnesium", "1 mg/L"),
        ("habits.change", "0 %"),
    ];
    let worked = work("alkalinity", &fields, &[("alkalinity", "0.05 meq/L")]);
    let sum = sum(&worked, "alkalinity");
    assert!(figure(sum, "new_water_meq_per_l") < 0.36, "{sum:?}");
    assert!(!sum.figures.contains_key("share_a_day") && sum.head.contains("can’t bring alkalinity back"), "{sum:?}");
}

#[test]
fn nothing_is_said_to_hold_that_nobody_read() {
    let worked = work("alkalinity", &[], &[]);
    let sum = sum(&worked, "alkalinity");
    assert!(!sum.head.contains("holds") && words(sum).contains("Test alkalinity, pH and ammonia now"), "{sum:?}");
}

#[test]
fn rule_8_an_untested_tank_on_a_tap_without_alkalinity_gets_a_tenth() {
    // Harm rule 6: 0.36 meq/L hold pH; a tap of 0.2 °dKH brings 0.07.
    let soft = [("tap.alkalinity", "0.2 °dKH"), ("tap.calcium", "2 mg/L"), ("tap.magnesium", "0.4 mg/L")];
    for trouble in ["gasping", "lying"] {
        let first = |readings: &[(&str, &str)]| work(trouble, &soft, readings).sums.first().unwrap().clone();
        assert!(figure(&first(&[]), "share_most") <= 0.1 + 1e-9, "{trouble}");
        // A test of the keeper's own counts.
        assert!(figure(&first(&[("alkalinity", "0.6 meq/L")]), "share_most") > 0.1, "{trouble}");
    }
}

#[test]
fn rule_3_what_a_tap_only_may_bring_is_tested_first_and_then_more_is_changed() {
    let unknown = [("tap.disinfectant", "chloramine"), ("tap.total_chlorine", "2 mg/L"), ("tap.ph", "8.2")];
    let worked = work("gasping", &unknown, &[]);
    let first = worked.sums.first().unwrap();
    let (below, full) = (figure(first, "bucket_mg_n_per_l"), figure(first, "bucket_share"));
    assert!(full > 2.0 * figure(first, "share_most"), "{first:?}");
    assert!(first.says.first().unwrap().starts_with("Test a bucket of new water for ammonia now"), "{first:?}");
    // Mixed by volume a bucket below it keeps the tank under what it bears, and one above it does not: read so, it is let in.
    let read = |mg: f64| {
        let text = format!("{mg} mg/L N");
        figure(work("gasping", &unknown, &[("tap_ammonia", &text)]).sums.first().unwrap(), "share_most")
    };
    close(read(0.99 * below), full, 1e-9);
    assert!(read(1.05 * below) < full);
    // Ammonia in the tank, and a tap that may bring as much: the test decides between no change and the full one.
    let tank = [("ammonia", "0.5 mg/L N"), ("ph", "8.2")];
    let worked = work("ammonia", &unknown, &tank);
    let (first, toxic) = (worked.sums.first().unwrap(), sum(&worked, "toxic-ammonia"));
    close(figure(first, "no_change"), 1.0, 0.0);
    assert!(first.head.contains("no change before you tested the new water"), "{first:?}");
    let below = figure(toxic, "bucket_mg_n_per_l");
    assert!(toxic.says.first().unwrap().starts_with("Test a bucket of new water"), "{toxic:?}");
    let change = |mg: f64| {
        let text = format!("{mg} mg/L N");
        let readings = [&tank[..], &[("tap_ammonia", text.as_str())]].concat();
        sum(&work("ammonia", &unknown, &readings), "toxic-ammonia").figures.get("change_share").copied()
    };
    assert!(change(0.95 * below).is_some_and(|share| share > 0.4), "{:?}", change(0.95 * below));
    assert!(change(1.5 * below).is_none_or(|share| share < 0.4), "{:?}", change(1.5 * below));
}
