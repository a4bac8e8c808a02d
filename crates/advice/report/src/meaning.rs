//! What a water means, in five plain sentences: hard or soft, how buffered, what it feeds, what harms, what to do first.
//!
//! # What
//! The tap of a tank, as its setup has it, held against what animals and plants bear ([`crate::limits`]) and said in
//! words. What pipes bring is told apart from what the works say: a works' figure for copper or lead was measured before
//! the keeper's pipes.
//! # Equation
//! Hardness = 2 (Ca/M + Mg/M) meq/L. Fed a week = share of a change × level × 7 / days between changes.
//! # Symbols
//! M molar masses; levels in mg/L of the ion.
//! # Range
//! Any tap that a setup takes.
//! # Source
//! Words and numbers: `data/limits.toml`, `data/harm.toml`. Sums: definitions.
//! # Checked by
//! `tests/by_hand_meaning.rs`.

use knowledge::{Life, book};
use quantity::hardness::{format_hardness, hardness_meq_per_l};
use quantity::{Digits, Ion, Kind, Known, Measure, NutrientBasis, Units};
use setup::{Disinfectant, Tank};

use crate::estimate::through_a_softener;
use crate::limits::{self, Against, Borne, Level};
use crate::reading::Reading;

/// One sentence with what stands behind it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Sentence {
    /// `hard`, `buffered`, `feeds`, `harms`, `first`.
    pub key: &'static str,
    /// Its head on a page.
    pub head: &'static str,
    /// The sentence.
    pub text: String,
    /// What belongs to it, each in a sentence of its own.
    pub more: Vec<String>,
    /// Something must be done before the water meets an animal.
    pub urgent: bool,
    /// Keys of the sources of its numbers.
    pub sources: Vec<String>,
}

/// How far a value moves over a year.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Swing {
    /// What.
    pub name: String,
    /// Its unit as read.
    pub unit: String,
    /// Mean, least, most.
    pub known: Known<f64>,
    /// Whether the least and the most were told.
    pub told: bool,
}

/// What a water means.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Meaning {
    /// The five sentences, in their order.
    pub sentences: Vec<Sentence>,
    /// Against the regulators' limits for suppliers.
    pub regulators: Vec<Against>,
    /// Against what plants, fish and shrimps bear.
    pub bears: Vec<Borne>,
    /// How far each value swings over a year.
    pub swings: Vec<Swing>,
}

/// What the tap of a tank means. `more` are readings of its reports that a setup has no field for, such as lead.
pub fn meaning(tank: &Tank, more: &[Reading]) -> Meaning {
    let levels = limits::levels(tank, more);
    let met = limits::behind_the_pipes(&levels, tank);
    Meaning {
        sentences: vec![hard(tank), buffered(tank), feeds(tank), harms(tank, &met), first(tank)],
        regulators: limits::regulators(&limits::as_read(&levels, more)),
        bears: limits::bears(&met),
        swings: swings(tank),
    }
}

fn number(units: &Units, value: f64) -> String {
    let digits = match value.abs() {
        v if v >= 9.95 => Digits::Decimals(0),
        v if v >= 0.995 => Digits::Decimals(1),
        _ => Digits::Significant(2),
    };
    units.number(value, digits)
}

/// "5.6 (likely 3.2 to 8.4)"; one number where both ends read the same.
fn likely(units: &Units, known: &Known<f64>) -> String {
    let [low, value, high] = [known.low, known.value, known.high].map(|x| number(units, x));
    if low == high { value } else { format!("{value} (likely {low} to {high})") }
}

/// Hardness of the tap, meq/L.
pub fn hardness(tank: &Tank) -> Known<f64> {
    let (ca, mg) = (tank.tap.mg_per_l(Ion::Calcium), tank.tap.mg_per_l(Ion::Magnesium));
    let of = |ca: f64, mg: f64| {
        hardness_meq_per_l(ca / Ion::Calcium.molar_mass() / 1000.0, mg / Ion::Magnesium.molar_mass() / 1000.0)
    };
    let kind = ca.kind.weaker(mg.kind).weaker(Kind::WorkedOut);
    Known::ranged(of(ca.low, mg.low), of(ca.value, mg.value), of(ca.high, mg.high), kind)
}

