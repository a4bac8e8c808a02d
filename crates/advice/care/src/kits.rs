//! Tests: when each is due, and which of them would decide something.
//!
//! **What.** A test decides something where the likely range of what it reads lies across a number at which the keeper would
//! do something else. Where the whole range lies on one side, it changes nothing, and that is said.
//!
//! **Equation.** low < threshold < high. Telling: width of the range over the threshold, the widest first.
//!
//! **Range.** As far as the plan's ranges hold (90 of 100).
//!
//! **Source.** Our own rule; thresholds are the plan's bands and the rows of `data/harm.toml`.
//!
//! **Checked by** `tests/by_hand_kits.rs`.

mod unchanged;

use jiff::civil::Date;
use knowledge::TestRow;
use logbook::What;
use quantity::Ion;
use recipe::say::Pen;
use recipe::{Level, Plan};
use setup::Tank;

use crate::alarm::Alarm;
use crate::day::acts::has;
use crate::day::{change_rhythm, changed};
use crate::due::{Known, Rhythm};
use crate::log::Past;
use crate::start::{Ammonia, Begun, Week};

/// A test.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Kit {
    /// Its key: what the logbook calls the reading.
    pub key: String,
    /// Its name in a sentence.
    pub name: String,
    /// The day on which it is due, today or later; `None`: by no calendar.
    pub due: Option<Date>,
    /// When it was read last.
    pub last: Option<Date>,
    /// Whether the kit is at hand; `None`: nobody said.
    pub at_hand: Option<bool>,
    /// Whether it would decide something now.
    pub decides: bool,
    /// What it would decide, or why nothing: a sentence.
    pub says: String,
    /// When to read it, and the number at which harm starts.
    pub minds: Vec<String>,
    /// Its rhythm.
    #[serde(skip)]
    pub(crate) rhythm: Rhythm,
    /// It is read on the day of a change, before it.
    #[serde(skip)]
    pub(crate) before_change: bool,
    /// A rule of harm asks for it on its day, however full that is.
    #[serde(skip)]
    pub(crate) protects: bool,
    #[serde(skip)]
    telling: f64,
}

/// What a test would decide.
struct Verdict {
    decides: bool,
    telling: f64,
    says: String,
}

/// All tests of this tank, the most telling first.
pub(crate) fn kits(
    tank: &Tank,
    plan: &Plan,
    past: &Past,
    begun: Option<Begun>,
    alarms: &[Alarm],
    pen: &Pen,
) -> Vec<Kit> {
    let book = knowledge::book();
    let week = begun.and_then(|begun| begun.week(tank, plan, past.today()));
    let harmed = |key: &str| alarms.iter().any(|alarm| alarm.of == key && alarm.date < past.today());
    let when = |key: &str| if harmed(key) { When::Anew } else { when(tank, plan, key, week.clone()) };
    let kits = book.routine.test.iter().map(|(key, row)| (key, row, when(key)));
    let kits = kits.filter(|(_, row, when)| has(tank, row.needs) || *when != When::Usual);
    let desk = Desk { tank, plan, past, begun, pen };
    let mut kits: Vec<Kit> = kits.filter_map(|(key, row, when)| kit(&desk, key, row, when)).collect();
    kits.sort_by(|a, b| b.decides.cmp(&a.decides).then(b.telling.total_cmp(&a.telling)).then(a.key.cmp(&b.key)));
    kits
}

/// What goes before the days of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum When {
    /// Nothing.
    Usual,
    /// Before each change, because what this tap brings limits it (harm rule 3).
    TapLimits,
    /// Before each change of the first weeks, because the ground gives it off (harm rule 15).
    GroundGives,
    /// Today: the last reading, of a day before, harms, and counts until the next.
    Anew,
    /// Every day of the first weeks: animals live in a tank that never passed the start test (harm rule 15).
    EveryDay,
}

fn when(tank: &Tank, plan: &Plan, key: &str, week: Option<Week>) -> When {
    let limited = plan.change.limited.is_some() && plan.why("change-ammonia").is_some();
    match (key, week.map(|week| week.ammonia)) {
        ("ammonia_n" | "nitrite_n", Some(Ammonia::EveryDay)) => When::EveryDay,
        ("ammonia_n", Some(Ammonia::BeforeEachChange)) if plan.change.every_days > 0 => When::GroundGives,
        ("ammonia_n", _) if limited && tank.animals.any() && plan.change.every_days > 0 => When::TapLimits,
        _ => When::Usual,
    }
}

