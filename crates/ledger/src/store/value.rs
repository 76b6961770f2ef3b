//! Values on their way into a statement, and small conversions that both servers need.

use jiff::Timestamp;
use jiff::civil::Date;
use std::borrow::Cow;

/// A value on its way in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Value<'a> {
    /// Not known.
    Nothing,
    /// A whole number.
    Whole(i64),
    /// A measured number.
    Real(f64),
    /// Words.
    Text(&'a str),
    /// Bytes.
    Bytes(&'a [u8]),
}

impl From<i64> for Value<'_> {
    fn from(whole: i64) -> Self {
        Self::Whole(whole)
    }
}

impl From<u32> for Value<'_> {
    fn from(whole: u32) -> Self {
        Self::Whole(i64::from(whole))
    }
}

impl From<f64> for Value<'_> {
    fn from(real: f64) -> Self {
        Self::Real(real)
    }
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a [u8]> for Value<'a> {
    fn from(bytes: &'a [u8]) -> Self {
        Self::Bytes(bytes)
    }
}

impl From<Date> for Value<'_> {
    fn from(day: Date) -> Self {
        Self::Whole(day_number(day))
    }
}

impl From<Timestamp> for Value<'_> {
    fn from(moment: Timestamp) -> Self {
        Self::Whole(moment.as_microsecond())
    }
}

impl<'a, T: Into<Value<'a>>> From<Option<T>> for Value<'a> {
    fn from(known: Option<T>) -> Self {
        known.map_or(Self::Nothing, Into::into)
    }
}

/// A count that fits where the servers keep whole numbers; one that does not is beyond all counting.
pub(crate) fn whole(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// A day as it is stored: 20310714.
pub(crate) fn day_number(day: Date) -> i64 {
    i64::from(day.year()) * 10_000 + i64::from(day.month()) * 100 + i64::from(day.day())
}

/// A stored day, if it is one.
pub(crate) fn day(number: i64) -> Option<Date> {
    let year = i16::try_from(number / 10_000).ok()?;
    let month = i8::try_from(number / 100 % 100).ok()?;
    Date::new(year, month, i8::try_from(number % 100).ok()?).ok()
}

/// Words as both servers can keep them: PostgreSQL takes no NUL in a text, so neither do we. Every text
/// passes through here on its way in, and into its print.
pub(crate) fn without_nul(words: &str) -> Cow<'_, str> {
    match words.contains('\0') {
        true => Cow::Owned(words.replace('\0', "\u{FFFD}")),
        false => Cow::Borrowed(words),
    }
}
