//! The plan, put together: what limits the change first, then the choice, the bottles, the new water, and what follows.

use std::collections::{BTreeMap, BTreeSet};

use knowledge::book;
use quantity::{Ion, Kind, Known, Why};
use setup::{SourceWater, Tank};

use crate::bottles;
use crate::choose::{Choice, LeftOut, Subject, choose_at};
use crate::desk::Desk;
use crate::indices::{Air, aired, indices};
use crate::new_water::ammonia::Ammonia;
use crate::new_water::chlorine::Brought;
use crate::new_water::salts::weigh_all;
use crate::new_water::{ammonia, chlorine, new_water};
use crate::plan::{Bottle, Dose, Into, Level, NewWater, Note, Plan, Unmet};
use crate::say::Pen;
use crate::trim::Trimmed;
use crate::waters::{alkalinity_meq, blended, in_tank, salted};
use crate::{
    carbon_dioxide, cautions, change, copper, habit, law, left_out, levels, refused, shopping, start, steps, trim,
};

/// How often the plan is written anew because its own water raises the toxic share of the new water's ammonia.
const ROUNDS: usize = 4;
/// A limit is kept with this much to spare, more in each round, so that a plan whose water comes out a hair more alkaline
/// than the one before stays under it.
const NEARLY: f64 = 0.97;

/// The plan for a tank without open questions.
pub fn plan(told: &Tank) -> Plan {
    let mut plan = as_told(told);
    if let Some((refused, why)) = habit::refused(told, &plan, &as_told) {
        plan.refused.push(refused);
        plan.whys.push(why);
    }
    plan
}

/// The plan for the habit that the keeper told, whether it holds or not.
fn as_told(told: &Tank) -> Plan {
    let told = &mut told.clone();
    never(told);
    // What is stirred into the new water can raise its pH, and then less of it may be changed at once: the limit is
    // worked out for the plain new water first, and again for the waters of the plan, until they agree.
    let mut waters = vec![blended(told, told.low_share.unwrap_or(0.0))];
    let mut round = 0;
    loop {
        let (mut tank, limited) = limit(told, &waters, NEARLY.powi(round as i32 + 1));
        tank.at_hand.by_hose = runs_by_hose(&tank);
        let (mut plan, new) = write(&tank, limited);
        if told.at_hand.by_hose && !tank.at_hand.by_hose {
            plan.new_water.notes.push(buckets_instead(&Pen::of(&tank)));
        }
        round += 1;
        let harmless = plan.change.share <= share_most(told, &new) || !told.animals.any();
        if harmless || round == ROUNDS {
            let (most, because) = most(told, &waters, &new);
            // What the plan changes is within the limit; only more than that keeps something to spare.
            plan.change.share_most = if harmless { most.max(plan.change.share) } else { most };
            plan.change.most_because = because;
            return plan;
        }
        waters.extend(new);
    }
}

/// A change of nothing is none, on whatever day it falls.
fn never(tank: &mut Tank) {
    if tank.habits.change_share.value <= 0.0 {
        tank.habits.every_days = 0;
    }
}

/// Whether the changes of a tank, limited as they may be, run in by hose.
pub(crate) fn runs_by_hose(tank: &Tank) -> bool {
    let from_share = book().recipe.new_water.hose_from_share.value;
    tank.at_hand.by_hose && (tank.habits.every_days == 0 || tank.habits.change_share.value >= from_share)
}

fn buckets_instead(pen: &Pen) -> Note {
    let text = format!(
        "By bucket, not by hose: by hose the whole tank's dose of conditioner would go in for a change of under {} of it, \
         each time. Each bucket gets its own dose, stirred, before it is poured.",
        pen.percent(book().recipe.new_water.hose_from_share.value)
    );
    Note { about: "new water".to_owned(), text, key: None }
}

/// The most that may be changed at once by the worst of all these waters.
fn most(told: &Tank, waters: &[SourceWater], new: &[SourceWater]) -> (f64, Option<String>) {
    let desk = Desk::new(told);
    match worst(&desk, &mut waters.iter().chain(new)) {
        Some((brought, ammonia)) => change::most(&desk, &brought, Some(ammonia), NEARLY),
        None => {
            let tap = blended(told, told.low_share.unwrap_or(0.0));
            change::most(&desk, &chlorine::brought(&desk, &tap, 0.0), None, NEARLY)
        }
    }
}

