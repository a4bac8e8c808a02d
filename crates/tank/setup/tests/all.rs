//! All tests of `setup` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod assumptions;
mod by_hand_balance;
mod by_hand_conductivity;
mod by_hand_growth;
mod by_hand_labels;
mod by_hand_measured;
mod by_hand_volumes;
mod closed_form_glass;
mod docs;
mod household;
mod how_known;
mod identities;
mod properties;
mod questions;
mod refused;
