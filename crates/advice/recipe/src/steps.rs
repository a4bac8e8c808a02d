//! From the water that stands in the tank now to the water of the plan: in steps that animals bear.
//!
//! What: a change of share x moves the tank by x × (new water - tank). Where that passes a day's limit of alkalinity,
//! hardness or conductivity at either end of the tap's year, the plan begins with a few smaller changes, x = limit ÷ (new water -
//! tank), a day apart (harm rule 6); salts go into them in proportion. Where that would be more of them than anybody keeps to, the
//! changes stay as large as they are and their new water gets a growing part of the salts (`steps/walk.rs`), on the usual days.
//! Where pH rises, the toxic share of ammonia is told before and after (harm rule 7).
//! Where alkalinity may have run out, the first changes are a tenth at the most (harm rule 8).
//! Range: the tank "now" is what tap water alone, without salts or low-mineral water, settles to: nobody measured it, and
//! the sentences say so.
//! Source: harm rules 6 and 7; Emerson et al. 1975 for ammonia's turn with pH.
//! Checked by: `tests/harm.rs`.

mod walk;

use quantity::Known;
use setup::SourceWater;

use crate::desk::Desk;
use crate::indices::{aired, indices};
use crate::part::of_salts;
use crate::plan::{Begin, BeginReading, Change, FIRST_CHANGES, Indices, NewWater, Note, Salt};
use crate::say::{Pen, count, list};
use crate::waters::hardness_meq;
pub use walk::{BeginStep, Walk};
use walk::{Mark, Most};

/// The waters between which a plan moves the tank.
pub(crate) struct Waters<'a> {
    /// What tap water alone comes to in the tank.
    pub now: &'a SourceWater,
    /// The new water of the plan before its salts.
    pub plain: &'a SourceWater,
    /// The new water of the plan.
    pub new: &'a SourceWater,
    /// What the plan comes to in the tank.
    pub aim: &'a SourceWater,
    /// Some of it is low-mineral water.
    pub low: bool,
}

/// What keeps the first changes small.
struct Way {
    what: &'static str,
    /// What is read to know when they are through, and the new water's value of it.
    reading: (BeginReading, f64),
    /// Where it stands, where it goes, and the limit: sentences.
    says: String,
    /// Share of the tank that a change with all of the salts may be.
    share_most: f64,
}

/// What the first changes are worked out from.
struct Figures<'a> {
    /// Alkalinity, hardness and conductivity, each at all ends of its range.
    marks: Vec<[Mark; 3]>,
    /// µS/cm of the new water before its salts, of the tank, of the new water.
    us: [Option<Known<f64>>; 3],
    /// The salts of the plan's own change.
    salts: &'a [Salt],
}

