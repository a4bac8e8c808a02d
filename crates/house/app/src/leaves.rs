//! Pages as they were written last. A page follows from the book, the address and the minute: until one of them changes
//! the same bytes go out again.

use http::{Response, StatusCode, header};
use hyper::body::Bytes;

/// Pages of one state of the book and one minute.
#[derive(Default)]
pub struct Leaves {
    of: Option<State>,
    pages: Vec<(String, Response<Bytes>)>,
    bytes: usize,
}

/// What all pages follow from: the mark of the shelf, and minutes since 1970.
pub type State = (u64, i64);

/// Most bytes that are kept.
const MOST_BYTES: usize = 16 << 20;

impl Leaves {
    /// The page at an address (path and query), if it was written in this very state.
    pub fn find(&self, of: State, address: &str) -> Option<Response<Bytes>> {
        let here = self.pages.iter().filter(|_| self.of == Some(of));
        here.rev().find(|(kept, _)| kept == address).map(|(_, page)| page.clone())
    }

    /// Keep a page. Only what is whole and may be shown again is kept.
    pub fn keep(&mut self, of: State, address: &str, page: &Response<Bytes>) {
        let again = page.status() == StatusCode::OK && !page.headers().contains_key(header::REFRESH);
        if !again || page.body().len() > MOST_BYTES {
            return;
        }
        if self.of != Some(of) || self.bytes + page.body().len() > MOST_BYTES {
            *self = Leaves { of: Some(of), ..Leaves::default() };
        }
        self.bytes += page.body().len();
        self.pages.push((address.to_owned(), page.clone()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(text: &'static str) -> Response<Bytes> {
        Response::new(Bytes::from_static(text.as_bytes()))
    }

    #[test]
    fn a_page_goes_out_again_until_the_book_or_the_minute_changes() {
        let mut leaves = Leaves::default();
        leaves.keep((1, 10), "/a", &page("one"));
        leaves.keep((1, 10), "/b", &page("two"));
        let found = |leaves: &Leaves, of, address| leaves.find(of, address).map(Response::into_body);
        assert_eq!(found(&leaves, (1, 10), "/a"), Some(Bytes::from_static(b"one")));
        assert_eq!(found(&leaves, (1, 10), "/a?why=a"), None);
        assert_eq!((found(&leaves, (2, 10), "/a"), found(&leaves, (1, 11), "/a")), (None, None));
        leaves.keep((2, 10), "/a", &page("three"));
        assert_eq!(found(&leaves, (2, 10), "/a"), Some(Bytes::from_static(b"three")));
        assert_eq!((found(&leaves, (2, 10), "/b"), found(&leaves, (1, 10), "/b")), (None, None));
    }

    #[test]
    fn what_is_no_whole_page_is_not_kept_and_the_heap_stays_small() {
        let mut leaves = Leaves::default();
        let mut missing = page("no");
        *missing.status_mut() = StatusCode::NOT_FOUND;
        leaves.keep((1, 10), "/a", &missing);
        let mut working = page("wait");
        working.headers_mut().insert(header::REFRESH, http::HeaderValue::from_static("1"));
        leaves.keep((1, 10), "/a", &working);
        assert!(leaves.find((1, 10), "/a").is_none());
        let large = Response::new(Bytes::from(vec![b' '; MOST_BYTES / 4]));
        for n in 0..10 {
            leaves.keep((1, 10), &format!("/{n}"), &large);
            assert!(leaves.bytes <= MOST_BYTES && leaves.find((1, 10), &format!("/{n}")).is_some());
        }
    }
}
