//! The keeper's book: the setup as it was at each revision, what each edit changed, and the way back.
//!
//! Whoever stores a setup implements [`Book`]. [`MemoryBook`] keeps it in memory; one that keeps it in a file
//! stands elsewhere. Revisions only grow: an undo is a revision of its own, so that a page which was made from
//! an older one can always be told that it is stale.

use quantity::Fault;

use crate::Setup;

/// One field that an edit changed, as the keeper wrote it.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Change {
    /// The field, for instance `tap.nitrate`.
    pub field: String,
    /// What the file said before; `None`: nothing.
    pub was: Option<String>,
    /// What it says now; `None`: nothing, so it is assumed.
    pub now: Option<String>,
}

/// Why a revision was not written. The book holds what it held.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unwritten {
    /// Another window or program wrote meanwhile: `now` is the revision that holds. The book has it, so that the edit
    /// can be made again on top of it, or be shown beside it.
    Stale {
        /// The revision that the edit was made on.
        seen: u64,
        /// The revision that holds now.
        now: u64,
    },
    /// The book could not be written.
    Fault(Fault),
}

impl From<Unwritten> for Fault {
    fn from(unwritten: Unwritten) -> Fault {
        match unwritten {
            Unwritten::Stale { seen, now } => Fault::new(format!(
                "another window changed this tank meanwhile: you saw revision {seen}, now {now} holds"
            ))
            .hint("look at what changed, then make your change again"),
            Unwritten::Fault(fault) => fault,
        }
    }
}

/// A keeper's book over one tank.
pub trait Book {
    /// The number of the revision that holds now.
    fn revision(&self) -> u64;

    /// The setup as it was at a revision; `None`: there never was such a revision.
    fn setup_at(&self, revision: u64) -> Option<&Setup>;

    /// Write the next revision and return its number. `changes` is what the keeper did, field by field. A book in a file
    /// that could not be written returns the number that it had: [`Book::write_over`] says why.
    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64;

    /// Take back the last edit that was not taken back yet, as a new revision; `None`: nothing is left to undo.
    fn undo(&mut self) -> Option<u64>;

    /// [`Book::write`], but only over the revision that the edit was made on.
    ///
    /// # Errors
    /// [`Unwritten`]: another program wrote meanwhile, or the book could not be written.
    fn write_over(&mut self, seen: u64, setup: Setup, changes: Vec<Change>) -> Result<u64, Unwritten> {
        match self.revision() {
            now if now == seen => Ok(self.write(setup, changes)),
            now => Err(Unwritten::Stale { seen, now }),
        }
    }

    /// [`Book::undo`], but only of the revision that the keeper saw.
    ///
    /// # Errors
    /// As [`Book::write_over`].
    fn undo_over(&mut self, seen: u64) -> Result<Option<u64>, Unwritten> {
        match self.revision() {
            now if now == seen => Ok(self.undo()),
            now => Err(Unwritten::Stale { seen, now }),
        }
    }

    /// What the revision that holds now changed against the one before it.
    fn last_changes(&self) -> &[Change];

    /// The setup that holds now; `None` only in a book without any revision.
    fn setup(&self) -> Option<&Setup> {
        self.setup_at(self.revision())
    }
}

/// A revision as the book keeps it.
#[derive(Clone, Debug, PartialEq)]
struct Leaf {
    setup: Setup,
    changes: Vec<Change>,
    /// The revision to which an undo goes back; `None` for the first.
    before: Option<u64>,
}

/// A book in memory. Revision 1 is the setup that it was opened with.
#[derive(Clone, Debug, PartialEq)]
pub struct MemoryBook {
    leaves: Vec<Leaf>,
}

impl MemoryBook {
    /// A book whose first revision is `setup`.
    pub fn open(setup: Setup) -> MemoryBook {
        MemoryBook { leaves: vec![Leaf { setup, changes: Vec::new(), before: None }] }
    }

    fn leaf(&self, revision: u64) -> Option<&Leaf> {
        let index = usize::try_from(revision.checked_sub(1)?).ok()?;
        self.leaves.get(index)
    }

    /// What an undo goes back to, and where the undo after that one goes; `None`: nothing is left to undo.
    pub(crate) fn back(&self) -> Option<(Setup, Option<u64>)> {
        let before = self.leaf(self.leaf(self.revision())?.before?)?;
        Some((before.setup.clone(), before.before))
    }

    /// The next revision; an undo of it goes back to `before`.
    pub(crate) fn put(&mut self, setup: Setup, before: Option<u64>) -> u64 {
        let changes = self.setup().map(|now| now.changes_to(&setup)).unwrap_or_default();
        self.leaves.push(Leaf { setup, changes, before });
        self.revision()
    }
}

impl Book for MemoryBook {
    fn revision(&self) -> u64 {
        self.leaves.len() as u64
    }

    fn setup_at(&self, revision: u64) -> Option<&Setup> {
        self.leaf(revision).map(|leaf| &leaf.setup)
    }

    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64 {
        let before = Some(self.revision());
        self.leaves.push(Leaf { setup, changes, before });
        self.revision()
    }

    fn undo(&mut self) -> Option<u64> {
        // The new leaf goes back to where the old one did, so that undo after undo walks on into the past.
        let (setup, before) = self.back()?;
        Some(self.put(setup, before))
    }

    fn last_changes(&self) -> &[Change] {
        self.leaves.last().map_or(&[], |leaf| &leaf.changes)
    }
}
