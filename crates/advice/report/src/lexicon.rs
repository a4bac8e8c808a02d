//! The words of `data/determinands.toml` and `data/headings.toml`, made ready for matching.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use knowledge::{Headings, Names, ReportColumn, ReportWord, book};

use crate::fold::{position, stems, undotted, words};
use crate::recent::{Recent, recall};

/// What a name stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Target {
    /// A determinand by key, and what its name says of the basis: a basis, or "ask".
    Determinand(&'static str, Option<&'static str>),
    /// Something that looks like one and is none.
    Apart,
}

/// One name.
#[derive(Debug)]
pub(crate) struct Entry {
    pub stems: Vec<String>,
    pub target: Target,
    pub language: &'static str,
}

/// All words, ready for matching.
#[derive(Debug, Default)]
pub(crate) struct Lexicon {
    entries: Vec<Entry>,
    by_first: BTreeMap<String, Vec<usize>>,
    symbols: BTreeMap<String, Target>,
    columns: Vec<(ReportColumn, Vec<String>, &'static str)>,
    /// Places in `columns` by first word.
    columns_by_first: BTreeMap<String, Vec<usize>>,
    beside: BTreeSet<String>,
    words: BTreeMap<ReportWord, BTreeSet<String>>,
    /// The words of each determinand's symbols.
    symbol_words: BTreeMap<&'static str, BTreeSet<String>>,
    basis: Vec<(&'static str, Vec<String>)>,
    /// Places in `basis` by first word.
    basis_by_first: BTreeMap<String, Vec<usize>>,
    below: Vec<Vec<String>>,
    to: BTreeSet<String>,
    between: BTreeSet<String>,
    and: BTreeSet<String>,
    /// By first word.
    explains: BTreeMap<String, Vec<Vec<String>>>,
    compound: Vec<String>,
    not_detected: BTreeSet<String>,
    no_value: BTreeSet<String>,
    /// The first two signs of each.
    not_detected_starts: BTreeSet<(Option<char>, Option<char>)>,
    /// The long ones among them, in one word each.
    long_marks: Vec<String>,
    /// Letters and signs of the longest of both.
    longest_mark: usize,
    months: BTreeMap<String, u32>,
    all_in: Vec<Vec<String>>,
    are_means: Vec<Vec<String>>,
}

/// The lexicon. It is made at the first call and stays.
pub(crate) fn lexicon() -> &'static Lexicon {
    static LEXICON: OnceLock<Lexicon> = OnceLock::new();
    LEXICON.get_or_init(Lexicon::new)
}

fn all(names: &Names) -> impl Iterator<Item = (&'static str, &String)> {
    names.languages().into_iter().flat_map(|(language, names)| names.iter().map(move |name| (language, name)))
}

/// Shorter marks stand in other words.
const LONG_MARK: usize = 8;
/// The first two signs of a mark, or of what may be one.
fn first_two(text: &str) -> (Option<char>, Option<char>) {
    let mut signs = text.chars().filter(|c| !matches!(c, '.' | ' ')).flat_map(char::to_lowercase);
    (signs.next(), signs.next())
}

/// A mark such as "n.n." or "<LOD" without its dots and spaces.
fn mark(text: &str) -> String {
    text.to_lowercase().chars().filter(|c| !matches!(c, '.' | ' ')).collect()
}

impl Lexicon {
    fn new() -> Lexicon {
        let single = |(kind, names): (&ReportWord, &Names)| {
            let all = all(names).map(|(_, name)| name).chain(&names.symbols);
            (*kind, all.flat_map(|name| words(name)).collect())
        };
        let mut made = Lexicon { words: book().headings.word.iter().map(single).collect(), ..Lexicon::default() };
        for (key, determinand) in &book().determinands {
            made.symbol_words.entry(key).or_default().extend(determinand.also.iter().flat_map(|name| stems(name)));
            made.add(&determinand.names(), Target::Determinand(key, None));
            for (basis, names) in &determinand.counted {
                made.add(names, Target::Determinand(key, Some(basis)));
            }
        }
        let headings = &book().headings;
        made.add(&headings.apart, Target::Apart);
        for (column, names) in &headings.column {
            for (language, name) in all(names) {
                let stems = Some(made.unjointed(name)).filter(|s| !s.is_empty());
                made.columns.extend(stems.map(|s| (*column, s, language)));
            }
        }
        // The longest heading that fits is meant.
        made.columns.sort_by_key(|(_, stems, _)| std::cmp::Reverse(stems.len()));
        for (at, (_, stems, _)) in made.columns.iter().enumerate() {
            made.columns_by_first.entry(stems.first().cloned().unwrap_or_default()).or_default().push(at);
        }
        made.beside = all(&headings.beside).flat_map(|(_, name)| stems(name)).collect();
        for (basis, names) in &headings.basis {
            let spelled = all(names).map(|(_, name)| name).chain(&names.symbols);
            made.basis.extend(spelled.map(|name| (basis.as_str(), stems(name))));
        }
        for (at, (_, stems)) in made.basis.iter().enumerate() {
            made.basis_by_first.entry(stems.first().cloned().unwrap_or_default()).or_default().push(at);
        }
        for (symbol, target) in &made.symbols {
            if let Target::Determinand(key, _) = target {
                made.symbol_words.entry(key).or_default().extend(words(symbol));
            }
        }
        made.below = all(&headings.below).map(|(_, name)| words(name)).collect();
        made.all_in = all(&headings.all_in).map(|(_, name)| words(name)).collect();
        made.are_means = all(&headings.are_means).map(|(_, name)| words(name)).collect();
        made.between = all(&headings.between).flat_map(|(_, name)| words(name)).collect();
        made.and = all(&headings.and).map(|(_, name)| name.to_lowercase()).collect();
        for said in all(&headings.explains).map(|(_, name)| stems(name)) {
            made.explains.entry(said.first().cloned().unwrap_or_default()).or_default().push(said);
        }
        made.compound = all(&headings.compound).flat_map(|(_, name)| stems(name)).collect();
        made.to = all(&headings.to).map(|(_, name)| name.to_lowercase()).collect();
        made.add_marks(headings);
        for (names, month) in headings.months.iter().zip(1..) {
            made.months.extend(all(names).flat_map(|(_, name)| words(name)).map(|name| (name, month)));
        }
        made
    }

