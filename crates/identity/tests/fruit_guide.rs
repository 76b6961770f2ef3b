//! The fruit guide: the shipped one reads, a wrong one says where and what to do, and none can break it.

#![expect(clippy::unwrap_used, reason = "the shipped guide reads")]

use identity::guide::fruit::{ClassName, SHIPPED, read};
use identity::guide::reading::GuideFault;
use proptest::prelude::*;

#[test]
fn the_shipped_guide_has_the_classes_of_common_practice() {
    let guide = read("guides/fruit.toml", SHIPPED).unwrap();
    let names: Vec<&str> = guide.class_names().map(ClassName::as_str).collect();
    assert_eq!(
        names,
        ["currant", "cherry", "pear", "grape", "saladette", "plum", "paste", "slicer", "beefsteak"]
    );
    let marks: Vec<&str> = guide.marks.iter().map(|mark| mark.name.as_str()).collect();
    assert_eq!(marks, ["heart", "hollow", "ribbed"]);
}

/// Issue 2, point 3: the values that common practice gives, in grams and millimetres.
#[test]
fn the_shipped_borders_are_those_of_common_practice() {
    let guide = read("guides/fruit.toml", SHIPPED).unwrap();
    let at = |name: &str| guide.borders.iter().find(|border| border.name == name).unwrap().at;
    for (border, value) in [
        ("currant-ends", 12.7),
        ("small-ends", 28.349_523_125),
        ("grape-ends", 56.699_046_25),
        ("plum-begins", 50.0),
        ("plum-ends", 85.048_569_375),
        ("paste-length-begins", 75.0),
        ("paste-ends", 141.747_615_625),
        ("slicer-ends", 226.796_185),
    ] {
        assert!((at(border) - value).abs() < 1e-9, "{border} is {}", at(border));
    }
}

/// No value without its source, and the disputed ones name who disagrees.
#[test]
fn every_value_has_a_source() {
    let guide = read("guides/fruit.toml", SHIPPED).unwrap();
    let borders = guide.borders.iter().map(|border| &border.sourced);
    let classes = guide.classes.iter().map(|class| &class.sourced);
    assert!(borders.chain(classes).all(|sourced| !sourced.source.is_empty()));
    let disputed = guide.borders.iter().filter(|border| !border.sourced.contradicted_by.is_empty());
    assert!(10 < disputed.count());
    assert!(guide.softness.iter().all(Option::is_some));
}

#[track_caller]
fn fault(from: &str, to: &str) -> GuideFault {
    assert!(SHIPPED.contains(from), "{from} stands in the shipped guide");
    read("fruit.toml", &SHIPPED.replacen(from, to, 1)).unwrap_err()
}

/// One slip of the pen each, as an owner may make it: what stands there, what is written instead, the fault and
/// the beginning of the remedy.
const SLIPS: &[[&str; 4]] = &[
    [
        "uses = [\"fresh eating\", \"salads\", \"drying\"]",
        "uses = [\"fresh eating\", \"drying\", \"throwing\"]",
        "the use is not known",
        "write one of fresh eating, salads, slicing",
    ],
    [
        "\"salads\", \"drying\"]\nuses_source = \"common practice, no source\"",
        "\"salads\", \"drying\"]\nuses_source = \"\"",
        "uses without a source",
        "name the source beside the uses",
    ],
    ["title =", "tilte =", "unknown field", "mend the spelling, or take the line out"],
    [
        "at = \"1 oz\"",
        "at = \"1\"",
        "\"1\" needs a unit of weight",
        "write a number and a unit of weight: g, kg, oz or lb",
    ],
    [
        "at = \"1 oz\"",
        "at = \"1 mm\"",
        "\"1 mm\" needs a unit of weight",
        "write a number and a unit of weight: g, kg, oz or lb",
    ],
    ["at = \"1 oz\"", "at = \"100 kg\"", "no tomato has a weight of 100 kg", "check the number and its unit"],
    [
        "at = \"1 oz\"",
        "at = \"3 oz\"",
        "the band ends before it begins",
        "swap from and below, or mend the borders' values",
    ],
    [
        "measure = \"width\"",
        "measure = \"girth\"",
        "this is no measure of a fruit",
        "write one of weight, width",
    ],
    [
        "width = { below = \"currant-ends\" }",
        "width = { below = \"curant-ends\" }",
        "no border has this name",
        "write one of currant-ends, or add [border.curant-ends]",
    ],
    [
        "width = { below = \"currant-ends\" }",
        "width = { below = \"small-ends\" }",
        "border \"small-ends\" is one of weight",
        "name a border whose measure is \"width\"",
    ],
    [
        "width = { below = \"currant-ends\" }",
        "width = { }",
        "a band without a border",
        "write from, below or both",
    ],
    [
        "ways = [{ width = { below = \"currant-ends\" } }]",
        "ways = []",
        "no way leads into it",
        "give it a way such as",
    ],
    ["name = \"cherry\"", "name = \"currant\"", "this name is taken", "give it another name"],
    ["name = \"cherry\"", "name = \" \"", "a name without letters", "write a name"],
    [
        "give_or_take = \"8 %\"",
        "give_or_take = \"80 %\"",
        "a border give or take 80 % is none",
        "write 50 % or less",
    ],
    ["version = \"1\"", "version = 1", "invalid type", "put words in quotation marks and leave numbers bare"],
];

