//! A station's climate in a few numbers, and years of weather drawn from it, where no days of its own are at hand.
//!
//! Days follow each other as Richardson's generator has them: each day's departure from the mean of the date leans on the
//! day before. Left at that its seasons are too much alike, by a third at some stations, for a warm year is warm for
//! months; so each year also gets an anomaly of its own, as wide as the station's seasons are found to differ. Drawn years
//! are never taken for measured ones, and degree-days are counted day by day in them, never from the means.
//!
//! Start at [`Climate::of`] (from days), [`normals`] (published means) or [`shipped`] (a few stations), then
//! [`Climate::years`].
//!
//! # Source
//! Richardson 1981, Water Resources Research 17:182-190; Richardson and Wright 1984, USDA-ARS, ARS-8 (equations as read in
//! the documentation of a public code; the matrices below solve them for temperature alone with correlations that are from
//! memory, unverified).

mod chain;
pub mod normals;
pub mod shipped;

use crate::weather::Days;
use chain::Chain;
use jiff::civil::{Date, date};
use statistics::draws::stream;

/// Months of a year.
const MONTHS: usize = 12;
/// Months of a growing season, of which seasons are held against each other: May to September in the north.
const SEASON_MONTHS: usize = 5;
/// Days of a growing season over which means are taken: 1 May to 30 September.
const SEASON_DAYS: u16 = 153;
/// Fewest years that show how far seasons differ. Common practice, no source.
const FEWEST_YEARS: usize = 8;
/// Fewest known days of a month, in a hundred, for its year to count. Common practice, no source.
const FEWEST_DAYS_IN_100: usize = 80;
/// Drawn years begin here; the number means nothing.
const FIRST_DAY: Date = date(2001, 1, 1);

/// Mean and standard deviation of a daily temperature, in degrees Celsius.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Daily {
    /// Its mean over all years.
    pub mean: f64,
    /// How far single days of all years stray from it.
    pub deviation: f64,
}

/// A month's days.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Month {
    /// Its highest temperatures.
    pub highest: Daily,
    /// Its lowest.
    pub lowest: Daily,
}

/// A climate: what days are like in each month, and how far whole seasons stray.
#[derive(Clone, Debug, PartialEq)]
pub struct Climate {
    /// January to December.
    pub months: [Month; MONTHS],
    /// Standard deviation of a whole season's anomaly, in degrees Celsius, beyond what single days add up to.
    pub season: f64,
}

impl Climate {
    /// Works a climate out of a station's own days; `None` with fewer than eight years of a growing season.
    #[must_use]
    pub fn of(days: &Days) -> Option<Self> {
        let mut by_month: [Vec<(i16, f64, f64)>; MONTHS] = Default::default();
        for place in 0..days.len() {
            let pair = days.lowest().get(place).zip(days.highest().get(place));
            let (Some((lowest, highest)), Some(day)) = (pair, days.date(place)) else { continue };
            if let Some(month) = by_month.get_mut(month_of(day)).filter(|_| !(lowest + highest).is_nan()) {
                month.push((day.year(), *lowest, *highest));
            }
        }
        let month = |own: &Vec<(i16, f64, f64)>| {
            let of = |temperature: fn(&(i16, f64, f64)) -> f64| daily(own.iter().map(temperature));
            Some(Month { lowest: of(|day| day.1)?, highest: of(|day| day.2)? })
        };
        let months: Vec<Month> = by_month.iter().map(month).collect::<Option<_>>()?;
        let months: [Month; MONTHS] = months.try_into().ok()?;
        let begins = warmest(&months);
        let means = season_means(&by_month, begins);
        (FEWEST_YEARS <= means.len()).then_some(())?;
        let observed = daily(means.into_iter())?.deviation;
        Some(Self { months, season: season_deviation(&months, begins, observed) })
    }

    /// Draws so many years of days, always the same for one key.
    #[must_use]
    pub fn years(&self, count: i16, key: &str) -> Days {
        let mut draws = stream(&["weather", key]);
        let lowest = Course::of(&self.months, |month| month.lowest, self.season);
        let highest = Course::of(&self.months, |month| month.highest, self.season);
        let coldest = coldest(&self.months);
        let mut chain = Chain::new(&mut draws);
        let mut anomaly = self.season * chain::one(&mut draws);
        let (mut lows, mut highs) = (Vec::new(), Vec::new());
        let mut day = FIRST_DAY;
        while day.year() - FIRST_DAY.year() < count {
            // An anomaly lasts from one winter to the next, so that no growing season has two.
            if day.day() == 1 && month_of(day) == coldest {
                anomaly = self.season * chain::one(&mut draws);
            }
            let [high, low] = chain.next(&mut draws);
            let (high, low) = (highest.on(day, high) + anomaly, lowest.on(day, low) + anomaly);
            // A night warmer than its day cannot be; the day keeps its mean.
            let middle = 0.5 * (high + low);
            lows.push(low.min(middle));
            highs.push(high.max(middle));
            let Ok(next) = day.tomorrow() else { break };
            day = next;
        }
        Days::of_columns(FIRST_DAY, lows, highs)
    }
}

/// One temperature through the year: nodes in the middle of months, straight lines between.
struct Course {
    means: [f64; MONTHS],
    deviations: [f64; MONTHS],
}

/// Rounds in which the nodes settle; each leaves a sixth of what was wrong before.
const ROUNDS: usize = 30;
/// Least deviation of a day that is left once the season's has been taken off.
const LEAST_DEVIATION: f64 = 0.1;

