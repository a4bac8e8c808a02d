//! Answers lately given about texts, so that words which stand in many rows are read once.

use std::cell::RefCell;
use std::rc::Rc;
use std::thread::LocalKey;

/// Answers kept to one question.
const SLOTS: usize = 4096;
/// A longer text, in bytes, is a sentence, and hardly comes again.
const LONGEST: usize = 160;

/// The answers to one question about texts. Each has the one place that its text falls on, and a newer one takes it over:
/// so it never grows, and what is answered never depends on it.
pub(crate) struct Recent<V>(RefCell<Vec<Option<(Box<str>, V)>>>);

impl<V: Clone> Recent<V> {
    /// With no answers.
    pub const fn new() -> Recent<V> {
        Recent(RefCell::new(Vec::new()))
    }

    fn get(&self, at: usize, text: &str) -> Option<V> {
        let kept = self.0.borrow();
        kept.get(at)?.as_ref().filter(|(of, _)| **of == *text).map(|(_, answer)| answer.clone())
    }

    fn put(&self, at: usize, text: &str, answer: V) {
        let mut kept = self.0.borrow_mut();
        if kept.is_empty() {
            kept.resize_with(SLOTS, || None);
        }
        if let Some(place) = kept.get_mut(at) {
            *place = Some((text.into(), answer));
        }
    }
}

/// The answer about a text: the kept one, else a new one.
pub(crate) fn recall<V: Clone>(kept: &'static LocalKey<Recent<V>>, text: &str, answer: impl FnOnce() -> V) -> V {
    if text.len() > LONGEST {
        return answer();
    }
    let at = place(text);
    if let Some(known) = kept.with(|kept| kept.get(at, text)) {
        return known;
    }
    let made = answer();
    kept.with(|kept| kept.put(at, text, made.clone()));
    made
}

/// The text, held together with the others that say the same.
pub(crate) fn kept(text: &str) -> Rc<str> {
    thread_local! {
        static KEPT: Recent<Rc<str>> = const { Recent::new() };
    }
    recall(&KEPT, text, || text.into())
}

/// The place that a text falls on: a multiplicative hash of its bytes, eight by eight.
fn place(text: &str) -> usize {
    let fold = |hash: u64, eight: &[u8]| {
        let word = eight.iter().rev().fold(0_u64, |word, byte| word << 8 | u64::from(*byte));
        (hash.rotate_left(5) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15)
    };
    let hash = text.as_bytes().chunks(8).fold(text.len() as u64, fold);
    (hash >> 40) as usize % SLOTS
}

#[cfg(test)]
mod tests {
    use super::*;

    thread_local! {
        static LENGTHS: Recent<usize> = const { Recent::new() };
    }

    #[test]
    fn a_text_is_answered_once_and_the_last_one_of_a_place_stays() {
        let asked = std::cell::Cell::new(0);
        let length = |text: &str| {
            recall(&LENGTHS, text, || {
                asked.set(asked.get() + 1);
                text.len()
            })
        };
        for _ in 0..3 {
            assert_eq!([length("lead"), length("zinc"), length("")], [4, 4, 0]);
        }
        assert_eq!(asked.get(), 3);
        for n in 0..10 * SLOTS {
            let text = n.to_string();
            assert_eq!(length(&text), text.len());
        }
        assert_eq!(length("lead"), 4);
        assert!(LENGTHS.with(|kept| kept.0.borrow().len()) == SLOTS);
    }
}
