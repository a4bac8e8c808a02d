//! Finding entries: a filter as SQL over the indexes.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use logbook::written::KINDS;
use logbook::{Filter, Kept};
use rusqlite::types::Value;
use rusqlite::{Connection, params_from_iter};

use super::row::Texts;
use crate::leaf::Unread;

/// The entries that a filter lets through, the latest first. No more rows are read than are given back, but where words
/// are looked for, and of several kinds the last ones of each.
pub(crate) fn find(book: &Connection, tank: u64, filter: &Filter) -> Result<Vec<Kept>, Unread> {
    let (last, mut texts) = (filter.last.unwrap_or(usize::MAX), Texts::default());
    if filter.kinds.len() < 2 && filter.lately.is_empty() {
        return listed(book, (tank, filter), Order::LatestFirst, last, &mut texts);
    }
    let mut list = Vec::new();
    for one in by_kind(filter) {
        list.extend(listed(book, (tank, &one), Order::LatestFirst, last, &mut texts)?);
    }
    list.sort_unstable_by_key(|kept| Reverse((kept.entry.at.timestamp(), kept.id)));
    list.truncate(last);
    if !filter.lately.is_empty() && list.len() < last {
        let earliest = listed(book, (tank, filter), Order::EarliestFirst, 1, &mut texts)?;
        let there = list.last().map(|kept| kept.id);
        list.extend(earliest.into_iter().filter(|kept| Some(kept.id) != there));
    }
    Ok(list)
}

/// The same filter for each kind by itself, from that moment on from which the kind is wanted: a stretch of an index.
fn by_kind(filter: &Filter) -> Vec<Filter> {
    let all = KINDS.iter().map(|(kind, _)| *kind);
    let kinds: BTreeSet<&str> =
        if filter.kinds.is_empty() { all.collect() } else { filter.kinds.iter().map(String::as_str).collect() };
    let one = |kind: &str| {
        let lately = filter.lately.iter().filter(|(of, _)| of == kind).map(|(_, from)| *from);
        let (from, kinds) = (lately.max().max(filter.from), vec![kind.to_owned()]);
        Filter { from, kinds, lately: Vec::new(), ..filter.clone() }
    };
    kinds.into_iter().map(one).collect()
}

/// Which entries come first.
#[derive(Clone, Copy, PartialEq)]
enum Order {
    LatestFirst,
    EarliestFirst,
}

fn listed(
    book: &Connection,
    (tank, filter): (u64, &Filter),
    order: Order,
    most: usize,
    texts: &mut Texts,
) -> Result<Vec<Kept>, Unread> {
    let (sql, values) = query(tank, filter, order);
    let mut query = book.prepare_cached(&sql)?;
    let mut rows = query.query(params_from_iter(values))?;
    let mut list = Vec::new();
    while list.len() < most
        && let Some(row) = rows.next()?
    {
        let found = texts.held(tank, row)?;
        if filter.lets_through(&found.entry) {
            list.push(Kept { id: found.number, entry: found.entry });
        }
    }
    Ok(list)
}

