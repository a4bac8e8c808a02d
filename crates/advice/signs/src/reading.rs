//! What a reading means: bounds as data, and ammonia and carbon dioxide worked out for this water.
//!
//! What: the toxic share of ammonia at this pH and temperature against what animals bear; carbon dioxide's upper end.
//! Equation: NH3-N = f N, f from the speciation (at the upper end of pH and temperature); snails bear total ammonia by the
//! criterion of `data/harm.toml` where that is lower.
//! Symbols: mg/L N; f share, 0 to 1.
//! Range: that of the speciation.
//! Source: `ccme_ammonia`, `epa_ammonia_2013`; harm rules 7, 12, 13, 16.
//! Checked by: `tests/harm.rs`, `tests/elimination.rs`.

use knowledge::{Evidence, Meaning, Urgency, Who, book};
use quantity::Ion;
use water::{Carbon, Sample, Totals};

use crate::facts::{Facts, Read};
use crate::finding::{Finding, OneChange, causes};
use crate::{About, change};

/// All that a reading says; empty where it stands between its bounds.
pub(crate) fn findings(facts: &Facts, read: &Read) -> Vec<Finding> {
    let mut found: Vec<Finding> = match read.of.as_str() {
        "ammonia_n" => ammonia(facts, read).into_iter().collect(),
        "co2" => carbon_dioxide(facts, read).into_iter().collect(),
        "conductivity" => conductivity(facts, read).into_iter().collect(),
        _ => Vec::new(),
    };
    let meant = book().meanings.meaning.iter().filter(|meaning| meaning.reading == read.of && counts(facts, meaning));
    // The most that is said of one reading is said once.
    found.extend(meant.filter(|meaning| beyond(meaning, read)).take(1).map(|meaning| of_meaning(facts, meaning, read)));
    found
}

/// A reading that says nothing.
pub(crate) fn nothing(facts: &Facts, read: &Read) -> Finding {
    let bare = Finding {
        says: "Between the bounds that I know of. Nothing to do.".to_owned(),
        urgency: Urgency::LeaveItBe,
        ..bare(facts, read)
    };
    Finding { source: "common practice".to_owned(), ..bare }
}

fn counts(facts: &Facts, meaning: &Meaning) -> bool {
    match meaning.who {
        Who::All | Who::Plants => true,
        Who::Animals => facts.tank.animals.any(),
        Who::Tender => facts.tender(),
    }
}

/// Whether the reading lies beyond the bound: its best value, of animals' bounds its bad end.
fn beyond(meaning: &Meaning, read: &Read) -> bool {
    let of_harm = || {
        let key = meaning.limit.as_deref()?;
        book().harm.limit.all().into_iter().find(|(name, _)| *name == key).map(|(_, limit)| limit.value())
    };
    let Some(bound) = meaning.bound.or_else(of_harm) else { return false };
    let harms = matches!(meaning.who, Who::Animals | Who::Tender) && meaning.urgency < Urgency::WhenItSuits;
    match (meaning.above, read.below) {
        (true, true) => false,
        (true, false) => (if harms { read.known.high } else { read.known.value }) > bound,
        (false, _) => (if harms { read.known.low } else { read.known.value }) < bound,
    }
}

/// A finding of a reading with nothing in it yet.
fn bare(facts: &Facts, read: &Read) -> Finding {
    let row = book().readings.get(&read.of);
    let (name, unit) = row.map_or((read.of.as_str(), ""), |row| (row.name.as_str(), row.is.unit.as_str()));
    let when = match read.days_ago {
        days if days < 1.0 => String::new(),
        days => format!(", {} ago", recipe::say::several(&facts.pen.n(days.round(), 3), "day", "days")),
    };
    let sign = if read.below { "at most " } else { "" };
    Finding {
        about: About::Reading {
            of: read.of.clone(),
            value: read.known.value,
            error: read.known.high - read.known.value,
        },
        name: format!("{name}: {sign}{} {unit}{when}", facts.pen.n(read.known.value, 3)).trim_end().to_owned(),
        says: String::new(),
        urgency: Urgency::LeaveItBe,
        causes: Vec::new(),
        change: None,
        unknown: String::new(),
        evidence: Evidence::Practice,
        source: String::new(),
    }
}

fn of_meaning(facts: &Facts, meaning: &Meaning, read: &Read) -> Finding {
    let causes = causes(facts, &meaning.causes, Some(&read.of));
    let change = (meaning.urgency != Urgency::LeaveItBe).then(|| change::one(facts, &causes, Some(&read.of))).flatten();
    let known = book().cite(&meaning.source).is_some();
    Finding {
        says: meaning.says.clone(),
        urgency: meaning.urgency,
        change,
        causes,
        evidence: if known { Evidence::Known } else { Evidence::Practice },
        source: meaning.source.clone(),
        ..bare(facts, read)
    }
}

