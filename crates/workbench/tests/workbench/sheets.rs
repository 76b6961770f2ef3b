//! The Print page, the proof sheet and the type chart.

use crate::site::Site;
use axum::http::StatusCode;

#[tokio::test]
async fn what_is_printed_is_offered_for_download_with_its_day() {
    let site = Site::with_fruit().await;
    for (what, paper, file) in [
        ("proof", "a4", "proof.pdf"),
        ("catalogue", "letter", "catalogue-letter.pdf"),
        ("chart", "a3", "types-a3.pdf"),
        ("chart", "letter", "types-letter.pdf"),
    ] {
        let answer = site.post("/print", &[("what", what), ("paper", paper)]).await;
        assert_eq!(answer.leads_to(), format!("/print?printed={what}#{what}"));
        let page = site.get(&format!("/print?printed={what}")).await.body;
        assert!(page.contains(&format!("/print/{file}")) && page.contains("printed 2"), "{page}");
        assert_eq!(site.get(&format!("/print/{file}")).await.status, StatusCode::OK);
    }
    let refused = site.post("/print", &[("what", "proof"), ("paper", "a3")]).await;
    assert_eq!(refused.status, StatusCode::BAD_REQUEST);
    assert!(refused.body.contains("A4 or US Letter"), "{}", refused.body);
    assert_eq!(site.post("/print", &[("what", "turnips")]).await.status, StatusCode::BAD_REQUEST);
}

#[tokio::test]
async fn the_proof_sheet_stands_before_the_catalogue() {
    let site = Site::with_fruit().await;
    let page = site.get("/print").await.body;
    let (proof, catalogue) = (page.find("Proof sheet"), page.find("Print the catalogue"));
    assert!(proof.unwrap() < catalogue.unwrap());
    assert!(page.contains("not called: 3 marks on 3 varieties"), "{page}");
    let sheet = site.get("/print/proof").await.body;
    assert!(sheet.contains("Half &lt;b&gt;penny&lt;/b&gt;"), "{sheet}");
}

#[tokio::test]
async fn the_type_chart_shows_every_class_and_habit_of_the_guides() {
    let page = Site::new().get("/types").await.body;
    let names = ["Currant", "Beefsteak", "Micro-dwarf", "Semi-determinate", "Ribbed", "marbled"];
    for name in names {
        assert!(page.contains(name), "{name} is not there");
    }
    assert!(page.matches("class=\"portrait\"").count() >= 9 && page.matches("class=\"plant\"").count() == 5);
    assert!(page.contains("28 g to under 142 g (1 oz to under 5 oz)"), "{page}");
}
