//! Forecasts held to what came: how often the range that was told held it, and to which side the middling one missed.
//!
//! A fair trial forecasts a season from the others alone, with that season's own weather: what is left is what is not
//! known of plants and plots. Start at [`Held::add`].

use super::Forecast;
use crate::picked::Picked;

/// What a plot gave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Came {
    /// Kilograms of sound fruit a plant.
    pub kilograms: f64,
    /// Days from transplanting to the first ripe fruit; `None` where nobody knows.
    pub first: Option<f64>,
}

impl Came {
    /// What the picks of a plot say, with its kilograms a plant. A first pick's fruit ripened since there was nothing to
    /// pick: halfway back over the plot's usual wait between picks.
    #[must_use]
    pub fn of(picked: &Picked, kilograms: f64) -> Self {
        let first = picked.first().map(f64::from).zip(picked.usual_wait());
        Self { kilograms, first: first.map(|(day, wait)| day - 0.5 * wait) }
    }
}

/// How plots' forecasts came out, added up.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Held {
    plots: u32,
    within: u32,
    log_over: f64,
    firsts: u32,
    first_within: u32,
    days_late: f64,
}

impl Held {
    /// Holds one plot's forecast to what it gave. A plot that gave nothing is not told from one that nobody picked, and is
    /// left out; so is a first fruit where the forecast has none.
    pub fn add(&mut self, forecast: &Forecast, came: &Came) {
        let [poor, middling, good] = forecast.total;
        if 0.0 < came.kilograms && 0.0 < middling {
            self.plots += 1;
            self.within += u32::from((poor..=good).contains(&came.kilograms));
            self.log_over += (came.kilograms / middling).ln();
        }
        let [early, usual, late] = forecast.first.map(|day| day.map(f64::from));
        if let (Some(first), Some(early), Some(usual)) = (came.first, early, usual) {
            self.firsts += 1;
            // A late day that never comes is later than any. A day that is told is a whole one.
            let late = late.unwrap_or(f64::INFINITY);
            self.first_within += u32::from((early - WHOLE_DAY..=late + WHOLE_DAY).contains(&first));
            self.days_late += first - usual;
        }
    }

    /// Adds what another sum holds.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            plots: self.plots + other.plots,
            within: self.within + other.within,
            log_over: self.log_over + other.log_over,
            firsts: self.firsts + other.firsts,
            first_within: self.first_within + other.first_within,
            days_late: self.days_late + other.days_late,
        }
    }

    /// Plots whose harvest was held to their forecast.
    #[must_use]
    pub fn plots(&self) -> u32 {
        self.plots
    }

    /// Part of the plots whose harvest lay between the poor and the good one told, which 80 in 100 should.
    #[must_use]
    pub fn within(&self) -> Option<f64> {
        part(f64::from(self.within), self.plots)
    }

    /// What came for each kilogram of the middling forecast: a geometric mean.
    #[must_use]
    pub fn came_for_one(&self) -> Option<f64> {
        part(self.log_over, self.plots).map(f64::exp)
    }

    /// Plots whose first ripe fruit was held to its day.
    #[must_use]
    pub fn firsts(&self) -> u32 {
        self.firsts
    }

    /// Part of them whose first fruit came between the early and the late day told, which 80 in 100 should.
    #[must_use]
    pub fn first_within(&self) -> Option<f64> {
        part(f64::from(self.first_within), self.firsts)
    }

    /// Days by which the first fruit came later than the middling day, on average; negative where earlier.
    #[must_use]
    pub fn days_late(&self) -> Option<f64> {
        part(self.days_late, self.firsts)
    }
}

/// Half a day to either side is the same day.
const WHOLE_DAY: f64 = 0.5;

fn part(sum: f64, count: u32) -> Option<f64> {
    (0 < count).then(|| sum / f64::from(count))
}
