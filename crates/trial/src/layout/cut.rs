//! Cuts the ground into replicates and blocks: neighbouring plots along beds, across a path only where there is no
//! other way.

/// A plot on its way into a replicate: which one, and the bed it lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    /// Its place among the plots.
    pub(super) plot: usize,
    /// Its garden.
    pub(super) garden: usize,
    /// Its bed within the garden.
    pub(super) bed: usize,
}

impl Spot {
    fn run(self) -> (usize, usize) {
        (self.garden, self.bed)
    }
}

/// The plots of each replicate, in the order of `sizes`, or `None` where they do not fit.
///
/// Each garden takes whole replicates as long as it has room. Where no garden has room for one, all ground is cut in
/// one go, and a replicate may lie in two gardens.
pub(super) fn replicates(gardens: &[Vec<Spot>], sizes: &[usize], least: usize) -> Option<Vec<Vec<Spot>>> {
    let Some(homes) = homes(gardens, sizes) else {
        let all: Vec<Spot> = gardens.iter().flatten().copied().collect();
        return row_of(&all, sizes, least);
    };
    let mut cut: Vec<Vec<Spot>> = vec![Vec::new(); sizes.len()];
    for (garden, spots) in gardens.iter().enumerate() {
        let own: Vec<usize> =
            homes.iter().enumerate().filter(|(_, home)| **home == garden).map(|(at, _)| at).collect();
        let of_own: Vec<usize> = own.iter().filter_map(|at| sizes.get(*at)).copied().collect();
        for (at, spots) in own.iter().zip(row_of(spots, &of_own, least)?) {
            *cut.get_mut(*at)? = spots;
        }
    }
    Some(cut)
}

/// The garden of each replicate: always the one with the most room left.
fn homes(gardens: &[Vec<Spot>], sizes: &[usize]) -> Option<Vec<usize>> {
    let mut room: Vec<usize> = gardens.iter().map(Vec::len).collect();
    let home = |size: &usize| {
        let most = room.iter().copied().enumerate().max_by_key(|(at, left)| (*left, usize::MAX - at));
        let (at, left) = most.filter(|(_, left)| size <= left)?;
        *room.get_mut(at)? = left - size;
        Some(at)
    };
    sizes.iter().map(home).collect()
}

/// Cuts one run of plots. Plots may be left spare so that a replicate starts with a bed it fits into, or does not
/// start with a scrap of one.
fn row_of(spots: &[Spot], sizes: &[usize], least: usize) -> Option<Vec<Vec<Spot>>> {
    let mut spare = spots.len().checked_sub(sizes.iter().sum())?;
    let mut rest = spots;
    let mut cut = Vec::with_capacity(sizes.len());
    for size in sizes {
        let here = run_length(rest);
        let next = run_length(rest.get(here..)?);
        let scrap = here < least || (here < *size && *size <= next);
        if here < *size && here <= spare && scrap {
            spare -= here;
            rest = rest.get(here..)?;
        }
        cut.push(rest.get(..*size)?.to_vec());
        rest = rest.get(*size..)?;
    }
    Some(cut)
}

fn run_length(spots: &[Spot]) -> usize {
    spots.iter().take_while(|spot| spots.first().is_some_and(|first| first.run() == spot.run())).count()
}

/// Blocks of one replicate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Blocks {
    /// How many plots each block takes, in the order of the plots.
    pub(super) sizes: Vec<usize>,
    /// How many of them lie in more than one bed.
    pub(super) across: usize,
}

/// One block of all plots.
pub(super) fn whole(spots: &[Spot]) -> Blocks {
    Blocks { sizes: vec![spots.len()], across: usize::from(run_length(spots) < spots.len()) }
}

/// Blocks of about `size` plots that keep to one bed; a piece of fewer than `least` joins the block before it, or
/// after it where it is the first.
pub(super) fn blocks(spots: &[Spot], size: usize, least: usize) -> Blocks {
    let mut pieces: Vec<(usize, usize)> = Vec::new();
    let mut rest = spots;
    while !rest.is_empty() {
        let here = run_length(rest);
        rest = rest.get(here..).unwrap_or(&[]);
        pieces.push((here, 0));
    }
    let mut joined: Vec<(usize, usize)> = Vec::new();
    for (length, _) in pieces {
        match joined.last_mut() {
            Some(before) if length < least || before.0 < least => {
                before.0 += length;
                before.1 = 1;
            }
            _ => joined.push((length, 0)),
        }
    }
    let mut found = Blocks { sizes: Vec::new(), across: 0 };
    for (length, across) in joined {
        // A joined piece is cut as one; at most one of its blocks can lie across the path.
        found.sizes.extend(even(length, nearest(length, size)));
        found.across += across;
    }
    found
}

/// `length` cut into `count` parts that differ by at most one.
pub(super) fn even(length: usize, count: usize) -> impl Iterator<Item = usize> {
    let count = count.max(1);
    (0..count).map(move |at| length / count + usize::from(at < length % count))
}

/// How many blocks of about `size` make up `length`.
fn nearest(length: usize, size: usize) -> usize {
    let size = size.max(1);
    ((length + size / 2) / size).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn beds(lengths: &[usize]) -> Vec<Spot> {
        let beds = lengths.iter().enumerate();
        let spots = beds.flat_map(|(bed, length)| std::iter::repeat_n(bed, *length)).enumerate();
        spots.map(|(plot, bed)| Spot { plot, garden: 0, bed }).collect()
    }

    /// Blocks stop at the path: 10 and 7 plots in blocks of about 5 are 5 5 | 4 3 and none lies across.
    #[test]
    fn blocks_keep_to_their_bed() {
        assert_eq!(blocks(&beds(&[10, 7]), 4, 2), Blocks { sizes: vec![4, 3, 3, 4, 3], across: 0 });
        assert_eq!(blocks(&beds(&[10, 1]), 5, 2), Blocks { sizes: vec![6, 5], across: 1 });
    }

    /// With plots to spare, a replicate of 6 starts with the bed that holds it whole.
    #[test]
    fn spare_plots_keep_replicates_together() {
        let cut = replicates(&[beds(&[8, 7])], &[6, 6], 2).unwrap();
        let of: Vec<Vec<usize>> =
            cut.iter().map(|spots| spots.iter().map(|spot| spot.bed).collect()).collect();
        assert_eq!(of, vec![vec![0; 6], vec![1; 6]]);
    }
}
