//! What was told and what is assumed in its place: after this every value is known.
//!
//! Rule: a value that nobody gave comes from `data/` with its range. Where `data/` has no row for it, the middle of
//! what is usual (`data/bounds.toml`; the geometric middle for sizes) stands in, with the usual range as its range.
//! Whatever is assumed is listed, with the field that would settle it.

use std::collections::{BTreeMap, BTreeSet};

use knowledge::{Book, Sourced};
use quantity::number::canonical;
use quantity::{Kind, Known};

use crate::field::whole;
use crate::told::Told;
use crate::{bounds, field_of};

/// Every number and word, and which of them nobody gave.
#[derive(Clone, Debug)]
pub(crate) struct Given {
    pub(crate) numbers: BTreeMap<String, Known<f64>>,
    pub(crate) words: BTreeMap<String, String>,
    pub(crate) flags: BTreeMap<String, bool>,
    pub(crate) names: BTreeMap<String, Vec<String>>,
    pub(crate) own: usize,
    /// Field to why just this value.
    pub(crate) assumed: BTreeMap<String, String>,
    /// Fields with an open question: nothing stands in for them.
    pub(crate) open: BTreeSet<String>,
}

impl Given {
    /// Fill in what was not told.
    pub(crate) fn fill(told: &Told, book: &Book) -> Given {
        let mut given = Given {
            numbers: told.numbers.clone(),
            words: told.words.clone(),
            flags: told.flags.clone(),
            names: told.names.clone(),
            own: told.own,
            assumed: BTreeMap::new(),
            open: told.questions.iter().map(|question| whole(&question.field).to_owned()).collect(),
        };
        given.room(book);
        given.glass(book);
        given.ground(book);
        given.growth(book);
        given.animals(told);
        given.habits(book);
        given.at_hand(book);
        crate::growth::fill(&mut given, book);
        crate::source::fill(&mut given, book);
        given
    }

    /// The number of a field; 0 for one that neither was told nor has a stand-in.
    pub(crate) fn number(&self, path: &str) -> Known<f64> {
        self.numbers.get(path).copied().unwrap_or(Known::exact(0.0, Kind::Assumed))
    }

    /// The number of a field, if it has one.
    pub(crate) fn find(&self, path: &str) -> Option<Known<f64>> {
        self.numbers.get(path).copied()
    }

    /// The word of a field; empty for one without.
    pub(crate) fn word(&self, path: &str) -> &str {
        self.words.get(path).map_or("", String::as_str)
    }

    /// Whether the field still needs a value.
    pub(crate) fn lacks(&self, path: &str) -> bool {
        !self.numbers.contains_key(path) && !self.words.contains_key(path) && !self.open.contains(path)
    }

    /// Let `number` stand for a field that was not told.
    pub(crate) fn assume(&mut self, path: &str, number: Known<f64>, because: impl Into<String>) {
        if self.lacks(path) {
            self.numbers.insert(path.to_owned(), number.map(canonical));
            self.assumed.insert(path.to_owned(), because.into());
        }
    }

    /// The same from a row of `data/`, in other units.
    pub(crate) fn assume_row(&mut self, path: &str, row: &Sourced<f64>, factor: f64) {
        let because = row.note.clone().unwrap_or_default();
        self.assume(path, assumed(row.known()).map(|value| value * factor), because);
    }

    /// Assume these fields once more, after what they were assumed from was changed.
    pub(crate) fn forget(&mut self, paths: &[&str]) {
        for path in paths {
            if self.assumed.remove(*path).is_some() {
                self.numbers.remove(*path);
            }
        }
        let book = knowledge::book();
        self.ground(book);
        crate::keeping::changes(self, book);
        crate::growth::fill(self, book);
    }

    fn assume_word(&mut self, path: &str, word: &str, because: &str) {
        if self.lacks(path) {
            self.words.insert(path.to_owned(), word.to_owned());
            self.assumed.insert(path.to_owned(), because.to_owned());
        }
    }

    pub(crate) fn assume_flag(&mut self, path: &str, flag: bool, because: &str) {
        if !self.flags.contains_key(path) {
            self.flags.insert(path.to_owned(), flag);
            self.assumed.insert(path.to_owned(), because.to_owned());
        }
    }

    /// The middle of what is usual for a field.
    pub(crate) fn assume_usual(&mut self, path: &str, book: &Book) {
        let Some(field) = field_of(path) else { return };
        let Some(row) = field.bound.as_deref().and_then(|key| book.bound(key)) else { return };
        let factor = 1.0 / bounds::factor(field.takes.unit(), &row.is.unit);
        let (low, high) = (row.is.usual_low, row.is.usual_high);
        // Sizes run over a factor of ten; pH is a logarithm already.
        let middle = if path.starts_with("glass.") { f64::sqrt(low * high) } else { 0.5 * (low + high) };
        let number = Known::ranged(low, middle, high, Kind::Assumed).map(|value| value * factor);
        self.assume(path, number, format!("the middle of what is usual: {}", row.why));
    }

    fn room(&mut self, book: &Book) {
        for (path, word, because) in [
            ("tank.country", "other", "the law of your country is not known"),
            ("tank.currency", "EUR", "prices stand in euros"),
        ] {
            self.assume_word(path, word, because);
        }
        self.assume_row("tank.temperature", &book.defaults.tank_temperature_c, 1.0);
        self.assume_row("tank.room_co2", &book.defaults.room_co2_ppm, 1.0);
        self.words.entry("tank.name".to_owned()).or_insert_with(|| "Your tank".to_owned());
    }

