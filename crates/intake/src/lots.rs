//! Rows of lots of seed: number, variety and season, where they come from, and what came in.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::{Entry, LotNoted, NewLot};
use crate::plan::Plan;
use crate::rejection::RowFault;
use crate::subject::{known_variety, named_grow_out, stated_season};
use crate::table::Row;
use crate::take::Given;
use jiff::civil::Date;
use record::growout::Plot;
use record::id::Id;
use record::lot::{ITSELF, Lot, LotKeeping, LotNote, LotOrigin, MoistureReading, Packing};
use record::mass::Grams;
use record::season::Season;
use record::stock::{Movement, Place};
use record::temperature::Celsius;

/// Longest number of a lot, in letters.
const LONGEST_NUMBER: usize = 80;

/// The columns of a table of lots.
pub(crate) struct LotColumns {
    number: ColumnReader,
    variety: ColumnReader,
    season: ColumnReader,
    grow_out: ColumnReader,
    plot: ColumnReader,
    day: ColumnReader,
    seed: ColumnReader,
    harvested: ColumnReader,
    sown_from: ColumnReader,
    parents: ColumnReader,
    isolation: ColumnReader,
    extraction: ColumnReader,
    drying: ColumnReader,
    treatment: ColumnReader,
    location: ColumnReader,
    warmth: ColumnReader,
    moisture: ColumnReader,
}

