//! Numbers as growers write them: `58`, `6,3`, `1.234,5`, `2 1/4`, `2½`.
//!
//! One sign can mean two things: `1,234` is over a thousand in one country and a little over one in
//! another. A number that can be read in only one way is; one that can be read in two is read as its
//! column is ([`DecimalMark`], decided from the other cells), and without that it is refused.
//! Start at [`number`]; [`evidence`] is what a column is decided by.

/// What parts whole from tenths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// 6.3; a comma then parts thousands.
    Point,
    /// 6,3; a point then parts thousands.
    Comma,
}

impl DecimalMark {
    /// Its name: `point` or `comma`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Point => "point",
            Self::Comma => "comma",
        }
    }

    /// The mark of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Point, Self::Comma].into_iter().find(|mark| mark.name() == name)
    }

    fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }
}

/// Why a cell is not one number.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NumberFault {
    /// No number in it.
    #[error("{0:?} is not a number")]
    NotANumber(String),
    /// A number that reads two ways.
    #[error("{0:?} could mean thousands or decimals")]
    Undecided(String),
    /// A number with tenths where only a whole one can be.
    #[error("{0:?} is not a whole number")]
    NotWhole(String),
    /// More than one number.
    #[error("{0:?} holds more than one number")]
    SeveralNumbers(String),
    /// From one number to another.
    #[error("{0:?} is a range")]
    Range(String),
    /// More or less than a number.
    #[error("{0:?} is a limit and not a figure")]
    Limit(String),
    /// Less than nothing.
    #[error("{0:?} is below zero")]
    Negative(String),
}

impl NumberFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::NotANumber(_) => "write a number in figures, or leave the cell empty",
            Self::Undecided(_) => "say whether the column uses a decimal point or a decimal comma",
            Self::NotWhole(_) => "write a whole number such as 3",
            Self::SeveralNumbers(_) => "write one number and one unit, such as 1474 g or 52 oz",
            Self::Range(_) => {
                "write one row a fruit with its own figure, or the mean with the number of fruits"
            }
            Self::Limit(_) => "write the figure itself, or leave the cell empty",
            Self::Negative(_) => "write a number of zero or more",
        }
        .to_owned()
    }
}

/// Signs that part thousands and never tenths: no-break blanks and apostrophes.
const GROUPERS: [char; 6] = ['\u{a0}', '\u{202f}', '\u{2009}', '\'', '\u{2019}', '_'];

/// What one numeral tells of its column's decimal mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evidence {
    /// No point or comma in it.
    Nothing,
    /// It can be read with this mark only.
    Only(DecimalMark),
    /// It reads both ways, such as `1,234`.
    Either,
    /// It reads neither way.
    Neither,
}

/// What a numeral (figures, points, commas) tells of its column's decimal mark.
#[must_use]
pub fn evidence(numeral: &str) -> Evidence {
    let points = numeral.bytes().filter(|byte| *byte == b'.').count();
    let commas = numeral.bytes().filter(|byte| *byte == b',').count();
    match (points, commas) {
        (0, 0) => Evidence::Nothing,
        (1, 0) => lone(numeral, DecimalMark::Point),
        (0, 1) => lone(numeral, DecimalMark::Comma),
        (_, 0) => only(grouped(numeral, '.').then_some(DecimalMark::Comma)),
        (0, _) => only(grouped(numeral, ',').then_some(DecimalMark::Point)),
        // Of two signs the last parts tenths, and the other thousands.
        _ if numeral.rfind(',') < numeral.rfind('.') => only(both(numeral, DecimalMark::Point, ',')),
        _ => only(both(numeral, DecimalMark::Comma, '.')),
    }
}

fn only(mark: Option<DecimalMark>) -> Evidence {
    mark.map_or(Evidence::Neither, Evidence::Only)
}

/// A numeral with one sign: thousands only if one to three figures stand before it, the first not 0,
/// and exactly three behind.
fn lone(numeral: &str, as_decimal: DecimalMark) -> Evidence {
    let Some((whole, rest)) = numeral.split_once(as_decimal.sign()) else { return Evidence::Nothing };
    let could_group = (1..=3).contains(&whole.len()) && !whole.starts_with('0') && rest.len() == 3;
    if could_group { Evidence::Either } else { Evidence::Only(as_decimal) }
}

