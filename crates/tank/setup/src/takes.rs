//! The kinds of value that a field takes, and the unit in which each is kept.

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
    /// Volume an hour, kept in L/h.
    VolumePerHour,
    /// Heat for each degree of difference, kept in W/K.
    HeatLoss,
    /// A rate, kept in 1/h.
    PerHour,
    /// Power, kept in W.
    Power,
    /// Photons of 400 to 700 nm, kept in µmol/m²s.
    Photons,
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
    /// Hours of each day, kept in h.
    HoursOfDay,
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
    /// Test kits.
    Tests,
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
                Table::Tests => book.routine.test.keys().cloned().collect(),
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
                | Takes::HoursOfDay
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
            Takes::VolumePerHour => "a volume an hour with its unit: L/h".into(),
            Takes::HeatLoss => "a loss of heat with its unit: W/K".into(),
            Takes::PerHour => "a rate with its unit: /h".into(),
            Takes::Power => "a power with its unit: W or kW".into(),
            Takes::Photons => "photons with their unit: µmol/m²s".into(),
            Takes::Mass => "a mass with its unit: g, kg, oz, lb".into(),
            Takes::MassOrVolume => "a mass (kg, g, lb) or a volume (L) with its unit".into(),
            Takes::MassPerDay => "a mass with its unit, a day".into(),
            Takes::Density => "a density with its unit: kg/L or g/mL".into(),
            Takes::Percent => "a share in percent, with the sign %".into(),
            Takes::Days => "a time in days or weeks".into(),
            Takes::HoursOfDay => "hours of a day, such as 8 h".into(),
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
            Takes::VolumePerHour => "L/h",
            Takes::HeatLoss => "W/K",
            Takes::PerHour => "/h",
            Takes::Power => "W",
            Takes::Photons => "µmol/m²s",
            Takes::Mass => "g",
            Takes::MassOrVolume => "kg",
            Takes::MassPerDay => "g a day",
            Takes::Density => "g/mL",
            Takes::Percent => "share",
            Takes::Days => "days",
            Takes::HoursOfDay => "h",
            _ => "",
        }
    }
}
