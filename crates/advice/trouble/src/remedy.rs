//! What a change of water does to toxic ammonia, and whether it is one.
//!
//! **What.** A change dilutes ammonia and moves pH, and the tap may bring ammonia of its own: what is left can be more toxic than before. The
//! tank as it is stands against the tank after the change, both at the upper end of pH, warmth and of what the tap may bring.
//!
//! **Equation.** What mixing conserves is mixed, pH is solved anew: closed, c(x), the first minutes; aired to the room, a(x), hours
//! later. A change of share x helps where c(x) ≤ (1 - w x) c(0) and a(x) ≤ (1 - w x) max(c(0), a(0)), w the least worth. Of the shares that
//! may be changed the one with the smallest max(c, a) is offered; it halves it where both are half of what they stand against.
//!
//! **Symbols.** c, a mg/L of toxic ammonia as N, x share 0 to 1.
//!
//! **Range.** That of `water::solve`. **Source.** Balance of mass; `phreeqc_386`; w common practice.
//!
//! **Checked by** `tests/by_hand_remedy.rs`, `tests/by_hand_toxic.rs`, `tests/harm_most.rs`.

use quantity::{Digits, Ion, format_number};
use recipe::say::two_figures_down;
use water::{Carbon, Conserved, Solved, blend, pco2_atm_of_room, solve};

use crate::case::{Case, N_OF_NH4, solved};
use crate::most::{Why, all_else, most, often};
use crate::rain::low_minerals;
use crate::sum::Sum;
use crate::toxic::limit;

/// Shares of a change that are tried, in steps of a twentieth.
const STEPS: u32 = 20;
/// What counts as halved: a fiftieth more is finer than any kit reads.
const HALF: f64 = 0.51;
/// Halvings of the range in which the ammonia of new water is sought: to a four-thousandth of it.
const HALVINGS: u32 = 12;

/// Toxic ammonia, mg/L N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct After {
    /// In the first minutes: mixed, no carbon dioxide lost yet.
    pub closed: f64,
    /// Hours later, in balance with the room.
    pub aired: f64,
}

impl After {
    fn worst(&self) -> f64 {
        self.closed.max(self.aired)
    }
}

/// A change and what it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Change {
    /// 0 to 1.
    pub share: f64,
    /// What it leaves.
    pub after: After,
}

/// What changes do to the toxic ammonia.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Effect {
    /// The tank left alone.
    pub alone: After,
    /// The change that leaves least, where one helps.
    pub best: Option<Change>,
    /// The smallest change that halves it.
    pub halves: Option<Change>,
    /// What the largest that may be made does: told where none helps.
    pub largest: Change,
}

/// Both waters, solved once.
struct Waters {
    tank: Conserved,
    tap: Conserved,
    temperature_c: f64,
    room_atm: f64,
}

impl Waters {
    fn of(case: &Case, total: f64, ph: f64, brought_n: f64) -> Option<Waters> {
        let t = case.temperature_c().high;
        let tank = solved(&case.tank_water(), total, t, Carbon::Ph(ph))?;
        let new_water = case.new_water();
        let tap_c = case.new_c().value.clamp(0.0, 35.0);
        let tap = solved(&new_water, brought_n, tap_c, Carbon::Ph(new_water.ph.high))?;
        let room_atm = pco2_atm_of_room(case.tank.room_co2_ppm.low, t);
        Some(Waters { tank: tank.conserved(), tap: tap.conserved(), temperature_c: t, room_atm })
    }

    fn after(&self, share: f64) -> Option<After> {
        let mixed = blend(&[(1.0 - share, self.tank), (share, self.tap)]);
        // As warm as the tank: new water is poured so, and warmth is the bad end.
        let mixed = Conserved { temperature_c: self.temperature_c, ..mixed };
        let nh3 = |s: &Solved| s.nh3_fraction * s.totals.mg_per_l(Ion::Ammonium) * N_OF_NH4;
        let (closed, aired) = (solve(&mixed.closed()).ok()?, solve(&mixed.open_to(self.room_atm)).ok()?);
        Some(After { closed: nh3(&closed), aired: nh3(&aired) })
    }
}

/// The tank left alone: as it is by the last reading of pH, and aired.
fn left_alone(case: &Case, total: f64) -> Option<After> {
    Waters::of(case, total, case.ph_read_high()?, case.brought_n())?.after(0.0)
}

/// Whether air on would make what harms here, or make more of it: what it leaves, mg/L of toxic ammonia as N, and what then stands in
/// place of "air on" (harm rule 7). Fast breathing goes before it.
pub(crate) fn stays(case: &Case, total: f64) -> Option<(f64, String)> {
    let (alone, limit) = (left_alone(case, total)?, limit(case.book()));
    let more = 1.0 + case.numbers().change_worth_share.value;
    (alone.aired >= limit && alone.aired > more * alone.closed).then(|| {
        let says = format!(
            "Aired to the room this water would hold {} mg/L of toxic ammonia, over {}: air runs as before and carbon dioxide stays as it is, unless they \
             breathe fast; then the carbon dioxide goes off and the air on, and you test again at once.",
            n(alone.aired),
            n(limit)
        );
        (alone.aired, says)
    })
}

