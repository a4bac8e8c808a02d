//! Measure my own tank once: a protocol of a few lines, its formula, its error.
//!
//! [`Name::ALL`] lists what can be measured; the protocol of each is data ([`Name::protocol`]). [`brief`] says what this
//! tank's own numbers mean for it before anything is done (how much salt at most, how long a degree takes), [`work`] turns
//! the readings into a value with its range, and [`Worked::take`] writes it into the setup as measured.
//!
//! ```
//! use measure::{Name, Readings, work};
//! let setup = setup::Setup::read("tank.toml", "[glass]\ninner_length = \"60 cm\"\ninner_width = \"30 cm\"\ninner_height = \"36 cm\"\n")?;
//! let tank = setup.tank()?;
//! let typed = [("caught", "2"), ("seconds", "24")];
//! let readings = Readings::read(Name::Flow, typed, &tank.units)?;
//! let worked = work(Name::Flow, &tank, &readings)?;
//! assert_eq!(worked.values[0].known.value, 300.0); // 2 L in 24 s
//! # Ok::<(), quantity::Faults>(())
//! ```

mod clay;
mod exchange;
mod flow;
mod heat_loss;
mod light;
mod litres;
mod name;
mod readings;
mod say;
mod trimmings;
mod worked;

pub use litres::{Most, most_grams};
pub use name::Name;
pub use readings::Readings;
pub use worked::{Flag, Value, Worked};

use quantity::Fault;
use setup::Tank;

/// What this tank's own numbers say before anything is measured, in sentences; with the readings that are known already.
pub fn brief(name: Name, tank: &Tank, readings: &Readings) -> Vec<String> {
    match name {
        Name::Litres => litres::brief(tank, readings),
        Name::Cooling => heat_loss::brief(tank, readings),
        Name::Co2 => exchange::brief(tank),
        Name::Clay => clay::brief(tank),
        Name::Flow | Name::Light | Name::Heater | Name::Oxygen | Name::Trimmings => Vec::new(),
    }
}

/// The value that the readings give.
///
/// # Errors
/// Readings that contradict the protocol, or from which nothing can be said.
pub fn work(name: Name, tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    // What is divided by litres must not be divided by a guess.
    if matches!(name, Name::Trimmings | Name::Cooling) && litres_unknown(tank) {
        return Err(Fault::new("how large your tank is I don’t know")
            .hint("tell me the glass, or measure the true litres first"));
    }
    match name {
        Name::Litres => litres::work(tank, readings),
        Name::Flow => flow::work(tank, readings),
        Name::Light => light::work(tank, readings),
        Name::Heater => heat_loss::by_heater(tank, readings),
        Name::Cooling => heat_loss::by_cooling(tank, readings),
        Name::Co2 => exchange::by_co2(tank, readings),
        Name::Oxygen => exchange::by_oxygen(tank, readings),
        Name::Trimmings => trimmings::work(tank, readings),
        Name::Clay => clay::work(tank, readings),
    }
}

/// Neither the glass was told nor the litres measured.
fn litres_unknown(tank: &Tank) -> bool {
    tank.measured.litres.is_none() && tank.glass_question().is_some()
}

/// The figures of the sums.
fn figures() -> &'static knowledge::MeasureFigures {
    &knowledge::book().measures.figure
}
