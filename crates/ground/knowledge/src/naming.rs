//! What water reports call things, in five languages (`data/determinands.toml`, `data/headings.toml`).

use std::collections::BTreeMap;

/// Names in five languages. Symbols are matched as they stand.
#[derive(Clone, Debug, Default, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields, default)]
pub struct Names {
    /// Formulas and short forms that every language shares.
    pub symbols: Vec<String>,
    /// English.
    pub en: Vec<String>,
    /// German.
    pub de: Vec<String>,
    /// French.
    pub fr: Vec<String>,
    /// Dutch.
    pub nl: Vec<String>,
    /// Spanish.
    pub es: Vec<String>,
}

impl Names {
    /// The languages with their names, by two-letter code.
    pub fn languages(&self) -> [(&'static str, &[String]); 5] {
        [("en", &self.en), ("de", &self.de), ("fr", &self.fr), ("nl", &self.nl), ("es", &self.es)]
    }
}

/// What a water report may measure.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Determinand {
    /// Name in a sentence.
    pub name: String,
    /// mass, hardness, alkalinity, conductivity, ph, temperature or turbidity: which units it may have.
    pub kind: String,
    /// What a bare number in mg/L is counted as: a basis, "none" or "ask".
    pub bare: String,
    /// The formula that stands for the substance as itself.
    #[serde(default)]
    pub formula: Option<String>,
    /// What a number in mg/L may be counted as.
    pub bases: Vec<String>,
    /// Formulas and short forms.
    #[serde(default)]
    pub symbols: Vec<String>,
    /// English.
    #[serde(default)]
    pub en: Vec<String>,
    /// German.
    #[serde(default)]
    pub de: Vec<String>,
    /// French.
    #[serde(default)]
    pub fr: Vec<String>,
    /// Dutch.
    #[serde(default)]
    pub nl: Vec<String>,
    /// Spanish.
    #[serde(default)]
    pub es: Vec<String>,
    /// Names that say the basis themselves, by basis; "ask" where the name says nothing though the bare one would.
    #[serde(default, rename = "as")]
    pub counted: BTreeMap<String, Names>,
    /// Limits that say the basis of their row.
    #[serde(default)]
    pub limits: Vec<LimitSays>,
    /// Words for it in further languages, known only beside a name in one of the five.
    #[serde(default)]
    pub also: Vec<String>,
    /// More than any drinking water holds: such a value is asked about.
    #[serde(default)]
    pub ends: Option<Ends>,
}

impl Determinand {
    /// The names that say nothing of the basis.
    pub fn names(&self) -> Names {
        Names {
            symbols: self.symbols.clone(),
            en: self.en.clone(),
            de: self.de.clone(),
            fr: self.fr.clone(),
            nl: self.nl.clone(),
            es: self.es.clone(),
        }
    }
}

/// Between which ends the value of any tap lies.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Ends {
    /// The lowest; none where it may be nothing.
    #[serde(default)]
    pub low: Option<f64>,
    /// The highest.
    pub high: f64,
    /// mg/L of the substance or of its basis, meq/L of hardness and alkalinity, µS/cm, °C, NTU, or the scale of pH.
    pub unit: String,
    /// A key of `data/sources.toml`, or "common practice".
    pub source: String,
}

/// A regulator's limit that says how its row is counted.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct LimitSays {
    /// mg/L, as the regulator writes it.
    pub value: f64,
    /// The basis.
    pub basis: String,
    /// A key of `data/sources.toml`.
    pub source: String,
}

/// What a column of a report holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs, reason = "each is the heading's own word")]
pub enum ReportColumn {
    Name,
    Unit,
    Min,
    Mean,
    Median,
    Max,
    P95,
    P90,
    P10,
    P5,
    Range,
    Value,
    Limit,
    Count,
    Failing,
    Lod,
    Uncertainty,
    Symbol,
    Other,
    Place,
    Date,
    /// The sign of a value, in a column of its own.
    Comparator,
}

/// What single words of a report are there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ReportWord {
    /// Joins the other words of a heading, and says nothing itself: the "de" of "nb de mesures".
    Joint,
    /// Begins a heading of how many there are: "nb".
    Number,
    /// A class of waters: the "Klasse" of "Klasse II".
    Class,
    /// What a method detects: "MDL".
    Detected,
    /// From where on a laboratory gives a number: "RL".
    Reported,
    /// A word for a mean that says other things, too: "medio ambiente", "an average household".
    AlsoMean,
    /// Small words around such a one.
    Small,
    /// Words of a title that speak of all values: "composition".
    OfAll,
    /// What stands behind "means" where it explains something: "ND means not detected".
    Explained,
    /// Formulas and charges beside a name, in small letters.
    Formula,
    /// A share in words: "percent", written without its space.
    Percent,
    /// Stands between the same value in two units: "which equals".
    Equals,
    /// Stands before a level that is not the water's: "above".
    Above,
    /// Says in such a sentence that it warns: "infants".
    Warns,
}

/// What reports call the rest.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Headings {
    /// Headings of columns.
    pub column: BTreeMap<ReportColumn, Names>,
    /// Single words, by what they are there for.
    pub word: BTreeMap<ReportWord, Names>,
    /// Rows that look like a determinand and are none.
    pub apart: Names,
    /// Words beside a name that change nothing.
    pub beside: Names,
    /// Words that say what a number is counted as, by basis.
    pub basis: BTreeMap<String, Names>,
    /// What stands before a number that a value is under.
    pub below: Names,
    /// What stands between the ends of a range.
    pub to: Names,
    /// What stands before the lower end of a range: "between".
    pub between: Names,
    /// What stands between its ends then: "and".
    pub and: Names,
    /// Words of a sentence that explains a class or a unit, tells nothing of a water, or tells of a change: "is considered",
    /// "fell by".
    pub explains: Names,
    /// What a name may be put together with: the "Gehalt" of "Nitratgehalt".
    pub compound: Names,
    /// What stands for "too little to be seen".
    pub not_detected: Names,
    /// What stands for "no value".
    pub no_value: Names,
    /// What says that a unit beside it is that of all values.
    pub all_in: Names,
    /// What says that the values of the report are means.
    pub are_means: Names,
    /// The names of the months, January first.
    pub months: Vec<Names>,
}
