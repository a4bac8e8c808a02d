//! The table of `docs/setup-file.md` is the program's own list of fields.
//!
//! After a change, `WRITE_DOCS=1 cargo test -p setup --test all docs` writes it anew.
#![allow(clippy::disallowed_methods)]

use setup::{Takes, fields};

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../docs/setup-file.md");
const MARKS: [&str; 2] = ["<!-- fields -->\n", "<!-- /fields -->"];

/// One row a field, but one for all ions of a section and one for all prices.
fn table() -> String {
    let mut table = String::from("\n| field | what it is | for instance |\n|---|---|---|\n");
    let mut last = String::new();
    for field in fields() {
        let (path, label) = match field.takes {
            Takes::Concentration(ion) | Takes::Label(ion)
                if field.path.ends_with(ion.name()) && !field.path.starts_with("pipes") =>
            {
                let section = field.path.trim_end_matches(ion.name());
                (
                    format!("{section}sodium, {section}potassium, … ").trim_end().to_owned(),
                    field.label.replacen(ion.name(), "each ion", 1),
                )
            }
            Takes::Money => {
                ("prices.potassium_nitrate, …".to_owned(), "the price of each product, in your money".to_owned())
            }
            _ => (field.path.clone(), field.label.clone()),
        };
        if path == last {
            continue;
        }
        let choices = field.takes.choices();
        let choices = match field.takes {
            Takes::SomeOf(setup::Table::Tests) => " (keys under `test` in `data/routine.toml`)".to_owned(),
            Takes::SomeOf(_) => " (keys of `data/products.toml`)".to_owned(),
            Takes::OneOf(setup::Table::Products) => " (a key of `data/products.toml`)".to_owned(),
            _ if choices.is_empty() => String::new(),
            _ => format!(" ({})", choices.join(", ")),
        };
        let bare = matches!(field.takes, Takes::Count | Takes::Bare | Takes::Money | Takes::YesNo);
        let example = match field.takes {
            Takes::SomeOf(_) => format!("[\"{}\"]", field.example),
            _ if bare => field.example.clone(),
            _ => format!("\"{}\"", field.example),
        };
        table.push_str(&format!("| `{}` | {label}{choices} | `{example}` |\n", path.replace(", ", "`, `")));
        last = path;
    }
    let ions: Vec<&str> = quantity::Ion::ALL.iter().map(|ion| ion.name()).collect();
    table.push_str(&format!(
        "\nThe ions: {}. `own.*` stands for the fields of each `[[own]]`, a liquid or powder of your own.\n\n",
        ions.join(", ")
    ));
    table
}

#[test]
fn the_table_is_current() {
    let text = std::fs::read_to_string(PATH).unwrap();
    let start = text.find(MARKS[0]).expect("the mark before the table") + MARKS[0].len();
    let end = text.find(MARKS[1]).expect("the mark behind the table");
    let table = table();
    if std::env::var("WRITE_DOCS").is_ok() {
        std::fs::write(PATH, format!("{}{table}{}", &text[..start], &text[end..])).unwrap();
        return;
    }
    assert_eq!(text[start..end], table, "WRITE_DOCS=1 writes it anew");
}
