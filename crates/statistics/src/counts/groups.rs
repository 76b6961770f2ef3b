//! Groupings as a sparse system: one column a group, one entry a row and grouping.

use super::CountFault;
use crate::mixed::cholesky::{Factor, Layout, Pattern};
use crate::mixed::selected::Selected;
use std::collections::{BTreeMap, BTreeSet};

/// The groups of every row and the pattern of `Z'WZ`.
#[derive(Debug)]
pub(super) struct Groups {
    groupings: usize,
    /// First column of each grouping, and the end.
    starts: Vec<usize>,
    /// Column of each row in each grouping, row by row.
    columns: Vec<usize>,
    /// The kind of each row: rows of one kind have the same groups.
    kinds: Vec<usize>,
    /// For each kind, grouping and grouping not before it: the entry, larger column first, and its place in the
    /// pattern.
    places: Vec<((usize, usize), usize)>,
    /// Place of each diagonal entry in the pattern.
    diagonal: Vec<usize>,
    pattern: Pattern,
    layout: Option<Layout>,
}

/// A factored system `I + L'Z'WZL`.
#[derive(Debug)]
pub(super) struct System {
    factor: Option<Factor>,
    pub(super) log_determinant: f64,
}

impl Groups {
    pub(super) fn new(groups: &[Vec<usize>]) -> Result<Self, CountFault> {
        let rows = groups.first().map_or(0, Vec::len);
        let (mut starts, mut columns) = (vec![0], vec![0; rows * groups.len()]);
        for (grouping, numbers) in groups.iter().enumerate() {
            let present: BTreeSet<usize> = numbers.iter().copied().collect();
            let place: BTreeMap<usize, usize> = present.into_iter().zip(starts[grouping]..).collect();
            for (row, number) in numbers.iter().enumerate() {
                columns[row * groups.len() + grouping] = place[number];
            }
            starts.push(starts[grouping] + place.len());
        }
        let mut of_kind: BTreeMap<&[usize], usize> = BTreeMap::new();
        let lines = || columns.chunks_exact(groups.len().max(1));
        for line in lines() {
            let next = of_kind.len();
            of_kind.entry(line).or_insert(next);
        }
        let kinds = lines().map(|line| of_kind[line]).collect();
        let mut of_kind: Vec<(&[usize], usize)> = of_kind.into_iter().collect();
        of_kind.sort_by_key(|(_, kind)| *kind);
        let pairs: Vec<(usize, usize)> = of_kind.iter().flat_map(|(line, _)| pairs(line)).collect();
        let size = starts.last().copied().unwrap_or(0);
        let (pattern, at) = pattern(size, &pairs)?;
        let layout = if size == 0 { None } else { Some(Layout::new(&pattern).ok_or(CountFault::NotFound)?) };
        let places = pairs.into_iter().map(|(row, column)| ((row, column), at[&(column, row)])).collect();
        let diagonal = (0..size).map(|column| at[&(column, column)]).collect();
        Ok(Self { groupings: groups.len(), starts, columns, kinds, places, diagonal, pattern, layout })
    }

    /// How many groupings.
    pub(super) fn groupings(&self) -> usize {
        self.groupings
    }

    /// How many groups in all.
    pub(super) fn size(&self) -> usize {
        self.diagonal.len()
    }

    /// Columns of a grouping.
    pub(super) fn of(&self, grouping: usize) -> std::ops::Range<usize> {
        self.starts[grouping]..self.starts[grouping + 1]
    }

    /// Columns of a row, one a grouping.
    pub(super) fn row(&self, row: usize) -> &[usize] {
        &self.columns[row * self.groupings..(row + 1) * self.groupings]
    }

    /// `Z L u`: what the groups add to a row.
    pub(super) fn part(&self, row: usize, spreads: &[f64], effects: &[f64]) -> f64 {
        self.row(row).iter().zip(spreads).map(|(column, spread)| spread * effects[*column]).sum()
    }

    /// `L'Z'v`.
    pub(super) fn against(&self, spreads: &[f64], vector: &[f64]) -> Vec<f64> {
        let mut sums = vec![0.0; self.size()];
        for (row, value) in vector.iter().enumerate() {
            for (column, spread) in self.row(row).iter().zip(spreads) {
                sums[*column] += spread * value;
            }
        }
        sums
    }

