//! One value of the file, understood: from what the keeper wrote to a number in the unit in which the field is kept.

use quantity::amount::{Duration, Length, Mass, Power, Share, Temperature, Volume};
use quantity::basis::possible_bases;
use quantity::concentration::{Reading, possible_readings};
use quantity::conductivity::parse_conductivity;
use quantity::hardness::{parse_alkalinity, parse_hardness};
use quantity::number::{canonical, parse_number};
use quantity::{Fault, Ion, Kind, Known};

use crate::takes::Takes;

/// What a text can mean.
pub(crate) enum Meaning {
    /// One number, in the unit in which the field is kept.
    Number(Known<f64>),
    /// It has no basis and needs one: what each would mean.
    Open(Vec<Reading>),
}

/// Read an amount.
///
/// # Errors
/// What stands there is no amount of this kind; the fault has no place yet.
pub(crate) fn amount(takes: Takes, text: &str) -> Result<Meaning, Fault> {
    let number = match takes {
        Takes::Concentration(ion) => return concentration(ion, text, 1.0),
        Takes::Label(ion) => return label(ion, text),
        Takes::Uptake(ion) => return concentration(ion, per_day(text)?, 1.0),
        Takes::Hardness => {
            let reading = parse_hardness(text)?;
            known(reading.low_meq_per_l, reading.meq_per_l, reading.high_meq_per_l)
        }
        Takes::Alkalinity => {
            let reading = parse_alkalinity(text)?;
            known(reading.low_meq_per_l, reading.meq_per_l, reading.high_meq_per_l)
        }
        Takes::Conductivity => parse_conductivity(text)?.at_25()?,
        Takes::Chlorine => milligrams(text, &["as cl2", "cl2", "chlorine", "total chlorine"])?,
        Takes::WaterCo2 => milligrams(text, &["co2", "carbon dioxide"])?,
        Takes::MassPerDay | Takes::VolumePerDay => spread(per_day(text)?, |part| scalar(takes, part))?,
        _ => spread(text, |part| scalar(takes, part))?,
    };
    closed(number, text).map(Meaning::Number)
}

fn known(low: f64, value: f64, high: f64) -> Known<f64> {
    Known::ranged(low, value, high, Kind::Measured)
}

/// A range must end somewhere.
fn closed(number: Known<f64>, text: &str) -> Result<Known<f64>, Fault> {
    if number.low.is_finite() && number.value.is_finite() && number.high.is_finite() {
        return Ok(number);
    }
    Err(Fault::new(format!("`{}` has no upper end", text.trim())).expected("a number, or a range such as 10 to 25"))
}

fn concentration(ion: Ion, text: &str, factor: f64) -> Result<Meaning, Fault> {
    let mut readings = possible_readings(text, ion)?;
    if readings.len() > 1 {
        return Ok(Meaning::Open(readings));
    }
    let reading = readings.pop().ok_or_else(|| Fault::new(format!("`{}` can't be read", text.trim())))?;
    if reading.unit_assumed {
        return Err(Fault::new(format!("`{}` has no unit", text.trim()))
            .expected(format!("an amount of {} in water with its unit", ion.name()))
            .hint(format!("write \"{} mg/L\" if that is what the report means", text.trim())));
    }
    let number = reading.known_mg_per_l(Kind::Measured).map(|mg| canonical(mg * factor));
    closed(number, text).map(Meaning::Number)
}

/// What a label says: percent, or an amount in a millilitre, a litre, a kilogram. Kept in mg in a gram or millilitre;
/// a percent is ten of them.
fn label(ion: Ion, text: &str) -> Result<Meaning, Fault> {
    let percent = label_factor(text);
    // A percent is ten grams in a kilogram, which is how the reader of waters can take it.
    let (text, factor) = match percent {
        Some(factor) => (text.replacen('%', " g/kg ", 1), factor),
        None => (text.to_owned(), 1e-3),
    };
    let bases: Vec<&str> = possible_bases(ion).iter().filter_map(|basis| basis.formula(ion)).collect();
    // "mg" is a unit and "Mg" is not, so short formulas count only as they are spelt.
    let is_said = |word: &str| bases.iter().any(|f| word == *f || f.len() > 2 && word.eq_ignore_ascii_case(f));
    if bases.len() == 1 || text.split(|c: char| !c.is_alphanumeric()).any(is_said) {
        return concentration(ion, &text, factor);
    }
    // Labels count potassium, calcium and magnesium as oxides as often as not, and seldom as lime.
    let mut readings = Vec::new();
    for formula in bases.iter().filter(|formula| **formula != "CaCO3") {
        let mut each = possible_readings(&format!("{text} as {formula}"), ion)?;
        each.iter_mut().for_each(|reading| scale(reading, factor * 1e3));
        readings.extend(each);
    }
    Ok(Meaning::Open(readings))
}

