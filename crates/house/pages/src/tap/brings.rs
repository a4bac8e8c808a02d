//! What the tap brings: ions, hardness, buffer, and the pH to which it settles.

use maud::{Markup, html};
use quantity::hardness::format_hardness;
use quantity::number::Digits;
use quantity::{Ion, Kind, Measure, Why};
use recipe::{Lime, TapAired, tap_aired};
use setup::Tank;

use super::field;
use crate::salts::levels::basis;
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, figures, glued, level, sentence};

/// The verse.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let text = by_reading(
        readings,
        |r| (r.tank.tap.mg_per_l(Ion::Calcium), r.tank.tap.mg_per_l(Ion::Magnesium), r.tank.tap.alkalinity_meq_per_l),
        |r| html! { (hard(sheet, r)) (buffer(sheet, r.tank)) },
    );
    let much = if readings.iter().all(strict) {
        much_nitrate(sheet, readings)
    } else {
        by_reading(readings, strict, |r| {
            if strict(r) {
                much_nitrate(sheet, std::slice::from_ref(r))
            } else {
                html! {}
            }
        })
    };
    sheet.verse("What it brings", html! { (text) (rest(sheet, readings)) (much) })
}

/// The blank of an ion with its name: "14 mg of nitrate (as NO₃)".
fn mg(sheet: &Sheet, readings: &[Reading], ion: Ion) -> Markup {
    let (factor, unit) = basis(&sheet.units, Some(ion));
    let counted = unit.trim_start_matches("mg/L").trim_start();
    if sheet.question().is_some_and(|question| question.field == field(ion)) {
        // Nobody told how it is counted: the blank shows what is written, and each reading says what it would be.
        let mut ways: Vec<String> = readings
            .iter()
            .map(|r| format!("{}{NB}mg", level(&sheet.units, factor * r.tank.tap.mg_per_l(ion).value)))
            .collect();
        ways.dedup();
        return html! { (sheet.blank(&field(ion), "")) " of " (ion.name()) " (" b { (ways.join(" or ")) } " " (counted.replace(' ', NB)) ")" };
    }
    html! {
        (sheet.blank(&field(ion), " mg")) " of " (ion.name()) @if !counted.is_empty() { " (" (counted.replace(' ', NB)) ")" }
    }
}

/// Hardness, meq/L.
fn hardness_meq(tank: &Tank) -> f64 {
    let mol = |ion: Ion| tank.tap.mg_per_l(ion).value / ion.molar_mass() / 1000.0;
    quantity::hardness::hardness_meq_per_l(mol(Ion::Calcium), mol(Ion::Magnesium))
}

/// Hardness in the keeper's unit.
pub fn hardness(sheet: &Sheet, tank: &Tank) -> String {
    glued(&format_hardness(hardness_meq(tank), Measure::Hardness, &sheet.units)).replace(' ', NB)
}

fn hard(sheet: &Sheet, reading: &Reading) -> Markup {
    let (tank, one) = (reading.tank, std::slice::from_ref(reading));
    html! {
        p {
            @if sheet.has("tap.hardness") { "Its hardness you gave as " (sheet.in_unit("tap.hardness", ".")) " " }
            "Each litre carries " (mg(sheet, one, Ion::Calcium)) " and " (mg(sheet, one, Ion::Magnesium)) ". That is " (sheet.out(&hardness(sheet, tank), &why_hardness(sheet, tank)))
            " of hardness: what furs a kettle, and what snails build shells of. You read it in " (sheet.blank("units.hardness", "."))
        }
    }
}

fn why_hardness(sheet: &Sheet, tank: &Tank) -> Why {
    let units = &sheet.units;
    let part = |ion: Ion| {
        let equivalent = ion.molar_mass() / f64::from(ion.charge().max(1));
        format!(
            "{} ÷ {}",
            figures(units, tank.tap.mg_per_l(ion).value, 3),
            units.number(equivalent, Digits::Decimals(2))
        )
    };
    let unit = units.hardness;
    let meq = hardness_meq(tank);
    let mut sum = format!("{} + {} = {} meq/L", part(Ion::Calcium), part(Ion::Magnesium), figures(units, meq, 3));
    if unit.meq_per_unit(Measure::Hardness) != 1.0 {
        let factor = figures(units, unit.meq_per_unit(Measure::Hardness), 4);
        sum.push_str(&format!("; ÷ {factor} = {}", hardness(sheet, tank)));
    }
    let kind = tank.tap.mg_per_l(Ion::Calcium).kind.weaker(tank.tap.mg_per_l(Ion::Magnesium).kind);
    Why {
        key: "tap-hardness".to_owned(),
        question: format!("why {}?", hardness(sheet, tank)),
        sum,
        words: "The milligrams of each, divided by the mass of one milliequivalent, give charges; the last figure is what one of your unit holds.".to_owned(),
        sources: vec!["iupac_2022".to_owned()],
        kind: kind.weaker(Kind::WorkedOut),
    }
}

