//! The ground: gardens of beds, and the plots that fit into them.
//!
//! A bed is a strip with a length and a width. Plants stand in rows along it; a plot takes one or more rows side by
//! side and as much length as its plants need. Guard plants at the ends of beds and guard rows at the edges of the
//! garden are left out of the trial, and so are stretches that are no use. Start at [`places`]; [`neighbours`] says
//! which plots stand side by side and [`walked`] in which order one passes them.

mod fill;

use record::length::Millimetres;

/// A garden: beds that lie side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Garden {
    /// Its name.
    pub name: String,
    /// Its beds, in the order in which they lie.
    pub beds: Vec<Bed>,
}

/// One bed.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    /// Its name, such as `North 2`.
    pub name: String,
    /// How far it runs.
    pub length: Millimetres,
    /// How wide it is.
    pub width: Millimetres,
    /// The path between it and the next bed.
    pub path_after: Millimetres,
    /// Parts that are no use, such as wet ground or a tap.
    pub unusable: Vec<Stretch>,
}

/// A part of a bed's length.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Where it begins, from the bed's start.
    pub from: Millimetres,
    /// Where it ends.
    pub to: Millimetres,
    /// Why it is no use, in words.
    pub why: String,
}

/// How plots are planted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planting {
    /// Plants in a plot.
    pub plants_per_plot: u32,
    /// Distance between plants in a row.
    pub between_plants: Millimetres,
    /// Distance between rows of plants in a bed.
    pub between_rows: Millimetres,
    /// Rows of plants that a plot takes side by side.
    pub rows_per_plot: u32,
    /// Guard plants in each row at either end of a bed.
    pub guards_at_ends: u32,
    /// Guard rows along the garden's first and last edge.
    pub guard_rows: u32,
}

/// What a place is for.
#[derive(Clone, Debug, PartialEq)]
pub enum Purpose {
    /// A plot of the trial.
    Plot,
    /// Guard plants, never noted.
    Guard,
    /// Nothing is planted, and why.
    Unusable(String),
}

/// One place of the bed map.
///
/// `from` and `to` run along the bed, `near` and `far` across the garden, all from its corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Which garden, counted from 0 as given.
    pub garden: usize,
    /// Which bed of the garden, counted from 0.
    pub bed: usize,
    /// Row of plots through the whole garden, counted from 1; 0 for guard rows.
    pub row: u32,
    /// Place of a plot along its row, counted from 1; 0 for what is no plot.
    pub position: u32,
    /// Column that plots of all rows share, counted from 1: where a plot would stand if none were left out.
    pub column: u32,
    /// Where it begins along the bed.
    pub from: Millimetres,
    /// Where it ends along the bed.
    pub to: Millimetres,
    /// Its nearer edge across the garden.
    pub near: Millimetres,
    /// Its farther edge across the garden.
    pub far: Millimetres,
    /// What it is for.
    pub purpose: Purpose,
}

/// Why ground makes no sense.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum GroundFault {
    /// A garden without beds.
    #[error("garden {0:?} has no bed")]
    NoBed(String),
    /// Two beds of one garden with one name.
    #[error("garden {garden:?} has two beds named {bed:?}")]
    BedTwice {
        /// The garden.
        garden: String,
        /// The name that is there twice.
        bed: String,
    },
    /// Two gardens with one name.
    #[error("two gardens are named {0:?}")]
    GardenTwice(String),
    /// A stretch that ends before it begins, or beyond its bed.
    #[error("bed {bed:?}: the stretch {why:?} does not lie within the bed")]
    Stretch {
        /// The bed.
        bed: String,
        /// The stretch's reason.
        why: String,
    },
    /// No plant, no row, or no distance.
    #[error("plots need at least one plant, one row, and distances above nothing")]
    Planting,
}

impl GroundFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NoBed(_) => "give each garden at least one bed with a length and a width",
            Self::BedTwice { .. } => "give the beds of one garden different names",
            Self::GardenTwice(_) => "give the gardens different names",
            Self::Stretch { .. } => "write where the stretch begins and ends, from the start of the bed",
            Self::Planting => {
                "write plants a plot, distance between plants and between rows, such as 6, 500 mm, 600 mm"
            }
        }
    }
}

