//! One row of a batch: its sample, or all its faults.

use csv::ByteRecord;
use quantity::chem::atom;
use quantity::{Fault, Faults, Place};
use water::{Carbon, Refusal, Sample, Solved, Totals};

use super::columns::{ALKALINITY, CARBON, Columns, IONS, PARTS, TEMPERATURE, list};
use super::reader::Row;

/// A row longer than this is not shown in a fault.
const EXCERPT: usize = 160;

/// g/mol of CO2.
const CO2_G_PER_MOL: f64 = atom::C + 2.0 * atom::O;

/// How a refusal begins, and the column that it speaks of.
const REFUSED: [(&str, &str); 15] = [
    ("temperature", TEMPERATURE),
    ("alkalinity", ALKALINITY),
    ("pH", CARBON[0]),
    ("partial pressure", CARBON[1]),
    ("free CO2", CARBON[2]),
    ("inorganic carbon", CARBON[3]),
    ("sodium", IONS[0].0),
    ("potassium", IONS[1].0),
    ("calcium", IONS[2].0),
    ("magnesium", IONS[3].0),
    ("ammonium", IONS[4].0),
    ("chloride", IONS[5].0),
    ("sulfate", IONS[6].0),
    ("nitrate", IONS[7].0),
    ("phosphate", IONS[8].0),
];

/// Reads the rows of one file.
pub struct RowReader<'a> {
    /// Name of the file in faults.
    pub file: &'a str,
    /// Its header.
    pub columns: &'a Columns,
}

impl RowReader<'_> {
    /// Name of a row.
    pub fn id(&self, row: &Row) -> String {
        String::from_utf8_lossy(row.fields.get(self.columns.id).unwrap_or_default()).trim().to_owned()
    }

    /// Solve a row.
    ///
    /// # Errors
    /// All faults of the row, or the reason why no water is like that.
    pub fn solve(&self, row: &Row) -> Result<Solved, Faults> {
        let sample = self.sample(row)?;
        water::solve(&sample).map_err(|refusal| self.refused(row, &refusal).into())
    }

    /// The share of a blend; a fault where it is negative or no number.
    pub fn parts(&self, row: &Row) -> Result<f64, Fault> {
        let column = self.columns.parts.unwrap_or(0);
        self.not_negative(row, column, PARTS)
    }

    /// What the row says.
    fn sample(&self, row: &Row) -> Result<Sample, Faults> {
        let mut faults = Faults::new();
        if row.fields.len() != self.columns.names.len() {
            return Err(self.wrong_width(row).into());
        }
        let temperature = faults.note(self.number(row, self.columns.temperature, TEMPERATURE));
        let mut mg_per_l = [0.0; 9];
        for (i, (name, _)) in IONS.iter().enumerate() {
            if let Some(v) = faults.note(self.not_negative(row, self.columns.ions[i], name)) {
                mg_per_l[i] = v;
            }
        }
        let alkalinity = match self.columns.alkalinity.filter(|c| !text(&row.fields, *c).is_empty()) {
            None => None,
            Some(column) => faults.note(self.number(row, column, ALKALINITY)),
        };
        let carbon = faults.note(self.carbon(row));
        match (temperature, carbon) {
            (Some(temperature_c), Some(carbon)) if faults.0.is_empty() => Ok(Sample {
                temperature_c,
                totals: Totals::from_mg_per_l(&mg_per_l),
                alkalinity_eq_per_kg: alkalinity.map(|a| a / 1000.0),
                carbon,
            }),
            _ => Err(faults),
        }
    }

    /// The one of the four carbon columns that is filled.
    fn carbon(&self, row: &Row) -> Result<Carbon, Fault> {
        let mut filled = (0..CARBON.len())
            .filter_map(|i| self.columns.carbon[i].filter(|c| !text(&row.fields, *c).is_empty()).map(|c| (i, c)));
        let Some((i, column)) = filled.next() else {
            return Err(Fault::new("nothing says how much carbon is in the water")
                .at(self.row_place(row))
                .expected(format!("one of {} filled", list(&CARBON)))
                .hint("fill `ph` if the pH was measured"));
        };
        if let Some((other, second)) = filled.next() {
            let (one, two) = (CARBON[i], CARBON[other]);
            return Err(Fault::new(format!("`{one}` and `{two}` are both given"))
                .at(self.place(row, second, two))
                .expected(format!("one of {}", list(&CARBON)))
                .hint(format!(
                    "with the alkalinity one of them follows from the other: leave `{one}` or `{two}` empty"
                )));
        }
        if i == 0 {
            return self.number(row, column, CARBON[0]).map(Carbon::Ph);
        }
        let value = self.not_negative(row, column, CARBON[i])?;
        Ok(match i {
            1 => Carbon::Pco2Atm(value),
            2 => Carbon::Co2MolPerKg(value / 1000.0 / CO2_G_PER_MOL),
            _ => Carbon::DicMolPerKg(value / 1000.0),
        })
    }

    fn not_negative(&self, row: &Row, column: usize, name: &str) -> Result<f64, Fault> {
        let value = self.number(row, column, name)?;
        if value < 0.0 {
            return Err(Fault::new(format!("`{name}` is negative"))
                .at(self.place(row, column, name))
                .expected("0 or more")
                .hint("a result below the detection limit is not negative: write 0"));
        }
        Ok(value)
    }

    fn number(&self, row: &Row, column: usize, name: &str) -> Result<f64, Fault> {
        let written = text(&row.fields, column);
        match written.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(value),
            _ => Err(no_number(&written, name).at(self.place(row, column, name))),
        }
    }

    fn wrong_width(&self, row: &Row) -> Fault {
        let (have, need) = (row.fields.len(), self.columns.names.len());
        let fault = Fault::new(format!("the row has {have} fields, the header {need}")).at(self.row_place(row));
        if have > need {
            fault
                .expected("a point as decimal sign (12.5)")
                .hint("a decimal comma splits one number into two fields: write 12.5, not 12,5")
        } else {
            fault.expected("a field for each column").hint("leave a field empty rather than out")
        }
    }

    /// Why the model refused, at the column that it speaks of, if that is one of the file's.
    fn refused(&self, row: &Row, refusal: &Refusal) -> Fault {
        let Refusal::OutOfRange { what, value, low, high } = *refusal else {
            return Fault::new(refusal.to_string())
                .at(self.row_place(row))
                .expected("numbers of one water")
                .hint("look at alkalinity and carbon once more: one of them may be mistyped, or have another unit");
        };
        let column = REFUSED.iter().find(|(w, _)| what.starts_with(w)).map(|(_, name)| *name);
        let index = column.and_then(|name| self.columns.names.iter().position(|n| n == name).map(|i| (i, name)));
        let side = if value < low { "little" } else { "much" };
        Fault::new(format!("{what} is {}: too {side} for the model", shown(value)))
            .at(index.map_or_else(|| self.row_place(row), |(i, name)| self.place(row, i, name)))
            .expected(format!("{} to {}, as fresh water has it", shown(low), shown(high)))
            .hint("docs/command-line.md says what range is answered")
    }

    /// The row as a place.
    pub fn row_place(&self, row: &Row) -> Place {
        let line = self.shown(row);
        Place {
            file: Some(self.file.to_owned()),
            line: Some(row.line),
            excerpt: (line.len() <= EXCERPT).then_some(line),
            ..Place::default()
        }
    }

    /// One field of a row as a place.
    fn place(&self, row: &Row, column: usize, name: &str) -> Place {
        let mut place = self.row_place(row).named(name);
        let before: usize = (0..column).map(|c| raw(&row.fields, c).chars().count() + 1).sum();
        place.column = Some(before + 1);
        place.width = Some(raw(&row.fields, column).chars().count().max(1));
        place
    }

    fn shown(&self, row: &Row) -> String {
        (0..row.fields.len()).map(|c| raw(&row.fields, c)).collect::<Vec<_>>().join(",")
    }
}

