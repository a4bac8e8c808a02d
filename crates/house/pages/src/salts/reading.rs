//! Readings: the one plan where nothing is open, or a plan for each reply to the open question.

use maud::{Markup, PreEscaped, html};
use recipe::{Answer, Plan};
use setup::Tank;

use crate::words::glued;

/// One way in which the setup may be read, with what follows.
#[derive(Clone)]
pub struct Reading<'a> {
    /// The replies that lead here; `None` where nothing is open.
    pub label: Option<String>,
    /// The tank so read.
    pub tank: &'a Tank,
    /// What follows.
    pub plan: &'a Plan,
}

/// More than this many readings at a time nobody can hold side by side.
const MOST: usize = 4;

/// All readings; empty if there are so many that the question must be answered first.
pub fn readings(answer: &Answer) -> Vec<Reading<'_>> {
    let mut all = Vec::new();
    gather(answer, None, &mut all);
    if all.len() > MOST { Vec::new() } else { all }
}

fn gather<'a>(answer: &'a Answer, label: Option<&str>, all: &mut Vec<Reading<'a>>) {
    match answer {
        Answer::Settled { tank, plan } => all.push(Reading { label: label.map(str::to_owned), tank, plan }),
        Answer::Open { question, outcomes } => {
            for outcome in outcomes {
                let reply = question.replies.iter().find(|reply| reply.key == outcome.reply);
                let said = reply.map_or(outcome.reply.as_str(), |reply| reply.label.as_str());
                let said = label.map_or_else(|| said.to_owned(), |before| format!("{before}, {said}"));
                gather(&outcome.answer, Some(&said), all);
            }
        }
    }
}

/// Shows paragraphs once where all readings have them, and the others for each reading under its own head.
pub fn by_part<'a>(readings: &[Reading<'a>], parts: impl Fn(&Reading<'a>) -> Vec<Markup>) -> Markup {
    let all: Vec<Vec<String>> =
        readings.iter().map(|reading| parts(reading).into_iter().map(|part| part.0).collect()).collect();
    let Some((first, others)) = all.split_first() else { return html! {} };
    let shared = |part: &String| others.iter().all(|other| other.contains(part));
    let own = |parts: &[String]| {
        parts.iter().filter(|part| !first.contains(part) || !shared(part)).cloned().collect::<Vec<_>>()
    };
    html! {
        @for part in first.iter().filter(|part| shared(part)) { (PreEscaped(part)) }
        @for (reading, parts) in readings.iter().zip(&all) {
            @let own = own(parts);
            @if !own.is_empty() {
                h3 { "If “" (glued(reading.label.as_deref().unwrap_or("so"))) "”" }
                @for part in own { (PreEscaped(part)) }
            }
        }
    }
}

/// Shows something once where all readings agree on it, else for each reading under its own head.
pub fn by_reading<'a, K: PartialEq>(
    readings: &[Reading<'a>],
    agree: impl Fn(&Reading<'a>) -> K,
    show: impl Fn(&Reading<'a>) -> Markup,
) -> Markup {
    let Some((first, others)) = readings.split_first() else { return html! {} };
    let key = agree(first);
    if others.iter().all(|other| agree(other) == key) {
        return show(first);
    }
    html! {
        @for reading in readings {
            h3 { "If “" (glued(reading.label.as_deref().unwrap_or("so"))) "”" }
            (show(reading))
        }
    }
}
