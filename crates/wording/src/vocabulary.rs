//! Which words mean what: the guide's own words and the trade's other words for them.
//!
//! The table is `words.txt`, one line an answer. Start at [`Vocabulary::new`].

use crate::tokens::{key, tokens};
use crate::wish::{Earliness, Kind, Size, State, Want};
use record::colour::Pattern;
use record::purpose::Purpose;
use std::collections::{HashMap, HashSet};

/// The table of words.
const TABLE: &str = include_str!("words.txt");

/// Most words that one phrase holds; every phrase of the table does with as many.
pub const LONGEST_PHRASE: usize = 5;

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
    /// The phrase, as the table writes it.
    pub phrase: String,
    /// What it means.
    pub means: Meaning,
}

/// What a phrase does in a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Meaning {
    /// It asks for something.
    Want(Want),
    /// It asks away what follows.
    Negator,
    /// It joins what stands before and behind it: `or`, `and`.
    Joiner,
    /// Nothing.
    Filler,
    /// Nothing here, but it is no slip of the pen: it is left for full text.
    Plain,
}

/// Every phrase that is understood.
#[derive(Clone, Debug, Default)]
pub struct Vocabulary {
    entries: Vec<Entry>,
    by_key: HashMap<String, Vec<usize>>,
    names: HashSet<String>,
}

impl Vocabulary {
    /// The vocabulary of a house: its guides' words, and the trade's other words for those that it has.
    #[must_use]
    pub fn new(words: GuideWords<'_>) -> Self {
        let mut vocabulary = Self::default();
        for (kind, answer, phrases) in table() {
            let Some(means) = meaning(kind, answer, &words) else { continue };
            for phrase in phrases.split(';').map(str::trim).filter(|phrase| !phrase.is_empty()) {
                vocabulary.add(phrase, means.clone());
            }
        }
        vocabulary.add_own(words.habits, Want::Habit);
        vocabulary.add_own(words.classes, Want::Class);
        vocabulary.add_own(words.colours, Want::Colour);
        vocabulary.add_own(words.marks, Want::Mark);
        vocabulary
    }

    /// The vocabulary of the whole table: every answer that the trade has a word for, whatever a house's guides say.
    #[must_use]
    pub fn of_the_trade() -> Self {
        let of = |kind: &'static str| {
            let own = table().filter(move |(of, ..)| *of == kind);
            own.map(|(_, answer, _)| answer).collect::<Vec<_>>()
        };
        let (habits, classes, colours, marks) = (of("habit"), of("class"), of("colour"), of("mark"));
        Self::new(GuideWords { habits: &habits, classes: &classes, colours: &colours, marks: &marks })
    }

    /// Adds names of varieties: their words are no slips of the pen, and a name of several words is looked for whole.
    #[must_use]
    pub fn knowing<'a>(mut self, names: impl IntoIterator<Item = &'a str>) -> Self {
        for name in names {
            let words: Vec<String> =
                tokens(name).iter().filter_map(|token| token.word().map(str::to_owned)).collect();
            if 1 < words.len() && words.len() <= LONGEST_PHRASE {
                self.names.insert(words.concat());
            }
            self.names.extend(words.into_iter().filter(|word| !self.by_key.contains_key(word)));
        }
        self
    }

    /// Every phrase with its meaning, for pages that read wishes by themselves.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// What a folded phrase means, in the singular or plural; nothing where it is not known.
    pub(crate) fn meanings(&self, key: &str) -> Option<Vec<&Meaning>> {
        let indices = singulars(key).find_map(|key| self.by_key.get(&key))?;
        Some(indices.iter().filter_map(|index| self.entries.get(*index)).map(|entry| &entry.means).collect())
    }

    /// Whether a folded word or phrase is a name or a part of one.
    pub(crate) fn is_name(&self, key: &str) -> bool {
        self.names.contains(key)
    }

    /// Every folded phrase that asks for something, with a place in the entries.
    pub(crate) fn wanting(&self) -> impl Iterator<Item = (&str, &Meaning)> {
        let first = |indices: &Vec<usize>| self.entries.get(*indices.first()?).map(|entry| &entry.means);
        let all = self.by_key.iter().filter_map(move |(key, indices)| Some((key.as_str(), first(indices)?)));
        all.filter(|(_, means)| matches!(means, Meaning::Want(_)))
    }

    fn add_own(&mut self, names: &[&str], want: fn(String) -> Want) {
        for name in names {
            self.add(&name.to_lowercase(), Meaning::Want(want((*name).to_owned())));
        }
    }

    fn add(&mut self, phrase: &str, means: Meaning) {
        let known = self.by_key.entry(key(phrase)).or_default();
        if !known.iter().any(|index| self.entries.get(*index).is_some_and(|entry| entry.means == means)) {
            known.push(self.entries.len());
            self.entries.push(Entry { phrase: phrase.to_owned(), means });
        }
    }
}