/// What the worst of these waters brings, and the ammonia that it leaves.
fn worst(desk: &Desk, waters: &mut dyn Iterator<Item = &SourceWater>) -> Option<(Brought, Ammonia)> {
    let of = |water: &SourceWater| {
        let brought = chlorine::brought(desk, water, desk.tank.low_share.unwrap_or(0.0));
        ammonia::worst(desk, water, brought.nitrogen.1).map(|worst| (brought, worst))
    };
    waters.filter_map(of).min_by(|a, b| a.1.share_most.total_cmp(&b.1.share_most))
}

/// The largest share of which the ammonia harms in none of these waters.
fn share_most(told: &Tank, waters: &[SourceWater]) -> f64 {
    worst(&Desk::new(told), &mut waters.iter()).map_or(f64::INFINITY, |(_, ammonia)| ammonia.share_most)
}

/// The tank with the share of its changes limited by the rules of harm in any of these waters, and what says so.
/// `nearly`: the share of the limit that is used, 0 to 1.
fn limit(told: &Tank, waters: &[SourceWater], nearly: f64) -> (Tank, Option<Limited>) {
    let mut tank = told.clone();
    let desk = Desk::new(told);
    let worst = worst(&desk, &mut waters.iter());
    let brought = match (&worst, waters.first()) {
        (Some((brought, _)), _) => *brought,
        (None, Some(water)) => chlorine::brought(&desk, water, 0.0),
        (None, None) => return (tank, None),
    };
    let allowed = change::allowed(&desk, &brought, worst.map(|(_, worst)| worst), nearly);
    if let Some(sentence) = allowed.says {
        tank.habits.change_share = Known::exact(allowed.share, Kind::WorkedOut);
        tank.habits.every_days = allowed.every_days;
        never(&mut tank);
        return (tank, Some(Limited { sentence, whys: desk.whys() }));
    }
    (tank, None)
}

/// Write the plan of a tank whose change is limited already; and the waters in which its ammonia comes to stand.
fn write(tank: &Tank, limited: Option<Limited>) -> (Plan, Vec<SourceWater>) {
    let desk = Desk::new(tank);
    let at_tap = aired(tank, &blended(tank, tank.low_share.unwrap_or(0.0))).map(|i| i.ph);
    let mut choice = choose_at(tank, at_tap.map(|ph| ph.high), limited.is_none());
    let mixture = blended(tank, choice.low_share);
    let ph = aired(tank, &mixture).map(|i| i.ph);
    let trimmed = trim::trim(&desk, &mut choice.doses, ph);
    let copper = copper::watch(&desk, &mixture, choice.low_share, &mut choice.doses);
    let bottled = bottles::fill(&desk, &choice.doses, ph);
    let brought = chlorine::brought(&desk, &mixture, choice.low_share);
    let change = change::change(&desk, limited);
    let mut salts = weigh_all(&desk, &change, &bottled.doses);
    let mut doses: Vec<Dose> = bottled.doses.iter().filter(|d| d.into == Into::Bottle).cloned().collect();
    doses.append(&mut salts.given);
    let (levels, alkalinity) = all_levels(&desk, &doses, &choice);
    let water = salted(mixture.clone(), &doses);
    let standing = standing(&desk, &water, &doses, choice.low_share);
    let worst = [&water, &standing].into_iter().filter_map(|w| ammonia::worst(&desk, w, brought.nitrogen.1));
    let worst = worst.min_by(|a, b| a.share_most.total_cmp(&b.share_most).then(b.fraction.total_cmp(&a.fraction)));
    let test = ammonia::tested(&desk, worst);
    salts.tested(&desk, test.as_deref());
    let mut new_water = new_water(&desk, &change, salts.lines, &brought, worst, &water, None);
    let (now, low) = (&standing_of_tap(&desk), choice.low_share > 0.0);
    let ways = steps::Waters { now, plain: &mixture, new: &water, aim: &standing, low };
    let (begin, first) = steps::notes(&desk, &change, &ways, &choice.ramp, &new_water);
    new_water.notes.extend(first);
    let carbon_dioxide = carbon_dioxide::given(&desk);
    let aired = aired(tank, &standing);

    let mut cautions = cautions::notes(&desk, &levels, &alkalinity, weighs(&bottled.bottles, &new_water));
    cautions.extend(copper.notes.into_iter().chain(carbon_dioxide.notes).chain(steps::airing_off(&desk, &standing)));
    let mut left_out = left_out::notes(&desk, &choice, &doses, &levels, aired.as_ref(), &water, &alkalinity);
    let unmet = unmet(&desk, choice.unmet, &levels, &choice.left_out, &doses, &trimmed);
    left_out.extend(bottled.notes.into_iter().chain(salts.left).chain(trimmed.notes(&levels)));
    let wished = refused::wished_ph(&desk, &water, aired.as_ref());
    let products = products(&doses, new_water.conditioner.is_some());
    let plan = Plan {
        true_l: tank.geometry.true_l,
        begin,
        low_share: choice.low_share,
        under_co2: carbon_dioxide.planned.and_then(|c| indices(&standing, tank.temperature_c, Air::Given(c))),
        aired,
        left_out,
        unmet,
        refused: wished.into_iter().chain(copper.refused).chain(carbon_dioxide.refused).collect(),
        cautions,
        law: law::law(&desk, &products),
        shopping: shopping::shopping(&desk, &bottled.bottles, &change, &new_water),
        proof: choice.proof,
        levels,
        alkalinity,
        doses,
        bottles: bottled.bottles,
        new_water,
        change,
        whys: Vec::new(),
    };
    let whys = whys(desk, choice.whys, &plan.doses);
    (Plan { whys, ..plan }, vec![water, standing])
}

