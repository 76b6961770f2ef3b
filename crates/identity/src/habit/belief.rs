//! Belief: Bayes over stature, stem and the truss at which the stem ends, plot by plot.
//!
//! Nine cells (three statures by three stems) are weighed; within a determinate or semi-determinate cell
//! the number of trusses at the end is weighed too, as all plots of a variety share it. Each plot's lines
//! multiply, the indirect ones tempered by the guide's trust, and each plot may be a stray of another
//! variety, so that no single plot can settle a variety beyond the stray rate. Start at [`Belief::of`].

use crate::guide::habit::HabitGuide;
use crate::habit::patch::Patch;
use crate::habit::ripening::RipeningSpread;
use crate::habit::stature::Tallest;
use crate::habit::stem_fate::{FateOdds, POINTS, TrussTables, dot, stem_prior};
use crate::habit::{Habit, HabitModel, Stature, Stem};
use crate::habit::{height_curve, leaves, ripening, stature};

/// A line of evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Line {
    Stems,
    Leaves,
    HeightCurve,
    Ripening,
    FinalHeight,
    DwarfLeaves,
}

impl Line {
    pub(crate) const ALL: [Self; 6] =
        [Self::Stems, Self::Leaves, Self::HeightCurve, Self::Ripening, Self::FinalHeight, Self::DwarfLeaves];
}

/// What curves and picks of one plot come to, worked out once for sums and words.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PatchReadings {
    /// Mean weight of levelling off over the plot's height series, and how many could be judged.
    pub(crate) levelling: Option<(f64, u32)>,
    pub(crate) tallest: Option<Tallest>,
    pub(crate) ripening: Option<RipeningSpread>,
}

impl PatchReadings {
    pub(crate) fn new(patch: &Patch, guide: &HabitGuide) -> Self {
        let said = patch.told.growth.map(height_curve::said);
        let weights: Vec<Option<f64>> =
            patch.heights.iter().map(|series| height_curve::levelling(series, guide).or(said)).collect();
        Self {
            levelling: height_curve::plot_levelling(&weights).or(said.map(|weight| (weight, 1))),
            tallest: stature::tallest(&patch.heights, &weights, guide),
            ripening: ripening::ripening_spread(&patch.picks, guide)
                .or(patch.told.ripening.map(ripening::said)),
        }
    }
}

/// The log-likelihoods of everything seen in one plot; `None` where a line was not looked at.
#[derive(Clone, Debug, Default)]
pub(crate) struct PatchOdds {
    pub(crate) fates: Option<FateOdds>,
    pub(crate) leaves: Option<[f64; 3]>,
    pub(crate) height_curve: Option<[f64; 3]>,
    pub(crate) ripening: Option<[f64; 3]>,
    pub(crate) final_height: Option<[[f64; 3]; 3]>,
    pub(crate) dwarf_leaves: Option<[f64; 3]>,
}

impl PatchOdds {
    pub(crate) fn new(patch: &Patch, readings: &PatchReadings, model: &HabitModel) -> Self {
        let guide = &model.guide;
        Self {
            fates: model.trusses.odds(&patch.fates),
            leaves: leaves::log_odds(patch, guide),
            height_curve: readings.levelling.map(|(weight, _)| height_curve::log_odds(weight, guide)),
            ripening: readings.ripening.map(|spread| ripening::log_odds(spread, guide)),
            final_height: readings.tallest.map(|tallest| stature::height_odds(tallest, guide)),
            dwarf_leaves: stature::dwarf_leaf_odds(patch, guide),
        }
    }

    /// Whether anything at all was looked at.
    pub(crate) fn speaks(&self) -> bool {
        Line::ALL.into_iter().any(|line| self.has(line))
    }

    pub(crate) fn has(&self, line: Line) -> bool {
        match line {
            Line::Stems => self.fates.is_some(),
            Line::Leaves => self.leaves.is_some(),
            Line::HeightCurve => self.height_curve.is_some(),
            Line::Ripening => self.ripening.is_some(),
            Line::FinalHeight => self.final_height.is_some(),
            Line::DwarfLeaves => self.dwarf_leaves.is_some(),
        }
    }
}

/// How much each line counts: 1 whole, 0 not at all.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Weights([f64; Line::ALL.len()]);

impl Weights {
    /// The guide's trust in each line, shared out over the plots that it was taken in.
    pub(crate) fn of(odds: &[PatchOdds], guide: &HabitGuide) -> Self {
        let plots = |line| odds.iter().filter(|odds| odds.has(line)).count();
        Self(Line::ALL.map(|line| trust(line, guide) * repeated(plots(line), line, guide)))
    }

