//! Tank: a letter about the glass, what stands on it, who lives in it, and what was assumed.

mod assumed;
mod first;
mod gear;
mod glass;
mod living;

use maud::{Markup, html};
use quantity::{Kind, Known};
use recipe::{Answer, Plan};
use setup::{Setup, Tank};

use crate::blank::Blank;
use crate::drawing::section::{Section, section};
use crate::parts;
use crate::sheet::{Sheet, first_tank};
use crate::words::{glued, litres_of};

/// How well a field is known: as assumed as the list of assumptions says, else told.
fn kind(tank: &Tank, field: &str) -> Kind {
    tank.assumed
        .iter()
        .find(|assumption| assumption.field == field)
        .map_or(Kind::Measured, |assumption| assumption.kind)
}

/// The blanks of this letter.
pub fn blanks(setup: &Setup, tank: &Tank, _plan: &Plan) -> Vec<Blank> {
    let inside = setup.inside();
    // Where a letter has a better blank for a field, that one wins: it stands later in the list.
    let mut all = assumed::blanks(tank, inside);
    all.extend(glass::blanks(tank, inside));
    all.extend(living::blanks(setup, tank));
    all.extend(gear::blanks(setup, tank));
    all
}

/// A blank of a bare number of the tank.
fn exact(tank: &Tank, field: &str, value: f64) -> Option<Blank> {
    Blank::of(field, Known::exact(value, kind(tank, field)), &tank.units)
}

/// The verses. Nothing of the tank itself hangs on an open question, so it is told whatever is open.
pub fn write(sheet: &Sheet) -> Markup {
    let Some(tank) = first_tank(sheet.answer) else {
        return sheet.opening(html! { (sheet.today.words()) }, html! { "One question first." }, slip(sheet));
    };
    html! {
        (opening(sheet, tank))
        (first::verse(sheet, tank))
        (drawn(sheet, tank))
        (glass::glass(sheet, tank))
        (glass::weight(sheet, tank))
        (living::animals(sheet, tank))
        (living::growth(sheet, tank))
        (gear::verse(sheet))
        (living::habits(sheet))
        (living::hands(sheet))
        (assumed::verse(sheet, tank))
        (crate::more::verse(sheet, "tank"))
    }
}

fn slip(sheet: &Sheet) -> Markup {
    let (Some(question), Answer::Open { .. }) = (sheet.question(), sheet.answer) else { return html! {} };
    html! {
        @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
        (parts::question(question, &[]))
    }
}

fn opening(sheet: &Sheet, tank: &Tank) -> Markup {
    let g = &tank.geometry;
    let (truly, nominal) = (litres_of(&sheet.units, g.true_l.value), litres_of(&sheet.units, g.nominal_l));
    let name = if tank.name.is_empty() { "your tank" } else { tank.name.as_str() };
    sheet.opening(
        html! { (sheet.today.words()) " · " (name) },
        html! {
            @if glass::untold(tank) {
                "Nobody has told me the size of your glass. Measure it before you dose anything: until then " (truly) " of water are a guess."
            } @else {
                "Your tank holds " (truly) " of water, not the " (nominal) " that its glass would. All doses in this book are for " (truly) "."
            }
        },
        slip(sheet),
    )
}

fn drawn(sheet: &Sheet, tank: &Tank) -> Markup {
    let inside = sheet.setup.inside();
    let s = Section::of(tank, inside);
    let rows = [
        ("rim of the glass", s.height),
        ("waterline", s.water),
        ("ground at the back", s.back),
        ("ground at the front", s.front),
        ("length inside", s.length),
        ("front to back inside", s.width),
    ];
    sheet.verse_as(
        "across",
        "In section",
        html! {
            figure.cuts {
                (section(&s))
                figcaption {
                    @if glass::untold(tank) { "This glass is a guess, of middling size, until you have measured yours. " }
                    "Both to the same scale; the numbers at the glass count up from its floor. " (glued(&s.stands()))
                }
            }
            details.more { summary { "The drawing as a table" } div.scroll tabindex="0" role="region" aria-label="The drawing as a table" {
                table.narrow {
                    caption { "Heights from the floor of the glass." }
                    tbody { @for (what, mm) in rows { tr { th scope="row" { (what) } td.n { (s.shown(mm)) } } }
                        tr { th scope="row" { "thickness of the glass" } td.n { (s.thick()) } }
                        @for (what, litres) in [("stones", s.rock_l), ("wood", s.wood_l)] { @if litres > 0.0 {
                            tr { th scope="row" { (what) } td.n { (litres_of(&sheet.units, litres)) } }
                        } }
                    }
                }
            } }
        },
    )
}
