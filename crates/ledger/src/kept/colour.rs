//! Colour readings as they are kept: a word, or three numbers.

use crate::fault::LedgerFault;
use crate::kept::values::Values;
use crate::kept::words::Word;
use crate::kept::{Kept, SHARED, damaged};
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::{Copied, Table};
use record::colour::{ColourReading, ColourSeen, Lab};
use record::note::Note;
use record::subject::Subject;

const TABLE: Table = Table {
    name: "colour_reading",
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
        "part",
        "word",
        "lightness",
        "a",
        "b",
        "pattern",
        "skin",
    ],
    copied: Copied::First,
};

impl Kept for ColourReading {
    const NOUN: Noun = Noun::ColourReading;
    const TABLE: &'static Table = &TABLE;

    fn subject(&self) -> &Subject {
        &self.subject
    }

    fn own<'a>(&'a self, values: &mut Values<'a>) {
        let (word, measured) = match self.seen {
            ColourSeen::Word(word) => (Some(word.word()), None),
            ColourSeen::Measured(lab) => (None, Some(lab)),
        };
        values.push(self.read_on);
        values.push(self.part.word());
        values.push(word);
        values.push(measured.map(Lab::lightness));
        values.push(measured.map(Lab::a));
        values.push(measured.map(Lab::b));
        values.push(self.pattern.map(Word::word));
        values.push(self.skin.map(Word::word));
    }

    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault> {
        Ok(Self {
            subject,
            read_on: row.day_or_none(SHARED)?,
            part: Word::read(row.text(SHARED + 1)?)?,
            seen: read_seen(row)?,
            pattern: row.text_or_none(SHARED + 6)?.map(Word::read).transpose()?,
            skin: row.text_or_none(SHARED + 7)?.map(Word::read).transpose()?,
        })
    }

    fn note(self) -> Note {
        Note::Colour(self)
    }
}

fn read_seen(row: &Row<'_>) -> Result<ColourSeen, LedgerFault> {
    if let Some(word) = row.text_or_none(SHARED + 2)? {
        return Ok(ColourSeen::Word(Word::read(word)?));
    }
    let lab = Lab::new(row.real(SHARED + 3)?, row.real(SHARED + 4)?, row.real(SHARED + 5)?);
    lab.map(ColourSeen::Measured).ok_or_else(|| damaged(ColourReading::NOUN, "of no colour", row))
}
