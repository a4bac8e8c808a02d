//! A dose that was missed, and one that was given several times.
//!
//! **What.** After m missed doses a level lies m d lower than it would; every change takes its share of that too, so after k
//! changes m d (1 - x)^k is left of it. A dose given n times on a day lifts the level by n d on that day, and (n - 1) d (1 - x)^k
//! is left of the excess.
//!
//! **Symbols.** d what a day's dose brings, mg/L (alkalinity meq/L); x share of a change, 0 to 1.
//!
//! **Range.** Plants that take as much as before; a level does not fall below nothing. For ceilings the smallest litres count.
//!
//! **Source.** Balance of mass; ceilings `data/harm.toml` rules 4, 6 and 10.
//!
//! **Checked by** `tests/closed_form_missed.rs`, `tests/harm_away.rs`.

use knowledge::{Limit, book};
use quantity::{Ion, Kind, Why};
use recipe::say::Pen;
use recipe::{Bottle, Dose, Into, Level, Note, Plan};
use setup::Tank;

use crate::start_waters::refused_tap;
use crate::start_words::{counted, days, keyed, note, source, up, why};

/// What missing did to one level.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Short {
    /// The ion.
    pub ion: Ion,
    /// mg/L that a day's dose brings.
    pub a_day: f64,
    /// mg/L lower than it would be, right after.
    pub lower: f64,
    /// The lowest of the cycle, had it been missed right before: mg/L, not below 0.
    pub lowest: f64,
    /// Lower edge of the band aimed at.
    pub band_low: Option<f64>,
    /// Days until a tenth of the gap is left; `None`: without changes it stays.
    pub days_to_a_tenth: Option<f64>,
}

/// Doses that were missed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Missed {
    /// How many days.
    pub days: u32,
    /// Level by level.
    pub levels: Vec<Short>,
    /// What to do, in a sentence.
    pub answer: String,
    /// What happened, level by level.
    pub notes: Vec<Note>,
    /// Why-notes.
    pub whys: Vec<Why>,
}

/// A tenth of a gap is left after so many changes of share x: ln(0.1) ÷ ln(1 - x), in days from change to change.
fn days_to_a_tenth(plan: &Plan) -> Option<f64> {
    let (x, every) = (plan.change.share, plan.change.every_days);
    (every > 0 && x > 0.0 && x < 1.0).then(|| up(0.1_f64.ln() / (1.0 - x).ln()) * f64::from(every))
}

/// What `missed` days without a dose did, and how to carry on.
pub fn missed(tank: &Tank, plan: &Plan, missed: u32) -> Missed {
    let pen = Pen::new(&tank.units);
    let fed = plan.levels.iter().filter(|level| level.dose_per_day > 0.0);
    let levels: Vec<Short> = fed.filter_map(|level| short(plan, level, missed)).collect();
    let when = format!("It was only {}", days(f64::from(missed)));
    let answer = if levels.is_empty() {
        "Nothing is dosed in this tank, so nothing was missed.".to_owned()
    } else {
        "Give today’s dose as ever and carry on: never what was missed on top of it.".to_owned()
    };
    let mut notes: Vec<Note> = levels.iter().map(|s| note(s.ion.name(), says(&pen, s))).collect();
    if !levels.is_empty() {
        notes.push(keyed(
            "Why not make up for it",
            format!(
                "{when}: plants live on what they hold. Two doses at once lift the water by twice as much in a day, and every slip of the hand counts double. {}",
                book().harm.limit.dose_times_usual.say
            ),
            "dose_times_usual",
        ));
    }
    let whys = levels.first().map(|s| why_short(&pen, plan, s, missed)).into_iter().collect();
    Missed { days: missed, levels, answer, notes, whys }
}

