//! A place's weather as it is told of: whose it is, whether it was measured, and where its frosts come from.

use jiff::civil::Date;

/// A garden's weather as it is told of.
#[derive(Clone, Debug, PartialEq)]
pub struct Climates {
    /// Its name: the station's, or the file's.
    pub name: String,
    /// Whether it was measured.
    pub source: Source,
    /// Where its frosts come from.
    pub frosts: FrostsOf,
    /// How it lies to the garden, where both places are known.
    pub lies: Option<Lies>,
}

/// How a station lies to a garden.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lies {
    /// Kilometres between them.
    pub kilometres: f64,
    /// By how many degrees Celsius its days were made warmer for the garden's height, negative where colder; `None` where a
    /// height is not known, and then they are taken as they are.
    pub warmer_by: Option<f64>,
}

/// Where days come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Measured, from one day to another.
    Measured {
        /// The first day.
        from: Date,
        /// The last.
        to: Date,
        /// Temperatures that were missing for a few days and are filled along a line.
        filled: usize,
    },
    /// Drawn from a climate.
    Drawn {
        /// How many years.
        years: i16,
        /// What they are drawn from.
        from: ClimateOf,
    },
}

/// What a climate was worked out of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClimateOf {
    /// A station's days or normals of these years, worked out beforehand.
    Years(i16, i16),
    /// Published means of months.
    MonthlyNormals,
    /// Published means of days.
    DailyNormals,
}

/// Where a place's frosts come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FrostsOf {
    /// The days themselves, measured or drawn.
    Days,
    /// The station's days of these years, worked out beforehand.
    Years(i16, i16),
    /// Published freeze dates.
    Published,
}

impl ClimateOf {
    /// In words.
    #[must_use]
    pub fn named(self) -> String {
        match self {
            Self::Years(from, to) => format!("its climate of {from} to {to}"),
            Self::MonthlyNormals => "its monthly normals".to_owned(),
            Self::DailyNormals => "its daily normals".to_owned(),
        }
    }
}

impl FrostsOf {
    /// A sentence about frosts that do not come from the days that are told of; `None` where they do.
    #[must_use]
    pub fn told(self) -> Option<String> {
        match self {
            Self::Days => None,
            Self::Years(from, to) => Some(format!(
                "Its frosts are measured ones, worked out of its days of {from} to {to} (NOAA, Global Historical Climatology Network)."
            )),
            Self::Published => {
                Some("Its frosts are the freeze dates that its climate normals publish (NOAA).".to_owned())
            }
        }
    }
}
