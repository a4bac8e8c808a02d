//! How toxic ammonia is here, and the change of water that halves it.
//!
//! **What.** Of all ammonia only NH3 passes gills; its share follows from pH and temperature. A change dilutes ammonia and
//! moves pH: in harder water what is left can be more toxic than before.
//!
//! **Equation.** NH3-N = f N, f from the speciation with activities. After a change of a share x: what mixing conserves is
//! mixed, pH is solved anew, closed (the first minutes) and aired to the room (hours later); the worse of both counts.
//!
//! **Symbols.** N mg/L of all ammonia as nitrogen, f and x as shares, t °C.
//!
//! **Range.** That of `water::solve`. A pH that was read counts with its error, the upper end deciding.
//!
//! **Source.** `phreeqc_386` for the speciation, `ccme_ammonia` and `epa_ammonia_2013` for the limits.
//!
//! **Checked by** `tests/against_emerson.rs` (infinite dilution), `tests/by_hand_toxic.rs`, `tests/harm.rs`.

use knowledge::Book;
use quantity::chem::atom;
use quantity::{Digits, Ion, Known, format_number};
use water::{Carbon, Conserved, Sample, Solved, Totals, blend, pco2_atm_of_room, solve};

use crate::case::{Case, solved};
use crate::most::most_at_once;
use crate::sum::{Sum, Urgency};

/// Shares of a change that are tried, in steps of a twentieth.
const STEPS: u32 = 20;
/// Said in words.
const TENTH: f64 = 0.1;
/// The share by which it is seen whether this water makes it better or worse, unless less is changed at once.
const PROBE: f64 = 0.25;
/// What counts as halved: a fiftieth more is finer than any kit reads.
const HALF: f64 = 0.51;
/// Rows of the table.
const PH: [f64; 9] = [6.5, 6.75, 7.0, 7.25, 7.5, 7.75, 8.0, 8.25, 8.5];
/// Columns of the table, °C.
const TEMPERATURES_C: [f64; 3] = [20.0, 24.0, 28.0];
/// Of nearly pure water: activities that are 1 give the largest share, the bad end.
const THIN_MEQ_PER_L: f64 = 0.1;

/// Nitrogen in ammonium by mass (`iupac_2022`).
const N_OF_NH4: f64 = atom::N / (atom::N + 4.0 * atom::H);

/// The total ammonia at which harm starts, by pH and temperature.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct AmmoniaTable {
    /// Toxic ammonia at which harm starts, mg/L N.
    pub limit_mg_n_per_l: f64,
    /// Columns, °C.
    pub temperatures_c: Vec<f64>,
    /// pH and for each column mg/L N of all ammonia.
    pub rows: Vec<(f64, Vec<f64>)>,
}

/// The table for a sheet of paper: in nearly pure water, which is the bad end.
pub fn ammonia_table() -> AmmoniaTable {
    let limit = knowledge::book().harm.limit.ammonia_unionised_mg_n_per_l.value();
    let row = |ph: f64| {
        let cells = TEMPERATURES_C.map(|t| thin_share(ph, t).map_or(0.0, |share| limit / share));
        (ph, cells.to_vec())
    };
    AmmoniaTable {
        limit_mg_n_per_l: limit,
        temperatures_c: TEMPERATURES_C.to_vec(),
        rows: PH.into_iter().map(row).collect(),
    }
}

/// The toxic share of ammonia in nearly pure water.
pub(crate) fn thin_share(ph: f64, temperature_c: f64) -> Option<f64> {
    let mut mg = [0.0; water::TOTALS];
    if let Some(slot) = mg.get_mut(Ion::Sodium.index()) {
        *slot = THIN_MEQ_PER_L * Ion::Sodium.molar_mass();
    }
    let totals = Totals::from_mg_per_l(&mg);
    let sample =
        Sample { temperature_c, totals, alkalinity_eq_per_kg: Some(THIN_MEQ_PER_L / 1e3), carbon: Carbon::Ph(ph) };
    solve(&sample).ok().map(|water| water.nh3_fraction)
}

/// How toxic an amount of ammonia is.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Toxic {
    /// All ammonia, mg/L N.
    pub total_mg_n_per_l: f64,
    /// Toxic share, 0 to 1.
    pub share: Known<f64>,
    /// mg/L N of toxic ammonia.
    pub nh3_mg_n_per_l: Known<f64>,
    /// All ammonia at which harm starts here, at the bad end, mg/L N.
    pub harm_from_mg_n_per_l: f64,
    /// The criterion for snails is what limits.
    pub by_snails: bool,
}

impl Toxic {
    /// Harm has started, or may have.
    pub fn harms(&self) -> bool {
        self.total_mg_n_per_l >= self.harm_from_mg_n_per_l
    }
}

