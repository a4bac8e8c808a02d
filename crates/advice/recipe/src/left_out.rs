//! What was left out and why, in sentences: a recipe is short because of these.

use quantity::{Ion, Kind};
use setup::SourceWater;

use crate::choose::{Choice, LeftOut, Reason, Subject};
use crate::desk::{Desk, why};
use crate::lime::{self, Lime};
use crate::plan::{Dose, Indices, Level, Note};
use crate::refused;
use crate::say::capital;
use crate::{cautions, indices};

/// All sentences: what the choice left out, then what the tap covers by itself, then pH.
pub(crate) fn notes(
    desk: &Desk,
    choice: &Choice,
    doses: &[Dose],
    levels: &[Level],
    aired: Option<&Indices>,
    water: &SourceWater,
    alkalinity: &Level,
) -> Vec<Note> {
    let idle =
        |left: &&LeftOut| matches!(left.reason, Reason::NotLacking | Reason::RaisesAlkalinity | Reason::SparesNothing);
    let told = choice.left_out.iter().filter(|left| !idle(left));
    let mut notes: Vec<Note> = told.map(|one| note(desk, one, levels, choice.low_share)).collect();
    notes.extend(together(desk, &choice.left_out, &Reason::NotLacking, "nothing that it brings is short here"));
    let raises = "alkalinity, and pH with it, would rise for nothing";
    notes.extend(together(desk, &choice.left_out, &Reason::RaisesAlkalinity, raises));
    notes.extend(together(desk, &choice.left_out, &Reason::SparesNothing, "with it no other product would be spared"));
    notes.extend(covered(desk, &choice.left_out, doses, levels));
    notes.extend(ph(desk, aired, water, alkalinity));
    notes
}

/// What is owned and idle for one and the same reason, in one sentence.
fn together(desk: &Desk, left: &[LeftOut], reason: &Reason, why: &str) -> Option<Note> {
    let all = left.iter().filter(|left| left.reason == *reason);
    let names: Vec<String> = all.clone().map(|left| about(desk, &left.subject).1).collect();
    let first = all.map(|left| about(desk, &left.subject).0).next()?;
    let text = format!("{} (owned): {why}.", names.join("; "));
    Some(Note { about: first, text, key: None })
}

fn about(desk: &Desk, subject: &Subject) -> (String, String) {
    match subject {
        Subject::Ion(ion) => (ion.name().to_owned(), capital(ion.name())),
        Subject::Product(key) => (key.clone(), capital(&desk.name(key))),
        Subject::Feeding => ("feeding".to_owned(), "Feeding".to_owned()),
    }
}

fn note(desk: &Desk, left: &LeftOut, levels: &[Level], blended: f64) -> Note {
    let (about, title) = about(desk, &left.subject);
    let rule = &desk.book.harm.rule;
    let (text, key) = match &left.reason {
        Reason::TapCovers { band, settles, exceeds, smaller_share, low_share } => {
            let ion = if let Subject::Ion(ion) = left.subject { Some(ion) } else { None };
            let level = levels.iter().find(|l| l.ion == ion);
            let mut text = tap_covers(desk, &title, ion, *band, *settles, *exceeds);
            match level.filter(|_| blended > 0.0) {
                Some(level) => text.push_str(&format!(
                    " With {} of low-mineral water in the new water {} stand in the tank.",
                    desk.pen.share(blended),
                    desk.pen.span(ion, level.lowest, level.highest)
                )),
                None if *exceeds => text.push_str(&lowers(desk, ion, *band, *smaller_share, *low_share)),
                None => {}
            }
            let key = level.map(|level| level.why.clone());
            (text, key)
        }
        Reason::SoilTank => (
            "A soil tank: soil and food feed the plants, so no salt is given and no level is aimed at. Pale young leaves for weeks would make me ask again."
                .to_owned(),
            None,
        ),
        Reason::NeverChanged => (
            "Water is never changed: nothing settles. The doses replace what is taken, and what else they and the food bring stays. Test nitrate and alkalinity every month."
                .to_owned(),
            None,
        ),
        Reason::NotSolved { why } => (format!("{title}: I found no recipe ({why}), so nothing is dosed."), None),
        Reason::NearestWish { used } => (
            format!("{title}: the table has no levels for this wish in this light; I took those of \"{used}\"."),
            None,
        ),
        Reason::NeverWithAnimals { why } => (format!("{title}: never with animals, for {why}."), Some("no_ammonium".to_owned())),
        Reason::RaisesPh => (
            format!("{title}: it raises pH at once, and what ammonia there is turns toxic with it. A bicarbonate does the same slowly. {}", rule.ph_frees_ammonia.say),
            Some("ph_frees_ammonia".to_owned()),
        ),
        Reason::Law { say } => (format!("{title}: {say}"), None),
        Reason::NotLacking | Reason::RaisesAlkalinity | Reason::SparesNothing => (format!("{title}: it is not needed."), None),
        Reason::TooMuchAlong { needed, ion, comes_to, most } => (
            format!(
                "{title} (owned): enough of it for {needed} would bring {} up to {}, and {} is the most aimed at. So I take what brings less of that.",
                ion.name(),
                desk.pen.ion(*ion, *comes_to),
                desk.pen.ion(*ion, *most)
            ),
            None,
        ),
        Reason::Copper { tap, adds, limit } => {
            (brings_copper(desk, &title, *tap, *adds, *limit), Some("iron_alone".to_owned()))
        }
    };
    Note { about, text, key }
}

