//! Textbook designs, in their systematic order: shuffle or [`mod@super::search`] before planting.

use super::efficiency::efficiency;
use super::{Blocking, Design, DesignFault};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;

/// Every treatment once in each of `replicates` blocks.
///
/// # Errors
/// [`DesignFault`] for fewer than two treatments or no replicate.
pub fn complete_blocks(treatments: usize, replicates: usize) -> Result<Design, DesignFault> {
    let plots = (0..replicates).flat_map(|_| 0..treatments).collect();
    let levels = (0..replicates).flat_map(|replicate| std::iter::repeat_n(replicate, treatments)).collect();
    Design::new(treatments, plots, vec![Blocking::fixed(levels)])
}

/// Resolved incomplete blocks developed cyclically from an array.
///
/// Row j of `array` makes replicate j: its block b holds treatment `(array[j][c] + b) mod blocks` of group c,
/// group c being the treatments `c * blocks` and on. Where `treatments` is below the whole `columns * blocks`,
/// the last ones of the last group are left out, so that block sizes differ by one.
///
/// # Shape
/// `array`: replicates rows of block-size numbers below `blocks`. Blockings: replicates, then blocks.
///
/// # Errors
/// [`DesignFault::NoSuch`] where the numbers do not go together.
///
/// # Source
/// Patterson and Williams, Biometrika 63 (1976), 83-92; from memory, unverified.
pub fn alpha(array: &[Vec<usize>], blocks: usize, treatments: usize) -> Result<Design, DesignFault> {
    let size = array.first().map_or(0, Vec::len);
    let cells = array.iter().flatten();
    if array.iter().any(|row| row.len() != size) || cells.clone().any(|cell| blocks <= *cell) {
        return Err(DesignFault::NoSuch(
            "the array's rows differ in length, or a number is beyond the blocks",
        ));
    }
    if treatments <= size.saturating_sub(1) * blocks || size * blocks < treatments {
        return Err(DesignFault::NoSuch("that many treatments do not fill these blocks"));
    }
    let (mut plots, mut replicates, mut levels) = (vec![], vec![], vec![]);
    for (replicate, row) in array.iter().enumerate() {
        for block in 0..blocks {
            let developed =
                row.iter().enumerate().map(|(group, cell)| group * blocks + (cell + block) % blocks);
            for treatment in developed.filter(|treatment| *treatment < treatments) {
                plots.push(treatment);
                replicates.push(replicate);
                levels.push(replicate * blocks + block);
            }
        }
    }
    Design::new(treatments, plots, vec![Blocking::fixed(replicates), Blocking::fixed(levels)])
}

/// How many arrays are drawn to choose one from. More gains little: an exchange search follows.
const ARRAYS_DRAWN: usize = 60;

/// Draws an array for [`alpha`]: of a few dozen, the one whose full design is the most efficient.
///
/// # Errors
/// [`DesignFault`] where the numbers do not go together.
pub fn alpha_array(
    replicates: usize,
    block_size: usize,
    blocks: usize,
    chance: &mut ChaCha8Rng,
) -> Result<Vec<Vec<usize>>, DesignFault> {
    if blocks < 1 || block_size < 1 || replicates < 1 {
        return Err(DesignFault::NoSuch("an array needs replicates, blocks and a block size"));
    }
    let mut best: Option<(f64, Vec<Vec<usize>>)> = None;
    for _ in 0..ARRAYS_DRAWN {
        let array: Vec<Vec<usize>> = (0..replicates)
            .map(|row| (0..block_size).map(|cell| drawn(row, cell, blocks, chance)).collect())
            .collect();
        let average = efficiency(&alpha(&array, blocks, block_size * blocks)?)?.average;
        if best.as_ref().is_none_or(|(most, _)| *most < average) {
            best = Some((average, array));
        }
    }
    best.map(|(_, array)| array).ok_or(DesignFault::NoSuch("no array was drawn"))
}

/// The first row and column are zeros: any array can be brought to that by renaming.
fn drawn(row: usize, cell: usize, blocks: usize, chance: &mut ChaCha8Rng) -> usize {
    if row == 0 || cell == 0 { 0 } else { chance.random_range(0..blocks) }
}

/// A square lattice: `side` squared treatments in blocks of `side`, resolved.
///
/// Replicates are the rows, the columns, and the diagonals `i + m j`. Up to three replicates there is one
/// for every side; more need a prime side.
///
/// # Errors
/// [`DesignFault::NoSuch`] where the side allows no such lattice.
pub fn square_lattice(side: usize, replicates: usize) -> Result<Design, DesignFault> {
    let most = if is_prime(side) { side + 1 } else { 3 };
    if side < 2 || replicates < 1 || most < replicates {
        return Err(DesignFault::NoSuch("this side has no lattice with that many replicates"));
    }
    let (mut plots, mut whole, mut levels) = (vec![], vec![], vec![]);
    for replicate in 0..replicates {
        for treatment in 0..side * side {
            let (row, column) = (treatment / side, treatment % side);
            let block = match replicate {
                0 => row,
                1 => column,
                more => (row + (more - 1) * column) % side,
            };
            plots.push(treatment);
            whole.push(replicate);
            levels.push(replicate * side + block);
        }
    }
    Design::new(side * side, plots, vec![Blocking::fixed(whole), Blocking::fixed(levels)])
}