/// A number with four figures.
fn shown(value: f64) -> String {
    quantity::number::format_number(value, quantity::number::Digits::Significant(4))
}

/// A field as it is shown: in quotation marks where it holds a comma.
fn raw(fields: &ByteRecord, column: usize) -> String {
    let field = String::from_utf8_lossy(fields.get(column).unwrap_or_default()).replace(['\n', '\r'], " ");
    if field.contains(',') { format!("\"{field}\"") } else { field }
}

fn text(fields: &ByteRecord, column: usize) -> std::borrow::Cow<'_, str> {
    String::from_utf8_lossy(fields.get(column).unwrap_or_default().trim_ascii())
}

fn no_number(written: &str, name: &str) -> Fault {
    let starts_as_number = written.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '+');
    if written.is_empty() {
        return Fault::new(format!("`{name}` is empty"))
            .expected("a number")
            .hint("write 0 if there is none in the water");
    }
    let fault = Fault::new(format!("`{written}` is no plain number"));
    if starts_as_number && written.contains(',') {
        let point = written.replace(',', ".");
        Fault::new(format!("`{written}` has a decimal comma"))
            .expected("a point as decimal sign")
            .hint(format!("write {point}"))
    } else if written.starts_with(['<', '>']) {
        fault
            .expected("one number")
            .hint("decide what a value below the limit counts as: 0, or the limit itself where that is the worse case")
    } else if starts_as_number {
        fault
            .expected("a number without a unit")
            .hint("the unit stands in docs/command-line.md: mg/L of the ion, °C, meq/L")
    } else {
        fault.expected("a number, for instance 12.5")
    }
}
