//! Every field of a setup file, once: its name, what it is in plain words, what it takes, its bounds.
//!
//! Page labels, `docs/setup-file.md` and faults all speak from this table.

use std::sync::OnceLock;

use quantity::Ion;

/// What a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Takes {
    /// Any words.
    Words,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// One key of a table of `data/`.
    OneOf(Table),
    /// A list of keys of a table of `data/`.
    SomeOf(Table),
    /// Yes or no: `true` or `false`.
    YesNo,
    /// A whole number, without a unit.
    Count,
    /// A number without a unit: pH.
    Bare,
    /// Money in the keeper's currency.
    Money,
    /// An amount of an ion in water, kept in mg/L of the ion.
    Concentration(Ion),
    /// An amount of an ion in a product, kept in mg of the ion per g (powder) or mL (liquid).
    Label(Ion),
    /// An amount of an ion in water that is taken in a day, kept in mg/L of the ion a day.
    Uptake(Ion),
    /// Total chlorine, kept in mg/L as Cl2.
    Chlorine,
    /// Carbon dioxide in the room's air, kept in ppm.
    AirCo2,
    /// Carbon dioxide dissolved in the water, kept in mg/L.
    WaterCo2,
    /// Hardness, kept in meq/L.
    Hardness,
    /// Alkalinity, kept in meq/L.
    Alkalinity,
    /// Conductivity, kept in µS/cm at 25 °C.
    Conductivity,
    /// Temperature, kept in °C.
    Temperature,
    /// Length, kept in m.
    Length,
    /// Volume, kept in L.
    Volume,
    /// Volume of a dose, kept in mL.
    Dose,
    /// Volume a day, kept in L a day.
    VolumePerDay,
    /// Mass, kept in g.
    Mass,
    /// Mass (kept in kg) or volume (kept in L) of a solid.
    MassOrVolume,
    /// Mass a day, kept in g a day.
    MassPerDay,
    /// Density, kept in g/mL.
    Density,
    /// Percent, kept as a share, 0 to 1.
    Percent,
    /// Time, kept in days.
    Days,
}

/// A table of `data/` whose keys a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Table {
    /// What the ground is made of.
    Substrates,
    /// Waters without a report.
    Waters,
    /// Salts and mixes.
    Products,
}

impl Takes {
    /// The words that are taken; empty where any are.
    pub fn choices(self) -> Vec<String> {
        let book = knowledge::book();
        match self {
            Takes::Choice(words) => words.iter().map(|word| (*word).to_owned()).collect(),
            Takes::OneOf(table) | Takes::SomeOf(table) => match table {
                Table::Substrates => book.substrates.keys().cloned().collect(),
                Table::Waters => book.waters.keys().cloned().collect(),
                Table::Products => book.products.keys().cloned().collect(),
            },
            _ => Vec::new(),
        }
    }

    /// Whether low, mean and high may be given, as `{ min = ..., mean = ..., max = ... }` or as `10 to 25`.
    pub fn ranged(self) -> bool {
        !matches!(
            self,
            Takes::Words
                | Takes::Choice(_)
                | Takes::OneOf(_)
                | Takes::SomeOf(_)
                | Takes::YesNo
                | Takes::Count
                | Takes::Money
                | Takes::Days
        )
    }

    /// What was expected, for a fault.
    pub fn expected(self) -> String {
        match self {
            Takes::Words => "some words in quotes".into(),
            Takes::Choice(_) | Takes::OneOf(_) => format!("one of {}", self.choices().join(", ")),
            Takes::SomeOf(_) => format!("a list of names in quotes, out of {}", self.choices().join(", ")),
            Takes::YesNo => "true or false".into(),
            Takes::Count => "a whole number, 0 or more".into(),
            Takes::Bare => "a number without a unit".into(),
            Takes::Money => "a sum of money as a number, 0 or more".into(),
            Takes::Concentration(ion) => format!("an amount of {} in water, with its unit and basis", ion.name()),
            Takes::Label(ion) => format!("how much {} the label states, with its unit and basis", ion.name()),
            Takes::Uptake(ion) => format!("an amount of {} in water a day, with its unit and basis", ion.name()),
            Takes::Chlorine => "an amount of chlorine in mg/L".into(),
            Takes::AirCo2 => "a share of the air in ppm".into(),
            Takes::WaterCo2 => "an amount of carbon dioxide in mg/L".into(),
            Takes::Hardness => "a hardness with its unit: °dH, °fH, °e, mg/L CaCO3, mmol/L, meq/L, gpg".into(),
            Takes::Alkalinity => "an alkalinity with its unit: °dH, °fH, °e, mg/L CaCO3, mg/L HCO3, meq/L".into(),
            Takes::Conductivity => "a conductivity with its unit: µS/cm, mS/cm, mS/m".into(),
            Takes::Temperature => "a temperature with its unit: °C or °F".into(),
            Takes::Length => "a length with its unit: cm, mm, m, in".into(),
            Takes::Volume | Takes::Dose => "a volume with its unit: mL, L, US gal, imp gal".into(),
            Takes::VolumePerDay => "a volume with its unit, a day".into(),
            Takes::Mass => "a mass with its unit: g, kg, oz, lb".into(),
            Takes::MassOrVolume => "a mass (kg, g, lb) or a volume (L) with its unit".into(),
            Takes::MassPerDay => "a mass with its unit, a day".into(),
            Takes::Density => "a density with its unit: kg/L or g/mL".into(),
            Takes::Percent => "a share in percent, with the sign %".into(),
            Takes::Days => "a time in days or weeks".into(),
        }
    }

