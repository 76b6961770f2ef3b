//! A germination test: seeds of one lot laid out in replicates, and what had become of them at each count.

use jiff::civil::Date;

/// A test of one lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GerminationTest {
    /// The day the seeds were laid out.
    pub begun_on: Date,
    /// The day of the first count, where there was one.
    pub first_counted_on: Option<Date>,
    /// The day of the final count.
    pub counted_on: Date,
    /// Who made it.
    pub made: Made,
    /// Its replicates; at least one.
    pub replicates: Vec<Replicate>,
}

/// Who made a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Made {
    /// The house itself, however careful: an in-house test.
    InHouse,
    /// A seed-testing laboratory.
    Laboratory,
}

/// What had become of one replicate's seeds at the final count. Every seed is one of the four.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seedlings {
    /// Normal seedlings: what germination means.
    pub normal: u32,
    /// Seedlings that would not make a plant.
    pub abnormal: u32,
    /// Hard seeds: sound, but they took up no water.
    pub hard: u32,
    /// Dead seeds.
    pub dead: u32,
}

/// One replicate: at least one seed, and no more normal seedlings at the first count than at the final one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Replicate {
    seedlings: Seedlings,
    sown: u32,
    first_count: Option<u32>,
}

/// Why counts make no replicate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReplicateFault {
    /// No seed was laid out.
    NoSeeds,
    /// The four sorts do not come to the seeds laid out.
    NotAllCounted {
        /// Seeds laid out.
        sown: u32,
        /// Seeds and seedlings counted.
        counted: u64,
    },
    /// More normal seedlings at the first count than at the final one.
    FirstCountAboveFinal {
        /// Normal seedlings at the first count.
        first: u32,
        /// Normal seedlings in all.
        normal: u32,
    },
}

impl Replicate {
    /// Takes the counts of one replicate of `sown` seeds.
    ///
    /// `first_count`: normal seedlings taken away at the first count; they are part of `seedlings.normal`.
    ///
    /// # Errors
    /// [`ReplicateFault`] where the counts contradict each other.
    pub fn new(sown: u32, seedlings: Seedlings, first_count: Option<u32>) -> Result<Self, ReplicateFault> {
        let Seedlings { normal, abnormal, hard, dead } = seedlings;
        let counted = [normal, abnormal, hard, dead].map(u64::from).iter().sum();
        if sown == 0 {
            return Err(ReplicateFault::NoSeeds);
        }
        if counted != u64::from(sown) {
            return Err(ReplicateFault::NotAllCounted { sown, counted });
        }
        if let Some(first) = first_count.filter(|first| normal < *first) {
            return Err(ReplicateFault::FirstCountAboveFinal { first, normal });
        }
        Ok(Self { seedlings, sown, first_count })
    }

    /// Seeds laid out; at least one.
    #[must_use]
    pub fn sown(self) -> u32 {
        self.sown
    }

    /// What had become of them.
    #[must_use]
    pub fn seedlings(self) -> Seedlings {
        self.seedlings
    }

    /// Normal seedlings at the first count, where there was one.
    #[must_use]
    pub fn first_count(self) -> Option<u32> {
        self.first_count
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_that_contradict_each_other_are_no_replicate() {
        let seedlings = Seedlings { normal: 88, abnormal: 5, hard: 1, dead: 6 };
        assert!(Replicate::new(100, seedlings, Some(70)).is_ok());
        let told = |sown, first| Replicate::new(sown, seedlings, first).unwrap_err();
        assert_eq!(told(0, None), ReplicateFault::NoSeeds);
        assert_eq!(told(99, None), ReplicateFault::NotAllCounted { sown: 99, counted: 100 });
        assert_eq!(told(100, Some(89)), ReplicateFault::FirstCountAboveFinal { first: 89, normal: 88 });
    }
}
