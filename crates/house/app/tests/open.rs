//! The keeper's book through the real program: a real file, a real socket, killed and opened again; two programs on one
//! book; the book as a text and back.

mod client;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use client::{Program, said};

/// A folder of its own for each test, and the book in it.
fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("book");
    (folder, book)
}

/// A book with the tank that these replies make; the program that holds it.
fn opened(book: &Path, replies: &str) -> Program {
    let program = Program::open(book);
    assert_eq!(program.post("/first", replies).leads_to(), "/tank/1/salts?first=1");
    program
}

const SALTS: &str = "/tank/1/salts";
const TOLD: &str =
    "tanks=0&tap.total_chlorine=0.4&tap.hardness=8&glass.outer_length=60&glass.outer_width=30&glass.outer_height=36";

fn bottle(program: &Program) -> String {
    client::value(&program.get(SALTS).body, "at_hand.bottle")
}

#[test]
fn what_was_changed_outlives_a_kill_and_is_taken_back_after_it() {
    let (_folder, book) = folder();
    let program = opened(&book, TOLD);
    for (revision, ml) in [(1, 500), (2, 250)] {
        let to = program.post(SALTS, &format!("revision={revision}&at_hand.bottle={ml}")).leads_to();
        assert_eq!(to, format!("{SALTS}?was={revision}"));
    }
    program.kill();

    let program = Program::open(&book);
    assert!(
        program.said.contains(book.to_str().unwrap()) && program.said.contains("kept in it at once"),
        "{}",
        program.said
    );
    assert_eq!(program.get("/").leads_to(), "/tank/1/care");
    assert_eq!(bottle(&program), "250");
    // The letter from before the kill has its way back; so has the one before it.
    let letter = program.get(&format!("{SALTS}?was=2")).body;
    assert!(letter.contains("(was 500; ") && letter.contains("value=\"at_hand.bottle@2\""));
    program.post(SALTS, "revision=3&undo=at_hand.bottle@2").leads_to();
    assert_eq!(bottle(&program), "500");
    program.kill();

    let program = Program::open(&book);
    program.post(SALTS, "revision=4&undo=at_hand.bottle@1").leads_to();
    assert_eq!(bottle(&program), "300");
    drop(program);
    let (code, out, err) = said(&["book", "check", book.to_str().unwrap()], &[]);
    assert!(code == 0 && out.contains("is whole: 1 tank, 5 revisions"), "{out}{err}");
}

#[test]
fn two_programs_on_one_book_lose_no_edit_and_say_where_both_changed_a_number() {
    let (_folder, book) = folder();
    let one = opened(&book, TOLD);
    let other = Program::open(&book);
    // Both windows show revision 1.
    one.post(SALTS, "revision=1&at_hand.bottle=500&habits.every=14").leads_to();
    let to = other.post(SALTS, "revision=1&at_hand.bottle=250&habits.change=30").leads_to();
    assert_eq!(to, format!("{SALTS}?was=1&over=2"));
    let letter = other.get(&to).body;
    assert!(letter.contains("elsewhere it had become 500 mL; yours holds, 250 mL."), "{letter}");
    for was in ["(was 300; ", "(was 7; ", "(was 40; "] {
        assert!(letter.contains(was), "{was}");
    }
    // The first program sees what the second one wrote, without being started anew.
    assert_eq!(bottle(&one), "250");
    assert_eq!(client::value(&one.get(SALTS).body, "habits.every"), "14");
    assert_eq!(one.post("/first", "tanks=1&tank.name=Upstairs").leads_to(), "/tank/2/salts?first=1");
    assert!(other.get("/tank/2/tap").body.contains("<b>Upstairs</b>"));
}

#[test]
fn the_usual_place_is_made_and_said() {
    let (folder, _) = folder();
    let home = [("HOME", folder.path()), ("XDG_DATA_HOME", Path::new(""))];
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.arg("open").envs(home);
    let program = Program::start(&mut command);
    assert!(
        program.said.contains(folder.path().to_str().unwrap()) && program.said.contains("It is empty"),
        "{}",
        program.said
    );
    assert_eq!(program.get("/").leads_to(), "/first");
    drop(program);
    let (code, out, _) = said(&["book", "check"], &home);
    assert!(code == 0 && out.contains("0 tanks, 0 revisions"), "{out}");
}

