//! Units as growers write them, and measures with their units: `58g`, `2.1 oz`, `1 lb 3 oz`, `6,3 cm`,
//! `2 1/4 in`, `4' 6"`.
//!
//! The unit in the cell goes before the column's; a cell with neither is refused, because 3.5 may be
//! inches or centimetres. Start at [`mass`] and [`length`].

use crate::number::{self, DecimalMark, NumberFault};
use record::length::{INCHES_PER_FOOT, Inches, Millimetres};
use record::mass::{Grams, OUNCES_PER_POUND, Ounces};
use record::share::Percent;

/// A unit of mass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MassUnit {
    /// Milligrams.
    Milligram,
    /// Grams.
    Gram,
    /// Kilograms.
    Kilogram,
    /// Avoirdupois ounces.
    Ounce,
    /// Avoirdupois pounds.
    Pound,
}

/// A unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Feet.
    Foot,
}

/// A unit that a column or a cell names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Of mass.
    Mass(MassUnit),
    /// Of length.
    Length(LengthUnit),
}

impl Unit {
    /// Every unit that is understood.
    pub const ALL: [Self; 10] = [
        Self::Mass(MassUnit::Milligram),
        Self::Mass(MassUnit::Gram),
        Self::Mass(MassUnit::Kilogram),
        Self::Mass(MassUnit::Ounce),
        Self::Mass(MassUnit::Pound),
        Self::Length(LengthUnit::Millimetre),
        Self::Length(LengthUnit::Centimetre),
        Self::Length(LengthUnit::Metre),
        Self::Length(LengthUnit::Inch),
        Self::Length(LengthUnit::Foot),
    ];

    /// Its symbol: `mg`, `g`, `kg`, `oz`, `lb`, `mm`, `cm`, `m`, `in`, `ft`.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Mass(MassUnit::Milligram) => "mg",
            Self::Mass(MassUnit::Gram) => "g",
            Self::Mass(MassUnit::Kilogram) => "kg",
            Self::Mass(MassUnit::Ounce) => "oz",
            Self::Mass(MassUnit::Pound) => "lb",
            Self::Length(LengthUnit::Millimetre) => "mm",
            Self::Length(LengthUnit::Centimetre) => "cm",
            Self::Length(LengthUnit::Metre) => "m",
            Self::Length(LengthUnit::Inch) => "in",
            Self::Length(LengthUnit::Foot) => "ft",
        }
    }

    /// The unit of this symbol.
    #[must_use]
    pub fn of_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }
}

/// Spellings of units, in small letters and without a closing full stop. `gr` is left out: it is the
/// sign of the grain, which some write for the gram.
pub const SPELLINGS: [(Unit, &[&str]); 10] = [
    (
        Unit::Mass(MassUnit::Milligram),
        &["mg", "mgs", "milligram", "milligrams", "milligramme", "milligrammes"],
    ),
    (Unit::Mass(MassUnit::Gram), &["g", "gm", "gms", "gram", "grams", "gramme", "grammes"]),
    (Unit::Mass(MassUnit::Kilogram), &["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme"]),
    (Unit::Mass(MassUnit::Ounce), &["oz", "ozs", "ounce", "ounces"]),
    (Unit::Mass(MassUnit::Pound), &["lb", "lbs", "pound", "pounds"]),
    (Unit::Length(LengthUnit::Millimetre), &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    (
        Unit::Length(LengthUnit::Centimetre),
        &["cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"],
    ),
    (Unit::Length(LengthUnit::Metre), &["m", "metre", "metres", "meter", "meters"]),
    (Unit::Length(LengthUnit::Inch), &["in", "ins", "inch", "inches", "\"", "″", "”", "''", "′′"]),
    (Unit::Length(LengthUnit::Foot), &["ft", "foot", "feet", "'", "′", "’"]),
];

/// Why a cell is not one measure.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeasureFault {
    /// The number is at fault.
    #[error(transparent)]
    Number(#[from] NumberFault),
    /// Neither cell nor column names a unit.
    #[error("{0:?} has no unit")]
    NoUnit(String),
    /// A unit that is not known.
    #[error("{cell:?} is in {unit:?}, which is no unit that is known here")]
    UnknownUnit {
        /// The cell.
        cell: String,
        /// What stands where the unit should.
        unit: String,
    },
    /// A length where a mass should be, or the other way about.
    #[error("{0:?} measures something else")]
    OtherMeasure(String),
}

impl MeasureFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Number(fault) => fault.remedy(),
            Self::NoUnit(_) => "write the unit in the cell or the heading, such as weight (g)".to_owned(),
            Self::UnknownUnit { .. } => {
                "use mg, g, kg, oz or lb for weights and mm, cm, m, in or ft for lengths".to_owned()
            }
            Self::OtherMeasure(_) => "check that the figure stands in the right column".to_owned(),
        }
    }
}

