//! The start test: the ammonia that it gives, and what the logbook's readings say of it.
//!
//! **What.** With no animal in the tank (snails included) 1 mg/L of ammonia-nitrogen is given; a day later ammonia and nitrite
//! must each stand under 0.05 mg/L as N, or show the lowest step of a kit that is fine enough; twice running (harm rule 15).
//!
//! **Equation.** g = c V ÷ (w a), w = mg of N in a gram of ammonium chloride.
//!
//! **Symbols.** c 1 mg/L as N; V true litres; a assay of the product, share.
//!
//! **Range.** A tank without animals. The date is only a range: the readings decide.
//!
//! **Source.** `data/harm.toml`, `data/start.toml`; molar masses `iupac_2022`.
//!
//! **Checked by** `tests/by_hand_start.rs`, `tests/harm_start.rs`.

use jiff::ZonedDateTime;
use knowledge::{Harm, Product, Role, book};
use logbook::Kept;
use quantity::{Ion, Kind, Why, chem::atom};
use recipe::say::Pen;
use recipe::{Note, Plan, portion};
use setup::Tank;

use crate::start::judge::{Read, Round, Stage, animals_in, rounds, stage};
use crate::start_words::{counted, day, days, keyed, note, source, span, why};

/// The test of one tank.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct StartTest {
    /// g of ammonium chloride for one round; `None` where animals already live in the tank.
    pub grams: Option<f64>,
    /// How it is done, in order.
    pub steps: Vec<Note>,
    /// How far it is.
    #[serde(flatten)]
    pub stage: Stage,
    /// What the log says of it, in a sentence.
    pub says: String,
    /// The rounds in the log, the first one first.
    pub rounds: Vec<Round>,
    /// Animals live in the tank, by the log; `None`: nothing says so or not.
    pub animals_in: Option<bool>,
}

/// The test of a tank, its rounds judged by the log. `now` decides whether the last one is still fresh.
pub fn start_test(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> (StartTest, Vec<Why>) {
    let rounds = rounds(log, now);
    let animals_in = animals_in(log, now);
    let stage = stage(&rounds, tank.animals.start_test_passed, now);
    let product = book().with_role(Role::StartTest).next();
    let never = animals_in == Some(true) || tank.animals.start_test_passed;
    let grams = product.filter(|_| !never).map(|product| grams(tank, product));
    let mut whys = Vec::new();
    if let (Some(product), Some(grams)) = (product, grams) {
        whys.push(why_grams(tank, product, grams));
    }
    let says = says(tank, &stage, &rounds, animals_in);
    let steps = match (product, grams) {
        (Some(product), Some(grams)) => steps(tank, plan, product, grams, animals_in),
        _ if animals_in == Some(true) && !tank.animals.start_test_passed => lived_in(plan, &Pen::new(&tank.units)),
        _ => Vec::new(),
    };
    (StartTest { grams, steps, stage, says, rounds, animals_in }, whys)
}

/// mg of nitrogen that a gram of the product brings as ammonium.
fn nitrogen_mg_per_g(product: &Product) -> f64 {
    product.mg_per_g(Ion::Ammonium) * product.assay() * atom::N / Ion::Ammonium.molar_mass()
}

fn grams(tank: &Tank, product: &Product) -> f64 {
    let litres = tank.geometry.true_l.value;
    book().harm.limit.start_test_mg_n_per_l.value() * litres / nitrogen_mg_per_g(product)
}

fn why_grams(tank: &Tank, product: &Product, grams: f64) -> Why {
    let pen = Pen::new(&tank.units);
    let limit = &book().harm.limit.start_test_mg_n_per_l;
    let per_g = nitrogen_mg_per_g(product);
    why(
        "start-test",
        format!("why {} g?", pen.n(grams, 2)),
        format!(
            "{} mg/L × {} L ÷ {} mg N in a gram = {} g",
            pen.n(limit.value(), 2),
            pen.n(tank.geometry.true_l.value, 3),
            pen.n(per_g, 3),
            pen.n(grams, 2)
        ),
        format!("{} The litres are those that are really in the tank.", limit.say),
        &[source(limit), "iupac_2022"],
        tank.geometry.true_l.kind.weaker(Kind::WorkedOut),
    )
}

/// Whether the ammonia is given again: never where animals live, or may (harm rule 15).
fn again(tank: &Tank, animals_in: Option<bool>) -> &'static str {
    match animals_in {
        Some(true) => "Animals are in it: give no ammonia, test both every day.",
        None if tank.animals.any() => "Only while no animal is in it, a snail neither: give the ammonia again.",
        _ => "Give the ammonia again.",
    }
}

