//! A blend: all rows of a batch mixed by their parts into one water.

use std::io::Read;

use quantity::{Fault, Faults, Place};
use water::{Carbon, Conserved, Sample, Solved};

use super::reader::Rows;
use super::row::RowReader;
use super::stream::no_rows;

/// What comes of mixing: kept from the air, and after standing in it.
pub struct Blend {
    /// Mixed without loss or gain of carbon dioxide.
    pub closed: Solved,
    /// In balance with the air of a room, if one was named.
    pub aired: Option<Solved>,
}

/// Why there is no blend.
#[derive(Debug)]
pub struct NoBlend {
    /// All faults.
    pub faults: Faults,
    /// It is a batch, and a row or the mixture is at fault; else the file as a whole is no batch.
    pub batch: bool,
}

/// Mix all rows of `input` by `parts`; `air_ppm` is the CO2 of the room's air.
///
/// # Errors
/// All faults of header or rows: one row that can't be solved leaves the blend unknown.
pub fn blend<R: Read>(file: &str, input: R, air_ppm: Option<f64>) -> Result<Blend, NoBlend> {
    let rows = Rows::open(file, input, true).map_err(|faults| NoBlend { faults, batch: false })?;
    mix(rows, air_ppm).map_err(|faults| NoBlend { faults, batch: true })
}

fn mix<R: Read>(rows: Rows<R>, air_ppm: Option<f64>) -> Result<Blend, Faults> {
    let file = &rows.file.clone();
    let (parts, mut faults) = read(rows);
    let sum: f64 = parts.iter().map(|(p, _)| p).sum();
    if faults.0.is_empty() && sum <= 0.0 {
        faults.push(
            Fault::new("all parts are 0")
                .at(Place { file: Some(file.to_owned()), ..Place::field(super::columns::PARTS) })
                .expected("at least one water with a part above 0"),
        );
    }
    let parts = faults.or(parts)?;
    let mixed = water::blend(&parts);
    let closed = settle(file, &mixed, Carbon::DicMolPerKg(mixed.dic_mol_per_kg))?;
    // As on the pages: the air just over the water is wet, so its CO2 presses a little less than the room's dry share.
    let room = |ppm| Carbon::Pco2Atm(water::pco2_atm_of_room(ppm, mixed.temperature_c));
    let aired = air_ppm.map(|ppm| settle(file, &mixed, room(ppm))).transpose()?;
    Ok(Blend { closed, aired })
}

/// Rows solved, with their parts, and the faults of those that were not.
fn read<R: Read>(mut rows: Rows<R>) -> (Vec<(f64, Conserved)>, Faults) {
    const CHUNK: usize = 1024;
    let (file, columns) = (rows.file.clone(), rows.columns.clone());
    let reader = RowReader { file: &file, columns: &columns };
    let mut faults = Faults::new();
    let mut parts = Vec::new();
    loop {
        let (chunk, end) = rows.next(CHUNK);
        for row in &chunk {
            match reader.solve(row) {
                Err(more) => faults.0.extend(more.0),
                Ok(water) => parts.extend(faults.note(reader.parts(row)).map(|p| (p, water.conserved()))),
            }
        }
        faults.0.extend(end);
        if chunk.len() < CHUNK {
            break;
        }
    }
    if parts.is_empty() && faults.0.is_empty() {
        faults.push(no_rows(&file));
    }
    (parts, faults)
}

fn settle(file: &str, mixed: &Conserved, carbon: Carbon) -> Result<Solved, Fault> {
    let sample = Sample {
        temperature_c: mixed.temperature_c,
        totals: mixed.totals,
        alkalinity_eq_per_kg: Some(mixed.alkalinity_eq_per_kg),
        carbon,
    };
    water::solve(&sample).map_err(|refusal| {
        Fault::new(refusal.to_string()).at(Place { file: Some(file.to_owned()), ..Place::field("the blend") })
    })
}
