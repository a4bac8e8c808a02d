//! Little reports in odd layouts, written to mislead: nothing wrong is taken without a question. Expected values by reading
//! the text.

use report::{read, read_text};

/// What is taken without a question: determinand, statistic, value, unit; the basis and the sample where there are.
fn taken(report: &report::Report) -> Vec<String> {
    let sure = report.readings.iter().filter(|r| r.question.is_none());
    sure.map(|r| {
        let value = r.value.or(r.detection_limit).map_or(String::new(), |v| v.to_string());
        let below = if r.is_below_detection() { "<" } else { "" };
        let sample =
            r.sample.and_then(|s| report.samples.get(s)?.name.clone()).map_or(String::new(), |s| format!(" @{s}"));
        format!("{} {:?} {below}{value} {}{sample}", r.determinand, r.statistic, r.unit.map_or("", |u| u.name()))
    })
    .collect()
}

/// Exactly these are taken.
fn takes(text: &str, expected: &[&str]) {
    assert_eq!(taken(&read_text(text)), expected, "{text}");
}

/// Nothing is taken, and the readings are there to be asked about.
fn asks(text: &str) {
    let report = read_text(text);
    assert!(!report.readings.is_empty() && taken(&report).is_empty(), "{text}: {:?}", taken(&report));
}

/// What a row holds is said in a column of its own.
#[test]
fn a_column_says_which_number_stands_in_its_row() {
    takes(
        "parameter;unit;statistic;value\nNitrate;mg/l NO3;minimum;18.2\nNitrate;mg/l NO3;mean;24.4\nNitrate;mg/l NO3;limit;50\nSodium;mg/l;mean;12.4\nSodium;mg/l;limit;200\n",
        &["nitrate Min 18.2 mg/L", "nitrate Mean 24.4 mg/L", "sodium Mean 12.4 mg/L"],
    );
    takes(
        "Stoff,Einheit,Art,Wert\nNitrat,mg/l NO3,Mittel,24.4\nNitrat,mg/l NO3,Grenzwert,50\nNatrium,mg/l,Mittel,12.4\nNatrium,mg/l,Grenzwert,200\n",
        &["nitrate Mean 24.4 mg/L", "sodium Mean 12.4 mg/L"],
    );
    takes(
        "Zone;Statistik;Calcium mg/l;Natrium mg/l;Chlorid mg/l\nNord;Mittelwert;82,3;12,1;22,5\nNord;Grenzwert;;200;250\nSüd;Mittelwert;61,2;18,3;31,4\nSüd;Grenzwert;;200;250\n",
        &[
            "calcium Mean 82.3 mg/L @Nord",
            "sodium Mean 12.1 mg/L @Nord",
            "chloride Mean 22.5 mg/L @Nord",
            "calcium Mean 61.2 mg/L @Süd",
            "sodium Mean 18.3 mg/L @Süd",
            "chloride Mean 31.4 mg/L @Süd",
        ],
    );
}

/// The highest allowed beside a result, or beside means, whatever its numbers.
#[test]
fn highest_values_that_are_allowed_are_asked_about() {
    takes(
        "Parameter,Unit,Result,Min,Max\npH,,7.6,6.5,8.6\nSodium,mg/l,20.1,,175\nPotassium,mg/l,2.2,,13\nIron,mg/l,0.021,,0.4\n",
        &["ph Single 7.6 pH", "sodium Single 20.1 mg/L", "potassium Single 2.2 mg/L", "iron Single 0.021 mg/L"],
    );
    takes(
        "Parameter;Unit;Max;Average\nSodium;mg/l;175;20.1\nPotassium;mg/l;13;2.2\nMagnesium;mg/l;125;8.8\n",
        &["sodium Mean 20.1 mg/L", "potassium Mean 2.2 mg/L", "magnesium Mean 8.8 mg/L"],
    );
    // Highest values as they are found stay.
    takes(
        "Parameter;Unit;Max;Average\nSodium;mg/l;25.3;20.1\nPotassium;mg/l;3.1;2.2\n",
        &["sodium Max 25.3 mg/L", "sodium Mean 20.1 mg/L", "potassium Max 3.1 mg/L", "potassium Mean 2.2 mg/L"],
    );
}

