//! The Salts letter: what a keeper must find on it.

use crate::common::{Door, HOUSEHOLD, QUESTION};

const SALTS: &str = "/tank/1/salts";

fn salts(household: &str) -> String {
    Door::open(household, "/").page(SALTS)
}

#[test]
fn the_answer_is_the_first_sentence() {
    let page = salts(HOUSEHOLD);
    // What isn't there yet, a chelate at 7.00 and a scale at 9.00, comes before the pence of a month.
    assert!(
        page.contains("<h1 class=\"answer\">Two bottles, 5\u{a0}mL of each a day, £16.00 to begin with, then about 10\u{a0}pence a month."),
        "{page}"
    );
    assert!(page.contains("Into each bucket go 3\u{a0}mL of conditioner. Nitrate and phosphate are left out"));
    assert!(page.contains("Thursday, 11 June"));
}

#[test]
fn every_weighed_amount_asks_why_and_its_note_is_there() {
    let page = salts(HOUSEHOLD);
    for amount in ["7.6\u{a0}g", "1.6\u{a0}g"] {
        let link = page.split("<a class=\"out\"").find(|rest| rest.contains(&format!(">{amount}<sup>"))).expect(amount);
        let letter = link.split("#why-").nth(1).unwrap().split('"').next().unwrap();
        assert!(page.contains(&format!("<details class=\"why\" id=\"why-{letter}\"")), "{amount} leads to {letter}");
    }
    assert!(page.contains("IUPAC"), "a note names its source and not its key");
    assert!(!page.contains("iupac_2022"));
}

#[test]
fn the_caution_stands_beside_the_dose_with_the_number_at_which_harm_starts() {
    let page = salts(HOUSEHOLD);
    let dose = page.split("<li>").find(|p| p.contains("every morning")).unwrap();
    assert!(dose.contains("Should the hand slip") && dose.contains("10\u{a0}mg/L"), "{dose}");
}

#[test]
fn what_must_be_done_at_every_change_stands_in_clay_with_the_number_at_which_harm_starts() {
    let page = salts(HOUSEHOLD);
    let act = page.split("<div class=\"must\">").nth(1).unwrap().split("</div>").next().unwrap();
    assert!(act.contains("At once, every change:") && act.contains("0.02\u{a0}mg/L"), "{act}");
}

#[test]
fn levels_stand_as_drawings_and_as_a_table() {
    let page = salts(HOUSEHOLD);
    assert_eq!(page.matches("<svg").count(), 4, "nitrate, potassium, phosphate, iron");
    assert!(
        page.contains("<title id=\"staff-potassium-title\">") && page.contains("<desc id=\"staff-potassium-words\">")
    );
    assert!(page.contains("In the poorest case it runs out on day 4."));
    for name in ["nitrate, mg/L as NO₃", "potassium, mg/L", "phosphate, mg/L as PO₄", "iron, mg/L", "alkalinity, °dKH"]
    {
        assert!(page.contains(&format!("<th scope=\"row\">{name}")), "{name}");
    }
}

#[test]
fn nitrogen_is_counted_as_the_keeper_reads_it() {
    let element = HOUSEHOLD.replace("[glass]", "[units]\nnitrogen = \"element\"\ndecimal = \"comma\"\n\n[glass]");
    let page = salts(&element);
    assert!(page.contains("nitrate, mg/L as N<") || page.contains("nitrate, mg/L as N "), "the table's head");
    // 4.1 mg/L NO3 × 14.007 ÷ 62.004 = 0.93 mg/L N (IUPAC atomic weights), with the keeper's comma.
    assert!(page.contains(">0,93<sup>"));
}

#[test]
fn two_readings_share_a_staff_and_what_agrees_is_said_once() {
    let page = salts(QUESTION);
    assert_eq!(page.matches("class=\"tide maybe\"").count(), 1, "nitrate alone differs");
    assert_eq!(page.matches("<h2>Bottle one</h2>").count(), 1);
    assert_eq!(page.matches("of potassium sulfate into an empty bottle").count(), 1);
    assert!(page.contains("If “As NO₃”") && page.contains("If “As N”"));
}

