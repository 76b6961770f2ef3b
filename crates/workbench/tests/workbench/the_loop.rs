//! The loop: files in, read as the user says, taken, mended, called, undone and redone.

use crate::site::Site;
use axum::http::StatusCode;

#[tokio::test]
async fn nothing_is_stored_before_it_is_taken() {
    let site = Site::new();
    let stack = site.send(&[("names.csv", b"Variety\nMarl\n")]).await.leads_to().to_owned();
    let look = site.get(&stack).await;
    assert!(look.body.contains("Nothing is stored yet") && look.body.contains("names.csv"), "{}", look.body);
    assert!(site.get("/history").await.body.contains("Nothing has been taken in yet."));
    let taken = site.post(&stack, &[("do", "take")]).await;
    assert!(site.get(taken.leads_to()).await.body.contains("1 variety as "));
    // The button again, or the page sent once more: it was taken once.
    site.post(&stack, &[("do", "take")]).await;
    assert!(!site.get("/history").await.body.contains("/history/2"));
}

#[tokio::test]
async fn the_same_file_again_adds_nothing() {
    let site = Site::new();
    site.take("names.csv", "Variety\nMarl\n").await;
    let again = site.take("names.csv", "Variety\nMarl\n").await;
    assert!(again.body.contains("this very file was taken before"), "{}", again.body);
}