/// When it is read then.
const BEFORE_EACH: &str = "Before each change, for this tap brings ammonia: it stays low, or the change waits.";
const GROUND_GIVES: &str = "Before each change of these weeks, for this ground gives off ammonia: no animal comes, a snail neither, while it shows.";
const DECIDES_GROUND: &str = "It decides whether the ground still gives off ammonia: once it shows the lowest step of the kit by itself, \
    the start test begins, and after it is passed twice the first animals.";

const ANEW: &str = "Before everything else, and again each day until it is low.";
const DECIDES_ANEW: &str = "The last reading harms and is not of today: a new one decides what is done now.";

/// What a kit is judged by.
struct Desk<'a> {
    tank: &'a Tank,
    plan: &'a Plan,
    past: &'a Past<'a>,
    begun: Option<Begun>,
    pen: &'a Pen,
}

/// Days from one test of an alkalinity that may run out to the next, as Salts says.
const WEEK_DAYS: u32 = 7;

fn kit(desk: &Desk, key: &str, row: &TestRow, when: When) -> Option<Kit> {
    let Desk { tank, plan, past, begun, .. } = *desk;
    let book = knowledge::book();
    let every = row.every_days.get(&tank.kind())?;
    let after = book.routine.number.tests_after_change_days.value as u8;
    let verdict = match when {
        When::GroundGives => Verdict { decides: true, telling: f64::INFINITY, says: DECIDES_GROUND.to_owned() },
        When::Anew => Verdict { decides: true, telling: f64::INFINITY, says: DECIDES_ANEW.to_owned() },
        _ => verdict(desk, key),
    };
    let every_days = match every.value.max(0.0) as u32 {
        _ if matches!(when, When::TapLimits | When::GroundGives) => plan.change.every_days,
        _ if matches!(when, When::EveryDay | When::Anew) => 1,
        days if key == "alkalinity" && verdict.decides && may_run_out(desk) => days.min(WEEK_DAYS),
        days => days,
    };
    let rhythm = Rhythm { every_days, weekday: (tank.keeping.change_day - 1 + after) % 7 + 1, week: 0 };
    let known = past.known(|what| matches!(what, What::Test(reading) if reading.of == key));
    let due = match when {
        When::GroundGives => next_change(tank, plan, past, begun),
        _ => next(rhythm, known, past.today()),
    };
    let harm = row.harm.iter().filter_map(|key| book.harm.say(key)).map(str::to_owned);
    let said =
        (!tank.keeping.kits.is_empty()).then(|| key == "temperature" || tank.keeping.kits.iter().any(|k| k == key));
    let first = match when {
        When::TapLimits => BEFORE_EACH,
        When::GroundGives => GROUND_GIVES,
        When::Anew => ANEW,
        When::Usual | When::EveryDay => &row.say,
    };
    Some(Kit {
        key: key.to_owned(),
        name: row.name.clone(),
        due,
        last: known.last,
        at_hand: said,
        decides: verdict.decides,
        says: verdict.says,
        minds: std::iter::once(first.to_owned()).chain(harm).collect(),
        rhythm,
        before_change: when == When::GroundGives,
        protects: verdict.decides && (when == When::Anew || matches!(key, "ammonia_n" | "nitrite_n" | "alkalinity")),
        telling: verdict.telling,
    })
}

/// Alkalinity may fall under its floor before it is changed, or by now.
fn may_run_out(desk: &Desk) -> bool {
    let floor = knowledge::book().harm.limit.alkalinity_floor_meq_per_l.value();
    unchanged::stands(&desk.plan.alkalinity, desk.tank, desk.past).0 < floor
}

/// The day on which something is due, today or later.
fn next(rhythm: Rhythm, known: Known, today: Date) -> Option<Date> {
    let grace = knowledge::book().routine.number.grace_days.value as u32;
    match rhythm.due_since(known, today, grace) {
        Some(_) => Some(today),
        None if rhythm.weekly() => rhythm.next_slot(crate::due::later(today, 1)),
        None => known.last.map(|last| crate::due::later(last, i64::from(rhythm.every_days))),
    }
}

/// The day of the next change of the first weeks.
fn next_change(tank: &Tank, plan: &Plan, past: &Past, begun: Option<Begun>) -> Option<Date> {
    next(change_rhythm(tank, plan), changed(past, begun), past.today())
}

