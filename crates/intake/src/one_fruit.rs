//! One fruit, or one plant, as somebody types it in a line or in single fields: `58 g, 61 x 38 mm, 2 locules, red`.
//!
//! For an unknown tomato, which stands in no table. Units, figures and words are read as in a table's cells.
//! Start at [`fruit`] for a line, [`set_fruit`] and [`set_plant`] for single fields.

use crate::number::{self, NumberFault};
use crate::plausible;
use crate::unit::{self, MeasureFault};
use crate::words::{self, Words, allowed, meaning};
use record::colour::{ColourSeen, Lab};
use record::doubt::Doubt;
use record::fruit::FruitSample;
use record::growout::PlantNumber;
use record::stage::LeafCount;
use record::unknown::{FruitSeen, GrowthSeen, LeavesSeen, PlantSeen, RipeningSeen, StemSeen};

/// What is told of a fruit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FruitField {
    /// Weight, with its unit.
    Weight,
    /// Stem end to blossom end, with its unit.
    Length,
    /// Greatest width, with its unit.
    Width,
    /// Width a quarter down from the stem, with its unit.
    Neck,
    /// Seed chambers.
    Locules,
    /// Lobes.
    Lobes,
    /// Degrees Brix.
    SolubleSolids,
    /// Dry matter in per cent.
    DryMatter,
    /// Colour outside: a word, or L*, a* and b*.
    Colour,
    /// Colour of the flesh.
    Flesh,
    /// The peeled skin.
    Skin,
    /// How the colour is laid out.
    Pattern,
    /// Number of the plant that bore it.
    Plant,
}

/// What is told of a plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlantField {
    /// The main stem has ended in a truss, after so many; `yes` where nobody counted.
    StemEnded,
    /// The main stem still grows, after so many trusses.
    StemGrowing,
    /// Leaves between trusses.
    LeavesBetween,
    /// Height, with its unit.
    Height,
    /// Whether the height has levelled off: yes or no.
    LevelsOff,
    /// All fruit ripened within so many days.
    RipeWithin,
    /// Still bearing after so many days.
    BearsFor,
    /// Whether the leaves are a dwarf's: yes or no.
    DwarfLeaves,
}

/// Why a word or figure cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FieldFault {
    /// Not one measure.
    #[error("{what}: {fault}")]
    Measure {
        /// Of what.
        what: &'static str,
        /// What is wrong.
        fault: MeasureFault,
    },
    /// Not one number.
    #[error("{what}: {fault}")]
    Number {
        /// Of what.
        what: &'static str,
        /// What is wrong.
        fault: NumberFault,
    },
    /// A word that is not known.
    #[error("{what}: {word:?} is not known")]
    Word {
        /// Of what.
        what: &'static str,
        /// The word.
        word: String,
        /// Words that would do.
        allowed: String,
    },
    /// A number that cannot be.
    #[error("{what}: {word:?} is not within {limits}")]
    Outside {
        /// Of what.
        what: &'static str,
        /// The number.
        word: String,
        /// What it must be within.
        limits: &'static str,
    },
    /// A piece of a line that tells nothing known.
    #[error("{0:?} tells nothing that is known of a fruit")]
    Piece(String),
    /// The same thing told twice.
    #[error("the {what} is told twice, the second time as {word:?}")]
    Twice {
        /// What.
        what: &'static str,
        /// The second telling.
        word: String,
    },
    /// A stem that is said to have ended and to grow still.
    #[error("the main stem is said to have ended and to grow still")]
    EndedAndGrowing,
}

impl FieldFault {
    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Measure { fault: MeasureFault::NoUnit(_), .. } => {
                "write the unit too, such as 58 g, 2 oz, 61 mm or 2.4 in".to_owned()
            }
            Self::Measure { fault, .. } => fault.remedy(),
            Self::Number { fault, .. } => fault.remedy(),
            Self::Word { allowed, .. } => format!("write one of: {allowed}"),
            Self::Outside { limits, .. } => format!("write a number within {limits}"),
            Self::Piece(_) => {
                "write measures with their units and what they are, such as \"58 g, 61 x 38 mm, 2 locules, red\""
                    .to_owned()
            }
            Self::Twice { .. } => "tell each thing of a fruit once; write several fruits apart".to_owned(),
            Self::EndedAndGrowing => "say which of the two it does".to_owned(),
        }
    }
}

