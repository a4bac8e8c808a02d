//! Where harm of ammonia starts, as a table that needs no tank.

use maud::{Markup, html};
use quantity::{Digits, format_number};
use trouble::{AmmoniaRow, AmmoniaTable};

/// All ammonia at which harm starts, by pH and temperature: with snails or nobody knows, and for fish alone.
pub fn ammonia(table: &AmmoniaTable) -> Markup {
    html! {
        (rows(table, "With snails or mussels, or you don’t know: all ammonia, in mg/L as N, at which harm starts", &table.rows))
        (rows(table, &format!("Fish alone: the share of it that harms at once (NH₃) reaches {} mg/L", n(table.limit_mg_n_per_l, 2)), &table.fish_rows))
        p.small {
            "pH as you read it: it is worth " (n(table.ph_error, 2)) " either way, and the upper end is counted in. A kit that shows NH4: as N it is three \
             quarters of that."
        }
    }
}

fn n(value: f64, figures: u8) -> String {
    format_number(value, Digits::Significant(figures))
}

fn rows(table: &AmmoniaTable, caption: &str, rows: &[AmmoniaRow]) -> Markup {
    html! {
        table.harm-table {
            caption { (caption) }
            thead { tr {
                th scope="col" { "pH" }
                @for c in &table.temperatures_c { th scope="col" { (n(*c, 3)) "\u{a0}°C (" (n(1.8 * c + 32.0, 3)) "\u{a0}°F)" } }
            } }
            tbody {
                @for (ph, cells) in rows {
                    tr { th scope="row" { (n(*ph, 3)) } @for cell in cells { td { (n(*cell, 2)) } } }
                }
            }
        }
    }
}
