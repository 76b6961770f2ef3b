//! The plan sheet as a gardener meets it.

mod poppler;

use jiff::civil::date;
use publish::plan_sheet::{Harvest, Line, Paper, PlanSheet, PutUp, plan_sheet};

/// A drawing, and nothing more.
const DRAWN: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"680\" height=\"184\" viewBox=\"0 0 680 184\"><rect x=\"90\" y=\"3\" width=\"60\" height=\"12\" fill=\"#23211d\"/></svg>";

fn sheet(lines: usize) -> PlanSheet {
    let words = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect::<Vec<String>>();
    let line = |number: usize| Line {
        letter: "A".to_owned(),
        variety: format!("Amber Lantern {number} <b>#set</b>"),
        plants: "12".to_owned(),
        out: "20 May".to_owned(),
        is: "determinate, red, paste; without it 19 plants".to_owned(),
        brings: "2.1 lb to 9.9 lb".to_owned(),
        seed: "164 packets".to_owned(),
    };
    PlanSheet {
        house: "Long Furrow Seed".to_owned(),
        of: "a garden with the weather of Upper Mill".to_owned(),
        printed_on: date(2031, 1, 12),
        wishes: words(&["14 quarts of juice from paste (46 lb of fruit), 2 kitchen days"]),
        came: words(&["17 plants, 96 sq ft of bed; all is had in 80 of 100 sampled years."]),
        lines: (0..lines).map(line).collect(),
        beds: None,
        kitchen_days: vec![("14 quarts of juice".to_owned(), words(&["week of 5 Aug"]))],
        harvests: vec![Harvest {
            of: "Paste".to_owned(),
            drawn: DRAWN.to_owned(),
            words: "Kilograms of paste a week".to_owned(),
        }],
        put_up: vec![PutUp {
            title: "Juice, 14 quarts".to_owned(),
            lines: words(&["2 loads at the canner"]),
            acid: words(&["2 Tbsp of bottled lemon juice in every quart"]),
        }],
        cautions: words(&["Never taste from a jar that you doubt."]),
        defers: "Preserving can kill: use a tested recipe.".to_owned(),
        assumed: words(&["100 sampled years."]),
        house_fonts: Vec::new(),
    }
}

#[test]
fn plants_jars_and_cautions_are_on_paper() {
    for paper in [Paper::A4, Paper::UsLetter] {
        let pdf = plan_sheet(&sheet(40), paper).unwrap();
        let Some(text) = poppler::text(&pdf) else { return };
        for words in [
            "Plan for a garden with the weather of Upper Mill",
            "14 quarts of juice",
            "164 packets",
            "week of 5 Aug",
            "2 Tbsp of bottled lemon juice",
            "Never taste",
            "Preserving can kill",
            "100 sampled years",
        ] {
            assert!(text.contains(words), "{words} in {text}");
        }
        assert!(text.contains("Amber Lantern 39 <b>#set</b>"), "a name is printed as a name: {text}");
    }
}

/// A request that nothing answers has a sheet too, without tables that would stand empty.
#[test]
fn a_sheet_without_a_plan_says_why() {
    let mut none = sheet(0);
    none.came = vec!["No planting does all of that.".to_owned()];
    (none.kitchen_days, none.harvests, none.put_up) = (Vec::new(), Vec::new(), Vec::new());
    let pdf = plan_sheet(&none, Paper::A4).unwrap();
    let Some(text) = poppler::text(&pdf) else { return };
    assert!(text.contains("No planting does all of that."), "{text}");
    assert!(!text.contains("Kitchen days") && !text.contains("Cautions"), "{text}");
}
