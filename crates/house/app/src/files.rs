//! Files that the keeper names: read whole, within a limit, with a fault that says how to mend it.

use std::fs::File;
use std::io::{self, Read};

use quantity::{Fault, Faults, Place};
use setup::Setup;

/// Largest file or upload that is read whole, bytes.
pub const LARGEST: usize = 64 << 20;

/// The invented household, compiled in.
pub const DEMO: (&str, &str) =
    ("examples/household/tank.toml", include_str!("../../../../examples/household/tank.toml"));

/// The setup in a file; no file: a fault that says which there are.
///
/// # Errors
/// A missing, unreadable or oversized file, and all faults in it.
pub fn setup(path: Option<&str>) -> Result<Setup, Faults> {
    let Some(path) = path else {
        return Err(Fault::new("which tank?")
            .expected("the name of a setup file, for instance `tapmere dose my-tank.toml`")
            .hint(format!(
                "`tapmere demo` shows an invented household; its file is {}: copy it and make it yours",
                DEMO.0
            ))
            .into());
    };
    Setup::read(path, &text(path, LARGEST)?)
}

/// The invented household.
///
/// # Errors
/// None that the tests let pass.
pub fn demo() -> Result<Setup, Faults> {
    Setup::read(DEMO.0, DEMO.1)
}

/// A file's text.
///
/// # Errors
/// A missing, unreadable or oversized file, and one that is no UTF-8.
pub fn text(path: &str, limit: usize) -> Result<String, Fault> {
    let here = Place { file: Some(path.to_owned()), ..Place::default() };
    let mut bytes = Vec::new();
    open(path)?
        .take(limit as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| Fault::new(format!("the file can't be read: {e}")).at(here.clone()))?;
    if bytes.len() > limit {
        return Err(too_large(limit).at(here));
    }
    String::from_utf8(bytes).map_err(|e| {
        let line = e.as_bytes()[..e.utf8_error().valid_up_to()].iter().filter(|b| **b == b'\n').count() + 1;
        Fault::new("the file is not UTF-8 text")
            .at(Place { line: Some(line), ..here })
            .hint("save it again as plain text in UTF-8")
    })
}

/// A file to read from; `-` is the standard input.
///
/// # Errors
/// A missing or unreadable file.
pub fn open(path: &str) -> Result<Box<dyn Read + Send>, Fault> {
    if path == "-" {
        return Ok(Box::new(io::stdin()));
    }
    let here = Place { file: Some(path.to_owned()), ..Place::default() };
    match File::open(path) {
        Ok(file) if file.metadata().is_ok_and(|m| m.is_dir()) => {
            Err(Fault::new("this is a folder").at(here).expected("a file"))
        }
        Ok(file) => Ok(Box::new(file)),
        Err(e) if e.kind() == io::ErrorKind::NotFound => {
            Err(Fault::new("there is no such file").at(here).hint("look at the spelling, and at the folder you are in"))
        }
        Err(e) => Err(Fault::new(format!("the file can't be opened: {e}")).at(here)),
    }
}

/// The fault of a file or an upload that is too large.
pub fn too_large(limit: usize) -> Fault {
    Fault::new("this is too large to be read")
        .expected(format!("at most {} MB", limit >> 20))
        .hint("a setup file has a few kB; nothing was changed")
}
