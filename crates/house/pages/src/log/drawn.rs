//! What was read over what was expected: the log's readings on the staves of the levels, by the days since the change
//! before them, and the same as a table.

use knowledge::{Counts, book};
use logbook::{Kept, Reading as Read, Sure, What};
use maud::{Markup, html};
use quantity::Ion;
use recipe::levels::Cycle;
use recipe::{Level, Plan};

use crate::drawing::staff::{Mark, Staff, Tide, staff};
use crate::salts::levels::{basis, name};
use crate::salts::reading::readings;
use crate::sheet::Sheet;
use crate::words::{NB, capital, level, span};

/// Readings of one level that are drawn at most, the latest.
const MOST: usize = 12;

/// A reading beside what was expected.
struct Beside<'a> {
    kept: &'a Kept,
    read: &'a Read,
    /// Days since the change before it; where water is never changed, for which it was the same.
    day: Option<f64>,
    /// The level then, with its likely range, in the level's own unit.
    expected: Option<(f64, f64, f64)>,
}

impl Beside<'_> {
    /// The reading and how far off it may be.
    fn ends(&self) -> (f64, f64) {
        let (value, error) = (self.read.value, self.read.likely_error());
        if self.read.below { (0.0, value) } else { ((value - error).max(0.0), value + error) }
    }

    fn verdict(&self) -> &'static str {
        let (low, high) = self.ends();
        match self.expected {
            _ if self.read.sure == Sure::NotSure => "not sure",
            Some((_, _, most)) if low > most => "more than was likely",
            Some((_, least, _)) if high < least => "less than was likely",
            Some(_) => "as expected",
            None => "",
        }
    }
}

/// The verse; nothing where nothing that is expected was read.
pub fn verse(sheet: &Sheet) -> Markup {
    let all = readings(sheet.answer);
    let (Some(first), None) = (all.first(), sheet.question()) else { return html! {} };
    let (plan, same) = (first.plan, Same::of(sheet, first.tank));
    let drawn: Vec<(&Level, Vec<Beside>)> = plan
        .levels
        .iter()
        .chain(std::iter::once(&plan.alkalinity))
        .map(|level| (level, beside(sheet, (plan, &same), level)))
        .filter(|(_, read)| !read.is_empty())
        .collect();
    if drawn.is_empty() {
        return html! {};
    }
    sheet.verse_as(
        "across",
        "What you read, over what I expected",
        html! {
            figure {
                div.staves { @for (level, read) in &drawn { (one(sheet, (plan, &same), level, read)) } }
                figcaption {
                    "Dots are your readings of eight weeks, by the days " (since(plan)) "; each stroke is as long as such kits are off. "
                    "Hollow: not sure, or below what the kit shows. The line and its wash are what I expected."
                }
            }
            (table(sheet, plan, &drawn))
        },
    )
}

/// Whether a row of the readings is of this level.
fn is_of(read: &Read, ion: Option<Ion>) -> bool {
    book().readings.get(&read.of).is_some_and(|row| match ion {
        Some(ion) => row.how == Counts::Ion && row.ion == Some(ion),
        None => row.how == Counts::Alkalinity,
    })
}

/// What the days of a reading are counted from.
fn since(plan: &Plan) -> &'static str {
    if plan.alkalinity.unchanged_days.is_some() {
        "for which the water is the same"
    } else {
        "since the change before them"
    }
}

/// For how long the water of a tank is the same where none is changed by habit; `None`: nobody told.
struct Same<'a> {
    tank: &'a setup::Tank,
    sheet: &'a Sheet<'a>,
    today: Option<f64>,
}

impl<'a> Same<'a> {
    fn of(sheet: &'a Sheet, tank: &'a setup::Tank) -> Self {
        let today = care::unchanged_days(tank, sheet.log_also, sheet.now, sheet.now);
        Same { tank, sheet, today }
    }

    /// At a reading.
    fn at(&self, kept: &Kept) -> Option<f64> {
        care::unchanged_days(self.tank, self.sheet.log_also, self.sheet.now, &kept.entry.at)
    }