/// Two units for one number: the heading's, the row's, the name's.
#[test]
fn units_that_differ_are_asked_about() {
    asks("Parameter;Unit;Result (µg/l);Limit\nManganese;mg/l;4;0.05\nZinc;mg/l;12;3\n");
    takes("Parameter;Unit;Result\nManganese (µg/l);mg/l;4\nSodium (mg/l);mg/l;12.1\n", &["sodium Single 12.1 mg/L"]);
    // The unit stands beside the limit alone, and a result far under it may be in another.
    takes(
        "Parameter;Limit;Minimum;Maximum\nIron;200 µg/l;11;214\nManganese;50 µg/l;0.004;0.006\nSodium;200 mg/l;10.1;12.2\n",
        &["iron Min 11 µg/L", "iron Max 214 µg/L", "sodium Min 10.1 mg/L", "sodium Max 12.2 mg/L"],
    );
}

/// "Value (limit)" and "limit (value)".
#[test]
fn results_and_limits_in_one_cell() {
    takes(
        "Paramètre;Unité;Valeur (limite ou référence)\npH;;7,5 (6,5 - 9)\nNitrates;mg/L NO3;24,4 (50)\nCalcium;mg/L;82,3\nFer total;µg/L;<10 (200)\n",
        &["ph Single 7.5 pH", "nitrate Single 24.4 mg/L", "calcium Single 82.3 mg/L", "iron Single <10 µg/L"],
    );
    takes(
        "Parameter;Einheit;Grenzwert (Messwert)\nNatrium;mg/l;200 (12,1)\nKalium;mg/l;12\nCalcium;mg/l;- (82,3)\npH-Wert;;6,5-9,5 (7,61)\n",
        &["sodium Single 12.1 mg/L", "calcium Single 82.3 mg/L", "ph Single 7.61 pH"],
    );
    takes(
        "Parameter,Unit,Result / limit\nSodium,mg/l,12.1 / 200\nChloride,mg/l,22.5 / 250\nCalcium,mg/l,82.3\n",
        &["sodium Single 12.1 mg/L", "chloride Single 22.5 mg/L"],
    );
    asks("Parameter,Unit,Finding\nSodium,mg/l,12.1 < 200\nIron,mg/l,0.02 ≤ 0.2\nFluoride,mg/l,0 ≤ 0.12 ≤ 1.5\n");
}

/// A table of two limits, and rows named as limits.
#[test]
fn tables_and_rows_of_limits_give_nothing() {
    takes(
        "Results\nParameter;Unit;Value\nSodium;mg/l;12.1\nIron;mg/l;0.02\n\nLegal limits\nParameter;Unit;Value\nSodium;mg/l;200\nIron;mg/l;0.2\n",
        &["sodium Single 12.1 mg/L", "iron Single 0.02 mg/L"],
    );
    takes(
        "Parameter;Unit;Value\nNitrate limit;mg/l NO3;50\nNitrate;mg/l NO3;24.4\nSodium (max. allowed);mg/l;200\nSodium;mg/l;12.1\n",
        &["nitrate Single 24.4 mg/L", "sodium Single 12.1 mg/L"],
    );
    takes(
        "Parameter;Einheit;Wert\nNitrat (Höchstwert 50 mg/l);mg/l NO3;24,4\nNatrium (Höchstwert 200 mg/l);mg/l;12,1\n",
        &["nitrate Single 24.4 mg/L", "sodium Single 12.1 mg/L"],
    );
}

/// The lowest and the highest value in rows of their own, named or under the name.
#[test]
fn lowest_and_highest_in_rows_of_their_own() {
    let expected = ["sodium Min 10.2 mg/L", "sodium Mean 12.4 mg/L", "sodium Max 15.1 mg/L"];
    takes(
        "Parameter;Unit;Value\nSodium minimum;mg/l;10.2\nSodium mean;mg/l;12.4\nSodium maximum;mg/l;15.1\n",
        &expected,
    );
    takes(
        "Hill zone\n\nSodium (mg/l)\n  minimum     10.2\n  mean        12.4\n  maximum     15.1\n  limit       200\n",
        &expected,
    );
    // One end alone may be what is allowed.
    takes("Parameter;Unit;Value\nSodium maximum;mg/l;150\nSodium mean;mg/l;12.4\n", &["sodium Mean 12.4 mg/L"]);
}

