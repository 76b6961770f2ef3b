//! Headings: which words over a column mean what. One table, from which docs/headings.md is written.
//!
//! A heading is read in any case, with any punctuation, in British or American spelling, and with a unit
//! anywhere in it: `Wt. (oz)`, `length_mm`, `Len. [in]`, `Weight, g`. Start at [`HEADINGS`].

use crate::column::{ColumnUse, Measure};
use crate::kind::Kind;
use crate::table::Row;
use crate::unit::{self, Unit};
use record::pick::CullCause;
use record::variety::ClaimSubject;
use std::collections::HashMap;
use std::sync::LazyLock;

/// Headings that mean one thing in tables of some kinds.
#[derive(Clone, Copy, Debug)]
pub struct Synonyms {
    /// What the column holds.
    pub reads: ColumnUse,
    /// The kinds of table in which the words mean that.
    pub kinds: &'static [Kind],
    /// The words, in small letters and British spelling, without punctuation and units.
    pub words: &'static [&'static str],
}

/// Columns that an export of the quarantine adds to a file's own; they are known and passed over when
/// the corrected file comes back.
pub const QUARANTINE_COLUMNS: [&str; 3] = ["quarantine row", "quarantine reason", "quarantine remedy"];

const ANY: &[Kind] = &Kind::ALL;
const NOTES: &[Kind] = &[Kind::FruitSamples, Kind::Picks, Kind::Heights, Kind::Stages, Kind::Colours];
const ABOUT_PLOTS: &[Kind] =
    &[Kind::GrowOut, Kind::FruitSamples, Kind::Picks, Kind::Heights, Kind::Stages, Kind::Colours];
const VARIETIES: &[Kind] = &[Kind::Varieties];
const GROW_OUT: &[Kind] = &[Kind::GrowOut];
const SAMPLES: &[Kind] = &[Kind::FruitSamples];
const PICKS: &[Kind] = &[Kind::Picks];
const HEIGHTS: &[Kind] = &[Kind::Heights];
const STAGES: &[Kind] = &[Kind::Stages];
const COLOURS: &[Kind] = &[Kind::Colours];
const SKINS: &[Kind] = &[Kind::FruitSamples, Kind::Colours];

const fn line(reads: ColumnUse, kinds: &'static [Kind], words: &'static [&'static str]) -> Synonyms {
    Synonyms { reads, kinds, words }
}

const fn culls(cause: CullCause, words: &'static [&'static str]) -> Synonyms {
    line(ColumnUse::CullCount(cause), PICKS, words)
}

const fn claim(about: ClaimSubject, words: &'static [&'static str]) -> Synonyms {
    line(ColumnUse::Claim(about), VARIETIES, words)
}