fn verdict(desk: &Desk, key: &str) -> Verdict {
    let Desk { tank, plan, past, pen, .. } = *desk;
    if let Some(verdict) = unchanged::verdict(tank, plan, past, pen, key) {
        return verdict;
    }
    let ion = match key {
        "nitrate" => Some(Ion::Nitrate),
        "phosphate" => Some(Ion::Phosphate),
        _ => None,
    };
    let stands = |level: &Level| unchanged::stands(level, tank, past);
    match (key, ion.and_then(|ion| plan.levels.iter().find(|level| level.ion == Some(ion)))) {
        (_, Some(level)) => nutrient(tank, (level, stands(level)), pen, key),
        ("alkalinity", _) => alkalinity(stands(&plan.alkalinity), pen),
        ("ammonia_n" | "nitrite_n", _) => Verdict {
            decides: true,
            telling: f64::INFINITY,
            says: "It decides whether the filter takes what your animals give off; nothing else tells.".to_owned(),
        },
        ("ph", _) if tank.co2_given_mg_per_l.is_some() => Verdict {
            decides: true,
            telling: 1.0,
            says: format!(
                "With alkalinity it shows how much carbon dioxide there is by day. {}",
                knowledge::book().harm.limit.co2_most_mg_per_l.say
            ),
        },
        ("ph", _) => nothing("It follows from alkalinity and the room's air; a steady pH is worth more than a figure."),
        ("temperature", _) => nothing("It shows a heater that sticks before your animals do."),
        ("hardness", _) => nothing("It follows from the tap and from topping up, until something else changes it."),
        _ => nothing("Nothing in the plan hangs on it."),
    }
}

fn nothing(says: &str) -> Verdict {
    Verdict { decides: false, telling: 0.0, says: says.to_owned() }
}

/// The thresholds that lie strictly inside a range.
fn across(thresholds: &[f64], low: f64, high: f64) -> Vec<f64> {
    thresholds.iter().copied().filter(|t| low < *t && *t < high).collect()
}

/// Its range, and when it stands there: "before a change".
type Stands = (f64, f64, &'static str);

fn nutrient(tank: &Tank, (level, (low, high, when)): (&Level, Stands), pen: &Pen, name: &str) -> Verdict {
    let limit = &knowledge::book().harm.limit;
    let mut thresholds: Vec<f64> = level.band.into_iter().flat_map(|(low, high)| [low, high]).collect();
    let frail = tank.animals.invertebrates() || tank.animals.young;
    if name == "nitrate" && tank.animals.any() {
        thresholds.push(limit.nitrate_practice_high_mg_per_l.value());
        thresholds.extend(frail.then(|| limit.nitrate_strict_mg_per_l.value()));
    }
    let hits = across(&thresholds, low, high);
    let span = pen.span(level.ion, low, high);
    if hits.is_empty() && name == "nitrate" && frail && low >= limit.nitrate_strict_mg_per_l.value() {
        return nothing(&format!(
            "It stands likely at {span} {when}. {} A test would change nothing of that: less food, more plants.",
            limit.nitrate_strict_mg_per_l.say
        ));
    }
    if hits.is_empty() {
        return nothing(&format!(
            "It stands likely at {span} {when}, on one side of all that matters here: no test would change what you do."
        ));
    }
    let width = high - low;
    let telling = hits.iter().map(|t| width / t.max(0.1)).fold(0.0, f64::max);
    let mut says = format!("It stands likely at {span} {when}.");
    if let Some((least, most)) = level.band {
        says += &format!(" Aimed at are {}:", pen.range(least, most));
        says += match (hits.contains(&least), hits.contains(&most)) {
            (true, true) => {
                " less means that your plants take more than I count on, more that they take less or the tap brings more."
            }
            (true, false) => " less means that your plants take more than I count on.",
            (false, true) => " more means that they take less than I count on, or that the tap brings more.",
            (false, false) if low >= most => " it is more, whatever a test shows.",
            (false, false) if high <= least => " it is less, whatever a test shows.",
            (false, false) => " that it is.",
        };
    }
    if name == "nitrate" && frail && high > limit.nitrate_strict_mg_per_l.value() {
        says += &format!(" {}", limit.nitrate_strict_mg_per_l.say);
    }
    Verdict { decides: true, telling, says: format!("{says} A test decides.") }
}

fn alkalinity((low, high, when): Stands, pen: &Pen) -> Verdict {
    let limit = &knowledge::book().harm.limit.alkalinity_floor_meq_per_l;
    let span = pen.span(None, low.max(0.0), high.max(0.0));
    let floor = limit.value();
    let text = pen.alkalinity(floor);
    if low >= floor {
        let room =
            format!("The tank’s stands likely at {span} {when}, over the {text} below which pH falls by itself.");
        return nothing(&room);
    }
    let left = match high < floor {
        true => format!("The tank’s stands likely at {span} {when}: less than the {text} that hold pH."),
        false => format!("The tank’s stands likely at {span} {when}, and less than {text} may be left."),
    };
    // Gone for sure is no less telling than gone perhaps.
    let telling = (high - low).max(floor - low) / floor;
    Verdict { decides: true, telling, says: format!("{left} A test decides what is done before the next change.") }
}
