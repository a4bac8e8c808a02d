//! Parts that Start and Away share: steps with their notes, numbers that are asked for once and not kept, the open question.

use maud::{Markup, html};
use quantity::Why;
use recipe::Note;

use crate::parts;
use crate::sheet::Sheet;
use crate::words::{NB, capital, glued, sentence, unit_in_words};

/// Notes as a list: their heads bold, the why-note of a number behind its sentence.
pub fn list_of(sheet: &Sheet, notes: &[Note], whys: &[Why], ordered: bool) -> Markup {
    let item = |note: &Note| html! { li { (one(sheet, note, whys)) } };
    html! {
        @if ordered { ol.steps { @for note in notes { (item(note)) } } }
        @else { ul.plain { @for note in notes { (item(note)) } } }
    }
}

fn one(sheet: &Sheet, note: &Note, whys: &[Why]) -> Markup {
    let why = note.key.as_ref().and_then(|key| whys.iter().find(|why| why.key == *key));
    html! { b { (capital(&glued(&note.about))) "." } " " (sentence(&note.text)) (sheet.why(why)) }
}

/// A field that is read and not kept, with its unit and what is wrong with what was typed.
pub fn ask(sheet: &Sheet, field: &str, says: &str, unit: &str, usual: &str) -> Markup {
    let shown = sheet.typed(field, usual);
    let spoken = unit_in_words(unit);
    let label = if spoken.is_empty() { says.to_owned() } else { format!("{says}, {spoken}") };
    let tail = if unit.is_empty() { String::new() } else { format!("{NB}{}", glued(unit).replace(' ', NB)) };
    let fault = wrong(sheet, field);
    let about = format!("about-{}", field.replace('_', "-"));
    html! {
        span.nb {
            input.once name=(field) value=(shown) size="6" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="go"
                aria-label=(label) aria-invalid=[fault.is_some().then_some("true")] aria-describedby=[fault.is_some().then_some(&about)];
            (tail)
        }
        @if let Some(fault) = fault { " " span.really id=(about) { (fault) } }
    }
}

/// What is wrong with a number that was typed.
fn wrong(sheet: &Sheet, field: &str) -> Option<Markup> {
    let text = sheet.said.typed.get(field).map(|text| text.trim()).filter(|text| !text.is_empty())?;
    if let Some(refused) = sheet.said.refused.get(field) {
        return Some(parts::faults(&refused.faults));
    }
    let readable = match field {
        "bag_temperature" => {
            let t = quantity::amount::Temperature::parse_in(text, &sheet.units).map(|t| t.in_celsius());
            t.is_ok_and(|c| (0.0..=40.0).contains(&c))
        }
        "leaving" => text.parse::<jiff::civil::Date>().is_ok(),
        name if name.starts_with("tap_") => return None,
        _ => match quantity::parse_number(text) {
            Err(_) => false,
            Ok(_) if number_told(sheet, field).is_some() => true,
            Ok(_) => return Some(html! { (beyond(sheet, field, text)) }),
        },
    };
    let like = match field {
        "bag_temperature" => "a temperature such as 24 °C",
        "leaving" => "a day such as 2026-06-14: year, month, day",
        _ => "a number such as 14 or 0.5",
    };
    (!readable).then(|| html! { "“" (text) "” I can’t read, so I leave it out. I expected " (like) "." })
}

/// A number that I can't answer for: said, never cut to one that I can.
fn beyond(sheet: &Sheet, field: &str, text: &str) -> String {
    let (low, high) = ends(field);
    let n = |value: f64| crate::words::figures(&sheet.units, value, 5);
    let then = match field {
        "days" => ": for longer somebody must keep the tank by Care, or go in parts and come home between",
        "missed" => ": after longer test what the plan doses, and begin with Care",
        "times" => ": beyond that read Help now, “I gave far too much from a bottle”",
        _ => "",
    };
    format!("“{text}” I did not take, and reckon without it: I can answer for {} to {}{then}.", n(low), n(high))
}

/// Between which numbers a field is answered.
fn ends(field: &str) -> (f64, f64) {
    match field {
        "days" => (1.0, f64::from(care::away::Ask::most_days())),
        "light" => (1.0, 24.0),
        "missed" => (0.0, f64::from(care::away::Ask::most_days())),
        "times" => (1.0, 1000.0),
        "bag_ph" => (4.0, 10.0),
        "bag_ammonia" => (0.0, 100.0),
        _ => (0.0, 10_000.0),
    }
}

/// A number that was typed into a field; `None`: nothing typed, nothing that can be read, or none that can be answered for,
/// which [`ask`] says beside its field.
pub fn number_told(sheet: &Sheet, field: &str) -> Option<f64> {
    let value = quantity::parse_number(sheet.said.typed.get(field)?.trim()).ok()?;
    let (low, high) = ends(field);
    (low..=high).contains(&value).then_some(value)
}

/// The open question under the answer; what hangs on it stands under each reply.
pub fn slip(sheet: &Sheet) -> Markup {
    let Some(question) = sheet.question() else { return html! {} };
    html! {
        @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
        (parts::question(question, &[]))
    }
}

/// The whole letter while the sizes of the glass are not told.
pub fn missing_glass(sheet: &Sheet, says: &str) -> Option<Markup> {
    let question = sheet.question().filter(|question| question.field.starts_with("glass."))?;
    let way = html! { p { "Its sizes stand on " a href=(sheet.letter("tank")) { "Tank" } ": measure once, write them there, and come back." } };
    let under = html! { (parts::question(question, &[way])) };
    Some(sheet.opening(html! { (sheet.today.words()) }, html! { (says) }, under))
}
