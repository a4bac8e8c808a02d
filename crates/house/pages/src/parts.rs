//! Parts that every page is made of.

mod fault;
mod frame;
mod question;

pub use fault::{beside, fault, faults, in_words};
pub use frame::{Head, frame};
pub use question::{ask_whom, question};
