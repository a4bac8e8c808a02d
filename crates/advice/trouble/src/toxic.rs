//! How toxic ammonia is here, and from which amount on it harms.
//!
//! **What.** Of all ammonia only NH3 passes gills; its share follows from pH and temperature. One threshold serves the table of the sheet
//! and every tank: the toxic share's limit, and where snails or mussels live or may live the criterion for them where that is lower.
//!
//! **Equation.** NH3-N = f N, f from the speciation with activities; harm starts at N = limit/f, or at the criterion(pH, T).
//!
//! **Symbols.** N mg/L of all ammonia as nitrogen, f share 0 to 1, t °C.
//!
//! **Range.** That of `water::solve`. A pH that was read counts with its error, the upper end deciding, in the table too.
//!
//! **Source.** `phreeqc_386` for the speciation, `ccme_ammonia` and `epa_ammonia_2013` for the limits.
//!
//! **Checked by** `tests/against_emerson.rs` (infinite dilution), `tests/by_hand_toxic.rs`, `tests/harm.rs`.

use knowledge::Book;
use quantity::{Digits, Ion, Known, format_number};
use water::{Carbon, Sample, Totals, solve};

use crate::case::{Case, N_OF_NH4, solved};
use crate::remedy;
use crate::sum::{Sum, Urgency};

/// Rows of the table.
const PH: [f64; 9] = [6.5, 6.75, 7.0, 7.25, 7.5, 7.75, 8.0, 8.25, 8.5];
/// Columns of the table, °C.
const TEMPERATURES_C: [f64; 3] = [20.0, 24.0, 28.0];
/// Of nearly pure water: activities that are 1 give the largest share, the bad end.
const THIN_MEQ_PER_L: f64 = 0.1;
/// Any amount: the share does not hang on it.
const TRACE_MG_N: f64 = 0.1;

/// Acts that are said before the sentence of where harm starts.
const ACTS: usize = 2;

/// A row of the table: pH, and for each column mg/L N of all ammonia.
pub type AmmoniaRow = (f64, Vec<f64>);

/// The total ammonia at which harm starts, by pH and temperature.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct AmmoniaTable {
    /// Toxic ammonia at which harm starts, mg/L N.
    pub limit_mg_n_per_l: f64,
    /// A reading of pH is worth so much either way; the upper end is counted in.
    pub ph_error: f64,
    /// Columns, °C.
    pub temperatures_c: Vec<f64>,
    /// With snails or mussels, or where nobody knows: the smaller of both limits.
    pub rows: Vec<AmmoniaRow>,
    /// Fish alone: by the toxic share.
    pub fish_rows: Vec<AmmoniaRow>,
}

/// The table for a sheet of paper: in nearly pure water and with the pH at the upper end of its reading, which is the bad end.
pub fn ammonia_table() -> AmmoniaTable {
    let book = knowledge::book();
    let error = book.harm.limit.co2_ph_error.value();
    let rows = |snails: bool| {
        let cell = |ph: f64, t: f64| thin_share(ph, t).map_or(0.0, |share| harm_from(book, share, (ph, t), snails).0);
        PH.into_iter().map(|ph| (ph, TEMPERATURES_C.map(|t| cell(ph + error, t)).to_vec())).collect()
    };
    AmmoniaTable {
        limit_mg_n_per_l: limit(book),
        ph_error: error,
        temperatures_c: TEMPERATURES_C.to_vec(),
        rows: rows(true),
        fish_rows: rows(false),
    }
}

/// The threshold: all ammonia at which harm starts, mg/L N, by its toxic share at a pH and °C; and whether the criterion for snails is what
/// limits.
fn harm_from(book: &Book, share: f64, (ph, t): (f64, f64), snails: bool) -> (f64, bool) {
    let by_share = limit(book) / share;
    let by_snails = if snails { book.harm.snail_ammonia.total_mg_n_per_l(ph, t) } else { f64::INFINITY };
    (by_share.min(by_snails), by_snails < by_share)
}

/// The toxic share of ammonia in nearly pure water.
fn thin_share(ph: f64, temperature_c: f64) -> Option<f64> {
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
    /// All ammonia at which harm starts here, mg/L N: the low end with pH and warmth at their upper ends. The low end decides.
    pub harm_from_mg_n_per_l: Known<f64>,
    /// The criterion for snails is what limits.
    pub by_snails: bool,
}

