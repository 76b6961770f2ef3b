//! The gate: who may come in, and what every answer carries.
//!
//! The workbench listens on the loopback address only, but any page that the keeper's browser has open
//! can send requests there. So a request must name this machine as its host (else a foreign name was
//! pointed at us), and a request that writes must come from a page of the workbench itself.

use crate::trouble::Trouble;
use axum::extract::Request;
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// What a browser may load: only what the workbench itself serves; no inline script or style, no frames.
const CONTENT_SECURITY_POLICY: &str = "default-src 'self'; object-src 'none'; base-uri 'none'; \
     form-action 'self'; frame-ancestors 'none'";

/// Headers of every answer.
const HEADERS: [(HeaderName, &str); 6] = [
    (header::CONTENT_SECURITY_POLICY, CONTENT_SECURITY_POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Lets a request in or turns it away, and puts the headers on the answer.
pub(crate) async fn keep(request: Request, next: Next) -> Response {
    let mut answer = match refusal(request.method(), request.headers()) {
        Some(message) => turned_away(message).into_response(),
        None => next.run(request).await,
    };
    let headers = answer.headers_mut();
    for (name, value) in HEADERS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    answer
}

fn turned_away(message: &str) -> Trouble {
    let help = "open the workbench at the address that it printed when it was started".to_owned();
    Trouble { status: StatusCode::FORBIDDEN, message: message.to_owned(), help: Some(help) }
}

/// Why a request may not come in, where it may not.
fn refusal(method: &Method, headers: &HeaderMap) -> Option<&'static str> {
    let text = |name| headers.get(name).and_then(|value: &HeaderValue| value.to_str().ok());
    let Some(host) = text(header::HOST).filter(|host| is_this_machine(host)) else {
        return Some("this is not the address of the workbench");
    };
    let writes = !matches!(*method, Method::GET | Method::HEAD);
    (writes && !is_from_here(text(SITE), text(header::ORIGIN), host))
        .then_some("only a page of the workbench itself may change anything")
}

/// Where the browser says that a request comes from. It cannot be set by a page's script.
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Whether a `Host` names the loopback address, at any port.
fn is_this_machine(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|digit| digit.is_ascii_digit()) => name,
        _ => host,
    };
    ["127.0.0.1", "localhost", "[::1]"].contains(&name)
}

/// Whether a write comes from a page of the workbench. Under our referrer policy browsers send the origin
/// `null` with a form, so an origin alone speaks only where the site is not told.
fn is_from_here(site: Option<&str>, origin: Option<&str>, host: &str) -> bool {
    let own = origin.and_then(|origin| origin.strip_prefix("http://")) == Some(host);
    match site {
        Some("same-origin") => own || matches!(origin, None | Some("null")),
        Some(_) => false,
        None => own,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_this_machine_is_a_host() {
        for host in ["127.0.0.1:8467", "localhost", "localhost:1", "[::1]:8467"] {
            assert!(is_this_machine(host), "{host}");
        }
        for host in ["example.org", "127.0.0.1.example.org", "localhost.example.org:80", "", "127.0.0.1:x"] {
            assert!(!is_this_machine(host), "{host}");
        }
    }

    #[test]
    fn only_our_own_pages_write() {
        let host = "127.0.0.1:8467";
        let ours = "http://127.0.0.1:8467";
        assert!(is_from_here(Some("same-origin"), Some("null"), host));
        assert!(is_from_here(Some("same-origin"), None, host));
        assert!(is_from_here(None, Some(ours), host));
        for site in ["cross-site", "same-site", "none"] {
            assert!(!is_from_here(Some(site), Some(ours), host), "{site}");
        }
        assert!(!is_from_here(Some("same-origin"), Some("http://example.org"), host));
        assert!(!is_from_here(None, Some("null"), host));
        assert!(!is_from_here(None, Some("http://127.0.0.1:9999"), host));
        assert!(!is_from_here(None, None, host));
    }
}
