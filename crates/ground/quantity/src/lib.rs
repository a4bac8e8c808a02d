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
pub mod units;
pub mod why;

pub use chem::Ion;
pub use comparator::Comparator;
pub use fault::{Fault, Faults, Place};
pub use kind::{Kind, Known};
pub use units::Units;
pub use why::{Explain, Why};
