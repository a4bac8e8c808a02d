//! All tests of `report` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod any_bytes;
mod any_structure;
mod asks;
mod by_hand_basis;
mod by_hand_estimate;
mod by_hand_evidence;
mod by_hand_layouts;
mod by_hand_meaning;
mod by_hand_pairs;
mod by_hand_softened;
mod by_hand_waters;
mod common;
mod compare;
mod corrections;
mod nets;
mod odd;
mod published_deleted;
mod published_waters;
mod samples;
mod take;
mod twin;
mod twin_basis;
mod twin_experiment;
