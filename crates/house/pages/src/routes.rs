//! The one table of routes, and the pages that a menu may show.

use matchit::Router;
use maud::Markup;
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::Logs;
use crate::blank::Blank;
use crate::ctx::{href, letter};
use crate::help_now::HELP_NOW;
use crate::sheet::Sheet;

/// A letter.
pub struct Page {
    /// Its word in addresses: `/tank/{id}/KEY`.
    pub key: &'static str,
    /// Word of the menu.
    pub name: &'static str,
    /// The keeper's question that it answers.
    pub asks: &'static str,
    /// The blanks that it brings in.
    pub blanks: fn(&Setup, &Tank, &Plan) -> Vec<Blank>,
    /// The verses.
    pub write: fn(&Sheet) -> Markup,
    /// What it has to do with the logbook, if anything.
    pub logs: Option<Logs>,
    /// It stands in the menu at the top and at the thumb, not only in the list at the foot.
    pub front: bool,
    /// What is typed into it is read and not kept: its form's first button sends it by GET.
    pub asks_back: bool,
    /// It reads what the address says beside what the house has to say of the last change.
    pub reads_address: bool,
}

/// Every letter that exists, in the order of the menus.
pub const PAGES: &[Page] = &[
    Page {
        key: "care",
        name: "Care",
        asks: "what to do today",
        blanks: crate::care::blanks,
        write: crate::care::write,
        logs: Some(crate::care::LOGS),
        front: true,
        asks_back: false,
        reads_address: false,
    },
    Page {
        key: "tap",
        name: "Tap",
        asks: "what my water brings",
        blanks: crate::tap::blanks,
        write: crate::tap::write,
        logs: None,
        front: true,
        asks_back: false,
        reads_address: false,
    },
    Page {
        key: "salts",
        name: "Salts",
        asks: "what to weigh and give",
        blanks: crate::salts::blanks,
        write: crate::salts::write,
        logs: None,
        front: true,
        asks_back: false,
        reads_address: false,
    },
    Page {
        key: "tank",
        name: "Tank",
        asks: "the glass and what lives in it",
        blanks: crate::tank::blanks,
        write: crate::tank::write,
        logs: None,
        front: true,
        asks_back: false,
        reads_address: false,
    },
    Page {
        key: "log",
        name: "Log",
        asks: "what I saw and did",
        blanks: crate::log::blanks,
        write: crate::log::write,
        logs: Some(crate::log::LOGS),
        front: true,
        asks_back: false,
        reads_address: true,
    },
    Page {
        key: "start",
        name: "Start",
        asks: "set-up day, the first weeks, the first animals",
        blanks: crate::start::blanks,
        write: crate::start::write,
        logs: Some(crate::start::LOGS),
        front: false,
        asks_back: true,
        reads_address: true,
    },
    Page {
        key: "away",
        name: "Away",
        asks: "two weeks away, a missed dose, another tap, the end",
        blanks: crate::away::blanks,
        write: crate::away::write,
        logs: Some(crate::away::LOGS),
        front: false,
        asks_back: true,
        reads_address: true,
    },
    Page {
        key: "measure",
        name: "Measure",
        asks: "numbers that only I can find",
        blanks: crate::measure::blanks,
        write: crate::measure::write,
        logs: Some(crate::measure::LOGS),
        front: false,
        asks_back: true,
        reads_address: true,
    },
    Page {
        key: "signs",
        name: "Signs",
        asks: "what algae and leaves say",
        blanks: crate::signs::blanks,
        write: crate::signs::write,
        logs: Some(crate::signs::LOGS),
        front: false,
        asks_back: true,
        reads_address: true,
    },
];

/// The letter to which the door leads.
pub const FRONT: &str = "care";
/// The letter to which the first visit leads: what to weigh comes before what to do each day.
pub const PLAN: &str = "salts";
/// The first visit, and every further tank.
pub const FIRST: &str = "first";
const CALENDAR: &str = "care.ics";

/// A file that is compiled in.
pub struct Asset {
    name: &'static str,
    /// Media type.
    pub kind: &'static str,
    /// Content.
    pub body: &'static str,
    mark: u64,
}

impl Asset {
    /// Path with a mark of the content, so that a browser never mixes two versions.
    pub fn address(&self) -> String {
        format!("{}?v={:016x}", self.name, self.mark)
    }

    /// A file; its mark is worked out when the program is made.
    const fn of(name: &'static str, kind: &'static str, body: &'static str) -> Asset {
        Asset { name, kind, body, mark: mark(body) }
    }
}

