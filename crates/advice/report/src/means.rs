//! Words that say that values are means: of a column, of what stands under a line, of a whole report.

use knowledge::{ReportColumn, ReportWord};

use crate::Statistic;
use crate::dates::is_year;
use crate::fold::{position, stems, words};
use crate::found::Raw;
use crate::grid::{Grid, Row};
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::name_of;

/// Whether words say that a value is a mean.
pub(crate) fn says_mean(text: &str) -> bool {
    let mut stems = stems(text);
    // "ND means not detected."
    let all = words(text);
    let explains = |w: &[String]| matches!(w, [a, b] if a == "means" && lexicon().is(ReportWord::Explained, b));
    if all.windows(2).any(explains) {
        stems.retain(|w| w != "mean");
    }
    names().any(|name| position(&stems, &name).is_some())
}

fn names() -> impl Iterator<Item = Vec<String>> {
    let mean = knowledge::book().headings.column.get(&ReportColumn::Mean);
    let names = mean.into_iter().flat_map(|n| n.languages()).flat_map(|(_, names)| names.iter());
    names.filter(|n| n.chars().count() > 3).map(|n| stems(n))
}

/// Whether words of a title say that the values are means: words that say other things too count only beside one that
/// speaks of values, or alone.
pub(crate) fn titled(text: &str) -> bool {
    let (all, stems) = (words(text), stems(text));
    let small = |w: &str| lexicon().is(ReportWord::Small, w);
    let meant = |at: usize, name: &[String]| {
        let own = all.get(at..at + name.len()).unwrap_or_default();
        if own.iter().any(|w| !small(w) && !lexicon().is(ReportWord::AlsoMean, w)) {
            return true;
        }
        let before = all.iter().take(at).rev().find(|w| !small(w));
        let behind = all.iter().skip(at + name.len()).find(|w| !small(w));
        before.is_none() && behind.is_none() || before.is_some_and(|w| speaks(w)) || behind.is_some_and(|w| speaks(w))
    };
    let found = |name: Vec<String>| {
        (0..stems.len()).any(|at| stems.get(at..at + name.len()) == Some(&name[..]) && meant(at, &name))
    };
    says_mean(text) && names().any(found)
}

/// Whether a word speaks of values: "concentrations", "2024", "quality", the name of a determinand.
fn speaks(word: &str) -> bool {
    let value = || {
        let role = lexicon().column(word).map(|(role, _)| role);
        matches!(role, Some(ReportColumn::Value | ReportColumn::Name | ReportColumn::Range))
    };
    is_year(word) || lexicon().is(ReportWord::OfAll, word) || value() || matches!(name_of(word), Named::Determinand(_))
}

/// Most lines under a line that says that they are means.
const UNDER: usize = 40;

/// Lines such as "The average hardness of your water was:", by their determinand, with the lines that follow each.
pub(crate) fn heads(grid: &Grid) -> Vec<(&'static str, Vec<u32>)> {
    let under = |at: usize| grid.rows.iter().skip(at + 1).take(UNDER).map(|row| row.line).collect();
    grid.rows.iter().enumerate().filter_map(|(at, row)| Some((headed(row)?, under(at)))).collect()
}

/// The values of a determinand right below such a line are means.
pub(crate) fn below(heads: &[(&'static str, Vec<u32>)], raw: &mut [Raw]) {
    for (key, lines) in heads {
        let own = |r: &Raw, line: u32| r.reading.place.line == Some(line) && r.reading.determinand == *key;
        let right_below = lines.iter().take_while(|&&line| raw.iter().any(|r| own(r, line)));
        let lines: Vec<u32> = right_below.copied().collect();
        let single = |r: &&mut Raw| r.reading.statistic == Statistic::Single && r.date.is_empty();
        let under = raw.iter_mut().filter(|r| lines.iter().any(|&line| own(r, line))).filter(single);
        under.for_each(|r| r.reading.statistic = Statistic::Mean);
    }
}

/// The determinand whose means a line heads.
fn headed(row: &Row) -> Option<&'static str> {
    row.cells.iter().rev().find(|c| !c.text.trim().is_empty()).filter(|c| c.text.trim_end().ends_with(':'))?;
    let text = row.joined();
    match name_of(&text) {
        Named::Determinand(name) if says_mean(&text) => Some(name.key),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_for_a_mean_count_where_they_speak_of_values() {
        for text in [
            "Mean concentrations 2024",
            "Average water quality",
            "Trinkwasseranalyse Mittelwerte 2024",
            "Valores medios",
            "Qualité moyenne de l'eau",
            "Calidad media del agua",
            "Jahresmittel 2023",
            "Gemiddelden per productielocatie",
            "Annual average",
            "Average",
            "Average results by zone",
        ] {
            assert!(titled(text), "{text}");
        }
        for text in [
            "Concejalía de Aguas y Medio Ambiente",
            "Ministère de l'environnement moyen",
            "Stadtwerke Mittelstadt",
            "What does it mean?",
            "What does it mean for your dishwasher?",
            "An average household uses 300 litres a day",
            "Ein durchschnittlicher Haushalt im Mittel",
            "Gasto medio por hogar",
            "Un ménage moyen",
            "Een gemiddeld gezin",
            "Each person uses 130 litres on average",
        ] {
            assert!(!titled(text), "{text}");
        }
    }
}
