//! Rows that name a determinand, have a number, and gave no reading: they are told of.

use std::collections::BTreeSet;

use crate::cell::{self, Content, Decimal};
use crate::dates::{is_date, is_year};
use crate::found::Found;
use crate::grid::Grid;
use crate::lexicon::lexicon;
use crate::table::key_of;
use crate::{Place, UnknownRow};

/// The rows of a grid that should give readings.
pub(crate) fn candidates(grid: &Grid) -> Vec<Place> {
    let row_of = |row: &crate::grid::Row| {
        let filled = || (0..row.cells.len()).map(|c| (c, row.text(c))).filter(|(_, t)| !t.is_empty());
        let name = filled().find(|(_, t)| key_of(t).is_some()).map(|(c, _)| c)?;
        let behind = || filled().filter(|(c, _)| *c > name).map(|(_, t)| t);
        let nothing = behind().any(|t| lexicon().is_no_value(t));
        (!nothing && behind().any(is_value)).then(|| grid.place(row, None))
    };
    grid.rows.iter().filter_map(row_of).collect()
}

fn is_value(text: &str) -> bool {
    let number = match cell::read(text, Decimal::Unknown) {
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        Content::NotDetected => true,
        _ => false,
    };
    number && !is_year(text) && !is_date(text)
}

/// Keep those of them that gave neither a reading nor a row that nobody understood.
pub(crate) fn tell(candidates: Vec<Place>, from: usize, told: usize, found: &mut Found) {
    let read = found.raw.iter().skip(from).map(|r| &r.reading.place);
    let known = read.chain(found.unknown.iter().skip(told).map(|u| &u.source));
    let lines: BTreeSet<Option<u32>> = known.map(|p| p.line).collect();
    let lost = candidates.into_iter().filter(|p| !lines.contains(&p.line));
    let rows: Vec<UnknownRow> = lost.map(|source| UnknownRow { text: source.text.clone(), source }).collect();
    found.unknown.extend(rows);
}
