//! How grow-outs were laid out: their ground, how plots are planted, and the kind of layout.
//!
//! Where each plot stands is told with the plot itself (`record::growout::PlotLayout`); here is what is common to
//! all. A layout over several gardens is one grow-out a garden, and one batch.

use crate::batch::BatchNumber;
use crate::fault::LedgerFault;
use crate::kept::keys::{self, batch_number};
use crate::ledger::Ledger;
use crate::store::row::Row;
use record::growout::GrowOut;
use record::id::Id;
use record::length::Millimetres;
use std::collections::HashMap;

/// How a grow-out was laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidOut {
    /// The kind of layout, in the words that the house gives it.
    pub kind: String,
    /// What its draws were seeded by.
    pub seed: String,
    /// Variance between varieties over that between plots that it was searched with.
    pub variety_ratio: f64,
    /// How plots are planted.
    pub planting: KeptPlanting,
    /// The beds of its garden, in the order in which they lie.
    pub beds: Vec<KeptBed>,
}

/// How plots are planted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptPlanting {
    /// Plants in a plot.
    pub plants_per_plot: u32,
    /// Distance between plants in a row.
    pub between_plants: Millimetres,
    /// Distance between rows of plants.
    pub between_rows: Millimetres,
    /// Rows of plants that a plot takes.
    pub rows_per_plot: u32,
    /// Guard plants at either end of a bed's rows.
    pub guards_at_ends: u32,
    /// Guard rows along the garden's edges.
    pub guard_rows: u32,
}

/// One bed.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptBed {
    /// Its name.
    pub name: String,
    /// How far it runs.
    pub length: Millimetres,
    /// How wide it is.
    pub width: Millimetres,
    /// The path between it and the next.
    pub path_after: Millimetres,
    /// Parts that are no use.
    pub unusable: Vec<KeptStretch>,
}

/// A part of a bed that is no use.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptStretch {
    /// Where it begins.
    pub from: Millimetres,
    /// Where it ends.
    pub to: Millimetres,
    /// Why.
    pub why: String,
}

/// A layout with the grow-out and the batch that it belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct OfGrowOut {
    /// The grow-out.
    pub grow_out: Id<GrowOut>,
    /// The batch; grow-outs laid out as one share it.
    pub batch: BatchNumber,
    /// How it was laid out.
    pub laid_out: LaidOut,
}

const STANDING: &str = "SELECT l.number, g.uuid, l.batch, l.kind, l.seed, l.variety_ratio, l.plants_per_plot,
    l.between_plants_mm, l.between_rows_mm, l.rows_per_plot, l.guards_at_ends, l.guard_rows
    FROM laid_out l JOIN grow_out g ON g.number = l.grow_out
    WHERE l.number IN (SELECT max(number) FROM laid_out
        WHERE batch IN (SELECT number FROM standing_batch) GROUP BY grow_out) ORDER BY l.number";

impl Ledger {
    /// How every grow-out that was laid out here was laid out, in the order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn layouts(&mut self) -> Result<Vec<OfGrowOut>, LedgerFault> {
        let mut beds = self.beds()?;
        self.store.rows(STANDING, &[], |row| {
            let planting = KeptPlanting {
                plants_per_plot: row.small(6)?,
                between_plants: length(row, 7)?,
                between_rows: length(row, 8)?,
                rows_per_plot: row.small(9)?,
                guards_at_ends: row.small(10)?,
                guard_rows: row.small(11)?,
            };
            let laid_out = LaidOut {
                kind: row.words(3)?,
                seed: row.words(4)?,
                variety_ratio: row.real(5)?,
                planting,
                beds: beds.remove(&row.whole(0)?).unwrap_or_default(),
            };
            Ok(OfGrowOut { grow_out: keys::id(row, 1)?, batch: batch_number(row, 2)?, laid_out })
        })
    }

    /// Beds by the layout that they belong to.
    fn beds(&mut self) -> Result<HashMap<i64, Vec<KeptBed>>, LedgerFault> {
        let mut stretches: HashMap<i64, Vec<KeptStretch>> = HashMap::new();
        let sql = "SELECT bed, from_mm, to_mm, why FROM bed_stretch ORDER BY number";
        for (bed, stretch) in self.store.rows(sql, &[], |row| {
            Ok((
                row.whole(0)?,
                KeptStretch { from: length(row, 1)?, to: length(row, 2)?, why: row.words(3)? },
            ))
        })? {
            stretches.entry(bed).or_default().push(stretch);
        }
        let sql =
            "SELECT laid_out, number, name, length_mm, width_mm, path_after_mm FROM bed ORDER BY number";
        let mut beds: HashMap<i64, Vec<KeptBed>> = HashMap::new();
        for (laid_out, bed) in self.store.rows(sql, &[], |row| {
            let bed = KeptBed {
                name: row.words(2)?,
                length: length(row, 3)?,
                width: length(row, 4)?,
                path_after: length(row, 5)?,
                unusable: stretches.remove(&row.whole(1)?).unwrap_or_default(),
            };
            Ok((row.whole(0)?, bed))
        })? {
            beds.entry(laid_out).or_default().push(bed);
        }
        Ok(beds)
    }
}

fn length(row: &Row<'_>, column: usize) -> Result<Millimetres, LedgerFault> {
    let stored = row.real(column)?;
    Millimetres::new(stored).ok_or_else(|| LedgerFault::Damaged(format!("{stored} is no length")))
}
