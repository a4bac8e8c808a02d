//! Reads the formula of a species: a judge of the balances that shares no table with the crate.

/// How far the species of a solved water may miss its totals, relative: the solver stops within 1e-8 in ln a, and the
/// ionic strength of a water feels its errors a few times over.
pub const BALANCED: f64 = 5e-7;

/// What a species is made of, read from its name.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Parts {
    /// In the order of the totals: Na, K, Ca, Mg, NH4, Cl, SO4, NO3, PO4.
    pub totals: [f64; 9],
    /// CO3.
    pub carbon: f64,
    /// H+ beyond that of water (an OH counts -1) and beyond NH4, so that NH3 counts -1.
    pub protons: f64,
    /// Charge as written.
    pub charge: f64,
}

impl Parts {
    /// 2 C + 2 P - H.
    pub fn alkalinity(&self) -> f64 {
        2.0 * self.carbon + 2.0 * self.totals[8] - self.protons
    }
    fn charge_by_parts(&self) -> f64 {
        let z = [1.0, 1.0, 2.0, 2.0, 1.0, -1.0, -2.0, -1.0, -3.0];
        self.totals.iter().zip(z).map(|(n, z)| n * z).sum::<f64>() - 2.0 * self.carbon + self.protons
    }
}

/// A piece of a formula: its totals, CO3 and H+.
type Token = (&'static str, &'static [(usize, f64)], f64, f64);

/// Longest first, so that "CaCO3" is not read as Ca, C...
const TOKENS: [Token; 18] = [
    ("(CO2)2", &[], 2.0, 4.0),
    ("(SO4)2", &[(6, 2.0)], 0.0, 0.0),
    ("NH4", &[(4, 1.0)], 0.0, 0.0),
    ("NH3", &[(4, 1.0)], 0.0, -1.0),
    ("NO3", &[(7, 1.0)], 0.0, 0.0),
    ("SO4", &[(6, 1.0)], 0.0, 0.0),
    ("PO4", &[(8, 1.0)], 0.0, 0.0),
    ("CO3", &[], 1.0, 0.0),
    ("CO2", &[], 1.0, 2.0),
    ("OH", &[], 0.0, -1.0),
    ("Ca", &[(2, 1.0)], 0.0, 0.0),
    ("Mg", &[(3, 1.0)], 0.0, 0.0),
    ("Na", &[(0, 1.0)], 0.0, 0.0),
    ("Cl", &[(5, 1.0)], 0.0, 0.0),
    ("H2", &[], 0.0, 2.0),
    ("H3", &[], 0.0, 3.0),
    ("H", &[], 0.0, 1.0),
    ("K", &[(1, 1.0)], 0.0, 0.0),
];

/// The parts of a species.
pub fn parts(name: &str) -> Parts {
    let mut parts = Parts::default();
    let mut rest = name;
    while !rest.is_empty() && !rest.starts_with(['+', '-']) {
        let (token, totals, carbon, protons) =
            TOKENS.iter().find(|t| rest.starts_with(t.0)).unwrap_or_else(|| panic!("{name}: {rest}"));
        for (i, n) in *totals {
            parts.totals[*i] += n;
        }
        parts.carbon += carbon;
        parts.protons += protons;
        rest = &rest[token.len()..];
    }
    parts.charge = match rest {
        "" => 0.0,
        "+" => 1.0,
        "-" => -1.0,
        number => number.parse().unwrap_or_else(|_| panic!("{name}: {number}")),
    };
    assert_eq!(parts.charge, parts.charge_by_parts(), "{name}");
    parts
}

/// The largest relative error of totals, alkalinity, carbon and ionic strength that the species of a solved water show
/// against what it says of itself, and the charge left over, eq/kg.
pub fn imbalance(water: &water::Solved, of: &[Parts]) -> (f64, f64) {
    let (mut totals, mut carbon, mut alkalinity, mut moved, mut strength, mut charge) =
        ([0.0; 9], 0.0, 0.0, 0.0, 0.0, 0.0);
    for ((_, m), p) in water.species().zip(of) {
        for (total, n) in totals.iter_mut().zip(p.totals) {
            *total += n * m;
        }
        carbon += p.carbon * m;
        alkalinity += p.alkalinity() * m;
        moved += p.alkalinity().abs() * m;
        strength += 0.5 * p.charge * p.charge * m;
        charge += p.charge * m;
    }
    let off =
        |got: f64, said: f64, scale: f64| if scale > 0.0 { (got - said).abs() / scale } else { (got - said).abs() };
    let mut worst = off(alkalinity, water.alkalinity_eq_per_kg, moved);
    worst = worst.max(off(carbon, water.dic_mol_per_kg, water.dic_mol_per_kg));
    worst = worst.max(off(strength, water.ionic_strength, water.ionic_strength));
    for (got, said) in totals.iter().zip(water.totals.0) {
        worst = worst.max(off(*got, said, said));
    }
    (worst, charge)
}
