//! The change of water as one sheet: what must not be, litres and buckets, conditioner first, warmth, the order of work.
//!
//! The numbers are the plan's; the order puts people first and animals second: plugs out with dry hands and the wait, then
//! the bucket, then the siphon (harm rules 5, 18, 19, 20, 23). A tank that the log shows long unchanged gets a tenth, by bucket
//! (harm rule 8). Water that the plan does not use has no steps at all.
//!
//! Checked by: `tests/by_hand_change.rs`, `tests/harm.rs`.

mod small;

use heat::Pour;
use jiff::civil::Date;
use quantity::{Kind, Why};
use recipe::say::{Pen, count};
use recipe::{Conditioner, Plan};
use setup::Tank;

use crate::day::Act;
use crate::top_up::copper_untold;
pub(crate) use small::Small;

/// The sheet.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct ChangeSheet {
    /// The day on which it is due; today, where it was carried on.
    pub date: Date,
    /// The day from which it was carried on.
    pub since: Option<Date>,
    /// Why no water is changed; then there is nothing below.
    pub stop: Option<String>,
    /// L.
    pub litres: f64,
    /// Share of the water, 0 to 1.
    pub share: f64,
    /// Buckets and L in each; none by hose.
    pub buckets: (u32, f64),
    /// mL of conditioner for each bucket, or by hose for the whole tank; `None`: none is needed, or it is not used.
    pub conditioner_ml: Option<f64>,
    /// Salts go into the new water.
    pub salts: bool,
    /// Its litres and salts are for now only: the plan begins so, a reading or a pause in the log keeps it small.
    pub for_now: bool,
    /// The step of the salts of a change with which the plan begins.
    #[serde(skip)]
    pub(crate) salts_of_begin: Option<Step>,
    /// What must be known before the first step: a change that begins smaller, one that is limited, a tank long unchanged.
    pub first: Vec<String>,
    /// New water and its warmth.
    pub warmth: Option<Warmth>,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// What is done along with it.
    pub along: Vec<Act>,
    /// What is given into the new water once the change is done: the day's doses, today.
    pub after: Vec<Act>,
}

/// A step.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Step {
    /// What to do: a sentence that begins with the verb.
    pub say: String,
    /// What to mind in it, with its number.
    pub minds: Vec<String>,
}

/// New water straight from the tap, at the end of its year that differs most from the tank.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Warmth {
    /// The tank, °C.
    pub tank_c: f64,
    /// The tap, °C.
    pub new_c: f64,
    /// The tank after it, °C.
    pub mixed_c: f64,
    /// By how much it moves, °C; below 0 it cools.
    pub moves_c: f64,
    /// The mildest new water that goes in at once, °C.
    pub mildest_c: f64,
    /// L of hot water from the kettle that warm a bucket so far; 0: none.
    pub kettle_l: f64,
    /// Whether it is too much for an hour.
    pub too_much: bool,
}

