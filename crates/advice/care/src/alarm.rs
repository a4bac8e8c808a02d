//! What the latest readings say that must not wait: it stands before every act of the day.
//!
//! **What.** Ammonia by its toxic share and nitrite by the chloride of this water, as Help now works them out; temperature
//! outside what a tank is kept at, or far from its usual; alkalinity at its floor; nitrate where shrimps, snails or young live; and what
//! was done (`alarm/changed.rs`, `alarm/done.rs`).
//!
//! **Range.** The latest reading of each thing, as Help now hears them: one that harms stays the alarm until the next, and asks to be read anew
//! once it is no longer today's (a row of `data/troubles.toml`); one marked "not sure" decides no change, and without animals there is nobody
//! to harm but by a cylinder. Animals that the log brings count, whatever the tank tells of itself.
//!
//! **Source.** `data/harm.toml`, `data/troubles.toml`, `data/bounds.toml`, `data/readings.toml`.
//!
//! **Checked by** `tests/harm_alarm.rs`, `tests/harm_done.rs`.

mod changed;
mod done;

use jiff::civil::Date;
use logbook::{Kept, Reading, Sure, What};
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;
use trouble::{Case, Harms, Told, Urgency};

use crate::log::Past;

/// Something read, told or done that must not wait.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Alarm {
    /// What it is about: a key of `data/readings.toml`, `carbon_dioxide` that is given, or `change`.
    pub of: String,
    /// The day on which it was read or done; today for what is given each day.
    pub date: Date,
    /// When to act.
    pub urgency: Urgency,
    /// What it says, with the number at which harm starts: sentences.
    pub says: Vec<String>,
    /// Key of the trouble in Help now.
    pub trouble: String,
    /// Its title there.
    pub title: String,
    /// Nobody is fed while it lasts.
    pub no_food: bool,
    /// The largest share of the water that may be changed at once while it lasts, 0 to 1 (0: none); `None`: it says nothing of changes.
    pub change_most: Option<f64>,
}

impl Alarm {
    /// Ammonia or nitrite harms: nobody is fed, and no more is changed than Help now allows.
    fn of_gills(self, change_most: Option<f64>) -> Alarm {
        Alarm { no_food: true, change_most, ..self }
    }
}

/// The latest reading of each thing; the one that harms counts until the next, however old it is.
struct Read<'a> {
    all: Vec<(Date, &'a Kept, &'a Reading)>,
}

impl<'a> Read<'a> {
    fn of(past: &'a Past) -> Self {
        let mut all: Vec<(Date, &Kept, &Reading)> = Vec::new();
        for (date, kept) in past.entries().rev() {
            if let What::Test(reading) = &kept.entry.what
                && reading.sure != Sure::NotSure
                && !all.iter().any(|(_, _, known)| known.of == reading.of)
            {
                all.push((date, kept, reading));
            }
        }
        Read { all }
    }

    fn get(&self, of: &str) -> Option<(Date, &'a Reading)> {
        self.all.iter().find(|(_, _, reading)| reading.of == of).map(|(date, _, reading)| (*date, *reading))
    }

    /// What comes first where that reading is no longer today's; `name` as in "read ammonia".
    fn anew(&self, of: &str, name: &str, past: &Past) -> Option<String> {
        let (_, kept, _) = self.all.iter().find(|(_, _, reading)| reading.of == of)?;
        trouble::anew_after(trouble::hours_ago(kept, past.now()), name)
    }
}

/// All that must not wait, the most urgent first.
pub(crate) fn alarms(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen) -> Vec<Alarm> {
    let mut found: Vec<Alarm> = done::cylinder(tank, past, pen).into_iter().collect();
    if !tank.animals.any() {
        return found;
    }
    let read = Read::of(past);
    let mut told = Told::default();
    told.hear(past.entries().map(|(_, kept)| kept), past.now());
    // A plan that says no level is one of a tank whose sizes are not told.
    let case = Case { tank, plan, told: &told, litres_known: !plan.levels.is_empty() };
    let by_reading = carbon_dioxide_read(&case, &read);
    let latest = [
        gills(&case, &read, past, "ammonia_n"),
        gills(&case, &read, past, "nitrite_n"),
        temperature(&case, &read, past, pen),
        alkalinity(&case, &read, past),
        nitrate(tank, &read, past, pen),
        by_reading.or_else(|| carbon_dioxide(tank, plan, past)),
        changed::forbidden(&case, past, pen),
        done::overfed(&case, past, pen),
    ];
    found.extend(latest.into_iter().flatten());
    found.extend(done::overdosed(&case, past, pen));
    found.extend(done::unsure(past, pen));
    found.sort_by_key(|alarm| alarm.urgency);
    found
}

