//! Which determinand a text names.

use std::rc::Rc;

use knowledge::{ReportColumn, ReportWord};

use crate::fold::{stems, tidy, undotted, words};
use crate::lexicon::{Entry, Target, lexicon};
use crate::unit_find;

/// A determinand that a text names.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Name {
    /// Key of `data/determinands.toml`.
    pub key: &'static str,
    /// What the name says of the basis: a basis, or "ask".
    pub counted: Option<&'static str>,
    /// The name is the substance's own formula.
    pub by_symbol: bool,
    /// Words beside it, folded: a basis may be among them.
    pub beside: Rc<[String]>,
    /// Those of them that nobody knows.
    pub strange: Rc<[String]>,
}

/// What a text names.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Named {
    /// A determinand.
    Determinand(Name),
    /// Something that looks like one and is none.
    Apart,
    /// Nothing known.
    Unknown,
}

/// Which determinand a text names; its unit is passed over.
pub(crate) fn named(text: &str) -> Named {
    let mut shown: Vec<char> = tidy(text).chars().collect();
    let mut inside = String::new();
    for found in unit_find::all(text) {
        inside.push(' ');
        inside.push_str(&found.inside);
        shown.iter_mut().take(found.end).skip(found.start).for_each(|c| *c = ' ');
    }
    let shown: String = shown.into_iter().collect();
    if let Some(name) = behind_unit(text) {
        return name;
    }
    if let Some(name) = by_symbol(&shown, &inside) {
        return name;
    }
    let shown = without_places(shown);
    let all: Vec<String> = stems(&whole_words(&shown)).into_iter().map(|word| lexicon().uncompounded(word)).collect();
    let first = longest(&all, None);
    let asks = |e: &Entry| matches!(e.target, Target::Determinand(_, Some("ask")));
    if first.is_none_or(|(_, e)| asks(e) && e.stems.len() < all.len())
        && let Some(entry) = in_any_order(&all)
    {
        let Target::Determinand(key, counted) = entry.target else { return Named::Apart };
        let mut beside: Vec<String> = all.iter().filter(|w| !entry.stems.contains(w)).cloned().collect();
        beside.extend(stems(&inside));
        return finish(key, counted, false, beside);
    }
    let Some((at, entry)) = first else { return Named::Unknown };
    let Target::Determinand(key, counted) = entry.target else { return Named::Apart };
    let mut beside: Vec<String> = Vec::new();
    beside.extend(all.iter().take(at).cloned());
    beside.extend(all.iter().skip(at + entry.stems.len()).cloned());
    beside.extend(stems(&inside));
    finish(key, counted, false, beside)
}

/// "Lead (leaving plant)", "Nitrate (at source)": words of a place in brackets name nothing else.
fn without_places(text: String) -> String {
    let mut out = text;
    let places = || knowledge::book().headings.column.get(&ReportColumn::Place).into_iter().flat_map(|n| n.languages());
    // "Source" is a spring, too.
    let place = |word: &str| places().flat_map(|(_, names)| names).any(|name| words(name) == [word]);
    let Some((open, close)) = out.find('(').filter(|at| *at > 0).and_then(|a| Some((a, a + out.get(a..)?.find(')')?)))
    else {
        return out;
    };
    let inside = words(out.get(open + 1..close).unwrap_or_default());
    if inside.iter().any(|w| place(w)) && inside.iter().all(|w| place(w) || lexicon().is_beside(w)) {
        out.replace_range(open..=close, " ");
    }
    out
}

/// "Hardness mg/l Calcium": what stands behind the unit says how it is counted, and names nothing.
fn behind_unit(text: &str) -> Option<Named> {
    let shown: Vec<char> = tidy(text).chars().collect();
    let unit = unit_find::find(text).filter(|unit| unit.start > 0)?;
    let cut = |from: usize, to: usize| shown.get(from..to).unwrap_or_default().iter().collect::<String>();
    let behind = stems(&cut(unit.end, shown.len()));
    // The formula of the substance itself is known beside it, and "total" is a part of the name.
    if behind.is_empty() || behind.iter().any(|w| w.chars().any(|c| c.is_ascii_digit())) || !is_basis(&behind) {
        return None;
    }
    match named(&cut(0, unit.start)) {
        Named::Determinand(name) => {
            let beside = name.beside.iter().cloned().chain(stems(&unit.inside)).chain(behind);
            Some(Named::Determinand(Name { beside: beside.collect(), ..name }))
        }
        _ => None,
    }
}

