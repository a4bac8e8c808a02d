//! Judge: hand arithmetic with molar masses (`iupac_2022`), the numbers of `data/limits.toml` and `data/harm.toml`, and the
//! rules of harm: each sentence below fails when its rule is taken out.

use knowledge::{Life, Regulator};
use quantity::Ion;
use report::{Meaning, Sentence, fed_a_week, meaning, read_text};
use setup::Setup;

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

fn of(edits: &[(&str, &str)]) -> Meaning {
    // Ranges of the household go with the number that is replaced.
    let edits = edits.iter().flat_map(|(field, text)| [(*field, ""), (*field, *text)]);
    let setup = Setup::read("tank.toml", HOUSEHOLD).unwrap().with_all(edits).unwrap();
    meaning(&setup.tank().unwrap(), &[])
}

fn say<'m>(meaning: &'m Meaning, key: &str) -> &'m Sentence {
    meaning.sentences.iter().find(|sentence| sentence.key == key).unwrap()
}

/// Ca 48 ÷ 20.039 + Mg 6.0 ÷ 12.1525 = 2.395 + 0.494 = 2.889 meq/L, ÷ 0.35665 = 8.10 °dH. Ends: 42 and 5.2 are 2.524
/// (7.08), 53 and 6.8 are 3.204 (8.98).
#[test]
fn hard_or_soft() {
    let text = say(&of(&[]), "hard").text.clone();
    assert!(text.starts_with("Your water is soft, 8.1 °dH (7.08 to 8.98) of hardness"), "{text}");
    // 120 mg/L of calcium alone are 5.99 meq/L: hard from 5 on.
    let hard = of(&[("tap.calcium", "120 mg/L")]);
    assert!(say(&hard, "hard").text.contains("is hard"), "{}", say(&hard, "hard").text);
}

#[test]
fn how_buffered_goes_by_the_low_end_where_ph_may_fall() {
    let text = say(&of(&[]), "buffered").text.clone();
    assert!(text.starts_with("It is well buffered, 5.9 °dKH (5.3 to 6.4) of alkalinity"), "{text}");
    let low = of(&[("tap.alkalinity", "0.3 to 1.2 meq/L")]);
    let text = &say(&low, "buffered").text;
    assert!(text.contains("hardly buffered") && text.contains("0.36 meq/L"), "{text}");
}

/// Nobody told anything of the tap: no verdict, and what settles it.
#[test]
fn what_may_be_anything_is_not_judged() {
    let tank = Setup::read("tank.toml", "[tank]\nname = \"nobody knows\"\n").unwrap().tank().unwrap();
    for key in ["hard", "buffered"] {
        let all = meaning(&tank, &[]);
        let text = &say(&all, key).text;
        assert!(text.starts_with("I can't tell yet") && text.contains("a test with drops"), "{text}");
    }
    // Alkalinity alone is told: that is judged.
    let told = "[tap]\nalkalinity = \"5 °dH\"\n";
    let tank = Setup::read("tank.toml", told).unwrap().tank().unwrap();
    let all = meaning(&tank, &[]);
    assert!(say(&all, "buffered").text.starts_with("It is well buffered"), "{}", say(&all, "buffered").text);
}

/// 40 % every 7 days: NO3 14 × 0.4 = 5.6; PO4 0.8 × 3.0661 × 0.4 = 0.981; K 3.0 × 0.4 = 1.2 mg/L a week. Every 14 days half.
#[test]
fn what_it_feeds_in_a_week() {
    let tank = Setup::read("tank.toml", HOUSEHOLD).unwrap().tank().unwrap();
    for (ion, hand) in [(Ion::Nitrate, 5.6), (Ion::Phosphate, 0.981), (Ion::Potassium, 1.2)] {
        let found = fed_a_week(&tank, ion).value;
        assert!((found - hand).abs() < 0.002, "{ion:?}: {found}, by hand {hand}");
    }
    let text = say(&of(&[]), "feeds").text.clone();
    assert!(text.contains("5.6 (likely 3.2 to 8.4) mg/L of nitrate as NO3"), "{text}");
    let seldom = of(&[("habits.every", "14 days")]);
    assert!(say(&seldom, "feeds").text.contains("2.8 (likely 1.6 to 4.2) mg/L of nitrate"));
    assert!(say(&of(&[("habits.change", "0 %")]), "feeds").text.contains("You change no water"));
}

/// Rules 1 and 2: disinfectant counts until somebody says no, the total counts, the number stands in the sentence of the act.
#[test]
fn disinfectant_is_said_with_the_number_at_which_harm_starts() {
    let known = of(&[]);
    let first = say(&known, "first");
    assert!(first.urgent && first.text.contains("0.4 mg/L of total chlorine"), "{}", first.text);
    assert!(
        first.text.contains("harm begins at about 0.02 mg/L") && first.text.contains("wait 5 minutes"),
        "{}",
        first.text
    );
    assert!(say(&known, "harms").text.contains("up to 0.4 mg/L of total chlorine"));
    // Nobody told it: the usual upper end counts, and the sentence is there.
    let untold = of(&[("tap.total_chlorine", "")]);
    assert!(say(&untold, "first").text.contains("up to 1.0 mg/L"), "{}", say(&untold, "first").text);
    let none = of(&[("tap.disinfectant", "none"), ("tap.total_chlorine", "")]);
    assert!(!say(&none, "first").urgent && say(&none, "first").text.contains("coldest"));
    let much = of(&[("tap.total_chlorine", "6 mg/L")]);
    assert!(say(&much, "first").urgent && say(&much, "first").text.contains("ask your supplier"));
}

