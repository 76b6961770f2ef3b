//! Stakes and walk sheets as a grower meets them.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test stops at its first surprise")]

mod poppler;

use jiff::civil::date;
use publish::stakes::{LabelSheet, Paper, Stake, Stakes, stakes};
use publish::walk_sheets::{Cell, Column, Row, Table, Walk, WalkSheets, walk_sheets};
use record::length::Millimetres;
use uuid::Uuid;

/// Points in a millimetre: 72 to the inch of 25.4 mm.
const POINTS: f64 = 72.0 / 25.4;

fn mm(length: f64) -> Millimetres {
    Millimetres::new(length).unwrap()
}

fn sheet(paper: Paper) -> LabelSheet {
    LabelSheet {
        name: "60 x 30 mm, 3 x 8".to_owned(),
        paper,
        width: mm(60.0),
        height: mm(30.0),
        columns: 3,
        rows: 8,
        left: mm(12.0),
        top: mm(15.0),
        gap_across: mm(2.0),
        gap_down: mm(1.0),
    }
}

fn sample(count: u128) -> Stakes {
    let stake = |number: u128| Stake {
        label: format!("{}", 101 + number),
        variety: ["Amber Lantern", "The Longest Name of Any Tomato in the Whole Field <b>&", "Žlutá"]
            [number as usize % 3]
            .to_owned(),
        place: vec!["replicate 1, block 4".to_owned(), format!("row 3, position {number}")],
        plant: number.is_multiple_of(2).then(|| "plant 2 of 6".to_owned()),
        plot: Uuid::from_u128(number),
    };
    Stakes {
        house: "Long Furrow Seed".to_owned(),
        grow_out: "2031 Home".to_owned(),
        printed_on: date(2031, 4, 2),
        stakes: (0..count).map(stake).collect(),
        house_fonts: Vec::new(),
    }
}

#[test]
fn every_stake_lies_on_its_own_label() {
    for paper in [Paper::A4, Paper::UsLetter] {
        let sheet = sheet(paper);
        assert!(sheet.fits());
        let pdf = stakes(&sample(30), &sheet).unwrap();
        let Some(pages) = poppler::words(&pdf) else { return };
        assert_eq!(pages.len(), 2, "24 labels a sheet");
        for (at, word) in (0..30).map(|at| (at, format!("{}", 101 + at))) {
            let page = &pages[at / 24];
            let placed = page.words.iter().find(|placed| placed.word == word).unwrap();
            let on_page = at % 24;
            let (left, top) = (12.0 + (on_page % 3) as f64 * 62.0, 15.0 + (on_page / 3) as f64 * 31.0);
            assert!(left * POINTS <= placed.left && placed.right <= (left + 60.0) * POINTS, "{word}");
            assert!((top - 1.0) * POINTS <= placed.top && placed.bottom <= (top + 31.0) * POINTS, "{word}");
            // Read at arm's length: 8 mm high or more. Common practice, no source.
            assert!(8.0 * POINTS <= placed.bottom - placed.top, "{word}");
        }
    }
}

#[test]
fn a_sheet_that_is_larger_than_its_paper_is_seen() {
    assert!(!LabelSheet { rows: 10, ..sheet(Paper::A4) }.fits());
    assert!(!LabelSheet { columns: 0, ..sheet(Paper::A4) }.fits());
}

fn walks(rows: usize) -> WalkSheets {
    let column = |heading: &str, width: f64| Column { heading: heading.to_owned(), width: mm(width) };
    let row = |number: usize| Row {
        begins: number.is_multiple_of(12).then(|| format!("Bed North {}", number / 12 + 1)),
        cells: vec![
            Cell::Printed(format!("{}", 101 + number)),
            Cell::Printed("Amber Lantern #set".to_owned()),
            if number.is_multiple_of(3) { Cell::NotDue } else { Cell::Open },
        ],
    };
    let table = Table {
        title: "Picks and culls".to_owned(),
        columns: vec![column("Plot", 14.0), column("Variety", 40.0), column("Fruit count", 20.0)],
        rows: (0..rows).map(row).collect(),
    };
    let walk = |whose: &str| Walk {
        whose: whose.to_owned(),
        due: "Due today: picks and culls.".to_owned(),
        tables: vec![table.clone()],
    };
    WalkSheets {
        house: "Long Furrow Seed".to_owned(),
        grow_out: "2031 Home".to_owned(),
        day: date(2031, 8, 14),
        walks: vec![walk("Wren"), walk("Finch")],
        sketch: None,
        house_fonts: Vec::new(),
    }
}

#[test]
fn every_page_says_whose_when_and_which() {
    for paper in [Paper::A4, Paper::UsLetter] {
        let pdf = walk_sheets(&walks(60), paper).unwrap();
        let Some(pages) = poppler::words(&pdf) else { return };
        let count = pages.len();
        assert!(4 <= count, "two people, more than a page each");
        for (number, page) in pages.iter().enumerate() {
            let words: Vec<&str> = page.words.iter().map(|placed| placed.word.as_str()).collect();
            let said = words.join(" ");
            let whose = if number < count / 2 { "Wren" } else { "Finch" };
            assert!(said.contains(whose) && said.contains("14 August 2031"), "page {}: {said}", number + 1);
            assert!(said.contains(&format!("{} of {count}", number + 1)), "{said}");
            assert!(said.contains("Plot") && said.contains("Fruit count"), "headings again: {said}");
            let inside = |placed: &poppler::PlacedWord| {
                0.0 < placed.left
                    && placed.right < page.width
                    && placed.bottom < page.height
                    && 0.0 < placed.top
            };
            assert!(page.words.iter().all(inside), "page {}", number + 1);
        }
        let rows = pages.iter().flat_map(|page| &page.words).filter(|placed| placed.word == "#set").count();
        assert_eq!(rows, 120, "no row is lost");
    }
}

#[test]
fn the_same_day_gives_the_same_bytes() {
    assert_eq!(walk_sheets(&walks(3), Paper::A4).unwrap(), walk_sheets(&walks(3), Paper::A4).unwrap());
    let sheet = sheet(Paper::A4);
    assert_eq!(stakes(&sample(3), &sheet).unwrap(), stakes(&sample(3), &sheet).unwrap());
}
