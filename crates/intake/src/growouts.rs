//! Rows of a grow-out: its plots, and the plants that are noted by themselves.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::{Entry, NewPlant, NewPlot, PlotNamed};
use crate::plan::Plan;
use crate::plausible;
use crate::rejection::RowFault;
use crate::roster::{KnownPlot, folded_label};
use crate::subject::{known_variety, stated_season};
use crate::table::Row;
use crate::take::Given;
use crate::words::PLOT_ROLES;
use jiff::civil::Date;
use record::doubt::Doubt;
use record::growout::{PlantNumber, PlotLayout, PlotRole};
use record::id::Id;
use record::season::Season;
use record::variety::{Variety, name_key};
use std::collections::HashMap;

/// The columns of a table of plots and plants, and the plots met so far.
pub(crate) struct GrowOutColumns {
    grow_out: ColumnReader,
    season: ColumnReader,
    garden: ColumnReader,
    plot: ColumnReader,
    variety: ColumnReader,
    block: ColumnReader,
    replicate: ColumnReader,
    bed: ColumnReader,
    role: ColumnReader,
    starts: ColumnReader,
    ends: ColumnReader,
    row: ColumnReader,
    position: ColumnReader,
    transplanted: ColumnReader,
    plant_count: ColumnReader,
    plant: ColumnReader,
    lost: ColumnReader,
    met: HashMap<(String, String), Id<Variety>>,
}

/// What else a row says of its plot.
struct PlotRow<'a> {
    known: Option<&'a KnownPlot>,
    variety: Id<Variety>,
    transplanted: Option<Date>,
    plant: Option<PlantNumber>,
    layout: PlotLayout,
}

/// The grow-out and plot that a row names.
struct Place<'a> {
    grow_out: String,
    garden: String,
    season: Option<Season>,
    label: &'a str,
}