impl FruitField {
    /// What it is, in a sentence.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Weight => "weight",
            Self::Length => "length",
            Self::Width => "width",
            Self::Neck => "neck width",
            Self::Locules => "number of locules",
            Self::Lobes => "number of lobes",
            Self::SolubleSolids => "soluble solids",
            Self::DryMatter => "dry matter",
            Self::Colour => "colour",
            Self::Flesh => "flesh colour",
            Self::Skin => "skin",
            Self::Pattern => "pattern",
            Self::Plant => "plant number",
        }
    }
}

impl PlantField {
    fn name(self) -> &'static str {
        match self {
            Self::StemEnded => "trusses at which the stem ended",
            Self::StemGrowing => "trusses on the growing stem",
            Self::LeavesBetween => "leaves between trusses",
            Self::Height => "height",
            Self::LevelsOff => "height levelling off",
            Self::RipeWithin => "days to ripen",
            Self::BearsFor => "days of bearing",
            Self::DwarfLeaves => "dwarf leaves",
        }
    }
}

/// Reads a line of pieces between commas or semicolons, each of which says by its unit or word what it tells.
///
/// A comma between figures (`58,5 g`) is no end of a piece. Two lengths with an `x` between them are length and
/// width.
///
/// # Errors
/// [`FieldFault`] for the first piece that cannot be read, or that tells a thing again.
pub fn fruit(line: &str) -> Result<FruitSeen, FieldFault> {
    let mut seen = FruitSeen::default();
    let mut told: Vec<FruitField> = Vec::new();
    for piece in pieces(line) {
        for (field, text) in fields(piece)? {
            if told.contains(&field) {
                return Err(FieldFault::Twice { what: field.name(), word: text });
            }
            set_fruit(&mut seen, field, &text)?;
            told.push(field);
        }
    }
    Ok(seen)
}

/// Parts a line at semicolons, and at commas that no figure follows at once.
fn pieces(line: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(line);
    let split = move || {
        let text = rest?;
        let ends = |(at, sign): (usize, char)| {
            let next = text.get(at + sign.len_utf8()..).and_then(|after| after.chars().next());
            let ends = sign == ';' || (sign == ',' && !next.is_some_and(|next| next.is_ascii_digit()));
            ends.then_some((at, at + sign.len_utf8()))
        };
        match text.char_indices().find_map(ends) {
            Some((end, next)) => {
                rest = text.get(next..);
                text.get(..end)
            }
            None => {
                rest = None;
                Some(text)
            }
        }
    };
    std::iter::from_fn(split).map(str::trim).filter(|piece| !piece.is_empty())
}

/// Words at either end of a piece that say what it tells, the longest first.
const LABELS: [(&str, FruitField); 21] = [
    ("soluble solids", FruitField::SolubleSolids),
    ("dry matter", FruitField::DryMatter),
    ("neck width", FruitField::Neck),
    ("chambers", FruitField::Locules),
    ("chamber", FruitField::Locules),
    ("locules", FruitField::Locules),
    ("locule", FruitField::Locules),
    ("pattern", FruitField::Pattern),
    ("colour", FruitField::Colour),
    ("color", FruitField::Colour),
    ("weight", FruitField::Weight),
    ("length", FruitField::Length),
    ("lobes", FruitField::Lobes),
    ("flesh", FruitField::Flesh),
    ("plant", FruitField::Plant),
    ("width", FruitField::Width),
    ("skin", FruitField::Skin),
    ("brix", FruitField::SolubleSolids),
    ("neck", FruitField::Neck),
    ("long", FruitField::Length),
    ("wide", FruitField::Width),
];

fn fields(piece: &str) -> Result<Vec<(FruitField, String)>, FieldFault> {
    let small = piece.to_lowercase();
    let by = |(before, after): &(&str, &str)| is_figure(before) && is_figure(after);
    if let Some((length, width)) = small.split_once(['x', '×']).filter(by) {
        return Ok(both_sizes(length, width));
    }
    for (label, field) in LABELS {
        let bare = small.strip_suffix(label).or_else(|| small.strip_prefix(label));
        // A degree sign goes with Brix; a colon or equals sign may stand between.
        let bare = bare.map(|bare| bare.trim().trim_matches([':', '=', '°']).trim());
        if let Some(bare) = bare.filter(|bare| !bare.is_empty()) {
            return Ok(vec![(field, bare.to_owned())]);
        }
    }
    unlabelled(piece, &small).map(|field| vec![(field, small)])
}

