//! Frost: what a station's own days say of the last frost of spring and the first of autumn.
//!
//! A file is read as it is, and nothing of it is kept; what is no file is a station that the house keeps. Start at
//! [`told`].

use crate::fault::HouseFault;
use crate::folder::House;
use crate::weather::{self, Record, Scale, TakenOut, ToldBy, WeatherFault};
use jiff::civil::Date;
use ledger::ledger::Ledger;
use record::temperature::Celsius;
use ripening::frost::{self, Chances};
pub use ripening::frost::{Chance, FEWEST_FOR_ONE_IN_TEN, Hemisphere, TOLD};
use ripening::weather::normals;
pub use ripening::weather::normals::{FreezeNormals, PublishedAt};
use std::path::PathBuf;

/// Temperatures that frosts are told of, in degrees Celsius: 36 F, which nips; 32 F, a freeze; -2 C, which tomatoes do not
/// outlive; 28 F, a hard freeze. Source: NOAA supplemental climate normals 1981-2010 for those in Fahrenheit.
const TOLD_AT: [f64; 4] = [20.0 / 9.0, 0.0, -2.0, -20.0 / 9.0];

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The station's file, or the identifier or name of a station that the house keeps.
    pub file: PathBuf,
    /// Its scale, where the file does not say.
    pub scale: Option<Scale>,
    /// The years to go by, both included; all where none are named.
    pub years: Option<(i16, i16)>,
    /// On which side of the equator it lies.
    pub hemisphere: Hemisphere,
}

/// When frost comes.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    /// Worked out of a station's own days.
    Worked(Frosts),
    /// As the climate normals publish it.
    Published(FreezeNormals),
}

/// What the file says.
#[derive(Clone, Debug, PartialEq)]
pub struct Frosts {
    /// The station's identifier, where the file has one.
    pub station: Option<String>,
    /// What a table's numbers were taken for, and how that was told; `None` for the network's own files.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its first and last day.
    pub days: (Date, Date),
    /// Days that the checks took something out of.
    pub taken_out: TakenOut,
    /// Frosts of each temperature, the warmest first.
    pub at: Vec<FrostsAt>,
}

/// Frosts of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostsAt {
    /// The temperature.
    pub celsius: Celsius,
    /// How likely they are on which days.
    pub chances: Chances,
}

/// Reads the file, or the record that the house keeps, and says when frost comes. A file needs no house.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read or has no whole year.
pub fn told(house: Option<&House>, asked: &Asked) -> Result<Told, HouseFault> {
    let file = || asked.file.clone();
    if let Some(house) = house.filter(|_| !asked.file.is_file()) {
        let mut ledger = Ledger::open(&house.ledger_location())?;
        return worked(asked, weather::of(&mut ledger, &asked.file, asked.scale)?);
    }
    let text = weather::text(&asked.file)?;
    if normals::is_of_freezes(&text) {
        if asked.years.is_some() || asked.hemisphere == Hemisphere::South {
            return Err(WeatherFault::AsPublished(file()).into());
        }
        let read = normals::read(&text).map_err(|fault| WeatherFault::Normals { file: file(), fault })?;
        return Ok(Told::Published(read));
    }
    worked(asked, weather::parsed(&asked.file, &text, asked.scale)?)
}

/// Works the frosts out of a station's own days.
fn worked(asked: &Asked, record: Record) -> Result<Told, HouseFault> {
    let Record { station, scale, days, taken_out, .. } = record;
    let within = |year: i16| asked.years.is_none_or(|(from, to)| (from..=to).contains(&year));
    let at = TOLD_AT.iter().filter_map(|degrees| {
        let years: Vec<_> = frost::years(&days, *degrees, asked.hemisphere);
        let years: Vec<_> = years.into_iter().filter(|year| within(year.year)).collect();
        Some(FrostsAt { celsius: Celsius::new(*degrees)?, chances: frost::chances(&years)? })
    });
    let at: Vec<FrostsAt> = at.collect();
    if at.is_empty() {
        return Err(WeatherFault::NoYear(asked.file.clone()).into());
    }
    Ok(Told::Worked(Frosts { station, scale, days: (days.first(), days.last()), taken_out, at }))
}

/// The day of a common year that a counted day falls on, to be told: `23 April` is 113.
#[must_use]
pub fn day(counted: f64) -> Option<Date> {
    #[expect(clippy::cast_possible_truncation, reason = "a day of two years")]
    let days = (counted.round() as i64).checked_sub(1)?;
    // Any common year will do.
    Date::new(2001, 1, 1).ok()?.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}
