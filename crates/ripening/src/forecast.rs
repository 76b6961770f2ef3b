//! The harvest to expect: a variety's crop run through every weather year of a garden, many times over.
//!
//! Columns of numbers in, columns of numbers out: [`Seasons`] (a garden's years), [`Draws`] (a variety's crop, drawn as
//! often as is wanted), [`weekly`] (kilograms a plant, week by week, of every year and draw), and [`Forecast`] (what is told
//! of them). The core is [`weekly`]; it knows no file and no calendar, and one site after another can be put through it.
//!
//! Weeks are counted from transplanting. Fruit ripens by the garden's warmth, as well as its flowers set, until frost kills
//! the plants; what is green then is lost.

mod draws;
pub mod flowering;
pub mod held;
mod phi;
pub mod sampled;
mod told;
pub mod window;

pub use draws::{Drawn, Draws};
pub use told::{Forecast, Range, TOLD};

use crate::crop::{RATE_HEAT, Shape};
use crate::grown::{Grown, LONGEST, WEEKS};
use crate::thermal::Clock;
use crate::weather::Days;
use jiff::civil::Date;

/// A garden's years, each from the same day on.
///
/// # Shape
/// For each year [`WEEKS`] numbers in the columns by week, one after another.
#[derive(Clone, Debug)]
pub struct Seasons {
    /// How their warmth is counted.
    clock: Clock,
    /// The years in which plants went out.
    pub years: Vec<i16>,
    /// Years that are not known to their end.
    pub left_out: Vec<i16>,
    /// Every year's season, day by day.
    pub grown: Vec<Grown>,
    /// Degree-days at the end of each week.
    heat: Vec<f32>,
    /// Their logarithms.
    log_heat: Vec<f32>,
    /// How well the fruit that ripens in each week had set.
    set: Vec<f32>,
}

impl Seasons {
    /// No season yet, to be counted by this clock.
    #[must_use]
    pub fn new(clock: Clock) -> Self {
        Self {
            clock,
            years: Vec::new(),
            left_out: Vec::new(),
            grown: Vec::new(),
            heat: Vec::new(),
            log_heat: Vec::new(),
            set: Vec::new(),
        }
    }

    /// Follows every year of a record from one month and day on.
    #[must_use]
    pub fn of(days: &Days, clock: Clock, (month, day): (i8, i8)) -> Self {
        let mut seasons = Self::new(clock);
        for year in days.years() {
            // Plants that go out on 29 February go out on the 28th in other years.
            let out = Date::new(year, month, day).or_else(|_| Date::new(year, month, 28));
            match out.ok().and_then(|out| Grown::of(days, clock, out)) {
                Some(grown) => seasons.add(year, grown),
                None => seasons.left_out.push(year),
            }
        }
        seasons
    }

    /// Adds one season; one whose warmth is counted by another clock is left out.
    pub fn add(&mut self, year: i16, grown: Grown) {
        if grown.clock != self.clock {
            self.left_out.push(year);
            return;
        }
        let (mut before, mut first) = (0.0, 0);
        for week in 1..=WEEKS {
            let end = (7 * week).min(grown.heat.len());
            let heat = end.checked_sub(1).and_then(|last| grown.heat.get(last)).copied().unwrap_or(before);
            let days = grown.set.get(first.min(end)..end).unwrap_or_default();
            let count = u32::try_from(days.len().max(1)).map_or(1.0, f64::from);
            self.heat.push(narrow(heat));
            self.log_heat.push(narrow(heat.max(LEAST_HEAT).ln()));
            self.set.push(narrow(days.iter().sum::<f64>() / count));
            (before, first) = (heat, end);
        }
        self.years.push(year);
        self.grown.push(grown);
    }

    /// The one season whose harvest of these draws lies in the middle of all.
    #[must_use]
    pub fn middling(&self, draws: &Draws) -> Option<Self> {
        let totals = told::totals(self, draws)?;
        let of_year = |(year, own): (usize, &[f32])| (own.iter().sum::<f32>(), year);
        let mut years: Vec<(f32, usize)> =
            totals.chunks_exact(draws.len()).enumerate().map(of_year).collect();
        years.sort_by(|one, other| one.0.total_cmp(&other.0));
        let (_, place) = years.get(years.len() / 2)?;
        let mut one = Self::new(self.clock);
        one.add(*self.years.get(*place)?, self.grown.get(*place)?.clone());
        Some(one)
    }

    /// Weeks from planting by which frost has killed the plants in half of the years; `None` where it has not.
    #[must_use]
    pub fn frost_week(&self) -> Option<f64> {
        let mut days: Vec<usize> =
            self.grown.iter().map(|grown| grown.killed.unwrap_or(usize::MAX)).collect();
        days.sort_unstable();
        let day = u16::try_from(*days.get(days.len() / 2)?).ok()?;
        Some(f64::from(day) / 7.0)
    }

