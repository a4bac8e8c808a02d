//! Readings that harm stand before the acts; each test fails when its rule is taken out.

mod days;

use care::{Alarm, Day, day};
use days::{HOUSEHOLD, june, log, planned};
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
    assert_eq!((alarms(10), alarms(12), alarms(13)), (1, 1, 0));
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
