//! What was done or weighed that must not wait; each test fails when its rule is taken out.

use crate::days::{HOUSEHOLD, dose, june, log, planned, sentences, without};
use care::{Alarm, CYLINDER, Day, day, events};
use jiff::ZonedDateTime;
use logbook::{Reading, Sure, What};

fn read(of: &str, value: f64) -> What {
    What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::default() })
}

fn on_the_tenth(text: &str, entries: Vec<(ZonedDateTime, What)>) -> Day {
    let (tank, plan) = planned(text);
    day(&tank, &plan, &log(entries), &june(10, 9))
}

fn about<'a>(day: &'a Day, of: &str) -> Option<&'a Alarm> {
    day.alarms.iter().find(|alarm| alarm.of == of)
}

/// The household, eight months unchanged, topped up with its tap and changed by nobody's plan.
fn old() -> String {
    let unchanged = HOUSEHOLD
        .replace("[animals]\n", "[animals]\nunchanged_months = 8\n")
        .replace("change = \"40 %\"", "change = \"0 %\"")
        .replace("[habits]\n", "[habits]\ntop_up = \"0.6 L a day\"\n");
    let (tank, plan) = planned(&unchanged);
    assert!(tank.unchanged_months == Some(8.0) && plan.change.litres == 0.0);
    unchanged
}

#[test]
fn rule_8_more_than_a_tenth_of_an_old_tank_at_once_is_told() {
    let (tank, _) = planned(&old());
    let tenth = 0.1 * tank.geometry.true_l.value;
    let after = |litres: f64| on_the_tenth(&old(), vec![(june(10, 8), What::Change { litres })]);
    assert_eq!(about(&after(tenth), "change"), None);
    let half = after(5.0 * tenth);
    let alarm = about(&half, "change").unwrap_or_else(|| panic!("{:?}", half.alarms));
    let said = alarm.says.join(" ");
    assert!(said.contains("more than a tenth") && said.contains("Test ammonia and pH now"), "{said}");
    assert!(alarm.no_food && alarm.change_most == Some(0.0));
    assert!(half.act("feed").is_some_and(|feed| feed.amount == "none"));
    // A test after it takes its place.
    let tested = vec![(june(10, 7), What::Change { litres: 5.0 * tenth }), (june(10, 8), read("ammonia_n", 0.0))];
    assert_eq!(about(&on_the_tenth(&old(), tested), "change"), None);
    // The household is changed by plan: old is it where the log has had no change for months.
    let (tank, plan) = planned(HOUSEHOLD);
    let of = |first: ZonedDateTime| {
        let kept = log(vec![(first, What::Food { grams: 0.2 }), (june(10, 8), What::Change { litres: 2.0 * tenth })]);
        about(&day(&tank, &plan, &kept, &june(10, 9)), "change").is_some()
    };
    assert!(!of(june(1, 8)));
    assert!(of(june(1, 8).checked_sub(jiff::ToSpan::days(90)).unwrap_or_else(|fault| panic!("{fault}"))));
}

/// What lives in the sponge takes the ammonia: it is left alone while some shows, and due again when none does.
#[test]
fn rule_7_the_sponge_is_not_squeezed_while_ammonia_shows() {
    let (tank, plan) = planned(HOUSEHOLD);
    let long_ago = june(1, 8).checked_sub(jiff::ToSpan::days(90)).unwrap_or_else(|fault| panic!("{fault}"));
    let squeezed = |date: i8, mg: Option<f64>| {
        let read = mg.map(|mg| (june(date, 7), read("ammonia_n", mg)));
        let entries = [(long_ago.clone(), What::Food { grams: 0.2 })].into_iter().chain(read).collect();
        let day = day(&tank, &plan, &log(entries), &june(date, 8));
        day.act("sponge").is_some() || day.change.is_some_and(|sheet| sheet.along.iter().any(|act| act.key == "sponge"))
    };
    let due = (1..=30).find(|date| squeezed(*date, None)).unwrap_or_else(|| panic!("the sponge is due some day"));
    assert!(squeezed(due, Some(0.0)) && !squeezed(due, Some(0.5)), "{due}");
}