/// What stands in place of "air on" by the readings, where airing would make ammonia toxic; `None`: air on.
pub fn air_stays(case: &Case) -> Option<String> {
    stays(case, case.told.get("ammonia").filter(|total| *total > 0.0)?).map(|(_, says)| says)
}

/// What changes of at most a share do; `None` outside the model's range. Where pH was not read today, at its last reading too: a change helps
/// where it helps at both.
pub(crate) fn effect(case: &Case, total: f64, most: f64) -> Option<Effect> {
    effect_with(case, total, most, case.brought_n())
}

/// The same for new water that brings so much ammonia, mg/L N.
fn effect_with(case: &Case, total: f64, most: f64, brought_n: f64) -> Option<Effect> {
    let at = |ph: f64| effect_at(case, &Waters::of(case, total, ph, brought_n)?, most);
    let (high, read) = (case.ph()?.high, case.ph_read_high()?);
    let all = at(high)?;
    let by_reading = if read < high - 1e-9 { at(read) } else { None };
    Some(by_reading.filter(|effect| effect.best.is_none()).unwrap_or(all))
}

fn effect_at(case: &Case, waters: &Waters, most: f64) -> Option<Effect> {
    let alone = waters.after(0.0)?;
    let worth = case.numbers().change_worth_share.value;
    let helps = |c: &Change| {
        let left = 1.0 - worth * c.share;
        c.after.closed <= left * alone.closed && c.after.aired <= left * alone.worst()
    };
    let halved = |c: &&Change| c.after.closed <= HALF * alone.closed && c.after.aired <= HALF * alone.worst();
    let steps = (1..=STEPS).map(|i| f64::from(i) / f64::from(STEPS)).filter(|share| *share < most - 1e-9);
    let one = |share: f64| Some(Change { share, after: waters.after(share)? });
    let all: Vec<Change> = steps.chain([most]).map(one).collect::<Option<_>>()?;
    let helping: Vec<Change> = all.iter().copied().filter(helps).collect();
    Some(Effect {
        alone,
        best: helping.iter().copied().min_by(|a, b| a.after.worst().total_cmp(&b.after.worst())),
        halves: helping.iter().find(halved).copied(),
        largest: *all.last()?,
    })
}

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// "0.13 mg/L now, 0.046 right after it, 0.051 once it is aired".
fn beside(alone: &After, after: &After) -> String {
    let left = match alone.aired > alone.closed {
        true => format!(" (left alone and aired: {})", n(alone.aired)),
        false => String::new(),
    };
    format!(
        "{} mg/L toxic now{left}, {} right after it, {} once it is aired",
        n(alone.closed),
        n(after.closed),
        n(after.aired)
    )
}

/// Over the limit: the change, or what stands in its place.
pub(crate) fn act(case: &Case, total: f64, sum: Sum) -> Sum {
    let (share, _, why) = most(case);
    let test = tap_test(case, total).filter(|_| matches!(why, Why::Worse | Why::Toxic));
    let sum = match test {
        Some(test) => sum.figure("bucket_mg_n_per_l", test.0).say(tap_tested(case, test)),
        None => sum,
    };
    let sum = match stays(case, total) {
        Some((aired, says)) => sum.figure("aired_mg_n_per_l", aired).say(format!(
            "No food. {says} The tap smells, is brown, or there is a notice: no change; where they gasp, air only."
        )),
        None => sum.say("No food, air on. The tap smells, is brown, or there is a notice: no change, air only."),
    };
    let Some(effect) = effect(case, total, if share > 0.0 { share } else { tried(case) }) else {
        return sum.say(poured(case));
    };
    match effect.best.filter(|_| share > 0.0) {
        Some(best) => helps(case, total, &effect, &best, sum).say(poured(case)),
        None => no_help(case, total, &effect, why, sum),
    }
}

/// The test of the new water that decides whether more is changed: the ammonia (mg/L N) up to which the largest change that all else allows
/// helps, and that change. `None`: the new water was tested, or its ammonia is not what limits.
pub(crate) fn tap_test(case: &Case, total: f64) -> Option<(f64, f64)> {
    let (assumed, full) = (case.brought_n(), all_else(case));
    if case.told.get("tap_ammonia").is_some() || assumed <= 0.0 || full <= 0.0 {
        return None;
    }
    let (high, read) = (case.ph()?.high, case.ph_read_high()?);
    let worth = 1.0 - case.numbers().change_worth_share.value * full;
    let helps_at = |ph: f64, brought: f64| {
        let waters = Waters::of(case, total, ph, brought)?;
        let (alone, after) = (waters.after(0.0)?, waters.after(full)?);
        Some(after.closed <= worth * alone.closed && after.aired <= worth * alone.worst())
    };
    let helps = |brought: f64| helps_at(high, brought) == Some(true) && helps_at(read, brought) == Some(true);
    if helps(assumed) || !helps(0.0) {
        return None;
    }
    let (mut low, mut over) = (0.0, assumed);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + over);
        if helps(middle) {
            low = middle;
        } else {
            over = middle;
        }
    }
    // Less no kit reads.
    Some((low, full)).filter(|(least, _)| *least >= case.book().start.kit_step_mg_n_per_l.low())
}

