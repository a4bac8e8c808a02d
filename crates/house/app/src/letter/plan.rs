//! The plan in plain text: bottles first, then the change, what was left out, levels, and what to watch.

use recipe::{Bottle, Conditioner, Level, Note, Plan, Stands};
use setup::Tank;

use super::really::really;
use super::text::{Text, level_name, money};

/// The plan: what is far from usual, what to do first, then what was left out, then what stands in the water and what to buy.
pub fn plan(tank: &Tank, plan: &Plan) -> String {
    let mut t = Text::new(&tank.units);
    t.head(&format!("{}: {} of water", tank.name, t.known_volume(&plan.true_l)));
    really(&mut t, tank);
    refused(&mut t, plan);
    let standing = |place: Stands| plan.cautions.iter().filter(move |note| note.stands() == place);
    let weighing: Vec<&str> = standing(Stands::Weighing).map(|note| note.text.as_str()).collect();
    if !weighing.is_empty() {
        t.head("Before you weigh");
        t.say(&weighing.join(" "));
    }
    for bottle in &plan.bottles {
        self::bottle(&mut t, tank, plan, bottle);
    }
    if plan.bottles.is_empty() {
        t.head("No bottle");
        t.say("Nothing is given day by day.");
    }
    change(&mut t, plan);
    let changed = plan.change.litres > 0.0;
    let minded = |note: &&Note| note.stands() == Stands::Mind || (note.stands() == Stands::Change && !changed);
    notes(&mut t, "Mind", plan.cautions.iter().filter(minded));
    notes(&mut t, "Left out", &plan.left_out);
    if !plan.unmet.is_empty() {
        t.head("Not reached");
        for unmet in &plan.unmet {
            t.point(&unmet.text);
        }
    }
    levels(&mut t, plan);
    water(&mut t, plan);
    notes(&mut t, "May I buy this here?", &plan.law);
    shopping(&mut t, tank, plan);
    proof(&mut t, plan);
    notes(&mut t, "What I keep to", standing(Stands::Mine));
    t.finish()
}

