//! What a variety's plots say of its crop: when it comes, how drawn out it is, how many kilograms a plant; and what may be
//! believed of another plot in another season.
//!
//! A determinate plant has one crop, a hump in thermal time. An indeterminate one streams until frost stops it, and a hump
//! fitted to where its season ended would end there in every garden. Weights are put back to what would have ripened had
//! every flower set, so that a season of poor set does not make a poor variety.
//!
//! One plot in one season says little: the same variety moves up to 2.5-fold between years. So each variety's own mean is
//! drawn towards that of its kind by as much as it is unsure, and scatter between plots and seasons is the whole house's,
//! with a prior where it has few seasons. Start at [`of_plot`], then [`Kind::of`] and [`Belief::of`].

use crate::curve::{Component, Scatter};
use crate::grown::Grown;
use crate::picked::{LastPick, Picked};
use crate::stream::Beginning;
use crate::thermal::Clock;
use crate::truss::Trusses;
use record::season::Season;
use record::share::Share;
use statistics::censored::{self, Law, Model, Reading};
use statistics::normal::chance_below;
use std::collections::BTreeMap;

mod cut_short;

/// How a crop goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// One crop, with an end.
    Hump,
    /// Truss after truss until frost.
    Stream,
}

/// The crop of one plot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlotCrop {
    /// The season.
    pub season: Season,
    /// How the warmth of its times is counted.
    pub clock: Clock,
    /// Logarithm of the degree-days to the middle of a hump, or to a stream's beginning.
    pub middle: f64,
    /// Standard deviation of that logarithm over the fruit, or over the plants.
    pub spread: f64,
    /// Kilograms a plant: all of a hump, or in each [`RATE_HEAT`] of a stream.
    pub kilograms: f64,
}

/// Degree-days that the weight of a stream is told for.
pub const RATE_HEAT: f64 = 100.0;

/// How much of a crop has come after so many degree-days: a share of a hump; multiples of [`RATE_HEAT`] for a stream.
#[must_use]
pub fn come(shape: Shape, middle: f64, spread: f64, heat: f64) -> f64 {
    match shape {
        Shape::Hump if heat <= 0.0 => 0.0,
        Shape::Hump => chance_below((heat.ln() - middle) / spread),
        Shape::Stream => Beginning { middle, spread }.streamed(heat) / RATE_HEAT,
    }
}

/// Reads one plot's crop from its picks; `None` where they tell none. `sound` is sound fruit a plant, in kilograms.
#[must_use]
pub fn of_plot(shape: Shape, season: Season, picked: &Picked, grown: &Grown, sound: f64) -> Option<PlotCrop> {
    let (readings, amounts) = picked.readings(|day| grown.heat_on(day))?;
    let (middle, spread) = match (shape, picked.last_pick()) {
        (Shape::Hump, LastPick::ClearOut) => whole_hump(&readings, &amounts)?,
        _ => {
            let course = cut_short::fit(shape, &readings, &amounts)?;
            (course.middle, course.spread)
        }
    };
    let cleared = match (picked.last_pick(), picked.taken()) {
        (LastPick::ClearOut, [.., last]) => last.amount / picked.total(),
        _ => 0.0,
    };
    let last = picked.taken().iter().rev().nth(usize::from(0.0 < cleared))?;
    let ripened = grown.come_by(shape, middle, spread, last.on);
    let potential = match shape {
        // What was cleared off would have ripened: it is part of the hump, and none of the stream.
        Shape::Hump => {
            sound
                / (ripened
                    + if 0.0 < cleared {
                        1.0 - come(shape, middle, spread, grown.heat_on(last.on)?)
                    } else {
                        0.0
                    })
        }
        Shape::Stream => sound * (1.0 - cleared) / ripened,
    };
    let plot = PlotCrop { season, clock: grown.clock, middle, spread, kilograms: potential };
    (middle.is_finite() && 0.0 < spread && potential.is_finite() && 0.0 < potential).then_some(plot)
}

/// Middle and spread of a hump whose end is known: what was cleared off ripens after the pick before it.
fn whole_hump(readings: &[Reading], amounts: &[f64]) -> Option<(f64, f64)> {
    let columns = [vec![1.0; readings.len()]];
    let total: f64 = amounts.iter().sum();
    let weights: Vec<f64> = amounts.iter().map(|amount| amount / total).collect();
    let model = Model { law: Law::LogNormal, readings, columns: &columns, weights: Some(&weights) };
    let fitted = censored::fit(&model).ok()?;
    let at = |share| Some(fitted.quantile(&[1.0], Share::new(share)?)?.estimate.ln());
    Some((at(0.5)?, (at(0.9)? - at(0.1)?) / (2.0 * NINE_TENTHS)))
}

/// Standard normal deviate below which nine tenths lie.
pub(crate) const NINE_TENTHS: f64 = 1.281_551_565_544_600_4;

