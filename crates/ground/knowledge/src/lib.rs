//! What is known, with its sources: the tables of `data/`, compiled in, typed and checked.
//!
//! No other crate reads `data/`. [`book`] gives all of it. Each table is a module here and a file there, with the
//! same name; `docs/data.md` shows how a row looks and how one is added. A file with an unknown key, a missing
//! value or a source that is not in `data/sources.toml` does not pass the tests, so a build that passed them reads
//! its tables without fault.

mod bound;
mod caution;
mod default;
mod first_weeks;
mod formula;
mod harm;
mod keeping;
mod law;
mod level;
mod measure;
mod method;
mod named;
mod naming;
mod pair;
mod product;
mod read;
mod reading;
mod recipe;
mod regulator;
mod routine;
mod sign;
mod source;
mod sourced;
mod stuff;
mod trouble;
mod uptake;
mod weed;

pub use bound::BoundRow;
pub use caution::Caution;
pub use default::Defaults;
pub use first_weeks::{Absence, FirstWeeks};
pub use formula::molar_mass_g_per_mol;
pub use harm::{AmmoniaCriterion, Harm, Limit, Limits, Rule, Rules};
pub use keeping::{AnimalClass, Animals, Unreported, Water};
pub use law::{LawRow, Place, Purchase, Verdict};
pub use level::{Band, Feeding, Levels};
pub use measure::{BlankKind, Lamp, LightBand, Measure, MeasureBlank, MeasureFigures, MeasureSalt, Measures};
pub use method::{AnalysisRow, KitTest, Method, MethodError, Methods, NextTestRow, TwoWaters};
pub use naming::{Determinand, Headings, LimitSays, Names, ReportColumn, ReportWord};
pub use pair::{Pair, Reason, Trait};
pub use product::{Content, Pack, Product, Role, Salt, Solubility, Where};
pub use read::{Book, book};
pub use reading::{AmountRow, Counts, KitRow, ReadingRow};
pub use recipe::{
    BottleFigures, ConditionerFigures, NewWaterFigures, RecipeFigures, SlipFigures, StockFigures, WorthFigures,
};
pub use regulator::{Bears, Life, PrintedLimits, Regulator, Strict, SupplyLimit, SupplyLimits, WaterLimits, WaterWord};
pub use routine::{ActRow, KindRow, Needs, Routine, RoutineNumbers, TankKind, TestRow};
pub use sign::{CauseRow, Evidence, Meaning, Meanings, Sight, SightGroup, SignFigures, Urgency, Who};
pub use source::{Read, Source};
pub use sourced::Sourced;
pub use stuff::{Materials, Substrate, Tool};
pub use trouble::{CauseKey, NitriteRow, PersonRow, StepRow, TroubleCause, TroubleNumbers, TroubleRow, Troubles};
pub use uptake::{Energy, EnergyRow, Food, Uptake};
pub use weed::{PlantRow, Plants, Weed, WeedLaw};