/// Whether words are the name of a basis in full: "calcium", "calcium carbonate".
fn is_basis(stems: &[String]) -> bool {
    let bases = lexicon().bases(stems);
    let one = bases.first().is_some_and(|first| bases.iter().all(|b| b == first));
    one && stems.iter().all(|w| w.chars().count() > 3)
}

/// The text with hyphens taken out of words that are names without them: "Waterstof-carbonaat".
fn whole_words(text: &str) -> String {
    let whole = |word: &str| {
        let parts: Vec<&str> = word.split('-').collect();
        let broken =
            parts.len() == 2 && parts.iter().all(|p| p.chars().count() > 2 && p.chars().all(char::is_alphabetic));
        let joined = Some(parts.concat()).filter(|_| broken);
        let name =
            |w: &String| stems(w).first().is_some_and(|stem| lexicon().starting_with(stem).any(|e| e.stems.len() == 1));
        joined.filter(name).unwrap_or_else(|| word.to_owned())
    };
    text.split(' ').map(whole).collect::<Vec<_>>().join(" ")
}

fn finish(key: &'static str, counted: Option<&'static str>, by_symbol: bool, beside: Vec<String>) -> Named {
    let lexicon = lexicon();
    // Another determinand beside it: nobody can say which is meant.
    let mut left = beside.clone();
    while let Some((at, entry)) = longest(&left, Some(key)) {
        let same = matches!(entry.target, Target::Determinand(k, _) if k == key);
        let run = left.get(at..at + entry.stems.len()).unwrap_or_default().to_vec();
        if !same && lexicon.bases(&run).is_empty() {
            return Named::Unknown;
        }
        left.drain(at..at + run.len());
    }
    let known = |word: &String| {
        lexicon.is_beside(word)
            || lexicon.is_symbol_of(word, key)
            // "SO42-": with its charge.
            || lexicon.is_symbol_of(word.strip_suffix(['2', '3']).unwrap_or(word), key)
            || !lexicon.bases(std::slice::from_ref(word)).is_empty()
            || word.chars().all(|c| c.is_ascii_digit())
            || word.chars().count() == 1
            || lexicon.is(ReportWord::Formula, word)
    };
    let strange = left.iter().filter(|w| !known(w)).cloned().collect();
    Named::Determinand(Name { key, counted, by_symbol, beside: beside.into(), strange })
}

/// The longest name among the words; where two are alike, one that is none of ours, then the first.
fn longest(all: &[String], prefer: Option<&str>) -> Option<(usize, &'static Entry)> {
    let mut best: Option<(usize, &Entry)> = None;
    for (at, stem) in all.iter().enumerate() {
        for entry in lexicon().starting_with(stem) {
            if all.get(at..at + entry.stems.len()) != Some(&entry.stems[..]) {
                continue;
            }
            let better = best.is_none_or(|(_, b)| {
                let own = |e: &Entry| matches!(e.target, Target::Determinand(k, _) if Some(k) == prefer);
                let rank = |e: &Entry| (e.stems.len(), own(e), e.target == Target::Apart);
                rank(entry) > rank(b)
            });
            if better {
                best = Some((at, entry));
            }
        }
    }
    best
}

/// "Chlorine, residual, free": the longest name of two words and more whose words all stand there, in any order.
fn in_any_order(all: &[String]) -> Option<&'static Entry> {
    let fits = |e: &&Entry| e.stems.len() > 1 && e.stems.iter().all(|s| all.contains(s));
    let entries = all.iter().flat_map(|word| lexicon().starting_with(word)).filter(fits);
    let best = entries.max_by_key(|e| (e.stems.len(), e.target == Target::Apart))?;
    (!matches!(best.target, Target::Determinand(_, Some("ask")))).then_some(best)
}

