//! `tapmere tap show`: what the tap brings, and what it swings.

use serde::Serialize;
use setup::{Question, SourceWater};

use super::{ALL, Answering, SOME, USAGE, faulty, say, say_json};
use crate::{files, letter};

/// What is answered in JSON.
#[derive(Serialize)]
struct Answer<'a> {
    tap: &'a SourceWater,
    low: Option<&'a SourceWater>,
    questions: &'a [Question],
}

/// Answer from a setup file.
pub fn run(args: &Answering) -> u8 {
    let tank = match files::setup(args.setup.as_deref()).and_then(|setup| setup.tank()) {
        Ok(tank) => tank,
        Err(faults) => return faulty(&faults, args.json, if args.setup.is_none() { USAGE } else { SOME }),
    };
    let code = if tank.questions.is_empty() { ALL } else { SOME };
    if args.json {
        return say_json(&Answer { tap: &tank.tap, low: tank.low.as_ref(), questions: &tank.questions }, code);
    }
    let mut text = String::new();
    for question in &tank.questions {
        text += &letter::open(question, &[]);
        text.push('\n');
    }
    text += &letter::tap(&tank);
    if args.explain {
        text += &format!("\nWhy?\n{}", letter::whys(tank.whys.iter().filter(|w| w.key.starts_with("tap"))));
    }
    say(&text, code)
}
