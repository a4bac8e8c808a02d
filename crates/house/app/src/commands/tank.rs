//! `tapmere tank show`: true litres, weight, and what was assumed.

use super::{ALL, Answering, SOME, USAGE, faulty, say, say_json};
use crate::{files, letter};

/// Answer from a setup file.
pub fn run(args: &Answering) -> u8 {
    let tank = match files::setup(args.setup.as_deref()).and_then(|setup| setup.tank()) {
        Ok(tank) => tank,
        Err(faults) => return faulty(&faults, args.json, if args.setup.is_none() { USAGE } else { SOME }),
    };
    if args.json {
        return say_json(&tank, ALL);
    }
    let mut text = letter::tank(&tank);
    if args.explain {
        text += &format!("\nWhy?\n{}", letter::whys(&tank.whys));
    }
    say(&text, ALL)
}
