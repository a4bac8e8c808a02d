//! A setup as a book kept it.

use crate::Setup;
use crate::once::Once;

impl Setup {
    /// A setup that was checked when it was written into a book, taken out again as it stands there.
    ///
    /// A later program may be stricter than the one that wrote it: then [`Setup::tank`] has the faults, and the text is
    /// still there to be mended. Whatever a keeper hands in goes through [`Setup::read`].
    pub fn kept(file: &str, text: &str) -> Setup {
        Setup { file: file.to_owned(), text: text.to_owned(), entries: Once::default(), inside: Once::default() }
    }
}
