//! Weather in the browser: brought in, its degrees said, listed, withdrawn and restored.

use crate::site::Site;
use axum::http::StatusCode;

const DAYS: &[u8] = b"date,tmin_c,tmax_c\n2031-05-01,4.0,19.5\n2031-05-02,,20.0\n";

#[tokio::test]
async fn a_weather_file_is_looked_at_taken_withdrawn_and_restored() {
    let site = Site::new();
    let stack = site.send(&[("<mill>.csv", DAYS)]).await.leads_to().to_owned();
    let look = site.get(&stack).await.body;
    assert!(look.contains("Days of the weather station") && look.contains("2 days, 1"), "{look}");
    assert!(look.contains("&lt;mill&gt;") && !look.contains("<mill>"), "{look}");
    assert!(site.get("/weather").await.body.contains("No weather is kept yet"));
    site.post(&stack, &[("do", "take")]).await;
    assert!(site.get(&stack).await.body.contains("2 days of "));
    assert!(site.get("/weather").await.body.contains("2031-05-01 to 2031-05-02"));
    let form = |what| [("station", "<mill>"), ("do", what)];
    assert_eq!(site.post("/weather", &form("withdraw")).await.leads_to(), "/weather?did=withdrawn");
    assert!(site.get("/weather").await.body.contains("Restore"));
    assert_eq!(site.post("/weather", &form("withdraw")).await.status, StatusCode::BAD_REQUEST);
    assert_eq!(site.post("/weather", &form("restore")).await.leads_to(), "/weather?did=restored");
    assert!(site.get("/weather").await.body.contains("Withdraw"));
}

#[tokio::test]
async fn the_degrees_are_asked_where_nothing_tells_them() {
    let site = Site::new();
    let days = b"date,tmin,tmax\n2031-05-01,41,68\n";
    let stack = site.send(&[("garden.csv", days)]).await.leads_to().to_owned();
    let look = site.get(&stack).await.body;
    assert!(look.contains("Nothing says whether its degrees") && look.contains("w0.scale"), "{look}");
    let said = [("w0.file", "garden.csv"), ("w0.scale", "f"), ("do", "look")];
    site.post(&stack, &said).await;
    let look = site.get(&stack).await.body;
    assert!(look.contains("Taken for degrees Fahrenheit, by your word"), "{look}");
    let wrong = [("w0.file", "garden.csv"), ("w0.scale", "kelvin"), ("do", "look")];
    assert_eq!(site.post(&stack, &wrong).await.status, StatusCode::BAD_REQUEST);
}
