//! Who may come in: only a browser of this machine that was pointed here, and only pages of ours may change anything.
//!
//! A page of a stranger can make a name of its own point to 127.0.0.1 (DNS rebinding) and then ask us in that
//! name: so the `Host` must be one of the three that mean this machine. It can also send a form here without
//! reading the answer: so whatever is not a plain reading must come from our own `Origin`.

use http::header::{HOST, HeaderName, ORIGIN};
use http::request::Parts;
use http::{Method, StatusCode};
use quantity::Fault;

/// A request that does not come in.
#[derive(Debug)]
pub struct Refused {
    /// HTTP status.
    pub status: StatusCode,
    /// In plain words.
    pub text: String,
}

const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Check a request's head; `port` is ours.
///
/// # Errors
/// 421 for a foreign host, 403 for a foreign origin.
pub fn check(head: &Parts, port: u16) -> Result<(), Refused> {
    let host = our_host(head, port)?;
    if head.method == Method::GET || head.method == Method::HEAD {
        return Ok(());
    }
    let foreign = |what: &str| Refused {
        status: StatusCode::FORBIDDEN,
        text: Fault::new(what)
            .expected("a page of Tapmere itself; no other may change anything here")
            .hint(format!("open http://{host}/ and do it there"))
            .to_string(),
    };
    let site = one(head, &FETCH_SITE).map_err(|()| foreign("the request names two sites"))?;
    match one(head, &ORIGIN).map_err(|()| foreign("the request names two origins"))? {
        Some(origin) if origin == format!("http://{host}") => match site {
            None | Some("same-origin") => Ok(()),
            Some(_) => Err(foreign("the request was made by another site")),
        },
        Some("null") => Err(foreign("the request hides where it comes from")),
        Some(_) => Err(foreign("the request comes from another site")),
        None if site == Some("same-origin") => Ok(()),
        None => Err(foreign("the request does not say where it comes from")),
    }
}

/// The host, in small letters, if it means this machine and our port.
fn our_host(head: &Parts, port: u16) -> Result<String, Refused> {
    let ours = [format!("127.0.0.1:{port}"), format!("localhost:{port}"), format!("[::1]:{port}")];
    let named = one(head, &HOST).ok().flatten().map(str::to_ascii_lowercase);
    // A request line with a whole address names the host too: both must agree.
    let line = head.uri.authority().map(|a| a.as_str().to_ascii_lowercase());
    match named {
        Some(host) if ours.contains(&host) && line.is_none_or(|l| l == host) => Ok(host),
        _ => Err(Refused {
            status: StatusCode::MISDIRECTED_REQUEST,
            text: Fault::new("this address is not Tapmere's")
                .expected(format!("{}; Tapmere answers this machine alone", ours.join(", ")))
                .hint(format!("open http://127.0.0.1:{port}/"))
                .to_string(),
        }),
    }
}

/// The one value of a header; an error if there are two, or if it is no text.
fn one<'a>(head: &'a Parts, name: &HeaderName) -> Result<Option<&'a str>, ()> {
    let mut values = head.headers.get_all(name).iter();
    let first = values.next().map(|v| v.to_str().map_err(|_| ())).transpose()?;
    if values.next().is_some() { Err(()) } else { Ok(first) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn status(method: &str, headers: &[(&str, &str)]) -> u16 {
        let mut request = http::Request::builder().method(method).uri("/");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let (head, ()) = request.body(()).unwrap().into_parts();
        check(&head, 8321).map_or_else(|r| r.status.as_u16(), |()| 200)
    }

    #[test]
    fn only_the_three_names_of_this_machine_come_in() {
        for host in ["127.0.0.1:8321", "localhost:8321", "LocalHost:8321", "[::1]:8321"] {
            assert_eq!(status("GET", &[("host", host)]), 200, "{host}");
        }
        for host in ["127.0.0.1", "127.0.0.1:80", "127.0.0.2:8321", "localhost.example:8321", "a@localhost:8321", ""] {
            assert_eq!(status("GET", &[("host", host)]), 421, "{host}");
        }
        assert_eq!(status("GET", &[]), 421);
        assert_eq!(status("GET", &[("host", "localhost:8321"), ("host", "localhost:8321")]), 421);
    }

    #[test]
    fn a_change_needs_our_own_origin() {
        let host = ("host", "localhost:8321");
        let rows: [(&[(&str, &str)], u16); 9] = [
            (&[host, ("origin", "http://localhost:8321")], 200),
            (&[host, ("origin", "http://localhost:8321"), ("sec-fetch-site", "same-origin")], 200),
            (&[host, ("sec-fetch-site", "same-origin")], 200),
            (&[host, ("origin", "http://127.0.0.1:8321")], 403),
            (&[host, ("origin", "https://localhost:8321")], 403),
            (&[host, ("origin", "http://stranger.example")], 403),
            (&[host, ("origin", "null")], 403),
            (&[host, ("sec-fetch-site", "none")], 403),
            (&[host], 403),
        ];
        for (headers, expected) in rows {
            for method in ["POST", "PUT", "DELETE"] {
                assert_eq!(status(method, headers), expected, "{method} {headers:?}");
            }
        }
    }
}
