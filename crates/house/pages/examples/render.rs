//! Writes every page of the invented household into a folder, to be looked at:
//! `cargo run -p pages --example render -- FOLDER`.
#![allow(clippy::disallowed_methods, reason = "an example may write files")]

use std::path::Path;

use http::Request;
use pages::{Ctx, House};
use setup::{MemoryShelf, Setup};

const SETUPS: [(&str, &str); 7] = [
    ("household", include_str!("../../../../examples/household/tank.toml")),
    ("question", include_str!("../../../../examples/household/tank-question.toml")),
    ("soft", include_str!("../../../../examples/soft-water.toml")),
    ("soil", include_str!("../../../../examples/soil-tank.toml")),
    ("wish", include_str!("../../../../examples/hard-tap-ph-wish.toml")),
    ("degrees", include_str!("../../../../examples/same-water-degrees.toml")),
    ("untold", ""),
];

#[allow(clippy::unwrap_used, reason = "the date is written here")]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).ok_or("say into which folder")?;
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    for (name, text) in SETUPS {
        let house = House::new();
        let mut shelf = MemoryShelf::of(Setup::read(&format!("{name}.toml"), text)?);
        let now = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap();
        let mut ctx = Ctx { shelf: &mut shelf, now, base: "/".to_owned(), seed: 1 };
        let mut say = |request: Request<Vec<u8>>| house.answer(&mut ctx, &request).into_body();
        let path = |page: &str| format!("/tank/1/{page}");
        for page in ["care", "tap", "salts", "tank", "log", "start", "away", "measure", "signs"] {
            let body = say(Request::get(path(page)).body(Vec::new())?);
            std::fs::write(folder.join(format!("{name}-{page}.html")), local(&body))?;
        }
        if name == "household" {
            for (file, path) in [("help-now.html", "/help-now"), ("missing.html", "/nowhere"), ("first.html", "/first")]
            {
                std::fs::write(folder.join(file), local(&say(Request::get(path).body(Vec::new())?)))?;
            }
            for file in ["look.css", "letter.js"] {
                std::fs::write(folder.join(file), say(Request::get(format!("/{file}")).body(Vec::new())?))?;
            }
            let form = |body: &str| {
                let request =
                    Request::post("/tank/1/salts").header("content-type", "application/x-www-form-urlencoded");
                request.body(format!("revision=1&{body}").into_bytes())
            };
            let refused = say(form("at_hand.bottle=a+lot&habits.change=30")?);
            std::fs::write(folder.join("refused-salts.html"), local(&refused))?;
            let changed = say(Request::get("/tank/1/salts?was=1").body(Vec::new())?);
            std::fs::write(folder.join("changed-salts.html"), local(&changed))?;
        }
    }
    Ok(())
}

/// The same page, for a folder without a server.
fn local(body: &[u8]) -> String {
    String::from_utf8_lossy(body).replace("\"/look.css?", "\"look.css?").replace("\"/letter.js?", "\"letter.js?")
}
