//! All tests of `heat` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod by_hand_loss;
mod by_hand_mixing;
mod by_hand_top_up;
mod closed_form_cooling;
mod handbook_vapour;
mod identities;
