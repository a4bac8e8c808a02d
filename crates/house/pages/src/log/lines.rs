//! Lines to be filled in: one sentence for each kind of entry, for a new one and for one that is mended.

use knowledge::{SightGroup, book};
use logbook::written::{KINDS, NAMES, Texts, WHO};
use maud::{Markup, html};

use crate::act::Form;
use crate::parts;
use crate::sheet::{Sheet, first_tank};
use crate::words::{capital, glued};

/// The name of a field: of the line of a kind, or of the line that is mended.
pub fn name(line: &str, name: &str) -> String {
    format!("log-{line}-{name}")
}

/// What stood in the fields of a line.
pub fn texts(form: &Form, line: &str) -> Texts {
    let text = |field: &&str| {
        Some(((*field).to_owned(), form.get(&name(line, field))?.replace("\r\n", "\n").trim().to_owned()))
    };
    NAMES.iter().filter_map(text).collect()
}

/// A line in the making.
pub struct Line<'a> {
    /// The sheet.
    pub sheet: &'a Sheet<'a>,
    /// The kind, or what the mended line is called.
    pub line: &'a str,
    /// What stands in the fields if nothing was typed.
    pub usual: &'a Texts,
}

impl Line<'_> {
    fn shown(&self, field: &str) -> String {
        self.sheet.typed(&name(self.line, field), self.usual.get(field).map_or("", String::as_str))
    }

    /// A field that is typed into, with the fault of what was typed.
    pub fn text(&self, field: &str, says: &str, class: &str) -> Markup {
        self.input(field, says, class, "text", None)
    }

    fn input(&self, field: &str, says: &str, class: &str, kind: &str, list: Option<&str>) -> Markup {
        let name = name(self.line, field);
        let wrong = self.sheet.said.refused.contains_key(&name).then_some("true");
        let about = wrong.map(|_| format!("about-{name}"));
        html! {
            input class=(format!("entry {class}")) type=(kind) name=(name) value=(self.shown(field)) list=[list] aria-label=(says)
                autocomplete="off" aria-invalid=[wrong] aria-describedby=[about];
        }
    }

    /// A note: of several lines where it has them.
    pub fn note(&self) -> Markup {
        if !self.shown("note").contains('\n') {
            return self.text("note", "A note", "note");
        }
        html! { textarea class="entry note" name=(name(self.line, "note")) rows="3" aria-label="A note" { (self.shown("note")) } }
    }

    /// The moment, empty: now.
    pub fn moment(&self, says: &str) -> Markup {
        self.input("at", says, "moment", "datetime-local", None)
    }

    fn pick(&self, field: &str, says: &str, groups: &[(&str, Vec<(String, String)>)]) -> Markup {
        let (name, shown) = (name(self.line, field), self.shown(field));
        let wrong = self.sheet.said.refused.contains_key(&name).then_some("true");
        let about = wrong.map(|_| format!("about-{name}"));
        let known = groups.iter().flat_map(|(_, options)| options).any(|(value, _)| *value == shown);
        let option =
            |(value, words): &(String, String)| html! { option value=(value) selected[*value == shown] { (words) } };
        html! {
            span.pick { select class="entry" name=(name) aria-label=(says) aria-invalid=[wrong] aria-describedby=[about] {
                @if !known { option value=(shown) selected { @if shown.is_empty() { "choose" } @else { (shown) } } }
                @for (head, options) in groups {
                    @if head.is_empty() { @for one in options { (option(one)) } }
                    @else { optgroup label=(head) { @for one in options { (option(one)) } } }
                }
            } }
        }
    }

    /// What was refused of this line, each beside its name.
    pub fn faults(&self) -> Markup {
        html! {
            @for field in NAMES {
                @if let Some(refused) = self.sheet.said.refused.get(&name(self.line, field)) {
                    span.really id=(format!("about-{}", name(self.line, field))) { "“" (refused.typed) "” I did not take. " (parts::faults(&refused.faults)) }
                }
            }
            (self.asked())
        }
    }

    /// The question about what is far from usual, with the button that says that it was so.
    fn asked(&self) -> Markup {
        let Some(refused) = self.sheet.said.refused.get(&name(self.line, super::REALLY)) else { return html! {} };
        let act = match self.line {
            super::MEND => format!("{} {}", super::MEND, self.sheet.typed(super::MENDED, "")),
            kind => format!("add {kind}"),
        };
        html! {
            span.really {
                @for fault in &refused.faults { (glued(&fault.what)) " " }
                "Look at the number and its point, or, if it was so: "
                button.again name="act" value=(format!("{act}{}{}", super::SURE, self.shown("amount").trim())) { "yes, write it" }
            }
        }
    }

    /// The sentence of a kind.
    pub fn sentence(&self, kind: &str) -> Markup {
        let unit = |words: &str| crate::words::NB.to_owned() + words;
        match kind {
            "test" => self.test(),
            "dose" => html! {
                (self.text("amount", "Millilitres given", "short")) (unit("mL")) " of "
                (self.input("what", "From which bottle", "wide", "text", Some("log-bottles")))
            },
            "change" => html! { (self.volume("Water changed")) },
            "top_up" => html! { (self.volume("Water topped up")) },
            "food" => html! { (self.text("amount", "Food, grams", "short")) (unit("g")) },
            "trim" => html! {
                "cut, " (self.text("amount", "What was cut, grams, wet; empty if it was not weighed", "short")) (unit("g")) " wet"
            },
            "sight" => self.sight(),
            "animals" => html! {
                (self.pick("what", "Who", &[("", WHO.map(|who| (who.to_owned(), who.to_owned())).to_vec())]))
                ": " (self.text("amount", "How many more; fewer: -1", "short")) " more (or -1), counted "
                (self.text("counted", "How many were counted", "short"))
            },
            "bought" => html! {
                (self.input("what", "What was bought", "wide", "text", Some("log-products"))) ", "
                (self.text("amount", "How much in the pack, g or mL", "short")) (unit("g or mL")) ", for "
                (self.text("price", "The price", "short"))
            },
            "photo" => html! { (self.text("what", "The name of the photograph's file", "wide")) },
            "done" => {
                let acts = book().routine.act.iter().map(|(key, row)| (key.clone(), row.name.clone())).collect();
                html! { (self.pick("what", "What was done", &[("", acts)])) }
            }
            _ => html! {},
        }
    }

    fn volume(&self, says: &str) -> Markup {
        let litre = quantity::Volume::litres(100.0).print(&self.sheet.units);
        let unit = litre.split_once(' ').map_or("L", |(_, unit)| unit);
        html! { (self.text("amount", &format!("{says}, {unit}"), "short")) (crate::words::NB) (unit) }
    }

    fn test(&self) -> Markup {
        let rows = &book().readings;
        let units = &self.sheet.units;
        let option = |(key, row): (&String, &knowledge::ReadingRow)| {
            let unit = glued(&logbook::unit(row, units)).replacen("mg/L ", "mg/L as ", 1).replace("as as ", "as ");
            (key.clone(), if unit.is_empty() { row.name.clone() } else { format!("{}, {unit}", row.name) })
        };
        let often = ["nitrate", "phosphate", "potassium", "iron", "alkalinity", "hardness", "ph", "temperature"];
        let first = often.iter().filter_map(|key| rows.get_key_value(*key)).map(option).collect();
        let others = rows.iter().filter(|(key, _)| !often.contains(&key.as_str())).map(option).collect();
        let mut kits: Vec<(String, String)> = vec![(String::new(), "any kit".to_owned())];
        for (key, kit) in rows.values().flat_map(|row| &row.kit) {
            if !kits.iter().any(|(known, _)| known == key) {
                kits.push((key.clone(), kit.words.clone()));
            }
        }
        let sure = [("", "plainly"), ("about", "about"), ("not_sure", "not sure")];
        let sure = sure.map(|(value, words)| (value.to_owned(), words.to_owned())).to_vec();
        html! {
            (self.pick("what", "What was read", &[("Often", first), ("Others", others)]))
            " reads " (self.text("amount", "What it reads; with < in front if it shows less", "short"))
            ", " (self.pick("sure", "How sure", &[("", sure)])) ", by " (self.pick("kit", "By which kit or instrument", &[("", kits)]))
        }
    }

    fn sight(&self) -> Markup {
        let groups: Vec<(&str, Vec<(String, String)>)> = SightGroup::ALL
            .iter()
            .map(|group| {
                let of = book().sights.iter().filter(|(_, sight)| sight.group == *group);
                (group.words(), of.map(|(key, sight)| (key.clone(), sight.name.clone())).collect())
            })
            .collect();
        html! { (self.pick("what", "What was seen", &groups)) }
    }
}

/// What the fields of bottle and purchase propose.
pub fn proposals(sheet: &Sheet) -> Markup {
    let mut bottles: Vec<&str> = Vec::new();
    for reading in crate::salts::reading::readings(sheet.answer) {
        for bottle in &reading.plan.bottles {
            if !bottles.contains(&bottle.name.as_str()) {
                bottles.push(&bottle.name);
            }
        }
    }
    let owned = first_tank(sheet.answer).is_some();
    html! {
        datalist #log-bottles { @for bottle in bottles { option value=(bottle) {} } }
        datalist #log-products { @if owned { @for product in book().products.values() { option value=(product.name) {} } } }
    }
}

/// What a kind is called at the head of its line.
pub fn kind_words(kind: &str) -> String {
    capital(KINDS.iter().find(|(key, _)| *key == kind).map_or(kind, |(_, words)| words))
}
