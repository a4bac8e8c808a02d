//! Invented tanks of many kinds: soft and hard, swinging, rain, blended, owned and bare shelves.

use std::collections::BTreeMap;

use quantity::Ion;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use recipe::{Choice, Into, Reason, Subject};
use setup::{Animals, Energy, Feeding, OwnProduct, Tank};

use crate::common::{exact, ranged, tank, water};

/// Named tanks.
pub fn invented() -> Vec<(&'static str, Tank)> {
    vec![
        ("middling tap", tank()),
        ("rain", rain()),
        ("rain, half of it owned", rain_owned()),
        ("much nitrate", much_nitrate()),
        ("swinging", swinging()),
        ("blended", blended()),
        ("soft, raised", soft_raised()),
        ("never changed", Tank { habits: setup::Habits { every_days: 0, ..tank().habits }, ..tank() }),
    ]
}

pub fn rain() -> Tank {
    let mut tank = tank();
    tank.tap = water("rain", &[(Ion::Calcium, 1.0), (Ion::Sulfate, 2.0)], 0.0);
    tank.animals.shrimps = 5;
    tank
}

pub fn rain_owned() -> Tank {
    let mut tank = rain();
    tank.at_hand.products =
        ["trace_mix", "potassium_nitrate", "magnesium_sulfate_heptahydrate"].map(str::to_owned).to_vec();
    tank
}

pub fn much_nitrate() -> Tank {
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Nitrate, ranged(25.0, 40.0, 50.0));
    tank.habits.change_share = exact(0.5);
    tank
}

pub fn swinging() -> Tank {
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Nitrate, ranged(2.0, 10.0, 25.0));
    tank
}

pub fn blended() -> Tank {
    let mut tank = swinging();
    tank.low = Some(water("low-mineral water", &[], 0.1));
    tank.low_share = None;
    tank.wish.alkalinity_meq_per_l = Some((1.0, 1.5));
    tank.wish.hardness_meq_per_l = Some((1.0, 2.0));
    tank
}

pub fn soft_raised() -> Tank {
    let mut tank = tank();
    tank.tap = water("soft", &[(Ion::Calcium, 8.0), (Ion::Sodium, 5.0), (Ion::Chloride, 8.0)], 0.3);
    tank.wish.alkalinity_meq_per_l = Some((1.5, 2.5));
    tank.wish.hardness_meq_per_l = Some((2.0, 3.0));
    tank
}

