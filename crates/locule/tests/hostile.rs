//! Hostile files through the program: each ends with a clear word and an honest exit code, in little memory,
//! and leaves the house sound.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use serde_json::Value;
use std::fs::{self, File};
use std::io::{Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;
use zip::write::SimpleFileOptions;

/// What the program may take of the address space, in kilobytes: a fifth of the longest line given to it.
const MEMORY_KB: u32 = 200_000;
/// A line of a gigabyte, as the house's first issue asks.
const LONG_LINE: i64 = 1_000_000_000;

const HEADINGS: &str = "variety,date,weight (g),locules\n";
const ROW: &str = "Old Pike,2026-07-14,510,4\n";

struct House {
    folder: TempDir,
}

impl House {
    fn new() -> Self {
        let house = Self { folder: tempfile::tempdir().unwrap() };
        assert!(fenced(Path::new("."), &["new", house.at("house").to_str().unwrap()]).status.success());
        let list = house.write("list.csv", "Variety\nOld Pike\n");
        house.takes(&list, 0);
        house
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn write(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        fs::write(self.at(name), content).unwrap();
        self.at(name)
    }

    fn run(&self, arguments: &[&str]) -> Output {
        fenced(&self.at("house"), arguments)
    }

    /// Takes one file, and gives what became of its table.
    #[track_caller]
    fn takes(&self, file: &Path, code: i32) -> Value {
        let output = self.run(&["--json", "take", file.to_str().unwrap()]);
        let told = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(code), "{told}");
        serde_json::from_slice::<Value>(&output.stdout).unwrap()["answer"].clone()
    }

    #[track_caller]
    fn refuses(&self, file: &Path, reason: &str) {
        let answer = self.takes(file, 2);
        let told = answer["unreadable"][0]["reason"].as_str().unwrap();
        assert!(told.contains(reason), "{told}");
        assert!(!answer["unreadable"][0]["remedy"].as_str().unwrap().is_empty());
    }
}

impl Drop for House {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            assert!(self.run(&["verify"]).status.success(), "the ledger is sound whatever came in");
        }
    }
}

/// The program within bounded memory.
fn fenced(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new("sh");
    let script = format!("ulimit -v {MEMORY_KB} && exec \"$0\" \"$@\"");
    command.args(["-c", &script, env!("CARGO_BIN_EXE_locule")]).args(arguments);
    command.current_dir(folder).env_remove("LOCULE_HOUSE").output().unwrap()
}

/// A workbook with one sheet of the given rows.
fn workbook(file: &Path, rows: impl FnOnce(&mut dyn Write)) {
    const KINDS: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";
    const LINKS: &str = "http://schemas.openxmlformats.org/package/2006/relationships";
    const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    let mut package = zip::ZipWriter::new(File::create(file).unwrap());
    let parts = [
        (
            "[Content_Types].xml",
            format!(
                "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Default Extension=\"xml\" ContentType=\"application/xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType=\"{KINDS}.sheet.main+xml\"/><Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType=\"{KINDS}.worksheet+xml\"/></Types>"
            ),
        ),
        (
            "_rels/.rels",
            format!(
                "<Relationships xmlns=\"{LINKS}\"><Relationship Id=\"r1\" Type=\"{OFFICE}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/workbook.xml",
            format!(
                "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><sheets><sheet name=\"Fruit\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"
            ),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships xmlns=\"{LINKS}\"><Relationship Id=\"r1\" Type=\"{OFFICE}/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"
            ),
        ),
        ("../../slipped.txt", "out of the folder".to_owned()),
    ];
    for (name, text) in parts {
        package.start_file(name, SimpleFileOptions::default()).unwrap();
        package.write_all(text.as_bytes()).unwrap();
    }
    package.start_file("xl/worksheets/sheet1.xml", SimpleFileOptions::default()).unwrap();
    write!(package, "<worksheet xmlns=\"{MAIN}\"><sheetData>").unwrap();
    rows(&mut package);
    package.write_all(b"</sheetData></worksheet>").unwrap();
    package.finish().unwrap();
}

fn row(cells: &[&str]) -> String {
    let cells: String =
        cells.iter().map(|cell| format!("<c t=\"inlineStr\"><is><t>{cell}</t></is></c>")).collect();
    format!("<row>{cells}</row>")
}

#[test]
fn a_line_of_a_gigabyte_costs_its_row_only() {
    let house = House::new();
    let file = house.write("long.csv", HEADINGS);
    let mut to = File::options().append(true).open(&file).unwrap();
    // Enough good rows that the file is known as text before the line comes, which takes no room on the disk.
    to.write_all(ROW.repeat(4_000).as_bytes()).unwrap();
    let length = to.seek(SeekFrom::End(0)).unwrap() + LONG_LINE.unsigned_abs();
    to.set_len(length).unwrap();
    to.write_all(format!("\n{ROW}").as_bytes()).unwrap();
    let table = house.takes(&file, 0)["tables"][0].clone();
    assert_eq!((table["added"].as_u64(), table["quarantined"].as_u64()), (Some(4_001), Some(1)), "{table}");
}