fn grouped(whole: &str, sign: char) -> bool {
    let mut groups = whole.split(sign);
    let first = groups.next().unwrap_or_default();
    (1..=3).contains(&first.len()) && !first.starts_with('0') && groups.all(|group| group.len() == 3)
}

fn both(numeral: &str, mark: DecimalMark, grouper: char) -> Option<DecimalMark> {
    let (whole, tenths) = numeral.split_once(mark.sign())?;
    let fits = grouped(whole, grouper) && tenths.bytes().all(|byte| byte.is_ascii_digit());
    fits.then_some(mark)
}

/// Reads one numeral: figures with points, commas and thousands groups, no sign, unit or fraction.
///
/// # Errors
/// [`NumberFault::Undecided`] where it reads two ways and `mark` does not tell; else what is wrong.
pub fn numeral(text: &str, mark: Option<DecimalMark>) -> Result<f64, NumberFault> {
    if let Some(value) = plain(text) {
        return Ok(value);
    }
    let ungrouped = without_groupers(text).ok_or_else(|| NumberFault::NotANumber(text.to_owned()))?;
    let decided = match evidence(&ungrouped) {
        Evidence::Nothing => DecimalMark::Point,
        Evidence::Only(only) => only,
        Evidence::Either => mark.ok_or_else(|| NumberFault::Undecided(text.to_owned()))?,
        Evidence::Neither => return Err(NumberFault::NotANumber(text.to_owned())),
    };
    let standard: String = ungrouped.chars().filter_map(|sign| standard_sign(sign, decided)).collect();
    let value = standard.parse::<f64>().ok().filter(|value| value.is_finite());
    value.ok_or_else(|| NumberFault::NotANumber(text.to_owned()))
}

/// The sign as Rust writes it: the decimal mark a point, thousands marks left out.
fn standard_sign(sign: char, mark: DecimalMark) -> Option<char> {
    match sign {
        '.' | ',' => (sign == mark.sign()).then_some('.'),
        figure => Some(figure),
    }
}

/// Figures with at most one point that cannot part thousands: what nearly every cell is.
pub(crate) fn plain(text: &str) -> Option<f64> {
    /// Figures that a float holds exactly. Source: IEEE 754: 2^53 > 9 x 10^15.
    const EXACT_FIGURES: usize = 15;
    let mut value = 0_u64;
    let mut point = None;
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'0'..=b'9' => value = value * 10 + u64::from(byte - b'0'),
            b'.' if point.is_none() && 0 < at => point = Some(at),
            _ => return None,
        }
        if EXACT_FIGURES <= at {
            return None;
        }
    }
    let tenths = point.map_or(0, |at| text.len() - at - 1);
    let could_group = tenths == 3 && !text.starts_with('0') && text.len() <= 7;
    // Both are exact, so their quotient is rounded once, as it should be.
    let scale = [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8].get(tenths)?;
    (!text.is_empty() && !could_group && point != Some(text.len() - 1)).then(|| value as f64 / scale)
}

/// Takes away no-break blanks and apostrophes where they part groups of three figures.
fn without_groupers(text: &str) -> Option<String> {
    let is_numeral = text.starts_with(|sign: char| sign.is_ascii_digit() || ".,".contains(sign))
        && text.chars().all(|sign| sign.is_ascii_digit() || ".,".contains(sign) || GROUPERS.contains(&sign))
        && text.contains(|sign: char| sign.is_ascii_digit());
    if !is_numeral {
        return None;
    }
    let whole = text.split(['.', ',']).next().unwrap_or_default();
    let mut groups = whole.split(GROUPERS);
    let _ = groups.next();
    let fits = groups.all(|group| group.len() == 3) && !text.get(whole.len()..)?.contains(GROUPERS);
    fits.then(|| text.replace(GROUPERS, ""))
}

