//! Salts: what to weigh into which bottle, how much a day, what level follows, and what was left out.

mod bottles;
mod buying;
mod glass;
mod labels;
pub mod levels;
mod new_water;
mod notes;
pub mod reading;
mod really;

use maud::{Markup, html};
use quantity::{Ion, Kind, Known, Units, Why};
use recipe::Plan;
use setup::{Setup, Tank};

use crate::blank::Blank;
use crate::parts;
use crate::sheet::Sheet;
use crate::words::{NB, capital, count, counted, days, figures, list, litres_of, money};
use reading::{Reading, readings};

/// The blanks of this letter.
pub fn blanks(setup: &Setup, tank: &Tank, plan: &Plan) -> Vec<Blank> {
    let hand = &tank.at_hand;
    let nitrate = tank.growth.uptake_mg_per_l_day.get(&Ion::Nitrate);
    let numbers = [
        ("habits.change", Some(tank.habits.change_share)),
        ("habits.every", Some(Known::exact(f64::from(tank.habits.every_days), kind_of(tank, "habits.every")))),
        ("plants.uptake_nitrate", nitrate.copied()),
        ("at_hand.bottle", Some(hand.bottle_ml)),
        ("at_hand.daily", Some(hand.daily_ml)),
        (if hand.dropper { "at_hand.drop" } else { "at_hand.syringe" }, Some(hand.syringe_ml)),
        ("at_hand.scale", Some(hand.scale_g)),
        ("at_hand.bucket", Some(hand.bucket_l)),
    ];
    let blanks = numbers.into_iter().filter_map(|(field, known)| Blank::of(field, known?, &tank.units));
    really::blanks(setup, tank).into_iter().chain(blanks).chain(buying::blanks(tank, plan)).collect()
}

/// "5 mL", by a dropper with the drops that they are: "0.5 mL (10 drops)".
fn millilitres(tank: &Tank, ml: f64) -> String {
    format!("{}{NB}mL{}", figures(&tank.units, ml, 4), dropped(tank, ml))
}

/// " (10 drops)" for who counts them, else nothing.
fn dropped(tank: &Tank, ml: f64) -> String {
    match tank.at_hand.drops(ml) {
        Some(1) => format!(" (1{NB}drop)"),
        Some(drops) => format!(" ({drops}{NB}drops)"),
        None => String::new(),
    }
}

/// How well a field is known whose value carries no kind: assumed if it is on the list of assumptions.
fn kind_of(tank: &Tank, field: &str) -> Kind {
    tank.assumed.iter().find(|assumed| assumed.field == field).map_or(Kind::Measured, |assumed| assumed.kind)
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    if let Some(untold) = glass::untold(sheet) {
        return html! { (untold) (crate::more::verse(sheet, "salts")) };
    }
    let readings = readings(sheet.answer);
    html! {
        (opening(sheet, &readings))
        @if readings.is_empty() {
            (sheet.verse("First of all", html! { p { "Several things are open at once. Answer the one above, and the next comes; the recipe follows when all are settled." } }))
        } @else {
            (bottles::verses(sheet, &readings))
            (new_water::verse(sheet, &readings))
            (notes::mind(sheet, &readings))
            (notes::left_out(sheet, &readings))
            (notes::wishes(sheet, &readings))
            (levels::waterside(sheet, &readings))
            (levels::taken(sheet, &readings))
            (buying::law(sheet, &readings))
            (buying::list(sheet, &readings))
            (labels::verse(sheet, &readings))
        }
        (crate::more::verse(sheet, "salts"))
    }
}

fn opening(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let first = readings.first();
    let dateline = html! {
        (sheet.today.words())
        @if let Some(Reading { plan, tank, .. }) = first {
            " · for " (sheet.out(&litres_of(&sheet.units, plan.true_l.value), &true_litres(tank, plan))) ", "
            (sheet.in_unit("habits.change", "")) " changed, again after " (sheet.in_unit("habits.every", ""))
            @if let Some(instead) = instead(sheet, tank, plan) { "; " (instead) }
        }
    };
    let heads: Vec<Vec<String>> = readings.iter().map(|r| headline(sheet, r)).collect();
    let agreed = agreed(&heads);
    let all = heads.iter().all(|head| head.len() == agreed.len());
    let answer = match (agreed.join(" "), sheet.question()) {
        (agreed, None) => agreed,
        (agreed, _) if agreed.is_empty() => "One question first: what I weigh depends on your answer.".to_owned(),
        (agreed, _) if all => format!("{agreed} That holds whatever you answer below."),
        (agreed, _) => format!("{agreed} The rest depends on the question below."),
    };
    let under = html! { (really::each(sheet)) (slip(sheet, readings, &agreed)) };
    sheet.opening(dateline, html! { (really::lead(sheet)) (answer) }, under)
}

