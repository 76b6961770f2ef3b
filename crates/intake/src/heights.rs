//! Rows of plant heights.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::Entry;
use crate::plan::Plan;
use crate::plausible;
use crate::subject::SubjectColumns;
use crate::table::Row;
use crate::take::Given;
use record::height::HeightReading;
use record::note::Note;

/// The columns of a table of heights.
pub(crate) struct HeightColumns {
    subject: SubjectColumns,
    height: ColumnReader,
}

impl HeightColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self { subject: SubjectColumns::new(plan), height: plan.reader(ColumnUse::Height) }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let about = self.subject.about(row, plan)?;
        let Some(height) = self.height.length(row)? else { return Ok(()) };
        let read_on = about.day.ok_or_else(|| self.subject.no_day())?;
        let reading = HeightReading { subject: about.subject, read_on, height };
        given.push(Entry::Note(Note::Height(reading)), plausible::of_height(height, read_on, plan.today));
        Ok(())
    }
}