#[test]
fn rule_4_months_of_topping_up_are_counted() {
    // By hand: 8 × 30.4 days × 0.6 L = 145.9 L poured into so many litres.
    let (tank, plan) = planned(&old());
    let times = 1.0 + 145.9 / tank.geometry.true_l.value;
    let says = day(&tank, &plan, &[], &june(10, 9)).top_up.map(|settles| settles.says).unwrap_or_default();
    let said = says.split("So far ").nth(1).and_then(|rest| rest.split(' ').next()?.parse::<f64>().ok());
    assert!(said.is_some_and(|said| (said / times - 1.0).abs() < 0.03), "{times}: {says}");
}

#[test]
fn rule_4_a_change_with_refused_copper_water_is_told() {
    let copper = HOUSEHOLD.replace("copper = \"0.002 mg/L\"", "copper = \"0.03 mg/L\"");
    let day = on_the_tenth(&copper, vec![(june(10, 8), What::Change { litres: 6.0 })]);
    let said = about(&day, "change").map(|alarm| alarm.says.join(" ")).unwrap_or_default();
    assert!(said.contains("this water is refused here") && said.contains("copper"), "{said}");
    // A test of ammonia says nothing of copper.
    let tested = vec![(june(10, 7), What::Change { litres: 6.0 }), (june(10, 8), read("ammonia_n", 0.0))];
    assert!(about(&on_the_tenth(&copper, tested), "change").is_some());
}

#[test]
fn rule_4_copper_that_nobody_measured_is_said_in_the_act_itself() {
    let untold = without(HOUSEHOLD, "copper = ");
    let (tank, plan) = planned(&untold);
    let sheet = |text: &str| {
        let (tank, plan) = planned(text);
        day(&tank, &plan, &[], &june(13, 8))
    };
    let words = "Rain or low-mineral water first, or have it measured";
    let first = sheet(&untold);
    assert!(first.act("change").is_some_and(|act| act.says.join(" ").contains(words)), "{:?}", first.today);
    assert!(first.change.iter().any(|sheet| sheet.first.join(" ").contains(words)));
    assert!(sentences(&first).iter().filter(|says| says.contains(words)).count() >= 2);
    assert!(!sentences(&sheet(HOUSEHOLD)).iter().any(|says| says.contains(words)), "it was measured");
    // Fish alone bear more.
    let mut fish = tank.clone();
    (fish.animals.shrimps, fish.animals.snails, fish.animals.other_invertebrates) = (0, 0, 0);
    assert!(!sentences(&day(&fish, &plan, &[], &june(13, 8))).iter().any(|says| says.contains(words)));
}

#[test]
fn rule_6_six_degrees_under_the_usual_is_no_quiet_day() {
    let (tank, _) = planned(HOUSEHOLD);
    let usual = tank.temperature_c;
    let at = |c: f64| on_the_tenth(HOUSEHOLD, vec![(june(10, 8), read("temperature", c))]);
    let cold = at(usual.low - 2.5);
    let alarm = about(&cold, "temperature").unwrap_or_else(|| panic!("{usual:?}"));
    assert!(alarm.trouble == "heater-dead" && alarm.says.join(" ").contains("under the usual"), "{alarm:?}");
    assert_eq!(about(&at(usual.low - 1.5), "temperature"), None);
}