/// The keeper weighs something.
fn weighs(bottles: &[Bottle], new_water: &NewWater) -> bool {
    !new_water.salts.is_empty()
        || new_water.conditioner.as_ref().is_some_and(|c| c.refused.is_none())
        || bottles.iter().any(|bottle| bottle.volume_ml > 0.0)
}

/// What limits the change.
pub(crate) struct Limited {
    /// The sentence.
    pub sentence: String,
    /// Its why-notes.
    pub whys: Vec<Why>,
}

/// mg/L of an ion that the doses bring, into one place.
fn brings(doses: &[Dose], ion: Ion, into: Into) -> f64 {
    let all = doses.iter().filter(|d| d.into == into).flat_map(|d| &d.brings).filter(|(i, _)| *i == ion);
    all.map(|(_, mg)| mg).fold(0.0, |sum, mg| sum + mg)
}

/// meq/L of alkalinity that the doses bring, into one place.
fn alkalinity_brought(desk: &Desk, doses: &[Dose], into: Into) -> f64 {
    let per = if into == Into::Bottle { desk.tank.geometry.true_l.value } else { 1.0 };
    doses.iter().filter(|d| d.into == into).map(alkalinity_meq).fold(0.0, |sum, meq| sum + meq) / per
}

/// Every ion that is fed, wished or limited, and alkalinity, under the doses as they are really weighed.
fn all_levels(desk: &Desk, doses: &[Dose], choice: &Choice) -> (Vec<Level>, Level) {
    let tank = desk.tank;
    let bands = levels::bands(tank);
    let dosed = |ion: Ion| doses.iter().any(|d| d.brings.iter().any(|(i, mg)| *i == ion && *mg > 0.0));
    let limited = |ion: Ion| ion == Ion::Nitrate || (ion == Ion::Copper && tank.animals.invertebrates());
    let shown = |ion: &Ion| bands.contains_key(ion) || dosed(*ion) || limited(*ion);
    let list = Ion::ALL
        .into_iter()
        .filter(shown)
        .map(|ion| {
            let (a_day, in_new) = (brings(doses, ion, Into::Bottle), brings(doses, ion, Into::NewWater));
            let level = levels::level(tank, ion, a_day, in_new, choice.low_share);
            desk.why(levels::why(tank, &level, &levels::cycle(tank, ion, a_day, in_new, choice.low_share)));
            level
        })
        .collect();
    let (a_day, in_new) =
        (alkalinity_brought(desk, doses, Into::Bottle), alkalinity_brought(desk, doses, Into::NewWater));
    let alkalinity = levels::alkalinity(tank, a_day, in_new, choice.low_share).not_below_zero();
    desk.why(levels::why(tank, &alkalinity, &levels::alkalinity_cycle(tank, a_day, in_new, choice.low_share)));
    (list, alkalinity)
}

