//! What is told of a forecast: week by week in poor, middling and good seasons, and when it begins and ends.

use super::{Draws, Seasons, narrow, weekly};
use crate::crop::{NINE_TENTHS, Shape};
use crate::grown::WEEKS;

/// Seasons of 100 that stay below what is told: a poor one, a middling one, a good one.
pub const TOLD: [f64; 3] = [0.1, 0.5, 0.9];

/// One number in a poor, a middling and a good season.
pub type Range = [f64; 3];

/// A variety's harvest in one garden, by the plant.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// Kilograms of a fruit.
    pub fruit: f64,
    /// Kilograms in each week from transplanting on.
    pub weeks: Vec<Range>,
    /// Part of the seasons in which a plant has at least one ripe fruit in each week.
    pub chance: Vec<f64>,
    /// Kilograms over the season.
    pub total: Range,
    /// Days from transplanting to the first ripe fruit: early, middling, late; `None` where frost comes before it.
    pub first: [Option<i32>; 3],
    /// Days to the last.
    pub last: [Option<i32>; 3],
    /// Part of the seasons in which nine tenths of a hump have ripened before frost; `None` for a stream, which has no end.
    pub finished: Option<f64>,
    /// Part of the seasons in which frost kills the plants before anything is ripe.
    pub nothing: f64,
}

impl Forecast {
    /// Puts draws through the seasons and tells what came; `None` where there is no season, or where the seasons' warmth is
    /// counted by another clock than the draws'.
    #[must_use]
    pub fn of(seasons: &Seasons, draws: &Draws) -> Option<Self> {
        (!seasons.is_empty() && !draws.is_empty()).then_some(())?;
        let weekly = weekly(seasons, draws)?;
        let each = seasons.len() * draws.len();
        let mut totals = vec![0.0_f32; each];
        let (mut weeks, mut chance) = (Vec::with_capacity(WEEKS), Vec::with_capacity(WEEKS));
        for week in weekly.chunks_exact(each) {
            totals.iter_mut().zip(week).for_each(|(total, own)| *total += own);
            chance.push(part_of(week, |kilograms| draws.fruit <= kilograms));
            weeks.push(range(week));
        }
        let (mut first, mut last, nothing) = ends(seasons, draws);
        Some(Self {
            fruit: f64::from(draws.fruit),
            weeks,
            chance,
            total: range(&totals),
            first: days(&mut first),
            last: days(&mut last),
            finished: (draws.shape == Shape::Hump).then(|| finished(seasons, draws)),
            nothing,
        })
    }

    /// So many kilograms as fruits.
    #[must_use]
    pub fn fruits(&self, kilograms: Range) -> Range {
        kilograms.map(|own| if 0.0 < self.fruit { own / self.fruit } else { 0.0 })
    }

    /// Kilograms over the season alone, in a poor, middling and good one.
    #[must_use]
    pub fn total_of(seasons: &Seasons, draws: &Draws) -> Option<Range> {
        Some(range(&totals(seasons, draws)?))
    }
}

/// Kilograms over the season, of every year and draw.
pub(super) fn totals(seasons: &Seasons, draws: &Draws) -> Option<Vec<f32>> {
    let each = seasons.len() * draws.len();
    (0 < each).then_some(())?;
    let mut totals = vec![0.0_f32; each];
    for week in weekly(seasons, draws)?.chunks_exact(each) {
        totals.iter_mut().zip(week).for_each(|(total, own)| *total += own);
    }
    Some(totals)
}

/// Quantiles of type 1: numbers that came. None is below zero, so that they stand in order as their bits do, which are
/// quicker to sort.
pub(super) fn range(numbers: &[f32]) -> Range {
    let mut bits: Vec<u32> = numbers.iter().map(|number| number.to_bits()).collect();
    thirds(&mut bits).map(|bits| bits.map_or(0.0, |bits| f64::from(f32::from_bits(bits))))
}

fn part_of(numbers: &[f32], holds: impl Fn(f32) -> bool) -> f64 {
    let count = |number: usize| u32::try_from(number).map_or(f64::INFINITY, f64::from);
    count(numbers.iter().filter(|number| holds(**number)).count()) / count(numbers.len().max(1))
}