/// Rule 4: tap and pipes add up. 0.003 and 0.0025 each lie under 0.004, together 0.0055 do not.
#[test]
fn copper_of_works_and_pipes_adds_up_and_is_told_apart() {
    let both = of(&[("tap.copper", "0.003 mg/L"), ("pipes.copper", "0.0025 mg/L")]);
    let shrimps =
        |m: &Meaning| m.bears.iter().find(|b| b.who == Life::Shrimps && b.determinand == "copper").unwrap().clone();
    assert!(shrimps(&both).beyond);
    assert!(!shrimps(&of(&[("tap.copper", "0.003 mg/L"), ("pipes.copper", "0.0005 mg/L")])).beyond);
    let told = say(&both, "harms").more.iter().find(|text| text.contains("The report's copper")).unwrap().clone();
    assert!(told.contains("up to 0.003 mg/L") && told.contains("your pipes add up to 0.0025"), "{told}");
    assert!(told.contains("0.004 mg/L (where I ask) and 0.008 (where I refuse)"), "{told}");
    let unknown = of(&[("tap.copper", ""), ("pipes.copper", "")]);
    assert!(say(&unknown, "harms").text.contains("of copper nobody told"), "{}", say(&unknown, "harms").text);
}

/// Rule 16: above 13 mg/L it is told where shrimps, snails or young live, and only there.
#[test]
fn nitrate_is_told_where_shrimps_live() {
    let text = say(&of(&[]), "harms").text.clone();
    assert!(text.contains("nitrate") && text.contains("at most 13 mg/L"), "{text}");
    let fish = of(&[("animals.shrimps", "0")]);
    assert!(!say(&fish, "harms").text.contains("at most 13"), "{}", say(&fish, "harms").text);
}

/// A supplier's limit is no animal's: 0.175 mg/L of copper keep every regulator's limit and lie far over what shrimps bear.
#[test]
fn a_limit_for_suppliers_is_never_used_for_an_animal() {
    let found = of(&[("tap.copper", "0.175 mg/L")]);
    let copper = found.regulators.iter().find(|against| against.name == "copper").unwrap();
    assert_eq!(copper.limits.len(), 5);
    assert!(copper.limits.iter().all(|limit| !limit.beyond));
    assert!(found.bears.iter().filter(|b| b.determinand == "copper").all(|b| b.beyond));
    // 60 mg/L of nitrate: over 50 in four places, over 10 as N (44.3) in the fifth.
    let found = of(&[("tap.nitrate", "60 mg/L NO3")]);
    let nitrate = found.regulators.iter().find(|against| against.name == "nitrate").unwrap();
    assert!(nitrate.limits.iter().all(|limit| limit.beyond));
    let us = nitrate.limits.iter().find(|limit| limit.by == Regulator::Us).unwrap();
    assert_eq!((us.text.as_str(), us.note.as_deref()), ("44.3", Some("10 mg/L as N")));
}

#[test]
fn lead_and_phosphate_are_told_apart_from_the_works() {
    let setup = Setup::read("tank.toml", HOUSEHOLD).unwrap();
    let readings = read_text("Lead µg/l 6.0\nFluoride 0.3 mg/l\n").readings;
    let found = meaning(&setup.tank().unwrap(), &readings);
    let more = &say(&found, "harms").more;
    assert!(
        more.iter().any(|text| text.contains("The report's lead is up to 0.006 mg/L. Lead comes from pipes")),
        "{more:?}"
    );
    // 0.8 mg/L P are 2.45 mg/L PO4: over the 1 mg/L from which works dose it.
    assert!(more.iter().any(|text| text.contains("works add so that old lead pipes")), "{more:?}");
    assert!(found.bears.iter().any(|borne| borne.determinand == "lead" && borne.beyond));
    let little = of(&[("tap.phosphate", "0.1 mg/L PO4")]);
    assert!(!say(&little, "harms").more.iter().any(|text| text.contains("old lead pipes")));
}

#[test]
fn swings_say_what_was_told_and_what_not() {
    let found = of(&[]);
    let swing = |name: &str| found.swings.iter().find(|swing| swing.name.starts_with(name)).unwrap().clone();
    assert!(swing("nitrate").told && (swing("nitrate").known.low, swing("nitrate").known.high) == (8.0, 21.0));
    assert!(!swing("chloride").told, "one number tells no swing");
}

/// Whatever the water: no word of drinking, none of what is forbidden, five sentences in their order.
#[test]
fn the_words_stay_ours() {
    let waters: [&[(&str, &str)]; 4] = [
        &[],
        &[("tap.disinfectant", "none"), ("tap.total_chlorine", "")],
        &[("tap.copper", "0.4 mg/L"), ("tap.nitrate", "90 mg/L NO3"), ("tap.ph", "9.4")],
        &[("tap.calcium", "3 mg/L"), ("tap.magnesium", "0.5 mg/L"), ("tap.alkalinity", "0.1 meq/L")],
    ];
    for water in waters {
        let found = of(water);
        let keys: Vec<&str> = found.sentences.iter().map(|sentence| sentence.key).collect();
        assert_eq!(keys, ["hard", "buffered", "feeds", "harms", "first"]);
        for text in found.sentences.iter().flat_map(|s| std::iter::once(&s.text).chain(&s.more)) {
            let small = text.to_lowercase();
            for word in ["safe", "drink", " gas", "potable", "optimal"] {
                assert!(!small.contains(word), "{text}");
            }
            assert!(text.ends_with('.'), "{text}");
        }
    }
}
