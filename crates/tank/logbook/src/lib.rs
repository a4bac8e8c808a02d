//! What the keeper saw and did, by date: readings, doses, changes, food, trimmings, sights.
//!
//! [`Entry`] is one line of the logbook, [`Log`] is what keeps them. [`MemoryLog`] keeps them in memory; one that keeps
//! them in a file stands elsewhere. Nothing here knows a tank: what an entry means is the business of others.

mod cells;
mod entry;
mod fits;
mod log;
mod memory;
mod moment;
mod settled;
pub mod table;
mod value;
mod when;
mod words;
pub mod written;

pub use entry::{Entry, Reading, Sure, What, same_name};
pub use fits::fits;
pub use log::{Did, Filter, Kept, Log, Writing};
pub use memory::{MemoryLog, no_entry};
pub use moment::{moment, moment_in};
pub use value::{show, to_level, unit};
pub use when::{day, when};
