//! A kept value back in the keeper's units.

use quantity::amount::{Length, Mass, Share, Temperature, Volume};
use quantity::concentration::{format_concentration, mol_per_l};
use quantity::hardness::format_hardness;
use quantity::{Digits, Known, Measure, Units};

use crate::field::Field;
use crate::takes::Takes;

impl Field {
    /// The value, kept in the field's unit, as the keeper reads it.
    pub fn show(&self, value: f64, units: &Units) -> String {
        let number = units.number(value, Digits::Significant(3));
        match self.takes {
            Takes::Concentration(ion) => format_concentration(mol_per_l(value, ion), ion, units),
            Takes::Uptake(ion) => format!("{} a day", format_concentration(mol_per_l(value, ion), ion, units)),
            Takes::Hardness => format_hardness(value, Measure::Hardness, units),
            Takes::Alkalinity => format_hardness(value, Measure::Alkalinity, units),
            Takes::Temperature => Temperature::celsius(value).print_with(units, Digits::Significant(3)),
            Takes::Length => Length::metres(value).print(units),
            Takes::Volume => Volume::litres(value).print(units),
            Takes::VolumePerDay => format!("{} a day", Volume::litres(value).print(units)),
            Takes::VolumePerHour => format!("{}/h", Volume::litres(value).print(units)),
            Takes::Percent => Share::part(value).print(units),
            Takes::Mass => Mass::grams(value).print(units),
            Takes::MassPerDay => format!("{} a day", Mass::grams(value).print(units)),
            Takes::MassOrVolume => Mass::kilograms(value).print(units),
            Takes::Chlorine => format!("{number} mg/L Cl2"),
            Takes::Days if number == "1" => "1 day".to_owned(),
            takes if takes.unit().is_empty() => number,
            takes => format!("{number} {}", takes.unit()),
        }
    }

    /// The same with its likely range, where it has one.
    pub fn show_known(&self, known: Known<f64>, units: &Units) -> String {
        let value = self.show(known.value, units);
        if known.low == known.high {
            return value;
        }
        let (low, high) = (self.show(known.low, units), self.show(known.high, units));
        // A unit that both ends share is said once.
        let low = match (low.split_once(' '), high.split_once(' ')) {
            (Some((number, unit)), Some((_, same))) if unit == same => number,
            _ => low.as_str(),
        };
        format!("{value} (likely {low} to {high})")
    }
}