impl Course {
    /// Nodes such that each month's mean comes out as it is, which nodes at the means themselves would not do.
    fn of(months: &[Month; MONTHS], of: fn(&Month) -> Daily, season: f64) -> Self {
        let wanted = months.map(|month| of(&month).mean);
        let mut means = wanted;
        for _ in 0..ROUNDS {
            let beside = neighbours(&means);
            for ((node, wanted), beside) in means.iter_mut().zip(&wanted).zip(beside) {
                // Over a month the node itself counts three quarters, the two beside it an eighth each.
                *node = (wanted - (beside.0 + beside.1) / 8.0) / 0.75;
            }
        }
        let rest = |month: Month| (of(&month).deviation.powi(2) - season.powi(2)).max(0.0).sqrt();
        Self { means, deviations: months.map(|month| rest(month).max(LEAST_DEVIATION)) }
    }

    fn on(&self, day: Date, departure: f64) -> f64 {
        between(&self.means, day) + departure * between(&self.deviations, day)
    }
}

/// What stands before and after each month.
fn neighbours(nodes: &[f64; MONTHS]) -> [(f64, f64); MONTHS] {
    let (mut before, mut after) = (*nodes, *nodes);
    before.rotate_right(1);
    after.rotate_left(1);
    let mut pairs = [(0.0, 0.0); MONTHS];
    for (pair, both) in pairs.iter_mut().zip(before.into_iter().zip(after)) {
        *pair = both;
    }
    pairs
}

/// The value of a day, along the straight line between the middles of two months.
fn between(nodes: &[f64; MONTHS], day: Date) -> f64 {
    let off = (f64::from(day.day()) - 0.5) / f64::from(day.days_in_month()) - 0.5;
    let own = month_of(day);
    let other = if off < 0.0 { own + MONTHS - 1 } else { own + 1 } % MONTHS;
    let node = |month: usize| nodes.get(month).copied().unwrap_or_default();
    node(own) + off.abs() * (node(other) - node(own))
}

/// January is 0.
fn month_of(day: Date) -> usize {
    usize::from(day.month().unsigned_abs().saturating_sub(1))
}

fn daily(numbers: impl Iterator<Item = f64>) -> Option<Daily> {
    let numbers: Vec<f64> = numbers.collect();
    let count = u32::try_from(numbers.len()).ok().filter(|count| 1 < *count).map(f64::from)?;
    let mean = numbers.iter().sum::<f64>() / count;
    let squares: f64 = numbers.iter().map(|number| (number - mean).powi(2)).sum();
    Some(Daily { mean, deviation: (squares / (count - 1.0)).sqrt() })
}

fn middle(month: &Month) -> f64 {
    0.5 * (month.lowest.mean + month.highest.mean)
}

fn coldest(months: &[Month; MONTHS]) -> usize {
    let colder = |one: &(usize, f64), other: &(usize, f64)| one.1.total_cmp(&other.1);
    months.iter().map(middle).enumerate().min_by(colder).map_or(0, |(place, _)| place)
}

/// The month with which the warmest season begins.
fn warmest(months: &[Month; MONTHS]) -> usize {
    let warmth =
        |begins: &usize| -> f64 { months.iter().cycle().skip(*begins).take(SEASON_MONTHS).map(middle).sum() };
    (0..MONTHS).max_by(|one, other| warmth(one).total_cmp(&warmth(other))).unwrap_or_default()
}

/// Mean temperature of each year's growing season, of the years in which most of its days are known.
fn season_means(by_month: &[Vec<(i16, f64, f64)>; MONTHS], begins: usize) -> Vec<f64> {
    let mut seasons: std::collections::BTreeMap<i16, (usize, f64)> = std::collections::BTreeMap::new();
    for step in 0..SEASON_MONTHS {
        let month = (begins + step) % MONTHS;
        // A season across new year is told by the year it begins in.
        let after = i16::from(MONTHS <= begins + step);
        for (year, lowest, highest) in by_month.get(month).into_iter().flatten() {
            let season = seasons.entry(year - after).or_default();
            season.0 += 1;
            season.1 += 0.5 * (lowest + highest);
        }
    }
    let whole = seasons.values().map(|season| season.0).max().unwrap_or_default();
    let known = seasons.values().filter(|season| whole * FEWEST_DAYS_IN_100 <= season.0 * 100);
    known.map(|(days, sum)| sum / f64::from(u32::try_from(*days).unwrap_or(u32::MAX))).collect()
}

/// What is left of the scatter of season means once that of their days is taken off; the days' own is smaller for it.
fn season_deviation(months: &[Month; MONTHS], begins: usize, observed: f64) -> f64 {
    let own: Vec<Month> = months.iter().cycle().skip(begins).take(SEASON_MONTHS).copied().collect();
    let square = |of: fn(&Month) -> Daily| {
        let count = u32::try_from(own.len()).map_or(1.0, f64::from);
        own.iter().map(|month| of(month).deviation.powi(2)).sum::<f64>() / count
    };
    let (highest, lowest) = (square(|month| month.highest), square(|month| month.lowest));
    let mut season: f64 = 0.0;
    for _ in 0..ROUNDS {
        let rest = |squared: f64| (squared - season.powi(2)).max(0.0).sqrt();
        let of_days = chain::variance_of_mean([0.5 * rest(highest), 0.5 * rest(lowest)], SEASON_DAYS);
        season = (observed.powi(2) - of_days).max(0.0).sqrt();
    }
    season
}
