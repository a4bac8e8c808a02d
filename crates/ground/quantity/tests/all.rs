//! All tests of `quantity` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod by_hand_amounts;
mod by_hand_basis;
mod by_hand_conductivity;
mod by_hand_hardness;
mod identities;
mod never_panics;
mod round_trips;
mod texts;
