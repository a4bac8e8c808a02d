//! The letter of signs: what is ticked is held against this tank, and written into the log only where that is asked for.

use crate::letters::{HOUSEHOLD, QUESTION, book, get, is_sound, no_forbidden_words, post, revision, words};
use logbook::{Filter, What};
use setup::Shelf;

const PAGE: &str = "/tank/1/signs";

#[test]
fn every_sight_can_be_ticked_and_is_answered() {
    let mut shelf = book(HOUSEHOLD);
    let html = get(&mut shelf, PAGE);
    is_sound(&html);
    for (key, sight) in &knowledge::book().sights {
        assert!(html.contains(&format!("name=\"{key}\"")), "{key}");
        let answer = get(&mut shelf, &format!("{PAGE}?{key}=yes"));
        is_sound(&answer);
        let text = words(&answer);
        no_forbidden_words(&text);
        assert!(text.contains("This is what it can be, here.") && text.contains("Source:"), "{key}");
        if sight.evidence == knowledge::Evidence::Poor {
            assert!(
                text.contains("don't know") || text.contains("hardly ever tested") || text.contains("tank's lore"),
                "{key}"
            );
        }
    }
    assert_eq!(html.matches("<svg class=\"sketch\"").count(), knowledge::book().sights.len());
}

#[test]
fn looking_writes_nothing_and_a_button_writes_the_log() {
    let mut shelf = book(HOUSEHOLD);
    let before = revision(&shelf);
    get(&mut shelf, &format!("{PAGE}?threads=yes"));
    let all = |shelf: &mut setup::MemoryShelf| shelf.log(1).unwrap().list(&Filter::default()).unwrap();
    assert!(all(&mut shelf).is_empty());
    let letter = post(&mut shelf, PAGE, &[("threads", "yes"), ("black_tufts", "yes"), ("act", "seen")]);
    let kept = all(&mut shelf);
    assert_eq!(kept.len(), 2);
    assert!(kept.iter().all(|kept| matches!(kept.entry.what, What::Sight { .. })));
    assert_eq!(revision(&shelf), before, "the setup is left alone");
    let text = words(&letter);
    assert!(text.contains("It stands in your log.") && text.contains("From your log"), "{text:.400}");
}

#[test]
fn while_a_question_is_open_each_reply_has_its_own_findings() {
    let mut shelf = book(QUESTION);
    let (mut apart, mut alike) = (0, 0);
    for key in knowledge::book().sights.keys() {
        let html = get(&mut shelf, &format!("{PAGE}?{key}=yes"));
        is_sound(&html);
        let text = words(&html);
        let ifs = html.matches("<h2>If “").count();
        // The question stands first; then both replies, or what is so whichever is true.
        let asked = text.find("How is nitrate in your tap water counted").expect("the question");
        assert!(text.find("If “").is_none_or(|at| asked < at), "{text:.800}");
        assert!(ifs == 0 || ifs == 2, "{key}: {ifs}");
        *(if ifs == 2 { &mut apart } else { &mut alike }) += 1;
    }
    assert!(apart > 0 && alike > 0, "{apart} {alike}");
}

#[test]
fn struck_out_causes_are_shown_with_their_numbers() {
    let mut shelf = book(HOUSEHOLD);
    let text = words(&get(&mut shelf, &format!("{PAGE}?old_holes=yes")));
    assert!(text.contains("Struck out by your own numbers"), "{text:.800}");
    assert!(text.contains("potassium is short"), "{text:.800}");
}
