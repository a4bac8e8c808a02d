//! What follows from a text and is worked out at most once for it.

use std::fmt;
use std::sync::{Arc, OnceLock};

/// A value that is worked out when it is first asked for. It follows from what stands beside it, so it counts for
/// nothing when two are compared.
pub(crate) struct Once<T>(OnceLock<Arc<T>>);

impl<T> Once<T> {
    /// The value; `work` is called the first time alone.
    pub(crate) fn get(&self, work: impl FnOnce() -> T) -> &T {
        self.0.get_or_init(|| Arc::new(work()))
    }
}

impl<T> Default for Once<T> {
    fn default() -> Self {
        Once(OnceLock::new())
    }
}

impl<T> Clone for Once<T> {
    fn clone(&self) -> Self {
        Once(self.0.clone())
    }
}

impl<T> PartialEq for Once<T> {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl<T> fmt::Debug for Once<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("..")
    }
}