fn short(plan: &Plan, level: &Level, missed: u32) -> Option<Short> {
    let lower = f64::from(missed) * level.dose_per_day;
    Some(Short {
        ion: level.ion?,
        a_day: level.dose_per_day,
        lower,
        lowest: (level.lowest - lower).max(0.0),
        band_low: level.band.map(|band| band.0),
        days_to_a_tenth: days_to_a_tenth(plan),
    })
}

fn says(pen: &Pen, s: &Short) -> String {
    let back = s.days_to_a_tenth.map_or_else(
        || "Without changes it stays so much lower.".to_owned(),
        |n| format!("After {} a tenth of that is left.", days(n)),
    );
    let lowest = match s.band_low {
        _ if s.lowest <= 0.0 => "It ran out for a while.".to_owned(),
        Some(low) if s.lowest < low => {
            format!("At its lowest {}, a little under the {} aimed at.", pen.ion(s.ion, s.lowest), pen.n(low, 2))
        }
        _ => format!("At its lowest {}: still enough.", pen.ion(s.ion, s.lowest)),
    };
    format!("Lower by {}. {lowest} {back}", pen.ion(s.ion, s.lower))
}

fn why_short(pen: &Pen, plan: &Plan, s: &Short, missed: u32) -> Why {
    let x = plan.change.share;
    why(
        "missed",
        format!("why {} lower?", pen.ion(s.ion, s.lower)),
        format!(
            "{missed} × {} mg/L = {} mg/L; after k changes × {}^k",
            pen.n(s.a_day, 3),
            pen.n(s.lower, 3),
            pen.n(1.0 - x, 3)
        ),
        "What was not given is missing from the water; each change takes its share of the gap as of everything else."
            .to_owned(),
        &[],
        Kind::WorkedOut,
    )
}

/// What one bottle, given several times on a day, does to one thing that it brings.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Rise {
    /// What rises: an ion's name, `hardness` or `alkalinity`.
    pub what: String,
    /// By so much on that day, in `unit`, in the smallest litres that the tank may hold.
    pub rise: f64,
    /// Most in a day.
    pub most: f64,
    /// `mg/L` or `meq/L`.
    pub unit: &'static str,
}

impl Rise {
    /// More than a day's limit.
    pub fn over(&self) -> bool {
        self.rise > self.most
    }
}

/// One bottle given several times.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Doubled {
    /// The bottle.
    pub bottle: String,
    /// How many times.
    pub times: f64,
    /// What has a ceiling.
    pub rises: Vec<Rise>,
    /// mg/L of copper after it, where shrimps, snails or others without a backbone live there.
    pub copper_mg_per_l: Option<f64>,
    /// Changes of the plan's share until the rise is under its ceiling; 0: none.
    pub changes: u32,
    /// What to do: sentences.
    pub says: String,
    /// Why so many changes.
    pub why: Why,
}

/// Each bottle of a plan, given `times` times on one day.
pub fn doubled(tank: &Tank, plan: &Plan, times: f64) -> Vec<Doubled> {
    let given = plan.bottles.iter().filter(|bottle| bottle.daily_ml > 0.0);
    given.map(|bottle| one(tank, plan, bottle, times)).collect()
}

/// Changes after which a slip is a trouble of its own (our choice).
const MANY_CHANGES: u32 = 3;

/// The doses that stand in a bottle.
fn inside<'a>(plan: &'a Plan, bottle: &'a Bottle) -> impl Iterator<Item = &'a Dose> {
    let holds = move |dose: &&Dose| {
        let weighed = bottle.weighed.iter().any(|w| w.product == dose.product);
        let stock = bottle.from_stock.iter().any(|s| s.product == dose.product);
        weighed || stock || recipe::say::capital(&dose.name) == bottle.name
    };
    plan.doses.iter().filter(|dose| dose.into == Into::Bottle).filter(holds)
}

