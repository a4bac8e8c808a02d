//! From the water that stands in the tank now to the water of the plan: in steps that animals bear.
//!
//! What: a change of share x moves the tank by x × (new water - tank). Where that passes a day's limit of alkalinity,
//! hardness or conductivity at either end of the tap's year, the first changes are smaller:
//! x = limit ÷ (new water - tank), a day apart (harm rule 6).
//! Where pH rises, the toxic share of ammonia is told before and after (harm rule 7).
//! Where alkalinity may have run out, the first changes are a tenth at the most (harm rule 8). The smallest share of all
//! these is the one that is said. Salts go into a smaller change in proportion.
//! Range: the tank "now" is what tap water alone, without salts or low-mineral water, settles to: nobody measured it, and
//! the sentences say so.
//! Source: harm rules 6 and 7; Emerson et al. 1975 for ammonia's turn with pH.
//! Checked by: `tests/harm.rs`.

use quantity::Known;
use setup::SourceWater;

use crate::bottles::weigh::Tools;
use crate::desk::Desk;
use crate::indices::{aired, indices};
use crate::new_water::salts::raises_ph;
use crate::plan::{Begin, BeginReading, Change, FIRST_CHANGES, Indices, Note, Salt};
use crate::say::Pen;
use crate::waters::hardness_meq;

/// The waters between which a plan moves the tank.
pub(crate) struct Waters<'a> {
    /// What tap water alone comes to in the tank.
    pub now: &'a SourceWater,
    /// The new water of the plan.
    pub new: &'a SourceWater,
    /// What the plan comes to in the tank.
    pub aim: &'a SourceWater,
}

/// What keeps the first changes small.
struct Way {
    what: &'static str,
    /// What is read to know when they are through, and the new water's value of it.
    reading: (BeginReading, f64),
    /// Where it stands, where it goes, and the limit: sentences.
    says: String,
    /// Share of the tank that a change may be.
    share_most: f64,
    /// Share of the distance at which the usual change stays within the limit; 0: it never does.
    left: f64,
}

/// The first changes and their sentences; none where the plan leaves the water as it is, or no animal is there. `ramp`: the
/// choice's own first steps, which count the worst end of the tap's year. `test`: what stands with a salt that raises pH.
pub(crate) fn notes(
    desk: &Desk,
    change: &Change,
    waters: &Waters,
    ramp: &[f64],
    salts: &[Salt],
    test: Option<&str>,
) -> (Option<Begin>, Vec<Note>) {
    if !desk.animals() || change.share <= 0.0 {
        return (None, Vec::new());
    }
    let [before, new, after] = [waters.now, waters.new, waters.aim].map(|water| aired(desk.tank, water));
    let mut ways = ways(desk, change.share, waters, before.as_ref(), new.as_ref());
    ways.extend(acid(desk, change.share, waters));
    let bites = |share: f64| share < change.share;
    let smallest =
        ways.into_iter().min_by(|a, b| a.share_most.total_cmp(&b.share_most)).filter(|w| bites(w.share_most));
    // A part of the additions in a whole change moves the tank as far as all of them in a part of the change.
    let ramped = ramp.first().map(|first| first * change.share).filter(|share| bites(*share));
    let way = match (smallest, ramped) {
        (Some(way), Some(share)) => Some(Way { share_most: way.share_most.min(share), ..way }),
        (None, Some(share_most)) => {
            let says = desk.book.harm.rule.in_steps.say.clone();
            let us = new.as_ref().map_or(0.0, |new| new.conductivity_25_us_per_cm.value);
            let reading = (BeginReading::Conductivity, us);
            Some(Way { what: "first changes", reading, says, share_most, left: share_most / change.share })
        }
        (way, None) => way,
    };
    // Where the plan itself does not hold alkalinity, the tank is as acid before every change: there is no "then".
    let runs_out = waters.aim.alkalinity_meq_per_l.low <= 0.0;
    let way = way.map(|way| if runs_out { Way { left: 0.0, ..way } } else { way });
    let us = new.as_ref().map_or(0.0, |new| new.conductivity_25_us_per_cm.value);
    let begin = way.as_ref().map(|way| {
        let salts = in_proportion(desk, salts, way.share_most / change.share, test);
        Begin { new_us_per_cm: us, ..begin(desk, change, way, salts) }
    });
    let first = way.iter().zip(&begin).map(|(way, begin)| first_changes(desk, change, way, begin)).next();
    (begin, first.into_iter().chain(ammonia(desk, before.as_ref(), after.as_ref())).collect())
}

/// How many, how large, how far apart. (1 - s)^n of the distance is left after n of share s.
fn begin(desk: &Desk, change: &Change, way: &Way, salts: String) -> Begin {
    let share = way.share_most;
    let count = (way.left.ln() / (1.0 - share).ln()).ceil().max(1.0) as u32;
    Begin {
        share,
        litres: share * desk.tank.geometry.true_l.value,
        changes: (way.left > 0.0).then_some(count),
        days_apart: if change.limited.is_some() { change.every_days.max(1) } else { 1 },
        reading: way.reading.0,
        new_water: way.reading.1,
        new_us_per_cm: 0.0,
        salts,
    }
}

/// The same in words.
fn first_changes(desk: &Desk, change: &Change, way: &Way, begin: &Begin) -> Note {
    let pen = &desk.pen;
    let floor = desk.book.harm.limit.alkalinity_floor_meq_per_l.value();
    let apart = match begin.days_apart {
        1 => "a day apart".to_owned(),
        days => format!("{} days apart", crate::say::count(days)),
    };
    let times = match begin.changes {
        None => {
            format!("{apart}, as long as a test before it shows less than {} of alkalinity", pen.alkalinity(floor))
        }
        Some(1) => "once".to_owned(),
        Some(count) => format!("{} times, {apart}", crate::say::count(count)),
    };
    let salts = if begin.salts.is_empty() { String::new() } else { format!(" {}", begin.salts) };
    Note {
        about: way.what.to_owned(),
        text: format!(
            "Begin smaller: {} ({}) at a time, {times}; only then the {} of the plan. {}{salts}",
            pen.litres(begin.litres),
            pen.share(begin.share),
            pen.litres(change.litres),
            way.says
        ),
        key: Some(FIRST_CHANGES.to_owned()),
    }
}

