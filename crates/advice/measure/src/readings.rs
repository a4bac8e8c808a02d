//! What was typed, read into the units of the sums: each number with the error of its instrument.

use std::collections::BTreeMap;

use knowledge::{BlankKind, MeasureBlank};
use quantity::{
    Digits, Fault, Faults, Kind, Known, Measure, Place, Temperature, TemperatureDifference, Units, Volume, VolumeUnit,
    format_number, parse_number,
};

use crate::Name;

/// Readings of one protocol.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Readings {
    numbers: BTreeMap<String, Known<f64>>,
    words: BTreeMap<String, String>,
}

impl Readings {
    /// Read what was typed; empty texts count as not typed. A number may carry its own error: "412 ± 2".
    ///
    /// # Errors
    /// All texts that are no reading: an unknown key, no number, a number that can't be meant.
    pub fn read<'a>(
        name: Name,
        typed: impl IntoIterator<Item = (&'a str, &'a str)>,
        units: &Units,
    ) -> Result<Readings, Faults> {
        let blanks: &[MeasureBlank] = name.protocol().map_or(&[], |protocol| &protocol.blank);
        let (mut readings, mut faults) = (Readings::default(), Faults::new());
        for (key, text) in typed {
            let text = text.trim();
            let Some(blank) = blanks.iter().find(|blank| blank.key == key) else {
                let keys: Vec<&str> = blanks.iter().map(|blank| blank.key.as_str()).collect();
                faults.push(
                    Fault::new(format!("`{key}` is no reading of this protocol"))
                        .expected(format!("one of {}", keys.join(", "))),
                );
                continue;
            };
            if text.is_empty() {
                continue;
            }
            let choices = choices(blank);
            let read = if choices.is_empty() {
                number(blank, text, units).map(|known| {
                    readings.numbers.insert(key.to_owned(), known);
                })
            } else {
                choice(text, &choices).map(|word| {
                    readings.words.insert(key.to_owned(), word);
                })
            };
            if let Err(fault) = read {
                faults.push(fault.at(Place::field(key)));
            }
        }
        faults.or(readings)
    }

    /// A number that must be there.
    ///
    /// # Errors
    /// It was not typed.
    pub(crate) fn need(&self, name: Name, key: &str) -> Result<Known<f64>, Fault> {
        self.find(key).ok_or_else(|| missing(name, key))
    }

    /// A number, if it was typed.
    pub(crate) fn find(&self, key: &str) -> Option<Known<f64>> {
        self.numbers.get(key).copied()
    }

    /// A choice, or the first of its blank where nothing was chosen.
    pub(crate) fn word(&self, name: Name, key: &str) -> String {
        let first = || {
            let blank = name.protocol()?.blank.iter().find(|blank| blank.key == key)?;
            choices(blank).first().map(|[key, _]| key.clone())
        };
        self.words.get(key).cloned().or_else(first).unwrap_or_default()
    }

    /// Whether every reading that must be there is.
    pub fn complete(&self, name: Name) -> bool {
        let must = |blank: &&MeasureBlank| !blank.optional && choices(blank).is_empty();
        name.protocol().is_some_and(|p| p.blank.iter().filter(must).all(|blank| self.numbers.contains_key(&blank.key)))
    }
}

fn missing(name: Name, key: &str) -> Fault {
    let blank = name.protocol().and_then(|protocol| protocol.blank.iter().find(|blank| blank.key == key));
    let says = blank.map_or(key, |blank| blank.says.as_str());
    Fault::new(format!("{says} is missing")).at(Place::field(key))
}

/// The choices of a blank: key and words; empty for a number.
pub(crate) fn choices(blank: &MeasureBlank) -> Vec<[String; 2]> {
    let tables = &knowledge::book().measures;
    match blank.among.as_deref() {
        Some("salt") => tables.salt.iter().map(|(key, salt)| [key.clone(), salt.name.clone()]).collect(),
        // The commonest first.
        Some("lamp") => {
            let mut lamps: Vec<[String; 2]> =
                tables.lamp.iter().map(|(key, lamp)| [key.clone(), lamp.name.clone()]).collect();
            lamps.sort_by_key(|[key, _]| key != "white_led");
            lamps
        }
        _ => blank.choices.clone(),
    }
}

impl Readings {
    /// The choices of a blank: key and words; empty for a number that is typed.
    pub fn choices(blank: &MeasureBlank) -> Vec<[String; 2]> {
        choices(blank)
    }

    /// The unit that stands behind a blank, in the keeper's way; empty for a bare number.
    pub fn unit(blank: &MeasureBlank, units: &Units) -> String {
        match blank.kind {
            BlankKind::Plain if blank.unit == "pH" => String::new(),
            BlankKind::Plain => blank.unit.clone(),
            BlankKind::Temperature => unit_of(&Temperature::celsius(20.0).print(units)),
            BlankKind::Volume => unit_of(&Volume::litres(1.0).print(units)),
            BlankKind::Alkalinity => units.hardness.name(Measure::Alkalinity).to_owned(),
        }
    }

