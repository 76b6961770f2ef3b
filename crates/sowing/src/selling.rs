//! Selling years, and how a year's sales fall on its months.
//!
//! Seed sells in winter, so a selling year begins in summer, between two crops. Start at [`SellingYears`] and
//! [`Profile::of`].

use jiff::ToSpan;
use jiff::civil::Date;
use record::share::Share;
use statistics::intervals::{Tally, wilson};

/// Months of a year.
pub const MONTHS: usize = 12;

/// When selling years begin: on the first day of a month. A year is named by the calendar year that it begins in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SellingYears {
    begins: i8,
}

impl SellingYears {
    /// From July on, when last winter's orders are out and the new crop is not in. Common practice, no source.
    pub const FROM_JULY: Self = Self { begins: 7 };

    /// Takes a month from 1 to 12.
    #[must_use]
    pub fn beginning_in(month: i8) -> Option<Self> {
        (1..=12).contains(&month).then_some(Self { begins: month })
    }

    /// The selling year that a day lies in.
    #[must_use]
    pub fn year_of(self, day: Date) -> i16 {
        if day.month() < self.begins { day.year() - 1 } else { day.year() }
    }

    /// The first day of a selling year; `None` beyond the calendar.
    #[must_use]
    pub fn first_day(self, year: i16) -> Option<Date> {
        Date::new(year, self.begins, 1).ok()
    }

    /// The last day of a selling year; `None` beyond the calendar.
    #[must_use]
    pub fn last_day(self, year: i16) -> Option<Date> {
        self.first_day(year + 1)?.yesterday().ok()
    }

    /// The place of a month within a selling year, from 0.
    fn place(self, month: i8) -> usize {
        usize::try_from((month - self.begins).rem_euclid(12)).unwrap_or_default()
    }

    /// The month at a place.
    fn month(self, place: usize) -> i8 {
        let place = i8::try_from(place % MONTHS).unwrap_or_default();
        (self.begins - 1 + place) % 12 + 1
    }
}

/// Days from the first to the last, both counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Days {
    /// The first.
    pub first: Date,
    /// The last.
    pub last: Date,
}

impl Days {
    /// Whether a day is among them.
    #[must_use]
    pub fn hold(self, day: Date) -> bool {
        self.first <= day && day <= self.last
    }

    /// Those that are also among others; `None` where none is.
    #[must_use]
    pub fn and(self, other: Self) -> Option<Self> {
        let both = Self { first: self.first.max(other.first), last: self.last.min(other.last) };
        (both.first <= both.last).then_some(both)
    }

    fn count(self) -> f64 {
        f64::from(self.first.until(self.last).map_or(0, |span| span.get_days()) + 1)
    }
}

/// The month and day from which on seed of a season's crop can be sold: picked, cleaned, dried and tested. Common practice, no
/// source.
const SEED_READY: (i8, i8) = (11, 1);
/// The month from which on the next crop is next year's, as this year's is in the ground. Common practice, no source.
const PLANTED_FROM: i8 = 6;

/// The year of the crop that can be planned on a day.
#[must_use]
pub fn next_crop(today: Date) -> i16 {
    if today.month() < PLANTED_FROM { today.year() } else { today.year() + 1 }
}

/// The days that a crop's seed is planned for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Horizon {
    /// Until its seed is ready; none where the last lies before the first.
    pub before: Days,
    /// From then until the seed of a crop a year later would be.
    pub soon: Days,
    /// From then until its own seed is used up or old.
    pub late: Days,
}

impl Horizon {
    /// The days of a crop, whose seed is sold for so many years; `None` beyond the calendar.
    #[must_use]
    pub fn of(today: Date, crop: i16, years: u8) -> Option<Self> {
        let (month, day) = SEED_READY;
        let ready = |later: i16| Date::new(crop.checked_add(later)?, month, day).ok();
        let eve = |later: i16| ready(later)?.yesterday().ok();
        let first = ready(0)?.max(today);
        Some(Self {
            before: Days { first: today, last: eve(0)? },
            soon: Days { first, last: eve(1)? },
            late: Days { first, last: eve(i16::from(years.max(1)))? },
        })
    }
}

/// One month's part of a year's sales.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthPart {
    /// The month, 1 to 12.
    pub month: i8,
    /// Its part.
    pub share: f64,
    /// Ends that hold its part, 80 in 100.
    pub between: (Share, Share),
}

/// How a year's sales fall on its months.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    years: SellingYears,
    /// In the order of the selling year.
    pub months: Vec<MonthPart>,
    /// Whole selling years that it rests on; without any, each month is taken for a twelfth.
    pub rests_on: Vec<i16>,
}

/// What the ends of a month's part hold between them. Common practice, no source.
const BETWEEN_ENDS: f64 = 0.8;
/// Packets that each month has beforehand, so that none is taken for impossible: Jeffreys's half.
const BEFOREHAND: f64 = 0.5;

impl Profile {
    /// Finds it from the sales of whole selling years.
    ///
    /// `together`: packets that are sold together on the mean, by which the ends are widened; 1 where each comes alone.
    ///
    /// # Shape
    /// `sold`: packets by day, of any number of varieties; `covered`: the days that the records hold.
    #[must_use]
    pub fn of(years: SellingYears, sold: &[(Date, i32)], covered: Days, together: f64) -> Self {
        let rests_on: Vec<i16> = (years.year_of(covered.first)..=years.year_of(covered.last))
            .filter(|year| is_whole(years, *year, covered))
            .collect();
        let mut packets = [0.0; MONTHS];
        for (day, sold) in sold.iter().filter(|(day, _)| rests_on.contains(&years.year_of(*day))) {
            if let Some(own) = packets.get_mut(years.place(day.month())) {
                *own += f64::from(*sold);
            }
        }
        let packets = packets.map(|packets: f64| packets.max(0.0));
        let all: f64 = packets.iter().sum();
        let part = |(place, packets): (usize, &f64)| MonthPart {
            month: years.month(place),
            share: (packets + BEFOREHAND) / (all + 12.0 * BEFOREHAND),
            between: ends(*packets / together.max(1.0), all / together.max(1.0)),
        };
        Self { years, months: packets.iter().enumerate().map(part).collect(), rests_on }
    }

    /// When selling years begin.
    #[must_use]
    pub fn years(&self) -> SellingYears {
        self.years
    }

    /// The part of a year's sales that is expected on some days; several years' parts are added up.
    #[must_use]
    pub fn part(&self, days: Days) -> f64 {
        let mut sum = 0.0;
        let mut first = days.first.first_of_month();
        while first <= days.last {
            let month = Days { first, last: first.last_of_month() };
            let share = self.months.get(self.years.place(first.month())).map_or(0.0, |part| part.share);
            sum += days.and(month).map_or(0.0, |own| share * own.count() / month.count());
            match first.checked_add(1.month()) {
                Ok(next) => first = next,
                Err(_) => break,
            }
        }
        sum
    }
}

fn is_whole(years: SellingYears, year: i16, covered: Days) -> bool {
    let whole = years.first_day(year).zip(years.last_day(year));
    whole.is_some_and(|(first, last)| covered.first <= first && last <= covered.last)
}

fn ends(packets: f64, all: f64) -> (Share, Share) {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and not negative")]
    let whole = |packets: f64| packets.round().max(0.0) as u64;
    let tally = Tally::new(whole(packets).min(whole(all)), whole(all)).zip(Share::new(BETWEEN_ENDS));
    tally.map_or((Share::NONE, Share::ALL), |(tally, level)| {
        let found = wilson(tally, level);
        (found.low, found.high)
    })
}