/// What of the salts goes into a change that is `part` of the usual one, with the `test` where one of them raises pH. What the scale
/// can't show of it is weighed once for as many of these as a litre serves; what raises pH in a litre of its own, for with calcium it
/// would leave lime there.
fn in_proportion(desk: &Desk, salts: &[Salt], part: f64, test: Option<&str>) -> String {
    let (pen, tools) = (&desk.pen, Tools::of(desk));
    let little = |salt: &&Salt| salt.from_stock.is_none() && part * salt.grams_a_change < tools.least_g;
    let of = |salt: &Salt| match &salt.from_stock {
        Some(stock) => format!("{} of the stock of {}", pen.ml(tools.on_syringe(part * stock.take_ml)), salt.name),
        None => {
            format!("{} of {}", pen.grams(tools.on_scale(part * salt.grams_a_change), tools.scale_g), salt.name)
        }
    };
    let litre = |raising: bool| {
        let inside = salts.iter().filter(little).filter(|salt| raises_ph(desk, salt) == raising);
        let inside: Vec<String> =
            inside.map(|salt| format!("{} of {}", pen.grams(salt.grams_a_change, tools.scale_g), salt.name)).collect();
        let serves = match (1.0 / part + 1e-9).floor() as u32 {
            0 | 1 => "one of these".to_owned(),
            many => format!("{} of these", crate::say::count(many)),
        };
        (!inside.is_empty()).then(|| {
            format!(
                "{} of a litre of boiled, cooled water with {} in it, which serves {serves}",
                pen.ml((1000.0 * part).round()),
                crate::say::list(&inside)
            )
        })
    };
    if salts.is_empty() {
        return String::new();
    }
    let all: Vec<String> =
        salts.iter().filter(|salt| !little(salt)).map(of).chain(litre(false)).chain(litre(true)).collect();
    let test = test.filter(|_| salts.iter().any(|salt| raises_ph(desk, salt)));
    let test = test.map_or_else(String::new, |test| format!(" {test}"));
    format!("Into each of these goes less too: {}.{test}", all.join("; "))
}

fn ways(desk: &Desk, usual: f64, waters: &Waters, before: Option<&Indices>, new: Option<&Indices>) -> Vec<Way> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let most = |limit: f64, from: Known<f64>, to: Known<f64>| {
        let far = [to.low - from.low, to.value - from.value, to.high - from.high];
        limit / far.into_iter().map(f64::abs).fold(0.0, f64::max)
    };
    let way = |what: &'static str, reading, now: String, aim: String, limit: &str, share_most: f64| Way {
        what,
        reading,
        says: format!(
            "The tank's {what} goes from {now} (what tap water alone comes to; nobody measured it) to {aim}. {limit}"
        ),
        share_most,
        left: share_most / usual,
    };
    let (now, aim) = (waters.now.alkalinity_meq_per_l, waters.new.alkalinity_meq_per_l);
    let (soft, hard) = (hardness_meq(waters.now), hardness_meq(waters.new));
    let mut ways = vec![
        way(
            "alkalinity",
            (BeginReading::Alkalinity, aim.value),
            pen.alkalinity(now.value),
            pen.alkalinity(aim.value),
            &limit.alkalinity_step_meq_per_l.say,
            most(limit.alkalinity_step_meq_per_l.value(), now, aim),
        ),
        way(
            "hardness",
            (BeginReading::Hardness, hard.value),
            pen.hardness(soft.value),
            pen.hardness(hard.value),
            &limit.hardness_step_dh.say,
            most(limit.hardness_step_meq_per_l(), soft, hard),
        ),
    ];
    if let (Some(before), Some(new)) = (before, new) {
        let (from, to) = (before.conductivity_25_us_per_cm.value, new.conductivity_25_us_per_cm.value);
        let step = limit.conductivity_step_percent.value() / 100.0;
        let conductivity = way(
            "conductivity",
            (BeginReading::Conductivity, to),
            format!("{} µS/cm", pen.n(from, 3)),
            format!("{} µS/cm", pen.n(to, 3)),
            &limit.conductivity_step_percent.say,
            step * from / (to - from).abs(),
        );
        // The limit goes with what the tank has come to: x q |d| <= step (to - d q), d = to - from, solved for q.
        let slope = usual * (to - from).abs() + step * (to - from);
        let left = if slope > 0.0 { (step * to / slope).min(1.0) } else { 1.0 };
        ways.push(Way { left, ..conductivity });
    }
    ways
}

/// A tank whose alkalinity may have run out on tap water alone counts as an old acid one (harm rule 8): a tenth.
fn acid(desk: &Desk, usual: f64, waters: &Waters) -> Option<Way> {
    let limit = &desk.book.harm.limit.old_tank_change_percent;
    (waters.now.alkalinity_meq_per_l.low <= 0.0).then(|| Way {
        what: "alkalinity",
        reading: (BeginReading::Alkalinity, waters.new.alkalinity_meq_per_l.value),
        says: "On tap water alone the tank's alkalinity may have run out by now, and then it is acid and its ammonia harmless only until pH rises: \
               at most a tenth at a time, with an ammonia test before each."
            .to_owned(),
        share_most: limit.value() / 100.0,
        left: limit.value() / 100.0 / usual,
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
