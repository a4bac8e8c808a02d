//! Help now: what to do first when fish gasp at the surface. The notice by the door.
//!
//! Needs no tank, no book and nothing of the keeper; whole without script and without style. One definition
//! (`notice`), two faces: the page, and [`text`] for the command line. Numbers are those of `data/harm.toml`.

mod face;
mod notice;

pub(crate) use face::page;
pub use face::text;
