//! Rules of harm that signs touch: each test fails when its rule is taken out.

use crate::common;

use crate::common::{cause, of, read, seen, tank, words};
use knowledge::Urgency;
use signs::{Finding, Standing};

fn nitrate(tap: f64, value: f64) -> Finding {
    seen(&tank(tap, ""), &[], &[read("nitrate", value)]).remove(0)
}

/// A tap at 40 mg/L: "nitrate high" never answers "change more", however high it was read.
#[test]
fn a_rich_tap_never_answers_change_more() {
    for value in [51.0, 55.0, 70.0, 120.0, 300.0] {
        let found = nitrate(40.0, value);
        assert_eq!(cause(&found, "changes_few").standing, Standing::StruckOut, "{value}");
        let change = found.change.as_ref().map_or("", |change| change.text.as_str());
        assert!(!change.contains("more often") && !change.contains("Change a little more"), "{value}: {change}");
    }
    let found = nitrate(40.0, 55.0);
    assert_eq!(cause(&found, "tap_brings").standing, Standing::Likely);
    let change = found.change.unwrap();
    assert!(change.text.contains("low-mineral water") && change.text.contains("can't bring it lower than the tap"));
    // With a poor tap the same reading may answer so.
    let poor = nitrate(2.0, 55.0);
    assert_eq!(cause(&poor, "changes_few").standing, Standing::Possible);
    assert_eq!(cause(&poor, "tap_brings").standing, Standing::StruckOut);
}

/// Where no water is changed at all, that is a cause whatever the tap holds, and topping up is the first; the cure is no change of water.
#[test]
fn a_tank_that_is_never_changed_has_that_cause_and_another_cure() {
    let old = common::HUNDRED.replace("NITRATE", "30").replace("fish = 10", "fish = 10\nunchanged_months = 8");
    let found = seen(&of(&old, ""), &[], &[read("nitrate", 120.0)]).remove(0);
    assert_eq!(cause(&found, "changes_few").standing, Standing::Likely);
    let change = found.change.map_or_else(String::new, |change| change.text);
    assert!(!change.contains("more often,") || change.contains("is no answer"), "{change}");
    assert!(!change.contains("Change a little more"), "{change}");
}

/// Rule 7: 0.5 mg/L N of ammonia at 24 °C is one thing at pH 7.0 and another at 8.0. Judge: Emerson et al. 1975 at infinite
/// dilution, 0.525 % and 5.017 %, times the activity of ammonium by hand: ionic strength 0.0045, log γ = -0.51 × 0.067 ÷
/// (1 + 0.328 × 2.5 × 0.067) = -0.0324, γ = 0.928: 0.00244 and 0.0233 mg/L N against 0.016.
#[test]
fn rule_7_the_toxic_share_decides() {
    let hundred = tank(8.0, "[tank]\ntemperature = \"24 °C\"\n");
    let at = |ph: f64| seen(&hundred, &[], &[read("ph", ph), read("ammonia_n", 0.5)]).remove(0);
    let (seven, eight) = (at(7.0), at(8.0));
    assert_eq!(seven.urgency, Urgency::BeforeTheNextChange, "{}", seven.says);
    assert_eq!(eight.urgency, Urgency::AtOnce, "{}", eight.says);
    let toxic = |finding: &Finding| -> f64 {
        let text = finding.says.split("toxic: ").nth(1).unwrap();
        text.split(' ').next().unwrap().parse().unwrap()
    };
    // 3 %: the second printed figure, and the ionic strength by hand.
    assert!((toxic(&seven) / 0.002_44 - 1.0).abs() < 0.03, "{}", seven.says);
    assert!((toxic(&eight) / 0.023_3 - 1.0).abs() < 0.03, "{}", eight.says);
    assert!(words(&eight).contains("0.016") && words(&eight).contains("nothing that raises pH"));
    assert!(words(&seven).contains("raises pH turns ammonium into ammonia"));
}

/// Rule 9: nothing kills an alga here, and no acid.
#[test]
fn rule_9_nothing_kills_algae() {
    let all: Vec<&str> = knowledge::book().sights.keys().map(String::as_str).collect();
    for more in ["", "[tank]\nco2 = \"15 mg/L\"\n", "[light]\nenergy = \"high\"\n"] {
        for finding in seen(&tank(8.0, more), &all, &[]) {
            let text = words(&finding).to_lowercase();
            for word in ["peroxide", "algicide", "aldehyde", "bleach", "medicine", "antibiotic", "blackout"] {
                assert!(!text.contains(word), "{word}: {text}");
            }
        }
    }
}

