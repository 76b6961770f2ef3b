//! A measure of whole plots over the plots of a variety: the median, and the range.

/// A measure over plots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OverPlots {
    /// The median plot.
    pub usual: f64,
    /// The lowest plot.
    pub low: f64,
    /// The highest plot.
    pub high: f64,
    /// How many plots.
    pub plots: u64,
}

pub(crate) fn over_plots(plots: impl Iterator<Item = f64>) -> Option<OverPlots> {
    let values: Vec<f64> = plots.collect();
    let low = values.iter().copied().reduce(f64::min)?;
    let high = values.iter().copied().reduce(f64::max)?;
    Some(OverPlots {
        usual: median(&values)?,
        low,
        high,
        plots: u64::try_from(values.len()).unwrap_or(u64::MAX),
    })
}

/// The middle value, or the mean of the two in the middle.
pub(crate) fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = *sorted.get(sorted.len() / 2)?;
    let lower = *sorted.get((sorted.len() - 1) / 2)?;
    Some(f64::midpoint(lower, upper))
}