/// How toxic ammonia is in this tank; `None` without a pH, or outside the model's range.
pub fn toxic(case: &Case, total_mg_n_per_l: f64) -> Option<Toxic> {
    let (ph, t, water) = (case.ph()?, case.temperature_c(), case.tank_water());
    let share = |ph: f64, t: f64| solved(&water, total_mg_n_per_l, t, Carbon::Ph(ph)).map(|s| s.nh3_fraction);
    let share = Known::ranged(
        share(ph.low, t.low)?,
        share(ph.value, t.value)?,
        share(ph.high, t.high)?,
        ph.kind.weaker(t.kind),
    );
    let book = case.book();
    let by_share = limit(book) / share.high;
    let by_snails = match case.snails() {
        true => book.harm.snail_ammonia.total_mg_n_per_l(ph.high, t.high),
        false => f64::INFINITY,
    };
    Some(Toxic {
        total_mg_n_per_l,
        share,
        nh3_mg_n_per_l: share.map(|share| share * total_mg_n_per_l),
        harm_from_mg_n_per_l: by_share.min(by_snails),
        by_snails: by_snails < by_share,
    })
}

fn limit(book: &Book) -> f64 {
    book.harm.limit.ammonia_unionised_mg_n_per_l.value()
}

/// Toxic ammonia after a change, mg/L N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct After {
    /// In the first minutes: mixed, no carbon dioxide lost yet.
    pub closed: f64,
    /// Hours later, in balance with the room.
    pub aired: f64,
}

/// What a change of a share does to it; a share of 0 is the tank left alone.
pub(crate) fn after(case: &Case, total: f64, share: f64) -> Option<After> {
    let (ph, t) = (case.ph()?.high, case.temperature_c());
    let tank = solved(&case.tank_water(), total, t.high, Carbon::Ph(ph))?;
    let new_water = case.new_water();
    // What chloramine leaves and what the tap brings count together already, where there is a conditioner.
    let own_n = new_water.mg_per_l(Ion::Ammonium).high * N_OF_NH4;
    let new_n = case.plan.new_water.conditioner.as_ref().map_or(own_n, |c| c.ammonia_n_mg_per_l.max(own_n));
    let tap_c = case.new_c().value.clamp(0.0, 35.0);
    let tap = solved(&new_water, new_n, tap_c, Carbon::Ph(new_water.ph.high))?;
    let mixed = blend(&[(1.0 - share, tank.conserved()), (share, tap.conserved())]);
    // As warm as the tank: new water is poured so, and warmth is the bad end.
    let mixed = Conserved { temperature_c: t.high, ..mixed };
    let nh3 = |s: &Solved| s.nh3_fraction * s.totals.mg_per_l(Ion::Ammonium) * N_OF_NH4;
    let room = pco2_atm_of_room(case.tank.room_co2_ppm.low, t.high);
    Some(After { closed: nh3(&solve(&mixed.closed()).ok()?), aired: nh3(&solve(&mixed.open_to(room)).ok()?) })
}

/// What changes do to the toxic ammonia.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Halving {
    /// A change of this share halves it, in the first minutes and once it is aired.
    By(f64, After),
    /// Even the most that is changed at once only brings it to this.
    NotAtOnce(After),
    /// This water makes it worse than leaving the tank alone: so much after a change of this share.
    Worse(f64, After),
}

/// The smallest change that halves the toxic ammonia, against the tank left alone in the same state; an old tank gets no more
/// than its tenth.
pub(crate) fn halving(case: &Case, total: f64) -> Option<Halving> {
    let alone = after(case, total, 0.0)?;
    let most = most_at_once(case);
    let tried = PROBE.min(most);
    let probe = after(case, total, tried)?;
    if probe.closed >= alone.closed || probe.aired >= alone.aired {
        return Some(Halving::Worse(tried, probe));
    }
    let steps = (1..=STEPS).map(|i| f64::from(i) / f64::from(STEPS)).filter(|share| *share < most - 1e-9);
    let shares = steps.chain([most]);
    let mut last = alone;
    for share in shares {
        last = after(case, total, share)?;
        if last.closed <= HALF * alone.closed && last.aired <= HALF * alone.aired {
            return Some(Halving::By(share, last));
        }
    }
    Some(Halving::NotAtOnce(last))
}

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let Some(total) = case.told.get("ammonia").filter(|total| *total > 0.0) else { return Vec::new() };
    let Some(toxic) = toxic(case, total) else { return Vec::new() };
    let limit = limit(case.book());
    let (pen, t) = (case.pen(), case.temperature_c());
    let ph = case.ph().map_or(f64::NAN, |ph| ph.value);
    let urgency = if toxic.harms() { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let head = format!("{} mg/L of the {} mg/L ammonia (as N) are toxic here", n(toxic.nh3_mg_n_per_l.value), n(total));
    let arithmetic = format!(
        "{} mg/L × {} % at pH {} and {} = {} mg/L (likely {} to {}); harm starts at {} mg/L",
        n(total),
        n(100.0 * toxic.share.value),
        pen.n(ph, 3),
        pen.celsius(t.value),
        n(toxic.nh3_mg_n_per_l.value),
        n(toxic.nh3_mg_n_per_l.low),
        n(toxic.nh3_mg_n_per_l.high),
        n(limit),
    );
    let words = "Only this share passes through gills. It grows tenfold with each step of pH, and with warmth. The reading of pH counts \
                 with its error, and the upper end decides.";
    let sum =
        Sum::new("toxic-ammonia", urgency, head, arithmetic, words, &["phreeqc_386", "ccme_ammonia", "emerson_1975"])
            .figure("total_mg_n_per_l", total)
            .figure("toxic_share", toxic.share.value)
            .figure("nh3_mg_n_per_l", toxic.nh3_mg_n_per_l.value)
            .figure("nh3_high_mg_n_per_l", toxic.nh3_mg_n_per_l.high)
            .figure("harm_from_mg_n_per_l", toxic.harm_from_mg_n_per_l)
            .only(toxic.share.kind);
    let from = match toxic.by_snails {
        true => format!(
            "Harm starts here at {} mg/L of all ammonia: snails bear less than fish.",
            n(toxic.harm_from_mg_n_per_l)
        ),
        false => format!(
            "Harm starts at {} mg/L of toxic ammonia, here from {} mg/L of all ammonia on.",
            n(limit),
            n(toxic.harm_from_mg_n_per_l)
        ),
    };
    let sum = sum.say(from);
    let sum = match case.told.guessed_basis("ammonia") {
        true => sum.say(format!(
            "You did not say how your kit counts: taken as N, the bad end. If it counts NH4, it is {} mg/L as N.",
            n(N_OF_NH4 * total)
        )),
        false => sum,
    };
    vec![if toxic.harms() { act(case, total, sum) } else { wait(case, total, sum) }]
}

