//! The letter in plain text: what the pages say, for the terminal.

pub mod care;
mod measure;
pub mod notes;
mod open;
mod plan;
mod really;
mod signs;
mod tank;
mod tap;
mod text;
mod waters;
mod why;

pub use measure::measure;
pub use open::open;
pub use plan::plan;
pub use signs::signs;
pub use tank::tank;
pub use tap::tap;
pub use text::list;
pub use waters::{meant, waters, years};
pub use why::whys;
