//! A reading as it is written and as it is shown: `12 mg/L NO3`, `<0.05 mg/L N`, `about 7.2`, `10 to 20 mg/L NO3`.
//!
//! A bare number is in the keeper's unit, which the form names beside it. A number in the very unit in which the logbook
//! keeps the reading is taken digit by digit, so that a table that was written out reads back exactly.

use knowledge::{Counts, ReadingRow};
use quantity::basis::{Basis, needs_basis};
use quantity::concentration::{format_concentration, mol_per_l, parse_concentration};
use quantity::conductivity::parse_conductivity;
use quantity::hardness::{format_hardness, parse_alkalinity, parse_hardness};
use quantity::number::read_back;
use quantity::{Comparator, Digits, Fault, Mass, Measure, Temperature, TemperatureDifference, Units, parse_number};

/// What a text says of a reading, in the unit in which the logbook keeps it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Value {
    /// The value; of a range its middle, below a bound the bound.
    pub value: f64,
    /// The true value lies at or below it.
    pub below: bool,
    /// It was written with "about".
    pub about: bool,
    /// Half the width of a range.
    pub error: Option<f64>,
}

impl Value {
    fn plain(value: f64) -> Value {
        Value { value, below: false, about: false, error: None }
    }

    fn of(comparator: Comparator, (low, value, high): (f64, f64, f64)) -> Result<Value, Fault> {
        let plain = Value::plain(value);
        match comparator {
            Comparator::Equal if low < high => Ok(Value { error: Some(0.5 * (high - low)), ..plain }),
            Comparator::Equal => Ok(plain),
            Comparator::About => Ok(Value { about: true, ..plain }),
            Comparator::Below => Ok(Value { below: true, value: high, ..plain }),
            Comparator::Above => Err(Fault::new("a reading beyond the end of its scale is no number yet")
                .expected("a number that the kit shows")
                .hint(
                    "mix the sample with as much pure water, read again and double it; or write the number as not sure",
                )),
        }
    }
}

/// Read a value.
///
/// # Errors
/// No number, a unit that does not belong here, a number beyond the end of a scale, or one that can't be meant.
pub(crate) fn read(row: &ReadingRow, text: &str, units: &Units) -> Result<Value, Fault> {
    let (comparator, rest) = compared(text);
    let bare = || parse_number(rest).ok().filter(|_| unit(row, units) == row.is.unit);
    let value = match exact(&row.is.unit, rest).or_else(bare) {
        Some(number) => Value::of(comparator, (number, number, number))?,
        None => worded(row, text, (comparator, rest), units)?,
    };
    row.is.judge(&row.name, value.value)?;
    Ok(value)
}

/// A number in just this unit, taken as it stands.
pub(crate) fn exact(unit: &str, text: &str) -> Option<f64> {
    if unit.is_empty() {
        return None;
    }
    let number = text.strip_suffix(unit)?;
    number.ends_with([' ', '\u{a0}']).then(|| parse_number(number).ok())?
}

/// The sign or word before a number, and the rest.
fn compared(text: &str) -> (Comparator, &str) {
    let text = text.trim();
    let signs = [
        ("<", Comparator::Below),
        ("≤", Comparator::Below),
        (">", Comparator::Above),
        ("~", Comparator::About),
        ("about ", Comparator::About),
    ];
    let found = signs.iter().find_map(|(sign, comparator)| Some((*comparator, text.strip_prefix(sign)?.trim_start())));
    found.unwrap_or((Comparator::Equal, text))
}

