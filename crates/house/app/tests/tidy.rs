//! The conventions of `ARCHITECTURE.md`, checked: one module for each. A broken one is listed with all its places.

#![allow(clippy::unwrap_used)]

#[path = "tidy/arrows.rs"]
mod arrows;
#[path = "tidy/docs.rs"]
mod docs;
#[path = "tidy/help.rs"]
mod help;
#[path = "tidy/licences.rs"]
mod licences;
#[path = "tidy/shape.rs"]
mod shape;
#[path = "tidy/sources.rs"]
mod sources;
#[path = "tidy/tree.rs"]
mod tree;
#[path = "tidy/words.rs"]
mod words;
