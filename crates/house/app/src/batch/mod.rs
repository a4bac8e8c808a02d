//! The batch of waters: a CSV in, one answer a row out, in order, in bounded memory, on all cores.
//!
//! `columns` reads the header, `reader` hands out rows in chunks, `row` turns a row into a sample or its faults,
//! `answer` prints what follows, `stream` runs the three beside each other, `blend` mixes all rows into one.

mod answer;
mod blend;
mod columns;
mod reader;
mod row;
mod stream;

pub use answer::{Answer, Form, table_head, told};
pub use blend::{Blend, NoBlend, blend};
pub use stream::{Count, Stop, solve};