    /// The error that counts where none is typed, in the keeper's unit: "± 0.2"; empty where the sum knows it otherwise.
    pub fn error(blank: &MeasureBlank, units: &Units) -> String {
        let Some(error) = blank.error else { return String::new() };
        let shown = match blank.kind {
            BlankKind::Temperature => TemperatureDifference::kelvins(error).print_with(units, Digits::Significant(2)),
            // In the unit that the blank itself names: so small a volume alone would read in millilitres.
            BlankKind::Volume => units.number(in_unit_of_a_litre(error, units), Digits::Significant(2)),
            BlankKind::Alkalinity => {
                units.number(units.hardness.from_meq_per_l(error, Measure::Alkalinity), Digits::Significant(2))
            }
            BlankKind::Plain => units.number(error, Digits::Significant(2)),
        };
        format!("± {}", shown.split(' ').next().unwrap_or(&shown))
    }
}

fn in_unit_of_a_litre(litres: f64, units: &Units) -> f64 {
    let volume = Volume::litres(litres);
    match units.volume {
        VolumeUnit::Litre => litres,
        VolumeUnit::UsGallon => volume.in_us_gallons(),
        VolumeUnit::ImperialGallon => volume.in_imperial_gallons(),
    }
}

fn unit_of(shown: &str) -> String {
    shown.split_once(' ').map_or_else(String::new, |(_, unit)| unit.to_owned())
}

fn choice(text: &str, choices: &[[String; 2]]) -> Result<String, Fault> {
    let keys: Vec<&str> = choices.iter().map(|[key, _]| key.as_str()).collect();
    let tidy = text.to_lowercase().replace([' ', '-'], "_");
    match keys.iter().find(|key| **key == tidy) {
        Some(key) => Ok((*key).to_owned()),
        None => Err(Fault::new(format!("`{text}` is not known here")).expected(format!("one of {}", keys.join(", ")))),
    }
}

fn number(blank: &MeasureBlank, text: &str, units: &Units) -> Result<Known<f64>, Fault> {
    let (text, own_error) = match text.split_once('±') {
        Some((value, error)) => (value.trim(), Some(parse_number(error.trim())?.abs())),
        None => (text, None),
    };
    let value = amount(blank, text, units)?;
    let error = match own_error {
        Some(error) => own_half_width(blank, error, units),
        None => blank.error.unwrap_or(0.0),
    };
    let (least, most) = (blank.least.unwrap_or(f64::NEG_INFINITY), blank.most.unwrap_or(f64::INFINITY));
    if !(least..=most).contains(&value) {
        let unit = &blank.unit;
        let show = |value: f64| format_number(value, Digits::Significant(4));
        return Err(Fault::new(format!("{} can't be {} {unit}", blank.says, show(value)).trim_end().to_owned())
            .expected(format!("{} to {} {unit}", show(least), show(most)).trim_end().to_owned())
            .hint("look at the unit and at the decimal sign"));
    }
    // A reading of nought is no less than nought.
    let low = if least >= 0.0 { (value - error).max(0.0) } else { value - error };
    Ok(Known::ranged(low, value, value + error, Kind::Measured))
}

/// The number in the unit of the sums.
fn amount(blank: &MeasureBlank, text: &str, units: &Units) -> Result<f64, Fault> {
    match blank.kind {
        BlankKind::Temperature => Temperature::parse_in(text, units).map(Temperature::in_celsius),
        BlankKind::Volume => Volume::parse_in(text, units).map(Volume::in_litres),
        BlankKind::Alkalinity => match parse_number(text) {
            Ok(number) => Ok(units.hardness.to_meq_per_l(number, Measure::Alkalinity)),
            Err(_) => quantity::hardness::parse_alkalinity(text).map(|reading| reading.meq_per_l),
        },
        BlankKind::Plain => {
            let bare = text.strip_suffix(blank.unit.as_str()).filter(|_| !blank.unit.is_empty()).unwrap_or(text);
            parse_number(bare.trim())
        }
    }
}

/// An error typed in the keeper's unit, in the unit of the sums.
fn own_half_width(blank: &MeasureBlank, error: f64, units: &Units) -> f64 {
    match blank.kind {
        BlankKind::Temperature => {
            TemperatureDifference::parse_in(&format!("{error}"), units).map_or(error, TemperatureDifference::in_kelvins)
        }
        BlankKind::Volume => Volume::parse_in(&format!("{error}"), units).map_or(error, Volume::in_litres),
        BlankKind::Alkalinity => units.hardness.to_meq_per_l(error, Measure::Alkalinity),
        BlankKind::Plain => error,
    }
}