    /// The unit in which the value is kept and in which its bounds count; empty where there is none.
    pub fn unit(self) -> &'static str {
        match self {
            Takes::Concentration(_) | Takes::Chlorine | Takes::WaterCo2 => "mg/L",
            Takes::Label(_) => "mg/g",
            Takes::Uptake(_) => "mg/L a day",
            Takes::AirCo2 => "ppm",
            Takes::Hardness | Takes::Alkalinity => "meq/L",
            Takes::Conductivity => "µS/cm",
            Takes::Temperature => "°C",
            Takes::Length => "m",
            Takes::Volume => "L",
            Takes::Dose => "mL",
            Takes::VolumePerDay => "L a day",
            Takes::Mass => "g",
            Takes::MassOrVolume => "kg",
            Takes::MassPerDay => "g a day",
            Takes::Density => "g/mL",
            Takes::Percent => "share",
            Takes::Days => "days",
            _ => "",
        }
    }
}

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
    ("feeding.wish", "how richly the plants are fed", FEEDINGS, "comfortable", ""),
    (
        "plants.uptake_nitrate",
        "nitrate that the plants take in a day",
        Takes::Uptake(Ion::Nitrate),
        "0.6 mg/L NO3 a day",
        "",
    ),
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
    ("own.*.density", "how heavy the liquid is", Takes::Density, "1.1 kg/L", ""),
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

/// All fields, in the order of a well-kept file.
pub fn fields() -> &'static [Field] {
    static FIELDS: OnceLock<Vec<Field>> = OnceLock::new();
    FIELDS.get_or_init(|| {
        let mut all: Vec<Field> = PLAIN.iter().map(|(p, l, t, e, b)| field(p, l, *t, e, b)).collect();
        for (section, water) in [("tap", "your tap water"), ("low_water", "the second water")] {
            for (name, label, takes, example, bound) in WATER {
                all.push(field(&format!("{section}.{name}"), &format!("{label} {water}"), *takes, example, bound));
            }
            all.extend(ions(section, Takes::Concentration, |ion| format!("{} in {water}", ion.name()), "mg/L", true));
        }
        all.extend(ions(
            "feeding.bands",
            Takes::Concentration,
            |ion| format!("{} wished in the tank", ion.name()),
            "mg/L",
            true,
        ));
        all.extend(ions("own.*.label", Takes::Label, |ion| format!("{} by the label", ion.name()), "%", false));
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

/// A field for each ion below `section`.
fn ions(
    section: &str,
    takes: fn(Ion) -> Takes,
    label: impl Fn(Ion) -> String,
    unit: &str,
    bounded: bool,
) -> Vec<Field> {
    let one = |ion: Ion| {
        let bound = if bounded { ion.name() } else { "" };
        field(
            &format!("{section}.{}", ion.name()),
            &label(ion),
            takes(ion),
            &format!("2 {unit} {}", ion.formula()),
            bound,
        )
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
    ENDS.contains(&end).then_some(end)
}

/// The names inside a value that is given with its range.
pub(crate) const ENDS: [&str; 3] = ["min", "mean", "max"];

/// The path with each number replaced by `*`.
fn pattern(path: &str) -> String {
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

/// The name among the known ones that is most like a path nobody knows, if one is.
pub fn nearest(path: &str) -> Option<String> {
    let wrong = pattern(path);
    let (section, name) = wrong.rsplit_once('.').unwrap_or(("", &wrong));
    let mut names: Vec<String> = Vec::new();
    for field in fields() {
        names.push(field.path.clone());
        names.extend(field.path.match_indices('.').map(|(at, _)| field.path[..at].to_owned()));
    }
    names.sort();
    names.dedup();
    // A neighbour in the same section goes before the same word elsewhere.
    let score = |known: &String| {
        let (known_section, known_name) = known.rsplit_once('.').unwrap_or(("", known));
        let words = distance(name, known_name);
        (words <= 1 + name.chars().count() / 4).then(|| words + if known_section == section { 0 } else { 2 })
    };
    names.iter().filter_map(|known| Some((score(known)?, known))).min().map(|(_, known)| known.clone())
}

/// The word most like another, if one is like it at all.
pub(crate) fn closest<'w>(word: &str, among: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    let score = |known: &'w str| {
        let letters = distance(word, known);
        (letters <= 1 + word.chars().count() / 4).then_some((letters, known))
    };
    among.filter_map(score).min().map(|(_, known)| known)
}

/// Letters to put in, take out, change or swap with a neighbour to get from one word to the other.
///
/// Source: Damerau 1964, restricted to neighbours (source key `damerau_1964`).
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().take(40).collect(), b.chars().take(40).collect());
    let mut rows = vec![vec![0; b.len() + 1]; a.len() + 1];
    for i in 0..=a.len() {
        for j in 0..=b.len() {
            rows[i][j] = if i == 0 || j == 0 {
                i + j
            } else {
                let change = usize::from(a[i - 1] != b[j - 1]);
                let mut least = (rows[i - 1][j - 1] + change).min(rows[i - 1][j] + 1).min(rows[i][j - 1] + 1);
                if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                    least = least.min(rows[i - 2][j - 2] + 1);
                }
                least
            };
        }
    }
    rows[a.len()][b.len()]
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

    #[test]
    fn a_misspelt_name_finds_its_neighbour() {
        assert_eq!(nearest("tap.nitrat").as_deref(), Some("tap.nitrate"));
        assert_eq!(nearest("habits.chnage").as_deref(), Some("habits.change"));
        assert_eq!(nearest("tapp").as_deref(), Some("tap"));
        assert_eq!(nearest("glass.depth_front").as_deref(), Some("ground.depth_front"));
        assert_eq!(nearest("tap.moonlight"), None);
    }
}
