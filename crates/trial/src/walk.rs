//! A walk along the plots: the order in which one passes them, and who takes which part.
//!
//! Up one row and down the next, so that nobody walks back empty-handed. Start at [`serpentine`], then [`shared`].

use std::cmp::Ordering;

/// Where a plot is, as far as it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Row through the garden.
    pub row: Option<u32>,
    /// Position along the row.
    pub position: Option<u32>,
    /// The stake's label.
    pub label: String,
}

/// The order in which one walks past plots: row by row, every second row backwards; plots without a row come last, by
/// their labels.
#[must_use]
pub fn serpentine(spots: &[Spot]) -> Vec<usize> {
    let mut rows: Vec<u32> = spots.iter().filter_map(|spot| spot.row).collect();
    rows.sort_unstable();
    rows.dedup();
    let turn = |spot: &Spot| {
        let at = spot.row.and_then(|row| rows.binary_search(&row).ok());
        let along = i64::from(spot.position.unwrap_or(u32::MAX));
        at.map(|at| (at, if at.is_multiple_of(2) { along } else { -along }))
    };
    let mut order: Vec<(usize, &Spot)> = spots.iter().enumerate().collect();
    order.sort_by(|(_, one), (_, other)| match (turn(one), turn(other)) {
        (Some(one), Some(other)) => one.cmp(&other),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => by_label(&one.label, &other.label),
    });
    order.into_iter().map(|(at, _)| at).collect()
}

/// Labels in the order of their numbers: `9` before `10`, `A-9` before `A-10`.
fn by_label(one: &str, other: &str) -> Ordering {
    let parts = |label: &str| -> Vec<(String, u64)> {
        let mut parts = Vec::new();
        let mut rest = label;
        while !rest.is_empty() {
            let letters = rest.find(|sign: char| sign.is_ascii_digit()).unwrap_or(rest.len());
            let (word, tail) = rest.split_at(letters);
            let digits = tail.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(tail.len());
            let (number, next) = tail.split_at(digits);
            parts.push((word.to_owned(), number.parse().unwrap_or(0)));
            rest = next;
        }
        parts
    };
    parts(one).cmp(&parts(other))
}

/// Parts a walk of so many plots into `parts` runs of nearly the same length, the first ones longer by one.
///
/// # Shape
/// Returns where each run begins and ends; none is empty unless there are fewer plots than parts.
#[must_use]
pub fn shared(plots: usize, parts: usize) -> Vec<std::ops::Range<usize>> {
    let parts = parts.max(1);
    let (each, more) = (plots / parts, plots % parts);
    let mut runs = Vec::new();
    let mut start = 0;
    for part in 0..parts {
        let end = start + each + usize::from(part < more);
        runs.push(start..end);
        start = end;
    }
    runs
}

/// How many parts of at most `most` plots a walk makes.
#[must_use]
pub fn parts(plots: usize, most: usize) -> usize {
    plots.div_ceil(most.max(1)).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn spot(row: u32, position: u32) -> Spot {
        Spot { row: Some(row), position: Some(position), label: format!("{row}{position}") }
    }

    #[test]
    fn one_walks_up_one_row_and_down_the_next() {
        // Rows 2, 3 and 7: their numbers need not be even or odd in turn.
        let spots = [spot(3, 1), spot(3, 2), spot(2, 2), spot(2, 1), spot(7, 1), spot(7, 2)];
        let labels: Vec<&str> = serpentine(&spots).into_iter().map(|at| spots[at].label.as_str()).collect();
        assert_eq!(labels, ["21", "22", "32", "31", "71", "72"]);
    }

    #[test]
    fn plots_without_a_row_come_last_by_number() {
        let bare = |label: &str| Spot { row: None, position: None, label: label.to_owned() };
        let spots = [bare("A-10"), bare("A-9"), spot(1, 1)];
        assert_eq!(serpentine(&spots), [2, 1, 0]);
    }

    proptest! {
        /// Nobody's part is longer than another's by more than one, and every plot is in one part.
        #[test]
        fn parts_are_fair(plots in 0_usize..500, people in 1_usize..12) {
            let runs = shared(plots, people);
            let lengths: Vec<usize> = runs.iter().map(|run| run.len()).collect();
            prop_assert_eq!(lengths.iter().sum::<usize>(), plots);
            prop_assert!(lengths.iter().max().unwrap() - lengths.iter().min().unwrap() <= 1);
            prop_assert!(runs.windows(2).all(|pair| pair[0].end == pair[1].start));
        }
    }
}
