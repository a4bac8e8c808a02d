//! What was left out, what can't be met, what is refused, and what to mind.

use maud::{Markup, html};
use quantity::Ion;
use recipe::{Note, Plan, Refused, Stands};

use super::bottles::belongs;
use super::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{capital, glued, sentence};

/// Whether a note is about one of the ions.
pub fn is_ion(about: &str) -> bool {
    Ion::ALL.iter().any(|ion| ion.name() == about)
}

/// A note with its subject set apart and, where one is known, the way to its why.
pub fn note(sheet: &Sheet, plan: &Plan, note: &Note) -> Markup {
    let subject = knowledge::book().product(&note.about).map_or(note.about.as_str(), |product| product.name.as_str());
    let text = sentence(&note.text);
    let (lead, rest) = lead(&glued(subject), &text);
    html! { p { b { (lead) } (rest) (sheet.why(note.key.as_deref().and_then(|key| plan.why(key)))) } }
}

/// The subject and what is said of it; a sentence that begins with its subject doesn't say it twice.
fn lead(subject: &str, text: &str) -> (String, String) {
    match text.get(..subject.len()) {
        Some(start) if start.eq_ignore_ascii_case(subject) => (start.to_owned(), text[subject.len()..].to_owned()),
        _ if subject.is_empty() => (String::new(), text.to_owned()),
        _ => (format!("{}.", capital(subject)), format!(" {text}")),
    }
}

/// What was left out.
pub fn left_out(sheet: &Sheet, readings: &[Reading]) -> Markup {
    if readings.iter().all(|r| r.plan.left_out.is_empty()) {
        return html! {};
    }
    sheet.verse(
        "What I left out",
        by_reading(
            readings,
            |r| r.plan.left_out.clone(),
            |r| html! { @for left in &r.plan.left_out { (note(sheet, r.plan, left)) } },
        ),
    )
}

/// Bands that can't be met and wishes that are refused, with what may be done instead.
pub fn wishes(sheet: &Sheet, readings: &[Reading]) -> Markup {
    if readings.iter().all(|r| r.plan.unmet.is_empty() && r.plan.refused.is_empty()) {
        return html! {};
    }
    sheet.verse(
        "What I can’t do",
        by_reading(
            readings,
            |r| (r.plan.unmet.clone(), r.plan.refused.clone()),
            |r| {
                html! {
                    @for refused in &r.plan.refused { (refusal(refused)) }
                    @for unmet in &r.plan.unmet { p { (sentence(&unmet.text)) } }
                }
            },
        ),
    )
}

fn refusal(refused: &Refused) -> Markup {
    html! {
        p { b { (capital(&sentence(&refused.wish))) } " I don’t do that. " (sentence(&refused.why)) @if !refused.ways.is_empty() { " Instead:" } }
        @if !refused.ways.is_empty() { ul.plain { @for way in &refused.ways { li { (sentence(way)) } } } }
    }
}

/// The notes of a plan that stand in one place.
pub fn standing(plan: &Plan, place: Stands) -> Vec<Note> {
    plan.cautions.iter().filter(|note| note.stands() == place).cloned().collect()
}

/// What comes before the first powder is weighed.
pub fn before_weighing(plan: &Plan) -> Markup {
    let notes = standing(plan, Stands::Weighing);
    html! { @if !notes.is_empty() { p { @for note in notes { (sentence(&note.text)) " " } } } }
}

/// Cautions that belong to no bottle and to no other act, and at the end the rules that bind the program alone.
pub fn mind(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let loose = |plan: &Plan| -> Vec<Note> {
        let changed = plan.change.litres > 0.0;
        let here = |n: &&Note| n.stands() == Stands::Mind || (n.stands() == Stands::Change && !changed);
        let cautions = plan.cautions.iter().filter(here);
        cautions.filter(|n| !plan.bottles.iter().any(|bottle| belongs(n, bottle))).cloned().collect()
    };
    let mine = |plan: &Plan| standing(plan, Stands::Mine);
    if readings.iter().all(|r| loose(r.plan).is_empty() && mine(r.plan).is_empty()) {
        return html! {};
    }
    sheet.verse(
        "Mind",
        by_reading(
            readings,
            |r| (loose(r.plan), mine(r.plan)),
            |r| {
                html! {
                    @for caution in loose(r.plan) { (note(sheet, r.plan, &caution)) }
                    p.small { @for mine in mine(r.plan) { (sentence(&mine.text)) " " } }
                }
            },
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_does_not_say_its_subject_twice() {
        assert_eq!(lead("copper", "Copper adds up."), ("Copper".to_owned(), " adds up.".to_owned()));
        assert_eq!(lead("pH", "Anything for pH."), ("pH.".to_owned(), " Anything for pH.".to_owned()));
        assert_eq!(lead("", "Stir."), (String::new(), "Stir.".to_owned()));
        assert_eq!(lead("éa", "è"), ("Éa.".to_owned(), " è".to_owned()));
    }
}
