//! The catalogue as a reader meets it: its words are taken from the PDF by poppler's tools.

#![expect(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod poppler;
mod sample_house;

use poppler::{PlacedWord, words};
use publish::catalogue::{
    Catalogue, ClaimBeside, Entry, Measured, Paper, Portrait, Standing, Together, TypesettingFault, catalogue,
};
use record::length::Millimetres;

const PAPERS: [Paper; 2] = [Paper::A4, Paper::UsLetter];

/// Least distance of ink from the paper's edge, in points: 10 mm, in which every printer can print.
const EDGE: f64 = 28.0;

fn print(house: &Catalogue, paper: Paper) -> Vec<u8> {
    catalogue(house, paper).unwrap()
}

/// The words of a PDF with nothing between them, so that a line's end cannot hide a name.
fn run_together(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}').collect()
}

/// Asserts that every text is somewhere in the printed catalogue, on both papers.
#[track_caller]
fn agrees(house: &Catalogue, texts: &[String]) {
    for paper in PAPERS {
        let Some(printed) = poppler::text(&print(house, paper)) else { return };
        let printed = run_together(&printed);
        let lost: Vec<_> = texts.iter().filter(|text| !printed.contains(&run_together(text))).collect();
        assert!(lost.is_empty(), "lost on {paper:?}: {lost:?}");
    }
}

/// Asserts that every word lies within the paper, on both papers.
#[track_caller]
fn fits(house: &Catalogue) {
    for paper in PAPERS {
        lies_within(&print(house, paper));
    }
}

#[track_caller]
fn lies_within(pdf: &[u8]) {
    for (number, page) in words(pdf).unwrap_or_default().iter().enumerate() {
        let across = EDGE..=page.width - EDGE;
        let down = EDGE..=page.height - EDGE;
        let inside = |word: &&PlacedWord| {
            [word.left, word.right].iter().all(|x| across.contains(x))
                && [word.top, word.bottom].iter().all(|y| down.contains(y))
        };
        let outside: Vec<_> = page.words.iter().filter(|word| !inside(word)).map(|word| &word.word).collect();
        assert!(outside.is_empty(), "page {} runs over: {outside:?}", number + 1);
    }
}

fn entries(house: &Catalogue) -> impl Iterator<Item = &Entry> {
    house.sections.iter().flat_map(|section| &section.entries)
}

#[test]
fn every_name_alias_and_claim_is_printed() {
    let house = sample_house::house(130);
    let names = entries(&house).map(|entry| entry.name.clone());
    let aliases = entries(&house).flat_map(|entry| entry.aliases.clone());
    let claims = entries(&house).flat_map(|entry| &entry.claims).map(|claim| claim.words.clone());
    let trials = entries(&house).flat_map(|entry| entry.trials.clone());
    agrees(&house, &names.chain(aliases).chain(claims).chain(trials).collect::<Vec<_>>());
}

#[test]
fn nothing_runs_over_the_paper() {
    fits(&sample_house::house(130));
}

#[test]
fn the_same_house_prints_the_same_bytes() {
    let house = sample_house::house(30);
    assert!(print(&house, Paper::A4) == print(&house, Paper::A4));
}

#[test]
fn each_paper_has_its_size_and_the_reader_is_told_the_title() {
    for (paper, size) in PAPERS.into_iter().zip(["595.276 x 841.89 pts (A4)", "612 x 792 pts (letter)"]) {
        let Some(facts) = poppler::facts(&print(&sample_house::house(5), paper)) else { return };
        for fact in [size, "Catalogue of varieties: Long Furrow Seed", "Tagged:          yes", "Dec  4"] {
            assert!(facts.contains(fact), "{fact:?} is not in {facts}");
        }
    }
}