/// The sentences in which all readings agree.
fn agreed(heads: &[Vec<String>]) -> Vec<String> {
    let Some((first, others)) = heads.split_first() else { return Vec::new() };
    first.iter().filter(|said| others.iter().all(|other| other.contains(said))).cloned().collect()
}

/// What is planned where the habit would do harm; why stands under "New water".
fn instead(sheet: &Sheet, tank: &Tank, plan: &Plan) -> Option<String> {
    let (habit, change) = (&tank.habits, &plan.change);
    let same = change.every_days == habit.every_days && (change.share - habit.change_share.value).abs() < 0.005;
    (!same && change.every_days > 0 && change.share > 0.0).then(|| {
        let share = figures(&sheet.units, 100.0 * change.share, 2);
        let every = match change.every_days {
            1 => "day".to_owned(),
            every => days(&sheet.units, f64::from(every)),
        };
        format!("I plan {share}{NB}% every {every}")
    })
}

fn slip(sheet: &Sheet, all: &[Reading], agreed: &[String]) -> Markup {
    let Some(question) = sheet.question() else { return html! {} };
    let recipe::Answer::Open { outcomes, .. } = sheet.answer else { return html! {} };
    let follows = outcomes.iter().map(|outcome| match readings(&outcome.answer).as_slice() {
        [only] => html! {
            (levels::apart(sheet, only, all))
            @for said in headline(sheet, only).iter().filter(|said| !agreed.contains(said)) { " " (said) }
        },
        _ => html! { "Then I have one more question." },
    });
    html! {
        @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
        (parts::question(question, &follows.collect::<Vec<_>>()))
    }
}

/// The answer, sentence by sentence: first what to do, then what was left out, then what I can't do.
fn headline(sheet: &Sheet, reading: &Reading) -> Vec<String> {
    let (plan, tank) = (reading.plan, reading.tank);
    let mut said = vec![weighed(sheet, reading)];
    said.extend(poured(&sheet.units, tank, plan));
    let unmet: Vec<Ion> = plan.unmet.iter().filter_map(|u| u.ion).collect();
    let left: Vec<&str> = plan.left_out.iter().map(|n| n.about.as_str()).filter(|about| notes::is_ion(about)).collect();
    let left: Vec<&str> = left.into_iter().filter(|about| !unmet.iter().any(|ion| ion.name() == *about)).collect();
    match left.as_slice() {
        [] => {}
        [one] => said.push(format!("{} is left out: you have enough.", capital(one))),
        [one, other] => said.push(format!("{} and {other} are left out: you have enough.", capital(one))),
        more => said.push(format!("{} nutrients are left out: you have enough.", capital(&count(more.len())))),
    }
    said.extend(rich_in_nitrate(plan));
    said.extend(unreached(plan));
    match plan.refused.len() {
        0 => {}
        1 => said.push("One wish I don’t follow: more below.".to_owned()),
        n => said.push(format!("{} wishes I don’t follow: more below.", capital(&count(n)))),
    }
    said
}

/// The bottles and what all costs.
fn weighed(sheet: &Sheet, reading: &Reading) -> String {
    let (plan, tank, units) = (reading.plan, reading.tank, &sheet.units);
    match plan.bottles.as_slice() {
        [] if tank.feeding == setup::Feeding::None => "Nothing to weigh: the ground feeds your plants.".to_owned(),
        [] if plan.unmet.is_empty() => "Nothing to weigh: tap and food bring what your plants take.".to_owned(),
        [] => "No bottle: what is lacking can’t be mended by one.".to_owned(),
        bottles => {
            let daily: Vec<String> = bottles.iter().map(|b| figures(units, b.daily_ml, 3)).collect();
            let alike = daily.iter().all(|d| Some(d) == daily.first());
            let each = match (bottles.len(), alike) {
                (1, _) => format!("{}{NB}mL a day", daily.join("")),
                (_, true) => format!("{}{NB}mL of each a day", daily.first().map_or("", String::as_str)),
                (_, false) => format!("{}{NB}mL a day", list(&daily)),
            };
            let price = |minor: f64| money(units, &tank.currency, minor);
            let begin = Some(to_buy(plan)).filter(|first| *first > 0.0);
            let begin = begin.map(|first| format!("{} to begin with, then ", price(first))).unwrap_or_default();
            let cost = price(a_month(plan));
            format!("{}, {each}, {begin}about {cost} a month.", capital(&counted(bottles.len(), "bottle", "bottles")))
        }
    }
}

