//! Numbers of the rules of harm and of uptake that follow from others, done again by hand; bottles that clash; law.

use knowledge::{Energy, Feeding, Place, Product, Verdict, book, molar_mass_g_per_mol};
use quantity::{Ion, Kind};

fn product(key: &str) -> &'static Product {
    book().product(key).unwrap_or_else(|| panic!("{key}"))
}

/// 2 mol of thiosulfate for a mol of Cl2: 2 × 248.17 / 70.90 = 7.00 mg per mg (source key `iupac_2022`).
#[test]
fn thiosulfate_covers_the_worst_path() {
    let dose = book().harm.limit.thiosulfate_mg_per_mg.value();
    let least = 2.0 * product("sodium_thiosulfate").salt().unwrap().molar_mass_g_per_mol / 70.90;
    assert!(dose >= least - 0.005 && dose < 1.01 * least, "{dose} {least}");
}

/// Ideal mole volume at 25 °C and 1 atm is 24.465 L, so 1 % of a cubic metre is 10 / 24.465 × 44.009 = 18.0 g.
#[test]
fn carbon_dioxide_in_a_room() {
    let limit = &book().harm.limit;
    let one_per_cent = 10.0 / 24.465 * molar_mass_g_per_mol("CO2").unwrap();
    assert!((limit.co2_room_g_per_m3.value() - one_per_cent).abs() < 0.05, "{one_per_cent}");
    assert!((limit.co2_workplace_g_per_m3.value() - one_per_cent / 2.0).abs() < 0.05);
    // 22 mg/L with pH 0.1 too high and alkalinity a tenth too low: 22 × 10^0.1 × 1.1 = 30.5.
    let worst =
        22.0 * 10f64.powf(limit.co2_ph_error.value()) * (1.0 + limit.co2_alkalinity_error_percent.value() / 100.0);
    assert!(worst > limit.co2_most_mg_per_l.value(), "{worst}");
    assert!(limit.co2_aim_mg_per_l.value() < limit.co2_plan_most_mg_per_l.value());
}

/// 1 German degree is 10 mg CaO in a litre: 20 / 56.077 = 0.3567 meq/L.
#[test]
fn one_degree_of_alkalinity_a_day() {
    let degree = 20.0 / molar_mass_g_per_mol("CaO").unwrap();
    assert!((book().harm.limit.alkalinity_step_meq_per_l.value() - degree).abs() < 0.005);
}

/// The published criterion at pH 7 and 20 °C is 1.9 mg/L N (US EPA 2013, from memory). The other rows are the formula
/// done by hand, to the digits written.
#[test]
fn ammonia_for_snails() {
    let criterion = &book().harm.snail_ammonia;
    for (temperature_c, ph, expected, half_digit) in [
        (20.0, 7.0, 1.9, 0.05),
        (20.0, 8.0, 0.777, 0.0005),
        (25.0, 6.5, 1.54, 0.005),
        (25.0, 7.5, 1.01, 0.005),
        (25.0, 8.5, 0.252, 0.0005),
    ] {
        let got = criterion.total_mg_n_per_l(ph, temperature_c);
        assert!((got - expected).abs() <= half_digit, "{temperature_c} °C, pH {ph}: {got}");
    }
    assert_eq!(criterion.total_mg_n_per_l(7.0, 3.0), criterion.total_mg_n_per_l(7.0, 7.0));
}

/// 0.019 mg/L NH3 × 14.007 / 17.031 = 0.0156 mg/L N.
#[test]
fn ammonia_for_fish() {
    let nitrogen = 0.019 * 14.007 / 17.031;
    assert!((book().harm.limit.ammonia_unionised_mg_n_per_l.value() - nitrogen).abs() < 0.0005);
}

/// The bad end of what is only assumed: each of these is the worse end of its own range.
#[test]
fn the_bad_end_counts() {
    let limit = &book().harm.limit;
    for row in [
        &limit.chlorine_unknown_mg_per_l,
        &limit.chlorine_unknown_us_mg_per_l,
        &limit.thiosulfate_mg_per_mg,
        &limit.copper_unknown_percent,
    ] {
        assert_eq!(row.value(), row.is.high(), "{}", row.say);
    }
    for row in [&limit.ammonia_unionised_mg_n_per_l, &limit.chloramine_cl2_per_n] {
        assert_eq!(row.value(), row.is.low(), "{}", row.say);
    }
    assert!(limit.copper_ask_mg_per_l.value() < limit.copper_refuse_mg_per_l.value());
}

/// Dry matter of 2.5 % N, 0.3 % P, 2.5 % K, 0.3 % Mg, 1.0 % Ca, 0.02 % Fe: per mg of nitrate taken, by hand; 4 %
/// for the two figures that the ratios are written with.
#[test]
fn uptake_follows_the_leaf() {
    let nitrate = 2.5 * 62.004 / 14.007;
    for (ion, share) in [
        (Ion::Potassium, 2.5),
        (Ion::Phosphate, 0.3 * 94.970 / 30.974),
        (Ion::Magnesium, 0.3),
        (Ion::Calcium, 1.0),
        (Ion::Iron, 0.02),
    ] {
        let ratio = book().uptake.per_nitrate[&ion].value;
        assert!((ratio / (share / nitrate) - 1.0).abs() < 0.04, "{ion:?} {ratio} {}", share / nitrate);
    }
    assert_eq!(book().uptake.mg_per_l_day(Energy::Medium, Ion::Nitrate), 0.6);
    assert!((book().uptake.mg_per_l_day(Energy::High, Ion::Potassium) - 0.368).abs() < 1e-12);
}

