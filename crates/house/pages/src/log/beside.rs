//! What stands beside a line of the log: a reading that harms, with the way to Help now; animals that the setup counts otherwise.

use knowledge::book;
use logbook::{Kept, Reading, Sure, What};
use maud::{Markup, html};
use trouble::{Outcome, Told, Urgency, outcomes, sheet as trouble_sheet, worked};

use crate::help_now::HELP_NOW;
use crate::sheet::{Sheet, first_tank};
use crate::words::glued;

/// The remark on an entry, if there is one.
pub fn remark(sheet: &Sheet, kept: &Kept) -> Markup {
    match &kept.entry.what {
        What::Test(reading) if !reading.below && reading.sure != Sure::NotSure => harm(sheet, kept, reading),
        What::Animals { who, counted, .. } => heads(sheet, kept, who, *counted),
        _ => html! {},
    }
}

/// A short sentence and the trouble in Help now; of several readings of the setup the first that harms.
fn harm(sheet: &Sheet, kept: &Kept, reading: &Reading) -> Markup {
    let found = match reading.of.as_str() {
        "ammonia_n" => of_the_gills(sheet, kept, "toxic-ammonia").or_else(|| untold_ph(sheet, kept, reading.value)),
        "nitrite_n" => of_the_gills(sheet, kept, "nitrite"),
        "temperature" => warmth(sheet, reading.value),
        _ => None,
    };
    html! {
        @if let Some((says, trouble)) = found {
            @if let Some(help) = trouble_sheet(trouble) {
                " " span.really { (glued(&says)) ". " a href=(sheet.letter(&format!("{HELP_NOW}/{trouble}"))) { "Help now: " (help.title) } }
            }
        }
    }
}

/// The reading, and what else was read in the day before it.
fn told(sheet: &Sheet, kept: &Kept) -> Told {
    let mut told = Told::default();
    told.hear(std::slice::from_ref(kept), &kept.entry.at);
    let around: Vec<Kept> = sheet.log.iter().chain(sheet.log_also).cloned().collect();
    told.hear(&around, &kept.entry.at);
    told
}

/// As Help now works it out.
fn of_the_gills(sheet: &Sheet, kept: &Kept, key: &str) -> Option<(String, &'static str)> {
    let told = told(sheet, kept);
    let one = |outcome: &Outcome| {
        let sums = worked("ammonia", &outcome.case(&told), &[], &kept.entry.at).sums;
        sums.into_iter().find(|sum| sum.key == key && sum.urgency == Urgency::AtOnce).map(|sum| sum.head)
    };
    outcomes(sheet.answer).iter().find_map(one).map(|head| (head, "ammonia"))
}

/// How toxic it is can't be worked out without a pH: the bad end, from what the start test must stay under.
fn untold_ph(sheet: &Sheet, kept: &Kept, mg_n_per_l: f64) -> Option<(String, &'static str)> {
    let limit = &book().harm.limit;
    let told = told(sheet, kept);
    let unknown =
        outcomes(sheet.answer).iter().any(|outcome| trouble::toxic(&outcome.case(&told), mg_n_per_l).is_none());
    let shows = mg_n_per_l >= limit.start_test_pass_mg_n_per_l.value();
    let says = limit.ammonia_unionised_mg_n_per_l.say.trim_end_matches('.');
    (unknown && shows).then(|| (format!("Ammonia shows, and how much of it is toxic your pH says. {says}"), "ammonia"))
}

/// Outside what tanks are kept at, and outside what this one is told to be kept at.
fn warmth(sheet: &Sheet, celsius: f64) -> Option<(String, &'static str)> {
    let (tank, usual) = (first_tank(sheet.answer)?, &book().bound("tank_temperature")?.is);
    let (low, high) = (usual.usual_low.min(tank.temperature_c.low), usual.usual_high.max(tank.temperature_c.high));
    let print = |c: f64| quantity::Temperature::celsius(c).print(&sheet.units);
    if celsius > high {
        Some((format!("Too warm: tanks are kept at no more than {}", print(high)), "heater-on"))
    } else if celsius < low {
        Some((format!("Too cold: tanks are kept at no less than {}", print(low)), "heater-dead"))
    } else {
        None
    }
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
