//! Climates of a few stations, so that a house without weather of its own has something to draw years from.
//!
//! # Source
//! Means and deviations: worked out from days of the Global Historical Climatology Network (works of the United States
//! government, public domain), 1986 to 2015, in degrees Celsius; Lebanon's from its daily normals (NOAA, U.S. Climate Normals
//! 1991-2020); Seattle's from four years, 2012 to 2015, for no longer record was at hand. Places: Lebanon's as published, Grand
//! Forks' height as published, the others from memory, unverified, to a tenth of a degree.

pub mod frosts;

use super::{Climate, Daily, MONTHS, Month};
use frosts::Frosts;

/// A station's climate, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Its identifier in the network.
    pub identifier: &'static str,
    /// The place.
    pub name: &'static str,
    /// Degrees north.
    pub latitude: f64,
    /// Degrees east.
    pub longitude: f64,
    /// Metres above the sea.
    pub elevation_m: f64,
    /// First and last of the years that its climate is of.
    pub years: (i16, i16),
    /// Standard deviation of a season's anomaly, in degrees Celsius: see [`Climate::season`].
    season: f64,
    /// January to December: mean and deviation of the highest temperatures, then of the lowest.
    months: [[f64; 4]; MONTHS],
}

impl Station {
    /// Its climate.
    #[must_use]
    pub fn climate(&self) -> Climate {
        let month = |[highest, high_deviation, lowest, low_deviation]: [f64; 4]| Month {
            highest: Daily { mean: highest, deviation: high_deviation },
            lowest: Daily { mean: lowest, deviation: low_deviation },
        };
        Climate { months: self.months.map(month), season: self.season }
    }

    /// What is shipped of its frosts.
    #[must_use]
    pub fn frosts(&self) -> Option<Frosts> {
        frosts::of(self.identifier)
    }
}

/// The stations.
#[must_use]
pub fn stations() -> &'static [Station] {
    &STATIONS
}

/// Where the days themselves were not at hand: the middle of the five stations where they were.
pub(super) const SEASON_NOT_KNOWN: f64 = 0.297;

