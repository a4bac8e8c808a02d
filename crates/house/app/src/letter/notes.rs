//! Starts, absences, moves and endings in plain text: notes under their heads, numbered where they are an order of work.

use care::away::Away;
use care::missed::{Doubled, Missed};
use care::moving::Moving;
use care::start::Start;
use quantity::amount::Temperature;
use quantity::number::Digits;
use quantity::{Measure, Units};
use recipe::Note;

use super::text::Text;

/// Notes in order.
fn steps(t: &mut Text, head: &str, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    t.head(head);
    for (i, note) in notes.iter().enumerate() {
        t.step(i + 1, &line(note));
    }
}

/// Notes in no order.
fn points(t: &mut Text, head: &str, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    t.head(head);
    notes.iter().for_each(|note| t.point(&line(note)));
}

fn line(note: &Note) -> String {
    format!("{}: {}", recipe::say::capital(&note.about), note.text)
}

/// A start.
pub fn start(start: &Start, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head(&start.answer);
    points(&mut t, "Have at hand", &start.hand);
    steps(&mut t, "Set-up day, in this order", &start.day);
    t.head("Week by week");
    let head = ["week", "light, h", "change, L", "every, days", "dose"].map(str::to_owned);
    let row = |w: &care::start::Week| {
        let from = w.from.map_or_else(String::new, |date| format!(" ({date})"));
        let dose = if w.dose_share <= 0.0 { "none".to_owned() } else { format!("{} %", t.n(100.0 * w.dose_share, 2)) };
        let every = if w.every_days == 0 { "none".to_owned() } else { w.every_days.to_string() };
        [format!("{}{from}", w.week), t.n(w.light_h, 2), t.n(w.change_l, 3), every, dose]
    };
    let rows: Vec<[String; 5]> = std::iter::once(head).chain(start.weeks.iter().map(row)).collect();
    t.table(&rows);
    for alike in start.weeks.chunk_by(|a, b| a.tests == b.tests) {
        let [first, .., last] = alike else {
            alike.iter().for_each(|w| t.point(&format!("Week {}, test: {}.", w.week, w.tests)));
            continue;
        };
        t.point(&format!("Weeks {} to {}, test: {}.", first.week, last.week, first.tests));
    }
    points(&mut t, "In these weeks", &start.weeks_notes);
    t.head("The start test");
    t.say(&start.test.says);
    for (i, note) in start.test.steps.iter().enumerate() {
        t.step(i + 1, &line(note));
    }
    steps(&mut t, "Bringing animals home", &start.home.steps);
    t.finish()
}

/// An absence, the card last.
pub fn away(away: &Away, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head(&away.answer);
    steps(&mut t, "Before you go", &away.before);
    points(&mut t, "While you are away", &away.reduced);
    steps(&mut t, "When you are back", &away.back);
    if let Some(card) = &away.card {
        t.head(&format!("The sitter’s card: {}", card.tank));
        t.say("Call: ____________________  or: ____________________");
        for visit in &card.visits {
            t.row(&format!("[ ] {}: {}.", visit.when, visit.acts.join("; ")));
        }
        for (head, lines) in
            [("Before you pour", &card.pouring), ("Each time, a look", &card.look), ("Never", &card.never)]
        {
            t.head(head);
            lines.iter().for_each(|line| t.point(line));
        }
        t.head("Something is wrong");
        for (i, line) in card.wrong.iter().enumerate() {
            t.step(i + 1, line);
        }
    }
    t.finish()
}

/// Doses that were missed.
pub fn missed(missed: &Missed, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head(&missed.answer);
    missed.notes.iter().for_each(|note| t.point(&line(note)));
    t.finish()
}

/// Bottles given several times on a day.
pub fn doubled(doubled: &[Doubled], units: &Units) -> String {
    let mut t = Text::new(units);
    if doubled.is_empty() {
        t.head("Nothing is dosed in this tank.");
    }
    for d in doubled {
        t.head(&format!("{}, {} times on one day", d.bottle, t.n(d.times, 3)));
        t.say(&d.says);
    }
    t.finish()
}

/// The way to another tap.
pub fn moving(m: &Moving, units: &Units) -> String {
    let mut t = Text::new(units);
    t.head(&m.answer);
    if !m.steps.is_empty() {
        let hard = units.hardness;
        let marks = |marks: &care::moving::Marks| {
            let one = |mark: Option<f64>, digits| mark.map_or_else(|| "?".to_owned(), |mark: f64| t.n(mark, digits));
            let per = |measure| hard.meq_per_unit(measure);
            [
                one(marks.alkalinity_meq_per_l.map(|meq| meq / per(Measure::Alkalinity)), 2),
                one(marks.hardness_meq_per_l.map(|meq| meq / per(Measure::Hardness)), 2),
                one(marks.conductivity_25_us_per_cm, 3),
            ]
        };
        let coldest = |s: &care::moving::Step| {
            let floor =
                s.may_be_too_cold().then(|| Temperature::celsius(s.coldest_c).print_with(units, Digits::Decimals(0)));
            floor.unwrap_or_default()
        };
        let names = [hard.name(Measure::Alkalinity), hard.name(Measure::Hardness)];
        let row = |first: String, litres: String, cold: String, m: &care::moving::Marks| {
            let [a, h, us] = marks(m);
            [first, litres, cold, a, h, us]
        };
        let head = ["day", "new water", "at least", names[0], names[1], "µS/cm"].map(str::to_owned);
        let mut rows = vec![head, row("now".into(), String::new(), String::new(), &m.from)];
        rows.extend(m.steps.iter().map(|s| row(s.day.to_string(), t.volume(s.litres), coldest(s), &s.after)));
        rows.push(row("the new water".into(), String::new(), String::new(), &m.to));
        t.table(&rows);
    }
    m.notes.iter().for_each(|note| t.point(&line(note)));
    t.finish()
}

/// The end of a tank.
pub fn stopping(notes: &[Note], units: &Units) -> String {
    let mut t = Text::new(units);
    steps(&mut t, "The end of a tank, in this order", notes);
    t.finish()
}
