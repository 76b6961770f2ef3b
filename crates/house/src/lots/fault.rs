//! Why the seed room could not do what was asked, and what to do about it.

use seedroom::label::guide::PacketGuideFault;
use seedroom::stock::StockFault;

/// Why the seed room could not do what was asked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SeedRoomFault {
    /// Something typed that is not what was asked for.
    #[error("{value:?}: {reason}")]
    NotRead {
        /// What was typed.
        value: String,
        /// What is wrong with it.
        reason: String,
        /// What to write.
        remedy: String,
    },
    /// A lot that the house does not have.
    #[error("there is no lot {number:?}")]
    NoSuchLot {
        /// The number asked for.
        number: String,
        /// The numbers that there are.
        known: Vec<String>,
    },
    /// A number that another lot has, in the house or in the same book.
    #[error("there is a lot {0:?} already")]
    NumberTaken(String),
    /// A plot that a grow-out does not have.
    #[error("{grow_out:?} has no plot {label:?}")]
    NoSuchPlotOf {
        /// The label asked for.
        label: String,
        /// The grow-out.
        grow_out: String,
    },
    /// Seed that cannot be moved so.
    #[error("lot {lot}: {fault}")]
    CannotMove {
        /// The lot's number.
        lot: String,
        /// Why.
        fault: StockFault,
    },
    /// A packet guide that cannot be read.
    #[error(transparent)]
    Guide(#[from] PacketGuideFault),
}

impl SeedRoomFault {
    /// Whether it names something that the house does not have.
    #[must_use]
    pub fn is_missing(&self) -> bool {
        matches!(self, Self::NoSuchLot { .. })
    }

    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &str {
        match self {
            Self::NotRead { remedy, .. } => remedy,
            Self::NoSuchLot { known, .. } if known.is_empty() => {
                "found one with locule lot new NUMBER VARIETY --season YEAR"
            }
            Self::NumberTaken(_) => {
                "give the new lot a number of its own, or take it out of the book; nothing of it was taken"
            }
            Self::NoSuchLot { .. } => "see the lots with locule lot",
            Self::NoSuchPlotOf { .. } => "write the grow-out and the label on the stake as they stand there",
            Self::CannotMove { .. } => "see what is where, day by day, with locule lot show NUMBER",
            Self::Guide(fault) => &fault.help,
        }
    }
}
