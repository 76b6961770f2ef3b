//! What is it?, stand-ins and gaps, as a browser without script asks them.

use crate::site::Site;
use axum::http::StatusCode;

#[tokio::test]
async fn the_form_asks_and_the_address_answers() {
    let site = Site::with_fruit().await;
    let form = site.get("/what").await;
    assert!(form.status == StatusCode::OK && form.body.contains("Weight"), "{}", form.body);
    assert!(!form.body.contains("Nearest on the list"));
    site.post("/call", &[]).await;
    let told = site.get("/what?weight=58+g&length=61+mm&width=38+mm&locules=2&colour=red").await;
    assert_eq!(told.status, StatusCode::OK, "{}", told.body);
    for words in [
        "Fruit class plum",
        "1 fruit of 1 plant stands for its variety here",
        "What one more look would tell",
        "Nearest on the list",
        "/variety/Marl",
    ] {
        assert!(told.body.contains(words), "no {words:?}: {}", told.body);
    }
    assert!(told.body.contains("value=\"58 g\""), "what was typed stays in the form");
}

#[tokio::test]
async fn several_fruits_are_rows_of_one_form() {
    let site = Site::new();
    let more = site.get("/what?weight=58+g&fruits=2").await.body;
    assert!(
        more.contains("Fruit 1") && more.contains("Fruit 2") && more.contains("value=\"58 g\""),
        "{more}"
    );
    let two = "/what?weight=58+g&weight=2+oz&locules=&locules=2&plant=1&plant=2";
    let told = site.get(two).await.body;
    assert!(told.contains("2 fruits of 2 plants stand for their variety here"), "{told}");
    let plant = site.get("/what?stem_ended=4&levels_off=yes&ripe_within=21").await.body;
    assert!(plant.contains("habit determinate"), "{plant}");
}

#[tokio::test]
async fn what_cannot_be_is_told_beside_the_form() {
    let site = Site::new();
    for (asked, words) in [
        ("locules=0", "no locules"),
        ("weight=58", "has no unit"),
        ("weight=%3Cscript%3E1+g", "&lt;script&gt;1 g"),
        ("stem_ended=4&stem_growing=9", "ended and to grow still"),
    ] {
        let answer = site.get(&format!("/what?{asked}")).await;
        assert_eq!(answer.status, StatusCode::BAD_REQUEST, "{asked}");
        assert!(answer.body.contains(words) && answer.body.contains("role=\"alert\""), "{}", answer.body);
        assert!(answer.body.contains("<form"), "the form stays");
        assert!(!answer.body.contains("<script>1"), "{asked}");
    }
}

#[tokio::test]
async fn stand_ins_and_gaps_have_pages() {
    let site = Site::with_fruit().await;
    assert!(site.get("/gaps").await.body.contains("There is nothing to count yet"));
    site.post("/call", &[]).await;
    let instead = site.get("/instead/Marl").await;
    assert!(instead.status == StatusCode::OK && instead.body.contains("Instead of Marl"), "{}", instead.body);
    assert!(instead.body.contains("Nothing can stand in for it"), "no other variety was measured");
    assert_eq!(site.get("/instead/Nobody").await.status, StatusCode::NOT_FOUND);
    assert!(site.get("/variety/Marl").await.body.contains("href=\"/instead/Marl\""));
    let list = site.get("/").await.body;
    assert!(list.contains("href=\"/what\"") && list.contains("href=\"/gaps\""), "{list}");
}
