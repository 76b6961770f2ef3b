//! Why a place has no weather to go by, and what to do about it.

/// Why a place has no forecast.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceFault {
    /// Neither a file nor a station.
    #[error("{name:?} is neither a file nor a station that is known")]
    NotKnown {
        /// What was written.
        name: String,
        /// Stations that are known.
        known: String,
    },
    /// No such garden.
    #[error("there is no garden {name:?}")]
    NoGarden {
        /// What was written.
        name: String,
        /// Gardens of the house.
        known: String,
    },
    /// A garden whose weather nobody has told.
    #[error("nobody has told whose weather garden {0:?} has")]
    NoWeather(String),
    /// Plots whose seasons nobody measured, so that no forecast can be held to them.
    #[error("nobody measured the weather of any season in which the house's plots stood")]
    NoSeasonMeasured,
    /// Nothing to plant after.
    #[error("{0}: neither frost nor nights nor soil tell when to plant out")]
    NoFrost(String),
    /// Frost follows on frost.
    #[error(
        "{0}: in half of the years no day of summer is between two frosts, so that nothing outdoors ripens"
    )]
    NoSummer(String),
    /// Weather in which the house's plots could not have brought what was picked.
    #[error("in the weather of {0} no plot of the house could have ripened what was picked from it")]
    PlotsNotThere(String),
    /// No year to put plants through.
    #[error("{name}: of {left_out} years none is known from planting to frost")]
    NoYear {
        /// The place.
        name: String,
        /// Years that broke off.
        left_out: usize,
    },
}

impl PlaceFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::NotKnown { known, .. } => format!("bring a station's file, or write one of: {known}"),
            Self::NoGarden { known, .. } if known.is_empty() => {
                "bring in grow-outs with their gardens".to_owned()
            }
            Self::NoGarden { known, .. } => format!("write one of: {known}"),
            Self::NoWeather(_) => "say where it lies or whose weather it has: locule garden NAME --latitude .. --longitude .., or --weather STATION".to_owned(),
            Self::NoSeasonMeasured => "take a station's days of those years with locule take FILE, and tell locule garden NAME --weather STATION".to_owned(),
            Self::NoFrost(_) => "say the day: --transplant 04-15".to_owned(),
            Self::NoSummer(_) => "tomatoes need a house of glass there; ask for another garden, or bring another station's days".to_owned(),
            Self::PlotsNotThere(_) => "say with --home in whose weather the house's plots stood".to_owned(),
            Self::NoYear { .. } => "bring a longer record, or another station's".to_owned(),
        }
    }
}
