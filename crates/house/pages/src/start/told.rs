//! Parts that Start and Away share: steps with their notes, numbers that are asked for once and not kept, the open question.

use maud::{Markup, html};
use quantity::{Fault, Why};
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
fn wrong(sheet: &Sheet, field: &str) -> Option<String> {
    let text = sheet.said.typed.get(field).map(|text| text.trim()).filter(|text| !text.is_empty())?;
    if let Some(refused) = sheet.said.refused.get(field) {
        return Some(refused.fault.clone());
    }
    let readable = match field {
        "bag_temperature" => {
            let t = quantity::amount::Temperature::parse_in(text, &sheet.units).map(|t| t.in_celsius());
            t.ok().filter(|c| (0.0..=40.0).contains(c))
        }
        "leaving" => text.parse::<jiff::civil::Date>().ok().map(|_| 0.0),
        name if name.starts_with("tap_") => return None,
        "bag_ph" => number(text, 4.0, 10.0).ok(),
        _ => number(text, 0.0, 10_000.0).ok(),
    };
    readable.is_none().then(|| format!("“{text}” I can’t read, so I leave it out."))
}

fn number(text: &str, low: f64, high: f64) -> Result<f64, Fault> {
    let value = quantity::parse_number(text)?;
    let inside = value.is_finite() && value >= low && value <= high;
    if inside { Ok(value) } else { Err(Fault::new(format!("{text} is no number between {low} and {high}"))) }
}

/// A number that was typed into a field; nothing typed is no fault.
///
/// # Errors
/// No number, or none between the two.
pub fn number_told(sheet: &Sheet, field: &str, low: f64, high: f64) -> Result<Option<f64>, Fault> {
    let text = sheet.said.typed.get(field).map(|text| text.trim()).filter(|text| !text.is_empty());
    text.map(|text| number(text, low, high)).transpose()
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
