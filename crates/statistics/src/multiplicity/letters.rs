//! Letters beside means: two means that share a letter were not told apart, all others were.
//!
//! Start at [`Letters::new`].

use std::collections::BTreeSet;

/// Which letters each mean has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letters {
    /// The members of each letter, the letter of the first mean in order first.
    groups: Vec<BTreeSet<usize>>,
    means: usize,
}

impl Letters {
    /// Letters for means that `apart` says were told apart; `order` is how they stand in the table, which
    /// decides only which group is called a.
    ///
    /// # Shape
    /// `order`: every mean's number once. `apart(i, j)` must not depend on which of the two comes first.
    ///
    /// # Source
    /// Piepho 2004, J. Computational and Graphical Statistics 13:456-466 (citation from memory, unverified):
    /// insert, absorb, sweep.
    #[must_use]
    pub fn new(order: &[usize], apart: impl Fn(usize, usize) -> bool) -> Self {
        let places = 0..order.len();
        let told_apart = |a: usize, b: usize| match (order.get(a), order.get(b)) {
            (Some(first), Some(second)) => apart(*first, *second),
            _ => false,
        };
        // Groups hold places in the table, so that sorting them sorts the letters.
        let mut groups: Vec<BTreeSet<usize>> = vec![places.clone().collect()];
        groups.retain(|group| !group.is_empty());
        for first in places.clone() {
            for second in first + 1..order.len() {
                if told_apart(first, second) {
                    insert(&mut groups, first, second);
                }
            }
        }
        sweep(&mut groups);
        groups.sort_by(|a, b| a.iter().cmp(b.iter()));
        let numbers =
            |group: BTreeSet<usize>| group.iter().filter_map(|place| order.get(*place).copied()).collect();
        Self { groups: groups.into_iter().map(numbers).collect(), means: order.len() }
    }

    /// The letters of each mean, by its number, such as "ab".
    #[must_use]
    pub fn of_means(&self) -> Vec<String> {
        let of = |mean: usize| {
            let own = self.groups.iter().enumerate().filter(|(_, group)| group.contains(&mean));
            own.map(|(index, _)| letter(index)).collect()
        };
        (0..self.means).map(of).collect()
    }

    /// The groups that share a letter: a, b, ..
    #[must_use]
    pub fn groups(&self) -> &[BTreeSet<usize>] {
        &self.groups
    }

    /// Whether two means share a letter.
    #[must_use]
    pub fn share(&self, first: usize, second: usize) -> bool {
        self.groups.iter().any(|group| group.contains(&first) && group.contains(&second))
    }
}

/// Splits every group that holds both, and drops what then lies wholly inside another group.
fn insert(groups: &mut Vec<BTreeSet<usize>>, first: usize, second: usize) {
    let (both, mut kept): (Vec<_>, Vec<_>) =
        groups.drain(..).partition(|group| group.contains(&first) && group.contains(&second));
    for group in both {
        for leaver in [first, second] {
            let mut rest = group.clone();
            rest.remove(&leaver);
            if !kept.iter().any(|other: &BTreeSet<usize>| rest.is_subset(other)) {
                kept.retain(|other| !other.is_subset(&rest));
                kept.push(rest);
            }
        }
    }
    *groups = kept;
}

/// Drops every letter of a mean, and every whole group, that says nothing which the others do not say.
fn sweep(groups: &mut Vec<BTreeSet<usize>>) {
    for index in 0..groups.len() {
        let Some(members) = groups.get(index).cloned() else { continue };
        for member in members {
            let needless = groups.get(index).is_some_and(|group| {
                1 < group.len()
                    && group.iter().filter(|other| **other != member).all(|other| {
                        let mut elsewhere = groups.iter().enumerate().filter(|(at, _)| *at != index);
                        elsewhere
                            .any(|(_, else_group)| else_group.contains(&member) && else_group.contains(other))
                    })
            });
            if needless && let Some(group) = groups.get_mut(index) {
                group.remove(&member);
            }
        }
    }
    let whole = groups.clone();
    let mut at = 0;
    groups.retain(|group| {
        let own = at;
        at += 1;
        let inside = |(other, bigger): (usize, &BTreeSet<usize>)| {
            other != own && group.is_subset(bigger) && (group.len() < bigger.len() || other < own)
        };
        !whole.iter().enumerate().any(inside)
    });
}

/// a to z, A to Z, and numbers in brackets after that.
fn letter(index: usize) -> String {
    let small = u8::try_from(index).ok().filter(|index| *index < 52);
    match small {
        Some(index) if index < 26 => char::from(b'a' + index).to_string(),
        Some(index) => char::from(b'A' + index - 26).to_string(),
        None => format!("({})", index + 1),
    }
}
