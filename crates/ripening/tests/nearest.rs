//! Nearest stations, against published distances and the standard atmosphere.

#![expect(clippy::unwrap_used, reason = "a test breaks off where it cannot go on")]

use proptest::prelude::*;
use record::place::{Elevation, Latitude, Longitude, Place};
use ripening::nearest::{kilometres, nearest, warmer_by_height};

fn at(north: f64, east: f64) -> (Latitude, Longitude) {
    (Latitude::new(north).unwrap(), Longitude::new(east).unwrap())
}

#[track_caller]
fn agrees(found: f64, published: f64, half_a_digit: f64) {
    assert!((found - published).abs() <= half_a_digit, "{found} is not {published}");
}

/// A quarter of a great circle on a sphere of the mean radius 6371.0088 km, by hand.
#[test]
fn a_quarter_of_the_globe_is_a_quarter_of_its_round() {
    let quarter = std::f64::consts::FRAC_PI_2 * 6371.0088;
    agrees(kilometres(at(0.0, 0.0), at(90.0, 0.0)), quarter, 0.0001);
    agrees(kilometres(at(0.0, -45.0), at(0.0, 45.0)), quarter, 0.0001);
    agrees(kilometres(at(0.0, 180.0), at(0.0, -180.0)), 0.0, 0.0001);
    agrees(kilometres(at(12.0, 30.0), at(-12.0, -150.0)), 2.0 * quarter, 0.001);
}

/// E. Williams, "Aviation Formulary", worked example: Los Angeles (33 57 N, 118 24 W) to New York (40 38 N, 73 47 W) is
/// 0.623585 radians. From memory, unverified.
#[test]
fn a_published_distance_comes_out() {
    let (from, to) =
        (at(33.0 + 57.0 / 60.0, -118.0 - 24.0 / 60.0), at(40.0 + 38.0 / 60.0, -73.0 - 47.0 / 60.0));
    agrees(kilometres(from, to) / 6371.0088, 0.623_585, 0.000_000_5);
}

/// ICAO standard atmosphere, Doc 7488, table: 15.00 C at the sea, 8.50 C at 1000 m, 2.00 C at 2000 m.
#[test]
fn air_is_colder_higher_up() {
    let up = |metres: f64| Elevation::new(metres).unwrap();
    agrees(15.0 + warmer_by_height(up(0.0), up(1000.0)), 8.5, 0.005);
    agrees(15.0 + warmer_by_height(up(0.0), up(2000.0)), 2.0, 0.005);
    agrees(warmer_by_height(up(2000.0), up(1000.0)), 6.5, 0.005);
}

fn place() -> impl Strategy<Value = Place> {
    let degrees = (-90.0..=90.0, -180.0..=180.0, prop::option::of(0.0..3000.0));
    degrees.prop_map(|(north, east, up)| Place {
        latitude: Latitude::new(north),
        longitude: Longitude::new(east),
        elevation: up.and_then(Elevation::new),
    })
}

proptest! {
    /// The way there is the way back, never longer than half round the globe, and none is lost or out of order.
    #[test]
    fn stations_come_by_distance(stations in prop::collection::vec(place(), 0..8), garden in place()) {
        let near = nearest(stations.iter().copied().enumerate(), garden);
        prop_assert_eq!(near.len(), stations.len());
        prop_assert!(near.windows(2).all(|pair| pair[0].kilometres <= pair[1].kilometres));
        for one in &near {
            let back = nearest([((), garden)], stations[one.station]);
            prop_assert!((back[0].kilometres - one.kilometres).abs() < 1e-6);
            prop_assert!(one.kilometres <= std::f64::consts::PI * 6371.01);
            prop_assert_eq!(back[0].warmer_by.map(|degrees| -degrees), one.warmer_by);
        }
        prop_assert!(nearest([((), Place::default())], garden).is_empty());
    }
}