/// Where the log stands, in a sentence.
fn says(tank: &Tank, stage: &Stage, rounds: &[Round], animals_in: Option<bool>) -> String {
    let (pen, start, limit) = (Pen::new(&tank.units), &book().start, &book().harm.limit);
    let times = limit.start_test_times.value();
    let last = rounds.last();
    let read = |read: &Option<Read>| match read {
        None => "no reading".to_owned(),
        Some(read) if read.lowest_step => format!("the kit’s lowest step, {} mg/L", pen.n(read.value, 2)),
        Some(read) => format!("{} mg/L", pen.n(read.value, 2)),
    };
    let numbers = last.map_or_else(String::new, |round| {
        format!("ammonia {}, nitrite {} (as N)", read(&round.ammonia), read(&round.nitrite))
    });
    let again = again(tank, animals_in);
    let unless_lived_in = |says: String| if animals_in == Some(true) { String::new() } else { says };
    match stage {
        Stage::Told => "You told me that the start test was passed twice.".to_owned(),
        Stage::Passed => {
            format!("Passed {}: the last time {numbers}. The first animals may come.", counted(times, "time", "times"))
        }
        Stage::LongAgo { days: ago } => format!(
            "Passed, but {} ago: bacteria that get no ammonia for more than {} grow fewer. One more round, then the animals. {again}",
            days(*ago),
            days(start.test_keeps_days.value)
        ),
        Stage::Partly { times: passed } => format!(
            "Passed {}: {numbers}. It must be passed {} running. {again}",
            counted(f64::from(*passed), "time", "times"),
            counted(times, "time", "times")
        ),
        Stage::Waiting { hours } => format!(
            "The ammonia was given {}. Test ammonia and nitrite {} to {} hours after it: on {}.",
            if *hours < 1.0 { "just now".to_owned() } else { trouble::ago_words(*hours) },
            pen.n(start.test_earliest_h.value, 2),
            pen.n(start.test_latest_h.value, 2),
            last.map_or_else(String::new, |round| day(round.given.saturating_add(jiff::ToSpan::hours(24)).date()))
        ),
        Stage::Unread => format!(
            "The last round has {numbers} from the day after, so it says nothing. {again}{}",
            unless_lived_in(format!(
                " Test {} to {} hours later.",
                pen.n(start.test_earliest_h.value, 2),
                pen.n(start.test_latest_h.value, 2)
            ))
        ),
        Stage::Failed => format!(
            "Not passed yet: a day later or since {numbers}, and each must be under {} mg/L. {}{again} It is no fault of yours: the bacteria grow at their own pace.",
            pen.n(limit.start_test_pass_mg_n_per_l.value(), 2),
            unless_lived_in(format!(
                "Wait {} days. ",
                span(&pen, start.test_wait_days.low(), start.test_wait_days.high())
            ))
        ),
        Stage::NotBegun => {
            "No start test is in the log yet: no animal, snails included, until it is passed twice.".to_owned()
        }
    }
}

/// The share of all ammonia that is toxic in this tank, at the bad end.
fn toxic_share(plan: &Plan) -> Option<(f64, f64)> {
    plan.aired.as_ref().map(|aired| (aired.ph.value, aired.nh3_fraction.high))
}

/// What the dose would be to an animal, with the number at which harm starts.
fn harms_says(plan: &Plan, pen: &Pen) -> String {
    let limit = &book().harm.limit;
    toxic_share(plan).map_or_else(String::new, |(ph, share)| {
        format!(
            " At your pH of {} up to {} % of it is toxic: {} mg/L, and harm starts at {} mg/L: never with an animal in it, a snail neither.",
            pen.n(ph, 2),
            pen.n(100.0 * share, 2),
            pen.n(limit.start_test_mg_n_per_l.value() * share, 2),
            pen.n(limit.ammonia_unionised_mg_n_per_l.value(), 2)
        )
    })
}

/// What a kit that shows nothing may hide of ammonia at the pH of this tank, with what is then done (harm rule 7); `None`: even the
/// coarsest kit that is asked for shows it in time.
pub(crate) fn kit_hides(plan: &Plan, pen: &Pen) -> Option<String> {
    let step = book().start.kit_step_most_mg_n_per_l.value;
    let limit = book().harm.limit.ammonia_unionised_mg_n_per_l.value();
    let (ph, share) = toxic_share(plan).filter(|(_, share)| step * share > limit)?;
    let most = pen.n(limit / share, 2);
    Some(format!(
        "A kit that shows nothing may still hide its lowest step: at your pH of {} harm starts at {most} mg/L of all ammonia-N, and {} mg/L would hold up to {} of the toxic form, where harm starts at {}. Once animals live there, low means under {most}: a kit whose lowest step is at most that. With a coarser one change at most a tenth of the water at once, feed little, wait a day and test ammonia again.",
        pen.n(ph, 2),
        pen.n(step, 2),
        pen.n(step * share, 2),
        pen.n(limit, 2)
    ))
}

