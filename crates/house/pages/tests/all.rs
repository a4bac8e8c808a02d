//! All tests of `pages` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod acts;
mod asked_first;
mod at_hand;
mod away;
mod care;
mod common;
mod confirmed;
mod contrast;
mod every_field;
mod first;
mod help_now;
mod letter;
mod letters;
mod log;
mod log_unchanged;
mod measure;
mod one_tap;
mod reports;
mod routes;
mod salts;
mod several;
mod signs;
mod start;
mod taken;
mod tank;
mod tap;
