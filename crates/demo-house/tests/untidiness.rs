//! Every untidiness that growers' files have is in the raw files: each is looked for in the bytes.
#![expect(clippy::unwrap_used, reason = "a file that cannot be made or read back is a failed test")]

use calamine::{Data, Ods, Reader, Xlsx};
use demo_house::chance::DEMO_SEED;
use demo_house::faults::{Fate, Slips};
use demo_house::files;
use demo_house::house::grow;
use demo_house::paper::{self, Format, Sheaf};
use std::collections::BTreeSet;
use std::io::Cursor;
use std::sync::LazyLock;

struct Raw {
    sheaves: Vec<(Sheaf, Vec<u8>)>,
    slips: Slips,
}

static RAW: LazyLock<Raw> = LazyLock::new(|| {
    let house = grow(DEMO_SEED).unwrap();
    let mut slips = Slips::default();
    let sheaves = files::all(&house, &mut slips);
    let with_bytes = sheaves.into_iter().map(|sheaf| {
        let bytes = paper::bytes(&sheaf).unwrap();
        (sheaf, bytes)
    });
    Raw { sheaves: with_bytes.collect(), slips }
});

fn bytes(name: &str) -> &'static [u8] {
    &RAW.sheaves.iter().find(|(sheaf, _)| sheaf.path.ends_with(name)).unwrap().1
}

fn text(name: &str) -> String {
    String::from_utf8(bytes(name).to_vec()).unwrap()
}

fn windows_1252(name: &str) -> String {
    assert!(std::str::from_utf8(bytes(name)).is_err(), "{name} is UTF-8");
    encoding_rs::WINDOWS_1252.decode(bytes(name)).0.into_owned()
}

#[track_caller]
fn holds(text: &str, words: &[&str]) {
    for word in words {
        assert!(text.contains(word), "no {word:?}");
    }
}

fn reasons(fate: Fate) -> BTreeSet<&'static str> {
    RAW.slips.made().iter().filter(|slip| slip.fate == fate).map(|slip| slip.reason).collect()
}

#[test]
fn about_forty_thousand_rows_in_at_least_twelve_files_of_five_formats() {
    let rows: usize = RAW.sheaves.iter().map(|(sheaf, _)| sheaf.rows()).sum();
    assert!((38_000..=43_000).contains(&rows), "{rows} rows");
    assert!(12 <= RAW.sheaves.len());
    let formats: BTreeSet<String> = RAW.sheaves.iter().map(|(sheaf, _)| kept_as(sheaf.format)).collect();
    let wanted = ["ODS", "XLSX", "text ','", "text ';'", "text '\\t'"];
    assert_eq!(formats.iter().map(String::as_str).collect::<Vec<_>>(), wanted);
    let size: usize = RAW.sheaves.iter().map(|(_, bytes)| bytes.len()).sum();
    assert!(size < 6_000_000, "{size} bytes");
}

fn kept_as(format: Format) -> String {
    match format {
        Format::Text { delimiter, .. } => format!("text {delimiter:?}"),
        Format::Workbook => "XLSX".to_owned(),
        Format::OpenDocument => "ODS".to_owned(),
    }
}

#[test]
fn letters_come_in_four_kinds_of_bytes() {
    assert!(bytes("list.csv").starts_with(b"\xef\xbb\xbf"));
    assert!(bytes("beds-2026.tsv").starts_with(b"\xff\xfe"));
    holds(&windows_1252("old-packets.csv"), &["½", "é", "°"]);
    holds(&windows_1252("fruit-2025-neighbour.csv"), &["–", "’"]);
    assert!(text("picks-2024.csv").is_ascii());
}

#[test]
fn units_stand_in_headings_and_cells_and_are_mixed() {
    holds(&text("fruit-2024-home.csv"), &["Wt (oz)", "Length (in)", " g,", "2 1/4,"]);
    holds(&windows_1252("fruit-2024-far-field.csv"), &["6,3 cm", " g;", "°Brix"]);
    let far_field = windows_1252("fruit-2024-far-field.csv");
    let is_kilogram = |cell: &str| cell.starts_with("1.") && cell.ends_with(" g") && cell.len() == 7;
    assert!(far_field.split(';').any(is_kilogram), "no 1.024 g");
    holds(&text("picks-2024.csv"), &[" lb ", " oz,", "\"1,", " g\""]);
    holds(&text("heights-2024.tsv"), &["5 ft 3 in", "40 in", "102 cm"]);
    holds(&text("walks-2024.csv"), &["°F"]);
    holds(&text("walks-2026.csv"), &["°C"]);
    let workbook = cells("fruit-2025-bench.xlsx", "Home Garden 2025");
    for unit in [" oz", " g", "1 lb ", " in"] {
        assert!(workbook.iter().flatten().any(|cell| cell.contains(unit)), "no {unit:?}");
    }
}

#[test]
fn numbers_have_decimal_commas_and_thousands() {
    holds(&text("picks-2025.csv"), &[";1,85;", ";0,0"]);
    holds(&text("heights-2025.csv"), &[";1,02"]);
    let thousands = |marked: &str| marked.contains("\"1,") && marked.contains(" g\"");
    assert!(thousands(&text("picks-2024.csv")));
}

