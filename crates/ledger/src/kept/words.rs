//! The words by which enums are stored: readable in any tool, and listed in the schema's checks.

use crate::batch::BatchKind;
use crate::calls::CallSubject;
use crate::fault::LedgerFault;
use crate::lots::Turn;
use crate::records::Noun;
use crate::weather::{Normals, ScaleTaken, ScaleToldBy};
use record::colour::{FruitPart, Pattern, Skin, TradeColour};
use record::doubt::DoubtKind;
use record::fruit::Severity;
use record::germination::Made;
use record::growout::PlotRole;
use record::lot::Packing;
use record::pick::CullCause;
use record::variety::ClaimSubject;

/// Something that is stored as a word.
pub(crate) trait Word: Sized {
    /// Its word.
    fn word(self) -> &'static str;
    /// What the word means.
    fn of(word: &str) -> Option<Self>;
    /// What the stored word means.
    fn read(word: &str) -> Result<Self, LedgerFault> {
        Self::of(word).ok_or_else(|| LedgerFault::Damaged(format!("{word:?} is no word of the ledger")))
    }
}

/// Writes both ways from one list. A macro, because only a `match` lets the compiler see that no
/// variant was left out.
macro_rules! words {
    ($($noun:ident { $($variant:ident = $word:literal),+ $(,)? })+) => {$(
        impl Word for $noun {
            fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
            fn of(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    )+};
}

words! {
    Normals {
        Freezes = "freezes",
        Months = "months",
        Days = "days",
    }
    Noun {
        FruitSample = "fruit sample",
        Pick = "pick",
        HeightReading = "height reading",
        StageNote = "stage note",
        ColourReading = "colour reading",
    }
    BatchKind {
        Varieties = "varieties",
        GrowOut = "grow-out",
        FruitSamples = "fruit samples",
        Picks = "picks",
        Heights = "heights",
        Stages = "stages",
        Colours = "colours",
        Lots = "lots",
        SeedWeighings = "seed weighings",
        GerminationTests = "germination tests",
        ByHand = "by hand",
    }
    ScaleTaken { Celsius = "celsius", Fahrenheit = "fahrenheit", Tenths = "tenths" }
    ScaleToldBy { Bringer = "bringer", Headings = "headings", Summers = "summers" }
    Turn { Withdrawn = "withdrawn", Restored = "restored" }
    Packing { Open = "open", Hermetic = "hermetic" }
    Made { InHouse = "in-house", Laboratory = "laboratory" }
    PlotRole { Candidate = "candidate", Check = "check", Guard = "guard" }
    CallSubject { Habit = "habit", FruitClass = "fruit class", Colour = "colour" }
    ClaimSubject {
        Habit = "habit",
        FruitClass = "fruit class",
        Colour = "colour",
        FruitWeight = "fruit weight",
        DaysToMaturity = "days to maturity",
        Purpose = "purpose",
        Other = "other",
    }
    Severity { Absent = "absent", Slight = "slight", Moderate = "moderate", Severe = "severe" }
    TradeColour {
        Red = "red",
        Pink = "pink",
        Orange = "orange",
        Yellow = "yellow",
        White = "white",
        Green = "green",
        Brown = "brown",
        Black = "black",
        Bicolour = "bicolour",
    }
    Skin { Clear = "clear", Yellow = "yellow" }
    Pattern { Plain = "plain", Striped = "striped", Marbled = "marbled", DarkShouldered = "dark-shouldered" }
    FruitPart { Exterior = "exterior", Flesh = "flesh", Gel = "gel" }
    CullCause {
        Cracked = "cracked",
        Catfaced = "catfaced",
        BlossomEndRot = "blossom-end rot",
        Rotten = "rotten",
        Sunscald = "sunscald",
        Eaten = "eaten",
        Undersized = "undersized",
        Other = "other",
    }
    DoubtKind {
        BeyondLimit = "beyond limit",
        WeightAgainstSize = "weight against size",
        SwappedColumns = "swapped columns",
        BeforeTransplanting = "before transplanting",
        UnlikeItsVariety = "unlike its variety",
        InTheFuture = "in the future",
    }
}