/// What the doses of a bottle lift in a day: mg/L of an ion in the smallest litres.
fn a_day(tank: &Tank, plan: &Plan, bottle: &Bottle, ion: Ion) -> f64 {
    let litres = tank.geometry.true_l;
    let smaller = if litres.low > 0.0 { (litres.value / litres.low).max(1.0) } else { 1.0 };
    let brought = inside(plan, bottle).flat_map(|dose| &dose.brings).filter(|(i, _)| *i == ion);
    smaller * brought.map(|(_, mg)| mg).sum::<f64>()
}

/// meq/L of a German degree of hardness (DIN 38409-6, source key `din_38409_6`): 2 × 10 mg CaO ÷ 56.077 g/mol.
pub(crate) const MEQ_PER_GERMAN_DEGREE: f64 = 20.0 / 56.077;

fn rises(tank: &Tank, plan: &Plan, bottle: &Bottle, times: f64) -> Vec<Rise> {
    let limit = &book().harm.limit;
    let ion = |ion: Ion, most: &Limit| Rise {
        what: ion.name().to_owned(),
        rise: times * a_day(tank, plan, bottle, ion),
        most: most.value(),
        unit: "mg/L",
    };
    let hardness: f64 = [Ion::Calcium, Ion::Magnesium]
        .into_iter()
        .map(|ion| a_day(tank, plan, bottle, ion) / ion.molar_mass() * f64::from(ion.charge()))
        .sum();
    let hard = Rise {
        what: "hardness".to_owned(),
        rise: times * hardness,
        most: limit.hardness_step_dh.value() * MEQ_PER_GERMAN_DEGREE,
        unit: "meq/L",
    };
    let litres = tank.geometry.true_l;
    let of = |dose: &Dose| {
        let product = book().product(&dose.product);
        product.map_or(0.0, |p| dose.amount * p.alkalinity_meq_per_g() * p.assay()) / litres.low.max(f64::MIN_POSITIVE)
    };
    let alkalinity = Rise {
        what: "alkalinity".to_owned(),
        rise: times * inside(plan, bottle).map(of).sum::<f64>(),
        most: limit.alkalinity_step_meq_per_l.value(),
        unit: "meq/L",
    };
    let all = [
        ion(Ion::Nitrate, &limit.nitrate_step_mg_per_l),
        ion(Ion::Potassium, &limit.potassium_step_mg_per_l),
        ion(Ion::Phosphate, &limit.phosphate_step_mg_per_l),
        ion(Ion::Iron, &limit.iron_step_mg_per_l),
        hard,
        alkalinity,
    ];
    all.into_iter().filter(|rise| rise.rise > 0.0).collect()
}

fn one(tank: &Tank, plan: &Plan, bottle: &Bottle, times: f64) -> Doubled {
    let pen = Pen::new(&tank.units);
    let rises = rises(tank, plan, bottle, times);
    let limit = &book().harm.limit;
    let copper = a_day(tank, plan, bottle, Ion::Copper);
    let stands = plan.levels.iter().find(|level| level.ion == Some(Ion::Copper));
    let copper_mg_per_l = stands
        .filter(|_| tank.animals.invertebrates() && copper > 0.0)
        .map(|level| level.may_reach() + (times - 1.0) * copper);
    let defaults = &book().defaults.change_percent;
    let share = if plan.change.share > 0.0 { plan.change.share } else { defaults.value / 100.0 };
    let worst = rises.iter().map(|r| r.rise / r.most).fold(0.0, f64::max);
    let copper_over = copper_mg_per_l.map_or(0.0, |mg| mg / limit.copper_refuse_mg_per_l.value());
    let far = worst.max(copper_over);
    let changes = if far > 1.0 && share < 1.0 { up((1.0 / far).ln() / (1.0 - share).ln()) as u32 } else { 0 };
    let mut doubled = Doubled {
        bottle: bottle.name.clone(),
        times,
        rises,
        copper_mg_per_l,
        changes,
        says: String::new(),
        why: why_changes(&pen, far, share, changes),
    };
    doubled.says = doubled_says(tank, plan, &pen, &doubled, share);
    doubled
}

