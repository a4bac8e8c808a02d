//! How long the oxygen lasts when nothing moves the water.
//!
//! **What.** Hours until oxygen falls to what animals need, with filter and pump standing still.
//!
//! **Equation.** dO/dt = k (O* - O) - u; O(t) = O∞ + (O_0 - O∞) exp(-k t), O∞ = O* - u/k;
//! t = -ln((O_least - O∞)/(O_0 - O∞))/k. k = k_20 θ^(t-20) by crate `water`, k_20 from the still surface over the mean depth.
//! u = fish × mass × use/V + life.
//!
//! **Symbols.** O mg/L, O* in balance with air, k 1/h, u mg/(L h), V L.
//!
//! **Range.** Well mixed water: below, where nothing stirs, it falls sooner. The cover is off. Use and surface are known to a
//! factor of two or more: the range shows it, and the early end counts.
//!
//! **Source.** `benson_krause_1984` (O*), `cole_caraco_1998` (surface), `epa_oxygen_1986` (least); use of fish and life assumed.
//!
//! **Checked by** `tests/by_hand_breath.rs`.

use quantity::{Digits, Known, format_number};
use water::{Surface, oxygen_at_saturation_mg_per_l};

use crate::case::Case;
use crate::sum::{Sum, Urgency};

/// What goes into one end of the range.
struct End {
    surface_cm_per_h: f64,
    use_mg_per_l_h: f64,
    start_share: f64,
    least_mg_per_l: f64,
}

fn hours(end: &End, depth_m: f64, temperature_c: f64) -> Option<f64> {
    let full = oxygen_at_saturation_mg_per_l(temperature_c, 1.0).ok()?;
    let k = Surface::still(end.surface_cm_per_h, depth_m).oxygen_per_h(temperature_c);
    let (start, settles) = (end.start_share * full, full - end.use_mg_per_l_h / k);
    if start <= end.least_mg_per_l {
        return Some(0.0);
    }
    if settles >= end.least_mg_per_l {
        return Some(f64::INFINITY);
    }
    Some(-((end.least_mg_per_l - settles) / (start - settles)).ln() / k)
}

/// Hours until oxygen runs low, early end first; infinite where it holds. `None` without litres.
pub(crate) fn lasts_h(case: &Case) -> Option<(Known<f64>, Known<f64>)> {
    let (litres, numbers) = (case.litres()?, case.numbers());
    let (t, depth_m) = (case.temperature_c(), litres / 1000.0 / case.tank.geometry.surface_m2);
    let animals = &case.tank.animals;
    let fish_g = case.tank.warmth.fish_g.unwrap_or(numbers.fish_g.known());
    let breath = numbers.fish_oxygen_mg_per_kg_h.known();
    let life = numbers.life_oxygen_mg_per_l_h.known();
    let uses = |g: f64, mg: f64, life: f64| f64::from(animals.fish) * g / 1000.0 * mg / litres + life;
    let uses = Known::ranged(
        uses(fish_g.low, breath.low, life.low),
        uses(fish_g.value, breath.value, life.value),
        uses(fish_g.high, breath.high, life.high),
        fish_g.kind.weaker(breath.kind).weaker(life.kind),
    );
    let surface = numbers.still_surface_cm_per_h.known();
    let start = numbers.oxygen_start_share.known();
    let least = numbers.oxygen_least_mg_per_l.known();
    // Young fish need more: then even the best end counts with it.
    let most_needed = if animals.young { least.high } else { least.value };
    let end = |surface: f64, uses: f64, start: f64, least: f64, t: f64| {
        hours(
            &End { surface_cm_per_h: surface, use_mg_per_l_h: uses, start_share: start, least_mg_per_l: least },
            depth_m,
            t,
        )
    };
    let early = end(surface.low, uses.high, start.low, most_needed, t.high)?;
    let likely = end(surface.value, uses.value, start.value, most_needed, t.value)?;
    let late = end(surface.high, uses.low, start.high, if animals.young { least.high } else { least.low }, t.low)?;
    Some((Known::ranged(early.min(likely), likely, late.max(likely), uses.kind), uses))
}

/// Hours of breath over which it is said to last.
fn long_h() -> f64 {
    knowledge::book().troubles.number.breath_long_h.value
}

