//! Words of the trade in cells: colours, blemishes, causes, stages, yes and no.
//!
//! Each table is the whole of what is understood; docs/headings.md is written from it. A word that is
//! not in its table is refused rather than taken for the nearest.

use record::colour::{FruitPart, Pattern, Skin, TradeColour};
use record::fruit::Severity;
use record::growout::PlotRole;
use record::pick::CullCause;

/// Words and what they mean.
pub type Words<T> = [(T, &'static [&'static str])];

/// Fruit colours. `purple` is left out: old catalogues mean pink by it, newer ones black.
pub const COLOURS: &Words<TradeColour> = &[
    (TradeColour::Red, &["red", "scarlet", "crimson", "deep red"]),
    (TradeColour::Pink, &["pink", "rose", "rose pink", "deep pink"]),
    (TradeColour::Orange, &["orange", "deep orange", "golden orange"]),
    (TradeColour::Yellow, &["yellow", "gold", "golden", "lemon", "pale yellow", "golden yellow"]),
    (TradeColour::White, &["white", "cream", "ivory", "creamy white"]),
    (TradeColour::Green, &["green", "green when ripe", "gwr", "ripe green"]),
    (TradeColour::Brown, &["brown", "chocolate", "mahogany"]),
    (TradeColour::Black, &["black", "dusky", "dusky purple", "purple black"]),
    (
        TradeColour::Bicolour,
        &[
            "bicolour",
            "bi colour",
            "two coloured",
            "yellow and red",
            "yellow red",
            "red and yellow",
            "red yellow",
        ],
    ),
];

/// The peeled skin.
pub const SKINS: &Words<Skin> = &[
    (Skin::Clear, &["clear", "colourless", "transparent", "no colour"]),
    (Skin::Yellow, &["yellow", "gold", "golden", "amber"]),
];

/// How the colour is laid out.
pub const PATTERNS: &Words<Pattern> = &[
    (Pattern::Plain, &["plain", "solid", "none", "self", "one colour", "no"]),
    (Pattern::Striped, &["striped", "stripes", "stripe", "yes"]),
    (Pattern::Marbled, &["marbled", "blushed", "blush", "swirled", "mottled"]),
    (Pattern::DarkShouldered, &["dark shouldered", "dark shoulders", "dark shoulder", "shouldered"]),
];

/// Parts of the fruit.
pub const PARTS: &Words<FruitPart> = &[
    (FruitPart::Exterior, &["exterior", "outside", "whole", "whole fruit", "surface", "skin side"]),
    (FruitPart::Flesh, &["flesh", "inside", "cut", "cut face", "interior"]),
    (FruitPart::Gel, &["gel", "jelly", "locule gel"]),
];

/// How bad a blemish is. Figures above 0 are left out: houses score to 3, to 5 and to 9.
pub const SEVERITIES: &Words<Severity> = &[
    (Severity::Absent, &["none", "no", "absent", "nil", "0", "clean", "n"]),
    (Severity::Slight, &["slight", "light", "minor", "few", "low", "a little", "mild"]),
    (Severity::Moderate, &["moderate", "medium", "some", "fair", "seconds"]),
    (Severity::Severe, &["severe", "heavy", "bad", "high", "very bad", "unsaleable", "unsalable"]),
];

/// What a plot is there for.
pub const PLOT_ROLES: &Words<PlotRole> = &[
    (PlotRole::Candidate, &["candidate", "entry", "new", "no", "n"]),
    (PlotRole::Check, &["check", "standard", "control", "yes", "y", "x"]),
    (PlotRole::Guard, &["guard", "guards", "border", "buffer", "filler"]),
];

/// Why fruit was culled.
pub const CULL_CAUSES: &Words<CullCause> = &[
    (CullCause::Cracked, &["cracked", "cracks", "crack", "split", "splits", "splitting", "cracking"]),
    (CullCause::Catfaced, &["catfaced", "catface", "catfacing", "cat faced", "cat facing"]),
    (CullCause::BlossomEndRot, &["blossom end rot", "ber", "end rot"]),
    (CullCause::Rotten, &["rotten", "rot", "rots", "mould", "mold", "soft rot", "anthracnose"]),
    (CullCause::Sunscald, &["sunscald", "sun scald", "scald", "sunburn", "sunburned", "sunburnt"]),
    (
        CullCause::Eaten,
        &["eaten", "pests", "pest", "insects", "insect", "birds", "bird", "slugs", "slug", "chewed", "mice"],
    ),
    (CullCause::Undersized, &["undersized", "undersize", "small", "too small", "tiny"]),
    (CullCause::Other, &["other", "misc", "unknown", "misshapen"]),
];

