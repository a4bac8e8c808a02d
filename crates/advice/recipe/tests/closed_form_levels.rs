//! Levels: the closed form against the recurrence by brute force, the schedule against small steps of time, and the bounds
//! of a repeated dose by hand.

use crate::common;

use proptest::prelude::*;
use quantity::Ion;
use recipe::levels::{Change, Cycle, Day, Settles, simulate, tide};

/// Judge: arithmetic by hand. A dose D once a week and a change of f just before the next, nothing taken up: the peak is
/// the geometric series D (1 + (1 - f) + (1 - f)² ...) -> D / f, the trough (1 - f) of it.
#[test]
fn a_weekly_dose_tends_to_dose_over_share() {
    let week = |first: bool| {
        let change = (!first).then_some(Change { share: 0.4, water: 0.0 });
        let rest = Day { change: None, dose: 0.0, fall: 0.0, floor: true };
        [Day { change, dose: 6.0, ..rest }].into_iter().chain(std::iter::repeat_n(rest, 6))
    };
    let days: Vec<Day> = (0..60).flat_map(|w| week(w == 0)).collect();
    let passed = simulate(0.0, &days);
    let peaks: Vec<f64> = passed.iter().step_by(7).map(|day| day.after_dose).collect();
    for (peak, hand) in peaks.iter().zip([6.0, 9.6, 11.76, 13.056]) {
        assert!((peak - hand).abs() < 1e-12, "{peak} {hand}");
    }
    assert!((peaks[59] - 15.0).abs() < 1e-9, "D / f = 6 / 0.4");
    assert!((passed[59 * 7].after_change - 9.0).abs() < 1e-9, "D (1 - f) / f");
}

/// Judge: the same series. With tap T the peak tends to D / f + T, D being seven daily doses.
#[test]
fn a_daily_dose_tends_to_the_same_with_the_tap() {
    let cycle = Cycle {
        tap: 3.0,
        dose_per_day: 6.0 / 7.0,
        uptake_per_day: 0.0,
        top_up_per_day: 0.0,
        change_share: 0.4,
        every_days: 7,
        floor: true,
        unchanged_days: Cycle::DRIFT_DAYS,
    };
    assert!((cycle.before_change() - 18.0).abs() < 1e-12);
    assert!((cycle.after_change() - (0.6 * 18.0 + 0.4 * 3.0)).abs() < 1e-12);
    assert_eq!(cycle.swing().runs_out_day, None);
}

/// Judge: by hand. Tap 10, half changed a week, nothing given, 2 a day taken: 10 - 14 / 0.5 is below zero, so the plants
/// find 5 after a change and run out after 2.5 days.
#[test]
fn it_runs_out_on_the_day_that_the_sum_says() {
    let cycle = Cycle {
        tap: 10.0,
        dose_per_day: 0.0,
        uptake_per_day: 2.0,
        top_up_per_day: 0.0,
        change_share: 0.5,
        every_days: 7,
        floor: true,
        unchanged_days: Cycle::DRIFT_DAYS,
    };
    let swing = cycle.swing();
    assert_eq!((swing.before_change, swing.after_change, swing.lowest, swing.highest), (0.0, 5.0, 0.0, 5.0));
    assert_eq!(swing.runs_out_day, Some(2.5));
    // Exactly enough is not short: 10 - 7 r / 0.5 = 0 with r = 5 / 7.
    assert_eq!(Cycle { uptake_per_day: 5.0 / 7.0, ..cycle }.swing().runs_out_day, None);
    // Without changes it drifts.
    let never = Cycle { every_days: 0, dose_per_day: 0.5, ..cycle };
    assert_eq!(never.settles(), Settles::Drifts(-1.5));
    // 10 + 0.5 after the first dose; each day 1.5 less: after six days 1.5 stand after the dose, and last 0.75 of a day.
    assert_eq!(never.swing().runs_out_day, Some(6.75));
}

