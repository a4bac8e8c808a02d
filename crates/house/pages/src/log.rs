//! Log: what was read, done and seen, by date; written, mended and taken back where it stands.

mod beside;
mod drawn;
mod lines;
mod list;
mod view;

use http::{Response, StatusCode};
use jiff::ToSpan;
use logbook::written::{self, KINDS, Texts};
use logbook::{Entry, Filter, Log, table};
use maud::{Markup, html};
use quantity::{Fault, Faults, Units};
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::{self, Act, Asked, Logs, Refused};
use crate::blank::Blank;
use crate::ctx::{Ctx, Place, tank_at};
use crate::parts;
use crate::plain::{closed, missing};
use crate::respond;
use crate::sheet::{Sheet, first_tank};
use lines::{Line, kind_words, name, proposals, texts};
use view::View;

/// What the letter has to do with the logbook.
pub const LOGS: Logs = Logs { reads, also: Some(also), enter: Some(LINE), acts };

/// Weeks whose readings are drawn over what was expected, and how many entries are read for it at most.
const DRAWN: (i64, usize) = (8, 1200);

/// Lines that stand open; the others are folded.
const OFTEN: [&str; 5] = ["test", "dose", "change", "food", "words"];

/// The act of Enter: what the line that is filled in says.
const LINE: &str = "line";

/// What the line that is mended is called, and the field that says which entry it is.
const MEND: &str = "mend";
const MENDED: &str = "log-mended";

/// The line under whose name a mended line sends along what it was shown.
const BEFORE: &str = "before";

/// Between an act and the amount that the keeper was asked about, when it was so.
const SURE: &str = " really ";

/// The name under which a line is asked about what is far from usual.
const REALLY: &str = "really";

/// No number of the setup stands on this letter.
pub fn blanks(_: &Setup, _: &Tank, _: &Plan) -> Vec<Blank> {
    Vec::new()
}

fn reads(asked: &Asked) -> Filter {
    View::read(asked.query).filter(asked.now)
}

fn also(asked: &Asked) -> Filter {
    let weeks = asked.now.checked_sub(DRAWN.0.weeks()).ok().map(|at| at.timestamp());
    let lately = weeks.map(|from| ("test".to_owned(), from)).into_iter().collect();
    // Since when the water is the same is known as far back as Care knows it.
    let kinds = ["test", "change", "done"].map(str::to_owned).to_vec();
    Filter { kinds, lately, last: Some(DRAWN.1), ..care::reads(asked.now) }
}

/// What the buttons write.
fn acts(act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let view = View::read(act.form.get("view").map_or("", String::as_str));
    let units = first_tank(act.answer).map(|tank| tank.units).unwrap_or_default();
    let meant = if act.act == LINE { filled(act)? } else { act.act.to_owned() };
    let (meant, sure) = meant.split_once(SURE).map_or((meant.as_str(), None), |(meant, sure)| (meant, Some(sure)));
    match meant.split_once(' ') {
        Some(("add", kind)) => {
            let entry = added(act, kind, &units)?;
            really(act, log, kind, &entry, (None, sure))?;
            act::add(act, log, vec![entry])?;
            return Ok(view.query_with(left(act, kind)));
        }
        Some(("out", id)) => id.parse().map_or(Ok(()), |id| log.remove(id))?,
        Some((MEND, id)) => mended(act, log, (id, sure), &units)?,
        None if meant == "show" => {
            let field =
                |of: &str| act.form.get(&name("find", of)).map_or_else(String::new, |text| text.trim().to_owned());
            let asked = View {
                kind: field("kind"),
                words: field("words"),
                from: field("from"),
                to: field("to"),
                ..View::default()
            };
            return Ok(asked.query());
        }
        None if meant == "table" => return read_table(act, log, &units),
        _ => {}
    }
    Ok(view.query())
}

