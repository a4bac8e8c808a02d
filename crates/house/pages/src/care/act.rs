//! The acts of today: each row one submit button, a square box, the word "done" with the hour, and the way back.

use care::start::SET_UP;
use care::{Act, Alarm, Day};
use maud::{Markup, html};
use quantity::Units;

use super::One;
use crate::parts;
use crate::sheet::Sheet;
use crate::words::{NB, capital, figures, glued, sentence};

/// The acts, and that nothing else is to be done. While a question is open only those stand here on which all agree.
pub(super) fn today(sheet: &Sheet, all: &[One]) -> Markup {
    let Some((first, _)) = all.split_first() else {
        return html! { p { "Several things are open at once. Answer the one above, and the next comes." } };
    };
    let shared = shared(all);
    let acts: Vec<&Act> = first.day.today.iter().filter(|act| shared.contains(&act.key.as_str())).collect();
    let whole = acts.len() == first.day.today.len();
    html! {
        @if !acts.is_empty() { ul.acts aria-label="Today’s acts" { @for act in &acts { li { (row(sheet, &first.day, act)) } } } }
        p {
            @if !whole { "The rest depends on the question above." }
            @else { (first.day.closes()) }
        }
    }
}

/// What the latest readings say that must not wait, with the way to Help now: before every act, whatever the answer is.
pub(super) fn alarms(sheet: &Sheet, all: &[One]) -> Markup {
    let mut alarms: Vec<&Alarm> = Vec::new();
    for alarm in all.iter().flat_map(|one| &one.day.alarms) {
        if !alarms.iter().any(|known| known.of == alarm.of && known.trouble == alarm.trouble) {
            alarms.push(alarm);
        }
    }
    html! { @if !alarms.is_empty() { div.must role="alert" { @for alarm in alarms {
        p {
            b.when { (capital(alarm.urgency.words())) ":" } " "
            "Your log of " (alarm.date.strftime("%-d %B")) ". "
            @for says in &alarm.says { (sentence(says)) " " }
            a href=(sheet.letter(&format!("help-now/{}", alarm.trouble))) { "Help now: " (alarm.title) }
        }
    } } } }
}

/// Keys of the acts that are the same whatever the answer is.
pub(super) fn shared<'a>(all: &'a [One]) -> Vec<&'a str> {
    let Some((first, others)) = all.split_first() else { return Vec::new() };
    let same = |act: &Act| others.iter().all(|other| other.day.act(&act.key) == Some(act));
    first.day.today.iter().filter(|act| same(act)).map(|act| act.key.as_str()).collect()
}

/// "Feed: 0.2 g", with the day from which it was carried on.
pub(super) fn named(sheet: &Sheet, act: &Act) -> String {
    let amount = if act.amount.is_empty() { String::new() } else { format!(": {}", act.amount) };
    let since = act.since.filter(|since| *since < sheet.now.date());
    let since = since.map(|since| format!(", since {}", super::short(since))).unwrap_or_default();
    format!("{}{amount}{since}", act.name)
}

/// A row of today, or of what is done along with the change.
pub(super) fn row(sheet: &Sheet, day: &Day, act: &Act) -> Markup {
    // What the food brings stands under "Food", with its why.
    let elsewhere = day.why("food").and_then(|_| day.act("feed")).and_then(|feed| feed.says.last());
    let say = |more: &str| said(sheet, act, elsewhere, more);
    match &act.done {
        Some(done) => html! {
            div class="act done" {
                span.box aria-hidden="true" {}
                span.say { (glued(&act.name)) @if !act.amount.is_empty() { ": " b { (glued(&act.amount)) } } }
                span.hour { "done, " (done.at.strftime("%-H:%M")) }
                button.again name="act" value=(format!("back@{}", act.key)) aria-label=(format!("Undo: {}", act.name)) { "Undo" }
            }
        },
        None if act.read_off => html! {
            a.act href=(format!("{}?kind=test", sheet.letter("log"))) {
                span.box aria-hidden="true" {}
                (say("Write what you read into the log."))
            }
        },
        None if act.key == SET_UP => html! {
            a.act href=(sheet.letter("start")) {
                span.box aria-hidden="true" {}
                (say(""))
            }
        },
        // What is not given is no button.
        None if act.writes.is_empty() => unticked(sheet, act),
        None => html! {
            button.act name="act" value=(format!("done@{}", act.key)) {
                span.box aria-hidden="true" {}
                (say(""))
            }
            (asked(sheet, act))
        },
    }
}

/// A row that is only read, cautions and all.
pub(super) fn unticked(sheet: &Sheet, act: &Act) -> Markup {
    html! { div.act { span.box aria-hidden="true" {} (said(sheet, act, None, "")) } }
}

fn said(sheet: &Sheet, act: &Act, elsewhere: Option<&String>, more: &str) -> Markup {
    let since = act.since.filter(|since| *since < sheet.now.date());
    html! {
        span.say {
            (glued(&act.name)) @if !act.amount.is_empty() { ": " b { (glued(&act.amount).replace(' ', NB)) } }
            @if let Some(since) = since { small.since { "Carried on from " (since.strftime("%A")) ", once: nothing is doubled." } }
            @for says in act.says.iter().filter(|says| Some(*says) != elsewhere) { small { (sentence(says)) } }
            @if !more.is_empty() { small { (more) } }
        }
    }
}

/// The name of the field for an amount of the keeper's own.
pub(super) fn field(act: &Act) -> String {
    format!("amount_{}", act.key)
}

/// What stands in that field before anything is typed.
pub(super) fn usual(units: &Units, ask: &care::Ask) -> String {
    ask.value.map_or_else(String::new, |value| figures(units, value, 3))
}

/// An amount that may differ from the planned one, or that only the scale tells.
fn asked(sheet: &Sheet, act: &Act) -> Markup {
    let Some(ask) = &act.asks else { return html! {} };
    let usual = usual(&sheet.units, ask);
    let field = field(act);
    let fault = sheet.said.refused.get(&field);
    let about = fault.map(|_| format!("about-{}", field.replace('_', "-")));
    html! {
        p.own {
            @if ask.value.is_some() { "Was it more or less? " } @else { "On the scale: " }
            span.nb {
                input.once name=(field) value=(sheet.typed(&field, &usual)) size="6" inputmode="decimal" autocomplete="off"
                    aria-label=(ask.says) aria-invalid=[fault.map(|_| "true")] aria-describedby=[about.as_ref()];
                (NB) (ask.unit)
            }
            " Then tick it off, or press Enter."
            @if let (Some(fault), Some(about)) = (fault, &about) { " " span.really id=(about) { (parts::faults(&fault.faults)) } }
        }
    }
}