#[test]
fn prices_are_blanks_and_tools_are_not() {
    let page = salts(HOUSEHOLD);
    assert!(page.contains("name=\"prices.iron_dtpa\" value=\"7.00\""));
    assert!(!page.contains("name=\"prices.scale\""));
    assert!(page.contains("This is the cheapest found"), "what the search did not prove is not claimed");
}

#[test]
fn every_label_warns() {
    let page = salts(HOUSEHOLD);
    let labels: Vec<&str> = page.split("<div class=\"label\">").skip(1).collect();
    assert_eq!(labels.len(), 3, "two bottles and the conditioner");
    for label in labels {
        for words in ["Not to drink.", "Never in a drinks bottle.", "Keep from children", "poison centre"] {
            assert!(label.contains(words), "{words}");
        }
    }
    assert!(page.contains("Covers 1\u{a0}mg/L total chlorine."));
}

/// Statements of the Globally Harmonised System: H272 feeds a fire, H360FD may harm fertility and the unborn child.
#[test]
fn the_powders_have_a_label_that_says_how_each_is_kept_and_handled() {
    let label = |page: &str| {
        page.split("<div class=\"label powders\">").nth(1).unwrap().split("</div>").next().unwrap().to_owned()
    };
    let with_nitrate = label(&salts(HOUSEHOLD));
    for words in [
        "Dust mask and gloves",
        "Keep from children",
        "Never in a food jar or a drinks bottle",
        "poison centre",
        "Each dry and closed",
    ] {
        assert!(with_nitrate.contains(words), "{words}: {with_nitrate}");
    }
    assert!(!with_nitrate.contains("H360FD"), "no boron in it");
}

#[test]
fn what_is_refused_says_why_and_offers_the_honest_ways() {
    let page = salts(&HOUSEHOLD.replace("[light]", "[wish]\nph = 7.0\n\n[light]"));
    assert!(page.contains("I don’t do that. It would free 60\u{a0}mg/L of carbon dioxide"));
    assert!(page.contains("<li>Blend with rain.</li>"));
    assert!(page.contains("Nitrate I can’t hold all year long"), "and the headline says so");
}

#[test]
fn each_caution_stands_once_and_before_the_act_that_it_is_about() {
    let page = salts(HOUSEHOLD);
    let at = |words: &str| page.find(words).unwrap_or_else(|| panic!("{words}"));
    assert_eq!(
        page.matches("gills are hurt").count(),
        1,
        "the bucket's dose says where chlorine harms, the hose needs not"
    );
    assert!(
        at("with a dust mask and gloves") < at("<ol class=\"steps\">"),
        "mask and gloves before the first weighing"
    );
    assert!(at("Plugs of everything") < at("To make the conditioner"), "plugs out at the change");
    let folded = page.split("<summary>More about the conditioner</summary>").nth(1).unwrap();
    assert!(folded.contains("By hose instead: 31\u{a0}mL"));
    let mine = page.split("<p class=\"small\">").find(|p| p.contains("I count the litres")).unwrap();
    assert!(
        at("<h2>Mind</h2>") < at("I count the litres") && mine.contains("No medicine"),
        "one quiet line at the end"
    );
}

#[test]
fn how_well_a_number_is_known_is_told_where_numbers_stand() {
    let mut door = Door::open(HOUSEHOLD, "/");
    assert!(door.page(SALTS).contains("How well is a number known?"));
    assert!(!door.page("/help-now").contains("How well is a number known?"), "not to somebody in need");
}

#[test]
fn alkalinity_stands_in_the_unit_in_which_the_keeper_reads_hardness() {
    let page = salts(&HOUSEHOLD.replace("[glass]", "[units]\nhardness = \"caco3\"\n\n[glass]"));
    let row = page.split("<th scope=\"row\">alkalinity, mg/L CaCO3").nth(1).expect("its row");
    // 1.7 meq/L of the new water × 50.04 mg of CaCO3 in a meq (100.086 ÷ 2) = 85.
    assert!(row.starts_with("</th><td class=\"n\">85</td>"), "not 85");
}
