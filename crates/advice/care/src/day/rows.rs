//! Rows and days that need no planning: the act of a change, a line of the wall, a tank that is not set up yet.

use logbook::What;
use recipe::say::Pen;
use setup::Tank;

use super::acts::six_more;
use super::{Act, Ask, Day, Done, Later};
use crate::change::ChangeSheet;
use crate::log::Past;
use crate::start::SET_UP;
use crate::top_up::copper_untold;

/// What goes before the routine while a tank begins.
pub(super) const START_FIRST: &str =
    " In these first weeks the doses, changes and tests of ammonia are those of Start, which has the rest of its week.";

pub(super) fn kind_says(tank: &Tank) -> String {
    knowledge::book().routine.kind.get(&tank.kind()).map_or_else(String::new, |row| row.words.clone())
}

/// Nobody lives there and nothing was ever written down: there may be no water yet, so nothing is dosed, filled up or changed.
pub(super) fn not_set_up(tank: &Tank, past: &Past) -> Day {
    let mut act = Act::new(SET_UP, "Set the tank up first");
    act.says = vec![
        "Start has its day and its first weeks. Doses, topping up and changes stand here once it tells that the tank is filled."
            .to_owned(),
    ];
    let later = |date| Later { date, acts: Vec::new(), change: false };
    Day {
        date: past.today(),
        kind: tank.kind(),
        kind_says: kind_says(tank),
        alarms: Vec::new(),
        today: vec![act],
        also: Vec::new(),
        week: six_more(past.today()).map(later).collect(),
        every_day: Vec::new(),
        change_every_days: 0,
        change_weekday: tank.keeping.change_day,
        change: None,
        food: None,
        top_up: None,
        tests: Vec::new(),
        supplies: Vec::new(),
        whys: Vec::new(),
    }
}

/// "Every evening, bottle one: 5 mL".
pub(super) fn every_day(act: &Act) -> String {
    match act.name.strip_prefix("This ") {
        Some(name) => format!("Every {name}: {}", act.amount),
        None => format!("Every day, {}: {}", act.name.to_lowercase(), act.amount),
    }
}

/// The row of a change; `note` tells which water it pours, while the plan begins.
pub(super) fn change_act(
    tank: &Tank,
    sheet: &ChangeSheet,
    done: Option<Done>,
    past: &Past,
    note: String,
) -> Option<Act> {
    let pen = Pen::new(&tank.units);
    if sheet.stop.is_some() {
        return None;
    }
    let mut act = Act::new("change", "Change water");
    // What is done shows what was done.
    let logged = |what: &What| if let What::Change { litres } = what { Some(*litres) } else { None };
    let logged = done.as_ref().and_then(|_| past.amount_today(logged));
    act.amount = pen.litres(logged.unwrap_or(sheet.litres));
    act.says =
        vec!["In the order of the sheet below: plugs out with dry hands, 15 minutes, conditioner first.".to_owned()];
    act.since = sheet.since;
    act.done = done;
    act.writes = vec![What::Change { litres: quantity::round_significant(sheet.litres, 3) }];
    act.says.extend(copper_untold(tank));
    act.note = note;
    act.asks = Some(Ask {
        says: "Changed, litres".to_owned(),
        unit: "L".to_owned(),
        value: Some(quantity::round_significant(sheet.litres, 3)),
        most: Some(knowledge::book().routine.number.change_most_times.value * tank.geometry.true_l.value),
    });
    Some(act)
}
