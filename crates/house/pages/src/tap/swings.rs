//! What the tap swings over the year, and how its cold in winter mixes into the tank.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Ion, Kind, Known, Measure, Temperature, TemperatureDifference, Units, Why};

use super::IONS;
use crate::salts::levels::basis;
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, figures, glued, level, list, litres_of};

/// The verse.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let swing = year_said(sheet, readings);
    let guessed = by_reading(readings, guessed, guessed_said);
    let cold = by_reading(
        readings,
        |r| (shown_change(sheet, r), r.tank.tap.temperature_c, r.tank.temperature_c),
        |r| temperature(sheet, r),
    );
    sheet.verse("What it swings", html! { (swing) (guessed) (cold) })
}

/// What moves over the year and was told, as "nitrate" and "from 8.0 to 21".
fn year(sheet: &Sheet, reading: &Reading) -> Vec<(&'static str, String)> {
    let tap = &reading.tank.tap;
    let said = |known: Known<f64>, factor: f64| {
        let ends = [known.low, known.high].map(|end| level(&sheet.units, factor * end));
        (known.high > known.low).then(|| format!("from {} to {}", ends[0], ends[1]))
    };
    let told = IONS.iter().filter(|ion| tap.mg_per_l(**ion).kind != Kind::Assumed);
    let ions = told.filter_map(|ion| Some((ion.name(), said(tap.mg_per_l(*ion), basis(&sheet.units, Some(*ion)).0)?)));
    let unit = sheet.units.hardness;
    let buffer = tap.alkalinity_meq_per_l.map(|meq| unit.from_meq_per_l(meq, Measure::Alkalinity));
    let buffer = said(buffer, 1.0).map(|text| ("the buffer", format!("{text} {}", unit.name(Measure::Alkalinity))));
    ions.chain(buffer).collect()
}

/// The same for all readings: where they differ, one way after the other.
fn year_said(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let mut told: Vec<(&str, Vec<String>)> = Vec::new();
    for (name, text) in readings.iter().flat_map(|r| year(sheet, r)) {
        match told.iter_mut().find(|(known, _)| *known == name) {
            Some((_, ways)) if ways.contains(&text) => {}
            Some((_, ways)) => ways.push(text),
            None => told.push((name, vec![text])),
        }
    }
    let told: Vec<String> = told.iter().map(|(name, ways)| format!("{name} {}", ways.join(" or "))).collect();
    html! {
        @if told.is_empty() {
            p { "Nobody has told how far this water moves over the year. A report gives the least and the most beside the mean." }
        } @else {
            p { "Over a year " (glued(&list(&told))) " (mg/L where no other unit is named). Every answer in this book is tried at both ends." }
        }
    }
}

/// What the report leaves out.
fn guessed(reading: &Reading) -> Vec<&'static str> {
    let known = |ion: &&Ion| reading.tank.tap.mg_per_l(**ion);
    IONS.iter().filter(|ion| known(ion).kind == Kind::Assumed && known(ion).high > 0.0).map(|ion| ion.name()).collect()
}

fn guessed_said(reading: &Reading) -> Markup {
    let names = guessed(reading);
    html! { @if !names.is_empty() { p { "Not in the report: " (list(&names)) ". I count on the usual, with a wide range." } } }
}

fn celsius(units: &Units, value: f64) -> String {
    Temperature::celsius(value).print_with(units, Digits::Significant(3)).replace(' ', NB)
}

fn apart(units: &Units, kelvins: f64) -> String {
    TemperatureDifference::kelvins(kelvins).print_with(units, Digits::Significant(2)).replace(' ', NB)
}

/// Litres of a change as they are read: readings that differ by less than that are one.
fn shown_change(sheet: &Sheet, reading: &Reading) -> String {
    figures(&sheet.units, reading.plan.change.litres, 3)
}

/// The tank after a change with water of `new_c`: mixing by volume.
pub(crate) fn mixed_c(tank_c: f64, new_c: f64, share: f64) -> f64 {
    (1.0 - share) * tank_c + share * new_c
}

