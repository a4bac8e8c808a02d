//! Sheets and sums as plain text, for a terminal or a printer.

use quantity::{Digits, format_number};

use crate::sheet::{Item, Sheet, sheets};
use crate::toxic::{AmmoniaRow, AmmoniaTable};
use crate::worked::Worked;

/// Columns of a line.
const WIDTH: usize = 78;

/// A whole sheet.
pub fn sheet_text(sheet: &Sheet) -> String {
    let mut out = format!("{}\n\n", sheet.title.to_uppercase());
    people(&mut out, &sheet.first);
    wrap(&mut out, "", &sheet.then);
    out.push('\n');
    for (i, step) in sheet.steps.iter().enumerate() {
        wrap(&mut out, &format!("{}. ", i + 1), &step.head);
        step.says.iter().for_each(|sentence| wrap(&mut out, "   ", sentence));
    }
    out.push('\n');
    people(&mut out, &sheet.last);
    if let Some(table) = &sheet.table {
        out += &ammonia(table);
    }
    for (head, list) in [("HOW TO FIND OUT", &sheet.find_out), ("HOW TO PREVENT IT", &sheet.prevent)] {
        out += &format!("{head}\n");
        list.iter().for_each(|sentence| wrap(&mut out, "- ", sentence));
        out.push('\n');
    }
    wrap(&mut out, "", &format!("The steps: {}.", sheet.sources.join("; ")));
    out
}

/// The other troubles: their names for the command line, with the first acts.
pub fn list_text() -> String {
    let mut out = String::from("SOMETHING ELSE: tapmere help-now NAME\n\n");
    for sheet in sheets().iter().skip(1) {
        wrap(&mut out, &format!("{:<16}", sheet.key), &sheet.title);
    }
    out
}

/// The first sheet whole, then the list.
pub fn all_text() -> String {
    sheets().first().map_or_else(String::new, sheet_text) + "\n" + &list_text()
}

/// What a tank gives.
pub fn worked_text(worked: &Worked, explain: bool) -> String {
    let mut out = String::new();
    if !worked.causes.is_empty() {
        out += "WHAT SPEAKS FOR A CAUSE, THE LIKELIEST FIRST\n";
        for (i, cause) in worked.causes.iter().enumerate() {
            wrap(&mut out, &format!("{}. ", i + 1), &format!("{}. {} {}", cause.title, cause.because, cause.check));
        }
        out.push('\n');
    }
    for sum in &worked.sums {
        wrap(&mut out, "* ", &format!("{} ({})", sum.head, sum.urgency.words()));
        sum.says.iter().for_each(|sentence| wrap(&mut out, "  ", sentence));
        if explain {
            wrap(&mut out, "  Why? ", &format!("{}. {}", sum.why.sum, sum.why.words));
        }
    }
    if !worked.asks.is_empty() {
        let asks: Vec<String> = worked.asks.iter().map(|ask| format!("{}=\"{}\"", ask.key, ask.example)).collect();
        out.push('\n');
        wrap(&mut out, "", &format!("Readings that sharpen this, with --read: {}", asks.join(", ")));
    }
    out
}

fn people(out: &mut String, items: &[Item]) {
    for item in items {
        wrap(out, "! ", &format!("{} {}", item.head, item.says.join(" ")));
    }
    if !items.is_empty() {
        out.push('\n');
    }
}

fn ammonia(table: &AmmoniaTable) -> String {
    let cell = |value: f64| format!("{:>9}", format_number(value, Digits::Significant(2)));
    let head: String = table.temperatures_c.iter().map(|c| format!("{:>9}", format!("{c:.0} °C"))).collect();
    let block = |name: &str, rows: &[AmmoniaRow]| {
        let lines: String = rows
            .iter()
            .map(|(ph, cells)| format!("{ph:>5.2}{}\n", cells.iter().map(|value| cell(*value)).collect::<String>()))
            .collect();
        format!("{name}\n   pH{head}\n{lines}\n")
    };
    let mut out = String::from("ALL AMMONIA (mg/L AS N) AT WHICH HARM STARTS\n");
    wrap(
        &mut out,
        "",
        &format!(
            "pH as you read it: it is worth {} either way, and the upper end is counted in.",
            format_number(table.ph_error, Digits::Significant(2))
        ),
    );
    out.push('\n');
    out += &block("With snails or mussels, or you don’t know", &table.rows);
    out + &block("Fish alone", &table.fish_rows)
}

/// Words in lines of [`WIDTH`] columns; the first begins with `lead`, the others hang under it.
fn wrap(out: &mut String, lead: &str, words: &str) {
    let hang = " ".repeat(lead.chars().count());
    let (mut line, mut empty) = (lead.to_owned(), true);
    for word in words.split(' ') {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            (line, empty) = (hang.clone(), true);
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(&word.replace('\u{a0}', " "));
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
