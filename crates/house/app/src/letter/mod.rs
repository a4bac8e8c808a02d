//! The letter in plain text: what the pages say, for the terminal.

pub mod care;
pub mod notes;
mod open;
mod plan;
mod really;
mod tank;
mod tap;
mod text;
mod why;

pub use open::open;
pub use plan::plan;
pub use tank::tank;
pub use tap::tap;
pub use why::whys;
