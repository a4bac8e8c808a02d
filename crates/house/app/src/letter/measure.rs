//! A protocol in plain text, and what its readings come to.

use measure::Readings;
use quantity::{Known, Units};
use setup::Tank;

use super::text::Text;
use super::whys;
use crate::commands::measure::Answer;

/// The protocol, or the result where all was read.
pub fn measure(answer: &Answer, tank: Option<&Tank>, explain: bool) -> String {
    let units = tank.map(|tank| tank.units).unwrap_or_default();
    let mut t = Text::new(&units);
    t.head(&format!("{}: {}", answer.protocol.name, answer.protocol.asks));
    let mut text = match &answer.worked {
        Some(_) => {
            result(&mut t, answer);
            t.finish()
        }
        None => {
            protocol(&mut t, answer, &units, tank.is_some());
            t.finish()
        }
    };
    if let Some(worked) = answer.worked.as_ref().filter(|_| explain) {
        text += &format!("\nWhy?\n{}", whys(worked.values.iter().map(|value| &value.why)));
    }
    text
}

fn result(t: &mut Text, answer: &Answer) {
    let Some(worked) = &answer.worked else { return };
    for value in &worked.values {
        let Known { value: best, low, high, .. } = value.known;
        let (best, low, high) = (t.n(best, 3), t.n(low, 3), t.n(high, 3));
        t.say(&format!("{}: {best} {} (likely {low} to {high}).", value.label, value.unit));
    }
    for flag in &worked.flags {
        t.say(&format!("{}: {}.", flag.label, if flag.yes { "yes" } else { "no" }));
    }
    for says in &worked.says {
        t.point(says);
    }
    if !answer.fields.is_empty() {
        t.head("At the top of your setup file (or --to NEW-FILE writes it)");
        for (field, text) in &answer.fields {
            let bare = matches!(text.as_str(), "true" | "false");
            t.row(&if bare { format!("{field} = {text}") } else { format!("{field} = \"{text}\"") });
        }
    }
}

fn protocol(t: &mut Text, answer: &Answer, units: &Units, known: bool) {
    t.head("Before you begin");
    t.say(&format!("At hand: {}.", answer.protocol.at_hand.join("; ")));
    for says in &answer.brief {
        t.point(says);
    }
    if !known {
        t.point("With your setup file behind it I say what your own tank bears.");
    }
    for key in &answer.protocol.cautions {
        if let Some(say) = knowledge::book().harm.say(key) {
            t.say(say);
        }
    }
    t.head("Step by step");
    for (number, step) in answer.protocol.steps.iter().enumerate() {
        t.step(number + 1, step);
    }
    t.say(&answer.protocol.note);
    t.head("What you read");
    for blank in &answer.protocol.blank {
        let choices: Vec<String> = Readings::choices(blank).into_iter().map(|[key, _]| key).collect();
        let how = if choices.is_empty() {
            format!("{} {}", Readings::unit(blank, units), Readings::error(blank, units))
        } else {
            format!("one of {}", choices.join(", "))
        };
        let may = if blank.optional { ", may be left out" } else { "" };
        t.point(&format!("--read {}=…: {}, {}{may}", blank.key, blank.says, how.trim()));
    }
}
