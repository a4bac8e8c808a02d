//! The staff at the waterside: a level over two cycles, as one reads it on a gauge board.
//!
//! Board at the left edge, axis from zero, tide line in full ink with the changes as upright strokes, the likely range
//! as a wash, words at the line. One substance a staff; two readings of one open question may share it.

use std::fmt::Write;
use std::ops::Deref;

use maud::{Markup, html};
use quantity::Units;

use super::{Frame, tenths};
use crate::words::{level, span};

/// One line of a staff.
pub struct Tide<'a> {
    /// The reading of an open question that it belongs to.
    pub reading: Option<String>,
    /// (day, level) points, upright strokes included.
    pub points: &'a [(f64, f64)],
    /// (day, low, high).
    pub likely: &'a [(f64, f64, f64)],
    /// Right after a change and right before the next.
    pub after_before: (f64, f64),
}

/// A staff.
pub struct Staff<'a> {
    /// For the names of title and description; unlike any other on the page.
    pub id: String,
    /// The substance.
    pub name: String,
    /// What the numbers are in, for instance "mg/L as NO3".
    pub unit: String,
    /// One line, or one for each reading.
    pub tides: Vec<Tide<'a>>,
    /// Days from change to change; 0: never.
    pub every_days: u32,
    /// The last day drawn is today: so it is where water is never changed and its age is told.
    pub until_today: bool,
    /// What is aimed at.
    pub band: Option<(f64, f64)>,
    /// Multiplies what is drawn: 1, or from the ion to the element.
    pub factor: f64,
    /// The keeper's units.
    pub units: Units,
    /// Readings over the line.
    pub marks: Vec<Mark>,
}

/// A reading: where it stands and how far it may be off.
pub struct Mark {
    /// Day of the cycle.
    pub day: f64,
    /// Lower end.
    pub low: f64,
    /// What was read.
    pub value: f64,
    /// Upper end.
    pub high: f64,
    /// Not sure, or below what can be read.
    pub hollow: bool,
    /// For who does not see it: "12 on 2026-06-09".
    pub words: String,
}

const WIDTH: f64 = 330.0;
const HEIGHT: f64 = 290.0;
/// Left, right, top and bottom of the water.
const LEFT: f64 = 56.0;
const RIGHT: f64 = 222.0;
const TOP: f64 = 12.0;
const BOTTOM: f64 = 252.0;
/// Height of a line of words.
const LINE: f64 = 17.0;

/// A staff with its two scales, which follow from all that is drawn on it.
struct Scaled<'a> {
    staff: &'a Staff<'a>,
    /// Top of the axis, and the step between its numbers.
    top: (f64, f64),
    /// Days across.
    days: f64,
}

impl<'a> Deref for Scaled<'a> {
    type Target = Staff<'a>;

    fn deref(&self) -> &Staff<'a> {
        self.staff
    }
}

