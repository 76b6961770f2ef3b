//! The last frost of spring and the first of autumn: of every year, and how likely each day is to see one.
//!
//! A gardener's safe day is the one on or after which frost still comes in 1 year of 10, the average day that of 5 of 10.
//! Climate normals tell the same: the chance that the last freeze falls on that day or later, that the first falls on that
//! day or earlier, that the season lasts so many days or longer. Where some years have no frost at all, the chance of one
//! is split off first. Start at [`years`], then [`chances`]; [`dates`] are frosts without days behind them.
//!
//! # Source
//! Meaning of the chances: NOAA, supplemental climate normals 1981-2010, readme. Ten missing days at most in each half of a
//! year: rule of the Utah Climate Center. The estimator of the 1991-2020 normals was not found, so ours is named:
//! quantiles of type 7 (Hyndman and Fan 1996, The American Statistician 50:361-365; from memory, unverified).

pub mod dates;

use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;
use rand::RngExt;
use statistics::draws::stream;

/// Days of half a year that may be missing. Source: see the head of this file.
const MOST_MISSING: usize = 10;

/// Temperatures that frosts are told of, in degrees Celsius: 36 F, which nips; 32 F, a freeze; -2 C, which tomatoes do not
/// outlive; 28 F, a hard freeze. Source: NOAA supplemental climate normals 1981-2010 for those in Fahrenheit.
pub const TOLD_AT: [f64; 4] = [20.0 / 9.0, 0.0, -2.0, -20.0 / 9.0];

/// A freeze, in degrees Celsius.
pub const FREEZE: f64 = 0.0;

/// On which side of the equator a garden lies, and so when its year of frosts begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hemisphere {
    /// Spring frosts up to the end of July, autumn frosts from August on.
    North,
    /// Spring frosts from July to January, autumn frosts from February to June; told by the year in which spring falls.
    South,
}

/// The frosts of one year.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YearOfFrosts {
    /// The year, of its spring.
    pub year: i16,
    /// The last frost of spring.
    pub last: Frost,
    /// The first frost of autumn.
    pub first: Frost,
}

/// A frost of one half of a year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Frost {
    /// On this day.
    On(Date),
    /// There was none.
    None,
    /// So many days of the half year are missing that nobody knows.
    NotKnown {
        /// Missing days.
        missing: usize,
    },
}

impl YearOfFrosts {
    /// Whether both halves are known.
    #[must_use]
    pub fn is_known(&self) -> bool {
        [self.last, self.first].iter().all(|frost| !matches!(frost, Frost::NotKnown { .. }))
    }
}

/// How far above its temperature a frost may be written, in degrees Celsius: files in tenths of a degree hold 28 F, which is
/// -2.22 C, as -2.2.
const ROUNDED: f64 = 0.025;

/// The frosts of every year of a station: days whose lowest temperature is `at` degrees Celsius or less.
#[must_use]
pub fn years(days: &Days, at: f64, hemisphere: Hemisphere) -> Vec<YearOfFrosts> {
    let one = |year: i16| {
        let [begins, turns, ends] = halves(year, hemisphere)?;
        Some(YearOfFrosts {
            year,
            last: frost(days, (begins, turns), at, Side::Last),
            first: frost(days, (turns, ends), at, Side::First),
        })
    };
    days.years().filter_map(one).collect()
}

/// Where a year of frosts begins, where its summer parts it, and where it ends.
fn halves(year: i16, hemisphere: Hemisphere) -> Option<[Date; 3]> {
    let day = |year, month| Date::new(year, month, 1).ok();
    match hemisphere {
        Hemisphere::North => Some([day(year, 1)?, day(year, 8)?, day(year + 1, 1)?]),
        Hemisphere::South => Some([day(year, 7)?, day(year + 1, 2)?, day(year + 1, 7)?]),
    }
}

#[derive(Clone, Copy)]
enum Side {
    Last,
    First,
}

fn frost(days: &Days, (from, to): (Date, Date), at: f64, side: Side) -> Frost {
    let mut found = None;
    let mut missing = 0;
    let mut date = from;
    while date < to {
        match days.reading(date).lowest {
            None => missing += 1,
            Some(lowest) if lowest <= at + ROUNDED => match side {
                Side::Last => found = Some(date),
                Side::First => found = found.or(Some(date)),
            },
            Some(_) => {}
        }
        let Ok(next) = date.checked_add(1.day()) else { break };
        date = next;
    }
    if MOST_MISSING < missing { Frost::NotKnown { missing } } else { found.map_or(Frost::None, Frost::On) }
}

/// A chance with the day that it falls on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// How many years in 100.
    pub in_100: f64,
    /// The day, counted from 1 January of the year of spring; parts of a day are kept. `None` where frost is rarer.
    pub day: Option<f64>,
    /// Days between which 90 of 100 samples of as many years would put it; `None` of fewer than five years.
    pub sampled: Option<(f64, f64)>,
}

