//! Parts that every page is made of.

mod frame;
mod question;

pub use frame::{Head, frame};
pub use question::{ask_whom, question};
