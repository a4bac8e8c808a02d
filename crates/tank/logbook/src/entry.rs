//! One line of the logbook.

use jiff::ZonedDateTime;

/// One line of the logbook: when, what, and what the keeper wrote beside it.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// When it was seen or done, with the keeper's time zone.
    #[serde(with = "crate::moment")]
    pub at: ZonedDateTime,
    /// What was seen or done.
    pub what: What,
    /// In the keeper's own words; may be empty.
    #[serde(default)]
    pub note: String,
}

/// What was seen or done. Amounts are in one unit each, so that a day's sum is a sum.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum What {
    /// A reading of a test or an instrument.
    Test(Reading),
    /// Millilitres from a bottle, by the bottle's name in the recipe.
    Dose {
        /// Name of the bottle.
        bottle: String,
        /// mL.
        ml: f64,
    },
    /// A change of water, L.
    Change {
        /// L of new water.
        litres: f64,
    },
    /// Evaporated water replaced, L.
    TopUp {
        /// L.
        litres: f64,
    },
    /// Food, g.
    Food {
        /// g as it comes from the packet.
        grams: f64,
    },
    /// Plants cut, weighed wet after they dripped off.
    Trim {
        /// g wet; `None`: cut and not weighed.
        wet_grams: Option<f64>,
    },
    /// Something seen, by its key in `data/sights.toml`.
    Sight {
        /// Key.
        sight: String,
    },
    /// Animals counted, brought home, died or given away.
    Animals {
        /// `fish`, `shrimps`, `snails`, `others`.
        who: String,
        /// How many more (or fewer, below 0) live in the tank since the entry before; 0 for a head count.
        change: i32,
        /// How many were counted, if they were.
        counted: Option<u32>,
    },
    /// Something bought.
    Bought {
        /// Key of a product or a tool, or the keeper's own words.
        what: String,
        /// g or mL in the pack.
        amount: Option<f64>,
        /// Hundredths of the keeper's currency.
        price_minor: Option<f64>,
    },
    /// A photograph: the name of its file, which stays where it is.
    Photo {
        /// Name of the file.
        file: String,
    },
    /// Any other act of the routine, by its key, for instance `glass`, `sponge`, `bottle_mixed`.
    Done {
        /// Key.
        act: String,
    },
    /// Words alone: the note says it.
    Words,
}

/// A reading of a test or an instrument.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// What was read: a key of `data/readings.toml`, for instance `nitrate`, `ph`, `temperature`, `conductivity`, `ammonia_n`.
    pub of: String,
    /// The value in the unit which that table names for the key.
    pub value: f64,
    /// The kit showed its lowest step: the true value lies at or below [`Reading::value`].
    #[serde(default)]
    pub below: bool,
    /// Half width within which 90 of 100 such readings lie, in the unit of the value; `None`: as the table says for the kit.
    pub error: Option<f64>,
    /// Name of the kit or instrument.
    pub kit: Option<String>,
    /// How sure the keeper was.
    #[serde(default)]
    pub sure: Sure,
}

/// How sure the keeper was of a reading.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sure {
    /// Read off plainly.
    #[default]
    Plain,
    /// "About": between two steps.
    About,
    /// Not sure at all: shown, and nothing is decided on it.
    NotSure,
}

impl What {
    /// Its kind, as it is tagged: `test`, `dose`, `change` ...
    pub fn kind(&self) -> &'static str {
        match self {
            What::Test(_) => "test",
            What::Dose { .. } => "dose",
            What::Change { .. } => "change",
            What::TopUp { .. } => "top_up",
            What::Food { .. } => "food",
            What::Trim { .. } => "trim",
            What::Sight { .. } => "sight",
            What::Animals { .. } => "animals",
            What::Bought { .. } => "bought",
            What::Photo { .. } => "photo",
            What::Done { .. } => "done",
            What::Words => "words",
        }
    }

    /// For a test, what was read.
    pub fn of(&self) -> Option<&str> {
        match self {
            What::Test(reading) => Some(&reading.of),
            _ => None,
        }
    }

    /// mL of a bottle; `None`: it is no dose, or of another. Capitals and space round a name don't count.
    pub fn dose_of(&self, bottle: &str) -> Option<f64> {
        match self {
            What::Dose { bottle: name, ml } if same_name(name, bottle) => Some(*ml),
            _ => None,
        }
    }

    /// What it is about: a bottle, a sight, a purchase, a file; may be empty.
    pub fn subject(&self) -> &str {
        match self {
            What::Test(reading) => &reading.of,
            What::Dose { bottle, .. } => bottle,
            What::Sight { sight } => sight,
            What::Animals { who, .. } => who,
            What::Bought { what, .. } => what,
            What::Photo { file } => file,
            What::Done { act } => act,
            What::Change { .. } | What::TopUp { .. } | What::Food { .. } | What::Trim { .. } | What::Words => "",
        }
    }
}

/// Whether two names of a bottle are of the same: capitals and space round them don't count.
pub fn same_name(a: &str, b: &str) -> bool {
    a.trim().eq_ignore_ascii_case(b.trim())
}
