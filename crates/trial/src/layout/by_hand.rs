//! Changes by hand, and what they cost.

use super::arrange::Trial;
use super::fault::LayoutFault;
use super::{Layout, Planted};
use record::share::Share;
use statistics::design::differences::differences;
use statistics::design::search::judge;

/// A layout after a change by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// The layout as it would be.
    pub layout: Layout,
    /// What the change costs.
    pub cost: Cost,
}

/// What a change costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// How much of the plots' information on differences is lost: 0.05 means that the trial now tells as much as one
    /// with a twentieth of its plots fewer. Negative where the change is a gain; 1 where varieties can no longer be
    /// compared.
    pub information: f64,
    /// The change of what the search makes small, variance and neighbours together; negative is a gain.
    pub sum: f64,
    /// Plots in the trial, for the words.
    plots: usize,
}

/// Shares of information below this are none in words.
const UNTOLD: f64 = 0.000_5;

impl Cost {
    /// The cost as a sentence.
    #[must_use]
    pub fn told(self) -> String {
        let percent = (self.information.abs() * 1000.0).round() / 10.0;
        let plots = (self.information.abs() * self.plots as f64 * 10.0).round() / 10.0;
        if 1.0 <= self.information {
            "Some varieties could no longer be compared.".to_owned()
        } else if self.information.abs() < UNTOLD {
            "Varieties are compared as exactly as before.".to_owned()
        } else if self.information < 0.0 {
            format!("Varieties are compared a little more exactly: {percent} % more information.")
        } else {
            // Only a bare 1 is one plot: 0.4 plots and 1.2 plots are several in speech.
            let missing = if plots == 1.0 { "1 plot was".to_owned() } else { format!("{plots} plots were") };
            format!("This costs {percent} % of the information, as if {missing} missing.")
        }
    }
}

/// Exchanges the varieties of two planted plots, named by their labels.
///
/// # Errors
/// [`LayoutFault::NoSuchPlot`] where a label is on no stake.
pub fn swap(layout: &Layout, left: &str, right: &str) -> Result<Changed, LayoutFault> {
    let (here, there) = (entry_at(layout, left)?, entry_at(layout, right)?);
    let mut changed = layout.clone();
    for planted in changed.plots.iter_mut().filter_map(|plot| plot.planted.as_mut()) {
        if planted.label == left {
            planted.entry = there;
        } else if planted.label == right {
            planted.entry = here;
        }
    }
    costed(layout, changed)
}

/// A plot of the ground by its place on the bed map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct At {
    /// The garden, counted from 0.
    pub garden: usize,
    /// The row, counted from 1.
    pub row: u32,
    /// The position along the row, counted from 1.
    pub position: u32,
}

/// Moves a planted plot with its stake to a spare one. It keeps its replicate, and joins the block of the nearest
/// other plot of that replicate in its new bed; if there is none it keeps its block.
///
/// # Errors
/// [`LayoutFault::NoSuchPlot`] where the label is on no stake, [`LayoutFault::NotFree`] where the place is planted or
/// is no plot.
pub fn move_plot(layout: &Layout, label: &str, to: At) -> Result<Changed, LayoutFault> {
    entry_at(layout, label)?;
    let not_free = || LayoutFault::NotFree { garden: to.garden + 1, row: to.row, position: to.position };
    let target = layout.plots.iter().position(|plot| {
        let place = &plot.place;
        (place.garden, place.row, place.position) == (to.garden, to.row, to.position)
    });
    let target = target.filter(|at| layout.plots.get(*at).is_some_and(|plot| plot.planted.is_none()));
    let target = target.ok_or_else(not_free)?;
    let mut changed = layout.clone();
    let lifted = changed
        .plots
        .iter_mut()
        .find(|plot| plot.planted.as_ref().is_some_and(|planted| planted.label == label))
        .and_then(|plot| plot.planted.take());
    let mut lifted = lifted.ok_or_else(|| LayoutFault::NoSuchPlot(label.to_owned()))?;
    lifted.block = nearest_block(&changed, target, &lifted);
    if let Some(plot) = changed.plots.get_mut(target) {
        plot.planted = Some(lifted);
    }
    costed(layout, changed)
}

/// The block of the nearest plot of the same replicate and bed.
fn nearest_block(layout: &Layout, target: usize, lifted: &Planted) -> u32 {
    let Some(to) = layout.plots.get(target).map(|plot| &plot.place) else { return lifted.block };
    let own =
        layout.plots.iter().filter_map(|plot| plot.planted.as_ref().map(|planted| (&plot.place, planted)));
    let beside = own.filter(|(place, planted)| {
        planted.replicate == lifted.replicate && (place.garden, place.bed) == (to.garden, to.bed)
    });
    let distance = |place: &crate::ground::Place| {
        (place.from.get() - to.from.get()).hypot(place.near.get() - to.near.get())
    };
    let nearest = beside.min_by(|a, b| distance(a.0).total_cmp(&distance(b.0)));
    nearest.map_or(lifted.block, |(_, planted)| planted.block)
}

fn entry_at(layout: &Layout, label: &str) -> Result<usize, LayoutFault> {
    let mut planted = layout.plots.iter().filter_map(|plot| plot.planted.as_ref());
    let found = planted.find(|planted| planted.label == label).map(|planted| planted.entry);
    found.ok_or_else(|| LayoutFault::NoSuchPlot(label.to_owned()))
}

fn costed(before: &Layout, layout: Layout) -> Result<Changed, LayoutFault> {
    let (old, new) = (Trial::of(before)?, Trial::of(&layout)?);
    let mean = |trial: &Trial| differences(&trial.design, trial.treatments).map(|between| between.mean());
    let information = match (mean(&old)?, mean(&new)?) {
        (Some(was), Some(is)) => 1.0 - was / is,
        (_, None) => Share::ALL.get(),
        (None, Some(_)) => -Share::ALL.get(),
    };
    let sum = judge(&new.ground(&new.design))? - judge(&old.ground(&old.design))?;
    let plots = new.design.plots().len();
    Ok(Changed { layout, cost: Cost { information, sum, plots } })
}

#[cfg(test)]
mod tests {
    use super::Cost;

    fn told(information: f64) -> String {
        Cost { information, sum: 0.0, plots: 20 }.told()
    }

    #[test]
    fn one_plot_is_told_as_one() {
        assert_eq!(told(0.05), "This costs 5 % of the information, as if 1 plot was missing.");
        assert_eq!(told(0.06), "This costs 6 % of the information, as if 1.2 plots were missing.");
        assert_eq!(told(0.02), "This costs 2 % of the information, as if 0.4 plots were missing.");
    }
}
