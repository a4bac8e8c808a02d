//! All tests of `signs` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod common;
mod elimination;
mod harm;
mod harm_words;
