//! The index: names and aliases in the order of the alphabet.

use crate::catalogue::Section;
use crate::typesetting::Fonts;
use serde::Serialize;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Longest name that the index writes out; the entry has it whole. Common practice, no source.
const LONGEST_LINE: usize = 60;

/// The lines under one letter.
#[derive(Debug, Serialize)]
pub(super) struct Letter {
    letter: String,
    lines: Vec<Line>,
}

/// A name or an alias and where it is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
struct Line {
    #[serde(skip)]
    order: String,
    words: String,
    /// The name that an alias stands for.
    stands_for: Option<String>,
    /// The entry's number in the order of the book.
    entry: usize,
}

/// Lists every name and alias of the book.
pub(super) fn index(sections: &[Section], fonts: &Fonts) -> Vec<Letter> {
    let entries = sections.iter().flat_map(|section| &section.entries).enumerate();
    let mut lines: Vec<Line> = entries
        .flat_map(|(number, entry)| {
            let name = shortened(&fonts.legible(&entry.name));
            let own = line(&entry.name, None, number, fonts);
            let aliases =
                entry.aliases.iter().map(move |alias| line(alias, Some(name.clone()), number, fonts));
            std::iter::once(own).chain(aliases)
        })
        .filter(|line| !line.words.is_empty())
        .collect();
    lines.sort();
    lines.dedup();
    by_letter(lines)
}

/// Cuts a long name short, with an ellipsis.
pub(super) fn shortened(name: &str) -> String {
    match name.char_indices().nth(LONGEST_LINE) {
        Some((end, _)) => format!("{}…", name.get(..end).unwrap_or(name).trim_end()),
        None => name.to_owned(),
    }
}

fn line(name: &str, stands_for: Option<String>, entry: usize, fonts: &Fonts) -> Line {
    Line { order: order(name), words: shortened(&fonts.legible(name)), stands_for, entry }
}

/// How a name is sorted: without its accents, the size of its letters or its quotes.
pub(crate) fn order(name: &str) -> String {
    let bare = name.nfkd().filter(|letter| !is_combining_mark(*letter));
    let bare = bare.flat_map(char::to_lowercase).filter(|letter| letter.is_alphanumeric() || *letter == ' ');
    bare.collect::<String>().trim().to_owned()
}

fn by_letter(lines: Vec<Line>) -> Vec<Letter> {
    let mut letters: Vec<Letter> = Vec::new();
    for line in lines {
        let letter = heading(&line.order);
        match letters.last_mut() {
            Some(last) if last.letter == letter => last.lines.push(line),
            _ => letters.push(Letter { letter, lines: vec![line] }),
        }
    }
    letters
}

/// The letter that a name is listed under; numbers and other writing have one heading each.
pub(crate) fn heading(order: &str) -> String {
    match order.chars().next() {
        Some(letter) if letter.is_ascii_alphabetic() => letter.to_ascii_uppercase().to_string(),
        Some(digit) if digit.is_numeric() => "0–9".to_owned(),
        _ => "Other writing".to_owned(),
    }
}
