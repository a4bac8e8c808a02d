//! The life of a book: made, written, closed, opened again, undone; several tanks; two programs at once; copies.

use crate::common::{all, edit, edited, folder, names, now, on_day, open, setup};
use book::{SqliteBook, Stamp};
use setup::{Book, Setup, Unwritten};

#[test]
fn what_was_written_is_there_after_a_restart() {
    let (_folder, path) = folder();
    let mut before = edited(&path, 5);
    let before = all(&before.tank(1, &now()).unwrap());
    let mut book = open(&path);
    let after = all(&book.tank(1, &now()).unwrap());
    assert_eq!(before, after);
    assert_eq!(after.0, (0..=5).map(|n| Some(setup(n))).collect::<Vec<_>>());
    assert_eq!(after.1, setup(4).changes_to(&setup(5)));
    assert_eq!(book.check(), []);
}

/// A thousand edits, each taken back after a restart: every one brings back exactly what was there before it.
#[test]
fn the_last_thousand_edits_are_undone_one_by_one() {
    let (_folder, path) = folder();
    drop(edited(&path, 1000));
    let mut book = open(&path);
    let mut view = book.tank(1, &now()).unwrap();
    for n in (0..1000).rev() {
        let seen = view.revision();
        assert_eq!(view.undo_over(seen).unwrap(), Some(seen + 1));
        assert_eq!(view.setup(), Some(&setup(n)));
        assert_eq!(view.last_changes(), setup(n + 1).changes_to(&setup(n)));
    }
    assert_eq!((view.undo_over(2001).unwrap(), view.undo(), view.revision()), (None, None, 2001));
    assert_eq!(book.check(), []);
}

#[test]
fn an_edit_after_an_undo_is_undone_to_the_undo() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 2);
    let mut view = book.tank(1, &now()).unwrap();
    view.undo().unwrap();
    edit(&mut view, setup(7)).unwrap();
    let steps: Vec<_> = std::iter::from_fn(|| view.undo().map(|_| view.setup().unwrap().clone())).collect();
    assert_eq!(steps, [setup(1), setup(0)]);
}

#[test]
fn several_tanks_do_not_mix_and_the_last_edited_is_known() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 3);
    let named = |name: &str| setup(0).with("tank.name", name).unwrap();
    let second = book.add_tank(named("Upstairs"), &now()).unwrap();
    assert_eq!((second, book.last_tank().unwrap()), (2, Some(2)));
    edit(&mut book.tank(1, &now()).unwrap(), setup(4)).unwrap();
    assert_eq!(book.last_tank().unwrap(), Some(1));
    edit(&mut book.tank(2, &now()).unwrap(), named("The landing")).unwrap();
    let list: Vec<_> = book.tanks().unwrap().into_iter().map(|t| (t.id, t.name, t.revision)).collect();
    let name = |name: &str| Some(name.to_owned());
    assert_eq!(list, [(1, name("The tank in the hall"), 5), (2, name("The landing"), 2)]);
    assert_eq!(all(&book.tank(1, &now()).unwrap()).0.len(), 5);
    assert!(book.tank(3, &now()).is_err_and(|fault| fault.what.contains("no tank 3")));
    assert_eq!(book.check(), []);
}

#[test]
fn a_new_book_has_no_tank() {
    let (_folder, path) = folder();
    let book = SqliteBook::create(&path).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!((book.tanks().unwrap(), book.last_tank().unwrap()), (vec![], None));
    assert!(SqliteBook::create(&path).is_err_and(|fault| fault.what.contains("already")));
    assert_eq!(open(&path).check(), []);
}

#[test]
fn a_stale_edit_is_refused_and_can_be_made_again_on_top() {
    let (_folder, path) = folder();
    let (mut one, mut other) = (edited(&path, 1), open(&path));
    let (mut one, mut other) = (one.tank(1, &now()).unwrap(), other.tank(1, &now()).unwrap());
    edit(&mut one, setup(2)).unwrap();
    assert_eq!(edit(&mut other, setup(3)), Err(Unwritten::Stale { seen: 2, now: 3 }));
    // It has seen what the first program wrote, and nothing was lost.
    assert_eq!((other.setup(), other.last_changes()), (Some(&setup(2)), one.last_changes()));
    assert_eq!(edit(&mut other, setup(3)), Ok(4));
    assert_eq!(one.undo_over(3), Err(Unwritten::Stale { seen: 3, now: 4 }));
    assert_eq!(all(&one), all(&other));
}

