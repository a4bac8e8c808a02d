//! Several reports and the keeper's own tests as one water, or as two that take turns.
//!
//! The works' figures and the keeper's tests are weighed by their own errors; a softener in the house is recognised before
//! anything is put together; two works stay two waters. With no source at all it is what tap waters usually hold, and
//! [`Combined::next`] is then the smallest set of tests.

use knowledge::Place;
use quantity::{Digits, format_number};

use crate::estimate::{
    BasisOdds, Equation, Estimate, Evidence, Item, Line, NextTest, Origin, Quantity, Softened, Usual, apart, estimate,
    evidence, gather, instead, next_tests, pool, settle, softened,
};
use crate::filed::{By, Filed};
use crate::{Reading, Report};

/// One water of what was put together.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct OneWater {
    /// Zone, works or file, where one alone gives it.
    pub name: Option<String>,
    /// The files, with their samples, that it was put together from.
    pub from: Vec<String>,
    /// The works or zones that it stands for, as the reports name them.
    pub works: Vec<String>,
    /// What is known of it.
    pub evidence: Evidence,
    /// Open bases that the numbers together prove.
    pub settled: Vec<BasisOdds>,
    /// The best estimate.
    pub estimate: Estimate,
    /// Where it lies outside the error of what was read, a sentence for each.
    pub apart: Vec<String>,
    /// The readings that count for it, corrected.
    #[serde(skip)]
    pub readings: Vec<Reading>,
}

/// What several sources come to.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Combined {
    /// One water, or two: the one with more salt last.
    pub waters: Vec<OneWater>,
    /// µS/cm at 25 °C: a pen that shows more tells that the last water came today.
    pub tell_apart_us_per_cm: Option<f64>,
    /// meq/L: the same by a hardness kit.
    pub tell_apart_meq_per_l: Option<f64>,
    /// A softener in the house, in a sentence.
    pub softener: Option<String>,
    /// The tests worth doing, best first.
    pub next: Vec<NextTest>,
}

/// One source: its evidence with the readings that it came from.
struct Part {
    label: String,
    works: Option<String>,
    by: By,
    evidence: Evidence,
    readings: Vec<Reading>,
}

/// Put sources together. `place` is where the tap is, for what is usual there.
///
/// None only where the numbers lie outside what fresh water can be.
pub fn combine(sources: &[(&str, &Filed)], place: Place) -> Option<Combined> {
    let usual = Usual::at(place);
    let counted = sources.iter().filter(|(_, filed)| !filed.put_away);
    let parts: Vec<Part> = counted.flat_map(|(name, filed)| of_filed(name, filed)).collect();
    if let Some((softened, water)) = behind_a_softener(&parts, &usual) {
        let next = next_tests(&water.estimate);
        return Some(Combined {
            waters: vec![water],
            tell_apart_us_per_cm: None,
            tell_apart_meq_per_l: None,
            softener: Some(softened.text),
            next,
        });
    }
    let evidences: Vec<Evidence> = parts.iter().map(|part| part.evidence.clone()).collect();
    let gathered = gather(&evidences);
    let mut waters = Vec::new();
    for (evidence, members) in gathered.waters.into_iter().zip(&gathered.members) {
        let members: Vec<&Part> = members.iter().filter_map(|at| parts.get(*at)).collect();
        waters.push(one(evidence, &members, &usual)?);
    }
    let next = waters.first().map(|water| next_tests(&water.estimate)).unwrap_or_default();
    Some(Combined {
        waters,
        tell_apart_us_per_cm: gathered.tell_apart_us_per_cm,
        tell_apart_meq_per_l: gathered.tell_apart_meq_per_l,
        softener: None,
        next,
    })
}

fn one(mut evidence: Evidence, members: &[&Part], usual: &Usual) -> Option<OneWater> {
    let settled = settle(&mut evidence, usual);
    let estimate = estimate(&evidence, usual)?;
    let by_works = !members.is_empty() && members.iter().all(|part| part.by == By::Works);
    let told = drawn_away(&evidence, &estimate, if by_works { "Your report measured" } else { "Measured was" });
    Some(OneWater {
        apart: told,
        name: evidence.name.clone(),
        works: members.iter().filter_map(|part| part.works.clone()).collect(),
        from: members.iter().map(|part| part.label.clone()).collect(),
        readings: members.iter().flat_map(|part| part.readings.iter().cloned()).collect(),
        evidence,
        settled,
        estimate,
    })
}

