//! Who lives in the tank, how much light and food it gets, what the keeper does.

use maud::{Markup, html};
use quantity::{Ion, Kind, Why};
use setup::{Energy, Feeding, Setup, Tank};

use super::{exact, kind};
use crate::blank::Blank;
use crate::salts::levels::basis;
use crate::sheet::Sheet;
use crate::words::{capital, glued};

/// The blanks.
pub fn blanks(setup: &Setup, tank: &Tank) -> Vec<Blank> {
    let animals = &tank.animals;
    let numbers = [
        ("animals.fish", f64::from(animals.fish)),
        ("animals.shrimps", f64::from(animals.shrimps)),
        ("animals.snails", f64::from(animals.snails)),
        ("animals.other_invertebrates", f64::from(animals.other_invertebrates)),
        ("animals.unchanged_months", tank.unchanged_months.unwrap_or(0.0)),
        ("habits.every", f64::from(tank.habits.every_days)),
    ];
    let mut all: Vec<Blank> = numbers.into_iter().filter_map(|(field, value)| exact(tank, field, value)).collect();
    all.extend(Blank::of("light.hours", tank.keeping.light_h, &tank.units));
    all.extend(Blank::of("habits.top_up", tank.habits.top_up_l_per_day, &tank.units));
    let uptake = tank.growth.uptake_mg_per_l_day.get(&Ion::Nitrate);
    all.extend(uptake.and_then(|known| Blank::of("plants.uptake_nitrate", *known, &tank.units)));
    let name = setup.written("tank.name").unwrap_or_default();
    all.push(Blank::number("tank.name", name, "", "What you call this tank", Kind::Measured));
    let plants = setup.written("plants.names").unwrap_or_default();
    all.push(Blank::number("plants.names", plants, "", "What grows in it, in your own words", Kind::Measured));
    all.extend(choices(tank).map(|(field, shown, list)| {
        let says = setup::field_of(field).map_or_else(String::new, |entry| capital(&entry.label));
        Blank::choice(field, shown, &says, kind(tank, field), list)
    }));
    all
}

/// Texts to choose among, each with the words shown.
type Words = &'static [(&'static str, &'static str)];

/// Field, what is chosen, and the choices.
fn choices(tank: &Tank) -> impl Iterator<Item = (&'static str, &str, Words)> {
    let yes_no = |yes: bool| if yes { "true" } else { "false" };
    let top_up = if tank.habits.top_up_with == "low" { "low_water" } else { "tap" };
    let all: [(&str, &str, Words); 6] = [
        ("animals.young", yes_no(tank.animals.young), &[("false", "no young fish"), ("true", "young fish too")]),
        (
            "animals.start_test_passed",
            yes_no(tank.animals.start_test_passed),
            &[("true", "has passed it"), ("false", "has not passed it yet")],
        ),
        ("light.energy", energy(tank.energy), &[("low", "little"), ("medium", "middling"), ("high", "much")]),
        (
            "feeding.wish",
            feeding(tank.feeding),
            &[
                ("just_enough", "just enough"),
                ("comfortable", "comfortably"),
                ("plenty", "plenty"),
                ("none", "by the ground alone"),
            ],
        ),
        ("habits.top_up_with", top_up, &[("tap", "tap water"), ("low_water", "low-mineral water")]),
        (
            "tank.country",
            &tank.country,
            &[
                ("eu", "the European Union"),
                ("gb", "Great Britain"),
                ("us", "the United States"),
                ("other", "another country"),
            ],
        ),
    ];
    all.into_iter()
}

fn energy(energy: Energy) -> &'static str {
    match energy {
        Energy::Low => "low",
        Energy::Medium => "medium",
        Energy::High => "high",
    }
}

fn feeding(feeding: Feeding) -> &'static str {
    match feeding {
        Feeding::JustEnough => "just_enough",
        Feeding::Comfortable => "comfortable",
        Feeding::Plenty => "plenty",
        Feeding::None => "none",
    }
}

