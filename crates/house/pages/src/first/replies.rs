//! The replies to the four questions, and the setup that they make.

use std::collections::BTreeMap;

use quantity::Fault;
use quantity::Kind;
use setup::Setup;

use crate::blank::Blank;
use crate::parts::beside;
use crate::sheet::Refusal;

/// The reply that the tap is that of another tank; which one stands in a choice of this name.
pub const SAME: &str = "same";

/// How long a tank runs already: the reply is so many days.
pub const RUNNING: &[(&str, &str)] = &[
    ("unknown", "I don’t know"),
    ("no", "not yet"),
    ("0", "since today"),
    ("7", "for about a week"),
    ("30", "for about a month"),
    ("180", "for half a year or longer"),
];

/// What follows from a country where nothing else is said: the units and the money that its keepers read in.
const READS: &[(&str, &[(&str, &str)])] = &[
    ("us", &[("tank.currency", "USD"), ("units.temperature", "fahrenheit"), ("units.volume", "us_gallon")]),
    ("gb", &[("tank.currency", "GBP")]),
];

/// The reply that a report of the tap comes along as a file.
pub const REPORT: &str = "report";

/// The name of a tank's text in faults.
const NAME: &str = "your tank";

/// Numbers that may be typed, with the unit that a bare one gets; in braces the reply that chooses it.
const NUMBERS: &[(&str, &str)] = &[
    ("tap.hardness", "{unit.hardness}"),
    ("tap.alkalinity", "{unit.hardness}"),
    ("tap.nitrate", "{unit.nitrate}"),
    ("tap.total_chlorine", "mg/L"),
    ("glass.outer_length", "{unit.length}"),
    ("glass.outer_width", "{unit.length}"),
    ("glass.outer_height", "{unit.length}"),
    ("animals.fish", ""),
    ("animals.shrimps", ""),
    ("animals.snails", ""),
    ("tank.co2", "mg/L"),
];

/// Questions to which numbers can be typed: the question, the table of its fields, the reply that they stand for.
const TYPED: &[(&str, &str, &str)] =
    &[("tap", "tap.", "numbers"), ("glass", "glass.", "this"), ("who", "animals.", "these")];

/// A unit that can be chosen.
pub struct Unit {
    /// Its reply, and its word in the setup's `[units]`.
    pub key: &'static str,
    /// What a bare number gets.
    written: &'static str,
    /// Its words on the page.
    pub words: &'static str,
}

const fn unit(key: &'static str, written: &'static str, words: &'static str) -> Unit {
    Unit { key, written, words }
}

/// The units of a choice; the first holds where nothing was chosen. A nitrate of nobody knows what stays without a basis,
/// so that the letter asks.
const UNITS: &[(&str, &[Unit])] = &[
    (
        "unit.hardness",
        &[
            unit("german", "°dH", "German degrees"),
            unit("french", "°fH", "French degrees"),
            unit("english", "°e", "English degrees"),
            unit("caco3", "mg/L CaCO3", "mg/L as CaCO₃ (ppm)"),
            unit("mmol", "mmol/L", "mmol/L"),
        ],
    ),
    (
        "unit.nitrate",
        &[
            unit("unknown", "mg/L", "not sure of what"),
            unit("ion", "mg/L NO3", "of nitrate, NO₃"),
            unit("element", "mg/L N", "of nitrogen, N"),
        ],
    ),
    ("unit.length", &[unit("centimetre", "cm", "cm"), unit("inch", "in", "inches")]),
];

/// What was answered, by the names of the form.
#[derive(Default)]
pub struct Replies(BTreeMap<String, String>);

impl Replies {
    /// Read a form.
    pub fn read(body: &[u8]) -> Replies {
        Replies::of_pairs(form_urlencoded::parse(body))
    }

    /// The replies by their names.
    pub fn of_pairs<N: Into<String>, V: AsRef<str>>(pairs: impl IntoIterator<Item = (N, V)>) -> Replies {
        Replies(pairs.into_iter().map(|(name, value)| (name.into(), value.as_ref().trim().to_owned())).collect())
    }

    /// What was answered to a question, or typed; empty: nothing.
    pub fn of(&self, name: &str) -> &str {
        self.0.get(name).map_or("", String::as_str)
    }

