//! All tests of `recipe` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod against_highs;
mod brute_force_choice;
mod brute_force_programme;
mod by_hand_begin;
mod by_hand_bottles;
mod by_hand_choice;
mod by_hand_habit;
mod by_hand_lime;
mod by_hand_new_water;
mod by_hand_nitrate;
mod by_hand_other_change;
mod by_hand_packs;
mod by_hand_programmes;
mod by_hand_weighed;
mod by_hand_wishes;
mod closed_form_levels;
mod common;
mod harm;
mod harm_letter;
mod harm_slip;
mod harm_start;
mod harm_water;
mod open_question;
mod properties;
mod refused_ph;
mod same_water_two_units;
mod tanks;