/// The water that comes to stand in the tank under these doses: every ion of the speciation at its level.
fn standing(desk: &Desk, new_water: &SourceWater, doses: &[Dose], low_share: f64) -> SourceWater {
    let of = |ion| {
        levels::level(desk.tank, ion, brings(doses, ion, Into::Bottle), brings(doses, ion, Into::NewWater), low_share)
    };
    let list: Vec<Level> = Ion::MAJOR.into_iter().map(of).collect();
    let (a_day, in_new) =
        (alkalinity_brought(desk, doses, Into::Bottle), alkalinity_brought(desk, doses, Into::NewWater));
    in_tank(new_water, &list, &levels::alkalinity(desk.tank, a_day, in_new, low_share))
}

/// What tap water alone comes to in this tank, without salts and without low-mineral water.
fn standing_of_tap(desk: &Desk) -> SourceWater {
    standing(desk, &desk.tank.tap, &[], 0.0)
}

/// What the choice could not meet, and what weighing, ceilings or copper then kept from its band.
fn unmet(
    desk: &Desk,
    told: Vec<Unmet>,
    levels: &[Level],
    left: &[LeftOut],
    doses: &[Dose],
    trimmed: &Trimmed,
) -> Vec<Unmet> {
    let known = |ion: Ion| {
        told.iter().any(|u| u.ion == Some(ion))
            || left.iter().any(|l| l.subject == Subject::Ion(ion))
            || trimmed.tells(ion)
    };
    let settles = desk.tank.habits.every_days > 0;
    let rounded = desk.book.recipe.worth.rounded_share.value;
    let short =
        levels.iter().filter_map(|level| Some((level, level.ion?, level.band?))).filter(|(level, ion, band)| {
            // Where nothing settles, a level may begin low.
            let least = if settles { level.lowest } else { level.highest };
            !known(*ion) && least < band.0 * (1.0 - rounded)
        });
    let short: Vec<_> = short.collect();
    let wants: Vec<(Ion, f64)> = short.iter().map(|(level, ion, band)| (*ion, band.0 - level.lowest)).collect();
    let starts = if settles { BTreeMap::new() } else { start::doses(desk, doses, levels, &wants) };
    let short = short.into_iter().map(|(level, ion, band)| {
        let why = match settles {
            false => format!(
                "a daily dose only replaces what is taken where no water is changed. {}",
                starts.get(&ion).map_or("", String::as_str)
            ),
            true if level.dose_per_day > 0.0 => {
                "that is what scale, syringe and the ceilings of a day leave of the dose.".to_owned()
            }
            true => "what would bring it was left out.".to_owned(),
        };
        Unmet {
            ion: Some(ion),
            band,
            reached: (level.lowest, level.highest),
            text: format!(
                "{} comes to {} to {}, and {} to {} are aimed at: {}",
                crate::say::capital(ion.name()),
                desk.pen.n(level.lowest, 2),
                desk.pen.ion(ion, level.highest),
                desk.pen.n(band.0, 2),
                desk.pen.ion(ion, band.1),
                why.trim_end()
            ),
        }
    });
    let short: Vec<Unmet> = short.collect();
    told.into_iter().chain(short).collect()
}

/// Keys of all products of the plan.
fn products(doses: &[Dose], conditioner: bool) -> BTreeSet<String> {
    let thiosulfate = conditioner.then(|| "sodium_thiosulfate".to_owned());
    doses.iter().map(|d| d.product.clone()).chain(thiosulfate).collect()
}

/// The desk's notes and those of the choice, each key once; none of a dose that was trimmed away.
fn whys(desk: Desk, others: Vec<Why>, doses: &[Dose]) -> Vec<Why> {
    let kept = |why: &Why| match why.key.strip_prefix("dose-") {
        Some(key) => {
            doses.iter().any(|d| key == d.product || key.strip_suffix("-new-water") == Some(d.product.as_str()))
        }
        None => true,
    };
    for why in others.into_iter().filter(kept) {
        desk.why(why);
    }
    desk.whys()
}
