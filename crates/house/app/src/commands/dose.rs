//! `tapmere dose`: what to weigh into which bottle, how much a day, what level follows.

use recipe::Answer;

use super::{ALL, Answering, SOME, USAGE, faulty, say, say_json};
use crate::{files, letter};

/// Answer from a setup file.
pub fn run(args: &Answering) -> u8 {
    let answer = match files::setup(args.setup.as_deref()).and_then(|setup| recipe::answer(&setup)) {
        Ok(answer) => answer,
        Err(faults) => return faulty(&faults, args.json, if args.setup.is_none() { USAGE } else { SOME }),
    };
    let code = match answer {
        Answer::Settled { .. } => ALL,
        Answer::Open { .. } => SOME,
    };
    if args.json { say_json(&answer, code) } else { say(&text(&answer, args.explain), code) }
}

/// The letter in plain text; a question is shown with what would follow from each reply.
pub fn text(answer: &Answer, explain: bool) -> String {
    match answer {
        Answer::Settled { tank, plan } => {
            let mut text = letter::plan(tank, plan);
            if explain {
                text += &format!("\nWhy?\n{}", letter::whys(&plan.whys));
            }
            text
        }
        Answer::Open { question, outcomes } => letter::open(question, outcomes),
    }
}
