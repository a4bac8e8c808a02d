//! What topping up leaves behind: by hand, and the recurrence run until it repeats.

use heat::TopUp;

fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

/// 100 L, a litre a day of tap of 16 degrees, 30 L changed each week with the same tap.
fn tank() -> TopUp {
    TopUp { litres: 100.0, a_day_l: 1.0, every_days: 7.0, share: 0.3, new_level: 16.0, top_up_level: 16.0 }
}

#[test]
fn hard_tap_by_hand() {
    // A week adds 16 x 7/100 = 1.12. Before a change it settles at 16 + 1.12/0.3 = 19.73 (+23 %), after at 18.61.
    let (after, before) = tank().settles().unwrap();
    close(before, 19.733, 0.001);
    close(after, 18.613, 0.001);
    // 10 L a week: 16 + 1.12/0.1 = 27.2 (+70 %). Rain for topping up: stays at 16.
    close(TopUp { share: 0.1, ..tank() }.settles().unwrap().1, 27.2, 1e-9);
    assert_eq!(TopUp { top_up_level: 0.0, ..tank() }.settles().unwrap(), (16.0, 16.0));
}

#[test]
fn without_changes_it_never_settles() {
    let soil = TopUp { share: 0.0, ..tank() };
    assert_eq!(soil.settles(), None);
    // 52 weeks: 16 + 53 x 1.12 = 75.36 before the change that never comes.
    close(soil.before_change(16.0, 52), 75.36, 1e-9);
}

#[test]
fn the_recurrence_comes_to_the_closed_form() {
    for share in [0.05, 0.1, 0.3, 0.5, 1.0] {
        for start in [0.0, 16.0, 60.0] {
            let tank = TopUp { share, ..tank() };
            close(tank.before_change(start, 2000), tank.settles().unwrap().1, 1e-9);
        }
    }
}
