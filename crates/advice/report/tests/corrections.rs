//! A reading is corrected by one edit, a question is answered once, and both are remembered for the same layout.
//!
//! Judge: the texts below, whose values are what they say.

use quantity::Comparator;
use report::{Basis, By, Counted, Filed, Picked, Spot, Statistic, Unit, read_text};

const YEAR_1: &str = "Parameter\tUnit\tMin\tMean\tMax\nNitrate\tmg/l\t20.1\t28.0\t31.4\nChloride\tmg/l\t20\t24\t30\n\
                      Sulphate\tmg/l\t30\t34\t41\nCalcium\tmg/l\t60\t70\t80\nOdd stuff\tmg/l\t1\t2\t3\n";

fn filed(text: &str) -> Filed {
    Filed::new(read_text(text), By::Works)
}

fn at(filed: &Filed, name: &str, statistic: Statistic) -> usize {
    let found = filed.report.readings.iter().position(|r| r.determinand == name && r.statistic == statistic);
    found.unwrap_or_else(|| panic!("{name}: {:?}", filed.report.readings))
}

fn counted(filed: &Filed, name: &str) -> Vec<Counted> {
    filed.corrected().readings.into_iter().filter(|r| r.determinand == name).map(|r| r.counted).collect()
}

#[test]
fn one_answer_settles_all_that_was_asked_about() {
    let mut filed = filed(YEAR_1);
    let asked = filed.asked().unwrap();
    assert!(asked.text.contains("nitrate"), "{asked:?}");
    let keys: Vec<&str> = asked.replies.iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(keys, ["as:Ion", "as:N"]);
    filed.answer(asked.reading, "as:N").unwrap();
    assert_eq!(counted(&filed, "nitrate"), vec![Counted::As(Basis::N); 3]);
    assert_eq!((filed.asked(), filed.open()), (None, 0));
    // It can be asked again, as a whole.
    filed.take_back(Spot::Reading(asked.reading));
    assert!(filed.corrections.is_empty() && filed.asked() == Some(asked));
}

#[test]
fn who_does_not_know_is_asked_no_more_and_nothing_is_computed() {
    let mut filed = filed(YEAR_1);
    let asked = filed.asked().unwrap();
    filed.answer(asked.reading, "").unwrap();
    assert_eq!((filed.asked(), filed.open()), (None, 1));
    assert!(filed.corrected().readings.iter().filter(|r| r.determinand == "nitrate").all(|r| !r.is_settled()));
    assert!(filed.answer(asked.reading, "as:P").is_err());
}

#[test]
fn a_reading_is_corrected_by_one_edit() {
    let mut filed = filed(YEAR_1);
    let place = at(&filed, "chloride", Statistic::Mean);
    let spot = Spot::Reading(place);
    let now = |filed: &Filed| filed.lines().into_iter().find(|line| line.at == spot).unwrap();
    filed.correct(spot, "42").unwrap();
    let line = now(&filed);
    assert_eq!((line.reading.value, line.reading.unit), (Some(42.0), Some(Unit::MgPerL)));
    assert_eq!(line.reading.place, filed.report.readings[place].place, "where it stands does not change");
    filed.correct(spot, "<0.5").unwrap();
    assert_eq!((now(&filed).reading.comparator, now(&filed).reading.detection_limit), (Comparator::Below, Some(0.5)));
    filed.correct(spot, "1.2 mmol/L").unwrap();
    assert_eq!((now(&filed).reading.value, now(&filed).reading.unit), (Some(1.2), Some(Unit::MmolPerL)));
    filed.correct(spot, "max sulfate 32 mg/L").unwrap();
    assert_eq!(now(&filed).reading.determinand, "sulfate");
    assert_eq!(now(&filed).reading.statistic, Statistic::Max);
    filed.correct(spot, "").unwrap();
    assert!(now(&filed).is_left_out());
    assert!(!filed.corrected().readings.iter().any(|r| r.determinand == "chloride" && r.statistic == Statistic::Mean));
    filed.take_back(spot);
    assert_eq!(now(&filed).reading.value, Some(24.0));
}

