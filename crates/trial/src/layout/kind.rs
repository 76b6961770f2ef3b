//! Which kind of layout suits which varieties.

use super::fault::LayoutFault;
use super::{Choice, Entry, Kind, Role, Why};

/// Most varieties that one block of like ground holds. Common practice, no source.
const MOST_IN_ONE_BLOCK: usize = 8;
/// Fewest checks that augmented blocks can be judged by: one alone leaves no degree of freedom for error.
const FEWEST_CHECKS: usize = 2;
/// Candidates that must have the same number of plots for the others to count as short of seed, in quarters.
/// Common practice, no source.
const MOST_ALIKE: usize = 3;
/// Smallest and largest blocks that are made unasked. Common practice, no source.
const USUAL_BLOCKS: std::ops::RangeInclusive<usize> = 4..=12;

/// The kind, and why.
pub(super) fn chosen(entries: &[Entry], choice: Choice) -> Result<(Kind, Why), LayoutFault> {
    let (kind, why) = match choice {
        Choice::Asked(kind) => (kind, Why::Asked),
        Choice::Best => best(entries),
    };
    let checks = checks(entries).count();
    if kind == Kind::Augmented && checks < FEWEST_CHECKS {
        return Err(LayoutFault::Checks(checks));
    }
    if kind != Kind::Augmented && entries.iter().all(|entry| entry.plots < 2) {
        return Err(LayoutFault::NothingRepeated);
    }
    Ok((kind, why))
}

fn best(entries: &[Entry]) -> (Kind, Why) {
    let once = candidates(entries).filter(|entry| entry.plots == 1).count();
    let all = candidates(entries).count();
    if FEWEST_CHECKS <= checks(entries).count() && all < 2 * once {
        return (Kind::Augmented, Why::MostlyOnce);
    }
    let usual = usual_plots(entries);
    let alike = entries.iter().filter(|entry| entry.plots == usual).count();
    if usual < 2 || 4 * alike < MOST_ALIKE * entries.len() {
        (Kind::PartlyReplicated, Why::Unequal)
    } else if entries.len() <= MOST_IN_ONE_BLOCK {
        (Kind::CompleteBlocks, Why::Few(entries.len()))
    } else {
        (Kind::IncompleteBlocks, Why::Many(entries.len()))
    }
}

fn candidates(entries: &[Entry]) -> impl Iterator<Item = &Entry> {
    entries.iter().filter(|entry| entry.role == Role::Candidate)
}

/// The entries that are checks, as places in the list.
pub(super) fn checks(entries: &[Entry]) -> impl Iterator<Item = usize> {
    entries.iter().enumerate().filter(|(_, entry)| entry.role == Role::Check).map(|(at, _)| at)
}

/// The number of plots that most entries have; the larger where two are as common.
fn usual_plots(entries: &[Entry]) -> u32 {
    let common = |plots: u32| entries.iter().filter(|entry| entry.plots == plots).count();
    entries.iter().map(|entry| entry.plots).max_by_key(|plots| (common(*plots), *plots)).unwrap_or(1)
}

/// How many replicates a kind is dealt into.
pub(super) fn replicates(kind: Kind, entries: &[Entry]) -> usize {
    let most = candidates(entries).map(|entry| entry.plots).max();
    let count = match kind {
        Kind::Augmented => 1,
        Kind::PartlyReplicated => most.unwrap_or(1),
        _ => usual_plots(entries),
    };
    count.max(1) as usize
}

/// The block size made unasked: about the root of the largest replicate, as in a square lattice, but no more blocks
/// than half of the plots that repeat a variety, so that the other half can tell how plots differ.
pub(super) fn usual_block(sizes: &[usize], varieties: usize) -> usize {
    let largest = sizes.iter().copied().max().unwrap_or(0).max(1);
    let plots: usize = sizes.iter().sum();
    let root = (1..=largest).find(|side| largest <= side * side).unwrap_or(1);
    let repeats = plots.saturating_sub(varieties);
    let least = plots.div_ceil((repeats / 2).max(sizes.len()).max(1));
    root.clamp(*USUAL_BLOCKS.start(), *USUAL_BLOCKS.end()).max(least)
}