/// The first changes and their sentences; none where the plan leaves the water as it is, or no animal is there. `ramp`: the
/// choice's own first steps, which count the worst end of the tap's year.
pub(crate) fn notes(
    desk: &Desk,
    change: &Change,
    waters: &Waters,
    ramp: &[f64],
    new_water: &NewWater,
) -> (Option<Begin>, Vec<Note>) {
    let (salts, test) = (new_water.salts.as_slice(), new_water.ph_test.as_deref());
    if !desk.animals() || change.share <= 0.0 {
        return (None, Vec::new());
    }
    let [before, plain, new, after] =
        [waters.now, waters.plain, waters.new, waters.aim].map(|water| aired(desk.tank, water));
    let us = [&plain, &before, &new].map(|water| water.as_ref().map(|water| water.conductivity_25_us_per_cm));
    let (mut ways, marks) = ways(desk, waters, us);
    ways.extend(acid(desk, waters));
    // A part of the additions in a whole change moves the tank as far as all of them in a part of the change.
    let ramped = ramp.first().map_or(f64::INFINITY, |first| first * change.share);
    let way = ways.into_iter().min_by(|a, b| a.share_most.total_cmp(&b.share_most));
    let way =
        way.filter(|way| way.share_most.min(ramped) < change.share).map(|way| match way.share_most < change.share {
            true => Way { share_most: way.share_most.min(ramped), ..way },
            // Where only the worst end of the tap's year keeps it small, the rule alone says so.
            false => {
                let says = desk.book.harm.rule.in_steps.say.clone();
                Way { what: "first changes", share_most: ramped, says, ..way }
            }
        });
    let begun = way.map(|way| (begin(desk, change, waters, &way, Figures { marks, us, salts }), way.what));
    let note = begun.as_ref().map(|(begin, what)| {
        let part = begin.steps.first().map_or(1.0, |step| step.part) * begin.share / change.share;
        let lead = if begin.steps.is_empty() { "Into each of these goes less too" } else { "Into the first" };
        let into = match of_salts(desk, salts, part) {
            none if none.is_empty() => String::new(),
            all => format!(" {lead}: {}.{}", all.join("; "), test.map_or_else(String::new, |test| format!(" {test}"))),
        };
        let text = format!("{}{into}", begin.says);
        Note { about: (*what).to_owned(), text, key: Some(FIRST_CHANGES.to_owned()) }
    });
    let begin = begun.map(|(begin, _)| begin);
    (begin, note.into_iter().chain(ammonia(desk, before.as_ref(), after.as_ref())).collect())
}

/// How many, how large, how far apart: smaller changes with all of the salts, or larger ones with a growing part of them.
fn begin(desk: &Desk, change: &Change, waters: &Waters, way: &Way, Figures { marks, us, salts }: Figures) -> Begin {
    let (limit, usual) = (&desk.book.harm.limit, change.share);
    let [acid, runs_out] = [waters.now, waters.aim].map(|water| water.alkalinity_meq_per_l.low <= 0.0);
    let tenth = limit.old_tank_change_percent.value() / 100.0;
    let floor = limit.alkalinity_floor_meq_per_l.value();
    // A tap that leaves some, if too little, was never counted as acid.
    let walk = Walk { marks, usual, tenth, floor: if acid { floor } else { 0.0 }, runs_out };
    let left = if acid { (tenth / usual).min(1.0) } else { 1.0 };
    let smaller = walk.clone().smaller(way.share_most, left).max(1);
    // By conductivity a logbook tells how much of the salts was in a change.
    let alike = limit.conductivity_step_percent.value() / 100.0;
    let told = matches!(us, [_, Some(now), Some(new)] if (new.value - now.value).abs() > alike * now.value);
    let few = desk.book.recipe.new_water.begin_most_changes.value as usize;
    let grows = told && !waters.low && !salts.is_empty() && (runs_out || smaller > few);
    let steps = if grows { walk.steps() } else { Vec::new() };
    // Where the salts can't grow further than they would in smaller changes, those are simpler.
    let steps = if steps.first().is_some_and(|step| step.share > way.share_most) { steps } else { Vec::new() };
    let share = steps.first().map_or(way.share_most, |step| step.share);
    let [plain, _, new] = us.map(|us| us.map_or(0.0, |us| us.value));
    // What runs out again is tested before each, whatever keeps it small.
    let alkalinity = (BeginReading::Alkalinity, waters.new.alkalinity_meq_per_l.value);
    let (reading, new_water) = if runs_out { alkalinity } else { way.reading };
    let mut begin = Begin {
        share,
        litres: share * desk.tank.geometry.true_l.value,
        changes: (!runs_out).then_some(if steps.is_empty() { smaller } else { steps.len() } as u32),
        days_apart: if change.limited.is_some() { change.every_days.max(1) } else { 1 },
        steps,
        reading,
        new_water,
        plain_us_per_cm: plain,
        new_us_per_cm: new,
        says: String::new(),
        walk,
    };
    begin.says = says(desk, change, way, &begin);
    begin
}

