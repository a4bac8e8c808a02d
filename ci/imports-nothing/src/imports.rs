//! Reads a WebAssembly module and fails if it imports anything, or exports no `answer`.
//!
//! The binary format: after eight bytes of head, sections of (id, size, content); sizes are LEB128 numbers. Section 2
//! holds the imports, section 7 the exports (WebAssembly Core Specification 2.0, chapter 5.5).

use std::process::ExitCode;

/// The rest of a module's bytes.
struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn take(&mut self, n: usize) -> Option<&'a [u8]> {
        let (head, rest) = self.0.split_at_checked(n)?;
        self.0 = rest;
        Some(head)
    }

    /// An unsigned LEB128 number.
    fn number(&mut self) -> Option<usize> {
        let mut value = 0_u64;
        for shift in (0..35).step_by(7) {
            let byte = self.take(1)?[0];
            value |= u64::from(byte & 0x7f) << shift;
            if byte & 0x80 == 0 {
                return usize::try_from(value).ok();
            }
        }
        None
    }

    fn name(&mut self) -> Option<String> {
        let n = self.number()?;
        Some(String::from_utf8_lossy(self.take(n)?).into_owned())
    }
}

/// Imports as `module.name`, and names of exports.
fn surface(module: &[u8]) -> Option<(Vec<String>, Vec<String>)> {
    let mut all = Bytes(module);
    if all.take(8)? != b"\0asm\x01\0\0\0" {
        return None;
    }
    let (mut imports, mut exports) = (Vec::new(), Vec::new());
    while !all.0.is_empty() {
        let id = all.take(1)?[0];
        let size = all.number()?;
        let mut section = Bytes(all.take(size)?);
        match id {
            2 if section.number()? > 0 => {
                // One name is enough to find the culprit; what follows it depends on its kind.
                let (from, name) = (section.name()?, section.name()?);
                imports.push(format!("{from}.{name}"));
            }
            7 => {
                for _ in 0..section.number()? {
                    exports.push(section.name()?);
                    section.take(1)?;
                    section.number()?;
                }
            }
            _ => {}
        }
    }
    Some((imports, exports))
}

fn main() -> ExitCode {
    let Some(path) = std::env::args().nth(1) else {
        eprintln!("usage: imports MODULE.wasm");
        return ExitCode::from(2);
    };
    let module = match std::fs::read(&path) {
        Ok(module) => module,
        Err(e) => {
            eprintln!("{path}: {e}");
            return ExitCode::from(2);
        }
    };
    match surface(&module) {
        None => eprintln!("{path} is no WebAssembly module"),
        Some((imports, _)) if !imports.is_empty() => eprintln!("{path} asks the host for {}", imports.join(", ")),
        Some((_, exports)) if !exports.iter().any(|e| e == "answer") => {
            eprintln!("{path} answers nothing: {exports:?}")
        }
        Some((_, exports)) => {
            println!("{path}: {} kB, exports {}, imports nothing", module.len() / 1000, exports.join(", "));
            return ExitCode::SUCCESS;
        }
    }
    ExitCode::FAILURE
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A module by hand: one function type, one imported function `env.now`, one export `answer` of it.
    const ONE: &[u8] = b"\0asm\x01\0\0\0\x01\x04\x01\x60\0\0\x02\x0b\x01\x03env\x03now\0\0\x07\x0a\x01\x06answer\0\0";

    #[test]
    fn an_import_is_found() {
        assert_eq!(surface(ONE), Some((vec!["env.now".to_owned()], vec!["answer".to_owned()])));
    }

    #[test]
    fn a_module_that_is_cut_off_is_none() {
        assert_eq!(surface(&ONE[..20]), None);
        assert_eq!(surface(b"\x7fELF\x02\x01\x01\0"), None);
    }
}
