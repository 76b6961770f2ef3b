//! Grow-outs, plots and plants. A later row may tell more of a plot or plant; the newest wins.

pub(crate) mod known;

use crate::fault::LedgerFault;
use crate::kept::keys::new_uuid;
use crate::kept::words::Word;
use crate::names::label_key;
use crate::store::value::{Value, whole};
use crate::writer::roster::Held;
use crate::writer::{NewGrowOut, NewPlot, Placed, Standing, Writer};
use jiff::civil::Date;
use known::{Gardens, KnownGrowOut, KnownPlot, PlantDetail, PlotDetail};
use record::growout::{GrowOut, Plant, Plot, PlotRole};
use record::id::Id;
use record::length::Millimetres;

impl Writer<'_> {
    /// Adds a grow-out, or finds the one of that name.
    ///
    /// # Errors
    /// [`LedgerFault::GrowOutClash`] where that name has another season or garden, [`LedgerFault::Nameless`]
    /// where it has none; the writer is still usable. Else what the disk or server refuses.
    pub fn add_grow_out(&mut self, row: u64, new: &NewGrowOut) -> Result<Placed<GrowOut>, LedgerFault> {
        let key = label_key(&new.name);
        if key.is_empty() {
            return Err(LedgerFault::Nameless);
        }
        let season = i64::from(new.season.year());
        if let Some(known) = self.gardens()?.grow_outs.get(&key) {
            if known.season != season || label_key(&known.garden) != label_key(&new.garden) {
                return Err(LedgerFault::GrowOutClash {
                    name: known.name.clone(),
                    season: i16::try_from(known.season).unwrap_or_default(),
                    garden: known.garden.clone(),
                });
            }
            return Ok(Placed { id: known.id, standing: Standing::AlreadyThere });
        }
        self.insert_grow_out(row, key, new)
    }

    /// Adds a plot, or adds to the one of that label what is new about it; the newest row wins.
    ///
    /// # Errors
    /// [`LedgerFault::PlotClash`] where that label has another variety, [`LedgerFault::Nameless`] where
    /// there is no label; the writer is still usable. [`LedgerFault::NoSuchGrowOut`],
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn add_plot(&mut self, row: u64, new: &NewPlot) -> Result<Placed<Plot>, LedgerFault> {
        let grow_out = self.roster.grow_out(new.grow_out)?;
        let variety = self.roster.variety(new.variety)?;
        let key = label_key(&new.label);
        if key.is_empty() {
            return Err(LedgerFault::Nameless);
        }
        let detail = PlotDetail {
            block: new.block,
            row: new.row,
            position: new.position,
            transplanted: new.transplanted,
            plant_count: new.plant_count,
            layout: new.layout.clone(),
        };
        let known = self.gardens()?.plots.get(&(grow_out.number, key.clone())).copied();
        let Some(known) = known else {
            self.rest_on(grow_out.batch);
            self.rest_on(variety.batch);
            let id = self.insert_plot(row, (grow_out, key), variety, new)?;
            let held = self.roster.plot(id)?;
            self.tell_of_plot(row, held, detail)?;
            self.touch_if_out(variety.number, new.transplanted);
            return Ok(Placed { id, standing: Standing::Added });
        };
        if known.variety != variety.number {
            return Err(self.plot_clash(new, known.variety, variety.number)?);
        }
        let standing = self.tell_of_plot(row, known.held, detail)?;
        if standing != Standing::AlreadyThere {
            self.touch_if_out(variety.number, new.transplanted);
        }
        Ok(Placed { id: known.id, standing })
    }

    /// A transplanting day is evidence too: days to the first ripe fruit are counted from it.
    fn touch_if_out(&mut self, variety: i64, transplanted: Option<Date>) {
        if transplanted.is_some() {
            self.touched.touch(variety);
        }
    }

    /// Adds a plant, or adds to it what is new; the newest row wins.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn add_plant(&mut self, row: u64, plant: &Plant) -> Result<Standing, LedgerFault> {
        let plot = self.roster.plot(plant.plot)?;
        let told = PlantDetail { transplanted: plant.transplanted, lost: plant.lost };
        let batch = self.batch;
        let gardens = self.gardens()?;
        let before = gardens.plants.get(&(plot.number, plant.number.0)).copied();
        let detail = told.over(before.unwrap_or_default());
        if before == Some(detail) {
            self.already_there += 1;
            return Ok(Standing::AlreadyThere);
        }
        let number = gardens.next_plant_detail;
        gardens.next_plant_detail += 1;
        gardens.plants.insert((plot.number, plant.number.0), detail);
        self.session.execute(
            "INSERT INTO plant_detail (number, plot, plant, batch, source_row, transplanted, lost)
             VALUES ($1, $2, $3, $4, $5, $6, $7)",
            &[
                number.into(),
                plot.number.into(),
                plant.number.0.into(),
                batch.into(),
                whole(row).into(),
                detail.transplanted.into(),
                detail.lost.into(),
            ],
        )?;
        if detail.transplanted.is_some() {
            let sql = "SELECT variety FROM plot WHERE number = $1";
            let variety = self.session.first(sql, &[plot.number.into()], |row| row.whole(0))?;
            variety.into_iter().for_each(|variety| self.touch_if_out(variety, detail.transplanted));
        }
        self.rest_on(plot.batch);
        self.added.plants += 1;
        Ok(if before.is_some() { Standing::Extended } else { Standing::Added })
    }

    fn gardens(&mut self) -> Result<&mut Gardens, LedgerFault> {
        if self.gardens.is_none() {
            self.gardens = Some(Gardens::read(&mut self.session)?);
        }
        self.gardens.as_mut().ok_or_else(|| LedgerFault::Damaged("the gardens could not be read".to_owned()))
    }

    fn insert_grow_out(
        &mut self,
        row: u64,
        key: String,
        new: &NewGrowOut,
    ) -> Result<Placed<GrowOut>, LedgerFault> {
        let (uuid, batch) = (new_uuid(self.at), self.batch);
        let (name, garden) = (new.name.trim(), new.garden.trim());
        let season = i64::from(new.season.year());
        let number = self.gardens()?.next_grow_out;
        self.session.execute(
            "INSERT INTO grow_out (number, uuid, batch, source_row, name, name_key, season, garden)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
            &[
                number.into(),
                Value::Bytes(uuid.as_bytes()),
                batch.into(),
                whole(row).into(),
                name.into(),
                key.as_str().into(),
                season.into(),
                garden.into(),
            ],
        )?;
        let id = Id::from_uuid(uuid);
        let known = KnownGrowOut { id, name: name.to_owned(), season, garden: garden.to_owned() };
        let gardens = self.gardens()?;
        gardens.next_grow_out += 1;
        gardens.grow_outs.insert(key, known);
        self.roster.add_grow_out(id, Held { number, batch });
        self.added.grow_outs += 1;
        Ok(Placed { id, standing: Standing::Added })
    }

    fn insert_plot(
        &mut self,
        row: u64,
        (grow_out, key): (Held, String),
        variety: Held,
        new: &NewPlot,
    ) -> Result<Id<Plot>, LedgerFault> {
        let (uuid, batch) = (new_uuid(self.at), self.batch);
        let label = new.label.trim();
        let number = self.gardens()?.next_plot;
        self.session.execute(
            "INSERT INTO plot (number, uuid, batch, source_row, grow_out, label, label_key, variety)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
            &[
                number.into(),
                Value::Bytes(uuid.as_bytes()),
                batch.into(),
                whole(row).into(),
                grow_out.number.into(),
                label.into(),
                key.as_str().into(),
                variety.number.into(),
            ],
        )?;
        let (id, held) = (Id::from_uuid(uuid), Held { number, batch });
        let gardens = self.gardens()?;
        gardens.next_plot += 1;
        gardens.plots.insert((grow_out.number, key), KnownPlot { id, held, variety: variety.number });
        self.roster.add_plot(id, held);
        self.added.plots += 1;
        Ok(id)
    }

    /// Writes down what a row tells of a plot beyond what is known.
    fn tell_of_plot(&mut self, row: u64, plot: Held, told: PlotDetail) -> Result<Standing, LedgerFault> {
        let batch = self.batch;
        let gardens = self.gardens()?;
        let before = gardens.plot_details.get(&plot.number);
        let detail = told.over(before.cloned().unwrap_or_default());
        if before == Some(&detail) {
            self.already_there += 1;
            return Ok(Standing::AlreadyThere);
        }
        let number = gardens.next_plot_detail;
        gardens.next_plot_detail += 1;
        gardens.plot_details.insert(plot.number, detail.clone());
        self.session.execute(
            "INSERT INTO plot_detail
             (number, plot, batch, source_row, block, bed_row, position, transplanted, plant_count,
              replicate, bed, role, from_mm, to_mm)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)",
            &[
                number.into(),
                plot.number.into(),
                batch.into(),
                whole(row).into(),
                detail.block.into(),
                detail.row.into(),
                detail.position.into(),
                detail.transplanted.into(),
                detail.plant_count.into(),
                detail.layout.replicate.into(),
                detail.layout.bed.as_deref().into(),
                detail.layout.role.map(PlotRole::word).into(),
                detail.layout.from.map(Millimetres::get).into(),
                detail.layout.to.map(Millimetres::get).into(),
            ],
        )?;
        if plot.batch != batch {
            self.rest_on(plot.batch);
            self.added.plots += 1;
        }
        Ok(Standing::Extended)
    }

    fn plot_clash(&mut self, new: &NewPlot, holder: i64, wanted: i64) -> Result<LedgerFault, LedgerFault> {
        let mut name = |sql: &str, number: i64| {
            self.session.first(sql, &[number.into()], |row| row.words(0)).map(Option::unwrap_or_default)
        };
        let variety = "SELECT name FROM variety WHERE number = $1";
        let (holder, wanted) = (name(variety, holder)?, name(variety, wanted)?);
        let grow_out = self.roster.grow_out(new.grow_out)?.number;
        let named = "SELECT name FROM grow_out WHERE number = $1";
        let grow_out = self.session.first(named, &[grow_out.into()], |row| row.words(0))?;
        let grow_out = grow_out.unwrap_or_default();
        Ok(LedgerFault::PlotClash { label: new.label.clone(), grow_out, holder, wanted })
    }
}