/// The same in words.
fn says(desk: &Desk, change: &Change, way: &Way, begin: &Begin) -> String {
    let pen = &desk.pen;
    let (small, large): (Vec<BeginStep>, Vec<BeginStep>) = begin.steps.iter().partition(|s| s.share < change.share);
    let salts = match large.len() {
        0 => String::new(),
        n => format!(
            "{} of the salts {} into the new water of {} of {}, one after the other; only then all of them. On your usual days: that takes weeks, and \
             nothing hurries while no test alarms.",
            parts(desk, &large),
            if n == 1 { "goes" } else { "go" },
            if n == 1 { "one change".to_owned() } else { format!("{} changes", count(n as u32)) },
            pen.litres(change.litres)
        ),
    };
    if !begin.steps.is_empty() && small.is_empty() {
        return format!("Begin with less of the salts: {salts} {}", way.says);
    }
    let apart = match begin.days_apart {
        1 => "a day apart".to_owned(),
        days => format!("{} days apart", count(days)),
    };
    let floor = pen.alkalinity(desk.book.harm.limit.alkalinity_floor_meq_per_l.value());
    let times = match (begin.changes, small.len() as u32) {
        (None, _) => format!("{apart}, as long as a test before it shows less than {floor} of alkalinity"),
        (Some(1), 0) | (_, 1) => "once".to_owned(),
        (Some(times), 0) | (_, times) => format!("{} times, {apart}", count(times)),
    };
    let first = format!("Begin smaller: {} ({}) at a time, {times}", pen.litres(begin.litres), pen.share(begin.share));
    if begin.steps.is_empty() {
        return format!("{first}; only then the {} of the plan. {}", pen.litres(change.litres), way.says);
    }
    let ends = if begin.changes.is_some() {
        format!(" Test ammonia before each; a test that shows {floor} of alkalinity or more ends these small ones.")
    } else {
        " Test ammonia before each.".to_owned()
    };
    let then = match large.len() {
        0 => format!("Only then the {} of the plan.", pen.litres(change.litres)),
        _ => format!("Then {salts}"),
    };
    format!(
        "{first}, with {} of the salts for so much water, one after the other.{ends} {then} {}",
        parts(desk, &small),
        way.says
    )
}

/// "12, 15 and 19 %", or of many the ends.
fn parts(desk: &Desk, steps: &[BeginStep]) -> String {
    let mut all: Vec<String> = steps.iter().map(|step| desk.pen.n(100.0 * step.part, 2)).collect();
    all.dedup();
    match (all.first(), all.last()) {
        (Some(first), Some(last)) if all.len() > desk.book.recipe.new_water.begin_told_most.value as usize => {
            format!("{first} %, each time a little more, up to {last} %")
        }
        _ => format!("{} %", list(&all)),
    }
}

/// Each figure's way, and its marks in the order of [`BeginReading`].
fn ways(desk: &Desk, waters: &Waters, us: [Option<Known<f64>>; 3]) -> (Vec<Way>, Vec<[Mark; 3]>) {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let way =
        |what: &'static str, reading, three: [Known<f64>; 3], most, write: &dyn Fn(f64) -> String, limit: &str| {
            let [plain, now, new] = three;
            let ends =
                [[plain.value, now.value, new.value], [plain.low, now.low, new.low], [plain.high, now.high, new.high]];
            let marks = ends.map(|[plain, now, new]| Mark { plain, now, new, most });
            // Of conductivity the ends of the year are in the choice's own steps.
            let counts = if matches!(most, Most::Share(_)) { 1 } else { marks.len() };
            let way = Way {
                what,
                reading: (reading, new.value),
                says: format!(
                    "The tank's {what} goes from {} (what tap water alone comes to; nobody measured it) to {}. {limit}",
                    write(now.value),
                    write(new.value)
                ),
                share_most: marks.iter().take(counts).map(Mark::share_whole).fold(f64::INFINITY, f64::min),
            };
            (way, marks)
        };
    let all = [waters.plain, waters.now, waters.new];
    let (meq, dh) = (&limit.alkalinity_step_meq_per_l, &limit.hardness_step_dh);
    let three = all.map(|water| water.alkalinity_meq_per_l);
    let by = Most::By(meq.value());
    let alkalinity = way("alkalinity", BeginReading::Alkalinity, three, by, &|v| pen.alkalinity(v), &meq.say);
    let (three, by) = (all.map(hardness_meq), Most::By(limit.hardness_step_meq_per_l()));
    let mut ways = vec![alkalinity, way("hardness", BeginReading::Hardness, three, by, &|v| pen.hardness(v), &dh.say)];
    if let [Some(plain), Some(now), Some(new)] = us {
        let step = &limit.conductivity_step_percent;
        let (three, by) = ([plain, now, new], Most::Share(step.value() / 100.0));
        let write = |v: f64| format!("{} µS/cm", pen.n(v, 3));
        ways.push(way("conductivity", BeginReading::Conductivity, three, by, &write, &step.say));
    }
    ways.into_iter().unzip()
}

