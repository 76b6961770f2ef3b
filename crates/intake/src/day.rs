//! Dates as growers write them: `2031-07-14`, `14/7/31`, `Jul 14`, `14-Jul`, `Mon 14 July 2031`.
//!
//! A date of three numbers says its order only when one of them is above 12; the order of the others is
//! decided over their whole column ([`DateOrder`]) and without that refused. A date without a year
//! takes it from the season. Start at [`day`]; [`evidence`] is what a column is decided by.

use jiff::civil::Date;
use record::season::Season;

/// Which of day and month comes first in a date of three numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// 14/7/2031.
    DayFirst,
    /// 7/14/2031.
    MonthFirst,
}

impl DateOrder {
    /// Its name: `day first` or `month first`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::DayFirst => "day first",
            Self::MonthFirst => "month first",
        }
    }

    /// The order of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::DayFirst, Self::MonthFirst].into_iter().find(|order| order.name() == name)
    }
}

/// When the seasons of a house begin; each is named by the year in which it ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeasonCalendar {
    first_month: i8,
}

impl SeasonCalendar {
    /// Seasons that run with the calendar year.
    pub const CALENDAR_YEAR: Self = Self { first_month: 1 };

    /// Seasons that begin in this month, 1 to 12; another number is read as 1.
    #[must_use]
    pub fn beginning_in(month: i8) -> Self {
        if (1..=12).contains(&month) { Self { first_month: month } } else { Self::CALENDAR_YEAR }
    }

    /// The season that a day belongs to.
    #[must_use]
    pub fn season_of(self, day: Date) -> Option<Season> {
        let after_new_year = self.first_month == 1 || day.month() < self.first_month;
        Season::new(if after_new_year { day.year() } else { day.year() + 1 })
    }

    /// The year in which a month of a season falls.
    fn year_of(self, season: Season, month: i8) -> i16 {
        let after_new_year = self.first_month == 1 || month < self.first_month;
        if after_new_year { season.year() } else { season.year() - 1 }
    }
}

/// Why a cell is not one day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DayFault {
    /// Not a date.
    #[error("{0:?} is not a date")]
    NotADate(String),
    /// A date that no calendar has.
    #[error("there is no day {0:?}")]
    Impossible(String),
    /// Day first or month first: the column does not tell.
    #[error("{0:?} could be day first or month first")]
    Undecided(String),
    /// No year, and no season to take it from.
    #[error("{0:?} has no year, and no season is named")]
    NoYear(String),
    /// A month and a number that may be a day or a year.
    #[error("{0:?} could be a day or a year of that month")]
    DayOrYear(String),
    /// No day.
    #[error("{0:?} names no day")]
    NoDay(String),
    /// Two days or more.
    #[error("{0:?} is more than one day")]
    Several(String),
}

impl DayFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::NotADate(_) | Self::NoDay(_) | Self::DayOrYear(_) => "write the date as 2031-07-14",
            Self::Impossible(_) => "check the day and the month",
            Self::Undecided(_) => "say whether the column is day first or month first",
            Self::NoYear(_) => "write the year, or name the season or the grow-out",
            Self::Several(_) => "write one row a day",
        }
        .to_owned()
    }
}

/// A date as written, before order and year are settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Written {
    Whole { year: i16, month: i8, day: i8 },
    Yearless { month: i8, day: i8 },
    Numbers { first: i8, second: i8, year: Option<i16> },
}

/// What one cell tells of its column's dates.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evidence {
    /// Nothing: no date, or one whose order is plain.
    Nothing,
    /// The order can only be this one.
    Only(DateOrder),
    /// It reads both ways, such as 3/4/31.
    Either,
}

/// What one cell tells of its column's order, and whether it lacks its year.
#[must_use]
pub fn evidence(text: &str) -> (Evidence, bool) {
    match read(text) {
        Ok(Written::Whole { .. }) | Err(_) => (Evidence::Nothing, false),
        Ok(Written::Yearless { .. }) => (Evidence::Nothing, true),
        Ok(Written::Numbers { first, second, year }) => (order_of(first, second), year.is_none()),
    }
}

fn order_of(first: i8, second: i8) -> Evidence {
    match (12 < first, 12 < second) {
        (true, false) => Evidence::Only(DateOrder::DayFirst),
        (false, true) => Evidence::Only(DateOrder::MonthFirst),
        (false, false) if first != second && 0 < first && 0 < second => Evidence::Either,
        _ => Evidence::Nothing,
    }
}