impl Grown {
    /// Degree-days by the end of a day; what the plants had when frost killed them, of days after that.
    #[must_use]
    pub fn heat_on(&self, day: jiff::civil::Date) -> Option<f64> {
        let place = usize::try_from(self.out.until(day).ok()?.get_days()).ok()?;
        self.heat.get(place).or_else(|| self.killed.and(self.heat.last())).copied()
    }

    /// How much of a crop has come by the end of a day, as well as its flowers set.
    fn come_by(&self, shape: Shape, middle: f64, spread: f64, day: jiff::civil::Date) -> f64 {
        let days = self.out.until(day).map_or(0, |span| usize::try_from(span.get_days() + 1).unwrap_or(0));
        let mut before = 0.0;
        let own = self.heat.iter().zip(&self.set).take(days).map(|(heat, set)| {
            let now = come(shape, middle, spread, *heat);
            let ripened = set * (now - before);
            before = now;
            ripened
        });
        own.sum()
    }
}

/// The plots of a variety; none of one that stands for its kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Crop {
    /// How it goes on.
    pub shape: Shape,
    /// How fast trusses follow each other on plants with fruit of its size.
    pub trusses: Trusses,
    /// Plot by plot.
    pub plots: Vec<PlotCrop>,
}

impl Crop {
    fn by_season(&self, of: fn(&Self, &PlotCrop) -> f64) -> BTreeMap<Season, Vec<f64>> {
        let mut seasons: BTreeMap<Season, Vec<f64>> = BTreeMap::new();
        for plot in &self.plots {
            seasons.entry(plot.season).or_default().push(of(self, plot));
        }
        seasons
    }

    /// What plants of this size of fruit bear beside others of their kind before any was picked, as a logarithm. A stream
    /// brings as many more trusses as its fruit is smaller; a hump is told by its whole crop, whatever its trusses.
    fn usual(&self) -> f64 {
        match self.shape {
            Shape::Hump => 0.0,
            Shape::Stream => self.trusses.a_week().ln(),
        }
    }
}

/// One number of a kind's crops, on the scale of its logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Trait {
    /// Mean over varieties, each counted once.
    mean: f64,
    /// Variance between varieties.
    between: f64,
    /// Varieties behind it.
    varieties: f64,
    plots: Component,
    seasons: Component,
}

/// What crops of one shape are like over a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kind {
    shape: Shape,
    clock: Clock,
    middle: Trait,
    /// Beside what is usual for the size of the fruit: see [`Crop::usual`].
    kilograms: Trait,
    spread: f64,
}

/// What is taken of plots and seasons beforehand, and how many degrees of freedom that is worth.
///
/// # Source
/// Kilograms: single plants of one plot differ by 28 in 100 (eleven garden plants of the fertilizer example in Box, Hunter
/// and Hunter, Statistics for Experimenters); six varieties in two years of one garden's picks differed by 0.46 in the
/// logarithm, plots within seasons included (our figure). Times: our own judgement, no source.
const PRIOR_DEGREES: f64 = 3.0;
const MIDDLE_PRIOR: (f64, f64) = (0.04 * 0.04, 0.06 * 0.06);
const KILOGRAMS_PRIOR: (f64, f64) = (0.2 * 0.2, 0.4 * 0.4);

impl Kind {
    /// Works a kind out of its varieties' crops; `None` where there are none, or their plots are counted by different clocks.
    #[must_use]
    pub fn of(shape: Shape, crops: &[&Crop]) -> Option<Self> {
        let own: Vec<&Crop> =
            crops.iter().copied().filter(|crop| crop.shape == shape && !crop.plots.is_empty()).collect();
        let mut spreads: Vec<f64> =
            own.iter().flat_map(|crop| crop.plots.iter().map(|plot| plot.spread)).collect();
        spreads.sort_by(f64::total_cmp);
        let mut clocks = own.iter().flat_map(|crop| crop.plots.iter().map(|plot| plot.clock));
        let clock = clocks.next()?;
        clocks.all(|other| other == clock).then_some(())?;
        Some(Self {
            shape,
            clock,
            middle: Trait::of(&own, |_, plot| plot.middle, MIDDLE_PRIOR)?,
            kilograms: Trait::of(&own, beside_usual, KILOGRAMS_PRIOR)?,
            spread: spreads.get(spreads.len() / 2).copied()?,
        })
    }
}

/// Logarithm of a plot's kilograms over what is usual for the size of its fruit.
fn beside_usual(crop: &Crop, plot: &PlotCrop) -> f64 {
    plot.kilograms.ln() - crop.usual()
}

