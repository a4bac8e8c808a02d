//! The start of a tank: set-up day in order with its amounts, the weeks after it, the start test, animals on their way home.
//!
//! The calendar is only a range: no animal comes before the readings of the logbook say so (harm rule 15).

mod day;
mod ground;
mod home;
mod judge;
mod now;
mod test;
mod weeks;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Filter, Kept};
use quantity::{Kind, Known, Why};
use recipe::say::Pen;
use recipe::{Note, Plan};
use setup::{Setup, Tank};

pub use ground::{Bed, Path, bed, path, plants};
pub use home::{Bag, Home, Way, Who, home};
pub use judge::{AMMONIA, GIVEN, NITRITE, Read, Round, Stage};
pub use test::{StartTest, start_test};
pub use weeks::{Ammonia, SET_UP, Week, filled_on, light_h};

pub(crate) use now::Begun;

use crate::start_words::{counted, known, why};

/// What a start reads of the log: tests and acts of a year and a bit, and, apart from them, all that was ever said of animals,
/// for an animal that was brought long ago still lives there.
pub fn reads(now: &ZonedDateTime) -> (Filter, Filter) {
    let kinds = |kinds: &[&str]| kinds.iter().map(|kind| (*kind).to_owned()).collect();
    let from = now
        .timestamp()
        .checked_sub(jiff::SignedDuration::from_hours(24 * knowledge::book().start.reads_days.value as i64))
        .ok();
    let lately = Filter { from, kinds: kinds(&["test", "done"]), ..Filter::default() };
    (lately, crate::reads::animals())
}

/// The start of one tank.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Start {
    /// The answer in a sentence.
    pub answer: String,
    /// Which start the ground wants.
    pub path: Path,
    /// The day on which the tank was filled, by the log.
    pub filled: Option<Date>,
    /// The ground.
    pub bed: Option<Bed>,
    /// Stems and small plants for the first day.
    pub plants: Known<f64>,
    /// What to have at hand.
    pub hand: Vec<Note>,
    /// Set-up day, in order.
    pub day: Vec<Note>,
    /// Week by week.
    pub weeks: Vec<Week>,
    /// What stands under the weeks.
    pub weeks_notes: Vec<Note>,
    /// The start test.
    pub test: StartTest,
    /// Bringing animals home.
    pub home: Home,
    /// Why no animal comes now, whatever the test says: ammonia or nitrite was read.
    pub waits: Option<String>,
    /// All why-notes, by key.
    pub whys: Vec<Why>,
}

impl Start {
    /// The why-note of a number.
    pub fn why(&self, key: &str) -> Option<&Why> {
        self.whys.iter().find(|why| why.key == key)
    }
}

/// The start of a tank whose questions are settled: `log` decides how far it is, `now` how long ago that was.
pub fn start(setup: &Setup, tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime, bag: &Bag) -> Start {
    let (bed, path) = (bed(tank), path(tank));
    let plants = plants(tank);
    let filled = filled_on(log);
    let (test, mut whys) = start_test(tank, plan, log, now);
    let who = ["fish", "young", "shrimps", "snails", "other_invertebrates"];
    let listed = who.iter().any(|who| setup.written(&format!("animals.{who}")).is_some());
    let lives = lives(tank, test.animals_in);
    let waits = judge::shows(log, now).map(|(of, read)| waits(of, &read, &Pen::new(&tank.units)));
    let (home, more) = home(tank, plan, bag, &home::Who { listed, lives, waits: waits.as_deref() });
    whys.extend(more);
    whys.extend(bed.as_ref().map(|bed| why_ground(tank, bed)));
    whys.push(why_plants(tank, plants));
    Start {
        answer: waits.clone().unwrap_or_else(|| answer(tank, &test, filled, now, plants)),
        path,
        filled,
        hand: day::hand(tank, plan, bed.as_ref(), test.grams),
        day: day::order(tank, plan, bed.as_ref()),
        weeks: weeks::weeks(tank, plan, path, filled, lives),
        weeks_notes: weeks::notes(tank, plan, path, lives),
        bed,
        plants,
        test,
        home,
        waits,
        whys,
    }
}

