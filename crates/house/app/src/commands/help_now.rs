//! `tapmere help-now`: fish at the surface, what to do now, in order. Needs no file.

use super::{ALL, say};

/// Print the notice.
pub fn run() -> u8 {
    say(&pages::help_now::text(), ALL)
}
