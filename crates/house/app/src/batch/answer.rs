//! What a batch prints for a row: JSON, or a line of a table.

use std::io::Write;

use quantity::Faults;
use serde::Serialize;
use water::{Asked, Saturation, Solved};

/// How the answers are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A bare JSON array.
    Json,
    /// A table for people.
    Table,
    /// The same, and under each row why its numbers are what they are.
    Explained,
}

/// The numbers of a solved row, in the order and units of `docs/json.md`.
#[derive(Debug, Serialize)]
pub struct Answer<'a> {
    id: &'a str,
    ph: f64,
    alkalinity_meq_per_l: f64,
    dic_mmol_per_l: f64,
    co2_mg_per_l: f64,
    ionic_strength_mol_per_kg: f64,
    si: Saturation,
    conductivity_25_us_per_cm: f64,
    conductivity_t_us_per_cm: f64,
    nh3_fraction: f64,
    charge_balance_percent: f64,
}

/// A row that could not be solved.
#[derive(Serialize)]
struct Failed<'a> {
    id: &'a str,
    error: String,
}

impl<'a> Answer<'a> {
    /// The answer for a water. One litre counts as one kilogram.
    pub fn new(id: &'a str, water: &Solved) -> Self {
        Answer {
            id,
            ph: water.ph,
            alkalinity_meq_per_l: 1000.0 * water.alkalinity_eq_per_kg,
            dic_mmol_per_l: 1000.0 * water.dic_mol_per_kg,
            co2_mg_per_l: water.co2_mg_per_l(),
            ionic_strength_mol_per_kg: water.ionic_strength,
            si: water.si,
            conductivity_25_us_per_cm: water.conductivity_25_us_per_cm,
            conductivity_t_us_per_cm: water.conductivity_t_us_per_cm,
            nh3_fraction: water.nh3_fraction,
            charge_balance_percent: water.charge_balance_percent,
        }
    }

    /// A line of the table.
    fn line(&self) -> String {
        format!(
            "{:<20} {:>6.2} {:>10.3} {:>9.3} {:>9.2} {:>10} {:>10.0} {:>9.2} {:>8.1}",
            self.id,
            self.ph,
            self.alkalinity_meq_per_l,
            self.dic_mmol_per_l,
            self.co2_mg_per_l,
            self.si.calcite.map_or("-".to_owned(), |s| format!("{s:.2}")),
            self.conductivity_25_us_per_cm,
            100.0 * self.nh3_fraction,
            self.charge_balance_percent
        )
    }
}

/// The table's head: names, then units.
pub fn table_head() -> String {
    let row = |c: [&str; 9]| {
        format!(
            "{:<20} {:>6} {:>10} {:>9} {:>9} {:>10} {:>10} {:>9} {:>8}",
            c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8]
        )
    };
    let names = ["water", "pH", "alkalinity", "carbon", "free CO2", "lime index", "conduct.", "NH3 share", "balance"];
    let units = ["", "", "meq/L", "mmol/L", "mg/L", "", "µS/cm 25°C", "%", "%"];
    format!("{}\n{}\n", row(names), row(units))
}

/// A water as a line of the table, with its notes if they are asked for.
pub fn told(id: &str, water: &Solved, explain: bool) -> String {
    let mut text = format!("{}\n", Answer::new(id, water).line());
    if explain {
        let asked = [Asked::Ph, Asked::Co2, Asked::Lime, Asked::Conductivity, Asked::ToxicAmmonia];
        text += &crate::letter::whys(&asked.map(|asked| water.why(asked)));
        text.push('\n');
    }
    text
}

/// Print a row into `out`, without anything between rows.
pub fn print(out: &mut Vec<u8>, form: Form, id: &str, result: &Result<Solved, Faults>) {
    // Writing into memory does not fail, and neither does a struct of numbers and strings.
    let _ = match (form, result) {
        (Form::Json, Ok(water)) => serde_json::to_writer(&mut *out, &Answer::new(id, water)).map_err(Into::into),
        (Form::Json, Err(faults)) => {
            serde_json::to_writer(&mut *out, &Failed { id, error: faults.to_string() }).map_err(Into::into)
        }
        (_, Ok(water)) => out.write_all(told(id, water, form == Form::Explained).as_bytes()),
        (_, Err(_)) => writeln!(out, "{id:<20} not solved, see below"),
    };
}
