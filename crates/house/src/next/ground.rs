//! What there is to grow on: a layout file's beds, those of a grow-out that was laid out before, or so many plots.

use super::Asked;
use super::told::StandTold;
use crate::fault::HouseFault;
use crate::layout::file::{Varieties, Wanted};
use crate::layout::kept::layout_of;
use ledger::ledger::Ledger;
use sowing::choice;
use trial::ground::room;
use trial::layout::Choice;
use trial::layout::fault::LayoutFault;

/// What there is to grow on.
#[derive(Clone, Debug, PartialEq)]
pub enum Ground {
    /// The beds of a layout file; the varieties and checks that it names must stand.
    File(Box<Wanted>),
    /// The beds of a grow-out that was laid out before.
    As(String),
    /// So many plots.
    Plots {
        /// Plots.
        plots: u32,
        /// Plants of each.
        plants: u32,
    },
}

/// The ground, counted.
#[derive(Clone, Debug)]
pub(super) struct Stand {
    /// Plots, those of the checks with them.
    pub(super) plots: u32,
    /// Plots of a bed.
    pub(super) plots_a_bed: u32,
    /// Beds that have any; `None` where only plots were counted.
    pub(super) beds: Option<u32>,
    /// Plants of a plot.
    pub(super) plants_each: u32,
    /// Plots that checks take.
    pub(super) of_checks: u32,
    /// What is to be laid out, where there are beds.
    pub(super) wanted: Option<Wanted>,
}

/// Plots of a bed where nobody says. A choice of ours.
const PLOTS_A_BED: u32 = 10;

/// Counts the ground.
pub(super) fn stand(ledger: &mut Ledger, asked: &Asked) -> Result<Stand, HouseFault> {
    let wanted = match &asked.ground {
        Ground::Plots { plots, plants } => {
            return Ok(Stand {
                plots: *plots,
                plots_a_bed: PLOTS_A_BED,
                beds: None,
                plants_each: (*plants).max(1),
                of_checks: 0,
                wanted: None,
            });
        }
        Ground::File(wanted) => Wanted::clone(wanted),
        Ground::As(name) => as_before(ledger, asked, name)?,
    };
    let room = room(&wanted.gardens, &wanted.planting).map_err(LayoutFault::from)?;
    let checks = u32::try_from(wanted.checks.len()).unwrap_or(u32::MAX);
    Ok(Stand {
        plots: room.plots,
        plots_a_bed: room.plots_a_bed(),
        beds: Some(room.beds),
        plants_each: wanted.planting.plants_per_plot,
        of_checks: checks.saturating_mul(wanted.replicates),
        wanted: Some(wanted),
    })
}

/// The ground of a grow-out that was laid out before, with nothing on it yet.
fn as_before(ledger: &mut Ledger, asked: &Asked, name: &str) -> Result<Wanted, HouseFault> {
    let before = layout_of(ledger, name)?;
    let garden = before.gardens.first().map(|garden| garden.name.clone()).unwrap_or_default();
    let name = format!("{} {garden}", asked.season).trim().to_owned();
    Ok(Wanted {
        seed: name.clone(),
        name,
        season: asked.season,
        kind: Choice::Best,
        replicates: 1,
        block_size: None,
        varieties: Varieties::Named(Vec::new()),
        checks: Vec::new(),
        own: Vec::new(),
        planting: before.planting,
        gardens: before.gardens,
    })
}

impl Stand {
    /// What is left of the ground when the checks stand.
    pub(super) fn left(&self, asked: &Asked) -> choice::Ground {
        choice::Ground {
            plots: self.plots.saturating_sub(self.of_checks),
            plants: asked.most_plants,
            apart: asked.apart,
        }
    }

    pub(super) fn told(&self, asked: &Asked) -> StandTold {
        StandTold {
            plots: self.plots,
            beds: self.beds,
            plants_each: self.plants_each,
            of_checks: self.of_checks,
            most_plants: asked.most_plants,
            apart: asked.apart,
        }
    }

    /// Names that the ground's file has: those must stand.
    pub(super) fn named(&self) -> &[String] {
        match self.wanted.as_ref().map(|wanted| &wanted.varieties) {
            Some(Varieties::Named(names)) => names,
            _ => &[],
        }
    }

    /// Names of the checks.
    pub(super) fn checks(&self) -> &[String] {
        self.wanted.as_ref().map(|wanted| wanted.checks.as_slice()).unwrap_or_default()
    }
}
