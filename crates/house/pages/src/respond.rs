//! Responses: status, head lines, whole body. Every page carries the same strict policy.

use http::{HeaderName, HeaderValue, Response, StatusCode, header};
use maud::Markup;

/// Nothing from elsewhere, nothing inline; the module may fetch from this house alone.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self' data:; \
                      form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

fn whole(status: StatusCode, kind: &'static str, cache: &'static str, body: Vec<u8>) -> Response<Vec<u8>> {
    let mut response = Response::new(body);
    *response.status_mut() = status;
    let lines: [(HeaderName, &'static str); 6] = [
        (header::CONTENT_TYPE, kind),
        (header::CACHE_CONTROL, cache),
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    ];
    for (name, value) in lines {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}

/// A page.
pub fn page(status: StatusCode, body: Markup) -> Response<Vec<u8>> {
    whole(status, "text/html; charset=utf-8", "no-cache", body.into_string().into_bytes())
}

/// A file that is compiled in; its address changes with its content.
pub fn asset(kind: &'static str, body: &'static str) -> Response<Vec<u8>> {
    whole(StatusCode::OK, kind, "public, max-age=31536000, immutable", body.as_bytes().to_vec())
}

/// A file to keep; `disposition` names it.
pub fn download(status: StatusCode, kind: &'static str, disposition: &'static str, text: String) -> Response<Vec<u8>> {
    let mut response = whole(status, kind, "no-cache", text.into_bytes());
    response.headers_mut().insert(header::CONTENT_DISPOSITION, HeaderValue::from_static(disposition));
    response
}

/// "Look there", by GET.
pub fn see_other(to: &str) -> Response<Vec<u8>> {
    let mut response = whole(StatusCode::SEE_OTHER, "text/plain; charset=utf-8", "no-store", Vec::new());
    if let Ok(to) = HeaderValue::from_str(to) {
        response.headers_mut().insert(header::LOCATION, to);
    }
    response
}