impl Toxic {
    /// Harm has started, or may have.
    pub fn harms(&self) -> bool {
        self.total_mg_n_per_l >= self.harm_from_mg_n_per_l.low
    }
}

/// How toxic ammonia is in this tank; `None` without a pH, or outside the model's range.
pub fn toxic(case: &Case, total_mg_n_per_l: f64) -> Option<Toxic> {
    let (ph, t, water) = (case.ph()?, case.temperature_c(), case.tank_water());
    let (book, snails) = (case.book(), case.snails());
    let share = |ph: f64, t: f64| solved(&water, total_mg_n_per_l, t, Carbon::Ph(ph)).map(|s| s.nh3_fraction);
    let (low, likely, high) = (share(ph.low, t.low)?, share(ph.value, t.value)?, share(ph.high, t.high)?);
    let kind = ph.kind.weaker(t.kind);
    let share = Known::ranged(low, likely, high, kind);
    let from = |share: f64, ph: f64, t: f64| harm_from(book, share, (ph, t), snails);
    let (worst, by_snails) = from(high, ph.high, t.high);
    Some(Toxic {
        total_mg_n_per_l,
        share,
        nh3_mg_n_per_l: share.map(|share| share * total_mg_n_per_l),
        harm_from_mg_n_per_l: Known::ranged(worst, from(likely, ph.value, t.value).0, from(low, ph.low, t.low).0, kind),
        by_snails,
    })
}

/// The ammonia that was read, mg/L N, where it harms.
pub(crate) fn harming(case: &Case) -> Option<f64> {
    let total = case.told.get("ammonia").filter(|total| *total > 0.0)?;
    toxic(case, total).filter(Toxic::harms).map(|_| total)
}

/// All ammonia that this tank bears once it is aired, mg/L N, at the bad end: what new water may bring it up to.
pub(crate) fn bears_aired(case: &Case) -> Option<f64> {
    let (ph, t) = (case.ph()?.high, case.temperature_c().high);
    let ph = case.plan.aired.as_ref().map_or(ph, |aired| ph.max(aired.ph.high));
    let share = solved(&case.tank_water(), TRACE_MG_N, t, Carbon::Ph(ph))?.nh3_fraction;
    Some(harm_from(case.book(), share, (ph, t), case.snails()).0)
}

pub(crate) fn limit(book: &Book) -> f64 {
    book.harm.limit.ammonia_unionised_mg_n_per_l.value()
}

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let Some(total) = case.told.get("ammonia").filter(|total| *total > 0.0) else { return Vec::new() };
    let Some(toxic) = toxic(case, total) else {
        let shows = total >= case.book().harm.limit.start_test_pass_mg_n_per_l.value() && case.told.shows("ammonia");
        return if shows { vec![untold(case, total)] } else { Vec::new() };
    };
    if case.told.is_old("ammonia") && !toxic.harms() {
        return Vec::new();
    }
    let sum = match case.told.before_a_change("ammonia") {
        true => headed(case, &toxic).say(format!(
            "That reading is older than your change of {}: test again before anything else; what follows is for the old reading.",
            case.pen().litres(case.told.changed_l())
        )),
        false => headed(case, &toxic),
    };
    let sum = match case.told.anew("ammonia", "ammonia and pH") {
        Some(first) => sum.say(first),
        None => sum,
    };
    let said = sum.says.len();
    let mut sum = if toxic.harms() { remedy::act(case, total, sum) } else { wait(case, total, sum) };
    // What to do in this minute goes before what it rests on.
    sum.says.insert((said + ACTS).min(sum.says.len()), starts(case, &toxic));
    vec![match case.told.guessed_basis("ammonia") {
        true => sum.say(format!(
            "You did not say how your kit counts: taken as N, the bad end. If it counts NH4, it is {} mg/L as N.",
            n(N_OF_NH4 * total)
        )),
        false => sum,
    }]
}

