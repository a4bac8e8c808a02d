//! A tank of 80 x 35 cm with 40 cm of water, by hand.

use heat::{Body, Cover, Gear, Room, heat_w, loss_from_cooling_w_per_k};

fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

fn tank() -> Body {
    Body {
        length_m: 0.8,
        width_m: 0.35,
        depth_m: 0.4,
        glass_mm: 6.0,
        litres: 112.0,
        cover: Cover::Open,
        rippled: false,
    }
}

#[test]
fn evaporation_of_a_square_metre() {
    // Water 25 °C 3.1617 kPa; room 21 °C 2.4816 kPa (0.61094 exp(17.625 x 21/264.04)), half of it 1.2408; air 0.1 m/s:
    // 0.089 + 0.00782 = 0.09682; latent 2441.8: (3.1617 - 1.2408) x 0.09682 / 2441.8 x 86400 = 6.581 kg/m² a day.
    // Of that 0.62: 4.080; on 0.28 m²: 1.142 L. Low: 0.5, air 0.05: (0.089 + 0.00391)/0.09682 x 6.581 x 0.5 x 0.28 = 0.884;
    // high: 0.74, air 0.2: (0.089 + 0.01564)/0.09682 x 6.581 x 0.74 x 0.28 = 1.474.
    let a_day = tank().evaporation_l_per_day(25.0, &Room::at(21.0)).unwrap();
    close(a_day.value, 1.142, 0.002);
    close(a_day.low, 0.884, 0.002);
    close(a_day.high, 1.474, 0.002);
}

#[test]
fn a_cover_and_ripples() {
    let still = tank().evaporation_l_per_day(25.0, &Room::at(21.0)).unwrap();
    let covered = Body { cover: Cover::Glass, ..tank() }.evaporation_l_per_day(25.0, &Room::at(21.0)).unwrap();
    close(covered.value / still.value, 0.1, 1e-12);
    close(covered.high / still.high, 0.2, 1e-12);
    let rippled = Body { rippled: true, ..tank() }.evaporation_l_per_day(25.0, &Room::at(21.0)).unwrap();
    close(rippled.high / still.high, 3.0, 1e-12);
    // Moist air over cooler water gives water back; nothing evaporates.
    let moist = Room { temperature_c: 28.0, humidity: 1.0 };
    assert_eq!(tank().evaporation_l_per_day(20.0, &moist).unwrap().high, 0.0);
}

#[test]
fn walls_floor_and_surface() {
    // Walls 2 x 1.15 x 0.4 = 0.92 m² at 1/(1/300 + 0.006 + 1/8) = 7.444: 6.849; floor 0.28 x 3.2 = 0.896;
    // surface 0.28 x 8 = 2.24; together 9.985 W/K. Low: 0.92 x 5.6285 + 0.28 x 7.5 = 7.278; high 12.579.
    let loss = tank().loss_w_per_k().unwrap();
    close(loss.value, 9.985, 0.001);
    close(loss.low, 7.278, 0.001);
    close(loss.high, 12.579, 0.001);
}

#[test]
fn a_heater_for_four_degrees() {
    // Room 21, water 25: 9.985 x 4 = 39.94 W; evaporation 1.142 kg x 2441.8 kJ / 86400 s = 32.28 W; together 72.2.
    // High: 12.579 x 4 + 1.474 x 2441.8/86.4 = 50.3 + 41.7 = 92.0.
    let watts = tank().heater_w(25.0, &Room::at(21.0)).unwrap();
    close(watts.value, 72.2, 0.1);
    close(watts.high, 92.0, 0.1);
    assert_eq!(tank().heater_w(20.0, &Room::at(35.0)).unwrap().low, 0.0);
}

#[test]
fn a_heater_stuck_on() {
    // 72.2 W hold 25 °C in a room of 21: so they lead to 25. At the low end of the loss they lead further.
    let warm = tank().warmest_c(72.2, &Room::at(21.0)).unwrap();
    close(warm.value, 25.0, 0.02);
    assert!(warm.high > 26.0 && warm.low < 25.0, "{warm:?}");
    // A room of 30, 200 W, covered, low end: dry (5.6285 x 0.92 + 0.28 x (1.5 + 3)) = 6.438 W/K, 200/6.438 = 31.1 over
    // the room, past 50: said as the most that is worked out.
    let covered = Body { cover: Cover::Glass, ..tank() };
    close(covered.warmest_c(200.0, &Room::at(30.0)).unwrap().high, heat::MOST_C, 1e-6);
}

#[test]
fn gear() {
    // A pump of 5 W in the water all day: 5. A lamp of 30 W for 8 h: 10 W mean, 2 to 4 of it into the water.
    assert_eq!(heat_w(Gear::InWater, 5.0, 24.0).value, 5.0);
    let lamp = heat_w(Gear::LampAbove, 30.0, 8.0);
    close(lamp.low, 2.0, 1e-12);
    close(lamp.high, 4.0, 1e-12);
}

#[test]
fn a_loss_measured_by_cooling() {
    // 100 L from 25 to 22 °C in 6 h, room 18: ln(7/4) = 0.55962; 418000 x 0.55962 / 21600 = 10.83 W/K.
    close(loss_from_cooling_w_per_k(100.0, 18.0, 25.0, 22.0, 6.0).unwrap(), 10.83, 0.01);
    assert_eq!(loss_from_cooling_w_per_k(100.0, 18.0, 22.0, 25.0, 6.0), None);
    assert_eq!(loss_from_cooling_w_per_k(100.0, 18.0, 25.0, 17.0, 6.0), None);
    assert_eq!(loss_from_cooling_w_per_k(100.0, 18.0, 25.0, 22.0, 0.0), None);
}

#[test]
fn what_no_tank_can_be_is_refused() {
    assert!(Body { length_m: 0.0, ..tank() }.loss_w_per_k().is_err());
    assert!(tank().heater_w(f64::NAN, &Room::at(20.0)).is_err());
    assert!(tank().warmest_c(50.0, &Room { temperature_c: 20.0, humidity: 1.2 }).is_err());
}
