//! The roster: what the house already knows, against which names, plots and seasons are checked.
//!
//! `house` builds it from the ledger with [`Roster::add_variety`], [`Roster::add_grow_out`] and
//! [`Roster::add_plot`]; grow-outs go in before their plots.

use record::growout::{GrowOut, Plot};
use record::mass::Grams;
use record::variety::Variety;

/// What the house already knows.
#[derive(Clone, Debug, Default)]
pub struct Roster {}

impl Roster {
    /// A roster that knows nothing yet; seasons run with the calendar year.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Seasons of this house begin in this month (1 to 12) and are named by the year in which they
    /// end: 7 for a house south of the equator. Other numbers are read as 1.
    #[must_use]
    pub fn seasons_begin_in(self, month: i8) -> Self {
        let _ = month;
        self
    }

    /// Adds a variety with its other names; `typical_weight` is that of its fruit by earlier calls or
    /// samples. Without it, a claimed fruit class gives a rough one.
    pub fn add_variety(&mut self, variety: &Variety, typical_weight: Option<Grams>) {
        let _ = (variety, typical_weight);
    }

    /// Adds a grow-out.
    pub fn add_grow_out(&mut self, grow_out: &GrowOut) {
        let _ = grow_out;
    }

    /// Adds a plot. Its grow-out must have been added before.
    pub fn add_plot(&mut self, plot: &Plot) {
        let _ = plot;
    }
}
