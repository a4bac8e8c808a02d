//! A water report as it is kept with a tank.

use quantity::Fault;

/// A water report as it is kept: when it came, what it was called, and a text that whoever filed it understands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FiledReport {
    /// Its number, 1 and up; it never changes.
    pub id: u64,
    /// The tank whose tap it is about.
    pub tank: u64,
    /// When it was read, as RFC 3339.
    pub at: String,
    /// Name of the file, or what the keeper calls it.
    pub name: String,
    /// Grows by one with each amendment; 1 as filed.
    pub edition: u64,
    /// What it said, and what the keeper corrected.
    pub text: String,
}

impl FiledReport {
    /// The fault of a shelf that keeps no reports.
    pub(crate) fn nowhere() -> Fault {
        Fault::new("there is no place for reports here: nothing was kept")
    }

    /// The fault of a report that is not there.
    pub fn missing(report: u64) -> Fault {
        Fault::new(format!("there is no report {report} here"))
    }
}
