//! What the logbook's readings say of a start test: its rounds, and how far it is (harm rule 15).
//!
//! A round opens when the ammonia is given and is judged by the readings of the day after; the worst of them counts, and one of
//! which the keeper is not sure counts for nothing.
//!
//! Checked by `tests/harm_start.rs`.

use jiff::ZonedDateTime;
use knowledge::book;
use logbook::{Kept, Reading, Sure, What};

use crate::living::by_log;

/// The act that opens a round in the logbook: the ammonia was given.
pub const GIVEN: &str = "start_test";
/// Key of the reading of all ammonia, mg/L as N.
pub const AMMONIA: &str = "ammonia_n";
/// Key of the reading of nitrite, mg/L as N.
pub const NITRITE: &str = "nitrite_n";

/// One reading of a round.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Read {
    /// Hours after the ammonia was given.
    pub hours: f64,
    /// mg/L as N.
    pub value: f64,
    /// It was the kit's lowest step.
    pub lowest_step: bool,
}

/// One round of the test.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Round {
    /// When the ammonia was given.
    pub given: ZonedDateTime,
    /// The highest reading of ammonia of the day after, or a later one that does not pass.
    pub ammonia: Option<Read>,
    /// The same of nitrite.
    pub nitrite: Option<Read>,
    /// Passed or not; `None`: a reading is missing.
    pub passed: Option<bool>,
}

/// How far the test is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(tag = "stage", rename_all = "snake_case")]
pub enum Stage {
    /// The keeper told so; the log has no round that says otherwise.
    Told,
    /// Passed as often as it must be, and lately.
    Passed,
    /// Passed so often, but longer ago than a filter without ammonia stays as strong.
    LongAgo {
        /// Days since the last round.
        days: f64,
    },
    /// Passed so many times running; another round is due.
    Partly {
        /// Rounds.
        times: u32,
    },
    /// The ammonia was given; its readings are due.
    Waiting {
        /// Hours since.
        hours: f64,
    },
    /// The last round has no readings of the day after.
    Unread,
    /// The last round was not passed.
    Failed,
    /// No round is in the log.
    NotBegun,
}

impl Stage {
    /// The first animals may come.
    pub fn may_come(&self) -> bool {
        matches!(self, Stage::Told | Stage::Passed)
    }
}

/// Whether animals live in the tank, by the entries up to now.
pub(super) fn animals_in(log: &[Kept], now: &ZonedDateTime) -> Option<bool> {
    let left = by_log(log, now, i64::MIN);
    // Fewer than none: some came before the log began, so it can't say how many are left.
    let (some, unknown) = (left.values().any(|n| *n > 0), left.is_empty() || left.values().any(|n| *n < 0));
    if some { Some(true) } else { (!unknown).then_some(false) }
}

/// The rounds of the log, the first one first.
pub(super) fn rounds(log: &[Kept], now: &ZonedDateTime) -> Vec<Round> {
    let given = |kept: &&Kept| matches!(&kept.entry.what, What::Done { act } if act == GIVEN);
    let mut begun: Vec<&ZonedDateTime> = log.iter().filter(given).map(|kept| &kept.entry.at).collect();
    begun.retain(|at| *at <= now);
    begun.sort();
    let next = |n: usize| begun.get(n + 1).copied().unwrap_or(now);
    begun.iter().enumerate().map(|(n, at)| round(log, at, next(n))).collect()
}

/// A round: judged by the readings of the day after; one that does not pass later on, before the next round, undoes it.
fn round(log: &[Kept], given: &ZonedDateTime, until: &ZonedDateTime) -> Round {
    let start = &book().start;
    let until_h = hours_between(given, until).min(24.0 * start.test_keeps_days.value);
    let inside = |read: &Read| {
        let late = read.hours > start.test_latest_h.value;
        read.hours >= start.test_earliest_h.value && (!late || (!passes(read) && read.hours <= until_h))
    };
    let worst = |key: &str| {
        let readings = log.iter().filter_map(|kept| match &kept.entry.what {
            What::Test(reading) if reading.of == key && reading.sure != Sure::NotSure => {
                Some((hours_between(given, &kept.entry.at), reading))
            }
            _ => None,
        });
        let read = |(hours, reading): (f64, &Reading)| Read { hours, value: reading.value, lowest_step: reading.below };
        readings.map(read).filter(inside).max_by(|a, b| bad(a).total_cmp(&bad(b)))
    };
    let (ammonia, nitrite) = (worst(AMMONIA), worst(NITRITE));
    let passed = ammonia.as_ref().zip(nitrite.as_ref()).map(|(a, n)| passes(a) && passes(n));
    Round { given: given.clone(), ammonia, nitrite, passed }
}

/// A plain reading counts before one that only shows the lowest step.
fn bad(read: &Read) -> f64 {
    if read.lowest_step && passes(read) { -1.0 } else { read.value }
}

/// Under the limit; or the lowest step of a kit that can judge.
fn passes(read: &Read) -> bool {
    let most = book().harm.limit.start_test_pass_mg_n_per_l.value();
    read.value < most || (read.lowest_step && read.value <= book().start.kit_step_most_mg_n_per_l.value)
}

/// The latest reading of ammonia or nitrite of the last weeks that does not pass, sure or not: then no animal comes (harm rule 15).
pub(super) fn shows(log: &[Kept], now: &ZonedDateTime) -> Option<(&'static str, Read)> {
    let days = book().start.between_groups_days.value;
    let latest = |key: &'static str| {
        let readings = log.iter().filter_map(|kept| match &kept.entry.what {
            What::Test(reading) if reading.of == key => Some((hours_between(&kept.entry.at, now), reading)),
            _ => None,
        });
        let fresh = readings.filter(|(ago, _)| (0.0..=24.0 * days).contains(ago));
        let (ago, reading) = fresh.min_by(|a, b| a.0.total_cmp(&b.0))?;
        let read = Read { hours: ago, value: reading.value, lowest_step: reading.below };
        (!passes(&read)).then_some((key, read))
    };
    latest(AMMONIA).or_else(|| latest(NITRITE))
}

fn hours_between(from: &ZonedDateTime, to: &ZonedDateTime) -> f64 {
    to.timestamp().duration_since(from.timestamp()).as_secs_f64() / 3600.0
}

pub(super) fn stage(rounds: &[Round], told: bool, now: &ZonedDateTime) -> Stage {
    let start = &book().start;
    let Some(last) = rounds.last() else { return if told { Stage::Told } else { Stage::NotBegun } };
    let hours = hours_between(&last.given, now);
    match last.passed {
        Some(false) => Stage::Failed,
        None if hours <= start.test_latest_h.value => Stage::Waiting { hours },
        None => Stage::Unread,
        Some(true) => {
            let running = rounds.iter().rev().take_while(|round| round.passed == Some(true)).count() as u32;
            if f64::from(running) < book().harm.limit.start_test_times.value() {
                Stage::Partly { times: running }
            } else if hours / 24.0 > start.test_keeps_days.value && !told {
                Stage::LongAgo { days: hours / 24.0 }
            } else {
                Stage::Passed
            }
        }
    }
}
