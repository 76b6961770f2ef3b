//! The dates of a table's rows: in one column, or in three of year, month and day.
//!
//! Days are written as ISO has them (`2031-05-20`, `20310520`, with a time behind it or not), or with strokes, as `5/20/2031` or
//! `20/5/2031`: which of the two a table means is told by a row whose day is no month. Start at [`Dates::of`].

use super::column;
use jiff::civil::Date;

/// Words for the column, folded to small letters and figures.
const DATE: [&str; 6] = ["date", "datetime", "time", "observationdate", "obsdate", "day"];
/// Words for three columns.
const PARTS: [&[&str]; 3] = [&["year", "yr", "yyyy"], &["month", "mo", "mm"], &["day", "dayofmonth", "dd"]];

/// Where a table's dates stand.
pub(super) enum Dates {
    /// In one column, in that order where they have strokes.
    One(usize, Order),
    /// In three: year, month and day.
    Three([usize; 3]),
}

/// How days with strokes are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    /// `5/20/2031`.
    MonthFirst,
    /// `20/5/2031`.
    DayFirst,
    /// No row tells.
    NotTold,
}

impl Dates {
    /// Finds the dates of a table by its headings, folded to small letters and figures.
    pub(super) fn of(headings: &[String]) -> Option<Self> {
        let mut parts = [0; 3];
        let mut found = 0;
        for (place, words) in parts.iter_mut().zip(PARTS) {
            if let Some((at, _)) = column(headings, words) {
                *place = at;
                found += 1;
            }
        }
        // Beside year and month a column `day` is of the month; beside neither it is the date.
        let words = if found == parts.len() { DATE.get(..DATE.len() - 1).unwrap_or_default() } else { &DATE };
        match column(headings, words) {
            Some((at, _)) => Some(Self::One(at, Order::NotTold)),
            None => (found == parts.len()).then_some(Self::Three(parts)),
        }
    }

    /// The same, with the order that the rows tell.
    pub(super) fn told_by<'c>(self, rows: impl Iterator<Item = &'c [String]>) -> Self {
        match self {
            Self::One(at, _) => {
                let cells = rows.filter_map(|cells| cells.get(at));
                Self::One(at, order(cells.map(String::as_str)))
            }
            three => three,
        }
    }

    /// The day of a row; the words that are none.
    pub(super) fn day(&self, cells: &[String]) -> Result<Date, String> {
        let cell = |at: usize| cells.get(at).map(String::as_str).unwrap_or_default();
        let (date, words) = match self {
            Self::One(at, order) => (day(cell(*at), *order), cell(*at).to_owned()),
            Self::Three([year, month, day]) => {
                let parts = [cell(*year), cell(*month), cell(*day)];
                (of_parts(parts), parts.join("-"))
            }
        };
        date.ok_or(words)
    }

    /// What a cell that tells no day ought to have held.
    pub(super) fn wanted(&self, words: &str) -> &'static str {
        match self {
            Self::One(_, Order::NotTold) if strokes(words).is_some() => {
                "date whose day and month the rows tell apart; write 2031-05-20"
            }
            _ => "date, such as 2031-05-20",
        }
    }
}

/// A date of three numbers: year, month and day.
fn of_parts([year, month, day]: [&str; 3]) -> Option<Date> {
    Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?).ok()
}

/// A date as ISO writes it, with or without hyphens or with a time behind it, or with strokes.
fn day(text: &str, order: Order) -> Option<Date> {
    if let Some([first, second, year]) = strokes(text) {
        return match order {
            Order::MonthFirst => of_parts([year, first, second]),
            Order::DayFirst => of_parts([year, second, first]),
            Order::NotTold => None,
        };
    }
    let plain = text.get(..10).unwrap_or(text);
    plain.parse().ok().or_else(|| {
        let digits = text.len() == 8 && text.bytes().all(|sign| sign.is_ascii_digit());
        let part = |from: usize, to: usize| text.get(from..to).unwrap_or_default();
        digits.then(|| of_parts([part(0, 4), part(4, 6), part(6, 8)])).flatten()
    })
}

/// The three numbers of a date with strokes, the year last and of four figures.
fn strokes(text: &str) -> Option<[&str; 3]> {
    let date = text.split_whitespace().next()?;
    let mut parts = date.split('/');
    let three = [parts.next()?, parts.next()?, parts.next()?];
    (parts.next().is_none() && three[2].len() == 4).then_some(three)
}

/// Which of the first two numbers of dates with strokes is the day: the one that is over twelve in some row.
fn order<'c>(cells: impl Iterator<Item = &'c str>) -> Order {
    let (mut first_is_day, mut second_is_day) = (false, false);
    for [first, second, _] in cells.filter_map(strokes) {
        let over = |part: &str| part.parse::<u8>().is_ok_and(|number| 12 < number);
        first_is_day |= over(first);
        second_is_day |= over(second);
    }
    match (first_is_day, second_is_day) {
        (false, true) => Order::MonthFirst,
        (true, false) => Order::DayFirst,
        _ => Order::NotTold,
    }
}
