//! All tables in one book, read once.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use quantity::{Fault, Ion, Place as At};

use crate::keeping::Waters;
use crate::law::Law;
use crate::{
    Absence, AnimalClass, Animals, BoundRow, Caution, Defaults, Determinand, Energy, Feeding, FirstWeeks, Harm,
    Headings, Levels, Materials, Pair, Place, Product, Purchase, Reason, Role, Routine, Source, Substrate, Tool,
    Troubles, Unreported, Uptake, Water, WaterLimits, level, pair, product,
};

/// All that is known.
#[derive(Clone, Debug)]
pub struct Book {
    /// Publications by key.
    pub sources: BTreeMap<String, Source>,
    /// Products by key.
    pub products: BTreeMap<String, Product>,
    /// What must not share a bottle.
    pub pairs: Vec<Pair>,
    /// Levels to aim at.
    pub levels: Vec<Levels>,
    /// What plants take and food brings.
    pub uptake: Uptake,
    /// Possible and usual inputs, by field.
    pub bounds: BTreeMap<String, BoundRow>,
    /// Rules of harm.
    pub harm: Harm,
    /// Handling sentences by key.
    pub cautions: BTreeMap<String, Caution>,
    /// What the ground is made of, by key.
    pub substrates: BTreeMap<String, Substrate>,
    /// Things bought once, by key.
    pub tools: BTreeMap<String, Tool>,
    /// Densities.
    pub materials: Materials,
    /// What is assumed when the keeper did not say.
    pub defaults: Defaults,
    /// How the recipe weighs, fills and pours.
    pub recipe: crate::RecipeFigures,
    /// What is done how often.
    pub routine: Routine,
    /// The first weeks.
    pub start: FirstWeeks,
    /// Absences, another tap, the end.
    pub away: Absence,
    /// What to do when something is wrong.
    pub troubles: Troubles,
    /// Which limits hold for whom.
    pub animals: BTreeMap<AnimalClass, Animals>,
    /// Waters without a report, by key.
    pub waters: BTreeMap<String, Water>,
    /// What a report leaves out.
    pub unreported: Vec<Unreported>,
    /// What water reports call their determinands, by key.
    pub determinands: BTreeMap<String, Determinand>,
    /// What water reports call the rest.
    pub headings: Headings,
    /// Regulators' limits, and what plants and animals bear.
    pub limits: WaterLimits,
    /// How a keeper measures the own tank.
    pub measures: crate::Measures,
    /// What can be read, by key.
    pub readings: BTreeMap<String, crate::ReadingRow>,
    /// How much of something the logbook can mean, by kind of entry.
    pub amounts: BTreeMap<String, crate::AmountRow>,
    /// What is seen, by key.
    pub sights: BTreeMap<String, crate::Sight>,
    /// Why it may be so, by key.
    pub causes: BTreeMap<String, crate::CauseRow>,
    /// What readings mean.
    pub meanings: crate::Meanings,
    /// How far a measured value may be off.
    pub methods: crate::Methods,
    /// Plants that stand on a list of weeds.
    pub plants: crate::Plants,
    law: Law,
}

/// The book. It is read at the first call and stays.
pub fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    #[allow(clippy::expect_used, reason = "the text is compiled in; `every_table_reads` fails before a build ships")]
    BOOK.get_or_init(|| Book::read().expect("the tables compiled in are those that the tests have read"))
}

/// A file of `data/`, compiled in.
macro_rules! data {
    ($file:literal) => {
        table($file, include_str!(concat!("../../../../data/", $file)))
    };
}

