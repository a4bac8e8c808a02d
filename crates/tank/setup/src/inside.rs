//! What fills the glass beside the water, and how its sizes were told: what a letter shows for changing and drawing.

use std::collections::BTreeMap;

use knowledge::Book;
use quantity::{Faults, Known};

use crate::given::Given;
use crate::{Setup, build};

/// A size, kept as the field has it that holds it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Size {
    /// The field to change: of a side the inner one, or the outer one if that was told.
    pub field: String,
    /// m.
    pub metres: Known<f64>,
}

impl Size {
    /// Told from outside, panes included.
    pub fn outer(&self) -> bool {
        self.field.starts_with("glass.outer_")
    }
}

/// What the ground is made of.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Ground {
    /// Key of `data/substrates.toml`.
    pub kind: String,
    /// In words.
    pub name: String,
    /// Share that water fills, 0 to 1.
    pub porosity: Known<f64>,
    /// At the front, m.
    pub front_m: Known<f64>,
    /// At the back, m.
    pub back_m: Known<f64>,
}

/// Stones or wood.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Solid {
    /// kg.
    pub kg: Known<f64>,
    /// The room that they take, L.
    pub litres: Known<f64>,
    /// They were told as a volume, and the mass follows; else the other way round.
    pub by_volume: bool,
}

/// The glass and what fills it beside the water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Inside {
    /// Length, width and height.
    pub sides: [Size; 3],
    /// Thickness of the glass, m.
    pub glass_m: Known<f64>,
    /// From the upper edge down to the water, m.
    pub fill_m: Known<f64>,
    /// The ground.
    pub ground: Ground,
    /// Stones.
    pub rock: Solid,
    /// Wood.
    pub wood: Solid,
    /// Every number of the file, told or assumed, by its field and in the unit in which the field is kept.
    pub numbers: BTreeMap<String, Known<f64>>,
}

impl Setup {
    /// The glass and what fills it beside the water; what nobody told is assumed.
    pub fn inside(&self) -> &Inside {
        self.inside.get(|| {
            let told = self.told(&mut Faults::new());
            let book = knowledge::book();
            inside(&Given::fill(&told, book), book)
        })
    }

    /// The number that the file gives in a field, in the unit in which the field is kept; `None`: it gives none, or
    /// one that can't be read or has an open question.
    pub fn number(&self, field: &str) -> Option<Known<f64>> {
        self.told(&mut Faults::new()).numbers.get(field).copied()
    }
}

fn inside(given: &Given, book: &Book) -> Inside {
    let glass = build::glass(given, book);
    let side = |name: &str| {
        let outer = format!("glass.outer_{name}");
        let field = if given.find(&outer).is_some() { outer } else { format!("glass.inner_{name}") };
        Size { metres: given.number(&field), field }
    };
    let solid = |path: &str, kg: Known<f64>, m3: Known<f64>| Solid {
        kg,
        litres: m3.map(|m3| 1000.0 * m3),
        by_volume: given.word(&format!("{path}.as")) == "volume",
    };
    let kind = given.word("ground.kind").to_owned();
    Inside {
        sides: ["length", "width", "height"].map(side),
        glass_m: glass.glass_m,
        fill_m: glass.fill_m,
        ground: Ground {
            name: book.substrates.get(&kind).map(|ground| ground.name.clone()).unwrap_or_default(),
            kind,
            porosity: glass.porosity,
            front_m: glass.front_m,
            back_m: glass.back_m,
        },
        rock: solid("hardscape.rock", glass.rock_kg, glass.rock_m3),
        wood: solid("hardscape.wood", glass.wood_kg, glass.wood_m3),
        numbers: given.numbers.clone(),
    }
}
