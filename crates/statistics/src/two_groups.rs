//! Do rows of measures fall into two groups, or is one population spread as widely by chance?
//!
//! Every way to part the rows by a straight line, two or more on each side, is tried; the best is put beside the best of as many
//! rows drawn from one normal population. Units do not matter, nor do measures that go together. Start at [`parted`] with a
//! [`Chance`] drawn beforehand: it hangs on the numbers of rows and measures alone.

use crate::draws::{normal, stream};
use crate::matrix::{Square, dot};
use rand_chacha::ChaCha8Rng;
use record::share::Share;

/// Fewest rows of a group: one far row is an outlying row and no group.
pub const FEWEST_IN_A_GROUP: usize = 2;

/// Fewest rows that can be parted: with fewer the best line parts almost any.
pub const FEWEST_ROWS: usize = 6;

/// Most measures: lines are tried by their angle, and more measures would need more of them than plants can bear.
pub const MOST_MEASURES: usize = 2;

/// Angles tried of two measures: three degrees apart.
const ANGLES: u32 = 60;

/// How well one population is parted by chance: so many drawn samples, each parted as well as it can be.
#[derive(Clone, Debug, PartialEq)]
pub struct Chance {
    rows: usize,
    measures: usize,
    sorted: Vec<f64>,
}

impl Chance {
    /// Draws samples; `None` of too few rows, or of no measures or too many.
    #[must_use]
    pub fn drawn(rows: usize, measures: usize, samples: u32) -> Option<Self> {
        if rows < FEWEST_ROWS || measures == 0 || MOST_MEASURES < measures {
            return None;
        }
        let mut stream = stream(&["two groups", &rows.to_string(), &measures.to_string()]);
        let mut sample = || -> Option<f64> {
            let drawn: Vec<Vec<f64>> = (0..rows).map(|_| row(&mut stream, measures)).collect();
            best(&whitened(&drawn)?).map(|(part, _)| part)
        };
        let mut sorted: Vec<f64> = (0..samples).filter_map(|_| sample()).collect();
        sorted.sort_by(f64::total_cmp);
        Some(Self { rows, measures, sorted })
    }

    /// The chance that one population is parted as well or better; the sample itself counts as one of those drawn, so that it
    /// is never nothing.
    #[must_use]
    pub fn of(&self, part: f64) -> Share {
        let below = self.sorted.partition_point(|drawn| *drawn < part);
        let as_well = self.sorted.len().saturating_sub(below);
        let count = |count: usize| u64::try_from(count).unwrap_or(u64::MAX).saturating_add(1);
        Share::of(count(as_well), count(self.sorted.len())).unwrap_or(Share::ALL)
    }
}

fn row(stream: &mut ChaCha8Rng, measures: usize) -> Vec<f64> {
    (0..measures).map(|_| normal(stream)).collect()
}

/// Rows in two groups.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoGroups {
    /// The rows of the smaller group, in order; of groups of one size, those on the first row's other side.
    pub smaller: Vec<usize>,
    /// The part of all variation along the line through both middles that lies between the groups, from 0 to 1.
    pub between: f64,
    /// The chance that one population is parted as well.
    pub chance: Share,
}

