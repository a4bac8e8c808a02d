//! A plan that takes its time: it is worked out beside everything else, says how far it is, and can be stopped.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use app::plans::{Plans, Waited};
use app::socket::Answer;
use app::{files, house};
use http::{Request, Response, header};
use hyper::body::Bytes;
use quantity::Faults;
use recipe::Progress;
use setup::{MemoryShelf, Setup, Shelf};

type Worked = Option<Result<recipe::Answer, Faults>>;

/// What `patient` waits for before it writes a plan with 31 mg/L of chloride: this many words from the test.
static ALLOWED: AtomicUsize = AtomicUsize::new(0);

/// The recipe, but for a tap with 31 mg/L of chloride it takes until it is allowed to end.
fn patient(setup: &Setup, go_on: &mut dyn FnMut(Progress) -> bool) -> Worked {
    while setup.written("tap.chloride").is_some_and(|text| text.starts_with("31"))
        && ALLOWED.load(Ordering::SeqCst) == 0
    {
        if !go_on(Progress { done: 1, of: 3 }) {
            return None;
        }
        thread::sleep(Duration::from_millis(5));
    }
    recipe::answer_while(setup, go_on)
}

fn get(house: &Answer, path: &str) -> Response<Bytes> {
    house.answer(Request::get(path).body(Vec::new()).unwrap())
}

fn post(house: &Answer, form: &str) -> Response<Bytes> {
    let request = Request::post("/tank/1/tap").header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    house.answer(request.body(form.as_bytes().to_vec()).unwrap())
}

fn text(page: &Response<Bytes>) -> String {
    String::from_utf8(page.body().to_vec()).unwrap()
}

#[test]
fn a_slow_plan_says_how_far_it_is_holds_nobody_up_and_is_there_when_it_is_done() {
    let mut shelf = MemoryShelf::of(files::demo().unwrap());
    shelf.add(Setup::read("tank.toml", "[tank]\nname = \"Landing\"\n").unwrap()).unwrap();
    let house = house::working(shelf, patient, Duration::from_millis(20));
    while get(&house, "/tank/1/tap").headers().contains_key(header::REFRESH) {}

    assert_eq!(
        post(&house, "do=rewrite&revision=1&tap.chloride=31").status(),
        303,
        "the change is in the book at once"
    );
    let page = get(&house, "/tank/1/tap?was=1");
    assert!(page.headers().contains_key(header::REFRESH));
    assert!(
        text(&page).contains("one plan is written, of 3") && text(&page).contains("value=\"stop\""),
        "{}",
        text(&page)
    );

    // Others are answered meanwhile: another tank, and what needs no tank.
    while get(&house, "/tank/2/tap").headers().contains_key(header::REFRESH) {}
    assert_eq!(get(&house, "/help-now").status(), 200);

    // Stop takes the change back.
    assert_eq!(post(&house, "do=stop&revision=2").status(), 303);
    let back = get(&house, "/tank/1/tap");
    assert!(text(&back).contains("name=\"tap.chloride\" value=\"30\""));

    // Once more, and now it may end.
    assert_eq!(post(&house, "do=rewrite&revision=3&tap.chloride=31").status(), 303);
    assert!(get(&house, "/tank/1/tap").headers().contains_key(header::REFRESH));
    ALLOWED.store(1, Ordering::SeqCst);
    let since = Instant::now();
    let page = loop {
        let page = get(&house, "/tank/1/tap");
        if !page.headers().contains_key(header::REFRESH) {
            break page;
        }
        assert!(since.elapsed() < Duration::from_secs(60), "it never ends");
    };
    assert!(text(&page).contains("name=\"tap.chloride\" value=\"31\""));
}

fn endless(_: &Setup, go_on: &mut dyn FnMut(Progress) -> bool) -> Worked {
    while go_on(Progress::default()) {
        thread::sleep(Duration::from_millis(5));
    }
    None
}

#[test]
fn what_nobody_waits_for_any_more_is_not_worked_on() {
    let plans = Plans::new(endless);
    let setup = files::demo().unwrap();
    assert!(matches!(plans.wait(&setup, Some(Duration::from_millis(10))), Waited::Working(_)));
    assert_eq!(plans.working(), 1);
    let since = Instant::now();
    while plans.working() > 0 {
        assert!(since.elapsed() < Duration::from_secs(60), "it goes on for nobody");
        thread::sleep(Duration::from_millis(20));
    }
}

static BROKEN: AtomicUsize = AtomicUsize::new(0);

fn broken(_: &Setup, _: &mut dyn FnMut(Progress) -> bool) -> Worked {
    BROKEN.fetch_add(1, Ordering::SeqCst);
    panic!("broken on purpose")
}

#[test]
fn what_breaks_is_told_to_all_who_wait_and_not_tried_again_and_again() {
    let plans = Plans::new(broken);
    let setup = files::demo().unwrap();
    thread::scope(|all| {
        for _ in 0..4 {
            all.spawn(|| {
                let Waited::Done(answer) = plans.wait(&setup, None) else { panic!("no answer") };
                assert!(answer.as_ref().as_ref().is_err_and(|faults| faults.to_string().contains("broke")));
            });
        }
    });
    assert_eq!(BROKEN.load(Ordering::SeqCst), 1);
}
