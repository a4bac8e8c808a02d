//! What a day reads of a long log: the same day follows from it as from the whole, and it grows with no year. Work is counted here,
//! never timed.

use crate::days::{HOUSEHOLD, dose, june, planned};
use care::{day, logged};
use jiff::{ToSpan, ZonedDateTime};
use logbook::{Entry, Filter, Kept, Log, MemoryLog, Reading, Sure, What};

fn reading(of: &str, value: f64) -> What {
    let kit = Some("colours".to_owned());
    What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit, sure: Sure::Plain })
}

/// What a keeper writes on one of many days, twenty lines of it.
fn lines(ago: i64) -> Vec<What> {
    let mut lines = vec![What::Words; 9];
    lines.extend(vec![What::Food { grams: 0.1 }; 5]);
    lines.extend([reading("nitrate", 12.0), reading("ph", 7.1), What::Sight { sight: "brown_film".to_owned() }]);
    lines.push(dose(if ago == 3 { 25.0 } else { 5.0 }));
    if ago % 7 == 2 {
        lines.push(What::Change { litres: 25.0 });
        lines.push(What::Done { act: if ago % 14 == 2 { "glass" } else { "bottle_mixed" }.to_owned() });
    }
    if ago % 30 == 5 {
        lines.push(What::Trim { wet_grams: Some(40.0) });
        lines.push(reading("cylinder", 1500.0 - (300 - ago % 300) as f64));
    }
    lines
}

/// So many days, the last of them today.
fn kept(now: &ZonedDateTime, days: i64, lines: impl Fn(i64) -> Vec<What>) -> MemoryLog {
    let mut log = MemoryLog::default();
    for ago in (0..days).rev() {
        let at = now.checked_sub((24 * ago).hours()).unwrap();
        let entry =
            |(n, what)| Entry { at: at.checked_sub(jiff::Span::new().minutes(n)).unwrap(), what, note: String::new() };
        log.add((0_i64..).zip(lines(ago)).map(entry).collect()).unwrap();
    }
    log
}

fn all(log: &MemoryLog) -> Vec<Kept> {
    log.list(&Filter::default()).unwrap()
}

#[test]
fn years_are_read_like_months() {
    let now = june(13, 9);
    let read = |days| logged(&kept(&now, days, lines), &now).unwrap();
    let (months, years) = (read(300), read(1_200));
    let texts = |list: &[Kept]| -> Vec<(String, What)> {
        list.iter().map(|kept| (kept.entry.at.to_string(), kept.entry.what.clone())).collect()
    };
    // But for their numbers, the same entries.
    assert_eq!(texts(&months), texts(&years));
    // Of each of 200 days two readings and a dose, of the last days the food.
    let food = months.iter().filter(|kept| kept.entry.what.kind() == "food").count();
    assert!(food < 3 * 5 + 1 && months.len() < 200 * 4 + food, "{food} of {}", months.len());
}

#[test]
fn the_day_follows_from_what_is_read() {
    let (tank, plan) = planned(HOUSEHOLD);
    let now = june(13, 9);
    let empty = |_| Vec::new();
    let food = |_| vec![What::Food { grams: 0.1 }];
    let once = |ago| if ago == 150 { vec![What::Food { grams: 0.1 }] } else { Vec::new() };
    let logs = [
        kept(&now, 190, lines),
        kept(&now, 190, empty),
        // Fed and never changed: the pause is as long as the log.
        kept(&now, 150, food),
        kept(&now, 190, once),
        kept(&now, 190, |ago| if ago == 100 { vec![What::Change { litres: 5.0 }] } else { food(ago) }),
    ];
    for (n, log) in logs.iter().enumerate() {
        for hour in [9, 23] {
            let now = june(13, hour);
            assert_eq!(
                day(&tank, &plan, &logged(log, &now).unwrap(), &now),
                day(&tank, &plan, &all(log), &now),
                "log {n}"
            );
        }
    }
    // The pause that was only fed through is told, so that it is changed by tenths.
    let told = format!("{:?}", day(&tank, &plan, &logged(&logs[2], &now).unwrap(), &now));
    assert!(told.contains("not changed for 149 days"), "{told}");
}