impl Book {
    /// Reads the tables that are compiled in.
    ///
    /// # Errors
    /// The first row that does not fit its type, with file, line and column.
    pub fn read() -> Result<Book, Fault> {
        let waters: Waters = data!("waters.toml")?;
        let mut book = Book {
            sources: data!("sources.toml")?,
            products: data!("products.toml")?,
            pairs: data!("pairs.toml").map(|file: pair::File| file.pairs)?,
            levels: data!("levels.toml").map(|file: level::File| file.levels)?,
            uptake: data!("uptake.toml")?,
            bounds: data!("bounds.toml")?,
            harm: data!("harm.toml")?,
            cautions: data!("cautions.toml")?,
            substrates: data!("substrates.toml")?,
            tools: data!("tools.toml")?,
            materials: data!("materials.toml")?,
            defaults: data!("defaults.toml")?,
            recipe: data!("recipe.toml")?,
            routine: data!("routine.toml")?,
            start: data!("start.toml")?,
            away: data!("away.toml")?,
            troubles: data!("troubles.toml")?,
            animals: data!("animals.toml")?,
            waters: waters.water,
            unreported: waters.unreported,
            determinands: data!("determinands.toml")?,
            headings: data!("headings.toml")?,
            limits: data!("limits.toml")?,
            measures: data!("measures.toml")?,
            readings: data!("readings.toml")?,
            amounts: data!("amounts.toml")?,
            sights: data!("sights.toml")?,
            causes: data!("causes.toml")?,
            meanings: data!("meanings.toml")?,
            methods: data!("methods.toml")?,
            plants: data!("plants.toml")?,
            law: data!("law.toml")?,
        };
        product::complete(&mut book.products)?;
        book.plants.complete();
        Ok(book)
    }

    /// The publication behind a key; none for "common practice", "assumed", "worked out" or an unknown key.
    pub fn cite(&self, key: &str) -> Option<&Source> {
        self.sources.get(key)
    }

    /// The words for a `source` field: "CCME 2012, from memory", or the field itself where it is no key.
    pub fn cite_words(&self, source: &str) -> String {
        self.cite(source).map_or_else(|| source.to_owned(), Source::words)
    }

    /// The product behind a key.
    pub fn product(&self, key: &str) -> Option<&Product> {
        self.products.get(key)
    }

    /// The products with a role, in the order of their keys.
    pub fn with_role(&self, role: Role) -> impl Iterator<Item = &Product> {
        self.products.values().filter(move |product| product.is(role))
    }

    /// Bands for a way of feeding in a light; none where the two do not go together.
    pub fn levels(&self, feeding: Feeding, energy: Energy) -> Option<&Levels> {
        self.levels.iter().find(|row| row.feeding == feeding && row.energy == energy)
    }

    /// The limits of an input.
    pub fn bound(&self, field: &str) -> Option<&BoundRow> {
        self.bounds.get(field)
    }

    /// What to assume for an ion that the tap report leaves out: the row of the place, else the general one.
    pub fn unreported(&self, place: Place, ion: Ion) -> Option<&Unreported> {
        let rows = || self.unreported.iter().filter(|row| row.ion == ion);
        rows().find(|row| row.place == Some(place)).or_else(|| rows().find(|row| row.place.is_none()))
    }

    /// Whether these products may stand in one bottle.
    ///
    /// # Errors
    /// The first pair of `data/pairs.toml` that forbids it.
    pub fn may_share(&self, products: &[&Product]) -> Result<(), Box<Reason>> {
        pair::may_share(&self.pairs, products)
    }

    /// "May I buy this here?"
    pub fn may_buy(&self, place: Place, product: &Product) -> Purchase {
        self.law.may_buy(place, &product.key)
    }

    /// The sentence that goes with every answer about buying.
    pub fn check_the_law(&self) -> &str {
        &self.law.check
    }

    /// Grams of the product as weighed in a litre of bottle, at most, in a room that gets as cold as `coldest_c`:
    /// the usable share of what saturates it. None where nothing is known.
    ///
    /// Salts with an ion in common hold each other back: let the sum of (grams in a litre ÷ this) over a bottle
    /// stay at or under 1.
    pub fn stock_limit_g_per_l(&self, product: &Product, coldest_c: f64) -> Option<f64> {
        let defaults = &self.defaults;
        product
            .solubility_g_per_l(coldest_c, defaults.crystal_density_g_per_ml.value)
            .map(|g| g * defaults.stock_share_of_solubility.value)
    }
}

/// One table from its text.
fn table<T: serde::de::DeserializeOwned>(file: &str, text: &str) -> Result<T, Fault> {
    toml::from_str(text).map_err(|error| {
        let place = At::in_text(&format!("data/{file}"), text, error.span().unwrap_or(0..0));
        Fault::new(error.message().to_owned()).at(place).hint("docs/data.md shows how a row looks")
    })
}