/// A label's percent in mg in a gram for each mg in a "litre" (kilogram); `None`: the text is no percent.
pub(crate) fn label_factor(text: &str) -> Option<f64> {
    text.contains('%').then_some(1e-3 * 10.0)
}

fn scale(reading: &mut Reading, factor: f64) {
    for amount in [&mut reading.low_mol_per_l, &mut reading.mol_per_l, &mut reading.high_mol_per_l] {
        *amount = canonical(*amount * factor);
    }
}

/// `0.4 mg/L`, with or without the name of what it is: read like any dissolved ion that needs no basis.
fn milligrams(text: &str, names: &[&str]) -> Result<Known<f64>, Fault> {
    let mut bare = text.to_lowercase();
    for name in names {
        bare = bare.replace(name, " ");
    }
    let fault = |fault: Fault| Fault { what: fault.what.replace(bare.trim(), text.trim()), ..fault };
    match concentration(Ion::Chloride, &bare, 1.0).map_err(fault)? {
        Meaning::Number(number) => Ok(number),
        Meaning::Open(_) => Err(Fault::new(format!("`{}` can't be read", text.trim())).expected("an amount in mg/L")),
    }
}

const DAILY: [&str; 8] = ["a day", "per day", "/day", "/ day", "/d", "daily", "each day", "every day"];

/// The text without "a day", "per day", "/day", "daily".
pub(crate) fn without_day(text: &str) -> &str {
    let text = text.trim();
    let ends = |day: &&&str| {
        text.len() > day.len()
            && text.is_char_boundary(text.len() - day.len())
            && text[text.len() - day.len()..].eq_ignore_ascii_case(day)
    };
    DAILY.iter().find(ends).map_or(text, |day| text[..text.len() - day.len()].trim_end())
}

/// The same, where an amount must say that it is one a day.
fn per_day(text: &str) -> Result<&str, Fault> {
    let short = without_day(text);
    if short.len() < text.trim().len() {
        return Ok(short);
    }
    Err(Fault::new(format!("`{}` does not say for how long", text.trim()))
        .expected("an amount a day")
        .hint(format!("write \"{} a day\" if that is meant", text.trim())))
}

/// `7 to 18 °C`: both ends by one reader, the unit of the second for the first if that has none.
fn spread(text: &str, read: impl Fn(&str) -> Result<f64, Fault>) -> Result<Known<f64>, Fault> {
    let Some((from, to)) = text.split_once(" to ") else {
        return read(text).map(|value| Known::exact(value, Kind::Measured));
    };
    let high = read(to)?;
    let low = match parse_number(from.trim()) {
        Ok(_) => read(&with_number(to, from.trim()))?,
        Err(_) => read(from)?,
    };
    if low > high {
        return Err(Fault::new(format!("`{}` runs backwards", text.trim())).expected("the lower end first"));
    }
    Ok(known(low, canonical(0.5 * (low + high)), high))
}

/// `model` with its number replaced: `14 mg/L NO3` and `8` make `8 mg/L NO3`. A digit behind a letter is no number.
pub(crate) fn with_number(model: &str, number: &str) -> String {
    let mut before = ' ';
    let mut start = None;
    for (at, c) in model.char_indices() {
        if c.is_ascii_digit() && !before.is_alphanumeric() {
            start = Some(at);
            break;
        }
        before = c;
    }
    let Some(start) = start else { return number.to_owned() };
    let rest = &model[start..];
    let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(rest.len());
    let end = end + power_of_ten(&rest[end..]);
    // A sign that stands before the number goes with it.
    let head = model[..start].trim_end_matches(['-', '+', '<', '>', '~']);
    format!("{head}{number}{}", &rest[end..])
}

/// How many bytes of `e3` or `E-4` stand at the beginning: they belong to the number.
fn power_of_ten(rest: &str) -> usize {
    let Some(power) = rest.strip_prefix(['e', 'E']) else { return 0 };
    let digits = power.strip_prefix(['-', '+']).unwrap_or(power);
    let more = digits.bytes().take_while(u8::is_ascii_digit).count();
    if more == 0 { 0 } else { rest.len() - digits.len() + more }
}

