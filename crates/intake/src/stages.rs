//! Rows of stage notes, either one stage a column (a row may then note several) or one stage a row.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::Entry;
use crate::plan::Plan;
use crate::plausible;
use crate::rejection::RowFault;
use crate::subject::{About, SubjectColumns};
use crate::table::Row;
use crate::take::Given;
use crate::words::{self, StageWord};
use jiff::civil::Date;
use record::doubt::Doubt;
use record::note::Note;
use record::stage::{LeafCount, StageNote, StageSeen};

/// The columns of a table of stage notes.
pub(crate) struct StageColumns {
    subject: SubjectColumns,
    first_flower: ColumnReader,
    first_ripe: ColumnReader,
    stem_ended: ColumnReader,
    trusses: ColumnReader,
    leaves_between: ColumnReader,
    plant_count: ColumnReader,
    off_types: ColumnReader,
    off_type_words: ColumnReader,
    dwarf_leaves: ColumnReader,
    stage: ColumnReader,
    stage_number: ColumnReader,
}

/// Most trusses that are believed on one stem. Common practice, no source.
const MOST_TRUSSES: u32 = 60;

impl StageColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            subject: SubjectColumns::new(plan),
            first_flower: plan.reader(ColumnUse::FirstFlower),
            first_ripe: plan.reader(ColumnUse::FirstRipe),
            stem_ended: plan.reader(ColumnUse::StemEnded),
            trusses: plan.reader(ColumnUse::Trusses),
            leaves_between: plan.reader(ColumnUse::LeavesBetween),
            plant_count: plan.reader(ColumnUse::PlantCount),
            off_types: plan.reader(ColumnUse::OffTypes),
            off_type_words: plan.reader(ColumnUse::OffTypeWords),
            dwarf_leaves: plan.reader(ColumnUse::DwarfLeaves),
            stage: plan.reader(ColumnUse::Stage),
            stage_number: plan.reader(ColumnUse::StageNumber),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let about = self.subject.about(row, plan)?;
        // All are read before any is given, so that a row is taken whole or not at all.
        let mut seen = Vec::new();
        seen.extend(self.on_a_day(row, plan, &about, self.first_flower, StageSeen::FirstFlower)?);
        seen.extend(self.on_a_day(row, plan, &about, self.first_ripe, StageSeen::FirstRipe)?);
        seen.extend(self.stem(row)?.map(|stem| (stem, about.day)));
        seen.extend(leaves(self.leaves_between, row)?.map(|leaves| (leaves, about.day)));
        seen.extend(self.plant_count.count(row)?.map(|count| (StageSeen::PlantCount(count), about.day)));
        seen.extend(self.off_types(row)?.map(|off| (off, about.day)));
        let dwarf = self.dwarf_leaves.word(row, words::YES_OR_NO, "yes or no")?;
        seen.extend(dwarf.filter(|dwarf| *dwarf).map(|_| (StageSeen::DwarfLeaves, about.day)));
        seen.extend(self.named_stage(row)?.map(|stage| (stage, about.day)));
        for (seen, noted_on) in seen {
            let doubts = doubts(&seen, noted_on, &about, plan.today);
            let note = StageNote { subject: about.subject, noted_on, seen };
            given.push(Entry::Note(Note::Stage(note)), doubts);
        }
        Ok(())
    }

    /// A stage whose cell is the day it was seen, or a mark that it was seen on the row's day.
    fn on_a_day(
        &self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        about: &About<'_>,
        column: ColumnReader,
        stage: StageSeen,
    ) -> Result<Option<(StageSeen, Option<Date>)>, CellFault> {
        let mark = column.text(row)?.and_then(|text| words::meaning(words::YES_OR_NO, text));
        match mark {
            Some(true) => Ok(Some((stage, about.day))),
            Some(false) => Ok(None),
            None => {
                let season = Some((about.subject.season, plan.roster.calendar()));
                Ok(column.day(row, season)?.map(|day| (stage, Some(day))))
            }
        }
    }

    /// Whether the main stem ended, and after how many trusses.
    fn stem(&self, row: &Row<'_>) -> Result<Option<StageSeen>, CellFault> {
        let trusses = self.trusses.count(row)?;
        let Some(text) = self.stem_ended.text(row)? else {
            let untold =
                self.stem_ended.fault(RowFault::Missing("end of the stem (yes or no) beside its trusses"));
            return if trusses.is_some() { Err(untold) } else { Ok(None) };
        };
        match (words::meaning(words::YES_OR_NO, text).filter(|_| !is_truss_count(text)), trusses) {
            (Some(true), trusses) => Ok(Some(StageSeen::StemEnded { trusses })),
            (Some(false), Some(trusses)) => Ok(Some(StageSeen::StemGrowing { trusses })),
            (Some(false), None) => Ok(None),
            (None, None) => {
                Ok(self.stem_ended.count(row)?.map(|count| StageSeen::StemEnded { trusses: Some(count) }))
            }
            (None, Some(_)) => {
                let allowed = words::allowed(words::YES_OR_NO);
                Err(self.stem_ended.fault(RowFault::Word {
                    word: text.to_owned(),
                    what: "yes or no",
                    allowed,
                }))
            }
        }
    }

    fn off_types(&self, row: &Row<'_>) -> Result<Option<StageSeen>, CellFault> {
        let words = self.off_type_words.text(row)?.unwrap_or_default();
        match self.off_types.count(row)? {
            Some(plants) => Ok(Some(StageSeen::OffType { plants, words: words.to_owned() })),
            None if words.is_empty() => Ok(None),
            None => Err(self.off_types.fault(RowFault::Missing("number of off-types"))),
        }
    }

    /// The stage that the row names, with the number beside it.
    fn named_stage(&self, row: &Row<'_>) -> Result<Option<StageSeen>, CellFault> {
        let Some(stage) = self.stage.word(row, words::STAGES, "stage")? else { return Ok(None) };
        let number = self.stage_number;
        let needed = |what| number.fault(RowFault::Missing(what));
        Ok(Some(match stage {
            StageWord::FirstFlower => StageSeen::FirstFlower,
            StageWord::FirstRipe => StageSeen::FirstRipe,
            StageWord::DwarfLeaves => StageSeen::DwarfLeaves,
            StageWord::StemEnded => StageSeen::StemEnded { trusses: number.count(row)? },
            StageWord::StemGrowing => StageSeen::StemGrowing {
                trusses: number.count(row)?.ok_or_else(|| needed("number of trusses"))?,
            },
            StageWord::LeavesBetween => leaves(number, row)?.ok_or_else(|| needed("number of leaves"))?,
            StageWord::PlantCount => {
                StageSeen::PlantCount(number.count(row)?.ok_or_else(|| needed("number of plants"))?)
            }
            StageWord::OffType => {
                let plants = number.count(row)?.ok_or_else(|| needed("number of off-types"))?;
                StageSeen::OffType {
                    plants,
                    words: self.off_type_words.text(row)?.unwrap_or_default().to_owned(),
                }
            }
        }))
    }
}

