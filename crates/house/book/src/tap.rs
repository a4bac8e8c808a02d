//! One tap for several tanks: an edit of its water is written into all of them, in one go.

use rusqlite::{Transaction, params};
use setup::{OneTap, Setup, one_tap};

use crate::leaf::{self, Leaf, Unread};

/// Writes into the other tanks of the tap what follows from `leaf` in tank `tank`, over `before` (`None`: a new tank); the
/// leaf comes back, with the water of a tap that it takes the name of.
pub(crate) fn follow(all: &Transaction, tank: u64, before: Option<&Setup>, leaf: Leaf) -> Result<Leaf, Unread> {
    let Some(tap) = leaf.setup.tap_name() else { return Ok(leaf) };
    let others = others(all, tank, &tap)?;
    let setups = others.iter().map(|(other, _, setup)| (*other, setup.clone()));
    let OneTap { setup, others: follow } = one_tap(before, leaf.setup.clone(), setups);
    for (other, next) in follow {
        let Some((_, number, old)) = others.iter().find(|(of, ..)| *of == other) else { continue };
        let changes = old.changes_to(&next);
        let next = Leaf { at: leaf.at.clone(), undo_to: Some(*number), setup: next, changes };
        leaf::write(all, other, number + 1, &next)?;
        label(all, other, &next.setup)?;
    }
    if setup == leaf.setup {
        return Ok(leaf);
    }
    let changes = before.map_or_else(Vec::new, |before| before.changes_to(&setup));
    Ok(Leaf { setup, changes, ..leaf })
}

/// The other tanks that name the tap: number, last revision, and its setup.
fn others(all: &Transaction, tank: u64, tap: &str) -> Result<Vec<(u64, u64, Setup)>, Unread> {
    const OTHERS: &str = "SELECT id FROM tank WHERE tap = ?1 AND id <> ?2 ORDER BY id";
    let others: Vec<u64> =
        all.prepare_cached(OTHERS)?.query_map(params![tap, tank], |row| row.get(0))?.collect::<Result<_, _>>()?;
    let mut found = Vec::with_capacity(others.len());
    for other in others {
        let number = leaf::head(all, other)?;
        if let Some(leaf) = leaf::read(all, other, number)? {
            found.push((other, number, leaf.setup));
        }
    }
    Ok(found)
}

/// Notes the names of tank and tap as a setup has them.
pub(crate) fn label(all: &Transaction, tank: u64, setup: &Setup) -> rusqlite::Result<()> {
    const LABEL: &str = "UPDATE tank SET name = ?2, tap = ?3 WHERE id = ?1 AND (name IS NOT ?2 OR tap IS NOT ?3)";
    all.prepare_cached(LABEL)?.execute(params![tank, leaf::name(setup), setup.tap_name()]).map(drop)
}
