//! What a layout will be able to tell, before anything is planted.

use super::arrange::{Trial, design};
use super::fault::LayoutFault;
use super::kind::checks;
use super::{Kind, Layout, Role};
use record::share::Share;
use statistics::design::differences::{Differences, differences};
use statistics::design::efficiency::efficiency;
use statistics::design::{BlockEffect, Design, Treatments, bounds};
use statistics::power::{Plan, plots_needed};
use statistics::students_t::Degrees;

/// How a trait spreads, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// The trait's unit in words, such as `kg a plant`.
    pub unit: String,
    /// Standard deviation of plots of one variety in one block.
    pub plots: f64,
    /// Standard deviation of blocks (or rows and columns) within a replicate.
    pub blocks: f64,
    /// Where the numbers come from.
    pub source: Source,
}

/// Where a spread comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// The house's own earlier grow-outs.
    OwnGrowOuts,
    /// Taken for want of own ones.
    Usual,
}

impl Spread {
    /// The yield of a garden tomato where the house has no estimate of its own.
    ///
    /// # Source
    /// 4 kg a plant, plots differing by a fifth of that and blocks by a tenth; from memory, unverified.
    #[must_use]
    pub fn usual_yield() -> Self {
        Self { unit: "kg a plant".to_owned(), plots: 0.8, blocks: 0.4, source: Source::Usual }
    }
}

/// What a layout can tell.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// The trial's varieties.
    pub varieties: usize,
    /// Its planted plots.
    pub plots: usize,
    /// Plots a candidate, harmonic mean.
    pub plots_each: f64,
    /// Smallest and largest block.
    pub block_sizes: (usize, usize),
    /// E: the share of the information that fixed blocks leave; 0 where they leave some pair without comparison.
    pub efficiency: f64,
    /// What E could be at best in blocks of this size, where a bound is known for such a layout.
    pub bound: Option<f64>,
    /// Average standard error of a difference between two varieties, in the trait's unit.
    pub error_of_difference: f64,
    /// Least and greatest standard error among the pairs.
    pub errors: (f64, f64),
    /// Average standard error of the difference between a candidate and a check, where there are checks.
    pub error_with_check: Option<f64>,
    /// Degrees of freedom by which the spread of plots will be known.
    pub degrees: usize,
    /// The difference found 8 times in 10, in the trait's unit; `None` where the trial leaves nothing to judge by.
    pub found: Option<f64>,
    /// Plots of a variety needed to find a smaller difference as often.
    pub needed: Vec<Needed>,
}

/// How many plots find a difference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needed {
    /// The difference, in the trait's unit.
    pub difference: f64,
    /// Plots a variety; `None` where more than a hundred would not do.
    pub plots: Option<u32>,
}

/// How often a difference should be found. Common practice, no source.
const WANTED: f64 = 0.8;
/// Level of the interval that a difference must leave. Common practice, no source.
const LEVEL: f64 = 0.95;
/// Most plots a variety that are tried.
const MOST_PLOTS: u32 = 100;
/// Smaller differences that the report asks about, as shares of the one found.
const SMALLER: [f64; 2] = [0.75, 0.5];

/// Works out what a layout can tell of a trait.
///
/// Efficiency takes blocks as fixed. Standard errors take them as drawn with the given spread, so that blocks that
/// hardly differ cost hardly anything, and replicates as fixed. Power is that of a t test planned beforehand.
///
/// # Errors
/// [`LayoutFault::Design`] where a spread is no spread.
pub fn report(layout: &Layout, spread: &Spread) -> Result<Report, LayoutFault> {
    let trial = Trial::of(layout)?;
    let ratio = (spread.blocks / spread.plots).powi(2);
    // No spread between blocks: their effects are drawn from next to nothing.
    let within = BlockEffect::Random { ratio: if ratio == 0.0 { f64::EPSILON } else { ratio } };
    let design = design(layout, within)?;
    let between = differences(&design, Treatments::Fixed)?;
    let error = |variance: f64| variance.sqrt() * spread.plots;
    let mean = between.mean().ok_or(LayoutFault::NothingRepeated)?;
    let (least, greatest) = between.range().unwrap_or((mean, mean));
    let plots_each = harmonic(&of_candidates(layout, &design));
    let degrees = degrees_of(layout, &trial.design);
    let sizes = block_sizes(layout);
    let planned = Planned { spread, plots_each, mean, degrees, varieties: layout.entries.len() };
    let found = planned.found();
    Ok(Report {
        varieties: layout.entries.len(),
        plots: design.plots().len(),
        plots_each,
        block_sizes: (sizes.iter().copied().min().unwrap_or(0), sizes.iter().copied().max().unwrap_or(0)),
        efficiency: efficiency(&trial.design)?.average,
        bound: bound(layout, &trial.design, sizes.len()),
        error_of_difference: error(mean),
        errors: (error(least), error(greatest)),
        error_with_check: with_checks(layout, &between).map(error),
        degrees,
        found,
        needed: found.map_or_else(Vec::new, |found| planned.needed(found)),
    })
}

