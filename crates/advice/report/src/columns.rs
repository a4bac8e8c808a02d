//! What each column of a table holds: by its heading, else by what stands in it.

use knowledge::ReportColumn;

use crate::column_content::{by_content, is_place, signs_of_limits, values};
use crate::dates::{is_date, is_period, is_year};
use crate::fold::stems;
use crate::grid::{Row, glued};
use crate::heading::is_unit;
use crate::lexicon::lexicon;
use crate::means::says_mean;
use crate::parted::{Halves, in_halves, told_in_rows};
use crate::{Statistic, unit_find};

/// A column.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Column {
    pub role: Option<ReportColumn>,
    /// Words of the heading that are no role: the name of a place.
    pub group: String,
    /// A date in the heading, as printed.
    pub date: String,
    /// The whole heading.
    pub heading: String,
    /// Why nobody can be sure that it holds results.
    pub doubt: Option<String>,
    /// Its cells say which number stands in their row.
    pub tells: bool,
    /// Its cells hold a result and a limit.
    pub halves: Option<Halves>,
}

impl Column {
    /// A column of units.
    pub fn of_units() -> Column {
        Column { role: Some(ReportColumn::Unit), ..Column::default() }
    }

    /// The statistic of a column with results.
    pub fn statistic(&self) -> Option<Statistic> {
        Some(match self.role? {
            ReportColumn::Min => Statistic::Min,
            ReportColumn::Mean => Statistic::Mean,
            ReportColumn::Median => Statistic::Median,
            ReportColumn::Max => Statistic::Max,
            ReportColumn::P95 => Statistic::P95,
            ReportColumn::P90 => Statistic::P90,
            ReportColumn::P10 => Statistic::P10,
            ReportColumn::P5 => Statistic::P5,
            ReportColumn::Value | ReportColumn::Range => Statistic::Single,
            _ => return None,
        })
    }
}

/// The columns from the rows of the heading and the rows under it.
pub(crate) fn columns(heading: &[&Row], data: &[&Row], from: usize, to: usize, mean: bool) -> Vec<Column> {
    let mut out: Vec<Column> = (from..to).map(|c| by_heading(heading, c)).collect();
    for (i, column) in out.iter_mut().enumerate() {
        if i > 0 {
            by_content(column, data, from, from + i);
            in_halves(column, data, from + i);
        }
    }
    told_in_rows(&mut out, data, from);
    if let Some(first) = out.first_mut() {
        first.role = Some(ReportColumn::Name);
    }
    if out.iter().all(|c| c.role != Some(ReportColumn::Place)) {
        let place =
            (1..out.len()).find(|&i| out.get(i).is_some_and(|c| c.role.is_none()) && is_place(data, from, from + i));
        place.and_then(|i| out.get_mut(i)).into_iter().for_each(|c| c.role = Some(ReportColumn::Place));
    }
    signs_of_limits(&mut out, data, from);
    unnamed(&mut out, data, from);
    groups_in_turn(&mut out, heading, from, to);
    years_apart(&mut out);
    doubts(&mut out);
    if mean {
        // The result of a day is no mean; that of a year is.
        let of_day = |c: &Column| !c.date.is_empty() && !is_year(&c.date) && !is_period(&c.date);
        let values = out.iter_mut().filter(|c| c.role == Some(ReportColumn::Value) && !of_day(c));
        values.for_each(|c| c.role = Some(ReportColumn::Mean));
    }
    out
}

