//! All pages behind one exported function, so that the linker keeps whatever they reach.

use http::Request;
use pages::{Ctx, House, Today};
use setup::{MemoryShelf, Setup};

/// The invented household: without it the optimiser could drop what only a real setup reaches.
const SETUP: &str = include_str!("../../../examples/household/tank.toml");

/// Answers one request, chosen by two numbers that the optimiser can't foresee; returns the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn answer(path: u32, post: u32) -> u32 {
    let paths = ["/", "/help-now", "/look.css", "/letter.js", "/first", "/tank/1/tap", "/tank/1/salts", "/tank/1/tank"];
    let Some(path) = paths.get(path as usize) else { return 0 };
    let Ok(setup) = Setup::read("tank.toml", SETUP) else { return 0 };
    let mut shelf = MemoryShelf::of(setup);
    let today = Today { year: 2026, month: 6, day: 11, weekday: 4 };
    let mut ctx = Ctx { shelf: &mut shelf, today, base: "/".to_owned(), seed: 0 };
    let (method, body) = if post == 1 { ("POST", b"do=rewrite&revision=1".to_vec()) } else { ("GET", Vec::new()) };
    let request = Request::builder()
        .method(method)
        .uri(*path)
        .header("content-type", "application/x-www-form-urlencoded")
        .body(body);
    let Ok(request) = request else { return 0 };
    House::new().answer(&mut ctx, &request).body().len() as u32
}
