//! Rules of harm that Help now touches: each test fails when its rule is taken out of the sheets or of the arithmetic.

use crate::common::{figure, sum, words, work};
use trouble::{Sheet, Sum, Urgency, cold_water, sheet, sheets};

/// All that a sheet says, in its order.
fn text(sheet: &Sheet) -> String {
    let items = |items: &[trouble::Item]| {
        items.iter().map(|item| format!("{} {}", item.head, item.says.join(" "))).collect::<Vec<_>>().join(" ")
    };
    let (find, prevent) = (sheet.find_out.join(" "), sheet.prevent.join(" "));
    let parts = [
        &sheet.title,
        &sheet.sign,
        &items(&sheet.first),
        &sheet.then,
        &items(&sheet.steps),
        &items(&sheet.last),
        &find,
        &prevent,
    ];
    parts.map(String::as_str).join(" ").replace('\u{a0}', " ")
}

pub(crate) fn of(key: &str) -> String {
    text(sheet(key).unwrap_or_else(|| panic!("no {key}")))
}

/// Where a phrase stands; it must be there.
fn at(text: &str, phrase: &str) -> usize {
    text.find(phrase).unwrap_or_else(|| panic!("missing: {phrase}\n{text}"))
}

/// Sheets in which water is changed.
const CHANGED: [&str; 5] = ["gasping", "lying", "overdose", "ammonia", "alkalinity"];

/// Names with their texts.
type Pairs<'a> = &'a [(&'a str, &'a str)];

/// Tanks in several kinds of trouble, and what is said of each.
fn all_sums() -> Vec<(String, Sum)> {
    let cases: [(&str, Pairs, Pairs); 9] = [
        ("ammonia", &[], &[("ammonia", "1 mg/L N"), ("ph", "8"), ("nitrite", "1 mg/L N")]),
        ("ammonia", &[("animals.unchanged_months", "8")], &[("ammonia", "4 mg/L N"), ("ph", "8")]),
        ("gasping", &[("animals.unchanged_months", "8")], &[("ammonia", "4 mg/L N"), ("ph", "8")]),
        ("overdose", &[("feeding.wish", "plenty"), ("light.energy", "high")], &[("times", "60")]),
        ("power-cut", &[("animals.fish", "300")], &[]),
        ("heater-on", &[("heater.watts", "200 W")], &[]),
        ("nitrate", &[("tap.nitrate", "45 mg/L NO3"), ("animals.shrimps", "9")], &[("nitrate", "80 mg/L NO3")]),
        ("alkalinity", &[], &[("alkalinity", "0.1 meq/L"), ("ammonia", "2 mg/L N"), ("ph", "6.5")]),
        ("carbon-dioxide", &[], &[("ph", "6.4")]),
    ];
    let all = cases.into_iter().flat_map(|(trouble, fields, readings)| {
        work(trouble, fields, readings).sums.into_iter().map(move |sum| (trouble.to_owned(), sum))
    });
    all.collect()
}

#[test]
fn words_that_are_never_said() {
    let mut all: Vec<String> = sheets().iter().map(text).collect();
    all.extend(all_sums().iter().map(|(_, sum)| words(sum)));
    for text in all {
        assert!(!text.contains('{') && !text.contains("NaN"), "a figure is missing: {text}");
        let lower = text.to_lowercase();
        for word in lower.split(|c: char| !c.is_alphanumeric()) {
            assert!(!["gas", "safe", "safely", "potable"].contains(&word), "{word}: {text}");
        }
        for wrong in ["air off", "air pump off", "turn off the air", "drinking water", "to drink"] {
            assert!(!lower.contains(wrong), "{wrong}: {text}");
        }
    }
}

#[test]
fn rule_2_conditioner_before_new_water_meets_fish() {
    for key in CHANGED {
        at(&of(key).to_lowercase(), "conditioner");
    }
    let text = of("gasping");
    assert!(at(&text, "stir, wait 5 minutes") < at(&text, "Pour slowly"));
    at(&text, "hurts gills from about 0.02 mg/L on");
}

#[test]
fn rule_4_copper_has_its_number() {
    at(&of("overdose"), "harm starts at 0.004 mg/L of copper");
}

