//! What the logbook says of the routine: when something was done last, and what was done today.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Entry, Kept, What};

use crate::day::Done;
use crate::due::Known;

/// The log, as one day reads it. Entries after `now` count as not yet made, and those that count animals tell of no day's work.
pub(crate) struct Past<'a> {
    /// Each with its day by the keeper's clock, the earliest first.
    kept: Vec<(Date, &'a Kept)>,
    now: &'a ZonedDateTime,
}

impl<'a> Past<'a> {
    /// The log up to now, the earliest entry first.
    pub fn of(log: &'a [Kept], now: &'a ZonedDateTime) -> Self {
        let made = |kept: &&Kept| {
            kept.entry.at.timestamp() <= now.timestamp() && !matches!(kept.entry.what, What::Animals { .. })
        };
        let mut kept: Vec<(Date, &Kept)> = log.iter().filter(made).map(|kept| (day(kept, now), kept)).collect();
        kept.sort_by_key(|(_, kept)| (kept.entry.at.timestamp(), kept.id));
        Past { kept, now }
    }

    /// The same without today: what a plan says, whatever was given or done today.
    pub fn before_today(&self) -> Past<'a> {
        let kept = self.kept.iter().copied().filter(|(date, _)| *date < self.today());
        Past { kept: kept.collect(), now: self.now }
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
        self.kept.first().map(|(date, _)| *date)
    }

    /// When it was done last, before today or today.
    pub fn known(&self, what: impl Fn(&What) -> bool) -> Known {
        let last = self.entries().rev().find(|(_, kept)| what(&kept.entry.what)).map(|(date, _)| date);
        Known { last, start: self.start() }
    }

    /// Whether and when it was done today: the hour of the last, the numbers of all.
    pub fn today_done(&self, what: impl Fn(&What) -> bool) -> Option<Done> {
        self.today_written(|entry| what(&entry.what))
    }

    /// The same by the whole entry.
    pub fn today_written(&self, is: impl Fn(&Entry) -> bool) -> Option<Done> {
        let today = self.entries().filter(|(date, _)| *date == self.today());
        let done: Vec<&Kept> = today.map(|(_, kept)| kept).filter(|kept| is(&kept.entry)).collect();
        let at = done.last()?.entry.at.with_time_zone(self.now.time_zone().clone());
        Some(Done { at, ids: done.iter().map(|kept| kept.id).collect() })
    }

    /// Entries in order, with their day.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = (Date, &'a Kept)> {
        self.kept.iter().copied()
    }
}

/// The day of an entry, by the keeper's clock. In the keeper's own zone, as nearly all are, it is the entry's own date.
fn day(kept: &Kept, now: &ZonedDateTime) -> Date {
    let (at, zone) = (&kept.entry.at, now.time_zone());
    match zone.iana_name() {
        Some(name) if at.time_zone().iana_name() == Some(name) => at.date(),
        _ => at.with_time_zone(zone.clone()).date(),
    }
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
