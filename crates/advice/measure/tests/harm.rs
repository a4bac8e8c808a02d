//! Rules of harm that measuring touches: each test fails when its rule is taken out.

use crate::common;

use crate::common::{tank, worked};
use measure::{Name, Readings, brief, most_grams};

const NOBODY: &str = "[measured]\nlitres = \"90 to 110 L\"\n";

fn without_animals() -> setup::Tank {
    let text = common::HUNDRED.replace("fish = 10", "fish = 0\nshrimps = 0");
    setup::Setup::read("tank.toml", &format!("{text}{NOBODY}")).unwrap().tank().unwrap()
}

/// Rule 6: conductivity by 10 % a day at most, potassium and nitrate 10 mg/L, hardness 1 degree; the least litres count.
#[test]
fn rule_6_no_salt_moves_the_water_by_more_than_a_day_bears() {
    let tank = tank(NOBODY);
    assert_eq!(tank.geometry.true_l.low, 90.0);
    let salt = most_grams(&tank, "kitchen_salt", 420.0).unwrap();
    assert!(salt.rise_us_per_cm <= 42.0 + 1e-6, "{salt:?}");
    // In 90 L, not in 100: 1 mg/L of kitchen salt brings about 2.1 µS/cm, so 42 are 20 mg/L and 1.8 g.
    assert!(salt.grams > 1.6 && salt.grams <= 1.8 && salt.grams <= salt.grams_exact, "{salt:?}");
    // KNO3 is 613.3 mg/g of nitrate: 10 mg/L in 90 L are 1.467 g, less than what a tenth of a strong water would bear.
    let nitrate = most_grams(&tank, "potassium_nitrate", 900.0).unwrap();
    assert!((nitrate.grams_exact - 10.0 * 90.0 / 613.3).abs() < 1e-3, "{nitrate:?}");
    assert!(nitrate.limited_by.contains("nitrate"));
    // K2SO4 is 448.8 mg/g of potassium: 2.005 g.
    let potassium = most_grams(&tank, "potassium_sulfate", 900.0).unwrap();
    assert!((potassium.grams_exact - 10.0 * 90.0 / 448.8).abs() < 1e-3, "{potassium:?}");
    // Epsom salt: 4.396 g raise 100 L by a German degree, 90 L take 3.956 g.
    let hardness = most_grams(&tank, "magnesium_sulfate", 900.0).unwrap();
    assert!((hardness.grams_exact - 3.956).abs() < 0.01, "{hardness:?}");
    // Where nobody lives the rise may be larger.
    assert!(most_grams(&without_animals(), "kitchen_salt", 420.0).unwrap().grams > 2.0 * salt.grams);
}

/// Rule 10: where nobody told the glass no salt is named, and nothing is divided by a guess.
#[test]
fn rule_10_no_grams_for_a_guess() {
    let untold = setup::Setup::read("tank.toml", "[animals]\nfish = 3\n").unwrap().tank().unwrap();
    let readings = Readings::read(Name::Litres, [("before", "420")], &untold.units).unwrap();
    let says = brief(Name::Litres, &untold, &readings).join(" ");
    assert!(says.contains("Tell me your glass first") && !says.contains("Weigh"), "{says}");
    assert!(worked(Name::Trimmings, &untold, &[("grams", "100"), ("days", "7")]).is_err());
}

/// Rule 6: a rise that was too large is told, and no second try advised.
#[test]
fn rule_6_a_rise_that_was_too_large_is_told() {
    let typed = [("salt", "kitchen_salt"), ("grams", "3"), ("before", "420"), ("after", "480")];
    let says = worked(Name::Litres, &tank(""), &typed).unwrap().says;
    assert!(
        says[0].contains("14 %") && says[0].contains("10 % a day") && says[0].contains("No second try"),
        "{says:?}"
    );
    assert!(!worked(Name::Litres, &without_animals(), &typed).unwrap().says[0].contains("second try"));
}

/// Rule 6: a cooling stays within a degree an hour and two a day; too much is told with what to do.
#[test]
fn rule_6_a_cooling_stays_small() {
    let tank = tank("");
    let none = Readings::default();
    let before = brief(Name::Cooling, &tank, &none).join(" ");
    assert!(
        before.contains("1 °C an hour") && before.contains("2 °C a day") && before.contains("Stop at a fall of 1 °C")
    );
    let typed = [("start", "25"), ("end", "22"), ("hours", "8"), ("room", "16"), ("pump", "0")];
    let says = worked(Name::Cooling, &tank, &typed).unwrap().says;
    assert!(says[0].contains("too much with animals") && says[0].contains("plug in now"), "{says:?}");
    let gentle = [("start", "25"), ("end", "24"), ("hours", "3"), ("room", "16"), ("pump", "0")];
    assert!(!worked(Name::Cooling, &tank, &gentle).unwrap().says[0].contains("too much"));
    // A small tank in a cold room cools faster than that: it is sent to the other way.
    let small = setup::Setup::read(
        "tank.toml",
        "[glass]\ninner_length = \"20 cm\"\ninner_width = \"20 cm\"\ninner_height = \"20 cm\"\n[animals]\nfish = 1\n",
    );
    let small = small.unwrap().tank().unwrap();
    let readings = Readings::read(Name::Cooling, [("start", "26"), ("room", "10")], &small.units).unwrap();
    let before = brief(Name::Cooling, &small, &readings).join(" ");
    assert!(before.contains("take the way by the heater’s plug"), "{before}");
}

