//! Packing runs and lot cards through the pages: all of it or nothing, with the rule that stands in the way.

use crate::site::Site;
use axum::http::StatusCode;

/// A lot of 10 g, weighed and tested in 2020.
async fn with_lot() -> Site {
    let site = Site::with_fruit().await;
    let new = [("number", "20-014"), ("variety", "Marl"), ("season", "2020"), ("weight", "10 g")];
    site.post("/seed-room/new", &[&new[..], &[("on", "2020-09-20")]].concat()).await.leads_to();
    for note in [
        &[
            ("do", "weigh"),
            ("masses", "294 mg, 306 mg, 300 mg, 297 mg"),
            ("seeds", "100"),
            ("on", "2020-10-02"),
        ][..],
        &[
            ("do", "test"),
            ("begun", "2020-10-10"),
            ("counted", "2020-10-24"),
            ("seeds", "100"),
            ("normal", "92 88 95 91"),
        ],
    ] {
        site.post("/lot/20-014", note).await.leads_to();
    }
    site
}

/// The European guide asks no age of a test, so that this test of 2020 may be told by it on any day.
const RUN: [(&str, &str); 4] =
    [("wanted", "20-014=10\n\n"), ("contents", "30"), ("stock", "99.1 x 67.7 mm"), ("pack", "yes")];

async fn run(site: &Site, law: &str) -> crate::site::Answer {
    site.post("/print/labels", &[&RUN[..], &[("law", law)]].concat()).await
}

#[tokio::test]
async fn packets_are_filled_and_labelled_or_neither() {
    let site = with_lot().await;
    let nameless = run(&site, "eu").await;
    assert_eq!(nameless.status, StatusCode::BAD_REQUEST);
    assert!(nameless.body.contains("name and address"), "{}", nameless.body);
    let settings = [("name", "The Test House"), ("units", "metric"), ("keeper", "Wren")];
    site.post("/settings", &[&settings[..], &[("address", "4 Ferry Road, Low Barn")]].concat())
        .await
        .leads_to();
    assert!(site.get("/settings").await.body.contains("4 Ferry Road, Low Barn"));
    // 7 CFR 201.30a: five calendar months.
    let late = run(&site, "us").await;
    assert!(late.status == StatusCode::BAD_REQUEST && late.body.contains("201.30a"), "{}", late.body);
    assert!(!site.get("/lot/20-014").await.body.contains("packets of"));
    let done = run(&site, "eu").await.leads_to().to_owned();
    let page = site.get(&done).await.body;
    assert!(page.contains("10 labels on 2 pages") && page.contains("booked out of their jars"), "{page}");
    assert!(page.contains("From memory, unverified"), "{page}");
    let file = page.split("/print/labels-").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
    assert_eq!(site.get(&format!("/print/labels-{file}")).await.status, StatusCode::OK);
    assert!(site.get("/lot/20-014").await.body.contains("10 packets of"));
}

#[tokio::test]
async fn a_lot_has_a_card_and_a_way_to_its_labels() {
    let site = with_lot().await;
    let page = site.get("/lot/20-014").await.body;
    assert!(page.contains("/print?packets=20-014%3D40#labels"), "{page}");
    assert!(site.get("/print?packets=20-014%3D40").await.body.contains("20-014=40</textarea>"));
    let led = site.post("/print/lots", &[("lot", "20-014")]).await.leads_to().to_owned();
    assert!(led.contains("lot-card-20-014.pdf"), "{led}");
    assert_eq!(site.get("/print/lot-card-20-014.pdf").await.status, StatusCode::OK);
    assert_eq!(site.post("/print/lots", &[("lot", "20-099")]).await.status, StatusCode::NOT_FOUND);
}
