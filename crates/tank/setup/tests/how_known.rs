//! A number that was worked out says so, and a number that the keeper writes over it is measured again.

use quantity::{Ion, Kind};
use setup::Setup;

const TEXT: &str =
    "[tap]\nchloride = { min = 18, mean = \"26 mg/L\", max = 35, how = \"worked_out\" } # by the balance\n";

fn chloride(setup: &Setup) -> (f64, f64, f64, Kind) {
    let known = setup.tank().unwrap().tap.mg_per_l(Ion::Chloride);
    (known.low, known.value, known.high, known.kind)
}

#[test]
fn the_kind_and_the_range_are_those_of_the_file() {
    let setup = Setup::read("tank.toml", TEXT).unwrap();
    assert_eq!(chloride(&setup), (18.0, 26.0, 35.0, Kind::WorkedOut));
    let assumed = Setup::read("tank.toml", &TEXT.replace("worked_out", "assumed")).unwrap();
    assert_eq!(chloride(&assumed).3, Kind::Assumed);
}

#[test]
fn whoever_writes_the_number_anew_has_measured_it() {
    let setup = Setup::read("tank.toml", TEXT).unwrap();
    let typed = setup.with("tap.chloride", "30 mg/L").unwrap();
    assert_eq!(chloride(&typed), (18.0, 30.0, 35.0, Kind::Measured));
    assert!(typed.text().contains("by the balance"), "{}", typed.text());
    let end = setup.with("tap.chloride.max", "40").unwrap();
    assert_eq!(chloride(&end), (18.0, 26.0, 40.0, Kind::Measured));
    let gone = setup.with("tap.chloride", "").unwrap();
    assert!(!gone.text().contains("chloride"), "{}", gone.text());
}

#[test]
fn a_word_that_is_no_kind_is_refused_where_it_stands() {
    let faults = Setup::read("tank.toml", &TEXT.replace("worked_out", "guessed")).unwrap_err();
    assert!(faults.to_string().contains("`guessed` is not known here"), "{faults}");
    assert!(faults.to_string().contains("tap.chloride.how"), "{faults}");
}
