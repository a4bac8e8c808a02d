//! What a tick writes into the logbook, and what takes it back.

use care::Done;
use logbook::{Entry, Log};
use quantity::{Digits, Fault, format_number, parse_number};

use super::{
    One,
    act::{field, usual},
    days,
};
use crate::act::{Act, Refused};

/// Most that a keeper may write as an amount, in grams or litres: more is a slip of the pen.
const MOST: f64 = 100_000.0;

/// The act of Enter in a field: the one whose amount was typed.
pub(super) const TYPED: &str = "typed";

/// `done@KEY` writes what the act of today says, `back@KEY` takes out what was written today.
pub(super) fn acts(act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let kept = care::logged(log, act.now)?;
    let all = days(act.answer, &kept, act.now);
    let typed = if act.act == TYPED { typed(act, &all)?.map(|key| format!("done@{key}")) } else { None };
    let meant = typed.as_deref().unwrap_or(act.act);
    if let Some(key) = meant.strip_prefix("done@") {
        let Some(today) = agreed(&all, key) else { return Ok(String::new()) };
        // A button that was pressed twice writes once.
        if today.done.is_some() || today.writes.is_empty() {
            return Ok(String::new());
        }
        let most = today.asks.as_ref().and_then(|ask| Some((ask.most?, ask.unit.as_str())));
        let typed = act.form.get(&field(today)).map(|text| text.trim()).filter(|text| !text.is_empty());
        let amount =
            typed.map(|text| amount(text, most)).transpose().map_err(|fault| Refused(vec![(field(today), fault)]))?;
        let planned = today.asks.as_ref().and_then(|ask| ask.value);
        // What was shown rounded and sent along is not the keeper's own amount.
        let own = amount.filter(|amount| planned.is_none_or(|planned| (amount - planned).abs() > 0.005 * planned));
        let entry = |what| Entry { at: act.now.clone(), what, note: today.note.clone() };
        let entries: Vec<Entry> = today.writes_with(own).into_iter().map(entry).collect();
        let asked = entries.iter().filter(|_| own.is_some()).find_map(|entry| care::really(act.answer, entry, &kept));
        if let Some(asked) = asked {
            let fault = Fault::new(format!("{} Nothing was written", asked)).hint("if it was so, write it on Log");
            return Err(Refused(vec![(field(today), fault)]));
        }
        log.add(entries)?;
    } else if let Some(key) = meant.strip_prefix("back@") {
        for id in all.first().and_then(|one| one.day.act(key)).and_then(|act| act.done.as_ref()).map_or(&[][..], ids) {
            log.remove(*id)?;
        }
    }
    Ok(String::new())
}

/// The act in whose field Enter was pressed: a form does not say in which, so it is the one whose amount is not as it was
/// shown, or the only one that has a field. `None`: it is done already, or has no field any more.
fn typed(act: &Act, all: &[One]) -> Result<Option<String>, Fault> {
    let units = crate::sheet::first_tank(act.answer).map(|tank| tank.units).unwrap_or_default();
    let Some((first, _)) = all.split_first() else { return Ok(None) };
    let open: Vec<&care::Act> = first
        .day
        .today
        .iter()
        .chain(&first.day.also)
        .chain(first.day.change.iter().flat_map(|change| change.along.iter().chain(&change.after)))
        .chain(first.day.supplies.iter().filter_map(|supply| supply.renew.as_ref()))
        .filter(|today| {
            today.done.is_none() && act.form.contains_key(&field(today)) && agreed(all, &today.key).is_some()
        })
        .collect();
    let own = |today: &&&care::Act| {
        let usual = today.asks.as_ref().map(|ask| usual(&units, ask)).unwrap_or_default();
        act.form.get(&field(today)).is_some_and(|text| text.trim() != usual)
    };
    let own: Vec<&&care::Act> = open.iter().filter(own).collect();
    match (own.as_slice(), open.as_slice()) {
        ([today], _) => Ok(Some(today.key.clone())),
        ([], [today]) => Ok(Some(today.key.clone())),
        (_, []) => Ok(None),
        _ => Err(Fault::new("I can’t tell which of the acts you mean, so I wrote none")
            .hint("press the act itself: it takes the amount beside it")),
    }
}

fn ids(done: &Done) -> &[u64] {
    &done.ids
}

/// An act that is the same whatever the answer to an open question is.
pub(super) fn agreed<'a>(all: &'a [One], key: &str) -> Option<&'a care::Act> {
    let (first, others) = all.split_first()?;
    let act = first.day.act(key)?;
    others.iter().all(|other| other.day.act(key) == Some(act)).then_some(act)
}

/// An amount; more than `most` of its unit is refused with what is possible.
fn amount(text: &str, most: Option<(f64, &str)>) -> Result<f64, Fault> {
    let number = parse_number(text)?;
    if let Some((most, unit)) = most.filter(|(most, _)| *most > 0.0 && number > *most) {
        let most = format_number(most, Digits::Significant(3));
        return Err(Fault::new(format!("{text} {unit} can’t be meant for this tank: nothing was written"))
            .expected(format!("at most {most} {unit}"))
            .hint("look at the point in the number, and tick it off again"));
    }
    let good = number.is_finite() && (0.0..=MOST).contains(&number);
    good.then_some(number).ok_or_else(|| Fault::new(format!("`{text}` is no amount")).expected("a number, 0 or more"))
}
