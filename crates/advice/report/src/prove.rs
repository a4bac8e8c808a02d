//! What the report's own numbers prove of how one of them is counted, and where they disagree.

use std::collections::BTreeSet;

use knowledge::Place;
use quantity::Ion;

use crate::ask;
use crate::estimate::{self, BasisOdds, Evidence, Mend, Origin, Quantity, Usual};
use crate::reading::{Counted, Reading};
use crate::{Contradiction, Sample};

/// Samples looked at; a register of a whole country is no report.
const MOST_SAMPLES: usize = 200;

/// Settle the bases that are proven, sample by sample. What taps usually hold proves nothing.
pub(crate) fn settle(readings: &mut [Reading], samples: usize) {
    let usual = Usual::at(Place::Other);
    for places in by_sample(readings, samples) {
        let mine: Vec<&Reading> = places.iter().filter_map(|&i| readings.get(i)).collect();
        if !mine.iter().any(|r| matches!(r.counted, Counted::Open(_))) {
            continue;
        }
        let known = mine.iter().copied().filter(|r| r.is_settled()).collect::<Vec<_>>();
        let mut all = estimate::of_readings(&known, Origin::Laboratory);
        // Without sodium the charges cannot be held against each other: conductivity alone is one number, and a slip of it
        // would settle the basis wrongly.
        if !all.items.iter().any(|item| item.of == Quantity::Ion(Ion::Sodium)) {
            all.items.retain(|item| item.of != Quantity::Conductivity);
        }
        let mut open: Vec<(usize, Vec<Reading>)> = Vec::new();
        for row in estimate::rows(&mine).iter().filter(|row| row.iter().all(|r| matches!(r.counted, Counted::Open(_))))
        {
            if let Some(item) = estimate::item(row, Origin::Laboratory) {
                open.push((all.items.len(), row.iter().map(|r| (*r).clone()).collect()));
                all.items.push(item);
            }
        }
        for odds in estimate::settle(&mut all, &usual) {
            let row = open.iter().find(|(item, _)| *item == odds.item).map_or(&[][..], |(_, row)| row);
            for &i in &places {
                readings.get_mut(i).filter(|r| row.contains(r)).into_iter().for_each(|r| proven(r, &odds));
            }
        }
    }
}

/// The places of the readings of each sample.
fn by_sample(readings: &[Reading], samples: usize) -> Vec<Vec<usize>> {
    let mut out = vec![Vec::new(); samples.clamp(1, MOST_SAMPLES)];
    for (i, reading) in readings.iter().enumerate() {
        out.get_mut(reading.sample.unwrap_or(0)).into_iter().for_each(|places| places.push(i));
    }
    out
}

/// The open reading, counted by the basis that is proven.
fn proven(reading: &mut Reading, odds: &BasisOdds) {
    let Some((words, _)) = odds.ways.first() else { return };
    let Counted::Open(choices) = &reading.counted else { return };
    let Some(basis) = choices.iter().copied().find(|b| ask::choice(&reading.determinand, *b) == *words) else { return };
    let mut asked = Reading { question: None, ..reading.clone() };
    ask::open(&mut asked);
    // Another question on the same reading stays.
    if asked.question == reading.question {
        reading.question = None;
        reading.confidence = odds.odds / (1.0 + odds.odds);
    }
    reading.counted = Counted::As(basis);
    reading.because = Some(odds.text.clone());
}

/// Open again what only a limit proved, where the sample disagrees with itself and would agree if it were counted otherwise:
/// countries print the same number as a limit of other things.
pub(crate) fn unproven(readings: &mut [Reading], samples: usize) {
    let usual = Usual::at(Place::Other);
    for places in by_sample(readings, samples).into_iter().take(MOST_DOUBTED) {
        let by_limit = |r: &Reading| r.question.is_none() && r.because.is_some() && r.counted.basis().is_some();
        let mine: Vec<&Reading> =
            places.iter().filter_map(|&i| readings.get(i)).filter(|r| r.question.is_none()).collect();
        if !mine.iter().any(|r| by_limit(r)) {
            continue;
        }
        let all = estimate::of_readings(&mine, Origin::Laboratory);
        let mends = estimate::clashes(&all, &usual).into_iter().flat_map(|clash| clash.mends);
        let items: BTreeSet<String> = mends
            .filter_map(|mend| if let Mend::Basis { item, .. } = mend { all.items.get(item) } else { None })
            .map(|item| item.as_written.clone())
            .collect();
        let rows = estimate::rows(&mine);
        let of_it = |row: &&Vec<&Reading>| {
            estimate::item(row, Origin::Laboratory).is_some_and(|item| items.contains(&item.as_written))
        };
        let rows: Vec<Reading> = rows.iter().filter(of_it).flatten().map(|r| (*r).clone()).filter(by_limit).collect();
        for place in places {
            let open = readings.get_mut(place).filter(|r| rows.contains(r));
            open.into_iter().for_each(ask::open_again);
        }
    }
}

