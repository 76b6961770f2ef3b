//! Rows of fruit samples.

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
use record::fruit::FruitSample;
use record::mass::Grams;
use record::note::Note;
use std::num::NonZeroU32;

/// The columns of a table of fruit samples.
pub(crate) struct FruitColumns {
    subject: SubjectColumns,
    fruit_count: ColumnReader,
    weight: ColumnReader,
    total_weight: ColumnReader,
    length: ColumnReader,
    width: ColumnReader,
    neck_width: ColumnReader,
    locules: ColumnReader,
    soluble_solids: ColumnReader,
    dry_matter: ColumnReader,
    lobes: ColumnReader,
    cracking: ColumnReader,
    catfacing: ColumnReader,
    exterior: ColumnReader,
    flesh: ColumnReader,
    skin: ColumnReader,
}

impl FruitColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            subject: SubjectColumns::new(plan),
            fruit_count: plan.reader(ColumnUse::FruitCount),
            weight: plan.reader(ColumnUse::Weight),
            total_weight: plan.reader(ColumnUse::TotalWeight),
            length: plan.reader(ColumnUse::Length),
            width: plan.reader(ColumnUse::Width),
            neck_width: plan.reader(ColumnUse::NeckWidth),
            locules: plan.reader(ColumnUse::Locules),
            soluble_solids: plan.reader(ColumnUse::SolubleSolids),
            dry_matter: plan.reader(ColumnUse::DryMatter),
            lobes: plan.reader(ColumnUse::Lobes),
            cracking: plan.reader(ColumnUse::Cracking),
            catfacing: plan.reader(ColumnUse::Catfacing),
            exterior: plan.reader(ColumnUse::Exterior),
            flesh: plan.reader(ColumnUse::Flesh),
            skin: plan.reader(ColumnUse::Skin),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let about = self.subject.about(row, plan)?;
        let fruit_count = self.fruit_count(row)?;
        let fruit = FruitSample {
            subject: about.subject,
            sampled_on: about.day,
            fruit_count: fruit_count.unwrap_or(NonZeroU32::MIN),
            weight: self.weight(row, fruit_count)?,
            length: self.length.length(row)?,
            width: self.width.length(row)?,
            neck_width: self.neck_width.length(row)?,
            locules: self.locules.count(row)?,
            soluble_solids: self.soluble_solids.percent(row)?,
            dry_matter: self.dry_matter.percent(row)?,
            lobes: self.lobes.count(row)?,
            cracking: self.cracking.word(row, words::SEVERITIES, "degree of cracking")?,
            catfacing: self.catfacing.word(row, words::SEVERITIES, "degree of catfacing")?,
            exterior: self.exterior.word(row, words::COLOURS, "colour")?,
            flesh: self.flesh.word(row, words::COLOURS, "colour")?,
            skin: self.skin.word(row, words::SKINS, "skin")?,
        };
        if notes_something(&fruit) {
            let doubts = plausible::of_fruit(&fruit, &about, plan.today);
            given.push(Entry::Note(Note::Fruit(fruit)), doubts);
        }
        Ok(())
    }

    fn fruit_count(&self, row: &Row<'_>) -> Result<Option<NonZeroU32>, CellFault> {
        let Some(count) = self.fruit_count.count(row)? else { return Ok(None) };
        let outside = || RowFault::Outside { value: count.to_string(), limits: "1 and more" };
        NonZeroU32::new(count).map(Some).ok_or_else(|| self.fruit_count.fault(outside()))
    }

    /// The weight of one fruit: its own column, or the total parted among the fruits it is the total of.
    fn weight(&self, row: &Row<'_>, fruit_count: Option<NonZeroU32>) -> Result<Option<Grams>, CellFault> {
        let each = self.weight.mass(row)?;
        let Some(total) = self.total_weight.mass(row)?.filter(|_| each.is_none()) else { return Ok(each) };
        let count =
            fruit_count.ok_or_else(|| self.fruit_count.fault(RowFault::Missing("number of fruits")))?;
        Ok(Grams::new(total.get() / f64::from(count.get())))
    }
}

fn notes_something(fruit: &FruitSample) -> bool {
    let measured = fruit.weight.is_some()
        || fruit.length.is_some()
        || fruit.width.is_some()
        || fruit.neck_width.is_some()
        || fruit.locules.is_some()
        || fruit.soluble_solids.is_some();
    measured
        || fruit.dry_matter.is_some()
        || fruit.lobes.is_some()
        || fruit.cracking.is_some()
        || fruit.catfacing.is_some()
        || fruit.exterior.is_some()
        || fruit.flesh.is_some()
        || fruit.skin.is_some()
}
