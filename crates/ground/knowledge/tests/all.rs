//! All tests of `knowledge` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod by_hand_products;
mod by_hand_rules;
mod every_row;
mod every_sign;
mod harm_weeds;
mod identities;
mod readings;