fn brings_copper(desk: &Desk, title: &str, tap: f64, adds: f64, limit: f64) -> String {
    let pen = &desk.pen;
    let unknown = desk.tank.at_hand.trace_copper.kind == Kind::Assumed;
    let unknown = if unknown { format!(" {}", desk.book.harm.limit.copper_unknown_percent.say) } else { String::new() };
    format!(
        "{title}: it would bring {} mg/L of copper on top of {} from tap and pipes; with shrimps or snails nothing of mine lifts it above {} mg/L.{unknown} {}",
        pen.n(adds, 2),
        pen.n(tap, 2),
        pen.n(limit, 1),
        desk.book.harm.rule.iron_alone.say
    )
}

/// What stands in the tank without a dose, what is aimed at, and when it would be given after all.
fn tap_covers(
    desk: &Desk,
    title: &str,
    ion: Option<Ion>,
    band: (f64, f64),
    settles: (f64, f64),
    exceeds: bool,
) -> String {
    let pen = &desk.pen;
    let again = ion.map_or_else(|| pen.alkalinity(band.0), |ion| pen.ion(ion, band.0));
    let again = if exceeds {
        String::new()
    } else {
        format!(" I give it if a test shows less than {again} two weeks running.")
    };
    format!(
        "{title}. Tap and food bring {}; {} are aimed at.{again}",
        pen.span(ion, settles.0, settles.1),
        pen.range(band.0, band.1)
    )
}

/// What lowers a level that the tap alone lifts over its band. For nitrate never a bigger change.
fn lowers(
    desk: &Desk,
    ion: Option<Ion>,
    band: (f64, f64),
    smaller_share: Option<f64>,
    low_share: Option<f64>,
) -> String {
    let (pen, now) = (&desk.pen, desk.tank.habits.change_share.value);
    if matches!(ion, Some(Ion::Calcium | Ion::Magnesium)) {
        return " More than plants need, and no harm to them: leave it be.".to_owned();
    }
    let tap = ion.map_or(0.0, |ion| desk.tank.tap.mg_per_l(ion).value);
    let mut text = match smaller_share {
        Some(share) => format!(
            " That is more. A smaller change lowers it: {} at a time instead of {}. The tap fills it and the plants drain it, so a bigger change lifts it.",
            pen.percent(share),
            pen.share(now)
        ),
        None if tap > band.1 => format!(
            " That is more; the tap alone brings {}: no change brings it below that, and no dose; more plants do, and low-mineral water.",
            ion.map_or_else(String::new, |ion| pen.ion(ion, tap))
        ),
        None => " That is more: the food brings it, and less food or more plants lower it.".to_owned(),
    };
    if let Some(share) = low_share {
        text.push_str(&format!(" Low-mineral water lowers it too: {} of the new water.", pen.percent(share)));
    }
    text
}