fn why_changes(pen: &Pen, far: f64, share: f64, changes: u32) -> Why {
    let limit = &book().harm.limit.nitrate_step_mg_per_l;
    why(
        "doubled",
        format!("why {}?", counted(f64::from(changes), "change", "changes")),
        format!(
            "{} of the most in a day; ln(1 ÷ {}) ÷ ln(1 − {}) → {changes}",
            pen.n(far, 2),
            pen.n(far, 2),
            pen.n(share, 2)
        ),
        "Each change takes its share of what is too much.".to_owned(),
        &[source(limit)],
        Kind::CommonPractice,
    )
}

fn doubled_says(tank: &Tank, plan: &Plan, pen: &Pen, d: &Doubled, share: f64) -> String {
    let limit = &book().harm.limit;
    let lifted = |r: &Rise| {
        format!(
            "{} by {} {} (no harm known to me below {} {} in a day)",
            r.what,
            pen.n(r.rise, 2),
            r.unit,
            pen.n(r.most, 2),
            r.unit
        )
    };
    let over: Vec<String> = d.rises.iter().filter(|r| r.over()).map(lifted).collect();
    let nearest = d.rises.iter().max_by(|a, b| (a.rise / a.most).total_cmp(&(b.rise / b.most)));
    let mut says = match (over.is_empty(), nearest) {
        (true, None) => "It lifts nothing that has a limit.".to_owned(),
        (true, Some(nearest)) => format!("It lifts {}; nothing else comes as near to its limit.", lifted(nearest)),
        (false, _) => format!("It lifts {}: too much for one day.", recipe::say::list(&over)),
    };
    if let Some(mg) = d.copper_mg_per_l {
        says += &format!(
            " Copper comes to {} mg/L: shrimps and snails are harmed from {} mg/L on, and above {} I change water at once.",
            pen.n(mg, 2),
            pen.n(limit.copper_ask_mg_per_l.value(), 1),
            pen.n(limit.copper_refuse_mg_per_l.value(), 1)
        );
    }
    let stopped = refused_tap(tank, plan).filter(|_| tank.animals.any());
    let changes = if stopped.is_some() { 0 } else { d.changes };
    says += &match (d.changes, &stopped) {
        (0, _) => " Nothing needs to be done.".to_owned(),
        (_, Some(stops)) => format!(" No change with your tap: {stops} More air, and watch how the animals breathe."),
        (changes, None) => brought_down(tank, plan, pen, share, changes),
    };
    if d.changes > MANY_CHANGES {
        says += " That is far more than a slip: read Help now, “I gave far too much from a bottle”, first.";
    }
    // What the changes take out needs no waiting for.
    let pause = up((d.times - 1.0) * (1.0 - share).powi(changes as i32)).max(1.0);
    format!("{says} Leave this bottle away for {}, then carry on.", days(pause))
}

/// The changes that bring it down: on the same day, or where the plan may change only so much at once, by its days.
fn brought_down(tank: &Tank, plan: &Plan, pen: &Pen, share: f64, changes: u32) -> String {
    let apart = days(f64::from(plan.change.every_days.max(1)));
    let when = match (&plan.change.limited, changes) {
        (_, 1) => "once, today".to_owned(),
        (Some(_), n) => format!(
            "{}, {apart} apart, for more at once your tap’s own water does not allow",
            counted(f64::from(n), "time", "times")
        ),
        (None, n) => format!("today, {}", counted(f64::from(n), "time", "times")),
    };
    let old =
        tank.unchanged_months.map_or_else(String::new, |_| format!(" But: {}", book().harm.rule.old_acid_tank.say));
    format!(
        " Change {}, {when}, with plugs out, conditioner first and water as warm as the tank; watch how the animals breathe.{old}",
        pen.litres(share * plan.true_l.value)
    )
}
