//! From a setup to an answer: a plan, or while a question is open every reply with its own outcome.

use quantity::{Fault, Faults};
use setup::{Question, Setup, Tank};

use crate::assemble::plan;
use crate::plan::Plan;

/// What follows from a setup: a plan, or, while a question is open, one plan for each reply.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum Answer {
    /// Nothing is open.
    Settled {
        /// The tank.
        tank: Box<Tank>,
        /// Its plan.
        plan: Box<Plan>,
    },
    /// A question is open: nothing is computed on an unsettled basis, each reply shows its own outcome.
    Open {
        /// The first open question.
        question: Question,
        /// What follows from each reply, in the order of [`Question::replies`].
        outcomes: Vec<Outcome>,
    },
}

/// What follows from one reply.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Outcome {
    /// The reply's key.
    pub reply: String,
    /// What follows (may be [`Answer::Open`] again if another question is open).
    pub answer: Box<Answer>,
}

/// Work out what follows from a setup.
///
/// # Errors
/// The faults of the setup, or of a reply that it does not take.
pub fn answer(setup: &Setup) -> Result<Answer, Faults> {
    follow(setup, usize::MAX)
}

/// `open`: a reply must leave fewer questions than this, so that an answer comes to an end.
fn follow(setup: &Setup, open: usize) -> Result<Answer, Faults> {
    let tank = setup.tank()?;
    let left = tank.questions.len();
    if left >= open {
        return Err(Fault::new("a reply did not settle its question")
            .hint("write the value with its unit and basis")
            .into());
    }
    let Some(question) = tank.questions.first().cloned() else {
        let plan = Box::new(plan(&tank));
        return Ok(Answer::Settled { tank: Box::new(tank), plan });
    };
    let outcomes = question.replies.iter().map(|reply| {
        let settled = setup.with(&question.field, &reply.text)?;
        Ok(Outcome { reply: reply.key.clone(), answer: Box::new(follow(&settled, left)?) })
    });
    let outcomes = outcomes.collect::<Result<Vec<_>, Faults>>()?;
    Ok(Answer::Open { question, outcomes })
}
