//! Drawings as SVG, by pure functions: one ink, a title and a description for whoever can't see them, a table beside.

pub mod gear;
pub mod ions;
pub mod scape;
pub mod section;
pub mod staff;