/// The sheet of a day; `None`: the routine has no change.
pub(crate) fn sheet(
    tank: &Tank,
    plan: &Plan,
    date: Date,
    since: Option<Date>,
    small: Small<'_>,
    pen: &Pen,
) -> Option<ChangeSheet> {
    if let Some(stopped) = stopped(tank, plan, date) {
        return Some(stopped);
    }
    if plan.change.every_days == 0 || plan.change.share <= 0.0 || tank.geometry.true_l.value <= 0.0 {
        return None;
    }
    if small.read == Some(0.0) {
        let why = "By your readings: no change with this water, it would make it worse. Help now says what helps.";
        return Some(stop_sheet(date, why.to_owned()));
    }
    let by_hose = tank.at_hand.by_hose;
    let is_small = small.is_below(plan.change.share);
    let mut tank = tank.clone();
    // A hose wants the conditioner of the whole tank, which is too much for so little water.
    tank.at_hand.by_hose &= !is_small;
    let tank = &tank;
    let mut sheet = ChangeSheet {
        date,
        since,
        stop: None,
        litres: plan.change.litres,
        share: plan.change.share,
        buckets: if tank.at_hand.by_hose { (0, 0.0) } else { plan.change.buckets },
        conditioner_ml: None,
        salts: false,
        for_now: false,
        salts_of_begin: None,
        first: Vec::new(),
        warmth: None,
        steps: Vec::new(),
        along: Vec::new(),
        after: Vec::new(),
    };
    sheet.first.extend(plan.change.limited.clone());
    let too_little = |habit: &recipe::Refused| format!("{} take away too little. {}", habit.wish, habit.ways.join(" "));
    // A larger change waits until nothing is read against it.
    let calm = small.read.is_none() && !small.no_salts;
    sheet.first.extend(plan.refused_habit().filter(|_| calm).map(too_little));
    sheet.first.extend(copper_untold(tank));
    small.shrink(&mut sheet, tank, plan, by_hose, pen);
    sheet.warmth = warmth(tank, plan, &sheet);
    sheet.conditioner_ml = plan.new_water.conditioner.as_ref().map(|c| match tank.at_hand.by_hose {
        true => c.ml_whole_tank,
        false => c.for_litres(tank, sheet.buckets.1).0,
    });
    // Of a smaller change the first lines say how much of the salts goes in; none where a reading or a pause keeps it small.
    sheet.for_now = small.passes(plan.change.share);
    sheet.salts = !sheet.for_now && !plan.new_water.salts.is_empty();
    sheet.steps = steps(tank, plan, &sheet, pen);
    Some(sheet)
}

/// Why no water is changed at all.
fn stop(plan: &Plan) -> Option<String> {
    let refused = plan.new_water.conditioner.as_ref().and_then(|c| c.refused.clone());
    let limited = || plan.change.limited.clone().unwrap_or_else(|| "No change is planned.".to_owned());
    refused.or_else(|| (plan.change.share <= 0.0).then(limited))
}

/// The sheet of a keeper who changes water, where the plan lets none of it in: it says why, every day.
pub(crate) fn stopped(tank: &Tank, plan: &Plan, date: Date) -> Option<ChangeSheet> {
    let wants = tank.habits.every_days > 0 && tank.habits.change_share.value > 0.0 && plan.true_l.value > 0.0;
    Some(stop_sheet(date, stop(plan).filter(|_| wants)?))
}

/// A sheet that only says why no water is changed.
fn stop_sheet(date: Date, why: String) -> ChangeSheet {
    ChangeSheet {
        date,
        since: None,
        stop: Some(why),
        litres: 0.0,
        share: 0.0,
        buckets: (0, 0.0),
        conditioner_ml: None,
        salts: false,
        for_now: false,
        salts_of_begin: None,
        first: Vec::new(),
        warmth: None,
        steps: Vec::new(),
        along: Vec::new(),
        after: Vec::new(),
    }
}

/// The tap's end that differs most.
fn warmth(tank: &Tank, plan: &Plan, sheet: &ChangeSheet) -> Option<Warmth> {
    if !tank.animals.any() || sheet.share <= 0.0 {
        return None;
    }
    let limit = &knowledge::book().harm.limit;
    let tank_c = tank.temperature_c.value;
    let water = recipe::blended(tank, plan.low_share).temperature_c;
    let new_c = if (water.low - tank_c).abs() >= (water.high - tank_c).abs() { water.low } else { water.high };
    let pour = Pour { tank_c, new_c, share: sheet.share };
    let hour = limit.temperature_step_c_per_h.value();
    let too_much = pour.moves_c().abs() > hour;
    let mildest_c = pour.mildest_c(hour);
    let kettle_c = knowledge::book().routine.number.kettle_c.value;
    let hot = too_much && pour.moves_c() < 0.0 && kettle_c > mildest_c;
    let kettle_l = if hot { sheet.buckets.1 * (mildest_c - new_c) / (kettle_c - new_c) } else { 0.0 };
    Some(Warmth { tank_c, new_c, mixed_c: pour.after_c(), moves_c: pour.moves_c(), mildest_c, kettle_l, too_much })
}

