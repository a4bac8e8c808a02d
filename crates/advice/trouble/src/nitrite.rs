//! Where nitrite harms in this water.
//!
//! What: gills take up nitrite where they look for chloride, so the limit hangs on chloride.
//! Source: `nordin_pommen_2009`, from memory. Range: fresh water; some fish without that pump bear more.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use quantity::{Digits, Ion, format_number};
use recipe::say::two_figures_down;

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::most::{Why, most, most_at_once, no_change, often, stops_because};
use crate::rain::low_minerals;
use crate::remedy::air_stays;
use crate::sum::{Sum, Urgency};
use crate::toxic::bears_aired;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let Some(nitrite) = case.told.get("nitrite").filter(|nitrite| *nitrite > 0.0) else { return Vec::new() };
    // Little chloride is the bad end.
    let chloride = case.tank_water().mg_per_l(Ion::Chloride).low;
    let rows = &case.book().troubles.nitrite;
    let Some(row) = rows.iter().rev().find(|row| chloride >= row.chloride_from_mg_per_l) else { return Vec::new() };
    let most = most_at_once(case);
    let (urgency, words) = match nitrite {
        x if x >= row.once_mg_n_per_l => (Urgency::AtOnce, "it harms now"),
        x if x >= row.long_mg_n_per_l => (Urgency::AtOnce, "it harms if it stays for days"),
        _ => (Urgency::LeaveItBe, "no harm is known below that"),
    };
    let head = format!("Nitrite {} mg/L (as N): {words}", n(nitrite));
    let arithmetic = format!(
        "chloride {} mg/L at least: harm starts at {} mg/L (as N) over days, at {} at any time",
        n(chloride),
        n(row.long_mg_n_per_l),
        n(row.once_mg_n_per_l)
    );
    let why = "Gills take nitrite where they look for chloride: the more chloride, the less of it gets in.";
    let sum = Sum::new("nitrite", urgency, head, arithmetic, why, &[&row.source])
        .figure("nitrite_mg_n_per_l", nitrite)
        .figure("harm_from_mg_n_per_l", row.long_mg_n_per_l);
    if case.told.is_old("nitrite") && urgency == Urgency::LeaveItBe {
        return Vec::new();
    }
    let sum = match case.told.anew("nitrite", "nitrite, ammonia and pH") {
        Some(first) => sum.say(first),
        None => sum,
    };
    let sum = match case.told.guessed_basis("nitrite") {
        true => sum.say("You did not say how your kit counts: taken as N, the bad end."),
        false => sum,
    };
    let Some(changes) = changes_needed(nitrite, row.long_mg_n_per_l, if most > 0.0 { most } else { 1.0 })
        .filter(|changes| *changes > 0)
    else {
        return vec![sum.say("Little food, test again tomorrow.")];
    };
    let sum = sum.figure("changes", f64::from(changes)).say(match air_stays(case) {
        Some(says) => {
            format!("No food. Blood that carries nitrite carries less oxygen: watch how they breathe. {says}")
        }
        None => "No food, air on: blood that carries nitrite carries less oxygen.".to_owned(),
    });
    if no_change(case) {
        return vec![sum.say(format!(
            "No change with this water, because of {}, though harm starts at {} mg/L (as N). Instead: {} Test again each day.",
            stops_because(case),
            n(row.long_mg_n_per_l),
            low_minerals(case)
        ))];
    }
    vec![thinned(case, sum, changes, row.long_mg_n_per_l)]
}

/// The changes, or what is quicker than many of them.
fn thinned(case: &Case, sum: Sum, changes: u32, from: f64) -> Sum {
    let (pen, (share, hours, why)) = (case.pen(), most(case));
    let litres = case.poured(share);
    let below = format!("it is below {} mg/L (as N), where harm starts", n(from));
    let how = "as warm as the tank, with conditioner. Test ammonia first: with harder water it gets more toxic.";
    if matches!(why, Why::Old | Why::Gone | Why::MayBeGone) {
        return sum.act_of_change(format!("Change {}{litres}, {how} {}", pen.percent(share), often(case, &below)));
    }
    let times = match (changes, hours) {
        (1, _) => "once".to_owned(),
        (_, Some(hours)) => format!("{changes} times, {} hours apart or more", n(hours)),
        (_, None) => format!("{changes} times, some hours apart"),
    };
    let sum = sum.act_of_change(format!("Change {}{litres}, {times}, {how} Then {below}.", pen.percent(share)));
    if f64::from(changes) <= case.book().recipe.slip.changes_most.value {
        return sum;
    }
    let half = case.numbers().most_at_once_percent.value / 100.0;
    let sum = match bears_aired(case).filter(|_| matches!(why, Why::Plan | Why::Water)) {
        Some(bears) => sum.figure("bucket_mg_n_per_l", bears / half).say(format!(
            "That is slow, and it is so small because this tap may bring {} mg/L of ammonia (as N). Test a bucket of new water, conditioner in it: \
             below {} mg/L, half at once brings no ammonia that is known to harm. Tell me the reading, as ammonia of the new water.",
            n(case.brought_n()),
            n(two_figures_down(bears / half))
        )),
        None => sum,
    };
    sum.say(format!("Beside it: {}", low_minerals(case)))
}
