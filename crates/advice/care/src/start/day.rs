//! Set-up day: what to have at hand, and the order of work, with the amounts of this tank.

use knowledge::book;
use recipe::say::{Pen, list};
use recipe::{Note, Plan};
use setup::{Disinfectant, Tank};

use crate::start::ground::{Bed, Path, plants};
use crate::start_waters::refused_tap;
use crate::start_words::{counted, keyed, known, note, range, up};

/// Buckets of at most ten litres that fill the tank, and litres in each.
pub(crate) fn buckets(tank: &Tank) -> (f64, f64) {
    let most = tank.at_hand.bucket_l.value.min(book().harm.limit.bucket_l.value());
    let litres = tank.geometry.true_l.value;
    let count = if most > 0.0 { up(litres / most) } else { 0.0 };
    (count, if count > 0.0 { litres / count } else { 0.0 })
}

/// What to have at hand before the first bucket.
pub(crate) fn hand(tank: &Tank, plan: &Plan, bed: Option<&Bed>, test_g: Option<f64>) -> Vec<Note> {
    let (pen, start, harm) = (Pen::new(&tank.units), &book().start, &book().harm);
    let mut all = Vec::new();
    if let Some(bed) = bed {
        all.push(note("Ground", ground_says(&pen, bed)));
    }
    all.push(plants_says(tank, &pen));
    let (count, each) = buckets(tank);
    all.push(keyed(
        "Bucket",
        format!(
            "One of at most {}, used for nothing else, with its lid: it is filled {} with {}. A plate or a bag to pour onto.",
            pen.litres(harm.limit.bucket_l.value()),
            counted(count, "time", "times"),
            pen.litres(each)
        ),
        "bucket_l",
    ));
    if let Some(stuck) = trouble::heater_stuck(tank, plan) {
        let says = stuck.says.join(" ");
        all.push(keyed("Heater", format!("{}. {says}", stuck.head), "heater_stuck"));
    }
    all.extend(cylinder_says(tank));
    if let Some(c) = plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none()) {
        all.push(note(
            "Conditioner",
            format!("{} for the whole tank, of {}.", pen.ml(conditioner_ml(tank, c)), recipe::Conditioner::NAMED),
        ));
    }
    all.extend(test_g.map(|grams| ammonium_chloride(tank, grams, &pen)));
    let hides = super::test::kit_hides(plan, &pen).map_or_else(String::new, |hides| format!(" {hides}"));
    all.push(note(
        "Tests",
        format!(
            "Ammonia and nitrite, whose lowest step is at most {} mg/L as N: they judge the start. Then pH, alkalinity, nitrate; a thermometer.{hides}",
            pen.n(start.kit_step_most_mg_n_per_l.value, 2)
        ),
    ));
    all.push(keyed(
        "Current",
        format!(
            "A timer for the lamp, a strip of sockets that hangs beside the tank and not under it. {}",
            harm.limit.residual_current_ma.say
        ),
        "residual_current_ma",
    ));
    all
}

/// As much of it as the weighing for all rounds takes, and one to spare.
fn ammonium_chloride(tank: &Tank, grams: f64, pen: &Pen) -> Note {
    let harm = &book().harm;
    let rounds = harm.limit.start_test_times.value();
    let product = book().with_role(knowledge::Role::StartTest).next();
    let weighed = |product| recipe::portion_weighs(tank, product, grams, rounds + 1.0);
    let says = format!(
        "{} g: one weighing for {} and one to spare. {}",
        pen.n(product.map_or((rounds + 1.0) * grams, weighed), 2),
        counted(rounds, "start test", "start tests"),
        harm.rule.no_cleaners.say
    );
    keyed("Ammonium chloride", says, "no_cleaners")
}

/// What a cylinder wants, and the room that all of it would fill (harm rule 14).
fn cylinder_says(tank: &Tank) -> Option<Note> {
    let (room, rule) = (trouble::cylinder_room(tank)?, &book().harm.rule);
    let says = format!("{}: {}. {} {}", room.head, room.why.sum, rule.co2_room.say, rule.co2_generator.say);
    Some(keyed("Carbon dioxide cylinder", says, "co2_room"))
}

