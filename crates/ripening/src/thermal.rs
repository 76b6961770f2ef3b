//! Thermal time: what a day's warmth is worth to a plant, in degree-days.
//!
//! A number of degree-days means something only beside the method, base and ceiling that it was counted with, so these
//! travel together as a [`Clock`]. Degree-days are never counted from climate normals: a mean day is not the mean of days,
//! and normals come out 5 to 7 in 100 too low.
//!
//! # Source
//! Methods and their names: Oregon State University, Integrated Plant Protection Center, Degree-Day Calculation Methods.
//! Sine: Baskerville and Emin 1969, Ecology 50:514-517 (formula from memory, unverified; held to numerical integrals).
//! Halves of days: Allen 1976, Environmental Entomology 5:388-396 (from memory, unverified). Worked values that tests hold
//! it to were computed with other programs.

pub mod wished;

use crate::picked::LONGEST_SEASON;
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;
use std::f64::consts::PI;

/// How a day's warmth is counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clock {
    /// The method.
    pub method: Method,
    /// Temperature below which nothing is gained, in degrees Celsius.
    pub base: f64,
    /// Temperature above which nothing more is gained; `None` without one.
    pub ceiling: Option<f64>,
}

/// A method of counting degree-days.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Method {
    /// Mean of the two less the base; the ceiling does not count.
    Average,
    /// The same, with the highest temperature cut at the ceiling first.
    CappedAverage,
    /// Mean of the two, cut at the ceiling, less the base.
    CappedMean,
    /// Mean of both, each brought to between base and ceiling, less the base.
    ModifiedAverage,
    /// A sine through the day.
    Sine(Course, CutOff),
    /// Straight lines through the day.
    Triangle(Course, CutOff),
    /// Beta response to the day's mean: a day at the best temperature gives the best less the base, warmer and colder ones
    /// less, and nothing at base and ceiling. It has no course within the day.
    Beta {
        /// The temperature at which growth is fastest, in degrees Celsius; between base and ceiling.
        best: f64,
    },
}

/// Whether the afternoon falls back to the same night's temperature or to the next one's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Course {
    /// Up from the day's lowest temperature and back to it.
    Single,
    /// Up from the day's lowest temperature and down to tomorrow's.
    Double,
}

/// What happens above the ceiling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutOff {
    /// Growth goes on as fast as at the ceiling.
    Horizontal,
    /// It slows down as fast as it rose.
    Intermediate,
    /// It stops.
    Vertical,
}

impl Clock {
    /// Degree-days of one day.
    ///
    /// # Shape
    /// Degrees Celsius; `next_lowest` is tomorrow's, which only [`Course::Double`] asks for. `None` where what is asked for
    /// is not known, or where the lowest temperature is above the highest.
    #[must_use]
    pub fn day(&self, lowest: f64, highest: f64, next_lowest: Option<f64>) -> Option<f64> {
        let (base, ceiling) = (self.base, self.ceiling.unwrap_or(f64::INFINITY));
        let usable = lowest.is_finite() && highest.is_finite() && lowest <= highest;
        let mean = |one: f64, other: f64| (0.5 * (one + other) - base).max(0.0);
        usable.then_some(())?;
        match self.method {
            Method::Average => Some(mean(lowest, highest)),
            Method::CappedAverage => Some(mean(lowest.min(ceiling), highest.min(ceiling))),
            Method::CappedMean => Some((mean(lowest, highest)).min(ceiling - base)),
            Method::ModifiedAverage => {
                let within = |degrees: f64| degrees.min(ceiling).max(base);
                Some(mean(within(lowest), within(highest)))
            }
            Method::Sine(course, cut_off) => {
                self.course(course, lowest, highest, next_lowest, |low, high| {
                    cut(low, high, base, self.ceiling, cut_off, above_sine, over_sine)
                })
            }
            Method::Triangle(course, cut_off) => {
                self.course(course, lowest, highest, next_lowest, |low, high| {
                    cut(low, high, base, self.ceiling, cut_off, above_triangle, over_triangle)
                })
            }
            Method::Beta { best } => {
                let ceiling = self.ceiling.filter(|ceiling| base < best && best < *ceiling)?;
                let over_base = |degrees: f64| degrees - base;
                let share =
                    beta_response(over_base(0.5 * (lowest + highest)), over_base(best), over_base(ceiling));
                Some(over_base(best) * share)
            }
        }
    }

