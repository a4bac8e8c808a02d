//! Minimal pairs: a layout that is read, beside the nearest one that is asked about or stands for something else. Written by
//! hand from what each text says.

use report::{Basis, Reading, Report, Statistic, read_text};

fn of<'a>(report: &'a Report, determinand: &str) -> Vec<&'a Reading> {
    report.readings.iter().filter(|r| r.determinand == determinand).collect()
}

/// The numbers of a determinand, in their order.
fn numbers(report: &Report, determinand: &str) -> Vec<f64> {
    of(report, determinand).iter().filter_map(|r| r.value).collect()
}

fn settled(report: &Report, determinand: &str) -> bool {
    let all = of(report, determinand);
    !all.is_empty() && all.iter().all(|r| r.question.is_none())
}

#[test]
fn codes_of_methods_are_no_results() {
    let report = read_text(
        "Parameter;Unit;How;Result\nCalcium;mg/L;3500-Ca;22.7\nMagnesium;mg/L;3500-Mg;9.3\nChloride;mg/L;4500-Cl G;6.4\nTotal hardness;mg CaCO3/L;2340;95\n",
    );
    assert_eq!((numbers(&report, "calcium"), numbers(&report, "hardness_total")), (vec![22.7], vec![95.0]));
    assert!(settled(&report, "calcium") && settled(&report, "hardness_total"));
    // The same numbers without their letters may be results: both are asked about.
    let plain = read_text(
        "Parameter;Unit;How;What\nCalcium;mg/L;35;22.7\nMagnesium;mg/L;36;9.3\nChloride;mg/L;45;6.4\nTotal hardness;mg CaCO3/L;234;95\n",
    );
    assert!(!settled(&plain, "calcium") && !settled(&plain, "hardness_total"), "{:#?}", plain.readings);
}

#[test]
fn the_year_of_a_row_is_no_result() {
    let report = read_text(
        "Substance,Unit,Result,Looked for in\nCalcium,mg/l,88.3,2024\nSodium,mg/l,18.8,2024\nChloride,mg/l,27.4,2023\n",
    );
    for (of, value) in [("calcium", 88.3), ("sodium", 18.8), ("chloride", 27.4)] {
        assert_eq!(numbers(&report, of), [value]);
        assert!(settled(&report, of));
    }
}

#[test]
fn a_sentence_under_a_name_explains_it() {
    let head = "Substance;Average;Lowest;Highest;Unit\nCalcium;94.6;88.0;102.2;mg/l\nSodium;21.4;19.9;23.1;mg/l\n";
    let report = read_text(&format!("{head}Copper At your tap, from household pipes;0.088;0.021;0.301;mg/l\n"));
    assert_eq!(numbers(&report, "copper"), [0.088, 0.021, 0.301]);
    assert!(settled(&report, "copper"));
    // Words of a basis, and words that go on in the name itself, are no explanation.
    let nitrogen = read_text(&format!("{head}Nitrate Counted in this zone as nitrogen;0.88;0.21;3.01;mg/l\n"));
    assert!(of(&nitrogen, "nitrate").iter().all(|r| r.question.is_some() || r.counted.basis() == Some(Basis::N)));
    assert!(!settled(&read_text(&format!("{head}Copper bound to household pipes;0.88;0.21;3.01;mg/l\n")), "copper"));
}

#[test]
fn each_of_two_numbers_has_its_own_unit() {
    let report = read_text(
        "Parameter;Einheit;Mittelwert\nGesamthärte;°dH (mmol/l);8,1 (1,45)\nCalcium;mg/l;49,7\nNatrium;mg/l;14,8\n",
    );
    assert_eq!(numbers(&report, "hardness_total"), [8.1, 1.45]);
    assert!(settled(&report, "hardness_total"));
    let one =
        read_text("Parameter;Einheit;Mittelwert\nGesamthärte;°dH;8,1 (1,45)\nCalcium;mg/l;49,7\nNatrium;mg/l;14,8\n");
    assert!(!settled(&one, "hardness_total"));
}

