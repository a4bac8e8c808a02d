//! Readings that harm stand before the acts; each test fails when its rule is taken out.

use crate::days::{HOUSEHOLD, june, log, planned};
use care::{Alarm, Day, day};
use jiff::ZonedDateTime;
use logbook::{Reading, Sure, What};
use trouble::Urgency;

fn read(of: &str, value: f64) -> What {
    What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::default() })
}

fn on_the_tenth(entries: Vec<(ZonedDateTime, What)>) -> Day {
    let (tank, plan) = planned(HOUSEHOLD);
    day(&tank, &plan, &log(entries), &june(10, 9))
}

fn one(of: &str, value: f64) -> Option<Alarm> {
    let day = on_the_tenth(vec![(june(10, 8), read(of, value))]);
    assert_eq!(day.closes() == "Nothing else today.", day.alarms.is_empty(), "{}", day.closes());
    assert!(day.alarms.len() <= 1);
    day.alarms.into_iter().next()
}

/// The word for now.
fn at_once(alarm: &Alarm) -> bool {
    alarm.urgency.words() == "at once"
}

#[test]
fn rule_7_ammonia_is_judged_by_its_toxic_share_at_this_ph_and_warmth() {
    let alarm = one("ammonia_n", 2.0).unwrap_or_else(|| panic!("2 mg/L N is no quiet day"));
    let said = alarm.says.join(" ");
    assert!(at_once(&alarm) && alarm.trouble == "ammonia" && said.contains("0.016"), "{alarm:?}");
    // By hand, Emerson 1975 (`emerson_1975`): pKa 9.25 at 24 °C, so at pH 6.1 a share of 10^(6.1 - 9.25) = 0.0007 is toxic:
    // of 2 mg/L 0.0014, under 0.016. At pH 8.1 it is 0.066, or 0.13 mg/L.
    let with_ph = |ph: f64| on_the_tenth(vec![(june(10, 8), read("ammonia_n", 2.0)), (june(10, 8), read("ph", ph))]);
    assert!(with_ph(8.0).alarms.iter().any(|alarm| alarm.of == "ammonia_n"));
    assert!(with_ph(6.0).alarms.is_empty(), "{:?}", with_ph(6.0).alarms);
    assert_eq!(one("ammonia_n", 0.0), None);
}

#[test]
fn nitrite_warmth_cold_and_alkalinity_stand_before_the_day() {
    // Chloride of the household's tap is 30 mg/L: over days harm starts at 0.2 mg/L N (`nordin_pommen_2009`, from 10 mg/L on).
    assert!(
        one("nitrite_n", 1.0).is_some_and(|a| at_once(&a) && a.trouble == "ammonia" && a.says[0].contains("harms now"))
    );
    assert_eq!(one("nitrite_n", 0.01), None);
    assert!(one("temperature", 33.0).is_some_and(|a| at_once(&a) && a.trouble == "heater-on"));
    assert!(one("temperature", 12.0).is_some_and(|a| at_once(&a) && a.trouble == "heater-dead"));
    assert_eq!(one("temperature", 24.0), None);
    // Harm rule 6: 0.36 meq/L are left.
    let gone = one("alkalinity", 0.1).unwrap_or_else(|| panic!("0.1 meq/L is gone"));
    assert!(gone.trouble == "alkalinity" && gone.says[1].contains("0.36"), "{:?}", gone.says);
    assert!(gone.says[2].contains("Test ammonia first"), "{:?}", gone.says);
    assert_eq!(one("alkalinity", 1.5), None);
    // Harm rule 16: 20 shrimps live there.
    assert!(one("nitrate", 80.0).is_some_and(|a| a.trouble == "nitrate" && a.says.join(" ").contains("13")));
    assert_eq!(one("nitrate", 20.0), None);
}

#[test]
fn alkalinity_is_as_urgent_here_as_in_help_now() {
    // Its notice says “not a matter of minutes”: what harms is a fast way back.
    let (tank, plan) = planned(HOUSEHOLD);
    for (meq, told) in [(0.1, "0.1 meq/L"), (-0.2, "0 meq/L"), (0.36, "0.36 meq/L")] {
        let mut heard = trouble::Told::default();
        heard.take("alkalinity", told).unwrap_or_else(|fault| panic!("{fault}"));
        let case = trouble::Case { tank: &tank, plan: &plan, told: &heard, litres_known: true };
        let sums = trouble::worked("alkalinity", &case, &[], &june(10, 9)).sums;
        let there = sums.iter().find(|sum| sum.key == "alkalinity").map(|sum| sum.urgency);
        assert_eq!(one("alkalinity", meq).map(|alarm| alarm.urgency), there, "{meq}");
        assert_eq!(there, Some(Urgency::BeforeTheNextChange));
    }
}