/// The entries are picked in an index alone, and only those that are picked are looked up. The index is named, so that a book
/// without statistics is read as quickly as one with them.
fn query(tank: u64, filter: &Filter, order: Order) -> (String, Vec<Value>) {
    let mut values = vec![Value::Integer(tank.cast_signed())];
    let mut conditions = String::new();
    let mut index = "log_entry_by_time";
    let moment = |at: jiff::Timestamp| [Value::Integer(at.as_second()), Value::Integer(at.subsec_nanosecond().into())];
    for (sign, end) in [(">=", filter.from), ("<", filter.to)] {
        if let Some(at) = end {
            conditions += &format!(" AND (i.second, i.nano) {sign} (?, ?)");
            values.extend(moment(at));
        }
    }
    if !filter.kinds.is_empty() {
        let places = vec!["?"; filter.kinds.len()].join(", ");
        conditions += &format!(" AND i.kind IN ({places})");
        values.extend(filter.kinds.iter().cloned().map(Value::Text));
        if filter.kinds.len() == 1 {
            index = "log_entry_by_kind";
        }
    }
    if let Some(of) = &filter.of {
        conditions += " AND i.reading = ?";
        values.push(Value::Text(of.clone()));
        index = "log_entry_by_reading";
    }
    if let Some(words) = &filter.words {
        conditions += " AND instr(e.words, ?) > 0";
        values.push(Value::Text(words.to_lowercase()));
    }
    let down = if order == Order::LatestFirst { " DESC" } else { "" };
    let sql = format!(
        "SELECT e.number, e.text, e.seal FROM log_entry AS i INDEXED BY {index} \
         CROSS JOIN log_entry AS e ON e.tank = i.tank AND e.number = i.number \
         WHERE i.tank = ?{conditions} ORDER BY i.second{down}, i.nano{down}, i.number{down}"
    );
    (sql, values)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use jiff::{ToSpan, ZonedDateTime};
    use logbook::{Entry, What};
    use rusqlite::StatementStatus;

    use super::*;
    use crate::log::row;
    use crate::migrate;

    fn now() -> ZonedDateTime {
        "2026-06-11T09:00:00+02:00[Europe/Berlin]".parse().unwrap()
    }

    /// A log of so many days: each day ten meals and ten notes, and on each tenth day a change of water.
    fn book(days: i64) -> Connection {
        let mut book = Connection::open_in_memory().unwrap();
        migrate::run(&mut book, migrate::MIGRATIONS).unwrap();
        book.execute("INSERT INTO tank DEFAULT VALUES", []).unwrap();
        let all = book.unchecked_transaction().unwrap();
        for number in 0..20 * days {
            let what = match number {
                n if n % 200 == 7 => What::Change { litres: 25.0 },
                n if n % 2 == 0 => What::Food { grams: 0.1 },
                _ => What::Words,
            };
            let at = now().checked_sub((70 * number).minutes()).unwrap();
            let entry = Entry { at, what, note: format!("entry {number}") };
            row::put(&all, 1, number.cast_unsigned() + 1, &entry).ok().unwrap();
        }
        all.commit().unwrap();
        book
    }

    /// Rows that a filter gives, and the steps of SQLite's machine that it takes to find them.
    fn work(book: &Connection, filter: &Filter) -> (usize, i32) {
        let (mut count, mut steps) = (0, 0);
        for one in if filter.kinds.len() < 2 { vec![filter.clone()] } else { by_kind(filter) } {
            let (sql, values) = query(1, &one, Order::LatestFirst);
            let mut query = book.prepare(&sql).unwrap();
            let mut rows = query.query(params_from_iter(values)).unwrap();
            let most = filter.last.map_or(usize::MAX, |last| count + last);
            while count < most && rows.next().unwrap().is_some() {
                count += 1;
            }
            drop(rows);
            steps += query.get_status(StatementStatus::VmStep);
        }
        (count, steps)
    }

    fn ago(days: i64) -> Option<jiff::Timestamp> {
        Some(now().checked_sub(days.days()).unwrap().timestamp())
    }

    /// Work is counted, not timed: ten times the log is no more of it.
    #[test]
    fn a_longer_log_is_no_more_work() {
        let (short, long) = (book(60), book(600));
        let of = |kinds: &[&str]| kinds.iter().map(|kind| (*kind).to_owned()).collect();
        let some = Filter { from: ago(30), kinds: of(&["change", "food"]), ..Filter::default() };
        let filters = [
            Filter { last: Some(40), ..Filter::default() },
            Filter { last: Some(5), kinds: of(&["change"]), ..Filter::default() },
            Filter { lately: vec![("food".to_owned(), ago(2).unwrap())], ..some.clone() },
            some,
        ];
        for filter in &filters {
            let (rows, steps) = work(&long, filter);
            assert!(rows > 0 && steps > 0);
            assert_eq!(work(&short, filter), (rows, steps), "{filter:?}");
        }
        // What is not late enough is not even passed by.
        let [_, _, lately, all] = &filters;
        let ((few, less), (many, more)) = (work(&long, lately), work(&long, all));
        assert!(10 * few < many && 5 * less < more, "{few} rows in {less} steps, {many} in {more}");
        for one in filters.iter().take(2).cloned().chain(by_kind(lately)) {
            let (sql, values) = query(1, &one, Order::LatestFirst);
            let mut plan = long.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).unwrap();
            let lines = plan.query_map(params_from_iter(values), |row| row.get::<_, String>(3)).unwrap();
            let lines: Vec<String> = lines.map(Result::unwrap).collect();
            assert!(lines.len() == 2 && lines[0].starts_with("SEARCH i USING COVERING INDEX"), "{lines:?}");
            assert!(lines[1].starts_with("SEARCH e USING PRIMARY KEY"), "{lines:?}");
        }
    }

    #[test]
    fn what_is_not_late_enough_is_left_out_but_the_earliest() {
        let book = book(60);
        let kinds = ["change", "food"].map(str::to_owned).to_vec();
        let all = Filter { from: ago(30), kinds, ..Filter::default() };
        let whole = find(&book, 1, &all).ok().unwrap();
        let lately = Filter { lately: vec![("food".to_owned(), ago(2).unwrap())], ..all };
        let found = find(&book, 1, &lately).ok().unwrap();
        assert_eq!(found.last(), whole.last());
        let early = found.iter().filter(|kept| Some(kept.entry.at.timestamp()) < ago(2));
        assert_eq!(early.filter(|kept| kept.entry.what.kind() == "food").count(), 1);
    }
}
