//! The way in: bytes to a report.

use std::collections::BTreeMap;
use std::rc::Rc;

use crate::found::{Found, Raw};
use crate::grid::Grid;
use crate::lexicon::lexicon;
use crate::{Refusal, RefusalKind, Report, Sample, ask, dates, found, nets, prove, sources, table};

/// Read a report from the bytes of a file; `file` is its name, for the answer alone: the bytes tell their kind.
///
/// A PDF is read in this process: where the bytes are not trusted, call it from a process that may die.
pub fn read(file: &str, bytes: &[u8]) -> Report {
    let mut report = match sources::grids(bytes) {
        Ok((grids, left_out)) => {
            let mut report = of_grids(grids);
            report.errors.extend(left_out);
            report
        }
        Err(refusal) => Report { errors: vec![refusal], ..Report::default() },
    };
    report.file = file.to_owned();
    report
}

/// Read text that was pasted.
pub fn read_text(text: &str) -> Report {
    of_grids(sources::text_grids(text))
}

fn of_grids(mut grids: Vec<Grid>) -> Report {
    let texts = grids.iter().flat_map(|g| &g.rows).flat_map(|r| &r.cells).map(|c| &*c.text);
    let language = lexicon().language(texts).map(str::to_owned);
    let days: Days = grids.iter_mut().flat_map(|g| std::mem::take(&mut g.days)).collect();
    let mut found = table::read(grids);
    found.part_tables();
    nets::cast(&mut found);
    found.tell_once();
    let Found { raw, unknown, .. } = found;
    let (samples, readings, proposed) = samples(raw, &days);
    let mut report = Report { language, samples, readings, proposed, unknown_rows: unknown, ..Report::default() };
    if report.readings.is_empty() {
        report.errors.push(Refusal::new(
            RefusalKind::NotAReport,
            "No water value was found in it. A report has rows such as \"Nitrate  mg/l NO3  24.4\".",
        ));
    }
    prove::unproven(&mut report.readings, report.samples.len());
    prove::settle(&mut report.readings, report.samples.len());
    report.contradictions = prove::contradictions(&report.readings, &report.samples);
    prove::misplaced(&mut report.readings, report.samples.len());
    report.questions = ask::questions(&report.readings);
    report
}

/// The days that cells of a sheet hold, by the text that shows them.
type Days = BTreeMap<String, String>;

/// Most samples that are told apart.
const MOST_NAMED: usize = 500;

/// Name the samples, and point each reading to its own.
fn samples(mut raw: Vec<Raw>, days: &Days) -> (Vec<Sample>, Vec<crate::Reading>, Option<usize>) {
    found::join_days(&mut raw);
    let mut places: BTreeMap<(Rc<str>, Rc<str>), Option<usize>> = BTreeMap::new();
    let mut keys: Vec<(Rc<str>, Rc<str>)> = Vec::new();
    for r in &mut raw {
        let key = (r.group.clone(), r.date.clone());
        r.reading.sample = *places.entry(key).or_insert_with_key(|key| {
            let at = keys.len();
            (at < MOST_NAMED).then(|| {
                keys.push(key.clone());
                at
            })
        });
    }
    let groups: std::collections::BTreeSet<&Rc<str>> = keys.iter().map(|k| &k.0).collect();
    let by_group = groups.len() == keys.len();
    let by_date = groups.len() == 1;
    let name = |key: &(Rc<str>, Rc<str>)| -> Option<String> {
        let text = match (by_group, by_date) {
            (_, true) => key.1.to_string(),
            (true, false) => key.0.to_string(),
            _ => format!("{} {}", key.0, key.1),
        };
        Some(text.trim().to_owned()).filter(|t| !t.is_empty())
    };
    let single = keys.len() <= 1;
    let samples: Vec<Sample> = keys
        .iter()
        .map(|key| Sample {
            name: if single { Some(key.0.to_string()).filter(|g| !g.is_empty()) } else { name(key) },
            date: days.get(&*key.1).cloned().or_else(|| dates::iso(&key.1)),
        })
        .collect();
    let own = |r: Raw| crate::Reading { sample: r.reading.sample.filter(|_| !single), ..r.reading };
    let readings = raw.into_iter().map(own).collect();
    let order = |i: usize| samples.get(i).and_then(|s| s.date.clone()).or_else(|| dates::order(&keys.get(i)?.1));
    let latest = (0..samples.len()).max_by_key(|&i| order(i));
    (samples, readings, latest.filter(|_| !single))
}
