//! The words that the pages' search reads wishes by: those of crate `wording`, as plain text.

use crate::claims;
use crate::guides::Guides;
use publish::pages::finding::{Phrase, SearchWords, WordAmount};
use wording::amount::{Amount, Measured};
use wording::vocabulary::{Entry, Meaning};
use wording::wish::{Earliness, Kind, Size, Want};

/// All of them.
pub(super) fn words(guides: &Guides) -> SearchWords {
    SearchWords {
        phrases: claims::vocabulary(guides).entries().iter().filter_map(phrase).collect(),
        sizes: Size::ALL.map(|size| amount(size.name(), size.weights())).to_vec(),
        days: Earliness::ALL.map(|early| amount(early.name(), early.days())).to_vec(),
        other_days: Earliness::ALL
            .into_iter()
            .filter_map(|early| Some(amount(early.name(), early.other_days()?)))
            .collect(),
    }
}

/// A phrase with its kind as `reading.js` names it; amounts and seasons are no phrases.
fn phrase(entry: &Entry) -> Option<Phrase> {
    let (kind, answer) = match &entry.means {
        Meaning::Negator => ("negator", ""),
        Meaning::Joiner => ("joiner", ""),
        Meaning::Filler => ("filler", ""),
        Meaning::Plain => ("plain", ""),
        Meaning::Want(want) => asks(want)?,
    };
    Some(Phrase { phrase: entry.phrase.clone(), kind, answer: answer.to_owned() })
}

fn asks(want: &Want) -> Option<(&'static str, &str)> {
    Some(match want {
        Want::Habit(word) => ("habit", word),
        Want::Class(word) => ("class", word),
        Want::Colour(word) => ("colour", word),
        Want::Mark(word) => ("mark", word),
        Want::Pattern(pattern) => ("pattern", pattern.name()),
        Want::Use(purpose) if want.kind() == Kind::Growing => ("grow", purpose.name()),
        Want::Use(purpose) => ("use", purpose.name()),
        Want::Size(size) => ("size", size.name()),
        Want::Earliness(early) => ("earliness", early.name()),
        Want::State(state) => ("state", state.name()),
        _ => return None,
    })
}

fn amount<T: Measured>(word: &str, amount: Amount<T>) -> WordAmount {
    let (low, high) = amount.ends();
    WordAmount { word: word.to_owned(), low, high }
}