fn is_figure(text: &str) -> bool {
    text.trim_start().starts_with(|sign: char| sign.is_ascii_digit())
}

/// The unit behind the second goes for the first where that has none.
fn both_sizes(length: &str, width: &str) -> Vec<(FruitField, String)> {
    let unit: String = width.chars().skip_while(|sign| !sign.is_alphabetic() && *sign != '"').collect();
    let has_unit = length.chars().any(|sign| sign.is_alphabetic() || sign == '"');
    let length = if has_unit { length.to_owned() } else { format!("{} {unit}", length.trim()) };
    vec![(FruitField::Length, length.trim().to_owned()), (FruitField::Width, width.trim().to_owned())]
}

fn unlabelled(piece: &str, small: &str) -> Result<FruitField, FieldFault> {
    match () {
        () if meaning(words::COLOURS, small).is_some() || measured(small).is_some() => Ok(FruitField::Colour),
        () if meaning(words::PATTERNS, small).is_some() => Ok(FruitField::Pattern),
        () if is_figure(small) && unit::mass(small, None, None).is_ok() => Ok(FruitField::Weight),
        () if is_figure(small) && unit::length(small, None, None).is_ok() => {
            Err(FieldFault::Word { what: "size", word: piece.to_owned(), allowed: SIZES.to_owned() })
        }
        // A figure without a unit is told as one.
        () if is_figure(small) => {
            unit::mass(small, None, None).map_err(|fault| FieldFault::Measure { what: "measure", fault })?;
            Ok(FruitField::Weight)
        }
        () => Err(FieldFault::Piece(piece.to_owned())),
    }
}

/// How a length by itself may be written.
const SIZES: &str = "61 mm long, 38 mm wide, 61 x 38 mm, 30 mm neck";

/// Puts one thing that is told of a fruit in its place; an empty text tells nothing.
///
/// # Errors
/// [`FieldFault`] where it cannot be read.
pub fn set_fruit(fruit: &mut FruitSeen, field: FruitField, text: &str) -> Result<(), FieldFault> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(());
    }
    let what = field.name();
    let measure = |fault| FieldFault::Measure { what, fault };
    let number = |fault| FieldFault::Number { what, fault };
    match field {
        FruitField::Weight => fruit.weight = Some(unit::mass(text, None, None).map_err(measure)?),
        FruitField::Length => fruit.length = Some(unit::length(text, None, None).map_err(measure)?),
        FruitField::Width => fruit.width = Some(unit::length(text, None, None).map_err(measure)?),
        FruitField::Neck => fruit.neck_width = Some(unit::length(text, None, None).map_err(measure)?),
        FruitField::Locules => fruit.locules = Some(number::count(text, None).map_err(number)?),
        FruitField::Lobes => fruit.lobes = Some(number::count(text, None).map_err(number)?),
        FruitField::SolubleSolids => {
            fruit.soluble_solids = Some(unit::percent(text, None).map_err(number)?);
        }
        FruitField::DryMatter => fruit.dry_matter = Some(unit::percent(text, None).map_err(number)?),
        FruitField::Colour => fruit.exterior = Some(colour(text)?),
        FruitField::Flesh => fruit.flesh = Some(word(what, words::COLOURS, text)?),
        FruitField::Skin => fruit.skin = Some(word(what, words::SKINS, text)?),
        FruitField::Pattern => fruit.pattern = Some(word(what, words::PATTERNS, text)?),
        FruitField::Plant => fruit.plant = Some(PlantNumber(number::count(text, None).map_err(number)?)),
    }
    Ok(())
}

fn word<T: Copy>(what: &'static str, words: &Words<T>, text: &str) -> Result<T, FieldFault> {
    let unknown = || FieldFault::Word { what, word: text.to_owned(), allowed: allowed(words) };
    meaning(words, text).ok_or_else(unknown)
}

fn colour(text: &str) -> Result<ColourSeen, FieldFault> {
    match measured(text) {
        Some(lab) => Ok(ColourSeen::Measured(lab)),
        None => word(FruitField::Colour.name(), words::COLOURS, text).map(ColourSeen::Word),
    }
}

