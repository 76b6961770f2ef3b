//! The first steps of a new house: each ticks itself off, an undone batch takes its tick back, and they go away.

use crate::site::Site;

const NEXT: &str = "aria-current=\"step\"";

/// Asserts that so many steps are done and which is next.
#[track_caller]
fn stands_at(body: &str, done: usize, next: &str) {
    assert_eq!(body.matches("<strong>done</strong>").count(), done, "{body}");
    let after = body.split_once(NEXT).map(|(_, after)| after).unwrap_or_default();
    assert!(after.starts_with(&format!("><strong>{next}</strong>")), "{next}: {after}");
}

#[tokio::test]
async fn an_empty_house_is_led_from_names_to_the_catalogue() {
    let site = Site::new();
    stands_at(&site.get("/").await.body, 0, "Bring in the names of your varieties");
    site.take("names.csv", "Variety\nMarl\n").await;
    stands_at(&site.get("/").await.body, 1, "Say what stands where");
    let beds = "Plot,Variety,Season,Garden,Grow-out\n1,Marl,2024,Home,2024 Home\n";
    site.take("beds.csv", beds).await;
    stands_at(&site.get("/").await.body, 2, "Bring in fruit that you weighed, measured or cut");
    site.take(
        "fruit.csv",
        "Variety,Date,Plant,Weight (g),Length (mm),Width (mm)\nMarl,2024-08-01,1,58,60,38\n",
    )
    .await;
    stands_at(&site.get("/").await.body, 3, "Bring in what you saw of the plants");
    site.take("walks.csv", "Variety,Date,Plant,Stem ended\nMarl,2024-08-20,1,4\n").await;
    stands_at(&site.get("/").await.body, 4, "Have every variety called");
    site.post("/call", &[]).await;
    stands_at(&site.get("/").await.body, 5, "Print the catalogue");
    site.post("/print", &[("what", "catalogue"), ("paper", "a4")]).await;
    assert!(!site.get("/").await.body.contains("First steps"));
}

#[tokio::test]
async fn an_undone_batch_takes_its_tick_back_and_the_steps_can_be_put_away() {
    let site = Site::new();
    site.take("names.csv", "Variety\nMarl\n").await;
    stands_at(&site.get("/").await.body, 1, "Say what stands where");
    site.post("/history/1/undo", &[]).await;
    stands_at(&site.get("/").await.body, 0, "Bring in the names of your varieties");
    site.post("/first-steps/put-away", &[]).await;
    assert!(!site.get("/").await.body.contains("First steps"));
}