/// Where harm starts here, with the pH that counts.
fn starts(case: &Case, toxic: &Toxic) -> String {
    let (limit, from) = (limit(case.book()), toxic.harm_from_mg_n_per_l);
    let starts = match toxic.by_snails {
        true => "Harm starts, for snails bear less than fish,".to_owned(),
        false => format!("Harm starts at {} mg/L of toxic ammonia,", n(limit)),
    };
    format!(
        "{starts} at {} from {} mg/L of all ammonia on, and at the upper end of that, which decides, from {}.",
        case.ph_words(),
        n(from.value),
        n(from.low)
    )
}

/// How much of it is toxic.
fn headed(case: &Case, toxic: &Toxic) -> Sum {
    let (pen, t, total, nh3) = (case.pen(), case.temperature_c(), toxic.total_mg_n_per_l, toxic.nh3_mg_n_per_l);
    let (limit, from) = (limit(case.book()), toxic.harm_from_mg_n_per_l);
    let urgency = if toxic.harms() { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let head = match case.told.shows("ammonia") {
        true => format!(
            "{} (up to {}) mg/L of the {} mg/L ammonia (as N) are toxic here",
            n(nh3.value),
            n(nh3.high),
            n(total)
        ),
        false => {
            format!("Less than {} mg/L ammonia (as N): less than {} mg/L of it is toxic here", n(total), n(nh3.high))
        }
    };
    let arithmetic = format!(
        "{} mg/L × {} % at {} and {} = {} mg/L (likely {} to {}); harm starts at {} mg/L",
        n(total),
        n(100.0 * toxic.share.value),
        case.ph_words(),
        pen.celsius(t.value),
        n(nh3.value),
        n(nh3.low),
        n(nh3.high),
        n(limit),
    );
    let words = "Only this share passes through gills. It grows tenfold with each step of pH, and with warmth. The reading of pH counts \
                 with its error, and the upper end decides.";
    Sum::new("toxic-ammonia", urgency, head, arithmetic, words, &["phreeqc_386", "ccme_ammonia", "emerson_1975"])
        .figure("total_mg_n_per_l", total)
        .figure("toxic_share", toxic.share.value)
        .figure("nh3_mg_n_per_l", nh3.value)
        .figure("nh3_high_mg_n_per_l", nh3.high)
        .figure("harm_from_mg_n_per_l", from.low)
        .figure("harm_from_likely_mg_n_per_l", from.value)
        .only(toxic.share.kind)
}

/// It shows, and how much of it is toxic can't be told: no pH, or a water outside the model's range. Then it counts as harm.
fn untold(case: &Case, total: f64) -> Sum {
    let head = match case.ph() {
        None => "Ammonia shows, and how much of it is toxic your pH says".to_owned(),
        Some(_) => format!("{} mg/L ammonia (as N): how much of it is toxic I can’t tell", n(total)),
    };
    let words = "The toxic share follows from pH and temperature. Where it can’t be told the bad end counts.";
    Sum::new("toxic-ammonia", Urgency::AtOnce, head, String::new(), words, &["ccme_ammonia"])
        .figure("total_mg_n_per_l", total)
        .say(format!(
            "Harm starts at {} mg/L of its toxic share: the table of the notice says from how much on. Test pH, and test ammonia once more: so \
             much, or such a water, is outside of what I can work out. No food. Air raises pH: it runs as before and carbon dioxide stays as it is, \
             unless they breathe fast; then the carbon dioxide goes off and the air on.",
            n(limit(case.book()))
        ))
}

/// Below the limit: what to leave alone.
fn wait(case: &Case, total: f64, sum: Sum) -> Sum {
    let limit = limit(case.book());
    let start = n(limit);
    if !case.told.shows("ammonia") {
        return sum.say(format!(
            "Your kit shows none, and even its lowest step would be below {start} mg/L of toxic ammonia, where harm starts: leave it be."
        ));
    }
    let sum = sum
        .say(format!("No big change now: no harm is known below {start} mg/L of toxic ammonia. No food today, test again tomorrow."))
        .say(format!(
            "Let nothing raise pH meanwhile (alkalinity salt, harder water): one step of pH makes ten times as much of it toxic, and harm starts \
             at {start} mg/L."
        ));
    match remedy::stays(case, total) {
        Some((aired, says)) => sum.figure("aired_mg_n_per_l", aired).say(says),
        None => sum,
    }
}
