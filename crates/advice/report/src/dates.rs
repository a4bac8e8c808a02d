//! Dates, months, quarters and years, as reports print them.

use crate::fold::{tidy, words};
use crate::lexicon::lexicon;
use crate::recent::{Recent, recall};

use knowledge::ReportColumn;

/// A date that may lack its day or its month.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct When {
    year: Option<u32>,
    month: Option<u32>,
    day: Option<u32>,
}

/// Whether a text begins with a date ("12.03.2025", "5 de mayo de 2025") or is a month of a year ("Jul-24", "03/2025").
pub(crate) fn is_date(text: &str) -> bool {
    thread_local! {
        static KEPT: Recent<bool> = const { Recent::new() };
    }
    recall(&KEPT, text, || numbers(text).is_some() || in_words(text).is_some() || month_of_year(text).is_some())
}

/// Whether a text stands for a quarter or half of a year: "1e kwartaal", "Q3 2024".
pub(crate) fn is_period(text: &str) -> bool {
    thread_local! {
        static KEPT: Recent<bool> = const { Recent::new() };
    }
    recall(&KEPT, text, || is_part_of_a_year(text))
}

fn is_part_of_a_year(text: &str) -> bool {
    let words = words(text);
    let quarter = |w: &String| matches!(w.as_str(), "q1" | "q2" | "q3" | "q4" | "1q" | "2q" | "3q" | "4q");
    let named = matches!(lexicon().column(text), Some((ReportColumn::Date, false)))
        && words
            .iter()
            .any(|w| w.chars().any(|c| c.is_ascii_digit()) || matches!(w.as_str(), "i" | "ii" | "iii" | "iv"));
    words.len() <= 4 && (words.first().is_some_and(quarter) || words.last().is_some_and(quarter) || named)
}

/// Whether a text begins with a number of an order: "95th", "1e kwartaal", "2º trimestre".
pub(crate) fn is_ordinal(text: &str) -> bool {
    let first = text.split_whitespace().next().unwrap_or("");
    let behind = first.trim_start_matches(|c: char| c.is_ascii_digit());
    let ends = ["st", "nd", "rd", "th", "e", "er", "ère", "ème", "de", "ste", "º", "ª", "°", "%ile"];
    behind.len() < first.len() && (ends.contains(&behind.to_lowercase().as_str()) || is_period(text))
}

/// Whether a text is a year and nothing else.
pub(crate) fn is_year(text: &str) -> bool {
    text.trim().len() == 4 && text.trim().parse::<u32>().is_ok_and(|y| (1950..2100).contains(&y))
}

/// The date as `YYYY-MM-DD`, where it can be meant in one way only.
pub(crate) fn iso(text: &str) -> Option<String> {
    let (year, month, day) = match numbers(text) {
        Some([a, b, c]) => match (a, b, c) {
            (y, m, d) if y > 31 => (y, m, d),
            (d, m, y) if y > 31 && (d > 12 || d == m || text.contains('.')) => (y, m, d),
            (m, d, y) if y > 31 && d > 12 => (y, m, d),
            _ => return None,
        },
        None => match in_words(text)? {
            When { year: Some(year), month: Some(month), day: Some(day) } => (year, month, day),
            _ => return None,
        },
    };
    ((1..=12).contains(&month) && (1..=31).contains(&day)).then(|| format!("{year:04}-{month:02}-{day:02}"))
}

/// What a date is ordered by: its ISO spelling, or so much of it as is printed.
pub(crate) fn order(text: &str) -> Option<String> {
    let part = |w: When| Some(format!("{:04}-{:02}", w.year?, w.month.unwrap_or(0)));
    let year = || is_year(text).then(|| text.trim().to_owned());
    iso(text).or_else(|| in_words(text).and_then(part)).or_else(|| month_of_year(text).and_then(part)).or_else(year)
}

