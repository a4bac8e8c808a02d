//! The header of a batch: which column holds what.

use quantity::{Fault, Faults, Ion, Place};

/// Columns of the nine totals, mg/L of the ion, in the order of [`Ion::MAJOR`].
pub const IONS: [(&str, Ion); 9] = [
    ("na", Ion::Sodium),
    ("k", Ion::Potassium),
    ("ca", Ion::Calcium),
    ("mg", Ion::Magnesium),
    ("nh4", Ion::Ammonium),
    ("cl", Ion::Chloride),
    ("so4", Ion::Sulfate),
    ("no3", Ion::Nitrate),
    ("po4", Ion::Phosphate),
];

/// The four ways to give the carbonate system's other number; a row fills one of them.
pub const CARBON: [&str; 4] = ["ph", "pco2_atm", "co2_mg_per_l", "dic_mmol_per_l"];

/// Name of the row, temperature, alkalinity, and the parts of a blend.
pub const ID: &str = "id";
/// °C.
pub const TEMPERATURE: &str = "temperature_c";
/// meq/L; may be empty or absent: then from charge balance.
pub const ALKALINITY: &str = "alkalinity_meq_per_l";
/// Parts of a blend, any unit.
pub const PARTS: &str = "parts";

/// Where each value stands in a row.
#[derive(Clone, Debug, PartialEq)]
pub struct Columns {
    /// All names, as many as a row must have fields.
    pub names: Vec<String>,
    /// Name of the row.
    pub id: usize,
    /// °C.
    pub temperature: usize,
    /// The totals, in the order of [`Ion::MAJOR`].
    pub ions: [usize; 9],
    /// Alkalinity, if there is such a column.
    pub alkalinity: Option<usize>,
    /// The columns of [`CARBON`] that there are.
    pub carbon: [Option<usize>; 4],
    /// Parts, in a blend.
    pub parts: Option<usize>,
}

impl Columns {
    /// Read the header; `blend` asks for `parts` too.
    ///
    /// # Errors
    /// All faults of the header in one go: unknown, doubled and missing columns.
    pub fn read(file: &str, header: &[String], blend: bool) -> Result<Columns, Faults> {
        let names: Vec<String> =
            header.iter().map(|n| n.trim_start_matches('\u{feff}').trim().to_ascii_lowercase()).collect();
        let line = header.join(",");
        let here = |field: &str| Place {
            file: Some(file.to_owned()),
            line: Some(1),
            field: Some(field.to_owned()),
            ..Place::default()
        };
        if names.len() == 1 && (line.contains(';') || line.contains('\t')) {
            return Err(Fault::new("the columns are not separated by commas")
                .at(Place { excerpt: Some(line), ..whole(file) })
                .expected("commas between the columns, and a point as decimal sign (12.5)")
                .hint("save the sheet again as CSV with commas, numbers in English form")
                .into());
        }
        let known = known(blend);
        let mut faults = Faults::new();
        for (i, name) in names.iter().enumerate() {
            if !known.contains(&name.as_str()) {
                faults.push(unknown(name, &known).at(here(name)));
            } else if names[..i].contains(name) {
                let twice = Fault::new(format!("the column `{name}` is there twice"));
                faults.push(twice.at(here(name)).hint("take one of them out"));
            }
        }
        let find = |name: &str| names.iter().position(|n| n == name);
        let mut need = |name: &str| {
            find(name).unwrap_or_else(|| {
                faults.push(missing(name, blend).at(here(name)));
                0
            })
        };
        let id = need(ID);
        let temperature = need(TEMPERATURE);
        let ions = IONS.map(|(name, _)| need(name));
        let parts = blend.then(|| need(PARTS));
        let carbon = CARBON.map(find);
        if carbon.iter().all(Option::is_none) {
            faults.push(
                Fault::new("no column says how much carbon is in the water")
                    .at(whole(file))
                    .expected(format!("one of {}", list(&CARBON)))
                    .hint("add the column `ph` if the pH was measured"),
            );
        }
        let alkalinity = find(ALKALINITY);
        faults.or(Columns { names, id, temperature, ions, alkalinity, carbon, parts })
    }
}