/// Reads a day; `order` is the column's, `season` gives the year of a date without one.
///
/// # Errors
/// [`DayFault`] where the cell is not one day, or where order or year would have to be guessed.
pub fn day(
    text: &str,
    order: Option<DateOrder>,
    season: Option<(Season, SeasonCalendar)>,
) -> Result<Date, DayFault> {
    let (year, month, day) = match read(text)? {
        Written::Whole { year, month, day } => (Some(year), month, day),
        Written::Yearless { month, day } => (None, month, day),
        Written::Numbers { first, second, year } => {
            let (month, day) =
                ordered(first, second, order).ok_or_else(|| DayFault::Undecided(text.to_owned()))?;
            (year, month, day)
        }
    };
    let year = year.or_else(|| season.map(|(season, calendar)| calendar.year_of(season, month)));
    let year = year.ok_or_else(|| DayFault::NoYear(text.to_owned()))?;
    Date::new(year, month, day).map_err(|_| DayFault::Impossible(text.to_owned()))
}

/// Month and day of two numbers; a number above 12 settles them whatever the column says.
fn ordered(first: i8, second: i8, order: Option<DateOrder>) -> Option<(i8, i8)> {
    let order = match order_of(first, second) {
        Evidence::Only(only) => only,
        Evidence::Either => order?,
        Evidence::Nothing => DateOrder::DayFirst,
    };
    Some(match order {
        DateOrder::DayFirst => (second, first),
        DateOrder::MonthFirst => (first, second),
    })
}

fn read(text: &str) -> Result<Written, DayFault> {
    if let Some(whole) = iso(text.as_bytes()) {
        return Ok(whole);
    }
    let fault = |fault: fn(String) -> DayFault| fault(text.to_owned());
    if text.contains([';', '&', '+']) {
        return Err(fault(DayFault::Several));
    }
    let bare = without_time(without_weekday(text.trim()));
    let mut tokens = Tokens::default();
    tokens.split(bare).ok_or_else(|| fault(DayFault::NotADate))?;
    match tokens.found() {
        [Token::Number(year, 4), Token::Number(month, ..), Token::Number(day, ..)] => {
            whole(*year, small(*month), *day).ok_or_else(|| fault(DayFault::NotADate))
        }
        [
            Token::Number(first, 1 | 2),
            Token::Number(second, 1 | 2),
            Token::Number(year, figures @ (2 | 4)),
        ] => numbers(*first, *second, Some(full_year(*year, *figures))),
        [Token::Number(first, 1 | 2), Token::Number(second, 1 | 2)] if tokens.is_yearless_shape(bare) => {
            numbers(*first, *second, None)
        }
        [Token::Number(year, 4), Token::Month(month), Token::Number(day, 1 | 2)] => {
            whole(*year, Some(*month), *day).ok_or_else(|| fault(DayFault::NotADate))
        }
        [Token::Month(month), Token::Number(day, 1 | 2), Token::Number(year, figures @ (2 | 4))]
        | [Token::Number(day, 1 | 2), Token::Month(month), Token::Number(year, figures @ (2 | 4))] => {
            whole(i32::from(full_year(*year, *figures)), Some(*month), *day)
                .ok_or_else(|| fault(DayFault::NotADate))
        }
        [Token::Month(_), Token::Number(_, 4)] | [Token::Number(_, 4)] | [Token::Month(_)] => {
            Err(fault(DayFault::NoDay))
        }
        [Token::Month(_), Token::Number(_, 2)] if bare.contains('-') => Err(fault(DayFault::DayOrYear)),
        [Token::Month(month), Token::Number(day, 1 | 2)]
        | [Token::Number(day, 1 | 2), Token::Month(month)] => {
            Ok(Written::Yearless { month: *month, day: *day as i8 })
        }
        [Token::Number(all, 8)] => {
            whole(all / 10_000, small(all / 100 % 100), all % 100).ok_or_else(|| fault(DayFault::NotADate))
        }
        [_, _, _, _, ..] => Err(fault(DayFault::Several)),
        _ => Err(fault(DayFault::NotADate)),
    }
    .map_err(|fault| match fault {
        DayFault::NotADate(_) => DayFault::NotADate(text.to_owned()),
        fault => fault,
    })
}

fn small(number: i32) -> Option<i8> {
    i8::try_from(number).ok()
}

fn whole(year: i32, month: Option<i8>, day: i32) -> Option<Written> {
    Some(Written::Whole { year: i16::try_from(year).ok()?, month: month?, day: small(day)? })
}

fn numbers(first: i32, second: i32, year: Option<i16>) -> Result<Written, DayFault> {
    let (first, second) = small(first).zip(small(second)).ok_or_else(|| DayFault::NotADate(String::new()))?;
    Ok(Written::Numbers { first, second, year })
}

/// Two-digit years from this one on are of the 1900s, lower ones of the 2000s.
/// Source: POSIX.1-2017, `strptime`, conversion `%y`.
pub const TWO_DIGIT_PIVOT: i32 = 69;

