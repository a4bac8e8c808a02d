//! All tests of `app` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod browser;
mod browser_care;
mod browser_help;
mod browser_log;
mod browser_measure;
mod browser_report;
mod browser_start;
mod care;
mod care_start;
mod commands;
#[path = "browser/driver.rs"]
mod driver;
mod help_now;
mod house;
mod log;
mod measure_signs;
mod open;
#[path = "browser/paper.rs"]
mod paper;
mod plans;
mod refused;
mod report_estimate;
mod report_read;
mod same_words;
#[path = "browser/sights.rs"]
mod sights;
mod socket;
mod tidy;
#[path = "tidy/tree.rs"]
mod tree;
mod water_batch;
