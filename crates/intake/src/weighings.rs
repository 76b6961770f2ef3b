//! Rows of seed weighings: the replicates of one lot that were weighed on one day.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::lots::noted;
use crate::plan::Plan;
use crate::rejection::RowFault;
use crate::table::Row;
use crate::take::Given;
use record::lot::{LotNote, SeedWeighing};
use record::mass::{Grams, Milligrams};

/// Most replicates that stand in columns of their own.
pub(crate) const MOST_COLUMNS: u8 = 8;

/// Seeds of a replicate, where nobody says. Source: ISTA Rules, chapter 10 (from memory, unverified).
const USUAL_SEEDS: u32 = 100;

/// The columns of a table of seed weighings.
pub(crate) struct WeighingColumns {
    lot: ColumnReader,
    day: ColumnReader,
    seeds: ColumnReader,
    all: ColumnReader,
    each: Vec<ColumnReader>,
}

impl WeighingColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            lot: plan.reader(ColumnUse::Lot),
            day: plan.reader(ColumnUse::Day),
            seeds: plan.reader(ColumnUse::SeedsEach),
            all: plan.reader(ColumnUse::ReplicateMasses),
            each: (1..=MOST_COLUMNS).map(|at| plan.reader(ColumnUse::ReplicateMass(at))).collect(),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let mut masses = self.all.masses(row)?;
        for column in &self.each {
            masses.extend(column.mass(row)?);
        }
        if masses.is_empty() {
            return Ok(());
        }
        let on =
            self.day.day(row, plan.season())?.ok_or_else(|| self.day.fault(RowFault::Missing("date")))?;
        let seeds_each = self.seeds.count(row)?.unwrap_or(USUAL_SEEDS);
        if seeds_each == 0 {
            let fault = RowFault::Outside { value: "0".to_owned(), limits: "1 seed or more" };
            return Err(self.seeds.fault(fault));
        }
        let whole = |grams: &Grams| grams.to_milligrams().filter(|mass| Milligrams::NONE < *mass);
        let masses: Option<Vec<Milligrams>> = masses.iter().map(whole).collect();
        let nothing = || RowFault::Outside { value: "0".to_owned(), limits: "1 mg or more" };
        let masses = masses.ok_or_else(|| self.all.fault(nothing()))?;
        let weighing = SeedWeighing { on, seeds_each, masses };
        given.push(noted(self.lot, row, plan, LotNote::Weighing(weighing))?, Vec::new());
        Ok(())
    }
}
