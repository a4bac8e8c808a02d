//! The plan in plain text: bottles first, then the change, what was left out, levels, and what to watch.

use recipe::{Bottle, Conditioner, Level, Note, Plan};
use setup::Tank;

use super::text::{Text, level_name};

/// The plan.
pub fn plan(tank: &Tank, plan: &Plan) -> String {
    let mut t = Text::new(&tank.units);
    t.head(&format!("{}: {} L of water", tank.name, t.known(&plan.true_l)));
    refused(&mut t, plan);
    for bottle in &plan.bottles {
        self::bottle(&mut t, bottle);
    }
    if plan.bottles.is_empty() {
        t.head("No bottle");
        t.say("Nothing is given day by day.");
    }
    change(&mut t, plan);
    notes(&mut t, "Left out", &plan.left_out);
    levels(&mut t, plan);
    water(&mut t, plan);
    if !plan.unmet.is_empty() {
        t.head("Not reached");
        for unmet in &plan.unmet {
            t.point(&unmet.text);
        }
    }
    notes(&mut t, "Beside the dose", &plan.cautions);
    notes(&mut t, "May I buy this here?", &plan.law);
    shopping(&mut t, tank, plan);
    proof(&mut t, plan);
    t.finish()
}

fn notes(t: &mut Text, head: &str, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    t.head(head);
    for note in notes {
        t.point(&note.text);
    }
}

fn refused(t: &mut Text, plan: &Plan) {
    for refused in &plan.refused {
        t.head(&format!("Not done: {}", refused.wish));
        t.say(&refused.why);
        for way in &refused.ways {
            t.point(way);
        }
    }
}

fn bottle(t: &mut Text, bottle: &Bottle) {
    t.head(&format!(
        "{}: {} mL, give {} mL {}, lasts {}",
        bottle.name,
        t.n(bottle.volume_ml, 3),
        t.n(bottle.daily_ml, 3),
        bottle.time_of_day,
        t.days(bottle.lasts_days)
    ));
    for weighed in &bottle.weighed {
        t.point(&format!(
            "weigh {} g of {} (rounding moves the dose by {} % at most)",
            t.n(weighed.grams, 4),
            weighed.name,
            t.n(100.0 * weighed.error_share, 2)
        ));
    }
    for sentence in &bottle.handling {
        t.say(sentence);
    }
    for hazard in &bottle.hazards {
        t.say(hazard);
    }
    t.say(&bottle.slip);
}

fn change(t: &mut Text, plan: &Plan) {
    let change = &plan.change;
    if change.every_days == 0 {
        t.head("New water: none is changed");
    } else {
        t.head(&format!(
            "New water: {} L every {} days ({} %), {} buckets of {} L",
            t.n(change.litres, 3),
            change.every_days,
            t.n(100.0 * change.share, 3),
            change.buckets.0,
            t.n(change.buckets.1, 3)
        ));
    }
    if let Some(limited) = &change.limited {
        t.say(limited);
    }
    if plan.low_share > 0.0 {
        t.say(&format!("{} % of it is low-mineral water.", t.n(100.0 * plan.low_share, 2)));
    }
    for salt in &plan.new_water.salts {
        t.point(&format!(
            "{} g of {} for the change, {} g a bucket. {}",
            t.n(salt.grams_a_change, 3),
            salt.name,
            t.n(salt.grams_a_bucket, 3),
            salt.how
        ));
    }
    if let Some(conditioner) = &plan.new_water.conditioner {
        self::conditioner(t, conditioner);
    }
}

fn conditioner(t: &mut Text, c: &Conditioner) {
    if let Some(refused) = &c.refused {
        t.say(refused);
        return;
    }
    t.point(&format!(
        "conditioner: {} g of sodium thiosulfate pentahydrate in {} mL of water; of that {} mL a bucket, or {} mL for \
         the whole tank before water from a hose; covers {} mg/L total chlorine",
        t.n(c.stock_g, 3),
        t.n(c.stock_ml, 3),
        t.n(c.ml_a_bucket, 3),
        t.n(c.ml_whole_tank, 3),
        t.n(c.covers_mg_per_l, 2)
    ));
    for sentence in &c.sentences {
        t.say(sentence);
    }
}

fn levels(t: &mut Text, plan: &Plan) {
    t.head("Levels, mg/L (alkalinity: meq/L)");
    let head = ["", "new water", "given a day", "used a day", "after change", "before change", "wished"];
    let mut rows = vec![head.map(str::to_owned)];
    for level in plan.levels.iter().chain([&plan.alkalinity]) {
        rows.push([
            level_name(level.ion).to_owned(),
            t.known(&level.new_water),
            t.level(level.dose_per_day),
            t.known(&level.uptake_per_day),
            t.known(&level.after_change),
            t.known(&level.before_change),
            level.band.map_or(String::new(), |(l, h)| format!("{} to {}", t.level(l), t.level(h))),
        ]);
    }
    t.table(&rows);
    for level in &plan.levels {
        runs_out(t, level);
    }
}

fn runs_out(t: &mut Text, level: &Level) {
    let name = level_name(level.ion);
    match (level.runs_out_day, level.runs_out_day_poorest) {
        (Some(day), _) => t.say(&format!("{name}: runs out on day {} after a change.", t.n(day, 2))),
        (None, Some(day)) => {
            t.say(&format!("{name}: at the poorest tap it runs out on day {} after a change.", t.n(day, 2)));
        }
        (None, None) => {}
    }
}

fn water(t: &mut Text, plan: &Plan) {
    let Some(aired) = &plan.aired else { return };
    t.head("The water in the tank");
    let share = aired.nh3_fraction.map(|f| 100.0 * f);
    t.say(&format!(
        "pH {}; {} µS/cm at 25 °C; free carbon dioxide {} mg/L; toxic share of ammonia {} %; calcite index {}.",
        t.known(&aired.ph),
        t.known(&aired.conductivity_25_us_per_cm),
        t.known(&aired.co2_mg_per_l),
        t.known(&share),
        t.known(&aired.calcite)
    ));
}

fn shopping(t: &mut Text, tank: &Tank, plan: &Plan) {
    let bought: Vec<_> = plan.shopping.iter().filter(|p| !p.owned).collect();
    if bought.is_empty() {
        return;
    }
    t.head("To buy");
    for purchase in &bought {
        let price = t.n(purchase.price_minor.value / 100.0, 3);
        let lasts = purchase.lasts_days.map_or(String::new(), |d| format!(", lasts {}", t.days(d)));
        t.point(&format!(
            "{}, {price} {} ({}){lasts}",
            purchase.name,
            tank.currency,
            purchase.price_minor.kind.words()
        ));
    }
}

fn proof(t: &mut Text, plan: &Plan) {
    let open: Vec<&str> = plan.proof.stages.iter().filter(|(_, proved)| !proved).map(|(s, _)| s.as_str()).collect();
    if !open.is_empty() {
        t.head("How sure");
        t.say(&format!("Best found, not proved to be the best: {}.", open.join(", ")));
    }
}
