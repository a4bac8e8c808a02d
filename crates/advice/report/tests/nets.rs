//! Nothing is wrong without a question, whatever stands over a column; and nothing is lost in silence.

#![allow(clippy::disallowed_methods)]

use crate::common;

use std::collections::BTreeSet;

use crate::common::folder;
use report::{Report, Statistic, read, read_text};

/// What was taken without a question: determinand, statistic, value or detection limit, in thousandths.
fn taken(report: &Report) -> BTreeSet<(String, Statistic, Option<i64>)> {
    let number = |v: Option<f64>| v.map(|v| (v * 1e3).round() as i64);
    let sure = report.readings.iter().filter(|r| r.question.is_none());
    sure.map(|r| (r.determinand.clone(), r.statistic, number(r.value.or(r.detection_limit)))).collect()
}

/// Reports in text of the folders, decoded.
fn texts() -> Vec<(String, String)> {
    let names =
        ["own/01-long.csv", "own/05-ensayo.csv", "abroad/04-stream.csv", "own/27-maple.csv", "own/28-miles.csv"];
    let more = ["third/07-zone-distribution.csv", "third/11-trimestres.tsv", "own/03-bilan.tsv", "own/25-bare.csv"];
    let all = names.iter().chain(&more);
    all.map(|n| ((*n).to_owned(), String::from_utf8_lossy(&std::fs::read(folder(n)).unwrap()).into_owned())).collect()
}

/// Where a heading is a word that nobody knows, no number is taken for something else: it is the same, asked about, or kept.
#[test]
fn a_heading_that_nobody_knows_makes_nothing_wrong() {
    for (name, text) in texts() {
        let sound = taken(&read(&name, text.as_bytes()));
        let lines: Vec<&str> = text.lines().collect();
        let delimiter = ['\t', ';', ','].into_iter().max_by_key(|d| text.matches(*d).count()).unwrap();
        let head = lines.iter().position(|l| l.matches(delimiter).count() >= 2).unwrap();
        for cell in 0..=lines[head].matches(delimiter).count() {
            let changed: Vec<&str> =
                lines[head].split(delimiter).enumerate().map(|(i, c)| if i == cell { "Zork" } else { c }).collect();
            let changed = changed.join(&delimiter.to_string());
            let all: Vec<&str> = lines.iter().enumerate().map(|(i, l)| if i == head { &*changed } else { l }).collect();
            let found = read(&name, all.join("\n").as_bytes());
            let wrong: Vec<_> = taken(&found).difference(&sound).cloned().collect();
            assert!(wrong.is_empty(), "{name}, cell {cell}: {wrong:?}");
        }
    }
}

fn asked(text: &str) {
    let report = read_text(text);
    assert!(!report.readings.is_empty(), "{text}");
    assert!(report.readings.iter().all(|r| r.question.is_some()), "{text}\n{:?}", taken(&report));
}

/// Numbers that no tap has, most of a column: the rest of it is none either.
#[test]
fn a_column_of_strange_numbers_is_asked_about() {
    asked(
        "Parameter;Unit;Value\nCalcium;mg/l;3500\nMagnesium;mg/l;3500\nChloride;mg/l;4500\nConductivity at 25 °C;µS/cm;2510\n",
    );
}

/// 200, 50, 250, 240, 0.2, 0.05: limits of the directive, under a heading that says "value".
#[test]
fn a_column_of_limits_is_asked_about() {
    asked(
        "Parameter;Einheit;Wert\nNatrium;mg/l;200\nNitrat;mg/l;50\nChlorid;mg/l;250\nEisen;mg/l;0,2\nMangan;mg/l;0,05\n",
    );
    let sound =
        read_text("Parameter;Einheit;Wert\nNatrium;mg/l;12\nNitrat;mg/l NO3;9\nChlorid;mg/l;250\nEisen;mg/l;0,02\n");
    assert_eq!(taken(&sound).len(), 4);
}

#[test]
fn a_row_of_limits_is_asked_about() {
    let report = read_text("Ort,Natrium mg/l,Nitrat mg/l NO3,Chlorid mg/l\nZork,200,50,250\nDorf,12,9,20\n");
    assert_eq!(taken(&report).len(), 3);
}