impl Warmth {
    fn says(&self, tank: &Tank, pen: &Pen) -> Step {
        let (rule, limit) = (&knowledge::book().harm.rule, &knowledge::book().harm.limit);
        let from_tap = format!(
            "Straight from the tap at {} the tank would go from {} to {}; at most {} in an hour and {} in a day.",
            pen.celsius(self.new_c),
            pen.celsius(self.tank_c),
            pen.celsius(self.mixed_c),
            pen.kelvin(limit.temperature_step_c_per_h.value()),
            pen.kelvin(limit.temperature_step_c.value())
        );
        let mut minds = vec![from_tap];
        let what = if tank.at_hand.by_hose { "Measure at the hose" } else { "Measure each bucket" };
        if !self.too_much {
            minds.push(rule.new_water_temperature.say.clone());
            return Step { say: format!("{what}."), minds };
        }
        let than = if self.moves_c < 0.0 { "colder" } else { "warmer" };
        if self.kettle_l > 0.0 && !tank.at_hand.by_hose {
            minds.push(format!(
                "With the tap at its coldest about {} of a bucket come hot from the kettle. {}",
                pen.litres(self.kettle_l),
                rule.kettle_water.say
            ));
        } else if self.moves_c > 0.0 {
            minds.push("Let the buckets stand in a cool room until they feel like the tank.".to_owned());
        }
        // One sentence says how warm: of the rule its second half.
        minds.extend(rule.new_water_temperature.say.split_once(": ").map(|(_, measure)| recipe::say::capital(measure)));
        let mildest = pen.celsius(self.mildest_c);
        Step { say: format!("{what}: new water should feel like the tank, and is never {than} than {mildest}."), minds }
    }

    /// Why so warm.
    pub(crate) fn why(&self, sheet: &ChangeSheet, pen: &Pen) -> Why {
        let limit = &knowledge::book().harm.limit.temperature_step_c_per_h;
        Why {
            key: "change-warmth".to_owned(),
            question: format!("why {}?", pen.celsius(self.mixed_c)),
            sum: format!(
                "{} + {} × ({} − {}) = {}; {} {} {} ÷ {} = {}",
                pen.celsius(self.tank_c),
                pen.share(sheet.share),
                pen.celsius(self.new_c),
                pen.celsius(self.tank_c),
                pen.celsius(self.mixed_c),
                pen.celsius(self.tank_c),
                if self.moves_c < 0.0 { "−" } else { "+" },
                pen.kelvin(limit.value()),
                pen.share(sheet.share),
                pen.celsius(self.mildest_c)
            ),
            words: "Mixing by volume; glass and ground are left out, which errs to the side of the new water."
                .to_owned(),
            sources: Vec::new(),
            kind: Kind::WorkedOut,
        }
    }
}

fn step(say: impl Into<String>, minds: &[&str]) -> Step {
    Step { say: say.into(), minds: minds.iter().map(|mind| (*mind).to_owned()).collect() }
}

