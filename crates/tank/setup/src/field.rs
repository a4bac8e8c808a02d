//! Every field of a setup file, once: its name, what it is in plain words, what it takes, its bounds.
//!
//! Page labels, `docs/setup-file.md` and faults all speak from this table.

use std::sync::OnceLock;

use quantity::{Ion, round_significant};

use crate::takes::{Table, Takes};

/// One field of the file.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Field {
    /// Its name, for instance `tap.nitrate`; a `*` stands for the number of an entry (`own.*.name`).
    pub path: String,
    /// What it is, in plain words, for the middle of a sentence.
    pub label: String,
    /// What it takes.
    pub takes: Takes,
    /// How it may be written.
    pub example: String,
    /// Key of its limits in `data/bounds.toml`; `None`: it has none.
    pub bound: Option<String>,
}

const COUNTRIES: Takes = Takes::Choice(&["eu", "gb", "us", "other"]);
const DISINFECTANTS: Takes = Takes::Choice(&["none", "chlorine", "chloramine", "unknown"]);
const HARDNESS_UNITS: Takes =
    Takes::Choice(&["german", "french", "english", "caco3", "mmol", "meq", "grains", "cao", "bicarbonate"]);
const ENERGIES: Takes = Takes::Choice(&["low", "medium", "high"]);
const FEEDINGS: Takes = Takes::Choice(&["just_enough", "comfortable", "plenty", "none"]);

