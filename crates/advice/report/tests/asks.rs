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

/// One line of notes among others, so that nothing takes it for a table.
fn line(text: &str) -> Vec<String> {
    let mut all = taken(&format!("My notes\n{text}\nColour: 3 Hazen\n"));
    all.retain(|t| !t.starts_with("colour"));
    all
}

#[test]
fn a_limit_beside_a_value_is_no_result() {
    for text in [
        "Sodium: 6.8 mg/l (Indikatorwert: 200 mg/l)",
        "Sodium: 6.8 mg/L (guideline 200 mg/L)",
        "Sodium: 6.8 mg/L (limit 200)",
        "Sodium: 6.8 mg/L, max. permitted 200 mg/L",
        "Natrium liegt bei 6,8 mg/l gegenüber einem Grenzwert von 200 mg/l.",
        "Sodium : 6,8 mg/L pour une limite de 200 mg/L",
        "Natrium: 6,8 mg/l (norm: 200 mg/l)",
        "Sodio: 6,8 mg/l / límite 200 mg/l",
        "Sodium (limit 200 mg/l): 6.8 mg/l",
        "Sodium 6.8 mg/l against 200 mg/l allowed",
        "Our water has 6.8 mg/l of sodium.",
        "The guideline for sodium is 200 mg/L and ours is 6.8 mg/L.",
    ] {
        assert_eq!(line(text), ["sodium Single 6.8 Ion"], "{text}");
    }
    // A word that nobody knows beside the second number.
    assert_eq!(line("Sodium 6.8 mg/l (Vorsorgezahl 200 mg/l)"), NOTHING);
    // The limit says how nitrate is counted.
    assert_eq!(line("Nitrat: 12,3 mg/l (Grenzwert 50 mg/l)"), ["nitrate Single 12.3 Ion"]);
    assert_eq!(line("pH: 7.4 [6.5 - 9.5]"), ["ph Single 7.4"]);
    assert_eq!(
        taken("Parameter;Unit;Result\nSodium;mg/l;6.8 max 200\nIron;mg/l;0.1\n"),
        ["sodium Single 6.8 Ion", "iron Single 0.1 Ion"]
    );
}

#[test]
fn statistics_in_sentences() {
    for text in [
        "Sodium averages 21.3 mg/L",
        "Natrium liegt im Mittel bei 21,3 mg/l",
        "Le sodium est en moyenne de 21,3 mg/L",
        "Natrium gemiddeld 21,3 mg/l",
        "El sodio es en promedio 21,3 mg/L",
        "Der mittlere Natriumgehalt beträgt 21,3 mg/l",
    ] {
        assert_eq!(line(text), ["sodium Mean 21.3 Ion"], "{text}");
    }
    for text in [
        "Sodium ranged from 11 to 32 mg/L",
        "Natrium liegt zwischen 11 und 32 mg/l",
        "Le sodium varie entre 11 et 32 mg/L",
        "Natrium ligt tussen 11 en 32 mg/l",
        "El sodio oscila entre 11 y 32 mg/L",
        "Natrium von 11 bis 32 mg/l",
    ] {
        assert_eq!(line(text), ["sodium Min 11 Ion", "sodium Max 32 Ion"], "{text}");
    }
    assert_eq!(
        line("The average pH was 7.5, between a low of 7.1 and a high of 8.2. The guideline is 6.5 to 8.5."),
        ["ph Mean 7.5", "ph Min 7.1", "ph Max 8.2"]
    );
    assert_eq!(line("Nitrate (NO3): maximum 25 mg/l"), NOTHING);
    assert_eq!(line("Wasser mit einer Härte von 15 bis 25 °fH gilt als mittelhart."), NOTHING);
}

#[test]
fn below_detection_in_words() {
    for text in [
        "Manganese: less than 0.005 mg/L",
        "Mangan: unter 0,005 mg/l",
        "Manganèse : inférieur à 0,005 mg/L",
        "Mangaan: kleiner dan 0,005 mg/l",
        "Manganeso: menor que 0,005 mg/L",
        "Manganese: not detected (limit 0.05 mg/L)",
        "Mangan nicht nachweisbar",
        "Manganèse : non détecté",
        "Mangaan: niet aantoonbaar",
        "Manganeso: no se detecta",
        "Manganese: < LOQ",
        "Manganese was below the detection limit of 0.005 mg/l",
    ] {
        assert_eq!(line(text), ["manganese Single < Ion"], "{text}");
    }
}

#[test]
fn a_unit_that_nobody_knows_is_asked_about() {
    let with =
        |unit: &str, value: &str| taken(&format!("Parameter;Unit;Result\nSodium;{unit};{value}\nIron;mg/l;0.1\n"));
    assert_eq!(with("mg.l-1", "12"), ["sodium Single 12 Ion", "iron Single 0.1 Ion"]);
    assert_eq!(with("furlong", "12"), ["iron Single 0.1 Ion"]);
    assert_eq!(with("mg/l", "12 quux/l"), ["iron Single 0.1 Ion"]);
    // More than any tap holds; common practice, no source.
    assert_eq!(with("mg/l", "8200"), ["iron Single 0.1 Ion"]);
    assert_eq!(taken("Parameter;Unit;Result\nTurbidity;;1.4\nTurbidity;N.T.U;1.4\n"), ["turbidity Single 1.4"]);
}

#[test]
fn a_footnote_goes_with_what_it_marks() {
    let text = "Parameter;Unit;Result\nNitrat;mg/l¹⁾;12,3\nConductivity;µS/cm 2);512\nAmmonium *;mg/l;0,1\nNitrit;mg/l;0,1\n1) Höchstwert 40 mg/l\n2) bei 25 °C\n* als NH4\n";
    assert_eq!(taken(text), ["nitrate Single 12.3 Ion", "conductivity Single 512 At25C", "ammonium Single 0.1 Ion"]);
}

/// Hand arithmetic: the charges of this water balance with 15 mg/L of sodium (0.65 meq/L), and not with 150.
#[test]
fn a_point_in_the_wrong_place_is_asked_about() {
    let text = "Parameter;Unit;Value\nConductivity at 25 °C;µS/cm;520\nCalcium;mg/l;82\nMagnesium;mg/l;12\nSodium;mg/l;150\nPotassium;mg/l;2\nChloride;mg/l;25\nSulfate;mg/l;40\nNitrate (NO3);mg/l;12\nBicarbonate;mg/l;245\n";
    assert!(!taken(text).iter().any(|t| t.starts_with("sodium")));
    assert!(taken(&text.replace(";150", ";15")).contains(&"sodium Single 15 Ion".to_owned()));
}
