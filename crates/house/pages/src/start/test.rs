//! The start test on the letter: how far it is by the log, its steps, and the buttons that write into the log.

use care::start::{AMMONIA, GIVEN, NITRITE, SET_UP, Start};
use logbook::{Entry, Log, Reading, Sure, What};
use maud::{Markup, html};
use quantity::{Fault, Ion, chem::atom};

use super::One;
use crate::act::{Act, Form, Refused, add};
use crate::salts::reading::{Reading as Read, by_reading};
use crate::sheet::Sheet;
use crate::start::told::{ask, list_of};
use crate::words::{figures, sentence};

/// Ways in which kits count: the value in the form, words, and what a milligram of it is of nitrogen.
fn bases(nitrogen_in: Ion) -> [(&'static str, String, f64); 2] {
    let ion = atom::N / nitrogen_in.molar_mass();
    [("n", "as N".to_owned(), 1.0), ("ion", format!("as {}", nitrogen_in.formula()), ion)]
}

/// What the buttons write.
pub fn acts(act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let done = |key: &str| Entry { at: act.now.clone(), what: What::Done { act: key.to_owned() }, note: String::new() };
    match act.act {
        "set_up" => add(act, log, vec![done(SET_UP)])?,
        "start_test" => add(act, log, vec![done(GIVEN)])?,
        "read" => add(act, log, readings(act)?)?,
        _ => {}
    }
    Ok(String::new())
}

/// Both readings, or what is wrong with them.
fn readings(act: &Act) -> Result<Vec<Entry>, Refused> {
    let of = [("read_ammonia", AMMONIA, Ion::Ammonium), ("read_nitrite", NITRITE, Ion::Nitrite)];
    let all = of.map(|(field, key, ion)| reading(act.form, field, key, ion));
    let (mut entries, mut faults) = (Vec::new(), Vec::new());
    for one in all {
        match one {
            Ok(Some(reading)) => {
                entries.push(Entry { at: act.now.clone(), what: What::Test(reading), note: String::new() })
            }
            Ok(None) => {}
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() && entries.is_empty() {
        let fault = Fault::new("there is no reading to write").expected("a number of ammonia or nitrite, mg/L");
        faults.push(("read_ammonia".to_owned(), fault));
    }
    if faults.is_empty() { Ok(entries) } else { Err(Refused(faults)) }
}

/// What was typed of one reading; nothing is decided on a basis that nobody told.
fn reading(form: &Form, field: &str, key: &str, ion: Ion) -> Result<Option<Reading>, (String, Fault)> {
    let told = |name: &str| form.get(name).map(|text| text.trim()).filter(|text| !text.is_empty());
    let Some(text) = told(field) else { return Ok(None) };
    let fault = |fault: Fault| (field.to_owned(), fault);
    let value = quantity::parse_number(text).map_err(fault)?;
    if !(0.0..=50.0).contains(&value) {
        return Err(fault(Fault::new(format!("{text} mg/L is not possible")).expected("0 to 50 mg/L")));
    }
    let basis = told(&format!("{field}_as"));
    let found = bases(ion).into_iter().find(|(word, ..)| basis == Some(word));
    let Some((_, _, to_n)) = found else {
        return Err(fault(
            Fault::new("counted as what?")
                .expected("as N, or as the ion")
                .hint("the packet of the kit says it; the two differ much"),
        ));
    };
    let below = told(&format!("{field}_low")).is_some();
    Ok(Some(Reading { of: key.to_owned(), value: value * to_n, below, error: None, kit: None, sure: Sure::Plain }))
}

/// The verse.
pub fn verse(sheet: &Sheet, all: &[One]) -> Markup {
    let Some((_, first)) = all.first() else { return html! {} };
    let readings: Vec<Read> = all.iter().map(|(r, _)| r.clone()).collect();
    let start = |r: &Read| all.iter().find(|(other, _)| std::ptr::eq(other.plan, r.plan)).map(|(_, start)| start);
    let dose = by_reading(
        &readings,
        |r| start(r).map(|s| s.test.steps.clone()),
        |r| html! { @if let Some(s) = start(r) { (list_of(sheet, &s.test.steps, &s.whys, true)) (grams(sheet, s)) } },
    );
    let may_give = first.test.animals_in != Some(true) && !first.test.stage.may_come();
    sheet.verse("The start test", html! {
        p { b { (sentence(&first.test.says)) } }
        @if !first.test.rounds.is_empty() { (rounds(sheet, first)) }
        @if may_give { (dose) } @else if !first.test.steps.is_empty() { (list_of(sheet, &first.test.steps, &first.whys, true)) }
        @if may_give {
            p.on-screen {
                "Given? No animal is in it, a snail neither: " button.again name="act" value="start_test" { "I gave the ammonia now" }
            }
        }
        p.on-screen {
            "Read today: ammonia " (field(sheet, "read_ammonia", "Ammonia", Ion::Ammonium))
            ", nitrite " (field(sheet, "read_nitrite", "Nitrite", Ion::Nitrite))
            ". " button.again name="act" value="read" { "Write both down" }
        }
    })
}

fn grams(sheet: &Sheet, start: &Start) -> Markup {
    let (Some(grams), Some(why)) = (start.test.grams, start.why("start-test")) else { return html! {} };
    html! { p.small { (sheet.out(&format!("{} g", figures(&sheet.units, grams, 2)), why)) " each time: its letter says why." } }
}

fn field(sheet: &Sheet, name: &str, says: &str, ion: Ion) -> Markup {
    let (basis, low) = (format!("{name}_as"), format!("{name}_low"));
    let chosen = sheet.typed(&basis, "");
    html! {
        (ask(sheet, name, says, "mg/L", "")) " "
        span.pick { select.once name=(basis) aria-label=(format!("{says}: counted as")) {
            option value="" selected[chosen.is_empty()] { "counted as?" }
            @for (word, words, _) in bases(ion) { option value=(word) selected[chosen == word] { (words) } }
        } }
        " " label.nb { input type="checkbox" name=(low) value="yes" checked[sheet.typed(&low, "") == "yes"]; " the kit’s lowest step" }
    }
}

fn rounds(sheet: &Sheet, start: &Start) -> Markup {
    let value = |read: &Option<care::start::Read>| match read {
        None => "no reading".to_owned(),
        Some(read) => format!("{}{}", if read.lowest_step { "≤ " } else { "" }, figures(&sheet.units, read.value, 2)),
    };
    html! {
        div.scroll { table {
            thead { tr { th scope="col" { "Given" } th scope="col" { "Ammonia" } th scope="col" { "Nitrite" } th scope="col" { "Passed" } } }
            tbody { @for round in &start.test.rounds { tr {
                th scope="row" { (round.given.strftime("%-d %b, %H:%M").to_string()) }
                td { (value(&round.ammonia)) }
                td { (value(&round.nitrite)) }
                td { (match round.passed { Some(true) => "yes", Some(false) => "no", None => "not read" }) }
            } } }
        } }
        p.small { "mg/L as N, a day after." }
    }
}
