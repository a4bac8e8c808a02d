//! The conventions of `ARCHITECTURE.md`, checked: one module for each. A broken one is listed with all its places.

mod arrows;
mod docs;
mod help;
mod licences;
mod programs;
mod shape;
mod sources;
mod words;