#[test]
fn old_unsure_and_overtaken_readings_decide_nothing() {
    let (tank, plan) = planned(HOUSEHOLD);
    let kept = log(vec![(june(10, 8), read("nitrite_n", 1.0))]);
    let alarms = |d: i8| day(&tank, &plan, &kept, &june(d, 9)).alarms.len();
    // It stays until it is read anew, and once it is no longer today's that is the first act.
    assert_eq!((alarms(10), alarms(12), alarms(13), alarms(30)), (1, 1, 1, 1));
    let thirteenth = day(&tank, &plan, &kept, &june(13, 9));
    let alarm = thirteenth.alarms.first().unwrap_or_else(|| panic!("an alarm"));
    assert!(alarm.says[0].starts_with("That reading is 3 days old: read nitrite") && alarm.no_food, "{alarm:?}");
    let test = thirteenth.today.iter().find(|act| act.name.starts_with("Test "));
    assert!(test.is_some_and(|act| act.name.contains("nitrite")), "{:?}", thirteenth.today);
    let unsure = What::Test(Reading {
        of: "nitrite_n".to_owned(),
        value: 1.0,
        below: false,
        error: None,
        kit: None,
        sure: Sure::NotSure,
    });
    // It decides no change, and asks for a test; a surer one after it takes its place.
    let asks = on_the_tenth(vec![(june(10, 8), unsure.clone())]).alarms;
    assert!(asks.len() == 1 && asks[0].says[0].contains("test again now") && asks[0].no_food, "{asks:?}");
    assert_eq!(asks[0].change_most, None);
    let later = day(&tank, &plan, &log(vec![(june(10, 8), unsure.clone())]), &june(20, 9)).alarms;
    assert!(later.len() == 1 && later[0].no_food, "{later:?}");
    assert!(on_the_tenth(vec![(june(10, 7), unsure), (june(10, 8), read("nitrite_n", 0.0))]).alarms.is_empty());
    let better = vec![(june(9, 8), read("nitrite_n", 1.0)), (june(10, 8), read("nitrite_n", 0.0))];
    assert!(on_the_tenth(better).alarms.is_empty());
    // Nobody lives there.
    let (mut empty, plan) = planned(HOUSEHOLD);
    empty.animals.fish = 0;
    empty.animals.shrimps = 0;
    assert!(day(&empty, &plan, &kept, &june(10, 9)).alarms.is_empty());
}

/// The household with something said otherwise.
fn household(was: &str, is: &str) -> String {
    assert!(HOUSEHOLD.contains(was), "{was}");
    HOUSEHOLD.replace(was, is)
}

#[test]
fn what_harms_is_no_quiet_day_at_the_third_midnight_nor_later() {
    let (tank, plan) = planned(HOUSEHOLD);
    for (of, value) in [("ammonia_n", 2.0), ("alkalinity", 0.1), ("temperature", 33.0), ("nitrate", 80.0)] {
        let kept = log(vec![(june(10, 8), read(of, value)), (june(10, 8), read("ph", 8.0))]);
        for (d, old) in [(10, false), (12, true), (13, true), (25, true)] {
            let day = day(&tank, &plan, &kept, &june(d, 9));
            let alarm = day.alarms.iter().find(|alarm| alarm.of == of);
            let alarm = alarm.unwrap_or_else(|| panic!("{of} on the {d}th: {:?}", day.alarms));
            assert_eq!(alarm.says[0].contains("old: read "), old, "{of}, {d}: {:?}", alarm.says);
            if of == "ammonia_n" {
                assert!(day.act("feed").is_some_and(|feed| feed.amount == "none"), "{d}");
                assert!(!old || alarm.change_most == Some(0.0), "{alarm:?}");
            }
            assert!(
                !old || of == "temperature" || day.tests.iter().any(|kit| kit.key == of && kit.due == Some(day.date))
            );
        }
        let anew = match of {
            "alkalinity" => 2.0,
            "temperature" => 24.0,
            _ => 0.0,
        };
        let anew = log(vec![(june(10, 8), read(of, value)), (june(13, 8), read(of, anew))]);
        assert!(day(&tank, &plan, &anew, &june(13, 9)).alarms.is_empty(), "{of}");
    }
}

