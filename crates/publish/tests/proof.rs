//! The proof sheet as a reader meets it.

#![expect(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod poppler;

use jiff::civil::date;
use publish::proof::{KindOfMark, Mark, Marked, Paper, Proof, proof, undrawable};

/// Least distance of ink from the paper's edge, in points: 10 mm, in which every printer can print.
const EDGE: f64 = 28.0;

fn sample(varieties: usize) -> Proof {
    let mark = |number: usize| Mark {
        kind: match number % 3 {
            0 => "claim contradicted",
            1 => "contested",
            _ => "not measured",
        }
        .to_owned(),
        words: format!("sold as \"4 to 6 oz\": usually 8.{number} oz (241 g)"),
        records: (0..number % 4).map(|row| format!("fruit-2031.csv, row {}", row + 7)).collect(),
        step: number.is_multiple_of(2).then(|| "Weigh 6 more fruits.".to_owned()),
    };
    let marked = |number: usize| Marked {
        name: format!("Kittiwake {number}"),
        marks: (0..=number % 3).map(|of| mark(number + of)).collect(),
    };
    Proof {
        house: "Long Furrow Seed".to_owned(),
        printed_on: date(2031, 12, 4),
        summary: format!("{} marks on {varieties} of 68 varieties.", 2 * varieties),
        kinds: vec![KindOfMark {
            name: "claim contradicted".to_owned(),
            counts: "5 marks, 4 varieties".to_owned(),
            means: "The catalogue prints the claim and, beside it, what was measured.".to_owned(),
            remedy: "change the claim, or grow it again.".to_owned(),
            varieties: (0..varieties).map(|number| format!("Kittiwake {number}")).collect(),
        }],
        varieties: (0..varieties).map(marked).collect(),
        house_fonts: Vec::new(),
    }
}

fn run_together(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}').collect()
}

#[track_caller]
fn agrees(of: &Proof, texts: &[String]) {
    for paper in [Paper::A4, Paper::UsLetter] {
        let pdf = proof(of, paper).unwrap();
        for page in poppler::words(&pdf).unwrap_or_default() {
            let inside = |left: f64, right: f64, most: f64| EDGE <= left && right <= most - EDGE;
            let outside = page.words.iter().find(|word| {
                !inside(word.left, word.right, page.width) || !inside(word.top, word.bottom, page.height)
            });
            assert!(outside.is_none(), "{paper:?}: {:?} runs over", outside.map(|word| &word.word));
        }
        let Some(printed) = poppler::text(&pdf) else { return };
        let printed = run_together(&printed);
        let lost: Vec<_> = texts.iter().filter(|text| !printed.contains(&run_together(text))).collect();
        assert!(lost.is_empty(), "lost on {paper:?}: {lost:?}");
    }
}

#[test]
fn every_mark_record_and_step_is_printed() {
    let sheet = sample(40);
    let marks = sheet.varieties.iter().flat_map(|marked| &marked.marks);
    let texts = marks.flat_map(|mark| mark.records.iter().chain([&mark.words]).chain(&mark.step).cloned());
    agrees(
        &sheet,
        &texts.chain(sheet.varieties.iter().map(|marked| marked.name.clone())).collect::<Vec<_>>(),
    );
    agrees(&sample(0), &["0 marks on 0 of 68 varieties.".to_owned()]);
}

#[test]
fn a_hostile_or_endless_name_stays_a_name_on_the_paper() {
    let mut sheet = sample(3);
    sheet.varieties[0].name = "x".repeat(4_000);
    sheet.varieties[1].name = "#panic(\"no\") $x$ = y @z".to_owned();
    sheet.kinds[0].varieties[0] = "W".repeat(2_000);
    agrees(&sheet, &["#panic(\"no\") $x$ = y @z".to_owned()]);
}

#[test]
fn signs_that_no_font_draws_are_found() {
    let names = ["Cooper's Half", "Žlutá №5", "Ντομάτα", "番茄", "Lamp \u{1f345}", "a\u{202e}b"];
    assert_eq!(undrawable(&names, &[]).unwrap(), [false, false, false, true, true, false]);
}