#[test]
fn rule_5_no_change_when_the_tap_smells() {
    for key in CHANGED.iter().filter(|key| **key != "alkalinity") {
        let text = of(key).to_lowercase();
        assert!(at(&text, "tap smells, is brown, or there is a notice") > 0);
        assert!(text.contains("no change, air only") || text.contains("no change: air only"), "{key}");
    }
    let tap = sheet("tap").unwrap();
    assert_eq!(tap.steps.first().unwrap().head, "No change today. Air only.");
    at(&of("tap"), "never the hot one");
    at(&of("leak"), "a child can drown in it");
    for (trouble, sum) in all_sums().iter().filter(|(_, sum)| ["toxic-ammonia", "overdose"].contains(&sum.key.as_str()))
    {
        if sum.urgency == Urgency::AtOnce {
            let words = words(sum);
            assert!(words.contains("air only"), "{trouble}: {words}");
        }
    }
}

#[test]
fn rule_6_an_hour_one_degree_a_day_two() {
    let limit = &knowledge::book().harm.limit;
    let hour = limit.temperature_step_c_per_h.value();
    // Just under and just over the hour's limit: 50 L of 100, 2 °C apart move it by 1.
    assert!(!cold_water(50.0, 23.01, 50.0, 25.0).unwrap().too_sudden);
    assert!(cold_water(50.0, 22.9, 50.0, 25.0).unwrap().too_sudden);
    let cold = cold_water(50.0, 10.0, 50.0, 25.0).unwrap();
    assert!((25.0 - 0.5 * (25.0 - cold.mildest_at_once_c) - 25.0).abs() - hour < 1e-9);
    for key in ["gasping", "heater-on", "heater-dead"] {
        at(&of(key), "at most 1 °C (1.8 °F) in an hour and 2 °C (3.6 °F) in a day");
    }
    // Alkalinity by no more than its day's step.
    let step = limit.alkalinity_step_meq_per_l.value();
    let worked = work("alkalinity", &[("tap.alkalinity", "6 meq/L")], &[("alkalinity", "0.1 meq/L")]);
    let share = figure(sum(&worked, "alkalinity"), "share_a_day");
    assert!(share * (6.0 - 0.1) <= step + 1e-9, "{share}");
    at(&of("alkalinity"), "at most 1 German degree (0.36 meq/L) a day");
}

#[test]
fn rule_7_whatever_raises_ph_is_checked_for_ammonia() {
    // At pH 7.9 the reading's upper end decides: 0.35 mg/L are 0.0136 toxic at 7.9 and 0.0170 at 8.0, over 0.016.
    let fields = [("tank.temperature", "24 °C")];
    let worked = work("ammonia", &fields, &[("ammonia", "0.4 mg/L N"), ("ph", "7.9"), ("temperature", "24 °C")]);
    let toxic = sum(&worked, "toxic-ammonia");
    assert!(figure(toxic, "nh3_mg_n_per_l") < 0.016 && figure(toxic, "nh3_high_mg_n_per_l") > 0.016, "{toxic:?}");
    assert_eq!(toxic.urgency, Urgency::AtOnce);
    // Snails bear less where it is warm and not alkaline.
    let snails = [("tank.temperature", "24 °C"), ("animals.snails", "5")];
    let readings = [("ammonia", "2 mg/L N"), ("ph", "6.8"), ("temperature", "24 °C")];
    assert_eq!(sum(&work("ammonia", &fields, &readings), "toxic-ammonia").urgency, Urgency::LeaveItBe);
    assert_eq!(sum(&work("ammonia", &snails, &readings), "toxic-ammonia").urgency, Urgency::AtOnce);
    // No alkalinity salt while ammonia shows.
    let worked = work("alkalinity", &[], &[("alkalinity", "0.1 meq/L"), ("ammonia", "2 mg/L N"), ("ph", "6.5")]);
    at(&words(sum(&worked, "alkalinity")), "no alkalinity salt and no hard water yet");
    at(&words(sum(&work("gasping", &[("tap.ammonium", "0 mg/L NH4")], &[]), "half-change")), "test before and after");
    let text = of("alkalinity");
    assert!(at(&text, "Test ammonia first.") < at(&text, "Then in steps"));
    at(&of("carbon-dioxide"), "Airing off raises pH");
}