/// What goes into the new water: conditioner first, then salts; or that none of it is used.
fn poured(units: &Units, tank: &Tank, plan: &Plan) -> Option<String> {
    let conditioner = plan.new_water.conditioner.as_ref();
    if conditioner.is_some_and(|c| c.refused.is_some()) {
        return Some("Change no water before your supplier has answered.".to_owned());
    }
    let mut into: Vec<String> = Vec::new();
    if let Some(c) = conditioner {
        let ml = if tank.at_hand.by_hose { c.ml_whole_tank } else { c.ml_a_bucket };
        into.push(format!("{}{NB}mL of conditioner", figures(units, ml, 4)));
    }
    into.extend(plan.new_water.salts.iter().map(|salt| plain(&salt.name).to_owned()));
    let go = if into.len() == 1 && conditioner.is_none() { "goes" } else { "go" };
    let place = match (conditioner, tank.at_hand.by_hose) {
        (None, _) => "Into the new water",
        (_, true) => "Before the hose runs, into the tank",
        _ => "Into each bucket",
    };
    (!into.is_empty()).then(|| format!("{place} {go} {}.", list(&into)))
}

/// A product's everyday name where it has one, in brackets: gypsum, Epsom salt.
fn plain(name: &str) -> &str {
    name.split_once(" (").map_or(name, |(_, everyday)| everyday.trim_end_matches(')'))
}

/// Nitrate above what tanks are kept at is no "enough": the caution below tells whom it harms.
fn rich_in_nitrate(plan: &Plan) -> Option<String> {
    let told = plan.cautions.iter().any(|note| note.key.as_deref() == Some("nitrate_strict_mg_per_l"));
    let most = knowledge::book().harm.limit.nitrate_practice_high_mg_per_l.value();
    let rich = plan.levels.iter().any(|l| l.ion == Some(Ion::Nitrate) && l.highest > most);
    (told && rich)
        .then(|| "Nitrate stands higher than shrimps, snails and young are kept at: mind it below.".to_owned())
}

/// Bands that are not held: those that hang on the tap, and those that hang on a number nobody measured.
fn unreached(plan: &Plan) -> Vec<String> {
    let assumed = |ion: &Option<Ion>| {
        ion.is_some() && plan.levels.iter().any(|l| l.ion == *ion && l.new_water.kind == Kind::Assumed)
    };
    let name = |ion: &Option<Ion>| ion.map_or("hardness or alkalinity", Ion::name);
    let (open, known): (Vec<_>, Vec<_>) = plan.unmet.iter().map(|u| u.ion).partition(assumed);
    let (open, known): (Vec<&str>, Vec<&str>) = (open.iter().map(name).collect(), known.iter().map(name).collect());
    let mut said = Vec::new();
    if !known.is_empty() {
        said.push(format!("{} I can’t hold all year long: more below.", capital(&list(&known))));
    }
    if !open.is_empty() {
        said.push(format!("Nobody has measured {} in your tap: more below.", list(&open)));
    }
    said
}

/// What all that isn't there yet costs, in minor units.
fn to_buy(plan: &Plan) -> f64 {
    plan.shopping.iter().filter(|purchase| !purchase.owned).map(|purchase| purchase.price_minor.value).sum()
}

/// What all of it costs a month, in minor units.
fn a_month(plan: &Plan) -> f64 {
    plan.shopping.iter().map(|purchase| purchase.a_month_minor).sum()
}

/// Why so many litres, as the setup says it.
fn true_litres(tank: &Tank, plan: &Plan) -> Why {
    why_of(tank, "true-litres").cloned().unwrap_or_else(|| Why {
        key: "true-litres".to_owned(),
        question: format!("why {} litres?", figures(&tank.units, plan.true_l.value, 3)),
        sum: String::new(),
        words: "The water that is really in the glass, up to the waterline, without ground, stones and wood."
            .to_owned(),
        sources: Vec::new(),
        kind: plan.true_l.kind,
    })
}

/// A why-note of the tank.
fn why_of<'a>(tank: &'a Tank, key: &str) -> Option<&'a Why> {
    tank.whys.iter().find(|why| why.key == key)
}
