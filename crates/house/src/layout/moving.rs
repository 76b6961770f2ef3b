//! Moving plots by hand: two change places, or one goes to a spare place; the loss is told before anything is kept.
//!
//! A plot moves with its stake, its variety and whatever was noted of it; the replicate and the block stay with the
//! ground. What is kept are new details of the plots, in a batch that can be undone.

use super::by_hand;
use super::kept::{self, KeptLayout};
use crate::fault::HouseFault;
use crate::folder::House;
use ledger::batch::{Act, BatchNumber};
use ledger::ledger::Ledger;
use ledger::writer::NewPlot;
use record::growout::{Plot, PlotLayout};
use trial::layout::Layout;
use trial::layout::by_hand::{At, Cost, move_plot, swap};
use trial::layout::fault::LayoutFault;

/// Where a plot is to go.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum To {
    /// Into the place of the plot with this label, which takes its own.
    Plot(String),
    /// To a spare place of the plot's garden.
    Spare {
        /// The row, counted from 1.
        row: u32,
        /// The position along it, counted from 1.
        position: u32,
    },
}

/// What a move costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// The cost.
    pub cost: Cost,
    /// The batch that kept it; nothing where it was only asked.
    pub batch: Option<BatchNumber>,
}

/// What moving a plot would cost; nothing is stored.
///
/// # Errors
/// A label that is on no stake, a place that is not spare, plots of two gardens; what the ledger refuses.
pub fn cost(house: &House, grow_out: &str, label: &str, to: &To) -> Result<Moved, HouseFault> {
    let kept = kept::layout_of(&mut Ledger::open(&house.ledger_location())?, grow_out)?;
    let (_, cost) = changed(&kept, label, to)?;
    Ok(Moved { cost, batch: None })
}

/// Moves a plot, and tells what it costs.
///
/// # Errors
/// As [`cost`].
pub fn keep(house: &House, grow_out: &str, label: &str, to: &To, act: &Act) -> Result<Moved, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let kept = kept::layout_of(&mut ledger, grow_out)?;
    let (after, cost) = changed(&kept, label, to)?;
    let own = plot(&kept, label)?;
    let (new, why) = match to {
        To::Plot(other) => {
            let there = plot(&kept, other)?;
            (
                vec![at_place_of(own, there), at_place_of(there, own)],
                format!("{label} and {other} changed places"),
            )
        }
        To::Spare { row, position } => {
            let new = at_spare(&kept, &after, own).ok_or_else(|| no_such(label))?;
            (vec![new], format!("{label} moved to row {row}, position {position}"))
        }
    };
    let mut writer = ledger.begin_mending(&by_hand(act, why))?;
    for (row, new) in (1..).zip(&new) {
        writer.add_plot(row, new)?;
    }
    Ok(Moved { cost, batch: Some(writer.commit()?.batch) })
}

fn changed(kept: &KeptLayout, label: &str, to: &To) -> Result<(Layout, Cost), HouseFault> {
    let own = plot(kept, label)?;
    let changed = match to {
        To::Plot(other) => {
            if plot(kept, other)?.grow_out != own.grow_out {
                return Err(HouseFault::TwoGardens);
            }
            swap(&kept.layout, &own.label, &plot(kept, other)?.label)?
        }
        To::Spare { row, position } => {
            let garden = kept.grow_outs.iter().position(|grow_out| grow_out.id == own.grow_out).unwrap_or(0);
            move_plot(&kept.layout, &own.label, At { garden, row: *row, position: *position })?
        }
    };
    Ok((changed.layout, changed.cost))
}

fn plot<'a>(kept: &'a KeptLayout, label: &str) -> Result<&'a Plot, HouseFault> {
    let folded = |label: &str| label.trim().to_lowercase();
    let found = kept.plots.iter().find(|plot| folded(&plot.label) == folded(label));
    found.ok_or_else(|| no_such(label))
}

fn no_such(label: &str) -> HouseFault {
    LayoutFault::NoSuchPlot(label.to_owned()).into()
}

/// One plot at the place where another stands.
fn at_place_of(own: &Plot, there: &Plot) -> NewPlot {
    NewPlot {
        grow_out: own.grow_out,
        label: own.label.clone(),
        variety: own.variety,
        block: there.block,
        row: there.row,
        position: there.position,
        transplanted: None,
        plant_count: None,
        layout: PlotLayout { role: own.layout.role, ..there.layout.clone() },
    }
}

/// A plot at the spare place where the changed layout has it.
fn at_spare(kept: &KeptLayout, after: &Layout, own: &Plot) -> Option<NewPlot> {
    let moved = after
        .plots
        .iter()
        .find(|plot| plot.planted.as_ref().is_some_and(|planted| planted.label == own.label))?;
    let planted = moved.planted.as_ref()?;
    let bed = kept.gardens.get(moved.place.garden)?.beds.get(moved.place.bed)?;
    Some(NewPlot {
        grow_out: own.grow_out,
        label: own.label.clone(),
        variety: own.variety,
        block: Some(planted.block),
        row: Some(moved.place.row),
        position: Some(moved.place.position),
        transplanted: None,
        plant_count: None,
        layout: PlotLayout {
            replicate: Some(planted.replicate),
            bed: Some(bed.name.clone()),
            role: own.layout.role,
            from: Some(moved.place.from),
            to: Some(moved.place.to),
        },
    })
}
