//! What is kept of a lot for the law: its file sample and its record, and until when.
//!
//! The law counts from the day on which the last of a lot is gone; the file sample itself does not count as stock. Start at
//! [`keepsakes`].

use crate::dates::{Kept, SAMPLE_SEEDS, kept};
use crate::increase::weight::SeedWeight;
use jiff::civil::Date;
use record::lot::LotNote;
use record::mass::Milligrams;
use record::stock::{Movement, Place};

/// File sample and record of a lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keepsakes {
    /// The file sample.
    pub sample: FileSample,
    /// The day on which the last of the lot was gone, and how long what belongs to it is kept from then; `None` while seed of
    /// it is held.
    pub since: Option<(Date, Kept)>,
}

impl Keepsakes {
    /// Whether there is a sample, or a record that the law begins to let go.
    #[must_use]
    pub fn is_any(&self) -> bool {
        self.sample != FileSample::NotKept || self.since.is_some()
    }

    /// The first day on which something of it may go: the sample where there is one, else the record; `None` while seed of the
    /// lot is held.
    #[must_use]
    pub fn may_go_next(&self) -> Option<Date> {
        let (_, kept) = self.since?;
        Some(if self.sample == FileSample::NotKept { kept.record_may_go } else { kept.sample_may_go })
    }
}

/// A lot's file sample.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FileSample {
    /// None is held.
    NotKept,
    /// Seed that was never weighed, so that nobody knows how many seeds it is.
    OfUnknownCount(Milligrams),
    /// So much seed, and about how many seeds.
    Counted {
        /// The seed.
        mass: Milligrams,
        /// About so many seeds.
        seeds: f64,
    },
}

impl FileSample {
    /// Whether it holds as many seeds as the law asks for; `None` where nobody knows.
    ///
    /// # Source
    /// 7 CFR 201.4 (2015): at least 400 seeds of vegetable seed.
    #[must_use]
    pub fn is_enough(&self) -> Option<bool> {
        match self {
            Self::NotKept => Some(false),
            Self::OfUnknownCount(_) => None,
            Self::Counted { seeds, .. } => Some(f64::from(SAMPLE_SEEDS) <= seeds.round()),
        }
    }
}

/// Finds what is kept of a lot.
///
/// # Shape
/// `notes`: those that stand, the oldest first; `held`: what the house holds, by place.
pub(super) fn keepsakes(
    notes: &[LotNote],
    weight: Option<&SeedWeight>,
    held: &[(Place, Milligrams)],
) -> Keepsakes {
    let kept_back = held.iter().find(|(place, _)| *place == Place::FileSample).map(|(_, mass)| *mass);
    let sample = kept_back.map_or(FileSample::NotKept, |mass| {
        let seeds = weight.and_then(|weight| weight.seeds_in(mass.to_grams()));
        seeds.map_or(FileSample::OfUnknownCount(mass), |(seeds, _)| FileSample::Counted { mass, seeds })
    });
    let is_held = held.iter().any(|(place, _)| *place != Place::FileSample);
    let since = if is_held { None } else { last_gone(notes) };
    Keepsakes { sample, since: since.map(|on| (on, kept(on))) }
}

/// The last day on which seed left jar or packets for anywhere but the file sample's drawer and each other.
fn last_gone(notes: &[LotNote]) -> Option<Date> {
    let is_stock = |place: Place| place.is_held() && place != Place::FileSample;
    let left = notes.iter().filter_map(|note| match note {
        LotNote::Movement(Movement { on, from, to, .. }) if is_stock(*from) && !is_stock(*to) => Some(*on),
        _ => None,
    });
    left.max()
}
