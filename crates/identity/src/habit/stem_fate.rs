//! Stem fate: after how many trusses the main stem ended, or how far it had come when watching stopped.
//!
//! One number lies behind all plants of a variety: the trusses m on its main stem when it ends, few for
//! determinate, many for semi-determinate, without end for indeterminate. A plot's weather moves all its
//! plants together (`plot-sd`), and plants differ within it (`plant-sd`). A plant still growing after n
//! trusses only says that it ends later than n: frost stops the watching, not the stem. Any one plant may
//! be an off-type or miscounted, so that a single plant never refutes a variety.
//! Start at [`TrussTables::odds`].

use crate::guide::habit::{HabitGuide, Normal};
use crate::habit::patch::PlantFate;
use crate::habit::{Stature, Stem};

/// Points at which the end of the stem is weighed: 1 to 16.5 trusses in half steps.
pub(crate) const POINTS: usize = 32;
/// Most trusses told apart; a stem with more counts as having this many.
const MOST_TRUSSES: usize = 40;

/// The trusses that a point of the grid stands for.
#[expect(clippy::cast_precision_loss, reason = "the grid has 32 points")]
pub(crate) fn trusses_at(point: usize) -> f64 {
    1.0 + point as f64 / 2.0
}

/// Log-likelihoods of one plant's fate at every point, and for a stem that does not end.
#[derive(Clone, Copy, Debug)]
struct Row {
    ends: [f64; POINTS],
    endless: f64,
}

/// How likely a plot's fates are at every point, and for a stem that does not end; the likeliest is 1.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FateOdds {
    pub(crate) ends: [f64; POINTS],
    pub(crate) endless: f64,
}

/// Everything about stem fates that depends on the guide only.
#[derive(Clone, Debug)]
pub(crate) struct TrussTables {
    /// Where determinate and semi-determinate varieties end, by point; each sums to 1.
    pub(crate) determinate: [f64; POINTS],
    pub(crate) semi_determinate: [f64; POINTS],
    ended: Vec<Row>,
    ended_beyond: Vec<Row>,
    growing: Vec<Row>,
    /// How a variety's end is smeared over its plots; each row sums to 1.
    smear: Vec<[f64; POINTS]>,
}

impl TrussTables {
    pub(crate) fn new(guide: &HabitGuide) -> Self {
        let trusses = &guide.trusses;
        let determinate = ends_about(&trusses.determinate);
        let semi_determinate = ends_about(&trusses.semi_determinate);
        let counts = PlantCounts::new(guide, &determinate, &semi_determinate);
        let rows =
            |row: fn(&PlantCounts, usize) -> Row| (0..=MOST_TRUSSES).map(|n| row(&counts, n)).collect();
        Self {
            determinate,
            semi_determinate,
            ended: rows(PlantCounts::ended),
            ended_beyond: rows(PlantCounts::ended_beyond),
            growing: rows(PlantCounts::growing),
            smear: (0..POINTS).map(|point| bell(trusses_at(point), trusses.plot_sd.number)).collect(),
        }
    }

    /// How likely the fates of one plot's plants are; `None` without plants.
    pub(crate) fn odds(&self, fates: &[PlantFate]) -> Option<FateOdds> {
        let mut sum = Row { ends: [0.0; POINTS], endless: 0.0 };
        for row in fates.iter().filter_map(|fate| self.row(*fate)) {
            sum.ends.iter_mut().zip(row.ends).for_each(|(sum, log)| *sum += log);
            sum.endless += row.endless;
        }
        (!fates.is_empty()).then(|| self.smeared(&sum))
    }

    /// How likely one plant's fate is, with all fates on one scale.
    pub(crate) fn likelihood(&self, fate: PlantFate) -> Option<FateOdds> {
        let row = self.row(fate)?;
        Some(FateOdds { ends: self.over_plots(&row.ends.map(f64::exp)), endless: row.endless.exp() })
    }

    fn row(&self, fate: PlantFate) -> Option<&Row> {
        let (rows, trusses) = match fate {
            PlantFate::GrowingAfter(trusses) => (&self.growing, trusses),
            PlantFate::EndedBeyond(trusses) => (&self.ended_beyond, trusses),
            // No stem ends before its first truss.
            PlantFate::EndedAfter(trusses) => (&self.ended, trusses.max(1)),
        };
        rows.get(usize::try_from(trusses).unwrap_or(MOST_TRUSSES).min(MOST_TRUSSES))
    }

    fn smeared(&self, sum: &Row) -> FateOdds {
        let top = sum.ends.iter().copied().fold(sum.endless, f64::max);
        let here = sum.ends.map(|log| (log - top).exp());
        FateOdds { ends: self.over_plots(&here), endless: (sum.endless - top).exp() }
    }

    /// Chances at each point of a plot's end, as chances at each point of the variety's.
    fn over_plots(&self, here: &[f64; POINTS]) -> [f64; POINTS] {
        let mut ends = [0.0; POINTS];
        for (end, smear) in ends.iter_mut().zip(&self.smear) {
            *end = dot(smear, here);
        }
        ends
    }
}

/// Sums the products of two rows in eight running sums, which the processor adds side by side.
pub(crate) fn dot(one: &[f64; POINTS], other: &[f64; POINTS]) -> f64 {
    let mut lanes = [0.0; 8];
    for (one, other) in one.as_chunks::<8>().0.iter().zip(other.as_chunks::<8>().0) {
        for (lane, (one, other)) in lanes.iter_mut().zip(one.iter().zip(other)) {
            *lane += one * other;
        }
    }
    lanes.iter().sum()
}

