//! A logbook in memory.

use quantity::Fault;

use crate::{Entry, Filter, Kept, Log};

/// A logbook in memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MemoryLog {
    kept: Vec<Kept>,
    steps: Vec<Vec<Step>>,
    next: u64,
}

/// What undoes a writing.
#[derive(Clone, Debug, PartialEq)]
enum Step {
    TakeOut(u64),
    PutBack(Kept),
}

impl MemoryLog {
    fn place(&self, id: u64) -> Result<usize, Fault> {
        let found = self.kept.iter().position(|kept| kept.id == id);
        found.ok_or_else(|| Fault::new(format!("there is no entry {id} in this log")))
    }
}

impl Filter {
    /// Whether an entry passes, but for [`Filter::last`].
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
}

impl Log for MemoryLog {
    fn list(&self, filter: &Filter) -> Result<Vec<Kept>, Fault> {
        let mut list: Vec<Kept> = self.kept.iter().filter(|kept| filter.lets_through(&kept.entry)).cloned().collect();
        list.sort_by(|a, b| (b.entry.at.timestamp(), b.id).cmp(&(a.entry.at.timestamp(), a.id)));
        list.truncate(filter.last.unwrap_or(usize::MAX));
        Ok(list)
    }

    fn add(&mut self, entries: Vec<Entry>) -> Result<Vec<u64>, Fault> {
        let mut ids = Vec::new();
        for entry in entries {
            self.next += 1;
            ids.push(self.next);
            self.kept.push(Kept { id: self.next, entry });
        }
        self.steps.push(ids.iter().map(|id| Step::TakeOut(*id)).collect());
        Ok(ids)
    }

    fn change(&mut self, id: u64, entry: Entry) -> Result<(), Fault> {
        let place = self.place(id)?;
        let old = std::mem::replace(&mut self.kept[place], Kept { id, entry });
        self.steps.push(vec![Step::TakeOut(id), Step::PutBack(old)]);
        Ok(())
    }

    fn remove(&mut self, id: u64) -> Result<(), Fault> {
        let place = self.place(id)?;
        let old = self.kept.remove(place);
        self.steps.push(vec![Step::PutBack(old)]);
        Ok(())
    }

    fn undo(&mut self) -> Result<Option<String>, Fault> {
        let Some(steps) = self.steps.pop() else { return Ok(None) };
        let said = format!("{} taken back", if steps.len() == 1 { "one entry" } else { "several entries" });
        for step in steps {
            match step {
                Step::TakeOut(id) => self.kept.retain(|kept| kept.id != id),
                Step::PutBack(kept) => self.kept.push(kept),
            }
        }
        Ok(Some(said))
    }
}