impl<'a> Scaled<'a> {
    fn of(staff: &'a Staff<'a>) -> Scaled<'a> {
        let highest = staff
            .tides
            .iter()
            .flat_map(|t| t.points.iter().map(|p| p.1).chain(t.likely.iter().map(|l| l.2)))
            .chain(staff.band.map(|band| band.1))
            .chain(staff.marks.iter().map(|mark| mark.high))
            .filter(|v| v.is_finite())
            .fold(0.0_f64, f64::max);
        let points = staff.tides.iter().flat_map(|t| t.points.iter().map(|p| p.0));
        let days = points.filter(|d| d.is_finite()).fold(1.0_f64, f64::max);
        Scaled { staff, top: scale(highest * staff.factor), days }
    }

    fn x(&self, day: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * (day / self.days).clamp(0.0, 1.0)
    }

    fn y(&self, value: f64) -> f64 {
        BOTTOM - (BOTTOM - TOP) * (value * self.factor / self.top.0).clamp(0.0, 1.0)
    }

    fn path(&self, points: impl Iterator<Item = (f64, f64)>) -> String {
        let mut spots = String::with_capacity(16 * points.size_hint().0);
        for (day, value) in points {
            let space = if spots.is_empty() { "" } else { " " };
            // Writing into a text can't fail.
            let _ = write!(spots, "{space}{},{}", tenths(self.x(day)), tenths(self.y(value)));
        }
        spots
    }

    /// What the drawing shows, in one sentence a line.
    fn words(&self) -> String {
        let of = |v: f64| level(&self.units, v * self.factor);
        let lines = self.tides.iter().map(|tide| {
            let (after, before) = tide.after_before;
            let reading = tide.reading.as_ref().map_or_else(String::new, |r| format!("If “{r}”: "));
            let moves = match (of(after), of(before)) {
                (a, b) if a == b => format!("stays at {a}"),
                (a, b) if before > after => format!("climbs from {a} after each change to {b} before the next"),
                (a, b) => format!("falls from {a} after each change to {b} before the next"),
            };
            let likely = self
                .ends(tide)
                .map_or_else(String::new, |(low, high)| format!("; likely {}", span(&self.units, low, high)));
            format!("{reading}{moves}{likely}.")
        });
        let read: Vec<&str> = self.marks.iter().map(|mark| mark.words.as_str()).collect();
        let read = (!read.is_empty()).then(|| format!("Read: {}.", read.join(", ")));
        lines.chain(read).collect::<Vec<_>>().join(" ")
    }

    fn ends(&self, tide: &Tide) -> Option<(f64, f64)> {
        let low = tide.likely.iter().map(|l| l.1).reduce(f64::min)?;
        let high = tide.likely.iter().map(|l| l.2).reduce(f64::max)?;
        Some((low * self.factor, high * self.factor))
    }

    /// Words at the lines, each at the height at which it wants to stand.
    fn labels(&self) -> Vec<Label> {
        let of = |v: f64| level(&self.units, v * self.factor);
        let mut labels = Vec::new();
        for tide in &self.tides {
            let (after, before) = tide.after_before;
            let likely = self.ends(tide).map(|(low, high)| (self.y(high / self.factor), span(&self.units, low, high)));
            let own = span(&self.units, after.min(before) * self.factor, after.max(before) * self.factor);
            if let Some(reading) = &tide.reading {
                let mut lines = vec![("", format!("if “{reading}”")), ("num", own.clone())];
                lines.extend(
                    likely.filter(|(_, text)| *text != own).into_iter().flat_map(|(_, text)| likely_lines(text)),
                );
                labels.push(Label { y: self.y(f64::midpoint(after, before)) - LINE, lines });
                continue;
            }
            if of(after) == of(before) {
                labels.push(Label { y: self.y(after), lines: vec![("num", of(after))] });
            } else {
                labels.push(Label { y: self.y(before), lines: vec![("", format!("before {}", of(before)))] });
                labels.push(Label { y: self.y(after), lines: vec![("", format!("after {}", of(after)))] });
            }
            if let Some((y, text)) = likely.filter(|(_, text)| *text != own) {
                labels.push(Label { y: y.min(self.y(after.max(before)) - LINE), lines: likely_lines(text) });
            }
        }
        spread(labels)
    }
}

