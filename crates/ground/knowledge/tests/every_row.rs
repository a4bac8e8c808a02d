//! What holds for every row of `data/`: it fits its type, its source is known, its range is in order, its words are ours.

use std::collections::BTreeSet;

use knowledge::{Animals, Book, Content, Place, Role, Sourced, book, molar_mass_g_per_mol};
use quantity::Ion;

/// The tables as text, so that what a type does not look at is looked at too.
const TEXTS: [(&str, &str); 31] = [
    ("amounts", include_str!("../../../../data/amounts.toml")),
    ("animals", include_str!("../../../../data/animals.toml")),
    ("away", include_str!("../../../../data/away.toml")),
    ("bounds", include_str!("../../../../data/bounds.toml")),
    ("causes", include_str!("../../../../data/causes.toml")),
    ("cautions", include_str!("../../../../data/cautions.toml")),
    ("defaults", include_str!("../../../../data/defaults.toml")),
    ("determinands", include_str!("../../../../data/determinands.toml")),
    ("harm", include_str!("../../../../data/harm.toml")),
    ("headings", include_str!("../../../../data/headings.toml")),
    ("law", include_str!("../../../../data/law.toml")),
    ("levels", include_str!("../../../../data/levels.toml")),
    ("limits", include_str!("../../../../data/limits.toml")),
    ("materials", include_str!("../../../../data/materials.toml")),
    ("meanings", include_str!("../../../../data/meanings.toml")),
    ("measures", include_str!("../../../../data/measures.toml")),
    ("methods", include_str!("../../../../data/methods.toml")),
    ("pairs", include_str!("../../../../data/pairs.toml")),
    ("plants", include_str!("../../../../data/plants.toml")),
    ("products", include_str!("../../../../data/products.toml")),
    ("readings", include_str!("../../../../data/readings.toml")),
    ("recipe", include_str!("../../../../data/recipe.toml")),
    ("routine", include_str!("../../../../data/routine.toml")),
    ("sights", include_str!("../../../../data/sights.toml")),
    ("sources", include_str!("../../../../data/sources.toml")),
    ("start", include_str!("../../../../data/start.toml")),
    ("substrates", include_str!("../../../../data/substrates.toml")),
    ("tools", include_str!("../../../../data/tools.toml")),
    ("troubles", include_str!("../../../../data/troubles.toml")),
    ("uptake", include_str!("../../../../data/uptake.toml")),
    ("waters", include_str!("../../../../data/waters.toml")),
];

#[test]
fn every_table_reads() {
    if let Err(fault) = Book::read() {
        panic!("\n{fault}");
    }
}

/// Calls `see` with every table (inline or not) of every file.
fn tables(see: &mut impl FnMut(&str, &toml::Table)) {
    fn walk(file: &str, value: &toml::Value, see: &mut impl FnMut(&str, &toml::Table)) {
        match value {
            toml::Value::Table(table) => {
                see(file, table);
                table.values().for_each(|value| walk(file, value, see));
            }
            toml::Value::Array(values) => values.iter().for_each(|value| walk(file, value, see)),
            _ => {}
        }
    }
    for (file, text) in TEXTS {
        match text.parse() {
            Ok(table) => walk(file, &toml::Value::Table(table), see),
            Err(error) => panic!("data/{file}.toml: {error}"),
        }
    }
}

#[test]
fn every_source_is_a_key_or_one_of_three_words() {
    let words = [Sourced::<f64>::PRACTICE, Sourced::<f64>::ASSUMED, Sourced::<f64>::WORKED_OUT];
    let mut unknown = BTreeSet::new();
    tables(&mut |file, table| {
        if let Some(source) = table.get("source").and_then(toml::Value::as_str)
            && !words.contains(&source)
            && book().cite(source).is_none()
        {
            unknown.insert(format!("{file}: {source}"));
        }
    });
    assert!(unknown.is_empty(), "sources that data/sources.toml does not know: {unknown:#?}");
}

#[test]
fn every_value_worked_out_says_how() {
    tables(&mut |file, table| {
        if table.contains_key("value") && table.get("source").and_then(toml::Value::as_str) == Some("worked out") {
            assert!(table.contains_key("note"), "{file}: {table:?} has no note");
        }
    });
}

