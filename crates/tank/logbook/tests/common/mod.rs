//! Entries of every kind, made at random: what a keeper can write.

use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use knowledge::book;
use logbook::{Entry, Reading, Sure, What};
use proptest::prelude::*;

/// 11 June 2026, morning, in a zone with summer time.
pub fn now() -> ZonedDateTime {
    "2026-06-11T09:15:00+02:00[Europe/Berlin]".parse().unwrap()
}

/// Any moment of forty years up to now, in zones of both kinds.
pub fn at() -> impl Strategy<Value = ZonedDateTime> {
    let zone = prop::sample::select(vec!["Europe/Berlin", "America/New_York", "Asia/Kathmandu", "UTC"]);
    let nanos = prop_oneof![3 => Just(0), 1 => 0..1_000_000_000_i32];
    (520_000_000_i64..1_781_000_000, nanos, zone).prop_map(|(second, nano, zone)| {
        Timestamp::new(second, nano).unwrap().to_zoned_datetime(TimeZone::get(zone).unwrap())
    })
}

/// Words with everything that a table must quote.
pub fn words() -> impl Strategy<Value = String> {
    prop_oneof![
        2 => "[a-zA-Zäß ]{0,12}",
        1 => "[a-z,;\"\n\r\t' =+@-]{0,20}",
        1 => any::<String>().prop_map(|text| text.chars().take(60).collect()),
    ]
}

fn name() -> impl Strategy<Value = String> {
    words().prop_filter("a name", |text| !text.trim().is_empty())
}

/// An amount that can be meant, with all its digits.
fn amount(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![low..=high, (0..100_u32).prop_map(move |n| low + (high - low) * f64::from(n) / 100.0)]
}

fn reading() -> impl Strategy<Value = What> {
    let keys: Vec<String> = book().readings.keys().cloned().collect();
    prop::sample::select(keys).prop_flat_map(|of| {
        let row = &book().readings[&of];
        let sure = prop::sample::select(vec![Sure::Plain, Sure::About, Sure::NotSure]);
        let error = prop::option::of(amount(0.0, row.is.high));
        (amount(row.is.low, row.is.high), any::<bool>(), error, prop::option::of(name()), sure).prop_map(
            move |(value, below, error, kit, sure)| {
                What::Test(Reading { of: of.clone(), value, below, error, kit, sure })
            },
        )
    })
}

/// What can be meant by a line of any kind.
pub fn what() -> impl Strategy<Value = What> {
    let most = |kind: &str| book().amounts[kind].is.high;
    let sights: Vec<String> = book().sights.keys().cloned().collect();
    let who = prop::sample::select(logbook::written::WHO.to_vec());
    let price = prop::option::of((0..100_000_u32).prop_map(f64::from));
    prop_oneof![
        4 => reading(),
        2 => (name(), amount(0.0, most("dose"))).prop_map(|(bottle, ml)| What::Dose { bottle, ml }),
        1 => amount(0.0, most("change")).prop_map(|litres| What::Change { litres }),
        1 => amount(0.0, most("top_up")).prop_map(|litres| What::TopUp { litres }),
        1 => amount(0.0, most("food")).prop_map(|grams| What::Food { grams }),
        1 => prop::option::of(amount(0.0, most("trim"))).prop_map(|wet_grams| What::Trim { wet_grams }),
        1 => prop::sample::select(sights).prop_map(|sight| What::Sight { sight }),
        1 => (who, any::<i32>(), prop::option::of(any::<u32>()))
            .prop_map(|(who, change, counted)| What::Animals { who: who.to_owned(), change, counted }),
        1 => (name(), prop::option::of(amount(0.0, most("bought"))), price)
            .prop_map(|(what, amount, price_minor)| What::Bought { what, amount, price_minor }),
        1 => name().prop_map(|file| What::Photo { file }),
        1 => name().prop_map(|act| What::Done { act }),
    ]
}

/// Any entry.
pub fn entry() -> impl Strategy<Value = Entry> {
    let plain = (at(), what(), words()).prop_map(|(at, what, note)| Entry { at, what, note });
    let alone = (at(), name()).prop_map(|(at, note)| Entry { at, what: What::Words, note });
    prop_oneof![9 => plain, 1 => alone]
}

/// An entry with its moment as text: two moments of one instant are equal to each other, their texts are not.
pub fn whole(entry: &Entry) -> (String, What, String) {
    (entry.at.to_string(), entry.what.clone(), entry.note.clone())
}
