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
        /// What follows from each reply, in the order of [`Question::replies`]; for the sizes of the glass, which have no
        /// replies to choose among, one outcome [`UNTOLD`] that holds what needs no litres.
        outcomes: Vec<Outcome>,
    },
}

/// Key of the outcome while the sizes of the glass are not told: its plan weighs nothing.
pub const UNTOLD: &str = "untold";

/// What follows from one reply.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Outcome {
    /// The reply's key.
    pub reply: String,
    /// What follows (may be [`Answer::Open`] again if another question is open).
    pub answer: Box<Answer>,
}

/// How far an answer is: each reply to an open question needs a plan of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Progress {
    /// Plans written.
    pub done: usize,
    /// Plans in all.
    pub of: usize,
}

/// Work out what follows from a setup.
///
/// # Errors
/// The faults of the setup, or of a reply that it does not take.
pub fn answer(setup: &Setup) -> Result<Answer, Faults> {
    answer_while(setup, &mut |_| true).unwrap_or_else(|| Err(Fault::new("it was stopped").into()))
}

/// As [`answer`], for whoever waits: `go_on` is asked before each plan, and `None` comes back once it says no.
pub fn answer_while(setup: &Setup, go_on: &mut dyn FnMut(Progress) -> bool) -> Option<Result<Answer, Faults>> {
    let mut way = Way { go_on, progress: Progress::default(), stopped: false };
    let answer = whole(setup, &mut way);
    (!way.stopped).then_some(answer)
}

/// What is known on the way to an answer.
struct Way<'a> {
    go_on: &'a mut dyn FnMut(Progress) -> bool,
    progress: Progress,
    stopped: bool,
}

fn whole(setup: &Setup, way: &mut Way) -> Result<Answer, Faults> {
    let tank = setup.tank()?;
    way.progress.of = tank.questions.iter().map(|question| question.replies.len().max(1)).product();
    let Some(question) = tank.glass_question() else { return follow(setup, usize::MAX, way) };
    let mut answer = follow(setup, usize::MAX, way)?;
    weigh_nothing(&mut answer);
    Ok(Answer::Open { question, outcomes: vec![Outcome { reply: UNTOLD.to_owned(), answer: Box::new(answer) }] })
}

/// Take out of every plan whatever hangs on the litres in the tank.
fn weigh_nothing(answer: &mut Answer) {
    match answer {
        Answer::Open { outcomes, .. } => outcomes.iter_mut().for_each(|outcome| weigh_nothing(&mut outcome.answer)),
        Answer::Settled { plan, .. } => {
            plan.doses.clear();
            plan.bottles.clear();
            plan.shopping.clear();
            plan.levels.clear();
            plan.unmet.clear();
            plan.new_water.salts.clear();
            plan.new_water.notes.clear();
            (plan.change.litres, plan.change.buckets, plan.change.limited) = (0.0, (0, 0.0), None);
            (plan.change.most_because, plan.begin) = (None, None);
            // Rules in words stay; what names an amount was worked out for a guess.
            let in_words = |note: &crate::plan::Note| !note.text.contains(|c: char| c.is_ascii_digit());
            plan.cautions.retain(in_words);
            plan.left_out.retain(in_words);
            if let Some(c) = &mut plan.new_water.conditioner {
                (c.stock_g, c.stock_ml, c.ml_a_bucket, c.ml_whole_tank) = (0.0, 0.0, 0.0, 0.0);
                c.sentences.clear();
                c.more.clear();
                c.refused.get_or_insert_with(|| {
                    "Tap water must be treated before it touches an animal: tell me your glass, and I say with how much.".to_owned()
                });
            }
        }
    }
}

/// `open`: a reply must leave fewer questions than this, so that an answer comes to an end.
fn follow(setup: &Setup, open: usize, way: &mut Way) -> Result<Answer, Faults> {
    let tank = setup.tank()?;
    let left = tank.questions.len();
    if left >= open {
        return Err(Fault::new("a reply did not settle its question")
            .hint("write the value with its unit and basis")
            .into());
    }
    let Some(question) = tank.questions.first().cloned() else {
        way.stopped = way.stopped || !(way.go_on)(way.progress);
        if way.stopped {
            return Err(Fault::new("it was stopped").into());
        }
        let plan = Box::new(plan(&tank));
        // Changes that became small go by bucket: whoever reads the tank is told the same.
        let mut tank = tank;
        let hose_from_share = knowledge::book().recipe.new_water.hose_from_share.value;
        let small = plan.change.every_days > 0 && plan.change.share < hose_from_share;
        tank.at_hand.by_hose &= !small;
        way.progress.done += 1;
        return Ok(Answer::Settled { tank: Box::new(tank), plan });
    };
    let outcomes = question.replies.iter().map(|reply| {
        let settled = setup.with(&question.field, &reply.text)?;
        Ok(Outcome { reply: reply.key.clone(), answer: Box::new(follow(&settled, left, way)?) })
    });
    let outcomes = outcomes.collect::<Result<Vec<_>, Faults>>()?;
    Ok(Answer::Open { question, outcomes })
}
