//! Do the replicates of one test agree? The law's table of widest ranges, with the exact chance beside it.
//!
//! The law has a table for two and for four replicates of 100 seeds and for no other; elsewhere the exact chance decides, and
//! the answer says that no legal table does. Start at [`agreement`].
//!
//! The exact chance takes replicates for independent draws from one lot. Replicates counted out of one sample are a little
//! more alike than that, and counts by one pair of eyes are more alike still (Seed Science and Technology 46(2), 2018 and
//! 44(2), 2016; abstracts), so a range that fails here has failed a mild test.

use super::counted::{Counted, add_up};
use record::germination::Replicate;
use record::share::{Share, WholePercent};
use statistics::binomial::{Binomial, range_beyond};

/// Widest range of four replicates: lowest per cent of the row, and the points that may lie between replicates.
///
/// A mean under 51 takes the row of 101 less the mean. Source: 7 CFR 201.55 (2015).
const FOUR_REPLICATES: [(u8, u8); 16] = [
    (99, 5),
    (98, 6),
    (97, 7),
    (96, 8),
    (95, 9),
    (93, 10),
    (91, 11),
    (89, 12),
    (87, 13),
    (84, 14),
    (81, 15),
    (78, 16),
    (73, 17),
    (67, 18),
    (56, 19),
    (51, 20),
];

/// Widest range of two replicates, likewise; the rows of 98 and 99 are blank. Source: 7 CFR 201.55 (2015).
const TWO_REPLICATES: [(u8, u8); 11] = [
    (96, 6),
    (95, 7),
    (93, 8),
    (90, 9),
    (88, 10),
    (84, 11),
    (81, 12),
    (76, 13),
    (69, 14),
    (55, 15),
    (51, 16),
];

/// Highest mean that a table has a row for.
const FOUR_REPLICATES_END: u8 = 99;
const TWO_REPLICATES_END: u8 = 97;

/// Seeds of each replicate that the tables are for. Source: 7 CFR 201.55 (2015).
const TABLE_SEEDS: u32 = 100;

/// How seldom a range as wide may come by chance where no table decides. Source: what the law's own table comes to;
/// 47 of its 49 rows for four replicates are the exact range at 2.5 in 100, to its printed digits (worked out here).
pub const CHANCE_OF_WIDER: f64 = 0.025;

/// Whether the replicates of a test agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    /// The largest less the smallest germination, in per cent.
    pub range: f64,
    /// What the range was put to.
    pub by: Yardstick,
    /// Whether it lies within.
    pub verdict: RangeVerdict,
    /// How seldom replicates of one lot lie further apart than these, exactly.
    pub chance_of_wider: Share,
    /// How seldom they lie as far apart or further.
    pub chance_of_as_wide: Share,
}

/// What a range is put to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Yardstick {
    /// The table of 7 CFR 201.55: so many points.
    LegalTable(u8),
    /// No legal table is for replicates of this number, size or mean: the exact chance of a range as wide decides.
    NoLegalTable,
}

/// Whether a range is a likely one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RangeVerdict {
    /// The replicates may be averaged.
    Within,
    /// They lie too far apart for chance: test again.
    TooWide,
}

/// Why replicates cannot be put beside each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AgreementFault {
    /// Nothing to compare.
    #[error("one replicate alone cannot be compared")]
    OneReplicate,
    /// The range of unlike replicates has no law.
    #[error("replicates of {smallest} and of {largest} seeds have no range in common")]
    UnlikeSizes {
        /// Seeds of the smallest.
        smallest: u32,
        /// Seeds of the largest.
        largest: u32,
    },
    /// More seeds than can be counted.
    #[error("more seeds than can be counted")]
    TooMany,
}

/// The widest range that the law lets stand, in points; `None` where it has no row.
#[must_use]
pub fn legal_range(replicates: usize, mean: WholePercent) -> Option<u8> {
    let mirrored = mean.get().max(101_u8.saturating_sub(mean.get()));
    let (rows, end): (&[(u8, u8)], u8) = match replicates {
        4 => (&FOUR_REPLICATES, FOUR_REPLICATES_END),
        2 => (&TWO_REPLICATES, TWO_REPLICATES_END),
        _ => return None,
    };
    let row = rows.iter().find(|(from, _)| *from <= mirrored).filter(|_| mirrored <= end);
    row.map(|(_, points)| *points)
}

/// Says whether replicates agree.
///
/// The mean is rounded to a whole per cent, as 7 CFR 201.55 has it; the exact chances take the mean as counted.
///
/// # Shape
/// `replicates`: two or more, all of as many seeds.
///
/// # Errors
/// [`AgreementFault`] for one replicate, or for replicates of unlike sizes.
pub fn agreement(replicates: &[Replicate]) -> Result<Agreement, AgreementFault> {
    let sizes = || replicates.iter().map(|replicate| replicate.sown());
    let (smallest, largest) = (sizes().min().unwrap_or(0), sizes().max().unwrap_or(0));
    if replicates.len() < 2 {
        return Err(AgreementFault::OneReplicate);
    }
    if smallest != largest {
        return Err(AgreementFault::UnlikeSizes { smallest, largest });
    }
    let counted = add_up(replicates).ok_or(AgreementFault::TooMany)?;
    Ok(of_like_sizes(replicates, counted, smallest))
}

fn of_like_sizes(replicates: &[Replicate], counted: Counted, seeds: u32) -> Agreement {
    let normal = || replicates.iter().map(|replicate| replicate.seedlings().normal);
    let apart = normal().max().unwrap_or(0) - normal().min().unwrap_or(0);
    let range = 100.0 * f64::from(apart) / f64::from(seeds);
    let beyond = |apart: u32| chance_beyond(replicates.len(), counted, seeds, apart);
    let chance_of_as_wide = apart.checked_sub(1).map_or(Share::ALL, beyond);
    let table = legal_range(replicates.len(), counted.germination()).filter(|_| seeds == TABLE_SEEDS);
    let within = match table {
        Some(points) => range <= f64::from(points),
        None => CHANCE_OF_WIDER < chance_of_as_wide.get(),
    };
    Agreement {
        range,
        by: table.map_or(Yardstick::NoLegalTable, Yardstick::LegalTable),
        verdict: if within { RangeVerdict::Within } else { RangeVerdict::TooWide },
        chance_of_wider: beyond(apart),
        chance_of_as_wide,
    }
}

fn chance_beyond(replicates: usize, counted: Counted, seeds: u32, apart: u32) -> Share {
    let share = Share::of(counted.seedlings.normal.into(), counted.sown.into()).unwrap_or(Share::NONE);
    let replicates = u32::try_from(replicates).unwrap_or(u32::MAX);
    range_beyond(Binomial { trials: seeds, share }, replicates, apart)
}