/// A tank drawn at random: the same for the same seed.
pub fn random(seed: u64) -> Tank {
    let mut r = ChaCha8Rng::seed_from_u64(seed);
    let mut tank = tank();
    let most = [
        (Ion::Sodium, 60.0),
        (Ion::Potassium, 8.0),
        (Ion::Calcium, 120.0),
        (Ion::Magnesium, 25.0),
        (Ion::Ammonium, 0.2),
        (Ion::Chloride, 80.0),
        (Ion::Sulfate, 120.0),
        (Ion::Nitrate, 45.0),
        (Ion::Phosphate, 3.0),
        (Ion::Iron, 0.05),
        (Ion::Copper, 0.006),
    ];
    // From next to pure to hard.
    let salty: f64 = r.random_range(0.0..1.0);
    for (ion, most) in most {
        let value = most * salty * r.random_range(0.0..1.0);
        tank.tap.ions.insert(ion, ranged(value * r.random_range(0.4..1.0), value, value * r.random_range(1.0..1.8)));
    }
    let alkalinity = 5.0 * salty * r.random_range(0.0..1.0);
    tank.tap.alkalinity_meq_per_l = ranged(0.8 * alkalinity, alkalinity, 1.1 * alkalinity);
    tank.geometry.true_l = {
        let l: f64 = 10f64.powf(r.random_range(1.0..2.7));
        ranged(0.9 * l, l, 1.1 * l)
    };
    tank.habits.change_share = exact(r.random_range(0.1..0.8));
    tank.habits.every_days = if r.random_range(0..12) == 0 { 0 } else { r.random_range(3..22) };
    tank.energy = [Energy::Low, Energy::Medium, Energy::High][r.random_range(0..3)];
    tank.feeding = [Feeding::JustEnough, Feeding::Comfortable, Feeding::Plenty, Feeding::None][r.random_range(0..4)];
    let faster: f64 = r.random_range(0.2..3.0);
    for known in tank.growth.uptake_mg_per_l_day.values_mut() {
        *known = known.map(|mg| mg * faster);
    }
    tank.growth.food_mg_per_l_day = BTreeMap::from([
        (Ion::Nitrate, exact(r.random_range(0.0..1.0))),
        (Ion::Phosphate, exact(r.random_range(0.0..0.1))),
    ]);
    tank.growth.alkalinity_eaten_meq_per_l_day = exact(r.random_range(0.0..0.02));
    tank.habits.top_up_l_per_day = exact(tank.geometry.true_l.value * r.random_range(0.0..0.01));
    tank.animals = Animals {
        fish: r.random_range(0..2) * 8,
        shrimps: r.random_range(0..2) * 5,
        start_test_passed: true,
        ..Animals::default()
    };
    let keys: Vec<&String> = knowledge::book().products.keys().collect();
    tank.at_hand.products = (0..r.random_range(0..5)).map(|_| keys[r.random_range(0..keys.len())].clone()).collect();
    if r.random_range(0..3) == 0 {
        let ions = [(Ion::Nitrate, 40.0), (Ion::Phosphate, 2.0), (Ion::Potassium, 30.0), (Ion::Iron, 0.3)];
        let ions_mg = ions.into_iter().filter(|_| r.random_range(0..2) == 0).collect();
        tank.at_hand.own = vec![OwnProduct { name: "a liquid of mine".to_owned(), ions_mg, liquid: true }];
    }
    if r.random_range(0..3) == 0 {
        tank.low = Some(water("low-mineral water", &[(Ion::Sodium, 2.0)], 0.05));
        tank.low_share = (r.random_range(0..2) == 0).then(|| r.random_range(0.0..1.0));
    }
    if r.random_range(0..3) == 0 {
        let low = r.random_range(0.2..3.0);
        tank.wish.alkalinity_meq_per_l = Some((low, low + 1.0));
    }
    if r.random_range(0..4) == 0 {
        let low = r.random_range(0.5..4.0);
        tank.wish.hardness_meq_per_l = Some((low, low + 1.5));
    }
    tank.country = ["eu", "gb", "us", "other"][r.random_range(0..4)].to_owned();
    tank
}

/// A hundred litres, a quarter changed a week, a tap with calcium chloride alone (and just the alkalinity that animals need,
/// so that none is added), nothing taken up, and these bands only.
pub fn plain(bands: &[(Ion, (f64, f64))]) -> Tank {
    let mut tank = tank();
    tank.tap = water("plain", &[(Ion::Calcium, 40.0), (Ion::Chloride, 71.0)], 2.0);
    tank.feeding = Feeding::None;
    tank.growth.uptake_mg_per_l_day = BTreeMap::new();
    tank.wish.bands = bands.iter().copied().collect();
    tank
}

/// Two numbers agree to the solver's tolerance.
pub fn near(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-5 * b.abs(), "{a} is not {b}");
}

/// mg/L of an ion that the bottles of a choice bring a day.
pub fn a_day(choice: &Choice, ion: Ion) -> f64 {
    let bottles = choice.doses.iter().filter(|dose| dose.into == Into::Bottle);
    bottles.flat_map(|dose| &dose.brings).filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum()
}

/// Why a choice left something out.
pub fn left_out<'a>(choice: &'a Choice, subject: &Subject) -> Vec<&'a Reason> {
    choice.left_out.iter().filter(|left| left.subject == *subject).map(|left| &left.reason).collect()
}
