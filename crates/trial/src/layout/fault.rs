//! What can stand in the way of a layout, and what to do about it.

use super::{Kind, Request};
use crate::ground::GroundFault;
use record::variety::name_key;
use statistics::design::DesignFault;

/// Why there is no layout.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LayoutFault {
    /// The ground makes no sense.
    #[error(transparent)]
    Ground(#[from] GroundFault),
    /// Nothing to compare.
    #[error("{0} varieties leave nothing to compare")]
    TooFew(usize),
    /// One variety named twice.
    #[error("{0:?} is named twice")]
    Twice(String),
    /// A variety without a plot.
    #[error("{0:?} has no plot")]
    NoPlot(String),
    /// Seed for fewer plants than its plots take.
    #[error("{variety:?}: seed for {plants} plants, but {plots} plots take {needed}")]
    Seed {
        /// The variety.
        variety: String,
        /// Plots that are wanted.
        plots: u32,
        /// Plants that these take.
        needed: u64,
        /// Plants that there is seed for.
        plants: u32,
        /// Plots that the seed is enough for.
        enough_for: u32,
    },
    /// More plots than the ground has.
    #[error("{wanted} plots are wanted, and the ground has room for {room}")]
    Room {
        /// Plots wanted.
        wanted: usize,
        /// Plots that fit.
        room: usize,
    },
    /// A kind that rests on checks has too few of them.
    #[error("augmented blocks need at least two checks, and there are {0}")]
    Checks(usize),
    /// Every variety once, so that nothing tells how plots of one variety differ.
    #[error("no variety has a second plot, so nothing tells a variety from its ground")]
    NothingRepeated,
    /// A block size that makes no blocks.
    #[error("blocks of {size} plots do not suit: they must hold at least {least} and at most {most}")]
    BlockSize {
        /// The size asked for.
        size: u32,
        /// The smallest that would do.
        least: usize,
        /// The largest that would do.
        most: usize,
    },
    /// Blocks that leave varieties without any comparison.
    #[error("{0} cannot be compared with the other varieties: no chain of blocks joins them")]
    Disconnected(String),
    /// No planted plot with this label.
    #[error("no plot has the label {0:?}")]
    NoSuchPlot(String),
    /// A plot that is not free, or not there.
    #[error("row {row}, position {position} of garden {garden} is no free plot")]
    NotFree {
        /// The garden, counted from 1.
        garden: usize,
        /// The row.
        row: u32,
        /// The position.
        position: u32,
    },
    /// The design's own fault.
    #[error(transparent)]
    Design(#[from] DesignFault),
}

impl LayoutFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::Ground(fault) => fault.help().to_owned(),
            Self::TooFew(_) => "name at least two varieties".to_owned(),
            Self::Twice(_) => "name each variety once and say how many plots it should have".to_owned(),
            Self::NoPlot(_) => "give it at least one plot, or leave it out".to_owned(),
            Self::Seed { enough_for: 0, .. } => {
                "plant fewer plants in a plot, or leave it out this season".to_owned()
            }
            Self::Seed { enough_for, .. } => {
                format!("give it {enough_for} plots, or plant fewer plants in a plot")
            }
            Self::Room { .. } => {
                "take fewer plots or varieties, plant fewer plants in a plot, or add a bed".to_owned()
            }
            Self::Checks(_) => {
                "mark at least two varieties as checks, or give varieties more plots".to_owned()
            }
            Self::NothingRepeated => {
                "give varieties two plots, or mark at least two varieties as checks".to_owned()
            }
            Self::BlockSize { least, most, .. } => format!("ask for a block size from {least} to {most}"),
            Self::Disconnected(_) => "ask for larger blocks, or give these varieties more plots".to_owned(),
            Self::NoSuchPlot(_) => "take the label from the bed map".to_owned(),
            Self::NotFree { .. } => "choose a plot that the bed map shows as spare".to_owned(),
            Self::Design(_) => "report this with the bed map and the varieties: it is our fault".to_owned(),
        }
    }
}

/// Holds where the entries make sense by themselves.
pub(super) fn check_entries(request: &Request<'_>) -> Result<(), LayoutFault> {
    if request.entries.len() < 2 {
        return Err(LayoutFault::TooFew(request.entries.len()));
    }
    for (at, entry) in request.entries.iter().enumerate() {
        let same = |other: &&super::Entry| name_key(&other.variety) == name_key(&entry.variety);
        if request.entries.iter().take(at).any(|other| same(&other)) {
            return Err(LayoutFault::Twice(entry.variety.clone()));
        }
        if entry.plots < 1 {
            return Err(LayoutFault::NoPlot(entry.variety.clone()));
        }
        check_seed(request, at, entry.plots)?;
    }
    Ok(())
}

/// Holds where there is seed for that many plots of an entry.
pub(super) fn check_seed(request: &Request<'_>, at: usize, plots: u32) -> Result<(), LayoutFault> {
    let Some(entry) = request.entries.get(at) else { return Ok(()) };
    let Some(plants) = entry.plants else { return Ok(()) };
    let each = request.planting.plants_per_plot;
    let needed = u64::from(plots) * u64::from(each);
    if needed <= u64::from(plants) {
        return Ok(());
    }
    let enough_for = plants.checked_div(each).unwrap_or(0);
    Err(LayoutFault::Seed { variety: entry.variety.clone(), plots, needed, plants, enough_for })
}

/// The smallest and largest block size that a kind can do with.
pub(super) fn check_block_size(
    kind: Kind,
    size: u32,
    checks: usize,
    plots: usize,
) -> Result<(), LayoutFault> {
    let least = if kind == Kind::Augmented { checks + 1 } else { 2 };
    let fits = (least..=plots.max(least)).contains(&(size as usize));
    if fits { Ok(()) } else { Err(LayoutFault::BlockSize { size, least, most: plots.max(least) }) }
}
