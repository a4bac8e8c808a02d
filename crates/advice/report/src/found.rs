//! What was found in the tables of a report, before samples are named and open bases looked at.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use knowledge::ReportColumn;

use crate::footnotes::Footnotes;
use crate::least::Least;
use crate::lexicon::lexicon;
use crate::{Basis, Counted, Reading, Statistic, Unit, UnknownRow};

/// A value with the words that name its sample.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Raw {
    pub reading: Reading,
    /// Zone, works or tap, as printed.
    pub group: Rc<str>,
    /// Date, as printed.
    pub date: Rc<str>,
    /// Place in [`Found::tables`].
    pub table: usize,
    /// The column of its table, or its row where the determinands stand side by side, and what heads it; none for a note.
    pub series: Option<(usize, Rc<str>)>,
}

/// What was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Found {
    pub raw: Vec<Raw>,
    pub unknown: Vec<UnknownRow>,
    /// What names the water of each table, in their order: a line above that does, what stands above, the name of its sheet.
    pub tables: Vec<[String; 3]>,
    /// What its footnotes say.
    pub footnotes: Rc<Footnotes>,
    /// Determinands of the table at hand whose lowest and highest value have rows of their own, named so.
    pub ranged: BTreeSet<&'static str>,
    /// Tables whose title speaks of limits alone.
    pub of_limits: BTreeSet<usize>,
    /// Under which of two limits of a method "not detected" lies, where the report says it.
    pub least: Option<Least>,
}

impl Found {
    /// Rows that follow belong to a table of their own.
    pub fn next_table(&mut self, [place, title, sheet]: [&str; 3]) {
        self.tables.push([place, place_in(title), sheet].map(str::to_owned));
    }

    /// A value of the table at hand.
    pub fn push(&mut self, raw: Raw) {
        self.raw.push(Raw { table: self.tables.len().saturating_sub(1), ..raw });
    }

    /// What a sentence says of a number that a table gives, too, is told once: by the table.
    pub fn tell_once(&mut self) {
        let key =
            |r: &Raw| Some((r.reading.determinand.clone(), r.reading.unit.map(Unit::name), r.reading.value?.to_bits()));
        let basis = |r: &Raw| r.reading.counted.basis();
        let sure = self.raw.iter().filter(|r| r.series.is_some() && r.reading.question.is_none());
        let told: BTreeMap<_, _> = sure.filter_map(|r| Some((key(r)?, (r.reading.statistic, basis(r))))).collect();
        self.raw.retain(|r| {
            let again = key(r).filter(|_| r.series.is_none()).and_then(|key| told.get(&key));
            !again.is_some_and(|(statistic, counted)| {
                let same = r.reading.statistic == Statistic::Single || r.reading.statistic == *statistic;
                same && (basis(r).is_none() || basis(r) == *counted)
            })
        });
    }

    /// Tables that give the same determinands with other values are of different samples: their titles tell them apart.
    pub fn part_tables(&mut self) {
        let mut tables: Vec<BTreeMap<Key<'_>, Option<f64>>> = vec![BTreeMap::new(); self.tables.len()];
        for raw in self.raw.iter().filter(|r| r.group.is_empty()) {
            if let Some(table) = tables.get_mut(raw.table) {
                table.entry(key(raw)).or_insert(raw.reading.value);
            }
        }
        let clash = |a: &BTreeMap<Key<'_>, Option<f64>>, b: &BTreeMap<Key<'_>, Option<f64>>| {
            let shared: Vec<bool> = a.iter().filter_map(|(k, v)| b.get(k).map(|w| v != w)).collect();
            shared.len() >= LEAST_SHARED && shared.contains(&true)
        };
        // Only one of them may give its date.
        let undated = |t: &BTreeMap<Key<'_>, Option<f64>>| t.keys().all(|k| k.4.is_empty());
        let clash = |a: &BTreeMap<Key<'_>, Option<f64>>, b: &BTreeMap<Key<'_>, Option<f64>>| {
            clash(a, b) || undated(a) != undated(b) && clash(&without_date(a), &without_date(b))
        };
        // A report of many pages has many tables; those with few values clash with nothing.
        let full: Vec<usize> =
            (0..tables.len()).filter(|&i| tables.get(i).is_some_and(|t| t.len() >= LEAST_SHARED)).take(200).collect();
        let clashes = |i: usize| {
            full.iter().any(|&j| i != j && matches!((tables.get(i), tables.get(j)), (Some(a), Some(b)) if clash(a, b)))
        };
        let apart: BTreeSet<usize> = full.iter().copied().filter(|&i| clashes(i)).collect();
        let name = |table: usize| -> Rc<str> {
            let only = |(at, t): &(usize, &String)| {
                let same = apart.iter().filter_map(|&i| self.tables.get(i)).filter(|o| o.get(*at) == Some(*t)).count();
                !t.is_empty() && same == 1
            };
            let own = self.tables.get(table).into_iter().flatten().enumerate().find(only);
            own.map_or_else(|| format!("table {}", table + 1).into(), |(_, t)| t.as_str().into())
        };
        let names: BTreeMap<usize, Rc<str>> = apart.iter().map(|&table| (table, name(table))).collect();
        for raw in self.raw.iter_mut().filter(|r| r.group.is_empty()) {
            if let Some(name) = names.get(&raw.table) {
                raw.group = name.clone();
            }
        }
    }
}

/// Rows that carry their own dates, where no determinand stands at two of them, are of one sample: a report of what was
/// looked for in the course of a year.
pub(crate) fn join_days(raw: &mut [Raw]) {
    let mut days: BTreeMap<Rc<str>, (BTreeMap<&str, &str>, bool)> = BTreeMap::new();
    for r in raw.iter() {
        let (first, again) = days.entry(r.group.clone()).or_default();
        let day = *first.entry(&r.reading.determinand).or_insert(&r.date);
        *again |= day != &*r.date;
    }
    let joined: BTreeSet<Rc<str>> = days
        .into_iter()
        .filter(|(_, (of, again))| {
            let apart: BTreeSet<&str> = of.values().copied().collect();
            !again && apart.len() > 1
        })
        .map(|(group, _)| group)
        .collect();
    for r in raw.iter_mut().filter(|r| joined.contains(&r.group)) {
        r.date = "".into();
    }
}

/// "Sampling point: Well 3" names Well 3.
fn place_in(title: &str) -> &str {
    let is_label = |l: &str| matches!(lexicon().column(l), Some((ReportColumn::Place, true)));
    title.split_once(':').filter(|(label, _)| is_label(label)).map_or(title, |(_, name)| name.trim())
}

/// Determinands that two tables must share before they are of different samples.
const LEAST_SHARED: usize = 3;

/// Determinand, statistic, unit, what it is counted as, date.
type Key<'a> = (&'a str, Statistic, Option<Unit>, (u8, &'a [Basis]), &'a str);

fn without_date<'a>(table: &BTreeMap<Key<'a>, Option<f64>>) -> BTreeMap<Key<'a>, Option<f64>> {
    table
        .iter()
        .map(|((name, statistic, unit, counted, _), v)| ((*name, *statistic, *unit, *counted, ""), *v))
        .collect()
}

fn key(raw: &Raw) -> Key<'_> {
    let r = &raw.reading;
    let counted = match &r.counted {
        Counted::As(basis) => (0, std::slice::from_ref(basis)),
        Counted::Plainly => (1, [].as_slice()),
        Counted::Open(bases) => (2, bases.as_slice()),
    };
    (&r.determinand, r.statistic, r.unit, counted, &raw.date)
}
