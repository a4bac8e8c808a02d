//! A logbook in memory.

use std::collections::BTreeMap;

use quantity::Fault;

use crate::{Did, Entry, Filter, Kept, Log, Writing};

/// A logbook in memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MemoryLog {
    entries: BTreeMap<u64, Entry>,
    /// Numbers given to entries so far.
    given: u64,
    /// Numbers given to writings so far.
    written: u64,
    steps: Vec<Step>,
    /// How many of the steps hold; those behind were taken back.
    hold: usize,
}

/// A writing, with the other side of each entry that it touched: before the writing while it holds, after it while it is
/// taken back. So undo and redo are one act: exchange them.
#[derive(Clone, Debug, PartialEq)]
struct Step {
    number: u64,
    did: Did,
    others: Vec<(u64, Option<Entry>)>,
}

impl Step {
    fn count(&self) -> u64 {
        self.others.len() as u64
    }
}

impl MemoryLog {
    /// Two numbers that are the same only while the log says the same: writings ever, and how many of them hold.
    pub fn mark(&self) -> [u64; 2] {
        [self.written, self.hold as u64]
    }

    /// Writes entries (`None`: nothing) under their numbers, as one step.
    fn write(&mut self, did: Did, mut entries: Vec<(u64, Option<Entry>)>) {
        exchange(&mut self.entries, &mut entries);
        // What was taken back before a new writing can't be done again on top of it.
        self.steps.truncate(self.hold);
        self.written += 1;
        self.steps.push(Step { number: self.written, did, others: entries });
        self.hold = self.steps.len();
    }

    fn held(&self, id: u64) -> Result<(), Fault> {
        if self.entries.contains_key(&id) { Ok(()) } else { Err(no_entry(id)) }
    }
}

fn exchange(entries: &mut BTreeMap<u64, Entry>, others: &mut [(u64, Option<Entry>)]) {
    for (id, other) in others {
        let held = entries.remove(id);
        if let Some(entry) = std::mem::replace(other, held) {
            entries.insert(*id, entry);
        }
    }
}

/// The fault of a number that stands for no entry.
pub fn no_entry(id: u64) -> Fault {
    Fault::new(format!("there is no entry {id} in this log")).hint("list the entries; each is shown with its number")
}

impl Filter {
    /// Whether an entry passes, but for [`Filter::lately`] and [`Filter::last`].
    pub fn lets_through(&self, entry: &Entry) -> bool {
        let at = entry.at.timestamp();
        let kind = entry.what.kind();
        self.from.is_none_or(|from| at >= from)
            && self.to.is_none_or(|to| at < to)
            && (self.kinds.is_empty() || self.kinds.iter().any(|wanted| wanted == kind))
            && self.of.as_deref().is_none_or(|of| entry.what.of() == Some(of))
            && self.words.as_deref().is_none_or(|words| {
                let words = words.to_lowercase();
                entry.note.to_lowercase().contains(&words) || entry.what.subject().to_lowercase().contains(&words)
            })
    }

    /// Whether an entry is late enough for its kind.
    pub fn is_late(&self, entry: &Entry) -> bool {
        let (kind, at) = (entry.what.kind(), entry.at.timestamp());
        self.lately.iter().all(|(of, from)| of != kind || at >= *from)
    }
}

impl Log for MemoryLog {
    fn list(&self, filter: &Filter) -> Result<Vec<Kept>, Fault> {
        let mut found: Vec<(&u64, &Entry)> =
            self.entries.iter().filter(|(_, entry)| filter.lets_through(entry)).collect();
        found.sort_by(|(a, x), (b, y)| (y.at.timestamp(), b).cmp(&(x.at.timestamp(), a)));
        let earliest = found.last().map(|(id, _)| **id);
        found.retain(|(id, entry)| filter.is_late(entry) || earliest == Some(**id));
        found.truncate(filter.last.unwrap_or(usize::MAX));
        Ok(found.into_iter().map(|(id, entry)| Kept { id: *id, entry: entry.clone() }).collect())
    }

    fn entry(&self, id: u64) -> Result<Option<Entry>, Fault> {
        Ok(self.entries.get(&id).cloned())
    }

    fn add(&mut self, entries: Vec<Entry>) -> Result<Vec<u64>, Fault> {
        if entries.is_empty() {
            return Ok(Vec::new());
        }
        let fresh: Vec<(u64, Option<Entry>)> =
            (self.given + 1..).zip(entries).map(|(id, entry)| (id, Some(entry))).collect();
        self.given += fresh.len() as u64;
        let ids = fresh.iter().map(|(id, _)| *id).collect();
        self.write(Did::Added, fresh);
        Ok(ids)
    }

    fn change(&mut self, id: u64, entry: Entry) -> Result<(), Fault> {
        self.held(id)?;
        self.write(Did::Changed, vec![(id, Some(entry))]);
        Ok(())
    }

    fn remove(&mut self, id: u64) -> Result<(), Fault> {
        self.held(id)?;
        self.write(Did::Removed, vec![(id, None)]);
        Ok(())
    }

    fn last_writing(&self) -> Result<Option<Writing>, Fault> {
        let last = self.hold.checked_sub(1).and_then(|last| self.steps.get(last));
        Ok(last.map(|step| Writing {
            number: step.number,
            did: step.did,
            count: step.count(),
            first: step.others.first().map_or(0, |(id, _)| *id),
        }))
    }

    fn undo(&mut self) -> Result<Option<String>, Fault> {
        let Some(step) = self.hold.checked_sub(1).and_then(|last| self.steps.get_mut(last)) else { return Ok(None) };
        exchange(&mut self.entries, &mut step.others);
        self.hold -= 1;
        Ok(Some(step.did.taken_back(step.count())))
    }

    fn redo(&mut self) -> Result<Option<String>, Fault> {
        let Some(step) = self.steps.get_mut(self.hold) else { return Ok(None) };
        exchange(&mut self.entries, &mut step.others);
        self.hold += 1;
        Ok(Some(step.did.done_again(step.count())))
    }
}
