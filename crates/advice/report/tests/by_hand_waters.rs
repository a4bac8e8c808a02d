//! Which water a value is of, which of two limits it lies under, how names and values stand: small texts, read by hand.

use report::{Basis, Counted, read, read_text};

/// Determinand, value or "<" with what it is under, and the name of its sample.
fn taken(text: &str) -> Vec<String> {
    let report = read_text(text);
    let sure = report.readings.iter().filter(|r| r.question.is_none());
    let name = |r: &report::Reading| r.sample.and_then(|s| report.samples.get(s)?.name.clone()).unwrap_or_default();
    let value = |r: &report::Reading| match (r.value, r.detection_limit) {
        (Some(v), _) => v.to_string(),
        (None, limit) => format!("<{}", limit.map_or(String::new(), |l| l.to_string())),
    };
    sure.map(|r| format!("{} {} {}", r.determinand, value(r), name(r)).trim().to_owned()).collect()
}

/// "Not detected" beside two limits of the method: that of the note, else the higher one.
#[test]
fn two_limits_of_a_method() {
    let table = "Analyte,Result,RL,MDL,Units\nIron,ND,0.050,0.018,mg/L\nZinc,0.0122,0.005,0.0017,mg/L\nLead,ND,0.001,0.0003,mg/L\n";
    assert_eq!(taken(table), ["iron <0.05", "zinc 0.0122", "lead <0.001"]);
    let noted = format!("{table}U = not detected at or above the MDL\n");
    assert_eq!(taken(&noted), ["iron <0.018", "zinc 0.0122", "lead <0.0003"]);
    let told = table.replacen("ND", "<MDL", 1);
    assert_eq!(taken(&told), ["iron <0.018", "zinc 0.0122", "lead <0.001"]);
}

/// "n.b." is a result: its row heads nothing, though "AL" and "n.b." are words of headings elsewhere.
#[test]
fn a_row_of_values_is_no_heading() {
    let text = "Parameter                Ergebnis   Einheit   BG       PW       Methode
Eisen (Fe)               n.b.       mg/l      0,02     0,20     ISO 17294-2
Aluminium (Al)           n.b.       mg/l      0,01     0,20     ISO 17294-2
Ammonium (NH4)           n.b.       mg/l      0,02     0,50     ISO 14911
Nitrat (NO3)             9,7        mg/l      0,5      50       ISO 10304-1
Chlorid (Cl)             5,8        mg/l      0,5      200      ISO 10304-1
n.b. = nicht bestimmbar (kleiner BG)
";
    assert_eq!(taken(text), ["iron <0.02", "ammonium <0.02", "nitrate 9.7", "chloride 5.8"]);
}

#[test]
fn pairs_side_by_side_and_names_above_their_values() {
    let pairs = "Fer : < 5 µg/l    Manganèse : < 1 µg/l\nCuivre : 3,4 µg/l    Zinc : 12 µg/l\n";
    assert_eq!(taken(pairs), ["iron <5", "manganese <1", "copper 3.4", "zinc 12"]);
    let above = "Característica   Unidades   Valor máximo   Resultado   Diagnóstico

Calcio
  mg/L Ca   60   9,2   Aceptable
Cloruros
  mg/L Cl-   250   7,9   Aceptable
Manganeso
  mg/L Mn   0,1   < 0,02   Aceptable
";
    assert_eq!(taken(above), ["calcium 9.2", "chloride 7.9", "manganese <0.02"]);
}

/// The letters of the Mac's own encoding, and its ends of lines.
#[test]
fn the_macs_own_letters() {
    let bytes = b"Param\x8Ftre;Unit\x8E;Moyenne\rManganese;\xB5g/L;2,4\rMagn\x8Esium;mg/L;5,2\rChlore r\x8Esiduel libre;mg/L;0,92\r";
    let report = read("bilan.csv", bytes);
    let found: Vec<(&str, Option<f64>)> = report.readings.iter().map(|r| (r.determinand.as_str(), r.value)).collect();
    assert_eq!(found, [("manganese", Some(2.4)), ("magnesium", Some(5.2)), ("chlorine_free", Some(0.92))]);
}

