//! What is known of gardens: where they lie, whose weather is theirs, and what frost their keeper will risk.
//!
//! A garden is named by its grow-outs, or by whoever tells of it; the newest that was told of one counts.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::ledger::Ledger;
use crate::names::label_key;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::store::value::Value;
use crate::weather::place;
use record::place::{Elevation, Latitude, Longitude, Place};
use std::collections::BTreeMap;

/// A garden.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Garden {
    /// Its name.
    pub name: String,
    /// Where it lies.
    pub place: Place,
    /// The station whose weather is taken for its own.
    pub weather: Option<String>,
    /// In how many years of 100 a frost after planting is risked, 1 to 99.
    pub frost_risk_in_100: Option<u32>,
}

const NEWEST: &str = "SELECT name, name_key, latitude, longitude, elevation_m, weather, frost_risk_in_100
    FROM garden_detail WHERE number IN (SELECT max(number) FROM garden_detail GROUP BY name_key)";

impl Ledger {
    /// Every garden: those that somebody told of, and those that grow-outs stand in; by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn gardens(&mut self) -> Result<Vec<Garden>, LedgerFault> {
        let told = self.store.rows(NEWEST, &[], |row| Ok((row.words(1)?, garden(row)?)))?;
        let mut gardens: BTreeMap<String, Garden> = told.into_iter().collect();
        for grow_out in self.grow_outs()? {
            let key = label_key(&grow_out.garden);
            if !key.is_empty() {
                gardens.entry(key).or_insert_with(|| Garden { name: grow_out.garden, ..Garden::default() });
            }
        }
        Ok(gardens.into_values().collect())
    }

    /// Writes down all that is known of a garden, in the place of what was known before.
    ///
    /// # Errors
    /// [`LedgerFault::Nameless`], or what the disk or server refuses.
    pub fn tell_of_garden(&mut self, garden: &Garden, act: &Act) -> Result<(), LedgerFault> {
        let key = label_key(&garden.name);
        if key.is_empty() {
            return Err(LedgerFault::Nameless);
        }
        let own: [Value<'_>; 7] = [
            garden.name.as_str().into(),
            key.as_str().into(),
            garden.place.latitude.map(Latitude::get).into(),
            garden.place.longitude.map(Longitude::get).into(),
            garden.place.elevation.map(Elevation::get).into(),
            garden.weather.as_deref().into(),
            garden.frost_risk_in_100.into(),
        ];
        let print = Print::new().add(&own).done();
        self.store.writing(|session| {
            let number = session.next_number("garden_detail")?;
            let values: Vec<Value<'_>> = [number.into(), print.into()]
                .into_iter()
                .chain(own)
                .chain([act.who.as_str().into(), act.at.into()])
                .collect();
            session.execute(
                "INSERT INTO garden_detail (number, print, name, name_key, latitude, longitude, elevation_m, weather,
                    frost_risk_in_100, who, at_us) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
                &values,
            )?;
            Ok(())
        })
    }
}

fn garden(row: &Row<'_>) -> Result<Garden, LedgerFault> {
    Ok(Garden {
        name: row.words(0)?,
        place: place(row, 2)?,
        weather: row.words_or_none(5)?,
        frost_risk_in_100: row.small_or_none(6)?,
    })
}

/// Prints what was told of every garden anew, and tells of those that print otherwise than when they were written.
///
/// # Errors
/// What the disk or server refuses.
pub(crate) fn each_changed(
    session: &mut Session<'_>,
    seen: &mut dyn FnMut(Option<String>),
) -> Result<(), LedgerFault> {
    let sql = "SELECT print, name, name_key, latitude, longitude, elevation_m, weather, frost_risk_in_100
        FROM garden_detail";
    session.rows(sql, &[], |row| {
        let own = [
            row.text(1)?.into(),
            row.text(2)?.into(),
            row.real_or_none(3)?.into(),
            row.real_or_none(4)?.into(),
            row.real_or_none(5)?.into(),
            row.text_or_none(6)?.into(),
            row.whole_or_none(7)?.into(),
        ];
        let changed = Print::new().add(&own).done() != row.whole(0)?;
        let name = row.text(1)?;
        seen(changed.then(|| format!("what was told of garden {name:?} was changed afterwards")));
        Ok(())
    })?;
    Ok(())
}