/// Fields outside the waters and the lists of ions: path, label, takes, example, bound.
const PLAIN: &[(&str, &str, Takes, &str, &str)] = &[
    ("tank.name", "the tank's name", Takes::Words, "The tank in the hall", ""),
    ("tank.country", "the country of the law", COUNTRIES, "gb", ""),
    ("tank.currency", "the money", Takes::Words, "GBP", ""),
    ("tank.temperature", "the temperature of the tank", Takes::Temperature, "24 °C", "tank_temperature"),
    ("tank.room_co2", "carbon dioxide in the room's air", Takes::AirCo2, "900 ppm", "room_co2"),
    ("tank.co2", "carbon dioxide given to the tank by day", Takes::WaterCo2, "15 mg/L", "co2_given"),
    ("units.volume", "the unit of volumes", Takes::Choice(&["litre", "us_gallon", "imperial_gallon"]), "litre", ""),
    ("units.temperature", "the unit of temperatures", Takes::Choice(&["celsius", "fahrenheit"]), "celsius", ""),
    ("units.hardness", "the unit of hardness", HARDNESS_UNITS, "german", ""),
    ("units.length", "the unit of lengths", Takes::Choice(&["centimetre", "inch"]), "centimetre", ""),
    ("units.mass", "the unit of masses", Takes::Choice(&["gram", "pound"]), "gram", ""),
    ("units.nitrogen", "how nitrate is counted", Takes::Choice(&["ion", "element"]), "ion", ""),
    ("units.phosphorus", "how phosphate is counted", Takes::Choice(&["ion", "element"]), "ion", ""),
    ("units.decimal", "the decimal sign", Takes::Choice(&["point", "comma"]), "point", ""),
    ("glass.inner_length", "the inner length of the glass", Takes::Length, "76 cm", "tank_length"),
    ("glass.inner_width", "the inner width of the glass, front to back", Takes::Length, "36 cm", "tank_width"),
    ("glass.inner_height", "the inner height of the glass", Takes::Length, "40 cm", "tank_height"),
    ("glass.outer_length", "the outer length of the glass", Takes::Length, "77.6 cm", "tank_length"),
    ("glass.outer_width", "the outer width of the glass, front to back", Takes::Length, "37.6 cm", "tank_width"),
    (
        "glass.outer_height",
        "the outer height of the glass, bottom pane included",
        Takes::Length,
        "40.8 cm",
        "tank_height",
    ),
    ("glass.thickness", "the thickness of the glass", Takes::Length, "8 mm", "wall_thickness"),
    ("glass.fill_below_rim", "from the glass's upper edge down to the water", Takes::Length, "3 cm", "fill_below_edge"),
    ("ground.kind", "what the ground is made of", Takes::OneOf(Table::Substrates), "gravel", ""),
    ("ground.depth_front", "the depth of the ground at the front", Takes::Length, "3 cm", "substrate_depth"),
    ("ground.depth_back", "the depth of the ground at the back", Takes::Length, "7 cm", "substrate_depth"),
    ("ground.porosity", "the share of the ground that water fills", Takes::Percent, "40 %", "substrate_porosity"),
    ("hardscape.rock", "rock in the tank", Takes::MassOrVolume, "4 kg", "rock_mass"),
    ("hardscape.wood", "wood in the tank", Takes::MassOrVolume, "1 kg", "wood_mass"),
    ("tap.name", "the name of the tap; tanks that name the same one share it", Takes::Words, "kitchen", ""),
    (
        "pipes.copper",
        "copper that your pipes add after standing",
        Takes::Concentration(Ion::Copper),
        "0.001 mg/L",
        "copper",
    ),
    ("low_water.kind", "the kind of the second water", Takes::OneOf(Table::Waters), "rain", ""),
    ("low_water.name", "the name of the second water", Takes::Words, "rain from the shed", ""),
    ("low_water.share", "the share of the second water in the new water", Takes::Percent, "40 %", "low_share"),
    ("light.energy", "how much light the tank gets", ENERGIES, "medium", ""),
    ("light.hours", "the hours of light a day", Takes::HoursOfDay, "8 h", "light_hours"),
    ("feeding.wish", "how richly the plants are fed", FEEDINGS, "comfortable", ""),
    ("plants.names", "what grows in the tank, in your own words", Takes::Words, "java fern, water trumpets", ""),
    (
        "plants.uptake_nitrate",
        "nitrate that the plants take in a day",
        Takes::Uptake(Ion::Nitrate),
        "0.6 mg/L NO3 a day",
        "uptake_nitrate",
    ),
    (
        "plants.uptake_phosphate",
        "phosphate that the plants take in a day",
        Takes::Uptake(Ion::Phosphate),
        "0.05 mg/L PO4 a day",
        "uptake_phosphate",
    ),
    (
        "plants.uptake_potassium",
        "potassium that the plants take in a day",
        Takes::Uptake(Ion::Potassium),
        "0.14 mg/L K a day",
        "uptake_potassium",
    ),
    ("room.coldest", "the room on its coldest day", Takes::Temperature, "17 °C", "room_temperature"),
    ("room.hottest", "the room on its hottest day", Takes::Temperature, "29 °C", "room_temperature"),
    ("heater.watts", "the power of one heater", Takes::Power, "50 W", "heater_power"),
    ("heater.number", "heaters", Takes::Count, "2", "heaters"),
    ("care.covered", "whether a closed glass cover lies on the tank", Takes::YesNo, "true", ""),
    ("care.air_pump", "whether an air pump runs", Takes::YesNo, "true", ""),
    ("care.fish_weight", "the weight of one grown fish", Takes::Mass, "1 g", "fish_weight"),
    ("measured.litres", "the water in the tank, measured", Takes::Volume, "84 to 92 L", "tank_volume"),
    (
        "measured.heat_loss",
        "the heat that the tank loses for each degree over the room",
        Takes::HeatLoss,
        "6 to 8 W/K",
        "heat_loss",
    ),
    (
        "measured.oxygen_exchange",
        "how fast oxygen passes between air and water at 20 °C",
        Takes::PerHour,
        "0.1 to 0.3 /h",
        "oxygen_exchange",
    ),
    ("measured.photons", "the light on the ground", Takes::Photons, "30 to 60 µmol/m²s", "photons"),
    ("measured.flow", "the flow at the filter's outlet", Takes::VolumePerHour, "180 L/h", "flow"),
    ("measured.ground_lime", "whether the ground holds lime", Takes::YesNo, "false", ""),
    ("measured.ground_ammonia", "whether the ground gives off ammonia", Takes::YesNo, "false", ""),
    ("animals.fish", "grown fish", Takes::Count, "12", "fish"),
    ("animals.young", "whether young fish are reared", Takes::YesNo, "false", ""),
    ("animals.shrimps", "shrimps", Takes::Count, "20", "fish"),
    ("animals.snails", "snails", Takes::Count, "6", "fish"),
    ("animals.other_invertebrates", "other animals without a backbone", Takes::Count, "0", "fish"),
    ("animals.start_test_passed", "whether the start test was passed twice", Takes::YesNo, "true", ""),
    ("animals.unchanged_months", "months without a change of water", Takes::Bare, "0", "unchanged_months"),
    ("food.per_day", "food a day", Takes::MassPerDay, "0.2 g a day", ""),
    ("food.protein", "protein in the food", Takes::Percent, "45 %", "protein"),
    ("food.phosphorus", "phosphorus in the food", Takes::Percent, "1 %", "feed_phosphorus"),
    ("habits.change", "the share of the water that a change renews", Takes::Percent, "40 %", "change_percent"),
    ("habits.every", "the days from one change to the next", Takes::Days, "7 days", "change_every_days"),
    ("habits.top_up", "water topped up for what evaporates", Takes::VolumePerDay, "0.5 L a day", ""),
    ("habits.top_up_with", "the water that tops up", Takes::Choice(&["tap", "low_water"]), "tap", ""),
    (
        "care.change_day",
        "the day of the week on which water is changed",
        Takes::Choice(&crate::keeping::DAYS),
        "saturday",
        "",
    ),
    ("care.filter", "whether a filter runs", Takes::YesNo, "true", ""),
    ("care.kits", "the test kits at hand", Takes::SomeOf(Table::Tests), "nitrate", ""),
    (
        "care.cylinder_full",
        "what the full carbon dioxide cylinder weighs with its regulator",
        Takes::Mass,
        "1900 g",
        "",
    ),
    ("care.cylinder_holds", "carbon dioxide in the full cylinder", Takes::Mass, "500 g", ""),
    ("at_hand.products", "the salts at hand", Takes::SomeOf(Table::Products), "potassium_nitrate", ""),
    ("at_hand.scale", "the smallest step of the scale", Takes::Mass, "0.1 g", "scale_step"),
    ("at_hand.syringe", "the smallest step of the syringe", Takes::Dose, "0.1 mL", "syringe_step"),
    ("at_hand.drop", "the size of a drop of the dropper", Takes::Dose, "0.05 mL", "drop"),
    ("at_hand.bottle", "the size of a bottle", Takes::Dose, "500 mL", "bottle"),
    ("at_hand.daily", "what is given from a bottle in a day", Takes::Dose, "5 mL", "daily_dose"),
    ("at_hand.chelate", "the iron chelate", Takes::OneOf(Table::Products), "iron_dtpa", ""),
    ("at_hand.trace_copper", "copper in the trace mix", Takes::Percent, "0.1 %", "trace_copper"),
    ("at_hand.coldest_room", "the coldest that the bottles get", Takes::Temperature, "12 °C", "room_temperature"),
    ("at_hand.bucket", "the size of the bucket", Takes::Volume, "10 L", "bucket"),
    ("at_hand.by_hose", "whether new water comes by hose straight into the tank", Takes::YesNo, "false", ""),
    ("wish.ph", "the pH that is wished", Takes::Bare, "7.2", "ph"),
    ("wish.hardness", "the hardness that is wished", Takes::Hardness, "6 to 10 °dH", "hardness"),
    ("wish.alkalinity", "the alkalinity that is wished", Takes::Alkalinity, "3 to 5 °dH", "alkalinity"),
    ("own.*.name", "the name of a liquid or powder of your own", Takes::Words, "green bottle", ""),
    ("own.*.kind", "whether it is a liquid or a powder", Takes::Choice(&["liquid", "powder"]), "liquid", ""),
    ("own.*.density", "the weight of a millilitre of the liquid", Takes::Density, "1.1 kg/L", "liquid_density"),
    ("own.*.percent", "what the label's percent counts", Takes::Choice(&["by_mass", "by_volume"]), "by_mass", ""),
];

