//! Grow-outs, their plots and their plants, as they stand now.

use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::store::row::Row;
use record::growout::{GrowOut, Plant, PlantNumber, Plot, PlotLayout, PlotRole};
use record::length::Millimetres;
use record::season::Season;
use std::collections::HashMap;

/// The newest details of every plot that has any.
pub(crate) const PLOT_DETAILS: &str = "SELECT plot, block, bed_row, position, transplanted, plant_count,
    replicate, bed, role, from_mm, to_mm FROM plot_detail WHERE number IN (SELECT max(number) FROM plot_detail
        WHERE batch IN (SELECT number FROM standing_batch) GROUP BY plot)";

/// The newest details of every plant.
pub(crate) const PLANT_DETAILS: &str = "SELECT plot, plant, transplanted, lost
    FROM plant_detail WHERE number IN (SELECT max(number) FROM plant_detail
        WHERE batch IN (SELECT number FROM standing_batch) GROUP BY plot, plant)
    ORDER BY plot, plant";

impl Ledger {
    /// Every grow-out, by season and name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn grow_outs(&mut self) -> Result<Vec<GrowOut>, LedgerFault> {
        let sql = "SELECT uuid, name, season, garden FROM grow_out
                   WHERE batch IN (SELECT number FROM standing_batch) ORDER BY season, name_key, number";
        self.store.rows(sql, &[], |row| {
            Ok(GrowOut {
                id: keys::id(row, 0)?,
                name: row.words(1)?,
                season: season(row, 2)?,
                garden: row.words(3)?,
            })
        })
    }

    /// Every plot with the newest details of it, by grow-out in the order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn plots(&mut self) -> Result<Vec<Plot>, LedgerFault> {
        let sql = "SELECT p.number, p.uuid, g.uuid, p.label, v.uuid FROM plot p
            JOIN grow_out g ON g.number = p.grow_out JOIN variety v ON v.number = p.variety
            WHERE p.batch IN (SELECT number FROM standing_batch) ORDER BY p.grow_out, p.number";
        let mut numbers = HashMap::new();
        let mut plots = self.store.rows(sql, &[], |row| {
            numbers.insert(row.whole(0)?, numbers.len());
            Ok(Plot {
                id: keys::id(row, 1)?,
                grow_out: keys::id(row, 2)?,
                label: row.words(3)?,
                variety: keys::id(row, 4)?,
                block: None,
                row: None,
                position: None,
                transplanted: None,
                plant_count: None,
                layout: PlotLayout::default(),
            })
        })?;
        self.store.rows(PLOT_DETAILS, &[], |row| {
            let place = numbers.get(&row.whole(0)?);
            let Some(plot) = place.and_then(|place| plots.get_mut(*place)) else { return Ok(()) };
            plot.block = row.small_or_none(1)?;
            plot.row = row.small_or_none(2)?;
            plot.position = row.small_or_none(3)?;
            plot.transplanted = row.day_or_none(4)?;
            plot.plant_count = row.small_or_none(5)?;
            plot.layout = plot_layout(row)?;
            Ok(())
        })?;
        Ok(plots)
    }

    /// Every plant that the house notes by itself, by plot and number.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn plants(&mut self) -> Result<Vec<Plant>, LedgerFault> {
        let plots: HashMap<i64, _> = self
            .store
            .rows("SELECT number, uuid FROM plot", &[], |row| Ok((row.whole(0)?, keys::id(row, 1)?)))?
            .into_iter()
            .collect();
        self.store.rows(PLANT_DETAILS, &[], |row| {
            let number = row.whole(0)?;
            let plot = plots.get(&number).copied();
            Ok(Plant {
                plot: plot.ok_or_else(|| LedgerFault::Damaged(format!("there is no plot {number}")))?,
                number: PlantNumber(row.small(1)?),
                transplanted: row.day_or_none(2)?,
                lost: row.day_or_none(3)?,
            })
        })
    }
}

/// What a row of [`PLOT_DETAILS`] says of a plot's layout.
pub(crate) fn plot_layout(row: &Row<'_>) -> Result<PlotLayout, LedgerFault> {
    let role = row.text_or_none(8)?.map(PlotRole::read).transpose()?;
    Ok(PlotLayout {
        replicate: row.small_or_none(6)?,
        bed: row.words_or_none(7)?,
        role,
        from: row.real_or_none(9)?.and_then(Millimetres::new),
        to: row.real_or_none(10)?.and_then(Millimetres::new),
    })
}

fn season(row: &Row<'_>, column: usize) -> Result<Season, LedgerFault> {
    let year = row.whole(column)?;
    let season = i16::try_from(year).ok().and_then(Season::new);
    season.ok_or_else(|| LedgerFault::Damaged(format!("{year} is no season")))
}
