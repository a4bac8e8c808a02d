//! Several reports, dates or works: one water where they are one, two where they are two.
//!
//! **What.** Conductivity (else hardness) of each is put in a row. Two works, or a switch between seasons, show as
//! an empty stretch far wider than any step beside it; then the two sides stay two waters. What belongs together is
//! pooled, with its spread from day to day.
//!
//! **Equation.** Steps between neighbours in ln κ; two waters where the widest step is more than `gap` and more than
//! `times` the next widest on either side (one below `step` counts as that: the error of the meters; `data/methods.toml`). Pooled:
//! weights 1/(s² + τ²/n), τ² = variance between less the mean s² (random effects).
//!
//! **Range.** Two waters at most; a third stays with its nearer one and shows as spread.
//!
//! **Source.** The steps: beside each in `data/methods.toml`. Random effects: DerSimonian & Laird 1986, from memory.
//!
//! **Checked by** `tests/by_hand_estimate.rs`.

use knowledge::{TwoWaters, book};
use quantity::Comparator;
use quantity::conductivity::FACTOR_25_FROM_20;

use super::{Evidence, Item, Quantity, Spread};

/// One water or two.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Waters {
    /// The pooled evidence of each, the one with more salt last.
    pub waters: Vec<Evidence>,
    /// Which of the given evidences went into which water.
    pub members: Vec<Vec<usize>>,
    /// µS/cm at 25 °C: a pen that shows more than this tells that the last one came today; none for one water, and
    /// where only hardness tells them apart.
    pub tell_apart_us_per_cm: Option<f64>,
    /// meq/L: the same by a hardness kit.
    pub tell_apart_meq_per_l: Option<f64>,
}

/// Sorts evidences into one water or two and pools each. None is none.
pub fn gather(all: &[Evidence]) -> Waters {
    let (of_conductivity, of_hardness) = (split(all, at_25), split(all, hardness));
    let members = match of_conductivity.as_ref().or(of_hardness.as_ref()) {
        Some((low, high, _)) => {
            let (mut low, mut high) = (low.clone(), high.clone());
            for (i, one) in all.iter().enumerate() {
                if low.contains(&i) || high.contains(&i) {
                    continue;
                }
                // Nothing tells where it belongs but its name; else it goes with the greater part.
                let same = |side: &[usize]| side.iter().any(|k| one.name.is_some() && all[*k].name == one.name);
                let to_high = if same(&high) || same(&low) { same(&high) } else { high.len() > low.len() };
                if to_high { high.push(i) } else { low.push(i) }
            }
            vec![low, high]
        }
        None => vec![(0..all.len()).collect()],
    };
    let pooled = |side: &Vec<usize>| pool(&side.iter().map(|i| &all[*i]).collect::<Vec<_>>());
    Waters {
        waters: members.iter().map(pooled).collect(),
        tell_apart_us_per_cm: of_conductivity.map(|(.., between)| between.exp()),
        tell_apart_meq_per_l: of_hardness.map(|(.., between)| between.exp()),
        members,
    }
}

/// µS/cm at 25 °C; one that tells no reference in the middle of its range.
fn at_25(one: &Evidence) -> Option<f64> {
    let item = one.value(Quantity::Conductivity)?;
    let (_, factor, high) = FACTOR_25_FROM_20;
    Some(match item.of {
        Quantity::Conductivity20 => factor * item.value,
        Quantity::ConductivityUntold => 0.5 * (1.0 + high) * item.value,
        _ => item.value,
    })
}

fn hardness(one: &Evidence) -> Option<f64> {
    one.value(Quantity::Hardness).map(|item| item.value)
}

