//! What is known of this tank when a sign is judged: setup, plan, and the log of late.

use jiff::ZonedDateTime;
use knowledge::{SignFigures, book};
use logbook::{Kept, Reading, Sure, What};
use quantity::{Ion, Kind, Known};
use recipe::say::Pen;
use recipe::{Level, Plan};
use setup::Tank;

/// Hours in a day.
const HOURS: f64 = 24.0;

/// A reading that counts.
#[derive(Clone, Debug)]
pub(crate) struct Read {
    /// Key of `data/readings.toml`.
    pub(crate) of: String,
    /// With the error of its kit.
    pub(crate) known: Known<f64>,
    /// Days ago; 0: just now.
    pub(crate) days_ago: f64,
    /// How sure the keeper was.
    pub(crate) sure: Sure,
    /// The lowest step of the kit: it lies at or below.
    pub(crate) below: bool,
}

/// What is known.
pub(crate) struct Facts<'a> {
    pub(crate) tank: &'a Tank,
    pub(crate) plan: &'a Plan,
    pub(crate) now: &'a ZonedDateTime,
    pub(crate) pen: Pen,
    log: &'a [Kept],
    readings: Vec<Read>,
}

/// The figures by which causes are struck out.
pub(crate) fn figure() -> &'static SignFigures {
    &book().meanings.figure
}

impl<'a> Facts<'a> {
    /// Gather them.
    pub(crate) fn of(tank: &'a Tank, plan: &'a Plan, log: &'a [Kept], now: &'a ZonedDateTime) -> Facts<'a> {
        let mut facts = Facts { tank, plan, now, pen: Pen::new(&tank.units), log, readings: Vec::new() };
        let mut tests: Vec<(f64, &Reading)> = facts
            .recent()
            .filter_map(|kept| match &kept.entry.what {
                What::Test(reading) if reading.sure != Sure::NotSure => Some((facts.days_ago(kept), reading)),
                _ => None,
            })
            .collect();
        tests.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (days_ago, reading) in tests {
            if !facts.readings.iter().any(|known| known.of == reading.of) {
                facts.readings.push(read(reading, days_ago));
            }
        }
        facts
    }

    /// A reading of just now goes before the log's.
    pub(crate) fn read_now(&mut self, reading: &Reading) {
        self.readings.retain(|known| known.of != reading.of);
        self.readings.push(read(reading, 0.0));
    }

    /// Readings that count, one of each kind.
    pub(crate) fn readings(&self) -> &[Read] {
        &self.readings
    }

    /// The reading of a kind.
    pub(crate) fn reading(&self, of: &str) -> Option<&Read> {
        self.readings.iter().find(|read| read.of == of)
    }

    fn days_ago(&self, kept: &Kept) -> f64 {
        let seconds = self.now.timestamp().as_second() - kept.entry.at.timestamp().as_second();
        seconds as f64 / (3600.0 * HOURS)
    }

    /// Entries that are new enough to say something of today.
    pub(crate) fn recent(&self) -> impl Iterator<Item = &'a Kept> {
        let most = figure().counts_days.value;
        let now = self.now.timestamp().as_second() as f64;
        self.log.iter().filter(move |kept| {
            let days = (now - kept.entry.at.timestamp().as_second() as f64) / (3600.0 * HOURS);
            (0.0..=most).contains(&days)
        })
    }

    /// Days since the first entry of the log: the tank is at least as old.
    pub(crate) fn days_of_log(&self) -> f64 {
        self.log.iter().map(|kept| self.days_ago(kept)).fold(0.0, f64::max)
    }

    /// The level of an ion as the plan works it out.
    pub(crate) fn planned(&self, ion: Ion) -> Option<&'a Level> {
        self.plan.levels.iter().find(|level| level.ion == Some(ion))
    }

    /// What stands in the tank of an ion: read of late, else worked out over a cycle, mg/L; with the words for where from.
    pub(crate) fn level(&self, ion: Ion) -> Option<(Known<f64>, String)> {
        let key = match ion {
            Ion::Ammonium | Ion::Nitrite => return None,
            ion => ion.name(),
        };
        if let Some(read) = self.reading(key) {
            return Some((read.known, format!("you read {}", self.pen.ion(ion, read.known.value))));
        }
        let level = self.planned(ion)?;
        let (a, b) = (level.after_change, level.before_change);
        let low = a.low.min(b.low).max(0.0);
        let value = level.lowest.max(0.0);
        let known = Known::ranged(low.min(value), value, a.high.max(b.high).max(value), Kind::WorkedOut);
        let stands = format!("worked out it stands at {} at its lowest", self.pen.ion(ion, value));
        let words = match known.low {
            0.0 => format!("{stands}, and may be gone by then"),
            low => format!("{stands}, likely not under {}", self.pen.n(low, 2)),
        };
        Some((known, words))
    }

    /// What the new water of a change holds, mg/L.
    pub(crate) fn new_water(&self, ion: Ion) -> Known<f64> {
        self.planned(ion).map_or_else(|| self.tank.tap.mg_per_l(ion), |level| level.new_water)
    }

    /// Shrimps, snails, others without a backbone, or young.
    pub(crate) fn tender(&self) -> bool {
        self.tank.animals.invertebrates() || self.tank.animals.young
    }

    /// Carbon dioxide that is given, mg/L by day.
    pub(crate) fn co2_given(&self) -> Option<Known<f64>> {
        self.tank.co2_given_mg_per_l.filter(|co2| co2.value > 0.0)
    }
}

/// A reading with its error: its own, else that of its kind of kit.
fn read(reading: &Reading, days_ago: f64) -> Read {
    let row = book().readings.get(&reading.of);
    let of_kit = || row.map_or(0.0, |row| row.error(reading.kit.as_deref(), reading.value));
    let mut error = reading.error.unwrap_or_else(of_kit);
    if reading.sure == Sure::About {
        error *= 2.0;
    }
    let bare = matches!(reading.of.as_str(), "alkalinity" | "temperature");
    let low = if bare { reading.value - error } else { (reading.value - error).max(0.0) };
    let low = if reading.below { low.min(0.0) } else { low };
    let high = if reading.below { reading.value } else { reading.value + error };
    Read {
        of: reading.of.clone(),
        known: Known::ranged(low.min(reading.value), reading.value, high.max(reading.value), Kind::Measured),
        days_ago,
        sure: reading.sure,
        below: reading.below,
    }
}
