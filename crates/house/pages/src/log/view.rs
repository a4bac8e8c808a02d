//! What of the log is shown: the filter as the address says it.

use jiff::civil::Date;
use jiff::{Span, Timestamp, ToSpan, ZonedDateTime};
use logbook::{Filter, Kept};

/// Entries that are shown at once, and at most.
const SHOWN: usize = 40;
const MOST: usize = 1000;

/// A view of the log.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    /// Only this kind; empty: all.
    pub kind: String,
    /// Only with these words.
    pub words: String,
    /// From this day on, as typed.
    pub from: String,
    /// Up to this day, as typed.
    pub to: String,
    /// Before this instant: the older ones.
    pub before: String,
    /// So many; `None`: as usual.
    pub show: Option<usize>,
    /// The entry that is mended.
    pub mend: Option<u64>,
}

impl View {
    /// As the address says it; what it does not know it leaves out.
    pub fn read(query: &str) -> View {
        let mut view = View::default();
        for (name, value) in form_urlencoded::parse(query.as_bytes()) {
            let value = value.trim().to_owned();
            match name.as_ref() {
                "kind" => view.kind = value,
                "words" => view.words = value,
                "from" => view.from = value,
                "to" => view.to = value,
                "before" => view.before = value,
                "show" => view.show = value.parse().ok(),
                "mend" => view.mend = value.parse().ok(),
                _ => {}
            }
        }
        view
    }

    /// As an address says it, but for what is mended; empty where all is shown.
    pub fn query(&self) -> String {
        self.query_with(Vec::new())
    }

    /// The same with what still stands in fields.
    pub fn query_with(&self, fields: Vec<(&str, &str)>) -> String {
        let mut query = form_urlencoded::Serializer::new(String::new());
        query.extend_pairs(fields);
        for (name, value) in [
            ("kind", &self.kind),
            ("words", &self.words),
            ("from", &self.from),
            ("to", &self.to),
            ("before", &self.before),
        ] {
            if !value.is_empty() {
                query.append_pair(name, value);
            }
        }
        if let Some(show) = self.show {
            query.append_pair("show", &show.to_string());
        }
        query.finish()
    }

    /// How many entries it shows.
    pub fn shown(&self) -> usize {
        self.show.unwrap_or(SHOWN).clamp(1, MOST)
    }

    /// What it lets through: one more than it shows, so that it is known whether older ones follow.
    pub fn filter(&self, now: &ZonedDateTime) -> Filter {
        let day = |text: &str, later: Span| {
            let date = text.parse::<Date>().ok()?.checked_add(later).ok()?;
            Some(
                date.to_datetime(jiff::civil::Time::midnight())
                    .to_zoned_datetime(now.time_zone().clone())
                    .ok()?
                    .timestamp(),
            )
        };
        let before = self.before.parse::<Timestamp>().ok();
        let to = day(&self.to, 1.day());
        Filter {
            from: day(&self.from, 0.days()),
            to: [before, to].into_iter().flatten().min(),
            kinds: Some(self.kind.clone()).filter(|kind| !kind.is_empty()).into_iter().collect(),
            words: Some(self.words.clone()).filter(|words| !words.is_empty()),
            last: Some(self.shown() + 1),
            ..Filter::default()
        }
    }

    /// The view of the entries before those shown. Entries of one instant stay together.
    pub fn older(&self, shown: &[Kept]) -> View {
        let at = |kept: Option<&Kept>| kept.map(|kept| kept.entry.at.timestamp());
        let (first, last) = (at(shown.first()), at(shown.last()));
        match last.and_then(|last| last.checked_add(1.nanosecond()).ok()) {
            Some(before) if first != last => View { before: before.to_string(), mend: None, ..self.clone() },
            _ => View { show: Some(2 * self.shown()), mend: None, ..self.clone() },
        }
    }

    /// Whether anything is left out.
    pub fn narrows(&self) -> bool {
        View { mend: None, ..self.clone() } != View::default()
    }
}

#[cfg(test)]
mod tests {
    use logbook::{Entry, Log, MemoryLog, What};

    use super::*;

    #[test]
    fn a_view_reads_as_its_address_says() {
        let view = View {
            kind: "test".into(),
            words: "a & b=c".into(),
            from: "2026-06-01".into(),
            show: Some(7),
            ..View::default()
        };
        assert_eq!(View::read(&view.query()), view);
        assert_eq!(View::read("was=3&kind=dose&mend=4").mend, Some(4));
        assert_eq!(View::default().query(), "");
    }

    /// Going from page to page shows every entry, those of one instant too.
    #[test]
    fn older_pages_leave_nothing_out() {
        let now: ZonedDateTime = "2026-06-11T09:15:00+02:00[Europe/Berlin]".parse().unwrap();
        let mut log = MemoryLog::default();
        let at = |n: i64| now.checked_sub((n / 3).hours()).unwrap_or_else(|_| now.clone());
        let entry = |n: i64| Entry { at: at(n), what: What::Words, note: n.to_string() };
        log.add((0..20).map(entry).chain((0..9).map(|_| entry(60))).collect()).unwrap();
        let (mut view, mut seen) = (View { show: Some(4), ..View::default() }, std::collections::BTreeSet::new());
        for _ in 0..30 {
            let list = log.list(&view.filter(&now)).unwrap();
            let more = list.len() > view.shown();
            let shown = &list[..list.len().min(view.shown())];
            seen.extend(shown.iter().map(|kept| kept.id));
            if !more {
                break;
            }
            view = view.older(shown);
        }
        assert_eq!(seen.len(), 29);
    }
}
