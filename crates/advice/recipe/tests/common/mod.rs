//! A tank of a hundred litres with round figures, for sums by hand. Invented; charges balance within 0.01 meq/L.

use std::collections::BTreeMap;

use quantity::{Ion, Kind, Known, Units};
use setup::{Animals, AtHand, Disinfectant, Energy, Feeding, Geometry, Growth, Habits, SourceWater, Tank, Wish};

/// A measured value without a range.
pub fn exact(value: f64) -> Known<f64> {
    Known::exact(value, Kind::Measured)
}

/// A measured value with its range.
pub fn ranged(low: f64, value: f64, high: f64) -> Known<f64> {
    Known::ranged(low, value, high, Kind::Measured)
}

/// A water without chlorine: mg/L and meq/L.
pub fn water(name: &str, ions: &[(Ion, f64)], alkalinity: f64) -> SourceWater {
    let mut all: BTreeMap<Ion, Known<f64>> = Ion::ALL.into_iter().map(|ion| (ion, exact(0.0))).collect();
    all.extend(ions.iter().map(|(ion, mg)| (*ion, exact(*mg))));
    SourceWater {
        name: name.to_owned(),
        ions: all,
        alkalinity_meq_per_l: exact(alkalinity),
        ph: exact(7.5),
        temperature_c: ranged(8.0, 12.0, 16.0),
        conductivity_25_us_per_cm: None,
        disinfectant: Disinfectant::None,
        total_chlorine_mg_per_l: exact(0.0),
    }
}

/// The tap: middling hard, with phosphate.
pub fn tap() -> SourceWater {
    let ions = [
        (Ion::Calcium, 60.0),
        (Ion::Magnesium, 8.0),
        (Ion::Sodium, 15.0),
        (Ion::Potassium, 2.0),
        (Ion::Chloride, 22.0),
        (Ion::Sulfate, 35.0),
        (Ion::Nitrate, 12.0),
        (Ion::Phosphate, 1.5),
        (Ion::Copper, 0.001),
    ];
    water("the tap", &ions, 2.80)
}

/// A hundred litres, a quarter changed a week, adult fish, start test passed.
pub fn tank() -> Tank {
    let uptake = [
        (Ion::Nitrate, 0.6),
        (Ion::Potassium, 0.138),
        (Ion::Phosphate, 0.051),
        (Ion::Magnesium, 0.016),
        (Ion::Calcium, 0.054),
        (Ion::Iron, 0.001),
    ];
    let growth = Growth {
        uptake_mg_per_l_day: uptake
            .iter()
            .map(|(ion, mg)| (*ion, Known::ranged(0.6 * mg, *mg, 1.6 * mg, Kind::Assumed)))
            .collect(),
        food_mg_per_l_day: BTreeMap::new(),
        alkalinity_eaten_meq_per_l_day: exact(0.0),
    };
    let geometry = Geometry {
        length_m: 0.8,
        width_m: 0.35,
        height_m: 0.45,
        glass_m: 0.006,
        waterline_m: 0.42,
        ground_front_m: 0.04,
        ground_back_m: 0.07,
        nominal_l: 126.0,
        true_l: exact(100.0),
        surface_m2: 0.28,
        mass_kg: exact(150.0),
        pressure_kpa: exact(5.1),
    };
    let at_hand = AtHand {
        products: Vec::new(),
        own: Vec::new(),
        scale_g: exact(0.1),
        syringe_ml: exact(0.5),
        bottle_ml: exact(300.0),
        daily_ml: exact(5.0),
        chelate: "iron_dtpa".to_owned(),
        trace_copper: Known::exact(0.015, Kind::Assumed),
        coldest_room_c: exact(10.0),
        bucket_l: exact(9.0),
        by_hose: false,
        dropper: false,
    };
    Tank {
        name: "a hundred litres".to_owned(),
        country: "eu".to_owned(),
        currency: "EUR".to_owned(),
        units: Units::default(),
        geometry,
        measured: setup::Measured::default(),
        warmth: setup::Warmth::default(),
        temperature_c: exact(24.0),
        room_co2_ppm: ranged(600.0, 1000.0, 1500.0),
        co2_given_mg_per_l: None,
        tap: tap(),
        low: None,
        pipes_copper_mg_per_l: exact(0.001),
        low_share: Some(0.0),
        energy: Energy::Medium,
        feeding: Feeding::Comfortable,
        animals: Animals { fish: 10, start_test_passed: true, ..Animals::default() },
        growth,
        plants: String::new(),
        keeping: setup::Keeping::default(),
        habits: Habits {
            change_share: exact(0.25),
            every_days: 7,
            top_up_l_per_day: exact(0.0),
            top_up_with: "tap".to_owned(),
        },
        at_hand,
        wish: Wish::default(),
        prices: BTreeMap::new(),
        unchanged_months: None,
        assumed: Vec::new(),
        questions: Vec::new(),
        unusual: Vec::new(),
        whys: Vec::new(),
    }
}

/// That tank with a disinfectant in its tap, mg/L of total chlorine.
pub fn with_chlorine(disinfectant: Disinfectant, mg_per_l: Known<f64>) -> Tank {
    let mut tank = tank();
    tank.tap.disinfectant = disinfectant;
    tank.tap.total_chlorine_mg_per_l = mg_per_l;
    tank
}

/// Every sentence of a plan, one after the other.
pub fn sentences(plan: &recipe::Plan) -> Vec<String> {
    let mut all = Vec::new();
    let notes = [&plan.left_out, &plan.cautions, &plan.law, &plan.new_water.notes];
    all.extend(notes.into_iter().flatten().map(|note| note.text.clone()));
    all.extend(plan.change.limited.clone());
    all.extend(plan.unmet.iter().map(|u| u.text.clone()));
    for bottle in &plan.bottles {
        all.extend(bottle.handling.iter().cloned());
        all.push(bottle.slip.clone());
    }
    for refused in &plan.refused {
        all.push(format!("{}: {}", refused.wish, refused.why));
        all.extend(refused.ways.iter().cloned());
    }
    if let Some(c) = &plan.new_water.conditioner {
        all.extend(c.sentences.iter().chain(&c.more).cloned());
        all.extend(c.refused.clone());
    }
    all.extend(plan.new_water.salts.iter().map(|s| s.how.clone()));
    all.extend(plan.whys.iter().flat_map(|w| [w.question.clone(), w.sum.clone(), w.words.clone()]));
    all
}

/// The caution, note or sentence that holds these words.
pub fn says<'a>(all: &'a [String], words: &str) -> Option<&'a String> {
    all.iter().find(|text| text.contains(words))
}
