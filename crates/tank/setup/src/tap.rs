//! One tap for several tanks: the setups that give it the same name have the same water in them.
//!
//! Each setup stays whole in itself. Whoever keeps them writes, in the same go as an edit, what [`one_tap`] says must
//! follow in the others.

use std::collections::BTreeMap;

use toml_edit::{DocumentMut, Item};

use crate::Setup;

/// The sections that belong to the tap and not to the tank.
const SECTIONS: [&str; 2] = ["tap", "pipes"];

/// What must be written, so that tanks of one tap keep one water.
#[derive(Clone, Debug, PartialEq)]
pub struct OneTap {
    /// The setup that was to be written, with the water of the tap that it now names.
    pub setup: Setup,
    /// Other tanks whose water follows, by their numbers, each with its next setup.
    pub others: Vec<(u64, Setup)>,
}

/// What follows from writing `next` over `before` (`None`: a new tank). `others` are the setups that hold in the other
/// tanks. A tank that takes the name of a tap that others have takes their water; one that had the name already gives
/// them its own. Who gives its tap another name has a tap of its own from then on.
pub fn one_tap(before: Option<&Setup>, next: Setup, others: impl IntoIterator<Item = (u64, Setup)>) -> OneTap {
    let Some(name) = next.tap_name() else { return OneTap { setup: next, others: Vec::new() } };
    let mut same = others.into_iter().filter(|(_, other)| other.tap_name().as_ref() == Some(&name));
    if before.and_then(Setup::tap_name).as_ref() != Some(&name) {
        let setup = same.next().map_or_else(|| next.clone(), |(_, other)| next.with_tap_of(&other));
        return OneTap { setup, others: Vec::new() };
    }
    let water = next.tap_entries();
    let behind = same.filter(|(_, other)| other.tap_entries() != water);
    let others = behind.map(|(tank, other)| (tank, other.with_tap_of(&next))).collect();
    OneTap { setup: next, others }
}

impl Setup {
    /// What the keeper calls the tap; tanks that call it the same have one tap.
    pub fn tap_name(&self) -> Option<String> {
        self.written("tap.name").map(|name| name.trim().to_owned()).filter(|name| !name.is_empty())
    }

    /// What is said of the tap and of the pipes to it.
    fn tap_entries(&self) -> BTreeMap<String, String> {
        let of_tap = |path: &str| path.split_once('.').is_some_and(|(section, _)| SECTIONS.contains(&section));
        self.entries().into_iter().filter(|(path, _)| of_tap(path)).collect()
    }

    /// This setup with the tap of another. A text that is no TOML stays as it is.
    fn with_tap_of(&self, other: &Setup) -> Setup {
        let both = (self.text().parse::<DocumentMut>(), other.text().parse::<DocumentMut>());
        let (Ok(mut mine), Ok(theirs)) = both else { return self.clone() };
        for section in SECTIONS {
            let place = mine.get(section).and_then(Item::as_table).and_then(toml_edit::Table::position);
            match theirs.get(section) {
                Some(item) => {
                    let mut item = item.clone();
                    // A heading keeps its place among the others; a new one goes to the end.
                    if let Some(table) = item.as_table_mut() {
                        table.set_position(place);
                    }
                    mine.insert(section, item);
                }
                None => drop(mine.remove(section)),
            }
        }
        Setup::kept(self.file(), &mine.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(text: &str) -> Setup {
        Setup::read("tank.toml", text).unwrap_or_else(|faults| panic!("{faults}"))
    }

    const HALL: &str = "# mine\n[tap]\nname = \"kitchen\"\nnitrate = \"14 mg/L NO3\" # of the report\n[animals]\nfish = 3\n[pipes]\ncopper = \"0.001 mg/L\"\n";
    const LANDING: &str = "[glass]\ninner_length = \"60 cm\"\n[tap]\nname = \"kitchen\"\nnitrate = \"14 mg/L NO3\"\n[animals]\nfish = 9\n[pipes]\ncopper = \"0.001 mg/L\"\n";

    #[test]
    fn an_edit_of_the_tap_reaches_the_other_tank_and_nothing_else_of_it() {
        let next = setup(HALL).with("tap.nitrate", "20 mg/L NO3").and_then(|s| s.with("animals.fish", "4"));
        let next = next.unwrap_or_else(|faults| panic!("{faults}"));
        let garden = setup("[tap]\nname = \"garden\"\n");
        let out = one_tap(Some(&setup(HALL)), next.clone(), [(2, setup(LANDING)), (3, garden)]);
        assert_eq!(out.setup, next);
        let [(2, landing)] = out.others.as_slice() else { panic!("{out:?}") };
        let changes = setup(LANDING).changes_to(landing);
        assert_eq!(changes.iter().map(|change| change.field.as_str()).collect::<Vec<_>>(), ["tap.nitrate"]);
        assert_eq!(landing.written("tap.nitrate").as_deref(), Some("20 mg/L NO3"));
        assert!(landing.tank().is_ok(), "{}", landing.text());
    }

    #[test]
    fn an_edit_of_something_else_reaches_nobody() {
        let next = setup(HALL).with("animals.fish", "5").unwrap_or_else(|faults| panic!("{faults}"));
        assert_eq!(one_tap(Some(&setup(HALL)), next, [(2, setup(LANDING))]).others, []);
    }

    #[test]
    fn who_takes_the_name_of_a_tap_takes_its_water() {
        let (before, next) = (setup("[tap]\nnitrate = \"3 mg/L NO3\"\n"), setup("[tap]\nname = \"kitchen\"\n"));
        for before in [None, Some(&before)] {
            let out = one_tap(before, next.clone(), [(2, setup(LANDING))]);
            assert_eq!((out.setup.tap_entries(), out.others), (setup(LANDING).tap_entries(), Vec::new()));
        }
    }

    #[test]
    fn a_tap_without_a_name_or_of_a_text_that_is_none_follows_nobody() {
        let next = setup("[tap]\nnitrate = \"3 mg/L NO3\"\n");
        assert_eq!(one_tap(Some(&next), next.clone(), [(2, setup(LANDING))]).others, []);
        let broken = Setup::kept("tank.toml", "[tap\n");
        assert_eq!(broken.with_tap_of(&setup(HALL)), broken);
        assert_eq!(setup(HALL).with_tap_of(&broken), setup(HALL));
    }
}
