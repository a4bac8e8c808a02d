//! Columns that are none of results: the running numbers of the rows, and the bounds of classes.

use knowledge::ReportWord;

use crate::fold::stems;
use crate::lexicon::lexicon;

/// 1, 2, 3, 5: the numbers of the rows themselves.
pub(crate) fn are_running(filled: &[&str]) -> bool {
    let numbers: Vec<u32> = filled.iter().filter_map(|t| t.trim_end_matches(['.', ')']).parse().ok()).collect();
    let rising = numbers.windows(2).all(|w| w.first() < w.get(1));
    let near = numbers.last().is_some_and(|n| *n as usize <= RUNNING * numbers.len());
    numbers.len() == filled.len() && numbers.len() >= LEAST_RUNNING && rising && near
}

/// So many numbers that rise from row to row are those of the rows, if the last is so many times their number at most.
const LEAST_RUNNING: usize = 4;
const RUNNING: usize = 4;

/// "Group A", "Klasse II": up to where a water counts as of a class.
pub(crate) fn is_class(heading: &str) -> bool {
    let all = stems(heading);
    let [class, which] = &all[..] else { return false };
    let short = which.chars().count() <= 3 && which.chars().all(|c| matches!(c, 'a'..='f' | 'i' | 'v' | '0'..='9'));
    short && lexicon().is(ReportWord::Class, class)
}
