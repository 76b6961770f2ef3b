//! Designs of comparative trials: how well they compare their treatments, and a search for better ones.
//!
//! A [`Design`] says which treatment stands in each plot and which blocks, rows or columns the plot lies
//! in. [`efficiency`] tells what the blocking costs, [`differences`] how exactly each pair is compared,
//! [`connection`] which treatments can be compared at all. [`constructions`] makes the textbook designs;
//! [`mod@search`] exchanges plots until nothing better is found, on ground of any shape. Nothing here knows what
//! a treatment is or how large a plot is.
//!
//! The model is `y = treatments + blockings + residual`. With Z the blockings' columns (and a mean) and D
//! zero for fixed blockings, one over the variance ratio for random ones, the treatments' information is
//! `C = R - X (Z'Z + D)^- X'`, X counting treatments in blocks and R their plots.

pub mod bounds;
pub mod connection;
pub mod constructions;
pub mod differences;
pub mod efficiency;
pub mod search;

mod absorbed;
mod grid;

/// How a blocking's effects are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BlockEffect {
    /// Nothing is assumed of them; only comparisons inside a block count.
    Fixed,
    /// Drawn from one distribution: what blocks say of each other is used as well.
    Random {
        /// Their variance over the residual variance, above 0.
        ratio: f64,
    },
}

/// How the treatments' effects are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Treatments {
    /// Nothing is assumed of them.
    Fixed,
    /// Drawn from one distribution, as many new varieties are; differences are then predictions.
    Random {
        /// Their variance over the residual variance, above 0.
        ratio: f64,
    },
}

/// One way in which plots are grouped: replicates, blocks within them, rows, columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Blocking {
    /// The group of each plot; equal numbers mean the same group.
    pub levels: Vec<usize>,
    /// How the groups' effects are taken.
    pub effect: BlockEffect,
}

impl Blocking {
    /// A blocking with fixed effects.
    #[must_use]
    pub fn fixed(levels: Vec<usize>) -> Self {
        Self { levels, effect: BlockEffect::Fixed }
    }

    /// How many groups there may be: one more than the largest number.
    fn width(&self) -> usize {
        self.levels.iter().max().map_or(0, |most| most + 1)
    }
}

/// Which treatment stands in each plot, and how the plots are blocked.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    treatments: usize,
    plots: Vec<usize>,
    blockings: Vec<Blocking>,
}

/// Why a design makes no sense.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DesignFault {
    /// Fewer than two treatments.
    #[error("{0} treatments leave nothing to compare")]
    TooFew(usize),
    /// A plot with a treatment beyond those counted.
    #[error("plot {plot} has treatment {treatment}, but there are {treatments}")]
    Unknown {
        /// The plot, counted from 0.
        plot: usize,
        /// Its treatment, counted from 0.
        treatment: usize,
        /// How many treatments there are.
        treatments: usize,
    },
    /// A treatment without a plot.
    #[error("treatment {0} has no plot")]
    NoPlot(usize),
    /// A list with a length of its own.
    #[error("there are {plots} plots, but a list has {other}")]
    Lengths {
        /// How many plots there are.
        plots: usize,
        /// How long the list is.
        other: usize,
    },
    /// More groups than plots: numbers were left out.
    #[error("a blocking numbers its groups up to {highest} for {plots} plots")]
    Numbering {
        /// The largest group number.
        highest: usize,
        /// How many plots there are.
        plots: usize,
    },
    /// A variance ratio that is none.
    #[error("{0} is no variance ratio")]
    Ratio(f64),
    /// Numbers of a construction that do not go together.
    #[error("no such design: {0}")]
    NoSuch(&'static str),
    /// The sums could not be done.
    #[error("the information matrix could not be decomposed")]
    NotDecomposed,
}

impl Design {
    /// Takes the treatment of each plot, counted from 0, and the blockings.
    ///
    /// # Shape
    /// `plots`: n treatments below `treatments`, each at least once. Every blocking: n groups, numbered below n.
    ///
    /// # Errors
    /// [`DesignFault`] where the numbers do not go together.
    pub fn new(treatments: usize, plots: Vec<usize>, blockings: Vec<Blocking>) -> Result<Self, DesignFault> {
        if treatments < 2 {
            return Err(DesignFault::TooFew(treatments));
        }
        let mut grown = vec![false; treatments];
        for (plot, treatment) in plots.iter().enumerate() {
            *grown.get_mut(*treatment).ok_or(DesignFault::Unknown {
                plot,
                treatment: *treatment,
                treatments,
            })? = true;
        }
        if let Some(missing) = grown.iter().position(|grown| !grown) {
            return Err(DesignFault::NoPlot(missing));
        }
        blockings.iter().try_for_each(|blocking| checked(blocking, plots.len()))?;
        Ok(Self { treatments, plots, blockings })
    }

    /// How many treatments there are.
    #[must_use]
    pub fn treatments(&self) -> usize {
        self.treatments
    }

    /// The treatment of each plot.
    #[must_use]
    pub fn plots(&self) -> &[usize] {
        &self.plots
    }

    /// The blockings.
    #[must_use]
    pub fn blockings(&self) -> &[Blocking] {
        &self.blockings
    }

    /// How many plots each treatment has.
    #[must_use]
    pub fn replication(&self) -> Vec<usize> {
        self.plots.iter().fold(vec![0; self.treatments], |mut counts, treatment| {
            if let Some(count) = counts.get_mut(*treatment) {
                *count += 1;
            }
            counts
        })
    }

    /// The same ground and blockings with other treatments in the plots.
    ///
    /// # Errors
    /// As [`Design::new`].
    pub fn with_plots(&self, plots: Vec<usize>) -> Result<Self, DesignFault> {
        Self::new(self.treatments, plots, self.blockings.clone())
    }
}

fn checked(blocking: &Blocking, plots: usize) -> Result<(), DesignFault> {
    if blocking.levels.len() != plots {
        return Err(DesignFault::Lengths { plots, other: blocking.levels.len() });
    }
    if plots < blocking.width() {
        return Err(DesignFault::Numbering { highest: blocking.width() - 1, plots });
    }
    match blocking.effect {
        BlockEffect::Random { ratio } => checked_ratio(ratio),
        BlockEffect::Fixed => Ok(()),
    }
}

/// Holds where a variance ratio is above 0 and finite.
fn checked_ratio(ratio: f64) -> Result<(), DesignFault> {
    if ratio.is_finite() && 0.0 < ratio { Ok(()) } else { Err(DesignFault::Ratio(ratio)) }
}
