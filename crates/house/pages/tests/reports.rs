//! Reports through the real pages: given, questioned, corrected, remembered, taken, undone, compared.
//!
//! Judge: the printed values of the samples of `report`, and the texts below.
#![allow(clippy::disallowed_methods)]

use http::{Method, Request, Response, StatusCode, header};
use jiff::ZonedDateTime;
use pages::{Ctx, House};
use setup::{Book, MemoryShelf, Setup, Shelf};

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");
const PLACE: &str = "/tank/1/tap/report";

struct Keeper {
    house: House,
    shelf: MemoryShelf,
}

impl Keeper {
    fn new() -> Keeper {
        let setup = Setup::read("tank.toml", HOUSEHOLD).unwrap();
        Keeper { house: House::new(), shelf: MemoryShelf::of(setup) }
    }

    fn send(&mut self, method: Method, path: &str, kind: &str, body: Vec<u8>) -> Response<Vec<u8>> {
        let now: ZonedDateTime = "2026-06-11T08:30:00+00:00[UTC]".parse().unwrap();
        let mut ctx = Ctx { shelf: &mut self.shelf, now, base: "/".to_owned(), seed: 1 };
        let request =
            Request::builder().method(method).uri(path).header(header::CONTENT_TYPE, kind).body(body).unwrap();
        self.house.answer(&mut ctx, &request)
    }

    fn get(&mut self, path: &str) -> String {
        let response = self.send(Method::GET, path, "", Vec::new());
        assert_eq!(response.status(), StatusCode::OK, "{path}");
        String::from_utf8(response.into_body()).unwrap()
    }

    /// Gives a report as a browser does.
    fn give(&mut self, name: &str, file: &[u8], text: &str, by: &str) -> Response<Vec<u8>> {
        let mut body = Vec::new();
        let mut part = |head: &str, content: &[u8]| {
            body.extend_from_slice(format!("--q7\r\nContent-Disposition: form-data; {head}\r\n\r\n").as_bytes());
            body.extend_from_slice(content);
            body.extend_from_slice(b"\r\n");
        };
        part(&format!("name=\"report\"; filename=\"{name}\""), file);
        part("name=\"text\"", text.as_bytes());
        part("name=\"by\"", by.as_bytes());
        part("name=\"do\"", b"read");
        body.extend_from_slice(b"--q7--\r\n");
        self.send(Method::POST, PLACE, "multipart/form-data; boundary=q7", body)
    }

    fn paste(&mut self, text: &str, by: &str) -> String {
        let response = self.give("", b"", text, by);
        assert_eq!(response.status(), StatusCode::SEE_OTHER, "{}", String::from_utf8_lossy(response.body()));
        response.headers()[header::LOCATION].to_str().unwrap().to_owned()
    }

    fn sample(&mut self, name: &str) -> String {
        let path = format!("{}/../../advice/report/tests/samples/{name}", env!("CARGO_MANIFEST_DIR"));
        let response = self.give(name, &std::fs::read(path).unwrap(), "", "works");
        assert_eq!(response.status(), StatusCode::SEE_OTHER, "{name}");
        response.headers()[header::LOCATION].to_str().unwrap().to_owned()
    }

    /// Sends a report's page back, with its edition and all that it shows, but for what is changed.
    fn post(&mut self, path: &str, changes: &[(&str, &str)]) -> Response<Vec<u8>> {
        let page = self.get(path);
        let mut form: Vec<(String, String)> = fields(&page);
        for (name, value) in changes {
            form.retain(|(other, _)| other != name);
            form.push(((*name).to_owned(), (*value).to_owned()));
        }
        self.send(Method::POST, path, "application/x-www-form-urlencoded", form_urlencoded(&form).into_bytes())
    }

    fn written(&mut self, field: &str) -> Option<String> {
        self.shelf.open(1).unwrap().setup().unwrap().written(field)
    }

    fn revision(&self) -> u64 {
        self.shelf.book(1).unwrap().revision()
    }
}

/// What a form of a page would send if nothing were typed: its inputs, selects aside.
fn fields(page: &str) -> Vec<(String, String)> {
    page.split("<input")
        .skip(1)
        .filter_map(|tag| {
            let tag = tag.split('>').next()?;
            let of = |name: &str| Some(tag.split(&format!(" {name}=\"")).nth(1)?.split('"').next()?.to_owned());
            let checkable = tag.contains("type=\"radio\"") || tag.contains("type=\"checkbox\"");
            (!checkable || tag.contains(" checked")).then_some(())?;
            Some((of("name")?, unescaped(&of("value").unwrap_or_default())))
        })
        .collect()
}

