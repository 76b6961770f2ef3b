//! The branches of a search: bounds that part the pieces' totals, the kept scenarios and the pieces themselves.
//!
//! Start at [`Branches::searched`].

#![expect(clippy::indexing_slicing, reason = "lists of lengths that the program's own makes equal")]

use super::simplex::{Ended, Row, Simplex};
use super::{Answer, Program, Search, Sum};
use std::collections::BTreeSet;

/// A branch that is not shut.
#[derive(Clone, Debug)]
pub(super) struct Open {
    bounds: Vec<Bound>,
    /// Scenarios that its linear program keeps, in parts.
    pub(super) keeps: f64,
    values: Vec<f64>,
}

/// Bounds of a column.
type Bound = (usize, f64, f64);

/// What branching on a column to either side took away so far: the sum a unit, and how often.
pub(super) type Took = [(f64, f64); 2];

/// A search with its linear program.
#[derive(Clone)]
pub(super) struct Branches<'a> {
    program: &'a Program,
    search: &'a Search<'a>,
    simplex: Simplex,
    /// Needs that are rows of the linear program already, by scenario.
    added: Vec<Vec<bool>>,
    took: Vec<Took>,
    /// The same when all parts of a search last told each other.
    known: Vec<Took>,
    /// Columns whose bounds are not their own at present, with those.
    moved: Vec<Bound>,
}

/// How far from whole a number may be.
const WHOLE: f64 = 1e-5;
/// How far a need may be from being kept.
const LOOSE: f64 = 1e-6;
/// What a side is taken to take away before it was tried.
const UNTRIED: f64 = 3.0;

impl<'a> Branches<'a> {
    /// Columns are the pieces, the scenarios, then the totals of the groups.
    pub(super) fn new(program: &'a Program, search: &'a Search<'a>) -> Self {
        let (pieces, scenarios) = (program.most.len(), program.scenarios.len());
        let groups = program.groups.iter().max().map_or(0, |last| last + 1);
        let total = f64::from(search.pieces);
        let mut most: Vec<f64> = program.most.iter().map(|most| f64::from(*most).min(total)).collect();
        most.extend(std::iter::repeat_n(1.0, scenarios).chain(std::iter::repeat_n(total, groups)));
        let worth = (0..most.len())
            .map(|column| if (pieces..pieces + scenarios).contains(&column) { 1.0 } else { 0.0 });
        let mut simplex = Simplex::new(vec![0.0; most.len()], most.clone(), worth.collect());
        let totals = pieces + scenarios..most.len();
        simplex.add(row(totals.clone().map(|column| (column, 1.0)).collect(), f64::NEG_INFINITY, total));
        for (group, column) in totals.enumerate() {
            let own = (0..pieces).filter(|piece| program.groups[*piece] == group).map(|piece| (piece, -1.0));
            simplex.add(row(own.chain([(column, 1.0)]).collect(), 0.0, 0.0));
        }
        for (sum, least, most) in &program.rules {
            simplex.add(row(sum.clone(), *least, *most));
        }
        let added = program.scenarios.iter().map(|needs| vec![false; needs.len()]).collect();
        let took = vec![Took::default(); most.len()];
        Self { program, search, simplex, added, known: took.clone(), took, moved: Vec::new() }
    }

    /// The first branch, which is the whole.
    pub(super) fn begin(&mut self) -> Result<Vec<Open>, Answer> {
        self.branch(Vec::new()).map(|open| open.into_iter().collect())
    }

    /// Searches branches until none is open or so much work is done; those that are open then.
    pub(super) fn searched(&mut self, mut open: Vec<Open>, work: u64) -> Result<Vec<Open>, Answer> {
        let until = self.simplex.work + work;
        while self.simplex.work < until {
            let Some(next) = open.pop() else { break };
            if (self.search.is_stopped)() {
                return Err(Answer::Unsettled);
            }
            let mut more = self.opened(next)?;
            more.sort_by(|one, other| one.keeps.total_cmp(&other.keeps));
            open.append(&mut more);
        }
        Ok(open)
    }

    /// What all parts know.
    pub(super) fn known(&self) -> Vec<Took> {
        self.known.clone()
    }

    /// Adds what was learnt since then.
    pub(super) fn tell(&self, all: &mut [Took]) {
        for (all, (took, known)) in all.iter_mut().zip(self.took.iter().zip(&self.known)) {
            for (all, (took, known)) in all.iter_mut().zip(took.iter().zip(known)) {
                all.0 += took.0 - known.0;
                all.1 += took.1 - known.1;
            }
        }
    }

    /// Takes over what all parts know.
    pub(super) fn learn(&mut self, all: &[Took]) {
        self.took = all.to_vec();
        self.known = all.to_vec();
    }

    /// Work that was done.
    pub(super) fn work(&self) -> u64 {
        self.simplex.work
    }

    /// The branches of a branch that are not shut, or the answer.
    pub(super) fn opened(&mut self, open: Open) -> Result<Vec<Open>, Answer> {
        if let Some(column) = self.parts(&open.values).or_else(|| self.piece(&open.values)) {
            return self.both(&open, column);
        }
        match self.too_many_kinds(&open) {
            Some(kinds) => self.without_each(&open, &kinds),
            None => Err(Answer::Kept(self.pieces(&open.values))),
        }
    }

