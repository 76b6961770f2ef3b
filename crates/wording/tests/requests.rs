//! The requests of `requests.toml`, each read and held against what its writer means by it.

#![expect(clippy::expect_used, reason = "what a test works with may stop it")]

use record::language::Units;
use record::length::MILLIMETRES_PER_INCH;
use record::mass::GRAMS_PER_OUNCE;
use record::purpose::Purpose;
use std::collections::BTreeMap;
use wording::amount::{Amount, Measured};
use wording::reading::read;
use wording::telling::told;
use wording::vocabulary::{GuideWords, Vocabulary};
use wording::wish::{Choice, Wish};

fn vocabulary() -> Vocabulary {
    Vocabulary::new(GuideWords {
        habits: &["micro-dwarf", "dwarf", "determinate", "semi-determinate", "indeterminate"],
        classes: &["currant", "cherry", "pear", "grape", "saladette", "plum", "paste", "slicer", "beefsteak"],
        colours: &["red", "pink", "orange", "yellow", "white", "green", "brown", "black", "bicolour"],
        marks: &["heart", "hollow", "ribbed"],
    })
}

/// A wish as a set of compact lines: `habit dwarf`, `not colour red`, `weight <=113.4`.
fn compact(wish: &Wish) -> Vec<String> {
    let mut lines = Vec::new();
    choice(&mut lines, "habit", &wish.habits, Clone::clone);
    choice(&mut lines, "class", &wish.classes, Clone::clone);
    choice(&mut lines, "colour", &wish.colours, Clone::clone);
    choice(&mut lines, "pattern", &wish.patterns, |pattern| pattern.name().to_owned());
    choice(&mut lines, "mark", &wish.marks, Clone::clone);
    choice(&mut lines, "use", &wish.uses, |purpose: &Purpose| purpose.name().to_owned());
    choice(&mut lines, "grow", &wish.growing, |purpose: &Purpose| purpose.name().to_owned());
    choice(&mut lines, "state", &wish.states, |state| state.name().to_owned());
    choice(&mut lines, "season", &wish.seasons, ToString::to_string);
    choice(&mut lines, "words", &wish.words, Clone::clone);
    amounts(&mut lines, "weight", &wish.weights);
    amounts(&mut lines, "length", &wish.lengths);
    amounts(&mut lines, "width", &wish.widths);
    amounts(&mut lines, "height", &wish.heights);
    amounts(&mut lines, "days", &wish.days);
    amounts(&mut lines, "locules", &wish.locules);
    lines.sort();
    lines
}

fn choice<T>(lines: &mut Vec<String>, kind: &str, choice: &Choice<T>, word: impl Fn(&T) -> String) {
    lines.extend(choice.wanted.iter().map(|one| format!("{kind} {}", word(one))));
    lines.extend(choice.barred.iter().map(|one| format!("not {kind} {}", word(one))));
}

fn amounts<T: Measured>(lines: &mut Vec<String>, kind: &str, amounts: &[Amount<T>]) {
    lines.extend(amounts.iter().map(|amount| match *amount {
        Amount::About(value) => format!("{kind} ~{:.2}", value.number()),
        Amount::AtLeast(value) => format!("{kind} >={:.2}", value.number()),
        Amount::AtMost(value) => format!("{kind} <={:.2}", value.number()),
        Amount::Between(low, high) => format!("{kind} {:.2}..{:.2}", low.number(), high.number()),
    }));
}

/// The lines that an expectation of the file stands for.
fn expected(text: &str) -> Vec<String> {
    let mut lines: Vec<String> = text
        .split(';')
        .map(str::trim)
        .filter(|clause| !clause.is_empty())
        .flat_map(|clause| {
            let not = if clause.starts_with("not ") { "not " } else { "" };
            let clause = clause.trim_start_matches("not ");
            let (kind, answers) = clause.split_once(' ').expect("a kind and its answers");
            answers
                .split(", ")
                .map(move |answer| format!("{not}{kind} {}", scaled(kind, answer)))
                .collect::<Vec<_>>()
        })
        .collect();
    lines.sort();
    lines
}

fn scaled(kind: &str, answer: &str) -> String {
    if !["weight", "length", "width", "height", "days", "locules"].contains(&kind) {
        return answer.to_owned();
    }
    let digits = answer.trim_start_matches(['<', '>', '=', '~']);
    let sign = answer.strip_suffix(digits).expect("a sign before the figures");
    let values: Vec<String> = digits.split("..").map(|value| format!("{:.2}", number(value))).collect();
    format!("{sign}{}", values.join(".."))
}

fn number(text: &str) -> f64 {
    let units = [
        ("oz", GRAMS_PER_OUNCE),
        ("lb", 16.0 * GRAMS_PER_OUNCE),
        ("kg", 1000.0),
        ("in", MILLIMETRES_PER_INCH),
        ("ft", 12.0 * MILLIMETRES_PER_INCH),
        ("cm", 10.0),
        ("mm", 1.0),
        ("g", 1.0),
        ("d", 1.0),
        ("m", 1000.0),
        ("", 1.0),
    ];
    let (unit, scale) = units.iter().find(|(unit, _)| text.ends_with(unit)).expect("a known unit");
    text.trim_end_matches(unit).parse::<f64>().expect("a number") * scale
}

fn requests() -> BTreeMap<String, Vec<[String; 2]>> {
    toml::from_str(include_str!("requests.toml")).expect("the file is TOML")
}

#[test]
fn every_request_is_read_as_its_writer_means_it() {
    let vocabulary = vocabulary();
    let mut wrong = Vec::new();
    let mut count = 0;
    for [text, meant] in requests().values().flatten() {
        count += 1;
        let read = compact(&read(text, &vocabulary).wish);
        if read != expected(meant) {
            wrong.push(format!("{text:?}\n   meant {:?}\n   read  {read:?}", expected(meant)));
        }
    }
    assert!(100 <= count, "only {count} requests");
    assert!(wrong.is_empty(), "{} of {count} misread:\n{}", wrong.len(), wrong.join("\n"));
}

/// What is told back reads as the same wish: numbers to the digits that are told.
#[test]
fn every_wish_told_back_reads_as_itself() {
    let vocabulary = vocabulary();
    for [text, _] in requests().values().flatten() {
        for units in [Units::US, Units::METRIC] {
            let once = told(&read(text, &vocabulary).wish, units);
            let twice = told(&read(&once, &vocabulary).wish, units);
            assert_eq!(once, twice, "{text:?}");
        }
    }
}

/// Case, blanks and hyphens for blanks change nothing.
#[test]
fn dress_does_not_count() {
    let vocabulary = vocabulary();
    for [text, _] in requests().values().flatten() {
        let plain = compact(&read(text, &vocabulary).wish);
        for dressed in [text.to_uppercase(), format!("  {}  ", text.replace(' ', "   "))] {
            assert_eq!(compact(&read(&dressed, &vocabulary).wish), plain, "{dressed:?}");
        }
    }
}
