//! What stands beside a line of the log: a reading that harms, with the way to Help now; animals that the setup counts otherwise.

use knowledge::Place;
use logbook::{Kept, Reading, Sure, What};
use maud::{Markup, html};
use setup::Tank;
use trouble::{Outcome, Told, harms, outcomes, sheet as trouble_sheet};

use crate::help_now::HELP_NOW;
use crate::sheet::{Sheet, first_tank};
use crate::words::glued;

/// The remark on an entry, if there is one.
pub fn remark(sheet: &Sheet, kept: &Kept) -> Markup {
    match &kept.entry.what {
        What::Test(reading) if !reading.below && reading.sure != Sure::NotSure => harm(sheet, kept, reading),
        What::Animals { who, counted, .. } => heads(sheet, kept, who, *counted),
        What::Bought { .. } | What::Trim { .. } | What::Done { .. } | What::Words => weeds(sheet, kept),
        _ => html! {},
    }
}

/// Plants on a list that the entry names; once a page, at the latest entry that names them.
fn weeds(sheet: &Sheet, kept: &Kept) -> Markup {
    let place = first_tank(sheet.answer).map_or(Place::Other, Tank::place);
    let says = kept.entry.weeds(place).filter(|says| {
        let newer = sheet.log.iter().take_while(|other| other.id != kept.id);
        !newer.filter_map(|other| other.entry.weeds(place)).any(|other| other == *says)
    });
    html! { @if let Some(says) = says { " " span.really { (glued(&says)) } } }
}

/// A short sentence and the trouble in Help now; of several readings of the setup the first that harms.
fn harm(sheet: &Sheet, kept: &Kept, reading: &Reading) -> Markup {
    let told = told(sheet, kept);
    let one = |outcome: &Outcome| harms(&outcome.case(&told), &reading.of, reading.value, &kept.entry.at);
    let found = outcomes(sheet.answer).iter().find_map(one);
    html! {
        @if let Some(found) = found {
            @if let Some(help) = trouble_sheet(found.trouble) {
                " " span.really {
                    (glued(&found.head)) ". "
                    a href=(sheet.letter(&format!("{HELP_NOW}/{}", found.trouble))) { "Help now: " (help.title) }
                }
            }
        }
    }
}

/// The reading, and what else was read in the day before it and after it.
fn told(sheet: &Sheet, kept: &Kept) -> Told {
    let mut told = Told::default();
    told.hear(std::slice::from_ref(kept), &kept.entry.at);
    let around: Vec<Kept> = sheet.log.iter().chain(sheet.log_also).cloned().collect();
    told.hear(&around, &kept.entry.at);
    // What was read in the day after it stands for what nobody read before: so Help now hears it too.
    let day = knowledge::book().troubles.number.reading_fresh_h.value;
    let mut later: Vec<(f64, &Kept)> =
        around.iter().map(|other| (-trouble::hours_ago(other, &kept.entry.at), other)).collect();
    later.retain(|(after, _)| *after > 0.0 && *after <= day);
    later.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (_, other) in later {
        if let What::Test(reading) = &other.entry.what
            && reading.sure != Sure::NotSure
        {
            told.hear_one(reading, 0.0);
        }
    }
    told
}

/// Under the newest entry about some animals: the log does not change the letter, the keeper does.
fn heads(sheet: &Sheet, kept: &Kept, who: &str, counted: Option<u32>) -> Markup {
    let same = |other: &&Kept| matches!(&other.entry.what, What::Animals { who: other, .. } if other == who);
    let newest = sheet.log.iter().find(same).is_some_and(|newest| newest.id == kept.id);
    let Some(animals) = first_tank(sheet.answer).map(|tank| &tank.animals).filter(|_| newest) else { return html! {} };
    let has = match who {
        "fish" => animals.fish,
        "shrimps" => animals.shrimps,
        "snails" => animals.snails,
        _ => animals.other_invertebrates,
    };
    html! {
        @if counted != Some(has) {
            " " span.really {
                "Your letter says " (has) " " (who) ": if that is no longer so, "
                a href=(sheet.letter("tank")) { "change it on Tank" } "."
            }
        }
    }
}