/// Share of ammonia that is toxic, at the bad end of pH and temperature, each as it was read, else worked out. `None`: outside the speciation.
fn toxic_share(facts: &Facts) -> Option<(f64, String)> {
    let temperature_c = facts.reading("temperature").map_or(facts.tank.temperature_c, |read| read.known).high;
    let (ph, of) = match facts.reading("ph") {
        Some(read) => (read.known.high, "what you read"),
        None => (facts.plan.aired.as_ref()?.ph.high, "what is worked out"),
    };
    let mg = Ion::MAJOR.map(|ion| facts.tank.tap.mg_per_l(ion).value);
    let sample = Sample {
        temperature_c,
        totals: Totals::from_mg_per_l(&mg),
        // The upper end of pH stands in water that has some left.
        alkalinity_eq_per_kg: Some(facts.plan.alkalinity.before_change.high.max(0.0) / 1000.0),
        carbon: Carbon::Ph(ph),
    };
    let share = water::solve(&sample).ok()?.nh3_fraction;
    let (ph, shown_c) = (facts.pen.n(ph, 3), facts.pen.celsius(temperature_c));
    Some((share, format!("at pH {ph} and {shown_c}, the upper ends of {of}")))
}

/// Ammonia: what counts is its toxic share.
fn ammonia(facts: &Facts, read: &Read) -> Option<Finding> {
    let harm = &book().harm;
    let shows = harm.limit.start_test_pass_mg_n_per_l.value();
    if read.below || read.known.value < shows || !facts.tank.animals.any() {
        return None;
    }
    let limit = &harm.limit.ammonia_unionised_mg_n_per_l;
    let (at_once, says) = match toxic_share(facts) {
        Some((share, at)) => {
            let toxic = share * read.known.high;
            let at_once = toxic >= limit.value();
            let danger = if at_once { "Animals are in danger: " } else { "" };
            let (percent, toxic) = (facts.pen.n(100.0 * share, 2), facts.pen.n(toxic, 2));
            (at_once, format!("{danger}{at}, {percent} % of it are toxic: {toxic} mg/L N. {}", limit.say))
        }
        // Where it can't be told the bad end counts.
        None => (
            true,
            format!("Animals may be in danger: how much of it is toxic I can’t tell in such water. {}", limit.say),
        ),
    };
    let keys = ["filter_young", "something_died", "chloramine", "ground_gives", "overfed", "kit"].map(str::to_owned);
    let causes = causes(facts, &keys, Some(&read.of));
    let (text, urgency) = if at_once {
        (
            "No food today, nothing that raises pH: air runs as before, unless they breathe fast; then the carbon dioxide goes off and the air on. Then \
             Help now: it has the change that this tap allows."
                .to_owned(),
            Urgency::AtOnce,
        )
    } else {
        (
            format!("Feed half and test every day until it is gone. {}", harm.rule.ph_frees_ammonia.say),
            Urgency::BeforeTheNextChange,
        )
    };
    // Looked at again tomorrow, as after a loss.
    let row = book().causes.get("something_died");
    let change = row.map(|row| OneChange { cause: String::new(), ..change::made(facts, "", &text, row) });
    Some(Finding {
        says,
        urgency,
        causes,
        change,
        evidence: Evidence::Known,
        source: limit.is.source.clone(),
        ..bare(facts, read)
    })
}

/// Carbon dioxide: the upper end of the reading counts.
fn carbon_dioxide(facts: &Facts, read: &Read) -> Option<Finding> {
    let harm = &book().harm;
    let most = harm.limit.co2_most_mg_per_l.value();
    if !facts.tank.animals.any() || read.known.high <= most {
        return None;
    }
    let row = book().causes.get("kit")?;
    let text = format!(
        "Carbon dioxide off, air on, until the fish breathe quietly; then less of it. {} {}",
        harm.rule.co2_never_raised.say, harm.rule.filter_and_air_stay.say
    );
    Some(Finding {
        says: format!("It can be {} mg/L. {}", facts.pen.n(read.known.high, 2), harm.limit.co2_most_mg_per_l.say),
        urgency: Urgency::AtOnce,
        change: Some(OneChange { cause: String::new(), ..change::made(facts, "", &text, row) }),
        evidence: Evidence::Practice,
        source: harm.limit.co2_most_mg_per_l.is.source.clone(),
        ..bare(facts, read)
    })
}

/// Conductivity well over what the plan works out.
fn conductivity(facts: &Facts, read: &Read) -> Option<Finding> {
    let expected = facts.plan.aired.as_ref()?.conductivity_25_us_per_cm;
    let apart = book().bound("conductivity_apart").map_or(0.0, |row| row.is.usual_high / 100.0);
    if read.known.low <= expected.high * (1.0 + apart) {
        return None;
    }
    let keys = ["evaporation", "lime_in_tank", "changes_few", "dosed_much", "kit"].map(str::to_owned);
    let causes = causes(facts, &keys, Some(&read.of));
    Some(Finding {
        says: format!(
            "By tap, doses and changes I expect {} to {} µS/cm: something adds salts.",
            facts.pen.n(expected.low, 3),
            facts.pen.n(expected.high, 3)
        ),
        urgency: Urgency::WhenItSuits,
        change: change::one(facts, &causes, Some(&read.of)),
        causes,
        source: "worked out".to_owned(),
        ..bare(facts, read)
    })
}
