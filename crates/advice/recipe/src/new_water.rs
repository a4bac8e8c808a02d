//! What goes into the new water of a change, and what is said before any of it touches an animal.

pub(crate) mod ammonia;
pub(crate) mod chlorine;
mod conditioner;
pub(crate) mod salts;
mod temperature;

use setup::SourceWater;

use crate::desk::Desk;
use crate::plan::{Change, NewWater, Note, Salt};
use ammonia::Ammonia;
use chlorine::Brought;

/// Put it together: salts that are weighed already, the conditioner, of a stock that is `made` already if there is one, and what is said
/// of the water.
pub(crate) fn new_water(
    desk: &Desk,
    change: &Change,
    salts: Vec<Salt>,
    brought: &Brought,
    ammonia: Option<Ammonia>,
    water: &SourceWater,
    made: Option<(f64, f64)>,
) -> NewWater {
    // Water that is refused for its copper is not topped up with either: no act is said for it.
    let refused = desk.tank.habits.every_days == 0 && crate::copper::stops_change(desk).is_some();
    let conditioner = if refused { None } else { conditioner::conditioner(desk, change, brought, ammonia, made) };
    let ph_test = ammonia::tested(desk, ammonia).filter(|_| salts.iter().any(|salt| salts::raises_ph(desk, salt)));
    NewWater { salts, conditioner, notes: notes(desk, change, brought, ammonia, water), ph_test }
}

/// What is said of tap, bucket and temperature.
fn notes(desk: &Desk, change: &Change, brought: &Brought, ammonia: Option<Ammonia>, water: &SourceWater) -> Vec<Note> {
    let rule = &desk.book.harm.rule;
    let note = |key: &str, text: &str| Note {
        about: "new water".to_owned(),
        text: text.to_owned(),
        key: Some(key.to_owned()),
    };
    let mut notes = vec![note("tap_notice", &rule.tap_notice.say), note("cold_tap", &rule.cold_tap.say)];
    if desk.tank.at_hand.by_hose {
        notes.push(note("siphon", &rule.siphon.say));
    } else {
        let bucket = format!("{} {}", rule.clean_bucket.say, desk.book.harm.limit.bucket_l.say);
        notes.push(note("clean_bucket", &bucket));
    }
    if brought.chlorine.is_none() {
        notes.push(note(
            "disinfectant_counts",
            "The report or your supplier says that there is no chlorine, so I count on none. A notice, or a smell of chlorine: no change that day.",
        ));
        notes.extend(own_ammonia(desk, change, brought, ammonia).map(|text| note("chloramine_leaves_ammonia", &text)));
    }
    notes.extend(temperature::notes(desk, change, water));
    notes
}

/// The water's own ammonium, where no conditioner tells of it.
fn own_ammonia(desk: &Desk, change: &Change, brought: &Brought, ammonia: Option<Ammonia>) -> Option<String> {
    let ammonia = ammonia.filter(|_| desk.animals() && brought.nitrogen.1 > 0.0)?;
    Some(format!(
        "The new water's own ammonia: up to {} mg/L as N, and up to {} mg/L in the tank after a change, {} of it toxic at pH {}. Harm starts at {} mg/L of all ammonia there.",
        desk.pen.n(brought.nitrogen.1, 2),
        desk.pen.n(brought.nitrogen.1 * change.share, 2),
        desk.pen.percent(ammonia.fraction),
        desk.pen.n(ammonia.ph, 3),
        desk.pen.n(ammonia.total_most, 2)
    ))
}