fn ends_about(normal: &Normal) -> [f64; POINTS] {
    bell(normal.mean.number, normal.sd.number)
}

/// A bell about `mean` over the grid, summing to 1.
fn bell(mean: f64, sd: f64) -> [f64; POINTS] {
    let mut shares: [f64; POINTS] =
        std::array::from_fn(|point| (-0.5 * ((trusses_at(point) - mean) / sd).powi(2)).exp());
    let sum: f64 = shares.iter().sum();
    shares.iter_mut().for_each(|share| *share /= sum);
    shares
}

/// Chances of one plant's truss count at its end, in this variety and in the trade at large.
struct PlantCounts {
    /// By point, then by count: chance that a plant ends after so many.
    ends_after: Vec<[f64; MOST_TRUSSES + 1]>,
    /// The same over all varieties, for plants that are not true.
    at_large: [f64; MOST_TRUSSES + 1],
    /// Chance that a plant of an unknown variety never ends.
    at_large_endless: f64,
    off_type_rate: f64,
    /// Chance that an indeterminate plant is noted as ended, spread evenly over the counts.
    endless_ended_rate: f64,
}

impl PlantCounts {
    fn new(guide: &HabitGuide, determinate: &[f64; POINTS], semi: &[f64; POINTS]) -> Self {
        let ends_after: Vec<_> =
            (0..POINTS).map(|point| count_bell(trusses_at(point), guide.trusses.plant_sd.number)).collect();
        let share = |stem| Stature::ALL.iter().map(|stature| stem_prior(guide, *stature, stem)).sum::<f64>();
        let endless_ended_rate = guide.trusses.indeterminate_ended_rate.number;
        let endless = share(Stem::Indeterminate);
        let evenly = endless * endless_ended_rate / COUNTS;
        let mut at_large = [evenly; MOST_TRUSSES + 1];
        at_large[0] = 0.0;
        for (point, row) in ends_after.iter().enumerate() {
            let weight = share(Stem::Determinate) * determinate.get(point).copied().unwrap_or_default()
                + share(Stem::SemiDeterminate) * semi.get(point).copied().unwrap_or_default();
            at_large.iter_mut().zip(row).for_each(|(sum, chance)| *sum += weight * chance);
        }
        Self {
            ends_after,
            at_large,
            at_large_endless: endless * (1.0 - endless_ended_rate),
            off_type_rate: guide.mistakes.off_type_rate.number,
            endless_ended_rate,
        }
    }

    fn ended(&self, trusses: usize) -> Row {
        let here = |row: &[f64; MOST_TRUSSES + 1]| row.get(trusses).copied().unwrap_or_default();
        self.mixed(here, self.endless_ended_rate / COUNTS, here(&self.at_large))
    }

    fn ended_beyond(&self, trusses: usize) -> Row {
        let from = |row: &[f64; MOST_TRUSSES + 1]| row.iter().skip(trusses).sum::<f64>();
        let left = 1.0 - share_of_counts(trusses.saturating_sub(1));
        self.mixed(from, self.endless_ended_rate * left, from(&self.at_large))
    }

    fn growing(&self, trusses: usize) -> Row {
        let later = |row: &[f64; MOST_TRUSSES + 1]| row.iter().skip(trusses + 1).sum::<f64>();
        let endless = 1.0 - self.endless_ended_rate * share_of_counts(trusses);
        self.mixed(later, endless, later(&self.at_large) + self.at_large_endless)
    }

    /// Logs of the chance in a true plant, mixed with that in an off-type.
    fn mixed(&self, chance: impl Fn(&[f64; MOST_TRUSSES + 1]) -> f64, endless: f64, at_large: f64) -> Row {
        let log = |true_chance: f64| {
            let mixed = (1.0 - self.off_type_rate) * true_chance + self.off_type_rate * at_large;
            mixed.max(f64::MIN_POSITIVE).ln()
        };
        let mut ends = [0.0; POINTS];
        ends.iter_mut().zip(&self.ends_after).for_each(|(end, row)| *end = log(chance(row)));
        Row { ends, endless: log(endless) }
    }
}

/// Counts from 1 to [`MOST_TRUSSES`].
const COUNTS: f64 = 40.0;

#[expect(clippy::cast_precision_loss, reason = "counts are at most 40")]
fn share_of_counts(trusses: usize) -> f64 {
    trusses.min(MOST_TRUSSES) as f64 / COUNTS
}

/// A bell about `mean` over the counts from 1, summing to 1.
#[expect(clippy::cast_precision_loss, reason = "counts are at most 40")]
fn count_bell(mean: f64, sd: f64) -> [f64; MOST_TRUSSES + 1] {
    let mut chances: [f64; MOST_TRUSSES + 1] =
        std::array::from_fn(|count| (-0.5 * ((count as f64 - mean) / sd).powi(2)).exp());
    chances[0] = 0.0;
    let sum: f64 = chances.iter().sum();
    chances.iter_mut().for_each(|chance| *chance /= sum);
    chances
}

/// How often a stem of a stature is sold, by the guide.
pub(crate) fn stem_prior(guide: &HabitGuide, stature: Stature, stem: Stem) -> f64 {
    guide.stature.of(stature).number * guide.stem.of(stature).of(stem).number
}