fn by_heading(heading: &[&Row], at: usize) -> Column {
    let pieces = pieces(heading, at);
    let whole = pieces.join(" ");
    let (mut group, mut date): (Vec<&str>, String) = (Vec::new(), String::new());
    let exact = |text: &str| lexicon().column(text).filter(|(_, exact)| *exact).map(|(role, _)| role);
    // A word may be cut where the column ends: "Grenz" above "wert".
    let mut role = exact(&whole).or_else(|| exact(&pieces.concat()).filter(|_| pieces.len() > 1));
    if role.is_none() {
        // "1e kwartaal" above "2024".
        let year = pieces.iter().find(|p| is_year(p)).filter(|_| pieces.iter().any(|p| is_period(p)));
        for piece in pieces.iter().rev().filter(|p| Some(*p) != year) {
            if is_date(piece) || is_period(piece) {
                date = year.map_or_else(|| (*piece).to_owned(), |year| format!("{piece} {year}"));
            } else if let Some((found, exact)) = lexicon().column(piece) {
                let limit = found == ReportColumn::Limit;
                role = if limit { Some(found) } else { role.or(Some(found)) };
                // "Zone Dorf", "Source de la Combe", "Wasserwerk" above "Auental": the words name a place.
                let place = found == ReportColumn::Place && (!exact || pieces.len() > 1);
                if place || found == ReportColumn::Other && !exact {
                    role = role.filter(|r| *r != found);
                    group.insert(0, piece);
                }
            } else if unit_find::find(piece).is_none() {
                group.insert(0, piece);
            }
        }
        // Each piece a heading for the place: they are in two languages.
        if role.is_none() && pieces.iter().all(|p| exact(p) == Some(ReportColumn::Place)) && !pieces.is_empty() {
            role = Some(ReportColumn::Place);
            group.clear();
        }
        // A date that follows other words of the same piece: "Sample 12.03.2024".
        if date.is_empty() {
            date = pieces.iter().flat_map(|p| p.split_whitespace()).find(|w| is_date(w)).unwrap_or("").to_owned();
        }
    }
    // "Average (minimum - maximum)": the range stands behind the mean.
    if says_mean(&whole) && matches!(role, Some(ReportColumn::Range | ReportColumn::Min | ReportColumn::Max)) {
        role = Some(ReportColumn::Mean);
    }
    // A sample's number beside its name tells nothing more.
    let code = |p: &str| !p.contains(' ') && p.chars().any(|c| c.is_ascii_digit());
    if group.iter().any(|p| !code(p)) {
        group.retain(|p| !code(p));
    }
    if role == Some(ReportColumn::Date) && !date.is_empty() {
        role = None;
    }
    // No determinand is counted in percent: a change, a share, a saturation.
    if whole.contains('%') && matches!(role, None | Some(ReportColumn::Value)) {
        role = Some(ReportColumn::Other);
    }
    Column { role, group: group.join(" "), date, heading: whole, ..Column::default() }
}

/// What stands over a column, from above; a word that goes on in the next row is one.
fn pieces(heading: &[&Row], at: usize) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for text in heading.iter().map(|r| r.text(at)).filter(|t| !t.is_empty()) {
        match out.last_mut() {
            Some(last) if last == text => {}
            Some(last) if !glued(last, text).contains(&format!(" {text}")) => *last = glued(last, text),
            _ => out.push(text.to_owned()),
        }
    }
    out
}

/// So many numbers in a column that nobody knows are asked about.
const LEAST_ASKED: usize = 3;

/// Columns with numbers whose heading is no role: results of a place or a date, where nothing else holds results.
fn unnamed(out: &mut [Column], data: &[&Row], from: usize) {
    let known = out.iter().any(|c| c.statistic().is_some());
    let limit = out.iter().any(|c| c.role == Some(ReportColumn::Limit));
    let open: Vec<usize> = (1..out.len())
        .filter(|&i| out.get(i).is_some_and(|c| c.role.is_none()) && values(data, from + i) > 0)
        .collect();
    let dated = |c: &Column| !c.date.is_empty() || is_year(&c.heading);
    let told = |c: &Column| dated(c) || place_word(&c.heading) || is_unit(&c.heading);
    let all_told = open.iter().filter_map(|&i| out.get(i)).all(|c| told(c) || limit && !c.group.is_empty());
    let most = open.iter().map(|&i| values(data, from + i)).max().unwrap_or(0);
    for &i in &open {
        // Results stand in most rows, limits in some.
        let sparse = values(data, from + i) * 2 < most;
        let Some(column) = out.get_mut(i) else { continue };
        let beside = known && !dated(column) && !place_word(&column.heading);
        // Beside known results, numbers in most rows are asked about; a few are something else.
        if beside && (values(data, from + i) < LEAST_ASKED || values(data, from + i) * 2 < data.len()) {
            continue;
        }
        column.role = Some(ReportColumn::Value);
        if is_year(&column.heading) {
            column.date = column.heading.clone();
            column.group.clear();
        }
        if beside || sparse || open.len() > 1 && !all_told {
            let heading = if column.heading.is_empty() { "no heading" } else { &column.heading };
            column.doubt = Some(format!("Does the column with the heading \"{heading}\" hold results, or limits?"));
        }
    }
}

fn place_word(heading: &str) -> bool {
    matches!(lexicon().column(heading), Some((ReportColumn::Place, _)))
}