    /// The reply that is ticked: a number that was typed ticks the line in which it stands.
    pub fn ticked(&self, question: &str) -> &str {
        let numbers = TYPED.iter().find(|(asked, ..)| *asked == question);
        let typed =
            |table: &str| NUMBERS.iter().any(|(field, _)| field.starts_with(table) && !self.of(field).is_empty());
        match (self.of(question), numbers) {
            ("" | "unknown", Some((_, table, key))) if typed(table) => key,
            ("", _) => "unknown",
            (reply, _) => reply,
        }
    }

    /// The tank whose tap this one has too.
    pub fn same_tap(&self) -> Option<u64> {
        (self.ticked("tap") == SAME).then(|| self.of("same").parse().ok()).flatten()
    }

    /// For how many days the tank runs already, as far as the keeper knows.
    pub fn running_days(&self) -> Option<i64> {
        self.of("running").parse().ok().filter(|days| RUNNING.iter().any(|(reply, _)| *reply == format!("{days}")))
    }

    /// How many tanks there were when the questions were shown.
    pub fn tanks(&self) -> Option<usize> {
        self.of("tanks").parse().ok()
    }

    /// The setup that the replies make.
    ///
    /// # Errors
    /// What was not taken, by the names of the form.
    pub fn setup(&self) -> Result<Setup, BTreeMap<String, Refusal>> {
        let mut setup = Setup::kept(NAME, "");
        let mut refused = BTreeMap::new();
        for (field, text, typed) in self.fields() {
            match setup.with(&field, &text) {
                Ok(next) => setup = next,
                Err(faults) => {
                    let faults = beside(&field, faults);
                    refused.insert(field, Refusal { typed, faults });
                }
            }
        }
        for (field, _) in
            NUMBERS.iter().filter(|(field, _)| self.of("who") == "nobody" && field.starts_with("animals."))
        {
            let typed = self.of(field);
            if !["", "0"].contains(&typed) {
                let fault = Fault::new("you also said that nobody lives in it: which is it?")
                    .hint("take the number out, or tick who lives in it");
                refused.insert((*field).to_owned(), Refusal { typed: typed.to_owned(), faults: vec![fault] });
            }
        }
        if refused.is_empty() { Ok(setup) } else { Err(refused) }
    }

    /// The fields to write: each with its text, and with what was typed.
    fn fields(&self) -> Vec<(String, String, String)> {
        let mut all = Vec::new();
        let mut put = |field: &str, text: String, typed: &str| all.push((field.to_owned(), text, typed.to_owned()));
        for (field, text) in
            READS.iter().filter(|(country, _)| *country == self.of("country")).flat_map(|(_, reads)| *reads)
        {
            put(field, (*text).to_owned(), text);
        }
        if let Some(text) = self.co2() {
            put("tank.co2", text, "yes");
        }
        let named = [
            ("tank.name", "tank.name"),
            ("country", "tank.country"),
            ("wish", "feeding.wish"),
            ("filter", "care.filter"),
        ];
        for (name, field) in named {
            let reply = self.of(name);
            if !["", "unknown"].contains(&reply) {
                put(field, reply.to_owned(), reply);
            }
        }
        for (field, unit) in NUMBERS {
            let typed = self.of(field);
            if typed.is_empty() {
                if self.of("who") == "nobody" && field.starts_with("animals.") {
                    put(field, "0".to_owned(), "");
                }
                continue;
            }
            let chosen = unit.strip_prefix('{').and_then(|unit| unit.strip_suffix('}'));
            let (key, unit) = chosen.map_or(("", *unit), |name| self.unit(name));
            let shown = chosen.filter(|_| key != "unknown").map(|name| name.replace("unit.nitrate", "unit.nitrogen"));
            if let Some(shown) = shown {
                put(&shown.replace("unit.", "units."), key.to_owned(), typed);
            }
            put(field, Blank::number(field, String::new(), unit, "", Kind::Measured).text(typed), typed);
        }
        all
    }

    /// Carbon dioxide that is given, where nobody says how much: whatever is usual.
    fn co2(&self) -> Option<String> {
        let row = knowledge::book()
            .bound("co2_given")
            .filter(|_| self.of("co2") == "yes" && self.of("tank.co2").is_empty())?;
        Some(format!("{} to {} mg/L", row.is.usual_low, row.is.usual_high))
    }

