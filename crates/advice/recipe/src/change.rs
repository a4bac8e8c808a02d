//! The change of water: its litres and buckets, and what limits its share.
//!
//! What: litres = share × true litres, in as few buckets as the largest that one should carry allows.
//! Limits (with animals): an old acid tank that was long unchanged gets a tenth (harm rule 8); the ammonia that new water
//! brings stays under its limit (harm rule 3); a tap above the ceiling of chlorine is not used at all (harm rule 1), nor,
//! with shrimps or snails, one whose measured copper is above the refusal (harm rule 4).
//! Checked by: `tests/harm.rs`, `tests/harm_water.rs`, `tests/by_hand_new_water.rs`.

use quantity::{Ion, Kind, Why};
use setup::Disinfectant;

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
    if let Some(says) = stopped(desk, brought) {
        return Allowed { share: 0.0, says: Some(says), ..out };
    }
    let ammonia = ammonia.filter(|ammonia| out.share > ammonia.share_most);
    let old = limit.old_tank_change_percent.value() / 100.0;
    let tenth = desk.tank.unchanged_months.map(|months| (months, old));
    let most = ammonia.map_or(f64::INFINITY, |ammonia| nearly * ammonia.share_most);
    let most = tenth.map_or(most, |(_, old)| most.min(old));
    if most.is_infinite() {
        return out;
    }
    if out.share > most {
        in_parts(&mut out, most);
    }
    let mut says = vec![schedule(desk, &out)];
    if let Some(ammonia) = ammonia {
        says.push(ammonia_says(desk, brought, ammonia));
        desk.why(why_ammonia(desk, brought, ammonia));
    }
    says.extend(tenth.map(|(months, _)| old_says(desk, months)));
    out.says = Some(says.join(" "));
    out
}

/// Why this tap is not used at all, if it is not.
fn stopped(desk: &Desk, brought: &Brought) -> Option<String> {
    let stop = desk.book.harm.limit.chlorine_stop_mg_per_l.value();
    match brought.chlorine.is_some_and(|cl| cl.high > stop) {
        true => Some(desk.book.harm.rule.chlorine_ask_supplier.say.clone()),
        false => crate::copper::stops_change(desk),
    }
}

/// The most that may be changed at once, whatever the keeper's habit is: share of the tank, 0 to 1, and what limits it (harm
/// rules 1, 3 and 4). `nearly`: see `assemble`.
pub(crate) fn most(desk: &Desk, brought: &Brought, ammonia: Option<Ammonia>, nearly: f64) -> (f64, Option<String>) {
    if !desk.animals() {
        return (1.0, None);
    }
    if let Some(says) = stopped(desk, brought) {
        return (0.0, Some(says));
    }
    match ammonia.filter(|ammonia| ammonia.share_most < 1.0) {
        Some(ammonia) => (nearly * ammonia.share_most, Some(ammonia_says(desk, brought, ammonia))),
        None => (1.0, None),
    }
}

/// The same water renewed in parts of at most `most`, as large as whole days allow; at the least a day apart.
fn in_parts(out: &mut Allowed, most: f64) {
    let days = f64::from(out.every_days);
    let every = (days * most / out.share + 1e-9).floor().max(1.0);
    out.share = (out.share * every / days).min(most);
    out.every_days = every as u32;
}

/// "every day", "every three days".
pub(crate) fn every(days: u32) -> String {
    if days == 1 { "every day".to_owned() } else { format!("every {} days", crate::say::count(days)) }
}

/// The one schedule that holds.
fn schedule(desk: &Desk, out: &Allowed) -> String {
    let (pen, habits, litres) = (&desk.pen, &desk.tank.habits, desk.tank.geometry.true_l.value);
    let now = format!("{} {}", pen.litres(out.share * litres), every(out.every_days));
    let habit = format!("{} {}", pen.litres(habits.change_share.value * litres), every(habits.every_days));
    if now == habit { format!("{now}, and no more at a time.") } else { format!("{now} instead of {habit}.") }
}

fn old_says(desk: &Desk, months: f64) -> String {
    format!(
        "Not changed for {} months: {} The hour is for an emergency; without one keep to these days. Once it has had its tenths and its ammonia \
         test stays low, take the months out and I plan the usual change.",
        desk.pen.n(months, 2),
        desk.book.harm.rule.old_acid_tank.say
    )
}

fn ammonia_says(desk: &Desk, brought: &Brought, ammonia: Ammonia) -> String {
    let pen = &desk.pen;
    format!(
        "The new water brings up to {} mg/L of ammonia-nitrogen, and at pH {} and {} more than {} mg/L of it in the tank harms. Test ammonia \
         before each; it stays low, or wait.{}",
        pen.n(brought.nitrogen.1, 2),
        pen.n(ammonia.ph, 3),
        pen.celsius(ammonia.temperature_c),
        pen.n(ammonia.total_most, 2),
        ask_supplier(desk)
    )
}

/// What nobody told and what more of a change hangs on.
fn ask_supplier(desk: &Desk) -> String {
    let tap = &desk.tank.tap;
    let ammonium = tap.mg_per_l(Ion::Ammonium);
    let guessed = ammonium.kind == Kind::Assumed && ammonium.high > 0.0;
    match (guessed, tap.disinfectant) {
        (true, Disinfectant::Unknown) => {
            " Ask your supplier for ammonium and for the kind of chlorine: less than I count on allows more at once."
                .to_owned()
        }
        (true, Disinfectant::Chloramine) => {
            " Ask your supplier for ammonium: less than I count on allows more at once.".to_owned()
        }
        (true, _) => format!(
            " One number from your supplier ends this: ammonium. Nobody told it, so I count on up to {}.",
            desk.pen.ion(Ion::Ammonium, ammonium.high)
        ),
        (false, Disinfectant::Unknown) => {
            " Ask your supplier for the kind of chlorine: what is no chloramine brings no ammonia.".to_owned()
        }
        (false, _) => String::new(),
    }
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
    let every_days = tank.habits.every_days;
    Change { share, every_days, litres, buckets: (count, each), limited, share_most: 1.0, most_because: None }
}
