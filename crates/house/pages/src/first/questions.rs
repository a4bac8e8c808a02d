//! The page of the four questions.

use std::collections::BTreeMap;

use maud::{Markup, html};
use quantity::Fault;
use setup::TankEntry;

use super::replies::{REPORT, RUNNING, Replies, SAME, units};
use crate::ctx::Place;
use crate::parts::{self, Head, frame};
use crate::routes::FIRST;
use crate::sheet::Refusal;

/// What the house says when the questions come back.
#[derive(Default)]
pub struct Asked {
    /// A sentence at the top.
    pub told: Option<String>,
    /// What is said of the report that was picked, beside its field.
    pub file: Vec<String>,
    /// Why no tank could be kept.
    pub fault: Option<Fault>,
    /// What was not taken, by the names of the form.
    pub refused: BTreeMap<String, Refusal>,
}

/// A form in the making.
struct Form<'a> {
    replies: &'a Replies,
    asked: &'a Asked,
    tanks: &'a [TankEntry],
}

/// The whole page.
pub fn page(place: Place, replies: &Replies, asked: &Asked) -> Markup {
    let form = Form { replies, asked, tanks: place.tanks.unwrap_or_default() };
    let count = place.tanks.map_or(0, <[_]>::len);
    let title =
        if asked.refused.is_empty() && asked.file.is_empty() { "Four questions" } else { "Not taken: four questions" };
    let head = Head { place, title, current: None, class: "page-first" };
    let main = html! {
        form.first method="post" enctype="multipart/form-data" action=(place.href(FIRST)) autocomplete="off" {
            input type="hidden" name="tanks" value=(count);
            section.verse {
                @if let Some(told) = &asked.told { div.told role="status" { p { (told) } } }
                @if let Some(fault) = &asked.fault { div.told role="status" { p { "The book could not be written; no tank was made." } p { (parts::fault(fault)) } } }
                h1.answer {
                    @if count == 0 { "Good day. Four questions, then I write you a first letter about your tank. " }
                    @else { "Another tank. The same four questions, then I write you its first letter. " }
                    "“I don’t know” is a good answer to each."
                }
                div.ask { (form.tap()) (form.glass()) (form.who()) (form.wish()) (form.name()) }
                p { button.send name="do" value="first" { "Write the first letter" } }
                p.small {
                    "A number that you write counts, whichever line is ticked. Each number can be changed later, where it stands in the letter. "
                    "Nothing is sent anywhere. Fish in trouble at this moment? " a href=(place.href("help-now")) { "Help now" } " asks nothing."
                }
            }
        }
    };
    frame(&head, main)
}