/// Fields of a water: name after the dot, label, takes, example, bound.
const WATER: &[(&str, &str, Takes, &str, &str)] = &[
    ("hardness", "the hardness of", Takes::Hardness, "8 °dH", "hardness"),
    ("alkalinity", "the alkalinity of", Takes::Alkalinity, "5.9 °dH", "alkalinity"),
    ("ph", "the pH of", Takes::Bare, "7.7", "ph"),
    ("conductivity", "the conductivity of", Takes::Conductivity, "350 µS/cm", "conductivity_25"),
    ("temperature", "the temperature of", Takes::Temperature, "7 to 18 °C", "tap_temperature"),
    ("disinfectant", "the disinfectant of", DISINFECTANTS, "chlorine", ""),
    ("total_chlorine", "the total chlorine of", Takes::Chlorine, "0.4 mg/L", "total_chlorine"),
];

/// All fields, section by section.
pub fn fields() -> &'static [Field] {
    static FIELDS: OnceLock<Vec<Field>> = OnceLock::new();
    FIELDS.get_or_init(|| {
        let mut all: Vec<Field> = PLAIN.iter().map(|(p, l, t, e, b)| field(p, l, *t, e, b)).collect();
        for (section, water) in [("tap", "your tap water"), ("low_water", "the second water")] {
            for (name, label, takes, example, bound) in WATER {
                all.push(field(&format!("{section}.{name}"), &format!("{label} {water}"), *takes, example, bound));
            }
            all.extend(ions(section, Takes::Concentration, |ion| format!("{} in {water}", ion.name())));
        }
        all.extend(ions("feeding.bands", Takes::Concentration, |ion| format!("{} wished in the tank", ion.name())));
        all.extend(ions("own.*.label", Takes::Label, |ion| format!("{} by the label", ion.name())));
        for product in knowledge::book().products.values() {
            let path = format!("prices.{}", product.key);
            all.push(field(&path, &format!("the price of {}", product.name), Takes::Money, "5.00", "price"));
        }
        all
    })
}

