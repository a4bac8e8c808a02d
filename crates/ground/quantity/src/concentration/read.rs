//! How a concentration is written: number, unit, substance and basis, in any of their orders.

use super::Reading;
use crate::Fault;
use crate::basis::{Basis, equivalents_per_mole, needs_basis, possible_bases};
use crate::chem::Ion;
use crate::hardness::{Measure, plain_degree};
use crate::lex::{Token, lex, shorten};
use crate::number::canonical;
use crate::per_litre::{Scale, numerator, per_litre};
use crate::span::amount;
use crate::units::Units;

/// Read an amount of `ion`.
///
/// # Errors
/// No number, an unknown word or unit, another substance than `ion`, a negative amount, or an amount in mass units
/// without a basis where one is needed: that fault lists what each would mean.
pub fn parse_concentration(text: &str, ion: Ion) -> Result<Reading, Fault> {
    let mut readings = possible_readings(text, ion)?;
    match (readings.len(), readings.pop()) {
        (1, Some(reading)) => Ok(reading),
        (_, last) => {
            readings.extend(last);
            Err(basis_question(text, ion, &readings))
        }
    }
}

/// All that the text can mean: one reading, or one for each basis if it has none and needs one (the ion's first).
///
/// # Errors
/// As [`parse_concentration`], but for the missing basis.
pub fn possible_readings(text: &str, ion: Ion) -> Result<Vec<Reading>, Fault> {
    let tokens = lex(text)?;
    let found = amount(&tokens, text)?;
    if found.low < 0.0 {
        return Err(Fault::new(format!("`{}` is below zero", shorten(text)))
            .expected(format!("an amount of {} from zero up", ion.name()))
            .hint("drop the minus sign; for a range write 10 to 25"));
    }
    let words = Words::read(&found.words, ion, text)?;
    let basis = words.strong.or(words.weak);
    let reading = |per_unit: f64, basis: Basis| Reading {
        ion,
        comparator: found.comparator,
        low_mol_per_l: canonical(found.low * per_unit),
        mol_per_l: canonical(found.value * per_unit),
        high_mol_per_l: canonical(found.high * per_unit),
        basis,
        unit_assumed: words.scale.is_none(),
        as_written: text.trim().to_owned(),
    };
    let weighed = |mg: f64, basis: Basis| Some(reading(mg / (1e3 * basis.grams_per_mole(ion)?), basis));
    match words.scale.unwrap_or(Scale::Mass(1.0)) {
        Scale::Charge(eq) => {
            let z = equivalents_per_mole(ion).ok_or_else(|| no_charge(text, ion))?;
            Ok(vec![reading(eq / z, Basis::AsCharge)])
        }
        Scale::Amount(mol) => {
            let basis = basis.unwrap_or(Basis::AsIon);
            Ok(vec![reading(mol * ions_in_formula(ion, basis), basis)])
        }
        Scale::Mass(mg) => match basis {
            Some(basis) => Ok(weighed(mg, basis).into_iter().collect()),
            None if needs_basis(ion) => Ok(possible_bases(ion).iter().filter_map(|&b| weighed(mg, b)).collect()),
            None => Ok(weighed(mg, Basis::AsIon).into_iter().collect()),
        },
    }
}

/// P2O5 and K2O hold two.
fn ions_in_formula(ion: Ion, basis: Basis) -> f64 {
    match (basis, ion) {
        (Basis::AsOxide, Ion::Phosphate | Ion::Potassium) => 2.0,
        _ => 1.0,
    }
}

fn basis_question(text: &str, ion: Ion, readings: &[Reading]) -> Fault {
    let units = Units::default();
    let formula = |r: &Reading| r.basis.formula(ion).unwrap_or_default();
    let meant: Vec<String> =
        readings.iter().map(|r| format!("as {}: {}", formula(r), r.show(Basis::AsIon, &units))).collect();
    let ways: Vec<String> = readings.iter().map(|r| format!("`{} as {}`", shorten(text), formula(r))).collect();
    Fault::new(format!("`{}` does not say how the {} is counted", shorten(text), ion.name()))
        .expected(format!("a basis: {}", meant.join("; ")))
        .hint(format!("write {}; the report, the kit's leaflet or the supplier says which", ways.join(" or ")))
}