/// Whether a cell of the stem column counts trusses rather than saying yes or no: any number of two or
/// more. A bare 1 or 0 is yes or no, since no stem ends before its second truss unless it is broken.
fn is_truss_count(text: &str) -> bool {
    text.parse::<u32>().is_ok_and(|count| 1 < count)
}

fn leaves(column: ColumnReader, row: &Row<'_>) -> Result<Option<StageSeen>, CellFault> {
    let Some(leaves) = column.number(row)? else { return Ok(None) };
    let outside = || RowFault::Outside { value: leaves.to_string(), limits: "0 to 20 leaves" };
    let count = LeafCount::new(leaves).ok_or_else(|| column.fault(outside()))?;
    Ok(Some(StageSeen::LeavesBetweenTrusses(count)))
}

fn doubts(seen: &StageSeen, day: Option<Date>, about: &About<'_>, today: Date) -> Vec<Doubt> {
    let trusses = match seen {
        StageSeen::StemEnded { trusses: Some(trusses) } | StageSeen::StemGrowing { trusses } => {
            Some(*trusses)
        }
        _ => None,
    };
    let mut doubts: Vec<Doubt> =
        trusses.filter(|trusses| MOST_TRUSSES < *trusses).map(plausible::many_trusses).into_iter().collect();
    match seen {
        // Seedlings flower on the bench; only ripe fruit before planting out is unlikely.
        StageSeen::FirstRipe => doubts.extend(plausible::of_day(day, about, today)),
        _ => doubts.extend(day.and_then(|day| plausible::in_future(day, today))),
    }
    doubts
}
