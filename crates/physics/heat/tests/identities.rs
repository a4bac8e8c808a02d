//! Relations that hold for every tank: heater and its temperature are inverse, more loss is colder, mixing knows no order.

use heat::{Body, Cover, Pour, Room, mixed_c};

fn tanks() -> Vec<Body> {
    let mut all = Vec::new();
    for (length_m, width_m, depth_m) in [(0.3, 0.2, 0.18), (0.8, 0.35, 0.4), (1.5, 0.6, 0.55)] {
        for (cover, rippled) in [(Cover::Open, false), (Cover::Open, true), (Cover::Glass, false)] {
            let litres = 0.9e3 * length_m * width_m * depth_m;
            all.push(Body { length_m, width_m, depth_m, glass_mm: 8.0, litres, cover, rippled });
        }
    }
    all
}

#[test]
fn what_holds_a_temperature_leads_to_it() {
    for tank in tanks() {
        for (water, room) in [(25.0, 15.0), (28.0, 22.0), (24.0, 24.0)] {
            let room = Room::at(room);
            let watts = tank.heater_w(water, &room).unwrap();
            let there = tank.warmest_c(watts.value, &room).unwrap();
            assert!((there.value - water).abs() < 1e-6, "{there:?} {water}");
            // The end that loses most is the colder one and needs more watts.
            assert!(there.low <= there.value && there.value <= there.high);
            assert!(watts.low <= watts.value && watts.value <= watts.high);
        }
    }
}

#[test]
fn parts_and_order_of_a_mix_do_not_matter() {
    let all = mixed_c(&[(3.0, 10.0), (4.0, 20.0), (5.0, 30.0)]).unwrap();
    let first = mixed_c(&[(5.0, 30.0), (3.0, 10.0)]).unwrap();
    let then = mixed_c(&[(8.0, first), (4.0, 20.0)]).unwrap();
    assert!((all - then).abs() < 1e-12);
    let pour = Pour { tank_c: 25.0, new_c: 12.0, share: 0.4 };
    assert!((pour.after_c() - mixed_c(&[(60.0, 25.0), (40.0, 12.0)]).unwrap()).abs() < 1e-12);
    let mildest = Pour { new_c: pour.mildest_c(1.0), ..pour };
    assert!((mildest.moves_c() + 1.0).abs() < 1e-12);
    let most = Pour { share: pour.share_most(1.0), ..pour };
    assert!((most.moves_c() + 1.0).abs() < 1e-12);
}