    /// Factors `I + L'Z'WZL`; `None` where it cannot be.
    pub(super) fn factor(&self, spreads: &[f64], weights: &[f64]) -> Option<System> {
        let Some(layout) = &self.layout else { return Some(System { factor: None, log_determinant: 0.0 }) };
        let mut values = vec![0.0; self.pattern.rows.len()];
        for place in &self.diagonal {
            values[*place] = 1.0;
        }
        let scales = scales(spreads);
        for (row, weight) in weights.iter().enumerate() {
            for ((_, place), scale) in self.places[self.of_kind(self.kinds[row])].iter().zip(&scales) {
                values[*place] += scale * weight;
            }
        }
        let factor = layout.factor(&self.pattern, &values)?;
        let log_determinant = factor.log_determinant;
        Some(System { factor: Some(factor), log_determinant })
    }

    /// Solves a factored system in place.
    pub(super) fn solve(&self, system: &System, right: &mut [f64]) {
        if let (Some(layout), Some(factor)) = (&self.layout, &system.factor) {
            layout.solve(factor, right);
        }
    }

    /// The inverse of a factored system, where the pattern has it.
    pub(super) fn inverse(&self, system: &System) -> Option<Inverse<'_>> {
        let (Some(layout), Some(factor)) = (&self.layout, &system.factor) else {
            return Some(Inverse { groups: self, entries: Vec::new(), diagonal: Vec::new() });
        };
        let selected = Selected::new(layout, factor)?;
        let entry = |row: usize, column: usize| selected.entry(layout, row, column);
        let entries =
            self.places.iter().map(|((row, column), _)| entry(*row, *column)).collect::<Option<_>>()?;
        let diagonal = (0..self.size()).map(|column| entry(column, column)).collect::<Option<_>>()?;
        Some(Inverse { groups: self, entries, diagonal })
    }

    /// Where a kind's entries begin and end.
    fn of_kind(&self, kind: usize) -> std::ops::Range<usize> {
        let each = self.groupings * (self.groupings + 1) / 2;
        kind * each..(kind + 1) * each
    }
}

/// Entries of an inverse.
#[derive(Debug)]
pub(super) struct Inverse<'a> {
    groups: &'a Groups,
    /// In the order of the groups' places.
    entries: Vec<f64>,
    diagonal: Vec<f64>,
}

impl Inverse<'_> {
    /// `z'L H^-1 L z` of a row, and for each grouping k the sum over groupings b of `spread_b H^-1[k, b]`.
    pub(super) fn row(&self, row: usize, spreads: &[f64], sums: &mut [f64]) -> f64 {
        if spreads.is_empty() {
            return 0.0;
        }
        sums.fill(0.0);
        let mut entries = self.entries[self.groups.of_kind(self.groups.kinds[row])].iter();
        for a in 0..spreads.len() {
            for (b, entry) in (a..spreads.len()).zip(&mut entries) {
                sums[a] += spreads[b] * entry;
                if a != b {
                    sums[b] += spreads[a] * entry;
                }
            }
        }
        sums.iter().zip(spreads).map(|(sum, spread)| spread * sum).sum()
    }

    /// A diagonal entry.
    pub(super) fn diagonal(&self, column: usize) -> f64 {
        self.diagonal[column]
    }
}

/// Every pair of a row's columns, larger first, groupings in order.
fn pairs(line: &[usize]) -> impl Iterator<Item = (usize, usize)> + '_ {
    let from = |(at, a): (usize, &usize)| {
        let a = *a;
        line[at..].iter().map(move |b| (a.max(*b), a.min(*b)))
    };
    line.iter().enumerate().flat_map(from)
}

/// Products of two spreads, in the order of [`pairs`].
fn scales(spreads: &[f64]) -> Vec<f64> {
    let from = |(at, a): (usize, &f64)| spreads[at..].iter().map(|b| a * b).collect::<Vec<f64>>();
    spreads.iter().enumerate().flat_map(from).collect()
}

/// The lower half's pattern, and where each (column, row) lies in it.
type Places = BTreeMap<(usize, usize), usize>;

fn pattern(size: usize, pairs: &[(usize, usize)]) -> Result<(Pattern, Places), CountFault> {
    let diagonal = (0..size).map(|column| (column, column));
    let entries: BTreeSet<(usize, usize)> =
        pairs.iter().map(|(row, column)| (*column, *row)).chain(diagonal).collect();
    let narrow = |number: usize| u32::try_from(number).map_err(|_| CountFault::NotFound);
    let mut pattern = Pattern { starts: vec![0; size + 1], rows: Vec::with_capacity(entries.len()) };
    for (column, row) in &entries {
        pattern.rows.push(narrow(*row)?);
        pattern.starts[column + 1] = narrow(pattern.rows.len())?;
    }
    Ok((pattern, entries.into_iter().enumerate().map(|(at, entry)| (entry, at)).collect()))
}
