//! When a variety's fruit ripens: a law fitted to every plot's picks, and how far plots and seasons move it.
//!
//! Fruits of one plot are not independent, so the error of a fit over fruits says nothing of another plot. What does is
//! the scatter of plots about their variety and season, and of seasons about their variety; both are worked out over all
//! varieties of the house ([`Scatter::of`]), so that one with a single plot borrows what plots are like from the rest.
//! A house with one season cannot know how far another would move it, and then no such range is told.
//!
//! Start at [`fit`], then [`Scatter::of`] and [`Point::of`]; [`course`] is the whole curve, for a drawing.
//!
//! # Source
//! Interval-censored likelihood: standard theory, see `statistics::censored`. Components of variance by equating mean
//! squares, degrees of freedom of their sum: Satterthwaite 1946, Biometrics Bulletin 2:110-114 (from memory, unverified).

use crate::picked::Picked;
use crate::timeline::{Counted, Needed, Timeline};
use record::season::Season;
use record::share::Share;
pub use statistics::censored::Law;
use statistics::censored::{self, Model, Reading};
use statistics::students_t::{self, Degrees};
use std::collections::{BTreeMap, BTreeSet};

/// Laws that are tried: times of one hump. All have as many parameters, so the likeliest is also the best by Akaike's
/// criterion, however much the fruits of a plot depend on each other.
pub const LAWS: [Law; 4] = [Law::LogNormal, Law::Weibull, Law::LogLogistic, Law::Gamma];

/// The shares ripe that are told.
pub const SHARES: [f64; 3] = [0.1, 0.5, 0.9];

/// When one plot's fruit ripened in one season.
#[derive(Clone, Debug, PartialEq)]
pub struct PlotCurve {
    /// The season.
    pub season: Season,
    /// Time since transplanting at which a tenth, half and nine tenths were ripe.
    pub ripe: [f64; 3],
}

/// A plot to be fitted: its season, its picks, and the times of their days.
pub type PlotOf<'a> = (Season, &'a Picked, &'a Timeline);

/// A law fitted to all plots of a variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves {
    /// What its times are counted in.
    pub counted: Counted,
    /// The law.
    pub law: Law,
    /// How much smaller the log-likelihood of the next best law is, for each fruit.
    pub next_best: Option<(Law, f64)>,
    /// The plots that could be fitted.
    pub plots: Vec<PlotCurve>,
    /// Plots whose picks tell no law.
    pub not_told: usize,
}

