//! Where what is known of a water disagrees with itself, and what would mend it.
//!
//! **What.** Three equations bind a water: hardness is calcium and magnesium, the charges balance, the ions carry
//! the conductivity. Each is tried by leaving one value out and asking the others for it. Where that fails, every
//! other way in which a printed number may be meant is tried, every ion that was not reported, and every single
//! value as a slip.
//!
//! **Equation.** z = (worked out from the rest - measured)/√(both variances); a clash at |z| > 3.5, once in two
//! thousand sound reports. The variance of what is worked out comes from the fit: z = r/√(1 - wᵀA⁻¹w) (deleted
//! residual).
//!
//! **Symbols.** r residual and w gradient of the value's row, in its standard deviations; A the normal matrix.
//!
//! **Range.** What was measured has nothing usual here, so that an unusual water is no clash. What was not measured
//! has (`data/waters.toml`, `data/bounds.toml`): a water whose missing ion would have to lie outside the usual is a
//! clash, and the ion is named.
//!
//! **Source.** Deleted residuals (textbook, from memory); ion balance `standard_methods_1030`.
//!
//! **Checked by** `tests/by_hand_estimate.rs`, `tests/published_waters.rs`, `tests/twin_basis.rs`.

use knowledge::book;
use quantity::{Comparator, Digits, Ion, format_number};

use super::fit::{Fit, Problem, Row};
use super::state::{HARDNESS, N, SHARE, ions, meq_per_mg};
use super::usual::Usual;
use super::{Evidence, Item, Quantity};

/// Beyond so many standard deviations two statements disagree.
const DISAGREES: f64 = 3.5;
/// How sharply the usual ends (`data/bounds.toml`), as a share of its end; assumed.
const BLUNT: f64 = 0.1;
/// Within so many they agree.
const AGREES: f64 = 2.5;

/// Which equation fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Equation {
    /// One quantity told twice.
    Twice,
    /// Hardness = calcium + magnesium.
    Hardness,
    /// Cations = anions.
    Balance,
    /// The ions carry the conductivity.
    Conductivity,
}

/// What would mend a clash.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mend {
    /// A printed number is meant otherwise: place in [`Evidence::items`], and how.
    Basis {
        /// Place in [`Evidence::items`].
        item: usize,
        /// How it is meant then.
        meant: String,
    },
    /// An ion that was not reported is there in plenty, mg/L.
    Missing {
        /// The ion.
        ion: Ion,
        /// How much of it.
        mg_per_l: f64,
    },
    /// This value alone is wrong: place in [`Evidence::items`].
    Slip {
        /// Place in [`Evidence::items`].
        item: usize,
    },
}

/// A place where the evidence disagrees with itself.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Clash {
    /// Which equation fails.
    pub equation: Equation,
    /// What was measured, in the unit of the quantity.
    pub measured: f64,
    /// What the rest says.
    pub worked_out: f64,
    /// How far apart they are, in standard deviations of both; positive where the rest says more.
    pub z: f64,
    /// What would mend it, each alone; empty where no single change would.
    pub mends: Vec<Mend>,
    /// All of it in a sentence or two.
    pub text: String,
}

/// Every clash; empty where the evidence agrees with itself.
pub fn clashes(evidence: &Evidence, usual: &Usual) -> Vec<Clash> {
    let mut found = fails(evidence, usual);
    let failed: Vec<Equation> = found.iter().map(|clash| clash.equation).collect();
    if failed.iter().any(|equation| *equation != Equation::Twice) {
        let mends = mends(evidence, usual);
        for clash in found.iter_mut().filter(|clash| clash.equation != Equation::Twice) {
            clash.mends.clone_from(&mends);
        }
    }
    for clash in &mut found {
        clash.text = words(clash, evidence);
    }
    found
}

