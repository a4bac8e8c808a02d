//! Reports that prove a basis, or don't: sums by hand. The odds themselves: `by_hand_estimate.rs`.

use report::{Basis, Counted, read_text};

/// 118 Ca, 13.4 Mg, 17.2 Na, 2.6 K make 7.81 meq/L; 350 HCO3, 31 Cl, 48 SO4 make 7.61. 22.4 mg/L of nitrate add 0.36
/// as NO3 (7.97) or 1.60 as N (9.21): off by 0.16 or by 1.40 meq/L, against an error of 0.1 + 0.03 x 8.
const HARD: &str = "Parameter;Result;Unit\nCalcium;118;mg/l\nMagnesium;13.4;mg/l\nSodium;17.2;mg/l\nPotassium;2.6;mg/l\n\
                    Bicarbonate;350;mg/l\nChloride;31;mg/l\nSulphate;48;mg/l\n";

fn nitrate(text: &str) -> report::Reading {
    read_text(text).readings.into_iter().find(|r| r.determinand == "nitrate").unwrap()
}

#[test]
fn a_balance_that_proves_it() {
    let found = nitrate(&format!("{HARD}Nitrate;22.4;mg/l\n"));
    assert_eq!(found.counted, Counted::As(Basis::Ion));
    assert!(found.question.is_none() && found.because.is_some());
}

#[test]
fn a_balance_that_cannot_tell() {
    // 2 mg/L is 0.03 or 0.14 meq/L: both within the error.
    let found = nitrate(&format!("{HARD}Nitrate;2.0;mg/l\n"));
    assert!(matches!(found.counted, Counted::Open(_)) && found.question.is_some());
    // One ion less, and nothing is balanced.
    let found = nitrate(&format!("{}Nitrate;22.4;mg/l\n", HARD.replace("Sodium", "Barium")));
    assert!(found.question.is_some());
}

#[test]
fn a_limit_in_the_row() {
    let with =
        |limit: &str| nitrate(&format!("Parameter;Unit;Limit;Mean\nNitrate;mg/l;{limit};12\nSodium;mg/l;200;9\n"));
    assert_eq!(with("50").counted, Counted::As(Basis::Ion));
    assert_eq!(with("10").counted, Counted::As(Basis::N));
    assert_eq!(with("11.3").counted, Counted::As(Basis::N));
    assert!(with("25").question.is_some());
    assert!(with("").question.is_some());
}
