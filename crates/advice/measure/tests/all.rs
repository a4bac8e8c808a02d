//! All tests of `measure` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod by_hand_clay;
mod by_hand_measures;
mod closed_form_cooling;
mod closed_form_exchange;
mod common;
mod every_protocol;
mod handbook_light;
mod handbook_salt;
mod harm;
mod harm_words;
