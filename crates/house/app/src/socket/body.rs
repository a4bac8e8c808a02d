//! The body of a request: whole, in time, and not too large.

use http::request::Parts;
use http::{StatusCode, header};
use http_body_util::BodyExt;
use hyper::body::{Body, Incoming};
use quantity::Fault;

use super::Limits;
use super::gate::Refused;

/// Read a body.
///
/// # Errors
/// 413 if it is too large, 408 if it takes too long, 400 if it breaks off.
pub async fn read(head: &Parts, body: Incoming, limits: Limits) -> Result<Vec<u8>, Refused> {
    // Who asks before sending (`Expect: 100-continue`) is refused before it sends.
    let announced = body.size_hint().lower() as usize;
    if announced > limits.body && head.headers.contains_key(header::EXPECT) {
        return Err(too_large(limits.body));
    }
    match tokio::time::timeout(limits.body_time, collect(body, limits)).await {
        Ok(result) => result,
        Err(_) => Err(Refused {
            status: StatusCode::REQUEST_TIMEOUT,
            text: Fault::new("the upload took too long").hint("nothing was changed; try again").to_string(),
        }),
    }
}

async fn collect(mut body: Incoming, limits: Limits) -> Result<Vec<u8>, Refused> {
    let mut whole = Vec::new();
    let mut seen = 0_usize;
    while let Some(frame) = body.frame().await {
        let Ok(frame) = frame else {
            return Err(Refused {
                status: StatusCode::BAD_REQUEST,
                text: Fault::new("the upload broke off").hint("nothing was changed; try again").to_string(),
            });
        };
        let Ok(data) = frame.into_data() else { continue };
        seen += data.len();
        if seen > limits.body.saturating_add(limits.discard) {
            break;
        }
        if seen <= limits.body {
            whole.extend_from_slice(&data);
        } else {
            whole = Vec::new();
        }
    }
    if seen > limits.body { Err(too_large(limits.body)) } else { Ok(whole) }
}

fn too_large(limit: usize) -> Refused {
    Refused { status: StatusCode::PAYLOAD_TOO_LARGE, text: crate::files::too_large(limit).to_string() }
}
