//! `tapmere tap show`: what the tap brings, and what it swings.

use serde::Serialize;
use setup::{Question, SourceWater, Tank};

use super::{ALL, Answering, SOME, USAGE, faulty, say, say_json};
use crate::{files, letter};

/// What is answered in JSON.
#[derive(Serialize)]
struct Answer<'a> {
    tap: &'a SourceWater,
    low: Option<&'a SourceWater>,
    questions: &'a [Question],
    /// None while a question is open.
    meaning: Option<report::Meaning>,
}

/// Answer from a setup file.
pub fn run(args: &Answering) -> u8 {
    let tank = match files::setup(args.setup.as_deref()).and_then(|setup| setup.tank()) {
        Ok(tank) => tank,
        Err(faults) => return faulty(&faults, args.json, if args.setup.is_none() { USAGE } else { SOME }),
    };
    let code = if tank.questions.is_empty() { ALL } else { SOME };
    let meaning = tank.questions.is_empty().then(|| report::meaning(&tank, &[]));
    if args.json {
        let Tank { tap, low, questions, .. } = &tank;
        return say_json(&Answer { tap, low: low.as_ref(), questions, meaning }, code);
    }
    let mut text = String::new();
    for question in &tank.questions {
        text += &letter::open(question, &[]);
        text.push('\n');
    }
    text += &letter::tap(&tank);
    text += &meaning.map_or_else(String::new, |meaning| format!("\n{}", letter::meant(&meaning, &tank.units)));
    if args.explain {
        text += &format!("\nWhy?\n{}", letter::whys(tank.whys.iter().filter(|w| w.key.starts_with("tap"))));
    }
    say(&text, code)
}
