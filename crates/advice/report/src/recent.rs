//! Answers lately given about texts, so that words which stand in many rows are read once.

use std::cell::RefCell;
use std::rc::Rc;
use std::thread::LocalKey;

/// Answers kept to one question.
const SLOTS: usize = 4096;
/// Answers of texts that fall on one place: words met in every row must not drive each other out.
const BESIDE: usize = 4;
/// A longer text, in bytes, is a paragraph, and hardly comes again.
const LONGEST: usize = 400;

/// The answers to one question about texts. Each stands with a few others where its text falls, and a newer one drives out
/// the oldest: so it never grows, and what is answered never depends on it.
pub(crate) struct Recent<V>(RefCell<Vec<Slot<V>>>);

/// A text with what was worked out of it.
type Slot<V> = Option<(Box<str>, V)>;

impl<V: Clone> Recent<V> {
    /// With no answers.
    pub const fn new() -> Recent<V> {
        Recent(RefCell::new(Vec::new()))
    }

    fn get(&self, at: usize, text: &str) -> Option<V> {
        let kept = self.0.borrow();
        let beside = kept.get(at..at + BESIDE)?.iter().flatten();
        beside.filter(|(of, _)| **of == *text).map(|(_, answer)| answer.clone()).next()
    }

    fn put(&self, at: usize, text: &str, answer: V) {
        let mut kept = self.0.borrow_mut();
        if kept.is_empty() {
            kept.resize_with(SLOTS, || None);
        }
        if let Some(beside) = kept.get_mut(at..at + BESIDE) {
            beside.rotate_right(1);
            beside.first_mut().into_iter().for_each(|first| *first = Some((text.into(), answer.clone())));
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

/// The place that a text falls on: a multiplicative hash of its bytes, eight by eight. Multiplying carries upwards alone, so
/// at the end the upper half is brought down once more: the last letters of a text must tell too.
fn place(text: &str) -> usize {
    const FACTOR: u64 = 0x9e37_79b9_7f4a_7c15;
    let fold = |hash: u64, eight: &[u8]| {
        let word = eight.iter().rev().fold(0_u64, |word, byte| word << 8 | u64::from(*byte));
        (hash.rotate_left(5) ^ word).wrapping_mul(FACTOR)
    };
    let hash = text.as_bytes().chunks(8).fold(text.len() as u64, fold);
    ((hash ^ hash >> 29).wrapping_mul(FACTOR) >> 40) as usize % (SLOTS / BESIDE) * BESIDE
}

#[cfg(test)]
mod tests {
    use super::*;

    thread_local! {
        static LENGTHS: Recent<usize> = const { Recent::new() };
    }

    #[test]
    fn a_text_is_answered_once_and_nothing_grows() {
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
        // Texts that differ in their last letters alone do not fall on each other.
        let places: std::collections::BTreeSet<usize> = (0..100).map(|n| place(&format!("Point {n:02}"))).collect();
        assert!(places.len() > 80, "{}", places.len());
        assert!(LENGTHS.with(|kept| kept.0.borrow().len()) == SLOTS);
    }
}
