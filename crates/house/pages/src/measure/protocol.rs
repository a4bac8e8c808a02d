//! One protocol: what is at hand, what must be minded, the steps, the readings, and what follows.

use knowledge::{Measure, MeasureBlank, book};
use logbook::What;
use maud::{Markup, html};
use measure::{Name, Readings, Value, Worked, brief, work};
use quantity::{Fault, Faults, Known};
use setup::Tank;

use super::WHICH;
use crate::parts;
use crate::sheet::Sheet;
use crate::words::{NB, capital, glued, level, likely};

/// Seconds in a day.
const DAY_S: f64 = 86_400.0;

/// The verses of a protocol.
pub fn write(sheet: &Sheet, tank: &Tank, name: Name) -> Markup {
    let Some(protocol) = name.protocol() else { return html! {} };
    let typed = protocol.blank.iter().filter_map(|blank| {
        let text = sheet.said.typed.get(&blank.key)?;
        Some((blank.key.as_str(), text.as_str()))
    });
    let (readings, faults) = match Readings::read(name, typed, &tank.units) {
        Ok(readings) => (readings, Faults::new()),
        Err(faults) => (Readings::default(), faults),
    };
    let worked = (faults.0.is_empty() && readings.complete(name)).then(|| work(name, tank, &readings));
    html! {
        (opening(sheet, protocol, worked.as_ref()))
        @if let Some(Ok(worked)) = &worked { (follows(sheet, worked)) }
        // What is done is done: the protocol would only stand in the way of the number.
        @if !matches!(worked, Some(Ok(_))) {
            (before(sheet, tank, name, protocol, &readings))
            (steps(sheet, protocol))
        }
        (typing(sheet, name, protocol, &faults))
    }
}

/// The answer first: what was measured, or the question.
fn opening(sheet: &Sheet, protocol: &Measure, worked: Option<&Result<Worked, Fault>>) -> Markup {
    let dateline = html! { (sheet.today.words()) " · " (protocol.name) };
    match worked {
        Some(Ok(worked)) => {
            let main = worked.values.iter().find(|value| value.field.is_some());
            let answer = html! {
                @match main {
                    Some(value) => { (capital(&value.label)) ": " (shown(sheet, value)) "." },
                    // A verdict is no number: the first thing that is said of it.
                    None => { (protocol.asks) " " (worked.says.first().map_or("", String::as_str)) },
                }
            };
            sheet.opening(dateline, answer, html! {})
        }
        Some(Err(fault)) => {
            let under = html! { p.really { (parts::fault(fault)) } };
            sheet.opening(dateline, html! { (protocol.asks) }, under)
        }
        _ => sheet.opening(dateline, html! { (protocol.asks) }, html! {}),
    }
}

fn shown(sheet: &Sheet, value: &Value) -> Markup {
    let unit = glued(&value.unit);
    let (first, rest) = unit.split_once(' ').unwrap_or((&unit, ""));
    let out = sheet.out(&format!("{}{NB}{first}", level(&sheet.units, value.known.value)), &value.why);
    html! { (out) @if !rest.is_empty() { " " (rest) } }
}

/// What the readings come to, and the way into the setup.
fn follows(sheet: &Sheet, worked: &Worked) -> Markup {
    let range = |known: &Known<f64>| {
        if known.low < known.high { format!(", {}", likely(&sheet.units, known)) } else { String::new() }
    };
    let take: Vec<String> = worked.texts().into_iter().map(|(field, text)| format!("{field}={text}")).collect();
    sheet.verse(
        "What follows",
        html! {
            @for value in &worked.values {
                p { (capital(&value.label)) ": " (shown(sheet, value)) (range(&value.known)) "." }
            }
            @for flag in &worked.flags {
                p { (capital(&flag.label)) ": " b { @if flag.yes { "yes" } @else { "no" } } "." }
            }
            @for says in &worked.says { p { (glued(says)) } }
            @if worked.writes() {
                p.take { button.send name="take" value=(take.join(";")) { "Take it as measured" } }
                p.small { "It goes into your book as measured, and every number that hangs on it follows. It can be undone." }
            }
        },
    )
}