/// Reads a cell that is one number: a numeral, a fraction (`2 1/4`, `2½`), perhaps marked as rough
/// (`~58`, `ca. 58`).
///
/// # Errors
/// [`NumberFault`] where it is not one number, or reads two ways and `mark` does not tell.
pub fn number(text: &str, mark: Option<DecimalMark>) -> Result<f64, NumberFault> {
    if let Some(value) = plain(text) {
        return Ok(value);
    }
    let (value, rest) = leading(without_roughly(text), mark, text)?;
    match rest.trim() {
        "" => Ok(value),
        rest => Err(trailing_fault(rest, text)),
    }
}

/// Reads a cell that is a count: a whole number of zero or more.
///
/// # Errors
/// [`NumberFault`] where it is not, such as for `three` or `2.5`.
pub fn count(text: &str, mark: Option<DecimalMark>) -> Result<u32, NumberFault> {
    let value = number(text, mark)?;
    let whole = value.fract() == 0.0 && value <= f64::from(u32::MAX);
    if whole { Ok(value as u32) } else { Err(NumberFault::NotWhole(text.to_owned())) }
}

/// What is wrong with a number that `rest` follows.
pub(crate) fn trailing_fault(rest: &str, cell: &str) -> NumberFault {
    let cell = cell.to_owned();
    match rest.chars().next() {
        Some('-' | '–' | '—' | '…') if has_figure(rest) => NumberFault::Range(cell),
        _ if rest.starts_with("to ") || rest.starts_with("..") => NumberFault::Range(cell),
        Some('+' | '?' | '<' | '>') => NumberFault::Limit(cell),
        _ if has_figure(rest) => NumberFault::SeveralNumbers(cell),
        _ => NumberFault::NotANumber(cell),
    }
}

pub(crate) fn has_figure(text: &str) -> bool {
    text.contains(|sign: char| sign.is_ascii_digit())
}

/// Words that say a figure is rough. The figure is taken as it stands.
const ROUGHLY: [&str; 10] = ["~", "≈", "approx.", "approx", "about", "circa", "ca.", "ca", "c.", "est."];

/// The text without a word that says it is rough.
pub(crate) fn without_roughly(text: &str) -> &str {
    let text = text.trim();
    let found = ROUGHLY.iter().find_map(|word| strip_any_case(text, word));
    match found.map(str::trim_start) {
        Some(rest) if rest.starts_with(|sign: char| sign.is_ascii_digit() || ".,~".contains(sign)) => rest,
        _ => text,
    }
}

fn strip_any_case<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    let begins = text.get(..word.len())?;
    begins.eq_ignore_ascii_case(word).then(|| text.get(word.len()..)).flatten()
}

/// Reads the number at the beginning of a text and gives what follows it.
pub(crate) fn leading<'a>(
    text: &'a str,
    mark: Option<DecimalMark>,
    cell: &str,
) -> Result<(f64, &'a str), NumberFault> {
    let text = text.trim_start();
    refuse_sign(text, cell)?;
    let (figures, rest) = split_numeral(text);
    let (first, rest) = match figures {
        "" => (None, rest),
        figures => match fraction(text) {
            // A bare fraction: the figures are its upper number.
            Some((value, rest)) => return Ok((value, rest)),
            None => (Some(numeral(figures, mark).map_err(|fault| renamed(fault, cell))?), rest),
        },
    };
    let (part, rest) = added_fraction(rest, first);
    match (first, part) {
        (Some(whole), Some(part)) if whole.fract() == 0.0 => Ok((whole + part, rest)),
        (Some(_), Some(_)) => Err(NumberFault::NotANumber(cell.to_owned())),
        (Some(value), None) | (None, Some(value)) => Ok((value, rest)),
        (None, None) => Err(NumberFault::NotANumber(cell.to_owned())),
    }
}

fn refuse_sign(text: &str, cell: &str) -> Result<(), NumberFault> {
    match text.chars().next() {
        Some('-' | '−' | '–') if has_figure(text) => Err(NumberFault::Negative(cell.to_owned())),
        Some('<' | '>' | '≤' | '≥') => Err(NumberFault::Limit(cell.to_owned())),
        _ => Ok(()),
    }
}

