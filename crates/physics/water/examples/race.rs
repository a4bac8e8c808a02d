//! Our side of the race against PHREEQC: `race FILE REPEATS` solves the waters of a file again and again, each with its own
//! temperature's constants and anew at 25 °C, then prints pH and conductivity of each. `benches/race.py` runs and times it.
#![allow(clippy::disallowed_methods)]

use std::hint::black_box;

use water::{Carbon, Sample, Totals, solve};

/// A line: °C, nine totals in mol/kg, alkalinity in eq/kg, pH.
fn sample(line: &str) -> Option<Sample> {
    let numbers: Vec<f64> = line.split(',').map(str::parse).collect::<Result<_, _>>().ok()?;
    let [temperature_c, totals @ .., alkalinity, ph] = numbers.as_slice() else { return None };
    Some(Sample {
        temperature_c: *temperature_c,
        totals: Totals(totals.try_into().ok()?),
        alkalinity_eq_per_kg: Some(*alkalinity),
        carbon: Carbon::Ph(*ph),
    })
}

fn main() -> Result<(), String> {
    let mut args = std::env::args().skip(1);
    let (Some(file), Some(repeats)) = (args.next(), args.next()) else { return Err("race FILE REPEATS".to_owned()) };
    let repeats: u32 = repeats.parse().map_err(|_| "REPEATS is a number".to_owned())?;
    let text = std::fs::read_to_string(&file).map_err(|e| format!("{file}: {e}"))?;
    let waters: Vec<Sample> =
        text.lines().map(sample).collect::<Option<_>>().ok_or_else(|| format!("{file}: twelve numbers a line"))?;
    for _ in 0..repeats {
        for water in &waters {
            let _ = black_box(solve(black_box(water)));
        }
    }
    for water in &waters {
        match solve(water) {
            Ok(w) => println!("{},{},{}", w.ph, w.dic_mol_per_kg, w.conductivity_25_us_per_cm),
            Err(refusal) => return Err(refusal.to_string()),
        }
    }
    Ok(())
}
