//! What a report's page changes when it comes back: replies, corrections, choices, and the water that is taken.

use std::collections::BTreeMap;

use quantity::Fault;
use report::{Filed, Picked, Spot, written};

/// A form, sorted.
#[derive(Debug, Default)]
pub(super) struct Form {
    /// The edition that was shown.
    pub edition: Option<u64>,
    /// Which button was pressed.
    pub act: String,
    reply: Option<(usize, String)>,
    undo: Option<Spot>,
    sample: Option<String>,
    with: Vec<u64>,
    texts: BTreeMap<Spot, String>,
}

/// What was typed and not taken.
pub(super) type Refused = BTreeMap<Spot, (String, Fault)>;

impl Form {
    pub fn read(body: &[u8]) -> Form {
        let mut form = Form::default();
        for (name, value) in form_urlencoded::parse(body) {
            match name.as_ref() {
                "edition" => form.edition = value.trim().parse().ok(),
                "do" => form.act = value.into_owned(),
                "reply" => {
                    form.reply = value.split_once('=').and_then(|(at, key)| Some((at.parse().ok()?, key.to_owned())))
                }
                "undo" => form.undo = spot(&value),
                "sample" => form.sample = Some(value.into_owned()),
                "with" => form.with.extend(value.parse::<u64>().ok()),
                name => {
                    if let Some(spot) = spot(name) {
                        form.texts.insert(spot, value.trim().to_owned());
                    }
                }
            }
        }
        form
    }

    /// Lay the form on a report as it was shown. What is not taken comes back.
    pub fn lay(&self, filed: &mut Filed) -> Refused {
        let mut refused = Refused::new();
        // Compared with what the page showed, so that a text that was only sent along changes nothing.
        let shown: BTreeMap<Spot, String> = filed.lines().iter().map(|line| (line.at, text(line))).collect();
        for (at, typed) in &self.texts {
            let was = shown.get(at).map_or("", String::as_str);
            if typed == was || (matches!(at, Spot::Row(_)) && typed.is_empty() && !shown.contains_key(at)) {
                continue;
            }
            if let Err(fault) = filed.correct(*at, typed) {
                refused.insert(*at, (typed.clone(), fault));
            }
        }
        if let Some((reading, key)) = &self.reply
            && let Err(fault) = filed.answer(*reading, key)
        {
            refused.insert(Spot::Reading(*reading), (key.clone(), fault));
        }
        if let Some(spot) = self.undo {
            filed.take_back(spot);
        }
        match self.sample.as_deref() {
            Some("all") => filed.picked = Picked::All,
            Some(text) => {
                if let Ok(at) = text.parse() {
                    filed.picked = Picked::One(at);
                }
            }
            None => {}
        }
        filed.with.clone_from(&self.with);
        match self.act.as_str() {
            "away" => filed.put_away = true,
            "back" => filed.put_away = false,
            _ => {}
        }
        refused
    }

    /// The water to be taken: its place among those that the page showed.
    pub fn takes(&self) -> Option<usize> {
        self.act.strip_prefix("take-")?.parse().ok()
    }
}

/// What a line shows in its blank: nothing for one that was left out.
pub(super) fn text(line: &report::Line) -> String {
    if line.is_left_out() { String::new() } else { written(&line.reading) }
}

/// The name of a spot's blank.
pub(super) fn name(spot: Spot) -> String {
    match spot {
        Spot::Reading(at) => format!("r{at}"),
        Spot::Row(at) => format!("u{at}"),
    }
}

fn spot(name: &str) -> Option<Spot> {
    match name.split_at_checked(1)? {
        ("r", at) => at.parse().ok().map(Spot::Reading),
        ("u", at) => at.parse().ok().map(Spot::Row),
        _ => None,
    }
}