fn unescaped(text: &str) -> String {
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

fn form_urlencoded(pairs: &[(String, String)]) -> String {
    let escape = |text: &str| text.bytes().map(|b| format!("%{b:02X}")).collect::<String>();
    pairs.iter().map(|(n, v)| format!("{}={}", escape(n), escape(v))).collect::<Vec<_>>().join("&")
}

/// The name of the blank whose row has this head and statistic.
fn blank(page: &str, says: &str) -> String {
    let at = page.find(&format!("aria-label=\"{says}\"")).unwrap_or_else(|| panic!("no blank for {says}"));
    let start = page[..at].rfind("<input").unwrap();
    page[start..at].split("name=\"").nth(1).unwrap().split('"').next().unwrap().to_owned()
}

#[test]
fn a_file_is_read_shown_beside_the_original_and_taken_as_one_revision() {
    let mut keeper = Keeper::new();
    let empty = keeper.get(PLACE);
    assert!(empty.contains("enctype=\"multipart/form-data\"") && empty.contains("type=\"file\" name=\"report\""));
    assert!(empty.contains("No report at all?"), "the tests stand where nothing is given");
    let page = keeper.sample("uk-zone-summary.csv");
    assert_eq!(page, format!("{PLACE}/1"));
    let html = keeper.get(&page);
    // The original line stands beside the value.
    assert!(html.contains("Nitrate  mg/l NO3  50  16.3  18.3  19.1"), "{html}");
    assert!(html.contains("value=\"18.3 mg/L as NO3\""), "{html}");
    assert!(html.contains("nothing is open"), "{html}");
    // Both kinds of limits, apart; five sentences.
    for part in [
        "What it means",
        "Against regulators’ limits",
        "Against what plants, fish and shrimps bear",
        "Before it touches animals",
        "known by",
    ] {
        assert!(html.contains(part), "{part}");
    }
    assert!(html.contains("changes this advice") || html.contains("changes no advice"), "{html}");
    let answer = keeper.post(&page, &[("do", "take-0")]);
    assert_eq!(answer.headers()[header::LOCATION], "/tank/1/tap?was=1");
    assert_eq!(keeper.revision(), 2, "one revision");
    let nitrate = keeper.shelf.open(1).unwrap().setup().unwrap().entries();
    assert_eq!(
        (nitrate["tap.nitrate.min"].as_str(), nitrate["tap.nitrate.max"].as_str()),
        ("16.3 mg/L NO3", "19.1 mg/L NO3")
    );
    assert!(keeper.get("/tank/1/tap").contains("What it means"));
    // One step takes all of it back.
    assert_eq!(keeper.shelf.open(1).unwrap().undo(), Some(3));
    assert_eq!(keeper.written("tap.nitrate").as_deref(), Some("14 mg/L NO3"));
}

const YEAR: &str = "Parameter\tUnit\tMin\tMean\tMax\nNitrate\tmg/l\t20.1\t28.0\t31.4\nChloride\tmg/l\t20\t24\t30\n\
                    Sulphate\tmg/l\t30\t34\t41\nCalcium\tmg/l\t60\t70\t80\nOdd stuff\tmg/l\t1\t2\t3\n";

#[test]
fn the_question_stands_on_top_and_nothing_is_computed_before_it_is_answered() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(YEAR, "works");
    let html = keeper.get(&page);
    assert!(html.find("class=\"question\"").unwrap() < html.find("beside the original").unwrap());
    assert!(html.contains("I don’t know."), "{html}");
    assert!(html.contains("not used until it is told how it is counted"), "{html}");
    // Rule 11: no sentence of what it means, none of what it feeds, stands on an open basis.
    assert!(html.contains("What it means waits for the answer") && !html.contains("it feeds the tank"), "{html}");
    // Taken all the same, the letter asks; it decides nothing.
    keeper.post(&page, &[("do", "take-0")]);
    let letter = keeper.get("/tank/1/salts");
    assert!(letter.contains("class=\"question\""), "the letter asks too");
    // Answered, all three are settled and the question is gone.
    let at = html.split("name=\"reply\" value=\"").nth(1).unwrap().split('=').next().unwrap().to_owned();
    let answer = keeper.post(&page, &[("reply", &format!("{at}=as:Ion")), ("do", "")]);
    assert_eq!(answer.status(), StatusCode::SEE_OTHER);
    let html = keeper.get(&page);
    assert!(
        !html.contains("class=\"question\"") && html.contains("28 mg/L as NO3") && html.contains("20.1 mg/L as NO3")
    );
    assert!(html.contains("You said so"), "{html}");
}

#[test]
fn i_dont_know_is_an_answer() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(YEAR, "works");
    let html = keeper.get(&page);
    let at = html.split("name=\"reply\" value=\"").nth(1).unwrap().split('=').next().unwrap().to_owned();
    keeper.post(&page, &[("reply", &format!("{at}="))]);
    let html = keeper.get(&page);
    assert!(!html.contains("class=\"question\"") && html.contains("what you could not answer I leave out"), "{html}");
}