#[test]
fn rule_8_an_old_tank_gets_a_tenth() {
    for key in CHANGED {
        let text = of(key).to_lowercase();
        assert!(text.contains("not changed for months") || text.contains("long unchanged"), "{key}");
        at(&text, "a tenth, again each hour, with an ammonia test");
    }
    let old = [("animals.unchanged_months", "8"), ("tap.ammonium", "0 mg/L NH4")];
    let worked = work("ammonia", &old, &[("ammonia", "4 mg/L N"), ("ph", "8.0"), ("nitrite", "1 mg/L N")]);
    let toxic = words(sum(&worked, "toxic-ammonia"));
    assert!(toxic.contains("a tenth at once and no more") || toxic.contains("No change with this water"), "{toxic}");
    assert!(!toxic.contains("50 %"), "{toxic}");
    at(&words(sum(&worked, "nitrite")), "Change 10 %");
    let first = sum(&worked, trouble::CHANGE_MOST);
    assert!(figure(first, "share_most") <= 0.1 + 1e-9, "{first:?}");
    at(
        &words(sum(&work("gasping", &old, &[]), trouble::CHANGE_MOST)),
        "again each hour, with an ammonia test each time",
    );
}

#[test]
fn rule_9_no_medicine_and_no_acid() {
    let all: String = sheets().iter().map(|sheet| text(sheet) + "\n").collect();
    at(&of("overdose"), "No acid, no antidote, no medicine.");
    for never in ["hydrochloric", "muriatic", "methylene", "copper sulfate", "glutaraldehyde"] {
        assert!(!all.to_lowercase().contains(never), "{never}");
    }
}

#[test]
fn rule_13_the_only_filter_and_the_only_air_stay() {
    for key in ["carbon-dioxide", "heater-on", "overdose", "alkalinity"] {
        let text = of(key);
        assert!(text.contains("The only filter and the only air"), "{key}");
    }
    let text = of("carbon-dioxide");
    assert!(at(&text, "Carbon dioxide off.") < at(&text, "Air on, full up. The filter stays on."));
    at(&text, "stays off today");
    // The upper end of a reading counts: likely 22, possibly 30.
    let worked = work("carbon-dioxide", &[], &[("ph", "6.95"), ("alkalinity", "2.8 meq/L"), ("temperature", "25 °C")]);
    let sum = sum(&worked, "carbon-dioxide");
    assert!(figure(sum, "likely_mg_per_l") < 30.0 && figure(sum, "high_mg_per_l") > 30.0, "{sum:?}");
    assert_eq!(sum.urgency, Urgency::AtOnce);
}

#[test]
fn rule_14_people_leave_the_room() {
    let cylinder = sheet("cylinder").unwrap();
    assert!(cylinder.first.first().unwrap().says.concat().contains("out of the room, door open, call for help"));
    assert!(cylinder.steps.first().unwrap().head.starts_with("Everybody out of the room"));
    let text = of("cylinder");
    at(&text, "Don’t go back for the valve");
    at(&text, "18 g for each cubic metre");
    at(&text, "No sealed vessel of your own");
    for key in ["gasping", "lying", "carbon-dioxide", "power-cut"] {
        assert!(of(key).contains("never pinch it"), "{key}");
    }
    let fields = [("care.cylinder_full", "1900 g"), ("care.cylinder_holds", "900 g")];
    // 900/18 = 50 m³.
    assert!((figure(sum(&work("cylinder", &fields, &[]), "cylinder-room"), "room_m3") - 50.0).abs() < 1e-9);
}

#[test]
fn rule_16_a_tap_over_the_guideline_is_told_and_never_answered_by_more_changes() {
    let fields = [("tap.nitrate", "40 mg/L NO3"), ("animals.shrimps", "9")];
    let worked = work("nitrate", &fields, &[("nitrate", "60 mg/L NO3")]);
    let words = words(sum(&worked, "nitrate"));
    assert!(words.contains("40 mg/L NO3") && words.contains("13 mg/L NO3") && words.contains("can’t"), "{words}");
    assert!(!words.to_lowercase().contains("change more") && !words.contains("usual change"), "{words}");
}