    /// The days drawn, the last of them today, and the day of the water on which they begin.
    fn drawn(&self) -> Option<(u32, f64)> {
        let today = self.today?;
        let days = (today.floor() as u32).clamp(1, Cycle::DRIFT_DAYS);
        Some((days, (today - f64::from(days)).max(0.0)))
    }
}

/// What stands on a day of a cycle, or of a water that is never changed.
type Points = (Vec<(f64, f64)>, Vec<(f64, f64, f64)>);

/// The line and its wash: the cycle's, or up to today by the days for which the water is the same.
fn points(level: &Level, same: &Same) -> Points {
    let Some((days, from)) = same.drawn().filter(|_| level.unchanged_days.is_some()) else {
        return (level.tide.clone(), level.likely.clone());
    };
    let at = |day: u32| (f64::from(day), level.drifted(from + f64::from(day)));
    let all: Vec<_> = (0..=days).map(at).collect();
    (all.iter().map(|(x, known)| (*x, known.value)).collect(), all.iter().map(|(x, k)| (*x, k.low, k.high)).collect())
}

fn beside<'a>(sheet: &Sheet<'a>, (plan, same): (&Plan, &Same), level: &Level) -> Vec<Beside<'a>> {
    let of_level = sheet.log_also.iter().filter_map(|kept| match &kept.entry.what {
        What::Test(read) if is_of(read, level.ion) => Some((kept, read)),
        _ => None,
    });
    let read: Vec<(&Kept, &Read)> = of_level.take(MOST).collect();
    let changes: Vec<&Kept> =
        sheet.log_also.iter().filter(|kept| matches!(kept.entry.what, What::Change { .. })).collect();
    let every = plan.change.every_days;
    let since = |from: &Kept, to: &Kept| {
        let span = to.entry.at.timestamp().duration_since(from.entry.at.timestamp());
        Some(span.as_secs_f64() / 86_400.0)
    };
    read.into_iter()
        .map(|(kept, read)| {
            let before = changes.iter().find(|change| change.entry.at.timestamp() <= kept.entry.at.timestamp());
            if level.unchanged_days.is_some() {
                let day = same.at(kept);
                let expected = day.map(|day| level.drifted(day)).map(|known| (known.value, known.low, known.high));
                return Beside { kept, read, day, expected };
            }
            let day = before.and_then(|change| since(change, kept));
            // A change that is late by more than a day leaves the cycle that was expected.
            let within = day.filter(|day| *day <= f64::from(every) + 1.0);
            let expected = within.and_then(|day| expected(level, day.min(f64::from(every.max(1)))));
            Beside { kept, read, day, expected }
        })
        .collect()
}

/// The level on a day of the cycle, with its likely range.
fn expected(level: &Level, day: f64) -> Option<(f64, f64, f64)> {
    let at = |points: &[(f64, f64)]| {
        let pair = points.windows(2).find(|pair| pair[0].0 < pair[1].0 && pair[0].0 <= day && day <= pair[1].0)?;
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        Some(y0 + (y1 - y0) * (day - x0) / (x1 - x0))
    };
    let value = at(&level.tide)?;
    let low: Vec<(f64, f64)> = level.likely.iter().map(|(day, low, _)| (*day, *low)).collect();
    let high: Vec<(f64, f64)> = level.likely.iter().map(|(day, _, high)| (*day, *high)).collect();
    Some((value, at(&low).unwrap_or(value), at(&high).unwrap_or(value)))
}

