//! Headings: from what stands over a column to what the column holds.
//!
//! A heading is read in any case, with any punctuation, in British or American spelling, and with a unit
//! anywhere in it: `Wt. (oz)`, `length_mm`, `Len. [in]`, `Weight, g`. Start at [`meaning`].

use crate::column::{ColumnUse, Measure};
use crate::kind::Kind;
use crate::synonyms::{HEADINGS, QUARANTINE_COLUMNS, Synonyms};
use crate::table::Row;
use crate::unit::{self, Unit};
use record::variety::ClaimSubject;
use std::collections::HashMap;
use std::ops::Range;
use std::sync::LazyLock;

/// A heading taken apart: its words without unit, filler and punctuation, and the unit.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Heading {
    words: String,
    unit: Option<Unit>,
}

/// What a heading means in one kind of table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Meaning {
    pub(crate) reads: ColumnUse,
    pub(crate) unit: Option<Unit>,
}

type Index = HashMap<&'static str, Vec<&'static Synonyms>>;

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let mut index = Index::new();
    for synonyms in HEADINGS {
        for words in synonyms.headings() {
            index.entry(words).or_default().push(synonyms);
        }
    }
    index
});

/// What a heading means in tables of `kind`, if anything.
pub(crate) fn meaning(heading: &str, kind: Kind) -> Option<Meaning> {
    readings(heading).into_iter().find_map(|heading| {
        let synonyms = INDEX.get(heading.words.as_str())?;
        let fits = synonyms.iter().find(|synonyms| synonyms.kinds.contains(&kind))?;
        let meaning = Meaning { reads: fits.reads, unit: heading.unit };
        agreed(meaning)
    })
}

/// A meaning whose unit fits what it measures; counted culls with a unit of mass are weighed ones.
fn agreed(meaning: Meaning) -> Option<Meaning> {
    let Meaning { reads, unit } = meaning;
    match (unit, reads) {
        (Some(Unit::Mass(_)), ColumnUse::CullCount(cause)) => {
            Some(Meaning { reads: ColumnUse::CullWeight(cause), unit })
        }
        (Some(Unit::Mass(_)), ColumnUse::Culls) => Some(Meaning { reads: ColumnUse::CullsWeighed, unit }),
        (Some(Unit::Mass(_)), ColumnUse::ReplicateMasses) => Some(meaning),
        (Some(Unit::Mass(_)), reads) if reads.measure() == Some(Measure::Mass) => Some(meaning),
        (Some(Unit::Length(_)), reads) if reads.measure() == Some(Measure::Length) => Some(meaning),
        (Some(_), ColumnUse::Claim(ClaimSubject::FruitWeight)) | (None, _) => Some(meaning),
        (Some(_), _) => None,
    }
}

/// How many cells of a row are headings of the one kind that knows most of them.
pub(crate) fn recognised_in(row: &Row<'_>) -> usize {
    Kind::ALL.into_iter().map(|kind| known_in(row, kind)).max().unwrap_or_default()
}

/// How many cells of a row are headings of this kind; those that are passed over do not count, since
/// `no` and `id` stand in rows of data too.
pub(crate) fn known_in(row: &Row<'_>, kind: Kind) -> usize {
    let kept = |meaning: Meaning| meaning.reads != ColumnUse::Ignored;
    row.cells().filter(|cell| meaning(cell.text, kind).is_some_and(kept)).count()
}

/// Fewest columns of the quarantine's export that are taken for them: `row` and `column` alone are a bed map's.
const LEAST_EXPORTED: usize = 3;

/// The places of the columns that an export of the quarantine put beside a file's own; empty where there
/// are none.
pub(crate) fn exported(headings: &[String]) -> Range<usize> {
    let named = |heading: &String| {
        let heading = folded(heading);
        QUARANTINE_COLUMNS.iter().position(|column| *column == heading)
    };
    let Some(start) = headings.iter().position(|heading| named(heading).is_some()) else { return 0..0 };
    let places: Vec<usize> = headings.iter().skip(start).map_while(named).collect();
    let length = 1 + places.windows(2).take_while(|pair| pair.first() < pair.last()).count();
    if LEAST_EXPORTED <= length { start..start + length } else { 0..0 }
}

/// The words of a heading in small letters and British spelling, parted by single blanks: two headings
/// that fold to the same are the same.
pub(crate) fn folded(heading: &str) -> String {
    let lower = heading.to_lowercase();
    let parts = |sign: char| !sign.is_alphanumeric() && !SIGNS.contains(&sign);
    let words: Vec<&str> =
        lower.split(parts).flat_map(split_signs).filter(|word| !word.is_empty()).map(spelled).collect();
    words.join(" ")
}

/// Signs that are words of their own.
const SIGNS: [char; 4] = ['%', '"', '″', '°'];

/// Parts a sign from the word it is written to, as in `brix°`.
fn split_signs(word: &str) -> impl Iterator<Item = &str> {
    word.split_inclusive(SIGNS).flat_map(|piece| {
        let (word, sign) = piece.split_at(piece.find(SIGNS).unwrap_or(piece.len()));
        [word, sign]
    })
}

fn spelled(word: &str) -> &str {
    match word {
        "color" => "colour",
        "colors" | "colours" => "colour",
        word => word,
    }
}

/// Longest heading that is looked up; anything longer is prose.
const LONGEST_HEADING: usize = 80;

