//! The season sheet as a gardener meets it.

mod poppler;

use jiff::civil::date;
use publish::season_sheet::{Day, Expected, FrostRows, Harvest, Paper, SeasonSheet, Week, season_sheet};

/// A drawing, and something in it that no page may run.
const RIBBON: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300\" height=\"18\" viewBox=\"0 0 300 18\"><rect x=\"90\" y=\"3\" width=\"60\" height=\"12\" fill=\"#23211d\"/></svg>";

fn chances(days: [&str; 3]) -> [String; 3] {
    days.map(str::to_owned)
}

fn sheet(varieties: usize) -> SeasonSheet {
    let week =
        |week: usize| Week { of: format!("{} Aug", 1 + week), brings: chances(["-", "180 g", "310 g"]) };
    let expected = |number: usize| Expected {
        name: format!("Amber Lantern {number} <b>#set</b>"),
        ribbon: (RIBBON.to_owned(), "ripe fruit from 3 Aug to 20 Sep".to_owned()),
        picks: ["3 Aug".to_owned(), "20 Sep".to_owned()],
        season: chances(["1.2 kg", "2.4 kg", "3.9 kg"]),
        weeks: (0..9).map(week).collect(),
    };
    let day = |on: &str, what: &str| Day { on: on.to_owned(), what: what.to_owned() };
    SeasonSheet {
        house: "Long Furrow Seed".to_owned(),
        garden: "Lower Garden".to_owned(),
        year: 2031,
        printed_on: date(2031, 1, 12),
        weather: "By the days of Upper Mill, measured 1991-01-01 to 2020-12-31.".to_owned(),
        days: vec![day("Mon 31 March", "Sow tomatoes indoors"), day("Mon 19 May", "Plant out")],
        why: "From 12 May on frost comes in 1 year of 10 at most.".to_owned(),
        frosts: vec![FrostRows {
            so_cold: "32 °F (0 °C), 30 years".to_owned(),
            rows: vec![("last of spring, or later".to_owned(), chances(["11 May", "27 Apr", "12 Apr"]))],
        }],
        estimated: "Days by quantiles of type 7.".to_owned(),
        harvest: (0 < varieties).then(|| Harvest {
            told: "Plants out on 19 May, put through 30 years of Upper Mill.".to_owned(),
            months: RIBBON.to_owned(),
            varieties: (0..varieties).map(expected).collect(),
        }),
        house_fonts: Vec::new(),
    }
}

#[test]
fn days_frosts_and_weeks_are_on_paper() {
    for paper in [Paper::A4, Paper::UsLetter] {
        let pdf = season_sheet(&sheet(8), paper).unwrap();
        let Some(text) = poppler::text(&pdf) else { return };
        for words in [
            "Lower Garden, 2031",
            "Mon 31 March",
            "Plant out",
            "11 May",
            "12 May",
            "type 7",
            "20 Sep",
            "310 g",
        ] {
            assert!(text.contains(words), "{words} in {text}");
        }
        assert!(text.contains("Amber Lantern 7 <b>#set</b>"), "a name is printed as a name: {text}");
        let pages = poppler::words(&pdf).unwrap();
        for (number, page) in pages.iter().enumerate() {
            let said: Vec<&str> = page.words.iter().map(|placed| placed.word.as_str()).collect();
            let said = said.join(" ");
            assert!(said.contains(&format!("{} of {}", number + 1, pages.len())), "{said}");
            let inside = |placed: &poppler::PlacedWord| {
                0.0 < placed.left && placed.right < page.width && placed.bottom < page.height
            };
            assert!(page.words.iter().all(inside), "page {}", number + 1);
        }
    }
}

#[test]
fn a_house_without_picks_has_one_page() {
    let pdf = season_sheet(&sheet(0), Paper::A4).unwrap();
    let Some(pages) = poppler::words(&pdf) else { return };
    assert_eq!(pages.len(), 1);
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    assert_eq!(season_sheet(&sheet(2), Paper::A4).unwrap(), season_sheet(&sheet(2), Paper::A4).unwrap());
}