/// The unit that a word names, in any case, with or without a full stop.
#[must_use]
pub fn unit_named(word: &str) -> Option<Unit> {
    let word = word.strip_suffix('.').unwrap_or(word);
    let names = |spelling: &str| spelling.eq_ignore_ascii_case(word);
    SPELLINGS
        .iter()
        .find(|(_, spellings)| spellings.iter().any(|spelling| names(spelling)))
        .map(|(unit, _)| *unit)
}

/// Reads a mass; `unit` is the column's and `mark` its decimal mark.
///
/// # Errors
/// [`MeasureFault`] where the cell is not one mass.
pub fn mass(text: &str, unit: Option<MassUnit>, mark: Option<DecimalMark>) -> Result<Grams, MeasureFault> {
    let parts = parts(text, unit.map(Unit::Mass), mark)?;
    let grams = total(&parts, text, |unit, amount| match unit {
        Unit::Mass(unit) => grams_of(unit, amount),
        Unit::Length(_) => None,
    })?;
    Grams::new(grams).ok_or_else(|| NumberFault::NotANumber(text.to_owned()).into())
}

/// Reads a length; `unit` is the column's and `mark` its decimal mark.
///
/// # Errors
/// [`MeasureFault`] where the cell is not one length.
pub fn length(
    text: &str,
    unit: Option<LengthUnit>,
    mark: Option<DecimalMark>,
) -> Result<Millimetres, MeasureFault> {
    let parts = parts(text, unit.map(Unit::Length), mark)?;
    let millimetres = total(&parts, text, |unit, amount| match unit {
        Unit::Length(unit) => millimetres_of(unit, amount),
        Unit::Mass(_) => None,
    })?;
    Millimetres::new(millimetres).ok_or_else(|| NumberFault::NotANumber(text.to_owned()).into())
}

/// Signs and words that may follow a percentage or a refractometer reading.
const PERCENT_SIGNS: [&str; 8] = ["%", "°bx", "°brix", "° brix", "brix", "bx", "°", "percent"];

/// Reads a percentage or degrees Brix, with or without its sign.
///
/// # Errors
/// [`NumberFault`] where the cell is not one number from 0 to 100.
pub fn percent(text: &str, mark: Option<DecimalMark>) -> Result<Percent, NumberFault> {
    if let Some(percent) = number::plain(text).and_then(Percent::new) {
        return Ok(percent);
    }
    let lower = text.trim().to_lowercase();
    let bare = PERCENT_SIGNS.iter().find_map(|sign| lower.strip_suffix(sign)).unwrap_or(&lower).trim_end();
    let value = number::number(bare, mark)?;
    Percent::new(value).ok_or_else(|| NumberFault::NotANumber(text.to_owned()))
}

fn grams_of(unit: MassUnit, amount: f64) -> Option<f64> {
    match unit {
        MassUnit::Milligram => Some(amount / 1000.0),
        MassUnit::Gram => Some(amount),
        MassUnit::Kilogram => Some(amount * 1000.0),
        MassUnit::Ounce => Ounces::new(amount)?.to_grams().map(Grams::get),
        MassUnit::Pound => Ounces::new(amount * OUNCES_PER_POUND)?.to_grams().map(Grams::get),
    }
}

fn millimetres_of(unit: LengthUnit, amount: f64) -> Option<f64> {
    match unit {
        LengthUnit::Millimetre => Some(amount),
        LengthUnit::Centimetre => Some(amount * 10.0),
        LengthUnit::Metre => Some(amount * 1000.0),
        LengthUnit::Inch => Inches::new(amount)?.to_millimetres().map(Millimetres::get),
        LengthUnit::Foot => Inches::new(amount * INCHES_PER_FOOT)?.to_millimetres().map(Millimetres::get),
    }
}

/// One number with its unit: the whole of most cells, or half of `1 lb 3 oz`.
type Part = (f64, Unit);