/// Round numbers at or below each result beside them, and the number of each "<".
#[test]
fn what_a_method_can_see_is_asked_about() {
    let rows = "Calcium;mg/l;1;82\nNatrium;mg/l;0,5;12\nChlorid;mg/l;1;20\nSulfat;mg/l;1;30\nEisen;mg/l;0,01;<0,01\nMangan;mg/l;0,005;<0,005\n";
    let report = read_text(&format!("Parameter;Einheit;Wert Eins;Messwert\n{rows}"));
    assert!(report.readings.iter().filter(|r| r.value == Some(0.5)).all(|r| r.question.is_some()));
    let known = read_text(&format!("Parameter;Einheit;B. G.;Messwert\n{rows}"));
    assert_eq!(taken(&known).len(), 6);
}

#[test]
fn values_out_of_order_are_asked_about() {
    asked("Parameter,Unit,Max,Min,Mean\nCalcium,mg/l,52,60,55\nSodium,mg/l,10,12,11\n");
}

/// One line with a number and no result, and one that only a limit stands in.
#[test]
fn a_row_without_a_reading_is_told_of() {
    let report =
        read_text("Parameter;Einheit;Grenzwert;Ergebnis\nCalcium;mg/l;;82\nNatrium;mg/l;200;\nMagnesium;mg/l;;9\n");
    assert_eq!(taken(&report).len(), 2);
    assert!(report.unknown_rows.iter().any(|r| r.text.starts_with("Natrium")));
}

/// Pairs that differ in one thing only: each is read alike.
#[test]
fn minimal_pairs_of_headings() {
    let rows = "Calcium;mg/l;1,0;52,1;60,2\nSodium;mg/l;0,5;10,5;12,2\nChloride;mg/l;2,0;20,5;11,9\n";
    let expected = taken(&read_text(&format!("Parameter;Unit;LOQ;Zone A;Zone B\n{rows}")));
    assert_eq!(expected.len(), 6);
    for heading in [
        "Parámetro;Unidad;L.C.;Zone A;Zone B",
        "Paramètre;Unité;L. Q.;Zone A;Zone B",
        "Parameter;Einheit;Bestimmungsgrenze;Zone A;Zone B",
        "Parameter;Unit;MDL;Wasserwerk;Brunnen",
        "Parameter;Unit;R.L.;Tap;Well",
        "Característica;Expresada como;L.D.;Febrero;Mayo",
    ] {
        assert_eq!(taken(&read_text(&format!("{heading}\n{rows}"))), expected, "{heading}");
    }
    let told = format!("Point: Well 3;Kind: full;Date: 19/09/2024\nParameter;Unit;LOQ;Zone A;Zone B\n{rows}");
    assert_eq!(taken(&read_text(&told)), expected);
}

/// Numbers of samples are none of a water, under whatever words and in a row as in a column.
#[test]
fn numbers_of_samples_are_not_results() {
    let tall =
        "Paramètre;Unité;Nb de mesures;Mini;Moy.;Maxi\nChlorures;mg/L;6;8,1;9,0;10,2\nSodium;mg/L;6;10,3;12,0;13,6\n";
    assert_eq!(taken(&read_text(tall)).len(), 6);
    let wide = ";Sodium (mg/l);Chloride (mg/l);Calcium (mg/l)\nNo. of samples;12;12;52\nDetection limit;1;1;1\nMinimum;9;14;20\nMaximum;12;17;24\n% compliance;100;100;100\n";
    let found = taken(&read_text(wide));
    assert_eq!(found.len(), 6, "{found:?}");
}

/// A column that lies outside the lowest and the highest of its rows is none of results, whatever heads it.
#[test]
fn a_column_outside_its_ranges_is_asked_about() {
    let text = "Parameter;Unit;Results;Min;Mean;Max\nChloride;mg/l;6;8.1;9.0;10.2\nSodium;mg/l;6;10.3;12.0;13.6\n";
    let report = read_text(text);
    let of = |s: Statistic| report.readings.iter().filter(move |r| r.statistic == s);
    assert!(of(Statistic::Single).all(|r| r.question.is_some()) && of(Statistic::Mean).all(|r| r.question.is_none()));
    assert_eq!(taken(&report).len(), 6);
}

/// Rows with their own dates, each determinand once: one sample. Twice: one for each date.
#[test]
fn dates_of_rows_part_no_sample_that_is_one() {
    let head = "Date sampled;Parameter;Result;Unit\n14/01/2025;Chloride;24;mg/l\n03/02/2025;Sodium;14;mg/l\n";
    assert_eq!(read_text(head).samples.len(), 1);
    assert_eq!(read_text(&format!("{head}14/01/2025;Sodium;15;mg/l\n")).samples.len(), 2);
}

/// The names of determinands as they stand in the table of them, in small letters.
fn names() -> BTreeSet<String> {
    let all: Vec<knowledge::Names> = knowledge::book().determinands.values().map(|d| d.names()).collect();
    let named = all.iter().flat_map(|n| n.languages()).flat_map(|(_, names)| names.iter());
    named.map(|name| name.to_lowercase()).collect()
}

