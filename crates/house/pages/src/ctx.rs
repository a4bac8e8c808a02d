//! What varies from request to request: the tanks, the day, the place under which the pages stand.

use jiff::ZonedDateTime;
use setup::{Book, Shelf, TankEntry};

/// A civil date. The clock is `app`'s.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Today {
    /// For instance 2026.
    pub year: i32,
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
    /// 1 Monday to 7 Sunday.
    pub weekday: u8,
}

impl Today {
    /// The day of a moment, where its zone is.
    pub fn of(now: &ZonedDateTime) -> Today {
        Today {
            year: now.year().into(),
            month: now.month().unsigned_abs(),
            day: now.day().unsigned_abs(),
            weekday: now.weekday().to_monday_one_offset().unsigned_abs(),
        }
    }

    /// For instance "Thursday, 11 June".
    pub fn words(self) -> String {
        const DAYS: [&str; 7] = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
        const MONTHS: [&str; 12] = [
            "January",
            "February",
            "March",
            "April",
            "May",
            "June",
            "July",
            "August",
            "September",
            "October",
            "November",
            "December",
        ];
        let pick = |list: &[&'static str], n: u8| list.get(usize::from(n).wrapping_sub(1)).copied().unwrap_or("");
        format!("{}, {} {}", pick(&DAYS, self.weekday), self.day, pick(&MONTHS, self.month))
    }
}

/// What a request is answered from.
pub struct Ctx<'a> {
    /// The keeper's tanks.
    pub shelf: &'a mut dyn Shelf,
    /// Now, in the keeper's time zone.
    pub now: ZonedDateTime,
    /// The path under which the pages stand: `/`, or for instance `/tapmere/`.
    pub base: String,
    /// Seed for whatever draws at random.
    pub seed: u64,
}

/// Where a page stands: below which path, of which tank, beside which others.
#[derive(Clone, Copy)]
pub struct Place<'a> {
    /// The path under which the pages stand.
    pub base: &'a str,
    /// The tank of the letter; of a page that is no letter, the one that was edited last, if somebody looked.
    pub tank: Option<u64>,
    /// All tanks; `None`: nobody looked.
    pub tanks: Option<&'a [TankEntry]>,
}

impl<'a> Place<'a> {
    /// A place that knows of no tank.
    pub fn alone(base: &'a str) -> Place<'a> {
        Place { base, tank: None, tanks: None }
    }

    /// The address of a page that is no letter. `path` has no slash in front; the empty path is the door itself.
    pub fn href(&self, path: &str) -> String {
        href(self.base, path)
    }

    /// The address of a letter of this tank; the door where there is no tank.
    pub fn letter(&self, key: &str) -> String {
        self.tank.map_or_else(|| self.href(""), |tank| letter(self.base, tank, key))
    }
}

/// The tank of an address among those of a shelf: by its number, written as it is.
pub fn tank_at(tanks: &[TankEntry], id: Option<&str>) -> Option<u64> {
    tanks.iter().map(|tank| tank.id).find(|tank| id == Some(tank.to_string().as_str()))
}

/// One tank, opened.
pub struct Desk<'a> {
    /// Where its letters stand.
    pub place: Place<'a>,
    /// Now, in the keeper's time zone.
    pub now: ZonedDateTime,
    /// Its book.
    pub book: &'a mut dyn Book,
}

/// The address of a letter of a tank.
pub fn letter(base: &str, tank: u64, key: &str) -> String {
    href(base, &format!("tank/{tank}/{key}"))
}

/// The address of a page below `base`. `path` has no slash in front; the empty path is the door itself.
pub fn href(base: &str, path: &str) -> String {
    let trimmed = base.trim_matches('/');
    if trimmed.is_empty() { format!("/{path}") } else { format!("/{trimmed}/{path}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_stay_below_the_base() {
        assert_eq!(href("/", "help-now"), "/help-now");
        assert_eq!(href("/tapmere/", "help-now"), "/tapmere/help-now");
        assert_eq!(href("/tapmere", ""), "/tapmere/");
    }

    #[test]
    fn a_date_that_is_none_is_no_panic() {
        let today = Today { year: 2026, month: 0, day: 0, weekday: 9 };
        assert_eq!(today.words(), ", 0 ");
    }
}
