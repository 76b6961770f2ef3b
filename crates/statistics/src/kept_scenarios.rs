//! How many scenarios so many pieces can keep, as when plants must bear enough in enough years.
//!
//! Each scenario has needs, sums of pieces that must reach 1, and is kept where all of them do. That a number of pieces cannot
//! keep enough scenarios is shown by branch and bound: the linear program of the whole is solved, a scenario that it keeps in part
//! is kept or let go, and so on, until every branch is shut. It leans on no general solver, because the program is small, dense
//! and solved thousands of times over from where it stood; that a branch is shut is worked out of the needs as they were given,
//! so that rounding shuts nothing. Steps are counted and not timed. Start at [`can_keep`].

#![expect(clippy::indexing_slicing, reason = "lists of lengths that the program's own makes equal")]

use branches::{Branches, Open};
use rayon::prelude::{IntoParallelIterator, ParallelIterator};

mod branches;
mod pivot;
mod simplex;

/// A sum over pieces: the piece's place and what one of it adds.
pub type Sum = Vec<(usize, f64)>;

/// Pieces, and what they keep.
#[derive(Clone, Debug)]
pub struct Program {
    /// The most of each piece.
    pub most: Vec<u32>,
    /// The group of each piece, from 0: groups have whole totals of their own, which is where a search branches first.
    pub groups: Vec<usize>,
    /// The kind of each piece, from 0.
    pub kinds: Vec<usize>,
    /// At most so many kinds are taken.
    pub most_kinds: usize,
    /// Sums that lie between two bounds.
    pub rules: Vec<(Sum, f64, f64)>,
    /// The needs of each scenario: every sum must reach 1.
    pub scenarios: Vec<Vec<Sum>>,
}

/// What a search comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// So many pieces cannot keep so many scenarios.
    No,
    /// These pieces keep them.
    Kept(Vec<u32>),
    /// Not found out in as many steps as may be taken, or stopped.
    Unsettled,
}

/// What a search goes by.
pub struct Search<'a> {
    /// At most so many pieces.
    pub pieces: u32,
    /// So many scenarios at least.
    pub keep: usize,
    /// Cells of tables that it may work on.
    pub work: u64,
    /// Whether it is to stop.
    pub is_stopped: &'a (dyn Fn() -> bool + Sync),
}

/// Parts of a search that go on side by side.
const PARTS: usize = 16;
/// Work that a part does before open branches are shared out anew, as a share of all: branches are not alike.
const ROUNDS: u64 = 800;

/// Whether so many pieces can keep so many scenarios.
///
/// # Shape
/// `most`, `groups` and `kinds` of a program have one entry a piece.
#[must_use]
pub fn can_keep(program: &Program, search: &Search<'_>) -> Answer {
    let mut whole = Branches::new(program, search);
    let open = match whole.begin() {
        Ok(open) => open,
        Err(answer) => return answer,
    };
    let mut parts = vec![(whole, open)];
    let mut done = 0;
    while done < search.work {
        share_out(&mut parts);
        let searched = parts.into_par_iter().map(|(mut part, open)| {
            let before = part.work();
            let left = part.searched(open, search.work / ROUNDS);
            (part.work() - before, left.map(|open| (part, open)))
        });
        let searched: Vec<_> = searched.collect();
        done += searched.iter().map(|(work, _)| work).sum::<u64>();
        // The first that came to an answer, so that it is the same however many go on side by side.
        match searched.into_iter().map(|(_, left)| left).collect::<Result<Vec<_>, Answer>>() {
            Err(answer) => return answer,
            Ok(left) => parts = left,
        }
        learn_of_each_other(&mut parts);
        parts.retain(|(_, open)| !open.is_empty());
        if parts.is_empty() {
            return Answer::No;
        }
    }
    Answer::Unsettled
}

/// Lets each part know what branching took away in all of them.
fn learn_of_each_other(parts: &mut [(Branches<'_>, Vec<Open>)]) {
    let mut all = parts.first().map(|(part, _)| part.known()).unwrap_or_default();
    parts.iter().for_each(|(part, _)| part.tell(&mut all));
    parts.iter_mut().for_each(|(part, _)| part.learn(&all));
}

/// Parts the longest lists of open branches, until there are as many as go on side by side.
fn share_out(parts: &mut Vec<(Branches<'_>, Vec<Open>)>) {
    while parts.len() < PARTS {
        let longest = (0..parts.len()).max_by_key(|place| (parts[*place].1.len(), PARTS - place));
        let Some((part, open)) = longest.map(|place| &mut parts[place]).filter(|(_, open)| 1 < open.len())
        else {
            return;
        };
        let more = (part.clone(), open.split_off(open.len() / 2));
        parts.push(more);
    }
}

/// Pieces up to which the linear program alone shows that too few scenarios are kept.
#[must_use]
pub fn too_few(program: &Program, search: &Search<'_>) -> u32 {
    let (mut too_few, mut enough) = (0, search.pieces);
    while 1 < enough - too_few {
        let middle = too_few.midpoint(enough);
        let own = Search { pieces: middle, ..*search };
        let is_open = Branches::new(program, &own).begin().map_or(true, |open| !open.is_empty());
        *(if is_open { &mut enough } else { &mut too_few }) = middle;
    }
    too_few
}