/// "NO3-", "Ca2+ (mg/l)", "NO3-N", "Cl2 free".
fn by_symbol(shown: &str, inside: &str) -> Option<Named> {
    let head = shown.split(['(', '[', ':', ',', ';', '=']).next().unwrap_or(shown).trim();
    let head = head.split_whitespace().next().filter(|_| head.split_whitespace().count() <= 3).unwrap_or(head);
    // "KS 4,3" has its comma inside.
    let whole = Some(shown.trim()).filter(|w| lexicon().symbol(w).is_some());
    let head = whole.unwrap_or(head);
    let target = spellings(head).into_iter().find_map(|s| lexicon().symbol(&s).cloned())?;
    let Target::Determinand(key, counted) = target else { return Some(Named::Apart) };
    let rest = shown.trim().strip_prefix(head).unwrap_or("");
    // A longer name that starts with the symbol goes first: "Cl2 free".
    let all = stems(shown);
    if let Some((at, entry)) = longest(&all, None)
        && at == 0
        && entry.stems.len() > 1
    {
        return None;
    }
    // One letter is a symbol only where it stands alone, or with its unit.
    if head.chars().count() == 1 && stems(rest).iter().any(|w| !lexicon().is_beside(w)) && !rest.trim().starts_with('(')
    {
        return None;
    }
    let mut beside = stems(rest);
    beside.extend(stems(inside));
    Some(finish(key, counted, true, beside))
}

/// A symbol with and without its charge.
fn spellings(symbol: &str) -> Vec<String> {
    let signless = symbol.trim_end_matches(['+', '-']);
    let mut out = vec![symbol.to_owned(), undotted(symbol).into_owned()];
    if signless != symbol {
        out.push(signless.to_owned());
        if let Some(c) = signless.chars().last().filter(char::is_ascii_digit) {
            out.push(signless.trim_end_matches(c).to_owned());
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> &'static str {
        match named(text) {
            Named::Determinand(name) if name.strange.is_empty() => name.key,
            Named::Determinand(name) => panic!("{text}: {name:?}"),
            Named::Apart => "apart",
            Named::Unknown => "unknown",
        }
    }

    #[test]
    fn names_in_five_languages() {
        for (text, expected) in [
            ("Nitrate", "nitrate"),
            ("Nitrat (NO3-)", "nitrate"),
            ("Nitrates/50 + Nitrites/3", "apart"),
            ("Nitrite/Nitrate formula", "apart"),
            ("NO₃⁻", "nitrate"),
            ("SO42-", "sulfate"),
            ("Ca2+ (mg/l)", "calcium"),
            ("Säurekapazität bis pH 4,3", "alkalinity"),
            ("Säurekapazität bis pH 8,2", "apart"),
            ("Basekapazität bis pH 8,2", "apart"),
            ("pH-Wert nach Calcitsättigung", "apart"),
            ("pH d’équilibre à la t° échantillon", "apart"),
            ("pH value @ 25 °C", "ph"),
            ("Hydrogen ion (pH)", "ph"),
            ("Titre alcalimétrique complet", "alkalinity"),
            ("Titre alcalimétrique", "apart"),
            ("Hardness (Total) as CaCO3", "hardness_total"),
            ("Ammonium (ammonia and ammonium ions)", "ammonium"),
            ("Chlorine (Residual) - Free", "chlorine_free"),
            ("Conductivity at 20°C", "conductivity"),
            ("Organisch koolstof (TOC)", "toc"),
            ("Bore mg/L", "boron"),
            ("vinyl chloride", "apart"),
            ("Sodium chloride", "unknown"),
            ("Total Trihalomethanes", "unknown"),
            ("Phosphorus", "phosphorus_total"),
            ("Cl2 free", "chlorine_free"),
            ("GH", "hardness_total"),
            ("Conductividad a 20 ºC", "conductivity"),
            ("Residual chlorine, free", "chlorine_free"),
            ("Solids, total dissolved", "tds"),
            ("Zuurtegraad / Acidité (pH)", "ph"),
            ("Waterstof-carbonaat", "bicarbonate"),
            ("Hardness mg/l Calcium", "hardness_total"),
            ("Hardness mg/l Calcium Carbonate", "hardness_total"),
            ("Calcium hardness mg/l CaCO3", "hardness_calcium"),
            ("Lead (leaving plant)", "lead"),
            ("Turbidity (filter effluent)", "turbidity"),
            ("Nitrate (at source)", "nitrate"),
            ("Iron (in network)", "iron"),
            ("Copper (zone)", "copper"),
            ("Total Ammoniacal-N", "ammonium"),
            ("Approx. Total Dissolved Salts", "tds"),
            ("Dureza magnésica", "apart"),
            ("Freies Chlor (nach Desinfektion)", "chlorine_free"),
        ] {
            assert_eq!(key(text), expected, "{text}");
        }
    }
}
