//! The week of the start in which a tank is, as Care carries it out: one row of the weeks of Start, with its doses, its changes and its
//! tests of ammonia.
//!
//! **What.** A tank that was filled by its log within the weeks that Start shows has that week's plan: bottles by the week's share, the
//! week's change in place of the usual one (`recipe::other_change`).
//!
//! **Equation.** week = whole days since the filling ÷ 7 + 1.
//!
//! **Range.** From the filling on; before it, after the last week shown, and without a date of filling there is none.
//!
//! **Source.** `data/start.toml`, common practice.
//!
//! **Checked by** `tests/by_hand_first_weeks.rs`.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use knowledge::book;
use logbook::Kept;
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use super::ground::{Path, path};
use super::judge::animals_in;
use super::weeks::{Ammonia, Week, filled_on, one};
use super::{lives, weeks_since};

/// A tank in its first weeks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Begun {
    /// The day on which it was filled.
    pub filled: Date,
    path: Path,
    /// Whether animals live in it; `None`: nothing says so.
    lives: Option<bool>,
}

impl Begun {
    /// `None`: it is in none of the weeks of Start, or the log does not know when it was filled.
    pub fn of(tank: &Tank, log: &[Kept], now: &ZonedDateTime) -> Option<Begun> {
        let filled = filled_on(log).filter(|filled| *filled <= now.date())?;
        let begun = Begun { filled, path: path(tank), lives: lives(tank, animals_in(log, now)) };
        begun.number(now.date()).map(|_| begun)
    }

    /// The number of the week in which a day lies.
    fn number(&self, on: Date) -> Option<u32> {
        let week = weeks_since(self.filled, on);
        (f64::from(week) <= book().start.weeks_shown.value).then_some(week)
    }

    /// The row of a day; `None`: the weeks are over.
    pub fn week(&self, tank: &Tank, plan: &Plan, on: Date) -> Option<Week> {
        Some(one(tank, plan, self.path, Some(self.filled), self.number(on)?, self.lives))
    }

    /// Days from one change to the next on a day.
    pub fn every_days(&self, tank: &Tank, plan: &Plan, on: Date) -> u32 {
        self.week(tank, plan, on).map_or(plan.change.every_days, |week| week.every_days)
    }

    /// The plan as it is on a day: the bottles and the change of that week.
    pub fn plan(&self, tank: &Tank, plan: &Plan, on: Date) -> Plan {
        let mut plan = plan.clone();
        let Some(week) = self.week(tank, &plan, on) else { return plan };
        if week.dose_share < 1.0 {
            plan.bottles.retain(|_| week.dose_share > 0.0);
            for bottle in &mut plan.bottles {
                bottle.daily_ml *= week.dose_share;
                bottle.slip = format!("Week {} of the start: only part of the dose. {}", week.week, bottle.slip);
            }
        }
        if week.every_days > 0 && (week.change_share, week.every_days) != (plan.change.share, plan.change.every_days) {
            plan = recipe::other_change(tank, &plan, week.change_share, week.every_days);
        }
        plan
    }

    /// What stands before a change of the ground's own: why so much, and that it is for a tank without animals (harm rules 7 and 15).
    pub fn says(&self, tank: &Tank, usual: &Plan, on: Date) -> Option<String> {
        let week = self.week(tank, usual, on).filter(|week| week.ammonia == Ammonia::BeforeEachChange)?;
        let (pen, start) = (Pen::new(&tank.units), &book().start);
        let listed = tank.animals.any().then(|| {
            format!(
                "Does one live in it already? Then not this change but {} and no more, and write on Log who came.",
                pen.litres(usual.change.litres)
            )
        });
        let half = format!("{} %", pen.n(100.0 * week.change_share, 2));
        let rhythm = match f64::from(week.week) {
            n if n <= start.leach_often_weeks.value => format!(
                "so {half} every {} for {} weeks, then once a week",
                recipe::say::several(&pen.n(start.leach_every_days.value, 2), "day", "days"),
                pen.n(start.leach_often_weeks.value, 2)
            ),
            n if n <= start.leach_weeks.high() => format!("so {half} once a week"),
            _ => "or did".to_owned(),
        };
        let says = format!(
            "Week {} of the start: this ground gives off ammonia, {rhythm}, until a test before the change shows the lowest step of the kit. Only \
             while no animal is in it, snails included. {} {}",
            week.week,
            book().harm.limit.ammonia_unionised_mg_n_per_l.say,
            listed.unwrap_or_default()
        );
        Some(says.trim_end().to_owned())
    }
}
