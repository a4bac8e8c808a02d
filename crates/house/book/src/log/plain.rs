//! An entry's own TOML, read quickly where it stands as this program writes it; whatever else it may say is for the full reader.
//!
//! A page reads thousands of entries. Nearly all are lines of keys in one order, with plain words and numbers; to read those
//! line by line takes a tenth of what the full reader takes. What is read here reads there just the same.

use jiff::tz::TimeZone;
use logbook::{Entry, Reading, Sure, What};

#[cfg(test)]
#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../../../../tank/logbook/tests/common/mod.rs"]
mod entries;

/// The entry of a text in a zone; `None`: it is not plain, and the full reader must be asked.
pub(crate) fn read(text: &str, zone: &TimeZone) -> Option<Entry> {
    let mut lines = Lines(text);
    let at = logbook::moment_in(lines.quoted("at")?, zone).ok()?;
    let note = lines.text("note")?;
    lines.0 = lines.0.strip_prefix("\n[what]\n")?;
    let what = what(&mut lines)?;
    lines.0.is_empty().then_some(Entry { at, what, note })
}

fn what(lines: &mut Lines) -> Option<What> {
    Some(match lines.quoted("kind")? {
        "test" => What::Test(Reading {
            of: lines.text("of")?,
            value: lines.float("value")?,
            below: lines.flag("below")?,
            error: lines.may("error", Lines::float)?,
            kit: lines.may("kit", Lines::text)?,
            sure: match lines.quoted("sure")? {
                "plain" => Sure::Plain,
                "about" => Sure::About,
                "not_sure" => Sure::NotSure,
                _ => return None,
            },
        }),
        "dose" => What::Dose { bottle: lines.text("bottle")?, ml: lines.float("ml")? },
        "change" => What::Change { litres: lines.float("litres")? },
        "top_up" => What::TopUp { litres: lines.float("litres")? },
        "food" => What::Food { grams: lines.float("grams")? },
        "trim" => What::Trim { wet_grams: lines.may("wet_grams", Lines::float)? },
        "sight" => What::Sight { sight: lines.text("sight")? },
        "photo" => What::Photo { file: lines.text("file")? },
        "done" => What::Done { act: lines.text("act")? },
        "words" => What::Words,
        _ => return None,
    })
}

/// The lines that are still to be read.
struct Lines<'a>(&'a str);

impl<'a> Lines<'a> {
    /// What stands behind a key in the next line; `None`, and the line is still to be read: it has another key.
    fn value(&mut self, key: &str) -> Option<&'a str> {
        let (value, rest) = self.0.strip_prefix(key)?.strip_prefix(" = ")?.split_once('\n')?;
        self.0 = rest;
        Some(value)
    }

    /// What need not be there. `None` in the outer place: it is there and not plain.
    fn may<T>(&mut self, key: &str, read: impl Fn(&mut Self, &str) -> Option<T>) -> Option<Option<T>> {
        match self.0.strip_prefix(key).is_some_and(|rest| rest.starts_with(" = ")) {
            true => read(self, key).map(Some),
            false => Some(None),
        }
    }

    /// Words in quotation marks, none of which stands for something else.
    fn quoted(&mut self, key: &str) -> Option<&'a str> {
        let text = self.value(key)?.strip_prefix('"')?.strip_suffix('"')?;
        text.bytes().all(|c| c >= b' ' && !matches!(c, b'"' | b'\\' | 0x7f)).then_some(text)
    }

    fn text(&mut self, key: &str) -> Option<String> {
        self.quoted(key).map(str::to_owned)
    }

    fn flag(&mut self, key: &str) -> Option<bool> {
        self.value(key)?.parse().ok()
    }

    /// Digits, a point, digits.
    fn float(&mut self, key: &str) -> Option<f64> {
        let text = self.value(key)?;
        let (whole, part) = text.strip_prefix('-').unwrap_or(text).split_once('.')?;
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|c| c.is_ascii_digit());
        let leads = whole.len() > 1 && whole.starts_with('0');
        (digits(whole) && digits(part) && !leads).then(|| text.parse().ok())?
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn whole(text: &str) -> Option<(String, What, String)> {
        toml::from_str::<Entry>(text).ok().map(|entry| entries::whole(&entry))
    }

    fn quick(text: &str, zone: &str) -> Option<(String, What, String)> {
        read(text, &TimeZone::get(zone).unwrap()).map(|entry| entries::whole(&entry))
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

        /// Any entry as it is written, and with a piece of it taken out or put in: what is read quickly reads so in full.
        #[test]
        fn the_full_reader_says_the_same(
            entry in entries::entry(),
            at in any::<prop::sample::Index>(),
            takes in 0..4_usize,
            puts in prop_oneof![Just(String::new()), "[0-9.+_eE\"'\\\\\n\r\t #=\\[\\]-]{0,3}", any::<String>()],
        ) {
            let text = toml::to_string(&entry).unwrap();
            let zone = entry.at.time_zone().iana_name().unwrap();
            if let Some(quick) = quick(&text, zone) {
                prop_assert_eq!(quick, entries::whole(&entry));
            }
            let chars: Vec<char> = text.chars().collect();
            let at = at.index(chars.len() + 1);
            let behind = chars.iter().skip((at + takes).min(chars.len()));
            let other: String = chars.iter().take(at).copied().chain(puts.chars()).chain(behind.copied()).collect();
            if let Some(quick) = quick(&other, zone) {
                prop_assert_eq!(Some(quick), whole(&other), "{}", other);
            }
        }

        /// What a keeper usually writes is read quickly, whatever kind it is of.
        #[test]
        fn the_usual_entry_is_plain(what in entries::what(), at in entries::at(), note in "[a-zäöß ,.]{0,30}") {
            let plain = |text: &str| text.chars().all(|c| c.is_alphanumeric() || c == ' ');
            let kit = match &what { What::Test(reading) => reading.kit.as_deref().unwrap_or(""), _ => "" };
            prop_assume!(plain(&what.subject().replace('_', " ")) && plain(kit));
            prop_assume!(!matches!(what.kind(), "animals" | "bought"));
            let entry = Entry { at, what, note };
            let text = toml::to_string(&entry).unwrap();
            prop_assume!(!text.contains('e') || !text.lines().any(|line| line.contains("e-")));
            prop_assert!(quick(&text, entry.at.time_zone().iana_name().unwrap()).is_some(), "{}", text);
        }
    }
}