impl Trait {
    fn of(crops: &[&Crop], of: fn(&Crop, &PlotCrop) -> f64, prior: (f64, f64)) -> Option<Self> {
        let logs: Vec<BTreeMap<Season, Vec<f64>>> = crops.iter().map(|crop| crop.by_season(of)).collect();
        let scatter = Scatter::over(&logs);
        let plots = steadied(scatter.map(|scatter| scatter.plots), prior.0);
        let seasons = steadied(scatter.and_then(|scatter| scatter.seasons), prior.1);
        let means: Vec<(f64, f64)> = logs.iter().map(|own| mean_of_seasons(own, plots, seasons)).collect();
        let varieties = f64::from(u32::try_from(means.len()).ok().filter(|count| 0 < *count)?);
        let mean = means.iter().map(|(mean, _)| mean).sum::<f64>() / varieties;
        let squares: f64 = means.iter().map(|(own, _)| (own - mean).powi(2)).sum();
        // Seasons move varieties together, so what single means are unsure by shows only in part between them.
        let unsure = means.iter().map(|(_, variance)| variance).sum::<f64>() / varieties;
        let between = if 1.0 < varieties { (squares / (varieties - 1.0) - unsure).max(0.0) } else { 0.0 };
        Some(Self { mean, between, varieties, plots, seasons })
    }

    /// What may be believed of a variety's mean, and of a plot about it.
    fn known(&self, own: Option<(f64, f64)>) -> Known {
        let about = self.plots.variance + self.seasons.variance;
        let degrees = about.powi(2)
            / (self.plots.variance.powi(2) / self.plots.degrees
                + self.seasons.variance.powi(2) / self.seasons.degrees);
        let (mean, of_mean, borrowed) = match own {
            None => (self.mean, self.between * (1.0 + 1.0 / self.varieties), 1.0),
            Some((own, variance)) => {
                let weight =
                    if self.varieties < 2.0 { 1.0 } else { self.between / (self.between + variance) };
                (self.mean + weight * (own - self.mean), weight * variance, 1.0 - weight)
            }
        };
        Known { mean, of_mean, about, degrees, borrowed }
    }
}

/// A component with what was taken beforehand mixed in.
fn steadied(found: Option<Component>, prior: f64) -> Component {
    let (variance, degrees) = found.map_or((0.0, 0.0), |found| (found.variance, found.degrees.max(0.0)));
    let all = PRIOR_DEGREES + degrees;
    Component { variance: (PRIOR_DEGREES * prior + degrees * variance) / all, degrees: all }
}

/// Mean over a variety's seasons, each the mean of its plots, and its variance.
fn mean_of_seasons(own: &BTreeMap<Season, Vec<f64>>, plots: Component, seasons: Component) -> (f64, f64) {
    let count = |number: usize| u32::try_from(number).map_or(f64::INFINITY, f64::from);
    let means = own.values().map(|logs| logs.iter().sum::<f64>() / count(logs.len()));
    let of_plots: f64 = own.values().map(|logs| plots.variance / count(logs.len())).sum();
    let number = count(own.len());
    (means.sum::<f64>() / number, seasons.variance / number + of_plots / number.powi(2))
}

/// What is known of one logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// The variety's mean.
    pub mean: f64,
    /// Variance of what is believed of that mean.
    pub of_mean: f64,
    /// Variance of a plot of another season about it.
    pub about: f64,
    /// Degrees of freedom of that.
    pub degrees: f64,
    /// Part of the mean that is the kind's, from 0 to 1.
    pub borrowed: f64,
}

/// What is believed of a variety's crop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Belief {
    /// How it goes on.
    pub shape: Shape,
    /// How the warmth of its times is counted.
    pub clock: Clock,
    /// Logarithm of the degree-days to the middle or the beginning.
    pub middle: Known,
    /// Logarithm of the kilograms.
    pub kilograms: Known,
    /// Spread over the fruit or the plants.
    pub spread: f64,
}

impl Belief {
    /// Weighs a variety's own plots against its kind; one without plots is its kind, at its own rate of trusses. `None` of
    /// another kind's variety, or one whose plots are counted by another clock.
    #[must_use]
    pub fn of(own: &Crop, kind: &Kind) -> Option<Self> {
        let fits = own.shape == kind.shape && own.plots.iter().all(|plot| plot.clock == kind.clock);
        fits.then_some(())?;
        let mean = |of: fn(&Crop, &PlotCrop) -> f64, of_kind: &Trait| {
            let plots = Some(own.by_season(of)).filter(|seasons| !seasons.is_empty());
            plots.map(|seasons| mean_of_seasons(&seasons, of_kind.plots, of_kind.seasons))
        };
        let count = u32::try_from(own.plots.len()).map_or(f64::INFINITY, f64::from);
        let spread = if own.plots.is_empty() {
            kind.spread
        } else {
            own.plots.iter().map(|plot| plot.spread).sum::<f64>() / count
        };
        let beside = kind.kilograms.known(mean(beside_usual, &kind.kilograms));
        Some(Self {
            shape: kind.shape,
            clock: kind.clock,
            middle: kind.middle.known(mean(|_, plot| plot.middle, &kind.middle)),
            kilograms: Known { mean: beside.mean + own.usual(), ..beside },
            spread,
        })
    }
}
