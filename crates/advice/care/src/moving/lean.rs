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
    let alkalinity = Some(low_alkalinity(tank, m)).filter(|_| tank.animals.any());
    let hardness = tank.animals.invertebrates().then(|| low_hardness(tank, m));
    [alkalinity, hardness].into_iter().flatten().flatten().collect()
}

fn low_alkalinity(tank: &Tank, m: &Moving) -> Option<Note> {
    let (pen, floor) = (Pen::new(&tank.units), &book().harm.limit.alkalinity_floor_meq_per_l);
    let text = || {
        format!(
            "The new water brings {}, and what food leaves eats of it. {} Do not go all the way: before you move, give the alkalinity that the tank has now as \
             your wish on Salts, with the new tap written there; each change then gets its salt.",
            pen.alkalinity(m.to.alkalinity_meq_per_l),
            floor.say
        )
    };
    (m.to.alkalinity_meq_per_l < floor.value())
        .then(|| keyed("Too little alkalinity", text(), "alkalinity_floor_meq_per_l"))
}

fn low_hardness(tank: &Tank, m: &Moving) -> Option<Note> {
    let row = book().limits.bears.iter().find(|row| row.who == Life::Shrimps && row.determinand == "hardness_total")?;
    let pen = Pen::new(&tank.units);
    let text = || {
        format!(
            "The new water brings {}. {} Give the hardness that the tank has now as your wish on Salts.",
            pen.hardness(m.to.hardness_meq_per_l),
            row.say
        )
    };
    (m.to.hardness_meq_per_l < row.least?).then(|| keyed("Too soft for shells", text(), "hardness_total"))
}
