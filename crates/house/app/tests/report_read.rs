//! `tapmere report read` through the real program: the documented shape, exit codes, and hostile files that cost their
//! reader alone. What is read is held by the tests of `report`.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};

use serde_json::Value;

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../advice/report/tests").join(name)
}

fn read(path: &Path) -> (Value, Output) {
    let output =
        Command::new(env!("CARGO_BIN_EXE_tapmere")).args(["report", "read", "--json"]).arg(path).output().unwrap();
    (serde_json::from_slice(&output.stdout).unwrap(), output)
}

fn kinds(answer: &Value) -> Vec<String> {
    answer["errors"].as_array().unwrap().iter().map(|e| e["kind"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn the_answer_has_the_documented_shape() {
    let (answer, output) = read(&file("samples/lab-certificate.pdf"));
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(answer["file"], "lab-certificate.pdf");
    let keys: Vec<&str> = answer.as_object().unwrap().keys().map(String::as_str).collect();
    let mut documented = [
        "file",
        "language",
        "samples",
        "proposed",
        "readings",
        "unknown_rows",
        "questions",
        "contradictions",
        "errors",
    ];
    documented.sort_unstable();
    assert_eq!(keys, documented);
    let first = &answer["readings"][0];
    for key in [
        "determinand",
        "basis",
        "unit",
        "statistic",
        "value",
        "below_detection",
        "detection_limit",
        "sample",
        "source",
        "confidence",
        "question",
    ] {
        assert!(first.get(key).is_some(), "{key}");
    }
    assert_eq!(first["source"]["page"], 1);
}

#[test]
fn in_words_questions_come_first() {
    let output = Command::new(env!("CARGO_BIN_EXE_tapmere"))
        .args(["report", "read"])
        .arg(file("samples/kit-notes.txt"))
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.starts_with("To be answered first:\n"), "{text}");
    assert!(text.contains("counted as NO3 or as N?"), "{text}");
}

#[test]
fn what_cannot_be_read_is_named() {
    let (answer, output) = read(&file("samples/scanned.pdf"));
    assert_eq!((kinds(&answer), output.status.code()), (vec!["scanned".to_owned()], Some(1)));
    // A file that is not there is no report that is refused: a fault, as with every other command.
    let (answer, output) = read(&file("no-such-file.pdf"));
    assert_eq!((&answer["faults"][0]["what"], output.status.code()), (&Value::from("there is no such file"), Some(1)));
    let folder = tempfile::tempdir().unwrap();
    let large = vec![b'1'; report::LARGEST_FILE + 1];
    for (name, bytes, kind) in [
        ("empty.pdf", &b""[..], "empty"),
        ("letter.txt", b"Dear customer, all is well.", "not_a_report"),
        ("cut.pdf", b"%PDF-1.4\n1 0 obj\n<<", "damaged"),
        ("picture.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\0\0\0\0\0", "damaged"),
        ("large.csv", &large, "too_large"),
    ] {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        let (answer, output) = read(&path);
        assert_eq!((kinds(&answer), output.status.code()), (vec![kind.to_owned()], Some(1)), "{name}");
    }
}

/// Two gigabytes packed into a few kilobytes, brackets 200,000 deep, a sheet of 300 MB, one that hides its size, one of
/// 17 thousand million cells: an error each, within the deadline. `hostile/make.py` makes them.
#[test]
fn hostile_files_cost_their_reader_alone() {
    for name in ["bomb.pdf", "deep.pdf", "bomb.xlsx", "liar.xlsx", "far.xlsx"] {
        let start = Instant::now();
        let (answer, output) = read(&file("hostile").join(name));
        assert_eq!(output.status.code(), Some(1), "{name}");
        assert_eq!(kinds(&answer).len(), 1, "{name}");
        // The deadline of the reader is 20 seconds.
        assert!(start.elapsed() < Duration::from_secs(30), "{name}: {:?}", start.elapsed());
    }
}

/// Every fortieth byte changed, file cut at every tenth: an answer each time.
#[test]
fn damaged_pdfs_are_answered() {
    let folder = tempfile::tempdir().unwrap();
    let whole = std::fs::read(file("samples/hinterthal-zone-dorf.pdf")).unwrap();
    for step in 0..30_usize {
        let mut bytes = whole.clone();
        if step % 3 == 0 {
            bytes.truncate(whole.len() * (step + 1) / 31);
        }
        bytes.iter_mut().skip(step).step_by(41 + step).for_each(|b| *b = b.wrapping_add(step as u8 + 1));
        let path = folder.path().join("damaged.pdf");
        std::fs::write(&path, &bytes).unwrap();
        let (answer, _) = read(&path);
        let said = answer["readings"].as_array().unwrap().len() + kinds(&answer).len();
        assert!(said > 0, "step {step}");
    }
}