/// What the years of a station say of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Chances {
    /// Years that are known in both halves.
    pub years: Vec<i16>,
    /// Years that are left out.
    pub left_out: Vec<i16>,
    /// Part of the known years with a frost in spring, and in autumn.
    pub with_frost: (f64, f64),
    /// The last frost falls on this day or later, in 10, 50 and 90 years of 100.
    pub last: [Chance; 3],
    /// The first frost falls on this day or earlier.
    pub first: [Chance; 3],
    /// Days between the two, or more; of years that have both.
    pub season: [Chance; 3],
}

/// The chances that are told, in years of 100.
pub const TOLD: [f64; 3] = [10.0, 50.0, 90.0];

/// Samples of years that an interval is drawn from.
const SAMPLES: usize = 1000;
/// Fewest years that are sampled: fewer repeat themselves, and would look sure. Common practice, no source.
const FEWEST_SAMPLED: usize = 5;
/// Fewest years that show what comes in one of ten.
pub const FEWEST_FOR_ONE_IN_TEN: usize = 10;

/// Works out the chances; `None` where no year is known in both halves.
#[must_use]
pub fn chances(years: &[YearOfFrosts]) -> Option<Chances> {
    let known: Vec<&YearOfFrosts> = years.iter().filter(|year| year.is_known()).collect();
    if known.is_empty() {
        return None;
    }
    let of = |year: &&YearOfFrosts, frost: Frost| match frost {
        Frost::On(date) => day_of(year.year, date),
        _ => None,
    };
    let last: Vec<Option<f64>> = known.iter().map(|year| of(year, year.last)).collect();
    let first: Vec<Option<f64>> = known.iter().map(|year| of(year, year.first)).collect();
    let season: Vec<Option<f64>> =
        last.iter().zip(&first).map(|(last, first)| Some((*first)? - (*last)? - 1.0)).collect();
    let season: Vec<Option<f64>> = season.into_iter().filter(Option::is_some).collect();
    Some(Chances {
        years: known.iter().map(|year| year.year).collect(),
        left_out: years.iter().filter(|year| !year.is_known()).map(|year| year.year).collect(),
        with_frost: (part(&last), part(&first)),
        last: TOLD.map(|in_100| chance(&last, in_100, Tail::OrLater)),
        first: TOLD.map(|in_100| chance(&first, in_100, Tail::OrEarlier)),
        season: TOLD.map(|in_100| chance(&season, in_100, Tail::OrLater)),
    })
}

/// A day counted from 1 January of a year, which is 1.
#[must_use]
pub fn day_of(year: i16, date: Date) -> Option<f64> {
    let days = Date::new(year, 1, 1).ok()?.until(date).ok()?.get_days();
    Some(f64::from(days) + 1.0)
}

/// Part of the years with a frost.
fn part(frosts: &[Option<f64>]) -> f64 {
    let with = frosts.iter().flatten().count();
    ratio(with, frosts.len())
}

#[expect(clippy::cast_precision_loss, reason = "there are a few hundred years")]
fn ratio(part: usize, whole: usize) -> f64 {
    part as f64 / whole.max(1) as f64
}

#[derive(Clone, Copy)]
enum Tail {
    OrLater,
    OrEarlier,
}

fn chance(frosts: &[Option<f64>], in_100: f64, tail: Tail) -> Chance {
    let day = at_chance(frosts, in_100 / 100.0, tail);
    let mut draws = stream(&["frost dates"]);
    let mut sampled: Vec<f64> = (0..SAMPLES)
        .filter_map(|_| {
            let years: Vec<Option<f64>> = (0..frosts.len())
                .filter_map(|_| frosts.get(draws.random_range(0..frosts.len())).copied())
                .collect();
            at_chance(&years, in_100 / 100.0, tail)
        })
        .collect();
    sampled.sort_by(f64::total_cmp);
    let ends = quantile(&sampled, 0.05).zip(quantile(&sampled, 0.95));
    Chance { in_100, day, sampled: day.and(ends).filter(|_| FEWEST_SAMPLED <= frosts.len()) }
}

/// The day at a chance: frosts are as likely as the years that have one, and then fall as their dates do.
fn at_chance(frosts: &[Option<f64>], chance: f64, tail: Tail) -> Option<f64> {
    let share = part(frosts);
    let within = chance / share;
    if !(0.0..=1.0).contains(&within) {
        return None;
    }
    let mut dates: Vec<f64> = frosts.iter().flatten().copied().collect();
    dates.sort_by(f64::total_cmp);
    match tail {
        Tail::OrLater => quantile(&dates, 1.0 - within),
        Tail::OrEarlier => quantile(&dates, within),
    }
}

/// Quantile of type 7: straight lines between the sorted numbers, the first at 0 and the last at 1.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "within the list"
)]
fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let place = share * sorted.len().checked_sub(1)? as f64;
    let below = place.floor() as usize;
    let (low, high) = (sorted.get(below)?, sorted.get(below + 1).or_else(|| sorted.get(below))?);
    Some(low + (place - place.floor()) * (high - low))
}
