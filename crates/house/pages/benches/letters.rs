//! What it costs to write a letter anew, its plan being known: `cargo bench -p pages`.

use http::Request;
use pages::{Ctx, House};
use setup::{MemoryShelf, Setup};

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

fn main() {
    divan::main();
}

#[divan::bench(args = ["help-now", "tank/1/care", "tank/1/tap", "tank/1/salts", "tank/1/tank", "tank/1/log"])]
fn letter(bencher: divan::Bencher, page: &str) {
    let Ok(setup) = Setup::read("tank.toml", HOUSEHOLD) else { return };
    let Ok(now) = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC") else { return };
    let Ok(request) = Request::get(format!("/{page}")).body(Vec::new()) else { return };
    let (house, mut shelf) = (House::new(), MemoryShelf::of(setup));
    let mut ask = || {
        let mut ctx = Ctx { shelf: &mut shelf, now: now.clone(), base: "/".to_owned(), seed: 1 };
        house.answer(&mut ctx, &request)
    };
    let _ = ask();
    bencher.bench_local(ask);
}
