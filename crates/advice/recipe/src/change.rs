//! The change of water: its litres and buckets, and what limits its share.
//!
//! What: litres = share × true litres, in as few buckets as the largest that one should carry allows.
//! Limits (with animals): an old acid tank that was long unchanged gets a tenth (harm rule 8); the ammonia that new water
//! brings stays under its limit (harm rule 3); a tap above the ceiling of chlorine is not used at all (harm rule 1), nor,
//! with shrimps or snails, one whose measured copper is above the refusal (harm rule 4).
//! Checked by: `tests/harm.rs`, `tests/by_hand_new_water.rs`.

use quantity::{Ion, Kind, Why};

use crate::assemble::Limited;
use crate::desk::{Desk, source, why};
use crate::new_water::ammonia::Ammonia;
use crate::new_water::chlorine::Brought;
use crate::plan::Change;

/// What a change may be.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Allowed {
    /// Share at a time.
    pub share: f64,
    /// Days from one to the next.
    pub every_days: u32,
    /// What limits it, if anything.
    pub says: Option<String>,
}

/// What the keeper's habit comes to under the rules of harm. A change that is limited is given in parts, so that as much
/// water is renewed over the weeks as before, if a day lies between two of them. `nearly`: see `assemble`.
pub(crate) fn allowed(desk: &Desk, brought: &Brought, ammonia: Option<Ammonia>, nearly: f64) -> Allowed {
    let (habits, limit) = (&desk.tank.habits, &desk.book.harm.limit);
    let mut out = Allowed { share: habits.change_share.value, every_days: habits.every_days, says: None };
    if !desk.animals() || out.share <= 0.0 || out.every_days == 0 {
        return out;
    }
    if brought.chlorine.is_some_and(|cl| cl.high > limit.chlorine_stop_mg_per_l.value()) {
        return Allowed { share: 0.0, says: Some(desk.book.harm.rule.chlorine_ask_supplier.say.clone()), ..out };
    }
    if let Some(says) = crate::copper::stops_change(desk) {
        return Allowed { share: 0.0, says: Some(says), ..out };
    }
    let mut says = Vec::new();
    if let Some(ammonia) = ammonia.filter(|ammonia| out.share > ammonia.share_most) {
        in_parts(&mut out, nearly * ammonia.share_most);
        says.push(ammonia_says(desk, brought, ammonia, &out));
        desk.why(why_ammonia(desk, brought, ammonia));
    }
    let old = limit.old_tank_change_percent.value() / 100.0;
    if let Some(months) = desk.tank.unchanged_months {
        out.share = out.share.min(old);
        says.push(format!(
            "Not changed for {} months: {} Here that is {} at a time. Once it has had its tenths and its ammonia test stays low, take the \
             months out and I plan the usual change.",
            desk.pen.n(months, 2),
            desk.book.harm.rule.old_acid_tank.say,
            desk.pen.litres(out.share * desk.tank.geometry.true_l.value)
        ));
    }
    out.says = (!says.is_empty()).then(|| says.join(" "));
    out
}

/// The same water renewed in parts of at most `most`, as evenly as whole days allow; at the least a day apart.
fn in_parts(out: &mut Allowed, most: f64) {
    let parts = (out.share / most - 1e-9).ceil().max(1.0);
    let every = (f64::from(out.every_days) / parts).floor().max(1.0);
    out.share = (out.share * every / f64::from(out.every_days)).min(most);
    out.every_days = every as u32;
}

fn ammonia_says(desk: &Desk, brought: &Brought, ammonia: Ammonia, out: &Allowed) -> String {
    let (pen, tank) = (&desk.pen, desk.tank);
    let days = match out.every_days {
        1 => "every day".to_owned(),
        days => format!("every {} days", crate::say::count(days)),
    };
    let mend = match tank.tap.mg_per_l(Ion::Ammonium).kind {
        Kind::Assumed => {
            " Ask your supplier for ammonium and for the kind of chlorine: less than I count on allows more at once."
        }
        _ => "",
    };
    format!(
        "{} {days} instead of {} every {} days: the new water brings up to {} mg/L of ammonia-nitrogen, and at pH {} and {} more than {} mg/L of it in \
         the tank harms. Test ammonia before each; it stays low, or wait.{mend}",
        pen.litres(out.share * tank.geometry.true_l.value),
        pen.litres(tank.habits.change_share.value * tank.geometry.true_l.value),
        crate::say::count(tank.habits.every_days),
        pen.n(brought.nitrogen.1, 2),
        pen.n(ammonia.ph, 3),
        pen.celsius(ammonia.temperature_c),
        pen.n(ammonia.total_most, 2),
    )
}

fn why_ammonia(desk: &Desk, brought: &Brought, ammonia: Ammonia) -> Why {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit.ammonia_unionised_mg_n_per_l);
    let first = if ammonia.by_snails {
        format!(
            "criterion for snails at pH {} and {}: {} mg/L of all ammonia-N",
            pen.n(ammonia.ph, 3),
            pen.celsius(ammonia.temperature_c),
            pen.n(ammonia.total_most, 3)
        )
    } else {
        format!(
            "{} mg/L ÷ {} = {} mg/L of all ammonia-N",
            pen.n(limit.value(), 2),
            pen.share(ammonia.fraction),
            pen.n(ammonia.total_most, 3)
        )
    };
    why(
        "change-ammonia",
        format!("why at most {} at once?", pen.share(ammonia.share_most)),
        format!(
            "{first}; ÷ {} mg/L in the new water = {}",
            pen.n(brought.nitrogen.1, 3),
            pen.share(ammonia.share_most)
        ),
        limit.say.clone(),
        &[source(limit), &desk.book.harm.snail_ammonia.source],
        Kind::WorkedOut,
    )
}

/// The change of a tank whose habit is already limited.
pub(crate) fn change(desk: &Desk, limited: Option<Limited>) -> Change {
    let limited = limited.map(|limited| {
        limited.whys.into_iter().for_each(|why| drop(desk.why(why)));
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
                "{} × {} L = {} L; ÷ {count} {} = {} L",
                pen.share(share),
                pen.n(tank.geometry.true_l.value, 4),
                pen.n(litres, 4),
                if count == 1 { "bucket" } else { "buckets" },
                pen.n(each, 4)
            ),
            format!(
                "The share is {}; the litres are those that are really in the tank. {}",
                match tank.habits.change_share.kind {
                    Kind::Measured => "what you told",
                    kind => kind.words(),
                },
                desk.book.harm.limit.bucket_l.say
            ),
            &[source(&desk.book.harm.limit.bucket_l)],
            tank.habits.change_share.kind.weaker(tank.geometry.true_l.kind),
        ));
    }
    Change { share, every_days: tank.habits.every_days, litres, buckets: (count, each), limited }
}
