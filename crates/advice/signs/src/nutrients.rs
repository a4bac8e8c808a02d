//! Whether a nutrient can be short here.
//!
//! What: the level of an ion, read or worked out, against the level below which leaves can't take enough.
//! Equation: struck out where even the least likely low stands above the bound; likely where the best estimate is below.
//! Symbols: mg/L of the ion.
//! Range: nutrients in the water; over a soil that feeds the water says little, and of iron a level says little anywhere.
//! Source: bounds in `data/meanings.toml` (common practice, from half saturations of uptake).
//! Checked by: `tests/elimination.rs`.

use knowledge::book;
use quantity::Ion;
use setup::Feeding;

use crate::Standing;
use crate::facts::Facts;

/// Nutrients whose shortage is a cause, with the cause.
const OF: [(&str, Ion); 6] = [
    ("nitrogen_short", Ion::Nitrate),
    ("phosphorus_short", Ion::Phosphate),
    ("potassium_short", Ion::Potassium),
    ("magnesium_short", Ion::Magnesium),
    ("calcium_short", Ion::Calcium),
    ("iron_short", Ion::Iron),
];

/// The ion that a cause is short of.
pub(crate) fn ion_of(cause: &str) -> Option<Ion> {
    OF.iter().find(|(key, _)| *key == cause).map(|(_, ion)| *ion)
}

/// Whether an ion can be short.
pub(crate) fn short(facts: &Facts, ion: Ion) -> (Standing, String) {
    let Some(bound) = book().meanings.short.get(&ion) else { return (Standing::Open, String::new()) };
    let shown = facts.pen.ion(ion, bound.value);
    let Some((level, from)) = facts.level(ion) else {
        return (Standing::Open, format!("what stands in your tank is not known; below {shown} it can be short"));
    };
    let soil = facts.tank.feeding == Feeding::None;
    if level.low >= bound.value {
        // Iron that was read may be bound where no plant gets at it.
        if ion == Ion::Iron {
            return (Standing::Open, format!("{from}, but how much of it plants can take a test does not say"));
        }
        return (Standing::StruckOut, format!("{from}; it can be short below {shown}"));
    }
    if soil {
        return (Standing::Open, format!("{from}, but your ground feeds, and the roots take from there"));
    }
    if level.value < bound.value {
        return (Standing::Likely, format!("{from}, and below {shown} it can be short"));
    }
    (Standing::Possible, format!("{from}, so it may fall below {shown}"))
}

/// Whether the plants lack any of them.
pub(crate) fn any_short(facts: &Facts) -> (Standing, String) {
    let all: Vec<(Ion, Standing, String)> = OF
        .iter()
        .map(|(_, ion)| {
            let (standing, because) = short(facts, *ion);
            (*ion, standing, because)
        })
        .collect();
    let best = all.iter().map(|(_, standing, _)| *standing).min().unwrap_or(Standing::Open);
    let named = |wanted: Standing| {
        let names: Vec<String> =
            all.iter().filter(|(_, standing, _)| *standing == wanted).map(|(ion, ..)| ion.name().to_owned()).collect();
        recipe::say::list(&names)
    };
    match best {
        Standing::Likely | Standing::Possible => (best, format!("short can be: {}", named(best))),
        Standing::Open => (Standing::Open, format!("not known: {}; the rest is not short", named(Standing::Open))),
        Standing::StruckOut => (
            Standing::StruckOut,
            "none of nitrogen, phosphorus, potassium, magnesium, calcium falls short here".to_owned(),
        ),
    }
}