/// The one or two parts of a measure.
fn parts(
    text: &str,
    column: Option<Unit>,
    mark: Option<DecimalMark>,
) -> Result<(Part, Option<Part>), MeasureFault> {
    if let Some((amount, unit)) = number::plain(text).zip(column) {
        return Ok(((amount, unit), None));
    }
    let (amount, rest) = number::leading(number::without_roughly(text), mark, text)?;
    let (word, rest) = unit_word(rest);
    let unit = match word {
        "" if rest.is_empty() => column.ok_or_else(|| MeasureFault::NoUnit(text.to_owned()))?,
        "" => return Err(number::trailing_fault(rest, text).into()),
        word => unit_named(word).ok_or_else(|| unknown(word, rest, text))?,
    };
    let second = second_part(rest, unit, mark, text)?;
    let whole = amount.fract() == 0.0;
    match second {
        Some(_) if !whole => Err(NumberFault::SeveralNumbers(text.to_owned()).into()),
        second => Ok(((amount, unit), second)),
    }
}

/// What is wrong with a word that names no unit. `50 to 60 g` and `58 or 60 g` hold words too.
fn unknown(word: &str, rest: &str, text: &str) -> MeasureFault {
    match word {
        "to" if number::has_figure(rest) => NumberFault::Range(text.to_owned()).into(),
        _ if number::has_figure(rest) => NumberFault::SeveralNumbers(text.to_owned()).into(),
        _ => MeasureFault::UnknownUnit { cell: text.to_owned(), unit: word.to_owned() },
    }
}

/// Splits the word or sign of a unit off the beginning.
fn unit_word(text: &str) -> (&str, &str) {
    let text = text.trim_start();
    if let Some(sign) = SIGNS.iter().find(|sign| text.starts_with(**sign)) {
        let (word, rest) = text.split_at(sign.len());
        return (word, rest.trim_start());
    }
    let letters = text.find(|sign: char| !sign.is_alphabetic()).unwrap_or(text.len());
    let (word, rest) = text.split_at(letters);
    let rest = if word.is_empty() { rest } else { rest.strip_prefix('.').unwrap_or(rest) };
    (word, rest.trim_start())
}

/// Signs of inches and feet; two of one kind go before one.
const SIGNS: [&str; 8] = ["''", "′′", "\"", "″", "”", "'", "′", "’"];

/// The second part of a measure in two units, each smaller than one of the first: `1 lb 3 oz`, `4' 6"`.
fn second_part(
    rest: &str,
    first: Unit,
    mark: Option<DecimalMark>,
    text: &str,
) -> Result<Option<Part>, MeasureFault> {
    let rest = rest.strip_prefix(',').unwrap_or(rest).trim_start();
    let several = || MeasureFault::from(NumberFault::SeveralNumbers(text.to_owned()));
    if rest.is_empty() {
        return Ok(None);
    }
    if !rest.starts_with(|sign: char| sign.is_ascii_digit() || VULGAR_BEGIN.contains(&sign)) {
        return Err(number::trailing_fault(rest, text).into());
    }
    let (amount, after) = number::leading(rest, mark, text)?;
    let (word, left) = unit_word(after);
    let feet_by_sign = word.is_empty() && text.contains(['\'', '′', '’']);
    let (smaller, most) = below(first).ok_or_else(several)?;
    let fits = (unit_named(word) == Some(smaller) || feet_by_sign) && left.is_empty() && amount < most;
    if fits { Ok(Some((amount, smaller))) } else { Err(several()) }
}

/// Fractions of one sign with which a second part may begin, as in `4' ½"`.
const VULGAR_BEGIN: [char; 7] = ['½', '¼', '¾', '⅛', '⅜', '⅝', '⅞'];

/// The unit below one, in which its remainder is written, and how many of it make one.
fn below(unit: Unit) -> Option<(Unit, f64)> {
    match unit {
        Unit::Mass(MassUnit::Pound) => Some((Unit::Mass(MassUnit::Ounce), OUNCES_PER_POUND)),
        Unit::Mass(MassUnit::Kilogram) => Some((Unit::Mass(MassUnit::Gram), 1000.0)),
        Unit::Length(LengthUnit::Foot) => Some((Unit::Length(LengthUnit::Inch), INCHES_PER_FOOT)),
        Unit::Length(LengthUnit::Metre) => Some((Unit::Length(LengthUnit::Centimetre), 100.0)),
        Unit::Length(LengthUnit::Centimetre) => Some((Unit::Length(LengthUnit::Millimetre), 10.0)),
        _ => None,
    }
}

fn total(
    (first, second): &(Part, Option<Part>),
    text: &str,
    amount_of: impl Fn(Unit, f64) -> Option<f64>,
) -> Result<f64, MeasureFault> {
    let other = || MeasureFault::OtherMeasure(text.to_owned());
    let first = amount_of(first.1, first.0).ok_or_else(other)?;
    match second {
        Some((amount, unit)) => Ok(first + amount_of(*unit, *amount).ok_or_else(other)?),
        None => Ok(first),
    }
}
