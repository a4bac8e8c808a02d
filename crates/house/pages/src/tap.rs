//! Tap: a letter about what the water brings, what it swings, and what must happen before it touches animals.

mod animals;
mod balance;
mod brings;
mod feeds;
pub(crate) mod means;
pub mod report;
mod swings;
mod whose;

use maud::{Markup, html};
use quantity::{HardnessUnit, Ion, Kind};
use recipe::{Answer, Lime, Plan};
use setup::{Disinfectant, Setup, Tank};

use crate::blank::Blank;
use crate::parts;
use crate::salts::reading::{Reading, readings};
use crate::sheet::Sheet;
use crate::words::{capital, list};

/// The ions of the tap that this letter speaks of.
pub(crate) const IONS: [Ion; 11] = [
    Ion::Calcium,
    Ion::Magnesium,
    Ion::Sodium,
    Ion::Potassium,
    Ion::Chloride,
    Ion::Sulfate,
    Ion::Nitrate,
    Ion::Phosphate,
    Ion::Ammonium,
    Ion::Iron,
    Ion::Copper,
];

/// The blanks of this letter.
pub fn blanks(setup: &Setup, tank: &Tank, _plan: &Plan) -> Vec<Blank> {
    let (units, tap) = (&tank.units, &tank.tap);
    let ions = IONS.iter().filter_map(|ion| Blank::of(&field(*ion), *tap.ions.get(ion)?, units));
    let mut all: Vec<Blank> = ions.collect();
    let numbers = [
        ("tap.alkalinity", tap.alkalinity_meq_per_l),
        ("tap.ph", tap.ph),
        ("tap.total_chlorine", tap.total_chlorine_mg_per_l),
        ("pipes.copper", tank.pipes_copper_mg_per_l),
        ("at_hand.trace_copper", tank.at_hand.trace_copper),
        ("tank.temperature", tank.temperature_c),
        ("tank.room_co2", tank.room_co2_ppm),
    ];
    all.extend(numbers.into_iter().filter_map(|(field, known)| Blank::of(field, known, units)));
    // Told apart from calcium and magnesium, hardness has a blank of its own.
    all.extend(setup.number("tap.hardness").and_then(|known| Blank::of("tap.hardness", known, units)));
    all.extend(year_round(tank));
    all.push(disinfectant(tank));
    all.push(whose::blank(setup));
    all.push(hardness_unit(tank));
    all
}

/// Coldest and warmest of the year on one line: a range is written as a range, a single number holds all year.
fn year_round(tank: &Tank) -> Option<Blank> {
    let known = tank.tap.temperature_c;
    let blank = Blank::of("tap.temperature", known, &tank.units)?;
    let end = |celsius: f64| tank.units.number(in_unit(celsius, tank), quantity::Digits::Significant(3));
    let shown = match (end(known.low), end(known.high)) {
        (low, high) if low == high => format!("{low} {}", blank.unit),
        (low, high) => format!("{low} to {high} {}", blank.unit),
    };
    Some(Blank { shown, ..blank })
}

fn in_unit(celsius: f64, tank: &Tank) -> f64 {
    let temperature = quantity::Temperature::celsius(celsius);
    match tank.units.temperature {
        quantity::TemperatureUnit::Celsius => temperature.in_celsius(),
        quantity::TemperatureUnit::Fahrenheit => temperature.in_fahrenheit(),
    }
}

/// The field of an ion of the tap.
pub(crate) fn field(ion: Ion) -> String {
    format!("tap.{}", ion.name())
}

fn disinfectant(tank: &Tank) -> Blank {
    let (shown, kind) = match tank.tap.disinfectant {
        Disinfectant::None => ("none", Kind::Measured),
        Disinfectant::Chlorine => ("chlorine", Kind::Measured),
        Disinfectant::Chloramine => ("chloramine", Kind::Measured),
        Disinfectant::Unknown => ("unknown", Kind::Assumed),
    };
    let choices = [
        ("unknown", "not told to me"),
        ("chlorine", "chlorine"),
        ("chloramine", "chloramine"),
        ("none", "none, says the supplier"),
    ];
    Blank::choice("tap.disinfectant", shown, "What the tap water is disinfected with", kind, &choices)
}

