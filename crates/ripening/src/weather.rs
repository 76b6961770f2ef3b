//! A station's days: the lowest and highest temperature of each, as far as they are known.
//!
//! [`recognise`](mod@recognise) tells files apart, [`ghcn`] and [`table`] read them, [`quality`] takes out what cannot be, and
//! [`station`] picks one station of many. Start at [`Days`]. [`normals`] reads what is published of a station in place of its
//! days.

pub mod ghcn;
pub mod normals;
pub mod quality;
pub mod recognise;
pub mod station;
pub mod table;

use crate::frost::Hemisphere;
use jiff::ToSpan;
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Days in a row, each with its lowest and highest temperature in degrees Celsius.
///
/// # Shape
/// One number a day in each column, from the first day to the last; a day that nobody read is not a number.
#[derive(Clone, Debug)]
pub struct Days {
    first: Date,
    lowest: Vec<f64>,
    highest: Vec<f64>,
}

/// What was read on one day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Reading {
    /// Lowest temperature.
    pub lowest: Option<f64>,
    /// Highest temperature.
    pub highest: Option<f64>,
}

/// What was read in one month, each day at its place less one; not a number where nobody did.
#[derive(Clone, Debug)]
struct Month {
    lowest: [f64; 31],
    highest: [f64; 31],
}

impl Month {
    const UNREAD: Self = Self { lowest: [f64::NAN; 31], highest: [f64::NAN; 31] };

    fn is_empty(&self) -> bool {
        self.lowest.iter().chain(&self.highest).all(|degrees| degrees.is_nan())
    }
}

/// Most days that are held: three centuries. More is a slip in a date and would fill the memory.
const MOST_DAYS: i64 = 110_000;

impl Days {
    /// Lays readings out day by day; `None` where there are none, or where they lie more than three centuries apart.
    #[must_use]
    pub fn new(readings: &BTreeMap<Date, Reading>) -> Option<Self> {
        let (first, last) = (*readings.keys().next()?, *readings.keys().next_back()?);
        let count = days_between(first, last).filter(|days| *days < MOST_DAYS)? + 1;
        let mut days = Self {
            first,
            lowest: vec![f64::NAN; usize::try_from(count).ok()?],
            highest: vec![f64::NAN; usize::try_from(count).ok()?],
        };
        for (date, reading) in readings {
            let at = days.place(*date)?;
            set(&mut days.lowest, at, reading.lowest);
            set(&mut days.highest, at, reading.highest);
        }
        Some(days)
    }

    /// Lays months of readings out, as [`Days::new`] does single days, and quicker for a long record.
    #[must_use]
    fn of_months(months: &BTreeMap<(i16, i8), Month>) -> Option<Self> {
        let mut read = months.iter().filter(|(_, month)| !month.is_empty()).map(|(key, _)| *key);
        let (first_month, last_month) = (read.next()?, read.next_back());
        let begins = |(year, month): (i16, i8)| Date::new(year, month, 1).ok();
        let (first, last) =
            (begins(first_month)?, begins(last_month.unwrap_or(first_month))?.last_of_month());
        let count = days_between(first, last).filter(|days| *days < MOST_DAYS)? + 1;
        let (mut lowest, mut highest) = (Vec::new(), Vec::new());
        for column in [&mut lowest, &mut highest] {
            column.resize(usize::try_from(count).ok()?, f64::NAN);
        }
        for (key, month) in months.range(first_month..=last_month.unwrap_or(first_month)) {
            let begins = begins(*key)?;
            let at = usize::try_from(days_between(first, begins)?).ok()?;
            let days = usize::from(begins.days_in_month().unsigned_abs());
            for (column, read) in [(&mut lowest, &month.lowest), (&mut highest, &month.highest)] {
                if let (Some(slots), Some(read)) = (column.get_mut(at..at + days), read.get(..days)) {
                    slots.copy_from_slice(read);
                }
            }
        }
        Self { first, lowest, highest }.trimmed()
    }

    /// The same from the first day of which anything is known to the last.
    fn trimmed(mut self) -> Option<Self> {
        let is_known = |pair: (&f64, &f64)| !(pair.0.is_nan() && pair.1.is_nan());
        let mut pairs = self.lowest.iter().zip(&self.highest);
        let last = pairs.clone().rposition(is_known)?;
        let before = pairs.position(is_known)?;
        self.first = self.date(before)?;
        for column in [&mut self.lowest, &mut self.highest] {
            column.truncate(last + 1);
            column.drain(..before);
        }
        Some(self)
    }

    /// Takes columns of equal length that begin on a day.
    pub(crate) fn of_columns(first: Date, lowest: Vec<f64>, highest: Vec<f64>) -> Self {
        Self { first, lowest, highest }
    }

    /// The first day.
    #[must_use]
    pub fn first(&self) -> Date {
        self.first
    }

    /// The last day.
    #[must_use]
    pub fn last(&self) -> Date {
        self.date(self.len().saturating_sub(1)).unwrap_or(self.first)
    }

    /// How many days, those that nobody read included.
    #[must_use]
    pub fn len(&self) -> usize {
        self.lowest.len()
    }