fn steps(tank: &Tank, plan: &Plan, sheet: &ChangeSheet, pen: &Pen) -> Vec<Step> {
    let rule = &knowledge::book().harm.rule;
    let wait = pen.n(knowledge::book().harm.limit.heater_wait_min.value(), 2);
    let mut steps = vec![
        step("Look at the tap.", &[&rule.tap_notice.say, &rule.cold_tap.say]),
        step(
            format!("With dry hands: plugs out. Wait {wait} minutes, so that the heater cools."),
            &[&rule.plugs_out.say],
        ),
    ];
    let out = format!("{} out", pen.litres(sheet.litres));
    let siphon = step(format!("Siphon {out}, from between the stones first."), &[&rule.siphon.say]);
    let salts = sheet.salts.then(|| salts(plan)).or_else(|| sheet.salts_of_begin.clone());
    if tank.at_hand.by_hose {
        steps.push(siphon);
        steps.extend(by_hose(plan));
        steps.extend(salts);
        steps.extend(sheet.warmth.map(|warmth| warmth.says(tank, pen)));
        steps.push(step("Let the new water run in slowly.", &["A hose never ends under water."]));
    } else {
        steps.push(fill(tank, plan, sheet, pen));
        steps.extend(conditioner(tank, plan, sheet, pen));
        steps.extend(salts);
        steps.extend(sheet.warmth.map(|warmth| warmth.says(tank, pen)));
        steps.push(siphon);
        steps.push(step("Pour slowly, onto a plate or a hand, so that the ground stays.", &[]));
    }
    steps.push(step("The water is over the heater's mark again: dry hands, plugs back. Wash your hands.", &[]));
    steps
}

fn fill(tank: &Tank, plan: &Plan, sheet: &ChangeSheet, pen: &Pen) -> Step {
    let harm = &knowledge::book().harm;
    let (buckets, each) = sheet.buckets;
    let word = if buckets == 1 { "bucket" } else { "buckets" };
    let mixed = match tank.low.as_ref().filter(|_| plan.low_share > 0.0) {
        Some(low) => format!(" Mix: {} of {}, the rest from the tap.", pen.litres(plan.low_share * each), low.name),
        None => String::new(),
    };
    Step {
        say: format!(
            "Fill {} {word} with {}{}.{mixed}",
            count(buckets),
            pen.litres(each),
            if buckets == 1 { "" } else { " each" }
        ),
        minds: vec![format!("{} {}", harm.rule.clean_bucket.say, harm.limit.bucket_l.say)],
    }
}

/// The plan's own sentence, which carries the number at which harm starts; for other buckets its amount is worked out anew.
fn conditioner(tank: &Tank, plan: &Plan, sheet: &ChangeSheet, pen: &Pen) -> Option<Step> {
    let c = plan.new_water.conditioner.as_ref()?;
    let limit = &knowledge::book().harm.limit;
    let ml = sheet.conditioner_ml?;
    let ammonia = c.sentences.iter().find(|say| say.contains("ammonia")).cloned();
    let mut minds = vec![format!(
        "It covers {} of total chlorine; gills are hurt from about {} mg/L on within hours and from {} over weeks.",
        pen.mg(c.for_litres(tank, sheet.buckets.1).1),
        pen.n(limit.chlorine_acute_mg_per_l.value(), 1),
        pen.n(limit.chlorine_chronic_mg_per_l.value(), 2)
    )];
    minds.extend(ammonia);
    Some(Step {
        say: format!(
            "First into each bucket: {} of {}. Stir, wait {} minutes.",
            pen.ml(ml),
            Conditioner::NAMED,
            pen.n(limit.conditioner_wait_min.value(), 2)
        ),
        minds,
    })
}

/// By hose the conditioner for the whole tank comes before the water: the plan's own sentences.
fn by_hose(plan: &Plan) -> Option<Step> {
    let c = plan.new_water.conditioner.as_ref()?;
    let act = c.sentences.first()?;
    let act = act.split_once(": ").map_or(act.as_str(), |(_, act)| act);
    let ammonia = c.sentences.iter().filter(|say| say.contains("ammonia")).cloned();
    let named = format!("These millilitres are of {}.", Conditioner::NAMED);
    Some(Step { say: format!("Before the water: {act}"), minds: std::iter::once(named).chain(ammonia).collect() })
}

fn salts(plan: &Plan) -> Step {
    let each = |salt: &recipe::Salt| format!("{}: {}", recipe::say::capital(&salt.name), salt.how);
    Step {
        say: "Then the salts for the new water; stir until it is clear.".to_owned(),
        minds: plan.new_water.salts.iter().map(each).collect(),
    }
}