/// What was typed into other lines than the one that was written, with the moment that holds for all: it comes back.
fn left<'f>(act: &Act<'f>, written: &str) -> Vec<(&'f str, &'f str)> {
    let field =
        |(key, text): (&'f String, &'f String)| (!text.trim().is_empty()).then_some((key.as_str(), text.as_str()));
    let others: Vec<String> = KINDS
        .iter()
        .filter(|(kind, _)| *kind != written && stands(act, kind))
        .map(|(kind, _)| name(kind, ""))
        .collect();
    let other = |key: &str| others.iter().any(|line| key.starts_with(line));
    let mut all: Vec<(&str, &str)> = act.form.iter().filter_map(field).filter(|(key, _)| other(key)).collect();
    if !all.is_empty() {
        all.extend(act.form.get_key_value(&name("with", "at")).and_then(field));
    }
    all
}

/// Whether something was typed into a line.
fn stands(act: &Act, kind: &str) -> bool {
    let some = |field: &str| act.form.get(&name(kind, field)).is_some_and(|text| !text.trim().is_empty());
    // Whom a line is about stands in a choice that is never empty.
    some("amount") || some("counted") || (kind != "animals" && some("what"))
}

/// The act of the one line that something stands in.
fn filled(act: &Act) -> Result<String, Refused> {
    let some = |line: &str, field: &str| act.form.get(&name(line, field)).is_some_and(|text| !text.trim().is_empty());
    if let Some(id) = act.form.get(MENDED) {
        return Ok(format!("{MEND} {id}"));
    }
    let lines: Vec<&str> = KINDS.iter().map(|(kind, _)| *kind).filter(|kind| stands(act, kind)).collect();
    match lines.as_slice() {
        [] if some("with", "note") => Ok("add words".to_owned()),
        [] if some("table", "text") => Ok("table".to_owned()),
        [] => Ok("show".to_owned()),
        [kind] => Ok(format!("add {kind}")),
        _ => {
            Err(Fault::new("more than one line is filled in").hint("press the button of the line that you mean").into())
        }
    }
}

/// Faults beside the fields of a line; where they stand is seen, so it is not said.
fn in_line(line: &str, faults: Faults) -> Refused {
    let field = |mut fault: Fault| {
        let of = fault.place.field.take().unwrap_or_else(|| "note".to_owned());
        (name(line, &of), fault)
    };
    Refused(faults.0.into_iter().map(field).collect())
}

/// The litres of the tank at their upper end, where its sizes are told: water is held against them.
fn litres(act: &Act) -> Option<f64> {
    let told = trouble::outcomes(act.answer);
    let known = told.iter().all(|outcome| outcome.litres_known);
    known.then(|| told.iter().map(|outcome| outcome.tank.geometry.true_l.high).fold(0.0, f64::max))
}

/// Whether an entry can belong to this tank.
fn fits(act: &Act, entry: &Entry, units: &Units) -> Result<(), Fault> {
    litres(act).map_or(Ok(()), |litres| logbook::fits(&entry.what, litres, units))
}

/// What is far from usual is asked about, and written when the keeper says that it was so: `sure` is the amount that was asked about.
fn really(
    act: &Act,
    log: &dyn Log,
    line: &str,
    entry: &Entry,
    (mended, sure): (Option<u64>, Option<&str>),
) -> Result<(), Refused> {
    let typed = act.form.get(&name(line, "amount")).map_or("", |text| text.trim());
    if sure == Some(typed) {
        return Ok(());
    }
    let mut round = log.list(&care::round(entry))?;
    round.retain(|kept| Some(kept.id) != mended);
    match care::really(act.answer, entry, &round) {
        None => Ok(()),
        Some(asked) => Err(Refused(vec![(name(line, REALLY), Fault::new(asked))])),
    }
}

/// A new entry: its own line, with the moment and the note that all lines share.
fn added(act: &Act, kind: &str, units: &Units) -> Result<Entry, Refused> {
    let mut texts = texts(act.form, kind);
    texts.extend(lines::texts(act.form, "with"));
    texts.insert("kind".to_owned(), kind.to_owned());
    let read = written::read(&texts, act.now, units);
    read.and_then(|entry| Ok(fits(act, &entry, units).map(|()| entry)?)).map_err(|faults| {
        let mut refused = in_line(kind, faults);
        for (field, _) in &mut refused.0 {
            for shared in ["at", "note"] {
                if *field == name(kind, shared) {
                    *field = name("with", shared);
                }
            }
        }
        refused
    })
}

