//! When an act falls due, on a calendar of 2026: 1 June is a Monday, the Saturdays are the 6th, 13th, 20th and 27th.

use care::{Known, Rhythm};
use jiff::civil::{Date, date};

const GRACE: u32 = 3;

fn june(day: i8) -> Date {
    date(2026, 6, day)
}

fn saturdays(every_days: u32, week: u8) -> Rhythm {
    Rhythm { every_days, weekday: 6, week }
}

fn known(last: Option<Date>, start: Option<Date>) -> Known {
    Known { last, start }
}

#[test]
fn weeks_fall_on_their_day_of_the_week() {
    let weekly = saturdays(7, 0);
    for day in 6..13 {
        assert_eq!(weekly.slot(june(day)), Some(june(6)), "{day}");
    }
    assert_eq!(weekly.next_slot(june(7)), Some(june(13)));
    assert_eq!(weekly.next_slot(june(13)), Some(june(13)));
    // Every fortnight: 14 days lie between two, and the other week has the others.
    let (even, odd) = (saturdays(14, 0), saturdays(14, 1));
    let (a, b) = (even.next_slot(june(1)), odd.next_slot(june(1)));
    let mut both = [a, b];
    both.sort();
    assert_eq!(both, [Some(june(6)), Some(june(13))]);
    assert_eq!(even.next_slot(june(14)).max(odd.next_slot(june(14))), Some(june(27)));
    assert_eq!(Rhythm { every_days: 0, weekday: 6, week: 0 }.slot(june(1)), None);
}

#[test]
fn before_the_first_monday_weeks_run_backwards() {
    // 3 January 1970 was a Saturday, as was 27 December 1969.
    assert_eq!(saturdays(7, 0).slot(date(1970, 1, 4)), Some(date(1970, 1, 3)));
    assert_eq!(saturdays(7, 0).slot(date(1970, 1, 2)), Some(date(1969, 12, 27)));
}

#[test]
fn what_was_missed_stays_due_once_until_it_is_done() {
    let weekly = saturdays(7, 0);
    let last = known(Some(june(6)), Some(june(1)));
    assert_eq!(weekly.due_since(last, june(12), GRACE), None);
    assert_eq!(weekly.due_since(last, june(13), GRACE), Some(june(13)));
    assert_eq!(weekly.due_since(last, june(16), GRACE), Some(june(13)), "carried on");
    // The next Saturday is one act, not two.
    assert_eq!(weekly.due_since(last, june(20), GRACE), Some(june(20)));
    // Done on the Tuesday: the week is done, and the next falls on its Saturday again.
    let late = known(Some(june(16)), Some(june(1)));
    assert_eq!(weekly.due_since(late, june(17), GRACE), None);
    assert_eq!(weekly.due_since(late, june(20), GRACE), Some(june(20)));
    // Three days early counts for the slot, four don't.
    assert_eq!(weekly.due_since(known(Some(june(10)), Some(june(1))), june(13), GRACE), None);
    assert_eq!(weekly.due_since(known(Some(june(9)), Some(june(1))), june(13), GRACE), Some(june(13)));
}

#[test]
fn nothing_was_missed_before_the_first_entry() {
    let weekly = saturdays(7, 0);
    assert_eq!(weekly.due_since(known(None, None), june(12), GRACE), None, "an empty log");
    assert_eq!(weekly.due_since(known(None, None), june(13), GRACE), Some(june(13)));
    assert_eq!(weekly.due_since(known(None, Some(june(14))), june(16), GRACE), None);
    assert_eq!(weekly.due_since(known(None, Some(june(10))), june(16), GRACE), Some(june(13)));
}

#[test]
fn other_intervals_run_from_the_last_time() {
    let ten = Rhythm { every_days: 10, weekday: 6, week: 0 };
    assert_eq!(ten.due_since(known(Some(june(2)), None), june(11), GRACE), None);
    assert_eq!(ten.due_since(known(Some(june(2)), None), june(12), GRACE), Some(june(12)));
    assert_eq!(ten.due_since(known(Some(june(2)), None), june(15), GRACE), Some(june(12)));
}

#[test]
fn a_day_that_was_missed_is_over() {
    assert_eq!(Rhythm::DAILY.due_since(known(Some(june(1)), Some(june(1))), june(12), GRACE), Some(june(12)));
    assert_eq!(Rhythm::DAILY.due_since(known(Some(june(12)), Some(june(1))), june(12), GRACE), None);
}