impl Form<'_> {
    fn tap(&self) -> Markup {
        self.question("What do you know of your tap water?", "tap", &["tap.hardness", "tap.alkalinity", "tap.nitrate", "tap.total_chlorine"], html! {
            (self.same_tap())
            (self.option("tap", REPORT, "My supplier’s water report, as a file:", ""))
            p.inset {
                input type="file" name="report" accept=".pdf,.xlsx,.ods,.csv,.tsv,.txt,.html,.htm" aria-label="The water report as a file"
                    aria-invalid=[(!self.asked.file.is_empty()).then_some("true")] aria-describedby=[(!self.asked.file.is_empty()).then_some("about-report")];
                small { "PDF with text, spreadsheet, CSV, or a saved page of the web. I show you what I read in it before anything is taken." }
            }
            @if !self.asked.file.is_empty() { p.inset.really id="about-report" { (self.asked.file.join(" ")) } }
            (self.option("tap", "numbers", "Some numbers, from a test or the supplier’s report:", ""))
            p.inset {
                "hardness " (self.number("tap.hardness", "Hardness", ",")) " alkalinity (carbonate hardness) " (self.number("tap.alkalinity", "Alkalinity", ","))
                " both in " (self.unit("unit.hardness", "Unit of hardness and alkalinity", ";"))
                " nitrate " (self.number("tap.nitrate", "Nitrate, milligrams per litre", " mg/L"))
                " " (self.unit("unit.nitrate", "What the nitrate is counted as", ";"))
                " total chlorine, free and bound " (self.number("tap.total_chlorine", "Total chlorine, milligrams per litre", " mg/L."))
            }
            (self.option("tap", "unknown", "I don’t know yet.", "Then I reckon with any tap there is, from very soft to very hard, count on chlorine, and tell you which number would help most."))
            p {
                "Its law and its disinfectant go by the country: " (self.choice("country", "Country of your tap", &[
                    ("unknown", "I don’t say"), ("eu", "European Union"), ("gb", "Great Britain"), ("us", "United States"), ("other", "elsewhere"),
                ], "."))
            }
        })
    }

    /// The taps of other tanks, on one line however many there are.
    fn same_tap(&self) -> Markup {
        let taps: Vec<(String, String)> =
            self.taps().into_iter().map(|(tank, words)| (tank.to_string(), words)).collect();
        let taps: Vec<(&str, &str)> = taps.iter().map(|(tank, words)| (tank.as_str(), words.as_str())).collect();
        html! {
            @if !taps.is_empty() {
                (self.option("tap", SAME, "The tap of another tank of mine:", "Then both have one water: what you change in one letter changes in the other."))
                p.inset { (self.choice("same", "Which tap", &taps, "")) }
            }
        }
    }

    /// The taps that other tanks have: a tank of each, and what is said of it.
    fn taps(&self) -> Vec<(u64, String)> {
        let first = |tank: &&TankEntry| {
            let same = |other: &&TankEntry| other.tap.is_some() && other.tap == tank.tap;
            self.tanks.iter().find(same).is_none_or(|other| other.id == tank.id)
        };
        let words = |tank: &TankEntry| match &tank.tap {
            Some(tap) => format!("the one that I call “{tap}”"),
            None => format!("the one that fills “{}”", tank.label()),
        };
        self.tanks.iter().filter(first).map(|tank| (tank.id, words(tank))).collect()
    }

    fn glass(&self) -> Markup {
        self.question("What glass do you have, or have an eye on?", "glass", &["glass.outer_length", "glass.outer_width", "glass.outer_height", "tank.co2"], html! {
            (self.option("glass", "this", "This one, measured outside:", ""))
            p.inset {
                (self.number("glass.outer_length", "Length", " long,")) " " (self.number("glass.outer_width", "Depth from front to back", " from front to back,"))
                " " (self.number("glass.outer_height", "Height", " high,")) " in " (self.unit("unit.length", "Unit of the three lengths", "."))
            }
            (self.option("glass", "unknown", "None yet, or I don’t know.", "Then nothing is weighed before the tape measure; your tap I can look at."))
            p {
                "Does it run already, with water in it? " (self.choice("running", "How long the tank runs already", RUNNING, ";"))
                " with a filter? " (self.choice("filter", "Whether a filter runs", &[("unknown", "I don’t know"), ("true", "yes"), ("false", "no")], ";"))
                " is carbon dioxide given to its plants? " (self.choice("co2", "Whether carbon dioxide is given", &[("unknown", "I don’t know"), ("no", "no"), ("yes", "yes")], ","))
                " if you know how much: " (self.number("tank.co2", "Carbon dioxide by day, milligrams per litre", " mg/L."))
            }
        })
    }

    fn who(&self) -> Markup {
        self.question("Who lives in it?", "who", &["animals.fish", "animals.shrimps", "animals.snails"], html! {
            (self.option("who", "nobody", "Nobody yet.", "Good: then nothing is urgent. No animals before the tank has passed its start test twice."))
            (self.option("who", "these", "These; their water comes first, plants second:", "Chlorine harms all of them first; then, for shrimps and snails, copper."))
            p.inset {
                (self.number("animals.fish", "How many fish", " fish,")) " " (self.number("animals.shrimps", "How many shrimps", " shrimps,"))
                " " (self.number("animals.snails", "How many snails", " snails."))
            }
            (self.option("who", "unknown", "I don’t know.", "Then the limits for fish and for shrimps both hold."))
        })
    }

    fn wish(&self) -> Markup {
        self.question("What do you wish for?", "wish", &[], html! {
            (self.option("wish", "just_enough", "Green, for the least money.", "I feed just enough. It asks for months, not money."))
            (self.option("wish", "comfortable", "Lush, the middle way.", "I feed comfortably, some in store."))
            (self.option("wish", "plenty", "The most growth.", "I feed plenty; only a tank with much light makes use of it."))
            (self.option("wish", "unknown", "I don’t know.", "Then I take the middle way."))
        })
    }

    /// Not a question: a name for the list of tanks.
    fn name(&self) -> Markup {
        html! {
            p { "I call it " span.nb { input.blank.wide.measured name="tank.name" value=(self.replies.of("tank.name")) size="14" autocomplete="off" aria-label="Name of the tank, if you like"; "," } " if you like." }
            (self.refusals(&["tank.name"]))
        }
    }

    fn question(&self, asks: &str, name: &str, numbers: &[&str], options: Markup) -> Markup {
        html! { fieldset id=(name) { legend { (asks) } (options) (self.refusals(numbers)) } }
    }

    fn option(&self, question: &str, key: &str, words: &str, small: &str) -> Markup {
        let ticked = self.replies.ticked(question) == key;
        html! {
            label.option {
                input type="radio" name=(question) value=(key) checked[ticked];
                span { (words) @if !small.is_empty() { small { (small) } } }
            }
        }
    }

    fn number(&self, field: &str, says: &str, tail: &str) -> Markup {
        let refused = self.asked.refused.contains_key(field);
        let about = refused.then(|| id(field));
        html! {
            span.nb {
                input.blank.measured name=(field) value=(self.replies.of(field)) size="4" autocomplete="off" autocapitalize="off" spellcheck="false"
                    aria-label=(says) aria-invalid=[refused.then_some("true")] aria-describedby=[about];
                (tail)
            }
        }
    }

    fn unit(&self, name: &str, says: &str, tail: &str) -> Markup {
        let choices: Vec<(&str, &str)> = units(name).iter().map(|unit| (unit.key, unit.words)).collect();
        self.choice(name, says, &choices, tail)
    }

    fn choice(&self, name: &str, says: &str, choices: &[(&str, &str)], tail: &str) -> Markup {
        let reply = self.replies.of(name);
        html! {
            span.nb {
                span.pick { select.blank.measured name=(name) aria-label=(says) {
                    @for (key, words) in choices { option value=(key) selected[*key == reply] { (words) } }
                } }
                (tail)
            }
        }
    }

    fn refusals(&self, fields: &[&str]) -> Markup {
        html! {
            @for (field, refused) in fields.iter().filter_map(|field| Some((field, self.asked.refused.get(*field)?))) {
                p.inset.really id=(id(field)) { "“" (refused.typed) "” I did not take. " (parts::faults(&refused.faults)) }
            }
        }
    }
}

fn id(field: &str) -> String {
    format!("about-{}", field.replace(['.', '_'], "-"))
}
