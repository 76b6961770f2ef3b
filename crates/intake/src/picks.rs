//! Rows of picks, and of what was culled from them.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::Entry;
use crate::plan::Plan;
use crate::plausible;
use crate::rejection::RowFault;
use crate::subject::SubjectColumns;
use crate::table::Row;
use crate::take::Given;
use crate::words;
use record::mass::Grams;
use record::note::Note;
use record::pick::{Cull, CullCause, Pick};

/// Every cause, in the order in which culls are told.
const CAUSES: [CullCause; 8] = [
    CullCause::Cracked,
    CullCause::Catfaced,
    CullCause::BlossomEndRot,
    CullCause::Rotten,
    CullCause::Sunscald,
    CullCause::Eaten,
    CullCause::Undersized,
    CullCause::Other,
];

/// The columns of a table of picks.
pub(crate) struct PickColumns {
    subject: SubjectColumns,
    fruit_count: ColumnReader,
    weight: ColumnReader,
    by_cause: Vec<CauseColumns>,
    cause: ColumnReader,
    culls: ColumnReader,
    culls_weighed: ColumnReader,
}

/// The columns of culls of one cause.
struct CauseColumns {
    cause: CullCause,
    count: ColumnReader,
    weight: ColumnReader,
}

impl PickColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        let by_cause = CAUSES.into_iter().map(|cause| CauseColumns {
            cause,
            count: plan.reader(ColumnUse::CullCount(cause)),
            weight: plan.reader(ColumnUse::CullWeight(cause)),
        });
        Self {
            subject: SubjectColumns::new(plan),
            fruit_count: plan.reader(ColumnUse::FruitCount),
            weight: plan.reader(ColumnUse::Weight),
            by_cause: by_cause
                .filter(|columns| columns.count.is_there() || columns.weight.is_there())
                .collect(),
            cause: plan.reader(ColumnUse::CullCause),
            culls: plan.reader(ColumnUse::Culls),
            culls_weighed: plan.reader(ColumnUse::CullsWeighed),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let about = self.subject.about(row, plan)?;
        let (fruit_count, weight) = (self.fruit_count.count(row)?, self.weight.mass(row)?);
        let culls = self.culls(row)?;
        if fruit_count.is_none() && weight.is_none() {
            // A row of a walk sheet that was not filled in is nothing; culls without a pick are half a note.
            let fault =
                self.fruit_count.fault(RowFault::Missing("count or weight of sound fruit (0 if none)"));
            return if culls.is_empty() { Ok(()) } else { Err(fault) };
        }
        let picked_on = about.day.ok_or_else(|| self.subject.no_day())?;
        let pick = Pick { subject: about.subject, picked_on, fruit_count, weight, culls };
        let doubts = plausible::of_pick(&pick, &about, plan.today);
        given.push(Entry::Note(Note::Pick(pick)), doubts);
        Ok(())
    }

    fn culls(&self, row: &Row<'_>) -> Result<Vec<Cull>, CellFault> {
        let mut culls = Vec::new();
        for columns in &self.by_cause {
            culls.extend(cull(columns.cause, columns.count.count(row)?, columns.weight.mass(row)?));
        }
        let cause = self.cause.word(row, words::CULL_CAUSES, "cause of culling")?;
        let (count, weight) = (self.culls.count(row)?, self.culls_weighed.mass(row)?);
        culls.extend(cull(cause.unwrap_or(CullCause::Other), count, weight));
        Ok(culls)
    }
}

/// Culls of one cause; none of them is no cull.
fn cull(cause: CullCause, fruit_count: Option<u32>, weight: Option<Grams>) -> Option<Cull> {
    let some = fruit_count.is_some_and(|count| 0 < count) || weight.is_some_and(|weight| 0.0 < weight.get());
    some.then_some(Cull { cause, fruit_count, weight })
}