/// Where the report disagrees with itself, sample by sample.
pub(crate) fn contradictions(readings: &[Reading], samples: &[Sample]) -> Vec<Contradiction> {
    let usual = Usual::at(Place::Other);
    let mut out = Vec::new();
    for (at, places) in by_sample(readings, samples.len()).into_iter().enumerate() {
        // What is asked about, but for how it is counted, may be no result at all: it holds nothing against the rest.
        let known = |r: &&Reading| r.question.is_none() || matches!(r.counted, Counted::Open(_));
        let mine: Vec<&Reading> = places.iter().filter_map(|&i| readings.get(i)).filter(known).collect();
        let all: Evidence = estimate::of_readings(&mine, Origin::Laboratory);
        let whose = samples.get(at).filter(|_| samples.len() > 1).and_then(|s| s.name.as_deref());
        let told = whose.map(|w| format!("{w}: ")).unwrap_or_default();
        let clashes = estimate::clashes(&all, &usual).into_iter();
        out.extend(clashes.map(|clash| Contradiction { text: format!("{told}{}", clash.text) }));
    }
    out
}

/// What a point in the wrong place makes of a value, and what to call what would be right.
const MISPLACED: [(f64, &str); 2] = [(0.1, "A tenth of it"), (10.0, "Ten times as much")];
/// Samples whose contradictions are looked into.
const MOST_DOUBTED: usize = 20;
/// More values than this that would each mend it prove nothing of one.
const MOST_BLAMED: usize = 2;

/// Ask about a value that alone makes its sample disagree, where a point in another place would agree.
pub(crate) fn misplaced(readings: &mut [Reading], samples: usize) {
    let usual = Usual::at(Place::Other);
    let mut asked: Vec<(usize, String)> = Vec::new();
    for places in by_sample(readings, samples).into_iter().take(MOST_DOUBTED) {
        let mine: Vec<&Reading> = places.iter().filter_map(|&i| readings.get(i)).collect();
        let all = estimate::of_readings(&mine, Origin::Laboratory);
        let blamed: BTreeSet<usize> = estimate::clashes(&all, &usual)
            .iter()
            .flat_map(|clash| &clash.mends)
            .filter_map(|mend| if let Mend::Slip { item } = mend { Some(*item) } else { None })
            .collect();
        let agrees = |item: usize, factor: f64| {
            let mut changed = all.clone();
            changed.items.get_mut(item).into_iter().for_each(|i| (i.value, i.sd) = (i.value * factor, i.sd * factor));
            estimate::clashes(&changed, &usual).is_empty()
        };
        let found: Vec<(usize, &str)> = blamed
            .into_iter()
            .filter_map(|i| Some((i, MISPLACED.into_iter().find(|(f, _)| agrees(i, *f))?.1)))
            .collect();
        for (item, right) in found.iter().filter(|_| found.len() <= MOST_BLAMED) {
            let Some(wrong) = all.items.get(*item) else { continue };
            let rows = estimate::rows(&mine);
            let of_it = |row: &&Vec<&Reading>| {
                estimate::item(row, Origin::Laboratory).is_some_and(|i| i.as_written == wrong.as_written)
            };
            let row: Vec<Reading> = rows.iter().filter(of_it).flatten().map(|r| (*r).clone()).collect();
            let text = format!("Is {} right? {right} would agree with the rest.", wrong.as_written);
            asked.extend(
                places
                    .iter()
                    .filter(|i| readings.get(**i).is_some_and(|r| row.contains(r)))
                    .map(|&i| (i, text.clone())),
            );
        }
    }
    for (place, text) in asked {
        readings.get_mut(place).into_iter().for_each(|r| ask::doubt(r, text.clone()));
    }
}
