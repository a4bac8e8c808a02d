//! What a slip of the hand would do: the daily ceilings of a bottle, where it asks "really?" and where it refuses.
//!
//! What: a bottle's ceiling is daily mL × the smallest of (limit a day ÷ rise a day in the fewest litres) over nitrate, potassium, phosphate,
//! iron, hardness and alkalinity, down to a step of the syringe.
//! Source: harm rules 6 and 10 (`data/harm.toml`), common practice.
//! Checked by: `tests/by_hand_bottles.rs`, `tests/harm.rs`.

use quantity::{Ion, Known};
use setup::Tank;

use crate::bottles::weigh::Tools;
use crate::desk::Desk;
use crate::plan::{Bottle, Dose, Plan};
use crate::say::{Pen, count, list, two_figures_down};

/// A daily limit on what rises.
#[derive(Clone, Debug)]
pub struct Ceiling {
    /// What rises, in words.
    pub what: &'static str,
    /// Rise a day by the usual dose, in the fewest litres.
    pub rise: f64,
    /// Most a day.
    pub most: f64,
    /// Unit of both.
    pub unit: &'static str,
}

impl Ceiling {
    /// How many times the usual dose reaches the limit.
    pub fn times(&self) -> f64 {
        self.most / self.rise
    }
}

/// By how many times more a gram lifts the fewest litres that the tank may hold than the best estimate of them; 1 or more.
pub(crate) fn in_the_fewest(litres: Known<f64>) -> f64 {
    if litres.low > 0.0 { (litres.value / litres.low).max(1.0) } else { 1.0 }
}

/// The ceilings that a rise of `brings` mg/L a day and `alkalinity` meq/L a day runs against. Both are told for the best
/// estimate of the litres; the smallest that the tank may hold counts, for the same grams are more in it.
pub(crate) fn ceilings(desk: &Desk, brings: &[(Ion, f64)], alkalinity: f64) -> Vec<Ceiling> {
    let limit = &desk.book.harm.limit;
    let smaller = in_the_fewest(desk.tank.geometry.true_l);
    let of = |ion: Ion| smaller * brings.iter().filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum::<f64>();
    let ions = [
        ("nitrate", of(Ion::Nitrate), limit.nitrate_step_mg_per_l.value()),
        ("potassium", of(Ion::Potassium), limit.potassium_step_mg_per_l.value()),
        ("phosphate", of(Ion::Phosphate), limit.phosphate_step_mg_per_l.value()),
        ("iron", of(Ion::Iron), limit.iron_step_mg_per_l.value()),
    ];
    let hardness = [Ion::Calcium, Ion::Magnesium]
        .into_iter()
        .map(|ion| of(ion) / ion.molar_mass() * f64::from(ion.charge()))
        .sum::<f64>();
    let hardness_most = limit.hardness_step_meq_per_l();
    let others = [
        ("hardness", hardness, hardness_most, "meq/L"),
        ("alkalinity", smaller * alkalinity, limit.alkalinity_step_meq_per_l.value(), "meq/L"),
    ];
    ions.into_iter()
        .map(|(what, rise, most)| (what, rise, most, "mg/L"))
        .chain(others)
        .filter(|(_, rise, _, _)| *rise > 0.0)
        .map(|(what, rise, most, unit)| Ceiling { what, rise, most, unit })
        .collect()
}

/// The daily limits that a bottle of a plan runs against.
pub fn ceilings_of(tank: &Tank, plan: &Plan, bottle: &Bottle) -> Vec<Ceiling> {
    let desk = Desk::new(tank);
    let brings: Vec<(Ion, f64)> = plan.doses_in(bottle).flat_map(|dose| dose.brings.iter().copied()).collect();
    let meq = |dose: &Dose| {
        let product = desk.product(&dose.product);
        product.map_or(0.0, |product| dose.amount * product.alkalinity_meq_per_g() * product.assay())
    };
    let litres = tank.geometry.true_l.value.max(f64::MIN_POSITIVE);
    let alkalinity = plan.doses_in(bottle).map(meq).sum::<f64>() / litres;
    ceilings(&desk, &brings, alkalinity)
}

/// The way back from what a bottle lifted over its limits of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct WayBack {
    /// Changes that would bring it back under them; infinite where none is planned.
    pub needed: f64,
    /// Changes that are made, a day apart; 0: it is waited for.
    pub changes: u32,
    /// What to do: a sentence.
    pub says: String,
}

/// Where a bottle asks and where it refuses, and the sentence of the slip.
#[derive(Clone, Debug)]
pub(crate) struct Slip {
    /// mL a day above which it asks "really?".
    pub ask_above_ml: f64,
    /// mL a day above which it refuses.
    pub refuse_above_ml: f64,
    /// The sentence.
    pub text: String,
}