/// The numbers of a leading date, as printed: three groups parted by the same sign, one of them a year.
fn numbers(text: &str) -> Option<[u32; 3]> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '/'))).unwrap_or(text.len());
    let head = text.get(..end)?.trim_end_matches(['.', '/', '-']);
    let sign = head.chars().find(|c| !c.is_ascii_digit())?;
    let parts: Vec<u32> = head.split(sign).map(|p| p.parse().ok()).collect::<Option<_>>()?;
    let [a, b, c] = parts[..] else { return None };
    let year = |y: u32| (1900..2100).contains(&y);
    let short = |d: u32| (1..=31).contains(&d);
    let sound = (year(a) && short(b) && short(c)) || (short(a) && short(b) && (year(c) || (c < 100 && sign != '-')));
    sound.then_some([a, b, c])
}

/// "2024-07", "07/2024".
fn month_of_year(text: &str) -> Option<When> {
    let (a, b) = text.trim().split_once(['-', '/'])?;
    let (year, month) = if a.len() == 4 { (a, b) } else { (b, a) };
    let (year, month) = (Some(year).filter(|y| is_year(y))?.parse().ok()?, month.parse().ok()?);
    (1..=12).contains(&month).then_some(When { year: Some(year), month: Some(month), day: None })
}

/// "Jul-24", "12. März 2024", "5 de mayo de 2025", "January 5, 2025", and a month alone.
fn in_words(text: &str) -> Option<When> {
    let spaced: String = tidy(text).chars().take(60).collect();
    if !spaced.chars().any(char::is_alphabetic) {
        return None;
    }
    let all = words(&spaced);
    let mut rest = all.iter().map(String::as_str).filter(|w| !matches!(*w, "de" | "del")).peekable();
    let number = |w: &&str| {
        let digits: String = w.chars().take_while(char::is_ascii_digit).collect();
        matches!(w.get(digits.len()..), Some("" | "st" | "nd" | "rd" | "th" | "er" | "e"))
            .then(|| digits.parse().ok())?
    };
    let short = |w: &&str| number(w).filter(|d: &u32| (1..=31).contains(d));
    let mut day = rest.peek().and_then(short);
    if day.is_some() {
        rest.next();
    }
    let month = lexicon().month(rest.next()?)?;
    if day.is_none() && rest.clone().nth(1).is_some_and(is_year) {
        day = rest.peek().and_then(short);
        if day.is_some() {
            rest.next();
        }
    }
    let year = rest.peek().and_then(|w| match w.len() {
        4 => Some(w).filter(|w| is_year(w))?.parse().ok(),
        2 => w.parse::<u32>().ok().map(|y| 2000 + y),
        _ => None,
    });
    // A month without its year stands alone.
    (year.is_some() || rest.next().is_none()).then_some(When { year, month: Some(month), day })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_printed() {
        for (text, expected) in [
            ("12.03.2025", Some("2025-03-12")),
            ("2024-02-14", Some("2024-02-14")),
            ("24/06/2025 09h12", Some("2025-06-24")),
            ("5 de mayo de 2025", Some("2025-05-05")),
            ("1er mars 2024", Some("2024-03-01")),
            ("12. März 2024", Some("2024-03-12")),
            ("January 5, 2025", Some("2025-01-05")),
            ("Jul-24", None),
            ("03/2025", None),
            ("04/05/2025", None),
        ] {
            assert!(is_date(text), "{text}");
            assert_eq!(iso(text).as_deref(), expected, "{text}");
        }
        for text in ["may contain lead", "6.5-9.5", "1.2", "Marble", "12 samples", "August results", "Zone 12"] {
            assert!(!is_date(text), "{text}");
        }
        assert!(is_period("1e kwartaal") && is_period("Q3 2024") && is_period("2. Quartal") && !is_period("Quartal"));
        assert!(order("Jul-24") < order("Aug-24") && order("Dec 2023") < order("2024"));
        assert!(["95th", "1e kwartaal", "2º trimestre", "1er semestre"].iter().all(|t| is_ordinal(t)));
        assert!(["95", "12 e", "12.5", "26mg/l", "1st"].iter().filter(|t| is_ordinal(t)).eq(["1st"].iter()));
    }
}