/// Judge: by hand. A tank never changed, 20 mg/L in its tap, 0.218 L of 99 L topped up a day with it: after 426 days
/// 0.218 × 426 ÷ 99 = 0.93806 times the tap came on top, 18.76 mg/L, and food brought 426 × 0.25 = 106.5 more.
#[test]
fn a_tank_never_changed_is_reckoned_over_its_age() {
    let old = Cycle {
        tap: 20.0,
        dose_per_day: 0.0,
        uptake_per_day: -0.25,
        top_up_per_day: 0.218 * 20.0 / 99.0,
        change_share: 0.0,
        every_days: 0,
        floor: true,
        unchanged_days: 426,
    };
    assert!((old.before_change() - (20.0 + 18.761 + 106.5)).abs() < 1e-3, "{}", old.before_change());
    assert_eq!((old.after_change(), old.swing().lowest), (20.0, 20.0));
    // Half way there half of it: it is linear.
    assert!((old.drifted(213.0) - (20.0 + 125.261 / 2.0)).abs() < 1e-3);
}

/// Judge: by hand, and the day-by-day schedule. Over its age what topping up adds to a tank is c e t ÷ V; its range goes with
/// the range of what evaporates, and the twice as old tank has twice the range.
#[test]
fn the_range_widens_with_age() {
    let aged = |months: f64| {
        let mut tank = common::tank();
        tank.habits.every_days = 0;
        tank.unchanged_months = Some(months);
        tank
    };
    let (young, old) = (aged(6.0), aged(12.0));
    let of = |tank: &setup::Tank| recipe::levels::level(tank, Ion::Nitrate, 0.0, 0.0, 0.0);
    let (six, twelve) = (of(&young), of(&old));
    assert_eq!((six.unchanged_days, twelve.unchanged_days), (Some(183), Some(365)));
    let wide = |level: &recipe::Level| level.before_change.high - level.new_water.high;
    let per_day = twelve.top_up_per_day.high - twelve.uptake_per_day.low;
    assert!((wide(&twelve) - 365.0 * per_day).abs() < 1e-9 * (1.0 + wide(&twelve).abs()) || wide(&twelve) < 0.0);
    // The same by the formula of the level itself, and by passing through every day of it.
    assert_eq!(twelve.drifted(365.0), twelve.before_change);
    let cycle = recipe::levels::cycle(&old, Ion::Nitrate, 0.0, 0.0, 0.0);
    let passed = simulate(cycle.tap, &cycle.schedule(365));
    assert!((passed.last().unwrap().end - cycle.before_change()).abs() < 1e-9 * (1.0 + cycle.before_change()));
    // Sodium is taken by nobody: it stands at T + T e t ÷ V.
    let sodium = recipe::levels::level(&old, Ion::Sodium, 0.0, 0.0, 0.0);
    let piled = old.habits.top_up_l_per_day.value * 365.0 / old.geometry.true_l.value;
    let tap = old.tap.mg_per_l(Ion::Sodium).value;
    let food = old.growth.food_mg_per_l_day.get(&Ion::Sodium).map_or(0.0, |known| known.value);
    assert!((sodium.before_change.value - tap * (1.0 + piled) - 365.0 * food).abs() < 1e-9 * (1.0 + tap));
}

fn cycles() -> impl Strategy<Value = Cycle> {
    let amounts = (0.0..60.0f64, 0.0..4.0f64, -1.0..5.0f64, 0.0..0.5f64);
    (amounts, 0.02..1.0f64, 1u32..40, any::<bool>()).prop_map(|((tap, dose, uptake, top_up), share, days, floor)| {
        Cycle {
            tap,
            dose_per_day: dose,
            uptake_per_day: uptake,
            top_up_per_day: top_up,
            change_share: share,
            every_days: days,
            floor,
            unchanged_days: Cycle::DRIFT_DAYS,
        }
    })
}

