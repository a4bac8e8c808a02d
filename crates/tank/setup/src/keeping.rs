//! What the routine of a tank hangs on: its kind, food in grams, filter, kits, the day of the change, the cylinder.

use knowledge::{Book, Place, TankKind};
use quantity::{Kind, Known};

use crate::given::Given;
use crate::{Energy, Feeding, Tank};

/// A cylinder of carbon dioxide, as its scale knows it.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Cylinder {
    /// What it weighs when it is full, g, as it stands with its regulator.
    pub full_g: f64,
    /// Carbon dioxide in it when it is full, g.
    pub holds_g: f64,
}

impl Cylinder {
    /// g of carbon dioxide left at a weight; never below 0.
    pub fn left_g(&self, weighs_g: f64) -> f64 {
        (self.holds_g - (self.full_g - weighs_g)).max(0.0)
    }
}

/// What the routine hangs on.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Keeping {
    /// Food, g a day as it comes from the packet.
    pub food_g_per_day: Known<f64>,
    /// Protein in it, share.
    pub food_protein: Known<f64>,
    /// Phosphorus in it, share.
    pub food_phosphorus: Known<f64>,
    /// A filter runs.
    pub filter: bool,
    /// Key of the ground (`data/substrates.toml`); empty: nobody said.
    pub ground: String,
    /// Hours of light a day.
    pub light_h: Known<f64>,
    /// Day of the week on which water is changed, 1 Monday to 7 Sunday.
    pub change_day: u8,
    /// Keys of the test kits at hand (`data/routine.toml`); empty: nobody said.
    pub kits: Vec<String>,
    /// The cylinder, if both its weights were told.
    pub cylinder: Option<Cylinder>,
}

impl Default for Keeping {
    /// Nobody fed, changed on Saturdays, with a filter.
    fn default() -> Self {
        let none = Known::exact(0.0, Kind::Assumed);
        Keeping {
            food_g_per_day: none,
            food_protein: none,
            food_phosphorus: none,
            filter: true,
            ground: String::new(),
            light_h: Known { kind: Kind::Assumed, ..knowledge::book().defaults.light_h.known() },
            change_day: SATURDAY,
            kits: Vec::new(),
            cylinder: None,
        }
    }
}

/// Days of the week, Monday first.
pub(crate) const DAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
const SATURDAY: u8 = 6;

impl Tank {
    /// Which routine is its own. A soil tank is one in which nothing is fed to the plants, neither by a way of feeding nor
    /// by a level of the keeper's own.
    pub fn kind(&self) -> TankKind {
        match (self.feeding, self.energy) {
            (Feeding::None, _) if self.wish.bands.is_empty() => TankKind::Soil,
            (_, Energy::Low) => TankKind::Slow,
            _ => TankKind::Daily,
        }
    }

    /// Whose law holds.
    pub fn place(&self) -> Place {
        Place::of(&self.country)
    }

    /// What is said of plants that a text names and that stand on a list of weeds somewhere, by the law of this tank's country (harm
    /// rule 17); `None`: none that is known.
    pub fn weeds(&self, text: &str) -> Option<String> {
        knowledge::book().plants.say(text, self.place())
    }
}

/// Changes that nobody told, by the kind of tank.
pub(crate) fn changes(given: &mut Given, book: &Book) {
    let kind = match (given.word("feeding.wish"), given.word("light.energy")) {
        ("none", _) => TankKind::Soil,
        (_, "low") => TankKind::Slow,
        _ => TankKind::Daily,
    };
    let row = book.routine.kind.get(&kind);
    let (share, every) = row.map_or((None, None), |row| (row.change_percent.as_ref(), row.change_every_days.as_ref()));
    given.assume_row("habits.change", share.unwrap_or(&book.defaults.change_percent), 1e-2);
    given.assume_row("habits.every", every.unwrap_or(&book.defaults.change_every_days), 1.0);
}

/// Whether a filter runs, where nobody told.
pub(crate) fn filter(given: &mut Given) {
    if given.word("feeding.wish") == "none" {
        given.assume_flag("care.filter", false, "a soil tank usually has none");
    } else {
        given.assume_flag("care.filter", true, "most tanks have one");
    }
}

/// All of it together.
pub(crate) fn keeping(given: &Given) -> Keeping {
    let day = DAYS.iter().position(|day| *day == given.word("care.change_day"));
    let cylinder = given.find("care.cylinder_full").zip(given.find("care.cylinder_holds"));
    Keeping {
        food_g_per_day: given.number("food.per_day"),
        food_protein: given.number("food.protein"),
        food_phosphorus: given.number("food.phosphorus"),
        filter: given.flags.get("care.filter").copied().unwrap_or(true),
        ground: given.word("ground.kind").to_owned(),
        light_h: given.number("light.hours"),
        change_day: day.and_then(|day| u8::try_from(day + 1).ok()).unwrap_or(SATURDAY),
        kits: given.names.get("care.kits").cloned().unwrap_or_default(),
        cylinder: cylinder.map(|(full, holds)| Cylinder { full_g: full.value, holds_g: holds.value }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_follows_from_the_weight() {
        // By hand: 1,900 g full with 500 g in it; at 1,650 g 250 g are gone.
        let cylinder = Cylinder { full_g: 1900.0, holds_g: 500.0 };
        assert_eq!(cylinder.left_g(1650.0), 250.0);
        assert_eq!(cylinder.left_g(1300.0), 0.0);
    }
}