/// Lays plots into gardens: every place, row by row, each row in the bed's direction.
///
/// # Errors
/// [`GroundFault`] where a garden or the planting makes no sense. Ground with no room is no fault: it has no plot.
pub fn places(gardens: &[Garden], planting: &Planting) -> Result<Vec<Place>, GroundFault> {
    check(gardens, planting)?;
    Ok(gardens
        .iter()
        .enumerate()
        .flat_map(|(number, garden)| fill::garden(number, garden, planting))
        .collect())
}

/// How many plots there is room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// Plots.
    pub plots: u32,
    /// Beds that have any.
    pub beds: u32,
}

impl Room {
    /// Plots of a bed, on the mean and rounded up; at least one.
    #[must_use]
    pub fn plots_a_bed(self) -> u32 {
        self.plots.div_ceil(self.beds.max(1)).max(1)
    }
}

/// Counts the plots that gardens have room for.
///
/// # Errors
/// As [`places`].
pub fn room(gardens: &[Garden], planting: &Planting) -> Result<Room, GroundFault> {
    let mut beds: Vec<(usize, usize)> = Vec::new();
    for place in places(gardens, planting)?.iter().filter(|place| place.purpose == Purpose::Plot) {
        beds.push((place.garden, place.bed));
    }
    let plots = u32::try_from(beds.len()).unwrap_or(u32::MAX);
    beds.sort_unstable();
    beds.dedup();
    Ok(Room { plots, beds: u32::try_from(beds.len()).unwrap_or(u32::MAX) })
}

fn check(gardens: &[Garden], planting: &Planting) -> Result<(), GroundFault> {
    let nothing = planting.between_plants.get() <= 0.0 || planting.between_rows.get() <= 0.0;
    if nothing || planting.plants_per_plot < 1 || planting.rows_per_plot < 1 {
        return Err(GroundFault::Planting);
    }
    for (at, garden) in gardens.iter().enumerate() {
        if gardens.iter().take(at).any(|other| other.name == garden.name) {
            return Err(GroundFault::GardenTwice(garden.name.clone()));
        }
        if garden.beds.is_empty() {
            return Err(GroundFault::NoBed(garden.name.clone()));
        }
        garden.beds.iter().enumerate().try_for_each(|(at, bed)| check_bed(garden, at, bed))?;
    }
    Ok(())
}

fn check_bed(garden: &Garden, at: usize, bed: &Bed) -> Result<(), GroundFault> {
    if garden.beds.iter().take(at).any(|other| other.name == bed.name) {
        return Err(GroundFault::BedTwice { garden: garden.name.clone(), bed: bed.name.clone() });
    }
    let outside = |stretch: &&Stretch| stretch.to < stretch.from || bed.length < stretch.to;
    bed.unusable.iter().find(outside).map_or(Ok(()), |stretch| {
        Err(GroundFault::Stretch { bed: bed.name.clone(), why: stretch.why.clone() })
    })
}

/// Distances below this are nothing, in millimetres: a plot's edge is not measured to a hair.
const HAIR: f64 = 1e-3;
/// Share of a plot's length along which two plots must lie beside each other to count as neighbours.
/// Common practice, no source.
const BESIDE: f64 = 0.5;

/// Pairs of `plots` that stand side by side in one bed: one after the other in a row, or in rows next to each other.
/// Plots across a path are no neighbours. Each pair once, as places in `plots`.
#[must_use]
pub fn neighbours(plots: &[Place]) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    for (left, own) in plots.iter().enumerate() {
        for (right, other) in plots.iter().enumerate().skip(left + 1) {
            if own.garden == other.garden && own.bed == other.bed && touch(own, other) {
                pairs.push((left, right));
            }
        }
    }
    pairs
}

fn touch(own: &Place, other: &Place) -> bool {
    let end_to_end = (own.to.get() - other.from.get()).abs().min((other.to.get() - own.from.get()).abs());
    let shared = own.to.get().min(other.to.get()) - own.from.get().max(other.from.get());
    let length = own.to.get() - own.from.get();
    match own.row.abs_diff(other.row) {
        0 => end_to_end < HAIR,
        1 => BESIDE * length < shared,
        _ => false,
    }
}

/// The order in which one walks past `plots`: garden by garden, up one row and down the next.
#[must_use]
pub fn walked(plots: &[Place]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..plots.len()).collect();
    order.sort_by_key(|at| {
        plots.get(*at).map(|place| {
            let along = i64::from(place.position);
            (place.garden, place.row, if place.row.is_multiple_of(2) { -along } else { along })
        })
    });
    order
}