    /// The unit that was chosen: its key, and what a bare number gets.
    fn unit(&self, name: &str) -> (&'static str, &'static str) {
        let units = units(name);
        let chosen = units.iter().find(|unit| unit.key == self.of(name)).or(units.first());
        chosen.map_or(("", ""), |unit| (unit.key, unit.written))
    }
}

/// The units of a choice.
pub fn units(name: &str) -> &'static [Unit] {
    UNITS.iter().find(|(choice, _)| *choice == name).map_or(&[], |(_, units)| units)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(body: &str) -> Setup {
        let Ok(setup) = Replies::read(body.as_bytes()).setup() else { panic!("{body} is refused") };
        setup
    }

    #[test]
    fn who_knows_nothing_gets_a_tank_of_assumptions() {
        for body in ["", "tap=unknown&glass=unknown&who=unknown&wish=unknown&unit.hardness=french&unit.length=inch"] {
            assert_eq!(setup(body).text(), "");
        }
    }

    #[test]
    fn a_number_gets_the_unit_of_its_sentence_and_the_keeper_reads_in_it() {
        let setup = setup(
            "tap.hardness=200&tap.alkalinity=3+%C2%B0dH&unit.hardness=caco3&tap.nitrate=4&unit.nitrate=element&glass.outer_length=24&unit.length=inch",
        );
        let written = |field: &str| setup.written(field).unwrap_or_default();
        assert_eq!(written("tap.hardness"), "200 mg/L CaCO3");
        assert_eq!(written("tap.alkalinity"), "3 °dH", "a unit that was typed holds");
        assert_eq!(written("tap.nitrate"), "4 mg/L N");
        assert_eq!(written("glass.outer_length"), "24 in");
        assert_eq!((written("units.hardness"), written("units.length")), ("caco3".to_owned(), "inch".to_owned()));
        assert_eq!(written("units.nitrogen"), "element");
    }

    #[test]
    fn a_nitrate_of_nobody_knows_what_is_asked_about() {
        let questions = setup("tap.nitrate=28").tank().map(|tank| tank.questions).unwrap_or_default();
        assert_eq!(questions.iter().map(|question| question.field.as_str()).collect::<Vec<_>>(), ["tap.nitrate"]);
    }

    #[test]
    fn carbon_dioxide_and_the_filter_are_told_or_left_open() {
        // 5 to 20 mg/L are usual (`data/bounds.toml`).
        assert_eq!(setup("co2=yes").written("tank.co2").as_deref(), Some("5 to 20 mg/L"));
        assert_eq!(setup("co2=yes&tank.co2=12").written("tank.co2").as_deref(), Some("12 mg/L"));
        assert_eq!(setup("filter=false").written("care.filter").as_deref(), Some("false"));
        assert_eq!(setup("co2=no&filter=unknown&running=30").text(), "");
    }

    #[test]
    fn a_country_brings_the_units_that_its_keepers_read_in() {
        let us = setup("country=us");
        let written = |field: &str| us.written(field).unwrap_or_default();
        assert_eq!(
            (written("units.volume"), written("units.temperature")),
            ("us_gallon".to_owned(), "fahrenheit".to_owned())
        );
        assert_eq!(written("tank.currency"), "USD");
        assert_eq!(setup("country=eu").written("units.volume"), None);
    }

    #[test]
    fn nobody_is_nobody_and_not_unknown() {
        let animals = |body: &str| setup(body).tank().map(|tank| tank.animals.any());
        assert_eq!((animals("who=nobody"), animals("who=unknown")), (Ok(false), Ok(true)));
        let refused = Replies::read(b"who=nobody&animals.fish=12").setup().err().unwrap_or_default();
        assert_eq!(refused.keys().collect::<Vec<_>>(), ["animals.fish"]);
    }

    #[test]
    fn what_is_not_taken_is_told_all_at_once() {
        let refused =
            Replies::read(b"tap.nitrate=-3&glass.outer_length=a+lot&animals.fish=-2").setup().err().unwrap_or_default();
        assert_eq!(refused.keys().collect::<Vec<_>>(), ["animals.fish", "glass.outer_length", "tap.nitrate"]);
    }
}
