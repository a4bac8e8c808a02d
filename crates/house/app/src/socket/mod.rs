//! The loopback socket: one function from request to response, opened to the browsers of this machine alone.
//!
//! hyper is used as it is: the limits on slow and oversized requests are settings of its connection. What a request
//! must be to come in at all is decided in `gate`; what a body may be, in `body`.

mod body;
mod gate;

use std::convert::Infallible;
use std::future::Future;
use std::sync::Arc;
use std::time::Duration;

use http::request::Parts;
use http::{Method, Request, Response, StatusCode, header};
use http_body_util::Full;
use hyper::body::{Bytes, Incoming};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use quantity::Fault;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

/// What answers, several requests at a time.
pub trait Door: Send + Sync {
    /// An answer that is at hand: it waits for nothing, so that no thread is changed for it.
    fn at_once(&self, _head: &Parts) -> Option<Response<Bytes>> {
        None
    }

    /// Most bytes of the body of a request that may carry a file; `None`: [`Limits::body`].
    fn largest_body(&self, _head: &Parts) -> Option<usize> {
        None
    }

    /// Any answer: called off the async threads.
    fn answer(&self, request: Request<Vec<u8>>) -> Response<Bytes>;
}

impl<F: Fn(Request<Vec<u8>>) -> Response<Vec<u8>> + Send + Sync> Door for F {
    fn answer(&self, request: Request<Vec<u8>>) -> Response<Bytes> {
        self(request).map(Bytes::from)
    }
}

/// The door, shared by all connections.
pub type Answer = Arc<dyn Door>;

/// What a client may take. The defaults are generous for a browser on the same machine.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Largest body, bytes, where the door says no other: a form.
    pub body: usize,
    /// Beyond the largest body so much is still read and thrown away, so that the client hears why it was refused.
    pub discard: usize,
    /// Longest wait for a whole header, and for the next request of a connection.
    pub header_time: Duration,
    /// Longest wait for a whole body.
    pub body_time: Duration,
    /// Longest life of a connection.
    pub life: Duration,
    /// Most connections at a time; others wait.
    pub connections: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Limits {
            body: 1 << 20,
            discard: 1 << 30,
            header_time: Duration::from_secs(10),
            body_time: Duration::from_secs(60),
            life: Duration::from_secs(600),
            connections: 256,
        }
    }
}

/// Most bytes of a request's head, and most lines in it.
const HEAD_BYTES: usize = 32 << 10;
const HEAD_LINES: usize = 64;

/// How long open answers may take to finish once it is closing time.
const CLOSING: Duration = Duration::from_secs(3);

/// Answer requests on `listener` until `stop` is done, then finish the open ones.
///
/// # Errors
/// The listener's own.
pub async fn serve(
    listener: TcpListener,
    answer: Answer,
    limits: Limits,
    stop: impl Future<Output = ()>,
) -> std::io::Result<()> {
    let port = listener.local_addr()?.port();
    let places = Arc::new(Semaphore::new(limits.connections));
    let graceful = GracefulShutdown::new();
    let mut stop = std::pin::pin!(stop);
    loop {
        let place = Arc::clone(&places).acquire_owned();
        let accepted = async { (place.await, listener.accept().await) };
        let (place, stream) = tokio::select! {
            () = &mut stop => break,
            (place, accepted) = accepted => match accepted {
                Ok((stream, _)) => (place, stream),
                // A client that is gone again, or no file handles left: the next one may have more luck.
                Err(_) => { tokio::time::sleep(Duration::from_millis(50)).await; continue }
            },
        };
        let answer = Arc::clone(&answer);
        let service = service_fn(move |request| handle(request, Arc::clone(&answer), limits, port));
        let connection = http1::Builder::new()
            .timer(TokioTimer::new())
            .header_read_timeout(limits.header_time)
            .max_headers(HEAD_LINES)
            .max_header_size(HEAD_BYTES)
            .serve_connection(TokioIo::new(stream), service);
        let watched = graceful.watch(connection);
        tokio::spawn(async move {
            let _ = tokio::time::timeout(limits.life, watched).await;
            drop(place);
        });
    }
    let _ = tokio::time::timeout(CLOSING, graceful.shutdown()).await;
    Ok(())
}

/// One request: the gate, the body, the answer.
async fn handle(
    request: Request<Incoming>,
    answer: Answer,
    limits: Limits,
    port: u16,
) -> Result<Response<Full<Bytes>>, Infallible> {
    let (head, incoming) = request.into_parts();
    if let Err(refused) = gate::check(&head, port) {
        return Ok(plain(refused.status, &refused.text));
    }
    let largest = answer.largest_body(&head).unwrap_or(limits.body);
    let body = match body::read(&head, incoming, Limits { body: largest, ..limits }).await {
        Ok(body) => body,
        Err(refused) => return Ok(plain(refused.status, &refused.text)),
    };
    let only_head = head.method == Method::HEAD;
    let answered = match answer.at_once(&head) {
        Some(response) => Ok(response),
        None => tokio::task::spawn_blocking(move || answer.answer(Request::from_parts(head, body))).await,
    };
    Ok(match answered {
        Ok(response) => response.map(|b| Full::new(if only_head { Bytes::new() } else { b })),
        Err(_) => plain(
            StatusCode::INTERNAL_SERVER_ERROR,
            &Fault::new("something in Tapmere broke while it answered")
                .hint("nothing was changed; go back and try again")
                .to_string(),
        ),
    })
}

/// An answer in plain words.
fn plain(status: StatusCode, text: &str) -> Response<Full<Bytes>> {
    let mut response = Response::new(Full::new(Bytes::from(format!("{text}\n"))));
    *response.status_mut() = status;
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_TYPE, "text/plain; charset=utf-8"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::CONTENT_SECURITY_POLICY, "default-src 'none'; frame-ancestors 'none'"),
        (header::CACHE_CONTROL, "no-store"),
        (header::CONNECTION, "close"),
    ] {
        headers.insert(name, header::HeaderValue::from_static(value));
    }
    response
}
