//! Frost and the calendar in the browser: of a station that is known, of a garden, and of none.

use crate::site::Site;
use axum::http::StatusCode;

#[tokio::test]
async fn frost_is_told_drawn_and_listed_year_by_year() {
    let site = Site::new();
    assert!(site.get("/frost").await.body.contains("Milwaukee"), "known stations can be chosen");
    let page = site.get("/frost?weather=Milwaukee+WI").await.body;
    for words in [
        "0 °C (32 °F)",
        "1 year in 10",
        "last of spring, or later",
        "quantiles of type 7",
        "its days of 1991 to 2020",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert_eq!(page.matches("class=\"frost-years\"").count(), 2, "for a desk and for a phone");
    assert!(page.contains("The years as a table") && page.contains("Last of spring on or after"), "{page}");
    let wrong = site.get("/frost?weather=Milwaukee+WI&years=soon").await;
    assert!(wrong.status == StatusCode::OK && wrong.body.contains("is no range of years"), "{}", wrong.body);
    assert!(site.get("/frost?weather=/etc/passwd").await.body.contains("is kept or known"));
    assert!(site.get("/frost?weather=garden:Hill").await.body.contains("There is no garden"));
}

#[tokio::test]
async fn a_calendar_is_told_taken_along_and_printed() {
    let site = Site::new();
    let page = site.get("/calendar?weather=Milwaukee+WI&year=2031&risk=1").await.body;
    for words in
        ["Sow tomatoes indoors", "Plant out", "May 2031", "1 year of 10", "nights of a week are above"]
    {
        assert!(page.contains(words), "{words} in {page}");
    }
    let file = site.get("/calendar.ics?weather=Milwaukee+WI&year=2031&risk=1").await;
    assert_eq!(file.headers["content-type"], "text/calendar; charset=utf-8");
    assert!(file.body.starts_with("BEGIN:VCALENDAR") && file.body.contains("Milwaukee WI: Plant out"));
    let early = site.get("/calendar?weather=Milwaukee+WI&year=2031&out=04-02").await.body;
    assert!(early.contains("2 April 2031"), "{early}");
    for (asked, words) in
        [("out=99-99", "is no day"), ("risk=7", "is no frost risk"), ("year=12", "is no year of planting")]
    {
        let said = site.get(&format!("/calendar?weather=Milwaukee+WI&{asked}")).await.body;
        assert!(said.contains(words), "{asked}: {said}");
    }
    assert_eq!(site.get("/calendar.ics?weather=nowhere").await.status, StatusCode::BAD_REQUEST);
    let form = [("weather", "Milwaukee WI"), ("year", "2031"), ("paper", "a4")];
    let printed = site.post("/calendar/print", &form).await.leads_to().to_owned();
    assert_eq!(printed, "/print/season-milwaukee-wi-2031.pdf");
    assert!(site.get(&printed).await.body.starts_with("%PDF"));
    let nobody = [("weather", "Milwaukee WI"), ("varieties", "Nobody")];
    assert_eq!(site.post("/calendar/print", &nobody).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn warmth_is_counted_as_the_page_is_asked() {
    let site = Site::new();
    let page = site.get("/forecast").await.body;
    assert!(page.contains("How warmth is counted") && page.contains("value=\"double-sine\""), "{page}");
    for (asked, words) in [
        ("method=moon", "is no way of counting warmth"),
        ("base=warm", "is no temperature"),
        ("base=30&ceiling=10", "are no pair of temperatures"),
        ("method=modified&cut_off=vertical", "Only sines and triangles have a cut-off"),
    ] {
        let said = site.get(&format!("/forecast?weather=Milwaukee+WI&{asked}")).await.body;
        assert!(said.contains(words), "{asked}: {said}");
        assert!(site.get(&format!("/hindsight?{asked}")).await.body.contains(words), "{asked}");
    }
}

#[tokio::test]
async fn seedlings_come_up_by_the_warmth_of_the_soil() {
    let site = Site::new();
    let page = site.get("/emergence?soil=12.5+C").await.body;
    // Harrington and Minges 1954: 43 days at 50 °F and 14 at 59 °F; halfway between, by the rate, 21.
    assert!(
        page.contains("about 21 days after sowing") && page.contains("Harrington and Minges 1954"),
        "{page}"
    );
    assert!(site.get("/emergence?soil=2+C").await.body.contains("none come up"));
    assert!(site.get("/emergence?soil=warm").await.body.contains("is no temperature with its scale"));
}

#[tokio::test]
async fn hindsight_says_what_is_missing() {
    let site = Site::new();
    let page = site.get("/hindsight").await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(page.body.contains("class=\"notice\""), "{}", page.body);
}

/// Days to maturity in the weather of a station that is known, by the way of counting that the page is asked.
#[tokio::test]
async fn a_varietys_page_tells_days_to_maturity_anywhere() {
    let site = Site::new();
    site.take("list.csv", "variety\nAmber Post\n").await;
    let bed = "grow-out,season,garden,plot,variety,plants,transplanted\n2024 Home,2024,Home,A,Amber Post,2,2024-05-01\n";
    site.take("beds.csv", bed).await;
    let mut picks = String::from("grow-out,plot,variety,date,weight (g),fruit count\n");
    for (day, fruits) in [(10, 2), (15, 9), (20, 24), (25, 31), (30, 19)] {
        picks.push_str(&format!("2024 Home,A,Amber Post,2024-07-{day},{},{fruits}\n", fruits * 100));
    }
    site.take("picks.csv", &picks).await;
    let page = site.get("/ripening/Amber%20Post").await.body;
    assert!(page.contains("Nobody has told the weather of the gardens") && page.contains("Day"), "{page}");
    let asked = "/ripening/Amber%20Post?weather=Milwaukee+WI&out=05-20&base=8";
    let page = site.get(asked).await.body;
    for words in [
        "Milwaukee WI: 40 years drawn from its climate",
        "9 in 10",
        "plants out on 20 May",
        "degree-days (°C) over 8 to 30 by single sine",
        "Milwaukee WI, a middling season",
    ] {
        assert!(page.contains(words), "{words} in {page}");
    }
    for (said, words) in
        [("weather=nowhere", "is kept or known"), ("weather=Milwaukee+WI&out=99-99", "is no day")]
    {
        let page = site.get(&format!("/ripening/Amber%20Post?{said}")).await.body;
        assert!(page.contains(words), "{said}: {page}");
    }
}
