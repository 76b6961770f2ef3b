//! Stage notes as they are kept: one word for what was seen, and columns for what goes with it.

use crate::fault::LedgerFault;
use crate::kept::values::Values;
use crate::kept::{Kept, SHARED, damaged};
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::{Copied, Table};
use crate::store::value::Value;
use record::note::Note;
use record::stage::{LeafCount, StageNote, StageSeen};
use record::subject::Subject;

const TABLE: Table = Table {
    name: "stage_note",
    columns: &[
        "id",
        "batch",
        "source_row",
        "print",
        "variety",
        "season",
        "plot",
        "plant",
        "noted_on",
        "seen",
        "trusses",
        "leaves",
        "plants",
        "words",
    ],
    copied: Copied::First,
};

impl Kept for StageNote {
    const NOUN: Noun = Noun::StageNote;
    const TABLE: &'static Table = &TABLE;

    fn subject(&self) -> &Subject {
        &self.subject
    }

    fn own<'a>(&'a self, values: &mut Values<'a>) {
        let none = Value::Nothing;
        let (seen, trusses, leaves, plants, words) = match &self.seen {
            StageSeen::FirstFlower => ("first flower", none, none, none, none),
            StageSeen::FirstRipe => ("first ripe", none, none, none, none),
            StageSeen::StemEnded { trusses } => ("stem ended", (*trusses).into(), none, none, none),
            StageSeen::StemGrowing { trusses } => ("stem growing", (*trusses).into(), none, none, none),
            StageSeen::LeavesBetweenTrusses(leaves) => {
                ("leaves between trusses", none, leaves.get().into(), none, none)
            }
            StageSeen::PlantCount(plants) => ("plant count", none, none, (*plants).into(), none),
            StageSeen::OffType { plants, words } => {
                ("off-type", none, none, (*plants).into(), words.as_str().into())
            }
            StageSeen::DwarfLeaves => ("dwarf leaves", none, none, none, none),
        };
        values.push(self.noted_on);
        values.push(seen);
        values.push(trusses);
        values.push(leaves);
        values.push(plants);
        values.push(words);
    }

    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault> {
        Ok(Self { subject, noted_on: row.day_or_none(SHARED)?, seen: read_seen(row)? })
    }

    fn note(self) -> Note {
        Note::Stage(self)
    }
}

fn read_seen(row: &Row<'_>) -> Result<StageSeen, LedgerFault> {
    let trusses = row.small_or_none(SHARED + 2)?;
    Ok(match row.text(SHARED + 1)? {
        "first flower" => StageSeen::FirstFlower,
        "first ripe" => StageSeen::FirstRipe,
        "stem ended" => StageSeen::StemEnded { trusses },
        "stem growing" => StageSeen::StemGrowing { trusses: row.small(SHARED + 2)? },
        "leaves between trusses" => {
            let leaves = row.unit_or_none(SHARED + 3, LeafCount::new)?;
            StageSeen::LeavesBetweenTrusses(
                leaves.ok_or_else(|| damaged(StageNote::NOUN, "without its leaves", row))?,
            )
        }
        "plant count" => StageSeen::PlantCount(row.small(SHARED + 4)?),
        "off-type" => StageSeen::OffType { plants: row.small(SHARED + 4)?, words: row.words(SHARED + 5)? },
        "dwarf leaves" => StageSeen::DwarfLeaves,
        other => return Err(damaged(StageNote::NOUN, other, row)),
    })
}