fn worded(row: &ReadingRow, text: &str, cut: (Comparator, &str), units: &Units) -> Result<Value, Fault> {
    let (comparator, rest) = cut;
    let with_unit =
        || if parse_number(rest).is_ok() { format!("{text} {}", unit(row, units)) } else { text.to_owned() };
    let number = |value: Result<f64, Fault>| value.and_then(|v| Value::of(comparator, (v, v, v)));
    match (row.how, row.ion) {
        (Counts::Ion | Counts::Element, Some(ion)) => {
            let reading = parse_concentration(&with_unit(), ion)?;
            let basis = if row.how == Counts::Element { Basis::AsElement } else { Basis::AsIon };
            let grams = basis.grams_per_mole(ion).unwrap_or_else(|| ion.molar_mass());
            let mg = |mol: f64| read_back(mol * 1e3 * grams);
            let ends = (reading.low_mol_per_l, reading.mol_per_l, reading.high_mol_per_l);
            Value::of(reading.comparator, (mg(ends.0), mg(ends.1), mg(ends.2)))
        }
        (Counts::Alkalinity | Counts::Hardness, _) => {
            let read = if row.how == Counts::Hardness { parse_hardness } else { parse_alkalinity };
            let reading = read(&with_unit())?;
            Value::of(reading.comparator, (reading.low_meq_per_l, reading.meq_per_l, reading.high_meq_per_l))
        }
        (Counts::Conductivity, _) => {
            let reading = parse_conductivity(&with_unit())?;
            // Meters show what they read as it would be at 25 °C, unless somebody says otherwise.
            let known = match reading.reference_temperature_c {
                Some(_) => reading.at_25()?,
                None => quantity::Known::ranged(
                    reading.low_us_per_cm,
                    reading.us_per_cm,
                    reading.high_us_per_cm,
                    quantity::Kind::Measured,
                ),
            };
            Value::of(reading.comparator, (known.low, known.value, known.high))
        }
        (Counts::Temperature, _) => number(Temperature::parse_in(rest, units).map(Temperature::in_celsius)),
        (Counts::Mass, _) => number(Mass::parse_in(rest, units).map(Mass::in_grams)),
        (Counts::Plain, _) => number(parse_number(rest.strip_suffix("mg/L").unwrap_or(rest))),
        _ => number(parse_number(rest)),
    }
}

/// Read how far a reading may be off, in the unit of the reading.
///
/// # Errors
/// No number, another unit, or less than nothing.
pub(crate) fn read_error(row: &ReadingRow, text: &str, units: &Units) -> Result<f64, Fault> {
    let text = text.trim().trim_start_matches(['±', ' ']);
    let error = match (exact(&row.is.unit, text), row.how) {
        (Some(number), _) => number,
        (None, Counts::Temperature) => TemperatureDifference::parse_in(text, units)?.in_kelvins(),
        (None, _) => worded(row, text, (Comparator::Equal, text), units)?.value,
    };
    if error.is_finite() && error >= 0.0 {
        Ok(error)
    } else {
        Err(Fault::new(format!("`{text}` is no error")).expected("how far off it may be, from 0 up"))
    }
}

/// The keeper's unit of a reading, as it stands behind the number; empty where there is none.
pub fn unit(row: &ReadingRow, units: &Units) -> String {
    show(row, 1.0, units).split_once(' ').map(|(_, unit)| unit.to_owned()).unwrap_or_default()
}

/// A value, kept in the reading's unit, as the keeper reads it: `12 mg/L NO3`.
pub fn show(row: &ReadingRow, value: f64, units: &Units) -> String {
    let number = |value: f64, digits: Digits| units.number(value, digits);
    let three = Digits::Significant(3);
    match (row.how, row.ion) {
        (Counts::Ion, Some(ion)) if needs_basis(ion) => format_concentration(mol_per_l(value, ion), ion, units),
        (Counts::Alkalinity, _) => format_hardness(value, Measure::Alkalinity, units),
        (Counts::Hardness, _) => format_hardness(value, Measure::Hardness, units),
        (Counts::Temperature, _) => Temperature::celsius(value).print(units),
        (Counts::Ph, _) => {
            number(value, Digits::Decimals(2)).trim_end_matches('0').trim_end_matches(['.', ',']).to_owned()
        }
        (Counts::Mass, _) => Mass::grams(value).print(units),
        _ => format!("{} {}", number(value, three), row.is.unit),
    }
}

/// From what is kept (mg/L of ion or element, meq/L ...) to the keeper's number, for drawings beside levels: the factor
/// from the kept unit to mg/L of the ion or meq/L in which levels are reckoned.
pub fn to_level(row: &ReadingRow) -> f64 {
    match (row.how, row.ion) {
        (Counts::Element, Some(ion)) => {
            ion.molar_mass() / Basis::AsElement.grams_per_mole(ion).unwrap_or_else(|| ion.molar_mass())
        }
        _ => 1.0,
    }
}