/// An entry as its line shows it: exact, each amount with its unit.
fn mendable(entry: &Entry) -> Texts {
    let mut texts: Texts = written::write(entry).into_iter().map(|(name, text)| (name.to_owned(), text)).collect();
    if let (Some(unit), Some(amount)) = (texts.remove("unit").filter(|unit| !unit.is_empty()), texts.get_mut("amount"))
    {
        *amount = format!("{amount} {unit}");
    }
    texts.insert("at".to_owned(), entry.at.strftime("%Y-%m-%dT%H:%M").to_string());
    texts
}

fn mended(act: &Act, log: &mut dyn Log, (id, sure): (&str, Option<&str>), units: &Units) -> Result<(), Refused> {
    let Some(id) = id.parse().ok() else { return Ok(()) };
    let Some(old) = log.entry(id)? else { return Err(logbook::no_entry(id).into()) };
    let shown = mendable(&old);
    // What the keeper saw: if the entry was mended elsewhere meanwhile, what they did not touch holds as it is now.
    let before = Some(texts(act.form, BEFORE)).filter(|before| !before.is_empty());
    let before = before.as_ref().unwrap_or(&shown);
    let mut typed = shown.clone();
    // What a browser gives back as it came is as it was: line ends and space round a text are not its business.
    let was = |name: &str| before.get(name).map_or_else(String::new, |was| was.replace("\r\n", "\n"));
    typed.extend(texts(act.form, MEND).into_iter().filter(|(name, text)| was(name).trim() != text));
    typed.retain(|_, text| !text.is_empty());
    if typed == shown {
        return Ok(());
    }
    // A moment that was not touched keeps its seconds and its zone.
    if typed.get("at") == shown.get("at") {
        typed.insert("at".to_owned(), old.at.to_string());
    }
    let entry = written::read(&typed, act.now, units).map_err(|faults| in_line(MEND, faults))?;
    fits(act, &entry, units).map_err(|fault| in_line(MEND, fault.into()))?;
    if entry.what != old.what {
        really(act, log, MEND, &entry, (Some(id), sure))?;
    }
    Ok(log.change(id, entry)?)
}

/// Entries of a table that was pasted; those that stand there already are left out.
fn read_table(act: &Act, log: &mut dyn Log, units: &Units) -> Result<String, Refused> {
    let text = act.form.get(&name("table", "text")).map_or("", String::as_str);
    let in_table = |faults: Faults| Refused(faults.0.into_iter().map(|fault| (name("table", "text"), fault)).collect());
    let held = log.list(&Filter::default())?;
    let (fresh, _) = table::fresh("the table", text, act.now, units, &held, litres(act)).map_err(in_table)?;
    log.add(fresh)?;
    Ok(String::new())
}

/// The whole log as a table.
pub fn csv(ctx: &mut Ctx, id: Option<&str>) -> Response<Vec<u8>> {
    let alone = Place::alone(&ctx.base);
    let listed = ctx.shelf.tanks().and_then(|tanks| {
        let Some(tank) = tank_at(&tanks, id) else { return Ok(None) };
        ctx.shelf.log(tank)?.list(&Filter::default()).map(Some)
    });
    match listed {
        Ok(Some(entries)) => respond::download(
            StatusCode::OK,
            "text/csv; charset=utf-8",
            "attachment; filename=\"log.csv\"",
            table::write(&entries),
        ),
        Ok(None) => missing(alone),
        Err(fault) => closed(alone, &fault),
    }
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let typed = &sheet.said.typed;
    let view = match typed.get("view") {
        Some(view) => View { mend: mending(typed.get("act")), ..View::read(view) },
        None => {
            let pairs = typed.iter().map(|(name, value)| (name.as_str(), value.as_str()));
            View::read(&form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish())
        }
    };
    html! {
        (opening(sheet, &view))
        (hand(sheet))
        (list::verse(sheet, &view))
        (drawn::verse(sheet))
        (paper(sheet))
    }
}

