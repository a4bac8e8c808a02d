//! The answer to "why?" for what a page shows of a solved water.
//!
//! Each function gives the sum in the water's own figures, a sentence for a beginner, and the sources. The kind is
//! `WorkedOut`: as good as the analysis that went in.

use quantity::{Explain, Kind, Why};

use crate::solved::{CO2_G_PER_MOL, Solved};

/// What a page may ask of a solved water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// Why this pH?
    Ph,
    /// Why this much free CO2?
    Co2,
    /// Why this conductivity?
    Conductivity,
    /// Why this toxic share of ammonia?
    ToxicAmmonia,
    /// Why does it leave or dissolve lime?
    Lime,
}

/// A question about a solved water.
#[derive(Clone, Copy, Debug)]
pub struct Question<'a> {
    /// The water.
    pub water: &'a Solved,
    /// What is asked of it.
    pub asked: Asked,
}

impl Solved {
    /// Formula with figures, words and sources for one of the answers.
    pub fn why(&self, asked: Asked) -> Why {
        Question { water: self, asked }.explain()
    }
}

impl Explain for Question<'_> {
    fn explain(&self) -> Why {
        match self.asked {
            Asked::Ph => ph(self.water),
            Asked::Co2 => co2(self.water),
            Asked::Conductivity => conductivity(self.water),
            Asked::ToxicAmmonia => toxic_ammonia(self.water),
            Asked::Lime => lime(self.water),
        }
    }
}

fn why(key: &str, question: String, sum: String, words: &str, sources: &[&str]) -> Why {
    Why {
        key: key.to_owned(),
        question,
        sum,
        words: words.to_owned(),
        sources: sources.iter().map(|s| (*s).to_owned()).collect(),
        kind: Kind::WorkedOut,
    }
}

fn mmol(w: &Solved, formula: &str) -> f64 {
    w.molality(formula).unwrap_or(0.0) * 1e3
}

fn ph(w: &Solved) -> Why {
    let free = mmol(w, "HCO3-");
    let sum = format!(
        "free CO2 {:.3} and bicarbonate {:.3} mmol/L at {:.1} °C, ionic strength {:.4} mol/kg: pH {:.2} \
         (alkalinity {:.3} meq/L, all carbon {:.3} mmol/L)",
        w.co2_mol_per_kg * 1e3,
        free,
        w.temperature_c,
        w.ionic_strength,
        w.ph,
        w.alkalinity_eq_per_kg * 1e3,
        w.dic_mol_per_kg * 1e3,
    );
    let words = "The pH follows from how much bicarbonate stands against how much dissolved CO2. \
                 More CO2 lowers it, airing raises it; the alkalinity stays.";
    why("water-ph", format!("why pH {:.2}?", w.ph), sum, words, &["phreeqc_386", "parkhurst_appelo_2013"])
}

fn co2(w: &Solved) -> Why {
    let sum = format!(
        "{:.4} mmol/L × {CO2_G_PER_MOL} mg/mmol = {:.1} mg/L, in balance with {:.5} atm of CO2 (pH {:.2}, alkalinity {:.3} meq/L)",
        w.co2_mol_per_kg * 1e3,
        w.co2_mg_per_l(),
        w.pco2_atm,
        w.ph,
        w.alkalinity_eq_per_kg * 1e3,
    );
    let words = "The dissolved CO2 that plants take and animals breathe against. An error of 0.1 in pH makes it a quarter more \
                 or a fifth less; acids from wood, or phosphate, spoil a reading taken from pH and alkalinity.";
    why("water-co2", format!("why {:.1} mg/L of CO2?", w.co2_mg_per_l()), sum, words, &["phreeqc_386"])
}

fn conductivity(w: &Solved) -> Why {
    let sum = format!(
        "sum over all ions of molality × conductivity of the ion = {:.0} µS/cm at 25 °C ({:.0} at {:.1} °C)",
        w.conductivity_25_us_per_cm, w.conductivity_t_us_per_cm, w.temperature_c,
    );
    let words = "Every dissolved ion carries current. Worked out from the analysis; a meter may differ by 3 to 4 percent \
                 from it, and more where sodium and sulfate rule.";
    let question = format!("why {:.0} µS/cm?", w.conductivity_25_us_per_cm);
    why("water-conductivity", question, sum, words, &["mccleskey_2012", "phreeqc_386"])
}

fn toxic_ammonia(w: &Solved) -> Why {
    let sum = format!(
        "NH3 / (NH3 + NH4+ + NH4SO4-) = {:.3} % at pH {:.2} and {:.1} °C",
        w.nh3_fraction * 100.0,
        w.ph,
        w.temperature_c,
    );
    let words = "Of all ammonia only this share is NH3, which passes through gills. It grows tenfold with each step of pH, \
                 and with warmth.";
    let question = format!("why {:.2} % toxic share of ammonia?", w.nh3_fraction * 100.0);
    why("water-toxic-ammonia", question, sum, words, &["phreeqc_386", "emerson_1975"])
}

fn lime(w: &Solved) -> Why {
    let (sum, question) = match w.si.calcite {
        Some(si) => (
            format!(
                "log10(a(Ca) × a(CO3) / K calcite) = {si:.2}: above 0 it can leave lime, below 0 it dissolves lime"
            ),
            if si > 0.0 { "why does it leave lime?" } else { "why does it dissolve lime?" },
        ),
        None => ("no calcium or no carbon: no lime can form".to_owned(), "why no lime?"),
    };
    let words = "Compares what the water holds of calcium and carbonate with what it can hold. Near 0 (within 0.3) it does neither to speak of.";
    why("water-lime", question.to_owned(), sum, words, &["phreeqc_386", "plummer_busenberg_1982"])
}
