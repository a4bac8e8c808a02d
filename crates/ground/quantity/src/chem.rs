//! Ions of fresh water: charge and molar mass.
//!
//! Molar masses are sums of the IUPAC abridged atomic weights (Prohaska et al. 2022, Pure Appl. Chem. 94, 573):
//! source key `iupac_2022`.

/// Atomic weights in g/mol (IUPAC abridged, source key `iupac_2022`).
pub mod atom {
    #![allow(missing_docs)]
    pub const H: f64 = 1.008;
    pub const B: f64 = 10.81;
    pub const C: f64 = 12.011;
    pub const N: f64 = 14.007;
    pub const O: f64 = 15.999;
    pub const NA: f64 = 22.990;
    pub const MG: f64 = 24.305;
    pub const SI: f64 = 28.085;
    pub const P: f64 = 30.974;
    pub const S: f64 = 32.06;
    pub const CL: f64 = 35.45;
    pub const K: f64 = 39.098;
    pub const CA: f64 = 40.078;
    pub const MN: f64 = 54.938;
    pub const FE: f64 = 55.845;
    pub const CU: f64 = 63.546;
    pub const ZN: f64 = 65.38;
    pub const MO: f64 = 95.95;
}

/// What a water brings, and what a product adds. The first nine are the totals that the speciation knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ion {
    /// Na+
    Sodium,
    /// K+
    Potassium,
    /// Ca2+
    Calcium,
    /// Mg2+
    Magnesium,
    /// All ammonia, as NH4+
    Ammonium,
    /// Cl-
    Chloride,
    /// SO4 2-
    Sulfate,
    /// NO3-
    Nitrate,
    /// All orthophosphate, as PO4 3-
    Phosphate,
    /// NO2-
    Nitrite,
    /// Fe, dissolved or chelated
    Iron,
    /// Mn
    Manganese,
    /// Zn
    Zinc,
    /// Cu
    Copper,
    /// B
    Boron,
    /// Mo
    Molybdenum,
}

impl Ion {
    /// All of them, in the order of the enum.
    pub const ALL: [Ion; 16] = [
        Ion::Sodium,
        Ion::Potassium,
        Ion::Calcium,
        Ion::Magnesium,
        Ion::Ammonium,
        Ion::Chloride,
        Ion::Sulfate,
        Ion::Nitrate,
        Ion::Phosphate,
        Ion::Nitrite,
        Ion::Iron,
        Ion::Manganese,
        Ion::Zinc,
        Ion::Copper,
        Ion::Boron,
        Ion::Molybdenum,
    ];

    /// The nine totals of the speciation, in its order.
    pub const MAJOR: [Ion; 9] = [
        Ion::Sodium,
        Ion::Potassium,
        Ion::Calcium,
        Ion::Magnesium,
        Ion::Ammonium,
        Ion::Chloride,
        Ion::Sulfate,
        Ion::Nitrate,
        Ion::Phosphate,
    ];

    /// Place in [`Ion::ALL`].
    pub fn index(self) -> usize {
        self as usize
    }

    /// g/mol of the ion.
    pub fn molar_mass(self) -> f64 {
        use atom::*;
        match self {
            Ion::Sodium => NA,
            Ion::Potassium => K,
            Ion::Calcium => CA,
            Ion::Magnesium => MG,
            Ion::Ammonium => N + 4.0 * H,
            Ion::Chloride => CL,
            Ion::Sulfate => S + 4.0 * O,
            Ion::Nitrate => N + 3.0 * O,
            Ion::Phosphate => P + 4.0 * O,
            Ion::Nitrite => N + 2.0 * O,
            Ion::Iron => FE,
            Ion::Manganese => MN,
            Ion::Zinc => ZN,
            Ion::Copper => CU,
            Ion::Boron => B,
            Ion::Molybdenum => MO,
        }
    }

    /// Equivalents per mole in an analysis: signed charge, 0 where the analysis counts none (boron, traces in chelates).
    pub fn charge(self) -> i32 {
        match self {
            Ion::Sodium | Ion::Potassium | Ion::Ammonium => 1,
            Ion::Calcium | Ion::Magnesium => 2,
            Ion::Chloride | Ion::Nitrate | Ion::Nitrite => -1,
            Ion::Sulfate => -2,
            Ion::Phosphate => -3,
            _ => 0,
        }
    }

    /// The word of the interface.
    pub fn name(self) -> &'static str {
        match self {
            Ion::Sodium => "sodium",
            Ion::Potassium => "potassium",
            Ion::Calcium => "calcium",
            Ion::Magnesium => "magnesium",
            Ion::Ammonium => "ammonium",
            Ion::Chloride => "chloride",
            Ion::Sulfate => "sulfate",
            Ion::Nitrate => "nitrate",
            Ion::Phosphate => "phosphate",
            Ion::Nitrite => "nitrite",
            Ion::Iron => "iron",
            Ion::Manganese => "manganese",
            Ion::Zinc => "zinc",
            Ion::Copper => "copper",
            Ion::Boron => "boron",
            Ion::Molybdenum => "molybdenum",
        }
    }

    /// The formula without charge, for instance `NO3`.
    pub fn formula(self) -> &'static str {
        match self {
            Ion::Sodium => "Na",
            Ion::Potassium => "K",
            Ion::Calcium => "Ca",
            Ion::Magnesium => "Mg",
            Ion::Ammonium => "NH4",
            Ion::Chloride => "Cl",
            Ion::Sulfate => "SO4",
            Ion::Nitrate => "NO3",
            Ion::Phosphate => "PO4",
            Ion::Nitrite => "NO2",
            Ion::Iron => "Fe",
            Ion::Manganese => "Mn",
            Ion::Zinc => "Zn",
            Ion::Copper => "Cu",
            Ion::Boron => "B",
            Ion::Molybdenum => "Mo",
        }
    }
}
