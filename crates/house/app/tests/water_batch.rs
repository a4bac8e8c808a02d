//! The batch of waters: shape of the answer, order, exit codes, memory. What the numbers are held against stands in
//! the tests of `water`.

use std::io::{Read, Write};
use std::process::{Command, Output};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use app::batch::{self, Count, Form};
use serde_json::Value;

const HEADER: &str =
    "id,temperature_c,na,k,ca,mg,nh4,cl,so4,no3,po4,alkalinity_meq_per_l,ph,pco2_atm,co2_mg_per_l,dic_mmol_per_l";

fn solve(rows: &[&str]) -> (Vec<Value>, Count) {
    let text = format!("{HEADER}\n{}\n", rows.join("\n"));
    let mut out = Vec::new();
    let count = batch::solve("a.csv", text.as_bytes(), Form::Json, &mut out, Vec::new()).unwrap();
    (serde_json::from_slice(&out).unwrap(), count)
}

fn tapmere(arguments: &[&str], file: &str) -> Output {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.csv"), file).unwrap();
    Command::new(env!("CARGO_BIN_EXE_tapmere")).args(arguments).current_dir(folder.path()).output().unwrap()
}

#[test]
fn the_answer_has_the_documented_shape() {
    let (rows, count) = solve(&["a,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,"]);
    assert_eq!(count, Count { solved: 1, failed: 0 });
    let keys: Vec<&str> = rows[0].as_object().unwrap().keys().map(String::as_str).collect();
    let mut documented = vec![
        "id",
        "ph",
        "alkalinity_meq_per_l",
        "dic_mmol_per_l",
        "co2_mg_per_l",
        "ionic_strength_mol_per_kg",
        "si",
        "conductivity_25_us_per_cm",
        "conductivity_t_us_per_cm",
        "nh3_fraction",
        "charge_balance_percent",
    ];
    documented.sort_unstable();
    assert_eq!(keys, documented);
    let minerals: Vec<&str> = rows[0]["si"].as_object().unwrap().keys().map(String::as_str).collect();
    assert_eq!(minerals, ["aragonite", "calcite", "gypsum", "hydroxyapatite"]);
}

#[test]
fn a_row_that_goes_in_by_one_number_comes_back_by_another() {
    let (by_ph, _) = solve(&["a,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,"]);
    let dic = by_ph[0]["dic_mmol_per_l"].as_f64().unwrap();
    let co2 = by_ph[0]["co2_mg_per_l"].as_f64().unwrap();
    let by_dic = format!("b,12,20,3,95,12,0,35,60,14,0.5,4.2,,,,{dic}");
    let by_co2 = format!("c,12,20,3,95,12,0,35,60,14,0.5,4.2,,,{co2},");
    let (rows, _) = solve(&[&by_dic, &by_co2]);
    for row in rows {
        // The batch converts mmol/L and mg/L; the solver's own tolerance is far below 1e-6.
        assert!((row["ph"].as_f64().unwrap() - 7.4).abs() < 1e-6, "{row}");
    }
}

#[test]
fn an_absent_ion_has_no_index_and_alkalinity_may_come_from_the_charges() {
    let (rows, _) = solve(&["a,12,20,3,95,12,0,35,60,14,0,,7.4,,,"]);
    assert!(rows[0]["si"]["hydroxyapatite"].is_null());
    assert!(rows[0]["si"]["gypsum"].is_number());
    assert!(rows[0]["charge_balance_percent"].as_f64().unwrap().abs() < 1e-9);
    // By hand: 20/22.990 + 3/39.098 + 2*95/40.078 + 2*12/24.305 - 35/35.45 - 2*60/96.056 - 14/62.004 = 4.2098 meq/L.
    let by_hand =
        20.0 / 22.990 + 3.0 / 39.098 + 190.0 / 40.078 + 24.0 / 24.305 - 35.0 / 35.45 - 120.0 / 96.056 - 14.0 / 62.004;
    assert!((rows[0]["alkalinity_meq_per_l"].as_f64().unwrap() - by_hand).abs() < 1e-9);
}

#[test]
fn a_row_that_fails_carries_its_error_and_the_batch_goes_on() {
    let (rows, count) = solve(&[
        "good,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,",
        "bad,12,20,3,95,-12,0,35,60,14,0.5,4.2,7.4,,,",
        "hot,80,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,",
        "last,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,",
    ]);
    assert_eq!(count, Count { solved: 2, failed: 2 });
    let ids: Vec<&str> = rows.iter().map(|r| r["id"].as_str().unwrap()).collect();
    assert_eq!(ids, ["good", "bad", "hot", "last"]);
    assert!(rows[1]["error"].as_str().unwrap().contains("a.csv:3:16, field `mg`"), "{}", rows[1]);
    assert!(rows[2]["error"].as_str().unwrap().contains("a.csv:4:5, field `temperature_c`"), "{}", rows[2]);
    assert_eq!(rows[0]["ph"], rows[3]["ph"]);
}

#[test]
fn exit_codes_say_all_some_usage() {
    let good = "g,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,";
    let bad = "b,12,20,3,95,12,0,35,60,14,0.5,4.2,,,,";
    let run = |file: &str| {
        let out = tapmere(&["water", "solve", "a.csv", "--json"], file);
        (out.status.code().unwrap(), out.stdout)
    };
    assert_eq!(run(&format!("{HEADER}\n{good}\n")).0, 0);
    assert_eq!(run(&format!("{HEADER}\n{good}\n{bad}\n")).0, 1);
    assert_eq!(run(&format!("{HEADER}\n{bad}\n")).0, 1);
    for no_batch in ["", "\n", HEADER, "id;na\n1;2\n"] {
        let (code, out) = run(no_batch);
        let told: Value = serde_json::from_slice(&out).unwrap();
        assert!(code == 2 && told["faults"][0]["what"].is_string(), "{no_batch:?}: {told}");
    }
    assert_eq!(tapmere(&["water", "solve", "nowhere.csv"], "").status.code(), Some(2));
    assert_eq!(tapmere(&["water", "solve"], "").status.code(), Some(2));
    assert_eq!(tapmere(&["water", "blend", "a.csv", "--air-ppm", "lots"], "").status.code(), Some(2));
}