    fn course(
        &self,
        course: Course,
        lowest: f64,
        highest: f64,
        next_lowest: Option<f64>,
        half: impl Fn(f64, f64) -> f64,
    ) -> Option<f64> {
        match course {
            Course::Single => Some(half(lowest, highest)),
            Course::Double => {
                let next = next_lowest.filter(|next| next.is_finite())?;
                // A night warmer than the day before it has no afternoon to fall through.
                Some(0.5 * (half(lowest, highest) + half(next.min(highest), highest)))
            }
        }
    }

    /// The same as [`Self::sums`], to the end of the longest season that picks may have.
    #[must_use]
    pub fn season(&self, days: &Days, from: Date) -> Vec<(Date, f64)> {
        let until = from.saturating_add(LONGEST_SEASON.days());
        self.sums(days, from).take_while(|(day, _)| *day <= until).collect()
    }

    /// Degree-days from a day on, that day included: what each day adds up to. Ends before the first day that is not known.
    pub fn sums<'a>(&'a self, days: &'a Days, from: Date) -> impl Iterator<Item = (Date, f64)> + 'a {
        let (lowest, highest) = (days.lowest(), days.highest());
        let mut next = days.place(from).map(|place| (place, from));
        let mut sum = 0.0;
        std::iter::from_fn(move || {
            let (place, date) = next?;
            let tomorrow = lowest.get(place + 1).copied();
            sum += self.day(*lowest.get(place)?, *highest.get(place)?, tomorrow)?;
            next = date.tomorrow().ok().map(|date| (place + 1, date));
            Some((date, sum))
        })
    }
}

/// Cuts a course between lowest and highest at base and ceiling. `above` says how much of it lies above a line, `over`
/// for what part of the day.
fn cut(
    lowest: f64,
    highest: f64,
    base: f64,
    ceiling: Option<f64>,
    cut_off: CutOff,
    above: fn(f64, f64, f64) -> f64,
    over: fn(f64, f64, f64) -> f64,
) -> f64 {
    let whole = above(lowest, highest, base);
    let Some(ceiling) = ceiling else { return whole };
    let beyond = above(lowest, highest, ceiling);
    match cut_off {
        CutOff::Horizontal => whole - beyond,
        CutOff::Intermediate => (whole - 2.0 * beyond).max(0.0),
        CutOff::Vertical => whole - beyond - (ceiling - base) * over(lowest, highest, ceiling),
    }
}

/// Mean height above a line of a sine between two temperatures.
fn above_sine(lowest: f64, highest: f64, line: f64) -> f64 {
    let (middle, reach) = (0.5 * (highest + lowest), 0.5 * (highest - lowest));
    if highest <= line {
        0.0
    } else if line <= lowest {
        middle - line
    } else {
        let angle = ((line - middle) / reach).asin();
        (reach * angle.cos() - (line - middle) * (0.5 * PI - angle)) / PI
    }
}

/// Part of the day that a sine is above a line.
fn over_sine(lowest: f64, highest: f64, line: f64) -> f64 {
    let (middle, reach) = (0.5 * (highest + lowest), 0.5 * (highest - lowest));
    if highest <= line {
        0.0
    } else if line <= lowest {
        1.0
    } else {
        (0.5 * PI - ((line - middle) / reach).asin()) / PI
    }
}

/// The same of straight lines up and down.
fn above_triangle(lowest: f64, highest: f64, line: f64) -> f64 {
    if highest <= line {
        0.0
    } else if line <= lowest {
        0.5 * (highest + lowest) - line
    } else {
        (highest - line).powi(2) / (2.0 * (highest - lowest))
    }
}

fn over_triangle(lowest: f64, highest: f64, line: f64) -> f64 {
    if highest <= line {
        0.0
    } else if line <= lowest {
        1.0
    } else {
        (highest - line) / (highest - lowest)
    }
}

/// Rate of growth beside that at the best temperature, from 0 to 1: nothing at 0 and at the ceiling.
///
/// # Source
/// Yan and Hunt 1999, Annals of Botany 84:607-614.
#[must_use]
pub fn beta_response(celsius: f64, best: f64, ceiling: f64) -> f64 {
    if celsius <= 0.0 || ceiling <= celsius {
        return 0.0;
    }
    (ceiling - celsius) / (ceiling - best) * (celsius / best).powf(best / (ceiling - best))
}