#[test]
fn places_are_told_by_rows_that_begin_again() {
    let rows = |place: &str, by: f64| {
        let row = |name: &str, value: f64| format!("{place},{name},mg/L,{:.1}\n", value * by);
        ["Calcium", "Sodium", "Chloride"]
            .into_iter()
            .zip([40.0, 12.0, 20.0])
            .map(|(n, v)| row(n, v))
            .collect::<String>()
    };
    let report = read_text(&format!(
        "Where it was drawn,Parameter,Unit,Average\n{}{}",
        rows("Upper side", 1.0),
        rows("Mill", 1.5)
    ));
    let names: Vec<_> = report.samples.iter().filter_map(|s| s.name.as_deref()).collect();
    assert_eq!(names, ["Upper side", "Mill"]);
    assert!(settled(&report, "calcium") && settled(&report, "chloride"));
    // The same place twice: nobody knows which rows are the keeper's water.
    let twice =
        read_text(&format!("Where it was drawn,Parameter,Unit,Average\n{}{}", rows("Mill", 1.0), rows("Mill", 1.5)));
    assert!(!settled(&twice, "calcium"));
}

#[test]
fn cards_of_a_page_give_mean_and_range() {
    let card =
        |name: &str, value: &str, line: &str| format!("<div><h3>{name}</h3><div>{value}</div><div>{line}</div></div>");
    let page = |lines: [&str; 3]| {
        let [a, b, c] = lines;
        format!(
            "<html><body>{}{}{}</body></html>",
            card("Calcium", "14.9 mg/l", a),
            card("Sodium", "13.1 mg/l", b),
            card("Chloride", "15.8 mg/l", c)
        )
    };
    let report = read_text(&page(["Range 12.0 to 16.1", "Range 11.0 to 15.0", "Range 14.0 to 17.0"]));
    let ends: Vec<(Statistic, Option<f64>)> = of(&report, "calcium").iter().map(|r| (r.statistic, r.value)).collect();
    assert_eq!(ends, [(Statistic::Single, Some(14.9)), (Statistic::Min, Some(12.0)), (Statistic::Max, Some(16.1))]);
    assert!(settled(&report, "calcium"));
    // The highest alone may be the highest allowed: it is never a result in silence.
    let alone = read_text(&page(["max. 270 mg/l", "max. 200 mg/l", "max. 250 mg/l"]));
    assert!(of(&alone, "calcium").iter().all(|r| r.value == Some(14.9) || r.question.is_some()));
}

#[test]
fn a_line_of_single_spaces_is_read_by_what_its_columns_hold() {
    let head = "Parameter Sample Date Result Value Unit of Measure Limit Exceedance\n";
    let rows = "Calcium 2024-09-17 38.4 mg/L - -\nSodium 2024-09-17 14.2 mg/L 20* No\nColour 2024-09-17 <2 TCU 5 No\npH 2024-09-17 7.83 pH units 6.5-8.5 No\n";
    let report = read_text(&format!("{head}{rows}"));
    assert_eq!((numbers(&report, "sodium"), numbers(&report, "ph")), (vec![14.2], vec![7.83]));
    assert!(settled(&report, "calcium") && settled(&report, "sodium"));
    // A cell that lacks: nobody sees which one.
    let torn = read_text(&format!("{head}{rows}Chloride 2024-09-17 22.8 250 No\n"));
    assert!(!settled(&torn, "chloride"));
}

#[test]
fn conductivity_alone_proves_no_basis() {
    let lines = |sodium: &str| {
        format!(
            "Parameter;Unit;Result\nConductivity (25 °C);µS/cm;401\nCalcium;mg/l;21.4\nMagnesium;mg/l;6.8\n{sodium}Alkalinity as CaCO3;mg/l;148\nChloride;mg/l;34\nSulphate;mg/l;12.2\nNitrate;mg/l;9.0\n"
        )
    };
    // 1.07 + 0.56 meq/L of cations against 2.96 + 0.96 + 0.25 of anions: sodium takes up what nitrate would.
    assert!(!settled(&read_text(&lines("")), "nitrate"));
    // 58.2/22.99 + 6.1/39.1 = 2.69 meq/L more: with nitrate as NO3 (0.15) both sides are 4.3; as N (0.64) they are not.
    assert!(settled(&read_text(&lines("Sodium;mg/l;58.2\nPotassium;mg/l;6.1\n")), "nitrate"));
}
