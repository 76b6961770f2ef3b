//! Rows of colour readings: a word or L*, a*, b*, and which part of the fruit was looked at.

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
use record::colour::{ColourReading, ColourSeen, FruitPart, Lab};
use record::note::Note;

/// The columns of a table of colours.
pub(crate) struct ColourColumns {
    subject: SubjectColumns,
    part: ColumnReader,
    word: ColumnReader,
    lightness: ColumnReader,
    green_red: ColumnReader,
    blue_yellow: ColumnReader,
    by_part: [(FruitPart, ColumnReader); 3],
    pattern: ColumnReader,
    skin: ColumnReader,
}

impl ColourColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            subject: SubjectColumns::new(plan),
            part: plan.reader(ColumnUse::Part),
            word: plan.reader(ColumnUse::Colour),
            lightness: plan.reader(ColumnUse::Lightness),
            green_red: plan.reader(ColumnUse::GreenRed),
            blue_yellow: plan.reader(ColumnUse::BlueYellow),
            by_part: [
                (FruitPart::Exterior, plan.reader(ColumnUse::Exterior)),
                (FruitPart::Flesh, plan.reader(ColumnUse::Flesh)),
                (FruitPart::Gel, plan.reader(ColumnUse::Gel)),
            ],
            pattern: plan.reader(ColumnUse::Pattern),
            skin: plan.reader(ColumnUse::Skin),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let about = self.subject.about(row, plan)?;
        let seen = self.seen(row)?;
        let pattern = self.pattern.word(row, words::PATTERNS, "pattern")?;
        let skin = self.skin.word(row, words::SKINS, "skin")?;
        if seen.is_empty() && (pattern.is_some() || skin.is_some()) {
            return Err(self.word.fault(RowFault::Missing("colour")));
        }
        for (part, seen) in seen {
            let outside = part == FruitPart::Exterior;
            let reading = ColourReading {
                subject: about.subject,
                read_on: about.day,
                part,
                seen,
                pattern: pattern.filter(|_| outside),
                skin: skin.filter(|_| outside),
            };
            let doubts =
                about.day.and_then(|day| plausible::in_future(day, plan.today)).into_iter().collect();
            given.push(Entry::Note(Note::Colour(reading)), doubts);
        }
        Ok(())
    }

    /// Every colour that the row notes, with its part; a colour that names no part is the outside's.
    fn seen(&self, row: &Row<'_>) -> Result<Vec<(FruitPart, ColourSeen)>, CellFault> {
        let mut seen = Vec::new();
        let part = self.part.word(row, words::PARTS, "part of the fruit")?.unwrap_or(FruitPart::Exterior);
        let word = self.word.word(row, words::COLOURS, "colour")?;
        seen.extend(word.map(|word| (part, ColourSeen::Word(word))));
        seen.extend(self.measured(row)?.map(|lab| (part, ColourSeen::Measured(lab))));
        for (part, column) in &self.by_part {
            let word = column.word(row, words::COLOURS, "colour")?;
            seen.extend(word.map(|word| (*part, ColourSeen::Word(word))));
        }
        Ok(seen)
    }

    fn measured(&self, row: &Row<'_>) -> Result<Option<Lab>, CellFault> {
        let (lightness, a, b) =
            (self.lightness.signed(row)?, self.green_red.signed(row)?, self.blue_yellow.signed(row)?);
        match (lightness, a, b) {
            (None, None, None) => Ok(None),
            (Some(lightness), Some(a), Some(b)) => {
                let value = format!("L* {lightness}, a* {a}, b* {b}");
                let limits = "L* from 0 to 100, a* and b* from -150 to 150";
                let outside = || self.lightness.fault(RowFault::Outside { value, limits });
                Lab::new(lightness, a, b).map(Some).ok_or_else(outside)
            }
            (None, ..) => Err(self.lightness.fault(RowFault::Missing("L*"))),
            (_, None, _) => Err(self.green_red.fault(RowFault::Missing("a*"))),
            (.., None) => Err(self.blue_yellow.fault(RowFault::Missing("b*"))),
        }
    }
}
