//! What was found in the tables of a report, before samples are named and open bases looked at.

use crate::{Reading, UnknownRow};

/// A value with the words that name its sample.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Raw {
    pub reading: Reading,
    /// Zone, works or tap, as printed.
    pub group: String,
    /// Date, as printed.
    pub date: String,
}

/// What was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Found {
    pub raw: Vec<Raw>,
    pub unknown: Vec<UnknownRow>,
}
