//! The letter Tap: sound, its columns equal where the charges are, its sums redone by hand.

use crate::letters;

use crate::letters::{HOUSEHOLD, QUESTION, book, drawings_speak, get, is_sound, no_forbidden_words, post, words};

const PATH: &str = "/tank/1/tap";

/// A water made of salts: 1 mmol/L CaCl2, 1 of NaHCO3, 0.5 of MgSO4 (molar masses by IUPAC), so 4 meq/L on either side:
/// 2 Ca + 1 Mg + 1 Na against 2 Cl + 1 SO4 + 1 of buffer.
const SALTS: &str = r#"
[tap]
calcium = "40.078 mg/L"
magnesium = "12.1525 mg/L"
sodium = "22.990 mg/L"
potassium = "0 mg/L"
chloride = "70.90 mg/L"
sulfate = "48.028 mg/L"
nitrate = "0 mg/L NO3"
phosphate = "0 mg/L PO4"
ammonium = "0 mg/L NH4"
alkalinity = "1 meq/L"
disinfectant = "none"
temperature = "10 °C"
[tank]
temperature = "24 °C"
[habits]
change = "25 %"
[animals]
fish = 4
"#;

/// Top edge of the uppermost block of a column, by the left edge of its blocks.
fn top(html: &str, x: &str) -> f64 {
    let tops = html.split("<rect").skip(1).filter(|rect| rect.contains(&format!(" x=\"{x}\""))).map(|rect| {
        rect.split(" y=\"").nth(1).and_then(|y| y.split('"').next()).and_then(|y| y.parse::<f64>().ok()).unwrap()
    });
    tops.fold(f64::INFINITY, f64::min)
}

#[test]
fn the_page_is_sound_and_speaks() {
    for text in [HOUSEHOLD, QUESTION, SALTS, ""] {
        let html = get(&mut book(text), PATH);
        is_sound(&html);
        drawings_speak(&html, 1);
        no_forbidden_words(&words(&html));
    }
}

#[test]
fn equal_charges_make_equal_columns() {
    let html = get(&mut book(SALTS), PATH);
    assert!((top(&html, "134") - top(&html, "208")).abs() < 0.02, "the columns stand level");
    let text = words(&html);
    // The sums under the columns.
    assert_eq!(html.matches(">4.00</text>").count(), 2, "{text}");
    // 2 (1.000 + 0.500) = 3 meq/L of hardness; a German degree is 10 mg/L of CaO, 56.077 g/mol: 0.3567 meq/L.
    assert!(text.contains("8.41 °dH"), "{text:.600}");
}

#[test]
fn the_mixing_sum_is_that_of_a_hand() {
    // 0.75 x 24 + 0.25 x 10 = 20.5 °C; nothing colder than 24 - 1 / 0.25 = 20 °C goes in at once.
    // There must be litres to mix.
    let glass = "\n[glass]\ninner_length = \"76 cm\"\ninner_width = \"36 cm\"\ninner_height = \"40 cm\"\n";
    let text = words(&get(&mut book(&format!("{SALTS}{glass}")), PATH));
    assert!(text.contains("from 24 °C to 20.5 °C"), "{text}");
    assert!(text.contains("nothing colder than 20 °C"), "{text}");
}

#[test]
fn nothing_to_take_out_is_no_clay() {
    let html = get(&mut book(SALTS), PATH);
    assert!(!html.contains("class=\"text must\""));
    let html = get(&mut book(HOUSEHOLD), PATH);
    assert!(html.contains("class=\"text must\""));
    let text = words(&html);
    for said in [
        "At once, every change:",
        "Harm to gills begins at about 0.02 mg/L",
        "Standing overnight drives off part",
        "Let the cold tap run",
    ] {
        assert!(text.contains(said), "{said}");
    }
}

#[test]
fn copper_is_said_to_who_keeps_shrimps() {
    let with = words(&get(&mut book(HOUSEHOLD), PATH));
    assert!(with.contains("I ask above 0.004 mg/L and refuse above 0.008"), "{with}");
    assert!(!words(&get(&mut book(SALTS), PATH)).contains("0.008"));
}

#[test]
fn the_copper_of_a_trace_mix_is_a_blank_and_unknown_counts_as_the_most() {
    let mut book = book(HOUSEHOLD);
    let html = get(&mut book, PATH);
    assert!(html.contains("name=\"at_hand.trace_copper\" value=\"1.5\""), "{html}");
    assert!(words(&html).contains("label does not say counts as 1.5 % copper"));
    post(&mut book, PATH, &[("at_hand.trace_copper", "0.1")]);
    assert_eq!(letters::setup(&book).written("at_hand.trace_copper").as_deref(), Some("0.1 %"));
}

