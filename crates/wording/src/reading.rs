//! A text read piece by piece. Start at [`read`].

use crate::vocabulary::Vocabulary;
use crate::wish::{Sense, Want, Wish};
use std::ops::Range;

/// A text as it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What it asks for.
    pub wish: Wish,
    /// The pieces that mean something, in the text's order; they never overlap.
    pub parts: Vec<Part>,
}

/// A piece of the text and what it was read as.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The piece as it stands in the text.
    pub said: String,
    /// Where it stands, in bytes.
    pub at: Range<usize>,
    /// What it means; several where a word of the trade means either ("purple").
    pub wants: Vec<Want>,
    /// Asked for or asked away.
    pub sense: Sense,
    /// The word that a slip of the pen was mended to.
    pub mended: Option<String>,
}

/// Reads what a text asks for. Any text can be read; what means nothing here is left for full text.
#[must_use]
pub fn read(text: &str, vocabulary: &Vocabulary) -> Reading {
    let mut reading = Reading { wish: Wish::default(), parts: Vec::new() };
    for said in text.split_whitespace() {
        let key = said.to_lowercase();
        if let Some(entry) = vocabulary.entries().iter().find(|entry| entry.phrase == key) {
            match &entry.want {
                Want::Habit(word) => reading.wish.habits.wanted.push(word.clone()),
                Want::Class(word) => reading.wish.classes.wanted.push(word.clone()),
                Want::Colour(word) => reading.wish.colours.wanted.push(word.clone()),
                _ => {}
            }
        } else {
            reading.wish.words.wanted.push(key);
        }
    }
    reading
}
