//! What a number is counted as: said by the row, proven by its limit, or asked.

use std::rc::Rc;

use knowledge::{Determinand, book};

use crate::named::Name;
use crate::reading::{Basis, Counted};
use crate::recent::{Recent, recall};
use crate::{Unit, fold, lexicon};

/// A basis and why it is taken, where the row does not print it.
pub(crate) struct Decided {
    pub counted: Counted,
    pub because: Option<String>,
}

impl Decided {
    fn plainly(counted: Counted) -> Decided {
        Decided { counted, because: None }
    }
}

impl Basis {
    /// From the word of `data/`.
    pub(crate) fn of(word: &str) -> Option<Basis> {
        Some(match word {
            "ion" => Basis::Ion,
            "N" => Basis::N,
            "P" => Basis::P,
            "P2O5" => Basis::P2O5,
            "S" => Basis::S,
            "NH3" => Basis::NH3,
            "SiO2" => Basis::SiO2,
            "Si" => Basis::Si,
            "CaCO3" => Basis::CaCO3,
            "CaO" => Basis::CaO,
            "HCO3" => Basis::HCO3,
            "Ca" => Basis::Ca,
            "acid_capacity" => Basis::AcidCapacity,
            _ => return None,
        })
    }
}

/// What a number of this row is counted as. `around`: unit, heading and words around the number; `limit_mg_per_l`: the
/// row's limit.
pub(crate) fn decide(name: &Name, unit: Option<Unit>, around: &str, limit_mg_per_l: Option<f64>) -> Decided {
    let Some(determinand) = book().determinands.get(name.key) else { return Decided::plainly(Counted::Plainly) };
    match determinand.kind.as_str() {
        "conductivity" => return conductivity(name, around),
        "mass" | "hardness" | "alkalinity" => {}
        _ => return Decided::plainly(Counted::Plainly),
    }
    let said = recalled(name, determinand, around);
    match unit {
        Some(Unit::GermanDegree | Unit::FrenchDegree | Unit::EnglishDegree | Unit::Grains) => {
            let carbonate = name.key == "alkalinity" || name.key == "bicarbonate";
            Decided::plainly(if carbonate { Counted::As(Basis::CaCO3) } else { Counted::Plainly })
        }
        Some(Unit::MmolPerL | Unit::MeqPerL) => by_amount(name, determinand, unit, &said),
        _ => by_mass(name, determinand, &said, limit_mg_per_l),
    }
}

/// [`said`], once for the same words.
fn recalled(name: &Name, determinand: &Determinand, around: &str) -> Rc<[Basis]> {
    thread_local! {
        static KEPT: Recent<Rc<[Basis]>> = const { Recent::new() };
    }
    let words = [name.key, "\n", &name.beside.join(" "), "\n", around].concat();
    recall(&KEPT, &words, || said(name, determinand, around).into())
}

/// The bases that the row names, of those that the determinand may have.
fn said(name: &Name, determinand: &Determinand, around: &str) -> Vec<Basis> {
    let mut stems = name.beside.to_vec();
    stems.extend(fold::stems(around));
    let formula = determinand.formula.as_deref().map(str::to_lowercase);
    let ion = |w: &String| {
        formula.as_ref().is_some_and(|f| {
            w.trim_end_matches(['2', '3']) == f.trim_end_matches(['2', '3']) && w.starts_with(f.as_str())
        })
    };
    let mut found: Vec<Basis> = Vec::new();
    for basis in lexicon::lexicon().bases(&stems) {
        found.extend(Basis::of(basis));
    }
    for word in &stems {
        let spelled = [("p2o5", Basis::P2O5), ("caco3", Basis::CaCO3), ("hco3", Basis::HCO3), ("sio2", Basis::SiO2)];
        let more = [("cao", Basis::CaO), ("nh3", Basis::NH3), ("si", Basis::Si), ("s", Basis::S)];
        found.extend(spelled.iter().chain(&more).filter(|(f, _)| f == word).map(|(_, b)| *b));
        if ion(word) {
            found.push(Basis::Ion);
        }
    }
    let allowed: Vec<Basis> = determinand.bases.iter().filter_map(|b| Basis::of(b)).collect();
    found.retain(|b| allowed.contains(b));
    // "Hardness (Ca/Mg)" names what makes it, and says nothing of how it is counted.
    if name.beside.iter().any(|w| w == "mg" || w == "magnesium" || w == "magnesio") {
        found.retain(|b| *b != Basis::Ca);
    }
    found.sort_unstable();
    found.dedup();
    // "NO3-N": the substance's formula only names it.
    if found.len() > 1 {
        found.retain(|b| *b != Basis::Ion);
    }
    if found.contains(&Basis::N) {
        found.retain(|b| *b != Basis::NH3);
    }
    found
}