impl GrowOutColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        Self {
            grow_out: plan.reader(ColumnUse::GrowOut),
            season: plan.reader(ColumnUse::Season),
            garden: plan.reader(ColumnUse::Garden),
            plot: plan.reader(ColumnUse::Plot),
            variety: plan.reader(ColumnUse::Variety),
            block: plan.reader(ColumnUse::Block),
            replicate: plan.reader(ColumnUse::Replicate),
            bed: plan.reader(ColumnUse::Bed),
            role: plan.reader(ColumnUse::Role),
            starts: plan.reader(ColumnUse::PlotStart),
            ends: plan.reader(ColumnUse::PlotEnd),
            row: plan.reader(ColumnUse::BedRow),
            position: plan.reader(ColumnUse::Position),
            transplanted: plan.reader(ColumnUse::Transplanted),
            plant_count: plan.reader(ColumnUse::PlantCount),
            plant: plan.reader(ColumnUse::Plant),
            lost: plan.reader(ColumnUse::Lost),
            met: HashMap::new(),
        }
    }

    pub(crate) fn read(
        &mut self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        given: &mut Given,
    ) -> Result<(), CellFault> {
        let layout = self.layout(row)?;
        if layout.role == Some(PlotRole::Guard) && self.variety.text(row)?.is_none() {
            // Guards of no variety shelter the plots and are never noted.
            return Ok(());
        }
        let place = self.place(row, plan)?;
        let known = known_plot(&place, plan);
        let season = known.map(|plot| plot.season).or(place.season);
        let transplanted = self.day(self.transplanted, row, plan, season)?;
        let lost = self.day(self.lost, row, plan, season)?;
        let plant = self.plant.ordinal(row)?.map(PlantNumber);
        let key = (name_key(&place.grow_out), folded_label(place.label));
        let variety = self.variety(row, plan, &place, known, self.met.get(&key).copied())?;
        let earlier = self.met.contains_key(&key);
        if !earlier && (known.is_none() || plant.is_none()) {
            let read = PlotRow { known, variety, transplanted, plant, layout };
            let plot = self.new_plot(row, plan, &place, read)?;
            given.push(Entry::Plot(plot), future(transplanted, plan.today));
        }
        if let Some(number) = plant {
            let plot = known.map_or_else(|| place.named(), |plot| PlotNamed::Known(plot.plot.id));
            let doubts = future(lost.or(transplanted), plan.today);
            given.push(Entry::Plant(NewPlant { plot, number, transplanted, lost }), doubts);
        }
        self.met.insert(key, variety);
        Ok(())
    }

    /// The grow-out and label. A table without a grow-out column calls it by its season and garden.
    fn place<'a>(&self, row: &Row<'a>, plan: &Plan<'_>) -> Result<Place<'a>, CellFault> {
        let label = self.plot.text(row)?.ok_or_else(|| self.plot.fault(RowFault::Missing("plot")))?;
        let stated = stated_season(self.season, row)?;
        let garden = self.garden.text(row)?.unwrap_or_default();
        let named = self.grow_out.text(row)?.or(plan.layout.grow_out.as_deref());
        let named = named.or(plan.titled.map(|grow_out| grow_out.name.as_str()));
        let season = stated.or(plan.layout.season);
        let by_season = || season.map(|season| format!("{season} {garden}").trim().to_owned());
        let missing = || self.grow_out.fault(RowFault::Missing("grow-out"));
        let grow_out = named.map(str::to_owned).or_else(by_season).ok_or_else(missing)?;
        let known = plan.roster.grow_out(&grow_out).map(|known| known.season);
        if let (Some(stated), Some(known)) = (stated, known.filter(|known| Some(*known) != stated)) {
            let disagree = RowFault::SeasonsDisagree { stated: known.year(), dated: stated.year() };
            return Err(self.season.fault(disagree));
        }
        Ok(Place { grow_out, garden: garden.to_owned(), season: known.or(season), label })
    }

    fn day(
        &self,
        column: ColumnReader,
        row: &Row<'_>,
        plan: &Plan<'_>,
        season: Option<Season>,
    ) -> Result<Option<Date>, CellFault> {
        column.day(row, season.map(|season| (season, plan.roster.calendar())))
    }

    /// The plot's variety: as written, as known, or as an earlier row of the plot says; all must agree.
    fn variety(
        &self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        place: &Place<'_>,
        known: Option<&KnownPlot>,
        earlier: Option<Id<Variety>>,
    ) -> Result<Id<Variety>, CellFault> {
        let planted = known.map(|plot| plot.plot.variety).or(earlier);
        let Some(name) = self.variety.text(row)? else {
            return planted.ok_or_else(|| self.variety.fault(RowFault::Missing("variety")));
        };
        let written = known_variety(self.variety, name, plan)?.id;
        match planted.filter(|planted| *planted != written) {
            None => Ok(written),
            Some(planted) => Err(self.variety.fault(RowFault::VarietyDisagrees {
                plot: place.label.to_owned(),
                planted: plan
                    .roster
                    .variety_with(planted)
                    .map_or_else(String::new, |known| known.name.clone()),
                written: name.to_owned(),
            })),
        }
    }

    fn new_plot(
        &self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        place: &Place<'_>,
        read: PlotRow<'_>,
    ) -> Result<NewPlot, CellFault> {
        let dated = read.transplanted.and_then(|day| plan.roster.calendar().season_of(day));
        let season = place.season.or(dated).ok_or(RowFault::NoSeason)?;
        if let Some(dated) = dated.filter(|dated| *dated != season) {
            let disagree = RowFault::SeasonsDisagree { stated: season.year(), dated: dated.year() };
            return Err(self.transplanted.fault(disagree));
        }
        Ok(NewPlot {
            known: read.known.map(|plot| plot.plot.id),
            grow_out: place.grow_out.clone(),
            season,
            garden: place.garden.clone(),
            label: place.label.to_owned(),
            variety: read.variety,
            block: self.block(row, &read.layout)?,
            row: self.row.ordinal(row)?,
            position: self.position.ordinal(row)?,
            // The day in a row of one plant is that plant's own.
            transplanted: read.transplanted.filter(|_| read.plant.is_none()),
            plant_count: self.plant_count.count(row)?,
            layout: read.layout,
        })
    }

    /// What the row says of the plot's layout.
    fn layout(&self, row: &Row<'_>) -> Result<PlotLayout, CellFault> {
        let (from, to) = (self.starts.length(row)?, self.ends.length(row)?);
        if to < from && to.is_some() {
            return Err(self.ends.fault(RowFault::EndsBeforeItBegins));
        }
        Ok(PlotLayout {
            replicate: self.replicate.ordinal(row)?,
            bed: self.bed.text(row)?.map(str::to_owned),
            role: self.role.word(row, PLOT_ROLES, "what a plot is there for")?,
            from,
            to,
        })
    }

    /// The strip of like ground: the block, or where the table names none the replicate, or a numbered bed.
    fn block(&self, row: &Row<'_>, layout: &PlotLayout) -> Result<Option<u32>, CellFault> {
        if self.block.is_there() {
            return self.block.ordinal(row);
        }
        let bed = layout.bed.as_ref().and_then(|_| self.bed.ordinal(row).ok().flatten());
        Ok(layout.replicate.or(bed))
    }
}

impl Place<'_> {
    fn named(&self) -> PlotNamed {
        PlotNamed::Earlier { grow_out: self.grow_out.clone(), label: self.label.to_owned() }
    }
}

fn known_plot<'a>(place: &Place<'_>, plan: &Plan<'a>) -> Option<&'a KnownPlot> {
    let grow_out = plan.roster.grow_out(&place.grow_out)?;
    plan.roster.plots_labelled(place.label).find(|plot| plot.plot.grow_out == grow_out.id)
}

fn future(day: Option<Date>, today: Date) -> Vec<Doubt> {
    day.and_then(|day| plausible::in_future(day, today)).into_iter().collect()
}
