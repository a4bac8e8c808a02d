//! What a method can see, where a table has two columns of it: what it detects ("MDL"), and from where on the laboratory
//! reports a number ("RL").

use knowledge::ReportWord;

use crate::fold::words;
use crate::grid::{Grid, Row};
use crate::lexicon::lexicon;

/// Which of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Least {
    /// Above it something is there.
    Detected,
    /// Above it the number is good.
    Reported,
}

impl Least {
    /// What a text speaks of, be it "<MDL" or a heading; none where it speaks of both or of neither.
    pub fn of(text: &str) -> Option<Least> {
        let all = words(text);
        let says = |kind: ReportWord| all.iter().any(|w| lexicon().is(kind, w));
        match (says(ReportWord::Detected), says(ReportWord::Reported)) {
            (true, false) => Some(Least::Detected),
            (false, true) => Some(Least::Reported),
            _ => None,
        }
    }

    /// What the report says that "not detected" is under: "U = not detected at or above the MDL".
    pub fn told(grids: &[Grid]) -> Option<Least> {
        let sentences = |row: &Row| row.joined().split(". ").map(str::to_owned).collect::<Vec<_>>();
        let all = grids.iter().flat_map(|g| &g.rows).flat_map(sentences);
        let mut told = all.filter(|t| lexicon().says_not_detected(t)).filter_map(|t| Least::of(&t));
        let first = told.next()?;
        told.all(|other| other == first).then_some(first)
    }
}

/// The number that counts, of columns by heading and number: the one of that kind, else the highest, under which the value
/// lies in either case.
pub(crate) fn counts<'a>(columns: impl Iterator<Item = (&'a str, f64)>, told: Option<Least>) -> Option<f64> {
    let all: Vec<(&str, f64)> = columns.collect();
    let of_it = |(heading, _): &&(&str, f64)| told.is_some() && Least::of(heading) == told;
    let own = all.iter().find(of_it).map(|(_, number)| *number);
    own.or_else(|| all.iter().map(|(_, number)| *number).max_by(f64::total_cmp))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn which_counts() {
        let both = || [("RL", 0.1), ("MDL", 0.04)].into_iter();
        assert_eq!(counts(both(), Some(Least::Detected)), Some(0.04));
        assert_eq!(counts(both(), Some(Least::Reported)), Some(0.1));
        assert_eq!(counts(both(), None), Some(0.1));
        assert_eq!(counts(std::iter::empty(), None), None);
        let of = |text: &str| Least::told(&crate::sources::text_grids(text));
        assert_eq!(of("U = not detected at or above the MDL. RL = reporting limit."), Some(Least::Detected));
        assert_eq!(of("n.b. = nicht bestimmbar (kleiner BG)"), Some(Least::Reported));
        assert_eq!(of("RL = reporting limit, MDL = method detection limit"), None);
    }
}