/// Yes and no.
pub const YES_OR_NO: &Words<bool> = &[
    (true, &["yes", "y", "true", "1", "x", "✓", "✔", "seen"]),
    (false, &["no", "n", "false", "0", "not yet", "none"]),
];

/// What is seen on a walk, where a column names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StageWord {
    /// The first open flower.
    FirstFlower,
    /// The first ripe fruit.
    FirstRipe,
    /// The main stem ended in a truss.
    StemEnded,
    /// The main stem still grows.
    StemGrowing,
    /// Leaves between trusses.
    LeavesBetween,
    /// Plants standing.
    PlantCount,
    /// Plants that are not true.
    OffType,
    /// Dwarf leaves.
    DwarfLeaves,
}

/// Stages, where a column names them.
pub const STAGES: &Words<StageWord> = &[
    (StageWord::FirstFlower, &["first flower", "first flowers", "first bloom", "1st flower", "flowering"]),
    (StageWord::FirstRipe, &["first ripe", "first ripe fruit", "1st ripe", "ripe"]),
    (
        StageWord::StemEnded,
        &[
            "stem ended",
            "main stem ended",
            "terminated",
            "stem terminated",
            "ended in truss",
            "stem ended in truss",
        ],
    ),
    (StageWord::StemGrowing, &["still growing", "stem growing", "growing", "not ended", "main stem growing"]),
    (StageWord::LeavesBetween, &["leaves between trusses", "leaves between", "leaves per truss"]),
    (StageWord::PlantCount, &["plant count", "plants", "plants standing", "stand"]),
    (StageWord::OffType, &["off type", "off types", "offtype", "rogue", "rogues"]),
    (StageWord::DwarfLeaves, &["dwarf leaves", "dwarf", "crinkled leaves", "rugose leaves"]),
];

/// Marks that stand for a cell left empty.
pub const MISSING: [&str; 11] = ["-", "–", "—", ".", "?", "n/a", "na", "nd", "n.d.", "missing", "not taken"];

/// Whether a cell is empty or holds a mark that stands for nothing.
pub(crate) fn is_missing(text: &str) -> bool {
    // Asked of every cell; none of the marks begins with a figure.
    if text.as_bytes().first().is_some_and(u8::is_ascii_digit) {
        return false;
    }
    text.is_empty() || (text.len() <= 9 && MISSING.iter().any(|mark| mark.eq_ignore_ascii_case(text)))
}

/// What a word means, in any case, spelling and punctuation.
pub(crate) fn meaning<T: Copy>(words: &Words<T>, text: &str) -> Option<T> {
    let known = |wanted: &str| {
        words.iter().find(|(_, spellings)| spellings.contains(&wanted)).map(|(meaning, _)| *meaning)
    };
    known(text).or_else(|| known(&folded(text)))
}

/// Small letters, British spelling, single blanks for blanks, hyphens, slashes and the like.
fn folded(text: &str) -> String {
    let lower = text.to_lowercase().replace("color", "colour");
    let words: Vec<&str> =
        lower.split([' ', '-', '_', '/', '.', ',']).filter(|word| !word.is_empty()).collect();
    words.join(" ")
}

/// The words of a table that a refused cell may be mended to: the first of each line.
pub(crate) fn allowed<T>(words: &Words<T>) -> String {
    words.iter().filter_map(|(_, spellings)| spellings.first().copied()).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn words_are_known_in_any_dress() {
        assert_eq!(meaning(COLOURS, "Bi-Color"), Some(TradeColour::Bicolour));
        assert_eq!(meaning(COLOURS, "red/yellow"), Some(TradeColour::Bicolour));
        assert_eq!(meaning(CULL_CAUSES, "B.E.R."), None);
        assert_eq!(meaning(CULL_CAUSES, "Blossom-End Rot"), Some(CullCause::BlossomEndRot));
        assert_eq!(meaning(SEVERITIES, "2"), None);
        assert_eq!(meaning(COLOURS, "purple"), None);
    }

    #[track_caller]
    fn agrees<T>(words: &Words<T>) {
        let mut seen = HashSet::new();
        for spelling in words.iter().flat_map(|(_, spellings)| *spellings) {
            assert_eq!(folded(spelling), *spelling, "must be written folded");
            assert!(seen.insert(spelling), "{spelling} means two things");
        }
    }

    #[test]
    fn no_word_means_two_things() {
        agrees(COLOURS);
        agrees(SKINS);
        agrees(PATTERNS);
        agrees(PARTS);
        agrees(SEVERITIES);
        agrees(CULL_CAUSES);
        agrees(PLOT_ROLES);
        agrees(YES_OR_NO);
        agrees(STAGES);
    }
}
