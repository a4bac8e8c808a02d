//! How a number without a basis is counted, by the odds that the rest of the evidence gives each way.
//!
//! **What.** "Nitrate 28 mg/L": as NO3 or as N? Each way is put to the fit; the better it agrees with the balance,
//! the hardness and the conductivity, the likelier. What tap waters usually hold has no say: only the report's own
//! numbers prove something.
//!
//! **Equation.** ln p(values | way) = -Σ ρ(ri)/2 at the way's best water (likelihood ratio), with nothing usual
//! about what was measured (`clash.rs`). ρ = -2 ln((1 - e) exp(-r²/2) + e/10 exp(-r²/200)): one value in two hundred
//! is wrong by ten times its error, so that no single slip ever proves anything at more than about 2,000 to 1. Odds
//! = p(best)/p(next). Settled from 100 to 1.
//!
//! **Symbols.** r residual in standard deviations; e: `slips` of `data/methods.toml`.
//!
//! **Range.** As `state.rs`. Other values that are open are left out.
//!
//! **Source.** Likelihood ratio (textbook, from memory).
//!
//! **Checked by** `tests/by_hand_estimate.rs`, `tests/twin_basis.rs`.

use knowledge::book;
use quantity::{Digits, format_number};

use super::clash::problem;
use super::usual::Usual;
use super::{Evidence, Item};

/// From these odds on a basis is settled.
pub const PROVEN: f64 = 100.0;

/// The odds of the ways in which one number may be meant.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct BasisOdds {
    /// Place in [`Evidence::items`].
    pub item: usize,
    /// Chance of each way, likeliest first; they add up to 1.
    pub ways: Vec<(String, f64)>,
    /// Of the likeliest to the next, to 1.
    pub odds: f64,
    /// Whether that is proof.
    pub is_proven: bool,
    /// Why, or what to ask.
    pub text: String,
}

/// The odds for one item: as it is counted now against each other way.
///
/// None where the item has no other way, or no way can be fitted.
pub fn basis_odds(evidence: &Evidence, place: usize, usual: &Usual) -> Option<BasisOdds> {
    let item = evidence.items.get(place).filter(|item| !item.otherwise.is_empty())?;
    let mut ways: Vec<(Item, f64)> = Vec::new();
    let now = Item { settled: true, ..item.clone() };
    for way in std::iter::once(now).chain(item.otherwise.iter().map(|meaning| item.meant(meaning))) {
        let log = log_chance(evidence, place, &way, usual)?;
        ways.push((way, log));
    }
    ways.sort_by(|a, b| b.1.total_cmp(&a.1));
    let most = ways.first()?.1;
    let sum: f64 = ways.iter().map(|(_, log)| (log - most).exp()).sum();
    let odds = (most - ways.get(1)?.1).exp();
    let is_proven = odds >= PROVEN;
    let text = words(item, &ways, odds);
    let ways = ways.into_iter().map(|(way, log)| (way.counted, (log - most).exp() / sum)).collect();
    Some(BasisOdds { item: place, ways, odds, is_proven, text })
}

/// Settles every open basis that the evidence proves, one after the other, likeliest first. Says what was settled.
pub fn settle(evidence: &mut Evidence, usual: &Usual) -> Vec<BasisOdds> {
    let mut settled = Vec::new();
    loop {
        let open = evidence.items.iter().enumerate().filter(|(_, item)| !item.settled).map(|(place, _)| place);
        let odds = open.filter_map(|place| basis_odds(evidence, place, usual)).filter(|odds| odds.is_proven);
        let Some(best) = odds.max_by(|a, b| a.odds.total_cmp(&b.odds)) else { return settled };
        let Some(item) = evidence.items.get_mut(best.item) else { return settled };
        let words = best.ways.first().map(|(words, _)| words.clone()).unwrap_or_default();
        *item = match item.otherwise.iter().find(|meaning| meaning.words == words) {
            Some(meaning) => item.meant(meaning),
            None => Item { settled: true, ..item.clone() },
        };
        settled.push(best);
    }
}

/// ln of the chance of all values, if this one is meant so; up to a constant that all ways share.
fn log_chance(evidence: &Evidence, place: usize, way: &Item, usual: &Usual) -> Option<f64> {
    let mut evidence = evidence.clone();
    *evidence.items.get_mut(place)? = way.clone();
    let problem = problem(&evidence, usual, None);
    let fit = problem.fit()?;
    let of_rows: f64 = fit.rows.iter().map(|(r, _)| robust(*r)).sum();
    // The row's density is over the printed number: its own standard deviation scales with the way and drops out.
    Some(-0.5 * (of_rows + problem.usual.chi2(&fit.u)))
}

fn robust(r: f64) -> f64 {
    let slips = book().methods.analysis.slips.value;
    -2.0 * ((1.0 - slips) * (-0.5 * r * r).exp() + 0.1 * slips * (-0.005 * r * r).exp()).ln()
}

fn words(item: &Item, ways: &[(Item, f64)], odds: f64) -> String {
    let n = |x: f64| format_number(x, Digits::Significant(2));
    let (best, next) = match ways {
        [best, next, ..] => (&best.0, &next.0),
        _ => return String::new(),
    };
    let odds_words = if odds > 1e6 { "more than a million".to_owned() } else { n(odds) };
    if odds >= PROVEN {
        format!(
            "{} is counted {}: the other values of the report agree with it, and not with {}; odds {odds_words} to 1.",
            item.as_written, best.counted, next.counted
        )
    } else {
        let all: Vec<&str> = ways.iter().map(|(way, _)| way.counted.as_str()).collect();
        format!(
            "{}: is it counted {}? The other values of the report do not tell: the odds are {odds_words} to 1 for {}, and \
             only {PROVEN} to 1 is proof.",
            item.as_written,
            all.join(" or "),
            best.counted
        )
    }
}
