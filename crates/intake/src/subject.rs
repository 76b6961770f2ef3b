//! Subjects: which variety, season, plot and plant a row is about, resolved against the roster.
//!
//! The plot's own variety and season go before anything; a row that says otherwise is refused, not
//! corrected. A label that several grow-outs use is settled by the grow-out named, or by the season.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::day::DayFault;
use crate::plan::Plan;
use crate::rejection::RowFault;
use crate::roster::{KnownPlot, KnownVariety, VarietyFound};
use crate::table::Row;
use jiff::civil::Date;
use record::growout::{GrowOut, PlantNumber};
use record::season::Season;
use record::subject::Subject;

/// The columns that say what a row is about.
pub(crate) struct SubjectColumns {
    variety: ColumnReader,
    plot: ColumnReader,
    plant: ColumnReader,
    season: ColumnReader,
    grow_out: ColumnReader,
    day: ColumnReader,
}

/// What a row is about, with what the roster knows of it.
pub(crate) struct About<'a> {
    pub(crate) subject: Subject,
    pub(crate) day: Option<Date>,
    pub(crate) variety: &'a KnownVariety,
    pub(crate) plot: Option<&'a KnownPlot>,
}

impl SubjectColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            variety: plan.reader(ColumnUse::Variety),
            plot: plan.reader(ColumnUse::Plot),
            plant: plan.reader(ColumnUse::Plant),
            season: plan.reader(ColumnUse::Season),
            grow_out: plan.reader(ColumnUse::GrowOut),
            day: plan.reader(ColumnUse::Day),
        }
    }

    /// Resolves a row.
    pub(crate) fn about<'a>(&self, row: &Row<'_>, plan: &Plan<'a>) -> Result<About<'a>, CellFault> {
        let grow_out = named_grow_out(self.grow_out, row, plan)?;
        let stated = stated_season(self.season, row)?;
        let named = stated.or(grow_out.map(|grow_out| grow_out.season));
        let (day, lacks_year) = self.day(row, plan, named)?;
        let dated = day.and_then(|day| plan.roster.calendar().season_of(day));
        let plot = self.plot(row, plan, grow_out, named.or(dated))?;
        let settled = plot.map(|plot| plot.season).or(named);
        let season = settled.or(dated).or(plan.layout.season).ok_or(RowFault::NoSeason)?;
        let day = if lacks_year { self.day(row, plan, Some(season))?.0 } else { day };
        self.seasons_agree(stated, season, dated)?;
        let variety = self.variety(row, plan, plot)?;
        let plant = self.plant.ordinal(row)?.map(PlantNumber);
        let plot_id = plot.map(|plot| plot.plot.id);
        let subject = Subject { variety: variety.id, season, plot: plot_id, plant };
        Ok(About { subject, day, variety, plot })
    }

    /// A mark of the day column, for the fault of a row that must have one.
    pub(crate) fn no_day(&self) -> CellFault {
        self.day.fault(RowFault::Missing("date"))
    }

    /// The row's day, and whether it lacks its year and nothing named so far gives it.
    fn day(
        &self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        season: Option<Season>,
    ) -> Result<(Option<Date>, bool), CellFault> {
        let season = season.map(|season| (season, plan.roster.calendar()));
        match self.day.day(row, season) {
            Ok(day) => Ok((day, false)),
            Err(CellFault { fault: RowFault::Day(DayFault::NoYear(_)), .. }) if season.is_none() => {
                Ok((None, true))
            }
            Err(fault) => Err(fault),
        }
    }

    fn plot<'a>(
        &self,
        row: &Row<'_>,
        plan: &Plan<'a>,
        grow_out: Option<&GrowOut>,
        season: Option<Season>,
    ) -> Result<Option<&'a KnownPlot>, CellFault> {
        let Some(label) = self.plot.text(row)? else { return Ok(None) };
        let in_grow_out =
            |plot: &&KnownPlot| grow_out.is_none_or(|grow_out| grow_out.id == plot.plot.grow_out);
        let mut all = plan.roster.plots_labelled(label).filter(in_grow_out);
        let (first, second) = (all.next(), all.next());
        match (first, second) {
            (None, _) => Err(self.plot.fault(RowFault::UnknownPlot(label.to_owned()))),
            (Some(only), None) => Ok(Some(only)),
            (Some(_), Some(_)) => {
                // Of several, the season decides; the layout's own only where the row says nothing.
                let season = season.or(plan.layout.season);
                let mut of_season = plan
                    .roster
                    .plots_labelled(label)
                    .filter(in_grow_out)
                    .filter(|plot| Some(plot.season) == season);
                match (of_season.next(), of_season.next()) {
                    (Some(only), None) => Ok(Some(only)),
                    _ => Err(self.plot.fault(RowFault::SeveralPlots(label.to_owned()))),
                }
            }
        }
    }

    fn seasons_agree(
        &self,
        stated: Option<Season>,
        season: Season,
        dated: Option<Season>,
    ) -> Result<(), CellFault> {
        let disagree =
            |dated: Season| RowFault::SeasonsDisagree { stated: season.year(), dated: dated.year() };
        match (stated.filter(|stated| *stated != season), dated.filter(|dated| *dated != season)) {
            (Some(stated), _) => Err(self.season.fault(disagree(stated))),
            (None, Some(dated)) => Err(self.day.fault(disagree(dated))),
            (None, None) => Ok(()),
        }
    }

    fn variety<'a>(
        &self,
        row: &Row<'_>,
        plan: &Plan<'a>,
        plot: Option<&'a KnownPlot>,
    ) -> Result<&'a KnownVariety, CellFault> {
        let written = match self.variety.text(row)? {
            Some(name) => Some((name, known_variety(self.variety, name, plan)?)),
            None => None,
        };
        let planted = plot.and_then(|plot| Some((plot, plan.roster.variety_with(plot.plot.variety)?)));
        match (written, planted) {
            (Some((name, written)), Some((plot, planted))) if written.id != planted.id => {
                Err(self.variety.fault(RowFault::VarietyDisagrees {
                    plot: plot.plot.label.clone(),
                    planted: planted.name.clone(),
                    written: name.to_owned(),
                }))
            }
            (Some((_, variety)), _) | (None, Some((_, variety))) => Ok(variety),
            (None, None) => Err(self.variety.fault(RowFault::Missing("variety"))),
        }
    }
}

