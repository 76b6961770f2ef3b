//! Rows of germination tests: one test a row, its replicates one behind the other.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::lots::noted;
use crate::plan::Plan;
use crate::rejection::RowFault;
use crate::table::Row;
use crate::take::Given;
use crate::weighings::MOST_COLUMNS;
use crate::words::YES_OR_NO;
use jiff::civil::Date;
use record::germination::{GerminationTest, Made, Replicate, ReplicateFault, Seedlings};
use record::lot::LotNote;

/// Seeds of a replicate, where nobody says. Source: 7 CFR 201.54 (February 2020): replicates of 100 or fewer.
const USUAL_SEEDS: u32 = 100;

/// The columns of a table of germination tests.
pub(crate) struct GerminationColumns {
    lot: ColumnReader,
    laid_out: ColumnReader,
    first_counted: ColumnReader,
    counted: ColumnReader,
    seeds: ColumnReader,
    normal: ColumnReader,
    each: Vec<ColumnReader>,
    abnormal: ColumnReader,
    hard: ColumnReader,
    first: ColumnReader,
    laboratory: ColumnReader,
}

impl GerminationColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        let of = |reads| plan.reader(reads);
        Self {
            lot: of(ColumnUse::Lot),
            laid_out: of(ColumnUse::LaidOut),
            first_counted: of(ColumnUse::FirstCounted),
            counted: of(ColumnUse::Day),
            seeds: of(ColumnUse::SeedsEach),
            normal: of(ColumnUse::Normal),
            each: (1..=MOST_COLUMNS).map(|at| of(ColumnUse::NormalOf(at))).collect(),
            abnormal: of(ColumnUse::Abnormal),
            hard: of(ColumnUse::HardSeeds),
            first: of(ColumnUse::FirstCount),
            laboratory: of(ColumnUse::Laboratory),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let mut normal = self.normal.counts(row)?;
        for column in &self.each {
            normal.extend(column.count(row)?);
        }
        if normal.is_empty() {
            return Ok(());
        }
        let day = |column: ColumnReader, what| {
            column.day(row, plan.season())?.ok_or_else(|| column.fault(RowFault::Missing(what)))
        };
        let (begun_on, counted_on) =
            (day(self.laid_out, "day of laying out")?, day(self.counted, "day of the count")?);
        let first_counted_on = self.first_counted.day(row, plan.season())?;
        self.in_order(begun_on, first_counted_on.unwrap_or(counted_on), counted_on)?;
        let in_laboratory = self.laboratory.word(row, YES_OR_NO, "answer")?.unwrap_or(false);
        let test = GerminationTest {
            begun_on,
            first_counted_on,
            counted_on,
            made: if in_laboratory { Made::Laboratory } else { Made::InHouse },
            replicates: self.replicates(row, &normal)?,
        };
        given.push(noted(self.lot, row, plan, LotNote::Germination(test))?, Vec::new());
        Ok(())
    }

    fn in_order(&self, begun: Date, first: Date, counted: Date) -> Result<(), CellFault> {
        if first < begun || counted < first {
            return Err(self.counted.fault(RowFault::CountedBeforeLaidOut));
        }
        Ok(())
    }

    fn replicates(&self, row: &Row<'_>, normal: &[u32]) -> Result<Vec<Replicate>, CellFault> {
        let sown = self.seeds.count(row)?.unwrap_or(USUAL_SEEDS);
        let beside = |column: ColumnReader| {
            let found = column.counts(row)?;
            if !found.is_empty() && found.len() != normal.len() {
                let fault = RowFault::NotOneEach { found: found.len(), replicates: normal.len() };
                return Err(column.fault(fault));
            }
            Ok(found)
        };
        let (abnormal, hard, first) = (beside(self.abnormal)?, beside(self.hard)?, beside(self.first)?);
        let made = normal.iter().enumerate().map(|(at, normal)| {
            let of = |list: &[u32]| list.get(at).copied();
            let (abnormal, hard) = (of(&abnormal).unwrap_or(0), of(&hard).unwrap_or(0));
            let seen = normal.saturating_add(abnormal).saturating_add(hard);
            let seedlings = Seedlings { normal: *normal, abnormal, hard, dead: sown.saturating_sub(seen) };
            let made = Replicate::new(sown, seedlings, of(&first));
            let column = if self.normal.is_there() { self.normal } else { self.lot };
            made.map_err(|fault| column.fault(RowFault::NotAReplicate { replicate: at + 1, why: why(fault) }))
        });
        made.collect()
    }
}

fn why(fault: ReplicateFault) -> String {
    match fault {
        ReplicateFault::NoSeeds => "no seed was laid out".to_owned(),
        ReplicateFault::NotAllCounted { sown, counted } => {
            format!("{counted} seedlings and seeds were counted of {sown} laid out")
        }
        ReplicateFault::FirstCountAboveFinal { first, normal } => {
            format!("{first} normal seedlings at the first count, and {normal} in all")
        }
    }
}
