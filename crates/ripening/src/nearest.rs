//! Which station lies nearest to a garden, and how much warmer or colder the garden is by its height above it.
//!
//! Height is all that it allows for: not water, woods or the side of a hill, on which frosts hang more than on a
//! hundred metres. Start at [`nearest`].

use record::place::{Elevation, Latitude, Longitude, Place};

/// Mean radius of the earth, in kilometres. Source: H. Moritz, "Geodetic Reference System 1980", Journal of Geodesy 74
/// (2000): mean radius R1 = 6 371 008.7714 m.
const EARTH_RADIUS_KM: f64 = 6_371.008_771_4;

/// By how many degrees Celsius the air is colder for each kilometre up. Source: ICAO, Manual of the ICAO Standard
/// Atmosphere, Doc 7488: 6.5 K a kilometre up to 11 km.
const COLDER_A_KM: f64 = 6.5;

/// A station as it lies to a garden.
#[derive(Clone, Debug, PartialEq)]
pub struct Near<T> {
    /// The station.
    pub station: T,
    /// Kilometres to it, along the ground of a round earth.
    pub kilometres: f64,
    /// By how many degrees Celsius the garden is warmer by its height, negative where colder; `None` where either height
    /// is not known.
    pub warmer_by: Option<f64>,
}

/// Stations by how near they lie, the nearest first; those whose place is not known are left out.
///
/// # Shape
/// `stations`: each with its place. Returns at most as many; none where the garden's own place is not known.
#[must_use]
pub fn nearest<T>(stations: impl IntoIterator<Item = (T, Place)>, garden: Place) -> Vec<Near<T>> {
    let mut near: Vec<Near<T>> = stations
        .into_iter()
        .filter_map(|(station, place)| {
            let kilometres = kilometres(position(place)?, position(garden)?);
            let warmer_by = place.elevation.zip(garden.elevation);
            let warmer_by = warmer_by.map(|(from, to)| warmer_by_height(from, to));
            Some(Near { station, kilometres, warmer_by })
        })
        .collect();
    near.sort_by(|one, other| one.kilometres.total_cmp(&other.kilometres));
    near
}

fn position(place: Place) -> Option<(Latitude, Longitude)> {
    place.latitude.zip(place.longitude)
}

/// Kilometres along the great circle from one position to another.
///
/// # Source
/// The haversine of the angle between them, hav(d) = hav(lat2 - lat1) + cos lat1 cos lat2 hav(lon2 - lon1), which keeps
/// its digits for short distances: R. W. Sinnott, "Virtues of the Haversine", Sky and Telescope 68 (1984), 158. From
/// memory, unverified.
#[must_use]
pub fn kilometres(from: (Latitude, Longitude), to: (Latitude, Longitude)) -> f64 {
    let [from_north, to_north] = [from.0, to.0].map(|latitude| latitude.get().to_radians());
    let [from_east, to_east] = [from.1, to.1].map(|longitude| longitude.get().to_radians());
    let haversine = |angle: f64| (angle / 2.0).sin().powi(2);
    let north = haversine(to_north - from_north);
    let east = haversine(to_east - from_east);
    // Rounding may carry opposite points a hair beyond one.
    let between = (north + from_north.cos() * to_north.cos() * east).min(1.0);
    2.0 * EARTH_RADIUS_KM * between.sqrt().asin()
}

/// By how many degrees Celsius it is warmer at one height than at another, by height alone.
#[must_use]
pub fn warmer_by_height(station: Elevation, garden: Elevation) -> f64 {
    (station.get() - garden.get()) / 1000.0 * COLDER_A_KM
}