#[test]
fn rule_18_stuck_on_in_the_hottest_room_with_the_least_loss() {
    let base = [("heater.watts", "100 W"), ("room.hottest", "26 to 32 °C")];
    let worst = figure(sum(&work("heater-on", &base, &[]), "heater-stuck"), "warmest_c");
    let mild = [("heater.watts", "100 W"), ("room.hottest", "26 °C")];
    let cooler = figure(sum(&work("heater-on", &mild, &[]), "heater-stuck"), "warmest_c");
    // The room's upper end counts: six degrees more, a little less for the warmer water's evaporation.
    assert!(worst - cooler > 5.0 && worst - cooler <= 6.5, "{worst} {cooler}");
    // The least loss counts: a cover that nobody told of, and the low end of the coefficients.
    let open = [("heater.watts", "100 W"), ("room.hottest", "26 °C"), ("care.covered", "false")];
    assert!(figure(sum(&work("heater-on", &open, &[]), "heater-stuck"), "warmest_c") < cooler);
    let body = heat::Body {
        length_m: 1.0,
        width_m: 0.5,
        depth_m: 0.4,
        glass_mm: 10.0,
        litres: 200.0,
        cover: heat::Cover::Glass,
        rippled: false,
    };
    let range = body.warmest_c(100.0, &heat::Room::at(26.0)).unwrap();
    assert!((cooler - range.high).abs() < 0.01 && range.high > range.value, "{cooler} {range:?}");
    let text = of("gasping");
    at(&text, "out for 15 minutes before the water falls below its mark");
    at(&text, "the water is over the heater’s mark");
    at(&of("heater-on"), "Two small heaters, each with its own thermostat");
    at(&of("heater-dead"), "then a degree more a day");
}

#[test]
fn rule_18_the_wait_before_and_the_plugs_back_after_in_every_sheet_that_changes_water() {
    for key in CHANGED {
        let steps: Vec<String> =
            sheet(key).unwrap().steps.iter().map(|step| format!("{} {}", step.head, step.says.join(" "))).collect();
        let at = |phrase: &str| {
            steps
                .iter()
                .position(|step| step.contains(phrase))
                .unwrap_or_else(|| panic!("{key}: no {phrase}: {steps:#?}"))
        };
        let (out, wait) = (at("lugs out"), at("15 minutes before the water falls below its mark"));
        let back = at("Plugs back, with dry hands.");
        assert!(out <= wait && wait < back, "{key}: {out} {wait} {back}");
        assert!(steps[back].contains("over the heater’s mark: filter first"), "{key}: {}", steps[back]);
        // In the step that changes water, or before it.
        assert!(wait <= at("s warm as the tank"), "{key}");
    }
}

#[test]
fn rule_18_only_added_cold_has_a_limit() {
    let text = of("heater-on");
    assert!(at(&text, "What the room takes away by itself is right") < at(&text, "What you add to that"), "{text}");
    at(&text, "Above about 30 °C (86 °F) it is urgent");
    assert!(!text.contains("degree a day"), "{text}");
}

#[test]
fn rule_19_new_water_feels_like_the_tank() {
    for key in ["gasping", "lying", "overdose", "ammonia", "tap", "alkalinity"] {
        at(&of(key).to_lowercase(), "as warm as the tank");
    }
    for (trouble, sum) in all_sums() {
        let changes =
            ["toxic-ammonia", "nitrite", "overdose"].contains(&sum.key.as_str()) && sum.urgency == Urgency::AtOnce;
        assert!(!changes || words(&sum).contains("as warm as the tank"), "{trouble}: {}", words(&sum));
    }
    let cold = work("gasping", &[], &[("new_temperature", "8 °C")]);
    let words = words(sum(&cold, "new-water-temperature"));
    assert!(
        words.contains("it scalds") && words.contains("never into the tank") && words.contains("measure"),
        "{words}"
    );
}

