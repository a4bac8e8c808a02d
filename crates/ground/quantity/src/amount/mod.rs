//! Amounts of everyday kinds: volume, mass, temperature, length, power, time, shares and money.
//!
//! A type each, so that litres are never added to grams. Each keeps its number in the unit that its doc names, reads what
//! people write (`parse`, which wants the unit, and `parse_in`, which takes the keeper's where none is written) and prints
//! itself in the keeper's units.

mod duration;
mod length;
mod mass;
mod money;
mod power;
mod scalar;
mod share;
mod temperature;
mod volume;

pub use duration::Duration;
pub use length::Length;
pub use mass::Mass;
pub use money::{Currency, Money, MoneyRate, Period};
pub use power::Power;
pub use share::Share;
pub use temperature::{Temperature, TemperatureDifference};
pub use volume::Volume;