/// Plots of each candidate, or of each variety where all are checks.
fn of_candidates(layout: &Layout, design: &Design) -> Vec<usize> {
    let counts = design.replication();
    let own = layout.entries.iter().zip(&counts).filter(|(entry, _)| entry.role == Role::Candidate);
    let candidates: Vec<usize> = own.map(|(_, count)| *count).collect();
    if candidates.is_empty() { counts } else { candidates }
}

fn harmonic(counts: &[usize]) -> f64 {
    counts.len() as f64 / counts.iter().map(|count| (*count as f64).recip()).sum::<f64>()
}

fn block_sizes(layout: &Layout) -> Vec<usize> {
    let mut sizes = std::collections::BTreeMap::new();
    for planted in layout.plots.iter().filter_map(|plot| plot.planted.as_ref()) {
        *sizes.entry(planted.block).or_insert(0) += 1;
    }
    sizes.into_values().collect()
}

/// Plots less varieties less blockings, each counted once.
fn degrees_of(layout: &Layout, design: &Design) -> usize {
    let groups = |at: usize| {
        design
            .blockings()
            .get(at)
            .map_or(1, |blocking| blocking.levels.iter().max().map_or(1, |most| most + 1))
    };
    let taken = match layout.kind {
        Kind::CompleteBlocks | Kind::Augmented => groups(0),
        Kind::IncompleteBlocks | Kind::PartlyReplicated => groups(1),
        Kind::RowsAndColumns => (groups(1) + groups(2)).saturating_sub(groups(0)),
    };
    design.plots().len().saturating_sub(design.treatments() + taken.saturating_sub(1))
}

/// The bound of resolved blocks, where every variety stands once in each replicate.
fn bound(layout: &Layout, design: &Design, blocks: usize) -> Option<f64> {
    let counts = design.replication();
    let replicates = *counts.first()?;
    let resolved = matches!(layout.kind, Kind::CompleteBlocks | Kind::IncompleteBlocks);
    let equal = counts.iter().all(|count| *count == replicates) && blocks.is_multiple_of(replicates);
    let each = blocks.checked_div(replicates)?;
    (resolved && equal).then(|| bounds::resolved(counts.len(), replicates, each)).flatten()
}

fn with_checks(layout: &Layout, between: &Differences) -> Option<f64> {
    let marked: Vec<usize> = checks(&layout.entries).collect();
    let candidates = (0..layout.entries.len()).filter(|entry| !marked.contains(entry));
    let pairs = candidates.flat_map(|entry| marked.iter().map(move |check| (entry, *check)));
    let all: Vec<f64> = pairs.filter_map(|(entry, check)| between.between(entry, check)).collect();
    (!all.is_empty()).then(|| all.iter().sum::<f64>() / all.len() as f64)
}

/// A comparison with the layout's own precision.
struct Planned<'a> {
    spread: &'a Spread,
    plots_each: f64,
    mean: f64,
    degrees: usize,
    varieties: usize,
}

impl Planned<'_> {
    /// The plots a variety, as a whole number, and what share of complete blocks' information they then give.
    fn plan(&self, difference: f64) -> Option<(Plan, u32)> {
        let plots = (1..=MOST_PLOTS).min_by(|a, b| {
            let far = |plots: u32| (f64::from(plots) - self.plots_each).abs();
            far(*a).total_cmp(&far(*b))
        })?;
        let kept = 2.0 / (f64::from(plots) * self.mean);
        let efficiency = Share::new(kept.min(1.0))?;
        let level = Share::new(LEVEL)?;
        Some((Plan { plot_variance: self.spread.plots.powi(2), efficiency, difference, level }, plots))
    }

    fn found(&self) -> Option<f64> {
        let (plan, plots) = self.plan(0.0)?;
        plan.least_difference(plots, Degrees::new(self.degrees as f64)?, Share::new(WANTED)?)
    }

    fn needed(&self, found: f64) -> Vec<Needed> {
        let ask = |share: f64| {
            let difference = rounded(found * share);
            let (plan, _) = self.plan(difference)?;
            // With more plots the error is known the better, by a plot of each variety at a time.
            let known = |plots: u32| {
                let more = (f64::from(plots) - self.plots_each) * self.varieties as f64;
                Degrees::new((self.degrees as f64 + more).max(1.0))
            };
            Some(Needed { difference, plots: plots_needed(&plan, Share::new(WANTED)?, MOST_PLOTS, known) })
        };
        SMALLER.into_iter().filter_map(ask).collect()
    }
}

