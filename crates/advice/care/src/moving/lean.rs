//! A new water with less alkalinity or hardness than the animals bear: told where the way to it is planned (harm rule 6).
//!
//! The floor of alkalinity is `data/harm.toml`'s, that of hardness the row of `data/limits.toml` for animals with shells.

use knowledge::{Life, book};
use recipe::Note;
use recipe::say::Pen;
use setup::Tank;

use super::Moving;
use crate::start_words::keyed;

/// What the new water lacks, with the way out.
pub(super) fn lean(tank: &Tank, m: &Moving) -> Vec<Note> {
    let alkalinity = m.to.alkalinity_meq_per_l.filter(|_| tank.animals.any());
    let hardness = m.to.hardness_meq_per_l.filter(|_| tank.animals.invertebrates());
    let alkalinity = alkalinity.and_then(|meq| low_alkalinity(tank, meq));
    alkalinity.into_iter().chain(hardness.and_then(|meq| low_hardness(tank, meq))).collect()
}

fn low_alkalinity(tank: &Tank, meq: f64) -> Option<Note> {
    let (pen, floor) = (Pen::new(&tank.units), &book().harm.limit.alkalinity_floor_meq_per_l);
    let text = || {
        format!(
            "The new water brings {}, and what food leaves eats of it. {} Do not go all the way: before you move, give the alkalinity that the tank has now as \
             your wish on Salts, with the new tap written there; each change then gets its salt.",
            pen.alkalinity(meq),
            floor.say
        )
    };
    (meq < floor.value()).then(|| keyed("Too little alkalinity", text(), "alkalinity_floor_meq_per_l"))
}

fn low_hardness(tank: &Tank, meq: f64) -> Option<Note> {
    let row = book().limits.bears.iter().find(|row| row.who == Life::Shrimps && row.determinand == "hardness_total")?;
    let pen = Pen::new(&tank.units);
    let text = || {
        format!(
            "The new water brings {}, which is too little. {} Give the hardness that the tank has now as your wish on Salts.",
            pen.hardness(meq),
            row.say
        )
    };
    (meq < row.least?).then(|| keyed("Too soft for shells", text(), "hardness_total"))
}