    fn add_marks(&mut self, headings: &Headings) {
        self.not_detected = all(&headings.not_detected).map(|(_, name)| mark(name)).collect();
        self.not_detected_starts = self.not_detected.iter().map(|m| first_two(m)).collect();
        let long = self.not_detected.iter().filter(|m| m.chars().count() >= LONG_MARK);
        self.long_marks = long.map(|m| words(m).concat()).collect();
        self.no_value = all(&headings.no_value).map(|(_, name)| mark(name)).collect();
        let marks = self.not_detected.iter().chain(&self.no_value);
        self.longest_mark = marks.map(|mark| mark.chars().count()).max().unwrap_or(0);
    }

    fn add(&mut self, names: &Names, target: Target) {
        for symbol in &names.symbols {
            self.symbols.insert(symbol.clone(), target.clone());
        }
        for (language, name) in all(names) {
            let stems = stems(name);
            if let Some(first) = stems.first() {
                self.by_first.entry(first.clone()).or_default().push(self.entries.len());
                self.entries.push(Entry { stems, target: target.clone(), language });
            }
        }
    }

    /// Every name that starts with this word.
    pub fn starting_with(&self, stem: &str) -> impl Iterator<Item = &Entry> {
        self.by_first.get(stem).into_iter().flatten().filter_map(|&i| self.entries.get(i))
    }

    /// What a symbol stands for; capitals matter.
    pub fn symbol(&self, text: &str) -> Option<&Target> {
        self.symbols.get(text)
    }
    /// Symbols of a determinand and its names in further languages, folded, for the words beside its name.
    pub fn is_symbol_of(&self, word: &str, key: &str) -> bool {
        self.symbol_words.get(key).is_some_and(|words| words.contains(word))
    }

    /// Whether a word beside a name changes nothing.
    pub fn is_beside(&self, stem: &str) -> bool {
        self.beside.contains(stem)
    }

    /// Whether a folded word is one of a kind.
    pub fn is(&self, kind: ReportWord, word: &str) -> bool {
        self.words.get(&kind).is_some_and(|words| words.contains(word))
    }

    /// The words of a heading without those that only join the others: "nb de mesures" is "nb mesures".
    fn unjointed(&self, heading: &str) -> Vec<String> {
        let mut stems = stems(&undotted(heading));
        let joint = |w: &String| self.is(ReportWord::Joint, w);
        if !stems.iter().all(joint) {
            stems.retain(|w| !joint(w));
        }
        stems
    }

    /// Whether a heading begins with a word for a number of things, folded.
    fn is_number_of(&self, stems: &[String]) -> bool {
        stems.len() > 1 && stems.first().is_some_and(|w| self.is(ReportWord::Number, w))
    }