/// A sentence for each value that the rest draws outside the error of its own measurement, but where a clash says the same,
/// and what would mend it.
fn drawn_away(evidence: &Evidence, estimate: &Estimate, who: &str) -> Vec<String> {
    let clashes: Vec<Equation> = estimate.clashes.iter().map(|clash| clash.equation).collect();
    let sums = [
        (Quantity::Hardness, &estimate.hardness),
        (Quantity::Alkalinity, &estimate.alkalinity),
        (Quantity::Conductivity, &estimate.conductivity_25),
    ];
    let all = sums.into_iter().chain(estimate.ions.iter().map(|(ion, line)| (Quantity::Ion(*ion), line)));
    let alone = all.filter(|(of, _)| !clashes.contains(&instead(*of).1));
    alone.filter_map(|(of, line)| sentence(evidence.value(of)?, of, line, who)).collect()
}

/// The sentence where the estimate lies outside the error of what was read.
fn sentence(item: &Item, of: Quantity, line: &Line, who: &str) -> Option<String> {
    let best = line.known.value;
    let share = 100.0 * apart(item, best)?;
    let which = if share > 0.0 { "more" } else { "less" };
    let number = |value: f64, digits| format_number(value, Digits::Significant(digits));
    let best = format!("{} {}, {} % {which}", number(best, 3), of.unit(), number(share.abs(), 1));
    let says = match of.is_conductivity() {
        true => format!("the ions beside it carry about {best}"),
        false => format!("all else that was read makes it {best}"),
    };
    Some(format!("{who} {}; {says}: more than the method errs by.", item.as_written))
}

/// The works' water through a softener, where the keeper's own tests show one.
fn behind_a_softener(parts: &[Part], usual: &Usual) -> Option<(Softened, OneWater)> {
    let of = |by: By| parts.iter().filter(move |part| part.by == by);
    let pooled = |by: By| pool(&of(by).map(|part| &part.evidence).collect::<Vec<_>>());
    if of(By::Works).count() == 0 || of(By::Keeper).count() == 0 {
        return None;
    }
    let softened = softened(&pooled(By::Works), &pooled(By::Keeper), usual)?;
    // What the works say of hardness is no reading of this water any more.
    let tap: Vec<&Part> = of(By::Keeper).collect();
    let mut water = one(softened.evidence.clone(), &tap, usual)?;
    water.from = parts.iter().map(|part| part.label.clone()).collect();
    Some((softened, water))
}

/// The samples of one source that count.
fn of_filed(name: &str, filed: &Filed) -> Vec<Part> {
    let report = filed.corrected();
    let all = match filed.by {
        By::Works => evidence(&report, Origin::Laboratory),
        By::Keeper => of_keeper(&report),
    };
    let one = filed.one();
    let several = all.len() > 1;
    let part = |(sample, mut evidence): (usize, Evidence)| {
        let label = match evidence.name.as_deref().filter(|_| several) {
            Some(sample) => format!("{name}, {sample}"),
            None => name.to_owned(),
        };
        let works = evidence.name.clone();
        evidence.name = evidence.name.or_else(|| Some(name.to_owned()));
        let mine = |reading: &&Reading| reading.sample.unwrap_or(0) == sample;
        Part { label, works, by: filed.by, evidence, readings: report.readings.iter().filter(mine).cloned().collect() }
    };
    let counts = |(sample, _): &(usize, Evidence)| one.is_none_or(|one| one == *sample);
    all.into_iter().enumerate().filter(counts).map(part).collect()
}

/// A keeper's tests: drops, pen and colours each have their own error.
fn of_keeper(report: &Report) -> Vec<Evidence> {
    let of = |origin: Origin| {
        let readings = report.readings.iter().filter(|reading| method(&reading.determinand) == origin);
        evidence(&Report { readings: readings.cloned().collect(), ..report.clone() }, origin)
    };
    let mut all = of(Origin::Drops);
    for origin in [Origin::Meter, Origin::Colours] {
        for (whole, more) in all.iter_mut().zip(of(origin)) {
            whole.items.extend(more.items);
            whole.ph = whole.ph.or(more.ph);
            whole.left_out.extend(more.left_out);
        }
    }
    all
}

/// How a household measures this.
fn method(determinand: &str) -> Origin {
    match determinand {
        "conductivity" | "ph" | "temperature" => Origin::Meter,
        "alkalinity" | "bicarbonate" | "calcium" | "magnesium" | "chloride" => Origin::Drops,
        name if name.starts_with("hardness") => Origin::Drops,
        _ => Origin::Colours,
    }
}