fn buffer(sheet: &Sheet, tank: &Tank) -> Markup {
    html! {
        p {
            "Its buffer, the alkalinity, is " (sheet.in_unit("tap.alkalinity", ""))
            "; it is what holds the pH. Straight from the tap it reads pH " (sheet.blank("tap.ph", ";")) " that passes, for its carbon dioxide goes out or comes in. "
            @match tap_aired(tank) {
                Some(aired) => {
                    "After a day in a room whose air holds " (sheet.in_unit("tank.room_co2", "")) " of carbon dioxide, at "
                    (sheet.in_unit("tank.temperature", "")) ", the water settles near "
                    (sheet.out(&format!("pH{NB}{}", sheet.units.number(aired.ph.value, Digits::Decimals(1))), &why_ph(sheet, tank, &aired)))
                    ". Then it " b { (Lime::of(aired.calcite).does()) } ": " (Lime::of(aired.calcite).shows()) ". That is the tap’s water by itself; the tank’s, with \
                    what food and salts make of it, stands on Salts. "
                    span.when { "Leave it be" } ", and choose animals for it" @if let Some(who) = unfit(&aired) { ": " (sentence(who)) } @else { "." }
                }
                None => { "I can’t work out its pH: it lies outside what my model of water covers." }
            }
        }
    }
}

/// Who does not live well in it, by the end of its range that lies further from neutral.
fn unfit(aired: &TapAired) -> Option<&'static str> {
    let end = if aired.ph.value < 7.0 { aired.ph.low } else { aired.ph.high };
    knowledge::book().limits.word("ph", end).map(|word| word.say.as_str())
}

fn why_ph(sheet: &Sheet, tank: &Tank, aired: &TapAired) -> Why {
    let units = &sheet.units;
    let one = |v: f64| units.number(v, Digits::Decimals(1));
    let lime = aired.calcite.map_or_else(String::new, |si| {
        let (side, size) = if si.value < 0.0 { ("below", -si.value) } else { ("above", si.value) };
        format!(" Lime: {} {side} saturation on the logarithmic scale (calcite’s index).", one(size))
    });
    let ppm = |v: f64| figures(units, v, 3);
    Why {
        key: "tap-ph".to_owned(),
        question: format!("why pH {}?", one(aired.ph.value)),
        sum: format!(
            "all ions above in balance with {} ppm of carbon dioxide at {}: pH {}",
            ppm(tank.room_co2_ppm.value),
            quantity::Temperature::celsius(tank.temperature_c.value).print(units),
            units.number(aired.ph.value, Digits::Decimals(2)),
        ),
        words: format!(
            "Likely {} to {}, as the room holds {} to {} ppm; by day plants push it up, and carbon dioxide that is given pulls it down.{lime} Solved with activities, no rule of thumb.",
            one(aired.ph.low),
            one(aired.ph.high),
            ppm(tank.room_co2_ppm.low),
            ppm(tank.room_co2_ppm.high)
        ),
        sources: vec!["phreeqc_386".to_owned()],
        kind: aired.ph.kind,
    }
}

/// Above the guideline for shrimps, snails and young, whoever they are, the tap's nitrate is told.
fn strict(reading: &Reading) -> bool {
    let limit = knowledge::book().harm.limit.nitrate_strict_mg_per_l.value();
    let tender = reading.tank.animals.invertebrates() || reading.tank.animals.young;
    tender && reading.tank.tap.mg_per_l(Ion::Nitrate).high > limit
}

/// What else it brings; where a reading is open, what it would be on each.
fn rest(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let mg = |ion: Ion| mg(sheet, readings, ion);
    html! {
        p {
            "For plants it brings " (mg(Ion::Nitrate)) ", " (mg(Ion::Phosphate)) ", " (mg(Ion::Potassium)) " and " (mg(Ion::Iron))
            ". Along come " (mg(Ion::Sodium)) ", " (mg(Ion::Chloride)) ", " (mg(Ion::Sulfate)) " and " (mg(Ion::Ammonium)) "."
        }
        (again(sheet))
    }
}

/// Whoever is no longer sure what a number is counted as is asked once more; one question at a time.
fn again(sheet: &Sheet) -> Markup {
    let counted = |ion: &Ion| sheet.question().is_none() && sheet.asked_again(&field(*ion));
    let ions: Vec<Ion> = [Ion::Nitrate, Ion::Phosphate, Ion::Ammonium].into_iter().filter(counted).collect();
    html! {
        @if !ions.is_empty() {
            p.small.on-screen {
                "Counted as the element or as the whole, one water reads quite differently. Not sure how your report counts?"
                @for ion in ions { " " button.again name="again" value=(field(ion)) { "Ask me again about " (ion.name()) } }
            }
        }
    }
}

/// The highest nitrate of the year, on each reading.
fn much_nitrate(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let limit = &knowledge::book().harm.limit;
    let mut most: Vec<String> =
        readings.iter().map(|r| level(&sheet.units, r.tank.tap.mg_per_l(Ion::Nitrate).high)).collect();
    most.dedup();
    html! {
        p {
            "Its nitrate reaches " b { (most.join(" or ")) (NB) "mg/L" } " (as NO₃). "
            (sentence(&limit.nitrate_strict_mg_per_l.say)) " " (sentence(&limit.nitrate_practice_high_mg_per_l.say))
            " " span.when { "When it suits:" } " test the nitrate of the tank; plants take part of it, and low-mineral water in the bucket thins it."
        }
    }
}
