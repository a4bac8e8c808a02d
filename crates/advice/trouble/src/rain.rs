//! Water of low minerals or clean rain: the way out where the tap is none.
//!
//! What: it thins what harms and does not raise pH; a tenth a day, which is what conductivity bears (harm rule 6). Source: common practice.
//! Checked by: `tests/by_hand_remedy.rs`.

use crate::case::Case;

/// The sentence.
pub(crate) fn low_minerals(case: &Case) -> String {
    let pen = case.pen();
    let tenth = case.book().harm.limit.conductivity_step_percent.value() / 100.0;
    let litres = case.litres().map_or_else(String::new, |all| format!(" ({})", pen.litres(tenth * all)));
    format!(
        "water of low minerals or clean rain, as warm as the tank, {}{litres} a day, which is what conductivity bears, again after an hour \
         only where animals gasp or lie: it thins what harms and does not raise pH.",
        pen.percent(tenth)
    )
}
