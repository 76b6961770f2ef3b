//! Stations that lie near a garden.

use super::kept::{Counts, Station, listed};
use crate::fault::HouseFault;
use crate::folder::House;
use ledger::ledger::Ledger;
use record::place::Place;
use ripening::nearest;
pub use ripening::nearest::Near;

/// Stations near a place, and those of which nobody said where they lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearby {
    /// The nearest first.
    pub near: Vec<Near<Station>>,
    /// Stations without a place.
    pub unplaced: Vec<Station>,
}

/// The stations whose records count, by how near they lie.
///
/// # Errors
/// What the ledger refuses.
pub fn near(house: &House, garden: Place) -> Result<Nearby, HouseFault> {
    let records = listed(&mut Ledger::open(&house.ledger_location())?)?;
    let stations = records.into_iter().filter(|record| record.counts == Counts::Yes);
    let stations: Vec<Station> = stations.map(|record| record.station).collect();
    let placed = |station: &Station| station.place.latitude.is_some() && station.place.longitude.is_some();
    let (placed, unplaced): (Vec<_>, Vec<_>) = stations.into_iter().partition(placed);
    let places = placed.into_iter().map(|station| {
        let place = station.place;
        (station, place)
    });
    Ok(Nearby { near: nearest::nearest(places, garden), unplaced })
}
