//! Which variety stands in which plot.
//!
//! [`lay_out`] takes what is wanted (a [`Request`]) and gives a [`Layout`]: every plot with its garden, bed, row,
//! replicate, block, variety and stake label. [`mod@report`] says before anything is planted how exactly varieties
//! will be compared; [`by_hand`] exchanges or moves plots and tells the loss.
//!
//! A use case calls it so: read the roster, the bed map and the house's own spread of the trait; [`lay_out`] with the
//! grow-out's name as `seed`, handing on progress and the wish to stop through `watch`; show
//! [`report::report`] and its [`report::words`]; let the owner [`by_hand::swap`] or [`by_hand::move_plot`]; and store
//! [`Layout::plots`]. The same request and seed give the same layout on every machine.

pub mod by_hand;
pub mod fault;
pub mod report;

mod arrange;
mod cut;
mod deal;
mod kind;

use crate::ground::{Garden, Place, Planting};
use fault::LayoutFault;
use statistics::design::search::Standing;
use std::ops::ControlFlow;

/// A variety that is to be grown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its name.
    pub variety: String,
    /// How many plots it should have. In augmented blocks a check has one in each block instead.
    pub plots: u32,
    /// What it is there for.
    pub role: Role,
    /// How many plants there is seed for, where that is known.
    pub plants: Option<u32>,
}

/// What a variety is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// To be compared.
    Candidate,
    /// To compare with.
    Check,
}

/// The kinds of layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Every variety once in each block.
    CompleteBlocks,
    /// Replicates cut into small blocks, so that neighbours share their ground.
    IncompleteBlocks,
    /// New varieties once, checks in every block.
    Augmented,
    /// Some varieties more often than others.
    PartlyReplicated,
    /// Replicates as fields of rows and columns, both taken out.
    RowsAndColumns,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 5] = [
        Self::CompleteBlocks,
        Self::IncompleteBlocks,
        Self::Augmented,
        Self::PartlyReplicated,
        Self::RowsAndColumns,
    ];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::CompleteBlocks => "complete blocks",
            Self::IncompleteBlocks => "incomplete blocks",
            Self::Augmented => "augmented blocks",
            Self::PartlyReplicated => "partly replicated",
            Self::RowsAndColumns => "rows and columns",
        }
    }
}

/// Whether the kind was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// The kind that suits these varieties best.
    Best,
    /// This one.
    Asked(Kind),
}

/// Why a layout is of its kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It was asked for.
    Asked,
    /// So few varieties that a block of all of them is still like ground.
    Few(usize),
    /// Too many varieties for one block to be like ground.
    Many(usize),
    /// Most candidates have one plot, and there are checks to judge the ground by.
    MostlyOnce,
    /// Varieties have different numbers of plots.
    Unequal,
}

impl Why {
    /// The reason as a sentence.
    #[must_use]
    pub fn told(self) -> String {
        match self {
            Self::Asked => "You asked for it.".to_owned(),
            Self::Few(count) => format!("{count} varieties fit into one block of like ground."),
            Self::Many(count) => {
                format!(
                    "A block of all {count} varieties would be too long to be like ground, so blocks are smaller."
                )
            }
            Self::MostlyOnce => {
                "Most varieties have one plot, so checks in every block tell how the blocks differ."
                    .to_owned()
            }
            Self::Unequal => "Varieties have different numbers of plots.".to_owned(),
        }
    }
}

/// What is wanted.
#[derive(Clone, Copy, Debug)]
pub struct Request<'a> {
    /// The varieties and how often each should stand.
    pub entries: &'a [Entry],
    /// The gardens and their beds.
    pub gardens: &'a [Garden],
    /// How plots are planted.
    pub planting: &'a Planting,
    /// Which kind of layout.
    pub kind: Choice,
    /// Plots in a block, where the owner wants a size.
    pub block_size: Option<u32>,
    /// Variance between varieties over that between plots, for kinds that take varieties as drawn.
    pub variety_ratio: f64,
    /// What the draws are seeded by, such as the grow-out's name.
    pub seed: &'a str,
}

/// Variance between varieties over that between plots of one block, where the house has not estimated its own:
/// new varieties differ about as much as neighbouring plots do. Common practice, no source.
pub const USUAL_VARIETY_RATIO: f64 = 1.0;

/// A plot that is planted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Planted {
    /// Which of the entries.
    pub entry: usize,
    /// Its replicate, counted from 1.
    pub replicate: u32,
    /// Its block, counted from 1 through the whole layout.
    pub block: u32,
    /// What its stake says: replicate and number, such as `207`.
    pub label: String,
}

/// A plot of the bed map.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Where it lies.
    pub place: Place,
    /// What stands there; nothing in a spare plot.
    pub planted: Option<Planted>,
}

/// A finished layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Its kind.
    pub kind: Kind,
    /// Why that kind.
    pub why: Why,
    /// The varieties.
    pub entries: Vec<Entry>,
    /// Every plot, in the order in which one walks past them.
    pub plots: Vec<Plot>,
    /// Guards, and what is no use.
    pub others: Vec<Place>,
    /// Blocks that lie on both sides of a path because there was no room otherwise.
    pub blocks_across_a_path: usize,
    /// Replicates that lie in more than one garden because none had room for a whole one.
    pub replicates_across_gardens: usize,
    /// The variance ratio that it was searched with.
    pub variety_ratio: f64,
}

impl Layout {
    /// The variety that stands in a plot.
    #[must_use]
    pub fn variety(&self, plot: &Plot) -> Option<&str> {
        let planted = plot.planted.as_ref()?;
        self.entries.get(planted.entry).map(|entry| entry.variety.as_str())
    }
}

/// Lays out a grow-out.
///
/// `watch` is told where the search stands and may end it; what was found until then is used.
///
/// # Errors
/// [`LayoutFault`] where the wish cannot be met, with what to do about it.
pub fn lay_out(
    request: &Request<'_>,
    watch: impl FnMut(&Standing) -> ControlFlow<()>,
) -> Result<Layout, LayoutFault> {
    let ground = crate::ground::places(request.gardens, request.planting)?;
    fault::check_entries(request)?;
    let (kind, why) = kind::chosen(request.entries, request.kind)?;
    let slots = arrange::slots(request, kind, &ground)?;
    arrange::searched(request, (kind, why), ground, slots, watch)
}