proptest! {
    /// Judge: the recurrence, passed through until it repeats itself.
    #[test]
    fn closed_form_is_where_the_recurrence_ends(cycle in cycles()) {
        let cycles = (40.0 / cycle.change_share).ceil() as u32;
        let passed = simulate(cycle.tap, &cycle.schedule(cycles * cycle.every_days));
        let last = &passed[passed.len() - cycle.every_days as usize..];
        let swing = cycle.swing();
        let scale = 1.0 + swing.highest.abs().max(swing.lowest.abs());
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * scale;
        prop_assert!(near(last[0].start, swing.before_change), "before {} {}", last[0].start, swing.before_change);
        prop_assert!(near(last[0].after_change, swing.after_change));
        let levels = || last.iter().flat_map(|day| [day.start, day.after_change, day.after_dose, day.end]);
        let (low, high) = levels().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        prop_assert!(near(low, swing.lowest), "lowest {low} {}", swing.lowest);
        prop_assert!(near(high, swing.highest), "highest {high} {}", swing.highest);
        let out = last.iter().enumerate().find_map(|(day, passed)| Some(day as f64 + passed.ran_out?));
        match (out, swing.runs_out_day) {
            (None, None) => {}
            (Some(a), Some(b)) => prop_assert!((a - b).abs() < 1e-6, "{a} {b}"),
            // A hair from enough: the two roundings may differ.
            (a, b) => prop_assert!(last.iter().any(|d| (d.after_dose - d.day.fall).abs() < 1e-6 * scale), "{a:?} {b:?}"),
        }
    }

    /// Judge: explicit small steps of time.
    #[test]
    fn any_schedule_is_what_small_steps_make_of_it(
        start in 0.0..30.0f64,
        days in proptest::collection::vec((proptest::option::of((0.0..1.0f64, 0.0..50.0f64)), 0.0..5.0f64, -1.0..5.0f64), 1..30),
    ) {
        let schedule: Vec<Day> = days
            .iter()
            .map(|&(change, dose, fall)| Day { change: change.map(|(share, water)| Change { share, water }), dose, fall, floor: true })
            .collect();
        let passed = simulate(start, &schedule);
        let (mut level, steps) = (start, 2000);
        for (day, passed) in schedule.iter().zip(&passed) {
            if let Some(change) = day.change {
                level += change.share * (change.water - level);
            }
            level += day.dose;
            for step in 0..steps {
                let t = f64::from(step) / f64::from(steps);
                prop_assert!((passed.at(t) - level).abs() < 1e-6 + day.fall.abs() / f64::from(steps));
                level = (level - day.fall / f64::from(steps)).max(0.0);
            }
            prop_assert!((passed.end - level).abs() < 1e-6);
            level = passed.end;
        }
    }

    /// Judge: the drawing never leaves the passed days, and no day runs backwards.
    #[test]
    fn the_tide_shows_strokes_in_order(cycle in cycles()) {
        let poorer = Cycle { tap: 0.5 * cycle.tap, uptake_per_day: cycle.uptake_per_day + 0.5, ..cycle };
        let days = 2 * cycle.every_days;
        let passes = [poorer, cycle].map(|c| simulate(c.before_change(), &c.schedule(days)));
        let points = tide([&passes[0], &passes[1]]);
        prop_assert!(points.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        prop_assert!(points.iter().all(|(_, [low, high])| low <= &(high + 1e-9)));
        prop_assert_eq!(points.iter().filter(|(day, _)| *day == 0.0).count(), 3, "before, after the change, after the dose");
        prop_assert_eq!(points.last().map(|point| point.0), Some(f64::from(days)));
    }
}

/// Judge: the words. An exact tap has no poorest: what varies is what plants take.
#[test]
fn the_poorest_case_is_named_by_what_varies() {
    let mut tank = common::tank();
    let words = |tank: &setup::Tank| recipe::levels::poorest(&recipe::levels::level(tank, Ion::Nitrate, 0.0, 0.0, 0.0));
    assert!(!words(&tank).contains("tap") && words(&tank).contains("plants"));
    tank.tap.ions.insert(Ion::Nitrate, common::ranged(4.0, 12.0, 20.0));
    assert!(words(&tank).contains("poorest tap"));
}