/// "9.6 °dH (8.6 to 11)"
fn degrees(known: &Known<f64>, measure: Measure, units: &Units) -> String {
    let [low, value, high] = [known.low, known.value, known.high].map(|meq| format_hardness(meq, measure, units));
    let bare = |text: &str| text.split(' ').next().unwrap_or(text).to_owned();
    if low == high { value } else { format!("{value} ({} to {})", bare(&low), bare(&high)) }
}

fn plain(key: &'static str, head: &'static str, text: String) -> Sentence {
    Sentence { key, head, text, more: Vec::new(), urgent: false, sources: Vec::new() }
}

/// What nobody told, and what may be anything: from which word to which it goes, and what settles it.
fn open(known: &Known<f64>, name: &str, measure: Measure, units: &Units, asks: &str) -> Option<String> {
    let word = |meq: f64| book().limits.word(name, meq).map(|word| word.word.as_str());
    let (least, most) = (word(known.low)?, word(known.high)?);
    (known.kind == Kind::Assumed && least != most && known.high > 2.0 * known.low).then(|| {
        let [low, high] = [known.low, known.high].map(|meq| format_hardness(meq, measure, units));
        format!("I can't tell yet: nobody told it, and taps go from {low}, {least}, to {high}, {most}. {asks}")
    })
}

fn hard(tank: &Tank) -> Sentence {
    let known = hardness(tank);
    let asks = "Hardness settles it: of your supplier's report, or by a test with drops.";
    if let Some(text) = open(&known, "hardness_total", Measure::Hardness, &tank.units, asks) {
        return plain("hard", "Hard or soft", text);
    }
    let word = book().limits.word("hardness_total", known.value);
    let (called, does) = word.map_or(("", ""), |word| (word.word.as_str(), word.say.as_str()));
    Sentence {
        key: "hard",
        head: "Hard or soft",
        text: format!(
            "Your water is {called}, {} of hardness: {does}.{}",
            degrees(&known, Measure::Hardness, &tank.units),
            through_a_softener(tank, known)
        ),
        more: Vec::new(),
        urgent: false,
        sources: word.map(|word| word.source.clone()).into_iter().collect(),
    }
}

fn buffered(tank: &Tank) -> Sentence {
    let known = tank.tap.alkalinity_meq_per_l;
    let asks = "Alkalinity settles it: of your supplier's report, or by a test with drops; below 1 German degree pH falls by itself.";
    if let Some(text) = open(&known, "alkalinity", Measure::Alkalinity, &tank.units, asks) {
        return plain("buffered", "How buffered", text);
    }
    // The low end decides where pH may fall by itself.
    let floor = book().harm.limit.alkalinity_floor_meq_per_l.value();
    let counted = if known.low < floor { known.low } else { known.value };
    let word = book().limits.word("alkalinity", counted);
    let (called, does) = word.map_or(("", ""), |word| (word.word.as_str(), word.say.as_str()));
    Sentence {
        key: "buffered",
        head: "How buffered",
        text: format!("It is {called}, {} of alkalinity: {does}.", degrees(&known, Measure::Alkalinity, &tank.units)),
        more: Vec::new(),
        urgent: false,
        sources: word.map(|word| word.source.clone()).into_iter().collect(),
    }
}

/// Days of a week.
const WEEK: f64 = 7.0;

/// mg/L of an ion that the changes of a week bring into the tank.
pub fn fed_a_week(tank: &Tank, ion: Ion) -> Known<f64> {
    let habits = &tank.habits;
    let changes = if habits.every_days == 0 { 0.0 } else { WEEK / f64::from(habits.every_days) };
    tank.tap.mg_per_l(ion).map(|mg| mg * habits.change_share.value * changes)
}

fn feeds(tank: &Tank) -> Sentence {
    let (units, habits) = (&tank.units, &tank.habits);
    let text = if habits.every_days == 0 || habits.change_share.value <= 0.0 {
        "You change no water, so it feeds the plants only by what tops up.".to_owned()
    } else {
        let of = |ion: Ion| {
            let known = fed_a_week(tank, ion);
            let (known, counted) = counted(known, ion, units);
            format!("{} mg/L of {}{counted}", likely(units, &known), ion.name())
        };
        let every = match habits.every_days {
            1 => "every day".to_owned(),
            days => format!("every {days} days"),
        };
        format!(
            "With your change of {} % {every} it feeds the tank, a week, {}, {} and {}.",
            units.number(100.0 * habits.change_share.value, Digits::Significant(2)),
            of(Ion::Nitrate),
            of(Ion::Phosphate),
            of(Ion::Potassium)
        )
    };
    plain("feeds", "What it feeds", text)
}