/// The variety of a name that must be known.
pub(crate) fn known_variety<'a>(
    column: ColumnReader,
    name: &str,
    plan: &Plan<'a>,
) -> Result<&'a KnownVariety, CellFault> {
    match plan.roster.variety(name) {
        VarietyFound::Known(variety) => Ok(variety),
        VarietyFound::Unknown => Err(column.fault(RowFault::UnknownVariety(name.to_owned()))),
        VarietyFound::Several => Err(column.fault(RowFault::SeveralVarieties(name.to_owned()))),
    }
}

/// The grow-out that the row, the layout or a title names; one that is named must be known.
pub(crate) fn named_grow_out<'a>(
    column: ColumnReader,
    row: &Row<'_>,
    plan: &Plan<'a>,
) -> Result<Option<&'a GrowOut>, CellFault> {
    let in_row = column.text(row)?;
    let Some(name) = in_row.or(plan.layout.grow_out.as_deref()) else { return Ok(plan.titled) };
    let known = plan.roster.grow_out(name);
    known.map(Some).ok_or_else(|| column.fault(RowFault::UnknownGrowOut(name.to_owned())))
}

/// The season that the row's own column names.
pub(crate) fn stated_season(column: ColumnReader, row: &Row<'_>) -> Result<Option<Season>, CellFault> {
    let Some(year) = column.text(row)? else { return Ok(None) };
    let season = year.parse().ok().and_then(Season::new);
    season.map(Some).ok_or_else(|| column.fault(RowFault::NotASeason(year.to_owned())))
}