    /// The bases that words name, in the order in which they stand.
    pub fn bases(&self, stems: &[String]) -> Vec<&'static str> {
        let mut at: Vec<usize> = stems.iter().filter_map(|s| self.basis_by_first.get(s)).flatten().copied().collect();
        at.sort_unstable();
        at.dedup();
        let mut found: Vec<(usize, usize, &'static str)> = at
            .into_iter()
            .filter_map(|i| self.basis.get(i))
            .filter_map(|(basis, needle)| position(stems, needle).map(|at| (at, needle.len(), *basis)))
            .collect();
        found.sort();
        // "calcium" inside "calcium carbonate" names nothing of its own.
        let whole: Vec<_> = found.clone();
        found.retain(|(at, len, _)| !whole.iter().any(|(a, l, _)| l > len && a <= at && at + len <= a + l));
        found.into_iter().map(|(_, _, basis)| basis).collect()
    }

    /// Whether a folded word stands in what a basis is called: the "carbonate" of "calcium carbonate".
    pub fn is_in_basis(&self, word: &str) -> bool {
        self.basis.iter().any(|(_, stems)| stems.iter().any(|s| s == word))
    }

    /// What a column's heading says, and whether it says nothing else.
    pub fn column(&self, heading: &str) -> Option<(ReportColumn, bool)> {
        thread_local! {
            static KEPT: Recent<Option<(ReportColumn, bool)>> = const { Recent::new() };
        }
        recall(&KEPT, heading, || self.column_of(heading))
    }

    fn column_of(&self, heading: &str) -> Option<(ReportColumn, bool)> {
        let stems = self.unjointed(heading);
        // Places of the headings that stand in it, the longest first.
        let mut at: Vec<usize> = stems.iter().filter_map(|s| self.columns_by_first.get(s)).flatten().copied().collect();
        at.sort_unstable();
        let inside: Vec<_> =
            at.into_iter().filter_map(|i| self.columns.get(i)).filter(|c| position(&stems, &c.1).is_some()).collect();
        let exact = |c: &&&(ReportColumn, Vec<String>, &str)| c.1 == stems;
        // A heading that may be a limit in one language and something else in another is a limit.
        let limit = inside.iter().find(|c| c.0 == ReportColumn::Limit && exact(c));
        if let Some((column, ..)) = limit.or_else(|| inside.iter().find(exact)) {
            return Some((*column, true));
        }
        let longest = inside.first()?.1.len();
        let best = || inside.iter().take_while(|c| c.1.len() == longest);
        // "Highest concentration allowed": what is allowed is no result, however much of a heading speaks of results.
        let statistic = |c: ReportColumn| {
            use ReportColumn::*;
            matches!(c, Min | Mean | Median | Max | Value | Range)
        };
        let any_limit = || inside.iter().find(|c| c.0 == ReportColumn::Limit);
        let limit = best().find(|c| c.0 == ReportColumn::Limit);
        let limit = limit.or_else(|| best().all(|c| statistic(c.0)).then(any_limit).flatten());
        // "Nb de mesures", "Number of results": how many there are, whatever of.
        if best().all(|c| statistic(c.0)) && limit.is_none() && self.is_number_of(&stems) {
            return Some((ReportColumn::Count, false));
        }
        // "Level found (highest)", "Höchste Konzentration": which of the values.
        let which = |c: ReportColumn| statistic(c) && !matches!(c, ReportColumn::Value | ReportColumn::Range);
        let told: BTreeSet<ReportColumn> = inside.iter().map(|c| c.0).filter(|c| which(*c)).collect();
        if let (true, None, [one]) =
            (best().all(|c| c.0 == ReportColumn::Value), limit, &told.into_iter().collect::<Vec<_>>()[..])
        {
            return Some((*one, false));
        }
        // "Source de la Combe" is a place, though "source" alone may head a column of where a substance comes from.
        let place = best().find(|c| c.0 == ReportColumn::Place && best().any(|o| o.0 == ReportColumn::Other));
        limit
            .or(place)
            .or_else(|| best().find(|c| c.1.iter().map(String::len).sum::<usize>() > 1))
            .map(|(c, ..)| (*c, false))
    }

    /// Whether the text stands for "too little to be seen".
    pub fn is_not_detected(&self, text: &str) -> bool {
        self.may_be_mark(text) && self.not_detected.contains(&mark(text))
    }

    /// Whether a text may begin with such a mark.
    pub fn may_begin_not_detected(&self, text: &str) -> bool {
        self.not_detected_starts.contains(&first_two(text))
    }

    /// Whether "not detected", or as much in other words, stands in the text.
    pub fn says_not_detected(&self, text: &str) -> bool {
        let joined = words(text).concat();
        self.long_marks.iter().any(|mark| joined.contains(mark))
    }