/// Nitrate and phosphate in the keeper's basis, with the words for it.
fn counted(known: Known<f64>, ion: Ion, units: &Units) -> (Known<f64>, &'static str) {
    use quantity::basis::{Basis, convert};
    let basis = match ion {
        Ion::Nitrate => units.nitrogen,
        Ion::Phosphate => units.phosphorus,
        _ => return (known, ""),
    };
    match (basis, ion) {
        (NutrientBasis::Element, _) => {
            let element = |mg: f64| convert(mg, ion, Basis::AsIon, Basis::AsElement).unwrap_or(mg);
            (known.map(element), if ion == Ion::Nitrate { " as N" } else { " as P" })
        }
        (_, Ion::Nitrate) => (known, " as NO3"),
        _ => (known, " as PO4"),
    }
}

fn harms(tank: &Tank, levels: &[Level]) -> Sentence {
    let (limit, rule) = (&book().harm.limit, &book().harm.rule);
    let units = &tank.units;
    let mut what: Vec<String> = Vec::new();
    let mut more: Vec<String> = Vec::new();
    let mut sources = vec![limit.chlorine_acute_mg_per_l.is.source.clone()];
    if tank.tap.disinfectant != Disinfectant::None {
        what.push(format!(
            "its disinfectant, up to {} mg/L of total chlorine (fish are harmed within hours from about {} on)",
            number(units, tank.tap.total_chlorine_mg_per_l.high),
            units.number(limit.chlorine_acute_mg_per_l.value(), Digits::Significant(1))
        ));
        more.push(rule.disinfectant_counts.say.clone());
    }
    // Its disinfectant was said already.
    let rest: Vec<Level> = levels.iter().filter(|level| level.determinand != "chlorine_total").cloned().collect();
    for borne in limits::bears(&rest).into_iter().filter(|borne| borne.beyond && concerns(tank, borne.who)) {
        let named = borne.determinand.clone();
        if !what.iter().any(|text| text.starts_with(&named)) {
            what.push(format!("{named}, {} ({} bear {})", borne.shown, borne.who.words(), borne.limit));
        }
        sources.push(borne.source.clone());
        more.push(borne.say);
    }
    let untold: Vec<&str> = [Ion::Copper, Ion::Nitrate, Ion::Ammonium]
        .into_iter()
        .filter(|ion| !limits::is_told(tank.tap.mg_per_l(*ion).kind))
        .map(Ion::name)
        .collect();
    let mut text = match what.as_slice() {
        [] => "Of what was told, nothing stands where harm to your animals is known".to_owned(),
        what => format!("What harms in it: {}", what.join("; ")),
    };
    if !untold.is_empty() {
        text += &format!("; of {} nobody told", list(&untold));
    }
    more.push(copper(tank));
    more.push(lead(levels, units));
    more.extend(phosphate(tank));
    sources.dedup();
    Sentence { key: "harms", head: "What harms", text: text + ".", more, urgent: false, sources }
}

/// Whether somebody of this kind lives in the tank; who was not told lives there.
fn concerns(tank: &Tank, who: Life) -> bool {
    match who {
        Life::Plants => true,
        Life::Fish => tank.animals.fish > 0 || tank.animals.young,
        Life::Shrimps => tank.animals.invertebrates() || tank.animals.young,
    }
}

/// The works' copper, and the pipes'.
fn copper(tank: &Tank) -> String {
    let (units, limit) = (&tank.units, &book().harm.limit);
    let (tap, pipes) = (tank.tap.mg_per_l(Ion::Copper), tank.pipes_copper_mg_per_l);
    let works = match limits::is_told(tap.kind) {
        true => format!("The report's copper is up to {} mg/L", number(units, tap.high)),
        false => "The report tells no copper".to_owned(),
    };
    let house = match limits::is_told(pipes.kind) {
        true => format!("your pipes add up to {} after standing", number(units, pipes.high)),
        false => "what your own pipes add after standing, nobody told".to_owned(),
    };
    let sum = if concerns(tank, Life::Shrimps) {
        format!(
            " Together they count against {} mg/L (where I ask) and {} (where I refuse) with shrimps or snails.",
            number(units, limit.copper_ask_mg_per_l.value()),
            number(units, limit.copper_refuse_mg_per_l.value())
        )
    } else {
        String::new()
    };
    format!("{works}; {house}.{sum}")
}