    /// The two sides of a column that is not whole.
    fn both(&mut self, open: &Open, column: usize) -> Result<Vec<Open>, Answer> {
        let (value, keeps) = (open.values[column], open.keeps);
        let below = value.floor();
        let mut found = Vec::new();
        for (side, bound, part) in [
            (0, (column, f64::NEG_INFINITY, below), value - below),
            (1, (column, below + 1.0, f64::INFINITY), below + 1.0 - value),
        ] {
            let bounds = open.bounds.iter().copied().chain([bound]).collect();
            let own = self.branch(bounds)?;
            let lost =
                own.as_ref().map_or(f64::max(1.0, keeps - self.asked() + 1.0), |own| keeps - own.keeps);
            let (sum, times) = &mut self.took[column][side];
            *sum += lost.max(0.0) / part;
            *times += 1.0;
            found.extend(own);
        }
        Ok(found)
    }

    /// Branches that each do without one of the kinds: no answer has all of them.
    fn without_each(&mut self, open: &Open, kinds: &BTreeSet<usize>) -> Result<Vec<Open>, Answer> {
        let mut found = Vec::new();
        for kind in kinds.iter().take(self.program.most_kinds + 1) {
            let own = (0..self.program.kinds.len()).filter(|piece| self.program.kinds[*piece] == *kind);
            let none = own.map(|piece| (piece, f64::NEG_INFINITY, 0.0));
            found.extend(self.branch(open.bounds.iter().copied().chain(none).collect())?);
        }
        Ok(found)
    }

    /// Solves a branch; nothing where it is shut.
    fn branch(&mut self, bounds: Vec<Bound>) -> Result<Option<Open>, Answer> {
        if !self.bound(&bounds) {
            return Ok(None);
        }
        loop {
            match self.simplex.solve(self.asked()) {
                (Ended::Below, _) => return Ok(None),
                (Ended::Unsure, _) => return Err(Answer::Unsettled),
                (Ended::Greatest, values) => {
                    if !self.add_needs(&values) {
                        let scenarios = self.program.most.len()..;
                        let keeps = values[scenarios].iter().take(self.program.scenarios.len()).sum();
                        return Ok(Some(Open { bounds, keeps, values }));
                    }
                }
            }
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "a count of scenarios")]
    fn asked(&self) -> f64 {
        self.search.keep as f64
    }

    /// Sets the bounds of a branch, and those of the last one back; whether anything lies within them.
    fn bound(&mut self, bounds: &[Bound]) -> bool {
        for (column, least, most) in std::mem::take(&mut self.moved).into_iter().rev() {
            (self.simplex.least[column], self.simplex.most[column]) = (least, most);
        }
        for (column, least, most) in bounds {
            let (now_least, now_most) = (self.simplex.least[*column], self.simplex.most[*column]);
            self.moved.push((*column, now_least, now_most));
            self.simplex.least[*column] = now_least.max(*least);
            self.simplex.most[*column] = now_most.min(*most);
            if self.simplex.most[*column] < self.simplex.least[*column] {
                return false;
            }
        }
        true
    }

    /// Adds the need that each scenario is furthest from, where it is kept further than its needs are; whether there was any.
    fn add_needs(&mut self, values: &[f64]) -> bool {
        let (program, pieces) = (self.program, self.program.most.len());
        let mut any = false;
        for (scenario, needs) in program.scenarios.iter().enumerate() {
            let kept = values[pieces + scenario];
            let lacks =
                |need: &Sum| kept - need.iter().map(|(piece, adds)| adds * values[*piece]).sum::<f64>();
            let open = needs.iter().enumerate().filter(|(place, _)| !self.added[scenario][*place]);
            let furthest = open.map(|(place, need)| (lacks(need), place)).filter(|(lacks, _)| LOOSE < *lacks);
            let Some((_, place)) = furthest.reduce(|one, other| if one.0 < other.0 { other } else { one })
            else {
                continue;
            };
            let terms = needs[place].iter().copied().chain([(pieces + scenario, -1.0)]);
            self.simplex.add(row(terms.collect(), 0.0, f64::INFINITY));
            self.added[scenario][place] = true;
            any = true;
        }
        any
    }

    /// The total or, where all are whole, the scenario to branch on.
    fn parts(&self, values: &[f64]) -> Option<usize> {
        let pieces = self.program.most.len();
        let scenarios = pieces + self.program.scenarios.len();
        self.best(scenarios..values.len(), values).or_else(|| self.best(pieces..scenarios, values))
    }

    /// The piece to branch on.
    fn piece(&self, values: &[f64]) -> Option<usize> {
        self.best(0..self.program.most.len(), values)
    }

    /// Of columns that are not whole, the one whose two sides are expected to take away most.
    fn best(&self, columns: std::ops::Range<usize>, values: &[f64]) -> Option<usize> {
        let expected = |column: &usize| {
            let part = values[*column] - values[*column].floor();
            let of = |side: usize| {
                let (sum, times) = self.took[*column][side];
                if 0.0 < times { sum / times } else { UNTRIED }
            };
            (of(0) * part).max(LOOSE) * (of(1) * (1.0 - part)).max(LOOSE)
        };
        let open = columns.filter(|column| WHOLE < (values[*column] - values[*column].round()).abs());
        open.max_by(|one, other| expected(one).total_cmp(&expected(other)).then(other.cmp(one)))
    }

    /// Kinds that are taken, where they are too many.
    fn too_many_kinds(&self, open: &Open) -> Option<BTreeSet<usize>> {
        let pieces = self.program.kinds.iter().zip(&open.values);
        let kinds: BTreeSet<usize> =
            pieces.filter(|(_, value)| WHOLE < **value).map(|(kind, _)| *kind).collect();
        (self.program.most_kinds < kinds.len()).then_some(kinds)
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole numbers up to the pieces"
    )]
    fn pieces(&self, values: &[f64]) -> Vec<u32> {
        values.iter().take(self.program.most.len()).map(|value| value.round().max(0.0) as u32).collect()
    }
}

fn row(terms: Sum, least: f64, most: f64) -> Row {
    Row { terms, least, most }
}