/// A fault of part of a cell, told of the whole cell.
fn renamed(fault: NumberFault, cell: &str) -> NumberFault {
    match fault {
        NumberFault::Undecided(_) => NumberFault::Undecided(cell.to_owned()),
        _ => NumberFault::NotANumber(cell.to_owned()),
    }
}

/// Splits the figures, points, commas and thousands marks off the beginning.
fn split_numeral(text: &str) -> (&str, &str) {
    let stops = |(at, sign): (usize, char)| {
        let grouping = GROUPERS.contains(&sign) && groups_at(text, at + sign.len_utf8());
        let belongs = sign.is_ascii_digit() || (".,".contains(sign) && followed(text, at + 1)) || grouping;
        (!belongs).then_some(at)
    };
    let end = text.char_indices().find_map(stops).unwrap_or(text.len());
    text.split_at(end)
}

/// Whether a figure follows, so that a point or comma before it is part of the number.
fn followed(text: &str, at: usize) -> bool {
    text.get(at..).is_some_and(|rest| rest.starts_with(|sign: char| sign.is_ascii_digit()))
}

/// Whether exactly three figures follow, so that the sign before them parts thousands.
fn groups_at(text: &str, at: usize) -> bool {
    let figures = text.get(at..).map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count());
    figures == 3
}

/// Denominators that callipers, rulers and kitchen scales have.
const DENOMINATORS: [u32; 11] = [2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64];

/// Fractions that are one sign. Source: Unicode, Number Forms and Latin-1 Supplement.
const VULGAR: [(char, f64); 15] = [
    ('½', 1.0 / 2.0),
    ('¼', 1.0 / 4.0),
    ('¾', 3.0 / 4.0),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅕', 1.0 / 5.0),
    ('⅖', 2.0 / 5.0),
    ('⅗', 3.0 / 5.0),
    ('⅘', 4.0 / 5.0),
    ('⅙', 1.0 / 6.0),
    ('⅚', 5.0 / 6.0),
    ('⅛', 1.0 / 8.0),
    ('⅜', 3.0 / 8.0),
    ('⅝', 5.0 / 8.0),
    ('⅞', 7.0 / 8.0),
];

/// A fraction behind a whole number, parted from it by a blank or a hyphen or nothing.
fn added_fraction(rest: &str, whole: Option<f64>) -> (Option<f64>, &str) {
    let joined = rest.trim_start_matches([' ', '\u{a0}']);
    let joined = if whole.is_some() { joined.strip_prefix('-').unwrap_or(joined) } else { joined };
    let sign = joined.chars().next();
    if let Some((sign, value)) = VULGAR.iter().find(|(vulgar, _)| Some(*vulgar) == sign) {
        return (Some(*value), joined.get(sign.len_utf8()..).unwrap_or_default());
    }
    match fraction(joined) {
        Some((value, after)) if value < 1.0 && joined.len() < rest.len() => (Some(value), after),
        _ => (None, rest),
    }
}

/// `3/8` at the beginning of a text.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let (upper, rest) = whole_figures(text)?;
    let rest = rest.strip_prefix(['/', '⁄'])?;
    let (lower, rest) = whole_figures(rest)?;
    let stands_alone = !rest.starts_with(['/', '.', ',']);
    let known = DENOMINATORS.contains(&lower) && upper < lower && 0 < upper;
    (known && stands_alone).then(|| (f64::from(upper) / f64::from(lower), rest))
}

fn whole_figures(text: &str) -> Option<(u32, &str)> {
    let end = text.bytes().take_while(u8::is_ascii_digit).count();
    let (figures, rest) = text.split_at(end);
    (figures.len() <= 2).then(|| figures.parse().ok()).flatten().map(|value| (value, rest))
}

/// The first numeral in a cell, for the survey of its column.
pub(crate) fn first_numeral(cell: &str) -> &str {
    let begin = cell.find(|sign: char| sign.is_ascii_digit() || ".,".contains(sign)).unwrap_or(cell.len());
    split_numeral(cell.get(begin..).unwrap_or_default()).0
}