fn lead(levels: &[Level], units: &Units) -> String {
    let told = levels.iter().find(|level| level.determinand == "lead");
    let report = told.map_or(String::new(), |level| {
        format!("The report's lead is up to {} mg/L. ", number(units, level.known.high))
    });
    format!(
        "{report}Lead comes from pipes and solder of houses, not from the works: a figure of the works or of other homes says \
         nothing of yours. Run the cold tap to its coldest before you fill a bucket."
    )
}

/// Phosphate that the works add against lead.
fn phosphate(tank: &Tank) -> Option<String> {
    let known = tank.tap.mg_per_l(Ion::Phosphate);
    let dosed = &book().limits.phosphate_dosed_mg_per_l;
    (limits::is_told(known.kind) && known.value >= dosed.low()).then(|| {
        let (known, counted) = counted(known, Ion::Phosphate, &tank.units);
        format!(
            "Its phosphate of {} mg/L{counted} is what works add so that old lead pipes give off less; whatever pipes you \
             have, it feeds plants and algae alike. No harm to animals is known at such a level.",
            number(&tank.units, known.value)
        )
    })
}

fn first(tank: &Tank) -> Sentence {
    let (limit, rule) = (&book().harm.limit, &book().harm.rule);
    let units = &tank.units;
    let chlorine = tank.tap.total_chlorine_mg_per_l.high;
    let (text, urgent) = match tank.tap.disinfectant {
        Disinfectant::None => (
            format!("Nothing has to be taken out of it before it touches animals; {}", lower(&rule.cold_tap.say)),
            false,
        ),
        _ if chlorine > limit.chlorine_stop_mg_per_l.value() => {
            (format!("At once: {}", lower(&rule.chlorine_ask_supplier.say)), true)
        }
        _ => (
            format!(
                "At once, in the bucket: conditioner for up to {} mg/L of total chlorine, as Salts says it; stir, wait {} \
                 minutes, then pour, for harm begins at about {} mg/L.",
                number(units, chlorine),
                units.number(limit.conditioner_wait_min.value(), Digits::Significant(2)),
                units.number(limit.chlorine_acute_mg_per_l.value(), Digits::Significant(1))
            ),
            true,
        ),
    };
    let mut more = vec![rule.cold_tap.say.clone(), rule.tap_notice.say.clone(), rule.new_water_temperature.say.clone()];
    if tank.tap.disinfectant == Disinfectant::None {
        more.remove(0);
    } else {
        more.push(rule.standing_overnight.say.clone());
        more.push(rule.chloramine_leaves_ammonia.say.clone());
    }
    let sources = vec![limit.chlorine_acute_mg_per_l.is.source.clone(), limit.conditioner_wait_min.is.source.clone()];
    Sentence { key: "first", head: "Before it touches animals", text, more, urgent, sources }
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

fn list(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// Every value of the tap with the year's ends.
fn swings(tank: &Tank) -> Vec<Swing> {
    let tap = &tank.tap;
    let swing = |name: &str, unit: &str, known: Known<f64>| Swing {
        name: name.to_owned(),
        unit: unit.to_owned(),
        known,
        told: known.high > known.low && known.kind == Kind::Measured,
    };
    let mut all = vec![
        swing("hardness", "meq/L", hardness(tank)),
        swing("alkalinity", "meq/L", tap.alkalinity_meq_per_l),
        swing("pH", "", tap.ph),
        swing("temperature", "°C", tap.temperature_c),
        swing("total chlorine", "mg/L", tap.total_chlorine_mg_per_l),
    ];
    let ions = Ion::ALL.into_iter().map(|ion| (ion, tap.mg_per_l(ion))).filter(|(_, known)| known.high > 0.0);
    all.extend(ions.map(|(ion, known)| {
        let (known, counted) = counted(known, ion, &tank.units);
        swing(&format!("{}{counted}", ion.name()), "mg/L", known)
    }));
    all
}