/// The two sides of an empty stretch, and its middle in ln; none where there is one water.
fn split(all: &[Evidence], value: impl Fn(&Evidence) -> Option<f64>) -> Option<(Vec<usize>, Vec<usize>, f64)> {
    let positive = |(i, one)| value(one).filter(|x| *x > 0.0).map(|x| (x.ln(), i));
    let mut row: Vec<(f64, usize)> = all.iter().enumerate().filter_map(positive).collect();
    row.sort_by(|a, b| a.0.total_cmp(&b.0));
    let steps: Vec<f64> = row.windows(2).map(|pair| pair[1].0 - pair[0].0).collect();
    let widest = (0..steps.len()).max_by(|a, b| steps[*a].total_cmp(&steps[*b]))?;
    let TwoWaters { gap, times, step } = &book().methods.two_waters;
    let others = steps.iter().enumerate().filter(|(i, _)| *i != widest).map(|(_, step)| *step);
    let next = others.fold(step.value, f64::max);
    if steps[widest] <= gap.value || steps[widest] < times.value * next {
        return None;
    }
    let places = |part: &[(f64, usize)]| part.iter().map(|(_, i)| *i).collect();
    let between = 0.5 * (row[widest].0 + row[widest + 1].0);
    Some((places(&row[..=widest]), places(&row[widest + 1..]), between))
}

/// One evidence from several of one water.
pub fn pool(all: &[&Evidence]) -> Evidence {
    let [one, rest @ ..] = all else { return Evidence::default() };
    if rest.is_empty() {
        return (*one).clone();
    }
    let mut pooled = Evidence { name: one.name.clone(), ..Evidence::default() };
    pooled.left_out = all.iter().flat_map(|one| one.left_out.iter().cloned()).collect();
    let ph: Vec<f64> = all.iter().filter_map(|one| one.ph).collect();
    pooled.ph = (!ph.is_empty()).then(|| ph.iter().sum::<f64>() / ph.len() as f64);
    pooled.date = all.iter().filter_map(|one| one.date.clone()).max();
    let mut items: Vec<&Item> = all.iter().flat_map(|one| &one.items).collect();
    items.sort_by_key(|item| (item.of, item.settled));
    for same in items.chunk_by(|a, b| a.of == b.of && a.settled == b.settled) {
        pooled.items.extend(pool_items(same));
    }
    pooled
}

/// One item from several of one quantity. What is open or no number stays as it is.
fn pool_items(same: &[&Item]) -> Vec<Item> {
    let numbers: Vec<&Item> =
        same.iter().copied().filter(|item| item.is_sound() && item.comparator == Comparator::Equal).collect();
    let [first, _, ..] = numbers.as_slice() else {
        // Of bounds alone the tightest says all.
        let tightest = same.iter().min_by(|a, b| a.value.total_cmp(&b.value));
        return numbers.first().or(tightest).map(|item| vec![(*item).clone()]).unwrap_or_default();
    };
    if !first.settled && !first.of.is_conductivity() {
        return same.iter().map(|item| (*item).clone()).collect();
    }
    let n = numbers.len() as f64;
    let plain = numbers.iter().map(|item| item.value).sum::<f64>() / n;
    let between = numbers.iter().map(|item| (item.value - plain).powi(2)).sum::<f64>() / (n - 1.0);
    let within = numbers.iter().map(|item| item.sd.powi(2)).sum::<f64>() / n;
    let tau2 = (between - within).max(0.0);
    let samples = |item: &Item| f64::from(item.spread.map_or(1, |spread| spread.samples));
    let weight = |item: &Item| 1.0 / (item.sd.powi(2) + tau2 / samples(item));
    let total: f64 = numbers.iter().map(|item| weight(item)).sum();
    let value = numbers.iter().map(|item| weight(item) * item.value).sum::<f64>() / total;
    let inside = numbers.iter().filter_map(|item| item.spread).map(|spread| spread.sd.powi(2)).fold(0.0, f64::max);
    let spread = Spread { sd: tau2.max(inside).sqrt(), samples: numbers.iter().map(|item| samples(item) as u32).sum() };
    let as_written = format!(
        "{} {} {} (of {} values)",
        first.of.name(),
        quantity::round_significant(value, 3),
        first.of.unit(),
        numbers.len()
    );
    // A method's own share of error does not average out over its samples: the best one's stays.
    let method = numbers.iter().map(|item| item.sd).fold(f64::INFINITY, f64::min);
    let sd = (1.0 / total).sqrt().max(method * 0.7);
    let otherwise = Vec::new();
    vec![Item { value, sd, spread: (spread.sd > 0.0).then_some(spread), as_written, otherwise, ..(*first).clone() }]
}