#[test]
fn every_range_holds_its_value() {
    let number = |value: &toml::Value| value.as_float().or_else(|| value.as_integer().map(|n| n as f64));
    tables(&mut |file, table| {
        let get = |key| table.get(key).and_then(number);
        if let (Some(value), low, high) = (get("value"), get("low"), get("high")) {
            assert!(low.is_none_or(|low| low <= value), "{file}: {table:?}");
            assert!(high.is_none_or(|high| high >= value), "{file}: {table:?}");
        }
    });
}

#[test]
fn no_word_that_we_do_not_use() {
    for (file, text) in TEXTS {
        // Titles of publications are theirs, not ours.
        let ours = text.lines().filter(|line| !line.starts_with("cite = "));
        for word in ours.flat_map(|line| line.split(|c: char| !c.is_alphanumeric())) {
            let word = word.to_lowercase();
            // What stands in reports is theirs too.
            let theirs = file == "headings" && word == "drinking";
            assert!(
                theirs || !["safe", "safely", "safety", "gas", "drinking", "optimal"].contains(&word.as_str()),
                "{file}: {word}"
            );
        }
    }
}

#[test]
fn bounds_are_in_order() {
    // The type of the four numbers stands in another crate and does not look for keys too many.
    tables(&mut |file, table| {
        assert!(!table.contains_key("usual_low") || table.len() == 5, "{file}: {table:?}");
    });
    for (key, row) in &book().bounds {
        assert!(row.is.is_ordered() && row.is.usual_low < row.is.usual_high, "{key}");
    }
}

#[test]
fn defaults_are_usual_inputs() {
    let default = &book().defaults;
    for (field, value) in [
        ("wall_thickness", &default.wall_thickness_mm),
        ("fill_below_edge", &default.fill_line_below_edge_cm),
        ("substrate_depth", &default.substrate_depth_cm),
        ("tank_temperature", &default.tank_temperature_c),
        ("tap_temperature", &default.tap_temperature_c),
        ("room_temperature", &default.room_coldest_c),
        ("room_co2", &default.room_co2_ppm),
        ("change_percent", &default.change_percent),
        ("change_every_days", &default.change_every_days),
        ("bottle", &default.bottle_ml),
        ("daily_dose", &default.daily_dose_ml),
        ("scale_step", &default.scale_step_g),
        ("syringe_step", &default.syringe_step_ml),
        ("drop", &default.drop_ml),
        ("bucket", &default.bucket_l),
    ] {
        let bound = &book().bound(field).unwrap().is;
        for end in [value.low(), value.value, value.high()] {
            assert!((bound.usual_low..=bound.usual_high).contains(&end), "{field}: {end} {}", bound.unit);
        }
    }
}

#[test]
fn levels_are_in_order_and_grow_with_the_wish() {
    let levels = &book().levels;
    for row in levels {
        for (ion, band) in &row.bands {
            assert!(0.0 < band.low && band.low < band.high, "{row:?} {ion:?}");
            for richer in levels.iter().filter(|r| r.energy == row.energy && r.feeding > row.feeding) {
                let other = richer.bands[ion];
                assert!(other.low >= band.low && other.high >= band.high, "{row:?} {richer:?} {ion:?}");
            }
        }
        let ions: Vec<Ion> = row.bands.keys().copied().collect();
        assert_eq!(ions.len(), 6, "{row:?}");
    }
    let rows: BTreeSet<_> = levels.iter().map(|row| (row.feeding, row.energy)).collect();
    assert_eq!(rows.len(), levels.len(), "a row stands twice");
}

#[test]
fn every_product_says_how_to_handle_it() {
    for (key, product) in &book().products {
        for caution in &product.cautions {
            assert!(book().cautions.contains_key(caution), "{key}: {caution}");
        }
        assert!(!product.roles.is_empty() || product.never_with_animals.is_some(), "{key} is for nothing");
        if product.mg_per_g(Ion::Ammonium) > 0.0 || key == "urea" {
            assert!(product.never_with_animals.is_some(), "{key} feeds ammonia");
            assert!(product.cautions.iter().any(|caution| caution == "feeds_ammonia"), "{key}");
        }
        if product.mg_per_g(Ion::Nitrate) > 0.0 && key != "calcium_nitrate_double" {
            assert!(product.cautions.iter().any(|caution| caution == "oxidiser"), "{key}");
        }
        if product.mg_per_g_high(Ion::Boron) > 0.0 {
            assert!(product.cautions.iter().any(|caution| caution == "boron"), "{key}");
        }
        if product.mg_per_g_high(Ion::Copper) > 0.0 {
            let unknown = book().harm.limit.copper_unknown_percent.value();
            assert!(product.mg_per_g(Ion::Copper) >= 10.0 * unknown, "{key}: unknown copper counts as {unknown} %");
        }
    }
    let used: BTreeSet<_> = book().products.values().flat_map(|product| &product.cautions).collect();
    for (key, caution) in &book().cautions {
        assert!(caution.everywhere || used.contains(key), "no product needs {key}");
    }
}