#[test]
fn days_are_written_in_every_way() {
    holds(&text("fruit-2024-home.csv"), &["\n8/24/24,"]);
    holds(&windows_1252("fruit-2024-far-field.csv"), &[".08.2024"]);
    holds(&windows_1252("fruit-2025-neighbour.csv"), &["Aug "]);
    holds(&text("picks-2025.csv"), &["31/08/2025"]);
    holds(&text("picks-2026.tsv"), &[" Jul 2026"]);
    holds(&text("fruit-2026-home.csv"), &["2026-08-08"]);
}

/// Both numbers of every date are at most 12 and differ, so no date tells which is the month.
#[test]
fn the_open_days_dates_cannot_be_told() {
    let text = text("fruit-2025-open-day.csv");
    let dates: Vec<&str> = text.lines().skip(2).filter_map(|line| line.split(',').next()).collect();
    assert!(50 <= dates.len());
    for date in dates {
        let parts: Vec<u32> = date.split('/').map(|part| part.parse().unwrap()).collect();
        assert!(parts[0] <= 12 && parts[1] <= 12 && parts[0] != parts[1], "{date}");
    }
}

#[test]
fn titles_blank_rows_headings_and_totals_stand_between_the_rows() {
    let text = text("fruit-2024-home.csv");
    let headings = text.lines().filter(|line| line.starts_with("Date,Plot,")).count();
    assert!(10 <= headings, "{headings} headings");
    assert!(text.starts_with("\"Crookstile") && text.contains("\r\n\r\n") && text.contains("\r\nTotal,"));
    assert_eq!(reasons(Fate::PassedOver), BTreeSet::from(["repeated headings", "total row"]));
}

#[test]
fn line_breaks_and_quotes_stand_inside_quotes() {
    holds(&windows_1252("old-packets.csv"), &["\"\"as early as you dare\"\".\nHarden"]);
    holds(&text("walks-2026.csv"), &["hornworm, picked off\n"]);
}

#[test]
fn what_was_not_measured_is_marked_in_several_ways() {
    holds(&text("fruit-2024-home.csv"), &[",?,", ",n/a,", ",-,", ",,"]);
}

fn cells(name: &str, sheet: &str) -> Vec<Vec<String>> {
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes(name).to_vec())).unwrap();
    let range = workbook.worksheet_range(sheet).unwrap();
    range.rows().map(|row| row.iter().map(Data::to_string).collect()).collect()
}

#[test]
fn workbooks_hold_merged_titles_formulas_and_real_dates() {
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes("fruit-2025-bench.xlsx").to_vec())).unwrap();
    let merged = workbook.merge_cells_by_sheet_name("Far Field 2025").unwrap();
    assert!(!merged.is_empty());
    let formulas = workbook.worksheet_formula("Far Field 2025").unwrap();
    assert!(formulas.cells().any(|(_, _, formula)| formula == "E3-F3"));
    let range = workbook.worksheet_range("Far Field 2025").unwrap();
    let row = range.rows().nth(2).unwrap();
    assert!(matches!(row[3], Data::DateTime(_)) && matches!(row[6], Data::Float(_)), "{row:?}");
}

#[test]
fn spreadsheets_of_the_other_kind_read_back_with_dates_formulas_and_an_empty_sheet() {
    let mut beds: Ods<_> = Ods::new(Cursor::new(bytes("beds-2025.ods").to_vec())).unwrap();
    assert_eq!(beds.sheet_names(), ["Home Garden 2025", "Far Field 2025", "Glasshouse 2025"]);
    assert_eq!(beds.worksheet_range("Glasshouse 2025").unwrap().rows().count(), 2);
    let range = beds.worksheet_range("Home Garden 2025").unwrap();
    let first = range.rows().nth(3).unwrap();
    assert_eq!(first[1], Data::String("H-001".to_owned()));
    assert!(matches!(first[6], Data::DateTime(_) | Data::DateTimeIso(_)), "{first:?}");
    let formulas = beds.worksheet_formula("Home Garden 2025").unwrap();
    assert!(formulas.cells().any(|(_, _, formula)| formula.contains("SUM([.H4:.H")));
}

#[test]
fn one_file_is_sent_twice_and_another_has_grown() {
    let twice: Vec<&[u8]> = of_name("picks-2025.csv");
    assert!(twice.len() == 2 && twice[0] == twice[1]);
    let grown: Vec<&[u8]> = of_name("fruit-2026-home.csv");
    assert!(grown.len() == 2 && grown[1].starts_with(grown[0]) && grown[0].len() < grown[1].len());
}

fn of_name(name: &str) -> Vec<&'static [u8]> {
    let named = RAW.sheaves.iter().filter(|(sheaf, _)| sheaf.path.ends_with(&format!("/{name}")));
    named.map(|(_, bytes)| bytes.as_slice()).collect()
}

#[test]
fn slips_of_every_kind_are_made() {
    let quarantined = [
        "a word that means two things",
        "a year that is no season",
        "below nothing",
        "day or month first cannot be told",
        "more than one measure",
        "no such day",
        "no unit",
        "no variety",
        "not a count",
        "not a number",
        "unknown plot",
        "unknown variety",
    ];
    assert_eq!(reasons(Fate::Quarantined), BTreeSet::from(quarantined));
    let doubted = [
        "before transplanting",
        "beyond limit",
        "currant of 900 g",
        "in the future",
        "length and width swapped",
        "weight against size",
    ];
    assert_eq!(reasons(Fate::Doubted), BTreeSet::from(doubted));
    let misleading = ["false claim", "mislabelled plot", "off-type plant"];
    assert_eq!(reasons(Fate::Misleading), BTreeSet::from(misleading));
}