/// A tank whose alkalinity may have run out on tap water alone counts as an old acid one (harm rule 8): a tenth.
fn acid(desk: &Desk, waters: &Waters) -> Option<Way> {
    let limit = &desk.book.harm.limit.old_tank_change_percent;
    (waters.now.alkalinity_meq_per_l.low <= 0.0).then(|| Way {
        what: "alkalinity",
        reading: (BeginReading::Alkalinity, waters.new.alkalinity_meq_per_l.value),
        says: "On tap water alone the tank's alkalinity may have run out by now, and then it is acid and its ammonia harmless only until pH rises: \
               at most a tenth at a time, with an ammonia test before each."
            .to_owned(),
        share_most: limit.value() / 100.0,
    })
}

/// Before and after, where pH rises by a step that shows.
fn ammonia(desk: &Desk, before: Option<&Indices>, after: Option<&Indices>) -> Option<Note> {
    let (before, after) = (before?, after?);
    let shows = desk.book.recipe.worth.ph_rises.value;
    (after.ph.value > before.ph.value + shows).then(|| raised(desk, before, after))
}

fn raised(desk: &Desk, before: &Indices, after: &Indices) -> Note {
    Note {
        about: "ammonia".to_owned(),
        text: ph_rises(&desk.pen, before, after),
        key: Some("ph_frees_ammonia".to_owned()),
    }
}

/// What a rise of pH does to ammonia, before and after, with the number at which harm starts: a sentence (harm rule 7).
pub fn ph_rises(pen: &Pen, before: &Indices, after: &Indices) -> String {
    let harm = &knowledge::book().harm;
    let limit = harm.limit.ammonia_unionised_mg_n_per_l.value();
    format!(
        "pH rises from {} to {}, and the toxic share of ammonia from {} to up to {}: harm starts at {} mg/L of all ammonia-N now and at {} mg/L then. {}",
        pen.n(before.ph.value, 3),
        pen.n(after.ph.value, 3),
        pen.percent(before.nh3_fraction.high),
        pen.percent(after.nh3_fraction.high),
        pen.n(limit / before.nh3_fraction.high, 2),
        pen.n(limit / after.nh3_fraction.high, 2),
        harm.rule.ph_frees_ammonia.say
    )
}

/// Airing carbon dioxide off raises pH too: told where carbon dioxide is given by day and animals live.
pub(crate) fn airing_off(desk: &Desk, water: &SourceWater) -> Option<Note> {
    let given = desk.tank.co2_given_mg_per_l.filter(|_| desk.animals())?;
    let under = indices(water, desk.tank.temperature_c, crate::indices::Air::Given(given))?;
    let off = aired(desk.tank, water)?;
    ammonia(desk, Some(&under), Some(&off)).map(|mut note| {
        note.text = format!("When the carbon dioxide is off and the water airs: {}", note.text);
        note
    })
}
