//! All tests of `water` as one program: a program for each file costs a link and its share of a full disk.
#![allow(clippy::unwrap_used, reason = "what can't be had fails the test")]

mod against_phreeqc;
mod closed_form_gas_exchange;
#[path = "common/formula.rs"]
mod formula;
mod handbook_carbonate;
mod handbook_conductivity;
mod handbook_gases;
mod identities;
mod no_allocation;
mod refusals;
#[path = "common/waters.rs"]
mod waters;
mod why;
mod work_is_counted;
