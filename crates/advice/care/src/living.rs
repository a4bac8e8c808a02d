//! Who lives in a tank: what its file tells, and whom the log brings in since.
//!
//! What: of each kind the larger of both, for an alarm errs to the side of somebody living there. Range: entries up to now.
//! Source: our own rule. Checked by: `tests/harm_newcomers.rs`.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use logbook::{Kept, What};
use setup::{Animals, Tank};

/// How many of each kind the log knows of, never fewer than `least`: where it has seen more go than come, some came before it began.
pub(crate) fn by_log<'a>(log: &'a [Kept], now: &ZonedDateTime, least: i64) -> BTreeMap<&'a str, i64> {
    let mut entries: Vec<&Kept> = log.iter().filter(|kept| kept.entry.at.timestamp() <= now.timestamp()).collect();
    entries.sort_by_key(|kept| (kept.entry.at.timestamp(), kept.id));
    let mut left: BTreeMap<&str, i64> = BTreeMap::new();
    for kept in entries {
        if let What::Animals { who, change, counted } = &kept.entry.what {
            let of = left.entry(who).or_default();
            *of = counted.map_or(*of + i64::from(*change), i64::from).max(least);
        }
    }
    left
}

/// The same tank with whoever the log brought in.
pub(crate) fn living(tank: &Tank, log: &[Kept], now: &ZonedDateTime) -> Tank {
    let left = by_log(log, now, 0);
    let most = |told: u32, who: &str| left.get(who).map_or(told, |n| told.max(u32::try_from(*n).unwrap_or(u32::MAX)));
    let told = tank.animals;
    let animals = Animals {
        fish: most(told.fish, "fish"),
        shrimps: most(told.shrimps, "shrimps"),
        snails: most(told.snails, "snails"),
        other_invertebrates: most(told.other_invertebrates, "others"),
        ..told
    };
    Tank { animals, ..tank.clone() }
}