/// The calls that know no stale revision keep their number then, and tell why.
#[test]
fn a_plain_write_over_another_programs_edit_writes_nothing() {
    let (_folder, path) = folder();
    let (mut one, mut other) = (edited(&path, 1), open(&path));
    let (mut one, mut other) = (one.tank(1, &now()).unwrap(), other.tank(1, &now()).unwrap());
    edit(&mut one, setup(2)).unwrap();
    assert_eq!((other.trouble(), other.write(setup(3), vec![])), (None, 2));
    assert!(other.trouble().is_some_and(|fault| fault.what.contains("you saw revision 2, now 3 holds")));
}

/// Of two programs that make the same book one makes it, and what it writes stays.
#[test]
fn two_programs_make_one_book() {
    for _ in 0..20 {
        let (_folder, path) = folder();
        let make = || match SqliteBook::create(&path) {
            Ok(mut book) => book.add_tank(setup(0), &now()).map(|_| ()),
            Err(fault) => Err(fault),
        };
        let both = std::thread::scope(|scope| [scope.spawn(make), scope.spawn(make)].map(|one| one.join().unwrap()));
        let refused: Vec<_> = both.into_iter().filter_map(Result::err).collect();
        assert!(refused.len() == 1 && refused[0].what.contains("already"), "{refused:?}");
        assert_eq!(open(&path).tanks().unwrap().len(), 1);
    }
}

/// Two programs write as fast as they can; each makes its edit again when it was stale.
#[test]
fn two_programs_at_once_lose_no_edit() {
    const EACH: u64 = 60;
    let (_folder, path) = folder();
    drop(edited(&path, 0));
    let write = |own: u64| {
        let mut book = open(&path);
        let mut view = book.tank(1, &now()).unwrap();
        let mut stale = 0;
        for n in 0..EACH {
            while let Err(unwritten) = edit(&mut view, setup(own + n)) {
                assert!(matches!(unwritten, Unwritten::Stale { .. }), "{unwritten:?}");
                stale += 1;
            }
        }
        stale
    };
    let stale: u64 = std::thread::scope(|scope| {
        let both = [1000, 2000].map(|own| scope.spawn(move || write(own)));
        both.map(|one| one.join().unwrap()).iter().sum()
    });
    let mut book = open(&path);
    let (setups, _) = all(&book.tank(1, &now()).unwrap());
    assert_eq!(setups.len() as u64, 1 + 2 * EACH);
    for own in [1000, 2000] {
        let mine: Vec<_> = (own..own + EACH).map(setup).collect();
        let written: Vec<Setup> = setups.iter().flatten().filter(|s| mine.contains(s)).cloned().collect();
        assert_eq!(written, mine);
    }
    assert!(stale > 0, "they never met");
    assert_eq!(book.check(), []);
}

#[test]
fn a_copy_is_made_once_a_day_and_five_stay() {
    let (folder, path) = folder();
    drop(edited(&path, 1));
    for day in [1, 2, 3, 4, 4, 5, 6, 7, 8, 8] {
        assert_eq!(SqliteBook::open(&path, &on_day(day)).unwrap().notes, []);
    }
    let dated: Vec<_> = (4..=8).map(|day| format!("book.tapmere.2026-06-0{day}.backup")).collect();
    assert_eq!(names(&folder), [vec!["book.tapmere".to_owned()], dated.clone()].concat());
    // A copy is a book.
    let copy = folder.path().join(&dated[0]);
    let mut copy = open(&copy);
    assert_eq!(copy.tank(1, &now()).unwrap().setup(), Some(&setup(1)));
}

#[test]
fn a_copy_overwrites_nothing() {
    let (folder, path) = folder();
    let book = edited(&path, 1);
    let to = folder.path().join("copy");
    book.backup(&to).unwrap();
    assert!(book.backup(&to).is_err_and(|fault| fault.what.contains("exists")));
    assert!(book.backup(&folder.path().join("no such folder/copy")).is_err());
    assert_eq!(open(&to).export().unwrap(), book.export().unwrap());
}

#[test]
fn the_times_are_those_that_were_passed_in() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 0);
    let at = Stamp::read("2031-12-31T23:59:59.5-05:00").unwrap();
    edit(&mut book.tank(1, &at).unwrap(), setup(1)).unwrap();
    assert!(book.export().unwrap().contains("number = 2\nat = 2031-12-31T23:59:59.5-05:00\n"));
}
