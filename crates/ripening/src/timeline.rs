//! Time since transplanting, by the calendar or by warmth.
//!
//! A time that was fitted in one of these means nothing in the other, nor does one counted by another clock. So what it
//! was counted in goes along with every fitted number ([`Counted`]), and a number of degree-days is asked for its day
//! through its own clock only ([`Needed`]): no other can be handed in.

use crate::grown::Grown;
use crate::picked::Picked;
use crate::thermal::Clock;
use crate::weather::Days;
use jiff::civil::Date;

/// What times since transplanting are counted in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Counted {
    /// Days.
    InDays,
    /// Degree-days of a clock.
    InWarmth(Clock),
}

/// Times of one plot's season.
#[derive(Clone, Debug, PartialEq)]
pub enum Timeline {
    /// Days since the plants went out.
    Days,
    /// Degree-days since then.
    Warmth(Warmth),
}

/// Degree-days from a day on, day by day.
#[derive(Clone, Debug, PartialEq)]
pub struct Warmth {
    clock: Clock,
    out: Date,
    /// At the end of each day, that of transplanting first.
    sums: Vec<f64>,
    /// Whether nothing is gained after the last of them, as after a killing frost; else nothing more is known.
    ended: bool,
}

impl Timeline {
    /// Counts the warmth of a season out of a station's days.
    #[must_use]
    pub fn of_days(clock: Clock, days: &Days, out: Date) -> Self {
        let sums = clock.season(days, out).into_iter().map(|(_, sum)| sum).collect();
        Self::Warmth(Warmth { clock, out, sums, ended: false })
    }

    /// Takes that of a season that is told already, as a middling one that stands in.
    #[must_use]
    pub fn of_grown(grown: &Grown) -> Self {
        let (clock, out, sums) = (grown.clock, grown.out, grown.heat.clone());
        Self::Warmth(Warmth { clock, out, sums, ended: grown.killed.is_some() })
    }

    /// What it counts in.
    #[must_use]
    pub fn counted(&self) -> Counted {
        match self {
            Self::Days => Counted::InDays,
            Self::Warmth(Warmth { clock, .. }) => Counted::InWarmth(*clock),
        }
    }

    /// The time of a day of a plot; `None` where its weather is not known, and of a plot that went out on another day.
    #[must_use]
    pub fn time(&self, picked: &Picked, day: Date) -> Option<f64> {
        let place = picked.transplanted().until(day).ok()?.get_days();
        match self {
            Self::Days => Some(f64::from(place)),
            Self::Warmth(warmth) => {
                (warmth.out == picked.transplanted()).then_some(())?;
                let sum = warmth.sums.get(usize::try_from(place).ok()?);
                sum.or_else(|| warmth.sums.last().filter(|_| warmth.ended)).copied()
            }
        }
    }

    /// Whether it knows every day of a plot's season, from transplanting to the last pick.
    #[must_use]
    pub fn covers(&self, picked: &Picked) -> bool {
        picked.taken().last().is_some_and(|last| self.time(picked, last.on).is_some())
    }
}

/// Degree-days that something needs, beside the clock that they were counted by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needed {
    clock: Clock,
    degree_days: f64,
}

impl Needed {
    /// So many degree-days of a clock.
    #[must_use]
    pub const fn new(clock: Clock, degree_days: f64) -> Self {
        Self { clock, degree_days }
    }

    /// The clock that they were counted by.
    #[must_use]
    pub fn clock(&self) -> Clock {
        self.clock
    }

    /// How many.
    #[must_use]
    pub fn degree_days(&self) -> f64 {
        self.degree_days
    }

    /// The first day on which they have been reached, counted from a day on, that day included; `None` where the days
    /// end before it, or by `until`.
    #[must_use]
    pub fn reached(&self, days: &Days, from: Date, until: Date) -> Option<Date> {
        let mut sums = self.clock.sums(days, from).take_while(|(day, _)| *day <= until);
        sums.find(|(_, sum)| self.degree_days <= *sum).map(|(day, _)| day)
    }
}

/// What a plot's season was like, from transplanting to the last pick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Summer {
    /// Mean of the lowest temperatures, in degrees Celsius.
    pub lowest: f64,
    /// Mean of the highest.
    pub highest: f64,
}

impl Summer {
    /// The means of a run of days; `None` where one of them is not known.
    #[must_use]
    pub fn of(days: &Days, from: Date, to: Date) -> Option<Self> {
        let (first, last) = (days.place(from)?, days.place(to)?);
        let mean = |column: &[f64]| {
            let own = column.get(first..=last)?;
            let count = u32::try_from(own.len()).ok().filter(|count| 0 < *count)?;
            Some(own.iter().sum::<f64>() / f64::from(count)).filter(|mean| mean.is_finite())
        };
        Some(Self { lowest: mean(days.lowest())?, highest: mean(days.highest())? })
    }
}