/// One plain amount in the unit in which it is kept.
fn scalar(takes: Takes, text: &str) -> Result<f64, Fault> {
    Ok(match takes {
        Takes::Length => Length::parse(text)?.in_metres(),
        Takes::Volume | Takes::VolumePerDay => Volume::parse(text)?.in_litres(),
        Takes::Dose => Volume::parse(text)?.in_millilitres(),
        Takes::Mass | Takes::MassPerDay => Mass::parse(text)?.in_grams(),
        // A volume stays in litres; the document remembers which of the two it is.
        Takes::MassOrVolume => match solid_volume_l(text) {
            Some(litres) => litres,
            None => Mass::parse(text)?.in_kilograms(),
        },
        Takes::Temperature => Temperature::parse(text)?.in_celsius(),
        Takes::Percent => percent(text)?,
        Takes::Days => Duration::parse(text)?.in_days(),
        Takes::HoursOfDay => Duration::parse(text)?.in_hours(),
        Takes::AirCo2 => air(text)?,
        Takes::Density => density(text)?,
        Takes::VolumePerHour => Volume::parse(unit_off(text, &["/h", "an hour", "per hour"], "180 L/h")?)?.in_litres(),
        Takes::HeatLoss => bare(unit_off(text, &["W/K", "W/°C"], "6 W/K")?)?,
        Takes::PerHour => bare(unit_off(text, &["1/h", "/h", "an hour", "per hour"], "0.2 /h")?)?,
        Takes::Power => Power::parse(text)?.in_watts(),
        Takes::Photons => bare(unit_off(text, &["µmol/m²s", "µmol/m²/s", "µmol", "umol"], "40 µmol/m²s")?)?,
        _ => bare(text)?,
    })
}

/// A share that says that it is one: 0.4 may be 40 % or 0.4 %.
fn percent(text: &str) -> Result<f64, Fault> {
    if !text.contains('%') && !text.to_lowercase().contains("percent") {
        return Err(Fault::new(format!("`{}` has no sign %", text.trim()))
            .expected("a share in percent")
            .hint(format!("write \"{} %\" if that is meant", text.trim())));
    }
    Share::parse(text).map(Share::in_parts)
}

fn air(text: &str) -> Result<f64, Fault> {
    let lower = text.to_lowercase();
    match lower.trim().strip_suffix("ppm") {
        Some(number) => bare(number),
        None => {
            Err(Fault::new(format!("`{}` is not in ppm", text.trim())).expected("a share of the air, such as 900 ppm"))
        }
    }
}

/// The text without its unit, of which it must have one.
fn unit_off<'t>(text: &'t str, units: &[&str], example: &str) -> Result<&'t str, Fault> {
    let text = text.trim();
    let found = units.iter().find_map(|unit| text.strip_suffix(unit));
    found.map(str::trim_end).ok_or_else(|| {
        Fault::new(format!("`{text}` has no unit that I know here")).expected(format!("an amount such as {example}"))
    })
}

fn density(text: &str) -> Result<f64, Fault> {
    let lower = text.to_lowercase().replace(' ', "");
    let (number, factor) = match (lower.strip_suffix("kg/l"), lower.strip_suffix("g/ml"), lower.strip_suffix("g/l")) {
        (Some(number), _, _) | (_, Some(number), _) => (number, 1.0),
        (_, _, Some(number)) => (number, 1e-3),
        _ => return Err(Fault::new(format!("`{}` is no density", text.trim())).expected("a density such as 1.1 kg/L")),
    };
    Ok(canonical(bare(number)? * factor))
}

/// A number without a unit.
pub(crate) fn bare(text: &str) -> Result<f64, Fault> {
    parse_number(text.trim()).map_err(|fault| match fault.expected {
        Some(_) => fault,
        None => fault.expected("a number without a unit"),
    })
}

/// Whether rock or wood was given as a volume; then it is kept in L.
pub(crate) fn solid_volume_l(text: &str) -> Option<f64> {
    Volume::parse(text).ok().map(Volume::in_litres)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_number_changes_and_the_unit_stays() {
        assert_eq!(with_number("14 mg/L NO3", "8"), "8 mg/L NO3");
        assert_eq!(with_number("NO3: 14,5 mg/L", "8"), "NO3: 8 mg/L");
        assert_eq!(with_number("<0.05 mg P/l", "0.1"), "0.1 mg P/l");
        assert_eq!(with_number("no number", "8"), "8");
        assert_eq!(with_number("2e3 mg/L as PO4", "8"), "8 mg/L as PO4");
        assert_eq!(with_number("1E-9 mg/L", "8"), "8 mg/L");
        assert_eq!(with_number("5 e", "8"), "8 e");
    }

    #[test]
    fn a_day_is_asked_for_and_taken_off() {
        assert_eq!(per_day("0.2 g a day").unwrap(), "0.2 g");
        assert_eq!(per_day("0.2 g/day").unwrap(), "0.2 g");
        assert!(per_day("0.2 g").is_err());
    }
}