#[test]
fn a_text_that_leaves_something_open_is_refused_and_the_old_reading_holds() {
    let mut filed = filed(YEAR_1);
    let spot = Spot::Reading(at(&filed, "nitrate", Statistic::Mean));
    let fault = filed.correct(spot, "28 mg/L").unwrap_err().to_string();
    assert!(fault.contains("counted as NO3 or as N"), "{fault}");
    assert!(filed.correct(spot, "a lot").is_err());
    assert!(filed.corrections.is_empty());
    filed.correct(spot, "28 mg/L NO3").unwrap();
    assert!(counted(&filed, "nitrate").contains(&Counted::As(Basis::Ion)));
}

#[test]
fn a_row_that_nobody_understood_gets_its_meaning() {
    let text = YEAR_1.replace("Odd stuff\tmg/l\t1\t2\t3", "Kalisalz\tmg/l\t\t2.5\t");
    let mut filed = filed(&text);
    let row = filed.report.unknown_rows.iter().position(|row| row.text.contains("Kalisalz")).unwrap();
    assert!(filed.correct(Spot::Row(row), "2.5 mg/L").unwrap_err().to_string().contains("does not say of what"));
    filed.correct(Spot::Row(row), "potassium 2.5 mg/L").unwrap();
    let corrected = filed.corrected();
    let potassium = corrected.readings.iter().find(|r| r.determinand == "potassium").unwrap();
    assert_eq!((potassium.value, potassium.place.text.contains("Kalisalz")), (Some(2.5), true));
    // The next report has another number in the same row.
    let mut next = Filed::new(read_text(&text.replace("2.5", "3.1").replace("28.0", "27.2")), By::Works);
    next.remember(&filed, "last year's");
    let potassium = next.corrected().readings.into_iter().find(|r| r.determinand == "potassium").unwrap();
    assert_eq!(potassium.value, Some(3.1));
}

#[test]
fn the_next_report_of_the_layout_is_read_as_the_keeper_said() {
    let mut last = filed(YEAR_1);
    last.answer(last.asked().unwrap().reading, "as:N").unwrap();
    let chloride = Spot::Reading(at(&last, "chloride", Statistic::Mean));
    last.correct(chloride, "25").unwrap();
    let mut now = filed(&YEAR_1.replace("28.0", "26.5").replace("\t24\t", "\t22\t"));
    now.remember(&last, "zone.csv of last year");
    assert_eq!(counted(&now, "nitrate"), vec![Counted::As(Basis::N); 3]);
    let line = now.lines().into_iter().find(|l| l.at == Spot::Reading(at(&now, "nitrate", Statistic::Mean))).unwrap();
    assert_eq!(line.reading.value, Some(26.5), "the number is this year's own");
    assert!(line.reading.because.unwrap().contains("zone.csv of last year"));
    // A number that was misread says nothing of the next number.
    assert!(now.correction(chloride).is_none());
}

#[test]
fn a_report_that_prints_its_basis_now_is_believed() {
    let mut last = filed(YEAR_1);
    last.answer(last.asked().unwrap().reading, "as:N").unwrap();
    let mut now = filed(&YEAR_1.replace("Nitrate\tmg/l", "Nitrate as NO3\tmg/l"));
    now.remember(&last, "last year");
    assert_eq!(counted(&now, "nitrate"), vec![Counted::As(Basis::Ion); 3]);
    let mut other = filed("Nitrate 28 mg/l\nIron 0.1 mg/l\nLead 1 µg/l\nZinc 0.1 mg/l\nCopper 0.01 mg/l\npH 7.5\n");
    other.remember(&last, "last year");
    assert!(other.corrections.is_empty(), "another layout");
}

#[test]
fn what_is_kept_comes_back_as_it_was() {
    let mut filed = filed(YEAR_1);
    filed.answer(filed.asked().unwrap().reading, "").unwrap();
    filed.picked = Picked::All;
    filed.put_away = true;
    assert_eq!(Filed::from_text(&filed.to_text().unwrap()).unwrap(), filed);
    assert!(Filed::from_text("{}").is_err() && Filed::from_text("").is_err());
}