fn notes<'a>(t: &mut Text, head: &str, notes: impl IntoIterator<Item = &'a Note>) {
    let mut notes = notes.into_iter().peekable();
    if notes.peek().is_none() {
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

fn bottle(t: &mut Text, tank: &Tank, plan: &Plan, bottle: &Bottle) {
    t.head(&format!("{}: {} mL {}", bottle.name, t.n(bottle.daily_ml, 3), bottle.time_of_day));
    let mut steps: Vec<String> = Vec::new();
    let weighed: Vec<String> = bottle.weighed.iter().map(|w| format!("{} g of {}", t.n(w.grams, 4), w.name)).collect();
    if !weighed.is_empty() {
        steps.push(format!("Weigh {} into an empty bottle.", weighed.join(" and ")));
    }
    steps.extend(bottle.from_stock.iter().map(|stock| stock.sentence.clone()));
    if bottle.volume_ml > 0.0 {
        steps.push(format!(
            "Fill up with boiled, cooled water to {} mL, shake until it is clear, and write the day on it.",
            t.n(bottle.volume_ml, 3)
        ));
    }
    let lasts =
        if bottle.lasts_days > 0.0 { format!("; it lasts {}", t.days(bottle.lasts_days)) } else { String::new() };
    let drops = tank.at_hand.drops(bottle.daily_ml).map_or_else(String::new, |drops| format!(" ({drops} drops)"));
    steps.push(format!("Give {} mL{drops} {}{lasts}. {}", t.n(bottle.daily_ml, 3), bottle.time_of_day, bottle.slip));
    for (i, step) in steps.iter().enumerate() {
        t.step(i + 1, step);
    }
    let said = |line: &String| {
        bottle.from_stock.iter().any(|stock| stock.sentence == *line)
            || plan.cautions.iter().any(|note| note.stands() == Stands::Weighing && note.text == *line)
    };
    for line in bottle.handling.iter().filter(|line| !said(line)) {
        t.point(line);
    }
    if !bottle.hazards.is_empty() {
        // Their words stand in the lines before.
        let codes = |hazard: &String| {
            let codes = hazard.rsplit_once('(').map_or(hazard.as_str(), |(_, codes)| codes);
            codes.trim_end_matches(").").to_owned()
        };
        t.point(&format!("Hazard statements: {}.", bottle.hazards.iter().map(codes).collect::<Vec<_>>().join("; ")));
    }
    let errors = bottle.weighed.iter().map(|w| w.error_share).chain(bottle.from_stock.iter().map(|s| s.error_share));
    let off = errors.fold(0.0, f64::max);
    if off >= 0.005 {
        t.say(&format!("Scale and syringe move a dose by {} % at most.", t.n(100.0 * off, 2)));
    }
}

fn change(t: &mut Text, plan: &Plan) {
    let change = &plan.change;
    let (buckets, each) = change.buckets;
    let begin = match &plan.begin {
        Some(begin) if begin.share < change.share => "smaller at first, then ",
        Some(_) => "with less of the salts at first, ",
        None => "",
    };
    t.head(&match change.every_days {
        0 => "New water: none is changed".to_owned(),
        days => format!(
            "New water: {begin}{} {} ({} %), {buckets} {} of {}",
            t.volume(change.litres),
            if days == 1 { "every day".to_owned() } else { format!("every {days} days") },
            t.n(100.0 * change.share, 3),
            if buckets == 1 { "bucket" } else { "buckets" },
            t.volume(each)
        ),
    });
    if let Some(first) = plan.first_changes() {
        t.say(&first.text);
    }
    let conditioner = plan.new_water.conditioner.as_ref();
    if let Some(act) = conditioner.and_then(|c| c.refused.as_ref().or(c.sentences.first())) {
        t.say(act);
    }
    if let Some(limited) = &change.limited {
        t.say(limited);
    }
    if plan.low_share > 0.0 {
        t.say(&format!("{} % of it is low-mineral water.", t.n(100.0 * plan.low_share, 2)));
    }
    for salt in &plan.new_water.salts {
        t.point(&match &salt.from_stock {
            Some(_) => format!("A little {}. {}", salt.name, salt.how),
            None => format!("{} g of {} for the change. {}", t.n(salt.grams_a_change, 3), salt.name, salt.how),
        });
    }
    for note in plan.new_water.notes.iter().filter(|note| Some(*note) != plan.first_changes()) {
        t.point(&note.text);
    }
    if change.litres > 0.0 {
        for note in plan.cautions.iter().filter(|note| note.stands() == Stands::Change) {
            t.point(&note.text);
        }
    }
    if let Some(conditioner) = conditioner.filter(|c| c.refused.is_none()) {
        self::conditioner(t, conditioner);
    }
}

fn conditioner(t: &mut Text, c: &Conditioner) {
    t.head("The conditioner");
    t.say(&format!(
        "Weigh {} g of sodium thiosulfate pentahydrate into {} mL of boiled, cooled water; pour it out after {}.",
        t.n(c.stock_g, 3),
        t.n(c.stock_ml, 3),
        t.days(c.keeps_days)
    ));
    for sentence in c.sentences.iter().skip(1).chain(&c.more) {
        t.point(sentence);
    }
}

fn levels(t: &mut Text, plan: &Plan) {
    t.head("Levels");
    let (after, before) = recipe::levels::marks(&plan.alkalinity);
    let head = ["", "new water", "given a day", "used a day", after, before, "wished"];
    let mut rows = vec![head.map(str::to_owned)];
    for level in plan.levels.iter().chain([&plan.alkalinity]) {
        let (factor, unit) = t.unit(level.ion);
        let known = |known: &quantity::Known<f64>| t.known(&known.map(|v| factor * v));
        rows.push([
            format!("{}, {unit}", level_name(level.ion)),
            known(&level.new_water),
            t.level(factor * level.dose_per_day),
            known(&level.uptake_per_day),
            known(&level.after_change),
            known(&level.before_change),
            level.band.map_or(String::new(), |(l, h)| format!("{} to {}", t.level(factor * l), t.level(factor * h))),
        ]);
    }
    t.table(&rows);
    for level in &plan.levels {
        runs_out(t, level);
    }
}

fn runs_out(t: &mut Text, level: &Level) {
    let name = level_name(level.ion);
    let (poorest, day) = match (level.runs_out_day, level.runs_out_day_poorest) {
        (Some(day), _) => (String::new(), day),
        (None, Some(day)) => (format!("{} ", recipe::levels::poorest(level)), day),
        (None, None) => return,
    };
    if day < 1.0 {
        t.say(&format!("{name}: {poorest}there is next to none."));
    } else {
        let since = if level.unchanged_days.is_some() { "it was filled" } else { "a change" };
        t.say(&format!("{name}: {poorest}it runs out on day {:.0} after {since}.", day.floor()));
    }
}

fn water(t: &mut Text, plan: &Plan) {
    let Some(aired) = &plan.aired else { return };
    t.head("The water in the tank, aired for a day");
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
        let price = money(t, &tank.currency, purchase.price_minor.value);
        let lasts = purchase.lasts().map_or(String::new(), |(days, longer)| {
            format!(", lasts {}{}", if longer { "over " } else { "" }, t.days(days))
        });
        t.point(&format!("{}, {price} ({}){lasts}", purchase.name, purchase.price_minor.kind.words()));
    }
    recipe::to_share(plan).iter().for_each(|text| t.say(text));
    recipe::may_wait(plan).iter().for_each(|text| t.say(text));
}

fn proof(t: &mut Text, plan: &Plan) {
    let open: Vec<&str> = plan.proof.stages.iter().filter(|(_, proved)| !proved).map(|(s, _)| s.as_str()).collect();
    if !open.is_empty() {
        t.head("How sure");
        t.say(&format!("Best found, not proved to be the best: {}.", open.join(", ")));
    }
}
