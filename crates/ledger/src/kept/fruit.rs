//! Fruit samples as they are kept. This is the table that grows: a season brings tens of thousands.

use crate::fault::LedgerFault;
use crate::kept::values::Values;
use crate::kept::words::Word;
use crate::kept::{Kept, SHARED, damaged};
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::{Copied, Table};
use record::fruit::FruitSample;
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::share::Percent;
use record::subject::Subject;
use std::num::NonZeroU32;

const TABLE: Table = Table {
    name: "fruit_sample",
    columns: &[
        "id",
        "batch",
        "source_row",
        "print",
        "variety",
        "season",
        "plot",
        "plant",
        "sampled_on",
        "fruit_count",
        "weight_g",
        "length_mm",
        "width_mm",
        "neck_mm",
        "locules",
        "soluble_solids_percent",
        "dry_matter_percent",
        "lobes",
        "cracking",
        "catfacing",
        "exterior",
        "flesh",
        "skin",
    ],
    copied: Copied::First,
};

impl Kept for FruitSample {
    const NOUN: Noun = Noun::FruitSample;
    const TABLE: &'static Table = &TABLE;

    fn subject(&self) -> &Subject {
        &self.subject
    }

    fn own<'a>(&'a self, values: &mut Values<'a>) {
        values.push(self.sampled_on);
        values.push(self.fruit_count.get());
        values.push(self.weight.map(Grams::get));
        values.push(self.length.map(Millimetres::get));
        values.push(self.width.map(Millimetres::get));
        values.push(self.neck_width.map(Millimetres::get));
        values.push(self.locules);
        values.push(self.soluble_solids.map(Percent::get));
        values.push(self.dry_matter.map(Percent::get));
        values.push(self.lobes);
        values.push(self.cracking.map(Word::word));
        values.push(self.catfacing.map(Word::word));
        values.push(self.exterior.map(Word::word));
        values.push(self.flesh.map(Word::word));
        values.push(self.skin.map(Word::word));
    }

    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault> {
        let fruit_count = NonZeroU32::new(row.small(SHARED + 1)?);
        Ok(Self {
            subject,
            sampled_on: row.day_or_none(SHARED)?,
            fruit_count: fruit_count.ok_or_else(|| damaged(Self::NOUN, "of no fruit", row))?,
            weight: row.unit_or_none(SHARED + 2, Grams::new)?,
            length: row.unit_or_none(SHARED + 3, Millimetres::new)?,
            width: row.unit_or_none(SHARED + 4, Millimetres::new)?,
            neck_width: row.unit_or_none(SHARED + 5, Millimetres::new)?,
            locules: row.small_or_none(SHARED + 6)?,
            soluble_solids: row.unit_or_none(SHARED + 7, Percent::new)?,
            dry_matter: row.unit_or_none(SHARED + 8, Percent::new)?,
            lobes: row.small_or_none(SHARED + 9)?,
            cracking: row.text_or_none(SHARED + 10)?.map(Word::read).transpose()?,
            catfacing: row.text_or_none(SHARED + 11)?.map(Word::read).transpose()?,
            exterior: row.text_or_none(SHARED + 12)?.map(Word::read).transpose()?,
            flesh: row.text_or_none(SHARED + 13)?.map(Word::read).transpose()?,
            skin: row.text_or_none(SHARED + 14)?.map(Word::read).transpose()?,
        })
    }

    fn note(self) -> Note {
        Note::Fruit(self)
    }
}
