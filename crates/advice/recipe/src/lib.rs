//! What to add: few products, doses that can be weighed, harmless over the tap's whole range.
//!
//! Placeholder: the surface that the other crates see.

mod choose;
pub mod levels;
mod plan;
pub mod programme;

pub use choose::{Choice, LeftOut, Reason, Subject, choose};
pub use plan::*;

use quantity::Faults;
use setup::{Question, Setup, Tank};

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
/// The faults of the setup.
pub fn answer(setup: &Setup) -> Result<Answer, Faults> {
    let tank = setup.tank()?;
    let plan = Box::new(plan(&tank));
    Ok(Answer::Settled { tank: Box::new(tank), plan })
}

/// The plan for a tank without open questions.
pub fn plan(_tank: &Tank) -> Plan {
    unimplemented!("placeholder")
}
