//! From the water that stands in the tank now to the water of the plan: in steps that animals bear.
//!
//! What: a change of share x moves the tank by x × (new water - tank). Where that passes a day's limit of alkalinity,
//! hardness or conductivity the first changes are smaller: x = limit ÷ (new water - tank), a day apart (harm rule 6).
//! Where pH rises, the toxic share of ammonia is told before and after (harm rule 7).
//! Range: the tank "now" is what the plain tap, without salts or low-mineral water, settles to: nobody measured it, and
//! the sentences say so.
//! Source: harm rules 6 and 7; Emerson et al. 1975 for ammonia's turn with pH.
//! Checked by: `tests/harm.rs`.

use setup::SourceWater;

use crate::bottles::slip::MEQ_PER_GERMAN_DEGREE;
use crate::desk::Desk;
use crate::indices::{aired, indices};
use crate::plan::{Change, Indices, Note};
use crate::waters::hardness_meq;

/// The waters between which a plan moves the tank.
pub(crate) struct Waters<'a> {
    /// What the plain tap comes to in the tank.
    pub now: &'a SourceWater,
    /// The new water of the plan.
    pub new: &'a SourceWater,
    /// What the plan comes to in the tank.
    pub aim: &'a SourceWater,
}

/// One quantity on its way.
struct Way {
    what: &'static str,
    now: String,
    aim: String,
    limit: String,
    key: &'static str,
    /// Share of the tank that a day's change may be: limit ÷ distance.
    share_most: f64,
}

impl Way {
    /// Smaller changes until the usual one stays within the limit: (1 - s)^n of the distance is left after n of them.
    fn note(&self, desk: &Desk, change: &Change) -> Note {
        let share = self.share_most;
        let count = ((share / change.share).ln() / (1.0 - share).ln()).ceil().max(1.0);
        Note {
            about: self.what.to_owned(),
            text: format!(
                "The tank's {} goes from {} (what the plain tap comes to; nobody measured it) to {}. {} So the first {} are of {} ({}), a day \
                 apart; after them the usual {} stays within that.",
                self.what,
                self.now,
                self.aim,
                self.limit,
                if count > 1.0 {
                    format!("{} changes", crate::say::count(count as u32))
                } else {
                    "change and the one after it".to_owned()
                },
                desk.pen.litres(share * desk.tank.geometry.true_l.value),
                desk.pen.share(share),
                desk.pen.share(change.share)
            ),
            key: Some(self.key.to_owned()),
        }
    }
}

/// The choice's own ramp, where the tank is not as far away as the choice feared and yet further than one step.
fn ramped(desk: &Desk, ramp: &[f64]) -> Note {
    let shares: Vec<String> = ramp.iter().map(|share| desk.pen.share(*share)).collect();
    let first = if shares.len() == 1 {
        "change gets".to_owned()
    } else {
        format!("{} changes get", crate::say::count(shares.len() as u32))
    };
    Note {
        about: "first changes".to_owned(),
        text: format!(
            "The first {first} only a part of the additions: {} of them. {}",
            crate::say::list(&shares),
            desk.book.harm.rule.in_steps.say
        ),
        key: Some("in_steps".to_owned()),
    }
}

/// Sentences for the first changes; none where the plan leaves the water as it is, or no animal is there.
pub(crate) fn notes(desk: &Desk, change: &Change, waters: &Waters, ramp: &[f64]) -> Vec<Note> {
    if !desk.animals() || change.share <= 0.0 {
        return Vec::new();
    }
    let [before, new, after] = [waters.now, waters.new, waters.aim].map(|water| aired(desk.tank, water));
    let ways = ways(desk, waters.now, waters.new, before.as_ref(), new.as_ref());
    let mut notes: Vec<Note> =
        ways.iter().filter(|way| way.share_most < change.share).map(|way| way.note(desk, change)).collect();
    if notes.is_empty() && !ramp.is_empty() {
        notes.push(ramped(desk, ramp));
    }
    notes.extend(ammonia(desk, before.as_ref(), after.as_ref()));
    notes
}

fn ways(
    desk: &Desk,
    now: &SourceWater,
    new: &SourceWater,
    before: Option<&Indices>,
    after: Option<&Indices>,
) -> Vec<Way> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let (alkalinity_now, alkalinity_aim) = (now.alkalinity_meq_per_l.value, new.alkalinity_meq_per_l.value);
    let (hardness_now, hardness_aim) = (hardness_meq(now), hardness_meq(new));
    let most = |limit: f64, from: f64, to: f64| if from == to { f64::INFINITY } else { limit / (to - from).abs() };
    let mut ways = vec![
        Way {
            what: "alkalinity",
            now: pen.alkalinity(alkalinity_now),
            aim: pen.alkalinity(alkalinity_aim),
            limit: limit.alkalinity_step_meq_per_l.say.clone(),
            key: "alkalinity_step_meq_per_l",
            share_most: most(limit.alkalinity_step_meq_per_l.value(), alkalinity_now, alkalinity_aim),
        },
        Way {
            what: "hardness",
            now: pen.hardness(hardness_now),
            aim: pen.hardness(hardness_aim),
            limit: limit.hardness_step_dh.say.clone(),
            key: "hardness_step_dh",
            share_most: most(limit.hardness_step_dh.value() * MEQ_PER_GERMAN_DEGREE, hardness_now, hardness_aim),
        },
    ];
    if let (Some(before), Some(after)) = (before, after) {
        let (from, to) = (before.conductivity_25_us_per_cm.value, after.conductivity_25_us_per_cm.value);
        let step = limit.conductivity_step_percent.value() / 100.0;
        ways.push(Way {
            what: "conductivity",
            now: format!("{} µS/cm", pen.n(from, 3)),
            aim: format!("{} µS/cm", pen.n(to, 3)),
            limit: limit.conductivity_step_percent.say.clone(),
            key: "conductivity_step_percent",
            share_most: most(step * from, from, to),
        });
    }
    ways
}

/// A rise of pH that shows at two figures behind the point.
const PH_SHOWN: f64 = 0.05;

/// Before and after, where pH rises by a step that shows.
fn ammonia(desk: &Desk, before: Option<&Indices>, after: Option<&Indices>) -> Option<Note> {
    let (before, after) = (before?, after?);
    (after.ph.value > before.ph.value + PH_SHOWN).then(|| raised(desk, before, after))
}

fn raised(desk: &Desk, before: &Indices, after: &Indices) -> Note {
    let (pen, limit) = (&desk.pen, desk.book.harm.limit.ammonia_unionised_mg_n_per_l.value());
    Note {
        about: "ammonia".to_owned(),
        text: format!(
            "pH rises from {} to {}, and the toxic share of ammonia from {} to up to {}: harm starts at {} mg/L of all ammonia-N now and at {} mg/L then. {}",
            pen.n(before.ph.value, 3),
            pen.n(after.ph.value, 3),
            pen.percent(before.nh3_fraction.high),
            pen.percent(after.nh3_fraction.high),
            pen.n(limit / before.nh3_fraction.high, 2),
            pen.n(limit / after.nh3_fraction.high, 2),
            desk.book.harm.rule.ph_frees_ammonia.say
        ),
        key: Some("ph_frees_ammonia".to_owned()),
    }
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