/// The rows of a text with a name in one cell and a number in another, by the file's own delimiter.
fn rows_with_values(text: &str, names: &BTreeSet<String>) -> Vec<u32> {
    let delimiter = ["\t", ";", ",", "  "].into_iter().max_by_key(|d| text.matches(d).count()).unwrap();
    let number = |cell: &str| {
        let cell = cell.trim_start_matches(['<', ' ']).replace(',', ".");
        cell.parse::<f64>().is_ok() && !(cell.len() == 4 && (cell.starts_with("19") || cell.starts_with("20")))
    };
    let told = |line: &str| {
        let cells: Vec<&str> = line.split(delimiter).map(|c| c.trim().trim_matches('"')).collect();
        let name = cells.iter().position(|c| names.contains(&c.to_lowercase()));
        name.is_some_and(|at| cells.iter().skip(at + 1).any(|c| number(c)))
    };
    text.lines().zip(1..).filter(|(line, _)| told(line)).map(|(_, number)| number).collect()
}

/// A row with a known name and a number gives a reading, or is told of as one that nobody understood: in every report in text.
#[test]
fn no_row_with_a_name_and_a_number_is_lost() {
    let (names, mut rows, mut all_lost) = (names(), 0, Vec::new());
    for name in ["own", "samples", "abroad", "later", "third", "fourth", "fifth", "more"] {
        for want in common::expected(name) {
            let file = want["file"].as_str().unwrap();
            if !["csv", "tsv", "txt"].iter().any(|end| file.ends_with(end)) {
                continue;
            }
            let bytes = std::fs::read(folder(name).join(file)).unwrap();
            let report = read(file, &bytes);
            let places = report.readings.iter().map(|r| &r.place).chain(report.unknown_rows.iter().map(|u| &u.source));
            let told: BTreeSet<u32> = places.filter_map(|p| p.line).collect();
            let text = String::from_utf8_lossy(&bytes).into_owned();
            let all = rows_with_values(&text, &names);
            let lost: Vec<u32> = all.iter().filter(|line| !told.contains(line)).copied().collect();
            all_lost.extend(lost.iter().map(|line| format!("{name}/{file}: line {line}")));
            rows += all.len();
        }
    }
    assert!(rows > 200 && all_lost.is_empty(), "{rows} rows, lost: {all_lost:#?}");
}

/// Opening hours, and what the words of a table stand for, are no values of a water.
#[test]
fn hours_and_legends_give_nothing() {
    let list = "Calcium: 45 mg/l\nMagnesium: 9 mg/l\nSodium: 12 mg/l\n";
    let more = "Öffnungszeiten: Mo 8-12, Do 14-18, Fr 8-11 Uhr\nLQ : limite de quantification (fer 10 µg/L)\nBG = Bestimmungsgrenze (Eisen 0,01 mg/l)\nL.C.: límite de cuantificación (hierro 10 µg/l)\n";
    assert_eq!(read_text(&format!("{list}{more}")).readings.len(), 3);
}

/// "12 (< 50)" is a value and what is allowed; a degree alone may be of another hardness; turbidity is known by its unit.
#[test]
fn values_beside_what_is_allowed_and_names_that_are_missing() {
    let report = read_text("Chloride: 19 mg/l (< 250)\nSodium: 11 mg/l (< 200 mg/l)\n");
    assert_eq!(taken(&report).len(), 2);
    assert!(report.readings.iter().all(|r| r.limit.as_ref().is_some_and(|l| l.value > Some(190.0))));
    asked("Town;°dH;°fH\nUpper;12,1;21,6\nLower;9,8;17,5\n");
    asked("Parameter;Limit;Level Detected\nHighest single measurement;1 NTU;0.18 NTU\n");
}

/// A name that says it is a mean is one; running numbers and bounds of classes are no results.
#[test]
fn what_names_and_headings_say() {
    let mean = read_text("Parameter;Value;Unit\nChloride average;12;mg/l\nSodium (mean);9;mg/l\n");
    assert!(mean.readings.len() == 2 && mean.readings.iter().all(|r| r.statistic == Statistic::Mean));
    let classes = "X;Parameter;Unit;Result;Group A;Group B\n1;Chloride;mg/l;12;250;600\n2;Sodium;mg/l;9;100;400\n3;Calcium;mg/l;44;375;500\n5;Magnesium;mg/l;6;290;420\n";
    assert_eq!(read_text(classes).readings.len(), 4);
}
