//! What the Salts letter asks before it says what to weigh.

use crate::common::{Door, HOUSEHOLD};

const SALTS: &str = "/tank/1/salts";

#[test]
fn what_is_far_from_usual_leads_the_letter_with_its_blank() {
    let mut door = Door::open(&HOUSEHOLD.replace("per_day = \"0.2 g a day\"", "per_day = \"10 g a day\""), "/");
    let page = door.page(SALTS);
    assert!(
        page.contains("<h1 class=\"answer\"><span class=\"really\">Really? One number is far from usual."),
        "the headline"
    );
    let opening = page.split("</section>").next().unwrap();
    let (_, blank) = opening.split_once("name=\"food.per_day\"").expect("its blank, at the head");
    assert!(
        blank.contains("aria-invalid=\"true\"") && blank.contains("<span class=\"really\" id=\"about-food-per-day\">")
    );
    let page = door.rewrite(SALTS, &[("revision", "1"), ("food.per_day", "0.2"), ("do", "rewrite")]);
    assert!(!page.contains("Really?") && door.setup().written("food.per_day").as_deref() == Some("0.2 g a day"));
}

#[test]
fn a_number_that_no_letter_shows_has_its_blank_here_as_it_was_written() {
    let mut door = Door::open(&format!("{HOUSEHOLD}\n[feeding.bands]\niron = \"2 mg/L\"\n"), "/");
    let page = door.page(SALTS);
    let opening = page.split("</section>").next().unwrap();
    assert!(opening.contains("name=\"feeding.bands.iron\" value=\"2\""), "its blank");
    door.rewrite(SALTS, &[("revision", "1"), ("feeding.bands.iron", "0.1"), ("do", "rewrite")]);
    assert_eq!(door.setup().written("feeding.bands.iron").as_deref(), Some("0.1 mg/L"));
}
