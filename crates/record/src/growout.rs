//! A grow-out: one season's planting in one garden, its plots and their plants.

use crate::id::Id;
use crate::length::Millimetres;
use crate::season::Season;
use crate::variety::Variety;
use jiff::civil::Date;

/// A season's planting in one garden.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GrowOut {
    /// Its identifier.
    pub id: Id<GrowOut>,
    /// The name its keepers use, such as `2031 Home`.
    pub name: String,
    /// The season it belongs to.
    pub season: Season,
    /// The garden it stands in.
    pub garden: String,
}

/// One variety's piece of ground in a grow-out.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Its identifier.
    pub id: Id<Plot>,
    /// The grow-out it belongs to.
    pub grow_out: Id<GrowOut>,
    /// The label on its stake, unique within the grow-out.
    pub label: String,
    /// What was planted there.
    pub variety: Id<Variety>,
    /// The strip of like ground it lies in.
    pub block: Option<u32>,
    /// Row of the bed map, counted from 1.
    pub row: Option<u32>,
    /// Place along the row, counted from 1.
    pub position: Option<u32>,
    /// The day its plants went out.
    pub transplanted: Option<Date>,
    /// How many plants went out.
    pub plant_count: Option<u32>,
    /// What its grow-out's layout says of it.
    pub layout: PlotLayout,
}

/// What a layout says of a plot, as far as it is known. With these a grow-out can be compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlotLayout {
    /// The replicate: a part of the grow-out that holds every variety, or nearly.
    pub replicate: Option<u32>,
    /// The name of its bed.
    pub bed: Option<String>,
    /// What it is there for.
    pub role: Option<PlotRole>,
    /// Where it begins, from the start of its bed.
    pub from: Option<Millimetres>,
    /// Where it ends, from the start of its bed.
    pub to: Option<Millimetres>,
}

/// What a plot is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlotRole {
    /// Its variety is to be compared.
    Candidate,
    /// Its variety is what others are compared with.
    Check,
    /// It shelters its neighbours, and nothing of it counts.
    Guard,
}

/// A plant within its plot, counted from 1 as on the walk sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlantNumber(pub u32);

/// One plant of a plot that the house notes by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plant {
    /// The plot it stands in.
    pub plot: Id<Plot>,
    /// Its number within the plot.
    pub number: PlantNumber,
    /// The day it went out, if not the plot's own.
    pub transplanted: Option<Date>,
    /// The day it was found dead or pulled out.
    pub lost: Option<Date>,
}