/// Fits laws to each plot by itself and keeps the one that is likeliest over all; `None` where no plot tells one.
///
/// Times are counted as the plots' timelines do, and the curves say so. A plot with a day that its own does not know is not
/// fitted; where one counts in another than the first, none is.
#[must_use]
pub fn fit(laws: &[Law], plots: &[PlotOf<'_>]) -> Option<Curves> {
    let counted = counted(plots)?;
    let read = read(plots);
    let mut tried: Vec<(Law, f64, Vec<PlotCurve>)> = laws
        .iter()
        .map(|law| {
            let mut likelihood = 0.0;
            let curves = read.iter().filter_map(|(season, readings, weights)| {
                let columns = [vec![1.0; readings.len()]];
                let model = Model { law: *law, readings, columns: &columns, weights: Some(weights) };
                let fitted = censored::fit(&model).ok()?;
                let at = |share| Some(fitted.quantile(&[1.0], Share::new(share)?)?.estimate);
                let [tenth, half, nine] = SHARES;
                likelihood += fitted.log_likelihood;
                Some(PlotCurve { season: *season, ripe: [at(tenth)?, at(half)?, at(nine)?] })
            });
            let curves: Vec<PlotCurve> = curves.collect();
            (*law, likelihood, curves)
        })
        .collect();
    // A law that fits fewer plots is no rival: its likelihood is a sum over fewer.
    let most = tried.iter().map(|(_, _, curves)| curves.len()).max().filter(|most| 0 < *most)?;
    tried.retain(|(_, _, curves)| curves.len() == most);
    tried.sort_by(|one, other| other.1.total_cmp(&one.1));
    let mut rivals = tried.into_iter();
    let (law, likelihood, curves) = rivals.next()?;
    let next_best = rivals.next().map(|(next, less, _)| (next, (likelihood - less) / count(most)));
    Some(Curves { counted, law, next_best, not_told: plots.len() - curves.len(), plots: curves })
}

/// What all plots are counted in; `None` where there are none, or they are not counted alike.
fn counted(plots: &[PlotOf<'_>]) -> Option<Counted> {
    let (_, _, first) = plots.first()?;
    plots.iter().all(|(_, _, timeline)| timeline.counted() == first.counted()).then(|| first.counted())
}

/// Readings of each plot, weighed as parts of the plot: one weighed in grams must not outweigh one that was counted.
fn read(plots: &[PlotOf<'_>]) -> Vec<(Season, Vec<Reading>, Vec<f64>)> {
    let one = |(season, picked, timeline): &PlotOf<'_>| {
        let (readings, amounts) = picked.readings(|day| timeline.time(picked, day))?;
        let total: f64 = amounts.iter().sum();
        Some((*season, readings, amounts.iter().map(|amount| amount / total).collect()))
    };
    plots.iter().filter_map(one).collect()
}

/// Shares ripe at which a curve is drawn, in 100: close where it bends.
const COURSE: [f64; 19] = [
    0.5, 1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 85.0, 90.0, 93.0, 95.0, 97.0,
    98.0,
];

/// The whole curve of a variety by one law: the time to each of some shares, the middle of its seasons and each the middle of
/// its plots, as a [`Point`] has it.
///
/// # Shape
/// Shares and times rise together. Empty where no plot tells the law, or they are not counted alike.
#[must_use]
pub fn course(law: Law, plots: &[PlotOf<'_>]) -> Vec<(Share, f64)> {
    if counted(plots).is_none() {
        return Vec::new();
    }
    let shares: Vec<Share> = COURSE.iter().filter_map(|in_100| Share::new(in_100 / 100.0)).collect();
    let mut seasons: BTreeMap<Season, Vec<Vec<f64>>> = BTreeMap::new();
    for (season, readings, weights) in read(plots) {
        let columns = [vec![1.0; readings.len()]];
        let model = Model { law, readings: &readings, columns: &columns, weights: Some(&weights) };
        let Ok(fitted) = censored::fit(&model) else { continue };
        let log = |share: &Share| {
            Some(fitted.quantile(&[1.0], *share)?.estimate.ln()).filter(|log| log.is_finite())
        };
        if let Some(logs) = shares.iter().map(log).collect::<Option<Vec<f64>>>() {
            seasons.entry(season).or_default().push(logs);
        }
    }
    if seasons.is_empty() {
        return Vec::new();
    }
    let at = |place: usize| {
        let own = |plots: &Vec<Vec<f64>>| {
            mean(&plots.iter().filter_map(|logs| logs.get(place).copied()).collect::<Vec<f64>>())
        };
        mean(&seasons.values().map(own).collect::<Vec<f64>>()).exp()
    };
    shares.iter().enumerate().map(|(place, share)| (*share, at(place))).collect()
}

/// How far plots and seasons move a time, on the scale of its logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scatter {
    /// Variance between plots of one variety in one season.
    pub plots: Component,
    /// Variance between seasons of one variety; `None` in a house whose varieties have one season each.
    pub seasons: Option<Component>,
}

/// A component of variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Component {
    /// The variance.
    pub variance: f64,
    /// Degrees of freedom behind it.
    pub degrees: f64,
}

impl Scatter {
    /// Works both components out over all varieties of a house, of one of the [`SHARES`]; `None` where no variety has two
    /// plots in a season, and where not all are counted in the same.
    #[must_use]
    pub fn of(varieties: &[&Curves], share: usize) -> Option<Self> {
        let counted = varieties.first()?.counted;
        varieties.iter().all(|one| one.counted == counted).then_some(())?;
        Self::over(&varieties.iter().map(|one| by_season(one, share)).collect::<Vec<_>>())
    }

    /// The same of any logarithms: one map of seasons a variety, each with one number a plot.
    #[must_use]
    pub fn over(seasons: &[BTreeMap<Season, Vec<f64>>]) -> Option<Self> {
        let cells = || seasons.iter().flat_map(BTreeMap::values);
        let within: f64 = cells().map(|logs| squares(logs)).sum();
        let degrees = cells().map(|logs| count(logs.len()) - 1.0).sum::<f64>();
        let plots = (0.0 < degrees).then(|| Component { variance: within / degrees, degrees })?;
        let means = seasons.iter().filter(|own| 1 < own.len());
        let means: Vec<Vec<f64>> = means.map(|own| own.values().map(|logs| mean(logs)).collect()).collect();
        let between: f64 = means.iter().map(|own| squares(own)).sum();
        let compared: f64 = means.iter().map(|own| count(own.len()) - 1.0).sum();
        // What is left of the plots' own scatter in a season's mean.
        let several = seasons.iter().filter(|own| 1 < own.len()).flat_map(BTreeMap::values);
        let left: Vec<f64> = several.map(|logs| plots.variance / count(logs.len())).collect();
        let every: BTreeSet<Season> =
            seasons.iter().filter(|own| 1 < own.len()).flat_map(|own| own.keys().copied()).collect();
        let seasons = (0.0 < compared).then(|| Component {
            variance: (between / compared - mean(&left)).max(0.0),
            // A season moves all varieties together, so it counts once however many stood in it.
            degrees: count(every.len()) - 1.0,
        });
        Some(Self { plots, seasons })
    }
}

/// A variety's time to one share ripe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// What the times are counted in.
    pub counted: Counted,
    /// The middle of its seasons, each the middle of its plots: a geometric mean.
    pub time: f64,
    /// Between what times 90 of 100 other plots of the same seasons would lie.
    pub another_plot: Option<(f64, f64)>,
    /// Between what times 90 of 100 plots of other seasons would lie; `None` where seasons are not known.
    pub another_season: Option<(f64, f64)>,
}