/// Parts rows in two as well as a straight line can, and tells how often one population is parted as well by chance.
///
/// `None` where the chance was drawn for other numbers of rows or measures, or where one measure follows from the other.
///
/// # Shape
/// `rows`: n rows of p measures each.
///
/// # Source
/// The largest ratio of variation between two groups to that within, over all partitions, as a test for clusters: Engelman and
/// Hartigan 1969, Journal of the American Statistical Association 64:1647-1648 (citation from memory, unverified); chances by
/// drawing, as Barnard 1963 proposed (likewise).
#[must_use]
pub fn parted(rows: &[Vec<f64>], chance: &Chance) -> Option<TwoGroups> {
    let fits = |row: &Vec<f64>| row.len() == chance.measures && row.iter().all(|value| value.is_finite());
    if rows.len() != chance.rows || !rows.iter().all(fits) {
        return None;
    }
    let (between, first) = best(&whitened(rows)?)?;
    let rest: Vec<usize> = (0..rows.len()).filter(|row| !first.contains(row)).collect();
    let holds_first = |group: &Vec<usize>| group.contains(&0);
    let mut smaller = match first.len().cmp(&rest.len()) {
        std::cmp::Ordering::Less => first,
        std::cmp::Ordering::Greater => rest,
        std::cmp::Ordering::Equal if holds_first(&first) => rest,
        std::cmp::Ordering::Equal => first,
    };
    smaller.sort_unstable();
    Some(TwoGroups { smaller, between, chance: chance.of(between) })
}

/// Rows turned so that every direction has the same variation, 1; `None` where one measure follows from the others.
fn whitened(rows: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let measures = rows.first()?.len();
    let n = f64::from(u32::try_from(rows.len()).ok()?);
    let mean = |place: usize| rows.iter().filter_map(|row| row.get(place)).sum::<f64>() / n;
    let means: Vec<f64> = (0..measures).map(mean).collect();
    let off: Vec<Vec<f64>> =
        rows.iter().map(|row| row.iter().zip(&means).map(|(value, mean)| value - mean).collect()).collect();
    let mut variation = Square::zero(measures);
    off.iter().for_each(|row| variation.add_outer(1.0, row, row));
    let factor = variation.cholesky()?;
    let turned = |mut row: Vec<f64>| {
        factor.halve(&mut row);
        row
    };
    Some(off.into_iter().map(turned).collect())
}

/// The best parting of whitened rows: the part of variation between, and the rows on one side.
fn best(rows: &[Vec<f64>]) -> Option<(f64, Vec<usize>)> {
    let directions = if rows.first()?.len() == 1 { 1 } else { ANGLES };
    let along = |direction: u32| {
        let angle = std::f64::consts::PI * f64::from(direction) / f64::from(ANGLES);
        let way = [angle.cos(), angle.sin()];
        let at = |row: &Vec<f64>| row.iter().zip(way).map(|(value, part)| value * part).sum::<f64>();
        split(rows, &rows.iter().map(at).collect::<Vec<_>>())
    };
    (0..directions).filter_map(along).max_by(|one, other| one.0.total_cmp(&other.0))
}

/// The best parting of whitened rows in the order of their places along a line; the variation between two groups is taken along
/// the line through both their middles, which is the best for them.
fn split(rows: &[Vec<f64>], places: &[f64]) -> Option<(f64, Vec<usize>)> {
    let mut order: Vec<(usize, (&Vec<f64>, f64))> =
        rows.iter().zip(places.iter().copied()).enumerate().collect();
    order.sort_by(|one, other| one.1.1.total_cmp(&other.1.1));
    let n = u32::try_from(rows.len()).ok()?;
    let mut sum = vec![0.0; rows.first()?.len()];
    let mut parts: Vec<(f64, usize)> = Vec::with_capacity(rows.len());
    for (count, (taken, (_, (row, _)))) in (1_u32..).zip((1..).zip(&order)) {
        sum.iter_mut().zip(row.iter()).for_each(|(sum, value)| *sum += value);
        if FEWEST_IN_A_GROUP <= taken && taken + FEWEST_IN_A_GROUP <= rows.len() {
            // The mean of all rows is 0 and their variation 1, so that this is a part of the whole.
            let shares = 1.0 / f64::from(count) + 1.0 / f64::from(n - count);
            parts.push((dot(&sum, &sum) * shares, taken));
        }
    }
    let (part, taken) = parts.into_iter().max_by(|one, other| one.0.total_cmp(&other.0))?;
    Some((part, order.into_iter().take(taken).map(|(row, _)| row).collect()))
}