#[test]
fn care_and_help_now_hear_the_same_log() {
    let (tank, plan) = planned(HOUSEHOLD);
    let lines = [("ammonia_n", 2.0), ("ph", 8.0), ("nitrite_n", 1.0), ("alkalinity", 0.2), ("temperature", 29.0)];
    let kept = log(lines.into_iter().map(|(of, value)| (june(10, 8), read(of, value))).collect());
    let mut acts = 0;
    for hour in [june(10, 9), june(11, 16), june(14, 2), june(28, 9)] {
        let mut told = trouble::Told::default();
        told.hear(&kept, &hour);
        let case = trouble::Case { tank: &tank, plan: &plan, told: &told, litres_known: true };
        let alarms = day(&tank, &plan, &kept, &hour).alarms;
        for (of, trouble, key) in [
            ("ammonia_n", "ammonia", "toxic-ammonia"),
            ("nitrite_n", "ammonia", "nitrite"),
            ("alkalinity", "alkalinity", "alkalinity"),
        ] {
            let sums = trouble::worked(trouble, &case, &kept, &hour).sums;
            let sum = sums.iter().find(|sum| sum.key == key).unwrap_or_else(|| panic!("{key}: {sums:#?}"));
            let alarm = alarms.iter().find(|alarm| alarm.of == of).unwrap_or_else(|| panic!("{of}: {alarms:#?}"));
            assert_eq!(alarm.urgency, sum.urgency);
            let most = sums.iter().find(|sum| sum.key == trouble::CHANGE_MOST).map(|most| most.figures["share_most"]);
            assert_eq!(alarm.change_most, most, "{of}");
            // Whatever change Help now names stands in the alarm, in the same words.
            let Some(change) = sum.change.as_ref().filter(|_| of != "alkalinity") else { continue };
            assert!(alarm.says.contains(change) && sum.says.contains(change), "{:?} {:?}", alarm.says, sum.says);
            // With the litres and buckets of it: of this tank, by the share that is changed at once.
            let litres = recipe::say::Pen::new(&tank.units)
                .litres(sum.figures.get("change_share").copied().or(most).unwrap_or(0.0) * tank.geometry.true_l.value);
            assert!(change.contains(&format!(", {litres} in ")) && change.contains("bucket"), "{change}");
            acts += 1;
        }
    }
    assert!(acts > 0, "a change is named");
}

#[test]
fn rule_12_carbon_dioxide_that_was_read_is_told_at_once() {
    // 1.6 meq/L at pH 6.4 hold some 60 mg/L (`plummer_busenberg_1982`: 1.6 × 10^(6.35 - 6.4) × 44 = 63 before activities).
    let (tank, plan) = planned(HOUSEHOLD);
    let after = |lines: &[(&str, f64)], hour: i8| {
        let kept = log(lines.iter().map(|(of, value)| (june(10, 8), read(of, *value))).collect());
        day(&tank, &plan, &kept, &june(10, hour)).alarms.into_iter().find(|alarm| alarm.of == "carbon_dioxide")
    };
    let alarm = after(&[("ph", 6.4), ("alkalinity", 1.6)], 9).unwrap_or_else(|| panic!("it harms"));
    let said = alarm.says.join(" ");
    assert!(at_once(&alarm) && alarm.trouble == "carbon-dioxide" && said.contains("above 30 mg/L"), "{said}");
    assert_eq!(after(&[("ph", 7.2), ("alkalinity", 1.6)], 9), None);
    // It stays until both are read anew; an alkalinity of long before that pH tells nothing.
    let kept = log(vec![(june(10, 8), read("ph", 6.4)), (june(10, 8), read("alkalinity", 1.6))]);
    let later = day(&tank, &plan, &kept, &june(14, 9)).alarms;
    assert!(later.iter().any(|a| a.of == "carbon_dioxide" && a.says[0].contains("4 days old: read pH and alkalinity")));
    let apart = log(vec![(june(7, 8), read("alkalinity", 1.6)), (june(10, 8), read("ph", 6.4))]);
    assert!(day(&tank, &plan, &apart, &june(10, 9)).alarms.iter().all(|a| a.of != "carbon_dioxide"));
    // By the alkalinity of a plan an acid tank would seem full of it.
    assert_eq!(after(&[("ph", 6.4)], 9), None);
}