#[test]
fn an_export_that_is_read_in_again_is_the_book() {
    let (folder, book) = folder();
    let program = opened(&book, TOLD);
    program.post(SALTS, "revision=1&at_hand.bottle=500").leads_to();
    program.post("/first", "tanks=1&tank.name=Upstairs&who=nobody").leads_to();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let (book, other, text) = (path("book"), path("other"), path("all.toml"));
    // All of it while the book is open.
    let (code, exported, _) = said(&["book", "export", &book], &[]);
    assert_eq!(code, 0);
    assert_eq!(said(&["book", "export", &book, "--to", &text], &[]).0, 0);
    assert_eq!(fs::read_to_string(&text).unwrap(), exported);
    let (code, _, err) = said(&["book", "export", &book, "--to", &text], &[]);
    assert!(code == 1 && err.contains("a file of this name exists"), "{err}");

    let (code, out, err) = said(&["book", "import", &text, &other], &[]);
    assert!(code == 0 && out.contains("2 tanks, 3 revisions") && out.contains("before-import"), "{out}{err}");
    assert_eq!(said(&["book", "export", &other], &[]).1, exported);

    // A text that is not taken replaces nothing, and says all that is wrong.
    fs::write(&text, exported.replace("\"500 mL\"", "\"a lot\"").replace("format = 1", "format = 1\nmoon = 2"))
        .unwrap();
    let (code, _, err) = said(&["book", "import", &text, &other], &[]);
    assert!(code == 1 && err.contains("moon"), "{err}");
    assert_eq!(said(&["book", "export", &other], &[]).1, exported);

    // What was edited in the text is in the book, and an open program shows it.
    fs::write(&text, exported.replace("\"500 mL\"", "\"450 mL\"")).unwrap();
    assert_eq!(said(&["book", "import", &text, &book], &[]).0, 0);
    assert_eq!(bottle(&program), "450");
}

#[test]
fn edits_are_taken_back_one_by_one_by_the_command() {
    let (_folder, book) = folder();
    let program = opened(&book, TOLD);
    program.post(SALTS, "revision=1&at_hand.bottle=500").leads_to();
    program.post(SALTS, "revision=2&at_hand.bottle=250").leads_to();
    drop(program);
    let undo = ["book", "undo", book.to_str().unwrap()];
    let (code, out, err) = said(&undo, &[]);
    assert!(code == 0 && out.contains("at_hand.bottle: 500 mL, was 250 mL"), "{out}{err}");
    let (_, out, _) = said(&undo, &[]);
    assert!(out.contains("at_hand.bottle: nothing, was 500 mL"), "{out}");
    assert!(said(&undo, &[]).1.contains("no change left"));
    assert!(said(&[&undo[..], &["--tank", "9"]].concat(), &[]).0 != 0, "there is no tank 9");
}

#[test]
fn a_backup_is_a_book_and_never_overwrites() {
    let (folder, book) = folder();
    drop(opened(&book, TOLD));
    let copy = folder.path().join("copy");
    let arguments = ["book", "backup", copy.to_str().unwrap(), book.to_str().unwrap()];
    assert_eq!(said(&arguments, &[]).0, 0);
    assert_eq!(client::value(&Program::open(&copy).get("/tank/1/tap").body, "tap.total_chlorine"), "0.4");
    let (code, _, err) = said(&arguments, &[]);
    assert!(code == 1 && err.contains("a file of this name exists"), "{err}");
}

#[test]
fn what_is_no_book_is_told_and_left_alone() {
    let (folder, book) = folder();
    fs::write(&book, "[tap]\nph = 7.7\n").unwrap();
    let missing = folder.path().join("missing");
    for command in [&["open"][..], &["book", "check"], &["book", "export"]] {
        let (code, out, err) = said(&[command, &[book.to_str().unwrap()]].concat(), &[]);
        assert!(code == 1 && out.is_empty() && err.contains("not a book of Tapmere"), "{command:?}: {err}");
    }
    let (code, _, err) = said(&["book", "check", missing.to_str().unwrap()], &[]);
    assert!(code == 1 && err.contains("there is no book here") && !missing.exists(), "{err}");
    assert_eq!(fs::read_to_string(&book).unwrap(), "[tap]\nph = 7.7\n");
}

/// `user_version` is a number of four bytes at offset 60 of the file (SQLite's file format, 1.3).
#[test]
fn a_newer_book_is_shown_and_not_changed() {
    let (_folder, book) = folder();
    drop(opened(&book, TOLD));
    let mut bytes = fs::read(&book).unwrap();
    bytes[60..64].copy_from_slice(&99_u32.to_be_bytes());
    fs::write(&book, &bytes).unwrap();
    let program = Program::open(&book);
    assert!(program.said.contains("It can only be read"), "{}", program.said);
    assert_eq!(bottle(&program), "300");
    let answer = program.post(SALTS, "revision=1&at_hand.bottle=512");
    assert_eq!(answer.status, 409);
    assert!(
        answer.body.contains("newer Tapmere wrote this book") && answer.body.contains("“512” I did not take"),
        "{}",
        answer.body
    );
    let answer = program.post("/first", "tanks=1&tap.nitrate=7");
    assert!(answer.status == 503 && answer.body.contains("newer Tapmere wrote this book"), "{}", answer.body);
    drop(program);
    assert_eq!(fs::read(&book).unwrap(), bytes);
}
