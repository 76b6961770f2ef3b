//! Stations that lie near a garden: those that the house keeps, and those that are known without a file.

use super::kept::{Holds, Station, listed};
use crate::fault::HouseFault;
use crate::folder::House;
use ledger::ledger::Ledger;
use record::place::{Elevation, Latitude, Longitude, Place};
use ripening::climate::shipped;
use ripening::nearest;
pub use ripening::nearest::Near;

/// Stations near a place, and those of which nobody said where they lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearby {
    /// The nearest first.
    pub near: Vec<Near<NearStation>>,
    /// Stations without a place.
    pub unplaced: Vec<Station>,
}

/// A station that lies near.
#[derive(Clone, Debug, PartialEq)]
pub struct NearStation {
    /// The station.
    pub station: Station,
    /// What is had of it.
    pub had: Had,
}

/// What is had of a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Had {
    /// Its days are kept.
    Days,
    /// Its climate normals are kept.
    Normals,
    /// Its climate is known without a file.
    Climate,
}

/// The stations whose records count, and those that are known, by how near they lie.
///
/// # Errors
/// What the ledger refuses.
pub fn near(house: &House, garden: Place) -> Result<Nearby, HouseFault> {
    let records = listed(&mut Ledger::open(&house.ledger_location())?)?;
    let counting = records.into_iter().filter(super::kept::Listed::tells_a_climate);
    let mut stations: Vec<NearStation> = counting
        .map(|record| NearStation {
            had: if matches!(record.holds, Holds::Days { .. }) { Had::Days } else { Had::Normals },
            station: record.station,
        })
        .collect();
    // Days go before normals of the same station, and both before what is known of it.
    stations.extend(shipped::stations().iter().map(known));
    let mut told = std::collections::BTreeSet::new();
    stations.sort_by_key(|one| one.had);
    stations.retain(|one| told.insert(one.station.identifier.clone()));
    let is_placed =
        |one: &NearStation| one.station.place.latitude.is_some() && one.station.place.longitude.is_some();
    let (placed, unplaced): (Vec<_>, Vec<_>) = stations.into_iter().partition(is_placed);
    let places = placed.into_iter().map(|one| {
        let place = one.station.place;
        (one, place)
    });
    let unplaced = unplaced.into_iter().map(|one| one.station).collect();
    Ok(Nearby { near: nearest::nearest(places, garden), unplaced })
}

fn known(station: &shipped::Station) -> NearStation {
    NearStation {
        station: Station {
            identifier: station.identifier.to_owned(),
            name: Some(station.name.to_owned()),
            place: Place {
                latitude: Latitude::new(station.latitude),
                longitude: Longitude::new(station.longitude),
                elevation: Elevation::new(station.elevation_m),
            },
        },
        had: Had::Climate,
    }
}