fn alarm((date, reading): (Date, &Reading), urgency: Urgency, trouble: &str, says: Vec<String>) -> Alarm {
    about(&reading.of, date, urgency, trouble, says)
}

fn about(of: &str, date: Date, urgency: Urgency, trouble: &str, says: Vec<String>) -> Alarm {
    let title = trouble::sheet(trouble).map_or_else(String::new, |sheet| sheet.title.clone());
    let (of, trouble) = (of.to_owned(), trouble.to_owned());
    Alarm { of, date, urgency, says, trouble, title, no_food: false, change_most: None }
}

/// What Help now lets be changed at once under these readings in a trouble, 0 to 1.
fn change_most(case: &Case, past: &Past, trouble: &str) -> Option<f64> {
    let worked = trouble::worked(trouble, case, &[], past.now());
    let sum = worked.sums.into_iter().find(|sum| sum.key == trouble::CHANGE_MOST)?;
    if sum.figures.contains_key("no_change") { Some(0.0) } else { sum.figures.get("share_most").copied() }
}

/// The latest reading and what Help now says of it.
fn judged<'a>(case: &Case, read: &Read<'a>, past: &Past, of: &str) -> Option<((Date, &'a Reading), Harms)> {
    let found = read.get(of)?;
    Some((found, trouble::harms(case, of, found.1.value, past.now())?))
}

/// Sentences of Help now that are its acts, in the order in which it says them; the act of a change may stand behind them.
const ACTS: usize = 3;

/// The head and the acts of Help now, the change with them; how new water goes in stands there.
fn gills(case: &Case, read: &Read, past: &Past, of: &str) -> Option<Alarm> {
    case.told.get(of.trim_end_matches("_n"))?;
    let (found, harms) = judged(case, read, past, of)?;
    let name = if of == "nitrite_n" { "nitrite, ammonia and pH" } else { "ammonia and pH" };
    let anew = read.anew(of, name, past);
    let mut says: Vec<String> = anew.iter().cloned().chain([format!("{}.", harms.head)]).collect();
    if let Some(sum) = &harms.sum {
        says.extend((of == "nitrite_n").then(|| format!("{}.", recipe::say::capital(&sum.why.sum))));
        let acts = || sum.says.iter().filter(|say| Some(*say) != anew.as_ref());
        says.extend(acts().take(ACTS).cloned());
        says.extend(acts().skip(ACTS).find(|say| Some(*say) == sum.change.as_ref()).cloned());
    }
    Some(alarm(found, harms.urgency, harms.trouble, says).of_gills(change_most(case, past, "ammonia")))
}

fn temperature(case: &Case, read: &Read, past: &Past, pen: &Pen) -> Option<Alarm> {
    let judged = judged(case, read, past, "temperature").or_else(|| off_usual(case, read, pen));
    let (found, harms) = judged?;
    let anew = read.anew("temperature", "the thermometer", past);
    let words = match harms.trouble {
        "heater-on" => match trouble::air_stays(case) {
            Some(stays) => format!("Warm water holds less oxygen: watch how they breathe, and cool it slowly. {stays}"),
            None => "Warm water holds less oxygen: air on, and cool it slowly.".to_owned(),
        },
        _ => "Warm it slowly.".to_owned(),
    };
    let limit = &knowledge::book().harm.limit.temperature_step_c_per_h;
    let says =
        vec![format!("The water stands at {}. {}.", pen.celsius(found.1.value), harms.head), words, limit.say.clone()];
    Some(alarm(found, harms.urgency, harms.trouble, anew.into_iter().chain(says).collect()))
}

/// Further from what this tank is kept at than animals bear in a day (harm rule 6); without a heater the room's range is its own.
fn off_usual<'a>(case: &Case, read: &Read<'a>, pen: &Pen) -> Option<((Date, &'a Reading), Harms)> {
    let (found, usual, warmth) = (read.get("temperature")?, case.tank.temperature_c, &case.tank.warmth);
    let room = |end: Option<quantity::Known<f64>>| end.filter(|_| warmth.heater_w.is_none()).map(|room| room.value);
    let low = room(warmth.coldest_room_c).unwrap_or(usual.low).min(usual.low);
    let high = room(warmth.hottest_room_c).unwrap_or(usual.high).max(usual.high);
    let (c, step) = (found.1.value, knowledge::book().harm.limit.temperature_step_c.value());
    let (trouble, side) = match c {
        c if c < low - step => ("heater-dead", "under"),
        c if c > high + step => ("heater-on", "over"),
        _ => return None,
    };
    let head = format!("{} {side} the usual {}", pen.kelvin((c - usual.value).abs()), pen.celsius(usual.value));
    Some((found, Harms { head: recipe::say::capital(&head), urgency: Urgency::AtOnce, trouble, sum: None }))
}

fn alkalinity(case: &Case, read: &Read, past: &Past) -> Option<Alarm> {
    case.told.get("alkalinity")?;
    let (found, harms) = judged(case, read, past, "alkalinity")?;
    let floor = knowledge::book().harm.limit.alkalinity_floor_meq_per_l.say.clone();
    let anew = read.anew("alkalinity", "alkalinity, pH and ammonia", past);
    let first = harms.sum.and_then(|sum| sum.says.into_iter().find(|say| Some(say) != anew.as_ref()));
    let says = anew.iter().cloned().chain([format!("{}.", harms.head), floor]).chain(first).collect();
    let alarm = alarm(found, harms.urgency, harms.trouble, says);
    // Where ammonia shows beside it, whatever raises pH makes it toxic.
    let no_food = case.told.get("ammonia").is_some_and(|mg| mg > 0.0);
    Some(Alarm { no_food, change_most: change_most(case, past, "alkalinity"), ..alarm })
}

/// Nothing happens on the day; but shrimps, snails and young are counted by a strict guideline, so it is no quiet day either.
fn nitrate(tank: &Tank, read: &Read, past: &Past, pen: &Pen) -> Option<Alarm> {
    let found = read.get("nitrate").filter(|(_, reading)| !reading.below)?;
    let limit = &knowledge::book().harm.limit;
    let tender = tank.animals.invertebrates() || tank.animals.young;
    let high = tender && found.1.value > limit.nitrate_practice_high_mg_per_l.value();
    let says = vec![
        format!("{} is more than most keep.", pen.ion(quantity::Ion::Nitrate, found.1.value)),
        limit.nitrate_practice_high_mg_per_l.say.clone(),
        limit.nitrate_strict_mg_per_l.say.clone(),
    ];
    let says = read.anew("nitrate", "nitrate", past).into_iter().chain(says).collect();
    high.then(|| alarm(found, Urgency::WhenItSuits, "nitrate", says))
}

/// More carbon dioxide than animals bear, by the last pH and alkalinity (harm rule 12), whatever the keeper says of giving it.
fn carbon_dioxide_read(case: &Case, read: &Read) -> Option<Alarm> {
    let harms = trouble::reading_harms(case)?;
    let (date, _) = read.get("ph")?;
    let says = harms.anew.into_iter().chain([format!("Carbon dioxide: {}.", harms.much), harms.says]).collect();
    Some(about("carbon_dioxide", date, Urgency::AtOnce, "carbon-dioxide", says))
}

/// More carbon dioxide is given than the recipe takes for one that harms nobody.
fn carbon_dioxide(tank: &Tank, plan: &Plan, past: &Past) -> Option<Alarm> {
    tank.co2_given_mg_per_l?;
    let refused = plan.refused.iter().find(|refused| refused.wish.ends_with("of carbon dioxide"))?;
    let says = vec![format!("You give {}: not so. {}", refused.wish, refused.why)];
    let says = says.into_iter().chain(refused.ways.iter().take(1).cloned()).collect();
    Some(about("carbon_dioxide", past.today(), Urgency::AtOnce, "carbon-dioxide", says))
}