/// Means of this year and of the last, in rows and in columns.
#[test]
fn two_years_stay_two_waters() {
    let report = read_text(
        ";Calcium (mg/L);Sodium (mg/L);Chlorures (mg/L)\nMinimum;78,2;10,1;20,0\nMoyenne;82,3;12,1;22,5\nMoyenne 2023;81,1;12,9;22,1\n",
    );
    let of = |name: &str| taken(&report).iter().filter(|t| t.ends_with(name)).count();
    assert_eq!((taken(&report).len(), of(" @2023")), (9, 3), "{:?}", taken(&report));
    takes(
        ";Calcium (mg/L);Sodium (mg/L);Chlorures (mg/L)\nMinimum;78,2;10,1;20,0\nMoyenne;82,3;12,1;22,5\nMoyenne;81,1;12,9;22,1\n",
        &["calcium Min 78.2 mg/L", "sodium Min 10.1 mg/L", "chloride Min 20 mg/L"],
    );
    asks("Parameter;Einheit;Grenzwert;Mittel;Mittel Vorjahr\nNatrium;mg/l;200;12,1;13,3\nChlorid;mg/l;250;22,5;24,0\n");
}

/// Marks of footnotes that stand right behind a number, in whatever element.
#[test]
fn marks_of_footnotes_are_no_digits() {
    let rows = "<tr><td>Natrium</td><td>50<sup>1</sup></td></tr><tr><td>Chloride</td><td>40<a href=\"#n1\">1</a></td></tr><tr><td>Sulfaat</td><td>30<span class=\"voetnoot\">2</span></td></tr><tr><td>Calcium</td><td>48<span style=\"vertical-align:super\">1</span></td></tr><tr><td>Magnesium</td><td>7,2<small>1</small></td></tr><tr><td>Kalium</td><td>2<b>5</b></td></tr><tr><td>IJzer</td><td>0,12<span>3</span>4</td></tr>";
    let page =
        format!("<html><body><table><tr><th>Parameter</th><th>Gemeten (mg/l)</th></tr>{rows}</table></body></html>");
    let found = taken(&read("zone.html", page.as_bytes()));
    let expected =
        ["sodium Single 50", "chloride Single 40", "sulfate Single 30", "calcium Single 48", "magnesium Single 7.2"];
    assert_eq!(found, expected.map(|e| format!("{e} mg/L")));
}

/// A heading that speaks of the highest value heads the highest, in each language.
#[test]
fn a_column_of_highest_values_is_one_of_highest_values() {
    for heading in [
        "Highest value",
        "Level found (highest)",
        "Highest single sample",
        "Höchster gemessener Wert",
        "Höchste Konzentration",
        "Valeur la plus élevée",
        "Hoogst gemeten waarde",
        "Valor más alto",
    ] {
        let text = format!("Parameter;Unit;Limit;{heading}\nSodium;mg/l;200;12.1\nChloride;mg/l;250;22.5\n");
        takes(&text, &["sodium Max 12.1 mg/L", "chloride Max 22.5 mg/L"]);
    }
}

/// Columns parted by two spaces, whose cells do not stand below each other: their number tells.
#[test]
fn cells_that_are_told_by_their_order() {
    takes(
        "Summary of water quality 2024\nParameter  Parametric value  No. of samples  No. exceeding  % compliance  Minimum  Maximum\nAluminium  200 µg/l  12  0  100  11  64\nChloride  250 mg/l  4  0  100  18.2  22.4\nIron  200 µg/l  12  1  92  11  214\nNitrate (as NO3)  50 mg/l  4  0  100  8.1  12.3\npH  6.5 to 9.5  12  0  100  7.2  7.8\n",
        &[
            "chloride Min 18.2 mg/L",
            "chloride Max 22.4 mg/L",
            "iron Min 11 µg/L",
            "iron Max 214 µg/L",
            "nitrate Min 8.1 mg/L",
            "nitrate Max 12.3 mg/L",
            "ph Min 7.2 pH",
            "ph Max 7.8 pH",
        ],
    );
}