#[test]
fn slips_are_told_with_line_and_remedy() {
    for [from, to, told, help] in SLIPS {
        let fault = fault(from, to);
        assert!(fault.fault.contains(*told), "{fault}");
        assert!(fault.help.starts_with(*help), "{fault}: {}", fault.help);
        assert_eq!(&*fault.file, "fruit.toml");
    }
    assert_eq!(fault("title =", "tilte =").line, 7);
}

/// Two classes that would both take some fruit are told apart before they can divide a call.
#[test]
fn overlapping_classes_are_a_fault() {
    let fault = fault(
        "ways = [{ weight = { from = \"small-ends\", below = \"saladette-ends\" }",
        "ways = [{ weight = { from = \"small-ends\", below = \"slicer-ends\" }",
    );
    assert_eq!(&*fault.fault, "some fruit would be both saladette and slicer");
    assert_eq!(&*fault.help, "let both bands end at the same border");
}

#[test]
fn a_fault_reads_as_one_line() {
    let fault = fault("at = \"1 oz\"", "at = \"one ounce\"");
    assert_eq!(
        fault.to_string(),
        format!(
            "fruit.toml, line {}, border.small-ends.at: \"one ounce\" does not begin with a number",
            fault.line
        )
    );
    assert_eq!(&*fault.value, "\"one ounce\"");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    /// Nothing that a file may hold can break the reader.
    #[test]
    fn no_bytes_break_it(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let text = String::from_utf8_lossy(&bytes);
        prop_assert!(read("fruit.toml", &text).is_err());
    }

    /// Nor can a shipped guide with a piece cut out or doubled.
    #[test]
    fn no_mangling_breaks_it(from in 0usize..20_000, length in 0usize..400, doubled in any::<bool>()) {
        let characters: Vec<char> = SHIPPED.chars().collect();
        let from = from.min(characters.len());
        let end = (from + length).min(characters.len());
        let (kept, resume) = if doubled { (end, from) } else { (from, end) };
        let mangled: String = characters[..kept].iter().chain(&characters[resume..]).collect();
        if let Err(fault) = read("fruit.toml", &mangled) {
            prop_assert!(1 <= fault.line && fault.line <= mangled.lines().count() + 1);
        }
    }

    /// Moving one border never opens an overlap: neighbours share it.
    #[test]
    fn a_moved_border_keeps_classes_apart(ounces in 0.9..1.9) {
        let moved = SHIPPED.replacen("at = \"1 oz\"", &format!("at = \"{ounces:.2} oz\""), 1);
        prop_assert!(read("fruit.toml", &moved).is_ok());
    }
}

/// A house's guide from before classes had uses is read as it is: its classes are good for nothing that a search knows.
#[test]
fn a_guide_without_uses_is_read() {
    let older: Vec<&str> = SHIPPED.lines().filter(|line| !line.starts_with("uses")).collect();
    let guide = read("fruit.toml", &older.join("\n")).unwrap();
    assert!(guide.classes.iter().all(|class| class.uses.purposes.is_empty()));
    let shipped = read("fruit.toml", SHIPPED).unwrap();
    assert!(shipped.classes.iter().all(|class| !class.uses.purposes.is_empty()));
}