#[test]
fn a_byte_order_mark_line_ends_of_other_systems_and_spaces_do_not_matter() {
    let text = format!("\u{feff}{HEADER}\r\na , 12, 20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,\r\n");
    let mut out = Vec::new();
    let count = batch::solve("a.csv", text.as_bytes(), Form::Json, &mut out, Vec::new()).unwrap();
    assert_eq!(count, Count { solved: 1, failed: 0 });
    let rows: Vec<Value> = serde_json::from_slice(&out).unwrap();
    assert_eq!(rows[0]["id"], "a");
}

/// A blend is closed by its carbon: mixing two waters that are the same changes nothing, and the pH of two
/// different ones is not the mean of theirs.
#[test]
fn a_blend_conserves_what_is_conserved_and_never_the_ph() {
    let header = HEADER.replace("id,", "id,parts,");
    let (hard, soft) = ("12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,", "12,0.5,0.1,0.4,0.1,0,0.5,0.2,0.1,0,0.03,5.6,,,");
    let blend = |rows: String, more: &[&str]| -> Value {
        let arguments = [&["water", "blend", "a.csv", "--json"], more].concat();
        let out = tapmere(&arguments, &format!("{header}\n{rows}\n"));
        assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
        serde_json::from_slice(&out.stdout).unwrap()
    };
    let same = blend(format!("a,1,{hard}\nb,3,{hard}"), &[]);
    assert!((same["closed"]["ph"].as_f64().unwrap() - 7.4).abs() < 1e-6, "{same}");
    assert!(same["aired"].is_null());
    let mixed = blend(format!("a,60,{hard}\nb,40,{soft}"), &["--air-ppm", "800"]);
    let (closed, aired) = (&mixed["closed"], &mixed["aired"]);
    assert!((closed["alkalinity_meq_per_l"].as_f64().unwrap() - (0.6 * 4.2 + 0.4 * 0.03)).abs() < 1e-9);
    let mean = 0.6 * 7.4 + 0.4 * 5.6;
    assert!((closed["ph"].as_f64().unwrap() - mean).abs() > 0.1, "{closed}");
    assert!(aired["ph"].as_f64().unwrap() > closed["ph"].as_f64().unwrap() + 0.3, "{mixed}");
}

/// A file that is made while it is read, and counts its rows.
struct Endless {
    left: usize,
    made: Arc<AtomicUsize>,
    pending: Vec<u8>,
}

impl Read for Endless {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        while self.pending.len() < buffer.len() && self.left > 0 {
            self.left -= 1;
            self.made.fetch_add(1, Ordering::SeqCst);
            let row = format!("w{},12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,\n", self.left);
            self.pending.extend_from_slice(row.as_bytes());
        }
        let n = self.pending.len().min(buffer.len());
        buffer[..n].copy_from_slice(&self.pending[..n]);
        self.pending.drain(..n);
        Ok(n)
    }
}

/// An output that counts rows and notes how far the reading ran ahead.
struct Ahead {
    made: Arc<AtomicUsize>,
    written: usize,
    most: Arc<AtomicUsize>,
}

impl Write for Ahead {
    fn write(&mut self, buffer: &[u8]) -> std::io::Result<usize> {
        self.written += buffer.windows(5).filter(|w| w == b"\"id\":").count();
        let ahead = self.made.load(Ordering::SeqCst).saturating_sub(self.written);
        self.most.fetch_max(ahead, Ordering::SeqCst);
        Ok(buffer.len())
    }
    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// Rows in memory are counted, not bytes: at most the three chunks of 8192 that `stream` speaks of, and what the
/// reader's buffer of 64 kB holds (some 1,500 of these rows).
#[test]
fn memory_is_bounded_whatever_the_length_of_the_file() {
    for rows in [30_000, 60_000] {
        let (made, most) = (Arc::new(AtomicUsize::new(0)), Arc::new(AtomicUsize::new(0)));
        let input = Endless { left: rows, made: Arc::clone(&made), pending: format!("{HEADER}\n").into_bytes() };
        let output = Ahead { made, written: 0, most: Arc::clone(&most) };
        let count = batch::solve("a.csv", input, Form::Json, output, Vec::new()).unwrap();
        assert_eq!(count, Count { solved: rows, failed: 0 });
        let most = most.load(Ordering::SeqCst);
        assert!(most <= 3 * 8192 + 2000, "{most} rows were read before they were written");
    }
}

#[test]
fn a_row_without_end_is_refused_and_the_rest_stays_json() {
    let good = "g,12,20,3,95,12,0,35,60,14,0.5,4.2,7.4,,,\n";
    let endless = std::io::Read::take(std::io::repeat(b'x'), 1 << 32);
    let open_quote = format!("{HEADER}\n{good}\"");
    let input = open_quote.as_bytes().chain(endless);
    let mut out = Vec::new();
    let count = batch::solve("a.csv", input, Form::Json, &mut out, Vec::new()).unwrap();
    assert_eq!(count, Count { solved: 1, failed: 1 });
    let rows: Vec<Value> = serde_json::from_slice(&out).unwrap();
    assert!(rows[1]["error"].as_str().unwrap().contains("a row is too long"), "{}", rows[1]);
}
