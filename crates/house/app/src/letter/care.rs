//! Today and the week in plain text: the acts, the change as one sheet, tests, what runs out.

use care::{Act, Care, ChangeSheet, Day, Outcome};
use jiff::civil::Date;
use quantity::Units;
use setup::Question;

use super::text::Text;

/// Today.
pub fn today(day: &Day, name: &str, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head(&format!("{}, {name}", long(day.date)));
    t.say(&day.kind_says);
    for alarm in &day.alarms {
        t.head(&format!("{}: your log of {}", recipe::say::capital(alarm.urgency.words()), short(alarm.date)));
        alarm.says.iter().for_each(|says| t.say(says));
        t.say(&format!("Help now: {} (`tapmere help-now {}`).", alarm.title, alarm.trouble));
    }
    t.head("Today");
    acts(&mut t, &day.today, day.date);
    t.say(day.closes());
    if let Some(sheet) = day.change.as_ref().filter(|sheet| sheet.date == day.date) {
        change(&mut t, sheet);
    }
    let soon: Vec<&str> = day.supplies.iter().filter(|s| s.soon).map(|s| s.says.as_str()).collect();
    if !soon.is_empty() {
        t.head("Before the next change");
        soon.iter().for_each(|says| t.point(says));
    }
    t.finish()
}

/// Today, and the week under it.
pub fn week(day: &Day, name: &str, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head("This week");
    if !day.also.is_empty() {
        t.say("Due, and no more than today holds: on whichever day suits.");
        acts(&mut t, &day.also, day.date);
    }
    for later in &day.week {
        let names: Vec<String> = later.acts.iter().map(|act| named(act, later.date)).collect();
        let change = later.change.then(|| "change water".to_owned());
        let all: Vec<String> = change.into_iter().chain(names).collect();
        let said = if all.is_empty() { "nothing beside every day".to_owned() } else { all.join("; ") };
        t.point(&format!("{}: {said}.", short(later.date)));
    }
    if let Some(sheet) = day.change.as_ref().filter(|sheet| sheet.date != day.date) {
        change(&mut t, sheet);
    }
    if let Some(settles) = &day.top_up {
        t.head("Topping up");
        t.say(&settles.says);
    }
    if !day.tests.is_empty() {
        t.head("Tests");
    }
    for kit in &day.tests {
        let due = kit.due.map_or_else(|| "by no calendar".to_owned(), short);
        let kept = if kit.at_hand == Some(false) { ", no kit at hand" } else { "" };
        t.point(&format!("{} ({due}{kept}): {}", recipe::say::capital(&kit.name), kit.says));
    }
    if !day.supplies.is_empty() {
        t.head("What runs out");
        day.supplies.iter().for_each(|supply| t.point(&supply.says));
    }
    format!("{}\n{}", today(day, name, units), t.finish())
}

/// While a question is open: what would follow from each reply, and nothing on any of them.
pub fn open(question: &Question, outcomes: &[Outcome], show: &dyn Fn(&Day) -> String) -> String {
    let mut t = Text::new(&Units::default());
    t.head("One question first");
    t.say(&question.ask);
    let mut out = t.finish();
    for (reply, outcome) in question.replies.iter().zip(outcomes) {
        let mut t = Text::new(&Units::default());
        t.head(&format!("If {}: {}", reply.label, reply.means));
        out += &format!("\n{}\n", t.finish());
        out += &match outcome.care.as_ref() {
            Care::Settled { day } => show(day),
            Care::Open { question, outcomes } => open(question, outcomes, show),
        };
    }
    out
}

fn acts(t: &mut Text, acts: &[Act], today: Date) {
    for act in acts {
        if let Some(done) = &act.done {
            t.row(&format!("[x] {}, done {}", named(act, today), done.at.strftime("%-H:%M")));
            continue;
        }
        t.row(&format!("[ ] {}", named(act, today)));
        act.says.iter().for_each(|says| t.point(says));
    }
}

/// "Feed: 0.2 g", with the day from which it was carried on.
fn named(act: &Act, today: Date) -> String {
    let amount = if act.amount.is_empty() { String::new() } else { format!(": {}", act.amount) };
    let since = act.since.filter(|since| *since < today).map(|since| format!(" (since {})", short(since)));
    format!("{}{amount}{}", act.name, since.unwrap_or_default())
}

fn change(t: &mut Text, sheet: &ChangeSheet) {
    if let Some(stop) = &sheet.stop {
        t.head("No change of water");
        t.say(stop);
        return;
    }
    t.head(&format!("The change of {}", short(sheet.date)));
    sheet.first.iter().for_each(|says| t.say(says));
    for (n, step) in sheet.steps.iter().enumerate() {
        t.step(n + 1, &step.say);
        step.minds.iter().for_each(|mind| t.point(mind));
    }
    if !sheet.along.is_empty() {
        t.say("Along with it, while the plugs are out:");
        sheet.along.iter().for_each(|act| t.point(&format!("{}. {}", act.name, act.says.join(" "))));
    }
    if !sheet.after.is_empty() {
        t.say("When it is done, into the new water:");
        sheet.after.iter().for_each(|act| t.point(&format!("{}: {}. {}", act.name, act.amount, act.says.join(" "))));
    }
}

/// "Thursday, 11 June".
fn long(date: Date) -> String {
    date.strftime("%A, %-d %B").to_string()
}

/// "Thu 11 June".
fn short(date: Date) -> String {
    date.strftime("%a %-d %B").to_string()
}
