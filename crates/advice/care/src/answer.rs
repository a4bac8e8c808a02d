//! From an answer of the recipe to a day: one, or while a question is open one for each reply.

use jiff::ZonedDateTime;
use logbook::Kept;
use recipe::Answer;
use setup::Question;

use crate::day::{Day, day};

/// What to do, or what hangs on a question.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum Care {
    /// Nothing is open.
    Settled {
        /// The day.
        day: Box<Day>,
    },
    /// A question is open: nothing is computed on it, each reply shows its own day.
    Open {
        /// The question.
        question: Question,
        /// What follows from each reply.
        outcomes: Vec<Outcome>,
    },
}

/// What follows from one reply.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Outcome {
    /// The reply's key.
    pub reply: String,
    /// What follows.
    pub care: Box<Care>,
}

/// The day of an answer.
pub fn care(answer: &Answer, log: &[Kept], now: &ZonedDateTime) -> Care {
    match answer {
        Answer::Settled { tank, plan } => Care::Settled { day: Box::new(day(tank, plan, log, now)) },
        Answer::Open { question, outcomes } => Care::Open {
            question: question.clone(),
            outcomes: outcomes
                .iter()
                .map(|outcome| Outcome {
                    reply: outcome.reply.clone(),
                    care: Box::new(care(&outcome.answer, log, now)),
                })
                .collect(),
        },
    }
}