    /// How many years.
    #[must_use]
    pub fn len(&self) -> usize {
        self.years.len()
    }

    /// Whether no year is known.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.years.is_empty()
    }
}

/// Heat whose logarithm stands for that of none.
const LEAST_HEAT: f64 = 1e-3;

/// A number of the columns: seven digits are more than any harvest has.
#[expect(clippy::cast_possible_truncation, reason = "seven digits are kept, and that is meant")]
fn narrow(number: f64) -> f32 {
    number as f32
}

/// Kilograms a plant in each week of every year, for every draw; `None` where years and draws are counted by different
/// clocks.
///
/// Runs on as wide registers as the machine has; the bytes are the same on all, for no two steps are fused into one.
///
/// # Shape
/// [`WEEKS`] blocks; in each, year by year, one number a draw.
#[must_use]
pub fn weekly(seasons: &Seasons, draws: &Draws) -> Option<Vec<f32>> {
    (seasons.clock == draws.clock).then_some(())?;
    let (years, count) = (seasons.len(), draws.len());
    let mut out = vec![0.0; WEEKS * years * count];
    if years != 0 && count != 0 {
        pulp::Arch::new().dispatch(EveryWeek { seasons, draws, out: &mut out });
    }
    Some(out)
}

/// What [`weekly`] gives, into `out`.
struct EveryWeek<'a> {
    seasons: &'a Seasons,
    draws: &'a Draws,
    out: &'a mut [f32],
}

impl pulp::WithSimd for EveryWeek<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        every_week(self);
    }
}

#[inline(always)]
#[expect(clippy::inline_always, reason = "compiled anew for each width of registers")]
fn every_week(EveryWeek { seasons, draws, out }: EveryWeek<'_>) {
    let (years, count) = (seasons.len(), draws.len());
    let mut before = vec![0.0; count];
    for year in 0..years {
        before.fill(0.0);
        let weeks = year * WEEKS..(year + 1) * WEEKS;
        let columns =
            (seasons.heat.get(weeks.clone()), seasons.log_heat.get(weeks.clone()), seasons.set.get(weeks));
        let (Some(heat), Some(log_heat), Some(set)) = columns else { continue };
        let of_years =
            out.chunks_exact_mut(years * count).filter_map(|week| week.chunks_exact_mut(count).nth(year));
        let mut reached = 0.0;
        for (((own, heat), log_heat), set) in of_years.zip(heat).zip(log_heat).zip(set) {
            // Nothing ripens in a week without warmth, and once frost has been there is none.
            if reached < *heat {
                match draws.shape {
                    Shape::Hump => hump(own, &mut before, draws, *log_heat, *set),
                    Shape::Stream => stream(own, &mut before, draws, (*heat, *log_heat), *set),
                }
            }
            reached = *heat;
        }
    }
}

/// One week of one year of a hump.
#[inline(always)]
#[expect(clippy::inline_always, reason = "compiled anew for each width of registers")]
fn hump(own: &mut [f32], before: &mut [f32], draws: &Draws, log_heat: f32, set: f32) {
    let columns = draws.middle.iter().zip(&draws.by_spread).zip(&draws.kilograms);
    for ((out, before), ((middle, by_spread), kilograms)) in own.iter_mut().zip(before).zip(columns) {
        let come = phi::below((log_heat - middle) * by_spread);
        *out = kilograms * set * (come - *before);
        *before = come;
    }
}

/// One week of one year of a stream.
#[inline(always)]
#[expect(clippy::inline_always, reason = "compiled anew for each width of registers")]
fn stream(own: &mut [f32], before: &mut [f32], draws: &Draws, (heat, log_heat): (f32, f32), set: f32) {
    let columns = draws.middle.iter().zip(&draws.by_spread).zip(&draws.kilograms).zip(&draws.mean);
    let spread = draws.spread;
    for ((out, before), (((middle, by_spread), kilograms), mean)) in own.iter_mut().zip(before).zip(columns) {
        let z = (log_heat - middle) * by_spread;
        let come = (heat * phi::below(z) - mean * phi::below(z - spread)).max(*before);
        *out = kilograms * set * (come - *before) * PER_RATE_HEAT;
        *before = come;
    }
}

/// One degree-day, where weights are told for [`RATE_HEAT`].
#[expect(clippy::cast_possible_truncation, reason = "a hundredth")]
const PER_RATE_HEAT: f32 = (1.0 / RATE_HEAT) as f32;

/// Days of a season that is followed to its end.
pub const SEASON_DAYS: usize = LONGEST;