fn hardness_unit(tank: &Tank) -> Blank {
    let shown = match tank.units.hardness {
        HardnessUnit::German => "german",
        HardnessUnit::French => "french",
        HardnessUnit::English => "english",
        HardnessUnit::Caco3 => "caco3",
        HardnessUnit::Mmol => "mmol",
        HardnessUnit::Meq => "meq",
        HardnessUnit::Grains => "grains",
        HardnessUnit::Cao => "cao",
        HardnessUnit::Bicarbonate => "bicarbonate",
    };
    let choices = [
        ("german", "German degrees"),
        ("french", "French degrees"),
        ("english", "English degrees"),
        ("caco3", "mg/L as CaCO₃"),
        ("mmol", "mmol/L"),
        ("meq", "meq/L"),
        ("grains", "grains per US gallon"),
        ("cao", "mg/L as CaO"),
        ("bicarbonate", "mg/L as HCO₃"),
    ];
    Blank::choice("units.hardness", shown, "Unit in which you read hardness", Kind::Measured, &choices)
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let readings = readings(sheet.answer);
    html! {
        (opening(sheet, &readings))
        @if readings.is_empty() {
            (sheet.verse("First of all", html! { p { "Several things are open at once. Answer the one above, and the next comes." } }))
        } @else {
            (brings::verse(sheet, &readings))
            (feeds::verse(sheet, &readings))
            (swings::verse(sheet, &readings))
            (animals::disinfected(sheet, &readings))
            (animals::copper(sheet, &readings))
            (balance::verse(sheet, &readings))
            (whose::verse(sheet))
            @if let [only] = readings.as_slice() { (means::brief(&report::meaning(only.tank), &sheet.units)) }
        }
        (reports(sheet))
        (crate::more::verse(sheet, "tap"))
    }
}

/// The way to the reports.
fn reports(sheet: &Sheet) -> Markup {
    sheet.verse(
        "Your water report",
        html! { p {
            "Better numbers stand in your supplier’s report: "
            a href=(sheet.letter(report::KEY)) { "give it to me as a file or a pasted text" }
            ", or type in what your own tests show. I read it beside the original, ask where it is open, and say what changes."
        } },
    )
}

fn opening(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let heads: Vec<String> = readings.iter().map(|reading| headline(sheet, reading)).collect();
    let agree = heads.split_first().is_some_and(|(head, others)| others.iter().all(|other| other == head));
    let answer = match (heads.first(), sheet.question()) {
        (Some(head), None) => head.clone(),
        (Some(head), Some(_)) if agree => format!("{head} One number I have to ask about first."),
        _ => "One question first: what your tap brings depends on your answer.".to_owned(),
    };
    sheet.opening(html! { (sheet.today.words()) " · about your tap" }, html! { (answer) }, slip(sheet))
}

/// The open question, with what follows from each reply.
fn slip(sheet: &Sheet) -> Markup {
    let (Some(question), Answer::Open { outcomes, .. }) = (sheet.question(), sheet.answer) else { return html! {} };
    let follows: Vec<Markup> = outcomes
        .iter()
        .map(|outcome| match readings(&outcome.answer).as_slice() {
            [only] => html! { (follows(sheet, only)) },
            _ => html! { "Then I have one more question." },
        })
        .collect();
    html! {
        @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
        (parts::question(question, &follows))
    }
}

/// What one reply would mean: what tap and food bring enough of, and what the columns of ions say.
fn follows(sheet: &Sheet, reading: &Reading) -> String {
    format!("{} {}", enough(reading), balance::difference(sheet, reading))
}

/// The answer: hardness, lime, food, and whether something must be done first.
fn headline(sheet: &Sheet, reading: &Reading) -> String {
    let tank = reading.tank;
    let hardness = brings::hardness(sheet, tank);
    let untold = |known: quantity::Known<f64>| known.kind == quantity::Kind::Assumed;
    // Of a tap that nobody told anything of there is no verdict: the usual one is a guess.
    if [Ion::Calcium, Ion::Magnesium].iter().all(|ion| untold(tank.tap.mg_per_l(*ion)))
        && untold(tank.tap.alkalinity_meq_per_l)
        && !sheet.has("tap.hardness")
    {
        return "I can't tell yet what your tap brings: nobody told me its hardness or its alkalinity. A report, or a test with drops of each, settles it."
            .to_owned() + first(tank);
    }
    let lime = match recipe::tap_aired(tank) {
        Some(aired) => format!(" that, once it has stood for a day, {}", Lime::of(aired.calcite).does()),
        None => String::new(),
    };
    format!("Your tap brings water of {hardness}{lime}. {}{}", enough(reading), first(tank))
}

/// What must be done before it is used.
fn first(tank: &setup::Tank) -> &'static str {
    match (tank.tap.disinfectant, tank.animals.any()) {
        (Disinfectant::None, _) => "",
        (Disinfectant::Unknown, _) => " It counts as disinfected, and must be treated before it touches an animal.",
        (_, _) => " It is disinfected, and must be treated before it touches an animal.",
    }
}

/// "It brings nitrate and phosphate enough for your plants." What the recipe leaves out because the tap has it.
fn enough(reading: &Reading) -> String {
    let names: Vec<&str> = IONS
        .iter()
        .map(|ion| ion.name())
        .filter(|name| reading.plan.left_out.iter().any(|note| note.about == **name))
        .collect();
    match names.as_slice() {
        [] if reading.plan.levels.is_empty() => "What it lacks I can say when I know your glass.".to_owned(),
        [] => "Salts gives what it lacks.".to_owned(),
        names => format!("{} need not be given: tap and food bring enough.", capital(&list(names))),
    }
}