#[tokio::test]
async fn files_that_are_left_are_let_go() {
    let site = Site::new();
    let stack = site.send(&[("names.csv", b"Variety\nMarl\n")]).await.leads_to().to_owned();
    assert_eq!(site.post(&stack, &[("do", "leave")]).await.leads_to(), "/bring-in");
    assert_eq!(site.get(&stack).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn answers_belong_to_their_table() {
    let site = Site::new();
    site.take("names.csv", "Variety\nMarl\n").await;
    let fruit = b"Variety,Date,Locules,Weight\nMarl,2024-08-02,3,58\n";
    let other = b"Variety,Date,Heft\nMarl,2024-08-03,58\n";
    let stack = site.send(&[("fruit.csv", fruit), ("other.csv", other)]).await.leads_to().to_owned();
    let look = site.get(&stack).await.body;
    assert!(look.contains("in which unit?"), "{look}");
    assert!(look.contains("or say which column it is") && look.contains("Heft"), "{look}");
    let place = if look.find("fruit.csv") < look.find("other.csv") { ("t0", "t1") } else { ("t1", "t0") };
    let field = |table: &str, name: &str| format!("{table}.{name}");
    let form = [
        (field(place.0, "table"), "fruit.csv"),
        (field(place.0, "columns"), "4"),
        (field(place.0, "c3.unit"), "g"),
        (field(place.1, "table"), "other.csv"),
        (field(place.1, "columns"), "3"),
        (field(place.1, "kind"), "fruit samples"),
        (field(place.1, "c2.reads"), "weight"),
        (field(place.1, "c2.unit"), "oz"),
        ("do".to_owned(), "take"),
    ];
    let form: Vec<(&str, &str)> = form.iter().map(|(name, value)| (name.as_str(), *value)).collect();
    assert_eq!(site.post(&stack, &form).await.leads_to(), stack);
    let page = site.get("/variety/Marl").await.body;
    assert!(page.contains("58 g (2.0 oz)") && page.contains("1644 g"), "{page}");
}

#[tokio::test]
async fn an_answer_that_is_none_is_told() {
    let site = Site::new();
    let stack = site.send(&[("a.csv", b"Variety\nMarl\n")]).await.leads_to().to_owned();
    for (field, value) in [("t0.kind", "turnips"), ("t0.season", "31"), ("t0.heading_row", "x")] {
        let answer = site.post(&stack, &[("t0.table", "a.csv"), (field, value), ("do", "look")]).await;
        assert_eq!(answer.status, StatusCode::BAD_REQUEST, "{field}");
    }
}

#[tokio::test]
async fn a_quarantined_row_is_mended_in_place() {
    let site = Site::with_fruit().await;
    site.take("more.csv", "Variety,Date,Plant,Locules,Weight (g)\nMarl,2024-08-09,1,4,see Monday\n").await;
    assert!(site.get("/quarantine").await.body.contains("see Monday"));
    let row = site.get("/quarantine/1").await.body;
    assert!(row.contains("aria-invalid=\"true\"") && row.contains("value=\"see Monday\""), "{row}");

    let wrong = site.post("/quarantine/1", &[("cell4", "still bad")]).await;
    assert_eq!(wrong.status, StatusCode::BAD_REQUEST);
    assert!(wrong.body.contains("value=\"still bad\""), "what was written is kept: {}", wrong.body);

    let mended = site.post("/quarantine/1", &[("cell4", "161 g")]).await;
    assert!(mended.leads_to().starts_with("/quarantine?mended=1&batch="), "{}", mended.leads_to());
    assert!(site.get(mended.leads_to()).await.body.contains("Nothing waits."));
    assert!(site.get("/quarantine/1").await.body.contains("mended already"));
    let export = site.get("/quarantine.csv").await;
    assert!(export.headers["content-disposition"].to_str().unwrap().contains("attachment"));
}

#[tokio::test]
async fn an_unknown_name_is_accepted_by_hand() {
    let site = Site::with_fruit().await;
    site.take(
        "more.csv",
        "Variety,Date,Plant,Locules,Weight (g)\nMarle,2024-08-09,1,4,160\nMarle,2024-08-09,1,4,161\n",
    )
    .await;
    let names = site.get("/names").await.body;
    assert!(names.contains("Marle") && names.contains("value=\"Marl\""), "{names}");
    let accepted = site.post("/names", &[("name", "Marle"), ("variety", "Marl")]).await;
    assert_eq!(accepted.leads_to(), "/names?taken=2");
    assert!(site.get("/variety/Marle").await.body.contains("also Marle"));
    assert_eq!(
        site.post("/names", &[("name", "x"), ("variety", "Nobody")]).await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(site.post("/names", &[("name", "x")]).await.status, StatusCode::BAD_REQUEST);
}

#[tokio::test]
async fn calls_that_are_old_say_so_until_called_again() {
    let site = Site::with_fruit().await;
    assert!(site.get("/").await.body.contains("not been called yet"));
    assert_eq!(site.post("/call", &[]).await.leads_to(), "/?called=3");
    let fresh = site.get("/").await.body;
    assert!(!fresh.contains("Call again") && fresh.contains("slicer"), "{fresh}");
    site.take("more.csv", "Variety,Date,Plant,Locules,Weight (g)\nMarl,2024-08-09,1,4,160\n").await;
    assert!(site.get("/").await.body.contains("before the evidence or a guide last changed"));
}

#[tokio::test]
async fn a_batch_is_undone_with_what_rests_on_it_and_redone() {
    let site = Site::with_fruit().await;
    let page = site.get("/history/1").await.body;
    assert!(page.contains("Undo batch 1 and the one that rests on it"), "{page}");
    assert_eq!(site.post("/history/1/undo", &[]).await.status, StatusCode::BAD_REQUEST);
    assert_eq!(
        site.post("/history/1/undo", &[("resting", "too"), ("why", "a slip")]).await.leads_to(),
        "/history?undone=2"
    );
    assert!(site.get("/").await.body.contains("no varieties yet"));
    assert!(site.get("/history").await.body.contains("a slip"));
    assert_eq!(site.post("/history/1/redo", &[]).await.leads_to(), "/history?redone=1");
    assert_eq!(site.post("/history/2/redo", &[]).await.leads_to(), "/history?redone=2");
    assert!(site.get("/variety/Marl").await.body.contains("20 records"));
}

#[tokio::test]
async fn a_doubted_record_is_confirmed_corrected_and_withdrawn() {
    let site = Site::with_fruit().await;
    site.take("odd.csv", "Variety,Date,Weight (g),Length (mm),Width (mm)\nMarl,2024-08-09,900,60,70\n").await;
    let doubts = site.get("/doubts").await.body;
    let record = doubts.split("/record/").nth(1).unwrap().split('"').next().unwrap().to_owned();
    let page = format!("/record/{record}");
    assert!(site.get(&page).await.body.contains("Confirm: it is right"));

    let form = [("record", record.as_str()), ("do", "confirm"), ("back", page.as_str())];
    assert_eq!(site.post("/records", &form).await.leads_to(), format!("{page}?did=confirmed"));
    assert!(site.get("/doubts").await.body.contains("Nothing is in doubt."));

    let wrong = site.post(&page, &[("weight", "heavy")]).await;
    assert_eq!(wrong.status, StatusCode::BAD_REQUEST, "{}", wrong.body);
    let corrected = site.post(&page, &[("weight", "158 g"), ("why", "misread")]).await;
    let new = corrected.leads_to().to_owned();
    let seen = site.get(&new).await.body;
    assert!(seen.contains("158 g") && seen.contains("misread"), "{seen}");
    assert!(site.get(&page).await.body.contains("no longer stands"));

    let id = new.trim_start_matches("/record/").split('?').next().unwrap();
    let form = [("record", id), ("do", "withdraw"), ("back", "//example.org")];
    assert_eq!(site.post("/records", &form).await.leads_to(), "/doubts?did=withdrawn");
    assert!(site.get(&format!("/record/{id}")).await.body.contains("withdrawn in"));
}

#[tokio::test]
async fn uploads_are_bounded_and_their_names_lead_nowhere() {
    let site = Site::new();
    let large = vec![b'x'; (64 << 20) + 1];
    let refused = site.send(&[("large.csv", &large)]).await;
    assert_eq!(refused.status, StatusCode::PAYLOAD_TOO_LARGE);
    assert!(refused.body.contains("larger than 64 MB"), "{}", refused.body);

    assert_eq!(site.send(&[]).await.status, StatusCode::BAD_REQUEST);
    let twice = site.send(&[("a.csv", b"Variety\nMarl\n"), ("a.csv", b"Variety\nMarl\n")]).await;
    assert!(
        twice.status == StatusCode::BAD_REQUEST && twice.body.contains("two of the files")
            || twice.body.contains("Two of the files")
    );

    let stack = site.send(&[("../../../etc/names.csv", b"Variety\nMarl\n")]).await.leads_to().to_owned();
    let look = site.get(&stack).await.body;
    assert!(look.contains("names.csv") && !look.contains("etc/names.csv"), "{look}");
}

#[tokio::test]
async fn a_file_that_is_no_table_leaves_the_others_alone() {
    let site = Site::new();
    let stack =
        site.send(&[("noise.xlsx", b"PK\x03\x04 not a workbook"), ("names.csv", b"Variety\nMarl\n")]).await;
    let stack = stack.leads_to().to_owned();
    let look = site.get(&stack).await.body;
    assert!(look.contains("noise.xlsx") && look.contains("It is left out"), "{look}");
    assert!(!look.contains("locule-sent-"), "no path is told: {look}");
    let taken = site.post(&stack, &[("do", "take")]).await;
    assert!(site.get(taken.leads_to()).await.body.contains("1 variety"));
}
