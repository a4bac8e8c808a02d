//! What signs and protocols refer to is there: causes, rules, limits, ions.

use std::collections::BTreeSet;

use knowledge::book;

#[test]
fn every_cause_is_there_and_used() {
    let book = book();
    let named: BTreeSet<&String> = book
        .sights
        .values()
        .flat_map(|sight| &sight.causes)
        .chain(book.meanings.meaning.iter().flat_map(|meaning| &meaning.causes))
        .collect();
    for cause in &named {
        assert!(book.causes.contains_key(*cause), "no cause {cause}");
    }
    // Two more are named by the rules of ammonia, which the signs work out.
    for cause in book.causes.keys() {
        let of_ammonia = ["chloramine", "ground_gives"].contains(&cause.as_str());
        let of_hardness = ["evaporation", "lime_in_tank"].contains(&cause.as_str());
        assert!(named.contains(cause) || of_ammonia || of_hardness, "nothing names {cause}");
    }
}

#[test]
fn a_sight_without_good_evidence_says_that_we_dont_know() {
    for (key, sight) in &book().sights {
        assert!(!sight.causes.is_empty(), "{key}");
        if sight.evidence == knowledge::Evidence::Poor {
            assert!(sight.unknown.contains("don't know") || sight.unknown.len() > 30, "{key}");
        }
    }
}

#[test]
fn every_meaning_has_one_bound() {
    let harm = &book().harm;
    for meaning in &book().meanings.meaning {
        assert!(meaning.bound.is_some() != meaning.limit.is_some(), "{}", meaning.key);
        if let Some(limit) = &meaning.limit {
            assert!(harm.limit.all().iter().any(|(key, _)| key == limit), "{}: no limit {limit}", meaning.key);
        }
    }
}

#[test]
fn every_protocol_names_rules_and_rows_that_exist() {
    let book = book();
    for (key, measure) in &book.measures.measure {
        for caution in &measure.cautions {
            assert!(book.harm.rule.all().iter().any(|(rule, _)| rule == caution), "{key}: no rule {caution}");
        }
        for blank in &measure.blank {
            let chosen = !blank.choices.is_empty() || blank.among.is_some();
            assert!(chosen || (blank.least.is_some() && blank.most.is_some()), "{key}.{}", blank.key);
            assert!(blank.among.as_deref().is_none_or(|table| ["salt", "lamp"].contains(&table)), "{key}");
        }
    }
    for salt in book.measures.salt.values() {
        assert!(knowledge::molar_mass_g_per_mol(&salt.formula).is_ok(), "{}", salt.formula);
    }
    for pair in book.measures.band.windows(2) {
        assert_eq!(pair[0].high, pair[1].low);
    }
}
