//! The change of water: its litres and buckets, and what limits its share.
//!
//! What: litres = share × true litres, in as few buckets as the largest that one should carry allows.
//! Limits (with animals): an old acid tank that was long unchanged gets a tenth (harm rule 8); the ammonia that new water
//! brings stays under its limit (harm rule 3); a tap above the ceiling of chlorine is not used at all (harm rule 1).
//! Checked by: `tests/harm.rs`, `tests/by_hand_new_water.rs`.

use quantity::Kind;

use crate::assemble::Limited;
use crate::desk::{Desk, source, why};
use crate::new_water::ammonia::Ammonia;
use crate::new_water::chlorine::Brought;
use crate::plan::Change;

/// The share that the keeper's habit may have, and the sentences that say what limits it.
pub(crate) fn limited(desk: &Desk, brought: &Brought, ammonia: Option<Ammonia>) -> (f64, Option<String>) {
    let (tank, pen) = (desk.tank, &desk.pen);
    let limit = &desk.book.harm.limit;
    let mut share = tank.habits.change_share.value;
    if !desk.animals() || share <= 0.0 {
        return (share, None);
    }
    let mut says = Vec::new();
    if brought.chlorine.is_some_and(|cl| cl.high > limit.chlorine_stop_mg_per_l.value()) {
        return (0.0, Some(desk.book.harm.rule.chlorine_ask_supplier.say.clone()));
    }
    let old = limit.old_tank_change_percent.value() / 100.0;
    if let Some(months) = tank.unchanged_months.filter(|_| share > old) {
        share = old;
        says.push(format!(
            "Not changed for {} months: {} Here that is {} at a time. Once it has had its tenths and its ammonia test stays low, take the \
             months out and I plan the usual change.",
            pen.n(months, 2),
            desk.book.harm.rule.old_acid_tank.say,
            pen.litres(old * tank.geometry.true_l.value)
        ));
    }
    match ammonia {
        Some(ammonia) if share > ammonia.share_most => {
            share = (ammonia.share_most * 100.0).floor() / 100.0;
            says.push(format!(
                "At most {} at once instead of {}: the new water brings up to {} mg/L of ammonia-nitrogen, and at pH {} and {} more than {} mg/L of it \
                 in the tank harms. The rest a day later, once ammonia tests low.",
                pen.litres(share * tank.geometry.true_l.value),
                pen.litres(tank.habits.change_share.value * tank.geometry.true_l.value),
                pen.n(brought.nitrogen.1, 2),
                pen.n(ammonia.ph, 3),
                pen.celsius(ammonia.temperature_c),
                pen.n(ammonia.total_most, 2),
            ));
            desk.why(why(
                "change-ammonia",
                format!("why at most {}?", pen.share(share)),
                format!(
                    "{} mg/L ÷ {} = {} mg/L of all ammonia-N; ÷ {} mg/L in the new water = {}",
                    pen.n(limit.ammonia_unionised_mg_n_per_l.value(), 2),
                    pen.percent(ammonia.fraction),
                    pen.n(ammonia.total_most, 3),
                    pen.n(brought.nitrogen.1, 3),
                    pen.share(ammonia.share_most)
                ),
                limit.ammonia_unionised_mg_n_per_l.say.clone(),
                &[source(&limit.ammonia_unionised_mg_n_per_l), &desk.book.harm.snail_ammonia.source],
                Kind::WorkedOut,
            ));
        }
        _ => {}
    }
    (share, (!says.is_empty()).then(|| says.join(" ")))
}

/// The change of a tank whose habit is already limited.
pub(crate) fn change(desk: &Desk, limited: Option<Limited>) -> Change {
    let limited = limited.map(|limited| {
        for why in limited.whys {
            desk.why(why);
        }
        limited.sentence
    });
    let tank = desk.tank;
    let share = if tank.habits.every_days == 0 { 0.0 } else { tank.habits.change_share.value };
    let litres = share * tank.geometry.true_l.value;
    let most = tank.at_hand.bucket_l.value.min(desk.book.harm.limit.bucket_l.value());
    let count = if most > 0.0 { (litres / most - 1e-9).ceil().max(0.0) as u32 } else { 0 };
    let each = if count == 0 { 0.0 } else { litres / f64::from(count) };
    let pen = &desk.pen;
    if count > 0 {
        desk.why(why(
            "change",
            format!("why {}?", pen.litres(litres)),
            format!(
                "{} × {} L = {} L; ÷ {count} buckets = {} L",
                pen.share(share),
                pen.n(tank.geometry.true_l.value, 4),
                pen.n(litres, 4),
                pen.n(each, 4)
            ),
            format!(
                "The share is {}; the litres are those that are really in the tank. {}",
                tank.habits.change_share.kind.words(),
                desk.book.harm.limit.bucket_l.say
            ),
            &[source(&desk.book.harm.limit.bucket_l)],
            tank.habits.change_share.kind.weaker(tank.geometry.true_l.kind),
        ));
    }
    Change { share, every_days: tank.habits.every_days, litres, buckets: (count, each), limited }
}
