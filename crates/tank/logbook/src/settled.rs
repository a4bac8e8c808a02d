//! Whether a reading says what it is counted in.

use knowledge::{Counts, book};
use quantity::basis::needs_basis;
use quantity::{Fault, Place, parse_number};

use crate::written::Texts;

/// Whether an amount says what it is counted in, where nobody beside it names the unit: a bare 12 of nitrate may be nitrate
/// or nitrogen, a bare 8 of hardness any of eight things.
///
/// # Errors
/// A reading that can be counted in more than one way, as a bare number.
pub fn settled(texts: &Texts) -> Result<(), Fault> {
    let text = |name: &str| texts.get(name).map_or("", |text| text.trim());
    let bare = || parse_number(text("amount").trim_start_matches(['<', '>', '~', ' '])).is_ok();
    if text("kind") != "test" || !text("unit").is_empty() || !bare() {
        return Ok(());
    }
    let of = text("what");
    let row = book().readings.iter().find(|(key, row)| *key == of || row.name.eq_ignore_ascii_case(of));
    let several = row.filter(|(_, row)| match row.how {
        Counts::Ion | Counts::Element => row.ion.is_some_and(needs_basis),
        Counts::Alkalinity | Counts::Hardness | Counts::Temperature => true,
        _ => false,
    });
    match several {
        None => Ok(()),
        Some((_, row)) => Err(Fault::new(format!("{} of what? The number says no unit", text("amount")))
            .expected(format!("{} with its unit, for instance {} {}", row.name, text("amount"), row.is.unit))
            .hint("the packet of the kit says what it counts; the readings differ much")
            .at(Place::field("amount"))),
    }
}