/// The equations that fail.
fn fails(evidence: &Evidence, usual: &Usual) -> Vec<Clash> {
    let mut found: Vec<Clash> = twice(evidence).into_iter().collect();
    found.extend(hardness(evidence));
    let is_tried = |equation: Equation, of: Quantity| match equation {
        Equation::Conductivity => of.is_conductivity(),
        _ => of == Quantity::Alkalinity,
    };
    for equation in [Equation::Balance, Equation::Conductivity] {
        let mut problem = problem(evidence, usual, None);
        if equation == Equation::Balance {
            problem.rows.retain(|row| !row.of.is_conductivity());
        }
        let Some(fit) = problem.fit() else { continue };
        let row = problem.rows.iter().position(|row| is_tried(equation, row.of) && row.comparator != Comparator::Below);
        found.extend(row.and_then(|row| clash(equation, &problem, &fit, row)));
    }
    found
}

/// A clash of one row with all others.
fn clash(equation: Equation, problem: &Problem, fit: &Fit, row: usize) -> Option<Clash> {
    let z = fit.alone(row).filter(|z| z.abs() > DISAGREES)?;
    let tried = problem.rows.get(row)?;
    // The fit lies between the two; what the rest says lies as far beyond as the value pulled.
    let mut rest = problem.clone();
    rest.rows.remove(row);
    let worked_out = rest.fit()?.water.value(tried.of, problem.ph)?;
    Some(Clash { equation, measured: tried.value, worked_out, z, mends: Vec::new(), text: String::new() })
}

/// The problem of a clash: nothing usual about what was measured, nothing beyond the usual in what was not, but for one
/// ion that may be there in plenty.
pub(super) fn problem(evidence: &Evidence, usual: &Usual, plenty: Option<Ion>) -> Problem {
    let mut usual = freed(evidence, usual);
    if let Some(ion) = plenty {
        usual = usual.free(&std::array::from_fn(|i| i == ion.index()));
    }
    let mut problem = Problem::of(evidence, &usual);
    let is_told = |of| evidence.usable().any(|(_, item)| item.of == of);
    for (_, ion) in ions() {
        let of = Quantity::Ion(ion);
        let bound = book().bound(ion.name()).map(|row| row.is.usual_high);
        if let Some(most) = bound.filter(|_| !is_told(of) && plenty != Some(ion)) {
            let row = Row { of, value: most, sd: BLUNT * most, comparator: Comparator::Below, item: None };
            problem.rows.push(row);
        }
    }
    problem
}

/// Nothing usual about what was measured.
fn freed(evidence: &Evidence, usual: &Usual) -> Usual {
    let told = |of| evidence.usable().any(|(_, item)| item.of == of && item.comparator == Comparator::Equal);
    let mut free = [false; N];
    for (i, ion) in ions() {
        free[i] = told(Quantity::Ion(ion));
    }
    if told(Quantity::Hardness) {
        (free[HARDNESS], free[SHARE]) = (true, true);
    }
    usual.free(&free)
}

/// One quantity told twice with two values.
fn twice(evidence: &Evidence) -> Option<Clash> {
    let items: Vec<&Item> =
        evidence.usable().map(|(_, item)| item).filter(|item| item.comparator == Comparator::Equal).collect();
    let pairs = items.iter().enumerate().flat_map(|(i, one)| items.iter().skip(i + 1).map(move |other| (one, other)));
    let same = pairs.filter(|(one, other)| one.of == other.of);
    let apart = same.map(|(one, other)| ((other.value - one.value) / one.sd.hypot(other.sd), one, other));
    let (z, one, other) = apart.filter(|(z, ..)| z.abs() > DISAGREES).max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))?;
    let text = format!("{} and {} say two things of one water.", one.as_written, other.as_written);
    Some(Clash { equation: Equation::Twice, measured: one.value, worked_out: other.value, z, mends: Vec::new(), text })
}

/// Hardness against calcium and magnesium, where all three were measured.
fn hardness(evidence: &Evidence) -> Option<Clash> {
    let told = |of| evidence.value(of).filter(|item| item.comparator == Comparator::Equal);
    let all = told(Quantity::Hardness)?;
    let (ca, mg) = (told(Quantity::Ion(Ion::Calcium))?, told(Quantity::Ion(Ion::Magnesium))?);
    let meq = |ion: Ion, x: f64| x * meq_per_mg(ion);
    let worked_out = meq(Ion::Calcium, ca.value) + meq(Ion::Magnesium, mg.value);
    let sd = all.sd.hypot(meq(Ion::Calcium, ca.sd)).hypot(meq(Ion::Magnesium, mg.sd));
    let z = (worked_out - all.value) / sd;
    let (equation, measured) = (Equation::Hardness, all.value);
    let clash = Clash { equation, measured, worked_out, z, mends: Vec::new(), text: String::new() };
    (z.abs() > DISAGREES).then_some(clash)
}