/// The header's line.
fn whole(file: &str) -> Place {
    Place { file: Some(file.to_owned()), line: Some(1), ..Place::default() }
}

fn known(blend: bool) -> Vec<&'static str> {
    let mut all = vec![ID, TEMPERATURE];
    all.extend(IONS.map(|(name, _)| name));
    all.push(ALKALINITY);
    all.extend(CARBON);
    if blend {
        all.push(PARTS);
    }
    all
}

fn unknown(name: &str, known: &[&str]) -> Fault {
    let fault =
        Fault::new(format!("the column `{name}` is not known")).expected(format!("columns among {}", list(known)));
    if name == PARTS {
        return fault.hint("`parts` belongs to `tapmere water blend`; take the column out, or blend");
    }
    let nearest = known.iter().min_by_key(|k| distance(name, k)).filter(|k| distance(name, k) <= 1 + k.len() / 3);
    match nearest {
        Some(near) => fault.hint(format!("did you mean `{near}`?")),
        None => fault.hint("take the column out"),
    }
}

fn missing(name: &str, blend: bool) -> Fault {
    let fault = Fault::new(format!("the column `{name}` is missing"));
    let ion = IONS.iter().find(|(n, _)| *n == name);
    match (name, ion) {
        (ID, _) => fault.expected("a name for each row"),
        (TEMPERATURE, _) => fault.expected("the water's temperature in °C"),
        (PARTS, _) if blend => fault.expected("the share of each water, in any unit (2 and 3, or 40 and 60)"),
        (_, Some((_, ion))) => fault
            .expected(format!("{} in mg/L", written(*ion)))
            .hint("if there is none in the water, add the column and write 0"),
        _ => fault,
    }
}

/// How the batch counts an ion.
fn written(ion: Ion) -> String {
    match ion {
        Ion::Ammonium => "all ammonia, counted as NH4,".to_owned(),
        Ion::Phosphate => "all phosphate, counted as PO4,".to_owned(),
        _ => ion.name().to_owned(),
    }
}

/// `a`, `b` and `c`.
pub fn list(names: &[&str]) -> String {
    names.iter().map(|n| format!("`{n}`")).collect::<Vec<_>>().join(", ")
}

/// Edit distance (Levenshtein), for a suggestion.
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut before = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let cost = (before + usize::from(x != *y)).min(row[j] + 1).min(row[j + 1] + 1);
            before = row[j + 1];
            row[j + 1] = cost;
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn header(text: &str) -> Vec<String> {
        text.split(',').map(str::to_owned).collect()
    }

    #[test]
    fn columns_may_stand_in_any_order() {
        let names = header("ph,id,k,na,ca,mg,nh4,cl,so4,no3,po4,temperature_c");
        let columns = Columns::read("a.csv", &names, false).unwrap();
        assert_eq!((columns.id, columns.temperature, columns.ions[0], columns.ions[1]), (1, 11, 3, 2));
        assert_eq!(columns.carbon, [Some(0), None, None, None]);
        assert_eq!(columns.alkalinity, None);
    }

    #[test]
    fn all_faults_of_a_header_come_in_one_go() {
        let names = header("id,temperature,na,k,ca,mg,nh4,cl,so4,no3,no3,ph");
        let faults = Columns::read("a.csv", &names, false).unwrap_err().0;
        let whats: Vec<&str> = faults.iter().map(|f| f.what.as_str()).collect();
        assert_eq!(
            whats,
            [
                "the column `temperature` is not known",
                "the column `no3` is there twice",
                "the column `temperature_c` is missing",
                "the column `po4` is missing"
            ]
        );
        assert_eq!(faults[0].hint.as_deref(), Some("did you mean `temperature_c`?"));
    }

    #[test]
    fn the_order_of_the_columns_is_that_of_the_totals() {
        assert_eq!(IONS.map(|(_, ion)| ion), Ion::MAJOR);
    }
}