/// pH at both ends of the household's room (600 and 1500 ppm): 8.4 and 7.9, as `aired` has it.
#[test]
fn who_does_not_live_well_in_the_settled_water_is_named() {
    let alkaline = words(&get(&mut book(HOUSEHOLD), PATH));
    assert!(alkaline.contains("discus") && alkaline.contains("bee shrimps do not live well in it"), "{alkaline}");
    assert!(!alkaline.contains("most plants and fish") && !alkaline.contains("lives well"));
    let soft =
        HOUSEHOLD.replace("alkalinity = { min = 5.3, mean = \"5.9 °dH\", max = 6.4 }", "alkalinity = \"0.1 °dH\"");
    assert_ne!(soft, HOUSEHOLD);
    let acid = words(&get(&mut book(&soft), PATH));
    assert!(acid.contains("snails lose their shells") && !acid.contains("discus"), "{acid}");
}

#[test]
fn an_open_question_shows_both_outcomes_and_hangs_nothing_on_one() {
    let html = get(&mut book(QUESTION), PATH);
    let text = words(&html);
    assert!(text.contains("Still open.") && text.contains("I don’t know."));
    assert_eq!(html.matches("name=\"reply\"").count(), 3);
    // 14 mg/L as NO3 is 0.226 meq/L, as N 1.00: one dotted block for each.
    assert_eq!(html.matches("class=\"doubt\"").count(), 2);
    assert!(text.contains("0.23") && text.contains("1.00"), "{text}");
    assert!(text.contains("I decide nothing by it"));
    // What both replies say alike stands once: only nitrate has a row for each.
    let feeds = html.split("What a week of changes brings").nth(1).unwrap().split("</table>").next().unwrap();
    let rows = |name: &str| feeds.matches(&format!("<th scope=\"row\">{name}")).count();
    assert_eq!((rows("nitrate"), rows("potassium"), rows("calcium")), (2, 1, 1));
    assert!(text.contains("14 mg or 62 mg as NO₃"), "{text}");
    // What the headline says, it says on either reading.
    let head = headline(&html);
    let settled = ["14 mg/L NO3", "14 mg/L N"].map(|told| {
        let text = QUESTION.replace("mean = \"14 mg/L\"", &format!("mean = \"{told}\""));
        headline(&get(&mut book(&text), PATH))
    });
    let common = head.split(" One number I have to ask").next().unwrap();
    assert!(head.starts_with("One question first") || settled.iter().all(|h| h == common), "{head} / {settled:?}");
}

fn headline(html: &str) -> String {
    words(html.split("<h1 class=\"answer\">").nth(1).unwrap().split("</h1>").next().unwrap())
}

#[test]
fn a_changed_blank_rewrites_the_letter_and_keeps_its_range() {
    let mut book = book(HOUSEHOLD);
    let html = post(&mut book, PATH, &[("tap.calcium", "50"), ("units.hardness", "french")]);
    is_sound(&html);
    let setup = letters::setup(&book);
    assert!(setup.text().contains("min = 42") && setup.text().contains("50 mg/L Ca"), "{}", setup.text());
    // 2 x (50 / 40.078 + 6.0 / 24.305) = 2.989 meq/L; a French degree is 10 mg/L CaCO3 = 0.19983 meq/L: 15.0.
    let text = words(&html);
    assert!(text.contains("15 °fH"), "{text:.800}");
    assert!(text.contains("(was 48; undo"), "{text:.800}");
}

#[test]
fn a_wrong_word_is_refused_beside_its_blank() {
    let mut book = book(HOUSEHOLD);
    let revision = letters::revision(&book).to_string();
    let body = form_urlencoded::Serializer::new(String::new())
        .append_pair("revision", &revision)
        .append_pair("tap.temperature", "a bit cold")
        .finish();
    let request = http::Request::builder()
        .method("POST")
        .uri(PATH)
        .header("content-type", "application/x-www-form-urlencoded")
        .body(body.into_bytes())
        .unwrap();
    let response = letters::send(&mut book, &request);
    assert_eq!(response.status(), http::StatusCode::UNPROCESSABLE_ENTITY);
    let html = String::from_utf8(response.into_body()).unwrap();
    is_sound(&html);
    assert!(words(&html).contains("I did not take"));
    assert_eq!(letters::revision(&book), 1);
}

#[test]
fn a_hardness_that_was_told_can_be_changed() {
    let mut book = book("[tap]\nhardness = \"8 °dH\"\nalkalinity = \"5 °dH\"\n");
    let html = get(&mut book, PATH);
    assert!(html.contains("name=\"tap.hardness\""));
    is_sound(&html);
    post(&mut book, PATH, &[("tap.hardness", "10")]);
    assert_eq!(letters::setup(&book).written("tap.hardness").as_deref(), Some("10 °dH"));
    let html = get(&mut self::book(HOUSEHOLD), PATH);
    let letter = html.split("What else you can tell me").next().unwrap_or_default();
    assert!(!letter.contains("name=\"tap.hardness\""));
}
