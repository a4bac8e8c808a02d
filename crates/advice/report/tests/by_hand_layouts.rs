//! Layouts in pairs: what tells columns, waters and years apart, and the same without it. Expected values by reading the text.

use report::{Report, Statistic, read_text};

/// What was taken without a question: determinand, statistic, value, and the name of its sample.
fn taken(text: &str) -> Vec<String> {
    let report = read_text(text);
    report.readings.iter().filter(|r| r.question.is_none()).map(|r| said(&report, r)).collect()
}

fn said(report: &Report, r: &report::Reading) -> String {
    let statistic = match r.statistic {
        Statistic::Single => String::new(),
        other => format!(" {other:?}").to_lowercase(),
    };
    let value = match (r.value, r.detection_limit) {
        (Some(value), _) => format!(" {value}"),
        (None, limit) => format!(" <{}", limit.map_or(String::new(), |l| l.to_string())),
    };
    let sample = r.sample.and_then(|s| report.samples.get(s)).and_then(|s| s.name.clone());
    let sample = sample.map_or(String::new(), |name| format!(" @{name}"));
    format!("{}{statistic}{value}{sample}", r.determinand)
}

fn is_asked(text: &str, determinand: &str) -> bool {
    let report = read_text(text);
    let mut all = report.readings.iter().filter(|r| r.determinand == determinand).peekable();
    all.peek().is_some() && all.all(|r| r.question.is_some())
}

const HEAD: &str = "Parameter Units Guideline Minimum Maximum Average # Samples\n";

/// A guideline may be a word, and a heading may have two.
#[test]
fn single_spaces_part_cells_under_a_heading() {
    let rows = "Sulphate mg/L 500 24.4 27.7 25.5 4\nHardness (as CaCO3) mg/L NG 120 137 127 12\n";
    let expected = [
        "sulfate min 24.4",
        "sulfate max 27.7",
        "sulfate mean 25.5",
        "hardness_total min 120",
        "hardness_total max 137",
        "hardness_total mean 127",
    ];
    assert_eq!(taken(&format!("{HEAD}{rows}")), expected);
    // A blank cell: nobody sees which one.
    assert!(!taken(&format!("{HEAD}Sulphate mg/L 24.4 27.7 25.5 4\n")).iter().any(|t| t.contains("min 27.7")));
    assert!(is_asked(&format!("{HEAD}{rows}Sodium mg/L 13.0 14.4 13.8 4\n"), "sodium"));
}

/// A second heading holds for what stands under it.
#[test]
fn each_heading_of_single_spaces_holds_for_its_rows() {
    let text = "Parameter Unit Min Mean Max\nSodium mg/L 13.0 13.8 14.4\nParameter Unit Mean Min Max\nChloride mg/L 24.0 22.7 25.5\n";
    let chloride: Vec<String> = taken(text).into_iter().filter(|t| t.starts_with("chloride")).collect();
    assert_eq!(chloride, ["chloride mean 24", "chloride min 22.7", "chloride max 25.5"]);
}

/// The number of a page is no row, and neither is a line without a unit.
#[test]
fn the_number_of_a_page_is_no_row() {
    let head = "Parámetro Valor cuantificado Unidad Valor paramétrico\n";
    let text = format!(
        "{head}AMONIO <0,05 mg/L NH4 0,5\nCONDUCTIVIDAD A 20 ºC 843 µS/cm 2500\nPágina 1 de 2\n{head}PH 7,6 Unidades de pH 6,5 a 9,5\n"
    );
    assert_eq!(taken(&text), ["ammonium <0.05", "conductivity 843", "ph 7.6"]);
}

/// One cell a line: a unit may be a word, and a row with a cell too few is not moved along.
#[test]
fn one_cell_a_line_is_told_by_what_its_column_holds() {
    let head = "Parameter\nUnit\nWHO Guideline Values\nAverage\nRange\n";
    let rows = "pH Value\nUnits\n6.5 - 9.5\n8.2\n7.9 - 8.6\nChloride\nmg/L\n-\n23.0\n22.0 - 24.7\nSodium\nmg/L\n200\n15.2\n14.6 - 16.5\n";
    let all = taken(&format!("{head}{rows}"));
    assert!(
        ["ph mean 8.2", "ph min 7.9", "ph max 8.6", "chloride mean 23"].iter().all(|t| all.iter().any(|a| a == t)),
        "{all:?}"
    );
    let short = "Sulphate\nmg/L\n18.5\n17.2 - 19.9\nSilica (as SiO2)\nmg/L\n-\n3.4\n2.1 - 5.0\n";
    let all = taken(&format!("{head}{rows}{short}"));
    assert!(
        all.contains(&"silica mean 3.4".to_owned()) && !all.iter().any(|t| t.starts_with("sulfate mean 17")),
        "{all:?}"
    );
}

const LIST: &str = "pH-Wert: 7.48\nCalcium: 88.0 mg/l\nNatrium: 3.4 mg/l\nSulfat: 14.0 mg/l\n";
const OTHER: &str = "pH-Wert: 7.29\nCalcium: 104.0 mg/l\nNatrium: 11.8 mg/l\nSulfat: 31.0 mg/l\n";