/// Words that say nothing about what a column holds.
const FILLERS: [&str; 14] =
    ["fruit", "average", "avg", "mean", "the", "of", "per", "each", "no", "in", "a", "%", "°", "percent"];

/// The ways to read a heading, the closest first: as it stands, without its unit, without filler words.
fn readings(heading: &str) -> Vec<Heading> {
    if heading.is_empty() || LONGEST_HEADING < heading.len() {
        return Vec::new();
    }
    let folded = folded(heading);
    let words: Vec<&str> = folded.split(' ').collect();
    let as_it_stands = Heading { words: folded.clone(), unit: None };
    let (bare, unit) = without_unit(&words);
    let without = Heading { words: bare.join(" "), unit };
    let telling: Vec<&str> = bare.iter().copied().filter(|word| !FILLERS.contains(word)).collect();
    vec![as_it_stands, without, Heading { words: telling.join(" "), unit }]
}

/// Takes the unit out of a heading: the last word that is one, not counting the first word of several.
/// `in` and `m` are units only at the end, where they are no other words.
fn without_unit<'a>(words: &[&'a str]) -> (Vec<&'a str>, Option<Unit>) {
    let last = words.len() - 1;
    let is_unit = |at: usize, word: &str| at == last || !matches!(word, "in" | "m");
    let named = |at: usize, word: &&str| unit::unit_named(word).filter(|_| is_unit(at, word));
    let found = words.iter().enumerate().rev().find_map(|(at, word)| Some((at, named(at, word)?)));
    match found {
        // A heading that is nothing but a unit of mass is a weight; a bare `mm` could be any of four.
        Some((0, unit @ Unit::Mass(_))) if last == 0 => (vec!["weight"], Some(unit)),
        Some((at @ 1.., unit)) => {
            let others = words.iter().enumerate().filter(|(place, _)| *place != at).map(|(_, word)| *word);
            let mut others: Vec<&str> = others.collect();
            if at == last && others.last() == Some(&"in") {
                others.pop();
            }
            (others, Some(unit))
        }
        _ => (words.to_vec(), None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{LengthUnit, MassUnit};
    use proptest::prelude::*;
    use record::pick::CullCause;

    const OUNCES: Option<Unit> = Some(Unit::Mass(MassUnit::Ounce));
    const GRAMS: Option<Unit> = Some(Unit::Mass(MassUnit::Gram));
    const MILLIMETRES: Option<Unit> = Some(Unit::Length(LengthUnit::Millimetre));
    const INCHES: Option<Unit> = Some(Unit::Length(LengthUnit::Inch));

    #[track_caller]
    fn agrees(heading: &str, kind: Kind, reads: ColumnUse, unit: Option<Unit>) {
        assert_eq!(meaning(heading, kind), Some(Meaning { reads, unit }), "{heading}");
    }

    #[test]
    fn headings_are_read_in_any_dress() {
        let samples = Kind::FruitSamples;
        for heading in
            ["wt (oz)", "Weight, oz", "WEIGHT_OZ", "wt. oz", "Fruit Wt. [ounces]", "oz", "weight in oz"]
        {
            agrees(heading, samples, ColumnUse::Weight, OUNCES);
        }
        agrees("Weight, g", samples, ColumnUse::Weight, GRAMS);
        agrees("wt (g) per fruit", samples, ColumnUse::Weight, GRAMS);
        agrees("length_mm", samples, ColumnUse::Length, MILLIMETRES);
        agrees("Len. [in]", samples, ColumnUse::Length, INCHES);
        agrees("Width (\")", samples, ColumnUse::Width, INCHES);
        agrees("Brix °", samples, ColumnUse::SolubleSolids, None);
        agrees("Dry matter (%)", samples, ColumnUse::DryMatter, None);
        agrees("Exterior Color", samples, ColumnUse::Exterior, None);
        agrees("# Fruits", samples, ColumnUse::FruitCount, None);
        agrees("BER", Kind::Picks, ColumnUse::CullCount(CullCause::BlossomEndRot), None);
        agrees("culls: rot (g)", Kind::Picks, ColumnUse::CullWeight(CullCause::Rotten), GRAMS);
        agrees("L*", Kind::Colours, ColumnUse::Lightness, None);
        agrees("Place in row", Kind::GrowOut, ColumnUse::Position, None);
    }

    #[test]
    fn a_unit_that_does_not_fit_is_no_reading() {
        assert_eq!(meaning("weight (mm)", Kind::FruitSamples), None);
        assert_eq!(meaning("locules (g)", Kind::FruitSamples), None);
        assert_eq!(meaning("my neighbour's opinion", Kind::FruitSamples), None);
    }

    /// In one kind of table a heading means one thing only.
    #[test]
    fn no_heading_means_two_things() {
        for kind in Kind::ALL {
            let mut seen = HashMap::new();
            for synonyms in HEADINGS.iter().filter(|synonyms| synonyms.kinds.contains(&kind)) {
                for words in synonyms.headings() {
                    assert_eq!(folded(words), words, "must be written folded");
                    assert_eq!(seen.insert(words, synonyms.reads), None, "{words} in {}", kind.name());
                }
            }
        }
    }

    proptest! {
        #[test]
        fn any_heading_is_read_or_not(heading in ".{0,90}") {
            for kind in Kind::ALL {
                let _ = meaning(&heading, kind);
            }
            prop_assert_eq!(folded(&folded(&heading)), folded(&heading));
        }
    }
}
