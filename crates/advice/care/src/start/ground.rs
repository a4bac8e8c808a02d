//! The ground of a start: its kilograms, and whether it gives off ammonia.
//!
//! **What.** Litres of bed = length × width × mean depth; kg = litres × bulk density (dry); of soil under a cap the soil's part is
//! its usual depth, at most half of the bed.
//!
//! **Symbols.** m, L, kg.
//!
//! **Range.** A bed that slopes evenly from back to front.
//!
//! **Source.** `data/substrates.toml`, `data/start.toml`: common practice.
//!
//! **Checked by** `tests/by_hand_start.rs`.

use knowledge::{Substrate, book};
use quantity::{Kind, Known};
use setup::Tank;

/// How a ground wants the tank to begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Path {
    /// It gives off nothing: planted and lit on the first day.
    Plain,
    /// It gives off ammonia for weeks.
    Leaching,
}

/// The ground as it is put in.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Bed {
    /// In words.
    pub name: String,
    /// L of dry bed.
    pub litres: f64,
    /// kg, dry.
    pub kg: Known<f64>,
    /// kg of soil in it, under the cap; `None`: it has no cap.
    pub soil_kg: Option<Known<f64>>,
    /// cm of that soil.
    pub soil_cm: Option<f64>,
    /// cm at the front and at the back.
    pub depth_cm: (f64, f64),
    /// Which start it wants.
    pub path: Path,
}

/// Key of soil under a cap, and of what the cap is usually made of.
const SOIL: (&str, &str) = ("soil_under_sand", "sand");

/// The bed of a tank; `None`: its ground is in no table.
pub fn bed(tank: &Tank) -> Option<Bed> {
    let row = book().substrates.get(&tank.keeping.ground)?;
    let (front, back) = (tank.geometry.ground_front_m, tank.geometry.ground_back_m);
    let litres = 1000.0 * tank.geometry.length_m * tank.geometry.width_m * (front + back) / 2.0;
    let mean_cm = 100.0 * (front + back) / 2.0;
    let layered = tank.keeping.ground == SOIL.0;
    let soil_cm = layered.then(|| book().start.soil_cm.value.min(mean_cm / 2.0));
    let share = soil_cm.map_or(0.0, |cm| if mean_cm > 0.0 { cm / mean_cm } else { 0.0 });
    let kg = |row: &Substrate, litres: f64| row.bulk_density_kg_per_l.known().map(|density| density * litres);
    let soil_kg = layered.then(|| kg(row, share * litres));
    let cap = if layered { book().substrates.get(SOIL.1).unwrap_or(row) } else { row };
    let kg = kg(cap, (1.0 - share) * litres);
    let kg = Known { kind: kg.kind.weaker(Kind::WorkedOut), ..kg };
    Some(Bed {
        name: row.name.clone(),
        litres,
        kg,
        soil_kg,
        soil_cm,
        depth_cm: (100.0 * front, 100.0 * back),
        path: path(tank),
    })
}

/// Which start the ground of a tank wants; what was measured in a glass of water goes before the table.
pub fn path(tank: &Tank) -> Path {
    let listed = || book().substrates.get(&tank.keeping.ground).is_some_and(|row| row.leaches_ammonia);
    if tank.measured.ground_ammonia.unwrap_or_else(listed) { Path::Leaching } else { Path::Plain }
}

/// Stems and small rosettes for the whole floor.
pub fn plants(tank: &Tank) -> Known<f64> {
    let dm2 = 100.0 * tank.geometry.length_m * tank.geometry.width_m;
    book().start.plants_per_dm2.known().map(|a_dm2| (a_dm2 * dm2).round())
}
