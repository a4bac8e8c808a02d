//! Amounts and units of the trade: parsed, converted and printed once for all, and what a fault is.
//!
//! Nothing here knows a tank, a keeper or a file. Every other crate stands on this one.

pub mod amount;
pub mod basis;
pub mod bounds;
pub mod chem;
pub mod comparator;
pub mod concentration;
pub mod conductivity;
pub mod fault;
pub mod hardness;
pub mod kind;
mod lex;
pub mod number;
mod per_litre;
mod span;
pub mod units;
pub mod why;

pub use amount::{
    Currency, Duration, Length, Mass, Money, MoneyRate, Period, Power, Share, Temperature, TemperatureDifference,
    Volume,
};
pub use basis::Basis;
pub use bounds::{Bound, Verdict};
pub use chem::Ion;
pub use comparator::Comparator;
pub use concentration::Reading;
pub use conductivity::ConductivityReading;
pub use fault::{Fault, Faults, Place};
pub use hardness::{HardnessReading, HardnessUnit, Measure};
pub use kind::{Kind, Known};
pub use number::{DecimalSign, Digits, canonical, format_number, parse_number, round_significant};
pub use units::{LengthUnit, MassUnit, NutrientBasis, TemperatureUnit, Units, VolumeUnit};
pub use why::{Explain, Why};
