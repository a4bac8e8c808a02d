//! Judge: hand arithmetic with molar masses (`iupac_2022`), and the sample reports as their makers say they read.

use knowledge::Place;
use quantity::{Comparator, Ion};
use report::estimate::{Origin, Quantity, Usual, estimate, evidence};
use report::{Basis, Counted, Place as At, Reading, Report, Statistic, Unit};

fn near(found: f64, hand: f64, share: f64) {
    assert!((found / hand - 1.0).abs() < share, "{found}, by hand {hand}");
}

fn reading(determinand: &str, statistic: Statistic, value: f64, unit: Unit, counted: Counted) -> Reading {
    Reading {
        determinand: determinand.to_owned(),
        as_written: determinand.to_owned(),
        statistic,
        value: Some(value),
        comparator: Comparator::Equal,
        detection_limit: None,
        unit: Some(unit),
        unit_text: unit.name().to_owned(),
        counted,
        sample: None,
        place: At::default(),
        samples: Some(8),
        failing: None,
        limit: None,
        confidence: 1.0,
        question: None,
        because: None,
    }
}

/// Readings as a report prints them become one unit and one basis, with the error of a mean.
#[test]
fn readings_become_evidence() {
    use Statistic::{Max, Mean, Min, Single};
    let as_caco3 = || Counted::As(Basis::CaCO3);
    let mut below = reading("ammonium", Single, 0.0, Unit::MgPerL, Counted::As(Basis::Ion));
    (below.value, below.comparator, below.detection_limit) = (None, Comparator::Below, Some(0.04));
    let open = Counted::Open(vec![Basis::Ion, Basis::N]);
    let report = Report {
        readings: vec![
            reading("alkalinity", Min, 233.0, Unit::MgPerL, as_caco3()),
            reading("alkalinity", Mean, 266.0, Unit::MgPerL, as_caco3()),
            reading("alkalinity", Max, 306.0, Unit::MgPerL, as_caco3()),
            reading("phosphate", Single, 350.0, Unit::UgPerL, Counted::As(Basis::P)),
            reading("hardness_total", Single, 17.5, Unit::GermanDegree, Counted::Plainly),
            reading("conductivity", Single, 51.2, Unit::MsPerM, Counted::As(Basis::At20C)),
            reading("nitrate", Single, 28.0, Unit::MgPerL, open),
            reading("ph", Single, 7.4, Unit::Ph, Counted::Plainly),
            below,
        ],
        ..Report::default()
    };
    let all = evidence(&report, Origin::Laboratory);
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].ph, Some(7.4));
    let find = |of| all[0].items.iter().find(|item| item.of == of).unwrap();
    let alkalinity = find(Quantity::Alkalinity);
    // 266/50.044 = 5.315. Eight samples of range 73 spread by 73/2.847 = 25.6 mg/L, 0.512 meq/L; their mean by 0.181.
    near(alkalinity.value, 5.315, 1e-3);
    near(alkalinity.spread.unwrap().sd, 0.512, 5e-3);
    near(alkalinity.sd, 0.160_f64.hypot(0.181), 0.01);
    // 0.350 mg/L P × 94.970/30.974; 17.5 × 0.35665; 512 µS/cm.
    near(find(Quantity::Ion(Ion::Phosphate)).value, 1.0731, 1e-3);
    near(find(Quantity::Hardness).value, 6.241, 1e-3);
    near(find(Quantity::Conductivity20).value, 512.0, 1e-9);
    let nitrate = find(Quantity::Ion(Ion::Nitrate));
    assert!(!nitrate.settled && nitrate.otherwise.len() == 1);
    near(nitrate.otherwise[0].value, 28.0 * 62.004 / 14.007, 1e-4);
    let ammonium = find(Quantity::Ion(Ion::Ammonium));
    assert_eq!((ammonium.comparator, ammonium.value), (Comparator::Below, 0.04));
    // A day brings more than the mean's range.
    let found = estimate(&all[0], &Usual::at(Place::Other)).unwrap();
    let (low, high) = found.alkalinity.day.unwrap();
    assert!(low < 4.7 && high > 5.9, "{low} {high}");
}

/// A file beside a sample report: what it says.
#[derive(serde::Deserialize)]
struct Expected {
    readings: Vec<Value>,
    contradiction: Option<String>,
}

#[derive(serde::Deserialize)]
struct Value {
    determinand: String,
    basis: Option<Basis>,
    unit: Option<Unit>,
    statistic: Statistic,
    value: Option<f64>,
    below_detection: bool,
    detection_limit: Option<f64>,
    sample: Option<String>,
}

/// The report that says so.
fn as_read(values: Vec<Value>) -> Report {
    let mut names: Vec<Option<String>> = Vec::new();
    let mut told = Vec::new();
    for value in values {
        let place = names.iter().position(|name| *name == value.sample).unwrap_or_else(|| {
            names.push(value.sample.clone());
            names.len() - 1
        });
        let needs = matches!(value.determinand.as_str(), "nitrate" | "nitrite" | "ammonium" | "phosphate");
        let counted = match value.basis {
            Some(basis) => Counted::As(basis),
            None if needs => Counted::Open(vec![Basis::Ion]),
            None => Counted::Plainly,
        };
        let unit = value.unit.unwrap_or(Unit::MgPerL);
        let mut all = reading(&value.determinand, value.statistic, 0.0, unit, counted);
        (all.value, all.detection_limit, all.sample) = (value.value, value.detection_limit, Some(place));
        if value.below_detection {
            all.comparator = Comparator::Below;
        }
        told.push(all);
    }
    let samples = names.iter().map(|name| report::Sample { name: name.clone(), date: None }).collect();
    Report { readings: told, samples, ..Report::default() }
}

/// The sample reports, as their makers say they read: invented so that ions, hardness and conductivity agree, but
/// for the one that is meant to contradict itself.
#[test]
fn only_the_sample_that_is_meant_to_contradicts_itself() {
    let files = [
        include_str!("samples/annual-report.expected.json"),
        include_str!("samples/bulletin-eau.expected.json"),
        include_str!("samples/gemeindewerke-analyse.expected.json"),
        include_str!("samples/hinterthal-zone-dorf.expected.json"),
        include_str!("samples/informe-valdesoto.expected.json"),
        include_str!("samples/kit-notes.expected.json"),
        include_str!("samples/lab-certificate.expected.json"),
        include_str!("samples/outgoing-water.expected.json"),
        include_str!("samples/uk-zone-summary.expected.json"),
        include_str!("samples/waterkwaliteit.expected.json"),
        include_str!("samples/zone-12.expected.json"),
    ];
    for text in files {
        let file: Expected = serde_json::from_str(text).unwrap();
        let report = as_read(file.readings);
        for one in evidence(&report, Origin::Laboratory) {
            let found = estimate(&one, &Usual::at(Place::Other)).unwrap();
            for clash in &found.clashes {
                println!("{:?}: {}", file.contradiction, clash.text);
            }
            assert_eq!(!found.clashes.is_empty(), file.contradiction.is_some(), "{:?}", found.clashes);
        }
    }
}
