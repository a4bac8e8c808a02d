//! What runs out when, by hand.

use crate::days::{HOUSEHOLD, dose, june, log, noted, planned};
use care::{BOTTLE_MIXED, CONDITIONER_MIXED, CYLINDER, Supply, day};
use jiff::civil::date;
use logbook::{Kept, Reading, Sure, What};

fn supply(text: &str, log: &[Kept], kind: &str, day_of_june: i8) -> Supply {
    let (tank, plan) = planned(text);
    let day = day(&tank, &plan, log, &june(day_of_june, 20));
    day.supplies.into_iter().find(|supply| supply.kind == kind).unwrap_or_else(|| panic!("no {kind}"))
}

fn mixed(act: &str) -> What {
    What::Done { act: act.to_owned() }
}

#[test]
fn a_bottle_by_its_doses() {
    let kept = noted(vec![
        (june(1, 7), dose(5.0), ""),
        (june(1, 8), mixed(BOTTLE_MIXED), "Bottle one"),
        (june(2, 8), dose(5.0), ""),
        (june(3, 8), dose(5.0), ""),
        (june(4, 8), dose(25.0), ""),
        (june(4, 9), What::Dose { bottle: "Bottle two".to_owned(), ml: 5.0 }, ""),
    ]);
    let bottle = supply(HOUSEHOLD, &kept, "bottle", 4);
    // Mixed on the 1st: the doses of that day count, 300 - 4 doses = 300 - 40 = 260 mL, 52 days of 5 mL: 26 July. Its sixty days end on 31 July.
    assert_eq!(bottle.left, Some(260.0));
    assert_eq!(bottle.until, Some(date(2026, 7, 26)));
    assert!(!bottle.soon);
    // Hardly used, its age ends it: sixty days after 1 June are 31 July.
    let aged = supply(HOUSEHOLD, &kept[1..2], "bottle", 25);
    assert_eq!((aged.left, aged.until), (Some(300.0), Some(date(2026, 7, 31))));
    assert!(aged.says.contains("for its age"), "{}", aged.says);
    assert!(supply(HOUSEHOLD, &[], "bottle", 4).left.is_none(), "nobody said when it was mixed");
}

/// The button of one bottle takes back what was mixed of it, and of no other.
#[test]
fn each_bottle_is_mixed_by_itself() {
    let (tank, mut plan) = planned(HOUSEHOLD);
    plan.bottles.push(recipe::Bottle { name: "Bottle two".to_owned(), ..plan.bottles[0].clone() });
    let kept = noted(vec![
        (june(4, 8), mixed(BOTTLE_MIXED), "Bottle one"),
        (june(4, 9), mixed(BOTTLE_MIXED), "Bottle two"),
        (june(4, 10), mixed(CONDITIONER_MIXED), ""),
    ]);
    let day = day(&tank, &plan, &kept, &june(4, 20));
    let ids = |key: &str| day.act(key).and_then(|act| act.done.as_ref()).map(|done| done.ids.clone());
    assert_eq!(ids("mixed_bottle_one"), Some(vec![1]));
    assert_eq!(ids("mixed_bottle_two"), Some(vec![2]));
    assert_eq!(ids("conditioner_mixed"), Some(vec![3]));
}

#[test]
fn the_conditioner_by_the_changes() {
    let kept = log(vec![
        (june(1, 8), mixed(CONDITIONER_MIXED)),
        (june(6, 10), What::Change { litres: 36.25 }),
        (june(13, 10), What::Change { litres: 72.5 }),
    ]);
    let c = supply(HOUSEHOLD, &kept, "conditioner", 14);
    // 3 mL for a bucket of 7.25 L (36.2 L in five): 15 mL for 36.25 L, 30 mL for 72.5 L; 150 - 45 = 105 mL.
    assert!(c.left.is_some_and(|left| (left - 105.0).abs() < 0.2), "{:?}", c.left);
    // Ninety days after 1 June.
    assert_eq!(c.until, Some(date(2026, 8, 30)));
    let used = log(vec![(june(1, 8), mixed(CONDITIONER_MIXED)), (june(6, 10), What::Change { litres: 340.0 })]);
    let c = supply(HOUSEHOLD, &used, "conditioner", 14);
    assert!(c.soon && c.says.contains("less than a change needs"), "{}", c.says);
}

fn weighed(day: i8, grams: f64, error: f64) -> (jiff::ZonedDateTime, What) {
    let reading = Reading {
        of: CYLINDER.to_owned(),
        value: grams,
        below: false,
        error: Some(error),
        kit: None,
        sure: Sure::Plain,
    };
    (june(day, 8), What::Test(reading))
}

#[test]
fn carbon_dioxide_by_weight() {
    let text =
        HOUSEHOLD.replace("[at_hand]", "[care]\ncylinder_full = \"1900 g\"\ncylinder_holds = \"500 g\"\n\n[at_hand]");
    // The old cylinder's last weight does not count: 1,890 is a new filling.
    let kept = log(vec![weighed(1, 1450.0, 5.0), weighed(2, 1890.0, 5.0), weighed(12, 1820.0, 5.0)]);
    let gas = supply(&text, &kept, "carbon_dioxide", 12);
    // 500 - (1900 - 1820) = 420 g left; 70 g in 10 days, 7 a day: 60 days after 12 June are 11 August.
    assert_eq!(gas.left, Some(420.0));
    assert_eq!(gas.until, Some(date(2026, 8, 11)));
    // Both scales 5 g wrong: 415 / 8 = 51 days (2 August), 425 / 6 = 70 days (21 August).
    assert_eq!(gas.likely, Some((date(2026, 8, 2), date(2026, 8, 21))));
    assert!(supply(&text, &kept[..2], "carbon_dioxide", 12).until.is_none(), "one weight tells no rate");
}