fn full_year(year: i32, figures: usize) -> i16 {
    let full = match figures {
        2 if TWO_DIGIT_PIVOT <= year => 1900 + year,
        2 => 2000 + year,
        _ => year,
    };
    i16::try_from(full).unwrap_or(i16::MAX)
}

/// `2031-07-14`, alone or before a time: what nearly every exported cell is.
fn iso(text: &[u8]) -> Option<Written> {
    let (date, rest) = text.split_first_chunk::<10>()?;
    let [y0, y1, y2, y3, b'-', m0, m1, b'-', d0, d1] = date else { return None };
    let ends = rest.is_empty() || is_time(std::str::from_utf8(rest).ok()?);
    let figure = |byte: &u8| byte.is_ascii_digit().then(|| i16::from(byte - b'0'));
    let pair = |tens: &u8, ones: &u8| Some((figure(tens)? * 10 + figure(ones)?) as i8);
    let year = i16::from(pair(y0, y1)?) * 100 + i16::from(pair(y2, y3)?);
    ends.then_some(Written::Whole { year, month: pair(m0, m1)?, day: pair(d0, d1)? })
}

/// Whether a text is a time of day behind a date: ` 09:30`, `T09:30:00Z`, ` 9:30 AM`.
fn is_time(text: &str) -> bool {
    let begins = text.strip_prefix(['T', 't', ' ']).map(str::trim_start);
    let Some(time) = begins else { return false };
    let allowed = |sign: char| sign.is_ascii_digit() || ":.+-ZzAaPpMm ".contains(sign);
    time.contains(':') && time.starts_with(|sign: char| sign.is_ascii_digit()) && time.chars().all(allowed)
}

fn without_time(text: &str) -> &str {
    let blank = text.char_indices().filter(|(_, sign)| matches!(sign, ' ' | 'T'));
    let time = blank.map(|(at, _)| text.split_at(at)).find(|(_, after)| is_time(after));
    time.map_or(text, |(before, _)| before)
}

const WEEKDAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

fn without_weekday(text: &str) -> &str {
    let end = text.find(|sign: char| !sign.is_ascii_alphabetic()).unwrap_or(text.len());
    let (word, rest) = text.split_at(end);
    let lower = word.to_ascii_lowercase();
    let is_weekday = 3 <= lower.len() && WEEKDAYS.iter().any(|weekday| weekday.starts_with(&lower));
    if is_weekday { rest.trim_start_matches(['.', ',', ' ']) } else { text }
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// The month of a name or of its first three letters or more.
pub(crate) fn month_named(word: &str) -> Option<i8> {
    let lower = word.to_ascii_lowercase();
    let begins = |month: &str| month.starts_with(&lower);
    let at = MONTHS.iter().position(|month| begins(month)).filter(|_| 3 <= lower.len())?;
    small(at as i32 + 1)
}

/// A number with how many figures it was written in, or a month.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Token {
    #[default]
    Nothing,
    Number(i32, usize),
    Month(i8),
}

/// The numbers and months of a date, in the order written; four are enough to know there are too many.
#[derive(Default)]
struct Tokens {
    found: [Token; 4],
    count: usize,
}

impl Tokens {
    fn found(&self) -> &[Token] {
        self.found.get(..self.count).unwrap_or(&self.found)
    }

    /// Splits a text into numbers and months; `None` where it holds anything else.
    fn split(&mut self, mut text: &str) -> Option<()> {
        /// What stands between the parts of a day.
        const PARTERS: [char; 7] = [' ', '-', '/', '.', ',', '\u{a0}', '\''];
        while !text.is_empty() && self.count < self.found.len() {
            let figures = text.bytes().take_while(u8::is_ascii_digit).count();
            let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
            let (token, rest) = text.split_at(figures.max(letters));
            match (figures, letters) {
                (1..=8, _) => {
                    self.push(Token::Number(token.parse().ok()?, figures));
                    text = without_ordinal(rest);
                }
                (0, 1..) if token.eq_ignore_ascii_case("of") => text = rest,
                (0, 1..) => {
                    self.push(Token::Month(month_named(token)?));
                    text = rest;
                }
                _ => text = text.strip_prefix(PARTERS)?,
            }
        }
        Some(())
    }

    fn push(&mut self, token: Token) {
        if let Some(place) = self.found.get_mut(self.count) {
            *place = token;
            self.count += 1;
        }
    }

    /// Whether two numbers are parted as a date without a year is; `7 14` is just two numbers, and `7.14`
    /// is one.
    fn is_yearless_shape(&self, text: &str) -> bool {
        self.count == 2 && text.contains('/')
    }
}

fn without_ordinal(text: &str) -> &str {
    let ending = text
        .get(..2)
        .filter(|ending| ["st", "nd", "rd", "th"].iter().any(|ordinal| ordinal.eq_ignore_ascii_case(ending)));
    ending.map_or(text, |ending| text.get(ending.len()..).unwrap_or_default())
}