#[test]
fn solubility_rises_where_the_row_says_so() {
    for (key, product) in &book().products {
        let Some(table) = &product.solubility else { continue };
        for pair in table.rows.windows(2) {
            assert!(pair[0][0] < pair[1][0], "{key}: temperatures");
            assert!(!table.rises || pair[0][1] < pair[1][1], "{key}: {pair:?}");
        }
        let counted = table.counts.as_deref().map(|formula| molar_mass_g_per_mol(formula).unwrap());
        if let (Some(counted), Content::Salt(salt)) = (counted, &product.content) {
            assert!(counted < salt.molar_mass_g_per_mol, "{key}: the counted part is lighter than the hydrate");
        }
    }
}

#[test]
fn every_rule_of_harm_has_a_row() {
    let harm = &book().harm;
    let mut rules: BTreeSet<u8> = harm.limit.all().iter().map(|(_, limit)| limit.rule).collect();
    rules.extend(harm.rule.all().iter().map(|(_, rule)| rule.rule));
    rules.insert(harm.snail_ammonia.rule);
    assert_eq!(rules, (1..=24).collect());
    for (key, limit) in harm.limit.all() {
        assert!(!limit.say.is_empty() && harm.say(key) == Some(&limit.say), "{key}");
    }
}

#[test]
fn law_names_known_products_and_always_says_check() {
    for place in Place::ALL {
        for product in book().products.values() {
            let answer = book().may_buy(place, product);
            assert!(answer.say.ends_with(book().check_the_law()), "{}", answer.say);
            for key in answer.rule.iter().flat_map(|rule| &rule.products) {
                assert!(book().product(key).is_some(), "{key}");
            }
        }
    }
    assert!(book().check_the_law().contains("check the current text"));
}

#[test]
fn every_ion_has_a_bound_and_an_assumption() {
    for ion in Ion::ALL {
        assert!(book().bound(ion.name()).is_some(), "{ion:?}");
        for place in Place::ALL {
            let row = book().unreported(place, ion).unwrap_or_else(|| panic!("{ion:?}"));
            let bound = &book().bound(ion.name()).unwrap().is;
            assert!(row.mg_per_l.high() <= bound.usual_high, "{ion:?}");
        }
    }
}

#[test]
fn who_has_no_backbone_has_the_copper_limit() {
    let copper = |animals: &Animals| animals.copper && animals.strict_nitrate;
    use knowledge::AnimalClass::*;
    assert!(copper(&book().animals[&Shrimps]) && copper(&book().animals[&Snails]));
    assert!(copper(&book().animals[&OtherInvertebrates]));
    assert!(book().animals[&Snails].snail_ammonia);
    assert_eq!(book().animals.len(), 5);
}

#[test]
fn each_role_has_a_product() {
    for role in [Role::Feed, Role::Hardness, Role::Alkalinity, Role::Trace, Role::Conditioner, Role::StartTest] {
        assert!(book().with_role(role).next().is_some(), "{role:?}");
    }
}

#[test]
fn every_act_of_the_routine_is_minded_by_rules_that_exist() {
    let routine = &book().routine;
    assert_eq!(routine.kind.len(), 3);
    let harm = routine.act.values().map(|act| &act.harm).chain(routine.test.values().map(|test| &test.harm));
    for key in harm.flatten() {
        assert!(book().harm.say(key).is_some(), "{key}");
    }
    for (key, act) in &routine.act {
        assert!(!act.every_days.is_empty() && act.after_change < 7, "{key}");
        assert!(act.every_days.values().all(|days| days.value >= 1.0 && days.value.fract() == 0.0), "{key}");
    }
    for key in routine.test.keys() {
        assert!(book().readings.contains_key(key), "{key} is no reading of the logbook");
    }
    // Harm rule 5 has the one number that is carried.
    assert_eq!(routine.number.carry_l.value, book().harm.limit.bucket_l.value());
}