/// Words beside the water: height of the first line, and each line with its class.
struct Label {
    y: f64,
    lines: Vec<(&'static str, String)>,
}

fn likely_lines(span: String) -> Vec<(&'static str, String)> {
    vec![("soft", "likely".to_owned()), ("soft", span)]
}

/// Keeps the words beside the water, none on another.
fn spread(mut labels: Vec<Label>) -> Vec<Label> {
    labels.sort_by(|a, b| a.y.total_cmp(&b.y));
    let mut words: Vec<(f64, f64)> = labels.iter().map(|label| (label.y, LINE * label.lines.len() as f64)).collect();
    super::spread(&mut words, TOP + 4.0, BOTTOM + 4.0 + LINE);
    for (label, (y, _)) in labels.iter_mut().zip(words) {
        label.y = y;
    }
    labels
}

/// Top of an axis from zero, and the step between its numbers: 1, 2 or 5 times a power of ten, three to five steps.
fn scale(highest: f64) -> (f64, f64) {
    if !highest.is_finite() || highest < 1e-6 {
        return (1.0, 0.5);
    }
    let least = highest * 1.04 / 5.0;
    let power = 10f64.powf(least.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * power).find(|s| *s >= least).unwrap_or(10.0 * power);
    ((highest * 1.04 / step).ceil() * step, step)
}

/// The figure of one substance.
pub fn staff(staff: &Staff) -> Markup {
    let staff = &Scaled::of(staff);
    let strokes = html! {
        (board(staff))
        @for tide in &staff.tides { (wash(staff, tide)) }
        (days(staff))
        @if let Some((low, high)) = staff.band {
            @for end in [low, high] { @if end > 0.0 { path.aim d=(format!("M{LEFT} {y:.1}H{RIGHT}", y = staff.y(end))) {} } }
        }
        @for (i, tide) in staff.tides.iter().enumerate() {
            polyline class=(if i == 0 { "tide" } else { "tide maybe" }) points=(staff.path(tide.points.iter().copied())) {}
        }
        @for mark in staff.marks.iter().filter(|mark| mark.day <= staff.days) { (dot(staff, mark)) }
        @for label in staff.labels() { @for (i, (class, words)) in label.lines.iter().enumerate() {
            text class=(class) x=(RIGHT + 8.0) y=(format!("{:.1}", label.y + 5.0 + LINE * i as f64)) { (words) }
        } }
    };
    let title = format!("{} from change to change", staff.name);
    let paper = [0.0, 0.0, WIDTH, HEIGHT];
    let frame = Frame { id: &staff.id, class: None, paper, letter: None, title: &title, words: &staff.words() };
    html! {
        div.staff {
            h3 { (staff.name) small { (staff.unit) } }
            (frame.draw(strokes))
        }
    }
}

/// Blocks left and right in turn, two between number and number.
fn board(staff: &Scaled) -> Markup {
    let (top, step) = staff.top;
    let blocks = (2.0 * top / step).round().clamp(1.0, 12.0) as u32;
    let tall = (BOTTOM - TOP) / f64::from(blocks);
    html! {
        rect.board x="34" y=(TOP) width="16" height=(BOTTOM - TOP) {}
        @for i in 0..blocks {
            rect.ink x=(if i % 2 == 0 { "34" } else { "42" }) y=(format!("{:.1}", BOTTOM - f64::from(i + 1) * tall)) width="8" height=(format!("{tall:.1}")) {}
            @if i % 2 == 0 {
                text x="27" y=(format!("{:.1}", BOTTOM - f64::from(i) * tall + 5.0)) text-anchor="end" {
                    (crate::words::figures(&staff.units, f64::from(i) * step / 2.0, 3))
                }
            }
        }
        @if blocks.is_multiple_of(2) {
            text x="27" y=(TOP + 5.0) text-anchor="end" { (crate::words::figures(&staff.units, top, 3)) }
        }
    }
}

fn dot(staff: &Scaled, mark: &Mark) -> Markup {
    let x = format!("{:.1}", staff.x(mark.day));
    html! {
        path.fine d=(format!("M{x} {:.1}V{:.1}", staff.y(mark.low), staff.y(mark.high))) {}
        circle class=(if mark.hollow { "mark hollow" } else { "mark" }) cx=(x) cy=(format!("{:.1}", staff.y(mark.value))) r="4" {}
    }
}

fn wash(staff: &Scaled, tide: &Tide) -> Markup {
    let upper = tide.likely.iter().map(|l| (l.0, l.2));
    let lower = tide.likely.iter().rev().map(|l| (l.0, l.1));
    html! { @if !tide.likely.is_empty() { polygon.wash points=(staff.path(upper.chain(lower))) {} } }
}

/// The ground line with a tick a day, a longer one for each change, and its day.
fn days(staff: &Scaled) -> Markup {
    let last = staff.days.round().clamp(1.0, 400.0) as u32;
    let every = staff.every_days;
    let change = |day: u32| if every == 0 { day == 0 || day == last } else { day.is_multiple_of(every) };
    let named = |day: u32| match (staff.until_today, day) {
        (true, day) if day == last => "today".to_owned(),
        (true, day) => format!("{} days ago", last - day),
        (false, day) => format!("day {day}"),
    };
    html! {
        path.fine d=(format!("M50 {BOTTOM}H{}", RIGHT + 4.0)) {}
        @for day in 0..=last {
            @if change(day) || last <= 60 {
                path.fine d=(format!("M{:.1} {BOTTOM}v{}", staff.x(f64::from(day)), if change(day) { 7 } else { 3 })) {}
            }
            @if change(day) && (every == 0 || last / every.max(1) <= 4) {
                text.soft x=(format!("{:.1}", staff.x(f64::from(day)))) y="276" text-anchor="middle" { (named(day)) }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_axis_starts_at_zero_and_ends_on_a_round_number_above_the_highest() {
        for highest in [0.0, 1e-9, 0.004, 0.37, 1.0, 6.4, 9.9, 42.0, 115.9, 2000.0, f64::NAN] {
            let (top, step) = scale(highest);
            assert!(top >= highest || highest.is_nan());
            let steps = top / step;
            assert!((steps - steps.round()).abs() < 1e-9 && (1.0..=6.0).contains(&steps), "{highest}: {top} by {step}");
        }
    }
}
