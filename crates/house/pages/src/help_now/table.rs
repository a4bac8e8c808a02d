//! Where harm of ammonia starts, as a table that needs no tank.

use maud::{Markup, html};
use quantity::{Digits, format_number};
use trouble::AmmoniaTable;

/// All ammonia at which harm starts, by pH and temperature.
pub fn ammonia(table: &AmmoniaTable) -> Markup {
    let n = |value: f64, figures: u8| format_number(value, Digits::Significant(figures));
    html! {
        table.harm-table {
            caption { "All ammonia, in mg/L as N, at which harm starts: its toxic share reaches " (n(table.limit_mg_n_per_l, 2)) " mg/L" }
            thead { tr {
                th scope="col" { "pH" }
                @for c in &table.temperatures_c { th scope="col" { (n(*c, 3)) "\u{a0}°C (" (n(1.8 * c + 32.0, 3)) "\u{a0}°F)" } }
            } }
            tbody {
                @for (ph, cells) in &table.rows {
                    tr { th scope="row" { (n(*ph, 3)) } @for cell in cells { td { (n(*cell, 2)) } } }
                }
            }
        }
        p.small { "A kit that shows NH4: as N it is three quarters of that. Snails and mussels bear less below pH 7.5." }
    }
}