/// Minimum, mean, maximum, again minimum, mean, maximum, under fewer headings than columns: one heading for each turn.
fn groups_in_turn(out: &mut [Column], heading: &[&Row], from: usize, to: usize) {
    let at: Vec<usize> = (0..out.len()).filter(|&i| out.get(i).is_some_and(|c| c.statistic().is_some())).collect();
    let roles: Vec<_> = at.iter().filter_map(|&i| out.get(i)).map(|c| c.role).collect();
    let Some(turn) =
        (1..roles.len()).find(|&n| roles.len().is_multiple_of(n) && roles.chunks(n).all(|c| Some(c) == roles.get(..n)))
    else {
        return;
    };
    let turns = roles.len() / turn;
    let mut groups: Vec<&str> = at.iter().filter_map(|&i| out.get(i)).map(|c| c.group.as_str()).collect();
    let named = groups.chunks(turn).all(|c| !c.iter().any(|g| g.is_empty()) && c.iter().all(|g| Some(g) == c.first()));
    groups.dedup();
    if turns < 2 || (named && groups.len() == turns) || turn == 1 {
        return;
    }
    // A line of the heading with as many words of its own as there are turns.
    let line = heading.iter().find_map(|row| {
        let own: Vec<String> = (from..to)
            .map(|c| row.text(c))
            .filter(|t| {
                !t.is_empty() && lexicon().column(t).is_none_or(|(r, exact)| r == ReportColumn::Place && !exact)
            })
            .map(str::to_owned)
            .collect();
        (own.len() == turns).then_some(own)
    });
    for (n, &i) in at.iter().enumerate() {
        if let (Some(column), Some(name)) = (out.get_mut(i), line.as_ref().and_then(|l| l.get(n / turn))) {
            column.group = name.clone();
        }
    }
}

/// "Average 2023", "Average 2024": columns that only the years tell apart.
fn years_apart(out: &mut [Column]) {
    let year = |c: &Column| c.heading.split_whitespace().find(|w| is_year(w)).map(str::to_owned);
    let results: Vec<Column> = out.iter().filter(|c| c.statistic().is_some()).cloned().collect();
    for column in out.iter_mut().filter(|c| c.statistic().is_some() && c.date.is_empty()) {
        let twin = |o: &&Column| o.role == column.role && o.group == column.group && o.date.is_empty();
        let years: Vec<_> = results.iter().filter(twin).map(year).collect();
        let apart: std::collections::BTreeSet<_> = years.iter().flatten().collect();
        if years.len() > 1 && apart.len() == years.len() {
            column.date = year(column).unwrap_or_default();
        }
    }
}

/// What cannot be told apart is asked about.
fn doubts(out: &mut [Column]) {
    // One result in two units stands in two columns.
    let unit = |c: &Column| unit_find::find(&c.heading).map(|f| f.unit);
    let key = |c: &Column| (c.role, c.group.clone(), c.date.clone(), unit(c));
    let keys: Vec<_> = out.iter().filter(|c| c.statistic().is_some()).map(key).collect();
    let lone_max = out.iter().any(|c| c.role == Some(ReportColumn::Value))
        && !out.iter().any(|c| matches!(c.role, Some(ReportColumn::Min | ReportColumn::Mean | ReportColumn::Median)));
    for column in out.iter_mut().filter(|c| c.statistic().is_some() && c.doubt.is_none()) {
        if keys.iter().filter(|k| **k == key(column)).count() > 1 {
            column.doubt = Some(format!("Which of the columns headed \"{}\" is your water?", column.heading));
        } else if lone_max && column.role == Some(ReportColumn::Max) {
            column.doubt =
                Some(format!("Is the column \"{}\" the highest result, or the highest allowed?", column.heading));
        } else if let Some(word) = strange(column) {
            let heading = &column.heading;
            column.doubt = Some(format!("Does the column \"{heading}\" hold results? \"{word}\" is not understood."));
        }
    }
}

/// A word in the heading of a lowest or highest value that nobody knows: it may say that the value is allowed, not found.
fn strange(column: &Column) -> Option<String> {
    let lexicon = lexicon();
    let told = matches!(column.role, Some(ReportColumn::Min | ReportColumn::Max)) && column.group.is_empty();
    let known = |w: &str| {
        lexicon.is_beside(w)
            || lexicon.in_headings(w)
            || lexicon.month(w).is_some()
            || w.chars().any(|c| !c.is_alphabetic())
    };
    let heading = unit_find::without(&column.heading);
    stems(&heading).into_iter().find(|w| told && w.chars().count() > 1 && !known(w))
}
