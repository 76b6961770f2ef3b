//! Height readings as they are kept.

use crate::fault::LedgerFault;
use crate::kept::values::Values;
use crate::kept::{Kept, SHARED, damaged};
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::{Copied, Table};
use record::height::HeightReading;
use record::length::Millimetres;
use record::note::Note;
use record::subject::Subject;

const TABLE: Table = Table {
    name: "height_reading",
    columns: &[
        "id",
        "batch",
        "source_row",
        "print",
        "variety",
        "season",
        "plot",
        "plant",
        "read_on",
        "height_mm",
    ],
    copied: Copied::First,
};

impl Kept for HeightReading {
    const NOUN: Noun = Noun::HeightReading;
    const TABLE: &'static Table = &TABLE;

    fn subject(&self) -> &Subject {
        &self.subject
    }

    fn own<'a>(&'a self, values: &mut Values<'a>) {
        values.push(self.read_on);
        values.push(self.height.get());
    }

    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault> {
        let height = row.unit_or_none(SHARED + 1, Millimetres::new)?;
        Ok(Self {
            subject,
            read_on: row.day(SHARED)?,
            height: height.ok_or_else(|| damaged(Self::NOUN, "without a height", row))?,
        })
    }

    fn note(self) -> Note {
        Note::Height(self)
    }
}
