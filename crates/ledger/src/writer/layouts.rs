//! Bringing in how a grow-out was laid out.

use crate::fault::LedgerFault;
use crate::layouts::{KeptBed, LaidOut};
use crate::store::value::Value;
use crate::writer::Writer;
use record::growout::GrowOut;
use record::id::Id;

impl Writer<'_> {
    /// Adds the ground and the kind of layout of a grow-out; of several of one grow-out the newest counts.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchGrowOut`], or what the disk or server refuses.
    pub fn add_laid_out(&mut self, grow_out: Id<GrowOut>, laid_out: &LaidOut) -> Result<(), LedgerFault> {
        let held = self.roster.grow_out(grow_out)?;
        self.rest_on(held.batch);
        let number = self.session.next_number("laid_out")?;
        let planting = &laid_out.planting;
        self.session.execute(
            "INSERT INTO laid_out (number, grow_out, batch, kind, seed, variety_ratio, plants_per_plot,
                between_plants_mm, between_rows_mm, rows_per_plot, guards_at_ends, guard_rows)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
            &[
                number.into(),
                held.number.into(),
                self.batch.into(),
                laid_out.kind.as_str().into(),
                laid_out.seed.as_str().into(),
                laid_out.variety_ratio.into(),
                planting.plants_per_plot.into(),
                planting.between_plants.get().into(),
                planting.between_rows.get().into(),
                planting.rows_per_plot.into(),
                planting.guards_at_ends.into(),
                planting.guard_rows.into(),
            ],
        )?;
        laid_out.beds.iter().try_for_each(|bed| self.add_bed(number, bed))
    }

    fn add_bed(&mut self, laid_out: i64, bed: &KeptBed) -> Result<(), LedgerFault> {
        let number = self.session.next_number("bed")?;
        self.session.execute(
            "INSERT INTO bed (number, laid_out, name, length_mm, width_mm, path_after_mm)
             VALUES ($1, $2, $3, $4, $5, $6)",
            &[
                number.into(),
                laid_out.into(),
                bed.name.as_str().into(),
                bed.length.get().into(),
                bed.width.get().into(),
                bed.path_after.get().into(),
            ],
        )?;
        for stretch in &bed.unusable {
            let values: [Value<'_>; 5] = [
                self.session.next_number("bed_stretch")?.into(),
                number.into(),
                stretch.from.get().into(),
                stretch.to.get().into(),
                stretch.why.as_str().into(),
            ];
            let sql =
                "INSERT INTO bed_stretch (number, bed, from_mm, to_mm, why) VALUES ($1, $2, $3, $4, $5)";
            self.session.execute(sql, &values)?;
        }
        Ok(())
    }
}