fn hours_words(hours: f64) -> String {
    match hours {
        h if h > long_h() => "days".to_owned(),
        h if h < 1.0 => "less than an hour".to_owned(),
        // Rounded down: what is promised must last.
        h if h < 2.0 => "an hour".to_owned(),
        h => format!("{} hours", format_number(h.floor(), Digits::Significant(3))),
    }
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let Some((lasts, uses)) = lasts_h(case) else { return Vec::new() };
    if !case.tank.animals.any() {
        return Vec::new();
    }
    if let Some(sum) = still_anyway(case) {
        return vec![sum];
    }
    let (pen, least) = (case.pen(), case.numbers().oxygen_least_mg_per_l.value);
    let head = match lasts.value > long_h() {
        true if lasts.low > long_h() => "Oxygen: at rest the surface lets in what is used".to_owned(),
        true => format!("Oxygen: likely enough at rest; at worst it runs low after {}", hours_words(lasts.low)),
        false => {
            format!("Oxygen: low after about {}, at worst after {}", hours_words(lasts.value), hours_words(lasts.low))
        }
    };
    let arithmetic = format!(
        "use {} mg/L an hour (likely {} to {}: {} fish, plants in the dark, ground), through a still surface of {} m² over {}: until {} mg/L",
        pen.n(uses.value, 2),
        pen.n(uses.low, 2),
        pen.n(uses.high, 2),
        case.tank.animals.fish,
        pen.n(case.tank.geometry.surface_m2, 2),
        case.litres().map_or_else(String::new, |litres| pen.litres(litres)),
        pen.n(least, 2),
    );
    let words = "Still water takes up oxygen slowly, and everything alive uses it. How fast was never measured in tanks like this: the early \
                 end counts.";
    let sources = ["benson_krause_1984", "cole_caraco_1998", "epa_oxygen_1986"];
    let urgency = if lasts.low > long_h() { Urgency::LeaveItBe } else { Urgency::AtOnce };
    let sum = Sum::new("oxygen-hours", urgency, head, arithmetic, words, &sources)
        .figure("hours_likely", lasts.value)
        .figure("hours_early", lasts.low)
        .figure("use_mg_per_l_h", uses.value)
        .only(uses.kind);
    let begin = match lasts.low {
        low if low > long_h() => "Move the water now and then".to_owned(),
        low if low < 1.0 => "Begin to move the water at once".to_owned(),
        low if low < 2.0 => "Begin to move the water before an hour is over".to_owned(),
        low => format!("Begin to move the water before {} are over", hours_words(low)),
    };
    vec![sum.say(format!(
        "{begin}: a battery air pump, or a jug for five minutes in every half hour. {} {}: begin at once, whatever the sum says.",
        harm_from(case),
        at_the_surface(case)
    ))]
}

/// Where harm starts, for whoever lives there.
fn harm_from(case: &Case) -> String {
    let (pen, least) = (case.pen(), &case.numbers().oxygen_least_mg_per_l);
    let (low, high) = (pen.n(least.low(), 2), pen.n(least.high(), 2));
    match case.tank.animals.fish > 0 {
        true => format!("Harm starts at about {low} mg/L of oxygen for grown fish, {high} for young."),
        false => format!(
            "For fish harm starts at about {low} to {high} mg/L of oxygen; for what lives here nobody told me a number, so the upper end counts."
        ),
    }
}

/// What shows that it is low.
fn at_the_surface(case: &Case) -> &'static str {
    let animals = &case.tank.animals;
    match (animals.fish, animals.shrimps) {
        (0, 0) => "Snails that crowd at the surface",
        (0, _) => "Shrimps that climb to the surface or lie still",
        _ => "Fish at the surface",
    }
}

/// Neither filter nor air pump: nothing stands still that ran before.
fn still_anyway(case: &Case) -> Option<Sum> {
    (!case.tank.keeping.filter && case.tank.warmth.air_pump != Some(true)).then(|| {
        let head = "Breath: no filter and no air pump runs here, so the cut takes nothing but the light".to_owned();
        let words = "What the tank breathes without power it breathes every night. Plants give oxygen in light alone.";
        Sum::new("oxygen-hours", Urgency::LeaveItBe, head, String::new(), words, &[]).say(format!(
            "By day draw the curtain back: plants give oxygen by daylight too. Dark for longer than a night? {}? Dip up water with a jug and let it \
             fall back, five minutes in every half hour. {}",
            at_the_surface(case),
            harm_from(case)
        ))
    })
}