/// The entry that was being mended when the letter came back.
fn mending(act: Option<&String>) -> Option<u64> {
    act?.strip_prefix(MEND)?.trim().parse().ok()
}

fn opening(sheet: &Sheet, view: &View) -> Markup {
    let last = sheet.log.first().filter(|_| !view.narrows());
    let words = last.map(|kept| list::words(&kept.entry, &sheet.units));
    sheet.opening(
        html! { (sheet.today.words()) },
        html! {
            @match (last, words) {
                (Some(kept), Some(words)) => { "Last written: " (words.trim_end_matches('.')) ", " (list::day(&kept.entry, sheet)) "." }
                _ if view.narrows() => "What you looked for in your log."
                _ => "Nothing is written yet. What you read, give and see goes here, each in a line."
            }
        },
        html! { input type="hidden" name="view" value=(view.query()); },
    )
}

/// The lines to be filled in.
fn hand(sheet: &Sheet) -> Markup {
    let none = Texts::new();
    let line = |kind: &'static str| Line { sheet, line: kind, usual: &none };
    let one = |kind: &'static str| {
        let line = line(kind);
        html! {
            div.line role="group" aria-label=(kind_words(kind)) {
                p { b { (kind_words(kind)) ": " } (line.sentence(kind)) " " (button(kind)) }
                (line.faults())
            }
        }
    };
    let with = line("with");
    let refused = KINDS.iter().any(|(kind, _)| {
        let of = name(kind, "");
        let mut both = sheet.said.refused.keys().chain(sheet.said.typed.keys());
        !OFTEN.contains(kind) && both.any(|field| field.starts_with(&of))
    });
    let left = sheet.said.wrote.is_some()
        && KINDS.iter().any(|(kind, _)| sheet.said.typed.keys().any(|field| field.starts_with(&name(kind, ""))));
    sheet.verse(
        "Write",
        html! {
            @if left { p.told role="status" { "One line is written. What you had filled in beside it is not yet: it stands in its fields below, press its button too." } }
            p.small { "Fill in one line and press its button; under the lines you can say when it was, and a word beside it. “<0.05” means: less than the kit can show." }
            @for kind in OFTEN.into_iter().filter(|kind| *kind != "words") { (one(kind)) }
            div.line role="group" aria-label="With every line" {
                p {
                    b { "When: " } (with.moment("When; empty: now")) " (empty: now). " b { "A note: " }
                    (with.text("note", "A note", "note")) " " (button("words"))
                }
                (with.faults())
            }
            details.more open[refused] {
                summary { "Plants cut, something seen, animals, purchases, photographs" }
                @for (kind, _) in KINDS.iter().filter(|(kind, _)| !OFTEN.contains(kind)) { (one(kind)) }
            }
            (proposals(sheet))
        },
    )
}

fn button(kind: &str) -> Markup {
    let says =
        if kind == "words" { "Write the note alone".to_owned() } else { format!("Write it: {}", kind_words(kind)) };
    html! { button.again name="act" value=(format!("add {kind}")) aria-label=(says) { @if kind == "words" { "the note alone" } @else { "write it" } } }
}

/// In and out as a table.
fn paper(sheet: &Sheet) -> Markup {
    let field = name("table", "text");
    let refused = sheet.said.refused.get(&field);
    let about = refused.map(|_| format!("about-{field}"));
    sheet.verse(
        "As a table",
        html! {
            p { a href=(format!("{}.csv", sheet.letter("log"))) { "The whole log as a table (CSV)" } ", for a spreadsheet or another program." }
            details.more open[refused.is_some()] {
                summary { "Read a table in" }
                p.small { "Paste it with its first line: at, kind, what, amount, unit, error, kit, sure, counted, price, note. Only at and kind must be there. What stands in the log already is not written twice." }
                textarea.entry name=(field) rows="6" aria-label="The table" aria-invalid=[refused.map(|_| "true")] aria-describedby=[about.as_ref()] { (sheet.typed(&field, "")) }
                p { button.again name="act" value="table" { "read it in" } }
                @if let Some(refused) = refused { span.really id=[about] { (parts::faults(&refused.faults)) } }
            }
        },
    )
}