#[test]
fn rule_7_ammonia_beside_lost_alkalinity_rules_rows_and_sheet() {
    // The household with an alkalinity salt for its new water would lift pH.
    let readings = |mg: f64| vec![(june(13, 7), read("alkalinity", 0.18)), (june(13, 7), read("ammonia_n", mg))];
    let (tank, plan) = planned(HOUSEHOLD);
    let at = |mg: f64| day(&tank, &plan, &log(readings(mg)), &june(13, 8));
    let day = at(0.05);
    let alarm = about(&day, "alkalinity").unwrap_or_else(|| panic!("{:?}", day.alarms));
    let most = alarm.change_most.unwrap_or_else(|| panic!("{alarm:?}"));
    assert!(alarm.no_food && day.act("feed").is_some_and(|feed| feed.amount == "none"));
    let sheet = day.change.as_ref().unwrap_or_else(|| panic!("a sheet"));
    assert!(sheet.share <= most + 1e-9 && !sheet.salts, "{most}: {sheet:?}");
    assert!(!sheet.along.iter().any(|act| act.key == "sponge"), "{:?}", sheet.along);
    let said = sentences(&day).join(" ");
    assert!(!said.contains("take away too little") && !said.contains("  "), "{said}");
    assert!(!said.contains("bicarbonate") && !said.contains("nobody measured it"), "{said}");
    // The calendar outlives the day: no litres, no grams of food.
    let events = events(&tank, &plan, &log(readings(0.05)), &june(13, 8));
    let of = |key: &str| events.iter().find(|event| event.key == key).map(|event| event.summary.clone());
    // No change may be due in its weeks; one that is has no litres.
    assert!(of("change").is_none_or(|says| says == "Change water: litres as Care says that day"));
    assert_eq!(of("feed").as_deref(), Some("Feed: see Care first"));
}

#[test]
fn rule_10_twelve_doses_and_ten_days_of_food_are_told_the_same_day() {
    let (tank, _) = planned(HOUSEHOLD);
    let grams = 10.0 * tank.keeping.food_g_per_day.value;
    let day = on_the_tenth(HOUSEHOLD, vec![(june(10, 8), dose(60.0)), (june(10, 8), What::Food { grams })]);
    let dosed = about(&day, "dose").map(|alarm| alarm.says.join(" ")).unwrap_or_default();
    assert!(
        dosed.contains("60 mL of Bottle one in a day is 12 times the usual") && !dosed.contains("Really"),
        "{dosed}"
    );
    let fed = about(&day, "food").map(|alarm| alarm.says.join(" ")).unwrap_or_default();
    assert!(fed.contains("in a day is 10 times the usual") && fed.contains("take it out"), "{fed}");
    assert!(on_the_tenth(HOUSEHOLD, vec![(june(10, 8), dose(5.0))]).alarms.is_empty());
    // Over a limit of a day it is at once, even where no change is planned that takes it out.
    let (tank, mut plan) = planned(HOUSEHOLD);
    plan.change.every_days = 0;
    let urgent = |ml: f64| {
        let over = care::missed::doubled(&tank, &plan, ml / 5.0)[0].rises.iter().any(care::missed::Rise::over);
        let day = care::day(&tank, &plan, &log(vec![(june(10, 8), dose(ml))]), &june(10, 9));
        (over, about(&day, "dose").map(|alarm| alarm.urgency.words()))
    };
    assert_eq!(urgent(3000.0), (true, Some("at once")));
    let (over, words) = urgent(30.0);
    assert_eq!(words == Some("at once"), over, "{words:?}");
}

#[test]
fn rule_10_a_change_after_an_overdose_took_its_share_out() {
    let (tank, mut plan) = planned(HOUSEHOLD);
    plan.change.every_days = 0;
    let most = tank.geometry.true_l.high;
    let of = |entries: Vec<(ZonedDateTime, What)>| {
        let day = day(&tank, &plan, &log(entries), &june(10, 12));
        let alarm = about(&day, "dose").unwrap_or_else(|| panic!("{:?}", day.alarms));
        (alarm.urgency.words(), alarm.says.join(" "))
    };
    let half = |hour: i8| (june(10, hour), What::Change { litres: 0.5 * most });
    // 60 mL are 12 times the usual 5 mL; half of the most that the tank may hold, changed after it, leaves six of them.
    let (_, said) = of(vec![(june(10, 8), dose(60.0)), half(9)]);
    assert!(said.contains("left 50 %") && said.contains("6 times the usual 5 mL"), "{said}");
    let (_, before) = of(vec![half(7), (june(10, 8), dose(60.0))]);
    assert!(before.contains("is 12 times the usual"), "{before}");
    // Over a limit of a day it was at once; the change that brings it under them ends that, by hand: 1.5 times a limit, halved.
    let doubled = |times: f64| care::missed::doubled(&tank, &plan, times).remove(0);
    let worst = doubled(1.0).rises.iter().map(|rise| rise.rise / rise.most).fold(0.0, f64::max);
    let ml = 5.0 * 1.5 / worst;
    let copper = doubled(1.5 / worst).copper_mg_per_l.is_some();
    assert!(!copper, "the household's bottle brings none");
    assert_eq!(of(vec![(june(10, 8), dose(ml))]).0, "at once");
    assert_eq!(of(vec![(june(10, 8), dose(ml)), half(9)]).0, "when it suits");
}

