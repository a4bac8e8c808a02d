//! The notice itself, in sentences. The order is that of harm: people, power, carbon dioxide, air, warmth, water.

use knowledge::Limits;
use quantity::{Digits, format_number};

/// Something said under a few strong words.
pub struct Item {
    /// The strong words.
    pub head: &'static str,
    /// Sentences, one paragraph each.
    pub says: Vec<String>,
}

/// The whole notice.
pub struct Notice {
    /// What is seen.
    pub title: &'static str,
    /// Before the fish.
    pub you_first: Vec<Item>,
    /// Between the frame and the list.
    pub then: &'static str,
    /// In order.
    pub steps: Vec<Item>,
    /// Under the list.
    pub people: Vec<Item>,
    /// Something else is wrong.
    pub others: Vec<Item>,
}

fn item(head: &'static str, says: &[&str]) -> Item {
    Item { head, says: says.iter().map(|s| (*s).to_owned()).collect() }
}

/// The notice.
pub fn notice() -> Notice {
    let limit = &knowledge::book().harm.limit;
    Notice {
        title: "Fish at the surface, gasping",
        you_first: you_first(),
        then: "None of that? Go down this list, in order. You need no numbers and no test to begin.",
        steps: steps(limit),
        people: vec![
            item("Swallowed something, or in the eye?", &["Call the poison centre now."]),
            item("Power cut?", &["No generator, grill or stove indoors: their fumes kill people."]),
        ],
        others: others(limit),
    }
}

fn you_first() -> Vec<Item> {
    vec![
        item(
            "You first.",
            &[
                "Hissing near a cylinder, a headache, short breath: out of the room, door open, call for help. Nobody goes back for the valve.",
            ],
        ),
        item(
            "Touch nothing wet",
            &[
                "if your hand tingles, glass is broken or water is on the floor. Power off at the fuse box, but only if you reach it on dry ground.",
            ],
        ),
        item("Someone is shocked: don’t touch them before the power is off.", &["Then call the emergency number."]),
    ]
}

/// A number as it is said to somebody in a hurry.
fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

fn both_scales(degrees: f64) -> String {
    format!("{}\u{a0}°C ({}\u{a0}°F)", n(degrees), n(1.8 * degrees))
}

/// "a tenth" for 10 %.
fn tenth(percent: f64) -> String {
    if (percent - 10.0).abs() < 1e-9 { "a tenth".to_owned() } else { format!("{}\u{a0}%", n(percent)) }
}

fn steps(limit: &Limits) -> Vec<Item> {
    let (hour, day) = (limit.temperature_step_c_per_h.value(), limit.temperature_step_c.value());
    let gills = format_number(limit.chlorine_acute_mg_per_l.value(), Digits::Significant(1));
    vec![
        item(
            "Plugs out, with dry hands.",
            &[
                "Heater, lamp, filter: all that is in the water or over it. But not an air pump that stands outside: it stays on.",
            ],
        ),
        item(
            "Carbon dioxide off.",
            &[
                "If you give any: close the valve of the cylinder. A bottle of yeast or of acid: lift its tube out of the water, and never pinch it.",
            ],
        ),
        item(
            "Spray, paint or smoke in the room?",
            &["Window open, and the air pump’s intake into clean air, before you turn it up."],
        ),
        item(
            "Air on, as much as there is.",
            &[
                "Lid off, air pump full up. No pump? Dip up water with a clean jug and let it fall back from a hand’s height, again and again.",
            ],
        ),
        Item {
            head: "Feel the water, read the thermometer.",
            says: vec![format!(
                "Much warmer than usual: let a closed bottle of cold water float in it. Much colder: a blanket round the glass. Warm or cool it by at most {} in an hour and {} in a day.",
                both_scales(hour),
                both_scales(day)
            )],
        },
        Item {
            head: "New water today?",
            says: vec![format!(
                "Chlorine may be the cause; it hurts gills from about {gills}\u{a0}mg/L on. Conditioner now, for the whole tank, as its label says."
            )],
        },
        change_a_third(limit),
        item(
            "Plugs back, with dry hands.",
            &[
                "When your hands are out and the water is over the heater’s mark: filter first, it must not stand for long. The carbon dioxide stays off.",
            ],
        ),
        item(
            "No food. Wait a quarter of an hour.",
            &[
                "They sink and breathe slower: leave it be. The air stays on all night.",
                "No better: test ammonia and nitrite. If one of them shows, change once more as in step 7, two hours later. Ask a vet who treats fish.",
            ],
        ),
    ]
}

fn change_a_third(limit: &Limits) -> Item {
    let tenth = tenth(limit.old_tank_change_percent.value());
    let (wait, heater) = (n(limit.conditioner_wait_min.value()), n(limit.heater_wait_min.value()));
    Item {
        head: "Change a third of the water.",
        says: vec![
            format!("Not changed for months? Then only {tenth}, again each hour, with an ammonia test each time."),
            "The tap smells, is brown, or there is a notice? Then no change: air only.".to_owned(),
            format!(
                "The heater’s plug has been out for {heater} minutes before the water falls below its mark: a hot one cracks. Until then take water only down to the mark."
            ),
            format!(
                "Conditioner into the bucket, stir, wait {wait} minutes. As warm as the tank to your hand. Pour slowly."
            ),
        ],
    }
}

fn others(limit: &Limits) -> Vec<Item> {
    let tenth = tenth(limit.old_tank_change_percent.value());
    vec![
        item(
            "A fish lies on the ground or spins",
            &["Steps 1 to 6. Then test ammonia and nitrite, and ask a vet who treats fish. I give no medicine."],
        ),
        Item {
            head: "I gave far too much from a bottle",
            says: vec![
                "A person swallowed of it: poison centre first. Keep the label at hand.".to_owned(),
                format!(
                    "Nothing more from that bottle. Air on. Change a third, conditioner in it and as warm as the tank, and again tomorrow; not changed for months: {tenth}, again each hour, with an ammonia test."
                ),
            ],
        },
        item(
            "The power is out",
            &[
                "No generator, grill or stove indoors: their fumes kill people.",
                "Plugs of heater and lamp out. Let water fall back from a jug for five minutes in every half hour. No food. A blanket round the glass. When the power is back: water over the heater’s mark, then the plugs, with dry hands.",
            ],
        ),
        item(
            "The tap smells, is brown, or there is a notice",
            &["No change, air only, little food. Ask your supplier what was added, and until when."],
        ),
        item(
            "The tank leaks",
            &[
                "Stay out of the water on the floor. Power off at the fuse box, but only if you reach it on dry ground.",
                "Then the animals into a clean bucket of tank water: air on, lid half on, away from children.",
            ],
        ),
        item(
            "I was shocked, or someone was",
            &[
                "Power off first, only then touch. Call the emergency number even if it seems over: the heart may follow hours later.",
            ],
        ),
    ]
}
