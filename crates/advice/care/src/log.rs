//! What the logbook says of the routine: when something was done last, and what was done today.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Filter, Kept, Log, What};
use quantity::Fault;

use crate::day::Done;
use crate::due::Known;

/// The log, as one day reads it. Entries after `now` count as not yet made, and those that count animals tell of no day's work.
pub(crate) struct Past<'a> {
    kept: Vec<&'a Kept>,
    now: &'a ZonedDateTime,
}

impl<'a> Past<'a> {
    /// The log up to now, the earliest entry first.
    pub fn of(log: &'a [Kept], now: &'a ZonedDateTime) -> Self {
        let made = |kept: &&Kept| {
            kept.entry.at.timestamp() <= now.timestamp() && !matches!(kept.entry.what, What::Animals { .. })
        };
        let mut kept: Vec<&Kept> = log.iter().filter(made).collect();
        kept.sort_by_key(|kept| (kept.entry.at.timestamp(), kept.id));
        Past { kept, now }
    }

    /// The same without today: what a plan says, whatever was given or done today.
    pub fn before_today(&self) -> Past<'a> {
        let kept = self.kept.iter().copied().filter(|kept| self.date(kept) < self.today());
        Past { kept: kept.collect(), now: self.now }
    }

    /// The day of an entry, by the keeper's clock.
    fn date(&self, kept: &Kept) -> Date {
        kept.entry.at.with_time_zone(self.now.time_zone().clone()).date()
    }

    /// The moment.
    pub fn now(&self) -> &ZonedDateTime {
        self.now
    }

    /// What was logged today of an amount, summed; `None`: nothing.
    pub fn amount_today(&self, amount: impl Fn(&What) -> Option<f64>) -> Option<f64> {
        let today = self.entries().filter(|(date, _)| *date == self.today());
        let amounts: Vec<f64> = today.filter_map(|(_, kept)| amount(&kept.entry.what)).collect();
        (!amounts.is_empty()).then(|| amounts.iter().sum())
    }

    /// Today.
    pub fn today(&self) -> Date {
        self.now.date()
    }

    /// The day of the first entry.
    pub fn start(&self) -> Option<Date> {
        self.kept.first().map(|kept| self.date(kept))
    }

    /// When it was done last, before today or today.
    pub fn known(&self, what: impl Fn(&What) -> bool) -> Known {
        let last = self.kept.iter().rev().find(|kept| what(&kept.entry.what)).map(|kept| self.date(kept));
        Known { last, start: self.start() }
    }

    /// Whether and when it was done today: the hour of the last, the numbers of all.
    pub fn today_done(&self, what: impl Fn(&What) -> bool) -> Option<Done> {
        let today = self.today();
        let done: Vec<&&Kept> =
            self.kept.iter().filter(|kept| self.date(kept) == today && what(&kept.entry.what)).collect();
        let at = done.last()?.entry.at.with_time_zone(self.now.time_zone().clone());
        Some(Done { at, ids: done.iter().map(|kept| kept.id).collect() })
    }

    /// Entries in order, with their day.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = (Date, &Kept)> {
        self.kept.iter().map(|kept| (self.date(kept), *kept))
    }
}

/// Days of the log that a day needs: the longest interval of the routine and the longest life of a bottle, with room.
const READS_DAYS: i64 = 200;

/// The entries that a day needs, so that years of a log cost no more than some months of it; beside them it needs [`animals`].
pub fn reads(now: &ZonedDateTime) -> Filter {
    let from = now.timestamp().checked_sub(jiff::SignedDuration::from_hours(24 * READS_DAYS)).ok();
    let kinds = ["test", "dose", "change", "top_up", "food", "trim", "done"].map(str::to_owned).to_vec();
    Filter { from, kinds, ..Filter::default() }
}

/// All that was ever said of animals: one that was brought long ago still lives there.
pub fn animals() -> Filter {
    Filter { kinds: vec!["animals".to_owned()], ..Filter::default() }
}

/// All that a day needs of a log, in one.
///
/// # Errors
/// It can't be read.
pub fn logged(log: &dyn Log, now: &ZonedDateTime) -> Result<Vec<Kept>, Fault> {
    let mut entries = log.list(&reads(now))?;
    entries.extend(log.list(&animals())?);
    Ok(entries)
}

/// Whether this is an act of that key.
pub(crate) fn is_act(what: &What, key: &str) -> bool {
    match what {
        What::Done { act } => act == key,
        What::Trim { .. } => key == "trim",
        What::TopUp { .. } => key == "top_up",
        What::Change { .. } => key == "change",
        What::Food { .. } => key == "feed",
        What::Test(reading) => key == "cylinder" && reading.of == "cylinder",
        _ => false,
    }
}