fn days(numbers: &mut [i32]) -> [Option<i32>; 3] {
    thirds(numbers).map(|day| day.filter(|day| *day < i32::MAX))
}

/// The numbers at the shares that are told. Each is looked for on its side of the middle one only.
fn thirds<T: Copy + Ord>(numbers: &mut [T]) -> [Option<T>; 3] {
    let [low, middle, high] = TOLD.map(|share| place_of(share, numbers.len()));
    if numbers.is_empty() {
        return [None; 3];
    }
    let (left, own, right) = numbers.select_nth_unstable(middle);
    let own = *own;
    let beside = |part: &mut [T], place: Option<usize>| match place {
        Some(place) if place < part.len() => *part.select_nth_unstable(place).1,
        _ => own,
    };
    [
        Some(beside(left, (low < middle).then_some(low))),
        Some(own),
        Some(beside(right, high.checked_sub(middle + 1))),
    ]
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a place among some thousands"
)]
fn place_of(share: f64, count: usize) -> usize {
    ((share * count as f64).ceil() as usize).saturating_sub(1)
}

/// Days to the first and to the last ripe fruit of every year and draw, and the part that saw none.
fn ends(seasons: &Seasons, draws: &Draws) -> (Vec<i32>, Vec<i32>, f64) {
    let (mut first, mut last, mut none) = (Vec::new(), Vec::new(), 0_u32);
    for grown in &seasons.grown {
        let heat: Vec<f32> = grown.heat.iter().copied().map(narrow).collect();
        let day = |needs: f32| heat.partition_point(|reached| *reached < needs);
        let count = |place: usize| i32::try_from(place).unwrap_or(i32::MAX);
        for (place, (middle, by_spread)) in draws.middle.iter().zip(&draws.by_spread).enumerate() {
            let Some(begins) = first_day(&heat, &grown.set, draws, place) else {
                none += 1;
                first.push(i32::MAX);
                last.push(i32::MAX);
                continue;
            };
            let ends = match draws.shape {
                Shape::Hump => day((middle + LAST_OF_HUMP / by_spread).exp()).min(heat.len() - 1),
                Shape::Stream => heat.len() - 1,
            };
            first.push(count(begins));
            last.push(count(ends.max(begins)));
        }
    }
    let all = u32::try_from(first.len().max(1)).map_or(1.0, f64::from);
    (first, last, f64::from(none) / all)
}

/// The day of a draw's first ripe fruit, where there is one: no sooner than if every flower had set.
fn first_day(heat: &[f32], set: &[f64], draws: &Draws, place: usize) -> Option<usize> {
    let (needs, part) = (*draws.first.get(place)?, *draws.part.get(place)?);
    let from = heat.partition_point(|reached| *reached < needs);
    let day_before = from.checked_sub(1).and_then(|day| heat.get(day).zip(set.get(day)));
    // What has come so far came in the days just before, whose flowers set alike.
    let (mut before, set_before) =
        day_before.map_or((0.0, 1.0), |(heat, set)| (draws.come(place, *heat), narrow(*set)));
    let mut ripened = set_before * before;
    let days = heat.iter().zip(set).enumerate().skip(from);
    days.map(|(day, (heat, set))| {
        let now = draws.come(place, *heat);
        ripened += narrow(*set) * (now - before);
        before = now;
        (day, ripened)
    })
    .find(|(_, ripened)| part * ALMOST <= *ripened)
    .map(|(day, _)| day)
}

/// Part of a fruit that is as good as one: sums of seven digits end a little short.
const ALMOST: f32 = 0.9999;

/// Deviations from the middle by which a hump is over: 98 in 100 have ripened.
const LAST_OF_HUMP: f32 = 2.054;

/// Part of years and draws in which nine tenths of a hump ripen in time.
fn finished(seasons: &Seasons, draws: &Draws) -> f64 {
    let (mut yes, mut all) = (0_u32, 0_u32);
    for grown in &seasons.grown {
        let log_heat = narrow(grown.heat.last().copied().unwrap_or_default().max(super::LEAST_HEAT).ln());
        for (middle, by_spread) in draws.middle.iter().zip(&draws.by_spread) {
            all += 1;
            yes += u32::from(narrow(NINE_TENTHS) <= (log_heat - middle) * by_spread);
        }
    }
    f64::from(yes) / f64::from(all.max(1))
}
