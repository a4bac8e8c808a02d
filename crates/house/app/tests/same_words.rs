//! A mistake gets the same words on the page and on the command line.

use std::fs;

use crate::tree::top;
use app::house;
use http::Request;
use setup::Setup;

const LETTERS: [&str; 3] = ["/tank/1/tap", "/tank/1/salts", "/tank/1/tank"];

/// The field that a text complains of, if it complains of one alone.
fn field(said: &str) -> Option<&str> {
    let one = said.matches("error: ").count() == 1;
    let (_, rest) = said.split_once("field `")?;
    one.then(|| rest.split('`').next().unwrap_or_default())
}

/// What a file says in a field, and the file without it.
fn without(file: &str, field: &str) -> Option<(String, String)> {
    let mut table: toml::Table = file.parse().ok()?;
    let (heading, key) = field.split_once('.')?;
    let text = table.get_mut(heading)?.as_table_mut()?.remove(key)?;
    Some((text.as_str()?.to_owned(), table.to_string()))
}

/// Text as it stands in HTML.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// What a fault says, without where it stands: a file has lines, a page has none. The page begins its sentences with capitals.
fn words(said: &str) -> impl Iterator<Item = &str> {
    let heads = ["error: ", "expected: ", "hint: "];
    said.lines().map(str::trim).filter_map(move |line| heads.iter().find_map(|head| line.strip_prefix(head)))
}

/// Whether a page says this, its first letter in whatever case.
fn says(page: &str, words: &str) -> bool {
    let first = words.chars().next().map_or(0, char::len_utf8);
    let (head, rest) = words.split_at(first);
    [head.to_owned(), head.to_uppercase()].iter().any(|head| page.contains(&escaped(&format!("{head}{rest}"))))
}

#[test]
fn a_mistake_is_told_alike_in_a_file_and_in_a_blank() {
    let mut compared = 0;
    for entry in fs::read_dir(top().join("examples/refused")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        let said = fs::read_to_string(path.with_extension("txt")).unwrap();
        let Some(field) = field(&said) else { continue };
        let Some((text, rest)) = without(&fs::read_to_string(&path).unwrap(), field) else { continue };
        let Ok(setup) = Setup::read("tank.toml", &rest) else { continue };
        let house = house::open(setup::MemoryShelf::of(setup));
        // Not every field stands in a letter.
        let Some(letter) = LETTERS.into_iter().find(|letter| {
            let page = house.answer(Request::get(*letter).body(Vec::new()).unwrap());
            String::from_utf8_lossy(page.body()).contains(&format!("name=\"{field}\""))
        }) else {
            continue;
        };
        let form: String = form_urlencoded::Serializer::new(String::new())
            .append_pair("revision", "1")
            .append_pair("do", "rewrite")
            .append_pair(field, &text)
            .finish();
        let request = Request::post(letter)
            .header("content-type", "application/x-www-form-urlencoded")
            .body(form.into_bytes())
            .unwrap();
        let response = house.answer(request);
        let page = String::from_utf8(response.body().to_vec()).unwrap();
        if field == "food.per_day" && response.status() == 303 {
            // A file must say that its amount is a day's; the blank does.
            continue;
        }
        assert_eq!(response.status(), 422, "{}: {field} = {text}", path.display());
        for line in words(&said) {
            // A blank's own unit says of what it is.
            let bare = page.replace("mg/L Ca;", "mg/L;").replace("mg/L Ca ", "mg/L ");
            assert!(
                says(&page, line) || says(&bare, line),
                "{}: the page does not say: {line}\n{page}",
                path.display()
            );
        }
        compared += 1;
    }
    assert!(compared >= 7, "only {compared} mistakes were compared");
}