/// One significant digit, or two below 3: a difference that people would ask about.
fn rounded(number: f64) -> f64 {
    let unit = 10.0_f64.powf((number / 3.0).log10().ceil() - 1.0);
    (number / unit).round() * unit
}

/// A number with two significant digits, as words carry it.
fn said(number: f64) -> String {
    if number <= 0.0 || !number.is_finite() {
        return "0".to_owned();
    }
    let places = (1.0 - number.log10().floor()).clamp(0.0, 6.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 to 6")]
    let places = places as usize;
    let text = format!("{number:.places$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// The report in plain sentences.
#[must_use]
pub fn words(report: &Report, spread: &Spread, layout: &Layout) -> Vec<String> {
    let mut told = vec![
        format!(
            "{} varieties on {} plots: {}. {}",
            report.varieties,
            report.plots,
            layout.kind.name(),
            layout.why.told()
        ),
        blocks_told(report, layout),
        errors_told(report, spread),
    ];
    told.extend(power_told(report, spread));
    told.extend(caveats(report, spread, layout));
    told
}

fn blocks_told(report: &Report, layout: &Layout) -> String {
    let (least, most) = report.block_sizes;
    let sizes = if least == most { format!("{least}") } else { format!("{least} to {most}") };
    let percent = |share: f64| (share * 100.0).round();
    let kept = match (layout.kind, report.bound) {
        (Kind::CompleteBlocks, _) => "nothing is lost between blocks".to_owned(),
        _ if report.efficiency == 0.0 => "blocks are judged by how much they usually differ".to_owned(),
        (_, Some(bound)) => format!(
            "comparisons within blocks keep {} % of the information (at best {} %)",
            percent(report.efficiency),
            percent(bound)
        ),
        (_, None) => {
            format!("comparisons within blocks keep {} % of the information", percent(report.efficiency))
        }
    };
    format!("Blocks of {sizes} plots; {kept}.")
}

fn errors_told(report: &Report, spread: &Spread) -> String {
    let (least, most) = (said(report.errors.0), said(report.errors.1));
    let pairs = if least == most {
        ", the same for every pair".to_owned()
    } else {
        format!(", from {least} to {most}")
    };
    let check =
        report.error_with_check.map_or_else(String::new, |error| format!(", with a check {}", said(error)));
    let error = said(report.error_of_difference);
    format!("Two varieties will be compared with a standard error of {error} {}{pairs}{check}.", spread.unit)
}

fn power_told(report: &Report, spread: &Spread) -> Option<String> {
    let found = report.found?;
    let each = said(report.plots_each);
    let plots = if each == "1" { "1 plot each tells".to_owned() } else { format!("{each} plots each tell") };
    let mut told = format!("{plots} {} {} apart 8 times in 10", said(found), spread.unit);
    for needed in &report.needed {
        let count = needed.plots.map_or_else(|| "more than 100".to_owned(), |plots| plots.to_string());
        told.push_str(&format!("; {} {} needs {count}", said(needed.difference), spread.unit));
    }
    told.push('.');
    Some(told)
}

fn caveats(report: &Report, spread: &Spread, layout: &Layout) -> Vec<String> {
    let mut told = Vec::new();
    if spread.source == Source::Usual {
        told.push(format!(
            "This takes plots to differ by {} {} as usual: the house has no grow-out of its own to go by yet.",
            said(spread.plots),
            spread.unit
        ));
    }
    if report.found.is_none() {
        told.push("Nothing is left over to judge by how far plots of one variety differ.".to_owned());
    }
    match layout.blocks_across_a_path {
        0 => {}
        1 => told.push("One block lies on both sides of a path.".to_owned()),
        more => told.push(format!("{more} blocks lie on both sides of a path.")),
    }
    match layout.replicates_across_gardens {
        0 => {}
        more => told.push(format!(
            "{more} of the replicates lie in two gardens: no garden has room for a whole one."
        )),
    }
    told
}
