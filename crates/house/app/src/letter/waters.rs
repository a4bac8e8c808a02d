//! Waters from reports in plain text: values with their ranges, what they mean, what moved.

use quantity::{Ion, Units};
use report::estimate::{Decided, Line, Quantity};
use report::{Combined, Meaning, Moved, OneWater};

use super::text::Text;
use crate::commands::estimate::Year;

/// The waters of an estimate with what they mean, and the next test.
pub fn waters(combined: &Combined, meanings: &[Option<Meaning>], units: &Units) -> String {
    let mut t = Text::new(units);
    if combined.waters.len() > 1 {
        t.head("Two waters that take turns");
        if let Some(us) = combined.tell_apart_us_per_cm {
            t.say(&format!(
                "A pen that shows more than {} µS/cm (at 25 °C) tells that the last one came today.",
                t.n(us, 3)
            ));
        } else if let Some(meq) = combined.tell_apart_meq_per_l {
            t.say(&format!("A hardness kit above {} meq/L tells that the harder one came today.", t.n(meq, 3)));
        }
    }
    if let Some(softener) = &combined.softener {
        t.head("A softener in the house");
        t.say(softener);
    }
    for (at, water) in combined.waters.iter().enumerate() {
        one(&mut t, water);
        if let Some(Some(meaning)) = meanings.get(at) {
            means(&mut t, meaning);
        }
    }
    if !combined.next.is_empty() {
        t.head("Tests that would tell most, in this order");
        for (number, test) in combined.next.iter().enumerate() {
            let unit = test.narrows.unit();
            t.step(
                number + 1,
                &format!(
                    "{}: {} from a range {} {unit} wide to {}",
                    test.test,
                    test.narrows.name(),
                    t.n(test.width_now, 2),
                    t.n(test.width_then, 2)
                ),
            );
        }
    }
    t.finish()
}

fn one(t: &mut Text, water: &OneWater) {
    match (water.from.as_slice(), &water.name) {
        ([], _) => t.head("Nothing is known of this water: what tap waters usually hold"),
        ([one], _) => t.head(&format!("The water of {one}")),
        (several, _) => t.head(&format!("The water put together from {}", several.join(", "))),
    }
    for settled in &water.settled {
        t.say(&settled.text);
    }
    for clash in &water.estimate.clashes {
        t.say(&format!("It contradicts itself: {}", clash.text));
    }
    for apart in &water.apart {
        t.say(apart);
    }
    let told = |ion: Ion| water.evidence.items.iter().any(|item| item.of == Quantity::Ion(ion));
    let ions = water.estimate.ions.iter();
    let ions = ions.filter(|(ion, line)| line.decided != Decided::Usual || Ion::MAJOR.contains(ion) || told(**ion));
    let sums = [
        (Quantity::Hardness, &water.estimate.hardness),
        (Quantity::Alkalinity, &water.estimate.alkalinity),
        (Quantity::Conductivity, &water.estimate.conductivity_25),
    ];
    let all = sums.into_iter().chain(ions.map(|(ion, line)| (Quantity::Ion(*ion), line)));
    let rows: Vec<[String; 4]> = all.map(|(of, line)| row(t, of, line)).collect();
    t.table(&rows);
    for left_out in &water.estimate.left_out {
        t.say(&format!("Left out: {left_out}."));
    }
}

fn row(t: &Text, of: Quantity, line: &Line) -> [String; 4] {
    let known = line.known;
    [
        format!("{}, {}", of.name(), of.unit()),
        t.level(known.value),
        format!("{} to {}", t.level(known.low), t.level(known.high)),
        line.known.kind.words().to_owned(),
    ]
}

/// What a water means, alone.
pub fn meant(meaning: &Meaning, units: &Units) -> String {
    let mut t = Text::new(units);
    means(&mut t, meaning);
    t.finish()
}

/// Five sentences, and what is beyond a limit.
fn means(t: &mut Text, meaning: &Meaning) {
    t.head("What it means");
    for said in &meaning.sentences {
        t.say(&said.text);
    }
    if meaning.sentences.iter().any(|said| !said.more.is_empty()) {
        t.head("More of it");
    }
    for more in meaning.sentences.iter().flat_map(|said| &said.more) {
        t.point(more);
    }
    let bears: Vec<[String; 5]> = meaning
        .bears
        .iter()
        .map(|b| {
            let beyond = if b.beyond { "beyond it" } else { "" };
            [b.determinand.clone(), b.shown.clone(), b.who.words().to_owned(), b.limit.clone(), beyond.to_owned()]
        })
        .collect();
    if !bears.is_empty() {
        t.head("Against what plants, fish and shrimps bear");
        t.table(&bears);
    }
    if !meaning.regulators.is_empty() {
        t.head("Against regulators' limits, which bind the supplier and say nothing of animals");
    }
    for against in &meaning.regulators {
        let limits: Vec<String> = against
            .limits
            .iter()
            .map(|limit| format!("{} {}{}", limit.by.name(), limit.text, if limit.beyond { ", beyond it" } else { "" }))
            .collect();
        t.point(&format!("{} {} {}: {}", against.name, against.shown, against.unit, limits.join("; ")));
    }
    t.head("How far each value could swing over a year");
    let n = |value: f64| t.n(value, 3);
    let swings: Vec<[String; 3]> = meaning
        .swings
        .iter()
        .map(|swing| {
            let known = if swing.told { "told" } else { swing.known.kind.words() };
            let name =
                if swing.unit.is_empty() { swing.name.clone() } else { format!("{}, {}", swing.name, swing.unit) };
            [name, format!("{} to {}", n(swing.known.low), n(swing.known.high)), known.to_owned()]
        })
        .collect();
    t.table(&swings);
}

/// What moved in each water from one report to the next, and which advice moves with it.
pub fn years(waters: &[Year], unmatched: &[String]) -> String {
    let mut t = Text::new(&Units::default());
    unmatched.iter().for_each(|text| t.say(text));
    for water in waters {
        let of = water.name.as_ref().map_or_else(String::new, |name| format!(" at {name}"));
        let (sure, still): (Vec<&Moved>, Vec<&Moved>) = water.moved.iter().partition(|moved| moved.for_sure);
        t.head(&format!("What moved{of}"));
        if sure.is_empty() {
            t.say("Nothing moved by more than both reports may be off.");
        }
        sure.iter().for_each(|moved| t.point(&moved.text));
        t.head("What moved by no more than both may be off");
        still.iter().for_each(|moved| t.point(&moved.text));
        t.head("Which advice changes with it");
        if water.advice.is_empty() {
            t.say("None.");
        }
        water.advice.iter().for_each(|line| t.point(line));
    }
    t.finish()
}