/// The wants of the first kind that a phrase means, or of one kind only.
pub(crate) fn wants(meanings: &[&Meaning], kind: Option<Kind>) -> Vec<Want> {
    let want = |means: &&Meaning| match means {
        Meaning::Want(want) => Some(want.clone()),
        _ => None,
    };
    let all: Vec<Want> = meanings.iter().filter_map(want).collect();
    let Some(kind) = kind.or_else(|| all.first().map(Want::kind)) else { return Vec::new() };
    all.into_iter().filter(|want| want.kind() == kind).collect()
}

/// A folded phrase and what it may be the plural of.
fn singulars(key: &str) -> impl Iterator<Item = String> {
    let cut = |ending: &str, instead: &str| key.strip_suffix(ending).map(|stem| format!("{stem}{instead}"));
    [Some(key.to_owned()), cut("s", ""), cut("es", ""), cut("ies", "y")].into_iter().flatten()
}

/// The lines of the table: kind, answer, phrases.
fn table() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    TABLE.lines().filter(|line| !line.starts_with('#')).filter_map(|line| {
        let mut cells = line.split('|').map(str::trim);
        Some((cells.next()?, cells.next()?, cells.next()?))
    })
}

fn meaning(kind: &str, answer: &str, words: &GuideWords<'_>) -> Option<Meaning> {
    let has = |names: &[&str], want: fn(String) -> Want| {
        let own = names.iter().find(|name| name.to_lowercase() == answer)?;
        Some(want((*own).to_owned()))
    };
    let want = match kind {
        "negator" => return Some(Meaning::Negator),
        "joiner" => return Some(Meaning::Joiner),
        "filler" => return Some(Meaning::Filler),
        "plain" => return Some(Meaning::Plain),
        "habit" => has(words.habits, Want::Habit),
        "class" => has(words.classes, Want::Class),
        "colour" => has(words.colours, Want::Colour),
        "mark" => has(words.marks, Want::Mark),
        "pattern" => Pattern::ALL.into_iter().find(|pattern| pattern.name() == answer).map(Want::Pattern),
        "use" => Purpose::named(answer).map(Want::Use),
        "size" => Size::ALL.into_iter().find(|size| size.name() == answer).map(Want::Size),
        "earliness" => Earliness::ALL.into_iter().find(|one| one.name() == answer).map(Want::Earliness),
        "state" => State::ALL.into_iter().find(|state| state.name() == answer).map(Want::State),
        _ => None,
    };
    want.map(Meaning::Want)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A line that names no known kind or answer would be passed over in silence.
    #[test]
    fn every_line_of_the_table_means_something() {
        for (kind, answer, phrases) in table() {
            let own = [answer];
            let words = GuideWords { habits: &own, classes: &own, colours: &own, marks: &own };
            assert!(meaning(kind, answer, &words).is_some(), "{kind} | {answer}");
            for phrase in phrases.split(';') {
                let count = phrase.split([' ', '-']).filter(|word| !word.is_empty()).count();
                assert!((1..=LONGEST_PHRASE).contains(&count), "{phrase:?}");
            }
        }
    }
}
