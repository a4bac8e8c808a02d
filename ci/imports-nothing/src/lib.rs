//! All pages behind one exported function, so that the linker keeps whatever they reach.

use http::Request;
use jiff::ZonedDateTime;
use pages::{Ctx, House};
use setup::{MemoryShelf, Setup};

/// The invented household: without it the optimiser could drop what only a real setup reaches.
const SETUP: &str = include_str!("../../../examples/household/tank.toml");

/// A report in the form of its page: the readers of every kind of file hang on it.
const REPORT: &[u8] = b"--q\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\nNitrate 28 mg/l NO3\r\n--q--\r\n";

/// Answers one request, chosen by two numbers that the optimiser can't foresee; returns the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn answer(path: u32, post: u32) -> u32 {
    let paths = [
        "/",
        "/help-now",
        "/look.css",
        "/letter.js",
        "/first",
        "/tank/1/tap",
        "/tank/1/salts",
        "/tank/1/tank",
        "/tank/1/tap/report",
        "/tank/1/tap/report/1",
    ];
    let Some(path) = paths.get(path as usize) else { return 0 };
    let Ok(setup) = Setup::read("tank.toml", SETUP) else { return 0 };
    let mut shelf = MemoryShelf::of(setup);
    let Ok(now) = "2026-06-11T09:00:00+00:00[UTC]".parse::<ZonedDateTime>() else { return 0 };
    let mut ctx = Ctx { shelf: &mut shelf, now, base: "/".to_owned(), seed: 0 };
    let (method, kind, body) = match post {
        1 => ("POST", "application/x-www-form-urlencoded", b"do=rewrite&revision=1".to_vec()),
        2 => ("POST", "multipart/form-data; boundary=q", REPORT.to_vec()),
        _ => ("GET", "text/plain", Vec::new()),
    };
    let request = Request::builder().method(method).uri(*path).header("content-type", kind).body(body);
    let Ok(request) = request else { return 0 };
    House::new().answer(&mut ctx, &request).body().len() as u32
}
