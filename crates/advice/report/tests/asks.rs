//! Traps: what is not sure is asked or kept as an unknown row, never taken in silence. Expected values by reading the text.

use report::read_text;

/// What is taken without a question: determinand, statistic, value, basis.
fn taken(text: &str) -> Vec<String> {
    let report = read_text(text);
    let sure = report.readings.iter().filter(|r| r.question.is_none());
    sure.map(|r| {
        let basis = r.counted.basis().map_or(String::new(), |b| format!(" {b:?}"));
        format!("{} {:?} {}{basis}", r.determinand, r.statistic, r.value.map_or("<".to_owned(), |v| v.to_string()))
    })
    .collect()
}

const NOTHING: [&str; 0] = [];

#[test]
fn look_alikes_are_not_taken() {
    for text in [
        "Vinyl chloride 0.5 µg/l",
        "Calcium chloride 30 mg/l",
        "Sodium hypochlorite 12 mg/l",
        "Iron bacteria 3 mg/l",
        "Lead pipes 20 mg/l",
        "Chlorine dioxide 0.1 mg/l",
        "Total nitrogen 5 mg/l",
        "Nitrate/50 + nitrite/3 0.4 mg/l",
        "The limit for nitrate is 50 mg/l.",
        "We add fluoride to 1 mg/l.",
        "There was no lead above 10 µg/l.",
        "Chlorine 0.3 mg/l",
        "Säurekapazität bis pH 8,2: 0,1 mmol/l",
        "Calcium 60",
        "Nitrate 12 mg/l",
        "Alkalinity 120 mg/l",
        "Hardness 120 mg/l",
        "Karbonathärte 1,2 mmol/l",
        "mg/l as calcium 100",
        "pH 74",
    ] {
        assert_eq!(taken(text), NOTHING, "{text}");
    }
}

#[test]
fn limits_are_not_results() {
    let text = "Parameter;Einheit;Grenzwerte;;Messwerte;;\n;;min;max;min;Mittel;max\nChlorid;mg/l;;250;20;22;25\nCalcium;mg/l;;;50;52;55\n";
    assert_eq!(taken(text).len(), 6);
    assert!(!taken(text).iter().any(|t| t.contains("250")));
    // Nothing says which of the two columns is the limit.
    assert_eq!(taken("Calcium;mg/l;60;200\nSodium;mg/l;20;200\nChloride;mg/l;30;250\n"), NOTHING);
    // A highest value beside one result may be the highest allowed.
    assert_eq!(
        taken("Parameter,Unit,Result,Maximum\nSodium,mg/l,20,200\nChloride,mg/l,30,250\n"),
        ["sodium Single 20 Ion", "chloride Single 30 Ion"]
    );
}

#[test]
fn a_column_of_units_names_nothing() {
    let text = "Parameter,Units,Min,Mean,Max\nNitrate,mg NO3/l,1,2,3\nTotal hardness,mg/l Ca,40,48,56\n";
    assert_eq!(
        taken(text),
        [
            "nitrate Min 1 Ion",
            "nitrate Mean 2 Ion",
            "nitrate Max 3 Ion",
            "hardness_total Min 40 Ca",
            "hardness_total Mean 48 Ca",
            "hardness_total Max 56 Ca"
        ]
    );
}

#[test]
fn a_blank_cell_between_single_spaces_is_asked_about() {
    let text = "Parameter Einheit Min Mittel Max Grenzwert\nChlorid mg/l 28 31 33\nNatrium mg/l 10 11 12 200\n";
    assert_eq!(taken(text), ["sodium Min 10 Ion", "sodium Mean 11 Ion", "sodium Max 12 Ion"]);
}

#[test]
fn a_thousand_or_one_and_a_bit() {
    assert_eq!(
        taken("Parameter;Unit;Value\nConductivity at 25 °C;µS/cm;1,234\nSodium;mg/l;20\n"),
        ["sodium Single 20 Ion"]
    );
    assert_eq!(
        taken("Parameter;Unit;Value\nConductivity at 25 °C;µS/cm;1.234\nSodium;mg/l;20,5\n"),
        ["conductivity Single 1234 At25C", "sodium Single 20.5 Ion"]
    );
}

#[test]
fn unknown_rows_are_kept() {
    let report = read_text("Parameter,Unit,Result\nUnobtainium,mg/l,3\nSodium,mg/l,20\n");
    assert_eq!(report.unknown_rows.len(), 1);
    assert!(report.unknown_rows.iter().all(|r| r.text.contains("Unobtainium") && r.source.line == Some(2)));
}
