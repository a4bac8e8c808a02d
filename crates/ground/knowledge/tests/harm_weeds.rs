//! Harm rule 17: plants that stand on a list of weeds are known by the names that a keeper writes, and the sentence says where they are
//! listed, what holds there, whom to ask, never to release them. The lists below are copied from the texts named beside them.

use knowledge::{Place, book};

fn keys(text: &str) -> Vec<(String, bool)> {
    book().plants.named(text, Place::Eu).into_iter().map(|weed| (weed.key, weed.sure)).collect()
}

fn say(text: &str, place: Place) -> String {
    book().plants.say(text, place).unwrap_or_default()
}

/// 7 CFR 360.200 (a) without its seaweed, its tree and its nightshade, as the code has it; SI 2014/538, article 3; Regulations (EU) 2017/1263
/// and 2019/1262, their water plants; Regulation (EU) 2016/1141, its water plants (from memory).
#[test]
fn every_water_plant_of_the_lists_is_known() {
    let us = "Azolla pinnata, Eichhornia azurea, Hydrilla verticillata, Hygrophila polysperma, Ipomoea aquatica, Lagarosiphon major, \
              Limnophila sessiliflora, Monochoria hastata, Monochoria vaginalis, Ottelia alismoides, Sagittaria sagittifolia, Salvinia auriculata, \
              Salvinia biloba, Salvinia herzogii, Salvinia molesta, Sparganium erectum";
    let england = "Azolla filiculoides, Myriophyllum aquaticum, Hydrocotyle ranunculoides, Ludwigia peploides, Ludwigia grandiflora, \
                   Ludwigia uruguayensis, Crassula helmsii";
    let eu = "Alternanthera philoxeroides, Elodea nuttallii, Myriophyllum heterophyllum, Gymnocoronis spilanthoides, Salvinia molesta, \
              Cabomba caroliniana, Eichhornia crassipes, Hydrocotyle ranunculoides, Lagarosiphon major, Ludwigia grandiflora, Ludwigia peploides, \
              Myriophyllum aquaticum, Pistia stratiotes, Crassula helmsii";
    for (list, place, act) in [
        (us, Place::Us, "federal noxious weed list"),
        (england, Place::Gb, "England"),
        (eu, Place::Eu, "European Union’s list"),
    ] {
        for name in list.split(", ") {
            let weeds = book().plants.named(name, place);
            let weed = weeds.first().unwrap_or_else(|| panic!("{name} is not known"));
            assert!(weed.sure && weed.here && weed.lists.contains(act), "{name}: {weed:?}");
        }
    }
}

#[test]
fn a_plant_is_known_by_the_names_that_keepers_write() {
    for (text, key) in [
        ("cabomba caroliniana, three bunches", "cabomba_caroliniana"),
        ("C. CAROLINIANA", "cabomba_caroliniana"),
        ("Eichornia crassipes", "pontederia_crassipes"),
        ("Water hyacinths from the garden shop", "pontederia_crassipes"),
        ("two jacinthes d'eau and a laitue d'eau", "pistia_stratiotes"),
        ("Muschelblumen", "pistia_stratiotes"),
        ("Parrot's feather", "myriophyllum_aquaticum"),
        ("parrots feather", "myriophyllum_aquaticum"),
        ("Schmalblaettrige oder Schmalblättrige Wasserpest", "elodea_nuttallii"),
        ("salvinia adnata", "salvinia_molesta"),
        ("Hygrophila polysperma 'Rosanervig'", "hygrophila_polysperma"),
    ] {
        assert!(keys(text).contains(&(key.to_owned(), true)), "{text}: {:?}", keys(text));
    }
}

#[test]
fn a_genus_alone_may_be_one_and_its_other_species_are_left_alone() {
    assert_eq!(keys("Cabomba"), [("cabomba_caroliniana".to_owned(), false)]);
    assert!(say("Cabomba", Place::Eu).starts_with("If it is Cabomba caroliniana"));
    assert!(keys("Wasserpest").len() > 1 && keys("Wasserpest").iter().all(|(_, sure)| !sure));
    assert_eq!(keys("Cabomba caroliniana").len(), 1, "surely meant: no other of the genus");
    for text in [
        "",
        "Java fern",
        "Ludwigia repens",
        "Cabomba furcata",
        "Hygrophila corymbosa",
        "Azolla caroliniana",
        "major",
        "crassipes, the fish",
    ] {
        assert_eq!(keys(text), [], "{text}");
    }
    let eggs = "🌿".repeat(20_000);
    assert_eq!(keys(&eggs), []);
}

#[test]
fn rule_17_the_sentence_says_where_it_is_listed_what_holds_whom_to_ask_and_never_to_release_it() {
    let here = say("Pistia stratiotes", Place::Eu);
    for told in [
        "European Union’s list of invasive alien species",
        "may not be kept, grown, sold, given away, moved or released",
        "ask your local authority",
        "Never release it",
        "dry until they crackle",
        "household waste",
    ] {
        assert!(here.contains(told), "{told}: {here}");
    }
    let away = say("Pistia stratiotes", Place::Us);
    assert!(away.contains("on no list of yours that I know") && away.contains("ask your local authority"), "{away}");
    assert!(away.contains("Never release it"), "{away}");
    let both = say("Lagarosiphon major", Place::Us);
    assert!(
        both.contains("without a permit") && both.contains("Elsewhere it stands on the European Union’s list"),
        "{both}"
    );
}

#[test]
fn every_list_is_known_and_every_source_is_cited() {
    let plants = &book().plants;
    for (key, row) in &plants.plant {
        assert!(!row.listed.is_empty() && row.name.split(' ').count() == 2, "{key}");
        for (law, source) in &row.listed {
            assert!(plants.law.contains_key(law) && book().cite(source).is_some(), "{key}: {law}, {source}");
        }
    }
    // What is on no list is not what is on one.
    for name in &plants.unlisted {
        assert!(plants.named(name, Place::Eu).is_empty(), "{name}");
    }
}
