//! Picks as they are kept, with their culls in a table of parts.

use crate::fault::LedgerFault;
use crate::kept::values::Values;
use crate::kept::words::Word;
use crate::kept::{Kept, SHARED};
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::{Copied, Table};
use record::mass::Grams;
use record::note::Note;
use record::pick::{Cull, Pick};
use record::subject::Subject;

const TABLE: Table = Table {
    name: "pick",
    columns: &[
        "id",
        "batch",
        "source_row",
        "print",
        "variety",
        "season",
        "plot",
        "plant",
        "picked_on",
        "fruit_count",
        "weight_g",
    ],
    copied: Copied::First,
};

/// The culls of picks.
pub(crate) static CULLS: Table = Table {
    name: "cull",
    columns: &["pick", "place", "cause", "fruit_count", "weight_g"],
    copied: Copied::Then,
};

/// Where the culls' columns begin, after the pick's own three.
const CULL: usize = SHARED + 3;

impl Kept for Pick {
    const NOUN: Noun = Noun::Pick;
    const TABLE: &'static Table = &TABLE;
    const PARTS: Option<(&'static str, &'static str)> =
        Some(("LEFT JOIN cull part ON part.pick = n.id", "part.cause, part.fruit_count, part.weight_g"));

    fn subject(&self) -> &Subject {
        &self.subject
    }

    fn own<'a>(&'a self, values: &mut Values<'a>) {
        values.push(self.picked_on);
        values.push(self.fruit_count);
        values.push(self.weight.map(Grams::get));
    }

    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault> {
        let mut pick = Self {
            subject,
            picked_on: row.day(SHARED)?,
            fruit_count: row.small_or_none(SHARED + 1)?,
            weight: row.unit_or_none(SHARED + 2, Grams::new)?,
            culls: Vec::new(),
        };
        pick.take_part(row)?;
        Ok(pick)
    }

    fn take_part(&mut self, row: &Row<'_>) -> Result<(), LedgerFault> {
        let Some(cause) = row.text_or_none(CULL)? else { return Ok(()) };
        self.culls.push(Cull {
            cause: Word::read(cause)?,
            fruit_count: row.small_or_none(CULL + 1)?,
            weight: row.unit_or_none(CULL + 2, Grams::new)?,
        });
        Ok(())
    }

    fn culls(&self) -> &[Cull] {
        &self.culls
    }

    fn note(self) -> Note {
        Note::Pick(self)
    }
}

/// A cull's own values.
pub(crate) fn cull<'a>(cull: &Cull, values: &mut Values<'a>) {
    values.push(cull.cause.word());
    values.push(cull.fruit_count);
    values.push(cull.weight.map(Grams::get));
}
