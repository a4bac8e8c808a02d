//! The keeper's own liquids and powders, from what their labels say.
//!
//! Equation: mg/mL = 10 × percent × density (percent by mass), mg/mL = 10 × percent (percent by volume, grams in
//! 100 mL), mg/g = 10 × percent (a powder).
//!
//! Symbols: density, g/mL; percent of the ion.
//!
//! Range: labels of fertilisers; what a label leaves out is not in it.
//!
//! Source: the definition of percent by mass and by volume.
//!
//! Checked by: `tests/by_hand_labels.rs`.

use quantity::{Fault, Ion};

use crate::document::Document;
use crate::field::whole;
use crate::given::Given;
use crate::told::Told;
use crate::{OwnProduct, Question, Reply};

/// How the label of one product counts.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    /// In a millilitre: as it stands.
    Volume,
    /// In a gram: times the density for a liquid.
    Mass,
}

/// All of them, in the order of the file.
pub(crate) fn all(given: &Given) -> Vec<OwnProduct> {
    (1..=given.own).map(|number| one(given, number)).collect()
}

fn one(given: &Given, number: usize) -> OwnProduct {
    let path = |name: &str| format!("own.{number}.{name}");
    let liquid = given.word(&path("kind")) != "powder";
    let density = given.find(&path("density")).map_or(1.0, |known| known.value);
    let ion = |ion: Ion| {
        let field = path(&format!("label.{}", ion.name()));
        let mg = given.find(&field)?.value;
        let way = way(given.word(&format!("{field}.as")), given.word(&path("percent")));
        let factor = if liquid && way == Way::Mass { density } else { 1.0 };
        Some((ion, quantity::canonical(mg * factor)))
    };
    let name = given.words.get(&path("name")).cloned().unwrap_or_else(|| format!("your own number {number}"));
    OwnProduct { name, ions_mg: Ion::ALL.into_iter().filter_map(ion).collect(), liquid }
}

fn way(counted: &str, percent: &str) -> Way {
    match (counted, percent) {
        ("mass", _) | ("percent", "by_mass") => Way::Mass,
        _ => Way::Volume,
    }
}

/// What a label must say before anything can be worked out from it.
pub(crate) fn check(told: &mut Told, document: &Document<'_>, faults: &mut quantity::Faults) {
    for number in 1..=told.own {
        let path = |name: &str| format!("own.{number}.{name}");
        let marks: Vec<&str> = Ion::ALL
            .iter()
            .filter_map(|ion| told.words.get(&path(&format!("label.{}.as", ion.name()))))
            .map(String::as_str)
            .collect();
        let percent = path("percent");
        let way = told.words.get(&percent).map(String::as_str);
        let powder = told.words.get(&path("kind")).is_some_and(|kind| kind == "powder");
        if powder {
            powder_by_volume(told, document, number, faults);
            continue;
        }
        let by_mass = marks.contains(&"mass") || marks.contains(&"percent") && way == Some("by_mass");
        // A density that was refused has its own fault.
        let written = document.entries.keys().any(|entry| whole(entry) == path("density"));
        if marks.contains(&"percent") && way.is_none() {
            told.questions.push(ask_percent(&percent, written));
        }
        if by_mass && !written {
            let labels = Ion::ALL.iter().map(|ion| path(&format!("label.{}", ion.name())));
            let there = labels.chain([path("label")]).find(|label| document.entries.contains_key(label));
            let place = document.place(&there.unwrap_or_else(|| path("density"))).named(path("density"));
            faults.push(
                Fault::new("this liquid's label counts by mass, and nobody said how heavy the liquid is")
                    .at(place)
                    .expected("its density, such as density = \"1.1 kg/L\"")
                    .hint("weigh 100 mL: 110 g are 1.1 kg/L"),
            );
        }
    }
}

/// A powder is weighed, so its label can't count by millilitres.
fn powder_by_volume(told: &Told, document: &Document<'_>, number: usize, faults: &mut quantity::Faults) {
    for ion in Ion::ALL {
        let field = format!("own.{number}.label.{}", ion.name());
        if told.numbers.contains_key(&field) && !told.words.contains_key(&format!("{field}.as")) {
            let fault = Fault::new("a powder is weighed, and this counts by its volume").at(document.place(&field));
            faults.push(fault.expected("percent or g/kg").hint("or kind = \"liquid\", if it is one"));
        }
    }
}

/// Without the density one of the two replies would leave a liquid that nobody can reckon with, so it is not offered.
fn ask_percent(path: &str, has_density: bool) -> Question {
    let reply = |key: &str, label: &str, means: &str| Reply {
        key: key.to_owned(),
        label: label.to_owned(),
        means: means.to_owned(),
        text: key.to_owned(),
    };
    let mut replies = vec![reply("by_volume", "Grams in 100 mL (w/v)", "2 % is 20 mg in a millilitre")];
    let mut ask = "What does the label's percent count: grams in 100 g of the liquid, or grams in 100 mL?".to_owned();
    if has_density {
        replies.insert(0, reply("by_mass", "Grams in 100 g (w/w)", "2 % is 20 mg in a gram"));
    } else {
        ask.push_str(" If it is grams in 100 g, first write how heavy the liquid is: if 100 mL weigh 110 g, its density is 1.1 kg/L.");
    }
    Question { field: path.to_owned(), written: String::new(), ask, replies }
}