fn no_charge(text: &str, ion: Ion) -> Fault {
    let why = match ion {
        Ion::Phosphate => "its charge moves with the pH",
        _ => "an analysis fixes no charge for it",
    };
    Fault::new(format!("`{}` counts {} by its charge, but {why}", shorten(text), ion.name()))
        .expected(format!("mg/L or mmol/L, such as 0.1 mg/L {}", ion.formula()))
        .hint("take mg/L or mmol/L from the report")
}

/// What the words around the number say.
#[derive(Default)]
struct Words {
    scale: Option<Scale>,
    /// Said outright: "as N", "mg N/L", "NO3-N".
    strong: Option<Basis>,
    /// A formula somewhere: "mg/L NO3".
    weak: Option<Basis>,
}

impl Words {
    fn read(tokens: &[Token], ion: Ion, text: &str) -> Result<Words, Fault> {
        let mut words = Words::default();
        let (mut at, mut after_as) = (0, false);
        while let Some(token) = tokens.get(at) {
            if let Some(unit) = per_litre(tokens, at) {
                words.set_scale(unit.scale, text)?;
                if let Some(inside) = unit.inside {
                    let basis = substance(&inside, ion, text)?.ok_or_else(|| unknown(&inside, text, ion))?;
                    words.set_strong(basis, text)?;
                }
                at = unit.next;
                continue;
            }
            at += 1;
            let Token::Word(word) = token else {
                if matches!(token, Token::Slash | Token::At | Token::Dash) {
                    return Err(not_understood(text, ion));
                }
                continue;
            };
            match word.to_lowercase().as_str() {
                "as" | "als" => {
                    after_as = true;
                    continue;
                }
                "of" | "in" | "the" | "total" | "dissolved" | "content" | "ion" | "ions" => continue,
                // The metal and the milligram look alike: "12 Mg" is magnesium, "12 mg" lacks its litre.
                unit if numerator(unit).is_some() && (ion != Ion::Magnesium || word == "mg") => {
                    return Err(no_volume(word, text, ion));
                }
                _ => {}
            }
            if let Some(basis) = substance(word, ion, text)? {
                if let [Token::Dash, Token::Word(other), ..] = &tokens[at..] {
                    at += 2;
                    let other = substance(other, ion, text)?.ok_or_else(|| unknown(other, text, ion))?;
                    words.set_strong(hyphenated(basis, other).ok_or_else(|| not_understood(text, ion))?, text)?;
                } else if after_as {
                    words.set_strong(basis, text)?;
                } else {
                    words.set_weak(basis, text)?;
                }
                after_as = false;
            } else if let Some(degree) = plain_degree(word).filter(|_| matches!(ion, Ion::Calcium | Ion::Magnesium)) {
                words.set_scale(Scale::Charge(1e-3 * degree.meq_per_unit(Measure::Hardness)), text)?;
            } else {
                return Err(unknown(word, text, ion));
            }
        }
        Ok(words)
    }

    fn set_scale(&mut self, scale: Scale, text: &str) -> Result<(), Fault> {
        if self.scale.is_some_and(|s| s != scale) {
            return Err(Fault::new(format!("`{}` has two units", shorten(text)))
                .expected("one unit, such as mg/L")
                .hint("leave one of the two out"));
        }
        self.scale = Some(scale);
        Ok(())
    }

    fn set_strong(&mut self, basis: Option<Basis>, text: &str) -> Result<(), Fault> {
        match (self.strong, basis) {
            (Some(old), Some(new)) if old != new => Err(counted_twice(text)),
            (_, new) => {
                self.strong = new.or(self.strong);
                Ok(())
            }
        }
    }

    /// The ion's own formula gives way: in "NO3 N" it only names the substance.
    fn set_weak(&mut self, basis: Option<Basis>, text: &str) -> Result<(), Fault> {
        self.weak = match (self.weak, basis) {
            (Some(old), Some(new)) if old != new && old != Basis::AsIon && new != Basis::AsIon => {
                return Err(counted_twice(text));
            }
            (Some(old), Some(Basis::AsIon)) => Some(old),
            (old, new) => new.or(old),
        };
        Ok(())
    }
}