/// Rules 7 and 15: a clay that gives off ammonia is told with the toxic limit and the start test.
#[test]
fn rules_7_and_15_a_clay_with_ammonia() {
    let typed = [("vinegar", "none"), ("rubbed", "firm"), ("grams", "100"), ("litres", "1"), ("ammonia", "1")];
    let tank =
        setup::Setup::read("tank.toml", &common::HUNDRED.replace("\"0 cm\"", "\"5 cm\"")).unwrap().tank().unwrap();
    let found = worked(Name::Clay, &tank, &typed).unwrap();
    assert!(found.flags.iter().any(|flag| flag.field == "measured.ground_ammonia" && flag.yes));
    let says = found.says.join(" ");
    assert!(says.contains("0.016") && says.contains("start test is passed twice"), "{says}");
    // Not tested is not absent.
    let untested = worked(Name::Clay, &tank, &typed[..4]).unwrap();
    assert!(!untested.flags.iter().any(|flag| flag.field == "measured.ground_ammonia"));
    assert!(untested.says.iter().any(|says| says.contains("count on it")));
}

/// Rule 9: acid on a saucer, household vinegar alone, nothing of it into the tank.
#[test]
fn rule_9_the_acid_never_meets_the_tank() {
    let clay = Name::Clay.protocol().unwrap();
    assert!(clay.at_hand.iter().any(|thing| thing.contains("5 %") && thing.contains("nothing stronger")));
    let step = clay.steps.iter().find(|step| step.contains("vinegar")).unwrap();
    assert!(step.starts_with("Outside the tank") && step.contains("never into the tank"));
    assert!(clay.cautions.iter().any(|rule| rule == "no_acid"));
}

/// Rule 12: the carbon dioxide of the first reading is held against 30 mg/L where animals live, its upper end of the range.
#[test]
fn rule_12_too_much_carbon_dioxide_is_told_where_it_is_read() {
    let typed = |start: &'static str| {
        [
            ("ph_start", start),
            ("ph_end", "7.13"),
            ("hours", "2"),
            ("ph_rest", "7.83"),
            ("alkalinity", "4"),
            ("water", "25"),
        ]
    };
    let of = |tank: &setup::Tank, start| worked(Name::Co2, tank, &typed(start)).unwrap().says.join(" ");
    let given = "[tank]\nco2 = \"15 mg/L\"\n";
    // PHREEQC's table for bicarbonate water has 20 mg/L at 4 °dKH and pH 6.83, so 20 × 10^0.30 = 40 at 6.53; the ions of this
    // tap take a twentieth. At pH 0.1 lower and 1.1 times the alkalinity: 38.5 to 39 × 10^0.1 × 1.1 = 53.3 to 54.0.
    let says = of(&tank(given), "6.53");
    for words in [
        "stays off, air on",
        "held 38 mg/L",
        "may have been 54",
        "under 30 mg/L",
        "above 50 to 60 in danger",
        "never switched off",
    ] {
        assert!(says.contains(words), "{words}: {says}");
    }
    // 38 × 10^(6.53 - 6.75) = 22.9 can be 22.9 × 1.259 × 1.1 = 31.7; at 6.83 it is 19 and at most 26.4.
    assert!(of(&tank(given), "6.75").contains("under 30 mg/L"));
    assert!(!of(&tank(given), "6.83").contains("under 30 mg/L"));
    // Where nobody lives nobody is harmed.
    let text = common::HUNDRED.replace("fish = 10", "fish = 0\nshrimps = 0");
    let empty = setup::Setup::read("tank.toml", &format!("{text}{given}")).unwrap().tank().unwrap();
    assert!(!of(&empty, "6.53").contains("under 30 mg/L"));
}

/// Rules 13, 17, 20: nothing is raised or switched off for a number; cuttings stay out of nature; hands stay dry.
#[test]
fn rules_13_17_and_20_stand_with_their_acts() {
    let says = |name: Name, rule: &str| name.protocol().unwrap().cautions.iter().any(|key| key == rule);
    assert!(says(Name::Co2, "co2_never_raised") && says(Name::Co2, "filter_and_air_stay"));
    assert!(says(Name::Oxygen, "filter_and_air_stay"));
    assert!(says(Name::Trimmings, "never_release"));
    for name in [Name::Flow, Name::Light, Name::Heater, Name::Cooling] {
        assert!(says(name, "drip_loops"), "{name:?}");
    }
    assert!(says(Name::Flow, "plugs_out") && says(Name::Light, "lamp"));
    let light = Name::Light.protocol().unwrap().steps.join(" ");
    assert!(light.contains("Never over open water") && light.contains("never while it charges"));
    let cooling = Name::Cooling.protocol().unwrap().steps.join(" ");
    assert!(cooling.contains("dry hands") && cooling.contains("Filter and air run on"));
}
