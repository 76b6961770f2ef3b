//! Grow-outs: the list of them, laying one out in a form, moving a plot, printing for it.

use crate::site::Site;
use axum::http::StatusCode;

fn form(act: &str) -> Vec<(&str, &str)> {
    vec![
        ("name", "2031 <i>Home</i>"),
        ("season", "2031"),
        ("kind", "best"),
        ("replicates", "3"),
        ("varieties", "Marl\nDrip Stone\nHalf <b>penny</b>"),
        ("checks", "Marl"),
        ("plants", "4"),
        ("between-plants", "50 cm"),
        ("between-rows", "60 cm"),
        ("bed-1-name", "North"),
        ("bed-1-length", "14 m"),
        ("bed-1-width", "1.3 m"),
        ("attempt", "1"),
        ("act", act),
    ]
}

#[tokio::test]
async fn a_form_is_previewed_kept_moved_and_printed() {
    let site = Site::with_fruit().await;
    let empty = site.get("/grow-outs/new").await.body;
    assert!(empty.contains("name=\"between-plants\"") && empty.contains("partly replicated"), "{empty}");
    let preview = site.post("/grow-outs/new", &form("preview")).await.body;
    assert!(preview.contains("class=\"bed-map\"") && preview.contains("8 times in 10"), "{preview}");
    assert!(preview.contains("not kept yet") && preview.contains("Try another arrangement"));
    assert!(!site.get("/grow-outs").await.body.contains("2031 &lt;i&gt;"), "a preview keeps nothing");
    let another = site.post("/grow-outs/new", &form("another")).await.body;
    assert!(another.contains("name=\"attempt\" value=\"2\""), "{another}");

    let kept = site.post("/grow-outs/new", &form("keep")).await;
    let address = kept.leads_to().to_owned();
    let page = site.get(&address).await.body;
    assert!(page.contains("2031 &lt;i&gt;Home&lt;/i&gt;") && page.contains("class=\"bed-map\""), "{page}");
    assert!(!page.contains("<i>Home"), "words of the user are no markup");
    assert!(page.contains("No day of transplanting is noted yet."));

    let own = address.split('?').next().unwrap();
    let asked = site.get(&format!("{own}?plot=101&to=plot%20202")).await.body;
    assert!(asked.contains("Varieties are compared") || asked.contains("This costs"), "{asked}");
    let moved = site.post(&format!("{own}/move"), &[("plot", "101"), ("to", "plot 202")]).await;
    assert!(site.get(moved.leads_to()).await.body.contains("101 was moved, batch"));
    let odd = site.post(&format!("{own}/move"), &[("plot", "101"), ("to", "the moon")]).await;
    assert_eq!(odd.status, StatusCode::BAD_REQUEST);

    for sent in [
        vec![("what", "stakes"), ("sheet", "4 x 2 in")],
        vec![("what", "walk-sheets"), ("day", "2031-08-14")],
    ] {
        let printed = site.post(&format!("{own}/print"), &sent).await;
        assert_eq!(site.get(printed.leads_to()).await.status, StatusCode::OK);
    }
    let all = site.get("/grow-outs").await.body;
    assert!(all.contains("9 plots of 3 varieties, 36 plants; 0 notes so far."), "{all}");
}

#[tokio::test]
async fn what_cannot_be_laid_out_is_told_in_the_form() {
    let site = Site::with_fruit().await;
    let with = |field: &'static str, value: &'static str| {
        let mut sent = form("preview");
        sent.iter_mut().filter(|(name, _)| *name == field).for_each(|(_, own)| *own = value);
        sent
    };
    for (field, value, told) in [
        ("bed-1-length", "14", "has no unit"),
        ("varieties", "Marll", "there is no variety"),
        ("replicates", "40", "the ground has room for"),
        ("plants", "many", "plants: invalid type"),
        ("name", "", "a grow-out needs a name"),
    ] {
        let answer = site.post("/grow-outs/new", &with(field, value)).await;
        assert_eq!(answer.status, StatusCode::OK);
        assert!(
            answer.body.contains(told) && answer.body.contains("role=\"alert\""),
            "{field}: {}",
            answer.body
        );
        assert!(answer.body.contains("value=\"50 cm\""), "what was typed stays");
    }
    assert_eq!(site.get("/grow-outs/nobody").await.status, StatusCode::NOT_FOUND);
}
