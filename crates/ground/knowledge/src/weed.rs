//! Plants that stand on a list of weeds or invasive species (`data/plants.toml`), found by the names that a keeper writes.
//!
//! Harm rule 17. A name is a scientific one (whole, shortened to the first letter of its genus, or with its genus misspelt
//! after three letters) or a common one in one of several languages. A genus alone, or a name that several plants share, is
//! told as "may be".

use std::collections::{BTreeMap, BTreeSet};

use crate::Place;

/// A list that stands in some law.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct WeedLaw {
    /// Whose law.
    pub place: Place,
    /// The list, in a sentence.
    pub act: String,
    /// What it forbids, in a sentence.
    pub forbids: String,
}

/// A plant that stands on at least one list.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct PlantRow {
    /// Scientific name, as the lists have it.
    pub name: String,
    /// Other scientific names, and usual misspellings.
    #[serde(default)]
    pub also: Vec<String>,
    /// Names in several languages that mean this plant.
    #[serde(default)]
    pub common: Vec<String>,
    /// Names that are used for others too.
    #[serde(default)]
    pub perhaps: Vec<String>,
    /// The lists on which it stands, each with the key of its source.
    pub listed: BTreeMap<String, String>,
    /// The names as words.
    #[serde(skip)]
    cut: Cut,
}

/// The names of a plant as words, cut once.
#[derive(Clone, Debug, Default, PartialEq)]
struct Cut {
    scientific: Vec<Vec<String>>,
    common: Vec<Vec<String>>,
    perhaps: Vec<Vec<String>>,
}

/// The file.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Plants {
    /// Whom to ask: a sentence.
    pub ask: String,
    /// Never to release it, and how trimmings end: a sentence.
    pub never: String,
    /// Species of the same genera that stand on no list here, in small letters.
    pub unlisted: Vec<String>,
    /// The lists, by key.
    pub law: BTreeMap<String, WeedLaw>,
    /// The plants, by key.
    pub plant: BTreeMap<String, PlantRow>,
    /// How the telling words of all names begin: a text without any of them names no plant.
    #[serde(skip)]
    begins: BTreeSet<String>,
}

/// A plant that was named and stands on a list, or may be one.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Weed {
    /// Its key in `data/plants.toml`.
    pub key: String,
    /// Its scientific name.
    pub name: String,
    /// The name means this plant; else it is one of those that share it.
    pub sure: bool,
    /// It stands on a list of the keeper's own place.
    pub here: bool,
    /// Keys of the sources, one for each list.
    pub sources: Vec<String>,
    /// On which lists it stands and what they forbid: a sentence without the rest of [`Plants::say`].
    pub lists: String,
}

/// Characters by which a telling word is looked for first.
const BEGIN: usize = 4;

impl Plants {
    /// Cuts all names into words, once.
    pub(crate) fn complete(&mut self) {
        let cut = |names: &[String]| names.iter().map(|name| words(name)).collect();
        for row in self.plant.values_mut() {
            let scientific: Vec<String> = std::iter::once(&row.name).chain(&row.also).cloned().collect();
            row.cut = Cut { scientific: cut(&scientific), common: cut(&row.common), perhaps: cut(&row.perhaps) };
            let last = row.cut.common.iter().chain(&row.cut.perhaps).filter_map(|name| name.last());
            self.begins.extend(row.cut.scientific.iter().flatten().chain(last).map(|word| begin(word)));
        }
    }

    /// The plants of a list that a text names, those that are surely meant first; a plant that only may be meant is left out
    /// where a plant of its genus is surely meant.
    pub fn named(&self, text: &str, place: Place) -> Vec<Weed> {
        let words = words(text);
        if !words.iter().any(|word| self.begins.contains(&begin(word))) {
            return Vec::new();
        }
        let surely: Vec<(&String, &PlantRow)> =
            self.plant.iter().filter(|(_, row)| row.is_named(&words, &self.unlisted)).collect();
        let genus_told = |row: &PlantRow| surely.iter().any(|(_, told)| told.genus() == row.genus());
        let perhaps = self.plant.iter().filter(|(_, row)| row.may_be_named(&words, &self.unlisted) && !genus_told(row));
        let surely = surely.iter().map(|(key, row)| self.weed(key, row, true, place));
        surely.chain(perhaps.map(|(key, row)| self.weed(key, row, false, place))).collect()
    }

    /// What is said where a text names plants of a list: which, where they are listed and what holds there, whom to ask,
    /// never to release them. `None`: it names none that I know.
    pub fn say(&self, text: &str, place: Place) -> Option<String> {
        let weeds = self.named(text, place);
        if weeds.is_empty() {
            return None;
        }
        let lists: Vec<&str> = weeds.iter().map(|weed| weed.lists.as_str()).collect();
        Some(format!("{} {} {}", lists.join(" "), self.ask, self.never))
    }

