//! Whether a reading says what it is counted in.

use knowledge::{Counts, ReadingRow, book};
use quantity::basis::needs_basis;
use quantity::hardness::format_hardness;
use quantity::{Digits, Fault, Measure, Place, Temperature, Units, format_number, parse_number};

use crate::written::Texts;

/// Whether an amount says what it is counted in, where nobody beside it names the unit: a bare 12 of nitrate may be nitrate
/// or nitrogen, a bare 8 of hardness any of eight things. The example that the fault gives is in the
/// keeper's unit.
///
/// # Errors
/// A reading that can be counted in more than one way, as a bare number.
pub fn settled(texts: &Texts, units: &Units) -> Result<(), Fault> {
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
            .expected(format!("{} with its unit, for instance {}", row.name, example(row, text("amount"), units)))
            .hint("the packet of the kit says what it counts; the readings differ much")
            .at(Place::field("amount"))),
    }
}

/// A reading as the keeper could write it: the middle of what is usual in their unit; of an ion the number that was typed,
/// where that is usual.
fn example(row: &ReadingRow, typed: &str, units: &Units) -> String {
    let middle = 0.5 * (row.is.usual_low + row.is.usual_high);
    let usual = |number: &f64| (row.is.usual_low..=row.is.usual_high).contains(number);
    match row.how {
        Counts::Temperature => Temperature::celsius(middle).print_with(units, Digits::Decimals(0)),
        Counts::Alkalinity => format_hardness(middle, Measure::Alkalinity, units),
        Counts::Hardness => format_hardness(middle, Measure::Hardness, units),
        _ => {
            let number = parse_number(typed).ok().filter(usual).unwrap_or(middle);
            format!("{} {}", format_number(number, Digits::Significant(2)), row.is.unit)
        }
    }
}