/// Rules 12 and 13: carbon dioxide is never raised on a sign; a reading whose upper end passes 30 is "off, air on".
#[test]
fn rules_12_and_13_carbon_dioxide_is_never_raised() {
    let all: Vec<&str> = knowledge::book().sights.keys().map(String::as_str).collect();
    let given = tank(8.0, "[tank]\nco2 = \"8 mg/L\"\n[light]\nenergy = \"high\"\n");
    for finding in seen(&given, &all, &[]) {
        let Some(change) = &finding.change else { continue };
        let text = change.text.to_lowercase();
        for more in ["more carbon dioxide", "raise carbon dioxide to", "give carbon dioxide", "turn up the carbon"] {
            assert!(!text.contains(more), "{}", change.text);
        }
    }
    // 24 ± 8 can be 32.
    let reading = logbook::Reading { error: Some(8.0), ..read("co2", 24.0) };
    let found = seen(&given, &[], &[reading]).remove(0);
    assert_eq!(found.urgency, Urgency::AtOnce);
    let text = found.change.unwrap().text;
    assert!(text.contains("Carbon dioxide off, air on") && text.contains("never switched off"), "{text}");
    let little = logbook::Reading { error: Some(4.0), ..read("co2", 20.0) };
    assert_eq!(seen(&given, &[], &[little])[0].urgency, Urgency::LeaveItBe);
}

/// Rule 8: a tank long unchanged gets no larger change for a reading, but a tenth at a time.
#[test]
fn rule_8_an_old_tank_gets_a_tenth() {
    let old = common::HUNDRED.replace("NITRATE", "2").replace("fish = 10", "fish = 10\nunchanged_months = 8");
    let old = of(&old, "");
    let found = seen(&old, &[], &[read("nitrate", 80.0)]).remove(0);
    let text = found.change.unwrap().text;
    assert!(text.contains("a tenth, again each hour"), "{text}");
}

/// Rule 6: what is fed richer comes in steps a day bears.
#[test]
fn rule_6_richer_feeding_names_its_step() {
    let found = seen(&tank(1.0, ""), &[], &[read("nitrate", 1.0)]).remove(0);
    let text = found.change.unwrap().text;
    assert!(text.contains("At most 10 mg/L of nitrate (as NO3) a day"), "{text}");
    // Who feeds plenty already is not told to feed more.
    let plenty = tank(1.0, "[feeding]\nwish = \"plenty\"\n");
    let found = seen(&plenty, &[], &[read("nitrate", 1.0)]).remove(0);
    assert!(found.change.is_none_or(|change| change.cause != "nitrogen_short"));
}

/// Rule 4 and 16: with shrimps iron alone, and the strict nitrate is told.
#[test]
fn rules_4_and_16_shrimps_have_their_own_limits() {
    let shrimps = common::HUNDRED.replace("NITRATE", "2").replace("fish = 10", "fish = 10\nshrimps = 20");
    let shrimps = of(&shrimps, "");
    let strict = seen(&shrimps, &[], &[read("nitrate", 20.0)]).remove(0);
    assert!(strict.says.contains("13 mg/L"), "{}", strict.says);
    assert_eq!(seen(&tank(2.0, ""), &[], &[read("nitrate", 20.0)])[0].urgency, Urgency::LeaveItBe, "fish alone");
    let pale = seen(&shrimps, &["new_pale"], &[read("iron", 0.0)]);
    let text = pale.iter().map(words).collect::<String>();
    assert!(text.contains("iron chelate alone"), "{text}");
}

/// Rule 20: hands in the water only after the plugs are out, said in the same sentence.
#[test]
fn rule_20_hands_in_the_water() {
    let found = seen(&tank(8.0, "[measured]\nflow = \"150 L/h\"\n"), &["slime_sheet"], &[]).remove(0);
    let change = found.change.unwrap();
    assert_eq!(change.cause, "flow_weak");
    assert!(change.text.starts_with("Plugs of everything in or over the water out"), "{}", change.text);
}

/// Nothing is promised, and nothing is said with words that this house does not use.
#[test]
fn no_word_that_we_do_not_use() {
    let all: Vec<&str> = knowledge::book().sights.keys().map(String::as_str).collect();
    for finding in seen(&tank(8.0, ""), &all, &[read("nitrate", 80.0), read("ammonia_n", 1.0)]) {
        for word in words(&finding).to_lowercase().split(|c: char| !c.is_alphanumeric()) {
            assert!(!["safe", "safely", "gas", "optimal", "drinking"].contains(&word), "{word}");
        }
    }
}
