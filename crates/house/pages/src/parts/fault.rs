//! A fault as one says it to a keeper: sentences of what is wrong, what was expected and how to mend it. Where it stands is
//! said only of a text of several lines; a fault of a field stands beside it.

use maud::{Markup, html};
use quantity::{Fault, Faults, Place};

use crate::sheet::whole;
use crate::words::capital;

/// One fault, with the line of the text that is meant.
pub fn fault(fault: &Fault) -> Markup {
    let mark = fault.place.column.zip(fault.place.width);
    html! {
        span.fault {
            (place(&fault.place)) (closed(&capital(&fault.what)))
            @if let Some(excerpt) = &fault.place.excerpt {
                code.excerpt { (excerpt) @if let Some((column, width)) = mark { "\n" (" ".repeat(column.saturating_sub(1))) ("^".repeat(width)) } }
            }
            (mend(fault))
        }
    }
}

/// Faults, one under the other.
pub fn faults<'f>(all: impl IntoIterator<Item = &'f Fault>) -> Markup {
    html! { @for one in all { (fault(one)) } }
}

/// The same as a text, for a sentence that stands on top of a page.
pub fn in_words(fault: &Fault) -> String {
    format!("{}{}{}", place(&fault.place), closed(&capital(&fault.what)), mend(fault))
}

/// Faults of a setup that stand beside a field of a form: nobody sees the text in which they stand, so a fault of another field
/// is told by that field's name.
pub fn beside(field: &str, faults: Faults) -> Vec<Fault> {
    let one = |fault: Fault| {
        let other = fault.place.field.as_deref().map(whole).filter(|other| *other != whole(field));
        let what = match other.and_then(setup::field_of) {
            Some(table) => format!("{}: {}", capital(&table.label), fault.what),
            None => fault.what,
        };
        Fault { what, place: Box::default(), ..fault }
    };
    faults.0.into_iter().map(one).collect()
}

/// "In tank.toml, line 3, character 11, at `glass.inner_length`: ", where it stands in a text.
fn place(place: &Place) -> String {
    let Some(line) = place.line else { return String::new() };
    let text = place.file.as_deref().map(|file| format!("in {file}, line")).unwrap_or_else(|| "line".to_owned());
    let column = place.column.map(|column| format!(", character {column}")).unwrap_or_default();
    let field = place.field.as_deref().map(|field| format!(", at `{field}`")).unwrap_or_default();
    capital(&format!("{text} {line}{column}{field}: "))
}

/// What was expected, and how to mend it. Amounts stand as they are typed, so nothing is set finer here.
fn mend(fault: &Fault) -> String {
    let expected = fault.expected.as_deref().map(|text| format!(" I expected {}", closed(text)));
    let hint = fault.hint.as_deref().map(|text| format!(" {}", closed(&capital(text))));
    expected.unwrap_or_default() + &hint.unwrap_or_default()
}

fn closed(text: &str) -> String {
    let text = text.trim();
    if text.ends_with(['.', '?', '!', ':']) || text.is_empty() { text.to_owned() } else { format!("{text}.") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_is_sentences_and_no_report_of_a_machine() {
        let one = Fault::new("`28` has no unit").expected("a number with its unit").hint("write \"28 mg/L NO3\"");
        assert_eq!(in_words(&one), "`28` has no unit. I expected a number with its unit. Write \"28 mg/L NO3\".");
        let text = "[tap]\nph = \"a lot\"\n";
        let at = Fault::new("this is no number").at(Place::in_text("tank.toml", text, 11..18).named("tap.ph"));
        assert_eq!(in_words(&at), "In tank.toml, line 2, character 6, at `tap.ph`: This is no number.");
        assert!(fault(&at).into_string().contains("ph = &quot;a lot&quot;\n     ^^^^^^^</code>"));
    }
}
