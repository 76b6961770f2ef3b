//! What a garden wishes for and what it has. Start at [`Request`].

use record::share::Share;
use std::ops::RangeInclusive;

/// One wish.
#[derive(Clone, Debug, PartialEq)]
pub enum Wish {
    /// Fruit to put up, on a few kitchen days.
    Kitchen {
        /// The class of fruit.
        class: String,
        /// Kilograms in all.
        kilograms: f64,
        /// The weeks that kitchen days may lie in, the first week being 0.
        window: RangeInclusive<usize>,
        /// At most so many kitchen days, no two in one week.
        days: u32,
        /// Kilograms that one kitchen day can take: its loads times what a load takes.
        a_day: f64,
        /// Fruit of so many weeks before is put up too; with none, that of its own week alone.
        keeps: usize,
    },
    /// Fruit to eat, week by week.
    Fresh {
        /// The class of fruit.
        class: String,
        /// Kilograms a week.
        kilograms: f64,
        /// From the first week to the last.
        weeks: RangeInclusive<usize>,
    },
}

impl Wish {
    /// Its class of fruit.
    #[must_use]
    pub fn class(&self) -> &str {
        let (Self::Kitchen { class, .. } | Self::Fresh { class, .. }) = self;
        class
    }

    /// Its weeks.
    #[must_use]
    pub fn weeks(&self) -> RangeInclusive<usize> {
        let (Self::Kitchen { window: weeks, .. } | Self::Fresh { weeks, .. }) = self;
        weeks.clone()
    }

    /// Kilograms: in all for the kitchen, a week for the table.
    #[must_use]
    pub fn kilograms(&self) -> f64 {
        let (Self::Kitchen { kilograms, .. } | Self::Fresh { kilograms, .. }) = self;
        *kilograms
    }
}

/// All that a garden asks.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// The wishes.
    pub wishes: Vec<Wish>,
    /// Square metres of bed.
    pub bed: f64,
    /// Containers.
    pub containers: u32,
    /// At most so many varieties.
    pub most_varieties: u32,
    /// Varieties that must have a plant.
    pub wanted: Vec<String>,
    /// Varieties that must have none.
    pub barred: Vec<String>,
    /// Varieties that are chosen before others where it costs no plant.
    pub favourites: Vec<String>,
    /// The share of years in which all wishes must be met.
    pub sure: Share,
    /// How far the plan may be from the least, as a share of its plants; nothing asks for the least itself.
    pub gap: Share,
}

/// A demand that may stand in the way of the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Demand {
    /// Wish number so many, from 0.
    Wish(usize),
    /// Wanted variety number so many, from 0.
    Wanted(usize),
    /// No more bed than there is.
    Bed,
    /// No more containers than there are.
    Containers,
    /// No more varieties.
    MostVarieties,
    /// So many years.
    Sure,
}

/// Why a request cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RequestFault {
    /// A wish without weight or with a week beyond the year.
    #[error("wish {0} has no weight, no day, or weeks that are not in the year")]
    NoWish(usize),
    /// The bed is no area.
    #[error("the bed is no area")]
    NoBed,
    /// A wanted variety is barred, or none of the choices.
    #[error("{0:?} is wanted, and not among what may be planted")]
    NotToBeHad(String),
}

impl Request {
    /// All its demands, in the order in which they are tried to be done without.
    #[must_use]
    pub fn demands(&self) -> Vec<Demand> {
        let wishes = (0..self.wishes.len()).map(Demand::Wish);
        let wanted = (0..self.wanted.len()).map(Demand::Wanted);
        let space = [Demand::Containers, Demand::MostVarieties, Demand::Bed, Demand::Sure];
        wanted.chain(wishes).chain(space).collect()
    }

    /// Checks it against what may be planted.
    ///
    /// # Errors
    /// [`RequestFault`] at the first fault.
    pub(crate) fn checked(&self, supply: &super::supply::Supply) -> Result<(), RequestFault> {
        if !(self.bed.is_finite() && 0.0 <= self.bed) {
            return Err(RequestFault::NoBed);
        }
        let weight = |number: f64| number.is_finite() && 0.0 < number;
        let whole = |wish: &Wish| {
            let weeks = wish.weeks();
            let day = match wish {
                Wish::Kitchen { a_day, days, .. } => weight(*a_day) && 0 < *days,
                Wish::Fresh { .. } => true,
            };
            day && weight(wish.kilograms()) && !weeks.is_empty() && *weeks.end() < supply.weeks()
        };
        if let Some(wish) = self.wishes.iter().position(|wish| !whole(wish)) {
            return Err(RequestFault::NoWish(wish));
        }
        let to_be_had = |name: &String| {
            !self.barred.contains(name) && supply.choices().iter().any(|choice| choice.variety == *name)
        };
        match self.wanted.iter().find(|name| !to_be_had(name)) {
            Some(name) => Err(RequestFault::NotToBeHad(name.clone())),
            None => Ok(()),
        }
    }
}