/// Plants in number from the first day.
fn plants_says(tank: &Tank, pen: &Pen) -> Note {
    let start = &book().start;
    let n = plants(tank);
    let bunches = up(n.value / start.stems_a_bunch.value);
    note(
        "Plants",
        format!(
            "{} stems or small plants, about {} bunches or pots, {} of 100 of them fast growers: that is {} for each square decimetre of this floor. Common practice, without a source. Cuttings from other keepers do as well and cost nothing.",
            known(pen, n),
            pen.n(bunches, 3),
            range(pen, &start.fast_percent),
            range(pen, &start.plants_per_dm2)
        ),
    )
}

fn ground_says(pen: &Pen, bed: &Bed) -> String {
    let depth = format!("{} cm at the front and {} cm at the back", pen.n(bed.depth_cm.0, 2), pen.n(bed.depth_cm.1, 2));
    match (bed.soil_kg, bed.soil_cm) {
        (Some(soil), Some(cm)) => format!(
            "{} kg of garden soil for {} cm, and {} kg of sand over it: {} L together, {depth}. Soil without fertiliser, manure or peat; sieved.",
            known(pen, soil),
            pen.n(cm, 2),
            known(pen, bed.kg),
            pen.n(bed.litres, 2)
        ),
        _ => format!("{} kg of {}, dry, which is {} L: {depth}.", known(pen, bed.kg), bed.name, pen.n(bed.litres, 2)),
    }
}

/// mL of the conditioner's stock for as much water as fills the tank.
fn conditioner_ml(tank: &Tank, c: &recipe::Conditioner) -> f64 {
    let bucket = tank.at_hand.bucket_l.value.min(book().harm.limit.bucket_l.value());
    if c.ml_whole_tank > 0.0 { c.ml_whole_tank } else { c.ml_a_bucket * tank.geometry.true_l.value / bucket.max(1e-9) }
}

/// The order of work on the day.
pub(crate) fn order(tank: &Tank, plan: &Plan, bed: Option<&Bed>) -> Vec<Note> {
    let pen = Pen::new(&tank.units);
    let harm = &book().harm;
    let (rule, filter) = (&harm.rule, tank.keeping.filter);
    let mut day = vec![keyed(
        "Where it stands",
        format!(
            "{} {} Level, out of the sun, a socket beside it. Once it holds water it is never moved.",
            tank.geometry.load_sentence(&tank.units),
            rule.load.say
        ),
        "load",
    )];
    day.push(note(
        "Nothing is plugged in",
        format!(
            "{} and lamp are put in their places without their plugs. The plugs come last.",
            if filter { "Filter, heater" } else { "Heater" }
        ),
    ));
    day.push(note("Stones", "Stones and wood on the bare floor, so that nothing can dig them loose. Wood that floats is weighed down or soaked first."));
    if let Some(bed) = bed {
        day.push(note("Ground", lay(&pen, bed)));
    }
    day.push(note(
        "A hand’s breadth of water",
        format!(
            "Over a plate, so that the ground stays: as many buckets as that takes, the rest after the plants. {}",
            water_says(tank, plan, &pen)
        ),
    ));
    let dark = bed.is_some_and(|bed| bed.path == Path::Leaching);
    day.push(note(
        "Plants",
        format!(
            "All {} today, if you plant today: close together, fast growers at the back. They are what keeps algae small.{}",
            pen.n(plants(tank).value, 2),
            if dark { " Or let the ground ripen in the dark first: way two of the weeks." } else { "" }
        ),
    ));
    day.push(note("Fill it", fill_says(tank, plan, &pen)));
    day.extend(plugs_and_after(tank, &pen));
    day
}

/// The plugs last, and what holds from then on.
fn plugs_and_after(tank: &Tank, pen: &Pen) -> Vec<Note> {
    let (harm, start, filter) = (&book().harm, &book().start, tank.keeping.filter);
    let rule = &harm.rule;
    let mut day = Vec::new();
    day.push(keyed("Loops", rule.drip_loops.say.clone(), "drip_loops"));
    day.push(keyed(
        "The plugs, last",
        format!(
            "With dry hands, when the glass is dry outside and nothing drips: {} the lamp on its timer for {} hours. The heater {} later, when the water is over its mark. {}",
            if filter { "first the filter, then" } else { "first" },
            pen.n(start.light_first_h.value, 2),
            counted(harm.limit.heater_wait_min.value(), "minute", "minutes"),
            harm.limit.residual_current_ma.say
        ),
        "plugs_last",
    ));
    day.push(keyed("From now on", format!("{} {}", rule.plugs_out.say, rule.heater_plug.say), "plugs_out"));
    day.push(keyed(
        "No animal yet",
        format!(
            "{} Not even the snail that came with a plant: put it in a glass with a plant until then.",
            rule.start_test.say
        ),
        "start_test",
    ));
    day
}