#[expect(clippy::approx_constant, reason = "degrees Celsius that happen to look like circles")]
const STATIONS: [Station; 10] = [
    Station {
        identifier: "USC00317202",
        name: "Reidsville NC",
        latitude: 36.4,
        longitude: -79.7,
        elevation_m: 271.0,
        years: (1986, 2015),
        season: 0.297,
        months: [
            [9.16, 6.2, -1.85, 5.57],
            [10.73, 6.2, -0.85, 4.82],
            [15.35, 6.54, 3.0, 5.21],
            [20.8, 5.73, 7.95, 4.74],
            [24.81, 4.6, 12.65, 4.29],
            [29.2, 3.75, 17.68, 3.05],
            [31.09, 3.14, 19.76, 2.24],
            [30.07, 3.39, 18.86, 2.46],
            [26.55, 4.09, 15.09, 3.69],
            [21.15, 4.8, 8.34, 4.8],
            [15.66, 5.49, 3.64, 5.1],
            [10.63, 5.89, -0.06, 5.03],
        ],
    },
    Station {
        identifier: "USC00323621",
        name: "Grand Forks ND",
        latitude: 47.9,
        longitude: -97.1,
        elevation_m: 253.0,
        years: (1986, 2015),
        season: 0.788,
        months: [
            [-8.52, 7.88, -18.08, 8.14],
            [-5.62, 7.69, -15.6, 8.35],
            [1.45, 7.36, -8.17, 7.69],
            [12.09, 7.45, -0.29, 5.08],
            [19.84, 6.6, 6.65, 5.11],
            [24.93, 4.72, 12.71, 3.89],
            [27.27, 3.88, 14.97, 3.35],
            [26.69, 4.04, 13.62, 3.72],
            [21.26, 5.6, 8.54, 4.62],
            [12.57, 6.57, 1.43, 4.65],
            [2.02, 6.79, -6.92, 6.19],
            [-5.94, 7.5, -14.42, 7.7],
        ],
    },
    Station {
        identifier: "USW00093209",
        name: "Paso Robles CA",
        latitude: 35.7,
        longitude: -120.6,
        elevation_m: 247.0,
        years: (1986, 2015),
        season: 0.132,
        months: [
            [16.28, 3.84, 1.6, 4.1],
            [17.3, 4.17, 3.31, 3.9],
            [20.26, 4.76, 4.5, 3.15],
            [23.45, 5.51, 5.27, 2.97],
            [27.56, 5.6, 7.83, 2.79],
            [31.39, 5.44, 10.25, 2.4],
            [34.03, 4.84, 12.39, 2.56],
            [34.32, 4.81, 12.01, 2.31],
            [32.23, 5.15, 10.29, 2.7],
            [27.09, 5.45, 7.14, 3.29],
            [20.36, 4.43, 3.14, 3.82],
            [15.79, 3.74, 0.79, 4.45],
        ],
    },
    Station {
        identifier: "USW00023257",
        name: "Merced CA",
        latitude: 37.3,
        longitude: -120.5,
        elevation_m: 47.0,
        years: (1986, 2015),
        season: SEASON_NOT_KNOWN,
        months: [
            [13.01, 3.58, 2.82, 3.71],
            [16.61, 3.29, 4.27, 3.48],
            [20.18, 4.12, 6.06, 3.06],
            [23.72, 4.92, 7.65, 3.04],
            [28.34, 4.76, 10.99, 3.14],
            [32.61, 4.2, 14.1, 2.91],
            [35.66, 3.14, 16.62, 2.83],
            [35.01, 3.17, 15.69, 2.4],
            [32.38, 4.13, 13.48, 2.75],
            [26.77, 4.63, 9.61, 3.0],
            [18.67, 3.93, 4.97, 3.42],
            [12.98, 3.38, 2.39, 4.15],
        ],
    },
    Station {
        identifier: "USC00179151",
        name: "Waterville ME",
        latitude: 44.5,
        longitude: -69.7,
        elevation_m: 27.0,
        years: (1986, 2015),
        season: 0.0,
        months: [
            [-1.22, 6.06, -13.08, 7.24],
            [0.33, 5.4, -12.56, 6.92],
            [5.35, 5.81, -6.65, 6.24],
            [12.66, 5.47, -0.08, 3.9],
            [19.36, 5.49, 5.97, 3.89],
            [24.05, 4.86, 11.44, 3.69],
            [26.9, 3.62, 14.71, 3.14],
            [26.53, 3.53, 13.81, 3.46],
            [22.01, 4.28, 9.23, 4.37],
            [15.15, 4.74, 3.14, 4.59],
            [8.24, 5.14, -2.02, 4.81],
            [1.65, 5.29, -8.49, 6.29],
        ],
    },
    Station {
        identifier: "USC00275868",
        name: "Newport NH",
        latitude: 43.4,
        longitude: -72.2,
        elevation_m: 240.0,
        years: (1986, 2015),
        season: SEASON_NOT_KNOWN,
        months: [
            [-1.26, 6.2, -14.03, 7.87],
            [0.34, 5.59, -13.71, 7.25],
            [5.19, 6.21, -8.39, 6.61],
            [12.72, 6.41, -1.73, 4.13],
            [19.6, 5.69, 4.56, 4.64],
            [24.38, 4.88, 10.22, 4.24],
            [27.04, 3.62, 12.64, 3.7],
            [26.32, 3.69, 11.48, 3.78],
            [22.03, 4.64, 7.22, 4.94],
            [14.8, 5.25, 0.93, 4.96],
            [8.12, 5.52, -3.66, 5.09],
            [2.1, 5.25, -9.03, 6.37],
        ],
    },
    Station {
        identifier: "USW00014839",
        name: "Milwaukee WI",
        latitude: 43.0,
        longitude: -87.9,
        elevation_m: 205.0,
        years: (1986, 2015),
        season: 0.686,
        months: [
            [-1.07, 5.97, -8.6, 6.67],
            [0.31, 5.67, -7.3, 6.14],
            [6.28, 6.86, -2.22, 5.27],
            [12.41, 6.42, 3.08, 3.86],
            [18.69, 6.26, 8.42, 4.17],
            [24.46, 5.49, 14.22, 4.14],
            [27.07, 4.27, 17.77, 3.19],
            [26.15, 3.93, 17.4, 3.11],
            [22.27, 4.73, 12.91, 4.2],
            [15.55, 5.55, 6.4, 4.37],
            [8.15, 5.71, 0.17, 5.04],
            [1.39, 5.65, -5.62, 6.21],
        ],
    },
    Station {
        identifier: "USW00023161",
        name: "Daggett CA",
        latitude: 34.9,
        longitude: -116.8,
        elevation_m: 584.0,
        years: (1986, 2015),
        season: SEASON_NOT_KNOWN,
        months: [
            [16.42, 3.98, 2.33, 3.48],
            [18.74, 4.64, 4.59, 3.58],
            [22.89, 4.97, 7.7, 3.59],
            [26.7, 5.28, 10.76, 3.76],
            [31.84, 5.14, 15.39, 3.8],
            [37.41, 4.39, 19.79, 3.5],
            [40.46, 3.05, 23.2, 2.83],
            [39.87, 2.68, 22.64, 2.75],
            [35.66, 3.96, 18.8, 3.45],
            [28.71, 5.0, 12.67, 3.78],
            [20.93, 4.57, 5.8, 3.87],
            [15.43, 3.92, 1.56, 3.64],
        ],
    },
    Station {
        identifier: "USW00094765",
        name: "Lebanon NH",
        latitude: 43.6,
        longitude: -72.3,
        elevation_m: 182.0,
        years: (1991, 2020),
        season: SEASON_NOT_KNOWN,
        months: [
            [-0.94, 5.76, -12.61, 7.72],
            [1.13, 5.4, -11.59, 7.51],
            [6.11, 5.72, -6.28, 6.05],
            [13.66, 5.95, -0.06, 4.35],
            [20.95, 5.54, 6.5, 4.24],
            [25.5, 4.53, 11.33, 3.71],
            [28.16, 3.52, 14.33, 3.41],
            [27.28, 3.44, 13.44, 3.54],
            [22.72, 4.12, 9.22, 4.43],
            [15.45, 4.7, 2.99, 4.72],
            [8.22, 5.18, -2.39, 4.84],
            [1.94, 5.26, -7.72, 6.5],
        ],
    },
    Station {
        identifier: "USW00024233",
        name: "Seattle WA",
        latitude: 47.4,
        longitude: -122.3,
        elevation_m: 112.0,
        years: (2012, 2015),
        season: SEASON_NOT_KNOWN,
        months: [
            [8.23, 3.34, 2.7, 3.43],
            [9.86, 3.3, 4.05, 2.93],
            [12.39, 3.25, 4.86, 3.05],
            [15.02, 3.57, 6.36, 1.96],
            [19.3, 4.33, 9.61, 2.14],
            [22.4, 4.36, 12.24, 2.31],
            [26.0, 4.17, 14.2, 1.75],
            [26.11, 3.72, 14.77, 1.57],
            [21.92, 4.01, 12.36, 2.24],
            [16.39, 3.48, 9.35, 2.35],
            [11.02, 2.86, 4.7, 4.01],
            [8.19, 3.33, 3.33, 3.59],
        ],
    },
];
