//! What is known of grow-outs, plots and plants before a row tells more.

use crate::fault::LedgerFault;
use crate::growouts::{PLANT_DETAILS, PLOT_DETAILS, plot_layout};
use crate::kept::keys;
use crate::store::session::Session;
use crate::writer::roster::Held;
use jiff::civil::Date;
use record::growout::{GrowOut, Plot, PlotLayout};
use record::id::Id;
use std::collections::HashMap;

/// A grow-out's number and a label in it.
type PlotKey = (i64, String);
/// A plot's number and a plant in it.
type PlantKey = (i64, u32);

/// The grow-outs, plots and plants that stand.
#[derive(Debug)]
pub(crate) struct Gardens {
    pub(super) grow_outs: HashMap<String, KnownGrowOut>,
    pub(super) plots: HashMap<PlotKey, KnownPlot>,
    pub(super) plot_details: HashMap<i64, PlotDetail>,
    pub(super) plants: HashMap<PlantKey, PlantDetail>,
    pub(super) next_grow_out: i64,
    pub(super) next_plot: i64,
    pub(super) next_plot_detail: i64,
    pub(super) next_plant_detail: i64,
}

#[derive(Clone, Debug)]
pub(super) struct KnownGrowOut {
    pub(super) id: Id<GrowOut>,
    pub(super) name: String,
    pub(super) season: i64,
    pub(super) garden: String,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct KnownPlot {
    pub(super) id: Id<Plot>,
    pub(super) held: Held,
    pub(super) variety: i64,
}

/// What may be known of a plot.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PlotDetail {
    pub(super) block: Option<u32>,
    pub(super) row: Option<u32>,
    pub(super) position: Option<u32>,
    pub(super) transplanted: Option<Date>,
    pub(super) plant_count: Option<u32>,
    pub(super) layout: PlotLayout,
}

/// What may be known of a plant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct PlantDetail {
    pub(super) transplanted: Option<Date>,
    pub(super) lost: Option<Date>,
}

impl PlotDetail {
    /// This, and where it is silent what was known before.
    pub(super) fn over(self, before: Self) -> Self {
        Self {
            block: self.block.or(before.block),
            row: self.row.or(before.row),
            position: self.position.or(before.position),
            transplanted: self.transplanted.or(before.transplanted),
            plant_count: self.plant_count.or(before.plant_count),
            layout: layout_over(self.layout, before.layout),
        }
    }
}

fn layout_over(told: PlotLayout, before: PlotLayout) -> PlotLayout {
    PlotLayout {
        replicate: told.replicate.or(before.replicate),
        bed: told.bed.or(before.bed),
        role: told.role.or(before.role),
        from: told.from.or(before.from),
        to: told.to.or(before.to),
    }
}

impl PlantDetail {
    /// This, and where it is silent what was known before.
    pub(super) fn over(self, before: Self) -> Self {
        Self { transplanted: self.transplanted.or(before.transplanted), lost: self.lost.or(before.lost) }
    }
}

impl Gardens {
    pub(super) fn read(session: &mut Session<'_>) -> Result<Self, LedgerFault> {
        Ok(Self {
            grow_outs: read_grow_outs(session)?.into_iter().collect(),
            plots: read_plots(session)?,
            plot_details: read_plot_details(session)?.into_iter().collect(),
            plants: read_plants(session)?,
            next_grow_out: session.next_number("grow_out")?,
            next_plot: session.next_number("plot")?,
            next_plot_detail: session.next_number("plot_detail")?,
            next_plant_detail: session.next_number("plant_detail")?,
        })
    }
}

fn read_grow_outs(session: &mut Session<'_>) -> Result<Vec<(String, KnownGrowOut)>, LedgerFault> {
    let sql = "SELECT name_key, uuid, name, season, garden FROM grow_out
               WHERE batch IN (SELECT number FROM standing_batch)";
    session.rows(sql, &[], |row| {
        let known = KnownGrowOut {
            id: keys::id(row, 1)?,
            name: row.words(2)?,
            season: row.whole(3)?,
            garden: row.words(4)?,
        };
        Ok((row.words(0)?, known))
    })
}

fn read_plots(session: &mut Session<'_>) -> Result<HashMap<PlotKey, KnownPlot>, LedgerFault> {
    let sql = "SELECT grow_out, label_key, uuid, number, batch, variety FROM plot
               WHERE batch IN (SELECT number FROM standing_batch)";
    let plots = session.rows(sql, &[], |row| {
        let held = Held { number: row.whole(3)?, batch: row.whole(4)? };
        let known = KnownPlot { id: keys::id(row, 2)?, held, variety: row.whole(5)? };
        Ok(((row.whole(0)?, row.words(1)?), known))
    })?;
    Ok(plots.into_iter().collect())
}

fn read_plot_details(session: &mut Session<'_>) -> Result<Vec<(i64, PlotDetail)>, LedgerFault> {
    session.rows(PLOT_DETAILS, &[], |row| {
        let detail = PlotDetail {
            block: row.small_or_none(1)?,
            row: row.small_or_none(2)?,
            position: row.small_or_none(3)?,
            transplanted: row.day_or_none(4)?,
            plant_count: row.small_or_none(5)?,
            layout: plot_layout(row)?,
        };
        Ok((row.whole(0)?, detail))
    })
}

fn read_plants(session: &mut Session<'_>) -> Result<HashMap<PlantKey, PlantDetail>, LedgerFault> {
    let plants = session.rows(PLANT_DETAILS, &[], |row| {
        let detail = PlantDetail { transplanted: row.day_or_none(2)?, lost: row.day_or_none(3)? };
        Ok(((row.whole(0)?, row.small(1)?), detail))
    })?;
    Ok(plants.into_iter().collect())
}
