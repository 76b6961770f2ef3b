//! Count, sum and sum of squares of one plant's traits, in whole numbers.
//!
//! A logarithm is kept in steps of 1/65 536, far finer than any scale reads. Whole numbers add up to the
//! same total in any order, which no floating sum does; so a ledger that hands out its records in another
//! order makes the very same call.

use super::traits::TRAIT_COUNT;
use super::{PlantKey, Trait};
use crate::spread::beforehand;
use statistics::variety_means::PlantSums;

/// Steps in one unit of a logarithm.
const STEPS: f64 = 65_536.0;

/// Largest logarithm kept, either way: e^11 is 60 kg or 60 m. Together with [`MOST_FRUITS`] and a count of
/// records below 2^31 it keeps every sum far inside an i128 and every mean finite.
const LARGEST_LOG: f64 = 11.0;

/// Fruits that one record counts for at most: the mean of a bushel says no more of a plant than that.
const MOST_FRUITS: u32 = 1000;

/// Count, sum and sum of squares of one trait.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Moments {
    fruits: u32,
    records: u32,
    sum: i64,
    squares: i64,
}

impl Moments {
    /// Adds one record, the mean of `fruits`, in logarithm.
    fn add(&mut self, log: f64, fruits: u32) {
        #[expect(clippy::cast_possible_truncation, reason = "at most 11 * 65 536 in size")]
        let steps = (log.clamp(-LARGEST_LOG, LARGEST_LOG) * STEPS).round() as i64;
        let weight = i64::from(fruits.min(MOST_FRUITS));
        self.fruits = self.fruits.saturating_add(fruits.min(MOST_FRUITS));
        self.records = self.records.saturating_add(1);
        self.sum = self.sum.saturating_add(weight * steps);
        self.squares = self.squares.saturating_add(weight * steps * steps);
    }

    /// Adds other fruits of the same plant.
    pub fn merge(&mut self, other: &Self) {
        self.fruits = self.fruits.saturating_add(other.fruits);
        self.records = self.records.saturating_add(other.records);
        self.sum = self.sum.saturating_add(other.sum);
        self.squares = self.squares.saturating_add(other.squares);
    }

    /// Fruits summed up.
    #[must_use]
    pub fn fruits(&self) -> u32 {
        self.fruits
    }

    /// Mean logarithm; `None` where there is nothing.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "sums stay below 2^53 for any garden")]
    pub fn mean(&self) -> Option<f64> {
        (0 < self.fruits).then(|| self.sum as f64 / STEPS / f64::from(self.fruits))
    }

    /// Weighted squared distances of the records from their mean, exact but for the last division.
    #[expect(clippy::cast_precision_loss, reason = "the difference is taken in whole numbers before")]
    fn sum_of_squares(&self) -> f64 {
        let fruits = i128::from(self.fruits.max(1));
        let sum = i128::from(self.sum);
        let scaled = (i128::from(self.squares) * fruits - sum * sum).max(0);
        scaled as f64 / fruits as f64 / (STEPS * STEPS)
    }

    /// The same in the words of the statistics: fruits, mean, sum of squares.
    ///
    /// A record that is the mean of several fruits hides how far those differ. Its share of the sum of
    /// squares is filled in with what is known beforehand, so that bulk weighing neither hides nor invents
    /// spread.
    pub(super) fn plant_sums(&self, key: PlantKey, of: Trait) -> Option<PlantSums> {
        let hidden = f64::from(self.fruits.saturating_sub(self.records));
        let spread = beforehand::fruit_sd(of).powi(2);
        let sum_of_squares = self.sum_of_squares() + hidden * spread;
        let season = u32::from(key.season.year().unsigned_abs());
        let fruit_count = u64::from(self.fruits);
        self.mean().map(|mean| PlantSums { season, fruit_count, mean, sum_of_squares })
    }
}

/// The moments of those traits that one plant has, packed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TraitMoments {
    present: u16,
    records: u32,
    fruits: u32,
    packed: Vec<Moments>,
}

const _: () = assert!(TRAIT_COUNT <= 16, "`present` has a bit for each trait");

impl TraitMoments {
    /// Adds one record of a trait.
    pub(super) fn add(&mut self, of: Trait, log: f64, fruits: u32) {
        if let Some(moments) = self.slot(of) {
            // The logarithm of a mean lies above the mean logarithm by half the variance that averaging hid.
            let hidden = beforehand::fruit_sd(of).powi(2) * (1.0 - 1.0 / f64::from(fruits));
            moments.add(log - hidden / 2.0, fruits);
        }
    }

    /// Counts one record of so many fruits, whatever it tells of them.
    pub(super) fn count_record(&mut self, fruits: u32) {
        self.records = self.records.saturating_add(1);
        self.fruits = self.fruits.saturating_add(fruits);
    }

    /// Records taken in.
    #[must_use]
    pub fn records(&self) -> u32 {
        self.records
    }

    /// Fruits taken in.
    #[must_use]
    pub fn fruits(&self) -> u32 {
        self.fruits
    }

    /// Adds other fruits of the same plant.
    pub(super) fn merge(&mut self, other: &Self) {
        self.records = self.records.saturating_add(other.records);
        self.fruits = self.fruits.saturating_add(other.fruits);
        for of in super::traits::TRAITS {
            let theirs = other.of(of);
            if let Some(moments) = (0 < theirs.fruits).then(|| self.slot(of)).flatten() {
                moments.merge(&theirs);
            }
        }
    }

    /// One trait's moments; empty where the plant has none.
    #[must_use]
    pub fn of(&self, of: Trait) -> Moments {
        let bit = 1 << of as u16;
        let held = (self.present & bit != 0).then(|| self.packed.get(self.index(bit))).flatten();
        held.copied().unwrap_or_default()
    }

    fn index(&self, bit: u16) -> usize {
        (self.present & (bit - 1)).count_ones() as usize
    }

    fn slot(&mut self, of: Trait) -> Option<&mut Moments> {
        let bit = 1 << of as u16;
        let index = self.index(bit);
        if self.present & bit == 0 {
            self.packed.reserve_exact(1);
            self.packed.insert(index, Moments::default());
            self.present |= bit;
        }
        self.packed.get_mut(index)
    }
}