/// What so many times the dose lift, with the number up to which no harm is known.
fn rise(pen: &Pen, c: &Ceiling, times: f64) -> String {
    let (rise, most) = (pen.n(times * c.rise, 2), pen.n(c.most, 2));
    format!("{} rises by {rise} {unit} (no harm known to me below {most} {unit} in a day)", c.what, unit = c.unit)
}

/// The way back under the limits of a day from `far` times the limit: n = ln(far) ÷ -ln(1 - share) changes of the tank's usual share, a day
/// apart; or, where that is more than a few, the change is small, the tank long unchanged, or none is planned (`share` 0), waiting.
pub fn way_back(tank: &Tank, share: f64, far: f64) -> WayBack {
    let desk = Desk::new(tank);
    let slips = &desk.book.recipe.slip;
    let needed = match share {
        _ if far <= 1.0 => 0.0,
        share if share <= 0.0 => f64::INFINITY,
        share if share >= 1.0 => 1.0,
        share => (far.ln() / -(1.0 - share).ln() - 1e-9).ceil(),
    };
    let (air, watch) = if desk.animals() {
        (" air on, watch how the animals breathe;", ", and watch how the animals breathe")
    } else {
        ("", "")
    };
    let litres = desk.pen.litres(share * tank.geometry.true_l.value);
    let least = desk.animals() && (tank.unchanged_months.is_some() || share < slips.small_change_share.value);
    let made = |changes: u32, says: String| WayBack { needed, changes, says };
    if needed <= 1.0 {
        let says = format!(
            "That is too much at once: change as much water as on a change day, {litres}, the same day{watch}."
        );
        return made(needed as u32, says);
    }
    if share > 0.0 && needed <= slips.changes_most.value && !least {
        let times = count(needed as u32);
        let says = format!(
            "That is too much at once: change {litres} the same day, {times} times in all, a day apart, until it is back under its limit{watch}."
        );
        return made(needed as u32, says);
    }
    let one = if share > 0.0 {
        format!("it would take {} changes of {litres}, and no more of them than planned", desk.pen.n(needed, 3))
    } else {
        "no change of water is planned".to_owned()
    };
    made(0, format!("That is too much at once, and changes can't take it out quickly ({one}):{air} no dose meanwhile."))
}

/// The same of a slip.
fn brought_down(desk: &Desk, over: &[&Ceiling]) -> String {
    let (habits, slips) = (&desk.tank.habits, &desk.book.recipe.slip);
    let share = if habits.every_days == 0 { 0.0 } else { habits.change_share.value };
    let far = over.iter().map(|c| slips.times.value / c.times()).fold(1.0, f64::max);
    format!(" {}", way_back(desk.tank, share, far).says)
}

/// The slip of a bottle called `name` of which `daily_ml` are given.
pub(crate) fn slip(desk: &Desk, tools: &Tools, name: &str, daily_ml: f64, ceilings: &[Ceiling]) -> Slip {
    let (pen, slips) = (&desk.pen, &desk.book.recipe.slip);
    let slipped = slips.times.value;
    let times = ceilings.iter().map(Ceiling::times).fold(f64::INFINITY, f64::min);
    let usual = desk.book.harm.limit.dose_times_usual.value();
    let refuse_above_ml =
        if times.is_finite() { tools.down_on_syringe(daily_ml * times).max(daily_ml) } else { daily_ml * slipped };
    let asked_from_ml = slips.asked_from_share.value * (daily_ml * usual).min(refuse_above_ml);
    let ask_above_ml = tools.on_syringe(asked_from_ml).max(daily_ml);
    let over: Vec<&Ceiling> = ceilings.iter().filter(|c| slipped * c.rise > c.most).collect();
    let nearest = ceilings.iter().min_by(|a, b| a.times().total_cmp(&b.times()));
    let said: Vec<String> = match (over.as_slice(), nearest) {
        ([], Some(nearest)) => vec![rise(pen, nearest, slipped)],
        (over, _) => over.iter().map(|c| rise(pen, c, slipped)).collect(),
    };
    let (what, then) = match (over.is_empty(), nearest) {
        (_, None) => ("nothing that I count comes near its limit.".to_owned(), String::new()),
        (true, _) => (format!("{}; nothing else comes as near to its limit.", list(&said)), String::new()),
        (false, _) => (format!("{}.", list(&said)), brought_down(desk, &over)),
    };
    let refusal = nearest
        .map_or_else(String::new, |_| format!(" Above {} mL I refuse.", pen.n(two_figures_down(refuse_above_ml), 2)));
    let text = format!(
        "Should the hand slip and give {} times as much once, {what}{then} Leave the next {} doses of {name} out. \
         Above {} a day I ask: really?{refusal}",
        count(slipped as u32),
        count((slipped - 1.0) as u32),
        pen.ml(ask_above_ml),
    );
    Slip { ask_above_ml, refuse_above_ml, text }
}