#[test]
fn a_workbook_that_unpacks_without_end_is_refused() {
    let house = House::new();
    let file = house.at("bomb.xlsx");
    workbook(&file, |to| {
        let row = row(&[&"A".repeat(10_000)]);
        (0..20_000).for_each(|_| to.write_all(row.as_bytes()).unwrap());
    });
    assert!(fs::metadata(&file).unwrap().len() < 2_000_000, "it is small from outside");
    house.refuses(&file, "would unpack to");
}

#[test]
fn a_workbook_gives_values_and_writes_nothing_outside() {
    let house = House::new();
    let file = house.at("fruit.xlsx");
    workbook(&file, |to| {
        let formula = "<row><c t=\"inlineStr\"><is><t>Old Pike</t></is></c><c t=\"inlineStr\"><is><t>2026-07-14</t></is></c><c><f>WEBSERVICE(\"x\")</f></c><c><v>4</v></c></row>";
        let headings = row(&["variety", "date", "weight (g)", "locules"]);
        write!(to, "{headings}{formula}{}", row(&["Old Pike", "2026-07-14", "510", "4"])).unwrap();
    });
    let table = house.takes(&file, 0)["tables"][0].clone();
    assert_eq!((table["added"].as_u64(), table["quarantined"].as_u64()), (Some(1), Some(1)), "{table}");
    assert!(!house.at("slipped.txt").exists() && !house.at("../slipped.txt").exists());
}

#[test]
fn quotes_and_nul_bytes_cost_their_rows_only() {
    let house = House::new();
    let nested = format!(
        "{HEADINGS}Old Pike,2026-07-14,{},4\n\"{ROW}{ROW}{}\n{ROW}",
        "\"".repeat(9),
        "\"".repeat(100_001)
    );
    let table = house.takes(&house.write("quotes.csv", nested), 0)["tables"][0].clone();
    assert!(2 <= table["added"].as_u64().unwrap(), "the good rows are read: {table}");
    let nul = format!("{HEADINGS}Old Pike,2026-07-14,5\0 10,4\n{ROW}");
    let table = house.takes(&house.write("nul.csv", nul), 0)["tables"][0].clone();
    assert_eq!((table["added"].as_u64(), table["quarantined"].as_u64()), (Some(1), Some(1)), "{table}");
}

#[test]
fn what_is_no_table_is_told_as_what_it_is() {
    let house = House::new();
    house.refuses(&house.write("nul.csv", vec![0; 100_000]), "a file of bytes");
    house.refuses(&house.write("picture.csv", b"\x89PNG\r\n\x1a\n"), "a picture");
    house.refuses(&house.write("empty.csv", ""), "holds nothing");
    house.refuses(&house.write("cut.xlsx", b"PK\x03\x04 cut off"), "damaged");
    house.refuses(&house.at("gone.csv"), "is not there");
    house.refuses(&house.at("house"), "is a folder");
    house.refuses(&house.write("wide.csv", format!("{}\n", "a,".repeat(5_000))), "more than 512 cells");
}

/// Names are data wherever they go: no path, no formula, no terminal's colours, no letters turned round.
#[test]
fn names_do_nothing_but_name() {
    let house = House::new();
    let names = [
        "../../etc/passwd",
        "@SUM(1)",
        "+1",
        "-minus",
        "<script>alert(1)</script>",
        "Robert'); DROP TABLE variety;--",
        "עגבניה",
    ];
    let refused = ["=cmd()", "\u{1b}[31mRed", "\u{202e}gnp.exe", &"x".repeat(10_000), "two\nlines"];
    let rows: String = names.iter().chain(&refused).map(|name| format!("\"{name}\"\n")).collect();
    let table = house.takes(&house.write("names.csv", format!("Variety\n{rows}")), 0)["tables"][0].clone();
    assert_eq!(table["added"].as_u64(), Some(names.len() as u64), "{table}");
    assert_eq!(table["quarantined"].as_u64(), Some(refused.len() as u64), "{table}");

    for arguments in [vec!["list"], vec!["quarantine"], vec!["show", "@SUM(1)"], vec!["call"]] {
        let told = house.run(&arguments);
        assert!(told.status.success(), "{arguments:?}");
        let told = String::from_utf8(told.stdout).unwrap();
        assert!(!told.contains(['\u{1b}', '\u{202e}']), "{arguments:?} drives the terminal: {told:?}");
    }
    assert!(house.run(&["quarantine", "export", "waiting.csv"]).status.success());
    let exported = fs::read_to_string(house.at("house/waiting.csv")).unwrap();
    assert!(exported.contains("'=cmd()") && !exported.contains(",=cmd()"), "no formula leaves the house");
    assert!(house.run(&["print", "catalogue"]).status.success());
}

#[test]
fn a_table_that_is_hardly_readable_is_not_quarantined_whole() {
    let house = House::new();
    let text = HEADINGS.to_owned() + &"Old Pike,2026-07-14,heavy,4\n".repeat(200_100);
    house.refuses(&house.write("fruit.csv", text), "nothing of it was kept");
    let waiting = house.run(&["--json", "quarantine"]);
    let waiting: Value = serde_json::from_slice(&waiting.stdout).unwrap();
    assert_eq!(waiting["answer"]["rows"].as_array().unwrap().len(), 0);
}