/// The name of a water stands in the line that says so, be it above others.
#[test]
fn the_line_that_names_the_water() {
    let list = |calcium: &str| {
        format!(
            "<table><tr><th>Parameter</th><th>Wert</th><th>Einheit</th></tr><tr><td>Calcium</td><td>{calcium}</td><td>mg/l</td></tr><tr><td>Chlorid</td><td>{calcium}</td><td>mg/l</td></tr><tr><td>Natrium</td><td>{calcium}</td><td>mg/l</td></tr></table>"
        )
    };
    let text = format!(
        "<html><h1>Werte</h1><h3>Oberdorf</h3><p>Versorgte Orte: Aue</p>{}<h3>Wasserwerk Talgrund</h3><p>Versorgte Orte: Sand</p>{}</html>",
        list("61"),
        list("24")
    );
    let found = taken(&text);
    assert_eq!(found.first().map(String::as_str), Some("calcium 61 Oberdorf"));
    assert_eq!(found.get(3).map(String::as_str), Some("calcium 24 Wasserwerk Talgrund"));
}

/// "Population  4312" above a heading heads nothing; a quarter and its year are one.
#[test]
fn what_heads_a_table() {
    let text = "Zone Haut-Plateau;;;\nPopulation desservie;4312;;\nParamètre;Unité;Résultats;\n;;Minimum;Maximum\nCalcium;mg/l;40;44\nSodium;mg/l;6;9\nChlorures;mg/l;11;14\n";
    assert!(read_text(text).samples.iter().all(|s| s.name.as_deref() != Some("4312")));
    let text = "                      1e kwartaal   2e kwartaal
Parameter  Eenheid     2024          2024
Calcium    mg/l        44,0          45,3
Natrium    mg/l        17,9          18,4
Chloride   mg/l        27,0          28,1
";
    let names: Vec<Option<String>> = read_text(text).samples.into_iter().map(|s| s.name).collect();
    assert_eq!(names, [Some("1e kwartaal 2024".to_owned()), Some("2e kwartaal 2024".to_owned())]);
}

/// Several values on a line under the name of their water; without names nobody knows which is meant.
#[test]
fn lines_of_values_of_two_waters() {
    let lines = |names: [&str; 2]| {
        let [one, other] = names;
        format!(
            "{one}\nCalcium 61 mg/l, Magnesium 12 mg/l, Natrium 8 mg/l\n{other}\nCalcium 31 mg/l, Magnesium 6 mg/l, Natrium 4 mg/l\n"
        )
    };
    let named = taken(&lines(["Reservoir Oberfeld", "Reservoir Unterfeld"]));
    assert_eq!(named.first().map(String::as_str), Some("calcium 61 Reservoir Oberfeld"));
    assert_eq!(named.last().map(String::as_str), Some("sodium 4 Reservoir Unterfeld"));
    assert_eq!(taken(&lines(["", ""])), Vec::<String>::new());
}

/// A sentence that explains a word says nothing of means.
#[test]
fn a_word_explained_is_no_mean() {
    let text = "ND means not detected\nParameter,Result,Unit\nIron,0.31,mg/L\nZinc,ND,mg/L\nCalcium,71,mg/L\n";
    assert!(read_text(text).readings.iter().all(|r| r.statistic == report::Statistic::Single));
}

/// A limit of 10 mg/L is that of N in some countries and of NO3 in others: the ions decide, or it is asked.
#[test]
fn a_limit_proves_nothing_against_the_ions() {
    // 1.996 + 0.823 + 0.609 meq/L of cations; 2.5 + 0.423 + 0.250 + 0.255 (15.8 mg/L NO3) of anions: balanced to 0.1 %.
    let text = "Parameter,Unit,Limit,Result\nCalcium,mg/L,,40.0\nMagnesium,mg/L,,10.0\nSodium,mg/L,,14.0\nBicarbonate,mg/L,,152.5\nChloride,mg/L,250,15.0\nSulfate,mg/L,250,12.0\nNitrate,mg/L,10,15.8\n";
    let report = read_text(text);
    let nitrate = report.readings.iter().find(|r| r.determinand == "nitrate");
    assert!(nitrate.is_some_and(|r| r.counted == Counted::As(Basis::Ion) || r.question.is_some()), "{nitrate:?}");
}

/// Total phosphorus is more than what of it is phosphate, and contradicts nothing.
#[test]
fn total_phosphorus_beside_phosphate() {
    let text = "Parameter;Einheit;Ergebnis\northo-Phosphat (als P);mg/l;0,021\nPhosphor, gesamt (als P);mg/l;0,027\n";
    assert!(read_text(text).contradictions.is_empty());
}