fn temperature(sheet: &Sheet, reading: &Reading) -> Markup {
    let (units, tank, plan) = (&sheet.units, reading.tank, reading.plan);
    let (tap, share, tank_c) = (tank.tap.temperature_c, plan.change.share, tank.temperature_c.value);
    let runs = html! {
        "From its coldest to its warmest the tap runs at " (sheet.blank("tap.temperature", ".")) " "
    };
    // Without a glass there are no litres to mix.
    if share <= 0.0 || plan.change.litres <= 0.0 {
        return html! { p { (runs) } };
    }
    // The end of the year that is further from the tank.
    let new_c = if (tap.low - tank_c).abs() >= (tap.high - tank_c).abs() { tap.low } else { tap.high };
    let after = mixed_c(tank_c, new_c, share);
    let rules = &knowledge::book().harm;
    let (hour, day) = (rules.limit.temperature_step_c_per_h.value(), rules.limit.temperature_step_c.value());
    let moves = (after - tank_c).abs();
    let (verb, than) = if new_c < tank_c { ("cool", "colder") } else { ("warm", "warmer") };
    let mildest = tank_c + (new_c - tank_c).signum() * hour / share;
    html! {
        p {
            (runs)
            "The " (litres(sheet, reading)) " of a change straight from it, at " (celsius(units, new_c)) ", would " (verb) " the tank from "
            (celsius(units, tank_c)) " to " (sheet.out(&celsius(units, after), &why_mixed(sheet, reading, new_c, after)))
            @if moves > hour {
                ", by " (apart(units, moves)) ": more than " (apart(units, hour)) " in an hour, or " (apart(units, day))
                " in a day, is too much. So nothing " (than) " than " (sheet.out(&celsius(units, mildest), &why_mildest(sheet, reading, hour, mildest)))
                " goes in at once. "
            } @else {
                ": no more than the " (apart(units, hour)) " that an hour may move it. "
            }
            (rules.rule.new_water_temperature.say)
        }
        @if moves > hour && new_c < tank_c { p { (glued(&rules.rule.kettle_water.say)) } }
    }
}

fn litres(sheet: &Sheet, reading: &Reading) -> Markup {
    let shown = litres_of(&sheet.units, reading.plan.change.litres);
    sheet.out_or_bold(&shown, reading.plan.why("change"))
}

fn why_mixed(sheet: &Sheet, reading: &Reading, new_c: f64, after: f64) -> Why {
    let (units, change) = (&sheet.units, &reading.plan.change);
    let all = change.litres / change.share;
    let c = |v: f64| celsius(units, v);
    Why {
        key: "tap-mixed".to_owned(),
        question: format!("why {}?", c(after)),
        sum: format!(
            "({} × {} + {} × {}) ÷ {} litres = {}",
            figures(units, all - change.litres, 3),
            c(reading.tank.temperature_c.value),
            figures(units, change.litres, 3),
            c(new_c),
            figures(units, all, 3),
            c(after)
        ),
        words: "Mixing by volume; the warmth of glass and ground is left out, which errs to the cold side.".to_owned(),
        sources: Vec::new(),
        kind: Kind::WorkedOut.weaker(reading.tank.tap.temperature_c.kind),
    }
}

fn why_mildest(sheet: &Sheet, reading: &Reading, hour: f64, mildest: f64) -> Why {
    let (units, share, tank_c) = (&sheet.units, reading.plan.change.share, reading.tank.temperature_c.value);
    let sign = if mildest < tank_c { "−" } else { "+" };
    let limit = &knowledge::book().harm.limit;
    Why {
        key: "tap-mildest".to_owned(),
        question: format!("why {}?", celsius(units, mildest)),
        sum: format!(
            "{} {sign} {} ÷ {} = {}",
            celsius(units, tank_c),
            apart(units, hour),
            figures(units, share, 3),
            celsius(units, mildest)
        ),
        words: format!(
            "What moves the tank by the limit of an hour. {} {}",
            limit.temperature_step_c_per_h.say, limit.temperature_step_c.say
        ),
        sources: Vec::new(),
        kind: Kind::CommonPractice,
    }
}

/// Ions whose mean alone is known need no swing; used by the table of ions.
pub fn over_the_year(sheet: &Sheet, known: Known<f64>, ion: Option<Ion>) -> String {
    let factor = basis(&sheet.units, ion).0;
    if known.high > known.low {
        crate::words::span(&sheet.units, factor * known.low, factor * known.high)
    } else {
        String::new()
    }
}