/// Medians beside percentiles, counts first, shares of what is allowed.
#[test]
fn counts_shares_and_percentiles() {
    takes(
        "Parameter;Units;No.;5th %ile;Median;95th %ile;Max;% > limit\nSodium;mg/l;12;10.1;12.1;14.2;15.3;0\n",
        &["sodium P5 10.1 mg/L", "sodium Median 12.1 mg/L", "sodium P95 14.2 mg/L", "sodium Max 15.3 mg/L"],
    );
    takes(
        "Parameter;Unit;Mean;Share of limit;Change since 2023\nSodium;mg/l;12.1;6;-0.8\nChloride;mg/l;22.5;9;1.5\nCalcium;mg/l;82.3;;2.2\n",
        &["sodium Mean 12.1 mg/L", "chloride Mean 22.5 mg/L", "calcium Mean 82.3 mg/L"],
    );
    takes(
        "Parameter;Unit;Value\nIron;mg/l;2.1 x 10-2\nZinc;mg/l;4·10-3\nSodium;mg/l;1.21E+1\n",
        &["sodium Single 12.1 mg/L"],
    );
}

/// One line among others, so that nothing takes it for a table.
fn line(text: &str) -> Vec<String> {
    taken(&read_text(&format!("My notes\n{text}\nColour: 3 Hazen\n")))
}

const NOTHING: [&str; 0] = [];

#[test]
fn sentences_that_mislead() {
    for text in [
        "Nitrate levels were 25 percent of the limit of 50 mg/l.",
        "Sodium rose from 18 mg/l in 2023 to 22 mg/l in 2024.",
        "Chloride fell by 3 mg/l.",
        "Chlorid ist um 3 mg/l gestiegen.",
        "Calcium is 82 mg/l (2023: 79 mg/l).",
        "Potassium increased from 2.1 to 2.4 mg/l.",
        "Sulfate: 40 mg/l, compared with 45 mg/l last year.",
        "1 °dH equals 17.8 mg/l of hardness as CaCO3.",
        "Hardness: soft 0 - 60 mg/l, hard 121 - 180 mg/l",
        "Sodium should not be above 200 mg/l; we measured 12.1 mg/l.",
        "Chloride at the works: 22 mg/l. Chloride at the tap: 25 mg/l.",
        "Hardness is 14 °dH here and 20 °f there.",
    ] {
        assert_eq!(line(text), NOTHING, "{text}");
    }
    assert!(!line("Low Well has a sodium content of 10 mg/l.").iter().any(|t| t.contains("Min")));
}

/// A level that a sentence warns of is none of the water: neither taken nor asked about.
#[test]
fn a_warning_is_passed_over() {
    for text in [
        "Nitrate in drinking water at levels above 10 ppm is a health risk for infants of less than six months of age.",
        "Values above 10 ppm of nitrate are a risk for infants.",
        "Infants who are given water with nitrate in excess of 50 mg/l may become ill.",
        "Nitratgehalte über 50 mg/l sind ein Risiko für Säuglinge.",
        "Des teneurs en nitrates supérieures à 50 mg/L présentent un risque pour les nourrissons.",
        "Niveles de nitrato superiores a 50 mg/L son un riesgo para los lactantes.",
        "Nitraat boven 50 mg/l is een risico voor zuigelingen.",
    ] {
        assert!(read_text(&format!("My notes\n{text}\nColour: 3 Hazen\n")).readings.is_empty(), "{text}");
    }
    assert_eq!(
        line("Nitrate: 12.1 mg/l as NO3. Levels above 50 mg/l are a risk for infants."),
        ["nitrate Single 12.1 mg/L"]
    );
}