/// FNV-1a over 64 bits (Fowler, Noll and Vo): not a secret, only a mark that changes with the text.
const fn mark(text: &str) -> u64 {
    let bytes = text.as_bytes();
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    let mut i = 0;
    while i < bytes.len() {
        hash = (hash ^ bytes[i] as u64).wrapping_mul(0x0000_0100_0000_01b3);
        i += 1;
    }
    hash
}

/// The stylesheet, in the order in which later rules may lean on earlier ones.
pub static LOOK: Asset = Asset::of(
    "look.css",
    "text/css; charset=utf-8",
    concat!(
        include_str!("../assets/look/tokens.css"),
        include_str!("../assets/look/frame.css"),
        include_str!("../assets/look/letter.css"),
        include_str!("../assets/look/first.css"),
        include_str!("../assets/look/report.css"),
        include_str!("../assets/look/drawings.css"),
        include_str!("../assets/look/section.css"),
        include_str!("../assets/look/notice.css"),
        include_str!("../assets/look/labels.css"),
        include_str!("../assets/look/once.css"),
        include_str!("../assets/look/care.css"),
        include_str!("../assets/look/log.css"),
        include_str!("../assets/look/signs.css"),
        include_str!("../assets/look/needs.css"),
        include_str!("../assets/look/print.css"),
        include_str!("../assets/look/print-notice.css"),
        include_str!("../assets/look/print-care.css"),
    ),
);

/// The module that makes letters live.
pub static SCRIPT: Asset =
    Asset::of("letter.js", "text/javascript; charset=utf-8", include_str!("../assets/letter.js"));

/// What an address leads to.
#[derive(Clone, Copy)]
pub enum Route {
    /// `/`
    Door,
    /// The notice, and a page for each trouble: they need no book.
    HelpNow,
    /// From a trouble to the same trouble of the last tank.
    HelpMine,
    /// A trouble with the figures of a tank.
    HelpTank,
    /// A file that is compiled in.
    Asset(&'static Asset),
    /// Four questions, from which a tank is made.
    First,
    /// Where a water report is given.
    Reports,
    /// One water report.
    Report,
    /// The log of a tank as a table.
    LogTable,
    /// A letter of a tank.
    Letter(&'static Page),
    /// The routine of a tank as a file for a calendar.
    Calendar,
}

/// Whether an address below `base` is answered without the keeper's tanks: whoever asks for it waits for no book.
pub fn stands_alone(base: &str, path: &str) -> bool {
    let trouble = path.strip_prefix(&href(base, &format!("{HELP_NOW}/"))).is_some_and(|rest| !rest.contains('/'));
    trouble || [HELP_NOW, LOOK.name, SCRIPT.name].iter().any(|name| href(base, name) == path)
}

/// The addresses of the letters that stand beside one of a tank; none beside any other page.
pub fn beside(base: &str, address: &str) -> Vec<String> {
    let path = address.split('?').next().unwrap_or("");
    let rest = path.strip_prefix(&href(base, "tank/")).and_then(|rest| rest.split_once('/'));
    let Some(tank) = rest.and_then(|(tank, _)| tank.parse().ok()) else { return Vec::new() };
    PAGES.iter().map(|page| letter(base, tank, page.key)).filter(|letter| letter != address).collect()
}

/// The table.
pub fn table() -> Router<Route> {
    let mut router = Router::new();
    let mut rows = vec![
        ("/".to_owned(), Route::Door),
        (format!("/{HELP_NOW}"), Route::HelpNow),
        (format!("/{HELP_NOW}/{{trouble}}"), Route::HelpNow),
        (format!("/{HELP_NOW}/{{trouble}}/mine"), Route::HelpMine),
        (format!("/tank/{{id}}/{HELP_NOW}/{{trouble}}"), Route::HelpTank),
        (format!("/{FIRST}"), Route::First),
        ("/tank/{id}/log.csv".to_owned(), Route::LogTable),
        (format!("/{}", LOOK.name), Route::Asset(&LOOK)),
        (format!("/{}", SCRIPT.name), Route::Asset(&SCRIPT)),
    ];
    rows.push((format!("/tank/{{id}}/{CALENDAR}"), Route::Calendar));
    rows.extend(PAGES.iter().map(|page| (format!("/tank/{{id}}/{}", page.key), Route::Letter(page))));
    rows.push((format!("/tank/{{id}}/{}", crate::tap::report::KEY), Route::Reports));
    rows.push((format!("/tank/{{id}}/{}/{{report}}", crate::tap::report::KEY), Route::Report));
    for (path, route) in rows {
        // Two rows of one path would be a mistake of this table; the tests walk over every page of it.
        let inserted = router.insert(path, route);
        debug_assert!(inserted.is_ok());
    }
    router
}