/// Two lists under two names are two waters.
#[test]
fn lists_under_names_are_waters() {
    let two = taken(&format!(
        "Quellwasser Brunnacher\nProbe vom 11.03.2024\n{LIST}\nGrundwasser Sonnau\nProbe vom 12.03.2024\n{OTHER}"
    ));
    assert!(two.contains(&"calcium 88 @Quellwasser Brunnacher".to_owned()), "{two:?}");
    assert!(two.contains(&"calcium 104 @Grundwasser Sonnau".to_owned()), "{two:?}");
    let limits = taken(&format!("Quellwasser Brunnacher\n{LIST}Grenzwerte\n{OTHER}"));
    assert_eq!(limits.len(), 4, "{limits:?}");
    // Groups of one water.
    let one = taken("Physik\npH-Wert: 7.48\nChemie\nCalcium: 88.0 mg/l\nNatrium: 3.4 mg/l\nSulfat: 14.0 mg/l\n");
    assert_eq!(one, ["ph 7.48", "calcium 88", "sodium 3.4", "sulfate 14"]);
}

/// Years tell columns of one kind apart; the year in which each substance was looked for tells no samples apart.
#[test]
fn years_of_columns_are_samples() {
    let text = "Parameter;Unit;Average 2023;Average 2024\nSodium;mg/l;196;181\nCalcium;mg/l;61.0;57.0\n";
    assert_eq!(
        taken(text),
        ["sodium mean 196 @2023", "sodium mean 181 @2024", "calcium mean 61 @2023", "calcium mean 57 @2024"]
    );
    let text = "Parameter;Unit;Average;Average\nSodium;mg/l;196;181\nCalcium;mg/l;61.0;57.0\n";
    assert!(taken(text).is_empty());
    let text = "Substance;Date;Unit;Average\nSodium;2024;mg/l;196\nCalcium;2023;mg/l;61.0\n";
    assert_eq!(taken(text), ["sodium mean 196", "calcium mean 61"]);
}

/// "At 25 °C" is a short footnote.
#[test]
fn short_footnotes_are_heard() {
    let text = "Substance;Unit;Average\nSpecific Conductance (b);µS/cm;651\nSodium;mg/l;39\n(a) As N. (b) At 25 °C.\n";
    let report = read_text(text);
    let basis = report.readings.iter().find(|r| r.determinand == "conductivity").and_then(|r| r.counted.basis());
    assert_eq!(basis, Some(report::Basis::At25C));
}

/// Classes named "soft", "medium" head no columns.
#[test]
fn a_row_of_classes_is_no_heading() {
    let rows = "Calcium;mg/l;98,0;54,0;76,0\nNatrium;mg/l;28,0;19,0;23,5\n";
    let head = "Parameter;Einheit;Zone Nord;Zone Süd;Zone Mitte\n";
    let plain = taken(&format!("{head}{rows}"));
    assert_eq!(plain.len(), 6);
    assert_eq!(taken(&format!("{head}Härtebereich;;hart;mittel;mittel\n{rows}")), plain);
}

/// Two numbers side by side and one word for them: which is which is asked.
#[test]
fn a_number_behind_that_of_a_limit_is_asked_about() {
    assert!(taken("Chloride mg/L LOD 0.5 12").is_empty());
    assert_eq!(taken("Chloride 12 mg/L, LOD 0.5"), ["chloride 12"]);
}

/// Rows that have a unit for their name, under the name of what they give.
#[test]
fn units_may_name_rows() {
    let rows = "mg/l calcium carbonate;29.8\nClark degrees;2.09\nGerman degrees;1.67\n";
    let all = taken(&format!("Average hardness of this zone, expressed as;Value\n{rows}"));
    assert_eq!(all, ["hardness_total mean 29.8", "hardness_total mean 2.09", "hardness_total mean 1.67"]);
}

/// What brewers reckon of alkalinity, calcium and magnesium is no alkalinity.
#[test]
fn residual_alkalinity_is_no_alkalinity() {
    let text = "Mineral;Unit;Average\nTotal alkalinity (as CaCO3);ppm;120\nResidual alkalinity (as CaCO3);ppm;59\nCalcium;ppm;80\n";
    assert_eq!(taken(text), ["alkalinity mean 120", "calcium mean 80"]);
}

/// A footnote's raised figure, or a limit that slipped out of its row, stands alone under the names.
#[test]
fn a_number_alone_in_its_line_is_asked_about() {
    let named = "Community;Nitrate (as NO3) mg/L;Sodium mg/L;Calcium mg/L\nNorthby;24;31;60\nSouthby;37;28;55\n";
    let sound = taken(named);
    assert_eq!(sound.len(), 6);
    assert_eq!(taken(&format!("{named};50;;\n")), sound);
    let asked = read_text(&format!("{named};50;;\n")).readings.iter().filter(|r| r.question.is_some()).count();
    assert_eq!(asked, 1, "it is kept");
}