fn by_amount(name: &Name, determinand: &Determinand, unit: Option<Unit>, said: &[Basis]) -> Decided {
    let twofold = unit == Some(Unit::MmolPerL) && said.contains(&Basis::CaCO3);
    Decided::plainly(match determinand.kind.as_str() {
        "alkalinity" if name.key == "bicarbonate" => Counted::As(Basis::HCO3),
        // A millimole of calcium carbonate takes up two of acid.
        "alkalinity" if twofold || name.key == "hardness_carbonate" && unit == Some(Unit::MmolPerL) => {
            Counted::Open(vec![Basis::CaCO3, Basis::AcidCapacity])
        }
        "alkalinity" => Counted::As(Basis::AcidCapacity),
        "hardness" => Counted::Plainly,
        _ if determinand.bases.is_empty() => Counted::Plainly,
        _ => Counted::As(Basis::Ion),
    })
}

fn by_mass(name: &Name, determinand: &Determinand, said: &[Basis], limit_mg_per_l: Option<f64>) -> Decided {
    let allowed = || determinand.bases.iter().filter_map(|b| Basis::of(b)).collect::<Vec<_>>();
    match said {
        [one] => return Decided::plainly(Counted::As(*one)),
        [] => {}
        several => return Decided::plainly(Counted::Open(several.to_vec())),
    }
    if let Some(basis) = name.counted.and_then(Basis::of) {
        return Decided::plainly(Counted::As(basis));
    }
    let ask = name.counted == Some("ask");
    if name.by_symbol && !ask && determinand.formula.is_some() && determinand.bases.iter().any(|b| b == "ion") {
        return Decided::plainly(Counted::As(Basis::Ion));
    }
    if determinand.bases.is_empty() {
        return Decided::plainly(Counted::Plainly);
    }
    if let (false, Some(basis)) = (ask, Basis::of(&determinand.bare)) {
        return Decided::plainly(Counted::As(basis));
    }
    by_limit(determinand, limit_mg_per_l).unwrap_or_else(|| Decided::plainly(Counted::Open(allowed())))
}

/// A limit of 50 mg/L beside nitrate is that of NO3.
fn by_limit(determinand: &Determinand, limit_mg_per_l: Option<f64>) -> Option<Decided> {
    let limit = limit_mg_per_l?;
    let says = determinand.limits.iter().find(|l| (l.value / limit - 1.0).abs() < 0.005)?;
    let source = book().cite_words(&says.source);
    let counted = if says.basis == "ion" { determinand.formula.clone()? } else { says.basis.clone() };
    Some(Decided {
        counted: Counted::As(Basis::of(&says.basis)?),
        because: Some(format!(
            "the limit of {limit} mg/L in its row is that of {} as {counted} ({source})",
            determinand.name
        )),
    })
}

/// 20 or 25 °C, where the row says it.
fn conductivity(name: &Name, around: &str) -> Decided {
    let mut stems = name.beside.to_vec();
    stems.extend(fold::stems(around));
    let has = |t: &str| {
        stems.iter().any(|w| {
            w == t
                || ["c", "oc", "degc", "grad"].iter().any(|s| w.strip_suffix(s) == Some(t))
                || ["lf", "ec", "k", "κ"].iter().any(|p| w.strip_prefix(p) == Some(t))
        })
    };
    Decided::plainly(match (has("20"), has("25")) {
        (true, false) => Counted::As(Basis::At20C),
        (false, true) => Counted::As(Basis::At25C),
        (true, true) => Counted::Open(vec![Basis::At20C, Basis::At25C]),
        (false, false) => Counted::Plainly,
    })
}