    fn weed(&self, key: &str, row: &PlantRow, sure: bool, place: Place) -> Weed {
        let laws = || row.listed.keys().filter_map(|law| self.law.get(law));
        let (own, others): (Vec<&WeedLaw>, Vec<&WeedLaw>) = laws().partition(|law| law.place == place);
        let acts = |laws: &[&WeedLaw]| laws.iter().map(|law| law.act.as_str()).collect::<Vec<_>>().join(" and on ");
        let own: Vec<String> = own.iter().map(|law| format!("on {}: there {}", law.act, law.forbids)).collect();
        let name = match row.common.first() {
            Some(common) => format!("{} ({common})", row.name),
            None => row.name.clone(),
        };
        let who = if sure { format!("{name} stands") } else { format!("If it is {name}: that stands") };
        let lists = match (own.as_slice(), others.as_slice()) {
            ([], others) => format!("{who} on {}; on no list of yours that I know.", acts(others)),
            (own, []) => format!("{who} {}.", own.join("; ")),
            (own, others) => format!("{who} {}. Elsewhere it stands on {}.", own.join("; "), acts(others)),
        };
        Weed {
            key: key.to_owned(),
            name: row.name.clone(),
            sure,
            here: !own.is_empty(),
            sources: row.listed.values().cloned().collect(),
            lists,
        }
    }
}

impl PlantRow {
    fn genus(&self) -> Option<&String> {
        self.cut.scientific.first().and_then(|name| name.first())
    }

    fn is_named(&self, text: &[String], unlisted: &[String]) -> bool {
        self.cut.scientific.iter().any(|name| species(name, text, unlisted))
            || self.cut.common.iter().any(|name| phrase(name, text))
    }

    /// Its genus alone, or a name that it shares with others.
    fn may_be_named(&self, text: &[String], unlisted: &[String]) -> bool {
        let other = |at: usize| text.get(at..at + 2).is_some_and(|pair| unlisted.contains(&pair.join(" ")));
        let alone = |genus: &String| {
            let mut places = text.iter().enumerate().filter(|(_, word)| *word == genus);
            places.any(|(at, _)| !other(at) && !at.checked_sub(1).is_some_and(other))
        };
        let shared = self.cut.perhaps.iter().any(|name| phrase(name, text));
        !self.is_named(text, unlisted)
            && (shared || self.cut.scientific.iter().filter_map(|name| name.first()).any(alone))
    }
}

fn begin(word: &str) -> String {
    word.chars().take(BEGIN).collect()
}

/// Whether a scientific name stands among the words: its second word behind its genus, behind the genus' first letter, or
/// behind a word that begins like the genus and makes no other known species with it.
fn species(name: &[String], text: &[String], unlisted: &[String]) -> bool {
    let [genus, epithet @ ..] = name else { return false };
    let begins = |word: &str| {
        let same = |(a, b): &(char, char)| a == b;
        let shared = word.chars().zip(genus.chars()).take_while(same).count();
        shared >= 3 || (shared == 1 && word.chars().count() == 1)
    };
    let holds = |at: usize| text.get(at..at + epithet.len()).is_some_and(|words| words == epithet);
    let other = |word: &str| unlisted.contains(&format!("{word} {}", epithet.join(" ")));
    !epithet.is_empty() && text.iter().enumerate().any(|(at, word)| begins(word) && holds(at + 1) && !other(word))
}

/// Whether a common name stands among the words, its last one perhaps as a plural.
fn phrase(name: &[String], text: &[String]) -> bool {
    let Some((last, before)) = name.split_last() else { return false };
    let ends = |word: &str| ["", "s", "es", "n", "en"].iter().any(|end| word.strip_suffix(end) == Some(last));
    text.windows(name.len())
        .any(|window| window.split_last().is_some_and(|(word, begin)| begin == before && ends(word)))
}

/// The words of a text in small letters, accents and apostrophes away.
fn words(text: &str) -> Vec<String> {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            '\'' | '’' | '\u{300}'..='\u{36f}' => {}
            'à' | 'á' | 'â' | 'ã' | 'ä' => plain.push('a'),
            'è' | 'é' | 'ê' | 'ë' => plain.push('e'),
            'ì' | 'í' | 'î' | 'ï' => plain.push('i'),
            'ò' | 'ó' | 'ô' | 'õ' | 'ö' => plain.push('o'),
            'ù' | 'ú' | 'û' | 'ü' => plain.push('u'),
            'ç' => plain.push('c'),
            'ñ' => plain.push('n'),
            'ß' => plain.push_str("ss"),
            c if c.is_alphanumeric() => plain.push(c),
            _ => plain.push(' '),
        }
    }
    plain.split_whitespace().map(str::to_owned).collect()
}
