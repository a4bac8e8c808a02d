//! Finding entries: a filter as SQL over the indexes.

use logbook::{Filter, Kept};
use rusqlite::types::Value;
use rusqlite::{Connection, params_from_iter};

use super::row::Texts;
use crate::leaf::Unread;

/// The entries that a filter lets through, the latest first. No more rows are read than are given back, but where words
/// are looked for.
pub(crate) fn find(book: &Connection, tank: u64, filter: &Filter) -> Result<Vec<Kept>, Unread> {
    let (last, mut texts) = (filter.last.unwrap_or(usize::MAX), Texts::default());
    let mut list = listed(book, (tank, filter), Query::Latest, last, &mut texts)?;
    if !filter.lately.is_empty() && list.len() < last {
        let earliest = listed(book, (tank, filter), Query::Earliest, 1, &mut texts)?;
        let other = |kept: &Kept| list.last().is_none_or(|last| last.id != kept.id);
        list.extend(earliest.into_iter().filter(other).collect::<Vec<_>>());
    }
    Ok(list)
}

/// Which entries come first.
#[derive(Clone, Copy, PartialEq)]
enum Query {
    /// The latest, those that are not late enough left out.
    Latest,
    /// The earliest of all.
    Earliest,
}

fn listed(
    book: &Connection,
    (tank, filter): (u64, &Filter),
    which: Query,
    most: usize,
    texts: &mut Texts,
) -> Result<Vec<Kept>, Unread> {
    let (sql, values) = query(tank, filter, which);
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
fn query(tank: u64, filter: &Filter, which: Query) -> (String, Vec<Value>) {
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
    for (kind, from) in filter.lately.iter().filter(|_| which == Query::Latest) {
        conditions += " AND (i.kind <> ? OR (i.second, i.nano) >= (?, ?))";
        values.push(Value::Text(kind.clone()));
        values.extend(moment(*from));
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
    let down = if which == Query::Latest { " DESC" } else { "" };
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
        let (sql, values) = query(1, filter, Query::Latest);
        let mut query = book.prepare(&sql).unwrap();
        let mut rows = query.query(params_from_iter(values)).unwrap();
        let (mut count, most) = (0, filter.last.unwrap_or(usize::MAX));
        while count < most && rows.next().unwrap().is_some() {
            count += 1;
        }
        drop(rows);
        (count, query.get_status(StatementStatus::VmStep))
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
        // What is not late enough, or of another kind, is passed over in the index: no row of it is looked up.
        let [_, _, lately, all] = &filters;
        let ((few, _), (many, _)) = (work(&long, lately), work(&long, all));
        assert!(10 * few < many, "{few} of {many}");
        for filter in [lately, all] {
            let (sql, values) = query(1, filter, Query::Latest);
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