/// Whether every value agrees with all others.
fn agrees(evidence: &Evidence, usual: &Usual, plenty: Option<Ion>) -> Option<Fit> {
    let problem = problem(evidence, usual, plenty);
    let fit = problem.fit()?;
    let apart = (0..problem.rows.len()).filter_map(|row| fit.alone(row)).map(f64::abs).fold(0.0, f64::max);
    let hard = hardness(evidence).is_none() && twice(evidence).is_none();
    (apart < AGREES && hard).then_some(fit)
}

/// Every single change after which all agrees.
fn mends(evidence: &Evidence, usual: &Usual) -> Vec<Mend> {
    let mut all = Vec::new();
    for (place, item) in evidence.usable() {
        for meaning in &item.otherwise {
            let mut changed = evidence.clone();
            changed.items[place] = item.meant(meaning);
            if agrees(&changed, usual, None).is_some() {
                all.push(Mend::Basis { item: place, meant: meaning.words.clone() });
            }
        }
    }
    for (i, ion) in ions() {
        let of = Quantity::Ion(ion);
        let is_told = evidence.usable().any(|(_, item)| item.of == of);
        let is_hard = matches!(ion, Ion::Calcium | Ion::Magnesium);
        if is_told || is_hard {
            continue;
        }
        if let Some(fit) = agrees(evidence, usual, Some(ion)) {
            all.push(Mend::Missing { ion, mg_per_l: fit.water.mg_per_l[i] });
        }
    }
    for (place, _) in evidence.usable() {
        let mut without = evidence.clone();
        without.items.remove(place);
        if agrees(&without, usual, None).is_some() {
            all.push(Mend::Slip { item: place });
        }
    }
    all
}

/// A clash in words.
fn words(clash: &Clash, evidence: &Evidence) -> String {
    let n = |x: f64| format_number(x, Digits::Significant(3));
    let (measured, worked_out) = (n(clash.measured), n(clash.worked_out));
    let percent = n(100.0 * (clash.measured / clash.worked_out - 1.0).abs());
    let side = if clash.z < 0.0 { "above" } else { "below" };
    let what = match clash.equation {
        Equation::Twice => return clash.text.clone(),
        Equation::Hardness => format!(
            "The hardness of {measured} meq/L lies {percent} % {side} the {worked_out} that calcium and magnesium make."
        ),
        Equation::Balance if evidence.value(Quantity::Alkalinity).is_none() => {
            "The anions carry more charge than the cations, and leave nothing for the alkalinity.".to_owned()
        }
        Equation::Balance => format!(
            "The alkalinity of {measured} meq/L lies {side} the {worked_out} that the charge of the other ions leaves."
        ),
        Equation::Conductivity => {
            let unit =
                evidence.items.iter().map(|item| item.of).find(|of| of.is_conductivity()).map_or("", Quantity::unit);
            format!(
                "The conductivity of {measured} {unit} lies {percent} % {side} the {worked_out} that the ions carry."
            )
        }
    };
    let name = |place: &usize| evidence.items.get(*place).map_or("", |item| &item.as_written);
    let mends: Vec<String> = clash
        .mends
        .iter()
        .map(|mend| match mend {
            Mend::Basis { item, meant } => format!("{} is counted {meant}", name(item)),
            Mend::Missing { ion, mg_per_l } => {
                format!(
                    "{} {} mg/L is there and not reported",
                    ion.name(),
                    format_number(*mg_per_l, Digits::Significant(2))
                )
            }
            Mend::Slip { item } => format!("{} is a slip", name(item)),
        })
        .collect();
    match mends.is_empty() {
        true => format!("{what} No single change mends it: more than one value is off."),
        false => format!("{what} It would agree if: {}.", mends.join("; or ")),
    }
}
