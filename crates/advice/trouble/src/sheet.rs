//! The sheets: every trouble in sentences, whole without anything of the keeper.

use std::sync::OnceLock;

use knowledge::{Book, PersonRow, TroubleRow};

use crate::fill::fill;
use crate::toxic::{AmmoniaTable, ammonia_table};

/// Something said under a few strong words.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Item {
    /// The strong words.
    pub head: String,
    /// Sentences, a paragraph each.
    pub says: Vec<String>,
    /// Rules of harm that they say.
    pub rules: Vec<u8>,
}

/// One trouble: what to do this minute, how to find out, how to prevent.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Sheet {
    /// Its word in addresses and on the command line.
    pub key: String,
    /// As it stands in the list.
    pub title: String,
    /// What is seen.
    pub sign: String,
    /// Before the fish.
    pub first: Vec<Item>,
    /// Between that and the steps.
    pub then: String,
    /// What to do, in order.
    pub steps: Vec<Item>,
    /// Under the steps.
    pub last: Vec<Item>,
    /// How to find out.
    pub find_out: Vec<String>,
    /// How to prevent.
    pub prevent: Vec<String>,
    /// Where harm of ammonia starts, for the trouble that needs it.
    pub table: Option<AmmoniaTable>,
    /// What the steps rest on, in words.
    pub sources: Vec<String>,
}

/// The trouble whose figures are a table of ammonia.
const AMMONIA: &str = "ammonia";

/// All sheets in the order of the list: the first is that of the first page.
pub fn sheets() -> &'static [Sheet] {
    static SHEETS: OnceLock<Vec<Sheet>> = OnceLock::new();
    SHEETS.get_or_init(|| {
        let book = knowledge::book();
        book.troubles.trouble.iter().map(|row| sheet_of(book, row)).collect()
    })
}

/// The sheet of a trouble; `None`: there is no such trouble.
pub fn sheet(key: &str) -> Option<&'static Sheet> {
    sheets().iter().find(|sheet| sheet.key == key)
}

fn sheet_of(book: &Book, row: &TroubleRow) -> Sheet {
    let say = |text: &String| fill(book, text);
    let person = |row: &PersonRow| Item { head: say(&row.head), says: vec![say(&row.say)], rules: row.rules.clone() };
    let people = |keys: &[String]| keys.iter().filter_map(|key| book.troubles.person.get(key)).map(person).collect();
    let step = |step: &knowledge::StepRow| Item {
        head: say(&step.head),
        says: step.say.iter().map(say).collect(),
        rules: step.rules.clone(),
    };
    let mut sources: Vec<String> = row.step.iter().map(|step| book.cite_words(&step.source)).collect();
    sources.sort();
    sources.dedup();
    Sheet {
        key: row.key.clone(),
        title: row.title.clone(),
        sign: say(&row.sign),
        first: people(&row.first),
        then: say(&row.then),
        steps: row.step.iter().map(step).collect(),
        last: people(&row.last),
        find_out: row.find_out.iter().map(say).collect(),
        prevent: row.prevent.iter().map(say).collect(),
        table: (row.key == AMMONIA).then(ammonia_table),
        sources,
    }
}