#[test]
fn one_edit_corrects_a_reading_and_the_next_report_remembers() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(YEAR, "works");
    let name = blank(&keeper.get(&page), "Nitrate, mean");
    // What leaves it open is refused beside its row; the old reading holds.
    let answer = keeper.post(&page, &[(&name, "29 mg/L")]);
    assert_eq!(answer.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert!(String::from_utf8_lossy(answer.body()).contains("I did not take"));
    for statistic in ["least", "mean", "most"] {
        let name = blank(&keeper.get(&page), &format!("Nitrate, {statistic}"));
        let value = ["20.1", "28", "31.4"][["least", "mean", "most"].iter().position(|s| *s == statistic).unwrap()];
        assert_eq!(keeper.post(&page, &[(&name, &format!("{value} mg/L N"))]).status(), StatusCode::SEE_OTHER);
    }
    assert!(keeper.get(&page).contains("28 mg/L as N"));
    // Untouched blanks that were sent along changed nothing.
    let kept = keeper.shelf.reports(1).unwrap().remove(0);
    let filed = report::Filed::from_text(&kept.text).unwrap();
    assert_eq!(filed.corrections.len(), 3, "{:?}", filed.corrections);
    let next = keeper.paste(&YEAR.replace("28.0", "27.5").replace("70\t80", "71\t80"), "works");
    let html = keeper.get(&next);
    assert!(html.contains("27.5 mg/L as N") && html.contains("as you told me there"), "{html}");
    assert!(!html.contains("class=\"question\""), "{html}");
    // And it can be taken back; with all three of the row gone the question is there again.
    for statistic in ["least", "mean", "most"] {
        let name = blank(&keeper.get(&next), &format!("Nitrate, {statistic}"));
        assert_eq!(keeper.post(&next, &[("undo", &name)]).status(), StatusCode::SEE_OTHER);
    }
    assert!(keeper.get(&next).contains("class=\"question\""));
}

#[test]
fn two_works_stay_two_and_a_pen_tells_them_apart() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(
        "Parameter\tUnit\tWorks A\tWorks B\nConductivity at 25 °C\tµS/cm\t310\t620\nCalcium\tmg/l\t40\t95\nChloride\tmg/l\t12\t40\n",
        "works",
    );
    assert!(keeper.get(&page).contains("Yours is"), "the keeper picks");
    keeper.post(&page, &[("sample", "all")]);
    let html = keeper.get(&page);
    assert!(html.contains("Two waters") && html.contains("Before each change ask a pen"), "{html}");
    assert!(html.contains("value=\"take-0\"") && html.contains("value=\"take-1\""));
    keeper.post(&page, &[("sample", "all"), ("do", "take-1")]);
    let calcium = keeper.written("tap.calcium").unwrap();
    assert!(calcium.starts_with("9"), "the one with more salt: {calcium}");
}

#[test]
fn own_tests_count_in_and_find_a_softener() {
    let mut keeper = Keeper::new();
    let works = keeper.sample("uk-zone-summary.csv");
    keeper.paste("GH 1 °dH\nNitrate 20 mg/l NO3\n", "keeper");
    let html = keeper.get(&works);
    assert!(html.contains("Count in my own tests"), "{html}");
    keeper.post(&works, &[("with", "2")]);
    let html = keeper.get(&works);
    assert!(html.contains("a softener in the house"), "{html}");
}

#[test]
fn last_year_against_this_year_says_which_advice_changes() {
    let year = |nitrate: f64| {
        format!(
            "Calcium 48 mg/l\nMagnesium 6.0 mg/l\nSodium 22.0 mg/l\nPotassium 3.0 mg/l\nChloride 30.0 mg/l\nSulphate 32 mg/l\n\
             Nitrate {nitrate} mg/l NO3\nAlkalinity 106 mg/l CaCO3\nPhosphate 0.05 mg/l PO4\nCopper 0.002 mg/l\n"
        )
    };
    let mut keeper = Keeper::new();
    keeper.paste(&year(3.0), "works");
    let page = keeper.paste(&year(32.0), "works");
    let html = keeper.get(&page);
    assert!(html.contains("Since the last report") && html.contains("Nitrate rose from 3"), "{html}");
    assert!(html.contains("potassium nitrate"), "less or none of it is given: {html}");
    // The same report again: nothing moved, no advice changes.
    let page = keeper.paste(&year(32.0), "works");
    let html = keeper.get(&page);
    assert!(html.contains("Nothing moved by more") && html.contains("No advice changes with it"), "{html}");
}

