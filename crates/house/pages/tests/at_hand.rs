//! What the Salts letter makes of what is at hand: a dropper, a bottle larger than what keeps, a chelate that colours.

use crate::letters::{HOUSEHOLD, book, get, is_sound, post, setup, words};

const SALTS: &str = "/tank/1/salts";

fn with(old: &str, new: &str) -> String {
    let text = HOUSEHOLD.replace(old, new);
    assert_ne!(text, HOUSEHOLD);
    text
}

#[test]
fn who_has_a_dropper_is_told_drops_and_writes_in_their_size() {
    let mut shelf = book(&with("syringe = \"0.1 mL\"", "drop = \"0.05 mL\""));
    let page = get(&mut shelf, SALTS);
    is_sound(&page);
    let text = words(&page);
    // 5 mL ÷ 0.05 mL = 100 drops; of more than a hundred nobody keeps count.
    assert!(text.contains("mL (100 drops) every"), "{text}");
    // The conditioner of a bucket, by the recipe's own sentence and on its label: so many tenths of a millilitre × 2.
    let bucket = text.split(" mL (").nth(1).unwrap();
    assert!(bucket.contains("drops)"), "{text}");
    assert!(text.contains("a dropper whose drop is"), "{text}");
    let letter = page.split("What else you can tell me").next().unwrap();
    assert!(letter.contains("name=\"at_hand.drop\"") && !letter.contains("name=\"at_hand.syringe\""));
    let page = post(&mut shelf, SALTS, &[("at_hand.drop", "0.1")]);
    assert_eq!(setup(&shelf).written("at_hand.drop").as_deref(), Some("0.1 mL"));
    assert!(words(&page).contains("mL (50 drops) every"));
    assert!(!words(&get(&mut book(HOUSEHOLD), SALTS)).contains(" drops)"), "who draws up counts none");
}

#[test]
fn a_bottle_larger_than_what_keeps_is_mixed_smaller_and_its_size_can_still_be_changed() {
    let mut shelf = book(&with("scale = \"0.1 g\"", "scale = \"0.1 g\"\nbottle = \"1000 mL\""));
    let page = get(&mut shelf, SALTS);
    is_sound(&page);
    let text = words(&page);
    // 5 mL a day for the 60 days that a bottle keeps.
    assert!(text.contains("to 300 mL (your bottle holds"), "{text}");
    assert!(page.contains("name=\"at_hand.bottle\" value=\"1000\""));
    post(&mut shelf, SALTS, &[("at_hand.bottle", "500")]);
    assert_eq!(setup(&shelf).written("at_hand.bottle").as_deref(), Some("500 mL"));
}

#[test]
fn iron_that_colours_the_water_is_said_so_with_the_number_from_which_it_does() {
    let text = words(&get(&mut book(&with("[at_hand]", "[at_hand]\nchelate = \"iron_eddha\"")), SALTS));
    assert!(text.contains("EDDHA"), "at this pH no other chelate holds");
    assert!(text.contains("colours the water red where its iron reaches about 0.1 mg/L"), "{text}");
}

#[test]
fn a_label_says_what_a_days_dose_brings() {
    let page = get(&mut book(HOUSEHOLD), SALTS);
    let labels: Vec<String> = page.split("<div class=\"label\">").skip(1).map(words_of_label).collect();
    assert!(
        labels.iter().any(|label| label.contains("A day’s dose brings") && label.contains("of potassium")),
        "{labels:?}"
    );
    for label in &labels {
        for words in ["Not to drink.", "Mixed on", "Empty after", " g ", " mL", "poison centre"] {
            assert!(label.contains(words), "{words}: {label}");
        }
    }
}

/// H360FD, of the Globally Harmonised System: may harm fertility and the unborn child.
#[test]
fn a_mix_with_boron_is_named_for_who_is_pregnant_and_powders_ask_for_a_mask() {
    let fish = with("shrimps = 20", "shrimps = 0").replace("[at_hand]\n", "[at_hand]\nproducts = [\"trace_mix\"]\n");
    let label = |text: &str| {
        let page = get(&mut book(text), SALTS);
        words_of_label(page.split("<div class=\"label powders\">").nth(1).unwrap())
    };
    let boron = label(&fish);
    for said in
        ["H360FD", "pregnancy", "Dust mask and gloves", "Never in a food jar or a drinks bottle", "poison centre"]
    {
        assert!(boron.contains(said), "{said}: {boron}");
    }
    assert!(!label(HOUSEHOLD).contains("H360FD"), "no boron in it");
}

fn words_of_label(rest: &str) -> String {
    words(rest.split("</div>").next().unwrap())
}

#[test]
fn the_money_can_be_changed_where_the_prices_stand() {
    let mut shelf = book(HOUSEHOLD);
    let page = post(&mut shelf, SALTS, &[("tank.currency", "CHF")]);
    assert_eq!(setup(&shelf).written("tank.currency").as_deref(), Some("CHF"));
    assert!(words(&page).contains("a packet, CHF"));
}

#[test]
fn a_guessed_glass_stands_in_its_blanks_and_becomes_the_keepers_own_by_one_button() {
    let mut shelf = book("[animals]\nfish = 6\n");
    let page = get(&mut shelf, SALTS);
    is_sound(&page);
    let shown = |side: &str| {
        let at = format!("name=\"glass.inner_{side}\" value=\"");
        page.split(&at).nth(1).unwrap().split('"').next().unwrap().to_owned()
    };
    assert!(["length", "width", "height"].iter().all(|side| shown(side).parse::<f64>().unwrap() > 5.0));
    let so = "glass.inner_length glass.inner_width glass.inner_height";
    assert!(page.contains(&format!("name=\"so\" value=\"{so}\"")));
    let page = post(&mut shelf, SALTS, &[("so", so)]);
    assert!(!words(&page).contains("How large is your glass"), "{}", words(&page));
    assert_eq!(setup(&shelf).written("glass.inner_length"), Some(format!("{} cm", shown("length"))));
}
