//! Changes that are smaller than the usual one: a plan that begins smaller, a pause by the log, a reading (harm rules 6, 7, 8).
//!
//! Checked by: `tests/harm_begin.rs`, `tests/harm_care.rs`, `tests/harm_alarm.rs`.

use recipe::say::Pen;
use recipe::{Begin, BeginReading, Plan};
use setup::Tank;

use super::{ChangeSheet, Step};
use crate::day::Long;
use crate::start_words::counted;

/// What makes a change smaller than the usual one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Small<'a> {
    /// The pause by the log.
    pub long: Option<Long>,
    /// The plan's beginning, not through yet.
    pub begin: Option<&'a Begin>,
    /// The most at once by today's readings, 0 to 1.
    pub read: Option<f64>,
    /// Ammonia or nitrite shows, or may: nothing that raises pH goes in, and no salts of another size of change.
    pub no_salts: bool,
}

impl Small<'_> {
    /// Whether anything keeps it below the usual share.
    pub fn is_below(&self, usual: f64) -> bool {
        self.long.is_some() || self.begin.is_some() || self.bare() || self.read.is_some_and(|most| most < usual)
    }

    /// Whether no salts go into it: those of the plan's beginning are weighed for its own litres.
    pub fn bare(&self) -> bool {
        let less = |most: f64| self.begin.is_some_and(|begin| most < begin.share);
        self.no_salts || self.read.is_some_and(less)
    }

    /// The sheet of the usual change made smaller, with what says so before its steps.
    pub fn shrink(&self, sheet: &mut ChangeSheet, tank: &Tank, plan: &Plan, by_hose: bool, pen: &Pen) {
        if let Some(begin) = self.begin.filter(|_| self.long.is_none()) {
            smaller(sheet, tank, begin.share);
            if !self.bare() {
                sheet.salts_of_begin = salts(begin);
                sheet.first.splice(0..0, begins(plan, begin, by_hose, pen));
            }
        }
        if let Some(long) = self.long {
            sheet.salts_of_begin = None;
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
        if self.bare() && !plan.new_water.salts.is_empty() {
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
fn begins(plan: &Plan, begin: &Begin, by_hose: bool, pen: &Pen) -> Vec<String> {
    let mut says: Vec<String> = plan.first_changes().into_iter().map(|note| note.text.clone()).collect();
    let (what, aim) = match begin.reading {
        BeginReading::Conductivity => ("conductivity", format!("{} µS/cm", pen.n(begin.new_water, 3))),
        BeginReading::Alkalinity => ("alkalinity", pen.alkalinity(begin.new_water)),
        BeginReading::Hardness => ("hardness", pen.hardness(begin.new_water)),
    };
    says.push(match begin.changes {
        Some(_) => format!(
            "Each that you tick counts. The tank is there already? Write a test of {what} into the log (new water has {aim}): then the usual change stands \
             here.{}",
            if by_hose { " By bucket and not by hose, so that no more goes in." } else { "" }
        ),
        None => format!("Write a test of {what} into the log before each change: it decides how much."),
    });
    says
}

/// The step of the salts: what is weighed for so little water stands in the plan's own sentence.
fn salts(begin: &Begin) -> Option<Step> {
    let say = "The salts for this smaller change go in now; stir until it is clear.".to_owned();
    (!begin.salts.is_empty()).then(|| Step { say, minds: vec![begin.salts.clone()] })
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