/// What becomes of the rest of what was weighed and mixed.
const KEEP: &str = "What is left keeps for the next rounds: closed, its name and day on the label, locked away. After the last round it goes, \
    thinned with much water, down the drain to the sewer.";

/// The test in order.
fn steps(tank: &Tank, plan: &Plan, product: &Product, grams: f64, animals_in: Option<bool>) -> Vec<Note> {
    let pen = Pen::new(&tank.units);
    let harm: &Harm = &book().harm;
    let (limit, rule, start) = (&harm.limit, &harm.rule, &book().start);
    let how = portion(tank, product, &product.name, grams, limit.start_test_times.value() + 1.0).unwrap_or_else(|| {
        format!("{} g of {} (your scale is too coarse for it: borrow one)", pen.n(grams, 2), product.name)
    });
    let harms = harms_says(plan, &pen);
    let mut steps = Vec::new();
    if animals_in.is_none() {
        steps.push(keyed(
            "First",
            "Does any animal swim or crawl in this tank already, a snail too? Then never give ammonia: do what stands last instead. Only if none is in it yet, go on.",
            "no_ammonium",
        ));
    }
    steps.push(note("Before", "Ammonia and nitrite show the lowest step of the kit by themselves: what is there already would be judged with it."));
    steps.push(keyed(
        "Give",
        format!(
            "Only while no animal is in the tank: {how}. That is {} mg/L of ammonia-nitrogen in your {}.{harms} {}",
            pen.n(limit.start_test_mg_n_per_l.value(), 2),
            pen.litres(tank.geometry.true_l.value),
            rule.no_cleaners.say
        ),
        "start_test",
    ));
    steps.push(keyed("Weigh", format!("{} {} {KEEP}", rule.powders.say, rule.not_a_drink.say), "powders"));
    steps.push(keyed(
        "A day later",
        format!(
            "{} Write both readings into the log: they decide, not the calendar.",
            limit.start_test_pass_mg_n_per_l.say
        ),
        "start_test_pass_mg_n_per_l",
    ));
    steps.push(keyed("Twice", limit.start_test_times.say.clone(), "start_test_times"));
    steps.push(note(
        "When",
        format!(
            "From day {} on, as often as you like, {} days apart until one is passed. It takes {} to {} weeks, with new filter material up to {}; with many growing plants or a sponge from a running tank often less.",
            pen.n(start.test_from_day.value, 2),
            span(&pen, start.test_wait_days.low(), start.test_wait_days.high()),
            pen.n(start.nitrifiers_weeks.low(), 2),
            pen.n(start.nitrifiers_weeks.high(), 2),
            pen.n(start.nitrifiers_longest_weeks.value, 2)
        ),
    ));
    steps.extend(alkalinity(tank, plan, &pen));
    if animals_in.is_none() {
        steps.extend(lived_in(plan, &pen));
    }
    steps
}

/// Nitrifying a mole of ammonia eats two of alkalinity (stoichiometry): said where few rounds would use it up.
fn alkalinity(tank: &Tank, plan: &Plan, pen: &Pen) -> Option<Note> {
    let limit = &book().harm.limit;
    let eats = 2.0 * limit.start_test_mg_n_per_l.value() / atom::N;
    let (has, floor) = (plan.alkalinity.after_change.low, limit.alkalinity_floor_meq_per_l.value());
    let rounds = (has - floor) / eats;
    let many = (rounds > 0.0 && rounds < f64::from(tank.habits.every_days.max(7))).then_some(rounds);
    many.map(|rounds| {
        note(
            "Alkalinity",
            format!(
                "Each round eats {} of it; of the {} that this tank holds right after a change nothing is left to eat after {}: then change water before the next.",
                pen.alkalinity(eats),
                pen.alkalinity(has),
                counted(rounds.floor().max(1.0), "round", "rounds")
            ),
        )
    })
}

/// What is done instead where animals already live in a tank that never passed.
fn lived_in(plan: &Plan, pen: &Pen) -> Vec<Note> {
    let (rule, limit) = (&book().harm.rule, &book().harm.limit);
    let still = days(book().start.between_groups_days.value);
    let mut notes = vec![keyed(
        "Animals are in it",
        format!(
            "Give no ammonia: {} Instead test ammonia and nitrite every day, feed little, and bring no further animal, until both have stayed at the lowest step of the kit for {still}. {} If ammonia or nitrite shows: Help now.",
            rule.no_ammonium.say, limit.ammonia_unionised_mg_n_per_l.say
        ),
        "no_ammonium",
    )];
    notes.extend(kit_hides(plan, pen).map(|hides| keyed("What the kit hides", hides, "ammonia_unionised_mg_n_per_l")));
    notes
}
