//! What varies from request to request: the book, the day, the place under which the pages stand.

use setup::Book;

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
    /// The keeper's book.
    pub book: &'a mut dyn Book,
    /// Today's date where the keeper is.
    pub today: Today,
    /// The path under which the pages stand: `/`, or for instance `/tapmere/`.
    pub base: String,
    /// Seed for whatever draws at random.
    pub seed: u64,
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