    /// Whether the text stands for no value.
    pub fn is_no_value(&self, text: &str) -> bool {
        self.may_be_mark(text) && self.no_value.contains(&mark(text))
    }

    /// Whether a text is no longer than the longest mark.
    fn may_be_mark(&self, text: &str) -> bool {
        text.chars().filter(|c| !matches!(c, '.' | ' ')).take(self.longest_mark + 1).count() <= self.longest_mark
    }

    /// Whether words say that a unit among them is that of all values.
    pub fn is_of_all(&self, text: &str) -> bool {
        let words = words(text);
        self.all_in.iter().any(|said| position(&words, said).is_some())
    }

    /// Whether the words of a sentence say that the values are means.
    pub fn are_means(&self, words: &[String]) -> bool {
        self.are_means.iter().any(|said| position(words, said).is_some())
    }

    /// Whether a word stands in the heading of any column.
    pub fn in_headings(&self, stem: &str) -> bool {
        self.columns.iter().any(|(_, stems, _)| stems.iter().any(|s| s == stem))
    }

    /// The month that a word names, from 1.
    pub fn month(&self, word: &str) -> Option<u32> {
        self.months.get(word).copied()
    }

    /// Whether "less than" or its kin ends with the last of these words.
    pub fn may_end_below(&self, words: &[String]) -> bool {
        words.last().is_some_and(|last| self.below.iter().any(|below| below.last() == Some(last)))
    }

    /// Whether words end with "less than" or its kin.
    pub fn ends_with_below(&self, words: &[String]) -> bool {
        self.below.iter().any(|below| words.ends_with(below))
    }

    /// Whether words end with "between" or its kin.
    pub fn ends_with_between(&self, words: &[String]) -> bool {
        words.last().is_some_and(|word| self.between.contains(word))
    }

    /// Whether words explain a class or a unit and tell nothing of a water, or tell of a change.
    pub fn explains(&self, text: &str) -> bool {
        let stems = stems(text);
        let begins = |at: usize, said: &Vec<String>| stems.get(at..at + said.len()) == Some(&said[..]);
        let all = stems.iter().enumerate();
        all.filter_map(|(at, word)| Some((at, self.explains.get(word)?))).any(|(at, s)| s.iter().any(|s| begins(at, s)))
    }

    /// "nitratgehalt" is nitrate: the word without what it is put together with, if a name begins with it then.
    pub fn uncompounded(&self, stem: String) -> String {
        if self.by_first.contains_key(&stem) {
            return stem;
        }
        let short = self.compound.iter().find_map(|end| stem.strip_suffix(end.as_str()));
        short.filter(|s| self.by_first.contains_key(*s)).map_or_else(|| stem.clone(), str::to_owned)
    }

    /// Whether a text is "and", in any language.
    pub fn is_and(&self, text: &str) -> bool {
        self.and.contains(&text.to_lowercase())
    }

    /// Whether a word belongs to what is told of ranges.
    pub fn is_between(&self, word: &str) -> bool {
        self.between.contains(word) || self.to.contains(word)
    }

    /// Whether a word parts the ends of a range.
    pub fn is_to(&self, text: &str) -> bool {
        self.to.contains(&text.to_lowercase())
    }

    /// The language whose names and headings fit a text best; none where two fit alike.
    pub fn language<'a>(&self, texts: impl Iterator<Item = &'a str>) -> Option<&'static str> {
        let mut score: BTreeMap<&'static str, f64> = BTreeMap::new();
        for text in texts.take(4000) {
            let stems = stems(text);
            let mut fits: BTreeSet<&'static str> = BTreeSet::new();
            for (at, stem) in stems.iter().enumerate() {
                let names =
                    self.starting_with(stem).filter(|e| stems.get(at..at + e.stems.len()) == Some(&e.stems[..]));
                fits.extend(names.map(|e| e.language));
            }
            let first = stems.first().and_then(|s| self.columns_by_first.get(s)).into_iter().flatten();
            let headings = first.filter_map(|&i| self.columns.get(i));
            fits.extend(headings.filter(|c| c.1 == stems).map(|c| c.2));
            // A word that all languages share tells nothing.
            if !fits.is_empty() && fits.len() < 5 {
                fits.iter().for_each(|l| *score.entry(l).or_default() += 1.0 / fits.len() as f64);
            }
        }
        let mut ranked: Vec<_> = score.into_iter().collect();
        ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
        match ranked[..] {
            [(language, _)] => Some(language),
            [(language, first), (_, second), ..] if first > second => Some(language),
            _ => None,
        }
    }
}