impl LotColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        let of = |reads| plan.reader(reads);
        Self {
            number: of(ColumnUse::Lot),
            variety: of(ColumnUse::Variety),
            season: of(ColumnUse::Season),
            grow_out: of(ColumnUse::GrowOut),
            plot: of(ColumnUse::Plot),
            day: of(ColumnUse::Day),
            seed: of(ColumnUse::SeedMass),
            harvested: of(ColumnUse::Harvested),
            sown_from: of(ColumnUse::SownFrom),
            parents: of(ColumnUse::Parents),
            isolation: of(ColumnUse::Isolation),
            extraction: of(ColumnUse::Extraction),
            drying: of(ColumnUse::Drying),
            treatment: of(ColumnUse::Treatment),
            location: of(ColumnUse::Location),
            warmth: of(ColumnUse::Warmth),
            moisture: of(ColumnUse::Moisture),
        }
    }

    pub(crate) fn read(&self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        let number = self.number.text(row)?.ok_or_else(|| self.number.fault(RowFault::Missing("lot")))?;
        if LONGEST_NUMBER < number.chars().count() || !number.chars().any(char::is_alphanumeric) {
            return Err(self.number.fault(RowFault::NotAName(number.chars().take(LONGEST_NUMBER).collect())));
        }
        let name = self.variety.text(row)?.ok_or_else(|| self.variety.fault(RowFault::Missing("variety")))?;
        let variety = known_variety(self.variety, name, plan)?.id;
        let stated = stated_season(self.season, row)?;
        let calendar = plan.roster.calendar();
        let within = stated.or(plan.layout.season).map(|season| (season, calendar));
        let harvested = self.harvested.day(row, within)?;
        let dated = harvested.and_then(|day| calendar.season_of(day));
        let season = stated.or(dated).or(plan.layout.season).ok_or(RowFault::NoSeason)?;
        let day = self.day.day(row, within)?;
        let notes = self.notes(row, plan, Told { season, harvested, day })?;
        let new = NewLot { number: number.to_owned(), variety, season, notes };
        given.push(Entry::Lot(Box::new(new)), Vec::new());
        Ok(())
    }

    fn notes(&self, row: &Row<'_>, plan: &Plan<'_>, told: Told) -> Result<Vec<LotNote>, CellFault> {
        let origin = self.origin(row, plan, told)?;
        let mut notes = Vec::new();
        if origin != LotOrigin::default() {
            notes.push(LotNote::Origin(origin));
        }
        notes.extend(self.came_in(row, told)?);
        notes.extend(self.kept(row, told)?);
        if let Some(moisture) = self.moisture.percent(row)? {
            let on = told.on().ok_or_else(|| self.day.fault(RowFault::Missing("date")))?;
            notes.push(LotNote::Moisture(MoistureReading { on, moisture }));
        }
        Ok(notes)
    }

    fn origin(&self, row: &Row<'_>, plan: &Plan<'_>, told: Told) -> Result<LotOrigin, CellFault> {
        let words = |column: ColumnReader| Ok::<_, CellFault>(column.text(row)?.map(str::to_owned));
        Ok(LotOrigin {
            harvested_on: told.harvested,
            plot: self.plot(row, plan, told.season)?,
            sown_from: self
                .sown_from
                .text(row)?
                .map(|number| known_lot(self.sown_from, number, plan))
                .transpose()?,
            parents: self.parents.count(row)?,
            isolation: self.isolation.length(row)?,
            extraction: words(self.extraction)?,
            drying: words(self.drying)?,
            treatment: words(self.treatment)?,
        })
    }

    /// The plot of that label, in the grow-out that is named or else in the season of the lot.
    fn plot(&self, row: &Row<'_>, plan: &Plan<'_>, season: Season) -> Result<Option<Id<Plot>>, CellFault> {
        let Some(label) = self.plot.text(row)? else { return Ok(None) };
        let grow_out = named_grow_out(self.grow_out, row, plan)?;
        let fits = |plot: &&crate::roster::KnownPlot| match grow_out {
            Some(grow_out) => grow_out.id == plot.plot.grow_out,
            None => plot.season == season,
        };
        let mut plots = plan.roster.plots_labelled(label).filter(fits);
        match (plots.next(), plots.next()) {
            (Some(one), None) => Ok(Some(one.plot.id)),
            (None, _) => Err(self.plot.fault(RowFault::UnknownPlot(label.to_owned()))),
            (Some(_), Some(_)) => Err(self.plot.fault(RowFault::SeveralPlots(label.to_owned()))),
        }
    }

    fn came_in(&self, row: &Row<'_>, told: Told) -> Result<Option<LotNote>, CellFault> {
        let Some(mass) = self.seed.mass(row)?.filter(|mass| Grams::NONE < *mass) else { return Ok(None) };
        let on = told.on().ok_or_else(|| self.day.fault(RowFault::Missing("date")))?;
        let outside =
            || RowFault::Outside { value: format!("{} g", mass.get()), limits: "what can be counted" };
        let mass = mass.to_milligrams().ok_or_else(|| self.seed.fault(outside()))?;
        let came_in = Movement { lot: ITSELF, on, from: Place::Origin, to: Place::Jar, mass };
        Ok(Some(LotNote::Movement(came_in)))
    }

    fn kept(&self, row: &Row<'_>, told: Told) -> Result<Option<LotNote>, CellFault> {
        let location = self.location.text(row)?.map(str::to_owned);
        let warmth = |text: &str| {
            let fault = || RowFault::Word {
                word: text.to_owned(),
                what: "temperature with its scale",
                allowed: "degrees and their scale, such as 5 C or 41 F".to_owned(),
            };
            Celsius::written(text).ok_or_else(|| self.warmth.fault(fault()))
        };
        let temperature = self.warmth.text(row)?.map(warmth).transpose()?;
        if location.is_none() && temperature.is_none() {
            return Ok(None);
        }
        let since = told.on().ok_or_else(|| self.day.fault(RowFault::Missing("date")))?;
        let keeping = LotKeeping { since, location, temperature, packing: Packing::Open, vapour_g: None };
        Ok(Some(LotNote::Keeping(keeping)))
    }
}

/// What a row tells of its season and days.
#[derive(Clone, Copy)]
struct Told {
    season: Season,
    harvested: Option<Date>,
    day: Option<Date>,
}

impl Told {
    /// The day from which the seed was in the house.
    fn on(self) -> Option<Date> {
        self.day.or(self.harvested)
    }
}

/// The lot of a number.
pub(crate) fn known_lot(column: ColumnReader, number: &str, plan: &Plan<'_>) -> Result<Id<Lot>, CellFault> {
    plan.roster.lot(number).ok_or_else(|| column.fault(RowFault::UnknownLot(number.to_owned())))
}

/// Something noted of a lot that the row names.
pub(crate) fn noted(
    column: ColumnReader,
    row: &Row<'_>,
    plan: &Plan<'_>,
    note: LotNote,
) -> Result<Entry, CellFault> {
    let number = column.text(row)?.ok_or_else(|| column.fault(RowFault::Missing("lot")))?;
    Ok(Entry::LotNote(LotNoted { lot: known_lot(column, number, plan)?, note }))
}
