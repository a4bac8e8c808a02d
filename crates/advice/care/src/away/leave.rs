//! Before leaving, what is reduced, and the first days back.

use knowledge::book;
use quantity::Kind;
use recipe::say::{Pen, capital};
use recipe::{Note, Plan};
use setup::Tank;

use super::Away;
use super::cans::{Cans, Filled};
use crate::alarm::Alarm;
use crate::start_waters::refused_tap;
use crate::start_words::{counted, days, keyed, known, note, range, up};

/// Before leaving, in order.
pub(super) fn before(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Vec<Note> {
    let (harm, row) = (&book().harm, &book().away);
    let mut steps = under_alarm(away);
    steps.push(note(
        "Two weeks before",
        format!(
            "For {} before you go nothing new: no animal, no device, no lamp, no other food, no larger dose.",
            days(row.nothing_new_days.value)
        ),
    ));
    steps.push(keyed(
        "The week before",
        format!(
            "Ammonia, nitrite or anything else above your acts on Care? Then don’t leave before its test is low: who looks in can’t help them. Hoses, taps, cover: tight? {}The timer’s clock right? {} {}",
            if tank.keeping.filter { "The sponge rinsed in tank water. " } else { "" },
            harm.rule.drip_loops.say,
            harm.limit.residual_current_ma.say
        ),
        "drip_loops",
    ));
    if tank.co2_given_mg_per_l.is_some() {
        steps.push(keyed("Carbon dioxide", carbon_dioxide(plan, pen), "co2_never_raised"));
    }
    let change = if plan.change.every_days == 0 {
        "No change: this tank gets none.".to_owned()
    } else {
        format!(
            "{}; wipe the glass, cut plants that reach the surface. {} {} {}",
            recipe::say::capital(&usual_change(plan, pen)),
            harm.rule.plugs_out.say,
            harm.rule.heater_plug.say,
            harm.rule.siphon.say
        )
    };
    steps.push(keyed("The day before", change, "plugs_out"));
    steps.push(keyed(
        "Out of reach",
        format!(
            "Salts, bottles and the food’s packet locked away: whoever means well gives too much. {}",
            harm.rule.not_a_drink.say
        ),
        "not_a_drink",
    ));
    steps.extend(packets(away, pen));
    steps.extend(cans(tank, plan, away, pen));
    if away.card.is_some() || away.meals.count > 0 || away.water.visits > 0 {
        steps.push(note("Show it once", "Print the card below, do one visit together, and write your number on it and that of somebody who keeps fish."));
    }
    steps.push(note(
        "Leaving",
        format!(
            "Timer at {} hours, cover on, a last look: does everybody breathe calmly{}?",
            pen.n(away.light_h, 2),
            if tank.keeping.filter { ", does the filter run" } else { "" }
        ),
    ));
    steps
}

/// Sentences of an alarm that stand here; what is done about it stands on Care and in Help now.
const SAID: usize = 2;

/// Nobody leaves under an alarm of the log: each as Care says it, the most urgent first.
fn under_alarm(away: &Away) -> Vec<Note> {
    let one = |alarm: &Alarm| {
        let says: Vec<&str> = alarm.says.iter().take(SAID).map(String::as_str).collect();
        let food = if alarm.no_food { " Until its test is low nobody is fed." } else { "" };
        note(
            &alarm.title,
            format!("{}: {} What to do stands on Care.{food}", capital(alarm.urgency.words()), says.join(" ")),
        )
    };
    let first = (!away.alarms.is_empty()).then(|| {
        note(
            "Don’t leave yet",
            "Not while this stands on Care, and not before its test is low: who looks in can’t help them.",
        )
    });
    first.into_iter().chain(away.alarms.iter().map(one)).collect()
}

/// What is said of food while an alarm forbids it.
pub(super) const FASTS: &str = "None now: by your readings nobody is fed until a test is low again, for food turns into more of what harms. \
    Papers are weighed on the day when the test is low: then they are counted here.";

/// Closed while away: pH rises by what the carbon dioxide held down, and the toxic share with it (harm rules 7 and 13).
fn carbon_dioxide(plan: &Plan, pen: &Pen) -> String {
    let (harm, limit) = (&book().harm, book().harm.limit.ammonia_unionised_mg_n_per_l.value());
    let rises = plan.under_co2.as_ref().zip(plan.aired.as_ref()).map_or_else(String::new, |(under, off)| {
        format!(
            " pH then rises from {} to {} and the toxic share of ammonia from {} to up to {}: harm starts at {} mg/L of all ammonia-N, so test it the day after.",
            pen.n(under.ph.value, 2),
            pen.n(off.ph.value, 2),
            pen.percent(under.nh3_fraction.high),
            pen.percent(off.nh3_fraction.high),
            pen.n(limit / off.nh3_fraction.high, 2)
        )
    });
    format!(
        "Close the cylinder’s valve some days before you go, so that you see how all bear it, and leave it closed.{rises} A yeast or acid bottle: its tube out of the tank, its end open in moving air, never pinched. {} {} {}",
        harm.rule.co2_never_raised.say, harm.rule.filter_and_air_stay.say, harm.rule.co2_generator.say
    )
}

fn packets(away: &Away, pen: &Pen) -> Option<Note> {
    let meals = &away.meals;
    if away.fasts() {
        return Some(note("Food", FASTS));
    }
    if meals.young {
        return Some(note(
            "Young fish",
            "They need food every day: somebody who feeds them at home does it, or you can’t go so long.",
        ));
    }
    (meals.count > 0).then(|| {
        let all = f64::from(meals.count) * meals.grams;
        note(
            "Food",
            format!(
                "Weigh {} g and share them into {}, each {} g, in folded papers with the day written on them. Nothing else is fed.",
                pen.n(all, 2),
                counted(f64::from(meals.count), "paper", "papers"),
                pen.n(meals.grams, 2)
            ),
        )
    })
}

/// Water that stands ready for topping up, its conditioner already in it: whoever looks in never holds that bottle (harm rules 1 and 2).
fn cans(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Option<Note> {
    let water = &away.water;
    (water.visits > 0).then(|| {
        let (harm, cans) = (&book().harm, Cans::of(tank, plan, away));
        let filled = match &cans.filled {
            Filled::Plain => "From your tap: it holds no chlorine.".to_owned(),
            Filled::Low => "Low-mineral water, as you top up at home.".to_owned(),
            Filled::Refused(stops) => format!("Not from your tap: {stops} Take low-mineral water."),
            Filled::Conditioned { ml, covers_mg_per_l } => format!(
                "Fill them before you leave, and into each first {} of {}: it covers {} of total chlorine; gills are hurt from about {} mg/L on within hours. Stir, let it stand {} minutes, lid on. Write on each label: CONDITIONER IS IN, ADD NONE.",
                pen.ml(*ml),
                recipe::Conditioner::NAMED,
                pen.mg(*covers_mg_per_l),
                pen.n(harm.limit.chlorine_acute_mg_per_l.value(), 1),
                pen.n(harm.limit.conditioner_wait_min.value(), 2)
            ),
        };
        keyed(
            "Water for topping up",
            format!(
                "{} ready beside the tank in {} of {} with its lid, each with a label: FOR THE TANK, NOT TO DRINK. {filled} {} of it each visit, up to the mark that you stick on the glass, above the heater’s own. Is the water below the heater’s mark? {}",
                pen.litres(f64::from(water.visits) * water.each_l),
                counted(cans.count, "can", "cans"),
                pen.litres(cans.each_l),
                recipe::say::capital(&pen.litres(water.each_l)),
                harm.limit.heater_wait_min.say
            ),
            "clean_bucket",
        )
    })
}

/// What is reduced, with the arithmetic of this tank.
pub(super) fn reduced(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Vec<Note> {
    let n = f64::from(away.ask.days);
    let mut notes = vec![note(
        "Light",
        format!(
            "{} hours instead of {}: plants then take about {} % of what they took, and algae grow less on what nobody wipes off.",
            pen.n(away.light_h, 2),
            pen.n(away.ask.light_h, 2),
            pen.n(100.0 * away.light_h / away.ask.light_h, 2)
        ),
    )];
    if !away.lasts.is_empty() {
        notes.push(note("Bottles", doses(away, pen, n)));
    }
    notes.push(note("Food", food(tank, plan, away, pen)));
    notes.push(note("Water", evaporates(tank, away, pen)));
    notes.extend(alkalinity(tank, away, pen));
    if plan.change.every_days > 0 {
        let missed = (n / f64::from(plan.change.every_days)).floor();
        notes.push(note(
            "Changes",
            format!(
                "{} left out; nobody else changes water. It does no harm: food brings little meanwhile.",
                recipe::say::capital(&counted(missed, "is", "are"))
            ),
        ));
    }
    notes
}

fn doses(away: &Away, pen: &Pen, n: f64) -> String {
    let of = |l: &super::Lasts| match l.days {
        None => format!("{} does not fall", l.ion.name()),
        Some(d) if d >= n => format!("{} lasts {}", l.ion.name(), days(d.floor())),
        Some(d) => format!("{} runs out after about {}", l.ion.name(), days(d.floor().max(1.0))),
    };
    let all: Vec<String> = away.lasts.iter().map(of).collect();
    let short = away.lasts.iter().any(|l| l.days.is_some_and(|d| d < n));
    let poorest = away.lasts.iter().filter_map(|l| l.days_poorest).fold(f64::INFINITY, f64::min);
    let poorest = if poorest.is_finite() {
        format!(
            " In the poorest case the first is gone after {}.",
            recipe::say::several(&pen.n(poorest, 2), "day", "days")
        )
    } else {
        String::new()
    };
    let then = if short {
        " What runs out does no harm: plants live on what they hold and grow slower. A slip of a sitter’s hand would do more."
    } else {
        ""
    };
    format!("None is given while you are away. After the last change {}.{poorest}{then}", recipe::say::list(&all))
}

fn food(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> String {
    let (row, limit) = (&book().away, &book().harm.limit);
    let meals = &away.meals;
    if away.fasts() {
        return FASTS.to_owned();
    }
    if meals.count == 0 {
        return if tank.animals.any() && !meals.young {
            format!(
                "None. Grown, well-fed fish do without for {} days; shrimps and snails graze.",
                range(pen, &row.without_food_days)
            )
        } else if meals.young {
            "Young fish are fed every day, by somebody who knows how.".to_owned()
        } else {
            "Nobody lives there.".to_owned()
        };
    }
    let food = &book().uptake.food;
    let litres = tank.geometry.true_l.value.max(f64::MIN_POSITIVE);
    let all = f64::from(meals.count) * meals.grams;
    let nitrogen = all * food.nitrogen_mg_per_g() / litres;
    let toxic = plan.aired.as_ref().map_or_else(String::new, |aired| {
        let share = aired.nh3_fraction.high;
        format!(", up to {} of it toxic: {} mg/L", pen.percent(share), pen.n(nitrogen * share, 2))
    });
    format!(
        "A meal of {} g every {}, {} % of what you give at home on such a day. All of them at once would bring {} mg/L of ammonia-nitrogen{toxic}. Harm starts at {} mg/L of the toxic form: that is why the packet is locked away.",
        pen.n(meals.grams, 2),
        days(f64::from(meals.every_days)),
        pen.n(row.food_percent.value, 2),
        pen.n(nitrogen, 2),
        pen.n(limit.ammonia_unionised_mg_n_per_l.value(), 2)
    )
}

fn evaporates(tank: &Tank, away: &Away, pen: &Pen) -> String {
    let water = &away.water;
    let limit = &book().harm.limit;
    let guessed = if tank.habits.top_up_l_per_day.kind == Kind::Assumed {
        " Nobody told me how much evaporates: mark the waterline a week before, and tell me what you top up."
    } else {
        ""
    };
    let base = format!(
        "{} L evaporate, and the waterline falls by {} mm: filter outlet and heater’s mark must stay under it, so fill to the line and cover it.{guessed}",
        known(pen, water.lost_l),
        known(pen, water.falls_mm)
    );
    if water.visits == 0 {
        return format!(
            "{base} What is left holds up to {} % more: nobody needs to top up.",
            pen.n(water.stronger_percent, 2)
        );
    }
    let lines = tank.geometry.true_l.value;
    format!(
        "{base} Without topping up what is left would hold up to {} % more. {} So {} on each of {}; never more than {} of your {} at once.",
        pen.n(water.stronger_percent, 2),
        limit.conductivity_step_percent.say,
        pen.litres(water.each_l),
        counted(f64::from(water.visits), "visit", "visits"),
        pen.litres(limit.conductivity_step_percent.value() / 100.0 * lines),
        pen.litres(lines)
    )
}

/// What nitrification leaves of alkalinity at the end, where it comes near its floor (harm rule 6).
fn alkalinity(tank: &Tank, away: &Away, pen: &Pen) -> Option<Note> {
    let floor = &book().harm.limit.alkalinity_floor_meq_per_l;
    let left = away.alkalinity_left_meq_per_l;
    (tank.animals.any() && left < floor.value()).then(|| {
        keyed(
            "Alkalinity",
            format!("In the poorest case {} is left when you come back. {} Stay away shorter, feed less still, or let somebody who has done it change a little water in between.", pen.alkalinity(left.max(0.0)), floor.say),
            "alkalinity_floor_meq_per_l",
        )
    })
}

/// What is missing comes back in portions a day apart: a tenth of the tank at most, of tap water no more than the plan lets into the
/// tank at once, and none of a tap that is refused (harm rules 1, 3, 4, 6).
fn top_up_slowly(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Note {
    let limit = &book().harm.limit;
    let tenth_l = limit.conductivity_step_percent.value() / 100.0 * tank.geometry.true_l.value;
    let missing = (away.water.lost_l.high - f64::from(away.water.visits) * away.water.each_l).max(0.0);
    let from_tap = crate::top_up::from_tap(tank);
    let refused = refused_tap(tank, plan).filter(|_| from_tap);
    let limited = plan.change.limited.is_some() && from_tap && tank.animals.any();
    let most_l = if limited { tenth_l.min(plan.change.litres) } else { tenth_l };
    let litres = pen.litres(missing);
    let says = if let Some(stops) = refused {
        format!(
            "Up to {litres} is missing. Not from your tap: {stops} Top up with rain or low-mineral water, {} a day at most.",
            pen.litres(tenth_l)
        )
    } else if most_l <= 0.0 {
        format!("Up to {litres} is missing: your plan lets no tap water in; rain or low-mineral water.")
    } else {
        let apart = if limited { f64::from(plan.change.every_days.max(1)) } else { 1.0 };
        let count = up(missing / most_l).max(1.0);
        let portions = counted(count, "portion", "portions");
        let why = if limited {
            format!(
                " No portion is more than {}, what your plan lets in at once, and it takes the place of the change that is due.",
                pen.litres(most_l)
            )
        } else {
            String::new()
        };
        let apart = match apart {
            _ if count <= 1.0 => String::new(),
            apart if apart > 1.0 => format!(", {} apart", days(apart)),
            _ => ", a day apart".to_owned(),
        };
        format!("What is missing, up to {litres}, in {portions}{apart}: {}{why}", limit.conductivity_step_percent.say)
    };
    keyed("Top up slowly", says, "conductivity_step_percent")
}

/// The change before and after: the plan's, or the smaller ones with which it begins.
fn usual_change(plan: &Plan, pen: &Pen) -> String {
    match &plan.begin {
        Some(_) => "the change that stands in Care that day, not a larger one".to_owned(),
        None => format!(
            "your usual change, {}, or what stands in Care that day where that is less",
            pen.litres(plan.change.litres)
        ),
    }
}

/// The first days back.
pub(super) fn back(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Vec<Note> {
    let mut notes = vec![note(
        "First look",
        "Count heads, look how they breathe, feel the warmth, look under the tank. Take out what died. Something is wrong: Help now.",
    )];
    notes.push(top_up_slowly(tank, plan, away, pen));
    if plan.change.every_days > 0 {
        let old = tank.unchanged_months.is_some();
        notes.push(keyed(
            "Test, then change",
            format!(
                "Ammonia, nitrite and alkalinity first; then {}.",
                if old {
                    format!("your usual change in tenths: {}", book().harm.rule.old_acid_tank.say)
                } else {
                    usual_change(plan, pen)
                }
            ),
            "old_acid_tank",
        ));
    }
    notes.push(note(
        "Back to usual over a week",
        format!(
            "Light {} minutes more each day, {}food as ever. Nothing is made up for.",
            pen.n(60.0 * book().start.light_step_h.value, 2),
            if plan.bottles.is_empty() { "" } else { "the bottles’ usual dose from the first day, " }
        ),
    ));
    notes
}