#[test]
fn rule_20_plugs_before_hands() {
    for key in ["gasping", "lying", "heater-on", "heater-dead"] {
        let first = &sheet(key).unwrap().steps.first().unwrap();
        assert!(first.head.to_lowercase().contains("plug") && first.head.contains("with dry hands"), "{key}");
        let air = format!("{} {}", first.head, first.says.concat());
        assert!(air.contains("air pump that stands outside"), "{key}: the air goes on");
    }
    for key in CHANGED {
        let text = of(key);
        let lower = text.to_lowercase();
        let plugs = lower.find("plugs out").unwrap_or_else(|| panic!("no plugs in {key}"));
        let steps: String =
            sheet(key).unwrap().steps.iter().map(|step| format!("{} {} ", step.head, step.says.join(" "))).collect();
        let change = steps.to_lowercase().find("conditioner").unwrap();
        assert!(steps.to_lowercase().find("plugs out").unwrap() < change, "{key}: {plugs}");
    }
    let leak = sheet("leak").unwrap();
    assert!(leak.steps.first().unwrap().head.starts_with("Power off, at the fuse box if you reach it on dry ground"));
    assert!(leak.first.iter().any(|item| item.head.starts_with("Touch nothing wet")));
    let person = of("person");
    assert!(at(&person, "power off first, only then touch") < at(&person, "Swallowed:"));
    at(&person, "does not make wet hands harmless");
    for (_, sum) in all_sums().iter().filter(|(_, sum)| sum.key == "toxic-ammonia" && sum.urgency == Urgency::AtOnce) {
        let words = words(sum);
        assert!(words.contains("Plugs out with dry hands") || words.contains("No change with this water"), "{words}");
    }
}

#[test]
fn rule_21_fumes() {
    let cut = sheet("power-cut").unwrap();
    assert!(cut.first.first().unwrap().says.concat().contains("No generator, grill or stove indoors"));
    at(&of("heater-dead"), "No generator, grill or stove indoors");
    let text = of("gasping");
    assert!(
        at(&text, "Window open, and the air pump’s intake into clean air") < at(&text, "Air on, as much as there is")
    );
}

#[test]
fn rule_22_poison_centre_before_the_fish() {
    let overdose = sheet("overdose").unwrap();
    assert!(overdose.first.first().unwrap().says.concat().contains("poison centre"));
    at(&of("person"), "Swallowed: poison centre now, label in hand");
    at(&of("person"), "Oxidisers away from fuel, acids and heat");
    at(&of("overdose"), "Never in a drinks bottle");
}

#[test]
fn rule_23_no_siphon_by_mouth() {
    at(&of("leak"), "never begun by mouth");
    at(&of("person"), "Gloves over cuts, and never a siphon by mouth");
}

#[test]
fn rule_24_nobody_carries_a_filled_tank() {
    at(&of("leak"), "never carry a filled tank");
    at(&of("leak"), "I can’t tell whether it will hold");
    assert!(figure(sum(&work("leak", &[], &[]), "leak"), "buckets") >= 20.0);
}

#[test]
fn each_rule_named_in_the_data_is_said_there() {
    // What a row says by number, it says in words: one word of each rule.
    let words: [(u8, &[&str]); 12] = [
        (2, &["onditioner"]),
        (5, &["smells", "clear again", "drown", "tap", "air", "Air"]),
        (6, &["at most", "in an hour", "a degree", "In steps"]),
        (7, &["pH"]),
        (8, &["a tenth", "A tenth", "big change"]),
        (13, &["filter", "stays off", "off", "Carbon dioxide"]),
        (14, &["pinch", "room", "valve", "vent", "dealer", "air of their own"]),
        (18, &["heater", "Heater", "mark"]),
        (19, &["s warm as the tank", "hot water", "cold change"]),
        (20, &["dry hands", "Power off", "power off", "lamps", "voltage"]),
        (21, &["Window", "generator", "candle"]),
        (22, &["oison centre", "label"]),
    ];
    for sheet in sheets() {
        for step in &sheet.steps {
            let said = format!("{} {}", step.head, step.says.join(" "));
            for rule in &step.rules {
                let Some((_, any)) = words.iter().find(|(number, _)| number == rule) else { continue };
                assert!(any.iter().any(|word| said.contains(word)), "{}: rule {rule} is not in: {said}", sheet.key);
            }
        }
    }
}