/// Nobody said who lives in it.
pub fn untold(tank: &Tank) -> bool {
    kind(tank, "animals.fish") != Kind::Measured && kind(tank, "animals.shrimps") != Kind::Measured
}

/// Who lives in it.
pub fn animals(sheet: &Sheet, tank: &Tank) -> Markup {
    let rule = &knowledge::book().harm.rule;
    sheet.verse(
        "Who lives in it",
        html! {
            p {
                @if untold(tank) { "Nobody has told me, so the limits for fish and for shrimps both hold. " }
                "Grown fish: " (sheet.blank("animals.fish", ";")) " shrimps: " (sheet.blank("animals.shrimps", ";")) " snails: "
                (sheet.blank("animals.snails", ";")) " others without a backbone: " (sheet.blank("animals.other_invertebrates", ";"))
                " " (sheet.blank("animals.young", "."))
                " Each brings its own limits: copper and nitrate for shrimps, snails and young, ammonia for all."
            }
            p {
                "The start test shows whether the filter takes ammonia: yours " (sheet.blank("animals.start_test_passed", ",")) " twice. "
                @if !tank.animals.start_test_passed { (rule.start_test.say) " " (rule.no_cleaners.say) " " }
                "For " (sheet.blank("animals.unchanged_months", "")) " months no water was changed. "
                @if tank.unchanged_months.is_some() { (rule.old_acid_tank.say) }
            }
        },
    )
}

/// Light, warmth and food.
pub fn growth(sheet: &Sheet, tank: &Tank) -> Markup {
    let why = tank.whys.iter().find(|why| why.key == "uptake");
    sheet.verse(
        "Light and food",
        html! {
            p {
                "It gets " (sheet.blank("light.energy", "")) " light, for " (sheet.in_unit("light.hours", "")) " a day. It stands at " (sheet.in_unit("tank.temperature", ""))
                " and its plants are fed " (sheet.blank("feeding.wish", ".")) " I count on " (sheet.blank("plants.uptake_nitrate", " mg/L"))
                " of nitrate" (basis(&sheet.units, Some(Ion::Nitrate)).1.trim_start_matches("mg/L")) " that they take in a day, and of all else in proportion"
                @if let Some(why) = why { " (" (sheet.out("why", why)) ")" } "."
            }
            p {
                "In it grow: " (sheet.blank("plants.names", ".")) " Name them as the shop does, or by their scientific names: some stand on a list of weeds, and I say which."
                @if let Some(weeds) = tank.weeds(&tank.plants) { " " span.really { (glued(&weeds)) } }
            }
        },
    )
}

/// What the keeper does.
pub fn habits(sheet: &Sheet) -> Markup {
    sheet.verse(
        "What you do",
        html! {
            p {
                "You change " (sheet.in_unit("habits.change", "")) " of the water, and again after " (sheet.in_unit("habits.every", ""))
                " (0: never). Of it " (sheet.in_unit("habits.top_up", "")) " dries away and is topped up with "
                (sheet.blank("habits.top_up_with", "."))
                " The law that I go by is that of " (sheet.blank("tank.country", ".")) " You call this tank " (sheet.blank("tank.name", "."))
            }
        },
    )
}

/// Hands, plugs and cables.
pub fn hands(sheet: &Sheet) -> Markup {
    let harm = &knowledge::book().harm;
    let current = &harm.limit.residual_current_ma;
    let why = Why {
        key: "residual-current".to_owned(),
        question: format!("why {} mA?", current.value()),
        sum: String::new(),
        words: "What such a device must trip at, to count as protection of people.".to_owned(),
        sources: vec![current.is.source.clone()],
        kind: current.is.kind().weaker(Kind::Measured),
    };
    sheet.verse(
        "Before hands go in",
        html! {
            p { (glued(&harm.rule.plugs_out.say)) " " (glued(&harm.rule.heater_plug.say)) " " (glued(&harm.rule.drip_loops.say)) }
            p { (glued(&current.say)) " " (sheet.out("Why", &why)) }
        },
    )
}
