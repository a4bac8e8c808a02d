//! Ending a tank: whom the animals go to, what becomes of plants, water, ground, salts and cylinder. Never released; local law
//! goes first (harm rule 17).
//!
//! Checked by `tests/harm_away.rs`.

use knowledge::book;
use recipe::say::{Pen, list};
use recipe::{Note, Plan};
use setup::Tank;

use crate::start_words::{counted, keyed, note, range};

/// The end of a tank, in order.
pub fn stopping(tank: &Tank, plan: &Plan) -> Vec<Note> {
    let (pen, rule, away) = (Pen::new(&tank.units), &book().harm.rule, &book().away);
    let mut steps = vec![keyed(
        "The law first",
        format!(
            "{} Some plants, snails and crayfish may not be sold, given away or kept at all: ask your nature authority before you pass anything on.",
            rule.never_release.say
        ),
        "never_release",
    )];
    if let Some(weeds) = tank.weeds(&tank.plants) {
        steps.push(keyed("Plants that no one may have of you", weeds, "never_release"));
    }
    steps.push(keyed("Animals", animals(tank), "never_release"));
    steps.push(keyed(
        "Then the plugs",
        format!(
            "Not before the last animal has gone: filter, heater and air run until then. {} {}",
            rule.plugs_out.say, rule.heater_plug.say
        ),
        "plugs_out",
    ));
    steps.push(keyed(
        "Plants",
        format!(
            "Give them away where the law allows it. What is left: {} days in the freezer, or spread out until it crackles, {} days; then into the household waste. Not onto the compost, not into a stream, pond or ditch: a finger’s length of a stem grows again, and snails’ eggs hang on the leaves.",
            range(&pen, &away.freeze_days),
            range(&pen, &away.dry_days)
        ),
        "never_release",
    ));
    steps.push(keyed(
        "Water",
        format!(
            "{}, bucket by bucket of at most {}: down the drain to the sewer, or onto a flower bed that drains into no water. Never into a street drain that leads to a stream. {}",
            pen.litres(tank.geometry.true_l.value),
            pen.litres(book().harm.limit.bucket_l.value()),
            rule.siphon.say
        ),
        "siphon",
    ));
    steps.push(note("Ground, filter, stones", "Rinse them over a sieve and dry them out in the sun or a warm room until nothing on them is damp; snails and seeds live on in wet gravel. Then to whoever wants them, or to the tip."));
    steps.push(keyed("Salts and bottles", salts(tank, plan), "not_a_drink"));
    if tank.co2_given_mg_per_l.is_some() {
        steps.push(keyed("The cylinder", format!("Valve closed, regulator off, back to the dealer, never into the waste, never opened to empty it indoors. {}", rule.co2_room.say), "co2_room"));
    }
    steps.push(note("The glass", "Empty before anybody lifts it, by two, with gloves."));
    steps
}

fn animals(tank: &Tank) -> String {
    let a = &tank.animals;
    let of = |n: u32, one: &str, many: &str| (n > 0).then(|| counted(f64::from(n), one, many));
    let who: Vec<String> = [
        of(a.fish, "fish", "fish"),
        of(a.shrimps, "shrimp", "shrimps"),
        of(a.snails, "snail", "snails"),
        of(a.other_invertebrates, "other", "others"),
    ]
    .into_iter()
    .flatten()
    .collect();
    let first = if who.is_empty() { "Whoever lives there".to_owned() } else { recipe::say::capital(&list(&who)) };
    format!(
        "{first}: to another keeper, a club, a shop that takes them back, an animal shelter; all of them, before anything is switched off. Tell your water’s hardness, pH and temperature. A sick animal is a vet’s business. None into a pond, stream or toilet, alive or dead: the dead go into the household waste or the ground."
    )
}

/// Each salt with the sentence of its label.
fn salts(tank: &Tank, plan: &Plan) -> String {
    let weighed = plan.doses.iter().map(|dose| dose.product.as_str());
    let mut keys: Vec<&str> = tank.at_hand.products.iter().map(String::as_str).chain(weighed).collect();
    keys.sort_unstable();
    keys.dedup();
    let fire = |key: &&str| book().product(key).is_some_and(|p| p.cautions.iter().any(|caution| caution == "oxidiser"));
    let burning: Vec<String> =
        keys.iter().filter(|key| fire(key)).filter_map(|key| Some(book().product(key)?.name.clone())).collect();
    let oxidisers = match (burning.is_empty(), book().cautions.get("oxidiser")) {
        (false, Some(caution)) => format!(
            " {}: {}; to the collection of hazardous waste, never into the bin.",
            recipe::say::capital(&list(&burning)),
            caution.say.to_lowercase()
        ),
        _ => String::new(),
    };
    format!(
        "In their labelled packets to another keeper or gardener, else to the collection of hazardous waste, each as its label says. Never two poured together.{oxidisers} Bottles ready mixed: thinned with much water down the drain, unless their label forbids it. {}",
        book().harm.rule.not_a_drink.say
    )
}