fn field(path: &str, label: &str, takes: Takes, example: &str, bound: &str) -> Field {
    Field {
        path: path.to_owned(),
        label: label.to_owned(),
        takes,
        example: example.to_owned(),
        bound: (!bound.is_empty()).then(|| bound.to_owned()),
    }
}

/// A field for each ion below `section`. A label's percent has no bounds but its kind's.
fn ions(section: &str, takes: fn(Ion) -> Takes, label: impl Fn(Ion) -> String) -> Vec<Field> {
    let one = |ion: Ion| {
        let takes = takes(ion);
        let (example, bound) = match takes {
            Takes::Label(_) => (format!("2 % {}", ion.formula()), "label_percent"),
            // A fifth of what is usual at most: a middling water.
            _ => {
                let most = knowledge::book().bound(ion.name()).map_or(5.0, |row| row.is.usual_high);
                let (low, high) = (round_significant(0.1 * most, 1), round_significant(0.2 * most, 1));
                let number = if section == "feeding.bands" { format!("{low} to {high}") } else { high.to_string() };
                (format!("{number} mg/L {}", ion.formula()), ion.name())
            }
        };
        field(&format!("{section}.{}", ion.name()), &label(ion), takes, &example, bound)
    };
    Ion::ALL.into_iter().map(one).collect()
}

/// The field of a path such as `tap.nitrate`, `tap.nitrate.max` or `own.2.name`; `None`: there is no such field.
pub fn field_of(path: &str) -> Option<&'static Field> {
    let pattern = pattern(path);
    fields()
        .iter()
        .find(|field| field.path == pattern || end_of(&field.path, &pattern).is_some_and(|_| field.takes.ranged()))
}

/// `max` for `tap.nitrate.max` where `field` is `tap.nitrate`.
fn end_of<'p>(field: &str, path: &'p str) -> Option<&'p str> {
    let end = path.strip_prefix(field)?.strip_prefix('.')?;
    PARTS.contains(&end).then_some(end)
}

/// The name, inside a value that is given with its range, of how well it is known.
pub(crate) const HOW: &str = "how";

/// The names inside a value that is given with its range.
pub(crate) const PARTS: [&str; 4] = ["min", "mean", "max", HOW];

/// The field that a path belongs to, without the part of a range behind it.
pub(crate) fn whole(path: &str) -> &str {
    path.rsplit_once('.').filter(|(_, part)| PARTS.contains(part)).map_or(path, |(whole, _)| whole)
}

/// The path with each number replaced by `*`.
pub(crate) fn pattern(path: &str) -> String {
    let part = |part: &str| {
        let number = !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if number { "*".to_owned() } else { part.to_owned() }
    };
    path.split('.').map(part).collect::<Vec<_>>().join(".")
}

/// Whether fields stand below this path.
pub(crate) fn is_section(path: &str) -> bool {
    let section = format!("{}.", pattern(path));
    fields().iter().any(|field| field.path.starts_with(&section))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_found_with_their_ends_and_numbers() {
        assert_eq!(field_of("tap.nitrate.max").unwrap().path, "tap.nitrate");
        assert_eq!(field_of("own.12.label.iron").unwrap().path, "own.*.label.iron");
        assert!(field_of("habits.every.max").is_none());
        assert!(field_of("tap.nitrate.middle").is_none());
        assert!(is_section("own.1") && is_section("feeding") && !is_section("tap.nitrate"));
    }

    #[test]
    fn no_path_stands_twice() {
        let mut paths: Vec<_> = fields().iter().map(|field| &field.path).collect();
        let count = paths.len();
        paths.sort();
        paths.dedup();
        assert_eq!(paths.len(), count);
    }
}