/// The act of it, before all others.
fn tap_tested(case: &Case, (below, share): (f64, f64)) -> String {
    let pen = case.pen();
    let litres = case.litres().map_or_else(String::new, |all| format!(" ({})", pen.litres(share * all)));
    format!(
        "Test a bucket of new water for ammonia now, conditioner in it, for it decides: below {} mg/L (as N) change {}{litres}, as warm as the \
         tank; at that or more, or until you know, what follows holds. Tell me the reading, as ammonia of the new water.",
        n(two_figures_down(below)),
        pen.percent(share)
    )
}

/// The share by which it is shown what a change would do, where none is made.
fn tried(case: &Case) -> f64 {
    case.numbers().most_at_once_percent.value / 100.0
}

fn helps(case: &Case, total: f64, effect: &Effect, best: &Change, sum: Sum) -> Sum {
    let (pen, start) = (case.pen(), n(limit(case.book())));
    let mut sum = sum.figure("change_share", best.share).figure("left_mg_n_per_l", best.after.closed);
    sum = sum.figure("left_aired_mg_n_per_l", best.after.aired).figure("now_mg_n_per_l", effect.alone.closed);
    if let Some(halves) = &effect.halves {
        sum = sum.figure("halved_by_share", halves.share);
    }
    let halves = match &effect.halves {
        Some(halves) if halves.share < best.share - 1e-9 => {
            format!(" {} of it halves it already.", pen.percent(halves.share))
        }
        Some(_) => " That halves it.".to_owned(),
        None => String::new(),
    };
    let old = match case.old() {
        true => "It was not changed for months: a tenth at once and no more. ",
        false => "",
    };
    let what = format!(
        "{old}Change {}{}: {}, at the upper end of pH and of what the tap may bring; harm starts at {start}.{halves}",
        pen.share(best.share),
        case.poured(best.share),
        beside(&effect.alone, &best.after),
    );
    let sum = sum.act_of_change(what);
    let change = &case.plan.change;
    // Only what the tap's ammonia alone would have kept smaller.
    let kept = if change.limited.is_some() { change.share_most.min(change.share) } else { change.share_most };
    let lifted = kept < best.share - 1e-9 && !case.old();
    let sum = match lifted && case.told.get("tap_ammonia").is_none() {
        true => sum.say(format!(
            "That is more than this tap’s ammonia would allow by itself: the tank holds {} mg/L, this tap may bring {} (as N). Ammonia in a bucket of new water, conditioner in it, \
             tells how much it does.",
            n(total),
            n(case.brought_n())
        )),
        false => sum,
    };
    let again = often(case, "it is below where harm starts");
    match effect.halves {
        Some(_) => sum.say(again),
        None => sum.say(again).say(format!("Beside it: {}", low_minerals(case))),
    }
}

fn no_help(case: &Case, total: f64, effect: &Effect, why: Why, sum: Sum) -> Sum {
    let (pen, start, tried) = (case.pen(), n(limit(case.book())), &effect.largest);
    let because = match why {
        Why::ChangedToday => {
            return sum.say(format!(
                "No change with this tap until a new test, for more was changed since yesterday than it allows; harm starts at {start}. Do animals gasp or lie meanwhile: {}",
                low_minerals(case)
            ));
        }
        Why::OldReading => {
            return sum.say(format!(
                "No change with this water until the new test, which says how much; harm starts at {start}. Do animals gasp or lie meanwhile: {}",
                low_minerals(case)
            ));
        }
        Why::Refused => {
            return sum.say(format!(
                "No change with this water: it may not be used here. Harm starts at {start}. Instead: {}",
                low_minerals(case)
            ));
        }
        _ if case.brought_n() > 0.5 * total => {
            format!("it may bring {} mg/L of ammonia itself (as N)", n(case.brought_n()))
        }
        _ => "it raises pH".to_owned(),
    };
    sum.figure("tried_share", tried.share)
        .figure("after_tried_mg_n_per_l", tried.after.closed)
        .figure("after_tried_aired_mg_n_per_l", tried.after.aired)
        .say(format!(
            "No change with this water, for {because}: {} of it would mean {}; harm starts at {start}. Instead: {}",
            pen.percent(tried.share),
            beside(&effect.alone, &tried.after),
            low_minerals(case)
        ))
}

/// How new water goes in.
fn poured(case: &Case) -> String {
    let limit = &case.book().harm.limit;
    format!(
        "Plugs out with dry hands and {} minutes’ wait before the water falls below the heater’s mark; conditioner, stirred, {} minutes \
         before it is poured; as warm as the tank; plugs back when the water is over the mark.",
        n(limit.heater_wait_min.value()),
        n(limit.conditioner_wait_min.value())
    )
}