/// A gram of food with 35 % protein and 1 % phosphorus holds 350 / 6.25 = 56 mg N and 10 mg P.
#[test]
fn what_food_holds() {
    let food = &book().uptake.food;
    assert!((food.nitrogen_mg_per_g() - 56.0).abs() < 1e-9);
    assert!((food.phosphorus_mg_per_g() - 10.0).abs() < 1e-9);
    // 0.092 × 6.25: the share given off as ammonia (Timmons & Ebeling, from memory).
    assert!((food.nitrogen_returned.low() - 0.092 * 6.25).abs() < 1e-9);
}

#[test]
fn feeding_that_does_not_go_with_the_light() {
    assert!(book().levels(Feeding::Plenty, Energy::Low).is_none());
    assert!(book().levels(Feeding::JustEnough, Energy::High).is_none());
    assert_eq!(book().levels(Feeding::Comfortable, Energy::Medium).unwrap().bands[&Ion::Nitrate].high, 16.0);
}

/// Common practice: nitrate, phosphate, potassium and magnesium in one bottle; iron in another; calcium alone.
#[test]
fn bottles_that_may_and_may_not_be_shared() {
    let share = |keys: &[&str]| {
        let products: Vec<_> = keys.iter().map(|key| product(key)).collect();
        book().may_share(&products).map_err(|reason| reason.pair.why)
    };
    let macros =
        ["potassium_nitrate", "potassium_dihydrogen_phosphate", "potassium_sulfate", "magnesium_sulfate_heptahydrate"];
    assert_eq!(share(&macros), Ok(()));
    assert_eq!(share(&["iron_dtpa", "potassium_nitrate", "potassium_sulfate"]), Ok(()));
    assert_eq!(share(&["calcium_nitrate", "calcium_chloride_dihydrate"]), Ok(()));
    assert_eq!(share(&["sodium_thiosulfate"]), Ok(()));
    for (bottle, word) in [
        (["calcium_nitrate", "magnesium_sulfate_heptahydrate"], "gypsum"),
        (["calcium_chloride_dihydrate", "potassium_dihydrogen_phosphate"], "calcium phosphate"),
        (["calcium_chloride_dihydrate", "sodium_bicarbonate"], "lime"),
        (["magnesium_sulfate_heptahydrate", "potassium_bicarbonate"], "magnesium carbonate"),
        (["magnesium_sulfate_heptahydrate", "dipotassium_hydrogen_phosphate"], "magnesium phosphate"),
        (["iron_gluconate", "potassium_dihydrogen_phosphate"], "weakly"),
        (["iron_dtpa", "potassium_dihydrogen_phosphate"], "in time"),
        (["iron_edta", "calcium_chloride_dihydrate"], "EDTA"),
        (["iron_edta", "potassium_carbonate"], "alkaline"),
        (["ammonium_chloride", "sodium_bicarbonate"], "ammonia"),
        (["sodium_thiosulfate", "potassium_nitrate"], "its own bottle"),
    ] {
        let why = share(&bottle).unwrap_err();
        assert!(why.contains(word), "{bottle:?}: {why}");
        let turned = share(&[bottle[1], bottle[0]]).unwrap_err();
        assert_eq!(why, turned, "the order of a bottle does not matter");
    }
}

#[test]
fn may_i_buy_this_here() {
    let ask = |place, key| book().may_buy(place, product(key)).verdict;
    assert_eq!(ask(Place::Eu, "potassium_nitrate"), Verdict::Reported);
    assert_eq!(ask(Place::Gb, "magnesium_nitrate"), Verdict::Reported);
    assert_eq!(ask(Place::Gb, "ammonium_nitrate"), Verdict::Licence);
    assert_eq!(ask(Place::Us, "potassium_nitrate"), Verdict::Allowed);
    assert_eq!(ask(Place::Other, "potassium_nitrate"), Verdict::Ask);
    assert_eq!(ask(Place::Eu, "potassium_sulfate"), Verdict::Allowed);
}

#[test]
fn a_source_says_how_it_was_read() {
    assert_eq!(book().cite_words("ccme_2012"), "CCME 2012, from memory");
    assert_eq!(book().cite_words("ccme_copper"), "CCME, copper, read in another work");
    assert_eq!(book().cite_words("arthur_leonard_1970"), "Arthur & Leonard 1970");
    assert_eq!(book().cite_words("assumed"), "assumed");
    let limit = &book().harm.limit;
    assert_eq!(limit.nitrate_strict_mg_per_l.is.kind(), Kind::Measured);
    assert_eq!(limit.nitrate_step_mg_per_l.is.kind(), Kind::CommonPractice);
    assert_eq!(limit.thiosulfate_mg_per_mg.is.kind(), Kind::WorkedOut);
    assert_eq!(limit.thiosulfate_mg_per_mg.is.source_key(), None);
}
