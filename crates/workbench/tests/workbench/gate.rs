//! Who may come in, and what every answer carries.

use crate::site::{HOST, Site};
use axum::body::Body;
use axum::http::{Request, StatusCode};

/// Addresses of every kind: pages, a file, a picture, and one that is nowhere.
const ADDRESSES: [&str; 7] =
    ["/", "/bring-in", "/history", "/guides/fruit", "/quarantine.csv", "/nowhere", "/variety/No"];

#[tokio::test]
async fn every_answer_carries_the_strict_headers() {
    let site = Site::new();
    for address in ADDRESSES {
        let headers = site.get(address).await.headers;
        let policy = headers["content-security-policy"].to_str().unwrap();
        assert!(
            policy.starts_with("default-src 'self';") && policy.contains("frame-ancestors 'none'"),
            "{policy}"
        );
        assert!(!policy.contains("unsafe"), "{policy}");
        assert_eq!(headers["x-content-type-options"], "nosniff", "{address}");
        assert_eq!(headers["referrer-policy"], "no-referrer", "{address}");
        assert_eq!(headers["cross-origin-opener-policy"], "same-origin", "{address}");
        assert_eq!(headers["cache-control"], "no-store", "{address}");
    }
}

#[tokio::test]
async fn a_foreign_host_is_turned_away() {
    let site = Site::new();
    for host in ["example.org", "127.0.0.1.example.org:8467", "10.0.0.7:8467"] {
        let request = Request::get("/").header("host", host).body(Body::empty()).unwrap();
        let answer = site.ask(request).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{host}");
        assert!(!answer.body.contains("The Test House"), "{host}");
    }
    let nameless = Request::get("/").body(Body::empty()).unwrap();
    assert_eq!(site.ask(nameless).await.status, StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn only_our_own_pages_change_anything() {
    let site = Site::new();
    let foreign = [
        [("sec-fetch-site", "cross-site"), ("origin", "https://example.org")],
        [("sec-fetch-site", "same-site"), ("origin", "http://127.0.0.1:9000")],
        [("sec-fetch-site", "none"), ("origin", "null")],
        [("x-nothing", ""), ("origin", "https://example.org")],
        [("x-nothing", ""), ("origin", "null")],
    ];
    for headers in foreign {
        let mut request = Request::post("/settings")
            .header("host", HOST)
            .header("content-type", "application/x-www-form-urlencoded");
        for (name, value) in headers {
            request = request.header(name, value);
        }
        let answer = site.ask(request.body(Body::from("name=Stolen&units=us&keeper=x")).unwrap()).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{headers:?}");
    }
    assert!(site.get("/settings").await.body.contains("The Test House"));
    let own = site.post("/settings", &[("name", "Renamed"), ("units", "us"), ("keeper", "Wren")]).await;
    assert_eq!(own.leads_to(), "/settings?saved=yes");
    assert!(site.get("/settings").await.body.contains("Renamed"));
}

#[tokio::test]
async fn files_of_the_page_are_kept_by_the_browser() {
    let site = Site::new();
    let page = site.get("/").await.body;
    let style = page.split("rel=\"stylesheet\" href=\"").nth(1).unwrap().split('"').next().unwrap();
    let answer = site.get(style).await;
    assert_eq!(answer.status, StatusCode::OK);
    assert!(answer.headers["cache-control"].to_str().unwrap().contains("immutable"));
    assert!(answer.headers["content-type"].to_str().unwrap().starts_with("text/css"));
}

#[tokio::test]
async fn no_page_holds_script_or_style_of_its_own() {
    let site = Site::with_fruit().await;
    for address in
        ["/", "/bench", "/variety/Marl", "/bring-in", "/history", "/guides/fruit", "/print", "/settings"]
    {
        let body = site.get(address).await.body;
        assert!(
            !body.contains("<style") && !body.contains(" style=\"") && !body.contains(" onclick"),
            "{address}"
        );
        assert_eq!(body.matches("<script").count(), 1, "{address}");
    }
}

#[tokio::test]
async fn a_form_too_long_is_refused() {
    let site = Site::new();
    let long = "x".repeat(3 << 20);
    let answer = site.post("/guides/fruit", &[("do", "preview"), ("text", &long)]).await;
    assert_eq!(answer.status, StatusCode::PAYLOAD_TOO_LARGE);
}