#[test]
fn warmth_turns_no_air_on_where_airing_makes_ammonia_toxic() {
    let lines = [("temperature", 33.0), ("ammonia_n", 4.0), ("ph", 6.4)];
    let alarms = |lines: &[(&str, f64)]| {
        on_the_tenth(lines.iter().map(|(of, value)| (june(10, 8), read(of, *value))).collect()).alarms
    };
    let words = |lines: &[(&str, f64)]| {
        let alarm = alarms(lines).into_iter().find(|alarm| alarm.of == "temperature");
        alarm.unwrap_or_else(|| panic!("33 °C")).says.join(" ")
    };
    assert!(
        !words(&lines).contains(": air on") && words(&lines).contains("unless they breathe fast"),
        "{}",
        words(&lines)
    );
    assert!(words(&lines[..1]).contains(": air on"), "{}", words(&lines[..1]));
}

#[test]
fn rule_12_too_much_carbon_dioxide_is_no_quiet_day() {
    let (tank, plan) = planned(&household("[tank]\n", "[tank]\nco2 = \"35 mg/L\"\n"));
    let alarms = day(&tank, &plan, &[], &june(10, 9)).alarms;
    let said = alarms.first().map(|alarm| (alarm.trouble.as_str(), alarm.says.join(" "))).unwrap_or_default();
    assert!(said.0 == "carbon-dioxide" && said.1.contains("30 mg/L"), "{said:?}");
    let (tank, plan) = planned(&household("[tank]\n", "[tank]\nco2 = \"15 mg/L\"\n"));
    assert_eq!(day(&tank, &plan, &[], &june(10, 9)).alarms, []);
}

#[test]
fn rule_3_a_change_beyond_what_the_taps_ammonia_allows_is_told() {
    let (tank, plan) = planned(&household(
        "total_chlorine = \"0.4 mg/L\"",
        "total_chlorine = \"3 mg/L\"\ndisinfectant = \"chloramine\"",
    ));
    assert!(plan.change.limited.is_some(), "{:?}", plan.change);
    let after = |litres: f64| {
        let kept = log(vec![(june(10, 8), What::Change { litres })]);
        day(&tank, &plan, &kept, &june(10, 9)).alarms.into_iter().find(|alarm| alarm.of == "change")
    };
    assert!(after(8.0 * plan.change.litres).is_some_and(|a| at_once(&a) && a.says.join(" ").contains("Test ammonia")));
    assert_eq!(after(plan.change.litres), None);
}

#[test]
fn rule_7_while_ammonia_harms_nobody_is_fed_and_no_sheet_changes_more_than_help_now_allows() {
    // Nearly no alkalinity is left: the household's tap would raise pH.
    let read = vec![("ammonia_n", 4.0), ("ph", 6.9), ("alkalinity", 0.3)];
    let day = on_the_tenth(read.into_iter().map(|(of, value)| (june(10, 8), self::read(of, value))).collect());
    let alarm = day.alarms.iter().find(|alarm| alarm.of == "ammonia_n");
    let alarm = alarm.unwrap_or_else(|| panic!("4 mg/L N is no quiet day: {:?}", day.alarms));
    assert!(alarm.no_food);
    let feed = day.act("feed").unwrap_or_else(|| panic!("a row says that nobody is fed"));
    assert!(feed.amount == "none" && feed.writes.is_empty() && feed.asks.is_none(), "{feed:?}");
    let most = alarm.change_most.unwrap_or_else(|| panic!("{alarm:?}"));
    let sheet = day.change.unwrap_or_else(|| panic!("a sheet"));
    assert!(sheet.share <= most + 1e-9 && (most > 0.0 || sheet.stop.is_some()), "{most}: {sheet:?}");
    // Without the reading it is more, so the test can fail.
    let quiet = on_the_tenth(Vec::new());
    assert!(quiet.act("feed").is_some_and(|feed| !feed.writes.is_empty()));
    assert!(quiet.change.is_some_and(|sheet| sheet.share > most), "{most}");
}
