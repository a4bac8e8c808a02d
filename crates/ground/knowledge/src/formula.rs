//! Molar mass of a salt from its formula: sums of atomic weights, with hydrate water.
//!
//! Source: IUPAC abridged atomic weights (source key `iupac_2022`), from `quantity::chem::atom`.
//! Checked by: sums by hand in `tests/by_hand_products.rs`.

use quantity::Fault;
use quantity::chem::atom;

/// Atomic weight of an element of the salts in `data/`, g/mol.
fn atomic_weight(symbol: &str) -> Option<f64> {
    Some(match symbol {
        "H" => atom::H,
        "B" => atom::B,
        "C" => atom::C,
        "N" => atom::N,
        "O" => atom::O,
        "Na" => atom::NA,
        "Mg" => atom::MG,
        "P" => atom::P,
        "S" => atom::S,
        "Cl" => atom::CL,
        "K" => atom::K,
        "Ca" => atom::CA,
        "Mn" => atom::MN,
        "Fe" => atom::FE,
        "Cu" => atom::CU,
        "Zn" => atom::ZN,
        "Mo" => atom::MO,
        _ => return None,
    })
}

/// Molar mass in g/mol of a formula such as `KNO3`, `Ca(NO3)2·4H2O` or `5Ca(NO3)2·NH4NO3·10H2O`: parts joined by
/// `·`, each with a whole or decimal number in front, brackets one in the other.
///
/// # Errors
/// A fault that names the first place that can't be read: an element unknown here, a bracket without its partner.
pub fn molar_mass_g_per_mol(formula: &str) -> Result<f64, Fault> {
    let mut sum = 0.0;
    for part in formula.split('·') {
        let digits = part.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(part.len());
        let (count, rest) = part.split_at(digits);
        let count = if count.is_empty() { 1.0 } else { count.parse().map_err(|_| unread(formula, part))? };
        sum += count * group(formula, rest)?;
    }
    Ok(sum)
}

/// Mass of a run of elements and brackets without a number in front.
fn group(formula: &str, text: &str) -> Result<f64, Fault> {
    let mut levels = vec![0.0];
    let mut rest = text;
    if rest.is_empty() {
        return Err(unread(formula, text));
    }
    while let Some(first) = rest.chars().next() {
        let mass = match first {
            '(' => {
                levels.push(0.0);
                rest = &rest[1..];
                continue;
            }
            ')' => {
                rest = &rest[1..];
                levels.pop().ok_or_else(|| unread(formula, text))?
            }
            _ => {
                let two = rest.get(..2).filter(|s| s.ends_with(|c: char| c.is_ascii_lowercase()));
                let symbol = two.or_else(|| rest.get(..1)).unwrap_or_default();
                rest = &rest[symbol.len()..];
                atomic_weight(symbol).ok_or_else(|| unread(formula, text))?
            }
        };
        let digits = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
        let count: f64 = if digits == 0 { 1.0 } else { rest[..digits].parse().map_err(|_| unread(formula, text))? };
        rest = &rest[digits..];
        *levels.last_mut().ok_or_else(|| unread(formula, text))? += count * mass;
    }
    match levels.as_slice() {
        [mass] => Ok(*mass),
        _ => Err(unread(formula, text)),
    }
}

fn unread(formula: &str, part: &str) -> Fault {
    Fault::new(format!("the formula `{formula}` can't be read at `{part}`"))
        .expected("elements of the salts in data/, brackets in pairs, parts joined by `·`")
        .hint("for instance Ca(NO3)2·4H2O")
}

#[cfg(test)]
mod tests {
    use super::molar_mass_g_per_mol as mass;

    #[test]
    fn water_and_a_double_salt_by_hand() {
        assert!((mass("H2O").unwrap() - 18.015).abs() < 1e-9);
        // 5 (40.078 + 2 × 62.004) + 80.043 + 180.15, atomic weights of iupac_2022
        assert!((mass("5Ca(NO3)2·NH4NO3·10H2O").unwrap() - (5.0 * 164.086 + 80.043 + 180.15)).abs() < 1e-6);
        assert!((mass("CaSO4·0.5H2O").unwrap() - (136.134 + 9.0075)).abs() < 1e-6);
    }

    #[test]
    fn what_cannot_be_read_is_a_fault() {
        for bad in ["", "Xx", "Ca(NO3", "NO3)2", "KNO3·", "é", "(", ")"] {
            assert!(mass(bad).is_err(), "{bad}");
        }
    }
}