/// Below the limit: what to leave alone.
fn wait(case: &Case, total: f64, sum: Sum) -> Sum {
    let limit = limit(case.book());
    let start = n(limit);
    let sum = sum
        .say(format!("No big change now: no harm is known below {start} mg/L of toxic ammonia. No food today, test again tomorrow."))
        .say(format!(
            "Let nothing raise pH meanwhile (alkalinity salt, harder water): one step of pH makes ten times as much of it toxic, and harm starts \
             at {start} mg/L."
        ));
    match after(case, total, 0.0).map(|alone| alone.aired).filter(|aired| *aired >= limit) {
        Some(aired) => sum.figure("aired_mg_n_per_l", aired).say(format!(
            "Aired to the room this water would hold {} mg/L of toxic ammonia, over {start}: carbon dioxide stays as it is, unless they breathe fast; \
             then it goes off and the air on, and you test again at once.",
            n(aired)
        )),
        None => sum,
    }
}

/// Over the limit: the change.
fn act(case: &Case, total: f64, sum: Sum) -> Sum {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let start = n(limit.ammonia_unionised_mg_n_per_l.value());
    let litres = |share: f64| case.litres().map_or_else(String::new, |all| format!(", {}", pen.litres(share * all)));
    let how = format!(
        "Plugs out with dry hands and {} minutes’ wait before the water falls below the heater’s mark; conditioner, stirred, {} minutes \
         before it is poured; as warm as the tank; plugs back when the water is over the mark.",
        n(limit.heater_wait_min.value()),
        n(limit.conditioner_wait_min.value())
    );
    let old = format!(
        "It was not changed for months: {} at once and no more{}, again as the first line says, with an ammonia test each time.",
        if (most_at_once(case) - TENTH).abs() < 1e-9 { "a tenth".to_owned() } else { pen.percent(most_at_once(case)) },
        litres(most_at_once(case))
    );
    let sum = sum.say("No food, air on. The tap smells, is brown, or there is a notice: no change, air only.");
    let left = |after: &After| format!("{} mg/L toxic, and {} once it is aired", n(after.closed), n(after.aired));
    match halving(case, total) {
        Some(Halving::Worse(share, after)) => sum
            .figure("tried_share", share)
            .figure("after_tried_mg_n_per_l", after.closed)
            .figure("after_tried_aired_mg_n_per_l", after.aired)
            .say(format!(
                "No change with this water: {} of it would leave {}, since it raises pH or brings ammonia; harm starts at {start}. Water of low minerals or clean \
                 rain instead, as warm as the tank, a tenth a day ({} of the conductivity is what a day bears), again after an hour only where animals \
                 gasp or lie: that thins the ammonia and does not raise pH.",
                pen.percent(share),
                left(&after),
                pen.percent(case.book().harm.limit.conductivity_step_percent.value() / 100.0)
            )),
        _ if case.old() => sum.say(old).say(how),
        Some(Halving::By(share, after)) => sum
            .figure("halved_by_share", share)
            .figure("left_mg_n_per_l", after.closed)
            .say(format!(
                "A change of {}{} halves it: it leaves {} (harm starts at {start}).",
                pen.percent(share),
                litres(share),
                left(&after)
            ))
            .say(how)
            .say("Test again two hours later; still at the limit: once more, when the first line allows it."),
        Some(Halving::NotAtOnce(after)) => sum
            .figure("left_mg_n_per_l", after.closed)
            .say(format!(
                "Change {}{}: it leaves {} (harm starts at {start}), not halved, because the new water brings ammonia or a higher pH. Again when \
                 the first line says, with a test before.",
                pen.percent(most_at_once(case)),
                litres(most_at_once(case)),
                left(&after)
            ))
            .say(how),
        None => sum.say(how),
    }
}
