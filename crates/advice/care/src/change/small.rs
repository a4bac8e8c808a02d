//! Changes that are smaller than the usual one: a plan that begins smaller, a pause by the log, a reading (harm rules 6, 7, 8).
//!
//! Checked by: `tests/harm_begin.rs`, `tests/harm_care.rs`, `tests/harm_alarm.rs`.

use recipe::say::{Pen, count};
use recipe::{BeginReading, Plan};
use setup::Tank;
use trouble::NextChange;

use super::{ChangeSheet, Step};
use crate::day::Long;
use crate::start_words::counted;

/// What makes a change smaller than the usual one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Small<'a> {
    /// The pause by the log.
    pub long: Option<Long>,
    /// The next of the changes with which the plan begins, not through yet.
    pub begin: Option<NextChange<'a>>,
    /// The most at once by today's readings, 0 to 1.
    pub read: Option<f64>,
    /// Ammonia or nitrite shows, or may: nothing that raises pH goes in, and no salts of another size of change.
    pub no_salts: bool,
}

impl Small<'_> {
    /// Whether anything keeps it below the usual share.
    pub fn is_below(&self, usual: f64) -> bool {
        let begins = self.begin.is_some_and(|next| next.share < usual);
        self.long.is_some() || begins || self.no_salts || self.read.is_some_and(|most| most < usual)
    }

    /// Whether it is another than the plan's own: smaller, or with another part of the salts.
    pub fn passes(&self, usual: f64) -> bool {
        self.begin.is_some() || self.is_below(usual)
    }

    /// The sheet of the usual change made smaller, with what says so before its steps.
    pub fn shrink(&self, sheet: &mut ChangeSheet, tank: &Tank, plan: &Plan, by_hose: bool, pen: &Pen) {
        let next = self.begin.filter(|_| self.long.is_none());
        if let Some(next) = next {
            smaller(sheet, tank, next.share);
            if !self.no_salts {
                sheet.first.splice(0..0, begins(next, sheet.share < plan.change.share && by_hose, pen));
            }
        }
        if let Some(long) = self.long {
            a_tenth(sheet, tank, long, by_hose, pen);
        }
        if let Some(most) = self.read.filter(|most| *most < sheet.share) {
            smaller(sheet, tank, most);
            let litres = pen.litres(sheet.litres);
            let says = format!(
                "By your readings: {litres} at once and no more, ammonia tested before each. Help now says when again."
            );
            sheet.first.insert(0, says);
        }
        if let Some(next) = next.filter(|_| !self.no_salts) {
            sheet.salts_of_begin = salts(tank, plan, next, sheet.share);
        }
        if self.no_salts && !plan.new_water.salts.is_empty() {
            let litres = pen.litres(sheet.litres);
            sheet.first.insert(0, format!("By your readings: no salts into these {litres}, for they may raise pH."));
        }
    }
}

/// Another share, by as few buckets as may be carried.
fn smaller(sheet: &mut ChangeSheet, tank: &Tank, share: f64) {
    (sheet.share, sheet.litres) = (share, share * tank.geometry.true_l.value);
    let most = tank.at_hand.bucket_l.value.min(knowledge::book().harm.limit.bucket_l.value());
    let buckets = if most > 0.0 { (sheet.litres / most - 1e-9).ceil().max(1.0) } else { 1.0 };
    sheet.buckets = (buckets as u32, sheet.litres / buckets);
}

/// What stands before a change with which the plan begins.
fn begins(next: NextChange, by_bucket: bool, pen: &Pen) -> Vec<String> {
    let begin = next.begin;
    let mut says = vec![begin.says.clone()];
    if !begin.steps.is_empty() {
        let left = match next.left {
            Some(left) if left > 1 => {
                format!(", and about {} more follow before the plan's own", count(left as u32 - 1))
            }
            _ => String::new(),
        };
        says.push(format!("This one: {} of the salts{left}.", pen.percent(next.part)));
    }
    let (what, aim) = match begin.reading {
        BeginReading::Conductivity => ("conductivity", format!("{} µS/cm", pen.n(begin.new_water, 3))),
        BeginReading::Alkalinity => ("alkalinity", pen.alkalinity(begin.new_water)),
        BeginReading::Hardness => ("hardness", pen.hardness(begin.new_water)),
    };
    says.push(match begin.changes {
        Some(_) => format!(
            "Each that you tick counts. The tank is there already? Write a test of {what} into the log (new water has {aim}): then the usual change stands \
             here.{}",
            if by_bucket { " By bucket and not by hose, so that no more goes in." } else { "" }
        ),
        None => format!("Write a test of {what} into the log before each change: it decides how much."),
    });
    says
}

/// The step of the salts of a change with which the plan begins, for its own litres.
fn salts(tank: &Tank, plan: &Plan, next: NextChange, share: f64) -> Option<Step> {
    let part = next.part * share / plan.change.share;
    let say = match next.begin.steps.is_empty() {
        false => "Then the salts for this change, a part of the plan's; stir until it is clear.",
        true => "The salts for this smaller change go in now; stir until it is clear.",
    };
    let mut minds = recipe::part_of_salts(tank, plan, part);
    let some = !minds.is_empty();
    minds.extend(plan.new_water.ph_test.clone());
    some.then(|| Step { say: say.to_owned(), minds: minds.iter().map(|mind| recipe::say::capital(mind)).collect() })
}

/// A small change by bucket, and how many of them come before the usual one.
fn a_tenth(sheet: &mut ChangeSheet, tank: &Tank, long: Long, by_hose: bool, pen: &Pen) {
    let harm = &knowledge::book().harm;
    let usual = pen.litres(sheet.litres);
    let tenth = harm.limit.old_tank_change_percent.value() / 100.0;
    if tenth < sheet.share {
        // What else would keep the plan's change small is of a larger one.
        sheet.first = Vec::new();
    }
    smaller(sheet, tank, tenth.min(sheet.share));
    let since = match long.changes {
        0 => String::new(),
        n => format!(", and {} since", counted(f64::from(n), "change was written down", "changes were written down")),
    };
    let then = match long.tenths {
        0 => String::new(),
        n => format!(
            " The hour is for an emergency; without one {} a day, {} yet; then {usual} as ever.",
            pen.litres(sheet.litres),
            counted(f64::from(n), "time", "times")
        ),
    };
    let buckets = if by_hose { " By bucket and not by hose, so that no more goes in." } else { "" };
    sheet.first.insert(
        0,
        format!(
            "By your log it was not changed for {} days{since}. {}{then}{buckets} Was it changed and not written down? Then write it down with its day.",
            long.days, harm.rule.old_acid_tank.say
        ),
    );
}
