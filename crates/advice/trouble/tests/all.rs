//! All tests of `trouble` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod against_emerson;
mod by_hand_dilution;
mod by_hand_half_change;
mod by_hand_nitrate;
mod by_hand_power;
mod by_hand_remedy;
mod by_hand_slip;
mod by_hand_toxic;
mod causes;
mod common;
mod harm;
mod harm_bad_end;
mod harm_copper_and_air;
mod harm_guards;
mod harm_most;
mod harm_readings;
mod harm_sheets;
mod harm_sheets_people;
mod harm_words;
mod harm_words_breath;
