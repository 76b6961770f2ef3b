//! Why nothing could be planned for the next season.

use crate::fault::HouseFault;
use crate::sales::SalesTrouble;
use record::season::Season;
use sowing::choice::ChoiceFault;

/// Why nothing could be planned.
#[derive(Debug, thiserror::Error)]
pub enum NextFault {
    /// Sales that say nothing.
    #[error(transparent)]
    Sales(#[from] SalesTrouble),
    /// Nothing could be chosen for the next grow-out.
    #[error(transparent)]
    Choice(#[from] ChoiceFault),
    /// A season whose seed would be ready before today.
    #[error("the seed of season {0} would be wanted before today")]
    SeasonPast(Season),
    /// No number of plants gives so many packets.
    #[error("no number of plants of {0} is sure to give so many packets")]
    NoIncrease(String),
}

impl From<SalesTrouble> for HouseFault {
    fn from(fault: SalesTrouble) -> Self {
        Self::Next(fault.into())
    }
}

impl From<ChoiceFault> for HouseFault {
    fn from(fault: ChoiceFault) -> Self {
        Self::Next(fault.into())
    }
}

impl NextFault {
    /// What to do about it; nothing of our own bugs.
    #[must_use]
    pub fn help(&self) -> Option<String> {
        let help = match self {
            Self::Sales(fault) => fault.help(),
            Self::Choice(ChoiceFault::Solver(_)) => return None,
            Self::Choice(ChoiceFault::NoRoom) => {
                "ask for fewer varieties that must stand, or give it more ground, plants or places apart"
            }
            Self::SeasonPast(_) => "name a season to come",
            Self::NoIncrease(_) => {
                "ask for at least one packet, and to be less than certain, such as --sure 90"
            }
        };
        Some(help.to_owned())
    }
}