fn one(sheet: &Sheet, (plan, same): (&Plan, &Same), level: &Level, read: &[Beside]) -> Markup {
    let (factor, unit) = basis(&sheet.units, level.ion);
    let (line, likely) = points(level, same);
    let window = same.drawn().filter(|_| level.unchanged_days.is_some());
    let x = |day: f64| match (window, level.unchanged_days) {
        (Some((_, from)), _) => Some(day - from).filter(|x| *x >= 0.0),
        (None, Some(_)) => None,
        (None, None) => Some(day),
    };
    let mark = |b: &Beside| {
        let (low, high) = b.ends();
        Some(Mark {
            day: x(b.day?)?,
            low,
            value: b.read.value,
            high,
            hollow: b.read.below || b.read.sure == Sure::NotSure,
            words: format!("{} on {}", self::level_of(sheet, level, b.read.value), b.kept.entry.at.date()),
        })
    };
    html! {
        div {
            (staff(&Staff {
                id: format!("log-staff-{}", name(level.ion)),
                name: capital(name(level.ion)),
                unit: unit.to_owned(),
                tides: vec![Tide {
                    reading: None,
                    points: &line,
                    likely: &likely,
                    after_before: (level.after_change.value, level.before_change.value),
                }],
                every_days: plan.change.every_days,
                until_today: window.is_some(),
                band: None,
                factor,
                units: sheet.units,
                marks: read.iter().filter_map(mark).collect(),
            }))
        }
    }
}

fn level_of(sheet: &Sheet, of: &Level, value: f64) -> String {
    level(&sheet.units, basis(&sheet.units, of.ion).0 * value)
}

fn table(sheet: &Sheet, plan: &Plan, drawn: &[(&Level, Vec<Beside>)]) -> Markup {
    let untold = if plan.alkalinity.unchanged_days.is_some() {
        "nobody told for how long the water is the same"
    } else {
        "no change of water is written before it"
    };
    let day =
        |b: &Beside| b.day.map_or_else(|| "?".to_owned(), |day| sheet.units.number(day, quantity::Digits::Decimals(0)));
    html! {
        div.scroll tabindex="0" role="region" aria-label="Readings beside what was expected" {
            table {
                caption { "The same as a table. “?”: " (untold) "." }
                thead { tr {
                    th scope="col" { "what" } th scope="col" { "when" }
                    @for head in ["day", "read", "as kits go", "expected", "likely"] { th.n scope="col" { (head) } }
                    th scope="col" { "so" }
                } }
                tbody { @for (of, read) in drawn { @for b in read {
                    @let (low, high) = b.ends();
                    @let factor = basis(&sheet.units, of.ion).0;
                    tr {
                        th scope="row" { (name(of.ion)) ", " (basis(&sheet.units, of.ion).1) }
                        td { (b.kept.entry.at.date()) }
                        td.n { (day(b)) }
                        td.n { @if b.read.below { "<" } (level_of(sheet, of, b.read.value)) }
                        td.n { (span(&sheet.units, factor * low, factor * high)) }
                        td.n { @if let Some((value, ..)) = b.expected { (sheet.out_or_bold(&level_of(sheet, of, value), plan.why(&of.why))) } }
                        td.n { @if let Some((_, low, high)) = b.expected { (span(&sheet.units, factor * low, factor * high)) } }
                        td { (b.verdict().replace(' ', NB)) }
                    }
                } } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use quantity::{Kind, Known};

    use super::*;

    /// By hand: from 4 right after the change to 2 before the next, a week apart; on day 3.5 half way.
    #[test]
    fn what_was_expected_is_read_off_the_line() {
        let tide = vec![(0.0, 2.0), (0.0, 4.0), (7.0, 2.0), (7.0, 4.0), (14.0, 2.0)];
        let known = Known::exact(0.0, Kind::Assumed);
        let level = Level {
            ion: Some(Ion::Nitrate),
            new_water: known,
            dose_per_day: 0.0,
            uptake_per_day: known,
            top_up_per_day: known,
            unchanged_days: None,
            after_change: known,
            before_change: known,
            lowest: 2.0,
            highest: 4.0,
            band: None,
            runs_out_day: None,
            runs_out_day_poorest: None,
            likely: tide.iter().map(|(d, v)| (*d, 0.5 * v, 2.0 * v)).collect(),
            tide,
            why: String::new(),
        };
        assert_eq!(expected(&level, 0.0), Some((4.0, 2.0, 8.0)));
        assert_eq!(expected(&level, 3.5), Some((3.0, 1.5, 6.0)));
        assert_eq!(expected(&level, 7.0), Some((2.0, 1.0, 4.0)));
        assert_eq!(expected(&level, 99.0), None);
    }
}
