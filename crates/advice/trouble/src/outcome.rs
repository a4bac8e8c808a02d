//! From an answer of the recipe to the tanks that it may be about: one, or one for each reply to what is open.

use recipe::{Answer, Plan, UNTOLD};
use setup::Tank;

use crate::case::Case;
use crate::told::Told;

/// A tank that may be the keeper's.
#[derive(Clone, Debug)]
pub struct Outcome<'a> {
    /// What was replied to get here, in the words of the replies; empty where nothing is open.
    pub replies: Vec<String>,
    /// The tank.
    pub tank: &'a Tank,
    /// Its plan.
    pub plan: &'a Plan,
    /// Whether its litres are known: false while the sizes of the glass are not told.
    pub litres_known: bool,
}

impl<'a> Outcome<'a> {
    /// This tank with what was read.
    pub fn case(&self, told: &'a Told) -> Case<'a> {
        Case { tank: self.tank, plan: self.plan, told, litres_known: self.litres_known }
    }
}

/// Every tank that the answer may be about: nothing is worked out on a basis that is not settled, so each reply has its own.
pub fn outcomes(answer: &Answer) -> Vec<Outcome<'_>> {
    match answer {
        Answer::Settled { tank, plan } => vec![Outcome { replies: Vec::new(), tank, plan, litres_known: true }],
        Answer::Open { question, outcomes: all } => all
            .iter()
            .flat_map(|outcome| {
                let untold = outcome.reply == UNTOLD;
                let reply = question.replies.iter().find(|reply| reply.key == outcome.reply);
                let words = reply.map(|reply| format!("{}: {}", reply.label, reply.means));
                outcomes(&outcome.answer).into_iter().map(move |inner| Outcome {
                    replies: words.iter().cloned().chain(inner.replies.clone()).collect(),
                    litres_known: inner.litres_known && !untold,
                    ..inner
                })
            })
            .collect(),
    }
}
