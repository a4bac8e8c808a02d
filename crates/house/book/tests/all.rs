//! All tests of `book` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod common;
mod damage;
mod disk_full;
#[path = "../../../tank/logbook/tests/common/mod.rs"]
mod entries;
mod kills;
mod life;
mod log;
mod model;
mod one_tap;
mod paper;
mod reports;
