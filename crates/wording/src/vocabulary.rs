//! Which words mean what: the guide's own words and the trade's other words for them.

use crate::wish::Want;

/// The words that a house's guides use.
#[derive(Clone, Copy, Debug, Default)]
pub struct GuideWords<'a> {
    /// Habits, such as `semi-determinate`.
    pub habits: &'a [&'a str],
    /// Fruit classes, such as `saladette`.
    pub classes: &'a [&'a str],
    /// Colours outside, such as `bicolour`.
    pub colours: &'a [&'a str],
    /// Shape marks, such as `heart`.
    pub marks: &'a [&'a str],
}

/// A phrase and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The phrase, in small letters.
    pub phrase: String,
    /// What it means.
    pub want: Want,
}

/// Every phrase that is understood.
#[derive(Clone, Debug, Default)]
pub struct Vocabulary {
    entries: Vec<Entry>,
}

impl Vocabulary {
    /// The vocabulary of a house: its guides' words, and the trade's other words for those that it has.
    #[must_use]
    pub fn new(words: GuideWords<'_>) -> Self {
        let own = |names: &[&str], want: fn(String) -> Want| -> Vec<Entry> {
            names
                .iter()
                .map(|name| Entry { phrase: name.to_lowercase(), want: want((*name).to_owned()) })
                .collect()
        };
        let kinds = [
            own(words.habits, Want::Habit),
            own(words.classes, Want::Class),
            own(words.colours, Want::Colour),
            own(words.marks, Want::Mark),
        ];
        Self { entries: kinds.concat() }
    }

    /// Adds words that are known to be no slip of the pen, such as the words of the varieties' names.
    #[must_use]
    pub fn knowing<'a>(self, _names: impl IntoIterator<Item = &'a str>) -> Self {
        self
    }

    /// Every phrase with its meaning, for pages that read wishes by themselves.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
}
