//! Finding entries: a filter as SQL over the indexes.

use logbook::{Filter, Kept};
use rusqlite::types::Value;
use rusqlite::{Connection, params_from_iter};

use super::row::{COLUMNS, held, raw};
use crate::leaf::Unread;

/// The entries that a filter lets through, the latest first. No more rows are read than are given back, but where words
/// are looked for.
pub(crate) fn find(book: &Connection, tank: u64, filter: &Filter) -> Result<Vec<Kept>, Unread> {
    let last = filter.last.unwrap_or(usize::MAX);
    let (sql, values) = query(tank, filter);
    let mut query = book.prepare_cached(&sql)?;
    let mut rows = query.query(params_from_iter(values))?;
    let mut list = Vec::new();
    while list.len() < last
        && let Some(row) = rows.next()?
    {
        let found = held(tank, raw(row)?)?;
        if filter.lets_through(&found.entry) {
            list.push(Kept { id: found.number, entry: found.entry });
        }
    }
    Ok(list)
}

/// The index is named, so that a book without statistics is read as quickly as one with them.
fn query(tank: u64, filter: &Filter) -> (String, Vec<Value>) {
    let mut values = vec![Value::Integer(tank.cast_signed())];
    let mut conditions = String::new();
    let mut index = "log_entry_by_time";
    for (sign, end) in [(">=", filter.from), ("<", filter.to)] {
        if let Some(at) = end {
            conditions += &format!(" AND (second, nano) {sign} (?, ?)");
            values.extend([Value::Integer(at.as_second()), Value::Integer(at.subsec_nanosecond().into())]);
        }
    }
    if !filter.kinds.is_empty() {
        let places = vec!["?"; filter.kinds.len()].join(", ");
        conditions += &format!(" AND kind IN ({places})");
        values.extend(filter.kinds.iter().cloned().map(Value::Text));
        if filter.kinds.len() == 1 {
            index = "log_entry_by_kind";
        }
    }
    if let Some(of) = &filter.of {
        conditions += " AND reading = ?";
        values.push(Value::Text(of.clone()));
        index = "log_entry_by_reading";
    }
    if let Some(words) = &filter.words {
        conditions += " AND instr(words, ?) > 0";
        values.push(Value::Text(words.to_lowercase()));
    }
    let order = "ORDER BY second DESC, nano DESC, number DESC";
    (format!("SELECT {COLUMNS} FROM log_entry INDEXED BY {index} WHERE tank = ?{conditions} {order}"), values)
}
