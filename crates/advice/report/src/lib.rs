//! Water reports as they really come: read, shown beside the original, asked about where they are open.
//!
//! [`Report`] is what a file said: [`Reading`]s with the place each came from, rows that nobody understood, questions,
//! contradictions, errors. A basis that the file does not give and does not prove is a question, never a guess.
//!
//! The way of a file: `sources` makes grids of rows and cells from it; `table` finds headings and names; `row`
//! makes readings; `count` settles what each is counted as.

mod across;
mod ask;
mod cell;
mod column_content;
mod columns;
mod combine;
mod compare;
mod convert;
mod correction;
mod count;
mod dates;
pub mod estimate;
mod filed;
mod fold;
mod footnotes;
mod found;
mod glued;
mod grid;
mod heading;
mod json;
mod layout;
mod least;
mod lexicon;
mod limits;
mod lost;
mod meaning;
mod means;
mod memory;
mod named;
mod nested;
mod nets;
mod notes;
mod numbered;
mod onward;
mod paired;
mod parted;
mod place;
mod prose;
mod prove;
mod read;
mod reading;
mod recent;
mod refusal;
mod report;
mod roles;
mod row;
mod sections;
mod sources;
mod table;
mod take;
mod titles;
mod told;
mod unit;
mod unit_find;
mod unit_of;
mod unit_words;
mod values;
mod wrapped;

pub use ask::choice;
pub use combine::{Combined, OneWater, combine};
pub use compare::{Moved, Pair, Years, compare, picked_alike, years};
pub use correction::{Change, Correction, Meant, Number, Spot, written};
pub use filed::{Asked, By, Filed, Line, Picked, reply_key};
pub use json::Answer;
pub use limits::{Against, Borne, Level, Limited};
pub use meaning::{Meaning, Sentence, Swing, fed_a_week, meaning};
pub use memory::{is_alike, layout};
pub use place::Place;
pub use read::{read, read_text};
pub use reading::{Basis, Counted, Limit, Reading, Statistic};
pub use refusal::{Refusal, RefusalKind};
pub use report::{Contradiction, Question, Report, Sample, UnknownRow};
pub use sources::{FileKind, LARGEST_FILE, LARGEST_TEXT, kind};
pub use take::{Edit, edits, place_of, take};
pub use unit::Unit;