fn is_prime(number: usize) -> bool {
    2 <= number
        && (2..number).take_while(|part| part * part <= number).all(|part| !number.is_multiple_of(part))
}

/// Augmented blocks: each of `entries` new treatments once, dealt over `blocks`, and every check in every block.
///
/// The checks are the first `checks` treatments.
///
/// # Errors
/// [`DesignFault::NoSuch`] without checks or blocks, or with fewer entries than blocks.
///
/// # Source
/// Federer's augmented designs; from memory, unverified.
pub fn augmented(entries: usize, checks: usize, blocks: usize) -> Result<Design, DesignFault> {
    if checks < 1 || blocks < 1 || entries < blocks {
        return Err(DesignFault::NoSuch("augmented blocks need checks, and at least one entry a block"));
    }
    let (mut plots, mut levels) = (vec![], vec![]);
    for block in 0..blocks {
        let own = (block..entries).step_by(blocks).map(|entry| checks + entry);
        for treatment in (0..checks).chain(own) {
            plots.push(treatment);
            levels.push(block);
        }
    }
    Design::new(checks + entries, plots, vec![Blocking::fixed(levels)])
}

/// Some treatments more often than others, dealt so that no replicate holds one twice unless it must.
///
/// # Shape
/// `plots_each`: how many plots each treatment has. Blockings: replicates, then blocks of at most `block_size`.
///
/// # Errors
/// [`DesignFault`] where a treatment has no plot or a size is 0.
pub fn partially_replicated(
    plots_each: &[usize],
    replicates: usize,
    block_size: usize,
) -> Result<Design, DesignFault> {
    if replicates < 1 || block_size < 1 {
        return Err(DesignFault::NoSuch("there must be replicates and blocks to deal plots to"));
    }
    let mut dealt: Vec<Vec<usize>> = vec![Vec::new(); replicates];
    let all =
        plots_each.iter().enumerate().flat_map(|(treatment, count)| std::iter::repeat_n(treatment, *count));
    for (hand, treatment) in all.enumerate() {
        if let Some(replicate) = dealt.get_mut(hand % replicates) {
            replicate.push(treatment);
        }
    }
    let (mut plots, mut whole, mut levels, mut block) = (vec![], vec![], vec![], 0);
    for (number, replicate) in dealt.iter().enumerate() {
        for treatments in replicate.chunks(block_size) {
            plots.extend_from_slice(treatments);
            whole.extend(treatments.iter().map(|_| number));
            levels.extend(treatments.iter().map(|_| block));
            block += 1;
        }
    }
    Design::new(plots_each.len(), plots, vec![Blocking::fixed(whole), Blocking::fixed(levels)])
}

/// Resolved rows and columns: every replicate a field of `rows` by `columns` with every treatment once.
///
/// Plots run along rows. Blockings: replicates, rows within them, columns within them. The systematic order
/// is shifted from replicate to replicate. [`long_columns`] are what a Latinised search spreads treatments over.
///
/// # Errors
/// [`DesignFault`] where a number is too small.
pub fn rows_and_columns(rows: usize, columns: usize, replicates: usize) -> Result<Design, DesignFault> {
    let size = rows * columns;
    let (mut plots, mut whole, mut row_of, mut column_of) = (vec![], vec![], vec![], vec![]);
    for replicate in 0..replicates {
        for place in 0..size {
            plots.push((place * (2 * replicate + 1) + replicate * columns) % size);
            whole.push(replicate);
            row_of.push(replicate * rows + place / columns);
            column_of.push(replicate * columns + place % columns);
        }
        deal_again_if_repeated(&mut plots, size, replicate);
    }
    let blockings = [whole, row_of, column_of].into_iter().map(Blocking::fixed).collect();
    Design::new(size, plots, blockings)
}

/// A stride that shares a factor with the size repeats treatments: then the plain order serves as a start.
fn deal_again_if_repeated(plots: &mut Vec<usize>, size: usize, replicate: usize) {
    let start = plots.len() - size;
    let mut seen = vec![false; size];
    plots.iter().skip(start).for_each(|treatment| {
        if let Some(seen) = seen.get_mut(*treatment) {
            *seen = true;
        }
    });
    if seen.contains(&false) {
        plots.truncate(start);
        plots.extend((0..size).map(|place| (place + replicate) % size));
    }
}

/// The column of each plot of [`rows_and_columns`], counted through all replicates as if they lay in one strip.
#[must_use]
pub fn long_columns(rows: usize, columns: usize, replicates: usize) -> Vec<usize> {
    (0..replicates * rows * columns).map(|plot| plot % columns.max(1)).collect()
}