/// Why no animal comes now.
fn waits(of: &str, read: &Read, pen: &Pen) -> String {
    let book = knowledge::book();
    let name = if of == AMMONIA { "ammonia" } else { "nitrite" };
    format!(
        "No animal comes now: the log has {} mg/L of {name} (as N), {} ago. None before both have shown the lowest step again; what helps stands in Care and in Help now. {}",
        pen.n(read.value, 2),
        recipe::say::several(&pen.n(read.hours.max(1.0).round(), 3), "hour", "hours"),
        book.harm.limit.start_test_pass_mg_n_per_l.say
    )
}

/// Whether animals live in it: by the log, else where the setup tells of them in a tank that has run; `None`: some are listed, and
/// nothing says whether they have come.
fn lives(tank: &Tank, by_log: Option<bool>) -> Option<bool> {
    let runs = tank.animals.start_test_passed || tank.unchanged_months.is_some();
    match by_log {
        None if !tank.animals.any() => Some(false),
        None => runs.then_some(true),
        known => known,
    }
}

/// What the keeper came for, in a sentence.
fn answer(tank: &Tank, test: &StartTest, filled: Option<Date>, now: &ZonedDateTime, plants: Known<f64>) -> String {
    let pen = Pen::new(&tank.units);
    if test.animals_in == Some(true) && !test.stage.may_come() {
        return "Animals live in it: no ammonia now, test every day, feed little.".to_owned();
    }
    match &test.stage {
        Stage::Told | Stage::Passed => "The start test is passed twice: the first animals may come.".to_owned(),
        Stage::Waiting { .. } => {
            "The ammonia is given: test ammonia and nitrite a day later. No animal yet.".to_owned()
        }
        Stage::Partly { times } => {
            format!("Passed {}: once more before the first animal.", counted(f64::from(*times), "time", "times"))
        }
        Stage::LongAgo { .. } => "Passed, but long ago: one more round before the first animal.".to_owned(),
        Stage::Failed | Stage::Unread => {
            "The start test is not passed yet: no animal, and give it again in a few days.".to_owned()
        }
        Stage::NotBegun => match filled.map(|day| weeks_since(day, now.date())) {
            Some(week) => format!(
                "Week {week}: {} hours of light, and no animal before the start test is passed twice.",
                pen.n(light_h(tank, week), 2)
            ),
            None => format!(
                "{} plants and {} of water on the first day; no animal before the start test is passed twice.",
                pen.n(plants.value, 2),
                pen.litres(tank.geometry.true_l.value)
            ),
        },
    }
}

/// 1 in the first week.
fn weeks_since(filled: Date, today: Date) -> u32 {
    let days = filled.until(today).map_or(0, |span| span.get_days());
    u32::try_from(days.max(0) / 7 + 1).unwrap_or(1)
}

fn why_ground(tank: &Tank, bed: &Bed) -> Why {
    let pen = Pen::new(&tank.units);
    let (front, back) = bed.depth_cm;
    why(
        "ground",
        format!("why {} L of ground?", pen.n(bed.litres, 2)),
        format!(
            "{} × {} × ({} + {}) ÷ 2 cm = {} L; in kilograms {}",
            pen.n(100.0 * tank.geometry.length_m, 3),
            pen.n(100.0 * tank.geometry.width_m, 3),
            pen.n(front, 2),
            pen.n(back, 2),
            pen.n(bed.litres, 2),
            known(&pen, bed.kg)
        ),
        "The kilograms of a litre of dry bed differ by grain: buy the upper end or weigh a full litre.".to_owned(),
        &[],
        bed.kg.kind,
    )
}

fn why_plants(tank: &Tank, plants: Known<f64>) -> Why {
    let pen = Pen::new(&tank.units);
    let dm2 = 100.0 * tank.geometry.length_m * tank.geometry.width_m;
    let row = &knowledge::book().start.plants_per_dm2;
    why(
        "plants",
        format!("why {}?", pen.n(plants.value, 2)),
        format!("{} dm² of floor × {} = {}", pen.n(dm2, 3), pen.n(row.value, 2), pen.n(plants.value, 2)),
        "Many plants from the first day take the ammonia and leave algae little; fewer work too, with less light."
            .to_owned(),
        &[&row.source],
        row.kind().weaker(Kind::WorkedOut),
    )
}