/// Every heading that is understood.
pub const HEADINGS: &[Synonyms] = &[
    line(
        ColumnUse::Variety,
        ANY,
        &["variety", "varieties", "cultivar", "var", "variety name", "cultivar name"],
    ),
    line(ColumnUse::Variety, VARIETIES, &["name", "our name", "list name"]),
    line(
        ColumnUse::Aliases,
        VARIETIES,
        &["aliases", "alias", "also known as", "aka", "other names", "synonyms", "also"],
    ),
    claim(
        ClaimSubject::Habit,
        &["habit", "growth habit", "plant habit", "plant type", "growth", "claimed habit"],
    ),
    claim(
        ClaimSubject::FruitClass,
        &["class", "fruit class", "fruit type", "type", "claimed class", "category"],
    ),
    claim(ClaimSubject::Colour, &["colour", "fruit colour", "claimed colour"]),
    claim(ClaimSubject::FruitWeight, &["weight", "fruit weight", "fruit size", "size", "claimed weight"]),
    claim(
        ClaimSubject::DaysToMaturity,
        &["days", "days to maturity", "dtm", "maturity", "days to ripe", "claimed days"],
    ),
    claim(ClaimSubject::Purpose, &["purpose", "use", "uses", "good for", "best for", "claimed purpose"]),
    claim(ClaimSubject::Other, &["claim", "claims", "description", "catalogue text", "other claims"]),
    line(ColumnUse::GrowOut, ABOUT_PLOTS, &["grow out", "growout", "grow out name", "planting", "trial"]),
    line(ColumnUse::Season, ABOUT_PLOTS, &["season", "year", "harvest year", "season year"]),
    line(ColumnUse::Garden, ABOUT_PLOTS, &["garden", "site", "field", "location", "farm"]),
    line(
        ColumnUse::Plot,
        ABOUT_PLOTS,
        &["plot", "plot label", "plot no", "plot number", "plot id", "stake", "stake no", "stake label"],
    ),
    line(ColumnUse::Plant, ABOUT_PLOTS, &["plant", "plant no", "plant number", "plant id"]),
    line(
        ColumnUse::Day,
        NOTES,
        &["date", "day", "on", "date noted", "noted on", "date measured", "measured on", "measured"],
    ),
    line(
        ColumnUse::Day,
        SAMPLES,
        &["date sampled", "sample date", "sampled", "sampled on", "date cut", "date weighed", "weighed on"],
    ),
    line(
        ColumnUse::Day,
        PICKS,
        &[
            "pick date",
            "picked",
            "picked on",
            "date picked",
            "harvest date",
            "harvested",
            "harvested on",
            "date harvested",
        ],
    ),
    line(ColumnUse::Day, HEIGHTS, &["date read", "read on"]),
    line(ColumnUse::Day, STAGES, &["walk", "walk date", "date walked", "seen on", "date seen"]),
    line(ColumnUse::Day, COLOURS, &["date read", "read on"]),
    line(ColumnUse::Block, GROW_OUT, &["block", "blk", "rep", "replicate", "bed"]),
    line(ColumnUse::BedRow, GROW_OUT, &["row", "row no", "bed row", "row number"]),
    line(
        ColumnUse::Position,
        GROW_OUT,
        &["position", "pos", "place", "place in row", "position in row", "column"],
    ),
    line(
        ColumnUse::Transplanted,
        GROW_OUT,
        &[
            "transplanted",
            "transplanted on",
            "transplant date",
            "date transplanted",
            "set out",
            "planted out",
            "planted",
            "plant date",
            "out",
        ],
    ),
    line(
        ColumnUse::PlantCount,
        GROW_OUT,
        &["plants", "plant count", "number of plants", "no of plants", "count", "plants set", "n plants"],
    ),
    line(
        ColumnUse::PlantCount,
        STAGES,
        &[
            "plants",
            "plant count",
            "plants standing",
            "standing",
            "plants alive",
            "number of plants",
            "stand",
        ],
    ),
    line(ColumnUse::Lost, GROW_OUT, &["lost", "lost on", "date lost", "died", "dead", "pulled", "removed"]),
    line(
        ColumnUse::FruitCount,
        SAMPLES,
        &[
            "fruit count",
            "fruits",
            "count",
            "number of fruits",
            "number of fruit",
            "no of fruits",
            "n",
            "n fruits",
            "fruits weighed",
            "sample size",
        ],
    ),
    line(
        ColumnUse::FruitCount,
        PICKS,
        &[
            "fruit count",
            "fruits",
            "fruit",
            "count",
            "number",
            "number of fruits",
            "number of fruit",
            "no of fruits",
            "n",
            "sound",
            "sound fruit",
            "sound count",
            "qty",
            "quantity",
        ],
    ),
    line(
        ColumnUse::Weight,
        SAMPLES,
        &[
            "weight",
            "wt",
            "fruit weight",
            "fruit wt",
            "mass",
            "fruit mass",
            "average weight",
            "mean weight",
            "avg wt",
            "weight per fruit",
            "weight each",
        ],
    ),
    line(ColumnUse::TotalWeight, SAMPLES, &["total weight", "total wt", "weight of all", "weight together"]),
    line(
        ColumnUse::Weight,
        PICKS,
        &[
            "weight",
            "wt",
            "mass",
            "total weight",
            "total wt",
            "pick weight",
            "picked weight",
            "sound weight",
            "yield",
            "harvest",
            "harvest weight",
        ],
    ),
    line(
        ColumnUse::Length,
        SAMPLES,
        &[
            "length",
            "len",
            "fruit length",
            "l",
            "stem to blossom",
            "stem to blossom end",
            "polar diameter",
            "fruit height",
            "height",
        ],
    ),
    line(
        ColumnUse::Width,
        SAMPLES,
        &[
            "width",
            "wid",
            "fruit width",
            "w",
            "diameter",
            "dia",
            "diam",
            "greatest width",
            "fruit diameter",
            "equatorial diameter",
            "across",
        ],
    ),
    line(
        ColumnUse::NeckWidth,
        SAMPLES,
        &[
            "neck width",
            "neck",
            "neck wid",
            "neck w",
            "shoulder width",
            "width at quarter",
            "quarter width",
            "neck diameter",
        ],
    ),
    line(
        ColumnUse::Locules,
        SAMPLES,
        &[
            "locules",
            "locule count",
            "locule",
            "loc",
            "locs",
            "locule number",
            "chambers",
            "seed chambers",
            "number of locules",
        ],
    ),
    line(
        ColumnUse::SolubleSolids,
        SAMPLES,
        &["soluble solids", "brix", "bx", "tss", "ss", "sugar", "refractometer", "degrees brix"],
    ),
    line(ColumnUse::DryMatter, SAMPLES, &["dry matter", "dm", "dry weight share", "dry matter share"]),
    line(ColumnUse::Lobes, SAMPLES, &["lobes", "lobe count", "ribs", "rib count", "number of lobes"]),
    line(ColumnUse::Cracking, SAMPLES, &["cracking", "cracks", "crack", "splitting", "splits"]),
    line(ColumnUse::Catfacing, SAMPLES, &["catfacing", "catface", "cat facing", "catfaces", "cat face"]),
    line(
        ColumnUse::Exterior,
        SAMPLES,
        &[
            "colour",
            "exterior",
            "exterior colour",
            "outside colour",
            "fruit colour",
            "external colour",
            "colour outside",
            "ripe colour",
        ],
    ),
    line(
        ColumnUse::Exterior,
        COLOURS,
        &["exterior", "exterior colour", "outside colour", "external colour", "colour outside"],
    ),
    line(
        ColumnUse::Flesh,
        SKINS,
        &["flesh", "flesh colour", "inside colour", "interior", "interior colour", "colour inside"],
    ),
    line(ColumnUse::Gel, COLOURS, &["gel", "gel colour", "jelly", "jelly colour"]),
    line(
        ColumnUse::Skin,
        SKINS,
        &["skin", "skin colour", "peeled skin", "peel", "epidermis", "epidermis colour"],
    ),
    culls(
        CullCause::Cracked,
        &["culls cracked", "cracked", "cracked culls", "split", "culls split", "cracks", "cull cracked"],
    ),
    culls(
        CullCause::Catfaced,
        &["culls catfaced", "catfaced", "catface", "catfacing", "culls catface", "cat faced"],
    ),
    culls(
        CullCause::BlossomEndRot,
        &["culls blossom end rot", "blossom end rot", "ber", "culls ber", "cull ber"],
    ),
    culls(CullCause::Rotten, &["culls rotten", "rotten", "rot", "culls rot", "cull rot", "rots"]),
    culls(
        CullCause::Sunscald,
        &["culls sunscald", "sunscald", "sun scald", "scald", "culls scald", "sunburn"],
    ),
    culls(
        CullCause::Eaten,
        &["culls eaten", "eaten", "pests", "insects", "birds", "slugs", "culls pests", "chewed"],
    ),
    culls(
        CullCause::Undersized,
        &["culls undersized", "undersized", "too small", "small", "culls small", "undersize"],
    ),
    culls(CullCause::Other, &["culls other", "other culls", "other"]),
    line(
        ColumnUse::CullCause,
        PICKS,
        &["cull cause", "cause", "culled for", "cull reason", "culled because"],
    ),
    line(ColumnUse::Culls, PICKS, &["culls", "culled", "cull count", "number culled", "unmarketable"]),
    line(
        ColumnUse::CullsWeighed,
        PICKS,
        &["cull weight", "culls weight", "weight of culls", "cull wt", "culls wt"],
    ),
    line(
        ColumnUse::Height,
        HEIGHTS,
        &["height", "ht", "plant height", "tall", "vine height", "stem height", "vine length"],
    ),
    line(
        ColumnUse::FirstFlower,
        STAGES,
        &["first flower", "first flowers", "first bloom", "flowering", "first open flower", "1st flower"],
    ),
    line(
        ColumnUse::FirstRipe,
        STAGES,
        &["first ripe", "first ripe fruit", "1st ripe", "ripe", "first fruit"],
    ),
    line(
        ColumnUse::StemEnded,
        STAGES,
        &[
            "stem ended",
            "main stem ended",
            "ended",
            "terminated",
            "stem ended in truss",
            "main stem ended in a truss",
            "stem terminated",
            "stopped",
        ],
    ),
    line(
        ColumnUse::Trusses,
        STAGES,
        &[
            "trusses",
            "truss count",
            "number of trusses",
            "trusses on main stem",
            "clusters",
            "cluster count",
            "after trusses",
            "inflorescences",
        ],
    ),
    line(
        ColumnUse::LeavesBetween,
        STAGES,
        &[
            "leaves between trusses",
            "leaves between",
            "leaves per truss",
            "leaf count",
            "leaves",
            "leaves between clusters",
        ],
    ),
    line(
        ColumnUse::OffTypes,
        STAGES,
        &["off types", "off type", "offtypes", "offtype", "rogues", "number off type"],
    ),
    line(
        ColumnUse::OffTypeWords,
        STAGES,
        &["off type notes", "off type words", "what is off", "off type description", "rogue notes"],
    ),
    line(
        ColumnUse::DwarfLeaves,
        STAGES,
        &["dwarf leaves", "dwarf", "dwarf leaf", "crinkled leaves", "rugose leaves", "rugose"],
    ),
    line(ColumnUse::Stage, STAGES, &["stage", "seen", "observation", "what"]),
    line(ColumnUse::StageNumber, STAGES, &["value", "stage value", "number", "count", "how many"]),
    line(ColumnUse::Lightness, COLOURS, &["l", "l star", "lightness", "cie l", "lab l"]),
    line(ColumnUse::GreenRed, COLOURS, &["a", "a star", "cie a", "lab a"]),
    line(ColumnUse::BlueYellow, COLOURS, &["b", "b star", "cie b", "lab b"]),
    line(ColumnUse::Part, COLOURS, &["part", "fruit part", "where", "measured part", "surface"]),
    line(ColumnUse::Colour, COLOURS, &["colour", "colour word", "fruit colour", "ripe colour"]),
    line(ColumnUse::Pattern, COLOURS, &["pattern", "striping", "colour pattern", "stripes"]),
    line(
        ColumnUse::Ignored,
        ANY,
        &[
            "notes",
            "note",
            "remarks",
            "remark",
            "comments",
            "comment",
            "initials",
            "who",
            "observer",
            "by",
            "recorder",
            "weather",
            "photo",
            "picture",
            "id",
            "sample",
            "sample no",
            "fruit no",
            "no",
        ],
    ),
    line(ColumnUse::Quarantine, ANY, &QUARANTINE_COLUMNS),
];

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
        for words in synonyms.words {
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
                for words in synonyms.words {
                    assert_eq!(folded(words), *words, "must be written folded");
                    assert_eq!(seen.insert(*words, synonyms.reads), None, "{words} in {}", kind.name());
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