    /// Whether there are none; never so.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.lowest.is_empty()
    }

    /// The lowest temperature of each day; not a number where unknown.
    #[must_use]
    pub fn lowest(&self) -> &[f64] {
        &self.lowest
    }

    /// The highest temperature of each day; not a number where unknown.
    #[must_use]
    pub fn highest(&self) -> &[f64] {
        &self.highest
    }

    /// The place of a day in the columns.
    #[must_use]
    pub fn place(&self, date: Date) -> Option<usize> {
        let at = usize::try_from(days_between(self.first, date)?).ok()?;
        (at < self.len()).then_some(at)
    }

    /// The day at a place.
    #[must_use]
    pub fn date(&self, place: usize) -> Option<Date> {
        (place < self.len()).then(|| self.first.checked_add(i64::try_from(place).ok()?.days()).ok()).flatten()
    }

    /// What was read on a day.
    #[must_use]
    pub fn reading(&self, date: Date) -> Reading {
        let known = |column: &[f64]| {
            let value = self.place(date).and_then(|at| column.get(at)).copied();
            value.filter(|value| !value.is_nan())
        };
        Reading { lowest: known(&self.lowest), highest: known(&self.highest) }
    }

    /// The days of which anything is known, with what was read.
    pub fn known(&self) -> impl Iterator<Item = (Date, Reading)> {
        let all = (0..self.len()).filter_map(|place| self.date(place));
        let read = all.map(|date| (date, self.reading(date)));
        read.filter(|(_, reading)| *reading != Reading::default())
    }

    /// How many days lack the lowest or the highest temperature.
    #[must_use]
    pub fn missing(&self) -> usize {
        let pairs = self.lowest.iter().zip(&self.highest);
        pairs.filter(|(lowest, highest)| lowest.is_nan() || highest.is_nan()).count()
    }

    /// The calendar years that the days touch.
    #[must_use]
    pub fn years(&self) -> std::ops::RangeInclusive<i16> {
        self.first.year()..=self.last().year()
    }

    /// The same days, each so many degrees warmer.
    #[must_use]
    pub fn warmer(&self, by: f64) -> Self {
        let column = |column: &[f64]| column.iter().map(|degrees| degrees + by).collect();
        Self { first: self.first, lowest: column(&self.lowest), highest: column(&self.highest) }
    }

    /// The same days, the nights of some of them so many degrees warmer, though none warmer than its day.
    #[must_use]
    pub(crate) fn warmer_nights(&self, by: f64, of: impl Fn(Date) -> bool) -> Self {
        let mut warmer = self.clone();
        for (place, (night, day)) in warmer.lowest.iter_mut().zip(&self.highest).enumerate() {
            // A night that nobody read stays unread; the lesser of it and a day would be the day.
            if !night.is_nan() && self.date(place).is_some_and(&of) {
                *night = (*night + by).min(*day).max(*night);
            }
        }
        warmer
    }

    /// On which side of the equator a record was read: south where its January is warmer than its July.
    #[must_use]
    pub fn hemisphere(&self) -> Hemisphere {
        let mean = |month: i8| {
            let own =
                (0..self.len()).filter(|place| self.date(*place).is_some_and(|day| day.month() == month));
            let highs = own.filter_map(|place| self.highest.get(place)).filter(|high| !high.is_nan());
            let (count, sum) = highs.fold((0_u32, 0.0), |(count, sum), high| (count + 1, sum + high));
            (0 < count).then(|| sum / f64::from(count))
        };
        match (mean(1), mean(7)) {
            (Some(january), Some(july)) if july < january => Hemisphere::South,
            _ => Hemisphere::North,
        }
    }

    /// The days of some calendar years, both ends included; `None` where there are none of them.
    #[must_use]
    pub fn within(&self, from: i16, to: i16) -> Option<Self> {
        let first = self.first.max(Date::new(from, 1, 1).ok()?);
        let last = self.last().min(Date::new(to, 12, 31).ok()?);
        let places = self.place(first)?..=self.place(last)?;
        let part = |column: &[f64]| column.get(places.clone()).map(<[f64]>::to_vec);
        Some(Self { first, lowest: part(&self.lowest)?, highest: part(&self.highest)? })
    }

    /// Takes a day's lowest temperature out.
    fn drop_lowest(&mut self, place: usize) {
        set_missing(&mut self.lowest, place);
    }

    /// Takes a day's highest temperature out.
    fn drop_highest(&mut self, place: usize) {
        set_missing(&mut self.highest, place);
    }

    /// Takes both of a day's temperatures out.
    fn drop_both(&mut self, place: usize) {
        set_missing(&mut self.lowest, place);
        set_missing(&mut self.highest, place);
    }
}

/// Whole days from one date to another.
fn days_between(from: Date, to: Date) -> Option<i64> {
    from.until(to).ok().map(|span| i64::from(span.get_days()))
}

fn set(column: &mut [f64], at: usize, value: Option<f64>) {
    if let (Some(slot), Some(value)) = (column.get_mut(at), value) {
        *slot = value;
    }
}

fn set_missing(column: &mut [f64], at: usize) {
    if let Some(slot) = column.get_mut(at) {
        *slot = f64::NAN;
    }
}