/// The same value in a second unit is another reading of it, and each has its own basis.
#[test]
fn a_second_unit_in_a_sentence() {
    let twice = |text: &str| {
        let report = read_text(&format!("My notes\n{text}\nColour: 3 Hazen\n"));
        let sure = report.readings.iter().filter(|r| r.question.is_none());
        sure.map(|r| (r.value.unwrap_or(0.0), r.counted.basis())).collect::<Vec<_>>()
    };
    use report::Basis::{CaCO3, Ion, N};
    for text in [
        "Hardness averaged 153 mg/L as calcium carbonate, which is about 9.0 grains per gallon.",
        "Our average hardness of 153 ppm as calcium carbonate equals 9.0 grains per gallon.",
        "Hardness is 153 mg/l as CaCO3, or 9.0 gpg.",
    ] {
        assert_eq!(twice(text), [(153.0, Some(CaCO3)), (9.0, None)], "{text}");
    }
    assert_eq!(twice("La dureza es de 25 °f, equivalente a 250 mg/L CaCO3."), [(25.0, None), (250.0, Some(CaCO3))]);
    assert_eq!(twice("Nitrate was 5.2 mg/L as N (23 mg/L as NO3)."), [(5.2, Some(N)), (23.0, Some(Ion))]);
}

/// Rows under the days of a year that tell of all of them: of the water, not of a sample called "Minimum".
#[test]
fn what_is_said_of_all_days_is_of_no_sample_of_its_own() {
    takes(
        "Sampling date;pH;Sodium (mg/l);Calcium (mg/l)\n2023-03-06;7.4;12.1;80.2\n2023-04-03;7.6;13.1;81.2\nMinimum;7.4;12.1;80.2\nAverage;7.5;12.6;80.7\nMaximum;7.6;13.1;81.2\n",
        &[
            "ph Single 7.4 pH @2023-03-06",
            "sodium Single 12.1 mg/L @2023-03-06",
            "calcium Single 80.2 mg/L @2023-03-06",
            "ph Single 7.6 pH @2023-04-03",
            "sodium Single 13.1 mg/L @2023-04-03",
            "calcium Single 81.2 mg/L @2023-04-03",
            "ph Min 7.4 pH",
            "sodium Min 12.1 mg/L",
            "calcium Min 80.2 mg/L",
            "ph Mean 7.5 pH",
            "sodium Mean 12.6 mg/L",
            "calcium Mean 80.7 mg/L",
            "ph Max 7.6 pH",
            "sodium Max 13.1 mg/L",
            "calcium Max 81.2 mg/L",
        ],
    );
}

/// "MAC 10": a limit by its name, in the column of limits and in no other.
#[test]
fn limits_by_their_names_end_a_line_of_single_spaces() {
    takes(
        "Parameter Units Min Max Average Limit\nSodium mg/L 102 117 109 AO 200\nBoron mg/L 0.02 0.04 0.03 IMAC 5\npH pH units 7.4 7.9 7.6 OG 6.5-8.5\nCalcium mg/L 30.1 32.2 31.3 -\n",
        &[
            "sodium Min 102 mg/L",
            "sodium Max 117 mg/L",
            "sodium Mean 109 mg/L",
            "boron Min 0.02 mg/L",
            "boron Max 0.04 mg/L",
            "boron Mean 0.03 mg/L",
            "ph Min 7.4 pH",
            "ph Max 7.9 pH",
            "ph Mean 7.6 pH",
            "calcium Min 30.1 mg/L",
            "calcium Max 32.2 mg/L",
            "calcium Mean 31.3 mg/L",
        ],
    );
    // Under "Average" stands no limit; and what is asked about is no 102 117 mg/l.
    for text in [
        "Parameter Units Min Max Average Limit\nSodium mg/L 102 117 AO 200 109\n",
        "Parameter Units Min Max Average Limit\nSodium mg/L 102 117 109 QQ 200\n",
    ] {
        asks(text);
        assert!(read_text(text).readings.iter().all(|r| r.value.is_some_and(|v| v < 1000.0)), "{text}");
    }
}