/// `lab 42 33 25`, `L* 42 a* 33 b* 25`: three numbers in this order.
fn measured(text: &str) -> Option<Lab> {
    let small = text.to_lowercase();
    let rest = small.strip_prefix("lab").or_else(|| small.strip_prefix('l'))?;
    let figures = |sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | '-'));
    let mut numbers = rest.split(figures).filter(|part| !part.is_empty()).map(str::parse::<f64>);
    let (lightness, a, b) = (numbers.next()?.ok()?, numbers.next()?.ok()?, numbers.next()?.ok()?);
    numbers.next().is_none().then(|| Lab::new(lightness, a, b)).flatten()
}

/// Longest run of days that fruit of one plant may take to ripen. Common practice, no source.
const MOST_DAYS: u32 = 400;

/// Puts one thing that is told of a plant in its place; an empty text tells nothing.
///
/// # Errors
/// [`FieldFault`] where it cannot be read, or a stem is told to have ended and to grow still.
pub fn set_plant(plant: &mut PlantSeen, field: PlantField, text: &str) -> Result<(), FieldFault> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(());
    }
    let what = field.name();
    let count = || number::count(text, None).map_err(|fault| FieldFault::Number { what, fault });
    match field {
        PlantField::StemEnded | PlantField::StemGrowing if plant.stem.is_some() => {
            return Err(FieldFault::EndedAndGrowing);
        }
        PlantField::StemEnded => plant.stem = stem_ended(what, text)?,
        PlantField::StemGrowing => plant.stem = Some(StemSeen::Growing(count()?)),
        PlantField::LeavesBetween => plant.leaves_between = Some(leaves(what, text)?),
        PlantField::Height => {
            let fault = |fault| FieldFault::Measure { what, fault };
            plant.height = Some(unit::length(text, None, None).map_err(fault)?);
        }
        PlantField::LevelsOff => {
            let levels_off = word(what, words::YES_OR_NO, text)?;
            plant.growth = Some(if levels_off { GrowthSeen::LevelsOff } else { GrowthSeen::KeepsGrowing });
        }
        PlantField::RipeWithin => plant.ripening = Some(RipeningSeen::Within(days(what, text)?)),
        PlantField::BearsFor => plant.ripening = Some(RipeningSeen::LongerThan(days(what, text)?)),
        PlantField::DwarfLeaves => {
            let dwarf = word(what, words::YES_OR_NO, text)?;
            plant.leaves = Some(if dwarf { LeavesSeen::Dwarf } else { LeavesSeen::Ordinary });
        }
    }
    Ok(())
}

/// `yes` is ended and not counted, `no` is nothing told; else the number of trusses.
fn stem_ended(what: &'static str, text: &str) -> Result<Option<StemSeen>, FieldFault> {
    if !text.starts_with(|sign: char| sign.is_ascii_digit()) {
        return Ok(word(what, words::YES_OR_NO, text)?.then_some(StemSeen::Ended(None)));
    }
    let count = number::count(text, None).map_err(|fault| FieldFault::Number { what, fault })?;
    Ok(Some(StemSeen::Ended(Some(count))))
}

fn leaves(what: &'static str, text: &str) -> Result<LeafCount, FieldFault> {
    let count = number::number(text, None).map_err(|fault| FieldFault::Number { what, fault })?;
    let outside = || FieldFault::Outside { what, word: text.to_owned(), limits: "0 to 20" };
    LeafCount::new(count).ok_or_else(outside)
}

fn days(what: &'static str, text: &str) -> Result<u16, FieldFault> {
    let bare = text.to_lowercase();
    let bare = bare.trim_end_matches("days").trim_end_matches("day").trim();
    let count = number::count(bare, None).map_err(|fault| FieldFault::Number { what, fault })?;
    let outside = || FieldFault::Outside { what, word: text.to_owned(), limits: "1 to 400 days" };
    let within = (1..=MOST_DAYS).contains(&count);
    u16::try_from(count).ok().filter(|_| within).ok_or_else(outside)
}

/// What is odd about a fruit by itself: beyond what a tomato can be, measures that look changed over, a
/// weight that its size does not bear out.
#[must_use]
pub fn doubts(fruit: &FruitSample) -> Vec<Doubt> {
    plausible::by_itself(fruit)
}