#[test]
fn two_works_are_compared_by_their_names() {
    let year = |nitrate: [f64; 2], other: &str| {
        let [a, b] = nitrate;
        format!(
            "Parameter\tUnit\tWorks A\t{other}\nConductivity at 25 °C\tµS/cm\t310\t620\nCalcium\tmg/l\t40\t95\n\
             Magnesium\tmg/l\t5\t9\nSodium\tmg/l\t10\t22\nPotassium\tmg/l\t2.0\t3.0\nChloride\tmg/l\t12\t40\n\
             Sulphate\tmg/l\t15\t50\nNitrate as NO3\tmg/l\t{a}\t{b}\nPhosphate as PO4\tmg/l\t0.05\t0.05\n"
        )
    };
    let mut keeper = Keeper::new();
    let all = |keeper: &mut Keeper, page: &str| keeper.post(page, &[("sample", "all")]);
    let first = keeper.paste(&year([3.0, 20.0], "Works B"), "works");
    all(&mut keeper, &first);
    let page = keeper.paste(&year([32.0, 20.0], "Works B"), "works");
    all(&mut keeper, &page);
    let html = keeper.get(&page);
    let since = html.split_once("Since the last report").expect(&html).1;
    let (a, b) = (since.find("<h3>Works A</h3>").expect(since), since.find("<h3>Works B</h3>").expect(since));
    let (of_a, of_b) = if a < b { (&since[a..b], &since[b..]) } else { (&since[a..], &since[b..a]) };
    assert!(of_a.contains("Nitrate rose from 3") && of_a.contains("The advice that changes with it:"), "{of_a}");
    assert!(of_b.contains("Nothing moved by more"), "{of_b}");
    // Another works than last year's is told, and not compared with it.
    let page = keeper.paste(&year([32.0, 20.0], "Works C"), "works");
    all(&mut keeper, &page);
    let html = keeper.get(&page);
    assert!(html.contains("Works C is in the later report and not in the earlier one"), "{html}");
}

#[test]
fn a_stale_window_changes_nothing() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(YEAR, "works");
    let name = blank(&keeper.get(&page), "Chloride, mean");
    let answer = keeper.post(&page, &[(&name, "25 mg/L"), ("edition", "9")]);
    assert_eq!(answer.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert!(String::from_utf8_lossy(answer.body()).contains("Another window changed this report"));
    assert_eq!(keeper.shelf.reports(1).unwrap()[0].edition, 1);
}

#[test]
fn what_cannot_be_read_is_told_and_not_kept() {
    let mut keeper = Keeper::new();
    for (name, file, text, says) in [
        ("picture.png", &b"\x89PNG\r\n\x1a\n\0\0"[..], "", "could read no value"),
        ("", &b""[..], "Dear customer, all is well.", "No water value was found"),
        ("", &b""[..], "", "neither a file nor a text"),
    ] {
        let answer = keeper.give(name, file, text, "works");
        assert_eq!(answer.status(), StatusCode::UNPROCESSABLE_ENTITY);
        let html = String::from_utf8(answer.into_body()).unwrap();
        assert!(html.contains(says), "{html}");
        assert!(text.is_empty() || html.contains(text), "what was pasted is still there");
    }
    let broken = keeper.send(Method::POST, PLACE, "multipart/form-data; boundary=q7", b"--q7\r\nbroken".to_vec());
    assert_eq!(broken.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let urlencoded = keeper.send(Method::POST, PLACE, "application/x-www-form-urlencoded", b"text=a".to_vec());
    assert_eq!(urlencoded.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(keeper.shelf.reports(1).unwrap(), []);
    assert_eq!(keeper.revision(), 1);
    for missing in ["/tank/2/tap/report", "/tank/1/tap/report/1", "/tank/1/tap/report/x"] {
        assert_eq!(keeper.send(Method::GET, missing, "", Vec::new()).status(), StatusCode::NOT_FOUND, "{missing}");
    }
}

#[test]
fn put_away_and_taken_out_again() {
    let mut keeper = Keeper::new();
    let page = keeper.paste(YEAR, "works");
    keeper.post(&page, &[("do", "away")]);
    assert!(keeper.get(&page).contains("counts for nothing") && keeper.get(PLACE).contains("put away"));
    keeper.post(&page, &[("do", "back")]);
    assert!(!keeper.get(PLACE).contains("put away"));
}

/// What a stranger wrote into a report is text on our page, and nothing else.
#[test]
fn a_report_cannot_write_into_the_page() {
    let mut keeper = Keeper::new();
    let page = keeper.paste("Nitrate <script>alert(1)</script> mg/l NO3 12\nCalcium 60 mg/l \"><img src=x>\n", "works");
    let html = keeper.get(&page);
    assert!(!html.contains("<script>alert") && !html.contains("<img"), "{html}");
}
