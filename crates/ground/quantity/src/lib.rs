//! Amounts and units of the trade: parsed, converted and printed once for all, and what a fault is.
//!
//! Nothing here knows a tank, a keeper or a file. Every other crate stands on this one.

pub mod chem;
pub mod fault;
pub mod kind;
pub mod why;

pub use chem::Ion;
pub use fault::{Fault, Faults, Place};
pub use kind::{Kind, Known};
pub use why::{Explain, Why};