/// The page of an entry is where its name stands alone on a line; the index must name that page.
#[test]
fn the_index_and_the_contents_name_the_right_pages() {
    let house = sample_house::house(130);
    let Some(printed) = poppler::text(&print(&house, Paper::A4)) else { return };
    let pages: Vec<Vec<&str>> = printed.split('\u{c}').map(|page| page.lines().collect()).collect();
    let heading = |words: &str| pages.iter().rposition(|page| page.contains(&words)).unwrap();
    let (contents, index) = (pages.get(1).unwrap(), heading("Index of names"));
    for section in &house.sections {
        let number =
            format!(" {}", pages.iter().position(|page| page.contains(&&*section.heading)).unwrap() + 1);
        assert!(contents.iter().any(|line| line.starts_with(&section.heading) && line.ends_with(&number)));
    }
    for entry in entries(&house) {
        let stands =
            |line: &&str| *line == entry.name || line.strip_prefix(&*entry.name).is_some_and(is_marks);
        let page = pages.iter().take(index).skip(3).position(|page| page.iter().any(&stands)).unwrap() + 4;
        let line = format!("{} {page}", entry.name);
        assert!(pages.iter().skip(index).any(|page| page.contains(&&*line)), "the index lacks {line:?}");
    }
}

fn is_marks(rest: &str) -> bool {
    [" contested", " unmeasured", " claim contradicted"].iter().any(|mark| rest.starts_with(mark))
}

#[test]
fn an_empty_list_prints_a_page_that_says_so() {
    let mut house = sample_house::house(0);
    house.seasons = None;
    agrees(
        &house,
        &["There is no variety on the list yet".to_owned(), "0 varieties in 0 classes".to_owned()],
    );
    fits(&house);
}

/// Names that markup, scripts, spreadsheets and terminals would stumble over.
fn hostile() -> Vec<String> {
    let names = [
        "#import \"@preview/x:1.0.0\"",
        "#panic(\"no\")",
        "$x^2$ *bold* _thin_ `code`",
        "= Heading",
        "<v0>",
        "@v0",
        "\\u{41} \\",
        "\"; } ] ) {",
        "// gone /* gone */",
        "~ -- --- ...",
        "=1+1",
        "'quoted' “curly”",
        "</svg><script>alert(1)</script>",
        "https://example.org/a#b",
        "- item",
        "+ item",
        "/ term: x",
        "[link](x)",
    ];
    names.map(str::to_owned).to_vec()
}

fn house_of(names: &[String]) -> Catalogue {
    let mut house = sample_house::house(names.len());
    let entries = house.sections.iter_mut().flat_map(|section| &mut section.entries);
    for (entry, name) in entries.zip(names) {
        entry.name.clone_from(name);
        entry.aliases = vec![format!("also {name}")];
        entry.claims =
            vec![ClaimBeside { words: name.clone(), standing: Standing::Contradicted(name.clone()) }];
        entry.settle = vec![name.clone()];
    }
    house
}

#[test]
fn markup_in_a_name_is_only_a_name() {
    let mut house = house_of(&hostile());
    agrees(&house, &hostile());
    fits(&house);
    house.house = "#pagebreak() *x* $y$".to_owned();
    house.guides = hostile();
    house.sections[0].heading = "#panic()".to_owned();
    agrees(&house, &["#pagebreak() *x* $y$".to_owned(), "#panic()".to_owned()]);
}

/// Whether the PDF claims the standard for accessible documents, PDF/UA-1; the typesetter lets it claim that only
/// where every letter was drawn and every picture has words.
fn claims_accessibility(pdf: &[u8]) -> bool {
    pdf.windows(12).any(|bytes| bytes == b"pdfuaid:part")
}

#[test]
fn the_catalogue_can_be_read_aloud() {
    assert!(claims_accessibility(&print(&sample_house::house(30), Paper::A4)));
    assert!(claims_accessibility(&print(&sample_house::house(0), Paper::A4)));
}

#[test]
fn every_character_of_the_basic_plane_can_be_printed() {
    let plane: Vec<char> = (0..=0xffff).filter_map(char::from_u32).collect();
    let names: Vec<String> = plane.chunks(512).map(|letters| letters.iter().collect()).collect();
    let mut house = sample_house::house(names.len());
    for (entry, name) in house.sections.iter_mut().flat_map(|section| &mut section.entries).zip(&names) {
        entry.settle = vec![name.clone()];
        entry.aliases = vec![name.chars().filter(|letter| letter.is_alphanumeric()).take(30).collect()];
    }
    let pdf = print(&house, Paper::A4);
    lies_within(&pdf);
    assert!(claims_accessibility(&pdf));
}