/// Ions with a band that no dose brings and that the choice said nothing of: the tap holds them in their band.
fn covered(desk: &Desk, left: &[LeftOut], doses: &[Dose], levels: &[Level]) -> Vec<Note> {
    let pen = &desk.pen;
    let told = |ion: Ion| left.iter().any(|l| l.subject == Subject::Ion(ion));
    let dosed = |ion: Ion| doses.iter().any(|d| d.brings.iter().any(|(i, mg)| *i == ion && *mg > 0.0));
    levels
        .iter()
        .filter_map(|level| Some((level, level.ion?, level.band?)))
        .filter(|(level, ion, band)| !told(*ion) && !dosed(*ion) && level.lowest >= band.0)
        .map(|(level, ion, band)| Note {
            about: ion.name().to_owned(),
            text: format!(
                "{}. The tap brings {}; {} stand in the tank, and at least {} are aimed at. Pale leaves are no reason to add it.",
                capital(ion.name()),
                pen.ion(ion, level.new_water.value),
                pen.span(Some(ion), level.lowest, level.highest),
                pen.n(band.0, 2)
            ),
            key: Some(level.why.clone()),
        })
        .collect()
}

/// Nothing is given for pH.
fn ph(desk: &Desk, aired: Option<&Indices>, water: &SourceWater, alkalinity: &Level) -> Option<Note> {
    let (pen, aired) = (&desk.pen, aired?);
    let key = desk.why(why(
        "aired-ph",
        format!("why pH {}?", pen.n(aired.ph.value, 3)),
        format!(
            "the tank's water in balance with {} ppm of carbon dioxide at {} ({} mg/L in the water)",
            pen.n(desk.tank.room_co2_ppm.value, 4),
            pen.celsius(desk.tank.temperature_c.value),
            pen.n(aired.co2_mg_per_l.value, 2)
        ),
        format!(
            "Speciation of all ions listed. {} to {} over the tap's range and a room of {} to {} ppm. By day plants push it up.",
            pen.n(aired.ph.low, 3),
            pen.n(aired.ph.high, 3),
            pen.n(desk.tank.room_co2_ppm.low, 4),
            pen.n(desk.tank.room_co2_ppm.high, 4)
        ),
        &["phreeqc_386"],
        aired.ph.kind.weaker(desk.tank.room_co2_ppm.kind).weaker(Kind::WorkedOut),
    ));
    let does = Lime::of(Some(aired.calcite));
    let other = lime::other_than_tap(desk.tank, does, alkalinity).map_or_else(String::new, |says| format!(" {says}"));
    let wish = refused::reached_ph(desk, water, aired);
    let wish = wish.unwrap_or_else(|| stays(desk, aired, water, alkalinity));
    Some(Note {
        about: "pH".to_owned(),
        text: format!(
            "pH gets nothing: aired, that is after a day in the open, the tank's water stands at pH {}, {} to {}, and {}.{other} {wish}",
            pen.n(aired.ph.value, 2),
            pen.n(aired.ph.low, 2),
            pen.n(aired.ph.high, 2),
            does.does()
        ),
        key: Some(key),
    })
}

/// What becomes of that pH.
fn stays(desk: &Desk, aired: &Indices, water: &SourceWater, alkalinity: &Level) -> String {
    if cautions::runs_out(desk, alkalinity) {
        return "It does not stay there: alkalinity runs out, and pH falls with it.".to_owned();
    }
    let far = desk.book.recipe.worth.ph_far.value;
    match indices::aired(desk.tank, water).map(|new| new.ph.value) {
        Some(new) if (new - aired.ph.value).abs() > far => format!(
            "The new water stands at {} once aired, so a big change swings it: smaller ones, more often, keep it steady.",
            desk.pen.n(new, 2)
        ),
        _ => "Leave it be: a steady pH is worth more than a figure.".to_owned(),
    }
}
