//! "May I buy this here?": one sentence for all products with the same answer, the strictest first.

use std::collections::{BTreeMap, BTreeSet};

use crate::desk::Desk;
use crate::plan::Note;
use crate::say::capital;

/// A note for each answer, and one that names the country and asks to check. Nothing to buy: nothing to say.
pub(crate) fn law(desk: &Desk, products: &BTreeSet<String>) -> Vec<Note> {
    let (place, check) = (desk.place(), desk.book.check_the_law());
    let mut answers = BTreeMap::<_, Vec<&str>>::new();
    for product in products.iter().filter_map(|key| desk.product(key)) {
        let answer = desk.book.may_buy(place, product);
        let say = answer.say.trim_end_matches(check).trim_end().to_owned();
        answers.entry((std::cmp::Reverse(answer.verdict), say)).or_default().push(&product.name);
    }
    let note = |about: String, text: String| Note { about, text, key: None };
    let mut notes: Vec<Note> = answers
        .into_iter()
        .map(|((_, say), names)| {
            let names = capital(&names.join("; "));
            let text = format!("{names}: {}", lower(&say));
            note(names, text)
        })
        .collect();
    if !notes.is_empty() {
        notes.push(note(String::new(), format!("This is for {}. {check}", place.words())));
    }
    notes
}

/// The same sentence after a colon; "I" stays as it is.
fn lower(text: &str) -> String {
    let mut chars = text.chars();
    match chars.next() {
        Some(first) if !text.starts_with("I ") => first.to_lowercase().chain(chars).collect(),
        _ => text.to_owned(),
    }
}