#[test]
fn what_no_font_can_draw_is_printed_as_its_code() {
    let names =
        ["Lamp \u{1f345}", "番茄", "a\0b", "עגבניה", "طماطم", "Ντομάτα", "Помидор"].map(str::to_owned);
    let house = house_of(&names);
    agrees(&house, &["Lamp [U+1F345]", "[U+756A][U+8304]", "a b", "Ντομάτα", "Помидор"].map(str::to_owned));
    fits(&house);
}

#[test]
fn long_names_and_many_aliases_stay_on_the_paper() {
    let mut house = sample_house::house(22);
    house.house = "Very ".repeat(40) + "Long House";
    let names =
        ["x".repeat(10_000), "Long ".repeat(600), "W".repeat(90), "e\u{301}".repeat(3_000), "[".repeat(500)];
    let entries = house.sections.iter_mut().flat_map(|section| &mut section.entries);
    for (entry, name) in entries.zip(&names) {
        entry.name.clone_from(name);
        entry.aliases = (0..40).map(|alias| format!("Other Name {alias}")).collect();
        entry.settle = vec!["weigh more fruits ".repeat(300)];
    }
    fits(&house);
    agrees(&house, &["W".repeat(90), "Other Name 39".to_owned()]);
    let Some(printed) = poppler::text(&print(&house, Paper::A4)) else { return };
    assert!(10_000 <= printed.matches('x').count(), "part of the longest name is lost");
}

#[test]
fn a_monstrous_portrait_is_shrunk_to_its_room() {
    let mut house = sample_house::house(11);
    let millimetres = |length| Millimetres::new(length).unwrap();
    for entry in house.sections.iter_mut().flat_map(|section| &mut section.entries) {
        let portrait = entry.portrait.clone().unwrap();
        entry.portrait =
            Some(Portrait { life_width: millimetres(4_000.0), life_height: millimetres(0.0), ..portrait });
    }
    house.sections[0].entries[0].portrait.as_mut().unwrap().life_width = millimetres(0.0);
    fits(&house);
}

#[test]
fn a_font_of_the_houses_own_is_used() {
    let mut house = sample_house::house(3);
    house.house_fonts = vec![typst_assets::fonts().next().unwrap().to_vec()];
    agrees(&house, &[sample_house::name(2)]);
}

#[test]
fn a_file_that_is_no_font_is_refused() {
    let mut house = sample_house::house(1);
    house.house_fonts = vec![b"not a font".to_vec()];
    assert!(matches!(catalogue(&house, Paper::A4), Err(TypesettingFault::UnreadableFont { position: 1 })));
}

/// Read by eye before it was accepted.
#[test]
fn a_small_catalogue_reads_well() {
    let mut house = sample_house::house(9);
    // The words must not hang on how large the pictures happen to be drawn.
    for portrait in house
        .sections
        .iter_mut()
        .flat_map(|section| &mut section.entries)
        .filter_map(|entry| entry.portrait.as_mut())
    {
        portrait.life_width = Millimetres::new(160.0).unwrap();
        portrait.life_height = Millimetres::new(80.0).unwrap();
    }
    house.sections[5].entries[0].facts.locules = Some(Measured { usual: 3, most: Some((2, 4)) });
    let Some(printed) = poppler::text(&print(&house, Paper::A4)) else { return };
    insta::assert_snapshot!(printed.replace('\u{a0}', " "));
}

/// What no class takes has a section of its own, and the cover does not count it as a class.
#[test]
fn the_cover_counts_classes_and_not_sections() {
    let mut house = sample_house::house(20);
    let classes = house.sections.iter().filter(|section| !section.entries.is_empty()).count();
    let mut rest = house.sections[0].clone();
    rest.of = Together::NoClass;
    rest.heading = "Not yet measured".to_owned();
    house.sections.push(rest);
    let varieties: usize = house.sections.iter().map(|section| section.entries.len()).sum();
    let Some(text) = poppler::text(&print(&house, Paper::A4)) else { return };
    let cover = format!("{varieties} varieties in {classes} classes");
    assert!(text.contains(&cover), "{cover:?} is not in {}", &text[..400.min(text.len())]);
}
