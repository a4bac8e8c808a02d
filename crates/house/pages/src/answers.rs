//! What follows from a setup: worked out once for each text, and kept for the letters that lean on it.

use std::sync::{Arc, Mutex, PoisonError};

use quantity::Faults;
use recipe::Answer;
use setup::Setup;

use crate::blank::Blanks;
use crate::house::blanks;
use crate::letters::Letters;

/// How many answers are kept: of each letter that is read the one shown, the one it is compared with, and one before.
const KEPT: usize = 24;

/// What follows from a setup.
pub type Follows = Arc<Result<Answer, Faults>>;

/// An answer with the setup that it follows from, and the blanks of its letters.
#[derive(Clone)]
pub struct Kept {
    /// The setup, taken apart once: one that a book reads anew would be taken apart for each letter.
    pub setup: Arc<Setup>,
    /// What follows from it.
    pub answer: Follows,
    /// The blanks; none where it can't be understood.
    pub blanks: Arc<Blanks>,
    /// The letters that were written of it.
    pub letters: Arc<Letters>,
}

/// The answers that were worked out last.
pub struct Answers {
    work: fn(&Setup) -> Result<Answer, Faults>,
    kept: Mutex<Vec<Kept>>,
}

impl Answers {
    /// Answers that `work` works out.
    pub fn new(work: fn(&Setup) -> Result<Answer, Faults>) -> Answers {
        Answers { work, kept: Mutex::default() }
    }

    /// What follows from a setup.
    pub fn follows(&self, setup: &Setup) -> Follows {
        self.get(setup).answer
    }

    /// The blanks that the letters of a setup show; none where it can't be understood.
    pub fn blanks(&self, setup: &Setup) -> Arc<Blanks> {
        self.get(setup).blanks
    }

    /// Whether it is worked out.
    pub fn has(&self, setup: &Setup) -> bool {
        self.find(setup).is_some()
    }

    /// Keeps what somebody else worked out.
    pub fn keep(&self, setup: &Setup, answer: Follows) {
        let blanks = answer.as_ref().as_ref().map(|answer| blanks(setup, answer)).unwrap_or_default();
        let (setup, blanks) = (Arc::new(setup.clone()), Arc::new(blanks));
        self.push(Kept { setup, answer, blanks, letters: Arc::default() });
    }

    /// All that is kept of a setup; worked out where it is not yet.
    pub fn get(&self, setup: &Setup) -> Kept {
        loop {
            if let Some(kept) = self.find(setup) {
                return kept;
            }
            // Not under the lock: it takes its time.
            self.keep(setup, Arc::new((self.work)(setup)));
        }
    }

    fn find(&self, setup: &Setup) -> Option<Kept> {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let at = kept.iter().rposition(|kept| kept.setup.text() == setup.text())?;
        let found = kept.remove(at);
        kept.push(found.clone());
        Some(found)
    }

    fn push(&self, new: Kept) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|old| old.setup.text() != new.setup.text());
        if kept.len() >= KEPT {
            kept.remove(0);
        }
        kept.push(new);
    }
}