    fn glass(&mut self, book: &Book) {
        self.assume_row("glass.thickness", &book.defaults.wall_thickness_mm, 1e-3);
        self.assume_row("glass.fill_below_rim", &book.defaults.fill_line_below_edge_cm, 1e-2);
        for side in ["length", "width", "height"] {
            let (inner, outer) = (format!("glass.inner_{side}"), format!("glass.outer_{side}"));
            let Some(outer) = self.find(&outer) else {
                self.assume_usual(&inner, book);
                continue;
            };
            if self.lacks(&inner) {
                // Two walls, but only one bottom. What the glass takes away, its range takes away too.
                let glass = self.number("glass.thickness");
                let panes = if side == "height" { 1.0 } else { 2.0 };
                let at = |outer: f64, glass: f64| canonical((outer - panes * glass).max(0.0));
                let number = Known {
                    value: at(outer.value, glass.value),
                    low: at(outer.low, glass.high),
                    high: at(outer.high, glass.low),
                    kind: outer.kind.weaker(Kind::WorkedOut).weaker(glass.kind),
                };
                self.numbers.insert(inner, number);
            }
        }
    }

    fn ground(&mut self, book: &Book) {
        self.assume_word("ground.kind", "gravel", "the commonest ground");
        let (front, back) = ("ground.depth_front", "ground.depth_back");
        match (self.find(front), self.find(back)) {
            (Some(depth), None) => self.assume(back, assumed(depth), "as deep as at the front"),
            (None, Some(depth)) => self.assume(front, assumed(depth), "as deep as at the back"),
            _ => {
                for path in [front, back] {
                    self.assume_row(path, &book.defaults.substrate_depth_cm, 1e-2);
                }
            }
        }
        if let Some(substrate) = book.substrates.get(self.word("ground.kind")) {
            let because = format!("the handbook's range for {}", substrate.name);
            self.assume("ground.porosity", assumed(substrate.porosity.known()), because);
        }
        for path in ["hardscape.rock", "hardscape.wood"] {
            self.assume(path, Known::exact(0.0, Kind::Assumed), "none was named");
        }
    }

    fn growth(&mut self, book: &Book) {
        self.assume_word("light.energy", "medium", "middling light, little or no carbon dioxide added");
        let feeds = book.substrates.get(self.word("ground.kind")).is_some_and(|substrate| substrate.feeds);
        let (wish, because) = match feeds {
            true => ("none", "the ground feeds the plants"),
            false => ("comfortable", "some in store"),
        };
        self.assume_word("feeding.wish", wish, because);
        self.assume_row("light.hours", &book.defaults.light_h, 1.0);
        self.assume_row("food.protein", &book.uptake.food.protein_percent, 1e-2);
        self.assume_row("food.phosphorus", &book.uptake.food.phosphorus_percent, 1e-2);
    }

    /// Animals that nobody named: with no word on any, there may be fish and shrimps, so that both their limits hold.
    fn animals(&mut self, told: &Told) {
        let silent = !told.numbers.keys().chain(told.flags.keys()).any(|path| path.starts_with("animals."));
        let kinds = ["fish", "shrimps", "snails", "other_invertebrates"].map(|kind| format!("animals.{kind}"));
        for path in &kinds {
            let (count, because) = match (silent, path.as_str()) {
                (true, "animals.fish" | "animals.shrimps") => {
                    (1.0, "nobody said who lives there, so the limits for fish and shrimps hold")
                }
                _ => (0.0, "none was named"),
            };
            self.assume(path, Known::exact(count, Kind::Assumed), because);
        }
        self.assume_flag("animals.young", false, "none was named");
        self.assume_flag(
            "animals.start_test_passed",
            false,
            "nobody said that the filter takes ammonia, so it does not count",
        );
    }

    fn habits(&mut self, book: &Book) {
        crate::keeping::changes(self, book);
        crate::keeping::filter(self);
        self.assume_word("habits.top_up_with", "tap", "the water at hand");
    }

    fn at_hand(&mut self, book: &Book) {
        let defaults = &book.defaults;
        for (path, row) in [
            ("at_hand.scale", &defaults.scale_step_g),
            ("at_hand.bottle", &defaults.bottle_ml),
            ("at_hand.daily", &defaults.daily_dose_ml),
            ("at_hand.coldest_room", &defaults.room_coldest_c),
            ("at_hand.bucket", &defaults.bucket_l),
        ] {
            self.assume_row(path, row, 1.0);
        }
        match self.find("at_hand.drop") {
            Some(drop) if self.lacks("at_hand.syringe") => {
                self.numbers.insert("at_hand.syringe".to_owned(), drop);
            }
            _ => self.assume_row("at_hand.syringe", &defaults.syringe_step_ml, 1.0),
        }
        let copper = &book.harm.limit.copper_unknown_percent;
        self.assume_row("at_hand.trace_copper", &copper.is, 1e-2);
        self.assume_flag("at_hand.by_hose", false, "new water comes by bucket");
    }
}

/// What a table says of tanks in general is only assumed of this one, unless people simply do it so.
pub(crate) fn assumed(known: Known<f64>) -> Known<f64> {
    let kind = if known.kind == Kind::CommonPractice { known.kind } else { Kind::Assumed };
    Known { kind, ..known }
}
