//! Why the seed room could not do what was asked, and what to do about it.

use seedroom::increase::filling::FillingFault;
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
    /// A packet that may not be labelled so.
    #[error("lot {lot} may not be labelled so: {}", .findings.join("; "))]
    Label {
        /// The lot's number.
        lot: String,
        /// What stands in the way, each with its rule.
        findings: Vec<String>,
        /// What to do.
        remedy: &'static str,
    },
    /// A lot that cannot be filled into packets so.
    #[error("lot {lot}: {fault}")]
    CannotFill {
        /// The lot's number.
        lot: String,
        /// Why.
        fault: FillingFault,
    },
    /// Fewer packets of a variety or lot than are wanted.
    #[error("{found} packets of {of} can be had, where {wanted} are wanted{}", those_passed_over(.passed_over))]
    TooFewPackets {
        /// The variety, or the lot.
        of: String,
        /// Packets wanted.
        wanted: u32,
        /// Packets that can be had.
        found: u32,
        /// Lots that were passed over, each with the reason.
        passed_over: Vec<String>,
    },
    /// Packets of several sizes are there, and nobody told which are wanted.
    #[error("packets of {of} are there in several sizes: {}", .sizes.join(", "))]
    SeveralSizes {
        /// The variety, or the lot.
        of: String,
        /// The seed of each.
        sizes: Vec<String>,
    },
    /// No packet lies on the shelf.
    #[error("no packet of {0} lies on the shelf")]
    NoneFilled(String),
    /// Packets are to be filled, and nobody told how full.
    #[error("nobody told how much seed goes into a packet")]
    NoSize,
    /// No lot of which a card could be printed.
    #[error("no lot holds seed")]
    NoLots,
    /// Nothing was named to label.
    #[error("no packets are named")]
    NoPackets,
    /// A packet guide that cannot be read.
    #[error(transparent)]
    Guide(#[from] PacketGuideFault),
}

fn those_passed_over(lots: &[String]) -> String {
    if lots.is_empty() {
        return String::new();
    }
    format!("; passed over: {}", lots.join(", "))
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
            Self::Label { remedy, .. } => remedy,
            Self::CannotFill { fault: FillingFault::NotWeighed, .. } => {
                "weigh replicates of it with locule lot weigh, or fill by weight: --of \"100 mg\""
            }
            Self::CannotFill { fault: FillingFault::NoFilling, .. } => {
                "write another number of seeds, or fill by weight"
            }
            Self::TooFewPackets { .. } => {
                "fill more out of the jar, test those passed over again, or take fewer packets"
            }
            Self::NoneFilled(_) => {
                "fill some out of the jar first: locule order --pack --of \"100 mg\", or locule lot pack"
            }
            Self::SeveralSizes { .. } | Self::NoSize => "write the seed in a packet, such as --of \"100 mg\"",
            Self::NoLots => "name a lot, or found one with locule lot new NUMBER VARIETY --season YEAR",
            Self::NoPackets => {
                "name lots or varieties with their packets, such as 31-014=40 or \"Drip Stone=25\""
            }
            Self::CannotMove { .. } => "see what is where, day by day, with locule lot show NUMBER",
            Self::Guide(fault) => &fault.help,
        }
    }
}