/// Part of other plots that a range is to hold.
const HELD: f64 = 0.9;

impl Point {
    /// Tells one of the [`SHARES`] of a variety, with what its house knows of scatter.
    #[must_use]
    pub fn of(curves: &Curves, share: usize, scatter: Option<&Scatter>) -> Option<Self> {
        let seasons = by_season(curves, share);
        let means: Vec<f64> = seasons.values().map(|logs| mean(logs)).collect();
        if means.is_empty() {
            return None;
        }
        let middle = mean(&means);
        let number = count(means.len());
        let each: f64 = seasons.values().map(|logs| 1.0 / count(logs.len())).sum();
        let range = |parts: &[(Component, f64)]| {
            let sum: f64 = parts.iter().map(|(part, times)| part.variance * times).sum();
            let terms = parts.iter().map(|(part, times)| (part.variance * times).powi(2) / part.degrees);
            let degrees = sum.powi(2) / terms.sum::<f64>();
            let t = students_t::critical(Share::new(HELD)?, Degrees::new(degrees)?)?;
            let reach = t * sum.sqrt();
            Some(((middle - reach).exp(), (middle + reach).exp()))
        };
        let plot = scatter.map(|scatter| (scatter.plots, 1.0 + each / number.powi(2)));
        let season = scatter.and_then(|scatter| Some((scatter.seasons?, 1.0 + 1.0 / number)));
        Some(Self {
            counted: curves.counted,
            time: middle.exp(),
            another_plot: plot.and_then(|plot| range(&[plot])),
            another_season: plot.zip(season).and_then(|(plot, season)| range(&[plot, season])),
        })
    }
}

impl Point {
    /// The warmth that it takes; `None` of a time in days.
    #[must_use]
    pub fn needed(&self) -> Option<Needed> {
        match self.counted {
            Counted::InDays => None,
            Counted::InWarmth(clock) => Some(Needed::new(clock, self.time)),
        }
    }
}

/// Logarithms of a share's times, season by season.
fn by_season(curves: &Curves, share: usize) -> BTreeMap<Season, Vec<f64>> {
    let mut seasons: BTreeMap<Season, Vec<f64>> = BTreeMap::new();
    for plot in &curves.plots {
        let time = plot.ripe.get(share).copied().filter(|time| 0.0 < *time && time.is_finite());
        if let Some(time) = time {
            seasons.entry(plot.season).or_default().push(time.ln());
        }
    }
    seasons
}

fn mean(numbers: &[f64]) -> f64 {
    numbers.iter().sum::<f64>() / count(numbers.len().max(1))
}

/// Squares about the mean, added up.
fn squares(numbers: &[f64]) -> f64 {
    let middle = mean(numbers);
    numbers.iter().map(|number| (number - middle).powi(2)).sum()
}

#[expect(clippy::cast_precision_loss, reason = "plots and seasons of a house are few")]
fn count(number: usize) -> f64 {
    number as f64
}
