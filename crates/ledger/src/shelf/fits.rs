//! Wants held against a row in memory: the slow, plain version of the query, for a ledger that may not be
//! written to.

use crate::names::key;
use crate::shelf::wanted::{CalledAs, Measure, Plight, Several, SortedBy, Taste, Want, Way};
use crate::shelf::words::plain_words;
use crate::shelf::{Shelved, Verdict};
use std::cmp::Ordering;

impl Want {
    /// Whether a row is as wanted.
    #[must_use]
    pub fn fits(&self, row: &Shelved) -> bool {
        match self {
            Self::Called(of, taste, words) => {
                let called = called(row, *of);
                let is = called.is_some_and(|called| words.iter().any(|word| word == called));
                is == (*taste == Taste::Sought)
            }
            Self::Has(of, taste, words) => {
                let own = several(row, *of);
                words.iter().any(|word| own.contains(word)) == (*taste == Taste::Sought)
            }
            Self::Within(of, ranges) => {
                measure(row, *of).is_some_and(|measure| ranges.iter().any(|range| range.holds(measure)))
            }
            Self::In(taste, plights) => {
                plights.iter().any(|plight| is_in(row, *plight)) == (*taste == Taste::Sought)
            }
            Self::Letters(letters) => {
                let letters = letters.to_lowercase();
                names(row).any(|name| name.to_lowercase().contains(&letters))
            }
            Self::Words(taste, wanted) => has_words(row, wanted) == (*taste == Taste::Sought),
        }
    }
}

fn has_words(row: &Shelved, wanted: &str) -> bool {
    let (own, wanted) = (plain_words(&row.text), plain_words(wanted));
    wanted.split_whitespace().all(|wanted| own.split(' ').any(|word| word.starts_with(wanted)))
}

fn is_in(row: &Shelved, plight: Plight) -> bool {
    match plight {
        Plight::Contested => row.contested,
        Plight::Contradicted => row.contradicted,
        Plight::Unmeasured => row.unmeasured,
    }
}

fn names(row: &Shelved) -> impl Iterator<Item = &String> {
    std::iter::once(&row.name).chain(&row.aliases)
}

fn called(row: &Shelved, of: CalledAs) -> Option<&str> {
    let verdict = match of {
        CalledAs::Habit => &row.habit,
        CalledAs::Class => &row.class,
        CalledAs::Colour => &row.colour,
        CalledAs::Pattern => return row.pattern.as_deref(),
    };
    verdict.as_ref().map(|verdict| verdict.word.as_str())
}

fn several(row: &Shelved, of: Several) -> Vec<String> {
    match of {
        Several::Uses => row.uses.clone(),
        Several::Marks => row.marks.clone(),
        Several::Seasons => row.seasons.iter().map(|season| season.year().to_string()).collect(),
    }
}

fn measure(row: &Shelved, of: Measure) -> Option<f64> {
    match of {
        Measure::Weight => row.usual.weight_g,
        Measure::Length => row.usual.length_mm,
        Measure::Width => row.usual.width_mm,
        Measure::Locules => row.usual.locules,
        Measure::Solids => row.usual.solids_percent,
        Measure::Days => row.usual.days,
        Measure::Height => row.usual.height_mm,
    }
}

impl SortedBy {
    /// Which of two rows comes first.
    #[must_use]
    pub fn first(self, way: Way, one: &Shelved, other: &Shelved) -> Ordering {
        let by_name = || key(&one.name).cmp(&key(&other.name));
        if self == Self::Name {
            return turned(by_name(), way);
        }
        let ordered = match (self.place_of(one), self.place_of(other)) {
            (Some(one), Some(other)) => turned(one.total_cmp(&other), way),
            (one, other) => other.is_some().cmp(&one.is_some()),
        };
        ordered.then_with(by_name)
    }

    fn place_of(self, row: &Shelved) -> Option<f64> {
        let place = |verdict: &Option<Verdict>| verdict.as_ref().map(|verdict| f64::from(verdict.place));
        match self {
            Self::Name => None,
            Self::Weight => row.usual.weight_g,
            Self::Class => place(&row.class),
            Self::Habit => place(&row.habit),
            Self::Colour => place(&row.colour),
            Self::Days => row.usual.days,
            Self::Sureness => row.sureness,
            Self::Newest => row.seasons.last().map(|season| f64::from(season.year())),
        }
    }
}

fn turned(ordering: Ordering, way: Way) -> Ordering {
    match way {
        Way::Rising => ordering,
        Way::Falling => ordering.reverse(),
    }
}
