//! What can be measured.

use knowledge::Measure;
use quantity::Fault;

/// One thing that a keeper measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Name {
    /// True litres from a weighed salt.
    Litres,
    /// Flow by bucket and watch.
    Flow,
    /// Light by a phone's lux.
    Light,
    /// Heat loss from what the heater takes.
    Heater,
    /// Heat loss from a cooling.
    Cooling,
    /// Exchange with the air from two readings of pH.
    Co2,
    /// Exchange with the air from two readings of oxygen.
    Oxygen,
    /// Uptake from weighed trimmings.
    Trimmings,
    /// A cheap clay.
    Clay,
}

impl Name {
    /// All of them, the most useful first.
    pub const ALL: [Name; 9] = [
        Name::Litres,
        Name::Trimmings,
        Name::Flow,
        Name::Light,
        Name::Heater,
        Name::Cooling,
        Name::Co2,
        Name::Oxygen,
        Name::Clay,
    ];

    /// Its key, as in `data/measures.toml`.
    pub fn key(self) -> &'static str {
        match self {
            Name::Litres => "litres",
            Name::Flow => "flow",
            Name::Light => "light",
            Name::Heater => "heater",
            Name::Cooling => "cooling",
            Name::Co2 => "co2",
            Name::Oxygen => "oxygen",
            Name::Trimmings => "trimmings",
            Name::Clay => "clay",
        }
    }

    /// The one with a key.
    ///
    /// # Errors
    /// There is none.
    pub fn of(key: &str) -> Result<Name, Fault> {
        Name::ALL.into_iter().find(|name| name.key() == key).ok_or_else(|| {
            let keys: Vec<&str> = Name::ALL.iter().map(|name| name.key()).collect();
            Fault::new(format!("`{key}` is nothing that I can help to measure"))
                .expected(format!("one of {}", keys.join(", ")))
        })
    }

    /// Its protocol; every name has one (`tests/every_protocol.rs`).
    pub fn protocol(self) -> Option<&'static Measure> {
        knowledge::book().measures.measure.get(self.key())
    }
}
