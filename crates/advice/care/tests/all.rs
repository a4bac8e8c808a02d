//! All tests of `care` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod against_icalendar;
mod by_hand_away;
mod by_hand_change;
mod by_hand_day;
mod by_hand_due;
mod by_hand_first_weeks;
mod by_hand_kits;
mod by_hand_logged;
mod by_hand_moving;
mod by_hand_moving_log;
mod by_hand_start;
mod by_hand_supplies;
mod by_hand_top_up;
mod by_hand_unchanged;
mod closed_form_missed;
mod days;
mod harm_alarm;
mod harm_away;
mod harm_begin;
mod harm_care;
mod harm_day_sentences;
mod harm_done;
mod harm_moving;
mod harm_newcomers;
mod harm_really;
mod harm_sentences;
mod harm_start;
mod harm_top_up;
mod identities_reads;
mod start;
mod traced;
