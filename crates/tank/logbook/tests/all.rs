//! All tests of `logbook` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod by_hand_readings;
mod common;
mod round_trips;
