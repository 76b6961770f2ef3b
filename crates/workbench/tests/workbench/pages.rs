//! Every page, on an empty house and on one with fruit.

use crate::site::Site;
use axum::http::StatusCode;

const PAGES: [&str; 23] = [
    "/",
    "/bench",
    "/grow-outs",
    "/seed-room",
    "/what",
    "/gaps",
    "/advice",
    "/forecast",
    "/frost",
    "/calendar",
    "/bring-in",
    "/quarantine",
    "/names",
    "/doubts",
    "/weather",
    "/history",
    "/print",
    "/print/proof",
    "/types",
    "/guides",
    "/guides/fruit",
    "/guides/colour",
    "/settings",
];

#[tokio::test]
async fn every_page_answers_on_an_empty_house_and_a_full_one() {
    for site in [Site::new(), Site::with_fruit().await] {
        for page in PAGES {
            let answer = site.get(page).await;
            assert_eq!(answer.status, StatusCode::OK, "{page}: {}", answer.body);
            assert!(answer.body.contains("<h1>"), "{page}");
        }
    }
}

#[tokio::test]
async fn what_is_not_there_says_so() {
    let site = Site::with_fruit().await;
    let missing = [
        "/nowhere",
        "/variety/Nobody",
        "/quarantine/7",
        "/history/99",
        "/guides/frost",
        "/print/none.pdf",
        "/bring-in/1",
        "/record/00000000-0000-7000-8000-000000000000",
        "/record/x",
        "/print/..%2Fhouse.toml",
        "/assets/x.css",
    ];
    for address in missing {
        let answer = site.get(address).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{address}: {}", answer.body);
        assert!(answer.body.contains("Not here"), "{address}");
        assert!(!answer.body.contains(&site.house.folder.display().to_string()), "{address}");
    }
}

#[tokio::test]
async fn a_name_that_is_nearly_right_leads_on() {
    let site = Site::with_fruit().await;
    let answer = site.get("/variety/Drip%20Stoen").await;
    assert_eq!(answer.status, StatusCode::NOT_FOUND);
    assert!(answer.body.contains("Nearest: Drip Stone."), "{}", answer.body);
}

#[tokio::test]
async fn a_filter_that_no_guide_knows_is_the_users_to_mend() {
    let answer = Site::new().get("/?class=turnip").await;
    assert_eq!(answer.status, StatusCode::BAD_REQUEST);
    assert!(answer.body.contains("Write one of: currant"), "{}", answer.body);
}

#[tokio::test]
async fn names_are_words_and_never_markup() {
    let site = Site::new();
    let name = "<script>alert('x')</script> & \"co\"";
    let quoted = name.replace('"', "\"\"");
    site.take("<img src=x onerror=y>.csv", &format!("Variety,Claim\n\"{quoted}\",<i>sweet</i>\n")).await;
    site.post("/call", &[]).await;
    let address = percent_encoding::utf8_percent_encode(name, percent_encoding::NON_ALPHANUMERIC);
    for page in ["/".to_owned(), "/names".into(), "/history".into(), format!("/variety/{address}")] {
        let answer = site.get(&page).await;
        assert_eq!(answer.status, StatusCode::OK, "{page}: {}", answer.body);
        for raw in ["<script>alert", "<i>sweet", "<img src=x"] {
            assert!(!answer.body.contains(raw), "{page} holds {raw}");
        }
    }
    assert!(site.get("/").await.body.contains("&lt;script&gt;alert"));
}

#[tokio::test]
async fn the_list_is_filtered_by_its_address() {
    let site = Site::with_fruit().await;
    let body = site.get("/?find=dripping").await.body;
    assert!(
        body.contains("1 of 3 varieties") && body.contains("Drip Stone") && !body.contains(">Marl<"),
        "{body}"
    );
    assert!(site.get("/?find=nobody").await.body.contains("No variety fits."));
}

#[tokio::test]
async fn the_catalogue_is_printed_and_handed_out() {
    let site = Site::with_fruit().await;
    site.post("/call", &[]).await;
    assert_eq!(
        site.post("/print", &[("paper", "a4")]).await.leads_to(),
        "/print?printed=catalogue#catalogue"
    );
    let sheet = site.get("/print/catalogue-a4.pdf").await;
    assert_eq!(
        (sheet.status, &sheet.headers["content-type"]),
        (StatusCode::OK, &"application/pdf".parse().unwrap())
    );
    assert!(sheet.body.starts_with("%PDF"));
    assert_eq!(site.post("/print", &[("paper", "wall")]).await.status, StatusCode::BAD_REQUEST);
}

#[tokio::test]
async fn a_guide_is_looked_at_before_it_is_accepted() {
    let site = Site::with_fruit().await;
    let text = house::editing::shipped("fruit").unwrap();
    let preview = site.post("/guides/fruit", &[("do", "preview"), ("text", text)]).await;
    assert!(
        preview.status == StatusCode::OK && preview.body.contains("No verdict moves"),
        "{}",
        preview.body
    );

    let broken = text.replacen("title = ", "titel = ", 1);
    for act in ["preview", "accept"] {
        let answer = site.post("/guides/fruit", &[("do", act), ("text", &broken)]).await;
        assert_eq!(answer.status, StatusCode::BAD_REQUEST);
        assert!(
            answer.body.contains("line ") && answer.body.contains("titel = "),
            "the text is kept: {}",
            answer.body
        );
    }
    let noted = format!("{text}\n# noted\n");
    let accepted = site.post("/guides/fruit", &[("do", "accept"), ("text", &noted), ("why", "a note")]).await;
    assert_eq!(accepted.leads_to(), "/guides/fruit?accepted=2");
    let page = site.get("/guides/fruit").await.body;
    assert!(page.contains("# noted") && page.contains("Version 2") && page.contains("a note"), "{page}");
}
