//! The list page: plain words, filters, orders, pages, the table, the bench in numbers, and files to take along.

use crate::site::Site;
use axum::http::StatusCode;

/// Takes so many varieties, named by their number.
async fn with_varieties(count: usize) -> Site {
    let site = Site::new();
    let rows: String = (1..=count).map(|number| format!("Trial {number:03}\n")).collect();
    site.take("varieties.csv", &format!("Variety\n{rows}")).await;
    site
}

#[tokio::test]
async fn plain_words_are_shown_as_they_were_read() {
    let site = Site::with_fruit().await;
    site.post("/call", &[]).await;
    let body = site.get("/?q=semi+determinat+plum+under+8+oz").await.body;
    for words in ["habit semi-determinate", "fruit class plum", "at most 227 g", "Read as", "taken for"] {
        assert!(body.contains(words), "{words}: {body}");
    }
    assert!(body.contains("value=\"semi determinat plum under 8 oz\""), "the words stay in their field");
}

#[tokio::test]
async fn a_name_is_found_by_the_beginning_of_its_words() {
    let site = Site::with_fruit().await;
    let body = site.get("/?q=drippi").await.body;
    assert!(body.contains("1 of 3 varieties") && body.contains("Drip Stone"), "{body}");
}

#[tokio::test]
async fn where_nothing_fits_the_want_in_the_way_is_told() {
    let site = Site::with_fruit().await;
    site.post("/call", &[]).await;
    let body = site.get("/?q=marl+nobody").await.body;
    assert!(body.contains("No variety fits."), "{body}");
    assert!(body.contains("&quot;nobody&quot;</b>: then 1 variety fits"), "{body}");
}

#[tokio::test]
async fn evidence_that_comes_in_is_on_the_list_at_once() {
    let site = Site::with_fruit().await;
    assert!(site.get("/?season=2024").await.body.contains("1 of 3 varieties"));
    let more = "Variety,Date,Plant,Weight (g),Length (mm),Width (mm)\nDrip Stone,2024-08-09,1,20,30,31\n";
    site.take("more.csv", more).await;
    assert!(site.get("/?season=2024").await.body.contains("2 of 3 varieties"));
    site.post("/history/3/undo", &[]).await;
    assert!(site.get("/?season=2024").await.body.contains("1 of 3 varieties"));
}

#[tokio::test]
async fn a_long_list_has_pages() {
    let site = with_varieties(250).await;
    let first = site.get("/").await.body;
    assert!(first.contains("Page 1 of 3") && first.contains("Trial 001") && !first.contains("Trial 101"));
    let last = site.get("/?page=99&way=down").await.body;
    assert!(last.contains("Page 3 of 3") && last.contains(">Trial 001<") && !last.contains(">Trial 250<"));
    assert!(last.contains("rel=\"prev\" href=\"/?way=down&amp;page=2\""), "{last}");
}

#[tokio::test]
async fn a_bench_too_long_for_portraits_is_told_in_numbers() {
    let body = with_varieties(401).await.get("/bench").await.body;
    assert!(body.contains("401") && body.contains("table class=\"counts\""), "{body}");
    assert!(!body.contains("<svg class=\"bench\""), "no portraits");
}

#[tokio::test]
async fn the_table_is_sorted_by_its_headings() {
    let site = Site::with_fruit().await;
    site.post("/call", &[]).await;
    let body = site.get("/?view=table&sort=weight").await.body;
    assert!(body.contains("aria-sort=\"ascending\""), "{body}");
    assert!(body.contains("href=\"/?view=table&amp;sort=weight&amp;way=down\""), "{body}");
    let rows: Vec<usize> =
        ["Marl", "Drip Stone"].map(|name| body.find(&format!(">{name}<")).unwrap()).to_vec();
    assert!(rows[0] < rows[1], "what is not weighed comes last: {body}");
}

#[tokio::test]
async fn the_list_is_taken_along_as_a_file() {
    let site = Site::with_fruit().await;
    site.take("hostile.csv", "Variety\n@SUM(1)\n").await;
    site.post("/call", &[]).await;
    let csv = site.get("/export/list.csv").await;
    assert_eq!(csv.headers["content-disposition"], "attachment; filename=\"list.csv\"");
    assert!(csv.body.contains("'@SUM(1)") && csv.body.contains("weight_g"), "{}", csv.body);
    let json = site.get("/export/list.json?q=marl").await.body;
    assert!(json.contains("\"variety\": \"Marl\"") && !json.contains("Drip Stone"), "{json}");
    assert!(site.get("/export/list.xlsx").await.body.starts_with("PK"));
    assert_eq!(site.get("/export/list.exe").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_the_list_does_not_know_is_the_users_to_mend() {
    let site = Site::new();
    for address in
        ["/?class=turnip", "/?for=polish", "/?season=soon", "/?season=9999", "/export/list.csv?habit=x"]
    {
        assert_eq!(site.get(address).await.status, StatusCode::BAD_REQUEST, "{address}");
    }
    for address in
        ["/?q=%00%22%27%3B--", "/?q=%2A%28%29%3A%5E", "/?page=0", "/?page=4294967295", "/?sort=x&way=x"]
    {
        assert_eq!(site.get(address).await.status, StatusCode::OK, "{address}");
    }
}