fn lay(pen: &Pen, bed: &Bed) -> String {
    let start = &book().start;
    let deep = if bed.depth_cm.0.max(bed.depth_cm.1) > start.bed_most_cm.value + 0.05 {
        format!(" Deeper than {} cm rots without air: keep that corner planted.", pen.n(start.bed_most_cm.value, 2))
    } else {
        String::new()
    };
    match (bed.soil_kg, bed.soil_cm) {
        (Some(_), Some(cm)) => format!(
            "{} cm of soil that was soaked for {} to {} weeks in a bucket, its water poured away each day; then the sand over it, without a gap.{deep}",
            pen.n(cm, 2),
            pen.n(start.soak_weeks.low(), 2),
            pen.n(start.soak_weeks.high(), 2)
        ),
        _ if bed.path == Path::Leaching => {
            format!("{}, not rinsed: it would fall apart.{deep}", recipe::say::capital(&bed.name))
        }
        _ => format!("{}, rinsed in the bucket until its water runs clear.{deep}", recipe::say::capital(&bed.name)),
    }
}

/// Bucket by bucket, with the conditioner in the sentence.
fn water_says(tank: &Tank, plan: &Plan, pen: &Pen) -> String {
    let rule = &book().harm.rule;
    let (_, each) = buckets(tank);
    let first = format!("Each bucket, now and later, {}: {}", pen.litres(each), rule.cold_tap.say);
    if let Some(stops) = refused_tap(tank, plan) {
        return format!(
            "{first} But not with this tap: {stops} What is filled in today still stands there when the animals come."
        );
    }
    match &plan.new_water.conditioner {
        Some(c) => {
            let bucket = tank.at_hand.bucket_l.value.min(book().harm.limit.bucket_l.value()).max(1e-9);
            format!(
                "{first} Into each bucket first {} of {}, which covers {} mg/L of total chlorine. {}",
                pen.ml(recipe::Tools::at_hand(tank).up_on_syringe(c.ml_a_bucket * each / bucket)),
                recipe::Conditioner::NAMED,
                pen.n(c.covers_mg_per_l, 2),
                rule.stir_and_wait.say
            )
        }
        None if tank.tap.disinfectant == Disinfectant::None => {
            format!("{first} No conditioner: there is no disinfectant in it.")
        }
        None => first,
    }
}

/// All of it, the buckets that went in before the plants among them.
fn fill_says(tank: &Tank, plan: &Plan, pen: &Pen) -> String {
    let (count, each) = buckets(tank);
    format!(
        "To the line: {} in all, {} of {} with those before the plants.{}",
        pen.litres(tank.geometry.true_l.value),
        counted(count, "bucket", "buckets"),
        pen.litres(each),
        salts_says(tank, plan, pen)
    )
}

/// Salts for the whole filling.
fn salts_says(tank: &Tank, plan: &Plan, pen: &Pen) -> String {
    let (filling, change) = (tank.geometry.true_l.value, plan.change.litres);
    if plan.new_water.salts.is_empty() || change <= 0.0 {
        return String::new();
    }
    let scale = tank.at_hand.scale_g.value;
    let of =
        |salt: &recipe::Salt| format!("{} of {}", pen.grams(salt.grams_a_change * filling / change, scale), salt.name);
    let all: Vec<String> = plan.new_water.salts.iter().map(of).collect();
    let shared = if plan.low_share > 0.0 {
        format!(" {} % of it is the second water.", pen.n(100.0 * plan.low_share, 2))
    } else {
        String::new()
    };
    format!(
        "{shared} Into it, over the whole filling: {}, each stirred into a bucket of its own. {}",
        list(&all),
        book().harm.rule.powders.say
    )
}
