//! Water reports as they really come: read, shown beside the original, asked about where they are open.
//!
//! [`Report`] is what a file said: [`Reading`]s with the place each came from, rows that nobody understood, questions,
//! contradictions, errors. A basis that the file does not give and does not prove is a question, never a guess.

mod place;
mod reading;
mod refusal;
mod report;
mod unit;

pub use place::Place;
pub use reading::{Basis, Counted, Limit, Reading, Statistic};
pub use refusal::{Refusal, RefusalKind};
pub use report::{Contradiction, Question, Report, Sample, UnknownRow};
pub use unit::Unit;
