//! The pages of a shelf, asked and posted to without a socket.

use http::{Request, Response};
use pages::{Ctx, House};
use setup::{Book, MemoryBook, MemoryShelf, Setup};

use super::answer;

/// A door: one house over one shelf.
pub struct Door {
    house: House,
    /// The tanks.
    pub shelf: MemoryShelf,
    base: String,
}

impl Door {
    /// The household's pages below `base`.
    pub fn open(text: &str, base: &str) -> Door {
        Door::over(MemoryShelf::of(Setup::read("tank.toml", text).unwrap()), base)
    }

    /// The pages of these tanks.
    pub fn over(shelf: MemoryShelf, base: &str) -> Door {
        Door { house: House::asking(answer), shelf, base: base.to_owned() }
    }

    /// The pages of a tank by the recipe itself, not by the plan that the tests share.
    pub fn planned(text: &str) -> Door {
        let shelf = MemoryShelf::of(Setup::read("tank.toml", text).unwrap());
        Door { house: House::new(), shelf, base: "/".to_owned() }
    }

    /// The book of the first tank.
    pub fn book(&self) -> &MemoryBook {
        self.shelf.book(1).unwrap()
    }

    /// What it says now.
    pub fn setup(&self) -> &Setup {
        self.book().setup().unwrap()
    }

    /// Ask anything.
    pub fn ask(&mut self, request: Request<Vec<u8>>) -> Response<Vec<u8>> {
        let now = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap();
        let mut ctx = Ctx { shelf: &mut self.shelf, now, base: self.base.clone(), seed: 1 };
        self.house.answer(&mut ctx, &request)
    }

    /// Read a page.
    pub fn get(&mut self, path: &str) -> Response<Vec<u8>> {
        self.ask(Request::get(path).body(Vec::new()).unwrap())
    }

    /// The text of a page that must be there.
    pub fn page(&mut self, path: &str) -> String {
        let response = self.get(path);
        assert_eq!(response.status(), 200, "{path}");
        text(&response)
    }

    /// Send a form.
    pub fn post(&mut self, path: &str, fields: &[(&str, &str)]) -> Response<Vec<u8>> {
        let body = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish();
        let request = Request::post(path).header("content-type", "application/x-www-form-urlencoded");
        self.ask(request.body(body.into_bytes()).unwrap())
    }

    /// Send a form and look where it leads.
    pub fn rewrite(&mut self, path: &str, fields: &[(&str, &str)]) -> String {
        let response = self.post(path, fields);
        assert_eq!(response.status(), 303, "{}", text(&response));
        let to = response.headers()["location"].to_str().unwrap().to_owned();
        self.page(&to)
    }
}

/// The body as text.
pub fn text(response: &Response<Vec<u8>>) -> String {
    String::from_utf8(response.body().clone()).unwrap()
}