#[test]
fn rule_8_what_a_bucket_holds_by_eye_is_no_larger_change() {
    let (tank, _) = planned(&old());
    let tenth = 0.1 * tank.geometry.true_l.value;
    let after = |times: f64| {
        let litres = times * tenth;
        about(&on_the_tenth(&old(), vec![(june(10, 8), What::Change { litres })]), "change").is_some()
    };
    // A tenth over what is allowed is the slack of `data/troubles.toml`.
    assert!(!after(1.09) && after(1.11));
    // Two of them an hour apart are two, within an hour they are one.
    let two = |minutes: i64| {
        let first = june(10, 7);
        let second = first.checked_add(jiff::ToSpan::minutes(minutes)).unwrap_or_else(|fault| panic!("{fault}"));
        let litres = tenth;
        let entries = vec![(first, What::Change { litres }), (second, What::Change { litres })];
        about(&on_the_tenth(&old(), entries), "change").is_some()
    };
    assert!(!two(60) && two(50));
}

#[test]
fn rule_14_a_cylinder_that_loses_too_much_or_weighs_less_than_empty_is_a_leak_or_a_wrong_scale() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    tank.keeping.cylinder = Some(setup::Cylinder { full_g: 4200.0, holds_g: 2000.0 });
    let weighed = |grams: [f64; 2], hour: i8| {
        let kept = log(vec![(june(10, hour), read(CYLINDER, grams[0])), (june(10, 8), read(CYLINDER, grams[1]))]);
        day(&tank, &plan, &kept, &june(10, 9))
    };
    // 2000 g in an hour; then 1900 g, where an empty one weighs 4200 - 2000 = 2200 g; then 20 g, which is a tank's.
    for (grams, words) in
        [([4200.0, 2200.0], "it lost 2000 g within one hour"), ([2300.0, 1900.0], "300 g less than an empty one")]
    {
        let day = weighed(grams, 7);
        let said = about(&day, CYLINDER).map(|alarm| alarm.says.join(" ")).unwrap_or_default();
        assert!(said.contains(words) && said.contains("Open the window now") && said.contains("the valve"), "{said}");
        let supply = day.supplies.iter().find(|supply| supply.kind == "carbon_dioxide");
        assert!(supply.is_some_and(|supply| !supply.says.contains("a day") && supply.until.is_none()), "{supply:?}");
    }
    assert_eq!(about(&weighed([3900.0, 3880.0], 7), CYLINDER), None);
}

/// No calendar ends it: the next weight that is in order does, or the keeper's word.
#[test]
fn rule_14_a_leak_stands_until_the_log_says_that_it_is_over() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    tank.keeping.cylinder = Some(setup::Cylinder { full_g: 4200.0, holds_g: 2000.0 });
    let leaks = [(june(2, 7), read(CYLINDER, 4200.0)), (june(2, 8), read(CYLINDER, 3000.0))];
    let said = |more: &[(jiff::ZonedDateTime, What)]| {
        let kept = log([&leaks[..], more].concat());
        about(&day(&tank, &plan, &kept, &june(27, 9)), CYLINDER).map(|alarm| alarm.says.join(" "))
    };
    let old = said(&[]).expect("after 25 days too");
    assert!(old.contains("25 days old") && old.contains("the weight of the cylinder anew now"), "{old}");
    assert!(old.contains("until a new weight is in order"), "{old}");
    assert_eq!(said(&[(june(3, 8), read(CYLINDER, 2990.0))]), None);
    let done = What::Done { act: CYLINDER.to_owned() };
    assert_eq!(said(&[(june(3, 8), done.clone())]), None);
    // A word from before the leak ends nothing.
    assert!(said(&[(june(1, 8), done)]).is_some());
}