/// Grams and days of the cuts in the log: what grew from the first of them to the last. `None`: fewer than two were weighed.
fn of_the_log(sheet: &Sheet) -> Option<(f64, f64)> {
    let weighed: Vec<(i64, f64)> = sheet
        .log
        .iter()
        .filter_map(|kept| match kept.entry.what {
            What::Trim { wet_grams: Some(grams) } => Some((kept.entry.at.timestamp().as_second(), grams)),
            _ => None,
        })
        .collect();
    let first = weighed.iter().map(|(at, _)| *at).min()?;
    let last = weighed.iter().map(|(at, _)| *at).max()?;
    // The first cut only makes the picture from which the rest grew.
    let grams: f64 = weighed.iter().filter(|(at, _)| *at > first).map(|(_, grams)| grams).sum();
    let days = ((last - first) as f64 / DAY_S).round();
    (days >= 1.0 && grams > 0.0).then_some((grams, days))
}

/// The cuts of the log as readings, by one link.
fn from_log(sheet: &Sheet, name: Name) -> Markup {
    let Some((grams, days)) = of_the_log(sheet).filter(|_| name == Name::Trimmings) else { return html! {} };
    let to = format!("{}?{WHICH}={}&grams={grams}&days={days}", sheet.letter("measure"), name.key());
    html! {
        p {
            "Your log has " (level(&sheet.units, grams)) " g that grew in " (level(&sheet.units, days)) " days, from the first cut to the last: "
            a href=(to) { "work it out with them" } "."
        }
    }
}

/// Rules, and what this tank's own numbers say, before anything is done.
fn before(sheet: &Sheet, tank: &Tank, name: Name, protocol: &Measure, readings: &Readings) -> Markup {
    let harm = &book().harm;
    let own = brief(name, tank, readings);
    sheet.verse(
        "Before you begin",
        html! {
            p { "At hand: " (glued(&protocol.at_hand.join("; "))) "." }
            @if !own.is_empty() { div.must { @for says in &own { p { (glued(says)) } } } }
            @for key in &protocol.cautions { @if let Some(say) = harm.say(key) { p { (glued(say)) } } }
        },
    )
}

fn steps(sheet: &Sheet, protocol: &Measure) -> Markup {
    sheet.verse(
        "Step by step",
        html! {
            ol.steps { @for step in &protocol.steps { li { (glued(step)) } } }
            p.small { (glued(&protocol.note)) }
        },
    )
}

fn typing(sheet: &Sheet, name: Name, protocol: &Measure, faults: &Faults) -> Markup {
    sheet.verse(
        "What you read",
        html! {
            input type="hidden" name=(WHICH) value=(name.key());
            (from_log(sheet, name))
            @for blank in &protocol.blank { p.typed { (one(sheet, blank, faults)) } }
            p { button.send formmethod="get" name="do" value="read" { "Work it out" } }
            p { a href=(format!("{}?{WHICH}={}", sheet.letter("measure"), name.key())) { "The protocol from the beginning" } "." }
            p.small {
                "± is what such an instrument is off at most in 90 of 100 readings; if you know yours better write it behind the number: 412 ± 2."
            }
        },
    )
}

/// One reading: its name, the place to type, unit and error, and what is wrong with it.
fn one(sheet: &Sheet, blank: &MeasureBlank, faults: &Faults) -> Markup {
    let (unit, error) = (Readings::unit(blank, &sheet.units), Readings::error(blank, &sheet.units));
    let choices = Readings::choices(blank);
    let typed = sheet.typed(&blank.key, "");
    let fault = faults.0.iter().find(|fault| fault.place.field.as_deref() == Some(blank.key.as_str()));
    let id = format!("about-{}", blank.key);
    let says = format!("{}{}{unit}", capital(&blank.says), if unit.is_empty() { "" } else { ", " });
    let (invalid, about) = (fault.map(|_| "true"), fault.map(|_| id.as_str()));
    html! {
        (capital(&blank.says)) @if blank.optional { " (may stay empty)" } ": "
        @if choices.is_empty() {
            input.reading name=(blank.key) value=(typed) inputmode="decimal" size="7" autocomplete="off" aria-label=(says) aria-invalid=[invalid] aria-describedby=[about];
            " " span.nb { (unit) " " span.small { (error) } }
        } @else {
            select.reading name=(blank.key) aria-label=(says) aria-invalid=[invalid] aria-describedby=[about] {
                @for [key, words] in &choices { option value=(key) selected[*key == typed] { (words) } }
            }
        }
        @if let Some(fault) = fault {
            " " span.really id=(id) { (parts::fault(fault)) }
        }
    }
}