/// "NO3-N", "N-NO3", "nitrate-nitrogen": one side names the substance, the other is the element that is counted.
fn hyphenated(one: Option<Basis>, other: Option<Basis>) -> Option<Option<Basis>> {
    let names = |side| matches!(side, None | Some(Basis::AsIon));
    let counts = |side| side == Some(Basis::AsElement);
    ((names(one) && counts(other)) || (counts(one) && names(other))).then_some(Some(Basis::AsElement))
}

/// What `word` says of `ion`: a basis, or its plain name (`Some(None)`); `None` if the word is no substance.
fn substance(word: &str, ion: Ion, text: &str) -> Result<Option<Option<Basis>>, Fault> {
    let bare = word.trim_end_matches(|c: char| c.is_ascii_digit());
    // "Ca2+" and "SO42-" come here as "Ca2" and "SO42".
    let shortened = word.char_indices().last().map_or("", |(i, _)| &word[..i]);
    let spellings = [word, if bare.is_empty() { word } else { shortened }];
    let mut others = Vec::new();
    for spelling in spellings {
        for candidate in Ion::ALL {
            if let Some(said) = says(spelling, candidate) {
                if candidate == ion {
                    return Ok(Some(said));
                }
                others.push(candidate.name());
            }
        }
        if !others.is_empty() {
            return Err(Fault::new(format!(
                "`{}` names {}, but {} is asked for",
                shorten(text),
                others.join(" or "),
                ion.name()
            ))
            .expected(format!("an amount of {}, such as {}", ion.name(), example(ion)))
            .hint("this line of the report may belong to another field"));
        }
        if word.chars().last().is_none_or(|c| !c.is_ascii_digit()) {
            break;
        }
    }
    Ok(None)
}

/// What `word` says of this one ion.
fn says(word: &str, ion: Ion) -> Option<Option<Basis>> {
    let basis = possible_bases(ion).iter().find(|b| b.formula(ion).is_some_and(|f| f.eq_ignore_ascii_case(word)));
    if let Some(&basis) = basis {
        return Some(Some(basis));
    }
    let element = |ion: Ion| Basis::AsElement.formula(ion);
    match (word.to_lowercase().as_str(), ion) {
        (name, _) if name == ion.name() => Some(None),
        ("ammonia", Ion::Ammonium) | ("orthophosphate", Ion::Phosphate) | ("sulphate", Ion::Sulfate) => Some(None),
        ("tan", Ion::Ammonium) => Some(Some(Basis::AsElement)),
        ("nitrogen", _) if element(ion) == Some("N") => Some(Some(Basis::AsElement)),
        ("phosphorus", _) if element(ion) == Some("P") => Some(Some(Basis::AsElement)),
        ("sulfur" | "sulphur", _) if element(ion) == Some("S") => Some(Some(Basis::AsElement)),
        // "NO3N"
        (joined, _) => {
            let element = element(ion)?;
            let rest = joined.strip_suffix(element.to_lowercase().as_str())?;
            rest.eq_ignore_ascii_case(ion.formula()).then_some(Some(Basis::AsElement))
        }
    }
}

fn counted_twice(text: &str) -> Fault {
    Fault::new(format!("`{}` is counted in two ways at once", shorten(text)))
        .expected("one basis, such as 12 mg/L as NO3")
        .hint("leave one of the two out; the report's heading says which it counts by")
}

fn unknown(word: &str, text: &str, ion: Ion) -> Fault {
    Fault::new(format!("`{}` in `{}` is not understood", shorten(word), shorten(text)))
        .expected(format!("an amount of {}, such as {}", ion.name(), example(ion)))
        .hint("units are mg/L, µg/L, g/L, ppm, mmol/L, µmol/L or meq/L")
}

fn no_volume(unit: &str, text: &str, ion: Ion) -> Fault {
    Fault::new(format!("`{}` says {unit} but not in how much water", shorten(text)))
        .expected(format!("an amount in a litre, such as {}", example(ion)))
        .hint("put /L behind the unit if the litre is meant")
}

fn not_understood(text: &str, ion: Ion) -> Fault {
    Fault::new(format!("`{}` is not understood", shorten(text)))
        .expected(format!("an amount of {}, such as {}", ion.name(), example(ion)))
        .hint("units are mg/L, µg/L, g/L, ppm, mmol/L, µmol/L or meq/L")
}

fn example(ion: Ion) -> String {
    format!("1 mg/L {}", ion.formula())
}
