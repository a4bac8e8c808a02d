//! What would mend a band that cannot be met: the same rows are tried with another change, then with other water.

use quantity::number::Digits;
use quantity::{Ion, Kind, Known};
use setup::{SourceWater, Tank};

use super::model::{Model, changes};
use super::products::Candidate;
use super::wishes::{self, MET, Wish};
use super::{harm, worth};

/// Shares of change that are tried, in hundredths.
const SHARES: [u32; 10] = [10, 15, 20, 25, 30, 40, 50, 60, 70, 80];

/// One sentence on what would mend it.
pub(super) fn mend(tank: &Tank, candidates: &[Candidate], wish: &Wish) -> String {
    let n = |value: f64| tank.units.number(value, Digits::Significant(2));
    if !changes(tank) {
        return "Changing water would settle it.".to_owned();
    }
    if let Some(ask) = unmeasured(tank, wish) {
        return ask;
    }
    let now = tank.habits.change_share.value;
    let mut shares = SHARES.map(|hundredths| f64::from(hundredths) / 100.0);
    shares.sort_by(|a, b| (a - now).abs().total_cmp(&(b - now).abs()));
    let changed = |share: f64| {
        let mut other = tank.clone();
        other.habits.change_share = Known::exact(share, Kind::WorkedOut);
        other
    };
    if let Some(share) = shares.into_iter().find(|&share| holds(&changed(share), candidates, wish).is_some()) {
        let word = if share > now { "bigger" } else { "smaller" };
        return format!(
            "A {word} change would hold it: {} % instead of {} % every {} days.",
            n(100.0 * share),
            n(100.0 * now),
            tank.habits.every_days
        );
    }
    let mut blended = tank.clone();
    blended.low_share = None;
    let water = if blended.low.is_some() { "your low-mineral water" } else { "low-mineral water" };
    blended.low.get_or_insert_with(pure);
    // The table's bands don't call for blending by themselves: here they do.
    blended.wish.bands.extend(wish.part.ion().map(|ion| (ion, wish.band)));
    if let Some(share) = holds(&blended, candidates, wish) {
        return format!("Mixing {} % {water} into the new water would hold it.", n(100.0 * share));
    }
    let swing = wish.part.in_water(&tank.tap);
    if swing.high - swing.low > wish.band.1 - wish.band.0 {
        return format!(
            "The tap alone swings by {} {} over the year, more than the band is wide: a wider band, or a measurement now \
             and then, would mend it.",
            n(swing.high - swing.low),
            wish.part.unit()
        );
    }
    "No product that I know brings it without passing a limit of harm or another band: a wider band would mend it."
        .to_owned()
}

/// The sentence for a level that is only feared too high, since nobody measured what the tap brings of it.
fn unmeasured(tank: &Tank, wish: &Wish) -> Option<String> {
    let brought = wish.part.in_water(&tank.tap);
    (brought.kind == Kind::Assumed && brought.high >= wish.band.1).then(|| {
        format!(
            "Nobody measured {} in your tap: I count on up to {} {}. Ask your supplier or test it once; until then no \
             product is the remedy.",
            wish.part.name(),
            tank.units.number(brought.high, Digits::Significant(2)),
            wish.part.unit()
        )
    })
}

/// The share of low-mineral water at which the wish is met, nothing else made worse; none where it is not.
fn holds(tank: &Tank, candidates: &[Candidate], wish: &Wish) -> Option<f64> {
    let mut model = Model::new(tank, candidates);
    let banded: Vec<Ion> = wishes::wished(tank).into_iter().filter_map(|(part, ..)| part.ion()).collect();
    let harm = harm::rows(&mut model, &banded);
    let wishes = wishes::rows(&mut model);
    let settled = worth::settle(&mut model, harm, &wishes).ok()?;
    let value = |column: usize| settled.values.get(column).copied().unwrap_or(f64::INFINITY);
    let again = wishes.iter().find(|again| again.part == wish.part)?;
    (value(again.short) <= MET && value(again.over) <= MET).then(|| value(model.low_share))
}

/// Water without anything in it.
fn pure() -> SourceWater {
    let none = Known::exact(0.0, Kind::Assumed);
    SourceWater {
        name: "low-mineral water".to_owned(),
        ions: Ion::ALL.into_iter().map(|ion| (ion, none)).collect(),
        alkalinity_meq_per_l: none,
        ph: Known::exact(7.0, Kind::Assumed),
        temperature_c: Known::exact(20.0, Kind::Assumed),
        conductivity_25_us_per_cm: None,
        disinfectant: setup::Disinfectant::None,
        total_chlorine_mg_per_l: none,
    }
}