    /// What the next plot adds to `plots` that are known already.
    pub(crate) fn of_next(odds: &[PatchOdds], guide: &HabitGuide) -> Self {
        let plots = |line| odds.iter().filter(|odds| odds.has(line)).count();
        Self(Line::ALL.map(|line| {
            let together = |plots: usize| whole(plots) * repeated(plots, line, guide);
            trust(line, guide) * (together(plots(line) + 1) - together(plots(line)))
        }))
    }

    /// The same for one line only.
    pub(crate) fn only(self, kept: Line) -> Self {
        let mut weights = Self([0.0; Line::ALL.len()]);
        if let Some(weight) = weights.0.get_mut(kept as usize) {
            *weight = self.get(kept);
        }
        weights
    }

    fn get(self, line: Line) -> f64 {
        self.0.get(line as usize).copied().unwrap_or_default()
    }
}

fn trust(line: Line, guide: &HabitGuide) -> f64 {
    match line {
        Line::Stems | Line::DwarfLeaves => 1.0,
        Line::Leaves => guide.trust.leaves.number,
        Line::HeightCurve => guide.trust.height_curve.number,
        Line::Ripening => guide.trust.ripening.number,
        Line::FinalHeight => guide.trust.final_height.number,
    }
}

/// What each of several plots counts: a variety's own peculiarity repeats in all of them, as the mean of
/// n readings correlated by r is worth n / (1 + (n - 1) r) independent ones.
fn repeated(plots: usize, line: Line, guide: &HabitGuide) -> f64 {
    match line {
        // The truss at which the stem ends is shared by all plots in the belief itself.
        Line::Stems => 1.0,
        _ => 1.0 / (1.0 + (whole(plots) - 1.0).max(0.0) * guide.trust.repeat.number),
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of plots stay far below 2^52")]
fn whole(plots: usize) -> f64 {
    plots as f64
}

/// No plot is less likely than this anywhere, so that a hundred contradicting plants cannot make every cell
/// vanish in the arithmetic. Far below any odds that a guide's mistake rates leave.
const LEAST_ODDS: f64 = 1e-200;

/// How strongly each stature, stem and truss of ending is believed in; the whole is 1.
#[derive(Clone, Debug)]
pub(crate) struct Belief {
    /// By cell, then by point; an endless stem holds its whole belief in its first point.
    cells: [[f64; POINTS]; CELLS.len()],
}

/// Stature and stem of each cell.
pub(crate) const CELLS: [(Stature, Stem); 9] = [
    (Stature::Tall, Stem::Determinate),
    (Stature::Tall, Stem::SemiDeterminate),
    (Stature::Tall, Stem::Indeterminate),
    (Stature::Dwarf, Stem::Determinate),
    (Stature::Dwarf, Stem::SemiDeterminate),
    (Stature::Dwarf, Stem::Indeterminate),
    (Stature::MicroDwarf, Stem::Determinate),
    (Stature::MicroDwarf, Stem::SemiDeterminate),
    (Stature::MicroDwarf, Stem::Indeterminate),
];

/// How likely one plot is in a cell: at each point, times a factor of the whole cell.
struct CellOdds<'a> {
    points: &'a [f64; POINTS],
    factor: f64,
}

impl Belief {
    /// What the guide believes of a variety that nobody has looked at.
    pub(crate) fn prior(guide: &HabitGuide, trusses: &TrussTables) -> Self {
        let mut endless = [0.0; POINTS];
        endless[0] = 1.0;
        let cell = |(stature, stem)| {
            let ends = match stem {
                Stem::Determinate => &trusses.determinate,
                Stem::SemiDeterminate => &trusses.semi_determinate,
                Stem::Indeterminate => &endless,
            };
            ends.map(|share| share * stem_prior(guide, stature, stem))
        };
        let mut belief = Self { cells: CELLS.map(cell) };
        belief.scale();
        belief
    }

    /// What to believe after all plots.
    pub(crate) fn of(odds: &[PatchOdds], weights: Weights, model: &HabitModel) -> Self {
        let mut belief = model.prior.clone();
        odds.iter().for_each(|odds| belief.take(odds, weights, model));
        belief
    }

    /// Takes in one more plot.
    pub(crate) fn take(&mut self, odds: &PatchOdds, weights: Weights, model: &HabitModel) {
        let indirect = indirect(odds, weights);
        let top = indirect.iter().flatten().copied().fold(f64::NEG_INFINITY, f64::max);
        let fates = odds.fates.as_ref().filter(|_| 0.0 < weights.get(Line::Stems));
        let ends = fates.map_or(&EVEN, |fates| &fates.ends);
        let endless = fates.map_or(1.0, |fates| fates.endless);
        let cell_odds = |(stature, stem): (Stature, Stem)| {
            let log = indirect.get(stature as usize).and_then(|row| row.get(stem as usize));
            let factor = (log.copied().unwrap_or(top) - top).exp();
            match stem {
                Stem::Indeterminate => CellOdds { points: &EVEN, factor: factor * endless },
                Stem::Determinate | Stem::SemiDeterminate => CellOdds { points: ends, factor },
            }
        };
        self.multiply(&CELLS.map(cell_odds), model);
        self.scale();
    }

    /// Multiplies every belief by how likely the plot is there, or as a stray of another variety: a stray
    /// is as likely as it would be from a variety drawn from the guide's prior.
    fn multiply(&mut self, odds: &[CellOdds<'_>; CELLS.len()], model: &HabitModel) {
        let prior = model.prior.cells.iter().zip(odds);
        let stray: f64 = prior.map(|(prior, odds)| odds.factor * dot(prior, odds.points)).sum();
        let rate = model.guide.mistakes.stray_plot_rate.number;
        let floor = (rate * stray).max(LEAST_ODDS);
        for (cell, odds) in self.cells.iter_mut().zip(odds) {
            let factor = (1.0 - rate) * odds.factor;
            for (belief, point) in cell.iter_mut().zip(odds.points) {
                *belief *= factor * point + floor;
            }
        }
    }

    /// Belief in each habit, in the order of [`Habit::ALL`].
    pub(crate) fn habits(&self) -> [f64; Habit::ALL.len()] {
        let mut shares = [0.0; Habit::ALL.len()];
        for ((stature, stem), cell) in CELLS.into_iter().zip(&self.cells) {
            if let Some(share) = shares.get_mut(Habit::of(stem, stature) as usize) {
                *share += dot(cell, &EVEN);
            }
        }
        shares
    }

    /// Belief in each stem, in the order of [`Stem::ALL`].
    pub(crate) fn stems(&self) -> [f64; 3] {
        let mut shares = [0.0; 3];
        for ((_, stem), cell) in CELLS.into_iter().zip(&self.cells) {
            if let Some(share) = shares.get_mut(stem as usize) {
                *share += dot(cell, &EVEN);
            }
        }
        shares
    }

    /// Belief in the points of each cell, in the order of [`CELLS`].
    pub(crate) fn cells(&self) -> impl Iterator<Item = &[f64]> {
        self.cells.iter().map(<[f64; POINTS]>::as_slice)
    }

    /// Belief in each point of each cell.
    pub(crate) fn by_point(&self) -> impl Iterator<Item = (Stature, Stem, usize, f64)> {
        CELLS.into_iter().zip(&self.cells).flat_map(|((stature, stem), cell)| {
            cell.iter().enumerate().map(move |(point, belief)| (stature, stem, point, *belief))
        })
    }

    /// Makes the whole 1 again.
    fn scale(&mut self) {
        let whole: f64 = self.cells.iter().map(|cell| dot(cell, &EVEN)).sum();
        for cell in &mut self.cells {
            cell.iter_mut().for_each(|belief| *belief /= whole);
        }
    }
}

/// Every point alike.
const EVEN: [f64; POINTS] = [1.0; POINTS];

/// Log-likelihood of a plot's indirect lines by stature and stem, tempered.
pub(crate) fn indirect(odds: &PatchOdds, weights: Weights) -> [[f64; 3]; 3] {
    let mut logs = [[0.0; 3]; 3];
    let by_stem = [
        (Line::Leaves, odds.leaves),
        (Line::HeightCurve, odds.height_curve),
        (Line::Ripening, odds.ripening),
    ];
    for (line, stems) in by_stem {
        let Some(stems) = stems else { continue };
        for row in &mut logs {
            row.iter_mut().zip(stems).for_each(|(sum, log)| *sum += weights.get(line) * log);
        }
    }
    for (row, heights) in logs.iter_mut().zip(odds.final_height.unwrap_or_default()) {
        row.iter_mut().zip(heights).for_each(|(sum, log)| *sum += weights.get(Line::FinalHeight) * log);
    }
    for (row, log) in logs.iter_mut().zip(odds.dwarf_leaves.unwrap_or_default()) {
        row.iter_mut().for_each(|sum| *sum += weights.get(Line::DwarfLeaves) * log);
    }
    logs
}
